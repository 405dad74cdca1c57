import { speedLimits } from '../prescription/plausible.ts'
import { elapsedSeconds, whenOf } from '../session/clock.ts'
import { entryTextOf, longestEntry } from '../session/entry/lex.ts'
import { advanceFacts, dated } from '../session/newEvents.ts'
import { stepUnderWay } from '../session/state.ts'
import { applyEvents, takeBackTo } from './apply.ts'
import {
  type Message,
  type Press,
  type RecorderModel,
  recorderKeys,
  stay,
  type Updated,
  withNotice,
} from './model.ts'
import { field, isCommand, isTimed, keyed, needsSpace, refused, takesText } from './modes/dispatch.ts'

/* What a press of a key means. Space, where it marks a moment of a run or of any effort (`isTimed`):
 *
 * | open                                | Space                                                                  |
 * | nothing                             | moves on                                                               |
 * | a question, a list, an empty field  | moves on, and closes a question about the step (`isOfNow`)             |
 * | the same, right after another sign  | is refused once, as it goes on typing: `n felt good`                   |
 * | a result being typed                | is text                                                                |
 * | the same, after a Space that is     |                                                                        |
 * |   in an open quote                  | is text                                                                |
 * |   less than 0.8 s ago               | is text, with a hint                                                   |
 * |   right after another sign          | moves on now, as that one went on typing                               |
 * |   pressed by itself                 | moves on, at the moment of that one                                    |
 * | another text being typed            | is text                                                                |
 *
 * At other moments it moves on with nothing open, is text in a text, and is refused elsewhere. At any moment it closes
 * the page of keys, and begins a load behind the `x` of a swap (`onText`). A key held down counts once, and in a text
 * not at all. PageDown is never text. */

/* Seconds between two keys. This program's own rules. */

/** A keyboard repeats a held key sooner than this, a finger presses it again later. */
const repeatSeconds = 0.12
/** The first repeat of a held key comes sooner than this, and so may a second press: only what follows tells. */
const firstRepeatSeconds = 0.8
/** Who types a word types its next letter sooner than this; different keys are pressed more slowly. */
export const quickSeconds = 0.5
/** Who types on presses the next key sooner than this. */
export const typingPause = 2

/** Keys that do what Space does. */
const spaces = new Set([' ', 'right', 'pageDown'])
/** Keys that may be held down: each repeat counts. */
const repeated = new Set(['up', 'down', 'q'])

/** Whether the recorder handles a key; if not, it edits the text in the field. */
export function takesPress(model: RecorderModel, press: Press): boolean {
  const { mode, draft } = model
  const isRecording = mode.kind === 'recording'
  switch (press.kind) {
    case 'paste':
      return isRecording ? draft === '' : !takesText(model)
    case 'text':
      if (press.text === ' ') {
        if (draft === '') return true
        // At other moments the editor puts it where the cursor is.
        return isRecording ? isTimed(model) && isSpaceAgain(draft) : !takesText(model)
      }
      if (takesText(model)) return false
      return !isRecording || (draft === '' && isCommand(model, press.text))
    case 'named':
      return press.name === 'right'
        ? isRecording && draft === ''
        : recorderKeys.some((name) => name === press.name)
  }
}

/** Whether a Space after this text is the second in a row, outside a quoted note. */
function isSpaceAgain(draft: string): boolean {
  return draft.endsWith(' ') && entryTextOf(draft).problem === null
}

/** Applies a text or a key from the keyboard. */
export function handle(model: RecorderModel, message: Exclude<Message, { kind: 'tick' }>): Updated {
  const { mode, draft } = model
  if (message.kind === 'typed')
    return withinLimit(message.value, (value) => {
      const typed = field({ ...model, lastPress: null }, value)
      const isSecond = mode.kind === 'recording' && value === `${draft} ` && isSpaceAgain(draft)
      return isSecond ? withNotice(typed.model, enterFirst) : typed
    })
  if (message.press.kind === 'paste' && mode.kind === 'recording')
    return withinLimit(message.press.text.trim(), (draft) =>
      stay({ ...model, draft, notice: null, pressedOnce: null }),
    )
  return message.press.kind === 'paste' ? keyed(model, 'paste') : pressed(model, message.press)
}

const enterFirst = 'first Enter records what is typed, or Esc clears it; then Space moves on'

/** Puts pasted lines on one, cuts the text to what the field holds, and says so. */
function withinLimit(text: string, take: (value: string) => Updated): Updated {
  const value = text.replaceAll('\n', ' ')
  const updated = take(value.slice(0, longestEntry))
  if (value.length <= longestEntry) return updated
  const notice = `an entry has at most ${longestEntry} characters: the rest was left out`
  return { ...updated, model: { ...updated.model, notice } }
}

function pressed(model: RecorderModel, press: Exclude<Press, { kind: 'paste' }>): Updated {
  const { mode, draft, lastPress: last, now } = model
  const name = press.kind === 'text' ? press.text : press.name
  if (repeated.has(name)) return acted({ ...model, lastPress: null }, name)
  const since = last ? elapsedSeconds(last.at, now) : Number.POSITIVE_INFINITY
  const isSame = last?.name === name
  if (!isSame || since >= repeatSeconds || last.next === 'press') {
    const mayBeRepeat = isSame && since >= repeatSeconds && since < firstRepeatSeconds
    // After an entry or a question several Enters may arrive together, each of them meant.
    const isMeantOnce = spaces.has(name) || (mode.kind === 'recording' && draft === '')
    const next = mayBeRepeat ? model : isMeantOnce ? 'repeat' : 'press'
    const isAfterLetter = /^\S$/u.test(last?.name ?? '') && since < typingPause
    return acted({ ...model, lastPress: { name, at: now, next } }, name, isAfterLetter)
  }
  const held: RecorderModel = { ...model, lastPress: { name, at: now, next: 'repeat' } }
  return last.next === 'repeat' ? stay(held) : takeBackTo(last.next, held)
}

function acted(model: RecorderModel, name: string, isAfterLetter = false): Updated {
  const { mode, draft } = model
  const isRecording = mode.kind === 'recording'
  const isText = [...name].length === 1
  const does = spaces.has(name) ? ' ' : name
  if (draft !== '') {
    const isField = isRecording || takesText(model)
    return isField && does === ' ' ? spaceAfterText(model, isText) : keyed(model, does)
  }
  if (name === ' ' && isAfterLetter && !isRecording && !needsSpace(model)) return refused(model)
  return isText ? field(model, does) : keyed(model, does)
}

/** Space or, unless `isText`, PageDown after a typed text. The Space before it became text: this one moves on at the
 * moment of that one, or now if that one came too soon after a letter. Where a runner can have run the repeat that this
 * begins, it ends now. */
function spaceAfterText(model: RecorderModel, isText: boolean): Updated {
  const { state, typing, now, draft } = model
  if (!isText) return isTimed(model) ? keyed(model, ' ') : withNotice(model, enterFirst)
  // The thumb slipped, or the key is held down.
  const isTooSoon = typing !== null && elapsedSeconds(typing.at, now) < firstRepeatSeconds
  if (isTooSoon || !isTimed(model)) return stay({ ...model, draft: `${draft} `, notice: enterFirst })
  const { since } = state.phase
  const wasPressed = typing !== null && elapsedSeconds(typing.before, typing.at) >= typingPause
  const at = wasPressed && since && elapsedSeconds(since, typing.at) > 0 ? typing.at : now
  const cleared = { ...model, draft: draft.trimEnd(), notice: null }
  const first = applyEvents(cleared, dated(advanceFacts(state, at), whenOf(at)))
  const step = stepUnderWay(first.model.state)
  const meters = step?.kind === 'interval' ? step.meters : null
  if (meters === null || meters / speedLimits('run', meters).fast > elapsedSeconds(at, now)) return first
  const second = keyed(first.model, ' ')
  return { model: second.model, effects: [...first.effects, ...second.effects] }
}
