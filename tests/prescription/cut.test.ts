import { expect, test } from 'vitest'
import { cutPrescription, printCut } from '../../src/prescription/cut.ts'
import { cutToTime } from '../../src/prescription/cutToTime.ts'
import type { Prescription } from '../../src/prescription/model.ts'
import { printPrescription } from '../../src/prescription/print.ts'
import { readPrescription } from '../../src/prescription/read.ts'
import fc from '../fastCheck.ts'
import { day } from './arbitraryDay.ts'

const example = `Thursday: five hundreds, then front squat
units: km kg
goal: 10 km in 39:30

prep
  foam roll 3:00

run: track
  2 km easy
  5 km @ 4:05-4:10/km, split 1 km, negative
  jog 600 m
  6 x 500 m @ 3:35-3:45/km, jog 200 m
  3 km in 12:00
  20 min easy
  200-400-800-400-200 m hard

lift: legs
  front squat 5 x (1+1+1) @ 92.5 kg, pause 20 s, rest 2:30, build from 40 kg
  pull-up 4 x 6 @ bodyweight + dip 4 x 8 @ bodyweight+10 kg, pause 20 s, rest 1:30
  press 10/8/6 @ 30/35/40 kg
`

function read(text: string): Prescription {
  const reading = readPrescription(text)
  if ('problems' in reading)
    throw new Error(`${reading.problems[0]?.line}: ${reading.problems[0]?.message}\n${text}`)
  return reading.prescription
}

test('half of a day keeps paces, loads and rests, and says on each line what it was', () => {
  expect(
    printCut(cutPrescription(read(example), { fraction: 0.5 })),
  ).toBe(`Thursday: five hundreds, then front squat
units: km kg
goal: 10 km in 39:30

prep
  foam roll 3:00

run: track
  1 km easy  # was 2 km
  2.5 km @ 4:05-4:10/km, split 1 km, negative  # was 5 km
  jog 600 m
  3 x 500 m @ 3:35-3:45/km, jog 200 m  # was 6 x
  1.5 km in 6:00  # was 3 km
  10:00 easy  # was 20:00
  200-400-800 m hard  # was 200-400-800-400-200 m

lift: legs
  front squat 3 x (1+1+1) @ 92.5 kg, pause 20 s, rest 2:30, build from 40 kg  # was 5 sets
  pull-up 2 x 6 @ bodyweight + dip 2 x 8 @ bodyweight+10 kg, pause 20 s, rest 1:30  # was 4 rounds
  press 10/8 @ 30/35 kg  # was 3 sets
`)
})

test('for a race the fraction is the square root of its distance over the goal distance', () => {
  // Half of the goal's distance: 0.7071 of the day, so 5 km become 3.5 and six repeats five.
  const cut = printCut(cutPrescription(read(example), { raceMeters: 5000 }))
  expect(cut).toContain('3.5 km @ 4:05-4:10/km, split 1 km, negative  # was 5 km')
  expect(cut).toContain('5 x 500 m @ 3:35-3:45/km, jog 200 m  # was 6 x')
  expect(() =>
    cutPrescription(read(example.replace('goal: 10 km in 39:30\n', '')), { raceMeters: 5000 }),
  ).toThrow('This day has no goal, so nothing says how long its race is. Cut it by a fraction.')
})

test('a split that would be as long as its piece goes', () => {
  expect(printCut(cutPrescription(read('Day\nrun\n2 km easy, split 1 km'), { fraction: 0.5 }))).toBe(
    'Day\nunits: km kg\n\nrun\n  1 km easy  # was 2 km; no splits\n',
  )
})

test('marathons and laps are cut in what can be written', () => {
  const text = 'Day\nunits: mi kg\nrun\nhalf marathon easy\n3 laps hard\n500 yd easy'
  expect(
    printCut(cutPrescription(read(text), { fraction: 0.5 }))
      .split('\n')
      .slice(4, 7),
  ).toEqual([
    '  6.5 mi easy  # was half marathon',
    '  1.5 laps hard  # was 3 laps',
    '  264 yd easy  # was 500 yd',
  ])
})

test('a cut day reads back as the day that was cut, whatever the day', () => {
  fc.assert(
    fc.property(day, fc.double({ min: 0.05, max: 1, noNaN: true }), (prescription, fraction) => {
      const cut = cutPrescription(prescription, { fraction })
      expect(printPrescription(read(printCut(cut)))).toBe(printPrescription(cut.prescription))
    }),
    { numRuns: 80 },
  )
})

/** A minute a set and a minute for each kilometre: enough to see what goes first. */
function roughMinutes(prescription: Prescription): number {
  let minutes = 0
  for (const part of prescription.parts) {
    if (part.kind === 'lift')
      for (const item of part.items)
        minutes += item.exercises.reduce((sum, each) => sum + each.sets.length, 0) / item.exercises.length
    if (part.kind === 'run') minutes += 4 * part.items.length
  }
  return minutes
}

const gym = `Day
run
  2 km easy
  5 km @ 4:00/km
lift
  squat 5 x 5 @ 100 kg, rest 3:00
  press 4 x 6 @ 40 kg, rest 1:30
  row 4 x 6 @ 50 kg, rest 2:00
`

test('a day that fits is left as it is', () => {
  const cut = cutToTime(read(gym), 60, roughMinutes)
  expect(cut.fits).toBe(true)
  expect(printCut(cut)).not.toContain('#')
})

test('accessories are paired first', () => {
  const cut = cutToTime(read(gym), 18, roughMinutes)
  expect(printCut(cut).split('\n').slice(8)).toEqual([
    '  squat 5 x 5 @ 100 kg, rest 3:00',
    '  press 4 x 6 @ 40 kg + row 4 x 6 @ 50 kg, rest 2:00  # paired with the next',
    '  # paired with the one before: row 4 x 6 @ 50 kg, rest 2:00',
    '',
  ])
})

test('then they lose sets from the end', () => {
  const cut = cutToTime(read(gym), 15, roughMinutes)
  expect(printCut(cut)).toContain(
    '  press 2 x 6 @ 40 kg + row 2 x 6 @ 50 kg, rest 2:00  # was 4 rounds; paired with the next',
  )
})

test('then they go, then easy running, then sets of the main lift; what has a target stays', () => {
  const cut = cutToTime(read(gym), 8, roughMinutes)
  expect(cut.fits).toBe(true)
  expect(printCut(cut)).toBe(`Day
units: km kg

run
  # left out: 2 km easy
  5 km @ 4:00/km

lift
  squat 4 x 5 @ 100 kg, rest 3:00  # was 5 sets
  # left out: press 4 x 6 @ 40 kg, rest 1:30
  # left out: row 4 x 6 @ 50 kg, rest 2:00
`)
})

test('a day that cannot be made to fit says so', () => {
  const cut = cutToTime(read(gym), 1, roughMinutes)
  expect(cut.fits).toBe(false)
  expect(printCut(cut)).toContain('squat 3 x 5')
  expect(() => cutToTime(read(gym), 0, roughMinutes)).toThrow('The minutes must be more than 0, but are 0.')
})

test('a day cut to any time reads back', () => {
  fc.assert(
    fc.property(day, fc.integer({ min: 1, max: 40 }), (prescription, minutes) => {
      const cut = cutToTime(prescription, minutes, roughMinutes)
      expect(printPrescription(read(printCut(cut)))).toBe(printPrescription(cut.prescription))
    }),
    { numRuns: 30 },
  )
})
