import type { PieceStep, RecoveryStep, SetStep, Step } from '../prescription/step.ts'
import { phaseAfter } from './phaseAfter.ts'
import { type Change, liftItemOf, type Phase, stepAhead, stepOf, type WalkState } from './state.ts'

/** One more like another, behind the last of its exercise or work (of a superset: behind the last round); a
 * repeat brings its recovery along. Nothing can be added to a part that is closed.
 * @param id of the new step */
export function addStep(state: WalkState, id: string, likeId: string): WalkState {
  const like = stepOf(state, likeId)
  if (!like || stepOf(state, id) || state.partStates[like.part]?.closed) return state
  if (like.kind !== 'set' && like.kind !== 'piece') return state
  const siblings = state.steps.filter((step) => isSibling(step, like))
  const total = siblings.length + 1
  const before = placeFor(state, like, siblings)
  const added = like.kind === 'set' ? addedSet(like, id, total) : addedPiece(like, id, total)
  const at = state.steps.indexOf(before) + 1
  const rows = [...recoveryFor(state, siblings, id), added]
  const steps = [...state.steps.slice(0, at), ...rows, ...state.steps.slice(at)].map((step): Step => {
    if (step === before && before.kind === 'set' && added.kind === 'set')
      return followed(state, before, added)
    return isSibling(step, like) ? ({ ...step, of: total } as Step) : step
  })
  const change: Change = { kind: 'added', step: id }
  const next = { ...state, steps, changes: [...state.changes, change] }
  return { ...next, phase: phaseBefore(next, before.id, id) }
}

/** Of the same exercise on the same line, or of the same work. */
export function isSibling(step: Step, like: Step): boolean {
  if (step.part !== like.part || step.item !== like.item) return false
  if (step.kind === 'set' && like.kind === 'set') return step.exercise === like.exercise
  return step.kind === 'piece' && like.kind === 'piece' && step.work === like.work
}

/** The step behind which one more comes. */
function placeFor(state: WalkState, like: SetStep | PieceStep, siblings: readonly Step[]): Step {
  const isOfItem = (step: Step) => step.part === like.part && step.item === like.item
  const group = like.kind === 'set' && like.superset ? state.steps.filter(isOfItem) : siblings
  return group.at(-1) as Step
}

function addedSet(like: SetStep, id: string, total: number): SetStep {
  return { ...like, id, number: total, of: total, pauseAfter: null, restAfter: null, last: true }
}

function addedPiece(like: PieceStep, id: string, total: number): PieceStep {
  return { ...like, id, number: total, of: total, split: false, endsPiece: true, short: false }
}

/** What was the last set of its item is followed by one more: of the same round after the pause, else after the rest. */
function followed(state: WalkState, set: SetStep, added: SetStep): SetStep {
  const item = liftItemOf(state, set)
  const isOneExercise = set.exercise === added.exercise
  const of = isOneExercise ? added.of : set.of
  if (!isOneExercise && set.number === added.number)
    return { ...set, of, last: false, pauseAfter: pauseInRound(state, set), restAfter: null }
  return { ...set, of, last: false, restAfter: item?.rest ?? null }
}

/** The pause of a line is the one inside its cluster sets, where it has any. */
function pauseInRound(state: WalkState, set: SetStep): number {
  const item = liftItemOf(state, set)
  const hasCluster = item?.exercises.some((each) => each.sets.some(({ dose }) => dose.kind === 'cluster'))
  return hasCluster ? 0 : (item?.pause ?? 0)
}

/** A repeat comes after a recovery like the one before the last repeat. */
function recoveryFor(state: WalkState, siblings: readonly Step[], id: string): RecoveryStep[] {
  const last = siblings.at(-1) as Step
  const recovery = siblings
    .flatMap((sibling) => {
      const before = state.steps[state.steps.indexOf(sibling) - 1]
      return before?.kind === 'recovery' && before.item === sibling.item && before.part === sibling.part
        ? [before]
        : []
    })
    .at(-1)
  return recovery ? [{ ...recovery, id: `${id}-recovery`, countsWith: [last.id] }] : []
}

/** Where the clock runs since the end of what was the last, it is the rest, or the recovery, before one more. */
function phaseBefore(state: WalkState, before: string, added: string): Phase {
  const { phase } = state
  const ended = state.measured.get(before)?.ended ?? null
  const step = stepOf(state, before)
  const ahead = stepAhead(state)
  const isNext = ahead !== null && (ahead.id === added || ahead.id === `${added}-recovery`)
  if (phase.kind !== 'ready' || !isNext || !step || !ended || phase.since?.wall !== ended.wall) return phase
  return { ...phaseAfter(state, step, ended), heldSeconds: phase.heldSeconds }
}
