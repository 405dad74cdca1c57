import { elapsedSeconds, type Moment, momentAfter } from './clock.ts'
import { type PartState, stepOf, type WalkState } from './state.ts'

/** Everything is held from now on, or since an earlier moment, but never since before the running clock began.
 * A hold that is on already can only be set backwards: what it is longer by is counted, and nothing twice. */
export function hold(state: WalkState, since: string | null, at: Moment): WalkState {
  const { held } = state
  if (held && since === null) return state
  const from = since === null ? at : momentOfHold(state, Date.parse(since), at)
  if (!held) return { ...state, held: { since: from, counted: from } }
  const longer = Math.min(
    elapsedSeconds(from, laterOf(held.since, state.phase.since)),
    notHeldBefore(state, held),
  )
  return longer > 0 ? { ...heldFor(state, longer), held: { since: from, counted: held.counted } } : state
}

/** How long the running clock ran before this hold without being held: no hold set backwards takes more. */
function notHeldBefore(state: WalkState, held: NonNullable<WalkState['held']>): number {
  const { since, heldSeconds } = state.phase
  if (!since) return Number.POSITIVE_INFINITY
  const start = laterOf(held.since, since)
  const before = heldSeconds - elapsedSeconds(start, held.counted)
  return Math.max(0, elapsedSeconds(since, start) - before)
}

function momentOfHold(state: WalkState, wall: number, at: Moment): Moment {
  const { since } = state.phase
  if (since && wall <= since.wall) return since
  return momentAfter(at, -Math.max(0, (at.wall - wall) / 1000))
}

/** The hold counted up to this moment. */
export function heldUpTo(state: WalkState, at: Moment): WalkState {
  if (!state.held) return state
  const from = laterOf(state.held.counted, state.phase.since)
  return { ...heldFor(state, elapsedSeconds(from, at)), held: { ...state.held, counted: at } }
}

/** So many seconds more out of the running clock, and out of the part in which it runs. */
function heldFor(state: WalkState, seconds: number): WalkState {
  const phase = { ...state.phase, heldSeconds: state.phase.heldSeconds + seconds }
  const part = partUnderWay(state)
  const partStates = state.partStates.map(
    (each, index): PartState =>
      index === part ? { ...each, heldSeconds: each.heldSeconds + seconds } : each,
  )
  return { ...state, phase, partStates }
}

/** The hold is over. */
export function resume(state: WalkState, at: Moment): WalkState {
  return state.held ? { ...heldUpTo(state, at), held: null } : state
}

function laterOf(one: Moment, other: Moment | null): Moment {
  return other && elapsedSeconds(one, other) > 0 ? other : one
}

/** The part in which the clock runs; null between two parts. */
function partUnderWay(state: WalkState): number | null {
  const { phase } = state
  if (phase.kind === 'ready') return partBegun(state)
  const id = phase.kind === 'rest' || phase.kind === 'roundPause' ? phase.after : phase.step
  return stepOf(state, id)?.part ?? null
}

/** Between two items, the part that goes on behind. */
function partBegun(state: WalkState): number | null {
  const part = state.steps.find((step) => !state.passed.has(step.id))?.part
  return part !== undefined && state.partStates[part]?.begun ? part : null
}
