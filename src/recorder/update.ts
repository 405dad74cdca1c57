import { elapsedSeconds, type Moment, whenOf } from '../session/clock.ts'
import { dueEvents } from '../session/due.ts'
import { longestEntry } from '../session/entry/lex.ts'
import { promptedStep } from '../session/prompt.ts'
import { signalBetween } from '../session/timers.ts'
import { rowOf } from './keys.ts'
import {
  type Effect,
  type Message,
  type Press,
  type RecorderContext,
  type RecorderKey,
  type RecorderModel,
  swappable,
  type Updated,
} from './model.ts'
import { modeOf, takesText } from './modes/modes.ts'
import { advance, applyEvents, recording } from './record.ts'

/** Applies one message: returns the next model and its effects. Events that are due by the clock come first,
 * so that a key never acts on a phase that is over. */
export function update(model: RecorderModel, message: Message, context: RecorderContext): Updated {
  const ticked = tick(model, message.now, context)
  if (message.kind === 'tick' || ticked.effects.some(({ kind }) => kind === 'leave')) return ticked
  const next = handleSpelling(model, ticked.model, message, context)
  // What the key ended may be due already: a pause of 0 seconds.
  const settled = tick(next.model, message.now, context)
  return { model: settled.model, effects: [...ticked.effects, ...next.effects, ...settled.effects] }
}

function handle(
  before: RecorderModel,
  model: RecorderModel,
  message: Exclude<Message, { kind: 'tick' }>,
  context: RecorderContext,
): Updated {
  switch (message.kind) {
    case 'typed':
      return withinLimit(message.value, (value) => typed(before, model, value, context))
    case 'press':
      return takesPress(model, message.press)
        ? pressed(model, message.press, context)
        : { model, effects: [] }
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

/** Whether the recorder handles a key; if not, it edits the text in the field. */
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
    if (!isBare) return modeOf(mode).onKey(model, mode, 'paste', context)
    return withinLimit(press.text, (draft) => ({
      model: { ...model, draft, notice: null, pressedOnce: null },
      effects: [],
    }))
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

/** Keys that must not repeat while held down: Space, and Enter for a result as offered. */
const once = new Set([' ', 'enter', 'pageDown'])
/** Seconds: a finger does not press as fast as a keyboard repeats a held key. */
const keyRepeat = 0.12

/** `x ` begins a load, though x alone swaps the exercise. */
const entryWords = ['fail', 'failed', 'pain', 'skip', 'same', 'done', 'easy', 'hr', 'rpe', 'bw', 'x ']

/** The words that may begin an entry; for a meal also its nutrients and the names of foods. */
function entryWordsOf(model: RecorderModel, context: RecorderContext): readonly string[] {
  if (promptedStep(model.state)?.kind !== 'fuel') return entryWords
  const foods = (context.foods?.() ?? []).flatMap(({ name }) => {
    const word = /^[^\s,]{2,}/.exec(name.toLowerCase())?.[0] ?? ''
    return word.endsWith('s') ? [word, word.slice(0, -1)] : [word]
  })
  return [...entryWords, 'protein', 'fat', ...foods]
}

/** The longest time between two letters of one word, in seconds. */
export const spellingPause = 2

type Spelling = NonNullable<RecorderModel['spelling']>

/** Commands that `undone` cannot reverse: they wait while their letter may begin or continue a word. */
const waiting = new Map([
  ['q', 'q quits in a moment; type on for a food, Esc stays'],
  ['u', 'u undoes in a moment; type on for a food, Esc keeps it'],
])

/** Handles a key. A letter acts as a command at once; if it and the next letters spell an entry word, its effect is
 * undone and the field gets the word. */
function handleSpelling(
  earlier: RecorderModel,
  before: RecorderModel,
  message: Exclude<Message, { kind: 'tick' }>,
  context: RecorderContext,
): Updated {
  const letter = letterOf(before, message)
  const { spelling } = before
  const longer = letter === null || spelling === null ? null : withLetter(letter, spelling, before.now)
  if (spelling?.isWaiting && longer === null) {
    if (isEscape(message)) return { model: { ...before, notice: null, spelling: null }, effects: [] }
    const acted = runWaiting(before, spelling, context)
    if (acted.effects.some(({ kind }) => kind === 'leave')) return acted
    const next = handleSpelling(earlier, acted.model, message, context)
    return { model: next.model, effects: [...acted.effects, ...next.effects] }
  }
  const next = longer ?? (letter === null ? null : beginWord(letter, before, context))
  if (next?.words.includes(next.letters)) return takeWord(before, next, context)
  const notice = waiting.get(letter ?? '')
  if (next && notice !== undefined && isCommandNow(before))
    return { model: { ...before, notice, spelling: { ...next, isWaiting: true } }, effects: [] }
  const { model, effects } = handle(earlier, before, message, context)
  const isShort = (effect: Effect) => effect.kind === 'ring' && effect.signal === 'short'
  return {
    model: { ...model, spelling: next },
    // The answer to a meaningless key in a list does not apply to a letter of a word.
    effects: longer === null ? effects : effects.filter((effect) => !isShort(effect)),
  }
}

/** Whether a letter is not text now. */
function isCommandNow(model: RecorderModel): boolean {
  return !takesText(model) && (model.mode.kind !== 'recording' || model.draft === '')
}

/** The waiting letter is a command after all. */
function runWaiting(model: RecorderModel, { letters }: Spelling, context: RecorderContext): Updated {
  return field({ ...model, notice: null, spelling: null }, letters.slice(-1), context)
}

/** Adds a letter to a word; null if no word continues like this. */
function withLetter(letter: string, spelling: Spelling, at: Moment): Spelling | null {
  const letters = spelling.letters + letter
  return spelling.words.some((word) => word.startsWith(letters))
    ? { ...spelling, letters, at, isWaiting: false }
    : null
}

/** The first letter of a word; null if no word begins with it, or the field takes it as text. */
function beginWord(letter: string, model: RecorderModel, context: RecorderContext): Spelling | null {
  const { aside, events, now } = model
  if (!isCommandNow(model)) return null
  const words = entryWordsOf(model, context)
  if (!words.some((word) => word.startsWith(letter))) return null
  return { letters: letter, at: now, from: events.length, aside, words, isWaiting: false }
}

function takeWord(model: RecorderModel, spelling: Spelling, context: RecorderContext): Updated {
  const { letters, from, aside } = spelling
  const plain = { ...recording(model), draft: letters, aside, pressedOnce: null, spelling: null }
  const isUndone = model.events.length > from
  return applyEvents(plain, isUndone ? [{ type: 'undone', ...whenOf(model.now), from }] : [], context)
}

function isEscape(message: Message): boolean {
  return message.kind === 'press' && message.press.kind === 'named' && message.press.name === 'escape'
}

/** The character that a message adds to the typed letters; null for anything else. */
function letterOf(model: RecorderModel, message: Message): string | null {
  if (message.kind === 'press')
    return message.press.kind === 'text' && message.press.text !== ' ' ? message.press.text : null
  if (message.kind !== 'typed') return null
  const { value } = message
  const added = value.startsWith(model.draft) ? value.slice(model.draft.length) : value
  return added !== ' ' && [...added].length === 1 ? added : null
}

/** Cuts off what does not fit into the field, and says so. */
function withinLimit(value: string, take: (value: string) => Updated): Updated {
  const updated = take(value.slice(0, longestEntry))
  if (value.length <= longestEntry) return updated
  const notice = `an entry has at most ${longestEntry} characters: the rest was left out`
  return { ...updated, model: { ...updated.model, notice } }
}

/** Puts keys aside too that were typed right when the clock put the half-typed text aside. */
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

/** Seconds for which a recorded result is shown large. */
export const echoSeconds = 2.5
/** Seconds for which the word "go" is shown after the long signal. */
export const goSeconds = 1.5

function tick(model: RecorderModel, now: Moment, context: RecorderContext): Updated {
  const signal = signalBetween(model.state, model.now, now)
  const timed = { ...model, now }
  const due = applyEvents(timed, dueEvents(model.state, now), context)
  const effects = due.effects.filter((effect) => effect.kind !== 'ring')
  const rung = signal ?? (due.effects.length > effects.length ? 'long' : null)
  const ring: Effect[] = rung ? [{ kind: 'ring', signal: rung }] : []
  const settled = spellingOver(rung === 'long' ? { ...due.model, signalled: now } : due.model, context)
  return { model: settled.model, effects: [...effects, ...ring, ...settled.effects] }
}

/** If no letter follows in time, the letters were commands. */
function spellingOver(model: RecorderModel, context: RecorderContext): Updated {
  const { spelling, now } = model
  if (spelling === null || elapsedSeconds(spelling.at, now) < spellingPause) return { model, effects: [] }
  return spelling.isWaiting
    ? runWaiting(model, spelling, context)
    : { model: { ...model, spelling: null }, effects: [] }
}

/** Sets the field's text, or runs a command if the field was empty. */
function field(model: RecorderModel, value: string, context: RecorderContext): Updated {
  const { mode } = model
  const changed = modeOf(mode).onText?.(model, mode, value) ?? null
  if (changed !== null) return changed
  // A Space pressed by habit is not the beginning of an answer.
  if (takesText(model)) return { model: { ...model, draft: value.trimStart(), notice: null }, effects: [] }
  if (mode.kind !== 'recording') return modeOf(mode).onKey(model, mode, value, context)
  if (model.draft === '') {
    if (value === ' ') return advance(model, context)
    if (isCommand(model, value)) return modeOf(mode).onKey(model, mode, value, context)
  }
  if (model.draft === '' && value.trim() === '') return { model, effects: [] }
  return { model: { ...model, draft: value, notice: null, pressedOnce: null }, effects: [] }
}

function isCommand(model: RecorderModel, value: string): boolean {
  if (value === 'b') return model.state.stopped !== null
  // Where no set can be swapped, x begins the load of the set whose result is still to be entered.
  if (value === 'x' && swappable(model) === null) return promptedStep(model.state)?.kind !== 'set'
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
      return plain && model.draft === '' ? advance(model, context) : { model, effects: [] }
  }
}
