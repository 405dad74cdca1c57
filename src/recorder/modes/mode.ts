import type { Moment } from '../../session/clock.ts'
import { type SessionState, stepOf } from '../../session/state.ts'
import { formatClock } from '../../units/duration.ts'
import { skipStep, takeBack } from '../changes.ts'
import { clockText } from '../clockText.ts'
import { entryTitle, stepTitle } from '../labels.ts'
import { movedBy } from '../list.ts'
import type { Mode, RecorderContext, RecorderModel, Updated } from '../model.ts'
import { take } from '../record.ts'

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

export interface Hint {
  key: string
  label: string
  /** In a narrow line, goes before any other key. */
  isVital?: boolean
}

export type ModeKind = Mode['kind']
export type ModeNamed<K extends ModeKind> = Extract<Mode, { kind: K }>

export interface ModeObject<K extends ModeKind> {
  /** The field holds free text, so a letter is never a command. */
  takesText: boolean
  /** Null if the current step stays visible. */
  panel(model: RecorderModel, mode: ModeNamed<K>, now: Moment, context: RecorderContext): Panel | null
  prompt(model: RecorderModel, mode: ModeNamed<K>): EntryLabel
  /** The key line, the most important key first. */
  hints(model: RecorderModel, mode: ModeNamed<K>): Hint[]
  /** A character, `up` or `down`, when the field takes no text; while recording only a command. */
  onKey(model: RecorderModel, mode: ModeNamed<K>, pressed: string, context: RecorderContext): Updated
  /** What a change of the field does, where it is not simply the field's new text; null where it is. */
  onText?(model: RecorderModel, mode: ModeNamed<K>, value: string): Updated | null
  onEnter(model: RecorderModel, mode: ModeNamed<K>, context: RecorderContext): Updated
  /** Null: goes back to recording, or clears a non-empty field first. */
  onEscape: ((model: RecorderModel, mode: ModeNamed<K>) => Updated) | null
}

export function panelWith(panel: Pick<Panel, 'title' | 'lines'> & Partial<Panel>): Panel {
  return { selected: null, hang: 2, compact: null, top: 0, isWholePage: false, ...panel }
}

export const noField: EntryLabel = { label: '', placeholder: '', isField: false }

export function stay(model: RecorderModel): Updated {
  return { model, effects: [] }
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

/** `x 100`, `102.5 kg`, `+2.5`, `x 72.5 kg @9`, `x 80 pain left knee`: a load without repetitions, perhaps with what else
 * is said of the set. */
export function isWithoutReps(text: string): boolean {
  const load =
    /^(x\s*)?(2\s*x\s*)?\d+([.,]\d+)?\s*(kg|lb)?(\s*(!|[@"=]|(rpe|rir|pain)\b|(?<=\s)\d\s*rir\b).*)?$/i
  const change = /^(x\s*)?[+]\d+([.,]\d+)?\s*(kg|lb)?$/i
  return change.test(text) || (load.test(text) && (/^x/i.test(text) || /\d\s*(kg|lb)\b/i.test(text)))
}

/* The modes that ask before acting: a questioned value, several results at once, undoing a clock step. */

export const question: ModeObject<'question'> = {
  takesText: false,
  panel: ({ state }, mode, now) =>
    panelWith({
      title: mode.message,
      lines: [
        ...(mode.suggested && !mode.byClock ? [`meant: ${mode.suggested.text}`] : []),
        clockLine(state, now),
      ],
    }),
  prompt: () => noField,
  hints: (_, mode) => [
    ...(mode.suggested ? [{ key: 'Enter', label: acceptWord(mode) }] : []),
    ...(mode.insisted ? [{ key: '!', label: 'as typed' }] : []),
    ...(mode.corrects === undefined ? [] : [{ key: 'e', label: 'correct' }]),
    { key: 'Esc', label: 'back' },
  ],
  onKey: (model, mode, pressed, context) => {
    if (pressed === 'e' && mode.corrects !== undefined)
      return stay({ ...model, mode: { kind: 'correcting', step: mode.corrects, isAnew: true }, notice: null })
    if (pressed === '!') return take(model, mode.steps, mode.insisted, context)
    const keys = [
      ...(mode.suggested ? [`Enter ${acceptWord(mode)}`] : []),
      ...(mode.insisted ? ['! as typed'] : []),
      'Esc back',
    ]
    return typedAnew(model, mode.back, pressed) ?? refused(model, `Answer first: ${keys.join(', ')}`)
  },
  onEnter: (model, mode, context) => {
    if (!mode.suggested && mode.insisted)
      return { model: { ...model, notice: '! takes it as typed, Esc goes back to the field' }, effects: [] }
    return take(model, mode.steps, mode.suggested?.answers ?? null, context)
  },
  onEscape: (model, mode) => ({
    model: {
      ...model,
      mode: mode.back,
      draft: '',
      notice: wasText(model),
    },
    effects: [],
  }),
}

/** A digit does not answer the question: it begins the result anew, and the next Enter is about that. Null for any other
 * key. */
function typedAnew(model: RecorderModel, back: Mode, pressed: string): Updated | null {
  return /^\d$/.test(pressed) ? stay({ ...model, mode: back, draft: pressed, notice: wasText(model) }) : null
}

function wasText({ draft }: RecorderModel): string | null {
  return draft === '' ? null : `was: ${draft}`
}

/** A time measured by the clock is kept; what was typed otherwise is confirmed. */
function acceptWord(mode: ModeNamed<'question'>): string {
  return mode.byClock ? 'keep' : 'yes'
}

export const several: ModeObject<'several'> = {
  takesText: false,
  panel: ({ state }, mode) =>
    panelWith({
      title: 'these results, in order',
      lines: mode.answers.map((answer, index) => {
        const step = stepOf(state, mode.steps[index] ?? '')
        const seconds = answer.kind === 'interval' ? answer.result.seconds : null
        const result = seconds === null ? 'done' : formatClock(seconds, 1).replace(/\.0$/, '')
        return `${step ? stepTitle(step, state.prescription.units.distance) : ''}  ${result}`
      }),
    }),
  prompt: () => noField,
  hints: () => [
    { key: 'Enter', label: 'save' },
    { key: 'Esc', label: 'back' },
  ],
  onKey: (model, mode, pressed) =>
    typedAnew(model, mode.back, pressed) ?? refused(model, 'Enter saves them, Esc goes back to the field'),
  onEnter: (model, mode, context) => take(model, mode.steps, mode.answers, context),
  onEscape: (model, mode) => ({ model: { ...model, mode: mode.back, notice: null }, effects: [] }),
}

export const undoing: ModeObject<'undoing'> = {
  takesText: false,
  panel: ({ state }, mode, now) => panelWith({ title: `undo ${mode.what}?`, lines: [clockLine(state, now)] }),
  prompt: () => noField,
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
  onEscape: null,
}

export const skipping: ModeObject<'skipping'> = {
  takesText: false,
  panel: ({ state }, mode, now) =>
    panelWith({
      title: `Skip ${titleIn(state, mode.step)}?`,
      lines: [`${titleIn(state, mode.pending)} is still to be entered`, clockLine(state, now)],
    }),
  prompt: () => noField,
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
  onEscape: null,
}

function titleIn(state: SessionState, id: string): string {
  const step = stepOf(state, id)
  return step ? entryTitle(state, step).label : 'the step'
}

/** The clock keeps running during a question. */
function clockLine(state: SessionState, now: Moment): string {
  const { label, text } = clockText(state, now)
  return `${label} ${text}`
}
