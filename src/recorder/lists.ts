import type { Step } from '../prescription/step.ts'
import { whenOf } from '../session/clock.ts'
import type { WalkState } from '../session/state.ts'
import { applied, recording } from './apply.ts'
import { stepsByItem } from './availability.ts'
import { takeBack } from './changes.ts'
import { keyRows } from './keys.ts'
import type { RecorderContext, RecorderModel, Updated } from './model.ts'
import { take } from './record.ts'

/** A key, or a character, where a list or a question is shown instead of the entry. */
export function keyInList(model: RecorderModel, pressed: string, context: RecorderContext): Updated {
  const { mode } = model
  switch (mode.kind) {
    case 'question':
      return pressed === '!' ? take(model, mode.steps, mode.insisted, context) : stay(model)
    case 'undoing':
      return pressed === 'u' ? takeBack(model, mode, context) : stay(model)
    case 'picking':
      return {
        model: {
          ...model,
          mode: { ...mode, index: moved(mode.index, pressed, recordedSteps(model.state).length) },
        },
        effects: [],
      }
    case 'ordering':
      return inOrder(model, mode, pressed, context)
    case 'help':
      if (pressed === 'up' || pressed === 'down')
        return {
          model: { ...model, mode: { ...mode, top: moved(mode.top, pressed, keyRows.length) } },
          effects: [],
        }
      return { model: recording(model), effects: [] }
    default:
      return stay(model)
  }
}

function stay(model: RecorderModel): Updated {
  return { model, effects: [] }
}

function moved(index: number, pressed: string, count: number): number {
  const by = pressed === 'up' ? -1 : pressed === 'down' ? 1 : 0
  return Math.max(0, Math.min(count - 1, index + by))
}

/** The steps with a result, in the order of the day. */
export function recordedSteps(state: WalkState): Step[] {
  return state.steps.filter((step) => state.recorded.has(step.id))
}

/** Takes the picked result to be typed again. */
export function pick(model: RecorderModel): Updated {
  if (model.mode.kind !== 'picking') return stay(model)
  const step = recordedSteps(model.state)[model.mode.index]
  if (!step) return { model: recording(model), effects: [] }
  return {
    model: { ...model, mode: { kind: 'correcting', step: step.id }, draft: '', notice: null },
    effects: [],
  }
}

/** The items that are still to come, each by its first step, in order. */
export function itemsAhead(state: WalkState): Step[] {
  const ahead = state.steps.filter((step) => !state.passed.has(step.id))
  return stepsByItem(ahead).map((steps) => steps[0] as Step)
}

function inOrder(
  model: RecorderModel,
  mode: Extract<RecorderModel['mode'], { kind: 'ordering' }>,
  pressed: string,
  context: RecorderContext,
): Updated {
  const items = itemsAhead(model.state)
  const index = moved(mode.index, pressed, items.length)
  if (pressed === 'b') return place(model, mode.index, 0, context, true)
  if (!mode.carrying || index === mode.index)
    return { model: { ...model, mode: { ...mode, index } }, effects: [] }
  return place(model, mode.index, index, context, false)
}

/** Enter in the list of the order: takes an item up, or lets it go where it is. */
export function placeItem(model: RecorderModel): Updated {
  if (model.mode.kind !== 'ordering') return stay(model)
  if (model.mode.carrying) return { model: recording(model), effects: [] }
  return { model: { ...model, mode: { ...model.mode, carrying: true } }, effects: [] }
}

function place(
  model: RecorderModel,
  from: number,
  to: number,
  context: RecorderContext,
  leave: boolean,
): Updated {
  const items = itemsAhead(model.state)
  const item = items[from]
  const rest = items.filter((_, index) => index !== from)
  if (!item) return stay(model)
  const before = rest[to]
  const event = {
    type: 'itemMoved' as const,
    ...whenOf(model.now),
    item: [item.part, item.item] as [number, number],
    before: before ? ([before.part, before.item] as [number, number]) : null,
  }
  const mode = { kind: 'ordering' as const, index: to, carrying: true }
  return applied(leave ? recording(model) : { ...model, mode }, from === to ? [] : [event], context)
}
