import { format, getISOWeek, getISOWeekYear, parseISO } from 'date-fns'
import { sourceLine } from '../figures/sources.ts'
import { type CalendarDay, hasHeavyLegs, type Running, type Week } from '../progress/week.ts'
import type { WeekDay } from '../progress/weekDay.ts'
import { formatMeters } from '../units/length.ts'
import { screenLines } from '../widgets/wrapped.ts'
import { printableOf } from './io.ts'

const rules =
  "Hard running is told by its word, an effort of 7 or more, or a pace within 15 % of the goal's (any pace without a goal); heavy legs by 80 % of the known maximum or more, without one by 6 repetitions or fewer or an effort of 8 or more. Invented: rules of this program."
const indent = ' '.repeat(15)

/** A week as text.
 * @param width of the terminal, in characters */
export function weekText(week: Week, unit: 'km' | 'mi', width: number): string {
  const [first, last] = [week.days[0], week.days.at(-1)].map((day) => parseISO(day?.date ?? ''))
  const head =
    first && last
      ? `Week ${getISOWeek(first)} of ${getISOWeekYear(first)}: ${format(first, 'EEE d MMM')} to ${format(last, 'EEE d MMM yyyy')}`
      : ''
  const rows = [
    ...week.days.flatMap((day) => dayRows(day, unit)),
    ...week.undated.flatMap((day) => entryRows('no date', 'ready', day, unit)),
    ...week.unreadable.map(
      (file) => `${'no date'.padEnd(8)}${printableOf(file)} has problems: "pausebook check" shows them`,
    ),
  ]
  const facts = factsOf(week, unit).flatMap((fact) => screenLines(fact, Math.max(40, width)))
  return `${[head, '', ...rows, '', ...facts, '', ...screenLines(rules, Math.max(40, width))].join('\n')}\n`
}

function dayRows(day: CalendarDay, unit: 'km' | 'mi'): string[] {
  const name = dayName(day.date)
  const entries = [
    ...day.done.map((entry) => ({ state: entry.finished ? 'done' : 'open', entry })),
    ...day.ready.map((entry) => ({ state: 'ready', entry })),
  ]
  if (entries.length === 0) return [`${name.padEnd(8)}-`]
  return [
    ...entries.flatMap(({ state, entry }, index) => entryRows(index === 0 ? name : '', state, entry, unit)),
    ...day.gaps.map((gap) => `${indent}${gap.order}: ${Math.round(gap.minutes)} min between`),
  ]
}

function entryRows(name: string, state: string, entry: WeekDay, unit: 'km' | 'mi'): string[] {
  const about = state === 'ready' ? 'about ' : ''
  const bits = [
    entry.meters > 0 ? formatMeters(entry.meters, unit) : '',
    hardText(entry, unit),
    entry.sets > 0 ? `${entry.sets} ${entry.sets === 1 ? 'set' : 'sets'}` : '',
    entry.heavyLegSets > 0 ? `${entry.heavyLegSets} of them heavy for the legs` : '',
    entry.minutes === null ? '' : `${about}${Math.round(entry.minutes)} min`,
  ].filter((bit) => bit !== '')
  const head = `${name.padEnd(8)}${state.padEnd(7)}${entry.title}`
  return bits.length === 0 ? [head] : [head, `${indent}${bits.join(', ')}`]
}

function hardText({ hardMeters, hardSeconds }: Running, unit: 'km' | 'mi'): string {
  const bits = [
    hardMeters > 0 ? formatMeters(hardMeters, unit) : '',
    hardSeconds > 0 ? `${Math.round(hardSeconds / 60)} min` : '',
  ].filter((bit) => bit !== '')
  return bits.length === 0 ? '' : `${bits.join(' and ')} of it hard`
}

function factsOf(week: Week, unit: 'km' | 'mi'): string[] {
  const legs = week.days.filter(hasHeavyLegs).map(({ date }) => dayName(date))
  const facts = [
    `Running: ${runningText(week.done, unit)} done, ${runningText(week.ready, unit)} ready.`,
    `Heavy legs: ${legs.length === 0 ? 'none' : legs.join(', ')}.`,
    ...week.hardRunAfterHeavyLegs.map(
      (date) =>
        `${dayName(date)}: hard running on the day after heavy legs. ${sourceLine('Doma and Deakin 2013')}`,
    ),
  ]
  if (week.due === null) return facts
  const { kind, last } = week.due
  const after =
    last === null ? 'none of the rotation was done yet' : `${last.kind} was done on ${dateName(last.date)}`
  return [...facts, `Due next: ${kind} (${after}).`]
}

function runningText(running: Running, unit: 'km' | 'mi'): string {
  const hard = hardText(running, unit)
  return `${formatMeters(running.meters, unit)}${hard === '' ? '' : ` (${hard})`}`
}

function dayName(date: string): string {
  return format(parseISO(date), 'EEE d')
}

function dateName(date: string): string {
  return format(parseISO(date), 'EEE d MMM')
}
