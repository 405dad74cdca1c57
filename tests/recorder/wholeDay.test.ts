import { describe, expect, test } from 'vitest'
import { Session } from '../../src/session/model.ts'
import { replay } from '../../src/session/replay.ts'
import { comparable } from '../day.ts'
import { walkedThursday, walkedThursdayRecorder } from '../walkedDay.ts'

describe('the Thursday of the samples, recorded with keys', () => {
  const walked = walkedThursdayRecorder()
  const { state } = walked

  test('is finished, with every result', () => {
    expect(state.finished).toBe(true)
    const asked = state.steps.filter((step) => step.kind !== 'warm-up' && step.kind !== 'recovery')
    expect(asked.filter((step) => !state.recorded.has(step.id)).map((step) => step.id)).toEqual([])
    expect(state.skipped.size).toBe(0)
  })

  test('has the measured pauses and rests', () => {
    expect(walked.measured('3.1.s1')).toMatchObject({
      pauses: [20, 20],
      rest: 155,
      seconds: 52,
      paced: false,
    })
    expect(walked.measured('3.1.s5').rest).toBeNull()
    expect(walked.measured('3.2.s1').rest).toBe(20)
    expect(walked.measured('3.2.s2').rest).toBe(95)
    expect(walked.measured('2.4.j1').seconds).toBe(90)
  })

  test('closes each part with its effort and the minutes of its clock', () => {
    expect(state.partStates.map(({ effort, minutes }) => ({ effort, minutes }))).toEqual([
      { effort: null, minutes: 4 },
      // 11:30 + 1:05 + 20:35 + 4:00 + 10:53 + 7:30 + 1:00 + 11:20
      { effort: 8, minutes: 68 },
      // 5:40 of ramp, 17:15 of squats, 10:40 of rounds, 3:47 of planks
      { effort: 7, minutes: 37 },
      { effort: null, minutes: null },
    ])
    expect(state.partStates[1]?.conditions).toBe('flats, track, windy')
  })

  test('is stored as events that give the same state', () => {
    const session = walkedThursday()
    expect(Session.parse(session)).toEqual(session)
    const again = replay(session, walked.context.warmUpOf)
    expect(comparable(again)).toEqual(comparable(state))
    // The way in which warm-ups are made up changes no result.
    expect([...replay(session).recorded]).toEqual([...state.recorded])
  })

  test('has events that are each later than the one before', () => {
    const walls = walkedThursday().events.map((event) => Date.parse(event.at ?? ''))
    expect([...walls].sort((one, other) => one - other)).toEqual(walls)
  })
})
