import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { sessionFigures } from '../../src/summary/explain.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { keepOnPaper } from './onPaper.ts'
import { runProgram } from './runProgram.ts'

const day = `Thursday: five hundreds, a trial, then front squat
date: 2026-11-26
goal: 10 km in 39:30 on 2027-04-18
athlete: 68 kg
max: bench press 80 kg

run: track
  5 km @ 4:05-4:10/km, split 1 km, negative
  jog 600 m
  3 x 500 m @ 3:35-3:45/km, jog 200 m
  3 km trial

lift: legs
  front squat: 2 x (1+1+1) @ 92.5 kg, pause 20 s, rest 2:30
  pull-up 2 x 6 @ bodyweight, rest 1:30
  bench press 1 x 5 @ 80%, rest 2:00
  plank: 1 x 45 s

fuel
  before 2 h: carbs 75 g, protein 20 g
`
const results = `4:09
4:08
4:07
4:06.5
4:10.4
1:49.2
1:47.4
1:52.9
11:15
1+1+1 @8
1+1+0 @9
6 @8
6 @9
5 @8
45
run: effort 8, 62 min
lift: effort 7, 48 min
fuel before: carbs 70 g, protein 18 g
`
const logbook = temporaryFolder(afterAll)
let id = ''
beforeAll(async () => {
  id = await keepOnPaper(logbook, day, results)
})

const explain = (...words: string[]) => runProgram(['explain', ...words, '--session', id], { logbook })
const body = async (...words: string[]) => {
  const { stdout } = await explain(...words)
  return stdout.slice(stdout.indexOf('\n\n') + 2)
}

describe('explain FIGURE --session', () => {
  test('prints several figures below one heading', async () => {
    const { code, stdout } = await explain('pace', 'halves', '--json')
    expect(code).toBe(0)
    expect(JSON.parse(stdout).figures.map((each: { name: string }) => each.name)).toEqual(['pace', 'halves'])
  })

  test('names the session in the heading', async () => {
    const { stdout, code, stderr } = await explain('goal')
    expect([code, stderr]).toEqual([0, ''])
    expect(stdout).toBe(
      `2026-11-26 Thursday: five hundreds, a trial, then front squat (${id})\n\nGoal pace, and how far a pace is off it (goal-pace)\n  the goal of the day\n    10000 m in 39:30: 3:57.0/km\n    5 km @ 4:05-4:10/km, split 1 km, negative: 248.18 - 237 = 11.18 s/km\n    3 x 500 m @ 3:35-3:45/km, jog 200 m: 219.67 - 237 = -17.33 s/km\n`,
    )
  })
  test('shows the estimates of a session, each with its set', async () => {
    expect(await body('one-rep-max')).toBe(`Estimated one-repetition maximum (one-rep-max)
  front squat, set 2 of 2 (a cluster set, after a run)
    w = 92.5 kg
    r = 10 - RPE 9 = 1
    n = max(1, 1 + 1) = 2; all repetitions + r = 3
    all seven at n = 2: epley 98.7, brzycki 95.1, lander 96.4,
      lombardi 99.1, mayhew 103.1, oconner 97.1, wathan 97.3
    median = 97.26 kg
    range 92.5 kg to 107.78 kg
    all sets together 98.43 kg: see session-maximum
  pull-up, set 2 of 2 (after a run)
    w = body 68 kg + added 0 kg = 68 kg
    r = 10 - RPE 9 = 1
    n = 6 + 1 = 7
    all seven at n = 7: epley 15.9, brzycki 13.6, lander 14.3,
      lombardi 14.6, mayhew 16.3, oconner 11.9, wathan 16.3
    median = 14.61 kg
    range 10.2 kg to 18.82 kg
    all sets together 15.42 kg: see session-maximum
  bench press, set 1 of 1 (after a run)
    w = 65 kg
    r = 10 - RPE 8 = 2
    n = 5 + 2 = 7
    all seven at n = 7: epley 80.2, brzycki 78, lander 78.7,
      lombardi 79, mayhew 80.5, oconner 76.4, wathan 80.6
    median = 78.96 kg
    range 74.75 kg to 82.99 kg
`)
    expect(await body('session-maximum')).toContain(`  front squat (a cluster set, after a run)
    set 1: 100.81 (95.14 to 112.36), weight 0.25
    set 2: 97.26 (92.5 to 107.78), weight 0.5
    mean in logarithms = 98.43 kg (93.37 to 109.28)
`)
  })
  test('shows tonnage, top set and percentage', async () => {
    expect(await body('tonnage')).toContain(
      '  front squat\n    3 x 92.5 kg: 3 x 92.5 kg = 277.5 kg\n    2 x 92.5 kg: 2 x 92.5 kg = 185 kg\n    sum 462.5 kg\n',
    )
    expect(await body('tonnage')).toContain('  plank\n    timed or carried x no load: 0 x 0 kg = 0 kg\n')
    expect(await body('top-set')).toContain(
      '  front squat\n    set 1: 3 x 92.5 kg\n    set 2: 2 x 92.5 kg\n    top: set 1\n',
    )
    expect(await body('percent-load')).toBe(
      'Load by percentage (percent-load)\n  bench press (max: in the file)\n    80 / 100 x 80 kg = 64 kg, rounded 65 kg\n',
    )
  })
  test('shows pace, halves, spread and fade of each work', async () => {
    expect(await body('pace')).toContain(
      '  5 km @ 4:05-4:10/km, split 1 km, negative\n    1240.9 s / 5000 m x 1000 = 248.18 s/km = 4:08.2/km\n',
    )
    expect(await body('pace')).toContain('  3 km trial\n    675 s / 3000 m x 1000 = 225 s/km = 3:45.0/km\n')
    expect(await body('halves')).toContain('    first 4:08.2/km, second 4:08.2/km\n')
    expect(await body('mean')).toContain('    mean 109.83 s; range 112.9 s - 107.4 s = 5.5 s\n')
    expect(await body('cv')).toContain('    CV 2.804 s / 109.83 s x 100 = 2.553 %\n')
    expect(await body('fade')).toContain('    slope 1.85 s a split / mean 109.83 s x 100 = 1.684 % a split\n')
  })
  test('shows what was in range', async () => {
    expect(await body('in-range')).toContain(
      '  3 x 500 m @ 3:35-3:45/km, jog 200 m\n    range 1:47.5 to 1:52.5\n    1:49.2 in\n    1:47.4 fast\n    1:52.9 slow\n    1 of 3 in\n',
    )
  })
  test('shows the distance', async () => {
    expect(await body('distance')).toContain('    9500 m + 1000 m = 10500 m\n')
  })
  test('shows effort, fuel and energy', async () => {
    expect(await body('effort')).toContain(
      '    run: track: 8 x 62 min = 496\n    lift: legs: 7 x 48 min = 336\n    session 832\n',
    )
    expect(await body('meal-energy')).toContain('    4 x 70 g + 4 x 18 g + 9 x not known\n    = 352 kcal\n')
    expect(await body('running-energy')).toContain('    68 kg x 10.5 km x 0.8 to 1.0 = 571.2 to 714 kcal\n')
  })
  test('says that rests were not measured on paper', async () => {
    expect(await body('rests')).toBe('Rests and pauses as they were (rest-taken)\n  This session has none.\n')
  })
  test('shows the same figures as the summary', async () => {
    const summary = JSON.parse((await runProgram(['summary', id, '--json'], { logbook })).stdout)
    const { figures } = JSON.parse((await explain('--json')).stdout)
    const steps = JSON.stringify(figures)
    for (const exercise of summary.lifting.exercises) {
      if (exercise.oneRepMax) expect(steps).toContain(`= ${Number(exercise.oneRepMax.kg.toFixed(2))} kg`)
    }
    for (const item of summary.running.items) {
      expect(steps).toContain(`= ${Number(item.secondsPerKm.toFixed(2))} s/km`)
      if (item.cvPercent) expect(steps).toContain(`= ${Number(item.cvPercent.toFixed(3))} %`)
      if (item.fadePercentPerSplit)
        expect(steps).toContain(`= ${Number(item.fadePercentPerSplit.toFixed(3))} % a split`)
    }
    expect(steps).toContain(`session ${summary.session.effortMinutes}`)
    const [low, high] = summary.fuel.runningKcal
    expect(steps).toContain(`= ${low} to ${high} kcal`)
  })
  test('shows all of them without a name, in 80 columns', async () => {
    const { stdout } = await explain()
    for (const line of stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(80)
    const shown = sessionFigures.filter((name) => stdout.includes(`(${name})\n`))
    expect(shown).toEqual(sessionFigures.filter((name) => name !== 'rest-taken'))
  })
  test('refuses a figure that needs several sessions, and a session that does not exist', async () => {
    expect(await explain('trend')).toEqual({
      code: 1,
      stdout: '',
      stderr:
        'pausebook: trend is not a figure of one session. "pausebook explain trend" shows how it is computed.\n',
    })
    const ran = await runProgram(['explain', 'pace', '--session', 'zzzzzzzzzz'], { logbook })
    expect(ran.code).toBe(1)
    expect(ran.stderr).toContain('zzzzzzzzzz')
  })
})
