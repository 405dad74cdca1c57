import { describe, expect, test } from 'vitest'
import { harderThanMeant, meantOf, wasHard } from '../../src/summary/hard.ts'
import { walkThrough } from '../day.ts'

const goal = 'goal: 10 km in 40:00'

/** A day of one line, its result typed, the part closed with an effort. Goal pace is 4:00/km; 15 % slower 4:36/km. */
function done(line: string, entry: string, effort: number | null, title = 'Day') {
  const { state } = walkThrough(`${title}\n${goal}\n\nrun\n  ${line}\n`).entry(entry)
  const [part] = state.partStates
  return { ...state, partStates: [{ ...part, effort }] } as typeof state
}

describe('hard running by the results', () => {
  test.each([
    [
      'an easy 10 km at heart rate 178 of 190 counts as hard, whatever its effort',
      '10 km easy',
      '55:00 hr 178',
      3,
      190,
      true,
    ],
    ['heart rate 167 of 190 is below 88 %', '10 km easy', '40:00 hr 167', 9, 190, false],
    ['without a highest heart rate the effort decides', '10 km easy', '55:00 hr 178', 7, null, true],
    ['effort 6 is not hard, at any pace', '5 km tempo', '20:00', 6, null, false],
    [
      'an effort typed with the interval goes before the one of its part',
      '5 km tempo',
      '20:00 rpe 8',
      4,
      null,
      true,
    ],
    ['without either, pace within 15 % of the goal', '5 km easy', '23:00', null, null, true],
    ['and slower than that is not', '5 km tempo', '23:30', null, null, false],
  ])('%s', (_, line, entry, effort, hrMax, hard) => {
    expect(wasHard(done(line, entry, effort), 0, hrMax)).toBe(hard)
  })

  test('is told by the word only for an interval without a time', () => {
    const state = walkThrough('Day\n\nrun\n  20 min tempo\n').entry('5 km').state
    expect(wasHard(state, 0, null)).toBe(true)
  })

  test('leaves out the warm-up of a hard part if something in it is hard by pace', () => {
    const walked = walkThrough(`Day\n${goal}\n\nrun\n  2 km easy\n  5 km tempo\n`)
      .entry('12:00')
      .space()
      .entry('20:00')
    const state = {
      ...walked.state,
      partStates: [{ ...walked.state.partStates[0], effort: 8 }],
    } as typeof walked.state
    expect(wasHard(state, 0, null)).toBe(true)
  })
})

describe('a day meant to be easy', () => {
  test('that turned out hard says so, with the evidence', () => {
    const state = done('10 km easy', '55:00 hr 168', 8)
    expect(meantOf(state, 0)).toBe('easy')
    expect(harderThanMeant(state, 0, null)).toBe('hr 168 and effort 8 in fact')
    expect(harderThanMeant(done('10 km easy', '60:00 hr 140', 3), 0, null)).toBeNull()
  })

  test('is recognised by its title too, and a tempo run is not easy', () => {
    expect(meantOf(done('10 km', '60:00', null, 'Easy Sunday'), 0)).toBe('easy')
    expect(meantOf(done('5 km tempo', '20:00', null), 0)).toBeNull()
  })
})

describe('heavy sets by the results', () => {
  const lifted = (line: string, entry: string, headers = '') =>
    wasHard(walkThrough(`Day\n${headers}\nlift\n  ${line}\n`).entry(entry).state, 0, null)
  test.each([
    ['80 % of the maximum', 'bench press 1 x 8 @ 80 kg', '8', 'max: bench press 100 kg\n', true],
    ['79 % of it', 'bench press 1 x 8 @ 79 kg', '8', 'max: bench press 100 kg\n', false],
    ['6 repetitions to an effort of 8', 'split squat 1 x 6 @ 2x20 kg', '6 @8', '', true],
    ['6 repetitions to an effort of 7', 'split squat 1 x 6 @ 2x20 kg', '6 @7', '', false],
    ['8 repetitions to an effort of 8', 'lunge 1 x 8 @ 2x20 kg', '8 @8', '', false],
    ['a failed set', 'squat 1 x 12 @ 60 kg', '9!', '', true],
  ])('%s', (_, line, entry, headers, heavy) => expect(lifted(line, entry, headers)).toBe(heavy))
})
