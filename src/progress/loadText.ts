import { plainOf, wrapped } from '../summary/plain.ts'
import { barLines } from './bars.ts'
import { columnLines } from './columns.ts'
import { dayWithin, spanText, weekText } from './dates.ts'
import type { LoadDay, LoadProgress } from './loadProgress.ts'

const weekdays = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun']

/** Effort-minutes over the weeks. @param columns at least 40
 * @param today local; days ahead of it without a session are left blank */
export function loadLines(load: LoadProgress, columns: number, today: string): string[] {
  const blocks = [
    wrapped(`effort-minutes: ${spanText(load)}`, 0, columns),
    barBlock(load, columns),
    dayBlock(load, columns, today),
    unknownBlock(load, columns),
  ]
  return blocks
    .filter((block) => block.length > 0)
    .flatMap((block, index) => (index === 0 ? block : ['', ...block]))
}

function barBlock({ weeks }: LoadProgress, columns: number): string[] {
  const rows = weeks.map((week) => ({
    label: weekText(week, columns),
    text: `${sumText(week.run, week).padStart(5)} ${sumText(week.lift, week).padStart(5)}`,
    stretches: [
      { value: week.run, mark: '=' },
      { value: week.lift, mark: '#' },
    ],
  }))
  return [...wrapped('by week from Monday: run (=), lift (#)', 0, columns), ...barLines(rows, columns)]
}

/** Without room for the seven days, the week's figures alone. */
function dayBlock({ weeks }: LoadProgress, columns: number, today: string): string[] {
  const withDays = columns >= 72
  const head = ['week', ...(withDays ? weekdays : []), 'sum', 'monotony', 'x']
  const rows = weeks.map((week) => [
    withDays ? week.week : week.week.slice(5),
    ...(withDays ? week.days.map((day) => dayCell(day, today)) : []),
    sumText(week.effortMinutes, week),
    week.monotony === null ? '-' : week.monotony.toFixed(2),
    week.effortMinutesTimesMonotony === null ? '-' : week.effortMinutesTimesMonotony.toFixed(0),
  ])
  const note =
    'x: effort-minutes times monotony (mean of the days / their sample standard deviation); "?" or "+" (at least): a session without an effort; "-": not known or not over yet. No thresholds: the literature carries none.'
  return [...columnLines(head, rows), ...wrapped(note, 0, columns)]
}

function dayCell(day: LoadDay, today: string): string {
  if (day.date > today && day.sessions === 0) return ''
  if (day.known) return day.effortMinutes.toFixed(0)
  return day.effortMinutes === 0 ? '?' : `${day.effortMinutes.toFixed(0)}?`
}

/** A sum of effort-minutes; where a session has none, at least that, and what is not known is not 0. */
export function sumText(effortMinutes: number, { atLeast }: { atLeast: boolean }): string {
  if (!atLeast) return effortMinutes.toFixed(0)
  return effortMinutes === 0 ? '?' : `${effortMinutes.toFixed(0)}+`
}

function unknownBlock({ unknown, ...span }: LoadProgress, columns: number): string[] {
  if (unknown.length === 0) return []
  const sessions = unknown.map(({ date, title }) => `${dayWithin(span, date)} ${plainOf(title)}`)
  const head = 'sessions without an effort, which leave their days unknown:'
  return [...wrapped(head, 0, columns), ...sessions.flatMap((text) => wrapped(text, 2, columns))]
}
