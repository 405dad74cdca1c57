import type { Prescription } from '../prescription/model.ts'
import { goalSecondsPerKm, type PieceStep } from '../prescription/step.ts'

const hardWords: ReadonlySet<string> = new Set([
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
const hardShareOfGoal = 1.15

/** Whether a piece of running is meant to be hard: by its word (tempo, threshold, hard, fast, all out, race, trial),
 * an effort of 7 or more, or a pace no more than 15 % slower than the goal's; any pace or time where there is no
 * goal. Invented: a rule of this program. */
export function isHardRunning(step: PieceStep, prescription: Prescription): boolean {
  const { target } = step
  if (target === null) return false
  if (target.word !== null) return hardWords.has(target.word)
  if (target.rpe !== null) return target.rpe.to >= hardEffort
  if (target.secondsPerKm === null) return false
  const goal = goalSecondsPerKm(prescription)
  return goal === null || target.secondsPerKm.from <= goal * hardShareOfGoal
}
