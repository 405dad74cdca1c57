import { isJump } from '../prescription/exercise.ts'
import { expand, type RampOf } from '../prescription/expand.ts'
import type { Prescription } from '../prescription/model.ts'
import { plannedContacts, planOf } from '../prescription/plan.ts'
import type { PieceStep } from '../prescription/step.ts'
import { prescribedLoadOf } from '../session/prompt.ts'
import { type SessionState, startOf } from '../session/state.ts'
import {
  harderThanMeant,
  heavyLegSetsDone,
  heavyLegSetsOf,
  isHardRunning,
  wasHardRunning,
} from '../summary/hard.ts'
import type { Summary } from '../summary/model.ts'
import { exercisesDone, kilogramsOfLoad } from '../summary/performed.ts'

/** One day of the calendar: what was done on it, and what is ready for it. */
export interface CalendarDay {
  /** Local, YYYY-MM-DD. */
  date: string
  done: (WeekDay & { id: string; finished: boolean })[]
  ready: (WeekDay & { file: string })[]
  gaps: RunLiftGap[]
}

export interface Running {
  meters: number
  hardMeters: number
  /** Hard running whose metres are not known. */
  hardSeconds: number
}

/** A week on one page. */
export interface Week {
  /** ISO 8601: `2026-W48`. */
  week: string
  days: CalendarDay[]
  /** Days that are ready and have no date. */
  undated: CalendarDay['ready']
  /** Files among the prescriptions that cannot be read as a day. */
  unreadable: string[]
  done: Running
  ready: Running
  /** Dates of the week with hard running, done or ready, on the day after heavy sets for the legs. */
  hardRunAfterHeavyLegs: string[]
  /** Dates of a race, a trial or a long run, done or ready, on the day after heavy sets for the legs, and which it is. */
  longAfterHeavyLegs: { date: string; what: NonNullable<WeekDay['special']> }[]
  /** Days that were meant to be easy and came in hard, and what says so. */
  harderThanMeant: { date: string; fact: string }[]
  /** The last date of each three hard days in a row that end in the week. */
  threeHardDays: string[]
  /** The longest run's share of the week's done running, 0 to 1; null with fewer than two runs. */
  longestRunShare: number | null
  due: Due | null
}

/** @param given days: the seven of the week; @param dayBefore the one before them; @param dayBeforeThat the one before it */
export function weekOf(
  given: Pick<Week, 'week' | 'days' | 'undated' | 'unreadable' | 'due'>,
  dayBefore: CalendarDay,
  dayBeforeThat: CalendarDay | null = null,
): Week {
  const { days } = given
  const pairs = days.map((day, index) => ({ day, before: days[index - 1] ?? dayBefore }))
  return {
    ...given,
    done: runningOf(days.flatMap((day) => day.done)),
    ready: runningOf(days.flatMap((day) => day.ready)),
    hardRunAfterHeavyLegs: pairs
      .filter(({ day, before }) => hasHardRun(day) && hasHeavyLegs(before))
      .map(({ day }) => day.date),
    longAfterHeavyLegs: pairs.flatMap(({ day, before }) => {
      const what = [...day.done, ...day.ready].find(({ special }) => special !== null)?.special ?? null
      return what !== null && hasHeavyLegs(before) ? [{ date: day.date, what }] : []
    }),
    harderThanMeant: days.flatMap(({ date, done }) =>
      done.flatMap(({ harderThanMeant: fact }) => (fact === null ? [] : [{ date, fact }])),
    ),
    threeHardDays: threeInARow([...(dayBeforeThat ? [dayBeforeThat] : []), dayBefore, ...days]).filter(
      (date) => days.some((day) => day.date === date),
    ),
    longestRunShare: longestShare(days.flatMap((day) => day.done)),
  }
}

/** Days that were done only: what is ready can still be changed. */
function threeInARow(days: readonly CalendarDay[]): string[] {
  const hard = days.map(({ done }) => done.some(({ isHard }) => isHard))
  return days.filter((_, at) => at >= 2 && hard[at] && hard[at - 1] && hard[at - 2]).map(({ date }) => date)
}

function longestShare(done: readonly WeekDay[]): number | null {
  const runs = done.map(({ meters }) => meters).filter((meters) => meters > 0)
  if (runs.length < 2) return null
  return Math.max(...runs) / runs.reduce((sum, meters) => sum + meters, 0)
}

/** Whether any of a day, done or ready, is heavy for the legs. */
export function hasHeavyLegs(day: CalendarDay): boolean {
  return [...day.done, ...day.ready].some(({ heavyLegSets }) => heavyLegSets > 0)
}

function hasHardRun(day: CalendarDay): boolean {
  return [...day.done, ...day.ready].some(({ hardMeters, hardSeconds }) => hardMeters > 0 || hardSeconds > 0)
}

function runningOf(days: readonly WeekDay[]): Running {
  const sum = (of: (day: WeekDay) => number) => days.reduce((total, day) => total + of(day), 0)
  return {
    meters: sum((day) => day.meters),
    hardMeters: sum((day) => day.hardMeters),
    hardSeconds: sum((day) => day.hardSeconds),
  }
}

/** What a day of the week comes to, whether it was done or is ready. SI units. */
export interface WeekDay {
  title: string
  /** Running, recoveries by distance included. */
  meters: number
  hardMeters: number
  /** Hard running whose metres are not known. */
  hardSeconds: number
  sets: number
  heavyLegSets: number
  /** Landings of jumps and hops. */
  contacts: number
  /** Hard running in it, or heavy sets; of a day that is ready, as it is meant. */
  isHard: boolean
  /** A race, a trial, or a long run: one of 15 km or of 75 min and more. */
  special: 'race' | 'trial' | 'long run' | null
  /** `hr 168 and effort 8 in fact`, of a day that was meant to be easy and came in hard. */
  harderThanMeant: string | null
  /** Null where it is not known. */
  minutes: number | null
}

/** A day that is ready.
 * @param rampOf warm-up ramps, which take time; @param maxima known one-repetition maxima, besides the file's */
export function plannedDay(
  prescription: Prescription,
  rampOf: RampOf,
  maxima: readonly { name: string; kg: number; basis: string }[],
): WeekDay {
  const plan = planOf(prescription, rampOf, maxima)
  const state = {
    ...startOf(
      prescription,
      expand(prescription, () => []),
    ),
    maxima,
  }
  const run = (step: PieceStep) => (isHardRunning(step, prescription) ? step : null)
  const heavyLegSets = heavyLegSetsOf(state, (step) => ({
    kg: kilogramsOfLoad(prescribedLoadOf(state, step)),
    rpe: step.rpe?.to ?? null,
    reps: null,
    failed: false,
  }))
  const hard = hardOf(state, run)
  return {
    title: prescription.title,
    meters: plan.runMeters,
    ...hard,
    sets: plan.liftSets,
    heavyLegSets,
    contacts: plannedContacts(state.steps),
    isHard: hard.hardMeters > 0 || hard.hardSeconds > 0 || heavyLegSets > 0,
    special: specialOf(state, (step) => step),
    harderThanMeant: null,
    minutes: plan.expectedMinutes,
  }
}

/** A day that was done: only what was recorded counts.
 * @param hrMax beats a minute; null where it is not known */
export function doneDay(state: SessionState, summary: Summary, hrMax: number | null): WeekDay {
  const resultOf = (step: PieceStep) => {
    const recorded = state.recorded.get(step.id)
    return recorded?.kind === 'piece' ? recorded.result : null
  }
  return {
    title: state.prescription.title,
    meters: summary.running.meters,
    ...hardOf(state, (step) => {
      const result = resultOf(step)
      return result !== null && wasHardRunning(state, step, result, hrMax) ? result : null
    }),
    sets: summary.lifting.sets,
    heavyLegSets: heavyLegSetsDone(state),
    contacts: contactsOf(state),
    isHard: summary.parts.some(({ hard }) => hard === true),
    special: specialOf(state, resultOf),
    harderThanMeant:
      state.parts.map((_, part) => harderThanMeant(state, part, hrMax)).find((fact) => fact !== null) ?? null,
    minutes: summary.session.minutes,
  }
}

/** Landings of the jumps and hops that were recorded, both sides counted. */
function contactsOf(state: SessionState): number {
  return exercisesDone(state)
    .flatMap(({ sets }) => sets)
    .filter(({ name }) => isJump(name))
    .reduce((sum, { result, side }) => sum + (result.reps ?? 0) * (side === null ? 1 : 2), 0)
}

type Stretch = { meters: number | null; seconds: number | null }

const longMeters = 15_000
const longSeconds = 4500

/** A part's continuous running is long where all of it together is.
 * @param run what counts of a piece; null for nothing */
function specialOf(state: SessionState, run: (step: PieceStep) => Stretch | null): WeekDay['special'] {
  const pieces = state.steps.flatMap((step) => {
    if (step.kind !== 'piece' || state.parts[step.part]?.kind !== 'run') return []
    const done = run(step)
    return done === null ? [] : [{ step, done }]
  })
  const isWord = (word: string) => pieces.some(({ step }) => step.target?.word === word)
  if (isWord('race')) return 'race'
  if (isWord('trial')) return 'trial'
  const isLong = state.parts.some((_, part) => {
    const those = pieces.filter(({ step }) => step.part === part && (step.split || step.of === 1))
    const sum = (of: 'meters' | 'seconds') => those.reduce((total, { done }) => total + (done[of] ?? 0), 0)
    return sum('meters') >= longMeters || sum('seconds') >= longSeconds
  })
  return isLong ? 'long run' : null
}

/** @param run what counts of a piece as hard; null for nothing */
function hardOf(
  state: SessionState,
  run: (step: PieceStep) => Stretch | null,
): { hardMeters: number; hardSeconds: number } {
  const hard = { hardMeters: 0, hardSeconds: 0 }
  for (const step of state.steps) {
    if (step.kind !== 'piece' || state.parts[step.part]?.kind !== 'run') continue
    const done = run(step)
    if (done === null) continue
    if (done.meters !== null) hard.hardMeters += done.meters
    else hard.hardSeconds += done.seconds ?? 0
  }
  return hard
}

/** A day that was done, as far as its kind can be told. */
export interface DoneDay {
  date: string
  title: string
  parts: readonly { kind: string; name: string | null }[]
  /** How many sets were lifted. */
  sets: number
}

export interface Due {
  /** The kind of day that comes next. */
  kind: string
  /** The kind that was done last, and when; null where none of the rotation was. */
  last: { kind: string; date: string } | null
}

/** Which kind of day is due: the one that follows the kind that was done last. A day is of a kind that stands as
 * words in the name of one of its parts, else in its title; a lift of which no set was done counts for neither. Where a kind stands in the rotation more than once, the days
 * before the last one tell which of them it was.
 * @param history newest first
 * @returns null without a rotation */
export function dueOf(rotation: readonly string[], history: Iterable<DoneDay>): Due | null {
  const [first] = rotation
  if (first === undefined) return null
  const done: { kind: string; date: string }[] = []
  for (const day of history) {
    const kind = kindOf(day, rotation)
    if (kind !== null) done.push({ kind, date: day.date })
    if (done.length > rotation.length) break
  }
  const [last] = done
  if (last === undefined) return { kind: first, last: null }
  const places = rotation.flatMap((kind, place) => (kind === last.kind ? [place] : []))
  const matched = places.map((place) => daysMatched(rotation, place, done))
  const place = places[matched.indexOf(Math.max(...matched))] ?? 0
  return { kind: rotation[(place + 1) % rotation.length] ?? first, last }
}

/** How many days, counted back from the newest, are what the rotation has up to this place. */
function daysMatched(rotation: readonly string[], place: number, done: readonly { kind: string }[]): number {
  const size = rotation.length
  const different = done.findIndex(
    (day, back) => day.kind !== rotation[(((place - back) % size) + size) % size],
  )
  return different === -1 ? done.length : different
}

function kindOf(day: DoneDay, rotation: readonly string[]): string | null {
  const isDone = (part: { kind: string }) => part.kind !== 'lift' || day.sets > 0
  const title = day.parts.every(isDone) ? [day.title] : []
  const names = [...day.parts.filter(isDone).map((part) => part.name ?? ''), ...title].map(wordsOf)
  for (const name of names) {
    const kind = rotation.find((each) => name.includes(wordsOf(each)))
    if (kind !== undefined) return kind
  }
  return null
}

/** Words with a space on either side, so that only whole ones are found. */
function wordsOf(text: string): string {
  return ` ${text
    .toLowerCase()
    .normalize('NFKC')
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '')
    .join(' ')} `
}

/** The time between a run and a lift on one day. */
export interface RunLiftGap {
  order: 'run to lift' | 'lift to run'
  minutes: number
}

/** The gaps between runs and lifts of one day, in the order of their times, within a session and between
 * sessions. A gap whose ends are not known is left out.
 * @param summaries of the sessions of one day */
export function runLiftGaps(summaries: readonly Pick<Summary, 'parts'>[]): RunLiftGap[] {
  const parts = summaries
    .flatMap((summary) => summary.parts)
    .flatMap(({ kind, startedAt, finishedAt }) => {
      const [from, to] = [startedAt, finishedAt].map((time) => (time === null ? null : Date.parse(time)))
      const at = from ?? to
      return (kind === 'run' || kind === 'lift') && at != null ? [{ kind, from, to, at }] : []
    })
    .sort((one, other) => one.at - other.at)
  return parts.flatMap((part, index) => {
    const before = parts[index - 1]
    if (before === undefined || before.kind === part.kind) return []
    if (before.to == null || part.from == null || part.from < before.to) return []
    const order = part.kind === 'lift' ? 'run to lift' : 'lift to run'
    return [{ order, minutes: (part.from - before.to) / 60_000 }]
  })
}
