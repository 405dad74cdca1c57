import { describe, expect, it } from 'vitest'
import { dayFiguresOf } from '../../src/summary/day.ts'
import { summarise } from '../../src/summary/summarise.ts'
import { summaryText } from '../../src/summary/text.ts'
import { dayOf, plainContext } from '../day.ts'
import { bareContext as context } from './bareContext.ts'
import { Kept } from './kept.ts'
import { exampleDay, wholeDay } from './wholeDay.ts'

/* Expected figures are computed by hand from the rules beside them; the day and its results are invented. */

describe('running in a circuit', () => {
  const circuit = dayOf(
    'Circuit\nlift: circuit\n  3 rounds: 10 push-up @ bodyweight, 200 m run, 30 s plank, rest 1:00\n',
  )
  const session = () =>
    new Kept(circuit, { fromPaper: true }).type(
      ...['10', '200 m', '30 s', '10', '200 m', '30 s', '9', '150 m', '30 s'],
    ).session

  it('counts as running, not as sets', () => {
    const summary = summarise(session(), context)
    expect(summary.running).toMatchObject({ meters: 550, workMeters: 550, items: [] })
    expect(summary.lifting.sets).toBe(6)
    expect(summary.lifting.exercises.map(({ name }) => name)).toEqual(['push-up', 'plank'])
  })

  it('is as far as it is written where only its time was typed', () => {
    const timed = new Kept(circuit, { fromPaper: true }).type('10', '45 s', '30 s', '10', '150 m')
    expect(summarise(timed.session, context).running).toMatchObject({ meters: 350 })
  })

  it('is shown where it was done', () => {
    const text = summaryText(session(), context, { full: false })
    expect(text).toContain('run: 2 x 200 m, 150 m, counted as running')
  })

  it('is planned as running', () => {
    expect(dayFiguresOf(circuit, plainContext.warmUpOf)).toMatchObject({ runMeters: 600, liftSets: 6 })
  })
})

describe('the summary of the whole day from paper', () => {
  const summarised = () => summarise(wholeDay().session, context)

  it('has its date and totals, with times unknown', () => {
    expect(summarised().session).toEqual({
      id: 'sample-0001',
      title: 'Thursday: five hundreds, then front squat',
      date: '2026-11-26',
      startedAt: null,
      finishedAt: null,
      minutes: 110,
      effortMinutes: 8 * 62 + 7 * 48,
      effortMinutesAtLeast: false,
      finished: true,
    })
    expect(summarised().parts[1]).toEqual({
      kind: 'run',
      name: 'track',
      effort: 8,
      minutes: 62,
      effortMinutes: 496,
      startedAt: null,
      finishedAt: null,
      gapMinutes: null,
      meant: null,
      hard: true,
      with: 'flats, track, windy',
    })
    expect(summarised().parts[0]?.minutes).toBeNull()
  })

  it('counts the jogs as metres and never as seconds', () => {
    expect(summarised().running.meters).toBe(13_600)
    expect(summarised().running.workMeters).toBe(12_000)
    const seconds = summarised().running.items.map((item) => item.seconds)
    expect(seconds.filter((each) => each !== null).map((each) => Math.round(each * 10))).toEqual([
      12_409, 6550,
    ])
    // The easy running was not timed.
    expect(summarised().running.seconds).toBeNull()
    expect(summarised().running.goal).toEqual({ meters: 10_000, seconds: 2370, secondsPerKm: 237 })
    expect(summarised().running.items.map((item) => item.line)).toEqual([13, 14, 16, 17])
  })

  it('knows the metres of an untimed easy interval, but not its seconds', () => {
    expect(summarised().running.items[0]).toMatchObject({
      meters: 2000,
      seconds: null,
      secondsPerKm: null,
      judged: 0,
    })
    expect(summarised().running.items[0]?.splits).toEqual([
      {
        meters: 2000,
        seconds: null,
        secondsPerKm: null,
        target: null,
        heartRate: null,
        heartRateMax: null,
        rpe: null,
      },
    ])
  })

  it('judges each repeat by its range', () => {
    const item = summarised().running.items[2]
    // 500 m at 3:35 to 3:45/km is 107.5 to 112.5 s
    expect(item?.splits.map((split) => split.target)).toEqual(['in', 'fast', 'in', 'in', 'slow', 'fast'])
    expect(item).toMatchObject({ inRange: 3, judged: 6, meters: 3000 })
    expect(item?.splits[0]).toMatchObject({ heartRate: 171, secondsPerKm: 218.4 })
    expect(item?.seconds).toBeCloseTo(655, 9)
    expect(item?.meanSeconds).toBeCloseTo(655 / 6, 9)
    expect(item?.rangeSeconds).toBeCloseTo(6.6, 9)
    expect(item?.secondsPerKm).toBeCloseTo(655 / 3, 9)
    expect(item?.offGoalSecondsPerKm).toBeCloseTo(655 / 3 - 237, 9)
    // first half 109.2 + 107.4 + 110.0, second 108.8 + 113.1 + 106.5
    expect(item?.halves?.firstSecondsPerKm).toBeCloseTo(326.6 / 1.5, 9)
    expect(item?.halves?.changePercent).toBeCloseTo(((328.4 - 326.6) / 326.6) * 100, 9)
    expect(item?.halves?.shape).toBe('positive')
  })

  it('counts sets, repetitions and tonnage of each exercise', () => {
    const { exercises, ...totals } = summarised().lifting
    // front squat 15 x 92.5; pull-up 6 + 6 + 5; dip 16 x 10 and 16 x 5: the 5 stay on
    expect(totals).toEqual({ sets: 12, reps: 15 + 17 + 32, tonnageKg: 1387.5 + 240 })
    expect(exercises.map((each) => [each.name, each.sets, each.reps, each.tonnageKg])).toEqual([
      ['front squat', 5, 15, 1387.5],
      ['pull-up', 3, 17, 0],
      ['dip', 4, 32, 240],
    ])
    expect(exercises[0]?.top).toEqual({ kg: 92.5, reps: 3, groups: [1, 1, 1], rpe: null })
    expect(exercises[1]?.top).toEqual({ kg: 0, reps: 6, groups: null, rpe: null })
  })

  it('estimates no maximum of a jump, whatever load was typed', () => {
    const kept = new Kept(dayOf('Jumps\n\nlift\n  squat jump 2 x 3 @ 20 kg\n')).type('3 @8', '3 @9')
    expect(summarise(kept.session, context).lifting.exercises[0]).toMatchObject({
      tonnageKg: 120,
      oneRepMax: null,
    })
  })

  it('estimates a cluster set as a range from its longest group to no pause at all', () => {
    const best = summarised().lifting.exercises[0]?.oneRepMax
    // RPE 7.5 in set 4: n = 3.5, weight 1/10; RPE 8 in set 5: n = 3, weight 1/4. Computed apart (python3).
    expect(best).toMatchObject({
      formula: 'median',
      fromSet: 5,
      repetitions: 3,
      cluster: true,
      afterRun: true,
      atLeast: false,
    })
    expect(best?.kg).toBeCloseTo(101.308134, 6)
  })

  it('has no pauses and rests from paper', () => {
    expect(summarised().lifting.exercises[0]).toMatchObject({ pauses: null, rests: null })
  })

  it('shows what was eaten, and what the running took', () => {
    expect(summarised().fuel.before).toEqual({
      carbsG: 70,
      proteinG: 18,
      fatG: null,
      kcal: null,
      atwaterKcal: 352,
    })
    expect(summarised().fuel.between).toBeNull()
    expect(summarised().fuel.after).toBeNull()
    // 68 kg x 13.6 km x 0.8 to 1.0
    expect(summarised().fuel.runningKcal?.[0]).toBeCloseTo(739.84, 9)
    expect(summarised().fuel.runningKcal?.[1]).toBeCloseTo(924.8, 9)
  })

  it('has the notes and the changes', () => {
    expect(summarised().notes).toEqual(['slept 5 h', 'windy back straight', 'pain: left elbow'])
    expect(summarised().changes).toEqual([
      'leg swings: skipped',
      'plank: skipped',
      'pull-up: 3 of 4 sets',
      'dip: sets 3, 4 at bodyweight+5 kg instead of bodyweight+10 kg',
      'pull-up set 3 (5 of 6)',
    ])
  })
})

describe('the worked example of a cluster set', () => {
  it('gives 100.8 kg, 95.1 to 112.4, for 5 x (1+1+1) x 92.5 with the last at RPE 8', () => {
    // 2 in reserve: n = max(1, 1 + 2) = 3, from n - 1 = 2 to 3 + 2 + 1 = 6. The middle of the seven at 3 is wathan,
    // 92.5 x 1.0898; the lowest at 2 brzycki, 92.5 x 36 / 35, the highest at 6 mayhew, 92.5 x 1.21473.
    const day = new Kept(exampleDay, { fromPaper: true })
    day.type(...Array<string>(15).fill('-'), '=', '=', '=', '=', '= @8').finish()
    const squat = summarise(day.session, context).lifting.exercises[0]
    expect(squat?.oneRepMax).toMatchObject({ fromSet: 5, cluster: true, afterRun: false, atLeast: false })
    expect(squat?.oneRepMax?.kg.toFixed(1)).toBe('100.8')
    expect(squat?.oneRepMax?.lowKg?.toFixed(1)).toBe('95.1')
    expect(squat?.oneRepMax?.highKg?.toFixed(1)).toBe('112.4')
    expect(squat?.top).toEqual({ kg: 92.5, reps: 3, groups: [1, 1, 1], rpe: null })
  })
})
