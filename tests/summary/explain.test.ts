import { describe, expect, it } from 'vitest'
import { setRows, splitRows } from '../../src/commands/export.ts'
import type { FigureName } from '../../src/figures/catalogue.ts'
import { sessionSteps } from '../../src/summary/explain.ts'
import { figuresOf } from '../../src/summary/summarise.ts'
import { bareContext as context } from './bareContext.ts'
import { type Kept, keptDay } from './kept.ts'

/* Which rows of a session each figure, and each table, is made from. The days are invented; what belongs to a figure
 * is this program's own rule. */

const now = { at: null, up: null }

const steps = (day: Kept, name: FigureName) => sessionSteps(name, figuresOf(day.session, context))
const subjects = (day: Kept, name: FigureName) => steps(day, name)?.map(({ of }) => of)

describe('a figure of a day with all kinds of work', () => {
  const splits = '3 km @ 4:00-4:10/km, split 1 km'
  const repeats = '2 x 400 m @ 4:00/km, jog 200 m'
  const trial = '3 km trial, split 1 km'
  const hill = '1 km @ 4:00/km, grade 3%'
  const row = '2 km @ 4:00/km'
  const lines = `goal: 10 km in 40:00 on 2027-04-18
athlete: 70 kg
max: squat 100 kg
run: track
  ${splits}
  ${repeats}
  ${trial}
  ${hill}
  20 min easy
cross: rower
  ${row}
lift
  squat 2 x 5 @ 80%
  Squats 1 x 3 @ 85%
  bench press 1 x (2+2) @ 60 kg
  plank 1 x 30 s
`
  const running = ['4:05', '4:02', '4:01', '95', '97.5', '3:50', '3:49', '3:48', '4:30', '20:00', '8:00']
  const lifting = ['5 @8', '5 @9', '3', '2+2 @8', '30']
  const day = () => keptDay(lines, ...running, ...lifting)

  it.each<[FigureName, string[]]>([
    // Set 2 counts most: it has the least in reserve. Set 3 has no effort.
    [
      'one-rep-max',
      ['squat, set 2 of 3 (after a run)', 'bench press, set 1 of 1 (a cluster set, after a run)'],
    ],
    ['session-maximum', ['squat (after a run)', 'bench press (a cluster set, after a run)']],
    ['tonnage', ['squat', 'bench press', 'plank']],
    ['top-set', ['squat', 'bench press', 'plank']],
    ['rest-taken', []],
    ['percent-load', ['squat (max: in the file)', 'Squats (max: in the file)']],
    ['pace', [splits, repeats, trial, hill, row]],
    ['halves', [splits, trial]],
    ['splits', [splits, repeats, trial]],
    ['in-range', [splits, repeats, hill, row]],
    ['goal-pace', ['the goal of the day']],
    ['distance-run', ['running', 'cross-training']],
    ['session-load', ['the session']],
    ['meal-energy', []],
    ['running-energy', []],
  ])('%s is made from %j', (name, expected) => {
    expect(subjects(day(), name)).toEqual(expected)
  })

  it('adds the jogs to the distance of the work', () => {
    expect(steps(day(), 'distance-run')?.map((each) => each.steps[0])).toEqual([
      '7800 m + 200 m = 8000 m',
      '2000 m + 0 m = 2000 m',
    ])
  })

  it('ends in pounds where the set was written in them', () => {
    const last = (load: string) =>
      steps(keptDay(`lift\n  deadlift 2 x 5 @ ${load}\n`, '5 @9', '5 @9'), 'session-maximum')?.[0]?.steps.at(
        -1,
      )
    // 6 to failure: lombardi's 225 x 6 ^ 0.1.
    expect(last('225 lb')).toBe('in pounds: 269.15 lb')
    expect(last('100 kg')).not.toContain('pounds')
  })

  it('compares with the goal each work that has a target', () => {
    // (4:05 + 4:02 + 4:01) / 3 = 242.67 and 192.5 s / 0.8 km = 240.625; the goal is 240.
    expect(steps(day(), 'goal-pace')?.[0]?.steps).toEqual([
      '10000 m in 40:00: 4:00.0/km',
      `${splits}: 242.67 - 240 = 2.67 s/km`,
      `${repeats}: 240.63 - 240 = 0.63 s/km`,
    ])
  })

  it('counts in the load each part of work that was done', () => {
    const closed = day().close(0, 7, 50).close(2, 6, 30)
    expect(steps(closed, 'session-load')?.[0]?.steps).toEqual([
      'run: track: 7 x 50 min = 350',
      'cross: rower: not known',
      'lift: 6 x 30 min = 180',
      'session 530+, at least',
    ])
  })

  it('compares splits of another length with a range of their own', () => {
    const short = keptDay('run\n  2.5 km @ 4:00-4:10/km, split 1 km\n', '4:05', '4:12', '2:02')
    expect(steps(short, 'in-range')).toEqual([
      {
        of: '2.5 km @ 4:00-4:10/km, split 1 km',
        steps: ['range 4:00 to 4:10', '4:05 in', '4:12 slow', '1 of 2 in'],
      },
      { of: '2.5 km @ 4:00-4:10/km, split 1 km', steps: ['range 2:00 to 2:05', '2:02 in', '1 of 1 in'] },
    ])
  })

  it('is missing on a day with neither goal nor running', () => {
    const lifted = keptDay('lift\n  squat 1 x 5 @ 80 kg\n', '5')
    for (const name of ['goal-pace', 'distance-run', 'running-energy'] as const)
      expect(subjects(lifted, name), name).toEqual([])
  })

  it('gives no energy for running without a body mass, or for a meal without amounts', () => {
    const run = (header: string) => subjects(keptDay(`${header}run\n  1 km easy\n`, '5:00'), 'running-energy')
    expect([run('athlete: 70 kg\n'), run('')]).toEqual([['the running'], []])
    const nothing = { carbsG: null, proteinG: null, fatG: null, kcal: null, note: null, pain: null }
    const ate = keptDay('run\n  1 km easy\n', '5:00')
    ate.add({ type: 'mealRecorded', ...now, meal: 'after', result: { ...nothing, carbsG: 20 } })
    ate.add({ type: 'mealRecorded', ...now, meal: 'before', result: nothing })
    expect(subjects(ate, 'meal-energy')).toEqual(['what was eaten after'])
  })

  it('leaves a set of no repetitions out of the top set, and an exercise with no other', () => {
    const missed = keptDay('lift\n  squat 2 x 3 @ 100 kg\n  row 1 x 5 @ 40 kg\n', '0!', '2', '0!')
    expect(steps(missed, 'top-set')).toEqual([{ of: 'squat', steps: ['set 1: 2 x 100 kg', 'top: set 1'] }])
  })
})

describe('a figure worked out from a day', () => {
  it.each([
    // Each percentage once, however many sets use it.
    [
      'max: squat 100 kg\nlift\n  squat 2 x 5 @ 80%\n  squat 1 x 3 @ 85%\n',
      ['80 / 100 x 100 kg = 80 kg, rounded 80 kg', '85 / 100 x 100 kg = 85 kg, rounded 85 kg'],
    ],
    [
      'units: mi lb\nmax: squat 335 lb\nlift\n  squat 2 x 5 @ 80%\n',
      ['80 / 100 x 335 lb = 268 lb, rounded 270 lb'],
    ],
  ])('shows each percentage in the unit of its day: %j', (lines, expected) => {
    expect(steps(keptDay(lines), 'percent-load')?.map((each) => each.steps[0])).toEqual(expected)
  })

  it('leaves out intervals of unknown distance', () => {
    expect(steps(keptDay('run\n  20 min easy\n  2 km easy\n', '20:00', '10:00'), 'pace')).toEqual([
      { of: '2 km easy', steps: ['600 s / 2000 m x 1000 = 300 s/km = 5:00.0/km'] },
    ])
  })
})

describe('the rows of a table', () => {
  const day = () =>
    keptDay(
      `lift: arms
  curl 2 x 8 each arm @ 2x10 kg
  pull-up 1 x 5 @ bodyweight-20 kg
  dip 1 x 5 @ bodyweight+10 kg
  press 1 x (2+2) @ 40 kg
  plank 1 x 30 s
  carry 1 x 40 m @ 20 kg
  push-up 1 x 5
run
  2 x 1 km @ 4:00/km
cross
  1 km easy
`,
      ...['8', '7! @9 pain "elbow 4" "slow"', '5', '5', '2+2', '30', '40 m', '5'],
      ...['4:00 hr 150/160 rpe 7', '4:10 "windy"', '5:00'],
    )

  it('have a set each, with its load as typed and as a whole', () => {
    const rows = setRows(day().state, 'one')
    const cells = (columns: readonly (keyof (typeof rows)[number])[]) =>
      rows.map((row) => columns.map((column) => row[column]))
    expect(cells(['exercise', 'set', 'side', 'reps', 'groups', 'seconds', 'meters'])).toEqual([
      ['curl', 1, 'each arm', 8, null, null, null],
      ['curl', 2, 'each arm', 7, null, null, null],
      ['pull-up', 1, null, 5, null, null, null],
      ['dip', 1, null, 5, null, null, null],
      ['press', 1, null, 4, '2+2', null, null],
      ['plank', 1, null, null, null, 30, null],
      ['carry', 1, null, null, null, null, 40],
      ['push-up', 1, null, 5, null, null, null],
    ])
    expect(cells(['load', 'unit', 'load_kind', 'load_kg'])).toEqual([
      [10, 'kg', 'pair', 20],
      [10, 'kg', 'pair', 20],
      [20, 'kg', 'assisted', null],
      [10, 'kg', 'bodyweight', 10],
      [40, 'kg', 'mass', 40],
      [null, null, null, null],
      [20, 'kg', 'mass', 20],
      [null, null, null, null],
    ])
    expect(cells(['rpe', 'failed', 'note', 'pain']).slice(0, 2)).toEqual([
      [null, null, null, null],
      [9, 'yes', 'slow', 'elbow 4'],
    ])
    expect(cells(['session', 'date', 'title', 'part'])[0]).toEqual([
      'one',
      '2026-11-26',
      'A day',
      'lift: arms',
    ])
  })

  it('have a split each, of running and of cross-training', () => {
    expect(splitRows(day().state, 'one').map((row) => Object.values(row).slice(3))).toEqual([
      ['run', '2 x 1 km @ 4:00/km', 1, 1000, 240, 'in', 150, 160, 7, null, null],
      ['run', '2 x 1 km @ 4:00/km', 2, 1000, 250, 'slow', null, null, null, 'windy', null],
      ['cross', '1 km easy', 1, 1000, 300, null, null, null, null, null, null],
    ])
  })

  it('are in the order of the day, whichever exercise came up first', () => {
    const again = keptDay('lift\n  squat 1 x 5\n  row 1 x 5\n  squat 1 x 4\n', '5', '5', '4')
    expect(setRows(again.state, 'one').map(({ exercise, set }) => [exercise, set])).toEqual([
      ['squat', 1],
      ['row', 1],
      ['squat', 2],
    ])
    const crossed = keptDay('cross\n  1 km easy\nrun\n  2 km easy\n', '5:00', '10:00')
    expect(splitRows(crossed.state, 'one').map(({ part }) => part)).toEqual(['cross', 'run'])
  })
})
