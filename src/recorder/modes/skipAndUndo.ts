import { isSameItem, type Step } from '../../prescription/step.ts'
import { elapsedSeconds, momentOf, whenOf } from '../../session/clock.ts'
import type { SessionEvent } from '../../session/model.ts'
import { undoOf } from '../../session/replay.ts'
import { pendingSteps, type SessionState, stepOf } from '../../session/state.ts'
import { applyEvents, recording } from '../apply.ts'
import { clockLine } from '../clockText.ts'
import { entryTitle, stepTitle } from '../labels.ts'
import {
  partTitle,
  type RecorderContext,
  type RecorderModel,
  skippedByKey,
  stay,
  type Updated,
  withMode,
  withNotice,
} from '../model.ts'
import { isArrow, type ModeObject, panelWith, refused } from './mode.ts'

/** Skips the current step; pressed twice, the rest of the warm-up or of the item. Asks first while a result is still to
 * be entered: the field names that one, not the current step.
 * @param again whether the previous key was this one too */
export function skip(model: RecorderModel, again: boolean, context: RecorderContext): Updated {
  const when = whenOf(model.now)
  const step = skippedByKey(model)
  if (!step) return stay(model)
  const [pending] = pendingSteps(model.state)
  const last = model.events.at(-1)
  const skipped =
    again && last?.type === 'stepSkipped' && isJustNow(model, last) ? stepOf(model.state, last.step) : null
  if (skipped) {
    const warmUp = restOfWarmUp(model, skipped)
    if (warmUp.length > 0) {
      const notice = 'skipped: the rest of the warm-up'
      const events = warmUp.map((each): SessionEvent => ({ type: 'stepSkipped', ...when, step: each.id }))
      return applyEvents({ ...model, notice }, events, context)
    }
    const { part, item } = skipped
    if (isItemDone(model.state, skipped)) return withNotice(model, 'the item has nothing left to skip')
    const notice = 'skipped: the rest of the item'
    return applyEvents({ ...model, notice }, [{ type: 'itemSkipped', ...when, part, item }], context)
  }
  if (pending) return withMode(model, { kind: 'skipping', step: step.id, pending: pending.id })
  return skipStep(model, step.id, context)
}

/** Skips a step, and says so. */
function skipStep(model: RecorderModel, id: string, context: RecorderContext): Updated {
  const step = stepOf(model.state, id)
  if (!step) return stay(model)
  const skipped = applyEvents(
    { ...recording(model), pressedOnce: 's' },
    [{ type: 'stepSkipped', ...whenOf(model.now), step: id }],
    context,
  )
  const rest = restOfWarmUp(model, step).length > 0 ? 'warm-up' : 'item'
  const again = isItemDone(skipped.model.state, step) ? '' : `; s again skips the rest of the ${rest}`
  const notice = `skipped: ${entryTitle(model.state, step).label}${again}`
  return { ...skipped, model: { ...skipped.model, notice } }
}

/** Whether nothing is left of the item of a step. */
function isItemDone({ steps, passed }: SessionState, step: Step): boolean {
  return steps.every((each) => !isSameItem(each, step) || passed.has(each.id))
}

/** Seconds within which a second press belongs to the first. */
const soon = 5

function isJustNow(model: RecorderModel, event: SessionEvent): boolean {
  const at = momentOf(event, model.state.boot)
  return at !== null && elapsedSeconds(at, model.now) <= soon
}

/** The warm-up sets of the same item that are still to come. */
function restOfWarmUp({ state: { steps, passed } }: RecorderModel, step: Step): Step[] {
  return steps.filter(
    (each) =>
      each.kind === 'warm-up' && isSameItem(each, step) && each.id !== step.id && !passed.has(each.id),
  )
}

/** Undoes a result at once and says so; asks first before undoing a clock step. */
export function undo(model: RecorderModel, context: RecorderContext): Updated {
  const back = undoOf(model.events)
  if (!back) return stay(model)
  const what = back.times.length > 1 ? resultsWere(model, back.times) : whatWas(model.state, back.last)
  if (back.isAdvance) return withMode(model, { kind: 'undoing', from: back.from, what })
  return takeBack(model, { from: back.from, what }, context)
}

/** "the 4 results from repeat 1 of 4: 1.6 km to repeat 4 of 4: 1.6 km" */
function resultsWere({ state }: RecorderModel, steps: readonly string[]): string {
  const [first, last] = [steps[0], steps.at(-1)].map((id) => titleOf(state, id ?? ''))
  return `the ${steps.length} results from ${first} to ${last}`
}

function titleOf(state: SessionState, id: string): string {
  const step = stepOf(state, id)
  return step ? stepTitle(step) : 'a step'
}

/** Undoes everything from that event on. */
function takeBack(
  model: RecorderModel,
  back: { from: number; what: string },
  context: RecorderContext,
): Updated {
  const notice = `undone: ${back.what}`
  const event = { type: 'undone' as const, ...whenOf(model.now), from: back.from }
  return applyEvents({ ...recording(model), notice, echo: null }, [event], context)
}

/** Describes an event for the athlete: "the result of set 3 of 5", "the end of repeat 2 of 6". */
function whatWas(state: SessionState, event: SessionEvent): string {
  const of = (id: string) => titleOf(state, id)
  switch (event.type) {
    case 'setRecorded':
    case 'pieceRecorded':
    case 'prepRecorded':
    case 'fuelRecorded':
      return `the result of ${of(event.step)}`
    case 'mealRecorded':
      return `what was eaten ${event.meal}`
    case 'effortBegun':
      return `the start of ${of(event.step)}`
    case 'effortEnded':
    case 'startForgotten':
      return `the end of ${of(event.step)}`
    case 'groupEnded':
      return `the end of group ${event.group + 1} of ${of(event.step)}`
    case 'groupBegun':
      return `the start of group ${event.group + 1} of ${of(event.step)}`
    case 'stepSkipped':
      return `skipping ${of(event.step)}`
    case 'itemSkipped':
      return 'skipping the rest of the item'
    case 'restChanged':
      return `${event.seconds > 0 ? 'lengthening' : 'shortening'} the rest by ${Math.abs(event.seconds)} s`
    case 'stepAdded':
      return 'the added set or repeat'
    case 'exerciseSwapped':
      return `the swap to ${event.name}`
    case 'itemMoved':
      return 'the new order'
    case 'dayCut':
      return 'the cut'
    case 'noteAdded':
      return 'the note'
    case 'conditionsNoted':
      return 'the conditions'
    case 'held':
      return 'stopping the clocks'
    case 'resumed':
      return 'going on'
    case 'paceSet':
      return 'the pace'
    case 'partClosed':
      return `closing ${partTitle(state, event.part)}`
    case 'loadChosen':
      return `the load of ${of(event.step)}`
    default:
      return 'the last thing'
  }
}

export const undoing: ModeObject<'undoing'> = {
  panel: ({ state }, mode, now) => panelWith({ title: `undo ${mode.what}?`, lines: [clockLine(state, now)] }),
  hints: () => [
    { key: 'u', label: 'undo' },
    { key: 'Esc', label: 'cancel' },
  ],
  onKey: (model, mode, pressed, context) => {
    if (pressed === 'u') return takeBack(model, mode, context)
    return pressed === 'up' || pressed === 'down'
      ? stay(model)
      : refused(model, 'u takes it back, Esc cancels')
  },
  onEnter: takeBack,
}

export const skipping: ModeObject<'skipping'> = {
  panel: ({ state }, mode, now) =>
    panelWith({
      title: `Skip ${titleIn(state, mode.step)}?`,
      lines: [`${titleIn(state, mode.pending)} is still to be entered`, clockLine(state, now)],
    }),
  hints: () => [
    { key: 's', label: 'skip' },
    { key: '-', label: 'not done' },
    { key: 'Esc', label: 'cancel' },
  ],
  onKey: (model, mode, pressed, context) => {
    if (pressed === 's') return skipStep(model, mode.step, context)
    if (pressed === '-') return skipStep(model, mode.pending, context)
    return isArrow(pressed)
      ? stay(model)
      : refused(
          model,
          `s skips ${titleIn(model.state, mode.step)}, - ${titleIn(model.state, mode.pending)}, Esc neither`,
        )
  },
  onEnter: (model, mode, context) => skipStep(model, mode.step, context),
}

function titleIn(state: SessionState, id: string): string {
  const step = stepOf(state, id)
  return step ? entryTitle(state, step).label : 'the step'
}
