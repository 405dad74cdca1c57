import { type Step, stepsByItem } from '../../prescription/step.ts'
import { whenOf } from '../../session/clock.ts'
import type { SessionState } from '../../session/state.ts'
import { applyEvents, recording } from '../apply.ts'
import { keyRows } from '../keys.ts'
import { entryTitle, lineTitle, resultText, typedText } from '../labels.ts'
import { type RecorderModel, stay, type Updated, withMode } from '../model.ts'
import { isArrow, type ModeObject, moved, panelWith, refused } from './mode.ts'

/* The modes in which arrow keys pick from a list, and the page of keys. */

export const picking: ModeObject<'picking'> = {
  panel: ({ state }, mode) =>
    panelWith({
      title: 'correct which result?',
      lines: recordedSteps(state).map((step) => {
        const line = step.kind === 'interval' ? `${lineTitle(state, step).label}, ` : ''
        return `${line}${entryTitle(state, step).label}: ${resultText(state, step) ?? ''}`
      }),
      selected: mode.index,
    }),
  hints: () => [
    { key: 'Enter', label: 'edit' },
    { key: '↑ ↓', label: 'pick' },
    { key: 'Esc', label: 'cancel' },
  ],
  onKey: (model, mode, pressed) => {
    if (!isArrow(pressed)) return refused(model, 'Enter edits the result, Esc cancels')
    const index = moved(mode.index, pressed, recordedSteps(model.state).length)
    return withMode(model, { ...mode, index })
  },
  onEnter: (model, mode) => {
    const step = recordedSteps(model.state)[mode.index]
    if (!step) return stay(recording(model))
    return stay({
      ...model,
      mode: { kind: 'correcting', step: step.id, isAnew: false },
      draft: typedText(model.state, step),
      notice: null,
    })
  },
}

/** The steps with a result, in the order of the day. */
function recordedSteps(state: SessionState): Step[] {
  return state.steps.filter((step) => state.recorded.has(step.id))
}

export const ordering: ModeObject<'ordering'> = {
  panel: ({ state }, mode) =>
    panelWith({
      title: mode.carrying ? 'move it with the arrows' : 'the order of what is left',
      lines: itemsAhead(state).map((step) => state.parts[step.part]?.items[step.item]?.text ?? ''),
      selected: mode.index,
    }),
  hints: (_, mode) =>
    mode.carrying
      ? [
          { key: '↑ ↓', label: 'move' },
          { key: 'Enter', label: 'drop' },
        ]
      : [
          { key: 'Enter', label: 'move' },
          { key: 'b', label: 'begin' },
          { key: '↑ ↓', label: 'pick' },
          { key: 'Esc', label: 'cancel' },
        ],
  onKey: (model, mode, pressed) => {
    if (pressed === 'b') return place(model, mode.index, 0, true)
    if (!isArrow(pressed))
      return refused(
        model,
        mode.carrying ? 'Enter drops the item' : 'Enter moves the item, b begins it, Esc cancels',
      )
    const index = moved(mode.index, pressed, itemsAhead(model.state).length)
    if (!mode.carrying || index === mode.index) return withMode(model, { ...mode, index })
    return place(model, mode.index, index, false)
  },
  onEnter: (model, mode) =>
    stay(mode.carrying ? recording(model) : { ...model, mode: { ...mode, carrying: true } }),
}

/** The items still to come, each represented by its first step, in order. */
function itemsAhead(state: SessionState): Step[] {
  const ahead = state.steps.filter((step) => !state.passed.has(step.id))
  return stepsByItem(ahead).map((steps) => steps[0] as Step)
}

function place(model: RecorderModel, from: number, to: number, leave: boolean): Updated {
  const items = itemsAhead(model.state)
  const item = items[from]
  const before = items.filter((_, index) => index !== from)[to]
  if (!item) return stay(model)
  const event = {
    type: 'itemMoved' as const,
    ...whenOf(model.now),
    item: [item.part, item.item] as [number, number],
    before: before ? ([before.part, before.item] as [number, number]) : null,
  }
  const mode = { kind: 'ordering' as const, index: to, carrying: true }
  return applyEvents(leave ? recording(model) : { ...model, mode }, from === to ? [] : [event])
}

export const help: ModeObject<'help'> = {
  panel: (model, mode) =>
    panelWith({
      title: 'keys',
      lines: keyRows.map((row) => {
        const reason = row.unavailable(model)
        return `${row.key.padEnd(6)} ${row.does}${reason === null ? '' : ` (not now: ${reason})`}`
      }),
      hang: 7,
      top: mode.top,
      isWholePage: true,
    }),
  hints: () => [
    { key: 'Esc', label: 'back' },
    { key: '↑ ↓', label: 'scroll' },
  ],
  onKey: (model, mode, pressed) =>
    pressed === 'up' || pressed === 'down'
      ? withMode(model, { ...mode, top: moved(mode.top, pressed, keyRows.length) })
      : stay(recording(model)),
  onEnter: (model) => stay(recording(model)),
}
