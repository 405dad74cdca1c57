import { type Step, stepsByItem } from '../../prescription/step.ts'
import type { SessionState } from '../../session/state.ts'
import { applyFacts, recording } from '../apply.ts'
import { keyRows } from '../keys.ts'
import { entryTitle, lineTitle, resultText, typedText } from '../labels.ts'
import { type RecorderModel, stay, type Updated, withMode } from '../model.ts'
import { leaveKey, type ModeObject, moved, panelWith } from './mode.ts'

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
  keys: ({ state }, mode) => {
    const steps = recordedSteps(state)
    return [
      { key: 'Enter', label: 'edit', run: (model) => stay(correctingOf(model, steps[mode.index])) },
      {
        key: '↑ ↓',
        label: 'pick',
        run: (model, pressed) =>
          withMode(model, { ...mode, index: moved(mode.index, pressed, steps.length) }),
      },
      leaveKey('cancel'),
    ]
  },
}

function correctingOf(model: RecorderModel, step: Step | undefined): RecorderModel {
  if (!step) return recording(model)
  const mode = { kind: 'correcting' as const, step: step.id, isRetyped: false }
  return { ...model, mode, draft: typedText(model.state, step), notice: null }
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
  keys: (_, mode) => {
    const { index } = mode
    const to = (model: RecorderModel, pressed: string) =>
      moved(index, pressed, itemsAhead(model.state).length)
    if (mode.carrying)
      return [
        { key: '↑ ↓', label: 'move', run: (model, pressed) => place(model, index, to(model, pressed)) },
        { key: 'Enter', label: 'drop', also: 'escape', run: (model) => stay(recording(model)) },
      ]
    return [
      { key: 'Enter', label: 'move', run: (model) => withMode(model, { ...mode, carrying: true }) },
      { key: 'b', label: 'begin', run: (model) => place(recording(model), index, 0) },
      {
        key: '↑ ↓',
        label: 'pick',
        run: (model, pressed) => withMode(model, { ...mode, index: to(model, pressed) }),
      },
      leaveKey('cancel'),
    ]
  },
}

/** The items still to come, each represented by its first step, in order. */
function itemsAhead(state: SessionState): Step[] {
  const ahead = state.steps.filter((step) => !state.passed.has(step.id))
  return stepsByItem(ahead).map((steps) => steps[0] as Step)
}

/** Moves an item among those ahead; in the list it stays picked up. */
function place(model: RecorderModel, from: number, to: number): Updated {
  const items = itemsAhead(model.state)
  const item = items[from]
  const before = items.filter((_, index) => index !== from)[to]
  if (!item || from === to) return stay(model)
  const { mode } = model
  return applyFacts(
    { ...model, mode: mode.kind === 'ordering' ? { ...mode, index: to } : mode },
    {
      type: 'itemMoved',
      item: [item.part, item.item],
      before: before ? [before.part, before.item] : null,
    },
  )
}

export const help: ModeObject<'help'> = {
  panel: (model) =>
    panelWith({
      title: 'keys',
      lines: keyRows.map((row) => {
        const reason = row.unavailable(model)
        return `${row.key.padEnd(6)} ${row.does}${reason === null ? '' : ` (not now: ${reason})`}`
      }),
      hang: 7,
      isWholePage: true,
    }),
  keys: () => [leaveKey('back')],
  otherKey: (model) => stay(recording(model)),
}
