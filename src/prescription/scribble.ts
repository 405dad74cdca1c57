import { lengthUnitOf, massUnitOf, secondsIn } from '../units/words.ts'
import { filledIn, type Remark, type Said } from './spellings.ts'
import { effortWords } from './words.ts'

/* Reads a scribbled line token by token. `400m x 8 @ 80, 90s rest` is cut into 400 m, x, 8, @, 80, 90 s, rest. Again
 * and again the first rule whose shape fits takes tokens from the front and puts them into a slot, in the notation's
 * words: the work is `400 m`, the count `8`, the target `in 80 s`, the recovery `rest 90 s`. The line is then written
 * again, slot by slot in the notation's order: `8 x 400 m in 80 s, rest 90 s`. A line with a token that no rule takes
 * is left alone, so nothing that an athlete wrote is dropped. */

/* Tokens. */

interface Token {
  /** What the shapes of rules call it: a word by itself in lower case, and kinds in capitals. */
  kinds: readonly string[]
  /** As scribbled, with one space before a unit of letters. */
  text: string
  /** The spaces, commas, semicolons, colons and brackets before it. */
  gap: string
  /** Where it begins and ends in the line. */
  from: number
  to: number
}

const number = String.raw`\d[\d.:]*`
/** `2+2` or `12 > 10` in brackets; `12 > 10 > 8` also without; `80`, `+2.5`, `3:40-3:50`, `10/8/6`, `5+`; `10, 8, 6`,
 * unless a word follows. */
const figure = new RegExp(
  String.raw`(?<=\( *)\d+(?: *[+>] *\d+)+(?= *\))` +
    String.raw`|(?<![@>] *)\d+(?: *> *\d+)+(?![\d.:])` +
    String.raw`|(?:(?<=[ @(])[-+])?${number}(?:(?:(?:[-+]| *\/ *)${number})+\+?|\+|(?:, *${number}){2,}(?! *[\d\p{L}@]))?`,
  'uy',
)
const unit = / *(?:km\/h\b|\/ *(?:km|mi|500 *m)\b|%|\p{L}+)/iuy
const word =
  /(?:bw|bodyweight|last time)\b(?: *[-+] *\d[\d.]*(?![\d.]| *(?:s|min)\b)(?: *(?:kg|lb)s?\b)?)?|(?:warm|cool|all)[ -]?(?:up|down|out)\b|half[ -]marathon|(?<=\d *)x|\p{L}[\p{L}'-]*|->|[<>]=?|./iuy
function kindOfUnit(unit: string): string | null {
  if (unit === '%') return 'PERCENT'
  if (/^(?:\/|km\/h|mph)/i.test(unit)) return 'PACE'
  if (massUnitOf(unit) !== null) return 'MASS'
  if (lengthUnitOf(unit) !== null) return 'DISTANCE'
  return secondsIn(unit) === null ? null : 'TIME'
}

function kindsOfFigure(figure: string, unit: string): string[] {
  const numbers = figure.split(/[-/,]/).length
  if (/^[-+]/.test(figure)) return ['SIGNED']
  if (/\d *[+>] *\d/.test(figure)) return ['GROUPS', 'DOSE']
  if (figure.endsWith('+')) return ['DOSE']
  if (numbers > 2) return figure.includes('-') ? ['LADDER', 'LIST'] : ['LIST']
  if (figure.includes('/')) return ['PAIR']
  if (figure.includes(':') && unit === '') return ['CLOCK', 'TIME', 'AMOUNT', 'DOSE']
  const kind = kindOfUnit(unit) ?? 'NUMBER'
  return [kind, ...(wider[kind] ?? [])]
}

const wider: Record<string, readonly string[]> = {
  PERCENT: ['LOAD'],
  MASS: ['LOAD'],
  DISTANCE: ['AMOUNT', 'DOSE'],
  TIME: ['AMOUNT', 'DOSE'],
  NUMBER: ['DOSE'],
}

/** Words that rules name, so that they are never a note; those in a kind first. */
const kindsOfWords: Record<string, RegExp> = {
  '@': /^(?:@|at)$/,
  UNDER: /^(?:<=?|≤|under|below)$/,
  TO: /^(?:->|→|>|to)$/,
  MOVE: /^(?:jog|walk|stand|rest)$/,
  EFFORT: new RegExp(`^(?:${effortWords.join('|').replace(/[ -]/g, '[ -]?')})$`),
  RACE: /^(?:half|(?:half.)?marathon|mile|h?mp)$/,
  DOSE: /^(?:max|amrap|failure)$/,
  LOAD: /^(?:bw|bodyweight|last time)/,
  SIDE: /^(?:side|arm|leg)$/,
  SIGN: /^[/&+-]$/,
  TOOL: /^(?:kb|db|bb|kettlebell|dumbbell|barbell)$/,
  BACKOFF: /^back-?offs?$/,
  PROGRESSION: /^progressi(?:on|ve)$/,
}
const ruleWord =
  /^(?:.|in|on|off|of|for|sets?|times|each|ea|then|last|add|drop.*|goal|negative|back|down|same|equal|with|and|rpe|hr|emom|rounds?|superset|build|ramp|pace|effort|hand|between|pause|every|split|lane|grade)$/

function kindsOfWord(text: string): string[] {
  const said = text.toLowerCase()
  const kinds = Object.keys(kindsOfWords).filter((kind) => kindsOfWords[kind]?.test(said))
  return [said, ...(kinds.length > 0 || ruleWord.test(said) ? kinds : ['WORD'])]
}

function tokensOf(line: string): Token[] {
  const tokens: Token[] = []
  let at = 0
  const take = (pattern: RegExp) => {
    pattern.lastIndex = at
    const found = pattern.exec(line)?.[0] ?? ''
    at += found.length
    return found
  }
  while (at < line.length) {
    const gap = take(/[ ,;:()]*/y)
    const value = take(figure)
    if (value === '') {
      const from = at
      const text = take(word)
      if (text !== '') tokens.push({ kinds: kindsOfWord(text), text, gap, from, to: at })
      continue
    }
    const start = at
    const from = start - value.length
    const next = take(unit)
    const written = next.replace(/^ *(?=\p{L}{2}|[mgs]$)/u, ' ')
    const of = kindOfUnit(written.trim()) === null ? '' : written
    if (of === '') at = start
    const kinds = kindsOfFigure(value, of.trim())
    // Groups without brackets.
    if (kinds.includes('GROUPS') && !gap.includes('(')) kinds.push('BARE')
    tokens.push({ kinds, text: kinds.includes('GROUPS') ? `(${value})` : value + of, gap, from, to: at })
  }
  return tokens
}

/* Slots. */

/** Phrases in the notation, by what they are. */
export class Slots extends Map<string, string[]> {
  of(...names: string[]): string[] {
    return names.flatMap((name) => this.get(name) ?? [])
  }
}

/** The shape of a phrase, the one slot that it fills, and what it says in the notation.
 * - A shape names tokens: `a|b` is either, `a?` may be absent, `a+` is one or more, `,a` may have a comma, a semicolon
 *   or a closing bracket before it, and what is after ` > ` must follow but is not taken.
 * - After a slot and `!` comes the name of the message that says what is wrong with the phrase. A line of phrases
 *   without one is answered only if nothing else answers it.
 * - In what it says, `$2` is what the second name of the shape took, if anything; without a text the phrase stays as it
 *   is; null if the rule does not fit after all. */
export type Rule<Slot extends string = string, Message extends string = string> = readonly [
  shape: string,
  slot: Slot | `${Slot}!${Message}`,
  said?: string | ((found: string[], context: Context) => string | null),
]

export interface Context {
  slots: Slots
  /** The spaces, commas, semicolons, colons and brackets before the phrase. */
  gap: string
  /** The kinds of the token right after it, and the signs between them; none after a comma, a semicolon or an opening
   * bracket. */
  next: readonly string[]
}

/** The line to write, and what is wrong with the one that is there; without a line, that is all there is to say. */
export interface Scribble {
  line: string | null
  wrong: Remark[]
}

/** A row that answers a whole line with what to write; null for what only the athlete can complete. */
export type AnswerRow = readonly [pattern: RegExp, message: Said, suggestion: Said | null]

/** What is wrong with a line as a whole. */
export function aboutLine(line: string, message: string): Remark {
  return { at: [0, line.length], message }
}

/** Puts every token into a slot, by the first rule whose phrase begins there.
 * @param single slots that hold one phrase: a second one goes elsewhere
 * @param slots those that are filled already
 * @param offset of the text in its line
 * @returns the slots and what is wrong; null if a token fits nowhere */
export function readScribble(
  line: string,
  rules: readonly Rule[],
  single: readonly string[],
  messages: Record<string, string>,
  slots = new Slots(),
  offset = 0,
): { slots: Slots; wrong: Remark[] } | null {
  if (line.split('(').length !== line.split(')').length) return null
  const tokens = tokensOf(line)
  const wrong: Remark[] = []
  const takeAt = (at: number): number | null => {
    for (const [shape, place, said = '$&'] of rules) {
      const [slot = '', message] = place.split('!')
      const matched = slots.has(slot) && single.includes(slot) ? null : match(shape, tokens, at)
      if (matched === null) continue
      const { found, to } = matched
      const context = { slots, gap: tokens[at]?.gap ?? '', next: kindsAt(tokens, to) }
      const text = typeof said === 'string' ? filledIn(said, found.join(' '), found) : said(found, context)
      if (text === null) continue
      slots.set(slot, [...slots.of(slot), text.trim().replace(/ +/g, ' ')])
      if (message !== undefined) {
        const [first, last] = [tokens[at], tokens[to - 1]]
        const place: Remark['at'] = [(first?.from ?? 0) + offset, (last?.to ?? 0) + offset]
        wrong.push({ at: place, message: messages[message] ?? '' })
      }
      return to
    }
    return null
  }
  for (let at: number | null = 0; at < tokens.length; ) {
    at = takeAt(at)
    if (at === null) return null
  }
  return { slots, wrong }
}

/** As `Context.next`. */
function kindsAt(tokens: readonly Token[], at: number): string[] {
  const after = tokens[at]
  return after === undefined || /[,;(]/.test(after.gap) ? [] : [...after.kinds, after.gap.trim()]
}

/** The parts of a shape, taken apart once. */
const partsOfShapes = new Map<string, readonly RegExpMatchArray[]>()

/** The tokens of a shape, part by part, and the place after them; null if others are there. */
function match(
  shape: string,
  tokens: readonly Token[],
  from: number,
): { found: string[]; to: number } | null {
  const [phrase = '', follows] = shape.split(' > ')
  const parts = partsOfShapes.get(phrase) ?? [...phrase.matchAll(/(,?)(\S+?)([?+]?)(?: |$)/g)]
  partsOfShapes.set(phrase, parts)
  const found: string[] = []
  let at = from
  for (const [, comma, names = '', how] of parts) {
    const isNext = () =>
      names.split('|').some((name) => tokens[at]?.kinds.includes(name)) &&
      (at === from || comma !== '' || !/[,;)]/.test(tokens[at]?.gap ?? ''))
    const texts: string[] = []
    while (isNext() && (texts.length === 0 || how === '+')) texts.push(tokens[at++]?.text ?? '')
    if (texts.length === 0 && how !== '?') return null
    found.push(texts.join(' '))
  }
  return follows === undefined || match(follows, tokens, at) !== null ? { found, to: at } : null
}

export const ownWords = 'words of your own come last, in quotes'

/** Words that no figure follows: those before one may be a misspelt clause. */
export function wordsAlone([words = '']: string[], { next }: { next: readonly string[] }): string | null {
  return next.some((kind) => kind === 'NUMBER' || kind === 'TIME') ? null : words
}
