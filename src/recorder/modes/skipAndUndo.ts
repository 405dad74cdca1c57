import { hasResult, isSameItem, type Step } from '../../prescription/step.ts'
import { elapsedSeconds, momentOf } from '../../session/clock.ts'
import type { Recording, SessionEvent } from '../../session/model.ts'
import { stepTitle } from '../../session/names.ts'
import type { Fact } from '../../session/newEvents.ts'
import type { LastDone } from '../../session/replay.ts'
import {
  type EventOf,
  isRecording,
  pendingSteps,
  type SessionState,
  stepOf,
  stepUnderWay,
} from '../../session/state.ts'
import { applyFacts, recording, takeBack } from '../apply.ts'
import { entryTitle, partTitle } from '../labels.ts'
import { type RecorderModel, type Updated, withNotice } from '../model.ts'
import { ask, leaveKey } from './keysAndPanels.ts'
import { typesAgain } from './questions.ts'

/** Skips the current step; pressed twice, the rest of the warm-up or of the item. Asks first while a result is still to
 * be entered: the field names that one, not the current step.
 * @param again whether the previous key was this one too */
export function skip(model: RecorderModel, step: Step, again: boolean): Updated {
  const { state } = model
  const last = model.events.at(-1)
  const skipped =
    again && last?.type === 'stepSkipped' && isJustNow(model, last) ? stepOf(state, last.step) : null
  if (skipped) return skipRest(model, skipped)
  const [pending] = pendingSteps(state)
  if (!pending) return skipStep(model, step)
  const titleIn = (each: Step) => entryTitle(state, each).label
  const question = {
    title: `Skip ${titleIn(step)}?`,
    lines: [`${titleIn(pending)} is still to be entered`],
    isOfNow: true,
  }
  return ask(
    model,
    question,
    [
      { key: 's', label: 'skip', also: 'enter', run: (now) => skipStep(now, step) },
      { key: '-', label: 'not done', run: (now) => skipStep(now, pending) },
      leaveKey('cancel'),
    ],
    typesAgain(model.mode),
  )
}

/** Seconds within which a second press belongs to the first. */
const soon = 5

function isJustNow(model: RecorderModel, event: SessionEvent): boolean {
  const at = momentOf(event, model.state.boot)
  return at !== null && elapsedSeconds(at, model.now) <= soon
}

/** Skips what is left of the warm-up of a skipped step, else of its item. */
function skipRest(model: RecorderModel, skipped: Step): Updated {
  const { part, item } = skipped
  if (isItemDone(model.state, skipped)) return withNotice(model, 'the item has nothing left to skip')
  const warmUp = restOfWarmUp(model, skipped)
  const isWarmUp = warmUp.length > 0
  const facts = warmUp.map(({ id }): Fact => ({ type: 'stepSkipped', step: id }))
  return applyFacts(
    { ...model, notice: `skipped: the rest of the ${isWarmUp ? 'warm-up' : 'item'}` },
    ...(isWarmUp ? facts : [{ type: 'itemSkipped' as const, part, item }]),
  )
}

function skipStep(model: RecorderModel, step: Step): Updated {
  const steps = [...recoveryAlong(model.state, step), step]
  const facts = steps.map((each): Fact => ({ type: 'stepSkipped', step: each.id }))
  const skipped = applyFacts({ ...recording(model), pressedOnce: 's' }, ...facts)
  const rest = restOfWarmUp(model, step).length > 0 ? 'warm-up' : 'item'
  const again = isItemDone(skipped.model.state, step) ? '' : `; s again skips the rest of the ${rest}`
  const notice = `skipped: ${entryTitle(model.state, step).label}${again}`
  return { ...skipped, model: { ...skipped.model, notice } }
}

/** The recovery after a repeat that is skipped before it has begun: nobody recovers from what was not run. */
function recoveryAlong(state: SessionState, step: Step): Step[] {
  if (step.kind !== 'interval' || stepUnderWay(state)?.id === step.id) return []
  const after = state.steps[state.steps.indexOf(step) + 1]
  return after?.kind === 'recovery' && isSameItem(after, step) && !state.passed.has(after.id) ? [after] : []
}

function isItemDone({ steps, passed }: SessionState, step: Step): boolean {
  return steps.every((each) => !isSameItem(each, step) || passed.has(each.id))
}

function restOfWarmUp({ state: { steps, passed } }: RecorderModel, step: Step): Step[] {
  return steps.filter(
    (each) =>
      each.kind === 'warm-up' && isSameItem(each, step) && each.id !== step.id && !passed.has(each.id),
  )
}

/** Undoes a result at once and says so; asks first before undoing a clock step. */
export function undo(model: RecorderModel, { from, results, last, isAdvance }: LastDone): Updated {
  const asked = results.flatMap((id) => stepOf(model.state, id) ?? []).filter(hasResult)
  const latest = asked.at(-1)
  const what =
    latest !== undefined && asked.length > 1
      ? `the ${asked.length} results up to ${stepTitle(model.state, latest)}`
      : eventText(model.state, last)
  const undone = (now: RecorderModel): Updated =>
    takeBack({ ...recording(now), notice: `undone: ${what}`, echo: null }, from)
  if (!isAdvance) return undone(model)
  return ask(
    model,
    { title: `undo ${what}?`, lines: [], isOfNow: true },
    [{ key: 'u', label: 'undo', also: 'enter', run: undone }, leaveKey('cancel')],
    typesAgain(model.mode),
  )
}

function titleOf(state: SessionState, id: string): string {
  const step = stepOf(state, id)
  return step ? stepTitle(state, step) : 'a step'
}

/** The events that `u` names by their kind; a result is named by its step, a closed part by its title. */
type NamedEvent = Exclude<
  SessionEvent['type'],
  | Recording['type']
  | 'sessionStarted'
  | 'opened'
  | 'partClosed'
  | 'sessionFinished'
  | 'sessionReopened'
  | 'undone'
>

/** What `u` undoes, in words, by its last event. `step`: the title of the event's step */
const undoTexts: { [T in NamedEvent]: (event: EventOf<T>, step: string) => string } = {
  mealRecorded: ({ meal }) => `what was eaten ${meal}`,
  effortBegun: (_, step) => `the start of ${step}`,
  effortEnded: (_, step) => `the end of ${step}`,
  startForgotten: (_, step) => `the end of ${step}`,
  groupEnded: ({ group }, step) => `the end of group ${group + 1} of ${step}`,
  groupBegun: ({ group }, step) => `the start of group ${group + 1} of ${step}`,
  stepSkipped: (_, step) => `skipping ${step}`,
  itemSkipped: () => 'skipping the rest of the item',
  restChanged: ({ seconds }) =>
    `${seconds > 0 ? 'lengthening' : 'shortening'} the rest by ${Math.abs(seconds)} s`,
  stepAdded: () => 'the added set or repeat',
  exerciseSwapped: ({ name }) => `the swap to ${name}`,
  itemMoved: () => 'the new order',
  dayCut: () => 'the cut',
  noteAdded: () => 'the note',
  conditionsNoted: () => 'the conditions',
  held: () => 'stopping the clocks',
  resumed: () => 'starting the clocks again',
  paceSet: () => 'the pace',
  loadChosen: (_, step) => `the load of ${step}`,
}

function eventText(state: SessionState, event: SessionEvent): string {
  if (isRecording(event)) return `the result of ${titleOf(state, event.step)}`
  if (event.type === 'partClosed') return `closing ${partTitle(state, event.part)}`
  const textOf = undoTexts[event.type as NamedEvent] as
    | ((event: SessionEvent, step: string) => string)
    | undefined
  return textOf?.(event, 'step' in event ? titleOf(state, event.step) : '') ?? 'the last thing'
}
