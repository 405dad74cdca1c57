import { exerciseKey } from '../prescription/exerciseKey.ts'
import type { SetStep } from '../prescription/step.ts'
import type { SessionState } from '../session/state.ts'
import { type DoneSet, kilogramsOfLoad } from './performed.ts'

/** An exercise with all that was recorded of it, on however many lines it stood. */
export interface DoneExercise {
  /** As it was written where it was first recorded. */
  name: string
  sets: DoneSet[]
}

/** The exercises with a recorded set, in the order in which they were first done. The same name is the same
 * exercise whatever its case, spaces, hyphens, plural s. */
export function exercisesDone(state: SessionState): DoneExercise[] {
  const numbers = new Map<string, number>()
  const exercises = new Map<string, DoneExercise>()
  for (const step of state.steps) {
    if (step.kind !== 'set') continue
    const key = exerciseKey(step.name)
    const number = (numbers.get(key) ?? 0) + 1
    numbers.set(key, number)
    const set = setDone(state, step, number)
    if (!set) continue
    const known = exercises.get(key)
    if (known) known.sets.push(set)
    else exercises.set(key, { name: step.name, sets: [set] })
  }
  return [...exercises.values()]
}

function setDone(state: SessionState, step: SetStep, number: number): DoneSet | null {
  const recorded = state.recorded.get(step.id)
  if (recorded?.kind !== 'set') return null
  return { step, result: recorded.result, number, kg: kilogramsOfLoad(recorded.result.load) }
}
