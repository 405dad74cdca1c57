import { sum } from 'd3-array'
import { isHold, isRunning } from '../../prescription/exercise.ts'
import { stationsDone } from '../../prescription/expand.ts'
import type { Dose, Station } from '../../prescription/model.ts'
import { speedLimits } from '../../prescription/plausible.ts'
import { counted, printNumber } from '../../units/decimal.ts'
import { formatClockShort } from '../../units/duration.ts'
import { metersOf } from '../../units/length.ts'
import { typedLoad } from '../load.ts'
import type { LiftedLoad, SetResult } from '../model.ts'
import type { SetPrompt } from '../prompt.ts'
import { type Effort, noEffort, takeEffort, takeReserveFirst } from './effort.ts'
import { asLoad, Cursor, type EntryText, type Parsed, slowerReading, withColons } from './lex.ts'
import {
  type Count,
  countOf,
  countText,
  groupCount,
  loadOf,
  type TypedLoad,
  takeCount,
  takeLoad,
} from './setFigures.ts'

/* Parses a set: how many, at what load, with what effort. */

interface Typed {
  count: Count | null
  load: TypedLoad | null
  /** For a drop set, the loads after the first. */
  lower: number[]
  failed: boolean
  effort: Effort
}

export function parseSet(text: EntryText, prompt: SetPrompt): Parsed<SetResult> {
  const cursor = new Cursor(bodyOf(text, prompt))
  const { count, load: typedLoad, lower, failed, effort } = takeSet(cursor, prompt)
  // Only the first reason to refuse an entry is shown, so the order of these lines matters.
  if (count === null && failed) cursor.refuse('type how many there were before the one that failed: 4!')
  const done = count === null ? prescribedDone(prompt, cursor) : doneOf(count, typedLoad, prompt, cursor)
  const load = typedLoad === null ? shownLoad(prompt, cursor) : loadOf(typedLoad, prompt, cursor, count)
  const loads = load === null ? [] : dropLoads(load, lower, count, prompt, cursor)
  if (count !== null) questionCount(count, typedLoad, load, prompt, cursor)
  const { note, pain } = text
  return cursor.parsed({
    ...(done ?? nothing),
    load,
    ...(loads.length > 0 ? { loads } : {}),
    rpe: effort.rpe,
    failed,
    note,
    pain,
  })
}

/** Which figures of a set an entry itself holds; null if it cannot be read. */
export function figuresIn(
  text: EntryText,
  prompt: SetPrompt,
): { hasCount: boolean; hasLoad: boolean } | null {
  const cursor = new Cursor(bodyOf(text, prompt))
  const { count, load } = takeSet(cursor, prompt)
  return cursor.isRefused ? null : { hasCount: count !== null, hasLoad: load !== null }
}

/** In an AMRAP of rounds, blanks out the words of `6 rounds + 12 reps`; every number keeps its place. */
function bodyOf({ body }: EntryText, { dose }: SetPrompt): string {
  if (dose.kind !== 'roundsIn') return body
  return body.replace(/(?<=\d *)(?:rounds?|reps?)\b/g, (word) => ' '.repeat(word.length))
}

function takeSet(cursor: Cursor, prompt: SetPrompt): Typed {
  let typed: Typed = { count: null, load: null, lower: [], failed: false, effort: noEffort }
  while (cursor.peek() !== null) typed = { ...typed, ...takeNext(cursor, typed, prompt) }
  return typed
}

/** Takes the next figure of a set; refuses the entry if it is not understood. */
function takeNext(cursor: Cursor, typed: Typed, prompt: SetPrompt): Partial<Typed> {
  const effort = takeReserveFirst(cursor, typed.effort) ?? takeEffort(cursor, typed.effort, true)
  if (effort !== null) return { effort }
  if (cursor.takeIf(',')) return {}
  if (cursor.takeIf('!', 'failed', 'fail')) {
    if (typed.failed) cursor.refuse('one ! is enough: 4! says that the next repetition failed')
    return { failed: true, count: takeFailedAt(cursor, typed.count) }
  }
  const [at, next] = [cursor.peek(), cursor.peek(1)]
  const isLoad = next?.kind === 'number' || ['-', '+', 'bw'].includes(next?.text ?? '')
  if (at?.text === 'at' && typed.count !== null && isLoad)
    cursor.refuse('a load is written after an x', { ...at, text: 'x' })
  const load = takeLoad(cursor, prompt)
  if (load !== null) {
    if (typed.load !== null) cursor.refuse('two loads typed; type one')
    return { load, lower: takeLower(cursor, prompt) }
  }
  return cursor.isRefused ? {} : { count: takeOneCount(cursor, typed, prompt) }
}

/** `failed at 4`: the fourth repetition failed, three were done. Returns the count as it was for anything else. */
function takeFailedAt(cursor: Cursor, count: Count | null): Count | null {
  const at = cursor.peek()
  const missed = cursor.peek(1)
  if (at?.text !== 'at' || missed?.kind !== 'number') return count
  cursor.take()
  cursor.take()
  const value = missed.value - 1
  if (value < 0 || !Number.isInteger(value))
    return cursor.refuse('repetitions are counted from 1: failed at 4')
  if (count !== null && count.value !== value)
    cursor.refuse(`${count.text} done, or failed at ${missed.text}? Type ${count.text}! or ${value}!`)
  return count ?? countOf('bare', value, { ...at, text: `${value}` }, missed)
}

/** The count of a set, which is typed once. */
function takeOneCount(cursor: Cursor, { count, load }: Typed, prompt: SetPrompt): Count | null {
  const token = cursor.peek()
  if (token?.kind !== 'number' && token?.kind !== 'clock')
    return cursor.refuse(`"${token?.text}" is not understood; ${howTyped(prompt)}`)
  if (count === null)
    return takeLifts(cursor, prompt) ?? takeCount(cursor, prompt.side !== null, signOf(prompt.dose))
  if (load !== null || token.kind === 'clock')
    return cursor.refuse(`"${token.text}" is one number too many for a set`)
  const cross = { text: ' x ', start: token.start, end: token.start }
  return cursor.refuse('an x goes between repetitions and load', cross)
}

/** What goes between the numbers of a set that is counted in groups; null for any other set. */
function signOf(dose: Dose): '+' | '>' | null {
  if (dose.kind === 'drop') return '>'
  return dose.kind === 'roundsIn' || countedGroups(dose) !== null ? '+' : null
}

/** For a drop set, the loads after the first: `20>15>10`. */
function takeLower(cursor: Cursor, { dose }: SetPrompt): number[] {
  const lower: number[] = []
  while (dose.kind === 'drop' && cursor.takeIf('>', '/')) {
    const next = cursor.takeNumber()
    if (next === null) cursor.refuse('type a load for each drop: 12>10>8 x 20>15>10')
    else lower.push(next.value)
  }
  return lower
}

/** `2 of 3 lifts`: the first two lifts of a complex. */
function takeLifts(cursor: Cursor, { dose }: SetPrompt): Count | null {
  const [first, of, all] = [cursor.peek(), cursor.peek(1), cursor.peek(2)]
  if (dose.kind !== 'complex' || of?.text !== 'of' || all?.kind !== 'number' || first?.kind !== 'number')
    return null
  for (let taken = 0; taken < 3; taken++) cursor.take()
  if (all.value !== dose.lifts.length || first.value > all.value)
    cursor.refuse(
      `the complex has ${dose.lifts.length} lifts: type how many were done, such as 2 of ${dose.lifts.length}`,
    )
  cursor.takeIf('lifts', 'lift')
  const groups = dose.lifts.map(({ reps }, index) => (index < first.value ? reps : 0))
  return groupCount(groups, '+', first.start, cursor.end)
}

/** The load of each drop, as typed or else as shown. A drop beyond the prescribed ones has no load to show, so its load
 * must be typed. */
function dropLoads(
  first: LiftedLoad,
  typed: readonly number[],
  done: Count | null,
  prompt: SetPrompt,
  cursor: Cursor,
): LiftedLoad[] {
  if (prompt.dose.kind !== 'drop') return []
  const prescribed = prompt.dose.reps.length
  const drops = Math.max(prescribed, done?.groups.length ?? 0)
  if (typed.length === 0 && drops > prescribed)
    cursor.refuse(
      `${drops} drops instead of ${prescribed}: type the load of each, such as 12>10>8 x 20>15>10`,
    )
  if (typed.length === 0) return prompt.lower.length === prescribed - 1 ? [first, ...prompt.lower] : []
  if (typed.length !== drops - 1)
    cursor.refuse(`type one load, or one for each of the ${drops} drops: 12>10>8 x 20>15>10`)
  const at = (value: number): LiftedLoad =>
    first.kind === 'mass' ? { ...first, value } : { ...first, added: value }
  return [first, ...typed.map(at)]
}

/** The load that an entry without one means. */
function shownLoad(prompt: SetPrompt, cursor: Cursor): LiftedLoad | null {
  if (prompt.shown === null && prompt.loadUnknown) {
    return cursor.refuse('the load is not known yet: type it with the repetitions, such as 6 x 100')
  }
  return prompt.shown
}

/* How many, how long or how far a set was, compared with the prompt. */

/** The hard limit in seconds for a hold: not even insisting records a longer one. */
const longestKept = 24 * 3600

type Done = Pick<SetResult, 'reps' | 'groups' | 'seconds' | 'meters'>

const typeTime = 'type the time it took, such as 8:41'
const typeRounds = 'type the whole rounds, and the repetitions of the round begun, such as 6+12'

const nothing: Done = { reps: null, groups: null, seconds: null, meters: null }

function howTyped({ dose }: SetPrompt): string {
  if (dose.kind === 'roundsIn') return typeRounds
  return dose.kind === 'forTime' ? typeTime : 'a set is typed 6, 6 x 100 or 6 x 100 @8'
}

/** The groups as done, at least as many as `least`, with 0 for those not typed. */
function groupsDone(typed: readonly number[], least = typed.length): Done {
  const missing = Array<number>(Math.max(0, least - typed.length)).fill(0)
  return { ...nothing, groups: [...typed, ...missing], reps: sum(typed) }
}

/** What the empty entry records; null for what must be typed. */
function prescribedDone(prompt: SetPrompt, cursor: Cursor): Done | null {
  const { dose } = prompt
  if (dose.kind === 'reps') return { ...nothing, reps: dose.from }
  if (dose.kind === 'time') return { ...nothing, seconds: prompt.offered ?? dose.seconds }
  if (dose.kind === 'distance') return { ...nothing, meters: metersOf(dose.length) }
  if (dose.kind === 'forTime') {
    if (prompt.offered === null) return cursor.refuse(typeTime)
    return { ...nothing, seconds: prompt.offered }
  }
  if (dose.kind === 'roundsIn') return cursor.refuse(typeRounds)
  const counted = countedGroups(dose)
  const groups = counted === null ? null : prescribedGroups(counted)
  if (groups !== null) return groupsDone(groups)
  if (dose.kind === 'cluster') {
    return cursor.refuse('as many reps as possible: type the repetitions of each group, such as 2+3')
  }
  return cursor.refuse('as many reps as possible: type how many there were, such as 6, or 45 s for a hold')
}

/** What a count counts; a bare number counts what is prescribed. */
function kindOf(count: Count, prompt: SetPrompt): Exclude<Count['kind'], 'bare'> {
  if (count.kind !== 'bare') return count.kind
  const { kind } = prompt.dose
  if (kind === 'time' || kind === 'forTime' || isRunInTime(count, prompt)) return 'seconds'
  return kind === 'distance' ? 'meters' : 'reps'
}

/** The typed amount; null when it is refused. */
function doneOf(count: Count, load: TypedLoad | null, prompt: SetPrompt, cursor: Cursor): Done | null {
  const { dose } = prompt
  if (dose.kind === 'roundsIn') return roundsDone(count, dose.stations, cursor)
  const kind = kindOf(count, prompt)
  if (dose.kind === 'forTime' && kind !== 'seconds') return cursor.refuse(typeTime)
  return kind === 'seconds' || kind === 'meters'
    ? measuredDone(kind, count, prompt, cursor)
    : repsDone(count, load, prompt, cursor)
}

function measuredDone(
  kind: 'seconds' | 'meters',
  count: Count,
  prompt: SetPrompt,
  cursor: Cursor,
): Done | null {
  if (kind === 'seconds' && count.value > longestKept)
    return cursor.refuse(`${count.value} s is longer than a day`)
  if (count.kind !== 'bare' && !isAsked(kind, prompt))
    cursor.query(`${countText(count)}? ${expected(prompt)}`)
  return { ...nothing, [kind]: count.value }
}

/** The repetitions of a set, or of each of its groups. */
function repsDone(count: Count, load: TypedLoad | null, prompt: SetPrompt, cursor: Cursor): Done | null {
  const { dose } = prompt
  const isGroups = count.kind === 'groups'
  const values = isGroups ? count.groups : [count.value]
  if (values.some((value) => !Number.isInteger(value))) return refuseReps(count, load, cursor)
  if (dose.kind === 'time' || dose.kind === 'distance')
    cursor.query(`${countText(count)} repetitions? ${expected(prompt)}`)
  if (dose.kind === 'complex') questionLifts(count, dose.lifts, cursor)
  const counted = countedGroups(dose)
  if (isGroups) {
    if (counted === null) questionGroups(count, prompt, cursor)
    return groupsDone(count.groups, counted?.length)
  }
  if (dose.kind === 'max' && count.kind === 'bare' && isHold(prompt.name))
    cursor.query(`${countText(count)} repetitions of a hold`, { ...count, text: `${count.text} s` })
  if (counted === null) return { ...nothing, reps: count.value }
  const done = groupsOfTotal(count, counted, signOf(dose) ?? '+', cursor)
  return done && groupsDone(done)
}

/** Questions a number for each lift of a complex. One number for all of them that is more than they have cannot be
 * shared out. */
function questionLifts(count: Count, lifts: readonly { reps: number }[], cursor: Cursor): void {
  const reps = lifts.map((lift) => lift.reps)
  const [total, example] = [sum(reps), reps.join('+')]
  if (count.groups.length > reps.length)
    cursor.refuse(`the complex has ${reps.length} lifts: type a number for each, such as ${example}`)
  if (count.kind !== 'groups' && count.value > total)
    cursor.refuse(`the complex has ${total} repetitions: type those of each lift, such as ${example}`)
  if (count.value > farAbove * total) cursor.query(`${count.text} repetitions instead of ${example}`)
}

/** Whether the prescription can be answered with a time, or with a distance. */
function isAsked(kind: 'seconds' | 'meters', { dose, name }: SetPrompt): boolean {
  const isCarry = dose.kind === 'distance'
  if (dose.kind === 'max' || dose.kind === 'forTime') return true
  return kind === 'seconds' ? dose.kind === 'time' || (isCarry && isRunning(name)) : isCarry
}

/** Whether a bare number is the time of a run in a round: whether the distance can be run in that many seconds. */
function isRunInTime({ value }: Count, { name, dose }: SetPrompt): boolean {
  if (dose.kind !== 'distance' || !isRunning(name)) return false
  const meters = metersOf(dose.length)
  const { slow, fast } = speedLimits('run', meters)
  return value !== meters && meters / value <= fast && meters / value >= slow
}

/** The parts of a set that are counted one by one: the groups of a cluster set, the drops of a drop set, the lifts of a
 * complex; null for any other set. */
function countedGroups(dose: Dose): Groups | null {
  if (dose.kind === 'cluster') return dose.groups
  if (dose.kind === 'drop') return dose.reps
  return dose.kind === 'complex' ? dose.lifts.map(({ reps }) => reps) : null
}

/** Whole rounds, and the repetitions of the unfinished one; refused if those would complete it. */
function roundsDone(count: Count, stations: readonly Station[], cursor: Cursor): Done | null {
  const [rounds = count.value, begun = 0, ...more] = count.groups
  if (
    count.kind === 'seconds' ||
    count.kind === 'meters' ||
    more.length > 0 ||
    ![rounds, begun].every(Number.isInteger)
  )
    return cursor.refuse(typeRounds)
  const round = sum(stationsDone(stations, 1, 0))
  if (begun >= round) {
    const text = `${rounds + Math.floor(begun / round)}+${begun % round}`
    return cursor.refuse(`a round has ${round} repetitions`, { ...count, text })
  }
  const done = stationsDone(stations, rounds, begun)
  const reps = sum(done.filter((_, index) => stations[index]?.dose.kind === 'reps'))
  return { ...nothing, reps, groups: [rounds, begun] }
}

/** Groups although no cluster was prescribed: `3+3`, or, with a bodyweight load, `6 +10`. */
function questionGroups(count: Count, prompt: SetPrompt, cursor: Cursor): void {
  const [reps, added] = count.groups
  const isLoad = prompt.shown?.kind === 'bodyweight' && count.groups.length === 2 && (added ?? 0) > 0
  const text = isLoad ? `${reps} x bw+${added}` : String(count.value)
  cursor.query(`${count.text} counts the groups of a cluster set`, { ...count, text })
}

function expected(prompt: SetPrompt): string {
  const { dose } = prompt
  if (dose.kind === 'time') return `the prescription says ${printNumber(dose.seconds)} s`
  if (dose.kind === 'distance') return `the prescription says ${printNumber(metersOf(dose.length))} m`
  return 'the prescription says repetitions'
}

function refuseReps(count: Count, load: TypedLoad | null, cursor: Cursor): null {
  const what = `repetitions are whole numbers, not ${count.text}`
  if (load !== null || count.kind === 'groups') return cursor.refuse(what)
  return cursor.refuse(what, { text: 'x ', start: count.start, end: count.start }, asLoad)
}

/* Questions numbers of a set that are probably typing errors. All limits are this program's own rules. */

const mostReps = 100
const longestHold = 3600
const farthestCarry = 10_000
/** Fewer repetitions than this are never mistaken for a load. */
const fewestQuestioned = 20
/** More than this many times what is prescribed is probably a typing error. */
const farAbove = 3

/** @param load as typed; null without one
 * @param lifted the load that is recorded */
function questionCount(
  count: Count,
  load: TypedLoad | null,
  lifted: LiftedLoad | null,
  prompt: SetPrompt,
  cursor: Cursor,
): void {
  const kind = kindOf(count, prompt)
  if (kind === 'seconds') questionTime(count, prompt, cursor)
  else if (kind === 'meters') questionDistance(count, cursor)
  else if (load === null) questionReps(count, lifted, prompt.dose, cursor)
  else questionRepsAndLoad(count, load, prompt, cursor)
}

function questionDistance({ value }: Count, cursor: Cursor): void {
  if (value > farthestCarry) cursor.query(`${printNumber(value)} m in one set are over 10 km`)
}

function questionTime(count: Count, prompt: SetPrompt, cursor: Cursor): void {
  const { dose } = prompt
  const isBare = count.kind === 'bare'
  if (isBare && dose.kind === 'forTime') {
    const meant = withColons(count.text) ?? slowerReading(count.text)
    cursor.query(`${count.text} is ${formatClockShort(count.value)}`, meant && { ...count, text: meant.text })
  } else if (isBare && dose.kind === 'time' && isPointForColon(count, dose.seconds)) {
    const meant = slowerReading(count.text)
    cursor.query(`${count.text} s? ${expected(prompt)}`, meant && { ...count, text: meant.text })
  } else if (count.value > longestHold) cursor.query(`${count.value} s is over an hour`)
}

function questionRepsAndLoad(count: Count, load: TypedLoad, prompt: SetPrompt, cursor: Cursor): void {
  if (!isSwapped(count, load, prompt)) {
    questionMany(count, cursor)
    return
  }
  const [number = '', ...unit] = load.number.split(' ')
  const between = cursor.body.slice(count.end, load.start)
  const text = `${number}${between} x ${[count.text, ...unit].join(' ')}`
  const meant = load.start < count.end ? null : { text, start: count.start, end: load.end }
  cursor.query(`${count.text} repetitions with ${load.shown}`, meant)
}

function questionReps(count: Count, lifted: LiftedLoad | null, dose: Dose, cursor: Cursor): void {
  if (lifted !== null && isLoad(count, lifted, dose)) {
    const text = `${dose.from} x ${count.text} ${lifted.unit}`
    cursor.query(`${count.text} repetitions at ${typedLoad(lifted, null)}`, { ...count, text })
  } else if (count.value <= mostReps && isFarAbove(count, dose)) {
    const { from, to } = dose
    cursor.query(`${count.text} repetitions instead of ${from === to ? from : `${from} to ${to}`}`)
  } else questionMany(count, cursor)
}

function questionMany(count: Count, cursor: Cursor): void {
  if (count.value > mostReps) cursor.query(`${count.value} repetitions in one set are over ${mostReps}`)
}

/** `1.05` or `0.45` for a hold of about a minute. */
function isPointForColon({ text, value }: Count, prescribed: number): boolean {
  return text.includes('.') && value * farAbove < prescribed
}

/** `100 x 6`, where about 6 repetitions are prescribed. */
function isSwapped(count: Count, { load, bare }: TypedLoad, prompt: SetPrompt): boolean {
  if (!bare || load.kind !== 'mass' || load.value < 1 || !Number.isInteger(load.value)) return false
  if (prompt.dose.kind !== 'reps') return count.value > 2 * fewestQuestioned && load.value <= fewestQuestioned
  const most = 2 * prompt.dose.to
  return count.value >= fewestQuestioned && count.value > most && load.value <= Math.max(12, most)
}

/** `100` alone, where about 6 repetitions at about 100 are prescribed: 6 x 100. */
function isLoad(count: Count, lifted: LiftedLoad, dose: Dose): dose is Extract<Dose, { kind: 'reps' }> {
  if (lifted.kind !== 'mass' || !isFarAbove(count, dose)) return false
  return count.value >= lifted.value / 2 && count.value <= lifted.value * 1.5
}

/** `25`, where 5 repetitions are prescribed. */
function isFarAbove(count: Count, dose: Dose): dose is Extract<Dose, { kind: 'reps' }> {
  if (dose.kind !== 'reps' || count.kind !== 'bare') return false
  return count.value >= fewestQuestioned && count.value > farAbove * dose.to
}

/* The groups of a cluster set. */

type Groups = Extract<Dose, { kind: 'cluster' }>['groups']

/** The groups as prescribed; null if one of them is an AMRAP. */
function prescribedGroups(groups: Groups): number[] | null {
  const counted = groups.filter((group) => group !== 'max')
  return counted.length === groups.length ? counted : null
}

/** The groups of a set that was typed as a total; asks for the groups when the total is not the prescribed one. */
function groupsOfTotal(count: Count, groups: Groups, sign: '+' | '>', cursor: Cursor): number[] | null {
  const total = count.value
  const prescribed = prescribedGroups(groups)
  if (prescribed !== null && sum(prescribed) === total) return prescribed
  if (groups.length === 1) return [total]
  if (total === 0) return groups.map(() => 0)
  const filled = filledInOrder(total, groups).join(sign)
  const even = spreadEvenly(total, groups.length).join(sign)
  const turned = filled.split(sign).reverse().join(sign)
  const other = even === filled ? turned : even
  const isSecond = other !== filled && !other.startsWith('0')
  const what = `${counted(total, 'repetition')} in groups`
  return cursor.refuse(
    `${what}: type each group separately, such as ${prescribed?.join(sign) ?? `2${sign}2`}`,
    { ...count, text: filled },
    () => `${what}: ${filled}${isSecond ? ` or ${other}` : ''}?`,
  )
}

function filledInOrder(total: number, groups: Groups): number[] {
  let left = total
  return groups.map((group, index) => {
    const done = group === 'max' || index === groups.length - 1 ? left : Math.min(left, group)
    left -= done
    return done
  })
}

function spreadEvenly(total: number, count: number): number[] {
  return Array.from(
    { length: count },
    (_, index) => Math.floor(total / count) + (index < total % count ? 1 : 0),
  )
}
