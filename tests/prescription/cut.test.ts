import { describe, expect, test } from 'vitest'
import { fractionForRace, loadFigures } from '../../src/figures/load.ts'
import { cutForRace, cutOf, printCut } from '../../src/prescription/cut.ts'
import { cutToMinutes, cutToTime, type Only, onlyChoices } from '../../src/prescription/cutToTime.ts'
import { expectedSecondsOf } from '../../src/prescription/expectedTime.ts'
import type { Prescription } from '../../src/prescription/model.ts'
import { printPrescription } from '../../src/prescription/print.ts'
import { dayOf as read, stepsIn } from '../day.ts'
import fc, { times } from '../fastCheck.ts'
import { day } from './arbitraryDay.ts'

const minutesOf = (prescription: Prescription) => expectedSecondsOf(stepsIn(prescription), prescription) / 60
const cutTo = (text: string, minutes: number, only: Only | null = null) =>
  cutToTime(read(text), minutes, minutesOf, only)
const linesOf = (text: string, minutes: number) =>
  printCut(cutTo(text, minutes))
    .split('\n')
    .filter((line) => line.startsWith('  '))
    .map((line) => line.trim())

const whole = `Day
run
  2 km easy
  5 km @ 4:00/km
  jog 600 m
  6 x 500 m @ 3:35-3:45/km, jog 200 m
  2 km easy
lift
  squat 5 x 5 @ 100 kg, rest 3:00
  row 4 x 6 @ 50 kg + dip 4 x 8 @ bodyweight, rest 2:00
  curl 3 x 10 @ 20 kg, rest 1:30
`
const wholeMinutes = minutesOf(read(whole))

/* The order is this program's own rule, and so are 10 min of warm-up, 5 min of cool-down, 2 sets and the halves. */

test('a day that fits stays as it is', () => {
  const cut = cutTo(whole, wholeMinutes + 0.1)
  expect(cut.minutes).toBe(wholeMinutes)
  expect(printCut(cut)).not.toContain('#')
})

test('rounds against the clock lose rounds, or minutes, and as accessories go last of all', () => {
  const day =
    'Day\n\nlift\n  press 3 x 5 @ 60 kg, rest 3:00\n  for time: 5 rounds of 20 step-up, 60 m carry\n'
  // A round is 20 x 4 s and 60 m x 0.6 s.
  const minutes = minutesOf(read(day))
  expect(linesOf(day, minutes - 116 / 60).at(-1)).toBe(
    'for time: 4 rounds of 20 step-up, 60 m carry  # was 5 rounds',
  )
  expect(linesOf(day, minutes - (4 * 116) / 60).at(-1)).toBe(
    'for time: 20 step-up, 60 m carry  # was 5 rounds',
  )
  expect(linesOf(day, minutes - 10).at(-1)).toBe('# left out: for time: 5 rounds of 20 step-up, 60 m carry')
  const only = 'Day\n\nlift\n  12 min of: 8 row, 6 step-up\n'
  expect(linesOf(only, 9).at(-1)).toBe('9 min of: 8 row, 6 step-up  # was 12:00')
})

test('the last accessory goes first, completely; a superset first loses its rounds', () => {
  expect(linesOf(whole, wholeMinutes - 1).slice(-3)).toEqual([
    'squat 5 x 5 @ 100 kg, rest 3:00',
    'row 4 x 6 @ 50 kg + dip 4 x 8 @ bodyweight, rest 2:00',
    '# left out: curl 3 x 10 @ 20 kg, rest 1:30',
  ])
  expect(linesOf(whole, wholeMinutes - 6)).toContain(
    'row 3 x 6 @ 50 kg + dip 3 x 8 @ bodyweight, rest 2:00  # was 4 rounds',
  )
})

test('then the cool-down goes down to 5 min, then repeats to half, then sets of the main lift to 2', () => {
  const goes = (minutes: number) => linesOf(whole, minutes)
  expect(goes(74)).toEqual([
    '2 km easy',
    '5 km @ 4:00/km',
    'jog 600 m',
    '6 x 500 m @ 3:35-3:45/km, jog 200 m',
    '1 km easy  # was 2 km',
    'squat 5 x 5 @ 100 kg, rest 3:00',
    '# left out: row 4 x 6 @ 50 kg + dip 4 x 8 @ bodyweight, rest 2:00',
    '# left out: curl 3 x 10 @ 20 kg, rest 1:30',
  ])
  expect(goes(64).slice(3, 6)).toEqual([
    '3 x 500 m @ 3:35-3:45/km, jog 200 m  # was 6 x',
    '0.9 km easy  # was 2 km',
    'squat 5 x 5 @ 100 kg, rest 3:00',
  ])
  expect(goes(54)[5]).toBe('squat 2 x 5 @ 100 kg, rest 3:00  # was 5 sets')
  expect(goes(54)[1]).toBe('5 km @ 4:00/km')
})

test('then the continuous run goes down to half, and last the warm-up to 10 min', () => {
  expect(linesOf(whole, 45).slice(0, 2)).toEqual(['2 km easy', '2.5 km @ 4:00/km  # was 5 km'])
  expect(linesOf(whole, 42).slice(0, 2)).toEqual(['1.7 km easy  # was 2 km', '2.5 km @ 4:00/km  # was 5 km'])
})

test('a warm-up shorter than 10 min stays as it is, and the rest starts with it', () => {
  const cut = cutTo('Day\nrun\n1 km easy\n5 km @ 4:00/km', 17)
  expect(printCut(cut).split('\n').slice(4, 6)).toEqual(['  1 km easy', '  2.5 km @ 4:00/km  # was 5 km'])
})

test('on a treadmill the slow start is the warm-up and the slow end the cool-down, but not a climb', () => {
  const belt =
    'Day\nrun: treadmill\n12 min @ 9 km/h\n5 x (3 min @ 13.5 km/h, jog 2 min)\n10 min @ 10 km/h, grade 5%\n8 min @ 8 km/h'
  expect(linesOf(belt, 50)).toEqual([
    '12:00 @ 9 km/h',
    '5 x (3:00 @ 13.5 km/h, jog 2:00)',
    '10:00 @ 10 km/h, grade 5%',
    '5:00 @ 8 km/h  # was 8:00',
  ])
  expect(linesOf(belt, 33)).toEqual([
    '10:00 @ 9 km/h  # was 12:00',
    '3 x (3:00 @ 13.5 km/h, jog 2:00)  # was 5 x',
    '5:00 @ 10 km/h, grade 5%  # was 10:00',
    '5:00 @ 8 km/h  # was 8:00',
  ])
})

test('the main lift of every lift part is protected', () => {
  const two =
    'Day\nlift: legs\nsquat 5 x 5 @ 100 kg\ncurl 3 x 10 @ 20 kg\nlift: push\nbench press 4 x 5 @ 70 kg\ndip 3 x 8 @ bw'
  const cut = cutTo(two, 1)
  expect(printCut(cut)).toContain('squat 2 x 5')
  expect(printCut(cut)).toContain('bench press 2 x 5')
  expect(printCut(cut)).toContain('# left out: curl')
})

test.each([
  ['bench press 6/6/4/4/2 @ 70/75/80/85/90%', 6, 'bench press 6/4/4/2 @ 75/80/85/90%  # was 5 sets'],
  ['bench press 6/6/4/4/2 @ 70/75/80/85/90%', 3, 'bench press 4/2 @ 85/90%  # was 5 sets'],
  ['press 10/8/6', 3, 'press 8/6  # was 3 sets'],
  ['squat 2/5/5 @ 140/120/120 kg', 3, 'squat 2/5 @ 140/120 kg  # was 3 sets'],
])('%s in %s min keeps its heaviest sets', (line, minutes, expected) => {
  expect(linesOf(`Day\nlift\n${line}`, minutes)).toEqual([expected])
})

test('back-off sets go before the heavy sets of another main lift', () => {
  const text = 'Day\nlift\nsquat 3/3/5/5 @ 140/140/120/120 kg\nlift: push\nbench press 4 x 5 @ 70 kg'
  const cut = printCut(cutTo(text, minutesOf(read(text)) - 3))
  expect(cut).toContain('squat 2 x 3 @ 140 kg  # was 4 sets')
  expect(cut).toContain('bench press 4 x 5 @ 70 kg')
})

test('a day called 60 min never takes 65: if the time is too short for both, only the run and only the lift are given', () => {
  const text = whole.replace('5 km', '14 km')
  const minutes = 57
  expect(cutTo(text, minutes).minutes).toBeGreaterThan(minutes)
  const choices = onlyChoices(read(text).parts, minutes, (only) => cutTo(text, minutes, only))
  expect(choices.map(({ only }) => only)).toEqual(['run', 'lift'])
  for (const { cut } of choices) expect(minutesOf(cut.prescription)).toBeLessThanOrEqual(minutes)
  expect(printCut(choices[0]?.cut as never)).toContain('# left out: squat')
  expect(printCut(choices[1]?.cut as never)).toContain('squat 5 x 5')
})

test('easy running alone keeps half', () => {
  expect(linesOf('Day\nrun\n60 min easy', 35)).toEqual(['35:00 easy  # was 1:00:00'])
  expect(cutTo('Day\nrun\n60 min easy', 20)).toMatchObject({ minutes: 30 })
})

test('a race keeps its distance, whether the day is cut to minutes or for another race; what surrounds it gets shorter', () => {
  const text = 'Day\ngoal: 10 km in 39:30\nrun\n2 km easy\n10 km race, split 1 km\n2 km easy'
  const race = '10 km race, split 1 km'
  expect(linesOf(text, 50)).toEqual(['2 km easy', race, '1.1 km easy  # was 2 km'])
  expect(cutTo(text, 40).minutes).toBeGreaterThan(40)
  const [, ofAll = ''] = printCut(cutForRace(read(text), 0.7, minutesOf)).split('run')
  expect(ofAll).toContain(race)
  expect(ofAll).toContain('1.4 km easy  # was 2 km')
})

test('rungs of a ladder and repeats in a group count as repeats', () => {
  expect(linesOf('Day\nrun\n200-400-800-400-200 m hard', 7)).toEqual([
    '200-400-800 m hard  # was 200-400-800-400-200 m',
  ])
  expect(linesOf('Day\nrun\n4 x (200 m fast, walk 200 m)', 5)).toEqual([
    '2 x (200 m fast, walk 200 m)  # was 4 x',
  ])
})

test('for a race the running is scaled by the square root of the ratio of distances, and the lifts stay', () => {
  const cut = (text: string, fraction: number) =>
    printCut(cutForRace(read(text), fraction, minutesOf))
      .split('\n')
      .filter((line) => line.startsWith('  '))
      .map((line) => line.trim())
  // Half of the goal's distance: 0.7071 of the day; the warm-up keeps its 10 min.
  expect(cut(whole, fractionForRace(5000, 10_000))).toEqual([
    '2 km easy',
    '3.5 km @ 4:00/km  # was 5 km',
    'jog 600 m',
    '5 x 500 m @ 3:35-3:45/km, jog 200 m  # was 6 x',
    '1.4 km easy  # was 2 km',
    'squat 5 x 5 @ 100 kg, rest 3:00',
    'row 4 x 6 @ 50 kg + dip 4 x 8 @ bodyweight, rest 2:00',
    'curl 3 x 10 @ 20 kg, rest 1:30',
  ])
})

test.each([
  ['half marathon easy', '11 km easy  # was half marathon', 67],
  ['3 laps hard', '1.5 laps hard  # was 3 laps', 3.7],
  ['2 km hard, split 1 km', '1 km hard, split 1 km  # was 2 km', 6],
  ['3 km in 12:00', '1.5 km in 6:00  # was 3 km', 6],
  // 120 s, 1:24 of jogging and 80 s.
  ['4 x 400 m in 120/80/60/50 s, jog 200 m', '2 x 400 m in 2:00/1:20, jog 200 m  # was 4 x', 4.8],
])('%s is cut to a line that can be written: %s', (line, expected, minutes) => {
  expect(linesOf(`Day\nrun\n${line}`, minutes)).toEqual([expected])
})

test('a change of a line as long as a line may be is printed above it', () => {
  for (const length of [400, 468, 469, 470, 471, 472, 473, 474]) {
    const prescription = read(`Day\n\nrun\n  6 x 500 m, jog 200 m, "${'a'.repeat(length)}"\n`)
    const [was] = prescription.parts[0]?.items ?? []
    if (was === undefined) throw new Error('no item')
    const cut = cutOf(prescription, [[{ was, is: was, changes: ['was 8 x'] }]])
    expect(printPrescription(read(printCut(cut)))).toBe(printPrescription(prescription))
  }
})

test('a day cut to any time reads back, and takes as long as is said', () => {
  fc.assert(
    fc.property(day, fc.double({ min: 0.05, max: 1, noNaN: true }), (prescription, share) => {
      const cut = cutToTime(prescription, Math.max(0.01, share * minutesOf(prescription)), minutesOf)
      expect(printPrescription(read(printCut(cut)))).toBe(printPrescription(cut.prescription))
      expect(cut.minutes).toBe(minutesOf(cut.prescription))
    }),
    times(20),
  )
})

// This program's own rule.
test.each([
  // The first set is gone, and the next one is lighter than the warm-up.
  ['squat 5/5 @ 60/30 kg + row 5/5/5 @ 50/60/70 kg', 'squat 1 x 5 @ 30 kg + row 2 x 5 @ 60/70 kg, rest 3:00'],
  // The next one is heavier.
  ['squat 6/4/2 @ 60/80/90 kg', 'squat 4/2 @ 80/90 kg, rest 3:00, build from 40 kg'],
])('warm-up sets stay as long as they lead up to the first set: %s', (line, expected) => {
  const day = `Day\n\nlift\n  ${line}, rest 3:00, build from 40 kg\n`
  expect(linesOf(day, minutesOf(read(day)) - 4)[0]?.replace(/ {2}#.*/, '')).toBe(expected)
})

describe('a cut to the remaining minutes', () => {
  const dayWith = (text: string) => read(`Day\n${text}\n`)
  const steps = (text: string) => stepsIn(dayWith(text))
  const left = (text: string, minutes: number) => {
    const all = steps(text)
    const gone = new Set(cutToMinutes(all, minutes, dayWith(text)))
    return all.filter((step) => !gone.has(step)).map((step) => step.id)
  }
  const lift =
    'lift\n  squat: 4 x 5 @ 90 kg, rest 3:00, build from 70 kg\n  row: 2 x 8 @ 50 kg, rest 1:00\n  curl: 2 x 10 @ 25 kg, rest 1:00'

  test('drops nothing if there is enough time', () => {
    expect(left(lift, 60)).toHaveLength(steps(lift).length)
  })

  test('drops the last accessory first, completely', () => {
    const whole = expectedSecondsOf(steps(lift), dayWith(lift)) / 60
    expect(left(lift, whole - 0.1).filter((id) => id.startsWith('1.3'))).toEqual([])
    expect(left(lift, whole - 0.1).filter((id) => id.startsWith('1.2'))).toHaveLength(2)
  })

  test('keeps two sets of the main lift, with their warm-up, however short the time', () => {
    expect(left(lift, 1)).toEqual(['1.1.b1', '1.1.b2', '1.1.s1', '1.1.s2'])
  })

  test('keeps the main lift of every lift part', () => {
    const text = 'lift: legs\n  squat: 3 x 5 @ 90 kg\nlift: push\n  press: 3 x 5 @ 40 kg\n  dip: 2 x 8 @ bw'
    expect(left(text, 1)).toEqual(['1.1.s1', '1.1.s2', '2.1.s1', '2.1.s2'])
  })

  test('drops the lightest sets first: the heavy ones of 10/8/6 stay', () => {
    expect(left('lift\n  press: 10/8/6 @ 30/35/40 kg', 3)).toEqual(['1.1.s2', '1.1.s3'])
  })

  test('drops the rounds of a superset before all of it', () => {
    const text =
      'lift\n  squat: 1 x 5 @ 90 kg\n  row 2 x 8 @ 50 kg + dip 2 x 8 @ bodyweight, pause 20 s, rest 1:30'
    const minutes = expectedSecondsOf(steps(text), dayWith(text)) / 60 - 0.1
    expect(left(text, minutes)).toEqual(['1.1.s1', '1.2.s1', '1.2.s2'])
    expect(left(text, 1)).toEqual(['1.1.s1'])
  })

  test('drops a warm-up together with its accessory', () => {
    const text = 'lift\n  squat: 1 x 5 @ 90 kg\n  bench press: 1 x 5 @ 70 kg, build from 40 kg'
    expect(left(text, 1)).toEqual(['1.1.s1'])
  })

  test('keeps half of the repeats and of the splits, with the warm-up and the cool-down', () => {
    const text =
      'run\n  2 km easy\n  3 x 500 m in 1:50, jog 200 m\n  jog 400 m\n  4 km @ 4:00/km, split 1 km\n  2 km easy'
    expect(left(text, 1).filter((id) => id.includes('p'))).toEqual([
      '1.1.p1',
      '1.2.p1',
      '1.2.p2',
      '1.4.p1',
      '1.4.p2',
      '1.5.p1',
    ])
    const minutes = expectedSecondsOf(steps(text), dayWith(text)) / 60 - 1
    expect(left(text, minutes).filter((id) => id.startsWith('1.4'))).toHaveLength(4)
    expect(loadFigures.cut.equation).toContain(
      'with t a step is done or left out: the cool-down, the warm-up and a run without splits keep their length',
    )
  })

  test('keeps only the run, or only the lift', () => {
    const text = 'run\n  2 km easy\nlift\n  squat: 2 x 5 @ 90 kg'
    const all = steps(text)
    const gone = (only: 'run' | 'lift') => cutToMinutes(all, 60, dayWith(text), only).map(({ id }) => id)
    expect([gone('run'), gone('lift')]).toEqual([['2.1.s1', '2.1.s2'], ['1.1.p1']])
  })
})
