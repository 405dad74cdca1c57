import { ascending, groups, rollup, sum } from 'd3-array'
import { criticalSpeed, heartRateDrift, legCost, meanWithInterval, ownExponent } from '../figures/runForm.ts'
import { isRaceWord } from '../prescription/words.ts'
import { dayAfter } from '../units/calendarDate.ts'
import { counted, signed } from '../units/decimal.ts'
import { formatPace, paceIn } from '../units/duration.ts'
import type { DistanceUnit } from '../units/model.ts'
import { type HistoryUnits, lengthText } from './history.ts'
import { type DoneSession, dateText } from './weeks.ts'

/* Whether the running works: pace at the same heart rate, its drift, the cost of heavy legs, critical speed, the
 * athlete's own exponent. These are facts about the past, not predictions. */

const easyWords: ReadonlySet<string | null> = new Set(['easy', 'relaxed', 'steady'])
const bandBeats = 10

export type RunOn = ReturnType<typeof runsOf>[number]

export function runsOf(sessions: readonly Pick<DoneSession, 'id' | 'date' | 'running'>[]) {
  return sessions.flatMap(({ id, date, running }) =>
    running.items.map((run) => ({ ...run, session: id, date })),
  )
}

type WholeRun = RunOn & { meters: number; seconds: number }

/** Whether a run is continuous, with a known distance and time and no missing split. */
export function isWhole(run: RunOn): run is WholeRun {
  return !run.repeats && run.gaps.length === 0 && !!run.meters && !!run.seconds
}

export function isSloping(text: string): boolean {
  return /down-?hill|\bgrade\b/i.test(text)
}

export type RunForm = ReturnType<typeof runFormOf>

/** @param runs newest first, up to `to`; @param heavyLegs the dates with heavy leg work
 * Source: Sample statistics; Welch 1947; Monod and Scherrer 1965; Riegel 1981; This program's own rule. */
export function runFormOf(runs: readonly RunOn[], to: string, heavyLegs: ReadonlySet<string>) {
  const within = (days: number) => {
    const from = dayAfter(to, -days)
    return runs.filter(({ date }) => date >= from)
  }
  const levelRuns = (isWanted: (word: string | null) => boolean, days: number) =>
    within(days)
      .filter(isWhole)
      .filter(({ word, text }) => isWanted(word) && !isSloping(text))
  return {
    paceAtHeartRate: paceAtHeartRate(runs),
    afterHeavyLegs: afterHeavyLegs(within(costDays), heavyLegs),
    drift: runs.filter(isWhole).flatMap(driftOf),
    criticalSpeed: criticalSpeed(levelRuns((word) => isRaceWord(word) || word === 'all out', 60)),
    ownExponent: ownExponent(levelRuns(isRaceWord, 120)),
  }
}

/** Seconds. A shorter easy run is a warm-up, in which the heart rate lags, or a cool-down. This program's own
 * rule. */
const shortestEasy = 1200

/** The level splits, with a known distance and time, of easy runs of at least 20 min. The effort is that of the split,
 * else of its part. */
function easySplits(runs: readonly RunOn[]) {
  return runs.flatMap(({ date, splits, text, word, effort }) => {
    const all = sum(splits, ({ seconds }) => seconds)
    if (!easyWords.has(word) || isSloping(text) || all < shortestEasy) return []
    return splits.flatMap(({ meters, seconds, heartRate, rpe }) =>
      !meters || !seconds ? [] : [{ date, meters, seconds, heartRate, effort: rpe ?? effort }],
    )
  })
}

/** Easy runs are compared within ten beats a minute, or at the same effort. */
const classWidths = { heartRate: bandBeats, effort: 0.5 }

/** The lower end of the class in which the most days have easy splits, and one pace for each day, because the splits of
 * one run are not independent. Null without any. */
function usualPaces(runs: readonly RunOn[], of: keyof typeof classWidths) {
  const width = classWidths[of]
  const classed = easySplits(runs).flatMap((split) => {
    const value = split[of]
    return value === null ? [] : [{ ...split, from: Math.floor(value / width) * width }]
  })
  const paces = rollup(
    classed,
    (ofDay) => (1000 * sum(ofDay, ({ seconds }) => seconds)) / sum(ofDay, ({ meters }) => meters),
    ({ from }) => from,
    ({ date }) => date,
  )
  const [usual] = [...paces].sort((a, b) => b[1].size - a[1].size || a[0] - b[0])
  return usual === undefined ? null : { from: usual[0], paces: [...usual[1]] }
}

const costDays = 26 * 7

/** Easy running on the day after heavy legs against other days, by heart rate if enough days of both kinds have one,
 * else by effort. */
function afterHeavyLegs(runs: readonly RunOn[], heavyLegs: ReadonlySet<string>) {
  for (const of of ['heartRate', 'effort'] as const) {
    const usual = usualPaces(runs, of)
    if (usual === null) continue
    const { from, paces } = usual
    const [after, others] = [true, false].map((isAfter) =>
      paces.flatMap(([date, pace]) => (heavyLegs.has(dayAfter(date, -1)) === isAfter ? pace : [])),
    ) as [number[], number[]]
    const cost = legCost(after, others)
    if (cost !== null) return { of, from, to: of === 'effort' ? from : from + bandBeats - 1, ...cost }
  }
  return null
}

/** Easy running within the athlete's most usual ten beats, by month, oldest first. The 95 % interval is null for one
 * day. */
function paceAtHeartRate(runs: readonly RunOn[]) {
  const usual = usualPaces(runs, 'heartRate')
  if (usual === null || usual.paces.length < 2) return null
  const { from: fromBeats } = usual
  const byMonth = groups(usual.paces, ([date]) => date.slice(0, 7)).sort(([a], [b]) => ascending(a, b))
  const months = byMonth.map(([month, days]) => {
    const paces = days.map(([, pace]) => pace)
    const found = meanWithInterval(paces)
    const secondsPerKm = found?.mean ?? paces[0] ?? 0
    return { month, runs: paces.length, secondsPerKm, low: found?.low ?? null, high: found?.high ?? null }
  })
  return { fromBeats, toBeats: fromBeats + bandBeats - 1, months }
}

const longSeconds = 2400

/** Metres per heartbeat, the second half of a continuous run of at least 40 min against the first; below 0 for fewer in
 * the second. */
function driftOf({ splits, meters, seconds, text, session, date }: WholeRun) {
  if (isSloping(text) || seconds < longSeconds) return []
  const known = splits.flatMap(({ meters, seconds, heartRate }) =>
    meters === null || seconds === null || heartRate === null ? [] : [{ meters, seconds, heartRate }],
  )
  const percent = known.length < splits.length ? null : heartRateDrift(known)
  return percent === null ? [] : [{ session, date, meters, percent }]
}

/** What is shown; the JSON has all. */
const [mostMonths, mostDrifts] = [12, 6]

/** `easy running at 140 to 149 beats the day after heavy legs: 5:48/km, 7 s/km slower than on other days (2 to 12), 6
 * days against 14 (95 % interval)`; without the difference if the interval includes 0. */
function legsText(legs: NonNullable<RunForm['afterHeavyLegs']>, unit: DistanceUnit): string {
  const { of, from, to, afterSecondsPerKm, afterDays, otherDays, secondsPerKm, low, high, isClear } = legs
  const change = (value: number) => signed(paceIn(value, unit), 0)
  const size = (value: number) => Math.abs(paceIn(value, unit)).toFixed(0)
  const at = of === 'effort' ? `effort ${from}` : `${from} to ${to} beats`
  const head = `easy running at ${at} the day after heavy legs: ${formatPace(afterSecondsPerKm, unit)}`
  const days = `${afterDays} days against ${otherDays} (95 % interval)`
  if (!isClear)
    return `${head}, no difference seen from other days (${change(low)} to ${change(high)} s/${unit}), ${days}`
  const [way, near, far] = secondsPerKm > 0 ? ['slower', low, high] : (['faster', high, low] as const)
  return `${head}, ${size(secondsPerKm)} s/${unit} ${way} than on other days (${size(near)} to ${size(far)}), ${days}`
}

export function formBlock(form: RunForm, units: HistoryUnits): (string | null | false)[] {
  const unit = units.distance
  const { paceAtHeartRate: pace, afterHeavyLegs: legs, criticalSpeed: critical, ownExponent: exponent } = form
  const intervalText = (low: number | null, high: number | null) =>
    low === null || high === null ? '' : ` (${formatPace(low, unit)} to ${formatPace(high, unit)})`
  return [
    pace && `easy running at ${pace.fromBeats} to ${pace.toBeats} beats, by month, with the 95 % interval`,
    ...(pace?.months ?? [])
      .slice(-mostMonths)
      .map(
        ({ month, runs, secondsPerKm, low, high }) =>
          `  ${month}: ${formatPace(secondsPerKm, unit)}${intervalText(low, high)}, ${counted(runs, 'day')}`,
      ),
    legs && legsText(legs, unit),
    ...form.drift
      .slice(0, mostDrifts)
      .map(
        ({ date, meters, percent }) =>
          `heart-rate drift on ${dateText(date)}: ${lengthText(meters, units)}, ${Math.abs(percent).toFixed(1)} % ${percent < 0 ? 'less' : 'more'} distance a beat in the second half`,
      ),
    critical &&
      `critical speed ${critical.metersPerSecond.toFixed(2)} +/- ${critical.speedError.toFixed(2)} m/s (${formatPace(1000 / critical.metersPerSecond, unit)}), D' ${critical.meters.toFixed(0)} +/- ${critical.metersError.toFixed(0)} m, from ${critical.count} intervals of 2 to 15 min in 60 days (standard errors)`,
    exponent !== null && `your own exponent of time over distance: ${exponent.toFixed(3)} (Riegel's is 1.06)`,
  ]
}
