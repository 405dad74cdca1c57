import { group, sum } from 'd3-array'
import { easySecondsPerKm } from '../prescription/expectedTime.ts'
import type { IndexedFigures } from '../summary/model.ts'
import { dayAfter, daysBetween, mondayOf, printDate } from '../units/calendarDate.ts'
import { counted } from '../units/decimal.ts'
import { metersInPaceUnit } from '../units/duration.ts'
import type { DistanceUnit } from '../units/model.ts'

export interface DoneSession extends Readonly<Omit<IndexedFigures, 'lifts'>> {
  id: string
  /** Local, YYYY-MM-DD. */
  date: string
  /** When it began, in ms. */
  begun: number
  /** An exercise with its sets; null if it was not lifted. @param key of `exerciseKey` */
  lifted(key: string): IndexedFigures['lifts'][number] | null
}

/** The running of some days together. */
export function runningOf(days: readonly DoneSession['day'][]) {
  return {
    meters: sum(days, ({ meters }) => meters),
    // Running without a distance, which is not in the metres.
    unmeasuredSeconds: sum(days, ({ unmeasuredSeconds }) => unmeasuredSeconds),
    hardMeters: sum(days, ({ hardMeters }) => hardMeters),
    hardSeconds: sum(days, ({ hardSeconds }) => hardSeconds),
  }
}

/** The metres that running without a distance would be at easy pace, for judging whether it could matter and for a first
 * plan. This program's own rule. */
export const assumedMeters = (seconds: number) => (1000 * seconds) / easySecondsPerKm

/** The longest run of a day, in metres, where all of it without a distance counts as one run at easy pace. */
export function assumedLongest(day: Pick<DoneSession['day'], 'longestMeters' | 'unmeasuredSeconds'>): number {
  return Math.max(day.longestMeters, assumedMeters(day.unmeasuredSeconds))
}

/** Whether a distance is complete enough to judge: running without one would add at most a tenth. This program's own
 * rule. */
export function isMeasured(run: { meters: number; unmeasuredSeconds: number }): boolean {
  return assumedMeters(run.unmeasuredSeconds) <= run.meters / 10
}

/** Metres converted to the unit, with one decimal and without its name. */
export function distanceOf(meters: number, unit: DistanceUnit): string {
  return (meters / metersInPaceUnit[unit]).toFixed(1)
}

/** "+", at least, after a distance to which running without one would add. */
export function plusOf(runs: readonly Parameters<typeof isMeasured>[0][]): '' | '+' {
  return runs.every(isMeasured) ? '' : '+'
}

/** The days shown, both ends included; local, YYYY-MM-DD. */
export interface Span {
  from: string
  to: string
}

export function isIn(span: Span, date: string): boolean {
  return date >= span.from && date <= span.to
}

export type InWeek<Done> = ReturnType<typeof isoWeekOf> & { done: Done[] }

const usualWeeks = 16

/** The week of a date, from Monday to Sunday, named by ISO 8601: `2026-W48`. */
export function isoWeekOf(date: string) {
  const monday = mondayOf(date)
  return { week: printDate(monday, "RRRR-'W'II"), monday, sunday: dayAfter(monday, 6) }
}

/** Every week that a span touches, oldest first, with what was done in it; at most 5300, a hundred years. */
export function inWeeks<Done extends { date: string }>(
  { from, to }: Span,
  all: readonly Done[],
): InWeek<Done>[] {
  const byMonday = group(all, ({ date }) => mondayOf(date))
  const weeks: InWeek<Done>[] = []
  for (let monday = mondayOf(from); monday <= to && weeks.length < 5300; monday = dayAfter(monday, 7))
    weeks.push({ ...isoWeekOf(monday), done: byMonday.get(monday) ?? [] })
  return weeks
}

export function daysOf(monday: string): string[] {
  return [0, 1, 2, 3, 4, 5, 6].map((days) => dayAfter(monday, days))
}

/** The whole weeks to show: those asked for, else sixteen up to `to` or today, or up to the newest session if those
 * are empty. A `from` in the future shows that day's week. Weeks before the first session are left out unless asked
 * for, because they would count as weeks without training.
 * @param newest the last date with data, up to `to`; null without any
 * @param oldest the date of the first session; null without any */
export function spanOf(
  asked: { from: string | null; to: string | null },
  today: string,
  newest: string | null,
  oldest: string | null = null,
): Span {
  const to = isoWeekOf(asked.to ?? today).sunday
  if (asked.from !== null) {
    const { monday, sunday } = isoWeekOf(asked.from)
    const isAhead = sunday > to
    return { from: monday, to: isAhead ? sunday : to }
  }
  const end = newest === null || newest >= weeksBefore(to) ? to : isoWeekOf(newest).sunday
  const from = weeksBefore(end)
  const isYoung = oldest !== null && oldest > from && oldest <= end
  return { from: isYoung ? isoWeekOf(oldest).monday : from, to: end }
}

function weeksBefore(date: string): string {
  return dayAfter(mondayOf(date), -7 * (usualWeeks - 1))
}

/** `9 Aug`. */
export function dayText(date: string): string {
  return printDate(date, 'd MMM')
}

/** `9 Aug 2026`. */
export function dateText(date: string): string {
  return printDate(date, 'd MMM yyyy')
}

/** `9 Aug`, with its year if the span includes a change of year. */
export function dayWithin({ from, to }: Span, date: string): string {
  return from.slice(0, 4) === to.slice(0, 4) ? dayText(date) : dateText(date)
}

/** `16 weeks, 10 Aug to 29 Nov 2026`. */
export function spanText({ from, to }: Span): string {
  const weeks = Math.ceil(daysBetween(from, to) / 7)
  return `${counted(weeks, 'week')}, ${dayWithin({ from, to }, from)} to ${dateText(to)}`
}

/** `2026-W48 23 Nov`; without the year if there is little room.
 * @param columns of the line that begins with it */
export function weekText({ week, monday }: { week: string; monday: string }, columns: number): string {
  return `${columns < narrow ? week.slice(5) : week} ${dayText(monday).padStart(6)}`
}

const narrow = 60
