import { isJump } from '../../prescription/exercise.ts'
import { printNumber } from '../../units/decimal.ts'
import { kilogramsOf } from '../../units/mass.ts'
import type { MassUnit } from '../../units/model.ts'
import { massUnitOf } from '../../units/words.ts'
import { kilogramsOfLoad, typedLoad } from '../load.ts'
import type { LiftedLoad } from '../model.ts'
import type { SetPrompt } from '../prompt.ts'
import type { Cursor, Offer, Token } from './lex.ts'

/* Parses the load of a set. */

const heaviestKg = 500
/** More than this on a bodyweight exercise is probably a bar, not a belt. */
const heaviestAddedKg = 60

/** More than this on a jump written without a load is probably its height. */
const heaviestJumpKg = 40

/** As typed: a bare mass may mean something else, which `loadOf` decides. */
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
  const sign = cursor.takeIf('+') ?? (cross && prompt.shown ? cursor.takeIf('-') : null)
  if (sign)
    return prompt.shown?.kind === 'mass'
      ? changed(cursor, prompt.shown, sign.text)
      : added(cursor, prompt, sign.text)
  const hasUnit = massUnitOf(cursor.peek(1)?.text ?? '') !== null
  if (first?.kind === 'number' && (cross || hasUnit)) return mass(cursor, prompt)
  return cross ? cursor.refuse('the load comes after x: 6 x 100, 6 x bw+10, 6 x 2x25') : null
}

/** The load that was meant, and questions about it.
 * @param count what was typed before it, if anything
 * @param isUsual whether this many repetitions are prescribed */
export function loadOf(
  typed: TypedLoad,
  prompt: SetPrompt,
  cursor: Cursor,
  count: { start: number; value: number; isUsual: boolean } | null,
): LiftedLoad {
  const { load, number } = typed
  if (load.kind === 'mass' && typed.bare && prompt.shown?.kind === 'bodyweight') {
    if (load.value === 0) return { kind: 'bodyweight', added: 0, unit: defaultUnit(prompt) }
    if (kilogramsOf(load) <= heaviestAddedKg)
      return { kind: 'bodyweight', added: load.value, unit: load.unit }
    cursor.query(`${typed.shown} besides the body?`, { ...typed, text: ` x bw+${number}` }, thatIsWritten)
    return load
  }
  if (load.kind === 'mass' && typed.bare && prompt.shown?.kind === 'mass' && prompt.shown.pair) {
    const start = count?.value === 2 && !count.isUsual ? count.start : typed.start
    const meant = { text: ` x 2x${number}`, start, end: typed.end }
    cursor.query(`a pair of ${typed.shown}?`, meant, thatIsWritten)
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

const thatIsWritten: Offer = (message, text) => `${message} That is written ${text}`

/** The unit of a load typed without one. */
export function defaultUnit(prompt: SetPrompt): MassUnit {
  return prompt.shown?.unit ?? prompt.unit
}

function bodyweight(value: number, unit: MassUnit, shown: string): Taken {
  return { load: { kind: 'bodyweight', added: value, unit }, bare: false, shown, number: shown }
}

/** Adds to the shown load or takes off it; for a pair, on each side. */
function changed(cursor: Cursor, shown: Extract<LiftedLoad, { kind: 'mass' }>, sign: string): Taken | null {
  const number = cursor.takeNumber()
  if (number === null) return cursor.refuse(`by how much the load changes comes after ${sign}: +2.5`)
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
  if (number === null) return cursor.refuse(`what was added comes after ${sign}: bw+10`)
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
