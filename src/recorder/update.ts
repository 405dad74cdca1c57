import { elapsedSeconds, type Moment, whenOf } from '../session/clock.ts'
import { dueEvents } from '../session/due.ts'
import { signalBetween } from '../session/timers.ts'
import { rowOf } from './keys.ts'
import type { Effect, Message, Press, RecorderContext, RecorderKey, RecorderModel, Updated } from './model.ts'
import { modeOf, takesText } from './modes/modes.ts'
import { applied, beat, recording } from './record.ts'

/** The recorder after one more message, and what it wants done. Whatever is due by the clock comes first:
 * a key never acts on a phase that is over. */
export function update(model: RecorderModel, message: Message, context: RecorderContext): Updated {
  if (message.kind === 'saved') return { model: { ...model, saved: message.saved }, effects: [] }
  const ticked = tick(model, message.now, context)
  if (message.kind === 'tick') return ticked
  const next = spelled(ticked.model, reacted(model, ticked.model, message, context), message, context)
  // What the key ended may be due already: a pause of no seconds.
  const settled = tick(next.model, message.now, context)
  return { model: settled.model, effects: [...ticked.effects, ...next.effects, ...settled.effects] }
}

function reacted(
  before: RecorderModel,
  model: RecorderModel,
  message: Exclude<Message, { kind: 'saved' | 'tick' }>,
  context: RecorderContext,
): Updated {
  switch (message.kind) {
    case 'typed':
      return limited(message.value, (value) => typed(before, model, value, context))
    case 'press':
      return takesPress(model, message.press)
        ? pressed(model, message.press, context)
        : { model, effects: [] }
    case 'key':
      return key(model, message.key, context)
  }
}

const named: Readonly<Record<string, RecorderKey>> = {
  enter: 'enter',
  escape: 'escape',
  up: 'up',
  down: 'down',
  right: 'right',
  pageDown: 'pageDown',
}

/** Whether a key is the recorder's; else it edits the text in the field. */
export function takesPress(model: RecorderModel, press: Press): boolean {
  const { mode, draft } = model
  const isRecording = mode.kind === 'recording'
  switch (press.kind) {
    case 'paste':
      return isRecording ? draft === '' : !takesText(model)
    case 'text':
      if (takesText(model)) return false
      return !isRecording || (draft === '' && (press.text === ' ' || isCommand(model, press.text)))
    case 'named':
      return press.name === 'right' ? isRecording && draft === '' : press.name in named
  }
}

function pressed(model: RecorderModel, press: Press, context: RecorderContext): Updated {
  const isBare = model.draft === '' && model.mode.kind === 'recording'
  if (press.kind === 'paste') {
    const { mode } = model
    return isBare
      ? { model: { ...model, draft: press.text, notice: null, pressedOnce: null }, effects: [] }
      : modeOf(mode).onKey(model, mode, 'paste', context)
  }
  const name = press.kind === 'text' ? press.text : press.name
  if (isBare && once.has(name)) {
    const last = model.lastPress
    const isHeldDown = last?.name === name && elapsedSeconds(last.at, model.now) < keyRepeat
    const remembered = { ...model, lastPress: { name, at: model.now } }
    if (isHeldDown) return { model: remembered, effects: [] }
    return press.kind === 'text'
      ? field(remembered, name, context)
      : key(remembered, named[name] as RecorderKey, context)
  }
  return press.kind === 'text' ? field(model, name, context) : key(model, named[name] as RecorderKey, context)
}

/** Keys that must not repeat while they are held down: a beat, and a result as offered. */
const once = new Set([' ', 'enter', 'pageDown'])
/** A finger does not press twice as fast as a keyboard repeats a key that is held down. Seconds. */
const keyRepeat = 0.12

const entryWords = ['fail', 'failed', 'pain', 'skip', 'same', 'done', 'easy', 'hr', 'rpe', 'bw']
/** The longest time between two letters of one word, in seconds. */
const spellingPause = 2

/** Letters that acted as commands, and with the next ones spell an entry word, are text after all: what they did is
 * undone and the word is in the field. */
function spelled(before: RecorderModel, next: Updated, message: Message, context: RecorderContext): Updated {
  const letter = letterOf(before, message)
  if (letter === null) return { ...next, model: { ...next.model, spelling: null } }
  const { spelling: earlier, now } = before
  const goesOn = earlier !== null && elapsedSeconds(earlier.at, now) <= spellingPause
  const isFresh = !takesText(before) && (before.mode.kind !== 'recording' || before.draft === '')
  const started = goesOn && isWordStart(earlier.letters + letter) ? earlier : null
  if (!started && !(isFresh && isWordStart(letter)))
    return { ...next, model: { ...next.model, spelling: null } }
  const letters = (started?.letters ?? '') + letter
  const from = started?.from ?? before.events.length
  if (!entryWords.includes(letters))
    return { ...next, model: { ...next.model, spelling: { letters, at: now, from } } }
  const { model } = next
  const plain = { ...recording(model), draft: '', pressedOnce: null, spelling: null }
  const isUndone = model.events.length > from
  const undone = applied(plain, isUndone ? [{ type: 'undone', ...whenOf(now), from }] : [], context)
  return {
    model: { ...undone.model, draft: letters, notice: null },
    effects: [...next.effects, ...undone.effects],
  }
}

function isWordStart(letters: string): boolean {
  return entryWords.some((word) => word.startsWith(letters))
}

/** The letter that a message adds to what is typed; null for anything else. */
function letterOf(model: RecorderModel, message: Message): string | null {
  if (message.kind === 'press')
    return message.press.kind === 'text' && /^[a-z]$/.test(message.press.text) ? message.press.text : null
  if (message.kind !== 'typed') return null
  const { value } = message
  const added = value.startsWith(model.draft) ? value.slice(model.draft.length) : value
  return /^[a-z]$/.test(added) ? added : null
}

/** What is typed on just when the clock puts the half-typed text aside goes aside with it. */
/** The longest entry, in characters. */
const longestEntry = 1000

/** What does not fit into the field is left out, and said so. */
function limited(value: string, take: (value: string) => Updated): Updated {
  const updated = take(value.slice(0, longestEntry))
  if (value.length <= longestEntry) return updated
  const notice = 'an entry has at most 1,000 characters: the rest was left out'
  return { ...updated, model: { ...updated.model, notice } }
}

function typed(
  before: RecorderModel,
  model: RecorderModel,
  value: string,
  context: RecorderContext,
): Updated {
  const isPutAside = before.draft !== '' && model.draft === '' && model.aside === before.draft
  if (isPutAside && value.startsWith(before.draft)) return { model: { ...model, aside: value }, effects: [] }
  return field(model, value, context)
}

/** How long what was just recorded is shown large, in seconds. */
export const echoSeconds = 2.5
/** How long the word "go" is shown after the long signal, in seconds. */
export const goSeconds = 1.5

function tick(model: RecorderModel, now: Moment, context: RecorderContext): Updated {
  const signal = signalBetween(model.state, model.now, now)
  const timed = { ...model, now }
  const due = applied(timed, dueEvents(model.state, now), context)
  const rings: Effect[] = signal ? [{ kind: 'ring', signal }] : []
  const effects = due.effects.filter((effect) => effect.kind !== 'ring')
  const rang = rings.length > 0 || due.effects.length > effects.length
  const ring: Effect[] = rings.length > 0 ? rings : rang ? [{ kind: 'ring', signal: 'long' }] : []
  const signalled = ring.some((effect) => effect.kind === 'ring' && effect.signal === 'long')
  return {
    model: signalled ? { ...due.model, signalled: now } : due.model,
    effects: [...effects, ...ring],
  }
}

/** The field would now hold this: text, or a command while it was empty. */
function field(model: RecorderModel, value: string, context: RecorderContext): Updated {
  const { mode } = model
  // `x 102.5` is a load, though x alone swaps the exercise.
  if (mode.kind === 'swapping' && model.draft === '' && /^[\s\d]$/.test(value))
    return { model: { ...recording(model), draft: `x ${value.trimStart()}` }, effects: [] }
  if (takesText(model)) return { model: { ...model, draft: value, notice: null }, effects: [] }
  if (mode.kind !== 'recording') return modeOf(mode).onKey(model, mode, value, context)
  if (model.draft === '') {
    if (value === ' ') return beat(model, context)
    if (isCommand(model, value)) return modeOf(mode).onKey(model, mode, value, context)
  }
  if (model.draft === '' && value.trim() === '') return { model, effects: [] }
  return { model: { ...model, draft: value, notice: null, pressedOnce: null }, effects: [] }
}

function isCommand(model: RecorderModel, value: string): boolean {
  if (value === 'b') return model.state.held !== null
  return value.length === 1 && rowOf(value) !== null
}

function key(model: RecorderModel, pressed: RecorderKey, context: RecorderContext): Updated {
  const { mode } = model
  const plain = mode.kind === 'recording'
  const object = modeOf(mode)
  switch (pressed) {
    case 'enter':
      return object.onEnter(model, mode, context)
    case 'escape':
      if (object.onEscape) return object.onEscape(model, mode)
      if (model.draft !== '') return { model: { ...model, draft: '', notice: null }, effects: [] }
      return { model: recording(model), effects: [] }
    case 'up':
    case 'down':
      return object.onKey(model, mode, pressed, context)
    case 'right':
    case 'pageDown':
      return plain && model.draft === '' ? beat(model, context) : { model, effects: [] }
  }
}
