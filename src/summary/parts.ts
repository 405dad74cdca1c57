import { effortMinutes } from '../figures/load.ts'
import { localTimeOf, type Moment } from '../session/clock.ts'
import type { SessionState } from '../session/state.ts'
import type { Summary } from './model.ts'

/** The parts of a session as they were closed. Minutes and effort are null until then, or where nobody said. */
export function partsOf(state: SessionState): Summary['parts'] {
  return state.parts.map((part, index) => {
    const { effort, minutes, conditions } = state.partStates[index] as SessionState['partStates'][0]
    const { begun, ended } = timesOf(state, index)
    return {
      kind: part.kind,
      name: part.name,
      effort,
      minutes,
      effortMinutes: effort === null || minutes === null ? null : effortMinutes(effort, minutes),
      startedAt: timeOf(begun),
      finishedAt: timeOf(ended),
      gapMinutes: gapMinutes(state, index),
      with: conditions,
    }
  })
}

/** Local time with its offset, to the second where it is a whole one; null where it is not known. */
export function timeOf(moment: Moment | null): string | null {
  return moment === null ? null : localTimeOf(moment).replace('.000', '')
}

/** When a part was begun and ended. On paper that is known only where a time stands with its first result,
 * or with its last. */
function timesOf(state: SessionState, part: number): { begun: Moment | null; ended: Moment | null } {
  const { begun, ended } = state.partStates[part] as SessionState['partStates'][0]
  if (!state.fromPaper) return { begun, ended }
  const times = state.steps.flatMap((step) => {
    const recorded = step.part === part ? state.recorded.get(step.id) : undefined
    return recorded ? [recorded.at] : []
  })
  return { begun: times[0] ? begun : null, ended: times.at(-1) ? ended : null }
}

/** Minutes from the end of the part done before this one to its beginning; null for the first, and where
 * either is not known. */
function gapMinutes(state: SessionState, part: number): number | null {
  const before = partBefore(state, part)
  const ended = before === null ? null : timesOf(state, before).ended
  const { begun } = timesOf(state, part)
  if (!ended || !begun || begun.wall < ended.wall) return null
  return (begun.wall - ended.wall) / 60_000
}

/** The last part in the order of the walk, before this one, of which anything was done. Eating is no part of
 * the work: it lies in the gap. */
function partBefore(state: SessionState, part: number): number | null {
  let before: number | null = null
  for (const step of state.steps) {
    if (step.part === part) return before
    const isDone = state.recorded.has(step.id) || state.measured.has(step.id)
    if (isDone && step.kind !== 'fuel') before = step.part
  }
  return null
}
