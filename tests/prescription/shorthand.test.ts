import { describe, expect, test } from 'vitest'
import type { IntervalStep, RecoveryStep } from '../../src/prescription/step.ts'
import { stepsIn, walkThrough } from '../day.ts'

/* Coaches' shorthand beyond intervals and sets: each form, and what it means. */

const day = (part: string, line: string) => `Day\n\n${part}\n  ${line}\n`
const stepsOf = (line: string) => stepsIn(day('run', line)) as (IntervalStep | RecoveryStep)[]
const intervalsOf = (line: string) =>
  stepsOf(line).filter((step): step is IntervalStep => step.kind === 'interval')
const recoveriesOf = (line: string) =>
  stepsOf(line).filter((step): step is RecoveryStep => step.kind === 'recovery')
describe('a time for each repeat', () => {
  test('is the target of that repeat', () => {
    const targets = intervalsOf('3 x 400 m in 80/78-79/76 s, jog 200 m').map((step) => step.target?.seconds)
    // A single time is widened by one per cent either way; a span stays.
    expect(targets[0]).toEqual({ from: 79.2, to: 80.8 })
    expect(targets[1]).toEqual({ from: 78, to: 79 })
    expect(targets[2]?.from).toBeCloseTo(75.24, 9)
  })
  test('is given in order for every rung of a ladder', () => {
    const targets = intervalsOf('200-400 m in 33-34/70-72 s, jog 200 m').map((step) => step.target?.seconds)
    expect(targets).toEqual([
      { from: 33, to: 34 },
      { from: 70, to: 72 },
    ])
  })
  test('is, for an added repeat, the last one', () => {
    const walked = walkThrough(day('run', '2 x 400 m in 80/78 s, jog 200 m')).effort(80).typed('a')
    const added = walked.state.steps.filter((step): step is IntervalStep => step.kind === 'interval').at(-1)
    expect(added?.target?.seconds?.to).toBeCloseTo(78.78, 9)
  })
})

describe('a progression', () => {
  test('changes evenly from the first pace to the last, split by split', () => {
    const paces = intervalsOf('5 km @ 4:15 to 3:55/km, split 1 km').map(({ target }) => {
      const { from, to } = target?.secondsPerKm ?? { from: 0, to: 0 }
      return Math.round((from + to) / 2)
    })
    expect(paces).toEqual([255, 250, 245, 240, 235])
  })
})

describe('a ceiling of heart rate', () => {
  test('has no lower end', () => {
    expect(intervalsOf('10 km easy, hr under 140')[0]?.target?.heartRate).toEqual({ from: 0, to: 140 })
  })
  test('is shown as a ceiling', () => {
    const walked = walkThrough(day('run', '40 min @ hr < 140'))
    expect(walked.view.now.what).toContain('heart rate under 140')
  })
})

describe('a send-off', () => {
  const eights = () => walkThrough(day('run', '3 x 400 m in 78-82 s, every 3:00'))

  test('leaves the rest of its time between the repeats', () => {
    const steps = recoveriesOf('3 x 400 m in 78-82 s, every 3:00')
    expect(steps).toHaveLength(2)
    expect(steps[0]).toMatchObject({ move: 'rest', meters: null, expectedSeconds: 100 })
    expect(steps[1]?.sendOff).toEqual({ seconds: 180, from: '1.1.p2' })
  })
  test('keeps the metres of a recovery beside it', () => {
    expect(recoveriesOf('3 x 400 m, jog 200 m, every 3:00')[0]).toMatchObject({ move: 'jog', meters: 200 })
  })
  test('counts down to the next start, which the clock begins', () => {
    const walked = eights().effort(80)
    expect(walked.shows).toContain('1:40')
    walked.wait(99)
    expect(walked.phase).toMatchObject({ kind: 'recovery' })
    walked.wait(1)
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.p2', auto: true })
  })
  test('lets a late repeat be followed at once, and moves the later starts', () => {
    const walked = eights().effort(190)
    walked.wait(0.5)
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.p2' })
    walked.wait(80).space()
    expect(walked.shows).toMatch(/1:3[89]|1:40/)
  })
  test('excludes the time for which the clocks were stopped', () => {
    const walked = eights().space().wait(40).typed('h').wait(30).typed('h').wait(40).space()
    expect(walked.shows).toContain('1:40')
  })
})

describe('a recovery', () => {
  test('counts down if it is a distance in a time, and its metres count', () => {
    expect(recoveriesOf('2 x 400 m, jog 200 m in 1:30')[0]).toMatchObject({ meters: 200, seconds: 90 })
    const walked = walkThrough(day('run', '2 x 400 m, jog 200 m in 1:30')).effort(80)
    expect(walked.shows).toContain('1:30')
  })
  test('in the same time lasts as long as the repeat did', () => {
    const walked = walkThrough(day('run', '2 x 400 m in 78-82 s, jog same time')).effort(83)
    expect(walked.shows).toContain('1:23')
    walked.entry('1:21')
    expect(walked.shows).toContain('1:21')
  })
})
