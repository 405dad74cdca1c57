import { differenceInCalendarDays } from 'date-fns/differenceInCalendarDays'
import { parseISO } from 'date-fns/parseISO'
import { riegelSeconds } from '../figures/race.ts'
import { counted } from '../units/decimal.ts'
import { formatClockShort } from '../units/duration.ts'
import { metersOf, printLength } from '../units/length.ts'
import type { Length } from '../units/model.ts'
import { isEndurance, isRunning } from './exercise.ts'
import type {
  Dose,
  FuelItem,
  Load,
  PartKind,
  PrepItem,
  Prescription,
  Recovery,
  Side,
  Span,
  Station,
} from './model.ts'

/* An expanded day: the flat list of steps in the order in which they are done. Seconds,
 * metres; loads keep their unit. A step's id is `part.item.n`, counted from 1, and never changes;
 * steps added during the session get ids of their own. */

interface Place {
  id: string
  /** Indexes of the prescribed part and of the item in it, from 0. */
  part: number
  item: number
}

/** Counts as one result. */
export interface PrepStep extends Place {
  kind: 'prep'
  prep: PrepItem
}

export interface FuelStep extends Place {
  kind: 'fuel'
  fuel: FuelItem
}

/** The target of an interval. `seconds` is for this interval, `secondsPerKm` is a pace; a single value
 * has already been widened to its range. */
export interface IntervalTarget {
  seconds: Span | null
  secondsPerKm: Span | null
  rpe: Span | null
  /** A ceiling has `from` 0. */
  heartRate: Span | null
  word: string | null
}

/** One split, one repeat or one whole interval: one result. */
export interface IntervalStep extends Place {
  kind: 'interval'
  /** Which entry of `works` (ExpandedItem) this belongs to. */
  work: number
  /** Its number among the entries of that work, from 1, and how many there are. */
  number: number
  of: number
  /** Exactly one of the two is set: by distance, or by time. */
  meters: number | null
  seconds: number | null
  target: IntervalTarget | null
  /** A split: the next one begins without a stop. */
  split: boolean
  /** The last split of its interval, or not a split: a stop (a recovery, the next item) follows. */
  endsInterval: boolean
  /** Shorter than the others of its interval: left out of the statistics. */
  short: boolean
  /** An interval and its recovery are both given by time: the clock starts each after the other. */
  startsByItself: boolean
  /** Percent; null without a grade. */
  grade: number | null
  lane: number | null
  negative: boolean
  /** Treadmill with a speed target: metres are speed × time, in m/s. */
  treadmillSpeed: number | null
  notes: string[]
}

export interface RecoveryStep extends Place {
  kind: 'recovery'
  move: Recovery['move']
  meters: number | null
  seconds: number | null
  way: 'back' | 'down' | null
  /** Its expected length: its time, or its distance at the pace of a jog or a walk, or the time expected before
   * the next start; null for `way`. */
  expectedSeconds: number | null
  /** The next repeat begins this many seconds after the step with the id `from` began. */
  sendOff: { seconds: number; from: string } | null
  /** It lasts as long as the interval before it took. */
  sameTime: boolean
  startsByItself: boolean
  /** The intervals before it: once any of them is recorded, these metres count as run. */
  countsWith: string[]
}

/** Done but not recorded, and not part of the tonnage. */
export interface WarmUpStep extends Place {
  kind: 'warm-up'
  exercise: number
  name: string
  load: { value: number; unit: 'kg' | 'lb' }
  /** One such load in each hand. */
  pair: boolean
  reps: number
  restSeconds: number
}

/** A distance run in a lift part, as in a circuit: it counts as running, not as a set. */
export function isRunningSet({ name, dose }: SetStep): boolean {
  return dose.kind === 'distance' && isRunning(name)
}

/** Whether a set counts among those that are lifted: not minutes or metres of endurance work without a load. */
export function isLiftedSet(step: SetStep): boolean {
  const { name, dose, load } = step
  const isLasting = load === null && (dose.kind === 'time' || dose.kind === 'distance')
  return !isRunningSet(step) && !(isLasting && isEndurance(name))
}

export interface SetStep extends Place {
  kind: 'set'
  /** Its load was typed together with the exercise that replaced another. */
  hasTypedLoad?: boolean
  /** Index of the exercise in the item, and its name. */
  exercise: number
  name: string
  /** Set number of this exercise on this line, from 1; for a superset also the round. */
  number: number
  of: number
  dose: Dose
  load: Load | null
  rpe: Span | null
  side: Side | null
  tempo: string | null
  /** Between the groups of a cluster set. */
  pauseInSet: number | null
  /** More exercises of the round follow, after this pause (0: at once); null if the round, or the set, is over. */
  pauseAfter: number | null
  /** After the set or the round, in seconds; null if none is prescribed, or after the last one. */
  restAfter: Span | null
  every: number | null
  /** The last set of its item. */
  last: boolean
  superset: boolean
  /** The exercise prescribed here, if it was another than `name`. */
  insteadOf: string | null
}

export type Step = PrepStep | FuelStep | IntervalStep | RecoveryStep | WarmUpStep | SetStep

/** One interval of a run or cross part: an entry of `running.items` in the summary. */
export interface ExpandedWork {
  text: string
  /** Length of a full split or repeat, in metres; null if given by time, or if a ladder's lengths differ. */
  nominalMeters: number | null
  /** Compared with goal pace: a pace or time target and a grade of at most 1 %. */
  judgedAgainstGoal: boolean
  /** Repeats, rather than the splits of one continuous run. */
  repeats: boolean
}

export interface ExpandedItem {
  text: string
  line: number
  steps: Step[]
  works: ExpandedWork[]
}

export interface ExpandedPart {
  kind: PartKind
  name: string | null
  items: ExpandedItem[]
}

/** The steps of these parts, one after the other. */
export function stepsOf(parts: readonly ExpandedPart[]): Step[] {
  return parts.flatMap((part) => part.items.flatMap((item) => item.steps))
}

/** Whether two steps come from the same line of the day. */
export function isSameItem(one: Pick<Step, 'part' | 'item'>, other: Pick<Step, 'part' | 'item'>): boolean {
  return one.part === other.part && one.item === other.item
}

/** Steps by their item, the items in the order of their first steps. */
export function stepsByItem(steps: readonly Step[]): Step[][] {
  const items = new Map<string, Step[]>()
  for (const step of steps) {
    const key = `${step.part}.${step.item}`
    const known = items.get(key)
    if (known) known.push(step)
    else items.set(key, [step])
  }
  return [...items.values()]
}

/** Whether a step has no result: a recovery, a warm-up set. */
export function asksNothing(step: Step): step is RecoveryStep | WarmUpStep {
  return step.kind === 'recovery' || step.kind === 'warm-up'
}

/** Whether a step needs an entry in a results file; food has lines of its own there. */
export function isEntry(step: Step): boolean {
  return !asksNothing(step) && step.kind !== 'fuel'
}

/** Seconds per kilometre of the file's goal; null without a goal. */
export function goalSecondsPerKm(prescription: Prescription): number | null {
  if (!prescription.goal) return null
  return prescription.goal.seconds / (metersOf(prescription.goal.length, lapMetersOf(prescription)) / 1000)
}

/** Metres of one lap if no lane is named: the header's, else 400. */
export function lapMetersOf({ lap }: Pick<Prescription, 'lap'>): number {
  return lap === null ? 400 : metersOf(lap)
}

/** `115 days to 10 km in 39:30`, `today 10 km in 39:30`; empty after its day. @param date local, YYYY-MM-DD */
export function daysToGoal(goal: { length: Length; seconds: number; on: string }, date: string): string {
  const days = differenceInCalendarDays(parseISO(goal.on), parseISO(date))
  if (days < 0) return ''
  const race = `${printLength(goal.length)} in ${formatClockShort(goal.seconds)}`
  if (days === 0) return `today ${race}`
  return `${counted(days, 'day')} to ${race}`
}

/* Estimates how long things take. Apart from prescribed times, the values are this program's own and rough. */

const secondsPerRep = 4
const repsWhenOpen = 10
const missingRest = 90
const prepItem = 60
const easyFactor = 1.25
const easySecondsPerKm = 360
const carriedSecondsPerMeter = 0.6

/** Seconds a metre of a recovery: jogging at 7:00 and walking at 10:00 a kilometre. */
export const recoverySecondsPerMeter = { jog: 0.42, walk: 0.6, stand: 0, rest: 0 } as const

/** Seconds a step takes with the rest after it, when another step of its item follows. */
export function expectedSeconds(step: Step, prescription: Prescription): number {
  switch (step.kind) {
    case 'prep':
      return secondsOfPrep(step)
    case 'fuel':
      return 0
    case 'interval':
      return secondsOfInterval(step, prescription)
    case 'recovery':
      return step.expectedSeconds ?? 0
    case 'warm-up':
      return 60 + step.restSeconds
    case 'set':
      return secondsOfSet(step) + restOf(step)
  }
}

function secondsOfPrep({ prep }: Extract<Step, { kind: 'prep' }>): number {
  const times = (prep.count ?? 1) * (prep.side ? 2 : 1)
  if (prep.amount?.kind === 'time') return prep.amount.seconds * times
  if (prep.amount?.kind === 'reps') return prep.amount.reps * secondsPerRep * times
  return prepItem
}

function secondsOfInterval(step: IntervalStep, prescription: Prescription): number {
  if (step.seconds !== null) return step.seconds
  if (step.meters === null) return 0
  const range = step.target?.seconds
  if (range) return (range.from + range.to) / 2
  const word = step.target?.word
  if (word === 'race' || word === 'trial') return secondsOfRace(step.meters, prescription)
  const goal = goalSecondsPerKm(prescription)
  return (step.meters / 1000) * (goal === null ? easySecondsPerKm : goal * easyFactor)
}

/** The goal, converted to the length of the race with Riegel's formula; without a goal, faster than easy running by as
 * much as goal pace is. */
function secondsOfRace(meters: number, prescription: Prescription): number {
  const { goal } = prescription
  if (!goal) return (meters / 1000) * (easySecondsPerKm / easyFactor)
  return riegelSeconds(metersOf(goal.length, lapMetersOf(prescription)), goal.seconds, meters)
}

/** Seconds of the set itself, including its pauses. */
function secondsOfSet(step: SetStep): number {
  const sides = step.side ? 2 : 1
  const pauses = step.dose.kind === 'cluster' ? (step.dose.groups.length - 1) * (step.pauseInSet ?? 0) : 0
  return secondsOfDoseOf(step) * sides + pauses
}

function secondsOfDose(dose: Dose): number {
  switch (dose.kind) {
    case 'reps':
      return ((dose.from + dose.to) / 2) * secondsPerRep
    case 'atLeast':
      return dose.reps * secondsPerRep
    case 'cluster':
      return dose.groups.reduce<number>(
        (sum, group) => sum + (group === 'max' ? repsWhenOpen : group) * secondsPerRep,
        0,
      )
    case 'max':
      return repsWhenOpen * secondsPerRep
    case 'time':
      return dose.seconds
    case 'distance':
      return metersOf(dose.length) * carriedSecondsPerMeter
    case 'drop':
      return dose.reps.reduce((sum, reps) => sum + reps * secondsPerRep, 0)
    case 'complex':
      return dose.lifts.reduce((sum, { reps }) => sum + reps * secondsPerRep, 0)
    case 'roundsIn':
      return dose.seconds
    case 'forTime':
      return dose.rounds * dose.stations.reduce((sum, station) => sum + secondsOfStation(station), 0)
  }
}

function secondsOfStation({ name, dose, side }: Station): number {
  return secondsOfDoseOf({ name, dose }) * (side ? 2 : 1)
}

/** A distance is run, or carried. */
function secondsOfDoseOf({ name, dose }: { name: string; dose: Dose }): number {
  const isRun = dose.kind === 'distance' && isRunning(name)
  return isRun ? metersOf(dose.length) * (easySecondsPerKm / 1000) : secondsOfDose(dose)
}

/** With `every`, the rest of that time; in a round, the pause; 0 after the last set of an item. */
function restOf(step: SetStep): number {
  if (step.last) return 0
  if (step.pauseAfter !== null) return step.pauseAfter
  if (step.every !== null) return Math.max(0, step.every - secondsOfSet(step))
  return step.restAfter ? (step.restAfter.from + step.restAfter.to) / 2 : missingRest
}

/** Seconds these steps take together, including rests; a rough estimate. */
export function expectedSecondsOf(steps: readonly Step[], prescription: Prescription): number {
  let sum = 0
  let round = 0
  let meters = 0
  const ends = new Map(steps.filter(isSet).map((step) => [`${step.part}.${step.item}`, step]))
  for (const step of steps) {
    // The last set of an item has no rest after it, even after a cut.
    const isEnd = step.kind === 'set' && ends.get(`${step.part}.${step.item}`) === step
    const alone = isEnd ? secondsOfSet(step) : expectedSeconds(step, prescription)
    if (step.kind === 'interval') meters = step.meters ?? 0
    // The way back is as long as the interval just run.
    if (step.kind === 'recovery' && step.way !== null) sum += meters * recoverySecondsPerMeter[step.move]
    if (step.kind !== 'set' || step.every === null || !step.superset) sum += alone
    else if (step.pauseAfter !== null) {
      round += alone
      sum += alone
    } else {
      // A round begins each time, however many exercises are in it.
      const own = secondsOfSet(step)
      sum += isEnd ? own : Math.max(own, step.every - round)
      round = 0
    }
  }
  return sum
}

export function isSet(step: Step): step is SetStep {
  return step.kind === 'set'
}
