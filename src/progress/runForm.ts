import { type CriticalSpeed, criticalSpeed, meanWithInterval, ownExponent } from '../figures/longTerm.ts'
import { wrapped } from '../summary/plain.ts'
import { formatMeters } from '../units/length.ts'
import { formatPace } from '../units/pace.ts'
import type { DoneSession } from './doneSession.ts'
import { dateText, daysBetween } from './weeks.ts'

/* Is it working: pace at the same heart rate, its drift, critical speed, the athlete's own exponent. These are facts
 * about the past, not predictions. */

const easyWords: ReadonlySet<string | null> = new Set(['easy', 'relaxed', 'steady'])
const bandBeats = 10

/** A session with what was run in it, read once. */
export interface RunSession {
  id: string
  date: string
  figures: DoneSession['running']['figures']
  kinds: DoneSession['running']['kinds']
}

/** Easy running within the athlete's most usual ten beats, by month. */
export interface PaceAtHeartRate {
  fromBeats: number
  toBeats: number
  /** Oldest first; the interval of 95 % is null for a single run. */
  months: { month: string; runs: number; secondsPerKm: number; low: number | null; high: number | null }[]
}

/** Speed for a beat, the second half of a continuous run of 40 min and more against the first. */
export interface Drift {
  session: string
  date: string
  meters: number
  /** Below 0: fewer metres for a beat in the second half. */
  percent: number
}

export interface RunForm {
  paceAtHeartRate: PaceAtHeartRate | null
  drift: Drift[]
  criticalSpeed: CriticalSpeed | null
  /** Of time over distance through the races of 120 days; Riegel's is 1.06. */
  ownExponent: number | null
}

/** @param sessions newest first, up to `to`
 * Source: Sample statistics; Monod and Scherrer 1965; Riegel 1981; This program's own rule. */
export function runFormOf(sessions: readonly RunSession[], to: string): RunForm {
  const within = (days: number) => sessions.filter(({ date }) => daysBetween(date, to) <= days)
  return {
    paceAtHeartRate: paceAtHeartRate(sessions),
    drift: sessions.flatMap(driftsOf),
    criticalSpeed: criticalSpeed(within(60).flatMap((session) => racesIn(session, allOutWords))),
    ownExponent: ownExponent(within(120).flatMap((session) => racesIn(session, raceWords))),
  }
}

const raceWords: ReadonlySet<string | null> = new Set(['race', 'trial'])
const allOutWords: ReadonlySet<string | null> = new Set(['race', 'trial', 'all out'])

/** What was run as one piece under one of these words, its time and distance known, not downhill and not on a grade. */
function racesIn(
  { figures, kinds }: RunSession,
  words: ReadonlySet<string | null>,
): { meters: number; seconds: number }[] {
  return figures.items.flatMap(({ meters, seconds, text }, index) => {
    const { word = null, repeats = false, gaps = [] } = kinds[index] ?? {}
    if (!words.has(word) || repeats || gaps.length > 0 || isSloping(text) || !meters || !seconds) return []
    return [{ meters, seconds }]
  })
}

/** Whether a line says that it is downhill or on a grade. */
export function isSloping(text: string): boolean {
  return /down-?hill|\bgrade\b/i.test(text)
}

function paceAtHeartRate(sessions: readonly RunSession[]): PaceAtHeartRate | null {
  const runs = sessions.flatMap(({ date, figures, kinds }) =>
    figures.items.flatMap((item, index) => {
      if (!easyWords.has(kinds[index]?.word ?? null) || isSloping(item.text)) return []
      return item.splits.flatMap(({ heartRate, secondsPerKm }) =>
        heartRate === null || secondsPerKm === null
          ? []
          : [{ month: date.slice(0, 7), heartRate, secondsPerKm }],
      )
    }),
  )
  const bands = new Map<number, typeof runs>()
  for (const run of runs) {
    const from = Math.floor(run.heartRate / bandBeats) * bandBeats
    bands.set(from, [...(bands.get(from) ?? []), run])
  }
  const [usual] = [...bands].sort((a, b) => b[1].length - a[1].length || a[0] - b[0])
  if (usual === undefined || usual[1].length < 2) return null
  const [fromBeats, those] = usual
  const months = [...new Set(those.map(({ month }) => month))].sort().map((month) => {
    const paces = those.filter((run) => run.month === month).map(({ secondsPerKm }) => secondsPerKm)
    const found = meanWithInterval(paces)
    const secondsPerKm = found?.mean ?? paces[0] ?? 0
    return { month, runs: paces.length, secondsPerKm, low: found?.low ?? null, high: found?.high ?? null }
  })
  return { fromBeats, toBeats: fromBeats + bandBeats - 1, months }
}

const longSeconds = 2400

function driftsOf({ id, date, figures, kinds }: RunSession): Drift[] {
  return figures.items.flatMap(({ splits, meters, seconds, text }, index) => {
    const { repeats = false, gaps = [] } = kinds[index] ?? {}
    if (repeats || gaps.length > 0 || isSloping(text) || !seconds || seconds < longSeconds || !meters)
      return []
    const known = splits.flatMap((split) =>
      split.meters === null || split.seconds === null || split.heartRate === null
        ? []
        : [{ meters: split.meters, seconds: split.seconds, beats: (split.heartRate * split.seconds) / 60 }],
    )
    if (known.length < 2 || known.length < splits.length) return []
    const half = Math.floor(known.length / 2)
    const metersPerBeat = (stretch: typeof known) =>
      stretch.reduce((sum, each) => sum + each.meters, 0) / stretch.reduce((sum, each) => sum + each.beats, 0)
    const percent = 100 * (metersPerBeat(known.slice(-half)) / metersPerBeat(known.slice(0, half)) - 1)
    return [{ session: id, date, meters, percent }]
  })
}

const mostDrifts = 6

/** @param columns at least 40 */
export function formBlock(form: RunForm, unit: 'km' | 'mi', columns: number): string[] {
  const { paceAtHeartRate: pace, drift, criticalSpeed: critical, ownExponent: own } = form
  const span = (low: number | null, high: number | null) =>
    low === null || high === null ? '' : ` (${formatPace(low, unit)} to ${formatPace(high, unit)})`
  return [
    ...(pace === null
      ? []
      : [
          ...wrapped(
            `easy running at ${pace.fromBeats} to ${pace.toBeats} beats, by month, with its interval of 95 %`,
            0,
            columns,
          ),
          ...pace.months.flatMap(({ month, runs, secondsPerKm, low, high }) =>
            wrapped(
              `${month}: ${formatPace(secondsPerKm, unit)}${span(low, high)}, ${runs} results`,
              2,
              columns,
            ),
          ),
        ]),
    ...drift
      .slice(0, mostDrifts)
      .flatMap(({ date, meters, percent }) =>
        wrapped(
          `heart-rate drift on ${dateText(date)}: ${formatMeters(meters, unit)}, second half ${percent < 0 ? '-' : '+'}${Math.abs(percent).toFixed(1)} % distance a beat`,
          0,
          columns,
        ),
      ),
    ...(critical === null
      ? []
      : wrapped(
          `critical speed ${critical.metersPerSecond.toFixed(2)} +/- ${critical.speedError.toFixed(2)} m/s (${formatPace(1000 / critical.metersPerSecond, unit)}), D' ${critical.meters.toFixed(0)} +/- ${critical.metersError.toFixed(0)} m, from ${critical.count} pieces of 2 to 15 min in 60 days (standard errors)`,
          0,
          columns,
        )),
    ...(own === null
      ? []
      : wrapped(`own exponent of time over distance: ${own.toFixed(3)} (Riegel's is 1.06)`, 0, columns)),
  ]
}
