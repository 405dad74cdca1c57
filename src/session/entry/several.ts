import { lengthUnitOf } from '../../units/words.ts'
import type { Answer, EntryReading, Prompt } from '../prompt.ts'
import { readEntry } from './entry.ts'
import { type EntryText, entryTextOf, remarksText, saidTogether, type Token, tokensOf } from './lex.ts'
import { printEntry } from './print.ts'

/* Several times on one line fill the next prompts in order: `6:07 6:05 6:04 6:01`. */

/** Like EntryReading, for one result or several in a row. */
export type EntriesReading =
  | { outcome: 'answers'; answers: Answer[] }
  | {
      outcome: 'question'
      message: string
      suggested: { text: string; answers: Answer[] } | null
      insisted: Answer[] | null
    }
  | { outcome: 'error'; message: string }

/** Reads a line as the answer to the next prompts. Never throws.
 * @param prompts in order, the oldest first; a line with one result answers the first of them */
export function readEntries(text: string, prompts: readonly Prompt[]): EntriesReading {
  const first = prompts[0]
  if (first === undefined) return { outcome: 'error', message: 'no result is asked for now' }
  const entries = first.kind === 'interval' ? splitAtTimes(text) : [text]
  if (entries.length === 1) return together([text], [readEntry(text, first)])
  const intervals = prompts.findIndex((each) => each.kind !== 'interval')
  const fillable = intervals < 0 ? prompts.length : intervals
  if (entries.length > fillable) {
    const left = `${fillable} ${fillable === 1 ? 'time is' : 'times are'}`
    return { outcome: 'error', message: `there are ${entries.length} times, and only ${left} asked for next` }
  }
  const readings = entries.map((entry, index) => readEntry(entry, prompts[index] as Prompt))
  return runningTotals(readings, prompts) ?? together(entries, readings)
}

/** The entries of a line of several times; the line itself if it holds only one, or cannot be read. */
function splitAtTimes(text: string): string[] {
  const typed = entryTextOf(text)
  const tokens = 'error' in typed ? typed : tokensOf(typed.body)
  if ('error' in typed || 'error' in tokens) return [text]
  const starts = startsOf(tokens, typed.body)
  if (starts.length < 2) return [text]
  return starts.map((start, index) => entryAt(typed, start, starts[index + 1] ?? null))
}

/** After these words, a number belongs to them and begins no new result. */
const leading = new Set(['@', 'hr', 'rpe', 'rir', '/', 'in', 'for', '-'])

function startsOf(tokens: readonly Token[], body: string): number[] {
  const isApart = (token: Token) =>
    (token.start === 0 || body[token.start - 1] === ' ') &&
    (token.end === body.length || body[token.end] === ' ')
  return tokens.flatMap((token, index) => {
    const before = tokens[index - 1]
    const isLed =
      before !== undefined && leading.has(before.text) && !(before.text === '-' && isApart(before))
    const after = tokens[index + 1]?.text ?? ''
    const isOther = after === 'bpm' || after === '/' || lengthUnitOf(after) !== null
    const isTime = token.kind === 'clock' || (token.kind === 'number' && !isOther)
    const isMark = (token.text === '-' || token.text === '=') && isApart(token)
    return (isTime && !isLed) || isMark ? [token.start] : []
  })
}

function entryAt(typed: EntryText, start: number, end: number | null): string {
  const text = typed.body.slice(start, end ?? undefined).replace(/[ ,;]+$/, '')
  return end === null ? text + remarksText(typed) : text
}

function together(entries: readonly string[], readings: readonly EntryReading[]): EntriesReading {
  const errors = readings.flatMap((reading, index) =>
    reading.outcome === 'error'
      ? [{ ...reading, message: placed(reading.message, index, readings.length) }]
      : [],
  )
  if (errors[0] !== undefined) return errors[0]
  const questions = readings.flatMap((reading, index) =>
    reading.outcome === 'question' ? [placed(reading.message, index, readings.length)] : [],
  )
  const answers = readings.map((reading) => (reading.outcome === 'answer' ? reading.answer : null))
  if (questions.length === 0) return { outcome: 'answers', answers: known(answers) ?? [] }
  const meant = readings.map((reading) =>
    reading.outcome === 'question' ? (reading.suggested?.answer ?? null) : answerIn(reading),
  )
  const texts = readings.map((reading, index) =>
    reading.outcome === 'question' ? (reading.suggested?.text ?? '') : (entries[index] ?? ''),
  )
  const corrected = known(meant)
  return {
    outcome: 'question',
    message: saidTogether(questions),
    suggested: corrected === null ? null : { text: texts.join(' '), answers: corrected },
    insisted: known(readings.map((reading) => answerIn(reading))),
  }
}

/** The answer of a reading that needs no correction. */
function answerIn(reading: EntryReading): Answer | null {
  if (reading.outcome === 'answer') return reading.answer
  return reading.outcome === 'question' ? reading.insisted : null
}

function known(answers: readonly (Answer | null)[]): Answer[] | null {
  const there = answers.filter((answer) => answer !== null)
  return there.length === answers.length ? there : null
}

function placed(message: string, index: number, count: number): string {
  return count === 1 ? message : `result ${index + 1}: ${message}`
}

/** The question to ask when times rise like those of a stopwatch that was never reset. */
function runningTotals(readings: readonly EntryReading[], prompts: readonly Prompt[]): EntriesReading | null {
  const typed = known(readings.map(answerIn))
  const differences = typed === null ? null : differencesOf(typed, prompts)
  if (typed === null || differences === null) return null
  const texts = differences.map((answer, index) => printEntry(answer, prompts[index] as Prompt))
  const areRead = texts.every((each, index) => readEntry(each, prompts[index] as Prompt).outcome === 'answer')
  if (!areRead) return null
  const text = texts.join(' ')
  return {
    outcome: 'question',
    message: `running totals? The differences are ${text}`,
    suggested: { text, answers: differences },
    insisted: typed,
  }
}

/** How far the pace of a difference may be from the pace of the first time. */
const likeliest = { from: 2 / 3, to: 3 / 2 }

/** The results that running totals mean; null for any other times: every difference must be about as
 * fast as the first time.
 * @param prompt the prompt of each answer */
export function differencesOf(answers: readonly Answer[], prompt: readonly Prompt[]): Answer[] | null {
  if (answers.length < 2) return null
  const totals: { seconds: number; meters: number }[] = []
  for (const [index, answer] of answers.entries()) {
    const interval = prompt[index]
    if (answer.kind !== 'interval' || interval?.kind !== 'interval' || interval.meters === null) return null
    if (answer.result.seconds === null || answer.result.meters === null) return null
    totals.push({ seconds: answer.result.seconds, meters: answer.result.meters })
  }
  const own = totals.map(
    (total, index) => Math.round((total.seconds - (totals[index - 1]?.seconds ?? 0)) * 100) / 100,
  )
  const pace = (own[0] ?? 0) / (totals[0]?.meters ?? 1)
  const isLike = own.every((seconds, index) => {
    const share = seconds / (totals[index]?.meters ?? 1) / pace
    return share >= likeliest.from && share <= likeliest.to
  })
  if (!isLike) return null
  const finest = Math.min(
    ...answers.map((answer) => (answer.kind === 'interval' ? (answer.result.precision ?? 1) : 1)),
  )
  return answers.map((answer, index) =>
    answer.kind === 'interval'
      ? { ...answer, result: { ...answer.result, seconds: own[index] ?? null, precision: finest } }
      : answer,
  )
}
