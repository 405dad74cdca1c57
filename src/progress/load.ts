import { sum } from 'd3-array'
import { dayLoad, weekLoad } from '../figures/load.ts'
import { weekdays } from '../plan/model.ts'
import type { PartKind } from '../prescription/model.ts'
import { type BarRow, barLines, type Column, type Picture, pageOf, tableLines } from './chart.ts'
import {
  type DoneSession,
  daysOf,
  type InWeek,
  inWeeks,
  runningOf,
  type Span,
  spanText,
  weekText,
} from './weeks.ts'

export type LoadProgress = ReturnType<typeof loadProgress>

/** Session load by day and by week, with run and lift separately. A day without a session is 0.
 * @param sessions only those of the span are read
 * @param today local; an unfinished week has no monotony
 * Source: Foster 1998; Foster 2001. */
export function loadProgress(sessions: readonly DoneSession[], span: Span, today: string) {
  return { ...span, weeks: inWeeks(span, sessions).map((week) => weekDone(week, today)) }
}

export type WeekDone = ReturnType<typeof weekDone>

/** What was done in a week from Monday, and its session load. @param today local */
export function weekDone({ week, monday, sunday, done }: InWeek<DoneSession>, today: string) {
  const days = daysOf(monday).map((date) => dayOfLoad(date, done))
  // A week is over on its Sunday once that day has a session. This program's own rule.
  const isOver = sunday < today || (sunday === today && done.some(({ date }) => date === sunday))
  const { effortMinutes, atLeast, monotony, strain } = weekLoad(days)
  return {
    week,
    monday,
    sessions: done.length,
    // Recoveries by distance included.
    ...runningOf(done.map(({ day }) => day)),
    longestMeters: Math.max(0, ...done.map(({ day }) => day.longestMeters)),
    heavyLegSets: sum(done, ({ day }) => day.heavyLegSets),
    tonnageKg: sum(done, ({ brief }) => brief.tonnageKg),
    days,
    effortMinutes,
    // A day is unknown, so the sum is a minimum.
    atLeast,
    run: sum(days, ({ run }) => run),
    lift: sum(days, ({ lift }) => lift),
    other: sum(days, ({ other }) => other),
    // While days are still to come, the figures cover the days so far.
    isOver,
    monotony: isOver ? monotony : null,
    effortMinutesTimesMonotony: isOver ? strain : null,
  }
}

/** `run`, `lift` and `other`: the known load of the parts. */
function dayOfLoad(date: string, done: readonly DoneSession[]) {
  const briefs = done.filter((session) => session.date === date).map(({ brief }) => brief)
  const parts = briefs.flatMap((brief) => brief.parts)
  const loadOf = (isOfKind: (kind: PartKind) => boolean) =>
    sum(parts, ({ kind, effortMinutes }) => (isOfKind(kind) ? effortMinutes : 0))
  const loads = briefs.map(({ effortMinutes, effortMinutesAtLeast: atLeast }) => ({ effortMinutes, atLeast }))
  return {
    date,
    sessions: briefs.length,
    ...dayLoad(loads),
    run: loadOf((kind) => kind === 'run'),
    lift: loadOf((kind) => kind === 'lift'),
    other: loadOf((kind) => kind !== 'run' && kind !== 'lift'),
  }
}

/** @param columns at least 40; @param today local: days to come without a session are left blank */
export function loadLines(load: LoadProgress, columns: number, today: string, isFull: boolean): string[] {
  const blocks = [
    [`session load: ${spanText(load)}`],
    ['by week from Monday: run (=), lift (#)', ...barLines(loadBars(load, columns), columns)],
    dayBlock(load, columns, today, isFull),
  ]
  return pageOf(blocks, columns)
}

function loadBars({ weeks }: LoadProgress, columns: number): BarRow[] {
  return weeks.map((week) => ({
    cells: [weekText(week, columns), sumText(week.run, week), sumText(week.lift, week)],
    segments: [
      { value: week.run, mark: '=' },
      { value: week.lift, mark: '#' },
    ],
  }))
}

export function loadPicture(load: LoadProgress): Picture {
  const title = `Session load by week, run below and lift above: ${spanText(load)}`
  return { title, bars: loadBars(load, Number.POSITIVE_INFINITY), unit: 'session load' }
}

function dayBlock({ weeks }: LoadProgress, columns: number, today: string, isFull: boolean): string[] {
  const withDays = columns >= 72
  const table: Column<WeekDone>[] = [
    ['week', ({ week }) => (withDays ? week : week.slice(5))],
    ...weekdays.map(
      (name, at): Column<WeekDone> => [name, ({ days }) => dayCell(days[at]!, today), withDays],
    ),
    ['sum', (week) => sumText(week.effortMinutes, week)],
    ['monotony', ({ monotony }) => monotony?.toFixed(2) ?? '-'],
    ['load x monotony', (week) => week.effortMinutesTimesMonotony?.toFixed(0) ?? '-', isFull],
  ]
  const note =
    'monotony: mean of the days / their sample standard deviation; "?" or "+" (at least): a session without an effort or its minutes; "-": not known or not over yet. No thresholds: there is no evidence for any.'
  return [...tableLines(table, weeks), note]
}

function dayCell(day: WeekDone['days'][number], today: string): string {
  if (day.date > today && day.sessions === 0) return ''
  return sumText(day.effortMinutes, { atLeast: !day.known })
}

/** Prints a session load: a `+` marks a minimum, and `?` stands for an unknown one. */
export function sumText(effortMinutes: number, { atLeast }: { atLeast: boolean }): string {
  if (!atLeast) return effortMinutes.toFixed(0)
  return effortMinutes === 0 ? '?' : `${effortMinutes.toFixed(0)}+`
}
