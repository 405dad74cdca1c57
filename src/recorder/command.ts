import type { SetStep } from '../prescription/step.ts'
import { localTimeOf, whenOf } from '../session/clock.ts'
import type { SessionEvent } from '../session/model.ts'
import { isAsked, openSteps, type SessionState } from '../session/state.ts'
import { applied } from './apply.ts'
import { asksForEffort, isPausedSet, partToClose, stepUnderWay, swappable } from './availability.ts'
import { secondsPerRepOf, skip, undo } from './changes.ts'
import { rowOf } from './keys.ts'
import { partTitle, stepTitle } from './labels.ts'
import type { Mode, RecorderContext, RecorderModel, Updated } from './model.ts'

/** A letter pressed while the field is empty. One that does nothing now says why. */
export function command(model: RecorderModel, letter: string, context: RecorderContext): Updated {
  if (letter === 'b') return heldBackwards(model, context)
  const unavailable = rowOf(letter)?.unavailable(model) ?? null
  const plain = { ...model, notice: null, pressedOnce: null }
  if (unavailable !== null) return { model: { ...plain, notice: unavailable }, effects: [] }
  switch (letter) {
    case 'u':
      return undo(plain, context)
    case 's':
      return skip(plain, model.pressedOnce === 's', context)
    case 'a':
      return addOne(plain, context)
    case 'h':
      return applied(plain, [hold(plain)], context)
    case 'p':
      return pace(plain, swappable(plain), context)
    case 'q':
      return leave(plain, model.pressedOnce === 'q')
    case 'f': {
      const part = partToClose(plain.state) as number
      const { state } = plain
      const now = stepUnderWay(state)
      const notice =
        now && now.part > part
          ? `${partTitle(state, now.part)} goes on; this closes ${partTitle(state, part)}`
          : null
      return opened({ ...plain, notice }, closing(state, part))
    }
    default:
      return opened(plain, modeOf(plain, letter))
  }
}

/** What is not saved is lost with the program: leaving it takes a second press. */
function leave(model: RecorderModel, again: boolean): Updated {
  if (model.saved.ok || again) return { model, effects: [{ kind: 'leave' }] }
  const notice = `not saved: ${model.saved.reason}; q again leaves and loses it`
  return { model: { ...model, notice, pressedOnce: 'q' }, effects: [] }
}

function opened(model: RecorderModel, mode: Mode): Updated {
  return { model: { ...model, mode }, effects: [] }
}

function modeOf(model: RecorderModel, letter: string): Mode {
  switch (letter) {
    case 'e':
      return { kind: 'picking', index: model.state.recorded.size - 1 }
    case 'x':
      return { kind: 'swapping', step: (swappable(model) as SetStep).id }
    case 'o':
      return { kind: 'ordering', index: 0, carrying: false }
    case 't':
      return { kind: 'timeLeft' }
    case 'n':
      return { kind: 'noting' }
    default:
      return { kind: 'help', top: 0 }
  }
}

/** What was said when the part was closed before stands until it is typed over. */
function closing(state: SessionState, part: number): Mode {
  const stage = asksForEffort(state, part) ? 'effort' : 'confirm'
  return { kind: 'closing', part, stage, effort: state.partStates[part]?.effort ?? null }
}

function addOne(model: RecorderModel, context: RecorderContext): Updated {
  const like = isPausedSet(model)
  if (!like) return { model, effects: [] }
  const added = model.events.filter((event) => event.type === 'stepAdded').length
  const event: SessionEvent = {
    type: 'stepAdded',
    ...whenOf(model.now),
    step: `${like.id}+${added + 1}`,
    like: like.id,
  }
  const notice = `one more: ${like.kind === 'set' ? like.name : 'repeat'}`
  return applied({ ...model, notice }, [event], context)
}

/** Holds from now on, or goes on. */
function hold(model: RecorderModel): SessionEvent {
  const when = whenOf(model.now)
  return model.state.held ? { type: 'resumed', ...when } : { type: 'held', ...when, since: null }
}

/** The hold began when the last clock did: since the set ended. */
function heldBackwards(model: RecorderModel, context: RecorderContext): Updated {
  const { since } = model.state.phase
  if (!model.state.held || !since) return { model, effects: [] }
  const event: SessionEvent = { type: 'held', ...whenOf(model.now), since: localTimeOf(since) }
  return applied({ ...model, notice: 'stopped since this clock began' }, [event], context)
}

function pace(model: RecorderModel, step: SetStep | null, context: RecorderContext): Updated {
  if (!step) return { model, effects: [] }
  const on = !model.state.pace.has(step.name)
  const secondsPerRep = on ? secondsPerRepOf(step, context.secondsPerRep) : null
  const notice = on
    ? `${step.name}: the clock ends the groups but the last, ${secondsPerRep} s a repetition`
    : `${step.name}: you end the groups`
  const event: SessionEvent = { type: 'paceSet', ...whenOf(model.now), exercise: step.name, secondsPerRep }
  return applied({ ...model, notice }, [event], context)
}

/** What must still be typed before a part is closed, in words, what is under way among it; null when nothing is open. */
export function openInPart(model: RecorderModel, part: number): string | null {
  const underWay = stepUnderWay(model.state)
  const steps = underWay && isAsked(underWay) ? [...openSteps(model.state), underWay] : openSteps(model.state)
  const open = steps.filter((step) => step.part === part)
  if (open.length === 0) return null
  return `still open in ${partTitle(model.state, part)}: ${open.map((step) => stepTitle(step)).join(', ')}`
}
