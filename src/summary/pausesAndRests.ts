import { mean } from '../figures/statistics.ts'
import type { WalkState } from '../session/state.ts'
import type { Summary } from './model.ts'
import type { DoneSet } from './performed.ts'

type Lifted = Summary['lifting']['exercises'][number]

/** The pauses inside the sets of an exercise (a cluster's), else to the next exercise of the round, in
 * seconds; null without any, and from paper. `paced`: the clock set them, nobody measured them. */
export function pausesOf(sets: readonly DoneSet[], state: WalkState): Lifted['pauses'] {
  if (state.fromPaper) return null
  const inside = sets.filter(({ step }) => step.pauseInSet !== null)
  const between = sets.filter(({ step }) => step.pauseAfter !== null && step.pauseAfter > 0)
  const paused = inside.length > 0 ? inside : between
  if (paused.length === 0) return null
  const measured = paused.map(({ step }) => state.measured.get(step.id))
  const seconds =
    inside.length > 0 ? measured.flatMap((each) => each?.pauses ?? []) : measured.flatMap(restOf)
  return {
    prescribedSeconds: theOnly(paused.map(({ step }) => step.pauseInSet ?? step.pauseAfter)),
    meanSeconds: mean(seconds),
    paced: measured.some((each) => each?.paced === true),
  }
}

/** The rests after the sets or the rounds of an exercise, in seconds; null where none is prescribed and
 * none was measured, and from paper. */
export function restsOf(sets: readonly DoneSet[], state: WalkState): Lifted['rests'] {
  if (state.fromPaper) return null
  const rested = sets.filter(({ step }) => step.pauseAfter === null)
  const prescribed = rested.flatMap(({ step }) => (step.restAfter ? [step.restAfter.from] : []))
  const meanSeconds = mean(rested.flatMap(({ step }) => restOf(state.measured.get(step.id))))
  if (prescribed.length === 0 && meanSeconds === null) return null
  return { prescribedSeconds: theOnly(prescribed), meanSeconds }
}

function restOf(measured: { rest: number | null } | undefined): number[] {
  return measured && measured.rest !== null ? [measured.rest] : []
}

/** The value that all share; null when they differ, or there is none. */
function theOnly(values: readonly (number | null)[]): number | null {
  const [first = null, ...others] = new Set(values)
  return others.length === 0 ? first : null
}
