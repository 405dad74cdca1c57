import { sum } from 'd3-array'
import { isJump } from '../../prescription/exercise.ts'
import { printNumber } from '../../units/decimal.ts'
import { kilogramsOf } from '../../units/mass.ts'
import type { MassUnit } from '../../units/model.ts'
import { lengthUnitOf, massUnitOf, secondsIn } from '../../units/words.ts'
import { kilogramsOfLoad, typedLoad } from '../load.ts'
import type { LiftedLoad } from '../model.ts'
import type { SetPrompt } from '../prompt.ts'
import { type Cursor, type Edit, metersIn, type Offer, type Token } from './lex.ts'

/* Parses the figures of a set, before they are compared with the prompt: how many, how long or how far. */

/** How many, how long or how far. `text`: the numbers as typed. */
export interface Count extends Edit {
  /** `bare`: a number alone. */
  kind: 'bare' | 'reps' | 'seconds' | 'meters' | 'groups'
  /** For groups, their sum. */
  value: number
  groups: number[]
}

const mostGroups = 50

/** Takes a number and its unit. The next token must be a number or a time.
 * @param isEachSide reads `5/5` as five on each side
 * @param sign between the groups of a set that is counted in groups; null for any other set */
export function takeCount(cursor: Cursor, isEachSide: boolean, sign: '+' | '>' | null): Count {
  const first = cursor.take() as Token
  if (first.kind === 'clock') return countOf('seconds', first.value, first, first)
  return takeMoreNumbers(cursor, first, isEachSide, sign) ?? takeItsUnit(cursor, first)
}

/** The groups, or the numbers of both sides; null for a number alone. */
function takeMoreNumbers(
  cursor: Cursor,
  first: Token,
  isEachSide: boolean,
  sign: '+' | '>' | null,
): Count | null {
  const typed = cursor.peek()?.text
  const next = cursor.peek(1)
  if (typed === '+' && next?.kind !== 'word') return groups(cursor, first, '+')
  if (typed === '>' && (sign !== '+' || next?.kind !== 'number')) return groups(cursor, first, '>')
  if (sign !== null && isRow(first, cursor)) return otherSign(cursor, first, sign)
  if ((typed !== '>' && typed !== '/') || next?.kind !== 'number') return null
  if (sign !== null && (typed === '>' || !isEachSide)) return otherSign(cursor, first, sign)
  if (!isEachSide || next.value !== first.value) bothSides(cursor, first)
  cursor.take()
  return countOf('bare', first.value, first, cursor.take() ?? first)
}

/** Whether another number follows after a hyphen or only a space: `12-10-7`, `1 2 1`, but not `4 140`, whose second
 * number is a load. */
function isRow(first: Token, cursor: Cursor): boolean {
  const [after, next] = [cursor.peek(), cursor.peek(1)]
  if (after?.kind !== 'number') return after?.text === '-' && next?.kind === 'number'
  return after.value <= first.value || next?.kind === 'number'
}

/** A number with its unit; without one, of repetitions. */
function takeItsUnit(cursor: Cursor, first: Token): Count {
  const unit = cursor.peek()
  const word = unit?.text ?? ''
  // Nobody carries a mile in a set, and beside the rack many people say `k` for kilos.
  const isSmall = ['m', 'yd'].includes(lengthUnitOf(word) ?? '')
  const seconds = secondsIn(word)
  const factor = seconds ?? (isSmall ? metersIn(word) : null)
  if (unit !== null && factor !== null) {
    cursor.take()
    const value = Math.round(first.value * factor * 10000) / 10000
    return countOf(seconds === null ? 'meters' : 'seconds', value, first, unit)
  }
  const named = cursor.takeIf('reps', 'rep', 'repetitions')
  if (cursor.takeIf('each', 'per')) cursor.takeIf('side', 'arm', 'leg')
  return countOf(named === null ? 'bare' : 'reps', first.value, first, named ?? first)
}

/** `6`, `2+2`, `45 s`, `40 m` */
export function countText(count: Count): string {
  if (count.kind === 'groups') return count.groups.join('+')
  const unit = count.kind === 'seconds' ? ' s' : count.kind === 'meters' ? ' m' : ''
  return `${printNumber(count.value)}${unit}`
}

export function countOf(kind: Count['kind'], value: number, first: Edit, last: Edit): Count {
  return { kind, value, groups: [], text: first.text, start: first.start, end: last.end }
}

/** A count of groups, in this part of the entry. */
export function groupCount(groups: number[], sign: '+' | '>', start: number, end: number): Count {
  return { kind: 'groups', groups, value: sum(groups), text: groups.join(sign), start, end }
}

function groups(cursor: Cursor, first: Token, sign: '+' | '>'): Count {
  const values = [first.value]
  while (cursor.takeIf(sign)) {
    const group = cursor.takeNumber()
    if (group === null) {
      cursor.refuse('type the repetitions of each group, such as 2+2, or 2+0 when the second was not done')
      break
    }
    values.push(group.value)
  }
  if (values.length > mostGroups) cursor.refuse(`a set has at most ${mostGroups} groups`)
  return groupCount(values, sign, first.start, cursor.end)
}

/** Suggests `12>10>8` for `12/10/8` and `12 10 8`, and `1+2` for `1>2`: a slash also separates sides, and `>` is for
 * drop sets. */
function otherSign(cursor: Cursor, first: Token, sign: '+' | '>'): Count {
  const typed = [first]
  while (cursor.peek()?.kind === 'number' || cursor.peek(1)?.kind === 'number') {
    if (cursor.peek()?.kind !== 'number' && cursor.takeIf('/', '>', '-') === null) break
    typed.push(cursor.takeNumber() as Token)
  }
  const text = typed.map((each) => each.text).join(sign)
  const rule = `${sign} goes between the numbers of one set`
  const example = sign === '+' ? '1+2' : '12>10'
  cursor.refuse(
    `${rule}, such as ${example}`,
    { text, start: first.start, end: cursor.end },
    (_, whole) => `${rule}; did you mean ${whole}?`,
  )
  return countOf('bare', first.value, first, first)
}

function bothSides(cursor: Cursor, first: Token): void {
  const other = cursor.peek(1) as Token
  const fewer = first.value <= other.value ? first.text : other.text
  const note = first.value === other.value ? '' : ` "${first.text}/${other.text}"`
  const meant = `${cursor.body.slice(0, first.start)}${fewer}${cursor.body.slice(other.end)}${note}`
  cursor.refuse('one number counts for both sides', meant)
}

/* At what load. */

const heaviestKg = 500
/** More than this on a bodyweight exercise is probably a bar, not a belt. */
const heaviestAddedKg = 60

/** More than this on a jump written without a load is probably its height. */
const heaviestJumpKg = 40

/** A load as typed. A bare mass may mean something else: `loadOf` decides. */
export interface TypedLoad {
  load: LiftedLoad
  bare: boolean
  /** The number with its unit for messages, and as typed for suggestions. */
  shown: string
  number: string
  /** Its position in the entry, including its x. */
  start: number
  end: number
}

/** Takes a load, if the next words are one: `x 100`, `bw+10`, `+10`, `100 kg`. */
export function takeLoad(cursor: Cursor, prompt: SetPrompt): TypedLoad | null {
  const start = cursor.peek()?.start ?? 0
  const taken = takeAfterCross(cursor, prompt, cursor.takeIf('x') !== null)
  return taken === null ? null : { ...taken, start, end: cursor.end }
}

type Taken = Omit<TypedLoad, 'start' | 'end'>

function takeAfterCross(cursor: Cursor, prompt: SetPrompt, cross: boolean): Taken | null {
  const first = cursor.peek()
  if (cursor.takeIf('bw', 'bodyweight')) {
    const sign = cursor.takeIf('+', '-')
    return sign === null ? bodyweight(0, defaultUnit(prompt), 'bw') : added(cursor, prompt, sign.text)
  }
  // `-10` alone is less help on an assisted lift, where an x would go before the load of any other.
  const isHelp = first?.start === 0 && prompt.shown?.kind === 'bodyweight' && prompt.shown.added < 0
  const sign = cursor.takeIf('+') ?? ((cross && prompt.shown) || isHelp ? cursor.takeIf('-') : null)
  if (sign)
    return prompt.shown?.kind === 'mass'
      ? changed(cursor, prompt.shown, sign.text)
      : added(cursor, prompt, sign.text)
  const hasUnit = massUnitOf(cursor.peek(1)?.text ?? '') !== null
  if (first?.kind === 'number' && (cross || hasUnit)) return mass(cursor, prompt)
  return cross ? cursor.refuse('the load comes after x: 6 x 100, 6 x bw+10, 6 x 2x25') : null
}

/** The load that was meant, and questions about it. */
export function loadOf(typed: TypedLoad, prompt: SetPrompt, cursor: Cursor, count: Count | null): LiftedLoad {
  const { load, number } = typed
  if (load.kind === 'mass' && typed.bare && prompt.shown?.kind === 'bodyweight') {
    if (load.value === 0) return { kind: 'bodyweight', added: 0, unit: defaultUnit(prompt) }
    if (kilogramsOf(load) <= heaviestAddedKg)
      return { kind: 'bodyweight', added: load.value, unit: load.unit }
    cursor.query(`${typed.shown} on top of bodyweight?`, { ...typed, text: ` x bw+${number}` }, asWritten)
    return load
  }
  if (load.kind === 'mass' && typed.bare && prompt.shown?.kind === 'mass' && prompt.shown.pair) {
    const start = count?.value === 2 && !isUsual(count, prompt) ? count.start : typed.start
    const meant = { text: ` x 2x${number}`, start, end: typed.end }
    cursor.query(`a pair of ${typed.shown}?`, meant, asWritten)
  }
  const kg = Math.abs(kilogramsOfLoad(load))
  if (kg > heaviestKg) {
    const tenth =
      load.kind === 'mass' ? { ...load, value: load.value / 10 } : { ...load, added: load.added / 10 }
    const meant =
      kg / 10 <= heaviestKg ? { ...typed, text: ` x ${typedLoad(tenth, defaultUnit(prompt))}` } : null
    cursor.query(`a load of ${typed.shown} is over ${heaviestKg} kg`, meant)
  } else if (prompt.shown === null && isJump(prompt.name) && kg > heaviestJumpKg) {
    cursor.query(`${typed.shown} on a jump?`)
  } else if (load.kind === 'mass' && load.value === 0) {
    cursor.query('a load of 0 kg: leave the load out for an exercise without one')
  }
  return load
}

/** Whether this many repetitions are prescribed. */
function isUsual({ value }: Count, { dose }: SetPrompt): boolean {
  return dose.kind === 'reps' && value >= dose.from && value <= dose.to
}

const asWritten: Offer = (message, text) => `${message} That is written ${text}`

/** The unit of a load typed without one. */
export function defaultUnit(prompt: SetPrompt): MassUnit {
  return prompt.shown?.unit ?? prompt.unit
}

function bodyweight(value: number, unit: MassUnit, shown: string): Taken {
  return { load: { kind: 'bodyweight', added: value, unit }, bare: false, shown, number: shown }
}

/** Adds to the shown load or takes something off it; for a pair, on each side. */
function changed(cursor: Cursor, shown: Extract<LiftedLoad, { kind: 'mass' }>, sign: string): Taken | null {
  const number = cursor.takeNumber()
  if (number === null) return cursor.refuse(`type by how much the load changes after ${sign}: +2.5`)
  const unit = takeUnit(cursor) ?? shown.unit
  if (unit !== shown.unit)
    return cursor.refuse(`the load shown is in ${shown.unit}: type its change in ${shown.unit}`)
  const value = kept({ value: shown.value + (sign === '-' ? -1 : 1) * number.value })
  if (value < 0)
    return cursor.refuse(`${number.text} ${unit} less than ${printNumber(shown.value)} ${unit} is below 0`)
  const text = `${printNumber(value)} ${unit}`
  return { load: { ...shown, value }, bare: false, shown: text, number: printNumber(value) }
}

function added(cursor: Cursor, prompt: SetPrompt, sign: string): Taken | null {
  const number = cursor.takeNumber()
  if (number === null) return cursor.refuse(`type the added load after ${sign}: bw+10`)
  const unit = takeUnit(cursor) ?? defaultUnit(prompt)
  const value = kept(number)
  if (value === 0) return bodyweight(0, defaultUnit(prompt), 'bw')
  return bodyweight(sign === '-' ? -value : value, unit, `bw${sign}${number.text} ${unit}`)
}

function mass(cursor: Cursor, prompt: SetPrompt): Taken | null {
  const first = cursor.takeNumber() as Token
  const pair = cursor.takeIf('x') !== null
  const number = pair ? cursor.takeNumber() : first
  if (number === null || (pair && first.value !== 2)) {
    return cursor.refuse('a load is one number, or two of a kind: 6 x 100, 6 x 2x25')
  }
  const written = takeUnit(cursor)
  const unit = written ?? defaultUnit(prompt)
  return {
    load: { kind: 'mass', value: kept(number), unit, pair },
    bare: !pair,
    shown: `${pair ? '2x' : ''}${number.text} ${unit}`,
    number: written === null ? number.text : `${number.text} ${written}`,
  }
}

/** Rounds a load to a gram or a thousandth of a pound. */
function kept(number: Pick<Token, 'value'>): number {
  return Math.round(number.value * 1000) / 1000
}

function takeUnit(cursor: Cursor): MassUnit | null {
  const unit = massUnitOf(cursor.peek()?.text ?? '')
  if (unit !== null) cursor.take()
  return unit
}
