import { sum } from 'd3-array'
import { isHold, isRunning } from '../../prescription/exercise.ts'
import { stationsDone } from '../../prescription/expand.ts'
import type { Dose, Station } from '../../prescription/model.ts'
import { speedLimits } from '../../prescription/plausible.ts'
import { counted, printNumber } from '../../units/decimal.ts'
import { formatClockShort } from '../../units/duration.ts'
import { metersOf, printLength } from '../../units/length.ts'
import { inSentence } from '../../units/lists.ts'
import type { Length } from '../../units/model.ts'
import { loadText, typedLoad, withNumber } from '../load.ts'
import type { LiftedLoad, SetResult } from '../model.ts'
import type { Answer, SetPrompt } from '../prompt.ts'
import { type Effort, noEffort, takeEffort } from './effort.ts'
import { asLoad, Cursor, type Edit, type EntryText, number, otherTimes, type Parsed, phrase } from './lex.ts'
import {
  type Count,
  countOf,
  countText,
  exchanged,
  fewestQuestioned,
  loadOf,
  type TypedLoad,
  takeCount,
  takeLoad,
  takeLower,
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

export function parseSet(cursor: Cursor, prompt: SetPrompt): Parsed<Answer> {
  const { count, load: typedLoad, lower, failed: failure, effort } = takeSet(cursor, prompt)
  const { before } = prompt
  const earlier = count === null && !cursor.isAsPrescribed ? before : undefined
  const failed = failure || earlier?.failed === true
  // Only the first reason to refuse an entry is shown, so the order of these lines matters.
  if (count === null && failure && !earlier)
    cursor.refuse('type how many there were before the one that failed: 4!')
  const load = typedLoad === null ? prompt.shown : loadOf(typedLoad, prompt, cursor, count)
  const done =
    count === null
      ? (earlier ?? prescribedDone(prompt, cursor))
      : doneOf(count, { typed: typedLoad, lifted: load }, prompt, cursor)
  if (load === null && prompt.loadUnknown)
    cursor.refuse(`the load is not known yet: type it as well, such as ${exampleOf(prompt)} x 100`)
  const drops = (count ?? earlier)?.groups?.length ?? 0
  const loads = load === null ? [] : dropLoads(load, lower, drops, prompt, cursor)
  const result: SetResult = {
    ...(done ?? nothing),
    load,
    ...(loads.length > 0 ? { loads } : {}),
    // A repetition that failed says more than an earlier effort.
    rpe: effort.rpe ?? (failed ? null : (before?.rpe ?? null)),
    failed,
    ...cursor.remarks,
  }
  return cursor.parsed({ kind: 'set', result })
}

/** Which figures of a set an entry itself holds; null if it cannot be read. */
export function figuresIn(
  text: EntryText,
  prompt: SetPrompt,
): { hasCount: boolean; hasLoad: boolean } | null {
  const cursor = new Cursor(text)
  const { count, load } = takeSet(cursor, prompt)
  return cursor.isRefused ? null : { hasCount: count !== null, hasLoad: load !== null }
}

/** `!`, `failed at 4`. */
const failure = phrase(`(?:!|failed|fail) (?:at (${number}) )?`)
/** `5 at 100`, `6 100`: a load without its x. */
const atLoad = phrase(`at (?=${number} |[-+] |bw )`)
const numberAlone = phrase(`${number} `)
const aNumber = phrase('[\\d:.]+ ')

function takeSet(cursor: Cursor, prompt: SetPrompt): Typed {
  let typed: Typed = { count: null, load: null, lower: [], failed: false, effort: noEffort }
  while (cursor.goOn()) typed = { ...typed, ...takeNext(cursor, typed, prompt) }
  return typed
}

/** Takes the next figure of a set; refuses the entry if it is not understood. */
function takeNext(cursor: Cursor, typed: Typed, prompt: SetPrompt): Partial<Typed> {
  const effort = takeEffort(cursor, typed.effort, 'set')
  if (effort !== null) return { effort }
  const failed = cursor.take(failure)
  if (failed !== null) {
    if (typed.failed) cursor.refuse('one ! is enough: 4! says that the next repetition failed')
    return { failed: true, count: countBefore(failed.parts[0], failed, typed.count, cursor) }
  }
  const at = typed.count === null ? null : cursor.look(atLoad)
  if (at !== null) cursor.refuse('a load is written after an x', { ...at, text: 'x' })
  const load = takeLoad(cursor, prompt)
  if (load !== null) {
    if (typed.load !== null) cursor.refuse('two loads typed; type one', exchanged(typed.load, load))
    return { load, lower: takeLower(cursor, prompt) }
  }
  if (typed.count === null)
    return { count: takeCount(cursor, prompt) ?? cursor.refuseToken(howTyped(prompt)) }
  const surplus = cursor.look(aNumber)
  const cross = typed.load === null ? cursor.look(numberAlone) : null
  if (cross !== null)
    cursor.refuse('an x goes between repetitions and load', { ...cross, text: `x ${cross.text}` })
  else if (surplus !== null) cursor.refuse(`"${surplus.text}" is one number too many for a set`)
  else cursor.refuseToken(howTyped(prompt))
  return {}
}

/** `failed at 4`: the fourth repetition failed, three were done. Returns the count as it was for `failed` alone. */
function countBefore(
  missed: string | undefined,
  place: Edit,
  count: Count | null,
  cursor: Cursor,
): Count | null {
  if (missed === undefined) return count
  const value = Number(missed) - 1
  if (value < 0 || !Number.isInteger(value))
    return cursor.refuse('repetitions are counted from 1: failed at 4')
  if (count !== null && count.value !== value)
    cursor.refuse(`${count.text} done, or failed at ${missed}? Type ${count.text}! or ${value}!`)
  // What is suggested in place of the count keeps the word of failure before it.
  return (
    count ?? countOf({ ...place, start: place.start + place.text.indexOf(' ') }, 'bare', value, `${value}`)
  )
}

/** The load of each drop, as typed or else as shown. A drop beyond those has no load to show, so its load must be typed.
 * @param done how many drops there were; 0 for as prescribed */
function dropLoads(
  first: LiftedLoad,
  typed: readonly number[],
  done: number,
  { dose, lower }: SetPrompt,
  cursor: Cursor,
): LiftedLoad[] {
  if (dose.kind !== 'drop') return []
  const prescribed = dose.reps.length
  const drops = Math.max(prescribed, done)
  if (typed.length === 0 && lower.length >= drops - 1) return [first, ...lower.slice(0, drops - 1)]
  if (typed.length === 0 ? drops > prescribed : typed.length !== drops - 1)
    cursor.refuse(`type the load of each of the ${drops} drops: 12>10>8 x 20>15>10`)
  if (typed.length === 0) return []
  return [first, ...typed.map((number) => withNumber(first, number))]
}

/* How many, how long or how far a set was, compared with the prompt. All limits are this program's own rules. */

/** The hard limit in seconds for a hold: not even insisting records a longer one. */
const longestKept = 24 * 3600
const longestHold = 3600
const farthestCarry = 10_000
/** More repetitions than this are probably a slip. */
export const mostReps = 100
/** More than this many times what is prescribed is probably a typing error. */
const farAbove = 3
/** A number within this share of the load is probably the load, from fewer times what is prescribed on. */
const nearLoad = 0.2
const farAboveNearLoad = 2

type Done = Pick<SetResult, 'reps' | 'groups' | 'seconds' | 'meters'>

const typeTime = 'type the time it took, such as 8:41'
const typeRounds = 'type the whole rounds, and the repetitions of the round begun, such as 6+12'

const nothing: Done = { reps: null, groups: null, seconds: null, meters: null }

/** `a set is typed 6, 6 x 100 or 6 x 100 @8`, with the amounts and the load of this one. */
function howTyped(prompt: SetPrompt): string {
  const { dose, shown, loadUnknown } = prompt
  if (dose.kind === 'roundsIn') return typeRounds
  if (dose.kind === 'forTime') return typeTime
  const amount = exampleOf(prompt)
  const hasLoad = dose.kind !== 'drop' && (loadUnknown || shown !== null)
  const whole = hasLoad ? `${amount} x ${shown ? typedLoad(shown, shown.unit) : '100'}` : amount
  const ways = [...(loadUnknown ? [] : [amount]), whole, `${whole} @8`]
  return `a set is typed ${inSentence([...new Set(ways)], 'or')}`
}

/** An amount that this set could have had, as it is typed. */
function exampleOf({ dose, name }: SetPrompt): string {
  if (dose.kind === 'reps') return `${dose.from}`
  if (dose.kind === 'time') return `${printNumber(dose.seconds)} s`
  if (dose.kind === 'distance') return carriedText(dose.length)
  const groups = (countedGroups(dose) ?? []).map((group) => (group === 'max' ? 3 : group))
  if (groups.length > 0) return groups.join(dose.kind === 'drop' ? '>' : '+')
  return isHold(name) ? '45 s' : '6'
}

/** The groups as done, at least as many as `least`, with 0 for those not typed. */
function groupsDone(typed: readonly number[], least = typed.length): Done {
  const missing = Array<number>(Math.max(0, least - typed.length)).fill(0)
  return { ...nothing, groups: [...typed, ...missing], reps: sum(typed) }
}

/** What the empty entry records; null for what must be typed. */
function prescribedDone(prompt: SetPrompt, cursor: Cursor): Done | null {
  const { dose, offered } = prompt
  if (dose.kind === 'reps') return { ...nothing, reps: dose.from }
  if (dose.kind === 'time') return { ...nothing, seconds: offered ?? dose.seconds }
  if (dose.kind === 'distance') return { ...nothing, meters: metersOf(dose.length) }
  if (dose.kind === 'forTime')
    return offered === null ? cursor.refuse(typeTime) : { ...nothing, seconds: offered }
  if (dose.kind === 'roundsIn') return cursor.refuse(typeRounds)
  const groups = prescribedGroups(countedGroups(dose) ?? ['max'])
  if (groups !== null) return groupsDone(groups)
  return cursor.refuse(`as many reps as possible: type how many there were, such as ${exampleOf(prompt)}`)
}

/** A load as typed, null without one, and the load that is recorded. */
interface Loads {
  typed: TypedLoad | null
  lifted: LiftedLoad | null
}

/** The typed amount; null when it is refused. */
function doneOf(count: Count, loads: Loads, prompt: SetPrompt, cursor: Cursor): Done | null {
  const { dose } = prompt
  if (dose.kind === 'roundsIn') return roundsDone(count, dose.stations, cursor)
  const kind = measureOf(count, prompt)
  if (dose.kind === 'forTime' && kind !== 'seconds') return cursor.refuse(typeTime)
  if (!measuresOf(prompt).includes(kind))
    cursor.query(`${countText(count)}${kind === 'reps' ? ' repetitions' : ''}? ${expected(prompt)}`)
  if (kind === 'reps') return repsDone(count, loads, prompt, cursor)
  if (kind === 'seconds') questionTime(count, prompt, cursor)
  else if (count.value > farthestCarry)
    cursor.query(`${printNumber(count.value)} m in one set are over 10 km`)
  return { ...nothing, [kind]: count.value }
}

type Measure = 'reps' | 'seconds' | 'meters'

/** What answers the prescription; a bare number counts the first. A run in a round is timed. */
function measuresOf({ dose, name }: SetPrompt): [Measure, ...Measure[]] {
  if (dose.kind === 'time' || dose.kind === 'forTime') return ['seconds']
  if (dose.kind === 'distance') return isRunning(name) ? ['seconds', 'meters'] : ['meters']
  return dose.kind === 'max' ? ['reps', 'seconds', 'meters'] : ['reps']
}

/** What a typed amount counts. */
function measureOf({ kind, value }: Count, prompt: SetPrompt): Measure {
  if (kind === 'groups') return 'reps'
  if (kind !== 'bare') return kind
  const { dose } = prompt
  return dose.kind === 'distance' && value === metersOf(dose.length) ? 'meters' : measuresOf(prompt)[0]
}

function expected({ dose }: SetPrompt): string {
  if (dose.kind === 'time') return `the prescription says ${printNumber(dose.seconds)} s`
  if (dose.kind === 'distance') return `the prescription says ${carriedText(dose.length)}`
  return 'the prescription says repetitions'
}

/** How far, as it can be typed for a set: in metres or yards. */
function carriedText(length: Length): string {
  return length.unit === 'yd' ? printLength(length) : `${printNumber(metersOf(length))} m`
}

function questionTime(count: Count, prompt: SetPrompt, cursor: Cursor): void {
  const { dose } = prompt
  const { value, text } = count
  const [other = null] = otherTimes(text)
  const meant = other && { ...count, text: other.text }
  // A point for a colon: 1.05 or 0.45 for a hold of about a minute.
  const isShort = dose.kind === 'time' && text.includes('.') && value * farAbove < dose.seconds
  if (value > longestKept) cursor.refuse(`${value} s is longer than a day`)
  else if (count.kind === 'bare' && dose.kind === 'forTime')
    cursor.query(`${text} is ${formatClockShort(value)}`, meant)
  else if (count.kind === 'bare' && isShort) cursor.query(`${text} s? ${expected(prompt)}`, meant)
  else if (value > longestHold) cursor.query(`${value} s is over an hour`)
  else if (dose.kind === 'distance' && isRunning(prompt.name)) {
    const meters = metersOf(dose.length)
    const { slow, fast } = speedLimits('run', meters)
    const far = `${formatClockShort(value)} for ${printNumber(meters)} m`
    if (meters / value > fast) cursor.query(`${far} is faster than any human`)
    if (meters / value < slow) cursor.query(`${far} is slower than ${slow} m/s`)
  }
}

/** The repetitions of a set, or of each of its groups. */
function repsDone(count: Count, loads: Loads, prompt: SetPrompt, cursor: Cursor): Done | null {
  const { dose } = prompt
  const isGroups = count.kind === 'groups'
  if (!(isGroups ? count.groups : [count.value]).every(Number.isInteger))
    return refuseReps(count, loads.typed, dose, cursor)
  if (dose.kind === 'complex') questionLifts(count, dose.lifts, cursor)
  if (dose.kind === 'max' && count.kind === 'bare' && isHold(prompt.name))
    cursor.query(`${countText(count)} repetitions of a hold`, { ...count, text: `${count.text} s` })
  if (prompt.side !== null && dose.kind === 'reps' && count.value === 2 * dose.to)
    cursor.query(`${count.text} on each side`, { ...count, text: `${dose.to}` })
  const asked = countedGroups(dose)
  if (isGroups && asked === null) questionGroups(count, prompt, cursor)
  questionReps(count, loads, dose, cursor)
  if (isGroups) return groupsDone(count.groups, asked?.length)
  if (asked === null) return { ...nothing, reps: count.value }
  const done = groupsOfTotal(count, asked, dose, cursor)
  return done && groupsDone(done)
}

function refuseReps(count: Count, load: TypedLoad | null, dose: Dose, cursor: Cursor): null {
  const what = `repetitions are whole numbers, not ${count.text}`
  const isCluster = countedGroups(dose) !== null
  if (count.kind === 'groups') {
    // 6 +2.5: more load.
    const isMore = !isCluster && count.groups.length === 2
    return cursor.refuse(what, isMore ? { ...count, text: count.text.replace('+', ' x +') } : null)
  }
  // 2,2 is read as 2.2; 102.5 is a load.
  if (load === null && isCluster && /^\d\.\d$/.test(count.text))
    return cursor.refuse(what, { ...count, text: count.text.replace('.', '+') })
  if (load === null) return cursor.refuse(what, { ...count, text: `x ${count.text}` }, asLoad)
  return cursor.refuse(what, Number.parseFloat(load.text) < count.value ? exchanged(count, load) : null)
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

/** Groups although no cluster was prescribed: `3+3`, or, with a bodyweight load, `6 +10`. */
function questionGroups(count: Count, prompt: SetPrompt, cursor: Cursor): void {
  const [reps, added] = count.groups
  const isLoad = prompt.shown?.kind === 'bodyweight' && count.groups.length === 2 && (added ?? 0) > 0
  const text = isLoad ? `${reps} x bw+${added}` : `${count.value}`
  cursor.query(`${count.text} counts the groups of a cluster set`, { ...count, text })
}

/** Questions repetitions that are probably a load, or mistyped. */
function questionReps(count: Count, { typed, lifted }: Loads, dose: Dose, cursor: Cursor): void {
  const { value, text } = count
  const prescribed = dose.kind === 'reps' && count.kind === 'bare' && typed === null ? dose : null
  const ofLoad = lifted?.kind === 'mass' ? value / lifted.value : 0
  // 25, where 5 repetitions are prescribed; 24, where 8 are, at 22.5 kg.
  const far = Math.abs(ofLoad - 1) <= nearLoad ? farAboveNearLoad : farAbove
  const isFar = prescribed !== null && value >= fewestQuestioned && value > far * prescribed.to
  const meant = typed && exchanged(count, typed)
  if (typed !== null && meant !== null && isSwapped(value, Number.parseFloat(typed.text), dose)) {
    cursor.query(`${text} repetitions with ${loadText(typed.load)}`, meant)
  } else if (isFar && lifted?.kind === 'mass' && ofLoad >= 0.5 && ofLoad <= 1.5) {
    // 100 alone, where about 6 repetitions at about 100 are prescribed: 6 x 100.
    const alone = { ...count, text: `${prescribed.from} x ${text} ${lifted.unit}` }
    cursor.query(`${text} repetitions at ${loadText(lifted)}`, alone)
  } else if (value > mostReps) {
    cursor.query(`${value} repetitions in one set are over ${mostReps}`)
  } else if (isFar) {
    const { from, to } = prescribed
    cursor.query(`${text} repetitions instead of ${from === to ? from : `${from} to ${to}`}`)
  }
}

/** `100 x 6`, where about 6 repetitions are prescribed. */
function isSwapped(reps: number, load: number, dose: Dose): boolean {
  const most = 2 * (dose.kind === 'reps' ? dose.to : fewestQuestioned)
  return reps >= fewestQuestioned && reps > most && load <= Math.max(12, most / 2)
}

/** Whole rounds, and the repetitions of the unfinished one; refused if those would complete it. */
function roundsDone(count: Count, stations: readonly Station[], cursor: Cursor): Done | null {
  const [rounds = count.value, begun = 0, ...more] = count.groups
  const isMeasured = count.kind === 'seconds' || count.kind === 'meters'
  if (isMeasured || more.length > 0 || !Number.isInteger(rounds) || !Number.isInteger(begun))
    return cursor.refuse(typeRounds)
  const round = sum(stationsDone(stations, 1, 0))
  if (begun >= round) {
    const text = `${rounds + Math.floor(begun / round)}+${begun % round}`
    return cursor.refuse(`a round has ${round} repetitions`, { ...count, text })
  }
  if (rounds > mostReps) cursor.query(`${rounds} rounds are over ${mostReps}`)
  const done = stationsDone(stations, rounds, begun)
  const reps = sum(done.filter((_, index) => stations[index]?.dose.kind === 'reps'))
  return { ...nothing, reps, groups: [rounds, begun] }
}

/* The groups of a cluster set. */

type Groups = Extract<Dose, { kind: 'cluster' }>['groups']

/** The parts of a set that are counted one by one: the groups of a cluster set, the drops of a drop set, the lifts of a
 * complex; null for any other set. */
function countedGroups(dose: Dose): Groups | null {
  if (dose.kind === 'cluster') return dose.groups
  if (dose.kind === 'drop') return dose.reps
  return dose.kind === 'complex' ? dose.lifts.map(({ reps }) => reps) : null
}

/** The groups as prescribed; null if one of them is an AMRAP. */
function prescribedGroups(groups: Groups): number[] | null {
  const counted = groups.filter((group) => group !== 'max')
  return counted.length === groups.length ? counted : null
}

/** The groups of a set that was typed as a total; asks for the groups when the total is not the prescribed one. */
function groupsOfTotal(count: Count, groups: Groups, { kind }: Dose, cursor: Cursor): number[] | null {
  const total = count.value
  const prescribed = prescribedGroups(groups)
  if (prescribed !== null && sum(prescribed) === total) return prescribed
  if (prescribed !== null && total > farAbove * sum(prescribed))
    return cursor.refuse(`${total} repetitions in one set`, { ...count, text: `x ${count.text}` }, asLoad)
  if (groups.length === 1) return [total]
  if (total === 0) return groups.map(() => 0)
  const [sign, parts] = kind === 'drop' ? ['>', 'drops'] : ['+', 'groups']
  const filled = filledInOrder(total, groups).join(sign)
  const even = spreadEvenly(total, groups.length).join('+')
  const isEither = kind === 'cluster' && even !== filled && !even.startsWith('0')
  const other = isEither ? ` or ${even}` : ''
  const what = `${counted(total, 'repetition')} in ${parts}: ${filled}${other}`
  return cursor.refuse(what, { ...count, text: `${filled}` }, () => `${what}?`)
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
