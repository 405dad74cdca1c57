import { ascending, range, sum, ticks, transpose } from 'd3-array'
import { interval95, straightLine } from '../figures/statistics.ts'
import { wrapped } from '../summary/plain.ts'
import { dayAfter, daysBetween, printDate } from '../units/calendarDate.ts'

/* A chart of points over time in plain characters. Existing packages draw lines through evenly spaced
 * values with one mark for all; here points of different kinds have different marks and ranges and are not
 * joined, and the chart must be readable in ASCII, without colour. */

interface ChartPoint {
  date: string
  value: number
  /** One character. */
  mark: string
  /** The ends of its range; null for an open end. Absent without a range. */
  low?: number | null
  high?: number | null
}

export interface Chart {
  /** The unit of the values: `kg`. */
  unit: string
  from: string
  to: string
  points: readonly ChartPoint[]
  /** Straight lines, drawn as dots, under points and ranges. */
  lines?: readonly { from: { date: string; value: number }; to: { date: string; value: number } }[]
  /** Prints a value beside the axis. */
  print: (value: number) => string
  /** Draws smaller values higher, as for paces. */
  isReversed?: boolean
  /** What the marks mean, in their order. */
  legend?: Readonly<Record<string, string>>
}

/** @param columns of the whole chart, at least 30; @param rows of the field, at least 5
 * @returns lines without spaces at their ends: the unit, the field with its axis, the dates */
export function chartLines(chart: Chart, columns: number, rows: number): string[] {
  const { from, to, points } = chart
  const scale = scaleOf(chart, rows)
  const labels = new Map(scale.ticks.map((value) => [scale.rowOf(value), chart.print(value)]))
  const gutter = Math.max(chart.unit.length, ...[...labels.values()].map((label) => label.length))
  const width = columns - gutter - 4
  const time = timeAxis(from, to, width)
  const field = range(rows).map(() => Array<string>(width).fill(' '))
  const put = (row: number, column: number, mark: string) => {
    const line = field[row]
    if (line?.[column]) line[column] = mark
  }
  for (const { from, to } of chart.lines ?? []) {
    const [first, last] = [time.columnOf(from.date), time.columnOf(to.date)]
    for (const column of range(first, last + 1)) {
      const share = last === first ? 0 : (column - first) / (last - first)
      put(scale.rowOf(from.value + share * (to.value - from.value)), column, '.')
    }
  }
  for (const point of points) {
    const column = time.columnOf(point.date)
    for (const row of scale.rowsOf(point)) put(row, column, '|')
  }
  for (const { date, value, mark } of points) put(scale.rowOf(value), time.columnOf(date), mark)
  const lines = field.map((cells, row) => {
    const label = labels.get(row)
    return `${(label ?? '').padStart(gutter)} ${label === undefined ? '|' : '+'} ${cells.join('')}`.trimEnd()
  })
  return [
    `${chart.unit.padStart(gutter)} ^`,
    ...lines,
    `${' '.repeat(gutter)} +${time.line}`,
    `${' '.repeat(gutter + 3)}${time.dates}`.trimEnd(),
  ]
}

function scaleOf({ points, lines = [], isReversed }: Chart, rows: number) {
  const values = [
    ...points.flatMap(({ value, low, high }) => [value, low ?? value, high ?? value]),
    ...lines.flatMap(({ from, to }) => [from.value, to.value]),
  ]
  const [least, most] = [Math.min(...values), Math.max(...values)]
  const margin = Math.max((most - least) * 0.05, Math.abs(most) * 0.005, 1e-6)
  const [bottom, top] = isReversed ? [most + margin, least - margin] : [least - margin, most + margin]
  const rowOf = (value: number) => Math.round(((top - value) / (top - bottom)) * (rows - 1))
  const inside = ticks(Math.min(bottom, top), Math.max(bottom, top), Math.max(2, Math.floor(rows / 3)))
  /** From one end of a range to the other; draws an open upper end one row above the value. */
  const rowsOf = ({ value, low, high }: ChartPoint): number[] => {
    if (high === undefined) return []
    const ends = [rowOf(low ?? value), high == null ? rowOf(value) - 1 : rowOf(high)]
    const [first, last] = [Math.max(0, Math.min(...ends)), Math.max(...ends)]
    return range(first, last + 1)
  }
  return { rowOf, rowsOf, ticks: inside }
}

/** Above this many days the dates are months. */
const daysInMonths = 400

/** The axis of time, with a date below each tick, where it fits.
 * @param from preferably a Monday: each tick is a whole number of weeks after it
 * @param width cells of the field
 * @returns the column of a date, outside the field for a date outside; the axis, which begins one cell to the left of
 * the field; the dates */
function timeAxis(from: string, to: string, width: number) {
  const days = Math.max(1, daysBetween(from, to))
  const columnAt = (day: number) => Math.round((day / days) * (width - 1))
  // A date needs this many cells, with a space beside it.
  const [pattern, cells] = days > daysInMonths ? ['MMM yyyy', 9] : ['d MMM', 8]
  const weeks = Math.ceil((cells * days) / (7 * (width - 1)))
  const line = Array(width + 1).fill('-')
  let dates = ''
  for (const day of range(0, days + 1, weeks * 7)) {
    const column = columnAt(day)
    line[column + 1] = '+'
    const text = printDate(dayAfter(from, day), pattern)
    if (column + text.length <= width) dates = dates.padEnd(column) + text
  }
  const columnOf = (date: string) => columnAt(daysBetween(from, date))
  return { columnOf, line: `${line.join('')}>`, dates }
}

/** Blocks of lines as a page, with an empty line between them; leaves out empty lines and blocks. Wraps longer lines;
 * two spaces at the start of one indent all of it. */
export function pageOf(blocks: readonly (readonly (string | null | false)[])[], columns: number): string[] {
  const fitting = (line: string) => {
    const indent = line.startsWith('  ') ? 2 : 0
    return line.length <= columns ? [line] : wrapped(line.slice(indent), columns, indent)
  }
  return blocks
    .map((lines) => lines.flatMap((line) => (line ? fitting(line) : [])))
    .filter((lines) => lines.length > 0)
    .flatMap((lines, index) => (index === 0 ? lines : ['', ...lines]))
}

export interface BarRow {
  /** Printed before the bar; the first names the row. */
  cells: string[]
  /** Drawn one after the other. */
  segments: { value: number; mark: string }[]
  /** A value that `|` marks on the scale; null without one. */
  line?: number | null
}

/** A chart as it is drawn into a picture. */
export type Picture = { title: string } & ({ chart: Chart } | { bars: BarRow[]; unit: string })

/** A shorter bar would show no differences. */
const fewestCells = 5

/** Bars from 0 in plain characters, all on one scale. A value above 0 takes at least one cell.
 * @param columns of a whole row; without room for bars they are omitted
 * @returns as many lines as rows, without spaces at their ends */
export function barLines(rows: readonly BarRow[], columns: number): string[] {
  const texts = alignedCells(rows.map((row) => row.cells))
  const ends = rows.flatMap(({ segments, line }) => [sum(segments, ({ value }) => value), line ?? 0])
  const most = Math.max(0, ...ends)
  const room = columns - (texts[0]?.length ?? 0) - 2
  const width = room < fewestCells ? 0 : room
  return rows.map((row, at) => {
    const bar = row.segments.map(({ value, mark }) => mark.repeat(cells(value, most, width))).join('')
    const drawn = withLine(bar, cells(row.line ?? 0, most, width))
    return `${texts[at]}  ${drawn}`.trimEnd()
  })
}

/** @param cell from 1; 0 for none */
function withLine(bar: string, cell: number): string {
  return cell === 0 ? bar : `${bar.slice(0, cell - 1).padEnd(cell - 1)}|${bar.slice(cell)}`
}

function cells(value: number, most: number, width: number): number {
  if (value <= 0 || width === 0) return 0
  return Math.max(1, Math.round((value / most) * width))
}

/** A column of a table: its heading, its cell of a row, and whether there is room for it. */
export type Column<Row> = readonly [head: string, cell: (row: Row) => string, isShown?: boolean]

/** A table as lines: the first column aligned left, the others right. */
export function tableLines<Row>(columns: readonly Column<Row>[], rows: readonly Row[]): string[] {
  const shown = columns.filter(([, , isShown = true]) => isShown)
  const heads = shown.map(([head]) => head)
  return inColumns([heads, ...rows.map((row) => shown.map(([, cell]) => cell(row)))], 0)
}

/** Rows of cells as lines, two spaces between the columns.
 * @param left the column that is aligned left; the others are aligned right */
export function inColumns(rows: string[][], left: number): string[] {
  return alignedCells(rows, left).map((line) => line.trimEnd())
}

function alignedCells(rows: string[][], left = 0): string[] {
  const columns = transpose(rows).map((cells, column) => {
    const width = Math.max(...cells.map(({ length }) => length))
    return cells.map((text) => (column === left ? text.padEnd(width) : text.padStart(width)))
  })
  return transpose(columns).map((cells) => cells.join('  '))
}

/** A trend needs this many points, and this much time between the first and the last. This program's own rule. */
const minPoints = 4
const minDays = 21

export type Trend = NonNullable<ReturnType<typeof trendOf>>

/** The straight line through values over time, in units a week; null with fewer than four points or less than 21 days.
 * It describes the past, not the future.
 * Source: Least squares; t distribution. */
export function trendOf(points: readonly { date: string; value: number }[]) {
  if (points.length < minPoints) return null
  const ordered = points.toSorted((a, b) => ascending(a.date, b.date))
  const [first, last] = [ordered[0]!, ordered.at(-1)!]
  if (daysBetween(first.date, last.date) < minDays) return null
  const weeks = (date: string) => daysBetween(first.date, date) / 7
  // With this many points over this many days, the line and its standard errors all exist.
  const line = straightLine(ordered.map(({ date, value }) => ({ x: weeks(date), y: value })))!
  // With the standard error of the line there.
  const at = (date: string) => {
    const { y, error } = line.at(weeks(date))
    return { date, value: y, error: error! }
  }
  const { low, high } = interval95({ value: line.slope, error: line.slopeError! }, ordered.length - 2)
  return {
    count: ordered.length,
    perWeek: line.slope,
    perWeekError: line.slopeError!,
    // The 95 % interval. Where it excludes 0, the change can be told from noise.
    perWeekLow: low,
    perWeekHigh: high,
    isClear: low > 0 || high < 0,
    // Residual standard deviation: how far the points are from the line.
    scatter: line.residualDeviation!,
    first: at(first.date),
    last: at(last.date),
  }
}

/** `+0.85 (+0.41 to +1.29) kg a week`
 * @param print a change with its sign */
export function slopeText(
  { perWeek, perWeekLow, perWeekHigh }: Trend,
  print: (change: number) => string,
  unit: string,
): string {
  return `${print(perWeek)} (${print(perWeekLow)} to ${print(perWeekHigh)}) ${unit} a week`
}
