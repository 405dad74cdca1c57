import { formatClockShort } from '../../units/duration.ts'
import { metersOf } from '../../units/length.ts'
import { joined } from '../../units/lists.ts'
import { lengthUnitOf } from '../../units/words.ts'
import { isUnsafe } from '../../validate/unsafe.ts'

/* Prepares an entry for parsing: tidies it, separates notes, cuts it into tokens, refuses invalid characters. */

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

/** Something implausible that the athlete can insist on. */
export interface Query {
  message: string
  suggestion: Suggestion | null
}

/** Why an entry is refused. */
export interface EntryError {
  error: string
  suggestion: Suggestion | null
}

/** The whole entry that was probably meant. It is offered only if it can be read. */
export interface Suggestion {
  text: string
  offer: Offer
}

/** The message that offers a suggestion, instead of the message without it. */
export type Offer = (message: string, text: string) => string

const didYouMean: Offer = (message, text) => `${message}; did you mean ${text}?`
export const asLoad: Offer = (message, text) => `${message}; a load is written ${text}`

/** The value of an entry and the questions about it; or why it is refused. */
export type Parsed<T> = { value: T; queries: readonly Query[] } | EntryError

export function entryError(error: string, meant: string | null = null, offer = didYouMean): EntryError {
  return { error, suggestion: suggestionOf(meant, offer) }
}

function suggestionOf(meant: string | null, offer: Offer): Suggestion | null {
  return meant === null ? null : { text: meant, offer }
}

/** Joins messages: a question mark ends a sentence, anything else continues after a semicolon. */
export function joinMessages(messages: readonly string[]): string {
  return messages.reduce((joined, message) => `${joined}${joined.endsWith('?') ? ' ' : '; '}${message}`)
}

export interface EntryText {
  /** The rest of the entry, tidied: lower case, `x` for every cross, `-` for every dash, a point in every number. */
  body: string
  note: string | null
  pain: string | null
}

/** The most characters of an entry. */
export const longestEntry = 500

const places = String.raw`[\p{L}'’ -]+?`
const ofTen = String.raw`\s+(?:10|\d)(?:\/10)?`
/** At the end of an entry: `pain left calf`, `pain left calf 4`, `pain calf 4, hip 2`, but not before `rpe 8`. */
const unquotedPain = new RegExp(
  String.raw`(?:^|\s)pain:?(\s+(?!.*\b(?:rpe|rir|hr|bw|x|in)\b)${places}(?:${ofTen}(?:,?\s+${places}${ofTen})*)?)?$`,
  'iu',
)

/** At the end of an entry; kept as a note. */
const saysNoPain = /(?:^|[\s,]+)(no pain|pain:? none|pain[ -]?free|not sore)$/i

/** Separates notes and pain from the figures.
 * @returns the error for an entry over 500 characters, with control characters, an open quote, or a pain without a
 * place */
export function entryTextOf(text: string): EntryText | EntryError {
  const trimmed = text.trim().replaceAll('\t', ' ')
  if (trimmed.length > longestEntry) {
    return entryError(`an entry has at most ${longestEntry} characters, and this one has ${trimmed.length}`)
  }
  if (isUnsafe(trimmed)) return entryError('an entry cannot hold control characters; type it again')
  const quoted = quotedRemarks(trimmed)
  if ('error' in quoted) return quoted
  const { notes, pains } = quoted
  let { body } = quoted
  const painless = saysNoPain.exec(body.trimEnd())
  if (painless) {
    notes.push(painless[1] ?? '')
    body = body.slice(0, painless.index)
  }
  const unquoted = unquotedPain.exec(body.trimEnd())
  if (unquoted) {
    if (unquoted[1] === undefined) return painWithoutPlace()
    pains.push(unquoted[1].trim())
    body = body.slice(0, unquoted.index)
  }
  return { body: tidied(body), note: joined('; ', notes) || null, pain: joined('; ', pains) || null }
}

/** Before a sign that opens a quote; not in `4'05"`. */
const opening = String.raw`(?<!\d['’′]\d\d)`
const quoteSign = new RegExp(`${opening}["“”„]`)

/** Takes the quoted notes and pains out of an entry. */
function quotedRemarks(text: string): { body: string; notes: string[]; pains: string[] } | EntryError {
  const notes: string[] = []
  const pains: string[] = []
  let body = ''
  let rest = text
  for (let open = rest.search(quoteSign); open >= 0; open = rest.search(quoteSign)) {
    body += rest.slice(0, open)
    const close = rest.slice(open + 1).search(rest[open] === '"' ? /"/ : /["“”]/)
    if (close < 0) return openQuote(text, rest.slice(open + 1))
    const words = rest.slice(open + 1, open + 1 + close).trim()
    rest = rest.slice(open + close + 2)
    const pain = /\bpain:?\s*$/i.exec(body)
    if (pain === null) notes.push(words)
    else {
      if (words === '') return painWithoutPlace()
      body = body.slice(0, pain.index)
      // After figures, a number following the place is the level of the pain: 6 pain "left calf" 4.
      const level = body.trim() === '' ? null : /^\s*(10|\d)(?:\/10)?(?=\s*$|\s+")/.exec(rest)
      pains.push(level ? `${words} ${level[1]}` : words)
      rest = rest.slice(level?.[0].length ?? 0)
    }
    body += ' '
  }
  return { body: body + rest, notes: notes.filter((words) => words !== ''), pains }
}

/** Writes remarks as they are typed after figures. */
export function remarksText(remarks: { note: string | null; pain: string | null }): string {
  const quoted = (words: string) => `"${words.replaceAll('"', "'")}"`
  const note = remarks.note === null ? '' : ` ${quoted(remarks.note)}`
  return remarks.pain === null ? note : `${note} pain ${quoted(remarks.pain)}`
}

function openQuote(text: string, rest: string): EntryError {
  const closed = rest.trim() === '' ? text.replace(/\s*["“”„]\s*$/, '') : `${text}"`
  return entryError('the quote is not closed', closed)
}

function painWithoutPlace(): EntryError {
  return entryError('write where it hurts: pain "left knee"')
}

function tidied(body: string): string {
  return inPlainSigns(body).replace(/\s+/g, ' ').trim()
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
      .replace(/\d+(?:,\d+){2,}/g, (list) => list.replaceAll(',', ' '))
      .replace(/(\d),(?=\d+(?![\d:]))/g, '$1.')
  )
}

const quoted = `(?:${opening}(?:"[^"]*"|[“”„][^"“”]*["“”]))`
const level = String.raw`\s*\b(?:10|\d)(?:\/10)?(?=[\s,;]|$)`
const word = String.raw`\s+(?!(?:rpe|rir|hr|bw|x|in)\b)\p{L}[\p{L}'’-]*`
/** A note, or the pains of one or several places with their levels. */
const remark = new RegExp(
  `\\bpain:?\\s*${quoted}(?:${level})?|${quoted}|\\bno pain\\b|` +
    `\\bpain\\b:?(?:${word})*(?:${level})?(?:,?(?:${word})+${level})*`,
  'giu',
)

/** The entry with blanks in place of its notes and pains, so that figures keep their places. */
export function withoutRemarks(text: string): string {
  return inPlainSigns(text.replace(remark, (words) => ' '.repeat(words.length)))
}

/* An entry cut into words, numbers and signs. */

/** A text at one place in the entry: what is typed there, or what should replace it. */
export interface Edit {
  text: string
  start: number
  end: number
}

const kinds = ['clock', 'number', 'word', 'sign'] as const

export interface Token extends Edit {
  /** `clock`: digits with colons, a time. */
  kind: (typeof kinds)[number]
  /** The value of a number, or the seconds of a clock. */
  value: number
}

const shape =
  /\s*(?:(?<clock>\d+(?::\d*)+(?:\.\d*)?)|(?<number>\d+(?:\.\d+)*|\.\d+)|(?<word>x(?=[\d\s.+-]|bw|bodyweight|$)|[a-z]+)|(?<sign>\S))/gu

/** Cuts an entry into words, numbers and signs; an error for a number of more than seven digits, or an invalid time. */
export function tokensOf(body: string): Token[] | EntryError {
  const tokens: Token[] = []
  for (const match of body.matchAll(shape)) {
    const kind = kinds.find((each) => match.groups?.[each] !== undefined) ?? 'sign'
    const text = match[0].trimStart()
    const end = match.index + match[0].length
    const place = { text, start: end - text.length, end }
    const value =
      kind === 'clock' ? clockValue(place, body) : kind === 'number' ? numberValue(place, body) : 0
    if (typeof value !== 'number') return value
    tokens.push({ kind, ...place, value })
  }
  return tokens
}

function edited(body: string, { text, start, end }: Edit): string {
  return `${body.slice(0, start)}${text}${body.slice(end)}`.replace(/\s+/g, ' ').trim()
}

/** The precision of a typed number or time: 1, 0.1 or 0.01. */
export function precisionOf(text: string): number {
  const digits = /\.(\d*)/.exec(text)?.[1]?.length ?? 0
  return digits === 0 ? 1 : digits === 1 ? 0.1 : 0.01
}

function numberValue({ text, start, end }: Edit, body: string): number | EntryError {
  if (/\..*\./.test(text)) {
    const parts = text.split('.')
    const tenths = parts.length === 3 && parts[2]?.length === 1
    const clock = tenths ? `${parts[0]}:${parts[1]}.${parts[2]}` : parts.join(':')
    return timeError('a time is written with colons', edited(body, { start, end, text: clock }))
  }
  if (text.split('.')[0]!.length > 7) return entryError(`${text} is too long a number`)
  return Number(text)
}

function clockValue({ text, start, end }: Edit, body: string): number | EntryError {
  const fields = text.split(':')
  const last = fields[fields.length - 1]!.split('.')
  if (fields.length > 3 || text.endsWith('.')) return invalidTime(text)
  const below = [...fields.slice(1, -1), last[0]!]
  if (below.some((field) => field === '' || field.length > 2)) return invalidTime(text)
  if (below.some((field) => field.length === 1)) {
    const padded = [fields[0], ...below.map((field) => field.padStart(2, '0'))].join(':')
    const whole = last[1] === undefined ? padded : `${padded}.${last[1]}`
    return timeError('seconds have two digits', edited(body, { start, end, text: whole }))
  }
  if (below.some((field) => Number(field) > 59)) {
    return entryError(`${text} is not a time: minutes after hours, and seconds, run from 00 to 59`)
  }
  if (fields[0]!.length > 4) return entryError(`${text} is too long a time`)
  const seconds = fields.reduce((sum, field) => sum * 60 + Number(field), 0)
  return Math.round(seconds * 100) / 100
}

function timeError(rule: string, meant: string): EntryError {
  return entryError(`${rule}, such as 6:07 or 1:28.4`, meant, (_, text) => didYouMean(rule, text))
}

function invalidTime(text: string): EntryError {
  return entryError(`${text} is not a time. Examples: 6:07, 1:28.4 or 1:02:11`)
}

/** Hands out tokens one after the other, and keeps what is wrong with them. After the first error no token is left, so
 * the rest of the parser simply runs to its end. */
export class Cursor {
  readonly body: string
  private readonly tokens: readonly Token[]
  private readonly queries: Query[] = []
  private error: EntryError | null = null
  private index = 0

  constructor(body: string) {
    this.body = body
    const tokens = tokensOf(body)
    this.tokens = 'error' in tokens ? [] : tokens
    if ('error' in tokens) this.error = tokens
  }

  /** Refuses the entry; only the first reason counts.
   * @param meant the edit, or the whole entry, that was probably meant */
  refuse(message: string, meant: Edit | string | null = null, offer = didYouMean): null {
    this.error ??= entryError(message, this.whole(meant), offer)
    this.index = this.tokens.length
    return null
  }

  /** Asks about something implausible. */
  query(message: string, meant: Edit | string | null = null, offer = didYouMean): void {
    this.queries.push({ message, suggestion: suggestionOf(this.whole(meant), offer) })
  }

  private whole(meant: Edit | string | null): string | null {
    return meant === null || typeof meant === 'string' ? meant : edited(this.body, meant)
  }

  get isRefused(): boolean {
    return this.error !== null
  }

  /** The value, unless the entry was refused. */
  parsed<T>(value: T): Parsed<T> {
    return this.error ?? { value, queries: this.queries }
  }

  peek(ahead = 0): Token | null {
    return this.tokens[this.index + ahead] ?? null
  }

  /** Where the last token taken ends. */
  get end(): number {
    return this.tokens[this.index - 1]?.end ?? 0
  }

  take(): Token | null {
    const token = this.peek()
    if (token !== null) this.index++
    return token
  }

  /** Takes the next token when it is one of these words or signs. */
  takeIf(...texts: string[]): Token | null {
    const token = this.peek()
    if (token === null || (token.kind !== 'word' && token.kind !== 'sign') || !texts.includes(token.text))
      return null
    return this.take()
  }

  takeNumber(): Token | null {
    return this.peek()?.kind === 'number' ? this.take() : null
  }
}

/** Another reading of a typed time. */
export type Clock = { text: string; seconds: number }

/** Digits read as minutes and seconds, or as hours, minutes and seconds: `1110` is 11:10, `12811` is 1:28:11. */
export function withColons(digits: string): Clock | null {
  const [, before = '', last = '', fraction = ''] = /^(\d{1,4})(\d\d)(\.\d+)?$/.exec(digits) ?? []
  const hours = Number(before.slice(0, -2))
  const minutes = Number(before.slice(-2))
  if (before === '' || Number(last) > 59 || (hours > 0 && minutes > 59)) return null
  const seconds = hours * 3600 + minutes * 60 + Number(last + fraction)
  return { text: formatClockShort(seconds, precisionOf(digits)), seconds }
}

/** A point typed instead of a colon, or a clock whose hours were read as minutes. */
export function slowerReading(text: string): Clock | null {
  const number = /^(\d{1,3})(?:\.(\d\d?))?$/.exec(text)
  if (number !== null) {
    const [, minutes = '', fraction = '00'] = number
    const seconds = fraction.padEnd(2, '0')
    return Number(seconds) > 59
      ? null
      : { text: `${minutes}:${seconds}`, seconds: Number(minutes) * 60 + Number(seconds) }
  }
  const clock = /^(\d{1,2}):(\d\d)$/.exec(text)
  if (clock === null) return null
  return { text: `${text}:00`, seconds: Number(clock[1]) * 3600 + Number(clock[2]) * 60 }
}

/** Metres in the unit of length that a word means; null for any other word, and for a lap, since laps differ. */
export function metersIn(word: string): number | null {
  const unit = lengthUnitOf(word)
  return unit === null || unit === 'lap' ? null : metersOf({ value: 1, unit })
}
