import { exerciseKey } from '../prescription/exerciseKey.ts'
import type { LiftedLoad } from '../session/result.ts'
import type { Recorded, WalkState } from '../session/state.ts'
import { kilogramsOf } from '../units/mass.ts'
import type { RecorderContext } from './model.ts'

/** Said once, while the set that did it is the last one. */
export function bestSoFar(state: WalkState, context: RecorderContext): string | null {
  const last = [...state.recorded].at(-1)
  const step = last ? state.steps.find((each) => each.id === last[0]) : null
  const recorded = last?.[1]
  if (step?.kind !== 'set' || recorded?.kind !== 'set' || step.dose.kind === 'cluster') return null
  const { load, reps } = recorded.result
  if (!load || !reps) return null
  const before = context.bestBefore(step.name, reps)
  const kg = kilogramsLifted(load)
  if (!before || kg <= before.kg + 1e-9) return null
  const isOnce = [...state.recorded].slice(0, -1).every(([id, each]) => !isAsMuch(state, id, each))
  if (!isOnce) return null
  return `most for ${reps} so far (before: ${before.text})`
}

/** Whether an earlier set of today was this already. */
function isAsMuch(state: WalkState, id: string, each: Recorded): boolean {
  const last = [...state.recorded].at(-1)
  const one = state.steps.find((step) => step.id === id)
  const other = state.steps.find((step) => step.id === last?.[0])
  if (one?.kind !== 'set' || other?.kind !== 'set' || exerciseKey(one.name) !== exerciseKey(other.name))
    return false
  if (each.kind !== 'set' || last?.[1].kind !== 'set' || one.dose.kind === 'cluster') return false
  const { load, reps } = last[1].result
  if (!load || !each.result.load || (each.result.reps ?? 0) < (reps ?? 0)) return false
  return kilogramsLifted(each.result.load) >= kilogramsLifted(load) - 1e-9
}

function kilogramsLifted(load: LiftedLoad): number {
  return load.kind === 'mass'
    ? kilogramsOf(load) * (load.pair ? 2 : 1)
    : kilogramsOf({ value: load.added, unit: load.unit })
}
