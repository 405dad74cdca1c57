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
      ? [{ message: parsed.error, suggestion: parsed.suggestion ?? painSuggested(text, prompt, corrections) }]
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

const mostPlaceWords = 4

/** Figures with a pain after its place, written with the pain first: of the words before it, the place are as few
 * as leave figures that can be read. Null if there are none. */
function painSuggested(text: string, prompt: Prompt, corrections: number): Suggestion | null {
  if (corrections === 0 || text.length > longestEntry) return null
  const [, before = '', level] = painAfterPlace.exec(text.trim()) ?? []
  const words = before.split(/[\s,(]+/)
  for (let count = 1; count < words.length && count <= mostPlaceWords; count++) {
    const place = words.slice(-count)
    if (!place.every((word) => /^\p{L}+$/u.test(word))) return null
    const figures = words.slice(0, -count).join(' ')
    const meant = `${figures} pain "${[...place, ...(level ? [level] : [])].join(' ')}"`
    if (read(meant, prompt, 0).outcome !== 'error') return entryError('', meant).suggestion
  }
  return null
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
