import { lengthUnitOf } from '../../units/words.ts'
import type { Answer, EntryReading, Prompt } from '../prompt.ts'
import { readEntry } from './entry.ts'
import { entryTextOf, saidTogether, type Token, tokensOf, withoutRemarks } from './lex.ts'
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

/** The entries of a line of several times, each with the notes and pains typed after it; the line itself if it holds only
 * one, or cannot be read. */
function splitAtTimes(text: string): string[] {
  if ('error' in entryTextOf(text)) return [text]
  const figures = withoutRemarks(text)
  const tokens = tokensOf(figures)
  if ('error' in tokens) return [text]
  const starts = startsOf(tokens, figures)
  if (starts.length < 2) return [text]
  return starts.map((start, index) =>
    text.slice(index === 0 ? 0 : start, starts[index + 1]).replace(/[ ,;]+$/, ''),
  )
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

function together(entries: readonly string[], readings: readonly EntryReading[]): EntriesReading {
  const questions: string[] = []
  const meant: ({ text: string; answer: Answer } | null)[] = []
  for (const [index, reading] of readings.entries()) {
    if (reading.outcome === 'answer') {
      meant.push({ text: entries[index] ?? '', answer: reading.answer })
      continue
    }
    const message = readings.length === 1 ? reading.message : `result ${index + 1}: ${reading.message}`
    if (reading.outcome === 'error') return { outcome: 'error', message }
    questions.push(message)
    meant.push(reading.suggested)
  }
  const insisted = known(readings.map(answerIn))
  if (questions.length === 0) return { outcome: 'answers', answers: insisted ?? [] }
  const suggested = known(meant)
  return {
    outcome: 'question',
    message: saidTogether(questions),
    suggested: suggested && {
      text: suggested.map(({ text }) => text).join(' '),
      answers: suggested.map(({ answer }) => answer),
    },
    insisted,
  }
}

/** The answer of a reading that needs no correction. */
function answerIn(reading: EntryReading): Answer | null {
  if (reading.outcome === 'answer') return reading.answer
  return reading.outcome === 'question' ? reading.insisted : null
}

/** These, unless one is missing. */
function known<T>(all: readonly (T | null)[]): T[] | null {
  const there = all.filter((each) => each !== null)
  return there.length === all.length ? there : null
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

/** The results that running totals mean; null for any other times, and where another distance than the prescribed one
 * was typed: every difference must be about as fast as the first time.
 * @param prompts the prompt of each answer */
export function differencesOf(answers: readonly Answer[], prompts: readonly Prompt[]): Answer[] | null {
  const totals = answers.flatMap((answer, index) => {
    const prompt = prompts[index]
    if (answer.kind !== 'interval' || prompt?.kind !== 'interval' || prompt.meters === null) return []
    const { seconds, meters } = answer.result
    return seconds === null || meters !== prompt.meters ? [] : [{ answer, seconds, meters }]
  })
  const [first] = totals
  if (first === undefined || totals.length < 2 || totals.length < answers.length) return null
  const own = totals.map(
    ({ seconds }, index) => Math.round((seconds - (totals[index - 1]?.seconds ?? 0)) * 100) / 100,
  )
  const isLike = totals.every(({ meters }, index) => {
    const share = (own[index] ?? 0) / meters / (first.seconds / first.meters)
    return share >= likeliest.from && share <= likeliest.to
  })
  if (!isLike) return null
  const precision = Math.min(...totals.map(({ answer }) => answer.result.precision ?? 1))
  return totals.map(({ answer }, index) => ({
    ...answer,
    result: { ...answer.result, seconds: own[index] ?? null, precision },
  }))
}
