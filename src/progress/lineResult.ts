import type { Dose } from '../prescription/model.ts'
import type { SetStep } from '../prescription/step.ts'
import { prescribedLoadOf } from '../session/prompt.ts'
import type { SetResult } from '../session/result.ts'
import { notesIn, type SessionState } from '../session/state.ts'
import { kilogramsOfLoad } from '../summary/performed.ts'
import { metersOf } from '../units/length.ts'

/** How an exercise of a lift line went. `complete`: every set as written, at the written effort. `missed`: a set
 * was tried and fell short. `other`: neither. */
export type LineOutcome = 'complete' | 'missed' | 'other'

/** How the exercise of a line went in a session.
 *
 * A range of repetitions is complete at its upper end and missed below its lower one. With a written effort a
 * set counts as complete where the typed one is known and no higher; without, any effort does. A set that was
 * not tried, an exercise that was swapped, or pain in any of it, is neither complete nor missed.
 * Common practice, no source. */
export function lineOutcome(state: SessionState, part: number, item: number, exercise: number): LineOutcome {
  const steps = state.steps.filter(
    (step): step is SetStep =>
      step.kind === 'set' && step.part === part && step.item === item && step.exercise === exercise,
  )
  if (steps.length === 0 || steps.some((step) => step.insteadOf !== null)) return 'other'
  if (notesIn(state).some((note) => note.pain && steps.some((step) => step.id === note.about))) return 'other'
  const outcomes = steps.map((step) => setOutcome(state, step))
  if (outcomes.includes('hurt')) return 'other'
  if (outcomes.includes('missed')) return 'missed'
  return outcomes.every((outcome) => outcome === 'complete') ? 'complete' : 'other'
}

function setOutcome(state: SessionState, step: SetStep): LineOutcome | 'hurt' {
  const recorded = state.recorded.get(step.id)
  if (recorded?.kind !== 'set') return 'other'
  const { result } = recorded
  if (result.pain !== null) return 'hurt'
  const written = prescribedLoadOf(state, step)
  const [writtenKg, doneKg] = [written, result.load].map(kilogramsOfLoad)
  const isLighter = writtenKg != null && (doneKg ?? 0) < writtenKg - 1e-6
  const done = doseDone(step.dose, result)
  if (result.failed || isLighter || done === 'missed') return 'missed'
  if (done === 'other') return 'other'
  if (step.rpe !== null && (result.rpe === null || result.rpe > step.rpe.to)) return 'other'
  return 'complete'
}

function doseDone(dose: Dose, result: SetResult): LineOutcome {
  const { reps, groups, seconds, meters } = result
  switch (dose.kind) {
    case 'reps':
      if (reps === null || reps < dose.from) return 'missed'
      return reps >= dose.to ? 'complete' : 'other'
    case 'atLeast':
      return reps !== null && reps >= dose.reps ? 'complete' : 'missed'
    case 'cluster': {
      const isWhole = dose.groups.every((group, index) => group === 'max' || (groups?.[index] ?? 0) >= group)
      return isWhole ? 'complete' : 'missed'
    }
    case 'time':
      return seconds !== null && seconds >= dose.seconds ? 'complete' : 'missed'
    case 'distance':
      return meters !== null && meters >= metersOf(dose.length) - 1e-6 ? 'complete' : 'missed'
    case 'drop':
      return dose.reps.every((reps, index) => (groups?.[index] ?? 0) >= reps) ? 'complete' : 'missed'
    case 'complex':
      return dose.lifts.every((lift, index) => (groups?.[index] ?? 0) >= lift.reps) ? 'complete' : 'missed'
    case 'max':
    case 'roundsIn':
    case 'forTime':
      return 'other'
  }
}
