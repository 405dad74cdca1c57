import type { WarmUpOf } from '../prescription/expand.ts'
import type { EquipmentOf } from '../prescription/planned.ts'
import type { LiftCost } from '../progress/lift.ts'
import type { Moment } from '../session/clock.ts'
import type { Food } from '../session/entry/fuel.ts'
import type { Saved, SessionEvent } from '../session/model.ts'
import type { Pain } from '../session/pain.ts'
import type { SessionState } from '../session/state.ts'
import type { DistanceUnit, MassUnit } from '../units/model.ts'

/* The recorder without a screen: its model, its messages, its effects. update.ts turns a message into
 * a new model and effects; a shell draws, rings and saves. */

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

/** What the recorder shows and does while something is open: a question, a list, another use of the field. */
export interface ModeObject {
  /** Absent if the current step stays visible. */
  panel?(model: RecorderModel): Panel
  /** Absent if there is no field: keys pick or answer instead. */
  prompt?(model: RecorderModel): EntryLabel
  /** The most important key first. */
  keys(model: RecorderModel): ModeKey[]
  /** What any other key does; null where it has no meaning. */
  otherKey?(model: RecorderModel, pressed: string): Updated | null
  /** What a change of the field does, where it is not simply the field's new text; null where it is. */
  onText?(model: RecorderModel, value: string): Updated | null
  /** It is about the current step, so that Space, which ends or begins one, closes it. */
  isOfNow?: boolean
}

/** What the keys mean now. While recording it is the table of keys (`keys.ts`). */
export type Mode = { kind: 'recording' } | (ModeObject & { kind: OpenKind })

export type OpenKind =
  /** Keys answer it, and nothing is typed. */
  | 'question'
  | 'closing'
  | 'picking'
  | 'correcting'
  | 'swapping'
  | 'ordering'
  | 'timeLeft'
  | 'noting'
  | 'painToday'
  | 'help'

export interface RecorderModel {
  events: readonly SessionEvent[]
  state: SessionState
  readonly context: RecorderContext
  mode: Mode
  /** The text in the entry field. */
  draft: string
  /** When the text in the field was begun, last changed, and changed before that; null without any. */
  typing: { from: Moment; at: Moment; before: Moment } | null
  /** A half-typed entry from before the clock began an effort; it returns in the next rest. */
  aside: string | null
  now: Moment
  /** One line for the athlete: what was wrong, what was undone. */
  notice: string | null
  /** What was just recorded, shown large for a moment. */
  echo: { text: string; at: Moment } | null
  /** When the long signal last sounded; the word "go" is shown at the same time. */
  signalled: Moment | null
  saved: Saved
  /** A key that was pressed once and does more if pressed again at once. */
  pressedOnce: 's' | 'q' | null
  /** Letters typed one after the other that may spell a word, though they acted as commands, each with the model before
   * it. */
  letters: readonly { letter: string; at: Moment; before: RecorderModel }[]
  /** The last of them is a command that acts unless the word goes on. */
  isWaiting: boolean
  /** The last press of a key that counts once while held down. `next`: what the same key at once is: a repeat, another
   * press, or the sign that this press was a repeat already, which is taken back to this model. */
  lastPress: { name: string; at: Moment; next: 'repeat' | 'press' | RecorderModel } | null
}

export type Message =
  | { kind: 'tick'; now: Moment }
  /** The field's new text. */
  | { kind: 'typed'; value: string; now: Moment }
  /** A key that the field's editor does not handle (`takesPress`). */
  | { kind: 'press'; press: Press; now: Moment }

export type NamedKey =
  | 'enter'
  | 'escape'
  | 'tab'
  | 'backTab'
  | 'backspace'
  | 'delete'
  | 'insert'
  | 'up'
  | 'down'
  | 'left'
  | 'right'
  | 'home'
  | 'end'
  | 'pageUp'
  | 'pageDown'
  /** ctrl and a letter, lower case: `ctrl+c`. */
  | `ctrl+${string}`

/** A key from the keyboard. */
export type Press =
  | { kind: 'named'; name: NamedKey }
  /** One printable character (a code point): Space is `' '`. */
  | { kind: 'text'; text: string }
  /** Pasted text: never a command. Its lines end with a line feed; it has no other control character. */
  | { kind: 'paste'; text: string }

export function isKeyPress(message: Message, name: string): boolean {
  return message.kind === 'press' && message.press.kind === 'named' && message.press.name === name
}

export const recorderKeys = ['enter', 'escape', 'up', 'down', 'right', 'pageDown'] as const
export type RecorderKey = (typeof recorderKeys)[number]

export type Effect =
  | { kind: 'append'; events: SessionEvent[] }
  | { kind: 'ring'; signal: 'short' | 'long' }
  | { kind: 'leave' }

export interface Updated {
  model: RecorderModel
  effects: Effect[]
}

export function stay(model: RecorderModel): Updated {
  return { model, effects: [] }
}

export function withMode(model: RecorderModel, mode: Mode): Updated {
  return stay({ ...model, mode })
}

export function withNotice(model: RecorderModel, notice: string): Updated {
  return stay({ ...model, notice })
}

/** What the recorder cannot know by itself. */
export interface RecorderContext {
  warmUpOf: WarmUpOf
  equipmentOf: EquipmentOf
  /** Seconds per repetition for paced sets without a tempo. */
  secondsPerRep: number
  advice: boolean
  /** Highest heart rate from the settings; null if unknown. */
  hrMax: number | null
  /** What else counts on the day of a session, from other sessions and from mornings. */
  earlierToday: {
    /** Signs of the last 14 days that need a doctor, and what ended them; then the pains of the day. Each in the order
     * in which they were noted. */
    pains: readonly Pain[]
    hasFailed: boolean
  }
  /** What was done last time in this exercise, or on a running line with this text; null if never. */
  lastTime: (key: LastTimeOf) => string | null
  /** The foods that a typed meal may name. */
  foods: () => readonly Food[]
  /** Where the day is in the plan: "Thursday of week 3 of 19, 115 days to 10 km in 39:30"; null without a plan. */
  planned: string | null
  /** Estimated maxima of a lift fresh and after running, in kilograms; null without a clear difference. */
  runCost: (exercise: string) => Pick<LiftCost, 'freshKg' | 'afterRunKg' | 'isOnBody'> | null
  /** The exercises of earlier days, newest first. */
  exercises: () => readonly string[]
  /** The heaviest load for this many repetitions before today, and when; null without one. */
  bestBefore: (exercise: string, reps: number) => { kg: number; text: string } | null
}

/** An exercise, with the unit in which its loads need not name it, or a running line; `far`: the unit of its distances,
 * for one given by time. */
export type LastTimeOf = { exercise: string; unit: MassUnit } | { text: string; far?: DistanceUnit }

export function recorderOf(
  events: readonly SessionEvent[],
  state: SessionState,
  now: Moment,
  context: RecorderContext,
): RecorderModel {
  return {
    events,
    state,
    context,
    mode: { kind: 'recording' },
    draft: '',
    aside: null,
    typing: null,
    now,
    notice: null,
    echo: null,
    signalled: null,
    saved: { ok: true },
    pressedOnce: null,
    letters: [],
    isWaiting: false,
    lastPress: null,
  }
}
