import type { Moment } from '../../session/clock.ts'
import { movedBy } from '../list.ts'
import type { Mode, RecorderModel, Updated } from '../model.ts'

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
  /** The same in fewer lines, for small terminals; null if each item needs its own line. */
  compact: string[] | null
  /** The first visible line of a page that is longer than its room. */
  top: number
  /** It needs the width of the day strip, too. */
  isWholePage: boolean
}

/** The label of the entry line, and what Enter alone would record. */
export interface EntryLabel {
  label: string
  /** Instead of the label where that leaves too little room; absent without a shorter one. */
  short?: string
  placeholder: string
  /** False if keys pick from a list instead. */
  isField: boolean
}

/** A key in the key line. */
export interface Hint {
  /** As shown to people: `Space`, `↑ ↓`. */
  key: string
  /** Empty for the key alone. */
  label: string
  /** Goes before any other key, the last one too. */
  isVital?: boolean
}

export type ModeKind = Mode['kind']
export type ModeNamed<K extends ModeKind> = Extract<Mode, { kind: K }>

export interface ModeObject<K extends ModeKind> {
  /** Absent if the current step stays visible. */
  panel?(model: RecorderModel, mode: ModeNamed<K>, now: Moment): Panel
  /** Absent if there is no field: keys pick or answer instead. */
  prompt?(model: RecorderModel, mode: ModeNamed<K>): EntryLabel
  /** The key line, the most important key first. */
  hints(model: RecorderModel, mode: ModeNamed<K>): Hint[]
  /** A character, `up` or `down`; while recording only a command. Absent where the field holds free text, so that a
   * letter is never a command. */
  onKey?(model: RecorderModel, mode: ModeNamed<K>, pressed: string): Updated
  /** What a change of the field does, where it is not simply the field's new text; null where it is. */
  onText?(model: RecorderModel, mode: ModeNamed<K>, value: string): Updated | null
  onEnter(model: RecorderModel, mode: ModeNamed<K>): Updated
  /** Absent: goes back to recording, or clears a non-empty field first. */
  onEscape?(model: RecorderModel, mode: ModeNamed<K>): Updated
}

export function panelWith(panel: Pick<Panel, 'title' | 'lines'> & Partial<Panel>): Panel {
  return { selected: null, hang: 2, compact: null, top: 0, isWholePage: false, ...panel }
}

/** Answers a key without a meaning here with a short signal and the keys that have one. */
export function refused(model: RecorderModel, wanted: string): Updated {
  return { model: { ...model, notice: wanted }, effects: [{ kind: 'ring', signal: 'short' }] }
}

/** Enter saves, Escape clears the field first and then cancels. */
export function saveOrCancel(model: RecorderModel): Hint[] {
  return [
    { key: 'Enter', label: 'save' },
    { key: 'Esc', label: model.draft === '' ? 'cancel' : 'clear' },
  ]
}

export function isArrow(pressed: string): boolean {
  return pressed === 'up' || pressed === 'down'
}

/** The index after an arrow key, within a list of `count` lines. */
export function moved(index: number, pressed: string, count: number): number {
  return movedBy(index, pressed === 'up' ? -1 : pressed === 'down' ? 1 : 0, count)
}
