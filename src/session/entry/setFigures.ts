import { sum } from 'd3-array'
import { isJump } from '../../prescription/exercise.ts'
import type { Dose } from '../../prescription/model.ts'
import { printNumber, roundTo } from '../../units/decimal.ts'
import { joined } from '../../units/lists.ts'
import type { MassUnit } from '../../units/model.ts'
import { massUnitOf, wordsFor } from '../../units/words.ts'
import { kilogramsOfLoad, loadText, numberOf, typedLoad, withNumber } from '../load.ts'
import type { LiftedLoad } from '../model.ts'
import type { SetPrompt } from '../prompt.ts'
import { type Cursor, clock, type Edit, number, type Phrase, phrase, unitOf, valueIn } from './lex.ts'

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
/** Fewer repetitions than this are never mistaken for a load. */
export const fewestQuestioned = 20

/** `2 of 3 lifts` of a complex. */
const liftsOf = phrase('(\\d+) of (\\d+) (?:lifts? )?')
/** `6 rounds`, `6 rounds + 12 reps`. */
const rounds = phrase(`(${number}) rounds? (?:(?:(?:\\+|and) )?(${number}) (?:reps? )?)?`)
/** `2+1`, `(2+1)`, `12>10>8`, `12/10/8`, `12-10-8`, `1 2 1`, `8/8`. */
const row = phrase(
  `(?:\\( )?(${number}) ([-+>/] |)${number} (?:\\2${number} )*(?:\\) )?(?!rir (?!${number} ))(?:reps? )?`,
)
/** `45 s`, `0:45`, `40 m`. Nobody carries a mile in a set, and beside the rack many people say `k` for kilos. */
const measure = phrase(`(${clock}) |(${number}) (${wordsFor('s', 'min', 'h', 'm', 'yd')}) `)
const repetitions = phrase(`(${number}) (reps? |repetitions )?(?:(?:each|per) (?:(?:side|arm|leg) )?)?`)

/** Takes a number and its unit, or the groups of a set; null if the next words are something else. */
export function takeCount(cursor: Cursor, prompt: SetPrompt): Count | null {
  const { dose } = prompt
  const lifts = dose.kind === 'complex' ? cursor.take(liftsOf) : null
  if (lifts !== null && dose.kind === 'complex') return liftsDone(lifts, dose.lifts, cursor)
  const begun = dose.kind === 'roundsIn' ? cursor.take(rounds) : null
  if (begun !== null) {
    const groups = begun.parts.map((part) => Number(part ?? 0))
    return groupCount(begun, groups)
  }
  const several = takeRow(cursor, prompt)
  if (several !== null) return several
  const measured = cursor.take(measure)
  if (measured !== null) {
    const [time, value = time ?? '', word = 's'] = measured.parts
    const { kind, size } = unitOf(word) ?? { kind: 'seconds', size: 1 }
    return countOf(measured, kind, roundTo(valueIn(value) * size, 4), value)
  }
  const counted = cursor.take(repetitions)
  const [text = '', named] = counted?.parts ?? []
  return counted && countOf(counted, named === undefined ? 'bare' : 'reps', Number(text), text)
}

/** Whether a set is counted in groups, drops, lifts or rounds. */
function isInGroups({ kind }: Dose): boolean {
  return kind === 'cluster' || kind === 'drop' || kind === 'complex' || kind === 'roundsIn'
}

/** The groups of a set, with any sign between them, or the numbers of both sides, which may have a slash; null for a
 * number alone. */
function takeRow(cursor: Cursor, { dose, side }: SetPrompt): Count | null {
  const found = cursor.look(row)
  if (found === null) return null
  const between = found.parts[1]?.trim() ?? ''
  const numbers = found.text.split(' ').filter((each) => /\d/.test(each))
  const values = numbers.map(Number)
  const [first = 0, second = 0] = values
  const isBothSides = between === '/' || (side !== null && between === '+' && values.length === 2)
  if ((isBothSides && !isInGroups(dose)) || (between === '/' && side !== null)) {
    cursor.take(row)
    const note = first === second ? '' : ` "${numbers.join('/')}"`
    if (note !== '' || side === null)
      cursor.refuse('one number counts for both sides', { ...found, text: `${Math.min(...values)}${note}` })
    return countOf(found, 'bare', first, numbers[0] ?? '')
  }
  // One of two numbers without a sign is a load if it is the higher second one, or too high for a group: 4 140, 92 3.
  const isLoad = between === '' && values.length === 2 && (second > first || first >= fewestQuestioned)
  if (between !== '+' && (isLoad || !isInGroups(dose))) return null
  cursor.take(row)
  if (values.length > mostGroups) cursor.refuse(`a set has at most ${mostGroups} groups`)
  return groupCount(found, values)
}

/** The first lifts of a complex. */
function liftsDone(typed: Phrase, lifts: readonly { reps: number }[], cursor: Cursor): Count {
  const [done = 0, all = 0] = typed.parts.map(Number)
  const { length } = lifts
  if (all !== length || done > all)
    cursor.refuse(`the complex has ${length} lifts: type how many were done, such as 2 of ${length}`)
  const groups = lifts.map(({ reps }, index) => (index < done ? reps : 0))
  return groupCount(typed, groups)
}

/** `6`, `2+2`, `45 s`, `40 m` */
export function countText(count: Count): string {
  if (count.kind === 'groups') return count.groups.join('+')
  const unit = count.kind === 'seconds' ? ' s' : count.kind === 'meters' ? ' m' : ''
  return `${printNumber(count.value)}${unit}`
}

export function countOf(place: Edit, kind: Count['kind'], value: number, text: string): Count {
  return { kind, value, groups: [], text, start: place.start, end: place.end }
}

function groupCount({ start, end }: Edit, groups: number[]): Count {
  return { kind: 'groups', groups, value: sum(groups), text: groups.join('+'), start, end }
}

/* At what load. */

/** A heavier load, of a pair together, is probably a slip. */
export const heaviestKg = 500
/** More than this on a bodyweight exercise is probably a bar, not a belt. */
const heaviestAddedKg = 60
/** More than this on a jump written without a load is probably its height. */
const heaviestJumpKg = 40

/** A load as typed, with its place in the entry, including its x. `text`: a mass that may mean something else, as
 * `loadOf` decides; empty for any other load. */
export interface TypedLoad extends Edit {
  load: LiftedLoad
}

const mass = wordsFor('kg', 'lb')
/** `bw`, `x bw+10`. */
const bodyweight = phrase(`(?:x )?(?:bw|bodyweight) (?:([+-]) (${number}) (?:(${mass}) )?)?`)
/** `+2.5`, `x -2.5`. */
const change = phrase(`(x )?([+-]) (${number}) (?:(${mass}) )?`)
/** `x 100`, `100 kg`, `x 2x25`. */
const weight = phrase(`(?:x (2 x )?|(?=${number} (?:${mass}) ))(${number}) (?:(${mass}) )?`)
/** The loads of the drops after the first: `>15>10`. */
const lower = phrase(`[>/] ${number} (?:[>/] ${number} )*`)

/** Takes a load, if the next words are one. */
export function takeLoad(cursor: Cursor, prompt: SetPrompt): TypedLoad | null {
  const body = cursor.take(bodyweight)
  if (body !== null) return bodyLoad(body, body.parts, prompt)
  if (isChange(cursor.look(change), prompt)) {
    const typed = cursor.take(change) as Phrase
    return prompt.shown?.kind === 'mass'
      ? changedLoad(typed, prompt.shown, cursor)
      : bodyLoad(typed, typed.parts.slice(1), prompt)
  }
  const typed = cursor.take(weight)
  if (typed === null) return null
  const [two, value = '', word = ''] = typed.parts
  const pair = two !== undefined
  const unit = massUnitOf(word) ?? defaultUnit(prompt)
  const text = pair ? '' : joined(' ', [value, word])
  return { ...typed, text, load: { kind: 'mass', value: kept(value), unit, pair } }
}

/** Takes the loads of the drops after the first. */
export function takeLower(cursor: Cursor, { dose }: SetPrompt): number[] {
  const typed = dose.kind === 'drop' ? cursor.take(lower) : null
  return typed === null ? [] : (typed.text.match(new RegExp(number, 'g')) ?? []).map(Number)
}

/** Whether a sign and a number are a load: `-10` alone is less help on an assisted lift, where an x would go before
 * the load of any other. */
function isChange(typed: Phrase | null, { shown }: SetPrompt): boolean {
  if (typed === null || typed.parts[1] === '+') return typed !== null
  const isHelp = typed.start === 0 && shown?.kind === 'bodyweight' && shown.added < 0
  return isHelp || (typed.parts[0] !== undefined && shown !== null)
}

/** `100 x 6 kg` the other way round, 6 x 100 kg; null where the second number cannot count repetitions. */
export function exchanged(first: Edit, second: TypedLoad): Edit | null {
  const [value = '', ...unit] = second.text.split(' ')
  if (first.text === '' || !/^[1-9]\d*$/.test(value) || second.start < first.end) return null
  return { text: `${value} x ${joined(' ', [first.text, ...unit])}`, start: first.start, end: second.end }
}

function bodyLoad(place: Edit, parts: Phrase['parts'], prompt: SetPrompt): TypedLoad {
  const [sign = '+', value = '0', word = ''] = parts
  const amount = kept(value)
  const unit = amount === 0 ? defaultUnit(prompt) : (massUnitOf(word) ?? defaultUnit(prompt))
  const added = sign === '-' && amount > 0 ? -amount : amount
  return { ...place, text: '', load: { kind: 'bodyweight', added, unit } }
}

/** Adds to the shown load or takes something off it; for a pair, on each side. */
function changedLoad(
  typed: Phrase,
  shown: Extract<LiftedLoad, { kind: 'mass' }>,
  cursor: Cursor,
): TypedLoad | null {
  const [, sign, amount = '', word = ''] = typed.parts
  if ((massUnitOf(word) ?? shown.unit) !== shown.unit)
    return cursor.refuse(`the load shown is in ${shown.unit}: type its change in ${shown.unit}`)
  const value = kept(shown.value + (sign === '-' ? -1 : 1) * Number(amount))
  if (value < 0) return cursor.refuse(`${amount} ${shown.unit} less than ${loadText(shown)} is below 0`)
  return { ...typed, text: '', load: { ...shown, value } }
}

/** The load that was meant, and questions about it. */
export function loadOf(typed: TypedLoad, prompt: SetPrompt, cursor: Cursor, count: Count | null): LiftedLoad {
  const { load } = typed
  const shown = loadText(load)
  const isMassOnBody = load.kind === 'mass' && typed.text !== '' && prompt.shown?.kind === 'bodyweight'
  const kg = Math.abs(kilogramsOfLoad(load))
  const meant = (text: string, start = typed.start): Edit => ({ text: `x ${text}`, start, end: typed.end })
  if (isMassOnBody && kg <= heaviestAddedKg)
    return { kind: 'bodyweight', added: load.value, unit: kg === 0 ? defaultUnit(prompt) : load.unit }
  if (prompt.shown?.kind === 'mass' && prompt.shown.pair && typed.text !== '') {
    // 2 x 25 is probably a pair, not two repetitions.
    const start = count?.value === 2 ? count.start : typed.start
    cursor.query(`a pair of ${shown}`, meant(`2x${typed.text}`, start))
  }
  if (isMassOnBody) cursor.query(`${shown} on top of bodyweight`, meant(`bw+${typed.text}`))
  else if (kg > heaviestKg) {
    const tenth = withNumber(load, numberOf(load) / 10)
    const isLikely = kg / 10 <= heaviestKg
    cursor.query(
      `a load of ${shown} is over ${heaviestKg} kg`,
      isLikely ? meant(typedLoad(tenth, defaultUnit(prompt))) : null,
    )
  } else if (prompt.shown === null && isJump(prompt.name) && kg > heaviestJumpKg)
    cursor.query(`${shown} on a jump?`)
  else if (load.kind === 'mass' && load.value === 0)
    cursor.query('a load of 0 kg: leave the load out for an exercise without one')
  else if (prompt.shown && isInOtherUnit(typed, prompt))
    cursor.query(`${shown}, after ${loadText(prompt.shown)}`, meant(`${typed.text} ${prompt.unit}`))
  return load
}

/** `210` after 100 kg on a day in pounds: a number that is far from the load shown, which is not in the day's unit. */
function isInOtherUnit({ load, text }: TypedLoad, { shown, unit }: SetPrompt): boolean {
  if (load.kind !== 'mass' || shown?.kind !== 'mass' || shown.unit === unit) return false
  const share = load.value / shown.value
  return /^[\d.]+$/.test(text) && (share > 1.5 || share < 1 / 1.5)
}

/** The unit of a load typed without one. */
export function defaultUnit(prompt: SetPrompt): MassUnit {
  return prompt.shown?.unit ?? prompt.unit
}

/** Rounds a load to a gram or a thousandth of a pound. */
function kept(value: number | string): number {
  return roundTo(Number(value), 3)
}
