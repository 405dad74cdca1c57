import { plainOf, wrapped } from '../summary/plain.ts'
import { massIn } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import { metersInPaceUnit } from '../units/pace.ts'
import { columnLines } from './columns.ts'
import { dateText, spanText, weekText } from './dates.ts'
import type { HistoryUnits } from './historyText.ts'
import { estimateMarks } from './liftText.ts'
import { sumText } from './loadText.ts'
import type { Overview } from './overview.ts'

/** @param columns at least 40 */
export function overviewLines(overview: Overview, units: HistoryUnits, columns: number): string[] {
  const lifts = overview.lifts.flatMap((lift) => wrapped(liftText(lift, units.mass), 2, columns))
  return [
    spanText(overview),
    '',
    ...(lifts.length === 0
      ? []
      : [
          ...wrapped('lifts, the oftenest first: last estimated maximum, straight line', 0, columns),
          ...lifts,
          '',
        ]),
    ...weekLines(overview, units, columns),
    '',
    ...wrapped(
      'each by itself: pausebook progress lift NAME, pausebook progress run, pausebook progress load',
      0,
      columns,
    ),
  ]
}

function liftText({ name, last, trends }: Overview['lifts'][number], unit: MassUnit): string {
  const kg = (value: number) => massIn({ value, unit: 'kg' }, unit)
  const estimate =
    last === null
      ? 'no estimate'
      : `${last.atLeast ? 'at least ' : ''}${kg(last.kg).toFixed(1)} ${unit} on ${dateText(last.date)} (${estimateMarks[last.kind].words})`
  const slopes = trends.map(({ kind, trend }) => {
    const slope = kg(trend.perWeek)
    return `${estimateMarks[kind].words} ${slope < 0 ? '-' : '+'}${Math.abs(slope).toFixed(2)} +/- ${kg(trend.perWeekError).toFixed(2)} ${unit} a week`
  })
  return [`${plainOf(name)}: ${estimate}`, ...slopes].join('; ')
}

function weekLines({ weeks }: Overview, units: HistoryUnits, columns: number): string[] {
  const isWide = columns >= 72
  const head = [
    'week',
    `run ${units.distance}`,
    `lift ${units.mass}`,
    ...(isWide ? ['run', 'lift', 'effort-minutes'] : ['effort']),
  ]
  const rows = weeks.map((week) => [
    weekText(week, columns),
    (week.meters / metersInPaceUnit[units.distance]).toFixed(1),
    massIn({ value: week.tonnageKg, unit: 'kg' }, units.mass).toFixed(0),
    ...(isWide ? [sumText(week.run, week), sumText(week.lift, week)] : []),
    sumText(week.effortMinutes, week),
  ])
  const note = isWide
    ? 'run and lift before the last column: their effort-minutes; "?" or "+" (at least): a session has no effort'
    : 'effort: effort-minutes; "?" or "+" (at least): a session has no effort'
  return [...columnLines(head, rows), ...wrapped(note, 0, columns)]
}
