import {
  hardBy,
  isAtTheLimit,
  outsideOf,
  repeatsAdvice,
  restOfInterval,
  type Stretch,
} from '../../figures/advice.ts'
import type { Range } from '../../figures/splits.ts'
import { goalSecondsPerKm, type IntervalStep, type IntervalTarget } from '../../prescription/step.ts'
import type { IntervalResult } from '../../session/result.ts'
import { intervalsOf, resultOf, type SessionState } from '../../session/state.ts'
import { printNumber } from '../../units/decimal.ts'
import { formatPace, paceIn } from '../../units/duration.ts'
import { formatMeters } from '../../units/length.ts'
import { stepNow } from '../model.ts'
import { paceSpan } from '../nowText.ts'

/** The mean so far of a continuous run, and the pace left for the rest of it. */
export function restOfIntervalAdvice(state: SessionState): string | null {
  const now = stepNow(state)
  if (now?.kind !== 'interval' || !now.split) return null
  const splits = splitsOf(state, now)
  const done = { ...noStretch(), seconds: 0 }
  const left = noStretch()
  let effort: number | null = null
  let lastSecondsPerKm: number | null = null
  for (const split of splits) {
    const result = resultOf(state, split)
    effort = result?.rpe ?? effort
    if (!split.target?.seconds || !split.meters) return null
    if (!result?.seconds) {
      if (!state.skipped.has(split.id)) add(left, split.meters, split.target.seconds)
      continue
    }
    const meters = result.meters ?? split.meters
    add(done, meters, split.target.seconds, meters / split.meters)
    done.seconds += result.seconds
    lastSecondsPerKm = (result.seconds / meters) * 1000
  }
  if (done.meters === 0) return null
  const rest = restOfInterval({ ...done, effort, lastSecondsPerKm, negative: now.negative }, left)
  if (!rest) return null
  const distanceUnit = state.prescription.units.distance
  const unit = state.parts[now.part]?.items[now.item]?.works[now.work]?.paceUnit ?? distanceUnit
  switch (rest.kind) {
    case 'endsInRange':
      return `mean so far ${formatPace(rest.meanSecondsPerKm, unit)}; the ${formatMeters(rest.restMeters, unit === '500 m' ? distanceUnit : unit)} left in ${paceSpan(rest.secondsPerKm, unit)} ends in the range`
    case 'outOfReach':
      return 'The range is out of reach today: hold this pace, or stop here.'
    case 'ahead':
      return `${Math.max(1, Math.round(paceIn(rest.aheadSecondsPerKm, unit)))} s/${unit} faster than the range: hold it or ease off.`
    case 'keepOn':
      return `negative split: compare the next one with the last, ${formatPace(rest.lastSecondsPerKm, unit)}`
  }
}

/** The splits of the interval that a split belongs to; repeated, it has a range for each time. */
function splitsOf(state: SessionState, split: IntervalStep): IntervalStep[] {
  const all = intervalsOf(state, split)
  const at = all.findIndex((step) => step.id === split.id)
  const begin = all.findLastIndex((step, index) => index < at && step.endsInterval) + 1
  const end = all.findIndex((step, index) => index >= at && step.endsInterval)
  return all.slice(begin, end + 1)
}

const noStretch = (): Stretch => ({ meters: 0, range: { from: 0, to: 0 } })

/** Lengthens a stretch by a split. @param share how much of the split's distance it is */
function add(stretch: Stretch, meters: number, range: Range, share = 1): void {
  stretch.meters += meters
  stretch.range.from += range.from * share
  stretch.range.to += range.to * share
}

/** What the repeats of the same work as the last one suggest. */
export function repeatAdvice(state: SessionState): string | null {
  const now = stepNow(state)
  if (!now || (now.kind !== 'interval' && now.kind !== 'recovery')) return null
  const intervals = intervalsOf(state, now)
  const last = intervals.findLast((step) => state.recorded.has(step.id))
  if (!last || last.split) return null
  const done = intervals
    .filter((step) => step.work === last.work)
    .flatMap((step) => {
      const result = resultOf(state, step)
      if (!result?.seconds || !step.target?.seconds) return []
      return [{ seconds: result.seconds, precision: result.precision ?? 1, range: step.target.seconds }]
    })
  const effort = countsEffort(last.target) ? (resultOf(state, last)?.rpe ?? null) : null
  return repeatsAdvice(done, last.grade, effort)?.words ?? null
}

/** An effort at the limit speaks against a pace or a heart rate, but not where the effort itself is prescribed. */
function countsEffort(target: IntervalTarget | null): boolean {
  if (target === null || target.rpe !== null) return false
  return target.secondsPerKm !== null || target.seconds !== null || target.heartRate !== null
}

/** A heart rate or an effort over or under the target, while another interval still follows. An easy interval that was
 * hard is over it. Nothing is under it once the last typed effort is at the limit: that would ask for more. */
export function effortTargetAdvice(
  state: SessionState,
  hrMax: number | null,
  way: 'over' | 'under',
): string | null {
  const now = stepNow(state)
  if (!now || (now.kind !== 'interval' && now.kind !== 'recovery')) return null
  const intervals = intervalsOf(state, now)
  const last = intervals.findLast((step) => state.recorded.has(step.id))
  const result = last ? resultOf(state, last) : null
  if (!last?.target || !result) return null
  const lastEffort = intervals.flatMap((step) => resultOf(state, step)?.rpe ?? []).at(-1) ?? null
  if (way === 'under' && isAtTheLimit(lastEffort)) return null
  const { heartRate, rpe, word } = last.target
  return (
    outside(way, 'hr', result.heartRate, heartRate) ??
    outside(way, 'effort', result.rpe, rpe) ??
    (way === 'over' && word === 'easy' ? tooHardForEasy(state, result, hrMax) : null)
  )
}

/** `easy` is judged by the limits of hard running; other words are not judged. */
function tooHardForEasy(state: SessionState, result: IntervalResult, hrMax: number | null): string | null {
  const { heartRate, rpe, meters, seconds } = result
  const secondsPerKm = meters && seconds ? (seconds / meters) * 1000 : null
  const goal = goalSecondsPerKm(state.prescription)
  switch (hardBy({ heartRate, hrMax, effort: rpe, secondsPerKm, goalSecondsPerKm: goal })) {
    case 'heartRate':
      return `hr ${heartRate} is hard, not easy: ease off`
    case 'effort':
      return `effort ${printNumber(rpe ?? 0)} is hard, not easy: ease off`
    case 'pace':
      return 'that pace is hard, not easy: ease off'
    default:
      return null
  }
}

function outside(
  way: 'over' | 'under',
  what: string,
  value: number | null,
  range: { from: number; to: number } | null,
): string | null {
  const off = value === null || range === null ? 0 : outsideOf(value, range)
  if (value === null || off === 0 || off > 0 !== (way === 'over')) return null
  return `${what} ${printNumber(value)}, ${printNumber(Math.abs(off))} ${way} the range`
}
