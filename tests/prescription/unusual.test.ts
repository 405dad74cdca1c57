import { describe, expect, it } from 'vitest'
import { readPrescription } from '../../src/prescription/read.ts'
import { dayFiguresOf } from '../../src/summary/day.ts'
import { dayOf } from '../day.ts'

/* Unusual days. Sums are computed by hand; the messages are the program's own. */

function problemsOf(text: string | Uint8Array): [number, number, string][] {
  const reading = readPrescription(text)
  return 'problems' in reading
    ? reading.problems.map(({ line, column, message }) => [line, column, message])
    : []
}

const planned = (lines: string) => dayFiguresOf(dayOf(`A day\n${lines}`), () => [])

describe('an unusual expanded day', () => {
  it('counts no tonnage for unknown repetitions, or for held sets', () => {
    expect(planned('lift\n  press 3 x max @ 40 kg').plannedTonnageKg).toBe(0)
    expect(planned('lift\n  plank 3 x 45 s @ 20 kg').plannedTonnageKg).toBe(0)
    // The two repetitions that are written for each set: 3 x 2 x 40 kg.
    expect(planned('lift\n  squat 3 x (2+max) @ 40 kg, pause 20 s').plannedTonnageKg).toBe(240)
  })

  it('has no common time for the rungs of a ladder', () => {
    const [item] = planned('run\n  200-400 m @ 4:00/km, jog 200 m').parts[0]?.items ?? []
    // 200 m, 400 m and the jog between.
    expect(item).toEqual({ text: '200-400 m @ 4:00/km, jog 200 m', line: 3, entries: 2, meters: 800 })
  })

  it('has ladders of laps and of seconds', () => {
    // 4 laps of 400 m, and two jogs of one.
    expect(planned('run\n  1-2-1 laps @ 4:00/km, jog 1 lap').runMeters).toBe(2400)
    expect(planned('run\n  20-40-20 s fast, jog 1 min').entries).toBe(3)
  })
})

describe('an unusual refused day', () => {
  it('has more headers than any real day', () => {
    const text = `A day\n${'note: x\n'.repeat(1001)}run\n  2 km easy`
    expect(problemsOf(text)[0]).toEqual([1002, 1, 'a day has at most 1000 headers'])
  })

  it.each([
    ['a byte order mark that is none', [0xef, 0x41, 0x0a], [1, 1]],
    ['half a byte order mark', [0xef, 0xbb, 0x41], [1, 1]],
    [
      'a byte far out on a line',
      [...new TextEncoder().encode(`A day\nrun\n  ${'a'.repeat(5000)}`), 0xff],
      [3, 5003],
    ],
  ])('has %s', (_, bytes, place) => {
    expect(problemsOf(new Uint8Array(bytes))).toEqual([
      [...place, 'this is not UTF-8: save the file as UTF-8'],
    ])
  })

  it.each([
    [
      'prep: squats 3 x 10\n  leg swings 10',
      [2, 1, 'an item is written on a line of its own: write prep, and below it squats 3 x 10'],
    ],
    ['run\n  1 km in 0:30-4:00', [3, 11, '1 km in 30 s is faster than any human']],
    ['run\n  2 km @ goal', [3, 8, 'this day has no goal: write one above, such as goal: 10 km in 40:00']],
    [
      'lift\n  squat 3 x 8\n  rest 90',
      [4, 3, 'a rest is written after the sets that it belongs to, such as squat 3 x 8, rest 90 s'],
    ],
    [
      'lift\n  rest 90 sec',
      [3, 3, 'a rest is written after the sets that it belongs to, such as squat 3 x 8, rest 90 s'],
    ],
    ['lift\n  bench press 10/8/6 @ 60/65 kg', [3, 22, '2 loads for 3 sets: write one load, or one for each']],
  ])('names the line and what is wrong in %j', (lines, problem) => {
    expect(problemsOf(`A day\n${lines}`)).toEqual([problem])
  })
})
