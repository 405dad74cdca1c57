import { stationsDone } from '../../prescription/expand.ts'
import type { Dose, Station } from '../../prescription/model.ts'
import { printNumber } from '../../units/decimal.ts'
import { metersOf } from '../../units/length.ts'
import type { SetPrompt } from '../prompt.ts'
import type { LiftedLoad, SetResult } from '../result.ts'
import { type Effort, type Query, takeEffort } from './effort.ts'
import { type Count, Cursor, countText, EntryError, type EntryText, rewritten, takeCount } from './lex.ts'
import { loadOf, type TypedLoad, takeLoad } from './load.ts'

/* A set as it is typed: how many, at what load, with what effort. */

interface Typed {
  count: Count | null
  load: TypedLoad | null
  /** Of a drop set, the loads after the first. */
  lower: number[]
  failed: boolean
  effort: Effort
}

/** @throws EntryError when it cannot be taken as it stands */
export function readSet(text: EntryText, asked: SetPrompt, doubts: Query[]): SetResult {
  const { body } = text
  const { count, load, lower, failed, effort } = takeSet(new Cursor(body), asked, doubts)
  if (count === null && failed)
    throw new EntryError('type how many there were before the one that failed: 4!')
  const done = count === null ? prescribedDone(asked) : doneOf(count, load, asked, body, doubts)
  const before =
    count === null ? null : { start: count.start, value: count.value, isUsual: isUsualCount(count, asked) }
  const lifted = load === null ? shownLoad(asked) : loadOf(load, asked, body, before, doubts)
  const loads = lifted === null ? [] : dropLoads(lifted, lower, asked)
  if (count !== null) questionCount(count, load, lifted, asked, body, doubts)
  const dropped = loads.length > 0 ? { loads } : {}
  return { ...done, load: lifted, ...dropped, rpe: effort.rpe, failed, note: text.note, pain: text.pain }
}

function takeSet(cursor: Cursor, asked: SetPrompt, doubts: Query[]): Typed {
  const effort: Effort = { rpe: null, heartRate: null, heartRateMax: null }
  const typed: Typed = { count: null, load: null, lower: [], failed: false, effort }
  for (let token = cursor.peek(); token !== null; token = cursor.peek()) {
    if (takeReserve(cursor, effort) || takeEffort(cursor, effort, doubts, true) || cursor.takeIf(','))
      continue
    if (cursor.takeIf('!', 'failed', 'fail')) {
      if (typed.failed) throw new EntryError('one ! is enough: 4! says that the next repetition failed')
      typed.failed = true
      continue
    }
    if (token.text === 'at' && typed.count !== null && cursor.peek(1)?.kind === 'number') {
      const cross = rewritten(cursor.body, token, 'x')
      throw new EntryError(`a load is written after an x; did you mean ${cross}?`, cross)
    }
    const load = takeLoad(cursor, asked)
    if (load !== null) {
      if (typed.load !== null) throw new EntryError('the load is there twice; type it once')
      typed.load = load
      while (asked.dose.kind === 'drop' && cursor.takeIf('>', '/')) {
        const next = cursor.takeNumber()
        if (next === null) throw new EntryError('type a load for each drop: 12>10>8 x 20>15>10')
        typed.lower.push(next.value)
      }
      continue
    }
    if (token.kind !== 'number' && token.kind !== 'clock') {
      throw new EntryError(`"${token.text}" is not understood; a set is typed 6, 6 x 100 or 6 x 100 @8`)
    }
    if (typed.count !== null && typed.load === null && token.kind === 'number') {
      const cross = rewritten(cursor.body, { start: token.start, end: token.start }, ' x ')
      throw new EntryError(`between repetitions and load stands an x; did you mean ${cross}?`, cross)
    }
    if (typed.count !== null)
      throw new EntryError(`"${token.text}" is one number too many; one set is asked for`)
    typed.count = takeLifts(cursor, asked) ?? takeCount(cursor, asked.side !== null)
  }
  return typed
}

/** `2 of 3 lifts`: the first two lifts of a complex. */
function takeLifts(cursor: Cursor, { dose }: SetPrompt): Count | null {
  const [first, of, all] = [cursor.peek(), cursor.peek(1), cursor.peek(2)]
  if (dose.kind !== 'complex' || of?.text !== 'of' || all?.kind !== 'number' || first?.kind !== 'number')
    return null
  if (all.value !== dose.lifts.length || first.value > all.value)
    throw new EntryError(
      `the complex has ${dose.lifts.length} lifts: type how many were done, such as 2 of ${dose.lifts.length}`,
    )
  for (let taken = 0; taken < 3; taken++) cursor.take()
  cursor.takeIf('lifts', 'lift')
  const groups = dose.lifts.map(({ reps }, index) => (index < first.value ? reps : 0))
  return {
    kind: 'groups',
    groups,
    value: sum(groups),
    text: groups.join('+'),
    start: first.start,
    end: cursor.end,
  }
}

/** The load of each drop: those typed, else those shown. */
function dropLoads(first: LiftedLoad, typed: readonly number[], asked: SetPrompt): LiftedLoad[] {
  if (asked.dose.kind !== 'drop') return []
  const count = asked.dose.reps.length - 1
  if (typed.length === 0) return asked.lower.length === count ? [first, ...asked.lower] : []
  if (typed.length !== count)
    throw new EntryError(`type one load, or one for each of the ${count + 1} drops: 12>10>8 x 20>15>10`)
  const at = (value: number): LiftedLoad =>
    first.kind === 'mass' ? { ...first, value } : { ...first, added: value }
  return [first, ...typed.map(at)]
}

/** `2 rir`, `2rir`, `@ 2 rir`: the reserve before its word. */
function takeReserve(cursor: Cursor, effort: Effort): boolean {
  const first = cursor.peek()
  const ahead = first?.text === '@' ? 1 : 0
  const number = cursor.peek(ahead)
  if (number?.kind !== 'number' || cursor.peek(ahead + 1)?.text !== 'rir') return false
  // 6 rir 2: the number after the word is the reserve.
  if (ahead === 0 && cursor.peek(2)?.kind === 'number') return false
  if (effort.rpe !== null) throw new EntryError('the effort is there twice; type it once')
  if (number.value > 9 || !Number.isInteger(number.value * 2))
    throw new EntryError(`rir ${number.text} is not known: repetitions in reserve run from 0 to 9`)
  for (let taken = 0; taken < ahead + 2; taken++) cursor.take()
  effort.rpe = 10 - number.value
  return true
}

/** The load that an entry without one means.
 * @throws EntryError when it is not known */
function shownLoad(asked: SetPrompt): LiftedLoad | null {
  if (asked.shown === null && asked.loadUnknown) {
    throw new EntryError('the load is not known yet: type it with the repetitions, such as 6 x 100')
  }
  return asked.shown
}

/* How many, how long or how far a set was, held against what was asked. */

/** Seconds that no insisting makes a hold. */
const longestKept = 24 * 3600

export type Done = Pick<SetResult, 'reps' | 'groups' | 'seconds' | 'meters'>

const nothing: Done = { reps: null, groups: null, seconds: null, meters: null }

const groupsDone = (groups: number[]): Done => ({
  ...nothing,
  groups,
  reps: groups.reduce((sum, group) => sum + group, 0),
})

/** What the empty entry records.
 * @throws EntryError for a set of as many as go */
export function prescribedDone(asked: SetPrompt): Done {
  const { dose } = asked
  if (dose.kind === 'reps') return { ...nothing, reps: dose.from }
  if (dose.kind === 'time') return { ...nothing, seconds: asked.offered ?? dose.seconds }
  if (dose.kind === 'distance') return { ...nothing, meters: metersOf(dose.length) }
  if (dose.kind === 'forTime') {
    if (asked.offered === null) throw new EntryError('type the time it took, such as 8:41')
    return { ...nothing, seconds: asked.offered }
  }
  if (dose.kind === 'roundsIn')
    throw new EntryError('type the whole rounds, and the repetitions of the round begun, such as 6+12')
  const counted = countedGroups(dose)
  const groups = counted === null ? null : prescribedGroups(counted)
  if (groups !== null) return groupsDone(groups)
  if (dose.kind === 'cluster') {
    throw new EntryError('as many as go: type the repetitions of each group, such as 2+3')
  }
  throw new EntryError('as many as go: type how many there were, such as 6, or 45 s for a hold')
}

/** What was typed.
 * @throws EntryError when it cannot be */
export function doneOf(
  count: Count,
  load: TypedLoad | null,
  asked: SetPrompt,
  body: string,
  doubts: Query[],
): Done {
  const { dose } = asked
  const isHold = dose.kind === 'time'
  const isCarry = dose.kind === 'distance'
  if (dose.kind === 'roundsIn') return roundsDone(count, dose.stations, body)
  const isForTime = dose.kind === 'forTime'
  const isTime = count.kind === 'seconds' || (count.kind === 'bare' && (isHold || isForTime))
  if (isTime && count.value > longestKept) throw new EntryError(`${count.value} s is longer than a day`)
  if (isForTime && !isTime) throw new EntryError('type the time it took, such as 8:41')
  if (isForTime) return { ...nothing, seconds: count.value }
  if (count.kind === 'bare' && isHold) return { ...nothing, seconds: count.value }
  if (count.kind === 'bare' && isCarry) return { ...nothing, meters: count.value }
  if (count.kind === 'seconds' || count.kind === 'meters') {
    const isAsked = dose.kind === 'max' || (count.kind === 'seconds' ? isHold : isCarry)
    if (!isAsked) doubts.push({ message: `${countText(count)}? ${expected(asked)}`, suggestion: null })
    return { ...nothing, [count.kind]: count.value }
  }
  const values = count.kind === 'groups' ? count.groups : [count.value]
  if (values.some((value) => !Number.isInteger(value))) throw noRepetitions(count, load, body)
  if (isHold || isCarry) {
    doubts.push({ message: `${countText(count)} repetitions? ${expected(asked)}`, suggestion: null })
  }
  if (count.kind === 'groups') {
    const counted = countedGroups(dose)
    if (counted !== null) return groupsDone(doneGroups(count.groups, counted))
    doubts.push(noCluster(count, asked, body))
    return groupsDone(count.groups)
  }
  const counted = countedGroups(dose)
  if (counted === null) return { ...nothing, reps: count.value }
  return groupsDone(groupsOfTotal(count.value, counted, (groups) => rewritten(body, count, groups)))
}

/** The pieces of a set that are counted one by one: the groups of a cluster set, the drops of a drop set, the lifts of a
 * complex; null for a set in one piece. */
function countedGroups(dose: Dose): Groups | null {
  if (dose.kind === 'cluster') return dose.groups
  if (dose.kind === 'drop') return dose.reps
  return dose.kind === 'complex' ? dose.lifts.map(({ reps }) => reps) : null
}

/** Whole rounds, and the repetitions of the one begun.
 * @throws EntryError when the round begun would be over */
function roundsDone(count: Count, stations: readonly Station[], body: string): Done {
  const [rounds = count.value, begun = 0, ...more] = count.groups
  if (
    count.kind === 'seconds' ||
    count.kind === 'meters' ||
    more.length > 0 ||
    !Number.isInteger(rounds + begun)
  )
    throw new EntryError('type the whole rounds, and the repetitions of the round begun, such as 6+12')
  const round = sum(stationsDone(stations, 1, 0))
  if (begun >= round) {
    const meant = rewritten(body, count, `${rounds + Math.floor(begun / round)}+${begun % round}`)
    throw new EntryError(`a round has ${round} repetitions; did you mean ${meant}?`, meant)
  }
  const done = stationsDone(stations, rounds, begun)
  const reps = sum(done.filter((_, index) => stations[index]?.dose.kind === 'reps'))
  return { ...nothing, reps, groups: [rounds, begun] }
}

/** Groups where no cluster was asked for: `3+3`, or, with the body as load, `6 +10`. */
function noCluster(count: Count, asked: SetPrompt, body: string): Query {
  const [reps, added] = count.groups
  const isLoad = asked.shown?.kind === 'bodyweight' && count.groups.length === 2 && (added ?? 0) > 0
  const meant = rewritten(body, count, isLoad ? `${reps} x bw+${added}` : String(count.value))
  return {
    message: `${count.text} is written for a cluster set, and this is none; did you mean ${meant}?`,
    suggestion: meant,
  }
}

function expected(asked: SetPrompt): string {
  const { dose } = asked
  if (dose.kind === 'time') return `${printNumber(dose.seconds)} s are prescribed`
  if (dose.kind === 'distance') return `${printNumber(metersOf(dose.length))} m are prescribed`
  return 'repetitions are prescribed'
}

function noRepetitions(count: Count, load: TypedLoad | null, body: string): EntryError {
  const what = `${count.text} is no number of repetitions`
  if (load !== null || count.kind === 'groups') return new EntryError(what)
  const meant = rewritten(body, { start: count.start, end: count.start }, 'x ')
  return new EntryError(`${what}; a load is written ${meant}`, meant)
}

/* Numbers of a set that are likelier a slip of the finger: asked, not swallowed. All invented. */

const mostReps = 100
const longestHold = 3600
/** Fewer repetitions than this are never taken for a load. */
const fewestQuestioned = 20

/** Whether so many repetitions are what is prescribed. */
export function isUsualCount(count: Count, asked: SetPrompt): boolean {
  return asked.dose.kind === 'reps' && count.value >= asked.dose.from && count.value <= asked.dose.to
}

/** @param load as typed; null when none was
 * @param lifted the load that is recorded */
export function questionCount(
  count: Count,
  load: TypedLoad | null,
  lifted: LiftedLoad | null,
  asked: SetPrompt,
  body: string,
  doubts: Query[],
): void {
  const isBare = count.kind === 'bare'
  if (count.kind === 'seconds' || (isBare && asked.dose.kind === 'time')) {
    if (count.value > longestHold)
      doubts.push({ message: `${count.value} s is over an hour`, suggestion: null })
    return
  }
  if (count.kind === 'meters' || (isBare && asked.dose.kind === 'distance')) return
  if (load !== null && isSwapped(count, load, asked)) {
    const swapped = rewritten(rewritten(body, load, ` x ${count.text}`), count, load.number)
    const message = `${count.text} repetitions with ${load.shown}; did you mean ${swapped}?`
    doubts.push({ message, suggestion: swapped })
  } else if (load === null && isLikelyLoad(count, lifted, asked)) {
    const meant = rewritten(body, { start: count.start, end: count.start }, 'x ')
    doubts.push({ message: `${count.text} repetitions; did you mean ${meant}?`, suggestion: meant })
  } else if (count.value > mostReps) {
    doubts.push({ message: `${count.value} repetitions in one set are over ${mostReps}`, suggestion: null })
  }
}

/** `100 x 6`, where about 6 repetitions are prescribed. */
function isSwapped(count: Count, { load, bare }: TypedLoad, asked: SetPrompt): boolean {
  if (!bare || load.kind !== 'mass' || load.value < 1 || !Number.isInteger(load.value)) return false
  if (asked.dose.kind !== 'reps') return count.value > 2 * fewestQuestioned && load.value <= fewestQuestioned
  const most = 2 * asked.dose.to
  return count.value >= fewestQuestioned && count.value > most && load.value <= Math.max(12, most)
}

/** `100` alone, where about 6 repetitions at about 100 are prescribed. */
function isLikelyLoad(count: Count, lifted: LiftedLoad | null, asked: SetPrompt): boolean {
  if (asked.dose.kind !== 'reps' || lifted?.kind !== 'mass' || count.kind !== 'bare') return false
  if (count.value < fewestQuestioned || count.value <= 3 * asked.dose.to) return false
  return count.value >= lifted.value / 2 && count.value <= lifted.value * 1.5
}

/* The groups of a cluster set. */

type Groups = Extract<Dose, { kind: 'cluster' }>['groups']

/** The groups as prescribed; null when one of them is as many as go. */
export function prescribedGroups(groups: Groups): number[] | null {
  const counted = groups.filter((group) => group !== 'max')
  return counted.length === groups.length ? counted : null
}

/** The groups that were done, those not typed filled up with 0. */
export function doneGroups(typed: readonly number[], groups: Groups): number[] {
  return [...typed, ...Array<number>(Math.max(0, groups.length - typed.length)).fill(0)]
}

/** The groups of a set that was typed as its total.
 * @param rest what was typed behind the total, for the suggestion: " x 140"
 * @throws EntryError that asks which groups, when the total is not the prescribed one */
export function groupsOfTotal(total: number, groups: Groups, rest: (groups: string) => string): number[] {
  const prescribed = prescribedGroups(groups)
  if (prescribed !== null && sum(prescribed) === total) return prescribed
  if (groups.length === 1) return [total]
  if (total === 0) return groups.map(() => 0)
  const filled = filledInOrder(total, groups).join('+')
  const even = spreadEvenly(total, groups.length).join('+')
  const turned = filled.split('+').reverse().join('+')
  const other = even === filled ? turned : even
  const isSecond = other !== filled && !other.startsWith('0')
  throw new EntryError(
    `${total} ${total === 1 ? 'repetition' : 'repetitions'} in groups: ${filled}${isSecond ? ` or ${other}` : ''}?`,
    rest(filled),
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

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0)
}
