import { elapsedSeconds } from '../session/clock.ts'
import { signWords } from '../session/pain.ts'
import { promptedStep } from '../session/prompt.ts'
import { recording, takeBackTo } from './apply.ts'
import { rowOf } from './keys.ts'
import { type Effect, isKeyPress, type Message, type RecorderModel, stay, type Updated } from './model.ts'
import { field, isCommand, takesText } from './modes/dispatch.ts'
import { quickSeconds, typingPause } from './press.ts'

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

type Letters = RecorderModel['letters']

/** Handles a key that may be a letter of an entry word.
 * @param act the key's own effect */
export function withSpelling(
  model: RecorderModel,
  message: Exclude<Message, { kind: 'tick' }>,
  act: (model: RecorderModel) => Updated,
): Updated {
  const letter = letterOf(model, message)
  const { now, isWaiting } = model
  const before = { ...model, letters: [], isWaiting: false }
  const letters = letter === null ? [] : [...model.letters, { letter, at: now, before }]
  const begun = wordBegun(letters)
  const quick = typedQuickly(letters)
  const isContinued = begun.length > 1
  const isInWord = new Set(wordOf(quick)).size > 1
  if (isWaiting && !isContinued && !isInWord) {
    if (isKeyPress(message, 'escape')) return stay({ ...before, notice: null })
    const acted = runWaiting(model)
    if (acted.effects.some(({ kind }) => kind === 'leave')) return acted
    const next = withSpelling(acted.model, message, act)
    return { model: next.model, effects: [...acted.effects, ...next.effects] }
  }
  const [first] = begun
  if (first && entryWordsOf(first.before).includes(wordOf(begun))) return takeWord(model, begun)
  if (isAnyWord(quick) && !isContinued) return takeWord(model, quick)
  const kept = begun.length > quick.length ? begun : quick
  const waits = rowOf(letter ?? '')?.waits
  if ((first || isInWord) && waits !== undefined && isKeyNow(letter ?? '', model)) {
    const notice = `${waits} in ${typingPause} s unless you type on; Esc cancels`
    return stay({ ...model, notice, letters: kept, isWaiting: true })
  }
  const acted = act(model)
  const isShort = (effect: Effect) => effect.kind === 'ring' && effect.signal === 'short'
  return {
    model: { ...acted.model, letters: kept, isWaiting: false },
    // The answer to a meaningless key in a list does not apply to a letter of a word.
    effects: isContinued ? acted.effects.filter((effect) => !isShort(effect)) : acted.effects,
  }
}

function wordOf(letters: Letters): string {
  return letters.map(({ letter }) => letter).join('')
}

/** The earliest letter from which on they begin a word, and all after it; empty if none does. */
function wordBegun(letters: Letters): Letters {
  const begin = letters.findIndex(({ before }, index) => {
    const isCommand = !takesText(before) && (before.mode.kind !== 'recording' || before.draft === '')
    const word = wordOf(letters.slice(index))
    return isCommand && entryWordsOf(before).some((each) => each.startsWith(word))
  })
  return begin < 0 ? [] : letters.slice(begin)
}

/** Whether letters have done something that a word may still take back. */
export function isUndecided({ letters, isWaiting, draft }: RecorderModel): boolean {
  const begun = wordBegun(letters)
  return (begun.length > 0 || isWaiting) && draft !== wordOf(begun)
}

/** The last letters that were typed quickly; none in a field begun slowly, or opened by the first of them. */
function typedQuickly(letters: Letters): Letters {
  let quick: Letters = []
  for (const each of letters) {
    const { letter, at, before } = each
    const last = quick.at(-1)
    if (last && elapsedSeconds(last.at, at) >= quickSeconds) quick = []
    const fewest = takesText(before) ? 2 : before.mode.kind === 'recording' && before.draft !== '' ? 1 : 0
    quick = /\p{L}/u.test(letter) && quick.length >= fewest ? [...quick, each] : []
  }
  return quick
}

/** Whether a letter is a key of the question or the list, else a command that does something. */
function isKeyNow(letter: string, model: RecorderModel): boolean {
  const { mode, draft } = model
  if (mode.kind === 'recording')
    return draft === '' && isCommand(model, letter) && rowOf(letter)?.unavailable(model) === null
  return mode.keys(model).some(({ key }) => key === letter)
}

/** Whether letters typed quickly are a word, whatever it means, and were no commands: `stop`, `sore`, `hard`. */
function isAnyWord(letters: Letters): boolean {
  const different = new Set(wordOf(letters)).size
  if (letters.length < 3 || different < 2) return false
  return different > 3 || letters.some(({ letter, before }) => !isKeyNow(letter, before))
}

/** If no letter follows in time, the letters were commands. */
export function spellingOver(model: RecorderModel): Updated {
  const { letters, isWaiting, now } = model
  const last = letters.at(-1)
  if (!last || elapsedSeconds(last.at, now) < typingPause) return stay(model)
  return isWaiting ? runWaiting(model) : stay({ ...model, letters: [] })
}

/** The waiting letter is a command after all. */
function runWaiting(model: RecorderModel): Updated {
  return field({ ...model, notice: null, isWaiting: false }, model.letters.at(-1)?.letter ?? '')
}

function takeWord(model: RecorderModel, letters: Letters): Updated {
  const draft = wordOf(letters)
  const [first] = letters
  // Letters that are in the field already were text from the first and have done nothing.
  const isTyped = !first || model.draft === draft.slice(0, -1)
  const { model: after, effects } = isTyped ? stay(model) : takeBackTo(first.before, model)
  const word = { draft, pressedOnce: null, letters: [], isWaiting: false }
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
