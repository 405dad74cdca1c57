import type { Answer, EntryReading, Prompt } from '../prompt.ts'
import type { Query } from './effort.ts'
import { readFuel } from './fuel.ts'
import { readPiece } from './interval.ts'
import { EntryError, type EntryText, entryTextOf, remarksText, saidTogether } from './lex.ts'
import { readSet } from './set.ts'

/* What is typed between sets and intervals: short, forgiving, and never swallowed when it is implausible.
 * `6 x 100 @8`, `2+1`, `1:28.4 hr 178`, `2.9 km in 14:30`, `= "windy"`, `-`. */

/** A suggestion may itself be doubtful once; more often it is none. */
const mostCorrections = 3

/** What an entry says to what is asked. Never throws.
 * @param text as typed; empty, or `=`, means as prescribed; `-` skips */
export function readEntry(text: string, asked: Prompt): EntryReading {
  return read(text, asked, mostCorrections)
}

function read(text: string, asked: Prompt, corrections: number): EntryReading {
  let remarks: EntryText = { body: '', note: null, pain: null }
  const doubts: Query[] = []
  try {
    remarks = entryTextOf(text)
    const answer = answerOf(remarks, asked, doubts)
    if (doubts.length === 0) return { outcome: 'answer', answer }
    const message = saidTogether(doubts.map((doubt) => doubt.message))
    const suggestion = doubts.find((doubt) => doubt.suggestion !== null)?.suggestion ?? null
    return {
      outcome: 'question',
      message,
      suggested: suggested(suggestion, remarks, asked, corrections),
      insisted: answer,
    }
  } catch (error) {
    if (!(error instanceof EntryError)) throw error
    const correction = suggested(error.suggestion, remarks, asked, corrections)
    if (correction === null) return { outcome: 'error', message: error.message }
    return { outcome: 'question', message: error.message, suggested: correction, insisted: null }
  }
}

function suggested(
  suggestion: string | null,
  remarks: EntryText,
  asked: Prompt,
  corrections: number,
): { text: string; answer: Answer } | null {
  if (suggestion === null || corrections === 0) return null
  const text = suggestion + remarksText(remarks)
  const reading = read(text, asked, corrections - 1)
  if (reading.outcome === 'answer') return { text, answer: reading.answer }
  return reading.outcome === 'question' ? reading.suggested : null
}

function answerOf(typed: EntryText, asked: Prompt, doubts: Query[]): Answer {
  if (isSkipping(typed.body)) return { kind: 'skipped', note: typed.note, pain: typed.pain }
  const text = { ...typed, body: typed.body.replace(/^=\s*/, '') }
  switch (asked.kind) {
    case 'set':
      return { kind: 'set', result: readSet(text, asked, doubts) }
    case 'piece':
      return { kind: 'piece', result: readPiece(text, asked, doubts) }
    case 'fuel': {
      const eaten = readFuel(text, doubts)
      return { kind: 'fuel', result: eaten ?? { ...asked.prescribed, note: text.note, pain: text.pain } }
    }
    case 'prep':
      if (!['', 'done', 'ok', 'yes'].includes(text.body)) {
        throw new EntryError(
          `"${text.body}" is not understood; ${asked.name} is done (= or nothing typed) or not (-)`,
        )
      }
      return { kind: 'prep', result: { note: text.note, pain: text.pain } }
  }
}

function isSkipping(body: string): boolean {
  return body === '-' || body === 'skip' || body === 'skipped'
}
