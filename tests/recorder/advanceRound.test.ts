import { describe, expect, test } from 'vitest'
import { type Walked, walkThrough } from '../day.ts'

const superset = `Supersets

lift
  pull-up 3 x 6 @ bodyweight + dip 2 x 8 @ bodyweight+10 kg, pause 0:20, rest 1:30
`
const circuit = `Circuit

lift
  3 rounds: 10 push-up @ bodyweight, 15 squat @ bodyweight, 45 s plank, pause 15 s, rest 2:00
`

const order = (walked: Walked) =>
  walked.state.steps.map((step) => (step.kind === 'set' ? `${step.name} ${step.number}` : step.kind))

describe('a superset', () => {
  test('goes round by round, and a round leaves out what is finished', () => {
    expect(order(walkThrough(superset))).toEqual(['pull-up 1', 'dip 1', 'pull-up 2', 'dip 2', 'pull-up 3'])
  })

  test('counts the pause down after one exercise, begins the next by the clock, and rests after the round', () => {
    const walked = walkThrough(superset)
    walked.effort(20)
    expect(walked.shows).toBe('pause 0:20')
    expect(walked.view.now.what).toBe('dip 8 at bodyweight+10 kg')
    walked.wait(20)
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.s2', auto: true })
    expect(walked.rung).toEqual(['short', 'short', 'short', 'long'])
    walked.wait(20).space()
    expect(walked.shows).toBe('rest 1:30')
    expect(walked.view.pending).toBe('2 results to enter')
    walked.wait(95)
    expect(walked.phase.kind).toBe('rest')
    walked.space()
    expect(walked.phase).toMatchObject({ step: '1.1.s3' })
    expect(walked.measured('1.1.s1').rest).toBe(20)
    expect(walked.measured('1.1.s2').rest).toBe(95)
  })

  test('begins the next exercise early with Space in the pause', () => {
    const walked = walkThrough(superset)
    walked.effort(20).wait(5).space()
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.s2', auto: false })
  })

  test('leads to the next item after a round with one exercise left', () => {
    const walked = walkThrough(superset)
    walked.entry('6').entry('8').entry('6').entry('8')
    walked.effort(20).enter()
    expect(walked.recorded('1.1.s5')).toMatchObject({ reps: 6 })
    expect(walked.phase.kind).toBe('ready')
  })

  test('begins the next exercise at once without a pause', () => {
    const walked = walkThrough(superset.replace(', pause 0:20', ''))
    walked.effort(20)
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.s2', auto: true })
  })

  test('keeps the clock for the rest of the round when an exercise is skipped in the pause', () => {
    const walked = walkThrough(superset)
    walked.effort(20).wait(5).typed('s').typed('s')
    expect(walked.shows).toBe('rest 1:25')
    expect(walked.phase).toMatchObject({ next: '1.1.s3' })
  })

  test('rests after an exercise that is skipped while under way', () => {
    const walked = walkThrough(superset)
    walked.effort(20).wait(20).wait(3).typed('s').typed('s')
    expect(walked.shows).toBe('rest 1:30')
  })

  test('can skip the first exercise of a round in the rest', () => {
    const walked = walkThrough(superset)
    walked.effort(20).wait(20).wait(20).space().wait(10).typed('s').typed('s')
    expect(walked.phase).toMatchObject({ kind: 'rest', next: '1.1.s4' })
    expect(walked.shows).toBe('rest 1:20')
    walked.space().wait(20).space()
    expect(walked.phase).toMatchObject({ kind: 'rest', next: '1.1.s5' })
    expect(walked.shows).toBe('rest 1:30')
  })

  test('asks for results in the order in which the sets were done', () => {
    const walked = walkThrough(superset)
    walked.effort(20).wait(20).wait(20).space()
    expect(walked.view.entry.label).toBe('pull-up, set 1 of 3')
    walked.entry('6')
    expect(walked.view.entry.label).toBe('dip, set 1 of 2')
    walked.entry('8 @8')
    expect(walked.recorded('1.1.s2')).toMatchObject({ reps: 8, load: { kind: 'bodyweight', added: 10 } })
  })

  test('has its pause between the groups if a line has cluster sets', () => {
    const walked = walkThrough(
      'One\n\nlift\n  front squat 2 x (2+2) @ 80 kg + calf raise 2 x 12 @ 40 kg, pause 15 s, rest 2:00',
    )
    walked.effort(8)
    expect(walked.shows).toBe('pause 0:15')
    walked.wait(15).wait(8).space()
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.s2' })
  })

  test('has a rest of its own for an exercise typed in the pause without its start', () => {
    const walked = walkThrough(superset)
    walked.effort(20).entry('6').wait(10).entry('8')
    expect(walked.recorded('1.1.s2')).toMatchObject({ reps: 8 })
    expect(walked.shows).toBe('rest 1:30')
    expect(walked.measured('1.1.s1').rest).toBeNull()
  })
})

describe('a circuit', () => {
  test('is recorded like a superset of as many exercises', () => {
    const walked = walkThrough(circuit)
    expect(order(walked).slice(0, 4)).toEqual(['push-up 1', 'squat 1', 'plank 1', 'push-up 2'])
    walked.effort(12).wait(15)
    expect(walked.phase).toMatchObject({ step: '1.1.s2' })
    walked.wait(16).space().wait(15)
    expect(walked.shows).toBe('hold 0:45')
    walked.wait(45).space()
    expect(walked.shows).toBe('rest 2:00')
  })

  test('counts from the first exercise of the round at a fixed interval', () => {
    const walked = walkThrough(
      'One\n\nlift\n  3 rounds: 10 push-up @ bodyweight, 10 squat @ bodyweight, every 2:00\n',
    )
    walked.effort(15)
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.s2' })
    walked.wait(15).space()
    expect(walked.shows).toBe('rest 1:30')
    walked.wait(90)
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.s3', auto: true })
  })

  test('counts from the exercise that was begun if the first was skipped', () => {
    const walked = walkThrough(
      'One\n\nlift\n  3 rounds: 10 push-up @ bodyweight, 10 squat @ bodyweight, every 2:00\n',
    )
    walked.typed('s').effort(30)
    expect(walked.shows).toBe('rest 1:30')
  })
})
