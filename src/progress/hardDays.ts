import { prescribedReps } from '../prescription/expand.ts'
import type { Prescription } from '../prescription/model.ts'
import { goalSecondsPerKm, type PieceStep, type SetStep } from '../prescription/step.ts'

const legWords =
  /squat|deadlift|lunge|leg ?press|hip ?thrust|step-? ?up|good ?morning|leg ?(extension|curl)|sled|clean|snatch/i
const heavyShare = 0.8
const heavyEffort = 8
const mostReps = 6

/** Whether a set is heavy work for the legs: a leg exercise (by its name, or in a part called legs) with a load
 * of at least 80 % of its known maximum; where no maximum is known, of at most 6 repetitions or an effort of 8
 * or more. This program's own rule.
 * @param kg what is or was lifted, in kilograms; null where it is not known or there is none
 * @param rpe typed or written
 * @param maximumOf the known one-repetition maximum of an exercise, in kilograms; null without */
export function isHeavyLegs(
  step: SetStep,
  partName: string | null,
  kg: number | null,
  rpe: number | null,
  maximumOf: (name: string) => number | null,
): boolean {
  const isLegs = legWords.test(step.name) || /\blegs?\b/i.test(partName ?? '')
  if (!isLegs || step.load === null || step.load.kind === 'bodyweight') return false
  if (step.load.kind === 'percent') return step.load.to >= heavyShare * 100
  const maximum = maximumOf(step.name)
  if (kg !== null && maximum !== null) return kg >= heavyShare * maximum
  const reps = prescribedReps(step.dose)
  return (rpe ?? 0) >= heavyEffort || (reps !== null && reps <= mostReps)
}

export const hardWords: ReadonlySet<string> = new Set([
  'tempo',
  'threshold',
  'hard',
  'fast',
  'all out',
  'race',
  'trial',
])
const hardEffort = 7
/** Slower than this many times the goal's pace is not hard, whatever the range. */
export const hardShareOfGoal = 1.15

/** Whether a piece of running is meant to be hard: by its word (tempo, threshold, hard, fast, all out, race, trial),
 * an effort of 7 or more, or a pace no more than 15 % slower than the goal's; any pace or time where there is no
 * goal. This program's own rule. */
export function isHardRunning(step: PieceStep, prescription: Prescription): boolean {
  const { target } = step
  if (target === null) return false
  if (target.word !== null) return hardWords.has(target.word)
  if (target.rpe !== null) return target.rpe.to >= hardEffort
  if (target.secondsPerKm === null) return false
  const goal = goalSecondsPerKm(prescription)
  return goal === null || target.secondsPerKm.from <= goal * hardShareOfGoal
}
