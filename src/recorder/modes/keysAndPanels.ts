import { movedBy } from '../../units/lists.ts'
import { recording } from '../apply.ts'
import {
  type Mode,
  type ModeKey,
  type ModeObject,
  type Panel,
  type RecorderModel,
  stay,
  type Updated,
} from '../model.ts'

/* What modes share. Each mode is made by a function of its own, with what it shows and does side by side. */

export type Question = Pick<Panel, 'title' | 'lines'> & Pick<ModeObject, 'isOfNow'>

export function panelWith(panel: Question & Partial<Panel>): Panel {
  return { selected: null, hang: 2, isWholePage: false, ...panel }
}

/** Opens a question with a key for each answer. */
export function ask(
  model: RecorderModel,
  { isOfNow, ...question }: Question,
  keys: ModeKey[],
  otherKey?: ModeObject['otherKey'],
): Updated {
  const panel = () => panelWith(question)
  const mode: Mode = { kind: 'question', panel, keys: () => keys, otherKey, isOfNow }
  return stay({ ...model, mode, notice: null })
}

/** Enter saves what is typed, Escape clears the field first, then cancels.
 * @param isTyped whether there is anything to clear */
export function saveOrCancel(save: ModeKey['run'], isTyped: boolean): ModeKey[] {
  return [{ key: 'Enter', label: 'save', run: save }, isTyped ? clearKey : leaveKey('cancel')]
}

export const clearKey: ModeKey = {
  key: 'Esc',
  label: 'clear',
  run: (model) => stay({ ...model, draft: '', notice: null }),
}

/** Escape goes back to recording. */
export function leaveKey(label: string): ModeKey {
  return { key: 'Esc', label, run: (model) => stay(recording(model)) }
}

const named: Readonly<Record<string, readonly string[]>> = {
  Space: [' '],
  Enter: ['enter'],
  Esc: ['escape'],
  '↑ ↓': ['up', 'down'],
}

/** Whether a key as shown to people is the one with this name on the keyboard. */
export function isKey(key: string, pressed: string): boolean {
  return (named[key] ?? [key]).includes(pressed)
}

/** The index after an arrow key, within a list of `count` lines. */
export function moved(index: number, pressed: string, count: number): number {
  return movedBy(index, pressed === 'up' ? -1 : 1, count)
}

/** A digit, or a sign that can begin an entry. Without its sign `@9` would be nine repetitions. */
export const beginsEntry = /^[\dx@+="-]$/
