import { elapsedSeconds, type Moment, whenOf } from '../session/clock.ts'
import { promptedStep } from '../session/prompt.ts'
import { applyEvents, recording } from './apply.ts'
import { field } from './field.ts'
import {
  type Effect,
  type Message,
  type RecorderContext,
  type RecorderModel,
  stay,
  type Updated,
} from './model.ts'
import { takesText } from './modes/modes.ts'

/* Letters are commands in the empty field, and yet an entry may begin with a word. `pain left knee`, typed there: p and a
 * act at once as commands (the clock ends the groups, one more set), while the model remembers the letters, and how many
 * events there were before the first. With n they are a whole word: one event undoes everything since, and the field
 * holds `pain`. After a pause of two seconds, or a letter that continues no word, the commands stand instead. Two commands
 * cannot be undone so, to quit and to undo: where q or u may begin a food, they wait for those two seconds first. */

/** `x ` begins a load, though x alone swaps the exercise. */
const entryWords = ['fail', 'failed', 'pain', 'skip', 'same', 'done', 'easy', 'hr', 'rpe', 'bw', 'x ']

/** The words that may begin an entry; for a meal also its nutrients and the names of foods. */
function entryWordsOf(model: RecorderModel, context: RecorderContext): readonly string[] {
  if (promptedStep(model.state)?.kind !== 'fuel') return entryWords
  const foods = context.foods().flatMap(({ name }) => {
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
  ['q', `q quits in ${spellingPause} s; keep typing for a food, Esc cancels`],
  ['u', `u undoes in ${spellingPause} s; keep typing for a food, Esc cancels`],
])

/** Handles a key that may be a letter of an entry word.
 * @param act does what the key does by itself */
export function withSpelling(
  before: RecorderModel,
  message: Exclude<Message, { kind: 'tick' }>,
  context: RecorderContext,
  act: (model: RecorderModel) => Updated,
): Updated {
  const letter = letterOf(before, message)
  const { spelling } = before
  const longer = letter === null || spelling === null ? null : withLetter(letter, spelling, before.now)
  if (spelling?.isWaiting && longer === null) {
    if (isEscape(message)) return stay({ ...before, notice: null, spelling: null })
    const acted = runWaiting(before, spelling, context)
    if (acted.effects.some(({ kind }) => kind === 'leave')) return acted
    const next = withSpelling(acted.model, message, context, act)
    return { model: next.model, effects: [...acted.effects, ...next.effects] }
  }
  const next = longer ?? (letter === null ? null : beginWord(letter, before, context))
  if (next?.words.includes(next.letters)) return takeWord(before, next, context)
  const notice = waiting.get(letter ?? '')
  if (next && notice !== undefined && isCommandNow(before))
    return stay({ ...before, notice, spelling: { ...next, isWaiting: true } })
  const { model, effects } = act(before)
  const isShort = (effect: Effect) => effect.kind === 'ring' && effect.signal === 'short'
  return {
    model: { ...model, spelling: next },
    // The answer to a meaningless key in a list does not apply to a letter of a word.
    effects: longer === null ? effects : effects.filter((effect) => !isShort(effect)),
  }
}

/** If no letter follows in time, the letters were commands. */
export function spellingOver(model: RecorderModel, context: RecorderContext): Updated {
  const { spelling, now } = model
  if (spelling === null || elapsedSeconds(spelling.at, now) < spellingPause) return stay(model)
  return spelling.isWaiting ? runWaiting(model, spelling, context) : stay({ ...model, spelling: null })
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
