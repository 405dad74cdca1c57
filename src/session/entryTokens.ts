import { NotTaken } from './entryText.ts'

/* An entry cut into words, numbers and signs. */

export interface Token {
  /** `clock`: digits with colons, a time. */
  kind: 'number' | 'clock' | 'word' | 'sign'
  text: string
  /** Where it stands in the body. */
  start: number
  end: number
  /** Of a number, or the seconds of a clock. */
  value: number
}

const shape =
  /\s*(?:(?<clock>\d+(?::\d*)+(?:\.\d*)?)|(?<number>\d+(?:\.\d+)*|\.\d+)|(?<word>x(?=[\d\s.+-]|bw|bodyweight|$)|[a-z]+)|(?<sign>\S))/uy

/** @throws NotTaken for a number of more than seven digits, or a time that is none */
export function tokensOf(body: string): Token[] {
  const tokens: Token[] = []
  shape.lastIndex = 0
  for (let match = shape.exec(body); match !== null; match = shape.exec(body)) {
    const { clock, number, word } = match.groups as Record<string, string | undefined>
    const kind =
      clock !== undefined ? 'clock' : number !== undefined ? 'number' : word !== undefined ? 'word' : 'sign'
    const text = match[0].trimStart()
    const end = shape.lastIndex
    const place = { start: end - text.length, end }
    const value =
      kind === 'clock'
        ? clockValue(text, body, place)
        : kind === 'number'
          ? numberValue(text, body, place)
          : 0
    tokens.push({ kind, text, ...place, value })
  }
  return tokens
}

/** The body with one stretch of it written differently. */
export function rewritten(body: string, place: { start: number; end: number }, text: string): string {
  return `${body.slice(0, place.start)}${text}${body.slice(place.end)}`.replace(/\s+/g, ' ').trim()
}

/** How fine a number or a time was typed: 1, 0.1 or 0.01. */
export function precisionOf(text: string): number {
  const digits = text.includes('.') ? text.length - text.indexOf('.') - 1 : 0
  return digits === 0 ? 1 : digits === 1 ? 0.1 : 0.01
}

function numberValue(text: string, body: string, place: { start: number; end: number }): number {
  if (/\..*\./.test(text)) {
    const parts = text.split('.')
    const tenths = parts.length === 3 && parts[2]?.length === 1
    const clock = tenths ? `${parts[0]}:${parts[1]}.${parts[2]}` : parts.join(':')
    throw new NotTaken(`a time is written with colons; did you mean ${clock}?`, rewritten(body, place, clock))
  }
  if (text.split('.')[0]!.length > 7) throw new NotTaken(`${text} is too long a number`)
  return Number(text)
}

function clockValue(text: string, body: string, place: { start: number; end: number }): number {
  const fields = text.split(':')
  const last = fields[fields.length - 1]!.split('.')
  if (fields.length > 3 || fields.some((field) => field.length > 9) || text.endsWith('.')) throw noTime(text)
  const below = [...fields.slice(1, -1), last[0]!]
  if (below.some((field) => field === '' || field.length > 2)) throw noTime(text)
  if (below.some((field) => field.length === 1)) {
    const padded = [fields[0], ...below.map((field) => field.padStart(2, '0'))].join(':')
    const whole = last[1] === undefined ? padded : `${padded}.${last[1]}`
    throw new NotTaken(`seconds have two digits; did you mean ${whole}?`, rewritten(body, place, whole))
  }
  if (below.some((field) => Number(field) > 59)) {
    throw new NotTaken(`${text} is no time: minutes behind hours and seconds run from 00 to 59`)
  }
  if (fields[0]!.length > 4) throw new NotTaken(`${text} is too long a time`)
  const seconds = fields.reduce((sum, field) => sum * 60 + Number(field), 0)
  return Math.round(seconds * 100) / 100
}

function noTime(text: string): NotTaken {
  return new NotTaken(`${text} is no time: one is written 6:07, 1:28.4 or 1:02:11`)
}

/** Reads tokens one after the other. */
export class Cursor {
  readonly body: string
  private readonly tokens: Token[]
  private index = 0

  constructor(body: string) {
    this.body = body
    this.tokens = tokensOf(body)
  }

  peek(ahead = 0): Token | null {
    return this.tokens[this.index + ahead] ?? null
  }

  /** Where the last token that was taken ends. */
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
