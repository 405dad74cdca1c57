import { printNumber } from '../units/decimal.ts'
import { metersOf } from '../units/length.ts'
import { NotTaken } from './entryText.ts'
import type { Cursor, Token } from './entryTokens.ts'

/* How many, how long or how far a set was, before it is held against what was asked. */

export interface Count {
  /** `bare`: a number alone. */
  kind: 'bare' | 'reps' | 'seconds' | 'meters' | 'groups'
  /** Of groups their sum. */
  value: number
  groups: number[]
  /** The numbers as typed, and where they stand. */
  text: string
  start: number
  end: number
}

/** Seconds in a unit of time, metres in a unit of length. */
const seconds = new Map([
  ...['s', 'sec', 'secs', 'second', 'seconds'].map((word) => [word, 1] as const),
  ...['min', 'mins', 'minute', 'minutes'].map((word) => [word, 60] as const),
])
const meters = new Map([
  ...['m', 'meter', 'meters', 'metre', 'metres'].map((word) => [word, 1] as const),
  ['yd', metersOf({ value: 1, unit: 'yd' })] as const,
])
const mostGroups = 50

/** Takes a number and what says of what it is. The next token must be a number or a time. */
export function takeCount(cursor: Cursor): Count {
  const first = cursor.take() as Token
  if (first.kind === 'clock') return of('seconds', first.value, first, first)
  if (cursor.peek()?.text === '+' && cursor.peek(1)?.kind !== 'word') return groups(cursor, first)
  if (cursor.peek()?.text === '/' && cursor.peek(1)?.kind === 'number') throw bothSides(cursor, first)
  const unit = cursor.peek()
  const word = unit?.kind === 'word' ? unit.text : ''
  const factor = seconds.get(word) ?? meters.get(word)
  if (unit !== null && factor !== undefined) {
    cursor.take()
    const value = Math.round(first.value * factor * 10000) / 10000
    return of(seconds.has(word) ? 'seconds' : 'meters', value, first, unit)
  }
  const named = cursor.takeIf('reps', 'rep', 'repetitions')
  if (cursor.takeIf('each', 'per')) cursor.takeIf('side', 'arm', 'leg')
  return of(named === null ? 'bare' : 'reps', first.value, first, named ?? first)
}

/** `6`, `2+2`, `45 s`, `40 m` */
export function countText(count: Count): string {
  if (count.kind === 'groups') return count.groups.join('+')
  const unit = count.kind === 'seconds' ? ' s' : count.kind === 'meters' ? ' m' : ''
  return `${printNumber(count.value)}${unit}`
}

function of(kind: Count['kind'], value: number, first: Token, last: Token): Count {
  return { kind, value, groups: [], text: first.text, start: first.start, end: last.end }
}

function groups(cursor: Cursor, first: Token): Count {
  const values = [first.value]
  let end = first.end
  while (cursor.takeIf('+')) {
    const group = cursor.takeNumber()
    if (group === null)
      throw new NotTaken(
        'type how many there were, each group of its own: 2+2; and 2+0 when the second was not done',
      )
    values.push(group.value)
    end = group.end
  }
  if (values.length > mostGroups) throw new NotTaken(`a set has at most ${mostGroups} groups`)
  const value = values.reduce((sum, each) => sum + each, 0)
  return { kind: 'groups', groups: values, value, text: values.join('+'), start: first.start, end }
}

function bothSides(cursor: Cursor, first: Token): NotTaken {
  const other = cursor.peek(1) as Token
  const fewer = first.value <= other.value ? first.text : other.text
  const meant =
    first.value === other.value
      ? `${cursor.body.slice(0, first.start)}${fewer}${cursor.body.slice(other.end)}`
      : `${cursor.body.slice(0, first.start)}${fewer}${cursor.body.slice(other.end)} "${first.text}/${other.text}"`
  return new NotTaken(`one number counts for both sides; did you mean ${meant}?`, meant)
}
