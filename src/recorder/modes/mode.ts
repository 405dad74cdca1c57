import { movedBy } from '../../units/lists.ts'
import { recording } from '../apply.ts'
import { type Mode, type RecorderModel, stay, type Updated } from '../model.ts'

/* One object holds everything the recorder shows and does in a mode, so that a new mode is one more
 * object, and the compiler reports it if it is missing. */

/** A list, a question or a page, shown instead of the current step. */
export interface Panel {
  title: string
  lines: string[]
  /** The picked line; null if there is nothing to pick. */
  selected: number | null
  /** Columns by which continuation lines are indented. */
  hang: number
  /** It takes the width of the day panel, too. */
  isWholePage: boolean
}

/** The label of the entry line, and what Enter alone would record. */
export interface EntryLabel {
  label: string
  /** Instead of the label where that leaves too little room; absent without a shorter one. */
  short?: string
  placeholder: string
}

/** A key in the key line. */
export interface Hint {
  /** As shown to people: `Space`, `↑ ↓`. */
  key: string
  /** Empty for the key alone. */
  label: string
  /** Takes precedence over every other key, even the last one. */
  isVital?: boolean
}

/** A key of a mode. The key line and the answer to any other key name it. */
export interface ModeKey extends Hint {
  /** Another key that does the same, not named. */
  also?: string
  /** @param pressed its name on the keyboard: `enter`, `escape`, `up`, a character */
  run(model: RecorderModel, pressed: string): Updated
}

export type ModeKind = Mode['kind']
export type ModeNamed<K extends ModeKind> = Extract<Mode, { kind: K }>

export interface ModeObject<K extends ModeKind> {
  /** Absent if the current step stays visible. */
  panel?(model: RecorderModel, mode: ModeNamed<K>): Panel
  /** Absent if there is no field: keys pick or answer instead. */
  prompt?(model: RecorderModel, mode: ModeNamed<K>): EntryLabel
  /** The most important key first. */
  keys(model: RecorderModel, mode: ModeNamed<K>): ModeKey[]
  /** What any other key does; null where it has no meaning. */
  otherKey?(model: RecorderModel, mode: ModeNamed<K>, pressed: string): Updated | null
  /** What a change of the field does, where it is not simply the field's new text; null where it is. */
  onText?(model: RecorderModel, mode: ModeNamed<K>, value: string): Updated | null
}

export function panelWith(panel: Pick<Panel, 'title' | 'lines'> & Partial<Panel>): Panel {
  return { selected: null, hang: 2, isWholePage: false, ...panel }
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
