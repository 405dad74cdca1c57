import { sum } from 'd3-array'
import { printNumber } from '../../units/decimal.ts'
import { lengthUnitOf, secondsIn } from '../../units/words.ts'
import { type Cursor, type Edit, metersIn, type Token } from './lex.ts'

/* How many, how long or how far a set was, before it is compared with the prompt. */

/** `text`: the numbers as typed. */
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
  if (first.kind === 'clock') return of('seconds', first.value, first, first)
  if (cursor.peek()?.text === '+' && cursor.peek(1)?.kind !== 'word') return groups(cursor, first, '+')
  const hasNumberNext = cursor.peek(1)?.kind === 'number'
  if (cursor.peek()?.text === '>') {
    if (sign === '+' && hasNumberNext) return otherSign(cursor, first, sign)
    return groups(cursor, first, '>')
  }
  if (cursor.peek()?.text === '/' && hasNumberNext) {
    const other = cursor.peek(1)
    if (!isEachSide && sign !== null) return otherSign(cursor, first, sign)
    if (!isEachSide || other?.value !== first.value) {
      bothSides(cursor, first)
      return of('bare', first.value, first, first)
    }
    cursor.take()
    cursor.take()
    return { ...of('bare', first.value, first, other), text: first.text }
  }
  const unit = cursor.peek()
  const word = unit?.text ?? ''
  // Nobody carries a mile in a set, and beside the rack many people say `k` for kilos.
  const isSmall = ['m', 'yd'].includes(lengthUnitOf(word) ?? '')
  const seconds = secondsIn(word)
  const factor = seconds ?? (isSmall ? metersIn(word) : null)
  if (unit !== null && factor !== null) {
    cursor.take()
    const value = Math.round(first.value * factor * 10000) / 10000
    return of(seconds === null ? 'meters' : 'seconds', value, first, unit)
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

function groups(cursor: Cursor, first: Token, sign: '+' | '>'): Count {
  const values = [first.value]
  let end = first.end
  while (cursor.takeIf(sign)) {
    const group = cursor.takeNumber()
    if (group === null) {
      cursor.refuse(
        'type how many there were, each group of its own: 2+2; and 2+0 when the second was not done',
      )
      break
    }
    values.push(group.value)
    end = group.end
  }
  if (values.length > mostGroups) cursor.refuse(`a set has at most ${mostGroups} groups`)
  return {
    kind: 'groups',
    groups: values,
    value: sum(values),
    text: values.join(sign),
    start: first.start,
    end,
  }
}

/** Asks back `12/10/8` as `12>10>8`, and `1>2` as `1+2`: a slash also separates two sides, and `>` is for drop sets. */
function otherSign(cursor: Cursor, first: Token, sign: '+' | '>'): Count {
  const typed = [first]
  while (['/', '>'].includes(cursor.peek()?.text ?? '') && cursor.peek(1)?.kind === 'number') {
    cursor.take()
    typed.push(cursor.take() as Token)
  }
  const text = typed.map((each) => each.text).join(sign)
  const rule = `${sign} goes between the numbers of one set`
  const example = sign === '+' ? '1+2' : '12>10'
  cursor.refuse(
    `${rule}, such as ${example}`,
    { text, start: first.start, end: cursor.end },
    (_, whole) => `${rule}; did you mean ${whole}?`,
  )
  return of('bare', first.value, first, first)
}

function bothSides(cursor: Cursor, first: Token): void {
  const other = cursor.peek(1) as Token
  const fewer = first.value <= other.value ? first.text : other.text
  const note = first.value === other.value ? '' : ` "${first.text}/${other.text}"`
  const meant = `${cursor.body.slice(0, first.start)}${fewer}${cursor.body.slice(other.end)}${note}`
  cursor.refuse('one number counts for both sides', meant)
}
