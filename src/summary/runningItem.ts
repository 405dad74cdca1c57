import { offGoal } from '../figures/goal.ts'
import { halvesOf, paceOfSplits, splitFigures } from '../figures/splits.ts'
import type { RunningItem } from './model.ts'
import type { DoneSplit, DoneWork } from './performed.ts'

/** A length is the nominal one when it differs by no more than rounding does. */
const sameLength = 1e-6

/** One piece of work with its splits judged and their figures.
 *
 * Nothing done is known to be nothing: `splits` is empty and `meters` and `seconds` are 0. They are null
 * where something was done and its distance, or its time, is not known (`secondsPerKm` is then of those
 * splits that have both).
 * @param goalSecondsPerKm null without a goal */
export function runningItemOf(done: DoneWork, goalSecondsPerKm: number | null): RunningItem {
  const { splits, work } = done
  const both = splits.map(({ result }) => result).filter(hasBoth)
  const pace = paceOfSplits(both)
  const judged = splits.filter((split) => split.target !== null)
  const compared = work.judgedAgainstGoal && goalSecondsPerKm !== null && pace !== null
  return {
    text: work.text,
    line: done.line,
    splits: splits.map(splitOf),
    meters: sumOf(splits.map((split) => split.result.meters)),
    seconds: sumOf(splits.map((split) => split.result.seconds)),
    secondsPerKm: pace,
    ...splitFigures(fullSplits(done)),
    halves: halvesOf(both),
    inRange: judged.filter((split) => split.target === 'in').length,
    judged: judged.length,
    offGoalSecondsPerKm: compared ? offGoal(pace, goalSecondsPerKm) : null,
  }
}

function splitOf({ result, target }: DoneSplit): RunningItem['splits'][number] {
  const { meters, seconds, heartRate, heartRateMax, rpe } = result
  const secondsPerKm = hasBoth(result) ? (result.seconds / result.meters) * 1000 : null
  return { meters, seconds, secondsPerKm, target, heartRate, heartRateMax, rpe }
}

/** The timed splits of the nominal length, each with its number in the item: a skipped one leaves a gap. */
export function fullSplits(done: DoneWork): { number: number; seconds: number }[] {
  const nominal = done.work.nominalMeters
  if (nominal === null) return []
  return done.splits.flatMap(({ step, result }) => {
    const isFull = result.meters !== null && Math.abs(result.meters - nominal) <= nominal * sameLength
    return isFull && !step.short && result.seconds !== null
      ? [{ number: step.number, seconds: result.seconds }]
      : []
  })
}

function hasBoth<R extends { meters: number | null; seconds: number | null }>(
  result: R,
): result is R & { meters: number; seconds: number } {
  return result.meters !== null && result.seconds !== null
}

/** Null as soon as one is not known. */
function sumOf(values: readonly (number | null)[]): number | null {
  return values.reduce<number | null>(
    (sum, value) => (sum === null || value === null ? null : sum + value),
    0,
  )
}
