import type { Due, Plan } from '../plan/model.ts'
import { hasHardRun } from '../summary/day.ts'
import type { WeekDay } from '../summary/model.ts'
import { plainOf } from '../summary/plain.ts'
import { daysBetween, printDate } from '../units/calendarDate.ts'
import { counted, inWords } from '../units/decimal.ts'
import { formatMeters, metersOf } from '../units/length.ts'
import { joined, neighbours } from '../units/lists.ts'
import type { DistanceUnit } from '../units/model.ts'
import { pageOf } from './chart.ts'
import { type PainPlace, painsText } from './pain.ts'
import { isMeasured, runningOf } from './weeks.ts'

/** One day of the calendar: what was done on it, and what is prepared for it. */
export interface CalendarDay {
  /** Local, YYYY-MM-DD. */
  date: string
  done: (WeekDay & { id: string; finished: boolean })[]
  ready: (WeekDay & { file: string })[]
}

type Running = ReturnType<typeof runningOf>

interface WeekGiven {
  /** ISO 8601: `2026-W48`. */
  week: string
  /** The seven of the week. */
  days: CalendarDay[]
  /** Prepared days without a date. */
  undated: CalendarDay['ready']
  /** Files among the prescriptions that cannot be read as a day. */
  unreadable: string[]
  pain: PainPlace[]
  due: Due | null
  /** Null if nothing was planned. */
  planned: PlannedDays | null
}

export type Week = ReturnType<typeof weekOf>

/** A week on one page. @param before the days of the week before it */
export function weekOf(given: WeekGiven, before: readonly CalendarDay[]) {
  const { days } = given
  const all = [...before, ...days]
  const done = days.flatMap((day) => day.done)
  return {
    ...given,
    done: runningOf(done),
    ready: runningOf(days.flatMap((day) => day.ready)),
    // Hard running, done or prepared, on the day after heavy sets for the legs, and which it is.
    afterHeavyLegs: days.flatMap((day, index) => {
      const special = daysIn(day).find((each) => each.special !== null)?.special ?? null
      const what = special ?? (daysIn(day).some(hasHardRun) ? 'hard running' : null)
      const isAfter = hasHeavyLegs(all[before.length + index - 1]!)
      return isAfter && what !== null ? [{ date: day.date, what }] : []
    }),
    // Days that were meant to be easy and turned out hard, and the evidence.
    harderThanMeant: days.flatMap(({ date, done }) =>
      done.flatMap(({ harderThanMeant: fact }) => (fact === null ? [] : [{ date, fact }])),
    ),
    hardDaysInARow: hardDaysInARow(all).filter(({ date }) => days.some((day) => day.date === date)),
    longestRunShare: longestShare(done),
  }
}

/** Three or more consecutive hard days: the last one, and how many. Only days that were done: prepared ones can still
 * be changed. */
function hardDaysInARow(all: readonly CalendarDay[]) {
  const hard = all.filter(({ done }) => done.some(({ isHard }) => isHard)).map(({ date }) => date)
  return neighbours(hard, (date, before) => daysBetween(before, date) === 1)
    .filter(({ length }) => length >= 3)
    .map((dates) => ({ date: dates.at(-1)!, days: dates.length }))
}

/** The longest run's share of the running, 0 to 1; null with fewer than two runs, and if much of the running has no
 * distance. */
function longestShare(done: readonly WeekDay[]): number | null {
  const running = runningOf(done)
  const longest = Math.max(0, ...done.map(({ longestMeters }) => longestMeters))
  const isOnlyRun = longest === 0 || longest > running.meters - 1
  if (isOnlyRun || !isMeasured(running)) return null
  return longest / running.meters
}

function daysIn({ done, ready }: CalendarDay): WeekDay[] {
  return [...done, ...ready]
}

function hasHeavyLegs(day: CalendarDay): boolean {
  return daysIn(day).some(({ heavyLegSets }) => heavyLegSets > 0)
}

/** What the plan says about the week of a Monday: metres of the week and of its long run, null if it does not say. */
export function plannedIn(plan: Plan, monday: string) {
  const line = plan.weeks.find((week) => week.monday === monday)
  return {
    meters: line?.distance ? metersOf(line.distance) : null,
    longMeters: line?.long ? metersOf(line.long) : null,
    kind: line?.kind ?? null,
    notes: line?.notes ?? [],
  }
}

/** The plan's entry for a week, with the words of each day, and the prescription files named after them. */
type PlannedDays = ReturnType<typeof plannedIn> & {
  days: { date: string; words: string[]; files: string[] }[]
}

const indent = ' '.repeat(15)

/** @param width of the terminal, in characters; the facts take 40 to 110 of them */
export function weekPage(week: Week, unit: DistanceUnit, width: number): string {
  const { planned } = week
  const [first, last] = [week.days[0]?.date ?? '', week.days.at(-1)?.date ?? '']
  const head = `${printDate(first, "'Week' I 'of' RRRR: EEE d MMM")} to ${printDate(last, 'EEE d MMM yyyy')}`
  const rows = [
    ...week.days.flatMap((day) => [
      ...dayRows(day, unit),
      ...plannedRows(planned?.days.find(({ date }) => date === day.date)),
    ]),
    ...week.undated.flatMap((day) => entryRows('no date', 'ready', day, unit)),
    ...week.unreadable.map(
      (file) => `${'no date'.padEnd(8)}${plainOf(file)} has problems: "pausebook check" shows them`,
    ),
  ]
  const facts = pageOf([factsOf(week, unit)], Math.max(40, Math.min(width, 110)))
  return `${pageOf([[head], rows, facts], Number.POSITIVE_INFINITY).join('\n')}\n`
}

function plannedRows(day: PlannedDays['days'][number] | undefined): string[] {
  if (day === undefined || day.words.length === 0) return []
  const files = day.files.length === 0 ? '' : ` (${day.files.join(', ')})`
  return [`${''.padEnd(8)}plan   ${plainOf(`${day.words.join(' + ')}${files}`)}`]
}

function plannedFact({ meters, longMeters, kind, notes }: PlannedDays, unit: DistanceUnit): string {
  const bits = joined(', ', [
    meters !== null && formatMeters(meters, unit),
    longMeters !== null && `long ${formatMeters(longMeters, unit)}`,
    kind,
    ...notes.map(plainOf),
  ])
  return bits === '' ? '' : `Planned: ${bits}.`
}

function dayRows(day: CalendarDay, unit: DistanceUnit): string[] {
  const name = dayName(day.date)
  const entries = [
    ...day.done.map((entry) => ({ state: entry.finished ? 'done' : 'open', entry })),
    ...day.ready.map((entry) => ({ state: 'ready', entry })),
  ]
  if (entries.length === 0) return [`${name.padEnd(8)}-`]
  return entries.flatMap(({ state, entry }, index) => entryRows(index === 0 ? name : '', state, entry, unit))
}

function entryRows(name: string, state: string, entry: WeekDay, unit: DistanceUnit): string[] {
  const about = state === 'ready' ? 'about ' : ''
  const bits = joined(', ', [
    distanceText(entry, unit),
    hardText(entry, unit),
    entry.sets > 0 && counted(entry.sets, 'set'),
    entry.heavyLegSets > 0 && `${entry.heavyLegSets} of them heavy for the legs`,
    entry.contacts > 0 && counted(entry.contacts, 'contact'),
    entry.minutes !== null && `${about}${Math.round(entry.minutes)} min`,
  ])
  const head = `${name.padEnd(8)}${state.padEnd(7)}${entry.title}`
  return bits === '' ? [head] : [head, `${indent}${bits}`]
}

function hardText({ hardMeters, hardSeconds }: Running, unit: DistanceUnit): string {
  const distance = hardMeters > 0 && formatMeters(hardMeters, unit)
  const minutes = Math.round(hardSeconds / 60)
  const bits = joined(' and ', [distance, minutes > 0 && `${minutes} min`])
  return bits === '' ? '' : `${bits} of it hard`
}

function factsOf(week: Week, unit: DistanceUnit): (string | null | false)[] {
  const { due, longestRunShare, planned } = week
  const legs = week.days.filter(hasHeavyLegs).map(({ date }) => dayName(date))
  const ready = distanceText(week.ready, unit) === '' ? '' : `, ${runningText(week.ready, unit)} ready`
  const hasRunning =
    planned !== null || [week.done, week.ready].some((running) => distanceText(running, unit) !== '')
  const last = due?.last
  const after = last
    ? `${last.kind} was done on ${printDate(last.date, 'EEE d MMM')}`
    : 'none of the rotation has been done yet'
  return [
    planned && plannedFact(planned, unit),
    painsText(week.pain),
    hasRunning && `Running: ${runningText(week.done, unit)} done${ready}.`,
    legs.length > 0 && `Heavy legs: ${legs.join(', ')}.`,
    ...week.harderThanMeant.map(({ date, fact }) => `${dayName(date)}: easy by the plan, ${fact}.`),
    ...week.hardDaysInARow.map(({ date, days }) => `${dayName(date)}: ${inWords(days)} hard days in a row.`),
    longestRunShare !== null &&
      `Longest run: ${Math.round(100 * longestRunShare)} % of the running that was done.`,
    ...week.afterHeavyLegs.map(
      ({ date, what }) =>
        `${dayName(date)}: ${what === 'hard running' ? what : `a ${what}`} on the day after heavy legs.`,
    ),
    due !== null && `Due next: ${due.kind} (${after}).`,
  ]
}

function runningText(running: Running, unit: DistanceUnit): string {
  const hard = hardText(running, unit)
  return `${distanceText(running, unit) || `0 ${unit}`}${hard === '' ? '' : ` (${hard})`}`
}

/** `10 km and 60 min without a distance`; a small part without one is not mentioned. Empty without running. */
function distanceText(running: Running, unit: DistanceUnit): string {
  const { meters, unmeasuredSeconds } = running
  const minutes = isMeasured(running) ? 0 : Math.round(unmeasuredSeconds / 60)
  return joined(' and ', [
    meters > 0 && formatMeters(meters, unit),
    minutes > 0 && `${minutes} min without a distance`,
  ])
}

function dayName(date: string): string {
  return printDate(date, 'EEE d')
}
