import { printFood } from '../../prescription/print.ts'
import { hasResult, isSameItem, type Step } from '../../prescription/step.ts'
import { printNumber, roundTo } from '../../units/decimal.ts'
import { formatClockShort, printTime } from '../../units/duration.ts'
import { exactLength, formatMeters, metersOf, printInUnitOf, readLength } from '../../units/length.ts'
import { joined } from '../../units/lists.ts'
import type { MassUnit } from '../../units/model.ts'
import { wordsFor } from '../../units/words.ts'
import { isAlike, numberOf, typedLoad } from '../load.ts'
import type { IntervalResult, LiftedLoad, SetResult } from '../model.ts'
import { type Answer, type IntervalPrompt, type Prompt, promptOf, type SetPrompt } from '../prompt.ts'
import type { Recorded, SessionState } from '../state.ts'
import { noEffort } from './effort.ts'
import { parseMeal } from './fuel.ts'
import { metersKnown, parseInterval } from './interval.ts'
import {
  Cursor,
  type EntryText,
  entryTextOf,
  type Parsed,
  phrase,
  type Reading,
  remarksText,
  type Suggested,
} from './lex.ts'
import { parseSet } from './set.ts'
import { defaultUnit } from './setFigures.ts'

/* Parses what is typed between sets and intervals: short and forgiving, and it asks about implausible values.
 * `6 x 100 @8`, `2+1`, `1:28.4 hr 178`, `2.9 km in 14:30`, `= "windy"`, `-`. */

/** A suggestion may be questioned in turn; after this many questions it is dropped. */
const mostCorrections = 3

/** Reads an entry as the answer to a prompt. Never throws.
 * @param text as typed; empty, or `=`, means as prescribed; `-` skips */
export function readEntry(text: string, prompt: Prompt): Reading<Answer> {
  return read(text, prompt, mostCorrections)
}

function read(text: string, prompt: Prompt, corrections: number): Reading<Answer> {
  const { value: insisted, queries } = parseEntry(entryTextOf(text), prompt)
  if (insisted !== null && queries.length === 0) return { outcome: 'answer', value: insisted }
  const readable = queries.map(({ meant }) => suggested(meant, prompt, corrections))
  // The message names only what can be read, and what Enter would record.
  const first = readable.findIndex((each) => each !== null)
  const taken = readable[first] ?? null
  const messages = queries.map(({ message, offer }, index) =>
    index === first && taken ? offer(message, taken.text) : message,
  )
  const message = joinMessages(messages)
  if (insisted === null && taken === null) return { outcome: 'error', message }
  return { outcome: 'question', message, suggested: taken, insisted }
}

/** Joins messages: a question mark ends a sentence, anything else continues after a semicolon. */
function joinMessages(messages: readonly string[]): string {
  return messages.reduce((joined, message) => `${joined}${joined.endsWith('?') ? ' ' : '; '}${message}`)
}

/** What a suggestion records; null if it is refused, or questioned without an answer. */
function suggested(text: string | null, prompt: Prompt, corrections: number): Suggested<Answer> | null {
  if (text === null || corrections === 0) return null
  return meantBy(text, read(text, prompt, corrections - 1))
}

/** What a text most likely means: its answer, or the answer to the question about it. */
function meantBy(text: string, reading: Reading<Answer>): Suggested<Answer> | null {
  if (reading.outcome === 'answer') return { text, value: reading.value }
  return reading.outcome === 'question' ? reading.suggested : null
}

const skipping = phrase('(?:-|skip|skipped) (?![\\d.])')

function parseEntry(text: EntryText, prompt: Prompt): Parsed<Answer> {
  const parsed = parseAnswer(text, prompt)
  const { before } = prompt
  const answer = parsed.value
  if (!before || answer === null || answer.kind === 'skipped') return parsed
  const { note, pain } = answer.result
  const remarks = { note: note ?? before.note, pain: pain ?? before.pain }
  return { ...parsed, value: { ...answer, result: { ...answer.result, ...remarks } } as Answer }
}

function parseAnswer(text: EntryText, prompt: Prompt): Parsed<Answer> {
  const cursor = new Cursor(text)
  const { remarks } = cursor
  if (cursor.take(skipping) !== null) {
    if (cursor.goOn()) cursor.refuseToken('type - alone to skip, or with a note in quotes')
    return cursor.parsed({ kind: 'skipped', ...remarks })
  }
  switch (prompt.kind) {
    case 'set':
      return parseSet(cursor, prompt)
    case 'interval':
      return parseInterval(cursor, prompt)
    case 'fuel':
      return parseMeal(cursor, prompt)
    case 'prep':
      if (cursor.goOn()) cursor.refuseToken('type = or nothing for done, - for not done')
      return cursor.parsed({ kind: 'prep', result: remarks })
  }
}

/* Several times on one line fill the next prompts in order: `6:07 6:05 6:04 6:01`. */

/** Reads a line as the answer to the next prompts. Never throws.
 * @param prompts in order, the oldest first; a line with one result answers the first of them
 * @param ended how many of them are about efforts that are over or under way; 0 where no clock runs */
export function readEntries(
  text: string,
  prompts: readonly Prompt[],
  ended = prompts.length,
): Reading<Answer[]> {
  const [first] = prompts
  if (first === undefined) return { outcome: 'error', message: 'there is no result to enter now' }
  if (first.kind !== 'interval') return together([text], [readEntry(text, first)])
  const entries = splitAtTimes(text)
  const intervals = prompts.findIndex((each) => each.kind !== 'interval')
  const fillable = intervals < 0 ? prompts : prompts.slice(0, intervals)
  const readings = fillable
    .slice(0, entries.length)
    .map((each, index) => readEntry(entries[index] ?? '', each))
  const isDoubtful = readings.length < entries.length || readings.some(({ outcome }) => outcome !== 'answer')
  if (isDoubtful || (ended === 1 && isRateBeside(entries, readings))) {
    // A number that cannot be the time of the next result may be the heart rate of the first: 6:07 172.
    const alone = readEntry(text, first)
    if (alone.outcome === 'question' && alone.suggested) return together([text], [alone])
  }
  if (readings.length < entries.length) {
    const left = `${fillable.length} ${fillable.length === 1 ? 'time is' : 'times are'}`
    return { outcome: 'error', message: `there are ${entries.length} times, and only ${left} asked for next` }
  }
  return runningTotals(readings, prompts) ?? together(entries, readings)
}

/** Nobody's next repeat is slower than the one before by more than this share. This program's own rule. */
const muchSlower = 1.3

/** Whether the second of two times is rather a heart rate: `79 171`, `1:52 165`. */
function isRateBeside(entries: readonly string[], readings: readonly Reading<Answer>[]): boolean {
  const [first = '', second = ''] = entries
  if (entries.length !== 2 || !/^\d{3}(?![\d:.])/.test(second)) return false
  const [pace = 0, next = 0] = readings.map((reading) => {
    const answer = insistedIn(reading)
    return answer?.kind === 'interval' ? (answer.result.seconds ?? 0) / (answer.result.meters ?? 1) : 0
  })
  return first.includes(':') || next > muchSlower * pace
}

const units = wordsFor('m', 'km', 'mi', 'yd', 'lap')
/** A time, `-` or `=` begins another result, unless what is before or after it makes it a distance, an effort or a
 * heart rate. */
const resultStart = new RegExp(
  String.raw`(?<=^|[\s,;])(?<!(?:@|hr|rpe|rir|/|\bin|\bfor)[\s:]*)` +
    String.raw`(?:[-=](?!\S)|\d[\d:.]*(?![\d:.]|\s*(?:/|(?:bpm|rir(?!\s*\d)|${units})\b)))`,
  'g',
)

/** The entries of a line of several times, each with the notes and pains typed after it; the line itself if it holds
 * only one, or cannot be read. */
function splitAtTimes(typed: string): string[] {
  const { text, body, problem } = entryTextOf(typed)
  const starts = problem === null ? [...body.matchAll(resultStart)].map(({ index }) => index) : []
  if (starts.length < 2) return [typed]
  return starts.map((start, index) =>
    text.slice(index === 0 ? 0 : start, starts[index + 1]).replace(/[ ,;]+$/, ''),
  )
}

/** Combines the readings of the entries on a line. */
function together(entries: readonly string[], readings: readonly Reading<Answer>[]): Reading<Answer[]> {
  const questions: string[] = []
  for (const [index, reading] of readings.entries()) {
    if (reading.outcome === 'answer') continue
    const message = readings.length === 1 ? reading.message : `result ${index + 1}: ${reading.message}`
    if (reading.outcome === 'error') return { outcome: 'error', message }
    questions.push(message)
  }
  const insisted = allKnown(readings.map(insistedIn))
  if (questions.length === 0) return { outcome: 'answer', value: insisted ?? [] }
  const suggested = allKnown(readings.map((reading, index) => meantBy(entries[index] ?? '', reading)))
  return {
    outcome: 'question',
    message: joinMessages(questions),
    suggested: suggested && {
      text: suggested.map(({ text }) => text).join(' '),
      value: suggested.map(({ value }) => value),
    },
    insisted,
  }
}

/** The answer of a reading that needs no correction. */
function insistedIn(reading: Reading<Answer>): Answer | null {
  if (reading.outcome === 'answer') return reading.value
  return reading.outcome === 'question' ? reading.insisted : null
}

/** The values; null if one of them is missing. */
function allKnown<T>(all: readonly (T | null)[]): T[] | null {
  const values = all.filter((each) => each !== null)
  return values.length === all.length ? values : null
}

/** The question to ask when times rise like those of a stopwatch that was never reset. */
function runningTotals(
  readings: readonly Reading<Answer>[],
  prompts: readonly Prompt[],
): Reading<Answer[]> | null {
  const typed = allKnown(readings.map(insistedIn))
  const differences = typed && differencesOf(typed, prompts)
  if (differences === null) return null
  const texts = printEntries(differences, prompts)
  // Nobody runs so fast either.
  if (texts.some((each, index) => readEntry(each, prompts[index] as Prompt).outcome !== 'answer')) return null
  const text = texts.join(' ')
  return {
    outcome: 'question',
    message: `running totals? The differences are ${text}`,
    suggested: { text, value: differences },
    insisted: typed,
  }
}

/** The pace of a difference as a share of the pace of the first time, at which the times are likely running totals. */
const likelyShares = { from: 2 / 3, to: 3 / 2 }

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
  const differences = totals.map(({ seconds }, index) =>
    roundTo(seconds - (totals[index - 1]?.seconds ?? 0), 2),
  )
  const isLike = totals.every(({ meters }, index) => {
    const share = (differences[index] ?? 0) / meters / (first.seconds / first.meters)
    return share >= likelyShares.from && share <= likelyShares.to
  })
  if (!isLike) return null
  const precision = Math.min(...totals.map(({ answer }) => answer.result.precision ?? 1))
  return totals.map(({ answer }, index) => ({
    ...answer,
    result: { ...answer.result, seconds: differences[index] ?? null, precision },
  }))
}

/* Writes an answer as it would be typed, and in words. */

/** Writes an entry that parses to the same answer under the same prompt, apart from a time taken by key, which is then
 * typed.
 * @param prompt of the kind of the answer */
export function printEntry(answer: Answer, prompt: Prompt): string {
  switch (answer.kind) {
    case 'skipped':
      return `-${remarksText(answer)}`
    case 'prep':
      return `=${remarksText(answer.result)}`
    case 'fuel': {
      const eaten = printFood(answer.result)
      return `${eaten === '' ? '=' : eaten}${remarksText(answer.result)}`
    }
    case 'set':
      return printSet(answer.result, prompt as SetPrompt)
    case 'interval':
      return printInterval(answer.result, prompt as IntervalPrompt)
  }
}

/** Writes each answer under its prompt. */
export function printEntries(answers: readonly Answer[], prompts: readonly Prompt[]): string[] {
  return answers.map((answer, index) => printEntry(answer, prompts[index] as Prompt))
}

function printSet(result: SetResult, prompt: SetPrompt): string {
  const load = result.load === null ? '' : ` x ${loadsOf(result, result.load, defaultUnit(prompt))}`
  const effort = result.rpe === null ? '' : ` @${printNumber(result.rpe)}`
  return `${countOf(result, prompt)}${result.failed ? '!' : ''}${load}${effort}${remarksText(result)}`
}

/** The load, or the loads of the drops: `20>15>10`. Those in another unit than the first were not typed, and are left as
 * they are shown. */
function loadsOf({ loads = [] }: SetResult, load: LiftedLoad, unit: MassUnit): string {
  const lower = loads.slice(1)
  const isTyped = lower.every((each) => isAlike(each, load))
  const numbers = isTyped ? lower.map((each) => printNumber(numberOf(each))) : []
  const [number = '', ...suffix] = typedLoad(load, unit).split(' ')
  return [[number, ...numbers].join('>'), ...suffix].join(' ')
}

function countOf(result: SetResult, { dose }: SetPrompt): string {
  if (result.groups !== null) return result.groups.join(dose.kind === 'drop' || result.loads ? '>' : '+')
  if (result.seconds !== null)
    return dose.kind === 'forTime' ? formatClockShort(result.seconds) : printTime(result.seconds)
  if (result.meters !== null) return metersText(result.meters, dose)
  const isMeasured = dose.kind === 'time' || dose.kind === 'distance'
  return `${printNumber(result.reps ?? 0)}${isMeasured ? ' reps' : ''}`
}

/** In yards where those were prescribed, if that is exact. */
function metersText(meters: number, dose: SetPrompt['dose']): string {
  const yards = dose.kind === 'distance' ? printInUnitOf(dose.length, meters) : ''
  const typed = readLength(yards)
  const isExact = typed?.unit === 'yd' && Math.abs(metersOf(typed) - meters) < 0.0001
  return isExact ? yards : `${printNumber(meters)} m`
}

function printInterval(result: IntervalResult, prompt: IntervalPrompt): string {
  const clock = result.seconds === null ? '' : formatClockShort(result.seconds, result.precision)
  const isAsPrescribed = result.meters === null || result.meters === metersKnown(result.seconds, prompt)
  const distance = isAsPrescribed ? '' : exactLength(result.meters ?? 0, prompt.unit)
  const done = joined(' in ', [distance, clock]) || '='
  return joined(' ', [done, ...effortTexts(result)]) + remarksText(result)
}

/** `hr 171/183`, `rpe 8`, as they would be typed; empty without any. */
export function effortTexts({ heartRate, heartRateMax, rpe }: IntervalResult): string[] {
  const highest = heartRateMax === null ? '' : `/${heartRateMax}`
  return [
    ...(heartRate === null ? [] : [`hr ${heartRate}${highest}`]),
    ...(rpe === null ? [] : [`rpe ${printNumber(rpe)}`]),
  ]
}

/** `same`, `same @9`: the figures of the previous result of the same exercise or work, without its effort, heart rate and
 * remarks; as offered without one. Returns the text if it is anything else. */
export function sameAsBefore(text: string, state: SessionState, step: Step | undefined): string {
  const match = /^\s*same(?!\S)(.*)$/i.exec(text)
  if (!match || !step) return text
  const isOfSame = (each: Step) => isSameItem(each, step) && nameOf(each) === nameOf(step)
  const before = state.steps
    .filter(hasResult)
    .findLast((each) => each.id !== step.id && state.recorded.has(each.id) && isOfSame(each))
  const recorded = before && state.recorded.get(before.id)
  if (!recorded || recorded.kind === 'fuel') return `=${match[1]}`
  // A load chosen for this set takes precedence over the previous set's.
  const load = state.chosenLoads.has(step.id) && { load: null, loads: undefined }
  const figures = { ...recorded.result, ...noEffort, note: null, pain: null, ...load }
  return printEntry({ ...recorded, result: figures } as Recorded, promptOf(state, before)) + match[1]
}

function nameOf(step: Step): string {
  return step.kind === 'set' ? step.name : ''
}

/** What Enter alone would record, shown in the empty field: `3 x 92.5`, `1:52.4, timed by you`, `done, not timed`; null
 * when something must be typed. */
export function describeEmpty(prompt: Prompt): string | null {
  const reading = readEntry('', prompt)
  if (reading.outcome !== 'answer') return null
  const answer = reading.value
  if (answer.kind === 'interval') return describeInterval(answer.result, prompt as IntervalPrompt)
  if (answer.kind === 'set') return describeSet(answer.result, prompt as SetPrompt)
  return (answer.kind === 'fuel' && printFood(answer.result)) || 'done'
}

function describeInterval(result: IntervalResult, { unit }: IntervalPrompt): string {
  if (result.seconds === null) return 'done, not timed'
  const clock = formatClockShort(result.seconds, result.precision)
  if (result.byKey) return `${clock}, timed by you`
  return `${clock}, ${result.meters === null ? 'metres not known' : formatMeters(result.meters, unit)}`
}

function describeSet(result: SetResult, prompt: SetPrompt): string {
  const text = printSet(result, prompt)
  const isBareCount = result.load === null && result.groups === null && result.reps !== null
  return isBareCount ? `${text} ${result.reps === 1 ? 'rep' : 'reps'}` : text
}
