import type { Moment } from '../../session/clock.ts'
import type { Mode, RecorderContext, RecorderModel, Updated } from '../model.ts'

/* Everything the recorder shows and does in one mode stands in one object, so that a new mode is one more
 * object and the compiler asks for it. */

/** A list, a question or a page, in the place of what is now. */
export interface Panel {
  title: string
  lines: string[]
  /** The line that is picked; null where there is nothing to pick. */
  selected: number | null
  /** Columns by which the continuation of a wrapped line is indented. */
  hang: number
  /** The same in fewer lines, for little room; null where each needs a line of its own. */
  compact: string[] | null
  /** The first line shown of a page that is longer than its room. */
  top: number
}

/** The label of the entry line, and what Enter alone would record. */
export interface EntryLabel {
  label: string
  placeholder: string
  /** False where keys pick from a list instead. */
  isField: boolean
}

export interface Hint {
  key: string
  label: string
}

export type ModeKind = Mode['kind']
export type ModeNamed<K extends ModeKind> = Extract<Mode, { kind: K }>

export interface ModeObject<K extends ModeKind> {
  /** The field holds free text, so that a letter is never a command. */
  takesText: boolean
  /** Null where what is now stays in its place. */
  panel(model: RecorderModel, mode: ModeNamed<K>, now: Moment, context: RecorderContext): Panel | null
  prompt(model: RecorderModel, mode: ModeNamed<K>): EntryLabel
  /** The key line, the most important key first. */
  hints(model: RecorderModel, mode: ModeNamed<K>): Hint[]
  /** A character, `up` or `down`, where the field takes no text; while recording only a command. */
  onKey(model: RecorderModel, mode: ModeNamed<K>, pressed: string, context: RecorderContext): Updated
  onEnter(model: RecorderModel, mode: ModeNamed<K>, context: RecorderContext): Updated
  /** Null: back to recording, or the field is cleared first when it holds something. */
  onEscape: ((model: RecorderModel, mode: ModeNamed<K>) => Updated) | null
}

export function panelWith(panel: Pick<Panel, 'title' | 'lines'> & Partial<Panel>): Panel {
  return { selected: null, hang: 2, compact: null, top: 0, ...panel }
}

export const noField: EntryLabel = { label: '', placeholder: '', isField: false }

export function stay(model: RecorderModel): Updated {
  return { model, effects: [] }
}

export function said(model: RecorderModel, notice: string): Updated {
  return { model: { ...model, notice }, effects: [] }
}

/** A key that means nothing here is answered with a short signal and the keys that do. */
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
  const by = pressed === 'up' ? -1 : pressed === 'down' ? 1 : 0
  return Math.max(0, Math.min(count - 1, index + by))
}

/** `x 100`, `102.5 kg`, `x 72.5 kg @9`: a load without repetitions. */
export function isLoadAlone(text: string): boolean {
  const load = /^(x\s*)?(2\s*x\s*)?\d+([.,]\d+)?\s*(kg|lb)?(\s*(!|[@"=]|(rpe|rir|pain)\b).*)?$/i
  return load.test(text) && (/^x/i.test(text) || /\d\s*(kg|lb)\b/i.test(text))
}
