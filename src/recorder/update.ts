import { dueEvents } from '../session/advance.ts'
import { elapsedSeconds, type Moment } from '../session/clock.ts'
import { longestEntry } from '../session/entry/lex.ts'
import { isWarningTyped } from '../session/pain.ts'
import { signalBetween } from '../session/timers.ts'
import { applyEvents } from './apply.ts'
import { type Key, lineAfter, nameOf } from './line.ts'
import { type Effect, fieldOf, type RecorderModel, stay, type Updated } from './model.ts'
import { isCommand, keyed, takesText, withText } from './modes/modes.ts'
import { spellingOver, withSpelling } from './spelling.ts'

/** Handles a key: returns the next model and its effects. Events that are due by the clock come first, so that a key
 * never acts on a phase that is over. */
export function pressed(model: RecorderModel, key: Key, now: Moment): Updated {
  const due = ticked(model, now)
  if (due.effects.some(({ kind }) => kind === 'leave')) return due
  // If the clock has just put a half-typed entry aside, the letter that continues it follows it there.
  const isPutAside = model.draft !== '' && due.model.draft === '' && due.model.aside === model.draft
  const next =
    isPutAside && key.kind === 'text'
      ? stay({ ...due.model, aside: model.draft + key.text })
      : withSpelling(due.model, key, (from) => handled(from, key))
  // What the key began may be over already: a pause of 0 seconds.
  const settled = ticked(next.model, now)
  // A sign that needs a doctor goes before whatever else the key brought up.
  const isWarned = settled.model.events.slice(model.events.length).some(isWarningTyped)
  const answered = isWarned ? { ...settled.model, notice: warningText } : settled.model
  return { model: answered, effects: [...due.effects, ...next.effects, ...settled.effects] }
}

export const warningText = 'Stop. Chest pain, faintness or unusual breathlessness need a doctor now.'

/** Runs a command, answers a question, or edits the field. */
function handled(model: RecorderModel, key: Key): Updated {
  const { mode, draft } = model
  const isBare = mode.kind === 'recording' && draft === ''
  const hasField = mode.kind === 'recording' || takesText(model)
  const name = isBare && /^(right|pageDown)$/.test(nameOf(key)) ? ' ' : nameOf(key)
  if (/^(enter|escape|up|down)$/.test(name) || (isBare && isCommand(model, name)))
    return isBare && once.test(nameOf(key)) ? oncePressed(model, nameOf(key), name) : keyed(model, name)
  if (hasField) return edited(model, key)
  return key.kind === 'named' ? stay(model) : keyed(model, name || 'paste')
}

/** Keys that must not repeat while held down: each press begins, ends or records something. */
const once = /^(enter| |pageDown)$/
/** Seconds. A keyboard repeats a held key faster than a finger presses it again. */
const keyRepeatSeconds = 0.12

/** Runs a command, unless its key is held down. */
function oncePressed(model: RecorderModel, name: string, command: string): Updated {
  const { lastPress, now } = model
  const isHeldDown = lastPress?.name === name && elapsedSeconds(lastPress.at, now) < keyRepeatSeconds
  const remembered = { ...model, lastPress: { name, at: now } }
  return isHeldDown ? stay(remembered) : keyed(remembered, command)
}

/** Edits the field's text, cuts it to what the field holds, and says so. */
function edited(model: RecorderModel, key: Key): Updated {
  const line = lineAfter(fieldOf(model), key)
  const moved = { ...model, afterCursor: line.text.length - line.column }
  if (line.text === model.draft) return stay(moved)
  const updated = withText(moved, line.text.slice(0, longestEntry))
  if (line.text.length <= longestEntry) return updated
  const notice = `an entry has at most ${longestEntry} characters: the rest was left out`
  return { ...updated, model: { ...updated.model, notice } }
}

/** Seconds for which a recorded result is shown large. */
export const echoSeconds = 2.5
/** Seconds for which the word "go" is shown after the long signal. */
export const goSeconds = 1.5

/** Applies what is due by the clock. */
export function ticked(model: RecorderModel, now: Moment): Updated {
  const signal = signalBetween(model.state, model.now, now)
  const timed = { ...model, now }
  const due = applyEvents(timed, dueEvents(model.state, now))
  // One signal a tick, however much came due.
  const effects = due.effects.filter((effect) => effect.kind !== 'ring')
  const rung = signal ?? (due.effects.length > effects.length ? 'long' : null)
  const ring: Effect[] = rung ? [{ kind: 'ring', signal: rung }] : []
  const settled = spellingOver(rung === 'long' ? { ...due.model, signalled: now } : due.model)
  return { model: settled.model, effects: [...effects, ...ring, ...settled.effects] }
}
