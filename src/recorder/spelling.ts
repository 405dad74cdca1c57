import { elapsedSeconds } from '../session/clock.ts'
import { signWords } from '../session/pain.ts'
import { promptedStep } from '../session/prompt.ts'
import { recording, takeBackTo } from './apply.ts'
import { rowOf } from './keys.ts'
import { type Effect, isKeyPress, type Message, type RecorderModel, stay, type Updated } from './model.ts'
import { field, isCommand, takesText } from './modes/dispatch.ts'

/* In the empty field a letter is a command, and yet an entry may begin with a word. So a letter acts at once, and the
 * model remembers it and how many events there were before it. If the letters become a whole word, one event undoes
 * everything since, and the field holds the word. If two seconds pass, or a letter continues no word, they were
 * commands, and nothing is undone. For example `pain left knee`: p lets the clock end the groups, a adds a set, and n
 * undoes both and leaves `pain` in the field. Any of the letters may be the first: `hr` after `s` is a heart rate after
 * a skip, although `short` begins alike. A key that says what it `waits` to do cannot be taken back by an event: q
 * leaves the program. Where it may begin or continue a word, the name of a food for example, it waits until it is clear
 * that none follows. Letters that follow each other faster than keys are pressed are a word whatever they spell, and
 * then nothing of what they did stays: `sore knee`, `hard`. */

/** `x ` begins a load, though x alone swaps the exercise. */
const results = ['fail', 'failed', 'pain', 'skip', 'same', 'done', 'easy', 'hr', 'rpe', 'bw', 'x ']
const entryWords = [...results, ...signWords]

/** The words that may begin an entry; for a meal also its nutrients and the names of foods. */
function entryWordsOf({ state, context }: RecorderModel): readonly string[] {
  if (promptedStep(state)?.kind !== 'fuel') return entryWords
  const foods = context.foods().flatMap(({ name }) => {
    const word = /^[^\s,]{2,}/.exec(name.toLowerCase())?.[0] ?? ''
    return word.endsWith('s') ? [word, word.slice(0, -1)] : [word]
  })
  return [...entryWords, 'protein', 'fat', ...foods]
}

/** The longest time between two letters of one word, in seconds. */
export const spellingPause = 2

type Spelling = NonNullable<RecorderModel['spelling']>
type Begun = Spelling['begun']

/** Handles a key that may be a letter of an entry word.
 * @param act the key's own effect */
export function withSpelling(
  model: RecorderModel,
  message: Exclude<Message, { kind: 'tick' }>,
  act: (model: RecorderModel) => Updated,
): Updated {
  const letter = letterOf(model, message)
  const { spelling, now } = model
  const longer = letter === null || spelling === null ? [] : withLetter(letter, spelling)
  const run = letter === null ? null : runWith(letter, model)
  const isInWord = new Set(run?.letters).size > 1
  if (spelling?.isWaiting && longer.length === 0 && !isInWord) {
    if (isKeyPress(message, 'escape')) return stay({ ...model, notice: null, spelling: null })
    const acted = runWaiting(model)
    if (acted.effects.some(({ kind }) => kind === 'leave')) return acted
    const next = withSpelling(acted.model, message, act)
    return { model: next.model, effects: [...acted.effects, ...next.effects] }
  }
  const begun = letter === null ? [] : [...longer, ...beginWord(letter, model)]
  const [first] = begun
  if (first && entryWordsOf(first.before).includes(first.letters)) return takeWord(model, first)
  if (run && isAnyWord(run) && !begun.some(({ letters }) => letters.length > 1)) return takeWord(model, run)
  const waits = rowOf(letter ?? '')?.waits
  if ((first || isInWord) && waits !== undefined && isKeyNow(letter ?? '', model)) {
    const notice = `${waits} in ${spellingPause} s unless you type on; Esc cancels`
    return stay({ ...model, notice, run, spelling: { begun, at: now, isWaiting: true } })
  }
  const acted = act(model)
  const isShort = (effect: Effect) => effect.kind === 'ring' && effect.signal === 'short'
  return {
    model: { ...acted.model, run, spelling: first ? { begun, at: now, isWaiting: false } : null },
    // The answer to a meaningless key in a list does not apply to a letter of a word.
    effects: longer.length === 0 ? acted.effects : acted.effects.filter((effect) => !isShort(effect)),
  }
}

/** Nobody presses different keys faster than this one after the other, in seconds; who types a word does. This program's
 * own rule. */
const quickSeconds = 0.5

/** The letters typed quickly up to this one; null for a letter in a field begun slowly, or opened by the first of them. */
function runWith(letter: string, model: RecorderModel): RecorderModel['run'] {
  const { draft, mode, now } = model
  const last = model.run !== null && elapsedSeconds(model.run.at, now) < quickSeconds ? model.run : null
  const fewest = takesText(model) ? 2 : mode.kind === 'recording' && draft !== '' ? 1 : 0
  if (!/\p{L}/u.test(letter) || (last?.letters ?? '').length < fewest) return null
  const { letters = '', before = { ...model, run: null }, hasStray = false } = last ?? {}
  return { letters: letters + letter, at: now, before, hasStray: hasStray || !isKeyNow(letter, model) }
}

/** Whether a letter is a key of the question or the list, else a command that does something. */
function isKeyNow(letter: string, model: RecorderModel): boolean {
  const { mode, draft } = model
  if (mode.kind === 'recording')
    return draft === '' && isCommand(model, letter) && rowOf(letter)?.unavailable(model) === null
  return mode.keys(model).some(({ key }) => key === letter)
}

/** Whether letters typed quickly are a word, whatever it means, and were no commands: `stop`, `sore`, `hard`. */
function isAnyWord({ letters, hasStray }: NonNullable<RecorderModel['run']>): boolean {
  return letters.length >= 3 && new Set(letters).size > (hasStray ? 1 : 3)
}

/** If no letter follows in time, the letters were commands. */
export function spellingOver(model: RecorderModel): Updated {
  const { spelling, now } = model
  if (spelling === null || elapsedSeconds(spelling.at, now) < spellingPause) return stay(model)
  return spelling.isWaiting ? runWaiting(model) : stay({ ...model, spelling: null })
}

/** The waiting letter is a command after all. */
function runWaiting(model: RecorderModel): Updated {
  return field({ ...model, notice: null, spelling: null }, model.run?.letters.slice(-1) ?? '')
}

/** Adds a letter to what may become a word; what no word continues is dropped. */
function withLetter(letter: string, { begun }: Spelling): Begun {
  return begun
    .map(({ letters, before }) => ({ letters: letters + letter, before }))
    .filter(({ letters, before }) => beginsWord(letters, before))
}

function beginsWord(letters: string, model: RecorderModel): boolean {
  return entryWordsOf(model).some((word) => word.startsWith(letters))
}

/** The first letter of a word; empty if no word begins with it, or the field takes it as text. */
function beginWord(letters: string, model: RecorderModel): Begun {
  const isCommandNow = !takesText(model) && (model.mode.kind !== 'recording' || model.draft === '')
  if (!isCommandNow || !beginsWord(letters, model)) return []
  return [{ letters, before: { ...model, spelling: null } }]
}

function takeWord(model: RecorderModel, { letters, before }: Begun[number]): Updated {
  // Letters that are in the field already were text from the first and have done nothing.
  const isTyped = model.draft === letters.slice(0, -1)
  const { model: after, effects } = isTyped ? stay(model) : takeBackTo(before, model)
  const word = { draft: letters, pressedOnce: null, spelling: null, run: null }
  return { model: { ...recording(after), ...word }, effects }
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

/** The rest of the field after one of the two keys with which shells clear a line; null for any other key. */
export function keptBy(key: string, value: string): string | null {
  if (key === 'ctrl+u') return ''
  return key === 'ctrl+w' ? value.replace(/\S+\s*$/, '') : null
}
