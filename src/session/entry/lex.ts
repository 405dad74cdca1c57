import { roundTo } from '../../units/decimal.ts'
import { metersOf } from '../../units/length.ts'
import { joined } from '../../units/lists.ts'
import { lengthUnitOf, secondsIn, wordsFor } from '../../units/words.ts'
import { isUnsafe } from '../../validate/unsafe.ts'
import type { Remarks } from '../model.ts'
import { hasSign, levelPattern, needsADoctor, noPain, painAsTyped, painsIn } from '../pain.ts'

/* An entry is read in three steps, so that every figure keeps its place and a suggestion is an edit of what was typed:
 * notes and pains are replaced by blanks, the rest is cut into tokens, and phrases take tokens from the front. */

/** What typed words mean. An error is refused; a question can be accepted: `suggested` is what one key records (null
 * without a suggestion), `insisted` is what another key, or `!!` in a results file, records without a correction (null
 * if that is impossible). Messages are whole sentences for the athlete. */
export type Reading<T> =
  | Read<T>
  | { outcome: 'question'; message: string; suggested: Suggested<T> | null; insisted: T | null }

/** A reading that leaves no question. */
export type Read<T> = { outcome: 'answer'; value: T } | { outcome: 'error'; message: string }

/** What was probably meant, as it would be typed. */
export interface Suggested<T> {
  text: string
  value: T
}

/** Something wrong or implausible. */
export interface Query {
  message: string
  /** The whole entry that was probably meant, which is offered only if it can be read. */
  meant: string | null
  offer: Offer
}

type Offer = (message: string, text: string) => string

const didYouMean: Offer = (message, text) => `${message}; did you mean ${text}?`
export const asLoad: Offer = (message, text) => `${message}; a load is written ${text}`

/** The value of an entry and the questions about it. Without a value it is refused, and the only question says why. */
export interface Parsed<T> {
  value: T | null
  queries: readonly Query[]
}

/** A text at one place in the entry: what is typed there, or what should replace it. */
export interface Edit {
  text: string
  start: number
  end: number
}

export interface EntryText extends Remarks {
  /** As typed, without the spaces around it. */
  text: string
  /** The figures in lower case and plain signs, with blanks in place of the remarks. */
  body: string
  /** Why the entry cannot be read at all. */
  problem: Query | null
}

/** The most characters of an entry. */
export const longestEntry = 500

/* Notes and pains. */

/** Before a sign that opens a quote; not in `4'05"`. */
const opening = String.raw`(?<!\d['’′]\d\d)`
const quoteSign = new RegExp(`${opening}["“”„]`)
const quoted = `(?:${opening}(?:"[^"]*"|[“”„][^"“”]*["“”]))`
const notBlank = String.raw`(?!.\s*["“”])`
/** A word of a place; not one that begins a figure. */
const word = String.raw`(?:(?:\s+|(?<=\bpain:))(?!(?:rpe|rir|hr|bw|x|in)\b[\s:]*[\d+-]|(?:failed|fail|reps?)\b)\p{L}[\p{L}'’-]*)`
const units = wordsFor('kg', 'lb', 'm', 'km', 'mi', 'yd', 'lap', 's', 'min', 'h')
/** Words before or after a number that make it a figure of the result. */
const ofFigure = `(?:x|of|at|in|for|bpm|hr|rpe|rir|lifts?|rounds?|reps?|${units})`
/** How much it hurts, after a place; not the repetitions in `pain left knee 6 x 100` or `pain left knee 6 reps`. */
const level =
  String.raw`(?:\s*\b${levelPattern}(?=\s*(?:$|[,;"“”„]|(?:hr|rpe|rir|and)\b)|` +
  String.raw`\s+(?:\d|[-=](?!\S)|(?!x\d|(?:${ofFigure}|each|fail|failed|bw)\b)\p{L})))`
/** A note, words that are one without quotes, or the pains of one or several places with their levels. */
const remark = new RegExp(
  String.raw`\bpain:?\s*(?<pain>${notBlank}${quoted}${level}?)|(?<note>${quoted})|` +
    String.raw`\b(?<words>${noPain}|not sore|easy)\b|` +
    String.raw`\bpain\b:?(?:\s+in\b)?(?:\s+(?:my|the)\b)?(?<places>${word}+${level}?(?:,?${word}+${level})*)`,
  'giu',
)
const howPainIsTyped = 'write where it hurts: pain "left knee"'

/** Separates notes and pain from the figures. */
export function entryTextOf(typed: string): EntryText {
  const text = typed.trim().replaceAll('\t', ' ')
  const notes: string[] = []
  const pains: string[] = []
  const refused = (message: string, meant: string | null = null): EntryText => {
    return { text, body: text, note: null, pain: null, problem: { message, meant, offer: didYouMean } }
  }
  if (text.length > longestEntry)
    return refused(`an entry has at most ${longestEntry} characters, and this one has ${text.length}`)
  if (isUnsafe(text)) return refused('an entry cannot hold control characters; type it again')
  let body = text
  for (const { 0: all, index, groups = {} } of text.matchAll(remark)) {
    const { pain, note, words, places } = groups
    if (note !== undefined) notes.push(note.slice(1, -1).trim())
    if (words !== undefined) notes.push(words)
    const place = pain ?? places
    if (place !== undefined) pains.push(painAsTyped(place))
    // By itself it says that an easy run is done, so it stays an entry.
    if (words?.toLowerCase() === 'easy') continue
    body = body.slice(0, index) + ' '.repeat(all.length) + body.slice(index + all.length)
  }
  const open = body.search(quoteSign)
  if (open >= 0) {
    const isLast = text.slice(open + 1).trim() === ''
    return refused('the quote is not closed', isLast ? text.slice(0, open).trim() : `${text}"`)
  }
  const [note, pain] = [joined('; ', notes) || null, joined('; ', pains) || null]
  return { text, body: inPlainSigns(body), note, pain, problem: null }
}

const painAfterFigures = new RegExp(
  String.raw`^(?:\P{L}|(?:${ofFigure}|bw|done|same|easy|fail|failed)(?!\p{L}))*(pain\b.*)`,
  'iu',
)

/** Whether what was typed, be it an entry or not, names a sign that needs a doctor: in words, or as a pain that is not
 * over, alone or after figures. */
export function isWarning(typed: string): boolean {
  const pain = painAfterFigures.exec(typed)?.[1] ?? null
  return pain === null ? hasSign(typed) : painsIn(pain).some(needsADoctor)
}

/** Replaces typographic signs by plain ones, one for one, so that every character keeps its place. */
function inPlainSigns(text: string): string {
  return (
    text
      .toLowerCase()
      .replace(/[×✕*]/g, 'x')
      .replace(/[‐‑‒–—−]/g, '-')
      // 4'05 is 4:05, and 1'48"6 is 1:48.6.
      .replace(/(\d)['’′](\d\d)(?:["”″](?=(\d?)))?/g, (said, minutes, seconds, tenth) =>
        `${minutes}:${seconds}${tenth ? '.' : ''}`.padEnd(said.length),
      )
      .replace(/(?<![\d.:])(\d{1,2})(?:m| ?min ?)([0-5]\d) ?s(?:ecs?)?\b/g, (said, minutes, seconds) =>
        `${minutes}:${seconds}`.padEnd(said.length),
      )
      // Three numbers or more in a row are a list, so their commas are not decimal.
      .replace(/\d[\d.:]*(?:,\d[\d.:]*){2,}/g, (list) => list.replaceAll(',', ' '))
      .replace(/(?<!\.\d*)(?<=\d),(?=\d+(?![\d:]|\.\d))/g, '.')
  )
}

/** Writes remarks as they are typed after figures. */
export function remarksText({ note, pain }: Remarks): string {
  const inQuotes = (words: string) => `"${words.replaceAll('"', "'")}"`
  return (note === null ? '' : ` ${inQuotes(note)}`) + (pain === null ? '' : ` pain ${inQuotes(pain)}`)
}

/** Words of a figure at the beginning, and anywhere those of failure, of no pain or of another load: a suggestion must
 * not bury them in a note. */
const mustNotBeQuoted = new RegExp(
  String.raw`^${ofFigure}\b|` +
    String.raw`\b(?:to|by|no|none|not|without|free|up)\b|` +
    String.raw`\b(?:fail|miss|drop|stuck|stop|gave|giv|walk|pain|hurt|sore|light|heavier|less|more|then|skip|done|ok|yes)`,
  'iu',
)
const placeAndPain = new RegExp(
  String.raw`^(?:(?:my|the)\s+)?(.+?)[\s,(]+(?:pain|hurts?|hurting|sore)(?:\s+(${levelPattern}))?\)?$`,
  'i',
)

/** Words about a pain: `sharp pain in the knee`, but not `no knee pain`. */
const saysPain = /^(?!(?:no|not|without)\b).*\b(?:pain|hurt|sore|ach(?:e|ing)|twinge)/i

/** The last words of an entry in quotes, as a note or as the place of a pain; null for figures, and for words that mean
 * more than a note. */
function asRemark(words: string): string | null {
  const [, place = words, pain = ''] = placeAndPain.exec(words) ?? []
  if (!/^\p{L}[\p{L}\s,'’()-]*$/u.test(place) || mustNotBeQuoted.test(place)) return null
  return place === words ? `"${place}"` : `pain "${joined(' ', [place, pain])}"`
}

/* Figures, and the phrases that they are parts of. */

/** The source of a number, and of a time with colons, in a phrase. */
export const number = String.raw`(?:\d{1,7}(?:\.\d+)?|\.\d+)`
export const clock = String.raw`(?:\d{1,4}(?::[0-5]\d){1,2}(?:\.\d+)?)`
const isFigure = new RegExp(`^(?:${number}|${clock})$`)
const token = /\d[\d:.]*|\.\d+|x(?=[\d\s.+-]|bw|bodyweight|$)|\p{L}+|\S/gu

/** Cuts figures into words, numbers, times and signs. */
function tokensOf(body: string): Edit[] {
  return [...body.matchAll(token)].map(({ 0: text, index }) => ({
    text,
    start: index,
    end: index + text.length,
  }))
}

/** The pattern of a phrase, in which every word, number and sign has a space after it. */
export function phrase(source: string): RegExp {
  return new RegExp(`^(?:${source})`, 'u')
}

/** Tokens that belong together. `parts`: the groups of their pattern. */
export interface Phrase extends Edit {
  parts: readonly (string | undefined)[]
}

/** The value of a number, or the seconds of a time. */
export function valueIn(figure: string): number {
  const value = figure.split(':').reduce((sum, field) => sum * 60 + Number(field), 0)
  return figure.includes(':') ? roundTo(value, 2) : value
}

/** Metres or seconds in the unit that a word means; null for any other word, and for a lap, since laps differ. */
export function unitOf(word: string): { kind: 'meters' | 'seconds'; size: number } | null {
  const seconds = secondsIn(word)
  if (seconds !== null) return { kind: 'seconds', size: seconds }
  const unit = lengthUnitOf(word)
  return unit === null || unit === 'lap' ? null : { kind: 'meters', size: metersOf({ value: 1, unit }) }
}

/** The precision of a typed number or time: 1, 0.1 or 0.01. */
export function precisionOf(text: string): number {
  const digits = /\.(\d*)/.exec(text)?.[1]?.length ?? 0
  return digits === 0 ? 1 : digits === 1 ? 0.1 : 0.01
}

const asPrescribed = phrase('(?:=|done|ok|yes) ')
/** Between figures; `easy` is kept as a note. */
const separator = phrase('[,;] |easy ')

/** Hands out the phrases of an entry one after the other, and keeps what is wrong with them. After the first error no
 * token is left, so the rest of the parser simply runs to its end. */
export class Cursor {
  private readonly entry: EntryText
  private readonly tokens: readonly Edit[]
  private readonly queries: Query[] = []
  private problem: Query | null
  private index = 0

  constructor(entry: EntryText) {
    this.entry = entry
    this.problem = entry.problem
    this.tokens = entry.problem === null ? tokensOf(entry.body) : []
    const wrong = this.tokens.find(({ text }) => /\d/.test(text) && !isFigure.test(text))
    if (wrong !== undefined) {
      const message = `${wrong.text} is neither a number nor a time such as 6:07, 1:28.4 or 1:02:11`
      this.refuse(message, { ...wrong, text: withColons(wrong.text) })
    }
    this.isAsPrescribed = this.take(asPrescribed) !== null
  }

  /** `=` or `done` was typed. */
  readonly isAsPrescribed: boolean

  get remarks(): Remarks {
    return { note: this.entry.note, pain: this.entry.pain }
  }

  get isRefused(): boolean {
    return this.problem !== null
  }

  /** Passes over separators; returns whether another figure follows. */
  goOn(): boolean {
    while (this.take(separator) !== null);
    return this.index < this.tokens.length
  }

  /** The next tokens if they read like the phrase. */
  look(shape: RegExp): Phrase | null {
    const tokens = this.tokens.slice(this.index)
    const match = shape.exec(tokens.map(({ text }) => `${text} `).join(''))
    const last = tokens[(match?.[0].split(' ').length ?? 0) - 2]
    const [first] = tokens
    if (match === null || first === undefined || last === undefined) return null
    return { text: match[0].trim(), parts: match.slice(1), start: first.start, end: last.end }
  }

  take(shape: RegExp): Phrase | null {
    const found = this.look(shape)
    if (found !== null) this.index += found.text.split(' ').length
    return found
  }

  /** Refuses the entry; only the first reason counts.
   * @param meant the edit that was probably meant */
  refuse(message: string, meant: Edit | null = null, offer: Offer = didYouMean): null {
    this.problem ??= { message, meant: this.edited(meant), offer }
    this.index = this.tokens.length
    return null
  }

  /** Refuses the next token, which may be the first word of a note without quotes.
   * @param example how the entry is typed */
  refuseToken(example: string): null {
    const { text, start } = this.tokens[this.index] ?? { text: '', start: 0 }
    const rest = this.entry.text.slice(start)
    // Words alone may be anything but a note: a command, or part of a result.
    const meant = start > 0 || placeAndPain.test(rest) ? asRemark(rest) : null
    const edit = meant === null ? null : { text: meant, start, end: start + rest.length }
    const isFollowed = /\d/.test(this.tokens[this.index + 1]?.text ?? '')
    const isHalf = /^(?:hr|rpe|rir|@|x)$/.test(text) && !isFollowed
    const wrong = isHalf ? 'needs a number after it' : 'is not understood'
    const offer: Offer = (_why, entry) => `did you mean ${entry}?`
    const isPain = text === 'pain' || (start === 0 && saysPain.test(rest))
    return this.refuse(isPain ? howPainIsTyped : `"${text}" ${wrong}; ${example}`, edit, offer)
  }

  /** Asks about something implausible. */
  query(message: string, meant: Edit | null = null): void {
    this.queries.push({ message, meant: this.edited(meant), offer: didYouMean })
  }

  private edited(meant: Edit | null): string | null {
    if (meant === null) return null
    const { text } = this.entry
    return `${text.slice(0, meant.start)} ${meant.text} ${text.slice(meant.end)}`
      .replace(/\s+/g, ' ')
      .replace(/ (?=[,;!])/g, '')
      .trim()
  }

  /** The value, unless the entry was refused. */
  parsed<T>(value: T): Parsed<T> {
    return this.problem === null ? { value, queries: this.queries } : { value: null, queries: [this.problem] }
  }
}

/* What else a typed time may mean. */

/** Writes a time with points, or with one digit where there are two: `1.28.4`, `6:7`. */
function withColons(figure: string): string {
  return figure
    .replace(/^(\d+)\.(\d+)\.(\d)$/, '$1:$2.$3')
    .replace(/^(\d+)\.(\d+)\.(\d\d)$/, '$1:$2:$3')
    .replace(/:(\d)(?=[:.]|$)/g, ':0$1')
}

const slips: readonly [typed: RegExp, meant: string][] = [
  // Digits without their colons.
  [/^(\d{1,2})(\d\d)(\.\d+)?$/, '$1:$2$3'],
  [/^(\d{1,2})(\d\d)(\d\d)(\.\d+)?$/, '$1:$2:$3$4'],
  // A point instead of a colon, or minutes alone.
  [/^(\d{1,3})\.(\d\d)$/, '$1:$2'],
  [/^(\d{1,3})\.(\d)$/, '$1:$20'],
  [/^(\d{1,3})$/, '$1:00'],
  // Hours and minutes that were read as minutes and seconds, and a watch's `m:ss:00` that was read as hours.
  [/^(\d{1,2}:\d\d)$/, '$1:00'],
  [/^(\d{1,3}:\d\d):00$/, '$1'],
]

/** Other readings of a typed time: `6.07` may be 6:07, and `1110` 11:10. */
export function otherTimes(text: string): { text: string; seconds: number }[] {
  return slips
    .filter(([typed]) => typed.test(text))
    .map(([typed, meant]) => text.replace(typed, meant))
    .filter((time) => isFigure.test(time))
    .map((time) => ({ text: time, seconds: valueIn(time) }))
}
