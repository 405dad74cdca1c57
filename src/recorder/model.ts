import type { Equipment } from '../figures/bar.ts'
import type { RampOf } from '../prescription/expand.ts'
import type { Prescription } from '../prescription/model.ts'
import type { Moment } from '../session/clock.ts'
import type { Food } from '../session/entry/foods.ts'
import type { SessionEvent } from '../session/model.ts'
import type { Answer } from '../session/prompt.ts'
import type { SessionState } from '../session/state.ts'
import type { MassUnit } from '../units/model.ts'

/* The recorder without a screen: what it knows, what it is told, what it wants done. update.ts turns one
 * into the other; a shell draws, rings and saves. */

/** What the keys mean at the moment. */
export type Mode =
  | { kind: 'recording' }
  /** A value was questioned: Enter takes what is suggested, `!` takes it as typed, Escape goes `back`. */
  | {
      kind: 'question'
      message: string
      steps: string[]
      suggested: { text: string; answers: Answer[] } | null
      insisted: Answer[] | null
      back: Mode
      /** The result that `e` corrects with what was typed instead. */
      corrects?: string
      /** It is about what the clock took, not about anything typed. */
      byClock?: boolean
    }
  /** Several results on one line, shown before Enter takes them. */
  | { kind: 'several'; steps: string[]; answers: Answer[]; back: Mode }
  | { kind: 'undoing'; from: number; what: string }
  /** `confirm`: prep and fuel have neither an effort nor minutes. */
  | { kind: 'closing'; part: number; stage: 'effort' | 'minutes' | 'confirm'; effort: number | null }
  /** Picking an earlier result to type it again. */
  | { kind: 'picking'; index: number }
  | { kind: 'correcting'; step: string }
  | { kind: 'swapping'; step: string }
  | { kind: 'ordering'; index: number; carrying: boolean }
  | { kind: 'timeLeft' }
  | { kind: 'cutOffered'; minutes: number; steps: string[]; lines: string[] }
  | { kind: 'noting' }
  /** The page of keys, from this line on. */
  | { kind: 'help'; top: number }

export interface RecorderModel {
  events: readonly SessionEvent[]
  state: SessionState
  mode: Mode
  /** The text in the entry field. */
  draft: string
  /** Half-typed when a clock began an effort by itself: back in the next rest. */
  aside: string | null
  now: Moment
  /** One line for the athlete: what was wrong, what was taken back. */
  notice: string | null
  /** What was just recorded, shown large for a moment. */
  echo: { text: string; at: Moment } | null
  /** When the long signal last sounded: the word "go" is shown with it. */
  signalled: Moment | null
  saved: { ok: true } | { ok: false; reason: string }
  /** The key that was pressed once and does more when pressed again at once. */
  pressedOnce: 's' | 'q' | null
  /** Letters that were commands and may turn out to spell an entry word, and how many events preceded the first. */
  spelling: { letters: string; at: Moment; from: number } | null
  /** The last press of a key that must not repeat while it is held down. */
  lastPress: { name: string; at: Moment } | null
}

export type Message =
  | { kind: 'tick'; now: Moment }
  /** The field would now hold this. */
  | { kind: 'typed'; value: string; now: Moment }
  /** A key that is not the field editor's (`takesPress`). */
  | { kind: 'press'; press: Press; now: Moment }
  | { kind: 'key'; key: RecorderKey; now: Moment }
  | { kind: 'saved'; saved: RecorderModel['saved'] }

/** A key as the keyboard reports it. A paste is one press, and its text never a command. */
export type Press =
  | { kind: 'text'; text: string }
  | { kind: 'named'; name: string }
  | { kind: 'paste'; text: string }

/** Keys that are no text. */
export type RecorderKey = 'enter' | 'escape' | 'up' | 'down' | 'right' | 'pageDown'

export type Effect =
  | { kind: 'append'; events: SessionEvent[] }
  | { kind: 'ring'; signal: 'short' | 'long' }
  | { kind: 'leave' }

export interface Updated {
  model: RecorderModel
  effects: Effect[]
}

/** What the recorder cannot know by itself. */
export interface RecorderContext {
  rampOf: RampOf
  equipmentOf: (unit: MassUnit, prescription: Prescription, exercise?: string) => Equipment
  /** Seconds a repetition of paced sets without a tempo. */
  secondsPerRep: number
  /** Advice is wanted. */
  advice: boolean
  /** Highest heart rate from the settings; absent or null where it is not known. */
  hrMax?: number | null
  /** What was done last time on this exercise, or on a running line of this text; null when never. */
  lastTime: (key: { exercise: string } | { text: string }) => string | null
  /** What a meal may be typed with; absent without. */
  foods?: () => readonly Food[]
  /** Where the day is in the plan: "Thursday of week 3 of 19, 115 days to 10 km in 39:30"; absent without a plan. */
  planned?: string | null
  /** The exercises of earlier days, the newest first. */
  exercises: () => readonly string[]
  /** The heaviest load for so many repetitions before today, and when; null without one. */
  bestBefore: (exercise: string, reps: number) => { kg: number; text: string } | null
}

/** A recorder over a session as it is stored. */
export function recorderOf(events: readonly SessionEvent[], state: SessionState, now: Moment): RecorderModel {
  return {
    events,
    state,
    mode: { kind: 'recording' },
    draft: '',
    aside: null,
    now,
    notice: null,
    echo: null,
    signalled: null,
    saved: { ok: true },
    pressedOnce: null,
    spelling: null,
    lastPress: null,
  }
}
