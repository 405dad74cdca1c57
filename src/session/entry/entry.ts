import { wordsFor } from '../../units/words.ts'
import type { Answer, EntryReading, Prompt } from '../prompt.ts'
import { readFuel } from './fuel.ts'
import { parseInterval } from './interval.ts'
import {
  type EntryText,
  entryError,
  entryTextOf,
  longestEntry,
  type Parsed,
  remarksText,
  type Suggestion,
  saidTogether,
} from './lex.ts'
import { parseSet } from './set.ts'

/* Parses what is typed between sets and intervals: short and forgiving, and it asks about implausible values.
 * `6 x 100 @8`, `2+1`, `1:28.4 hr 178`, `2.9 km in 14:30`, `= "windy"`, `-`. */

/** A suggestion may be questioned in turn; after this many questions it is dropped. */
const mostCorrections = 3

/** Reads an entry as the answer to a prompt. Never throws.
 * @param text as typed; empty, or `=`, means as prescribed; `-` skips */
export function readEntry(text: string, prompt: Prompt): EntryReading {
  return read(text, prompt, mostCorrections)
}

function read(text: string, prompt: Prompt, corrections: number): EntryReading {
  const typed = entryTextOf(text)
  const remarks = 'error' in typed ? { body: '', note: null, pain: null } : typed
  const parsed = 'error' in typed ? typed : parseEntry(typed, prompt)
  const insisted = 'error' in parsed ? null : parsed.value
  const queries =
    'error' in parsed
      ? [{ message: parsed.error, suggestion: parsed.suggestion ?? reworded(text, prompt, corrections) }]
      : parsed.queries
  if (insisted !== null && queries.length === 0) return { outcome: 'answer', answer: insisted }
  // The message names only what can be read, and what Enter would record.
  let taken: Taken | null = null
  const messages = queries.map(({ message, suggestion }) => {
    if (taken !== null || suggestion === null) return message
    taken = suggested(suggestion, remarks, prompt, corrections)
    return taken === null ? message : suggestion.offer(message, taken.text)
  })
  const message = saidTogether(messages)
  if (insisted === null && taken === null) return { outcome: 'error', message }
  return { outcome: 'question', message, suggested: taken, insisted }
}

/** `4:33 left calf pain 3`, `8 shoulder hurts`. */
const painAfterPlace = /^(.*?)[\s,(]+(?:pain|hurts?|hurting|sore)(?:\s+(10|\d)(?:\/10)?)?\)?$/i
const loadFirst = /^((?:2x)?\d+(?:[.,]\d+)?\s*(?:kg|lbs?)?)\s*x\s*(\d{1,2})(?![\d.,:])(.*)$/i
/** Words of an entry itself, and those that say that there was a failure, no pain or another load: no offer may hide
 * them. */
const isTelling = new RegExp(
  `^(?:${wordsFor('kg', 'lb', 'm', 'km', 'mi', 'yd', 's', 'min', 'h')}|laps?|hr|bpm|rpe|rir|at|in|for|of|to|by|lifts?|rounds?|reps?|repetitions?|no|none|not|without|free|up)$|^(?:bw|bodyw|fail|miss|drop|stuck|stop|gave|giv|walk|pain|hurt|sore|light|heavier|less|more|then|skip|done|ok|yes)`,
  'i',
)
const mostWords = 4

/** Another reading of an entry that cannot be read: with the load after the repetitions, or with as few last words as
 * possible as the place of a pain or as a note. Null if that cannot be read either. */
function reworded(text: string, prompt: Prompt, corrections: number): Suggestion | null {
  if (corrections === 0 || text.length > longestEntry) return null
  const [, load = '', reps = '', rest = ''] = loadFirst.exec(text.trim()) ?? []
  const swapped = load === '' || prompt.kind !== 'set' ? [] : [`${reps} x ${load.trim()}${rest}`]
  const meant = [...swapped, ...remarksLast(text.trim())].find(
    (each) => read(each, prompt, 0).outcome !== 'error',
  )
  return meant === undefined ? null : { text: meant, offer: (_why, said) => `did you mean ${said}?` }
}

/** The entry with its last word in quotes, with its last two, and so on. */
function remarksLast(text: string): string[] {
  const [, before, level] = painAfterPlace.exec(text) ?? []
  const words = (before ?? text).split(/[\s,(]+/)
  const figures = words.findLastIndex((word) => !/^\p{L}{2,}$/u.test(word) || isTelling.test(word))
  const most = Math.min(mostWords, words.length - 1 - figures, words.length - 1)
  return Array.from({ length: most }, (_, index) => {
    const last = words.slice(-1 - index)
    const said = before === undefined ? '' : 'pain '
    return `${words.slice(0, -1 - index).join(' ')} ${said}"${[...last, ...(level ? [level] : [])].join(' ')}"`
  })
}

interface Taken {
  text: string
  answer: Answer
}

/** What a suggestion records; null if it is refused, or questioned without an answer. */
function suggested(
  suggestion: Suggestion,
  remarks: EntryText,
  prompt: Prompt,
  corrections: number,
): Taken | null {
  if (corrections === 0) return null
  const text = suggestion.text + remarksText(remarks)
  const reading = read(text, prompt, corrections - 1)
  if (reading.outcome === 'answer') return { text, answer: reading.answer }
  return reading.outcome === 'question' ? reading.suggested : null
}

function parseEntry(typed: EntryText, prompt: Prompt): Parsed<Answer> {
  if (isSkipping(typed.body))
    return { value: { kind: 'skipped', note: typed.note, pain: typed.pain }, queries: [] }
  const text = withoutWords(typed)
  switch (prompt.kind) {
    case 'set':
      return asAnswer(parseSet(text, prompt), (result) => ({ kind: 'set', result }))
    case 'interval':
      return asAnswer(parseInterval(text, prompt), (result) => ({ kind: 'interval', result }))
    case 'fuel':
      return asAnswer(readFuel(text), (eaten) => ({
        kind: 'fuel',
        result: eaten ?? { ...prompt.prescribed, note: text.note, pain: text.pain },
      }))
    case 'prep':
      if (text.body !== '')
        return entryError(
          `"${text.body}" is not understood; ${prompt.name} is done (= or nothing typed) or not (-)`,
        )
      return { value: { kind: 'prep', result: { note: text.note, pain: text.pain } }, queries: [] }
  }
}

function asAnswer<T>(parsed: Parsed<T>, answer: (value: T) => Answer): Parsed<Answer> {
  return 'error' in parsed ? parsed : { ...parsed, value: answer(parsed.value) }
}

/** `=`, `done`, `ok` and `yes` mean the same as Enter; `easy` at the end is a note. */
function withoutWords(typed: EntryText): EntryText {
  const body = typed.body.replace(/^(=|(done|ok|yes)(?![^\s,]))[\s,]*/, '')
  const figures = body.replace(/(^|[\s,]+)easy$/, '')
  if (figures === body) return { ...typed, body }
  return { ...typed, body: figures, note: typed.note === null ? 'easy' : `easy; ${typed.note}` }
}

function isSkipping(body: string): boolean {
  return body === '-' || body === 'skip' || body === 'skipped'
}
