import { describe, expect, test } from 'vitest'
import { walkThrough } from '../day.ts'

const straight =
  'Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n  back squat: 2 x 5 @ 90 kg, rest 2:30\n'
const both = 'Both\n\nrun\n  2 km easy\n\nlift\n  bench press: 2 x 5 @ 70 kg\n'

describe('what was not done is never recorded by one key', () => {
  test('Enter two seconds into a set of five asks', () => {
    const walked = walkThrough(straight).space().wait(2).enter()
    expect(walked.view.panel?.title).toBe('Record all 5 repetitions? Enter yes, Esc no')
    expect(walked.key('escape').state.recorded.size).toBe(0)
    expect(walked.wait(10).enter().state.recorded.size).toBe(1)
  })

  test('a load typed before the set begins is that of the coming set', () => {
    const walked = walkThrough(straight).entry('x 102.5')
    expect(walked.notice).toBe('next: 5 x 102.5')
    expect(walked.state.recorded.size).toBe(0)
    expect(walked.view.now.number).toBe('5 x 102.5')
    walked.effort(20).enter()
    expect(walked.recorded('1.1.s1')).toMatchObject({ reps: 5, load: { value: 102.5 } })
    expect(walked.effort(20).enter().recorded('1.1.s2')).toMatchObject({ load: { value: 102.5 } })
  })

  test('e answers a late time by correcting the repeat before', () => {
    const walked = walkThrough('Track\n\nrun\n  3 x 500 m in 1:50, jog 200 m\n')
    walked.effort(110).enter().wait(20).entry('1:48').typed('e').enter()
    expect(walked.recorded('1.1.p1')).toMatchObject({ seconds: 108 })
    expect(walked.state.recorded.size).toBe(1)
  })
})

describe('one more and closing belong to what was just done', () => {
  test('a after the last set of an item adds to it, twice two more', () => {
    const walked = walkThrough(straight)
    for (const _ of [1, 2, 3]) walked.effort(20).enter().wait(60)
    walked.typed('a')
    expect(walked.notice).toBe('one more: bench press')
    walked.typed('a')
    expect(
      walked.state.steps.filter((step) => step.kind === 'set' && step.name === 'bench press'),
    ).toHaveLength(5)
  })

  test('f closes the part of the last result while the next one is under way', () => {
    const walked = walkThrough(both).entry('11:00').space().wait(10).typed('f')
    expect(walked.model.mode).toMatchObject({ kind: 'closing', part: 0 })
    expect(walked.notice).toBe('lift goes on; this closes run')
  })

  test('more than five hours for a part are asked about', () => {
    const walked = walkThrough(both).entry('11:00').typed('f').entry('3').entry('860')
    expect(walked.notice).toMatch(/^860 minutes are more than 5 hours/)
    expect(walked.enter().state.partStates[0]).toMatchObject({ closed: true, minutes: 860 })
  })
})

test('a result that is corrected opens as it was typed and keeps what is not touched', () => {
  const walked = walkThrough(straight).entry('5 @8 "slow"').typed('e').enter()
  expect(walked.model.draft).toBe('5 x 70 @8 "slow"')
  walked.typed('4 x 70 @8 "slow"').enter()
  expect(walked.recorded('1.1.s1')).toMatchObject({ reps: 4, rpe: 8, note: 'slow' })
})

test('a warning sign is answered first and ends the advice of the day', () => {
  const walked = walkThrough(straight).entry('5 @10 pain "chest"')
  expect(walked.notice).toBe('Stop. Chest pain, faintness or unusual breathlessness need a doctor now.')
  walked.effort(20)
  expect(walked.notice).toBeNull()
  expect(walked.view.line).toBe('')
  const noted = walkThrough(straight).entry('5 @6').typed('n').entry('heart rate high, out of breath')
  expect(noted.notice).toBe('noted: heart rate high, out of breath')
})
