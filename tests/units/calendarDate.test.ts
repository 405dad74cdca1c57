import { join } from 'node:path'
import { DuckDBInstance } from '@duckdb/node-api'
import { expect, onTestFinished, test } from 'vitest'
import * as z from 'zod'
import { dayAfter, daysBetween, isCalendarDate, mondayOf, printDate } from '../../src/units/calendarDate.ts'
import { apart } from '../apart.ts'
import fc from '../fastCheck.ts'

const two = (value: number) => String(value).padStart(2, '0')
const written = fc
  .tuple(fc.nat(9999), fc.nat(14), fc.nat(33))
  .map(([year, month, day]) => `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`)

test('a text is a date exactly if zod, which has its own calendar, accepts it', () => {
  fc.assert(
    fc.property(fc.oneof(written, fc.string()), (text) => {
      expect(isCalendarDate(text)).toBe(z.iso.date().safeParse(text).success)
    }),
    { numRuns: 1000 },
  )
})

test.each(['2026-02-29', '2026-1-05', '20260105', '2026-01-05T00:00', '2026-W01-1', ''])(
  '%j is not a date',
  (text) => {
    expect(isCalendarDate(text)).toBe(false)
  },
)

// ISO 8601: weeks begin on Monday; 2026-01-01 is a Thursday, and 2028 is a leap year.
test('days are counted across months, leap days and changes of the clock', () => {
  expect(['2026-01-01', '2025-12-29', '2026-03-29'].map(mondayOf)).toEqual([
    '2025-12-29',
    '2025-12-29',
    '2026-03-23',
  ])
  expect([dayAfter('2028-02-28', 1), dayAfter('2026-03-01', -1), dayAfter('2026-10-24', 2)]).toEqual([
    '2028-02-29',
    '2026-02-28',
    '2026-10-26',
  ])
  expect([daysBetween('2026-03-28', '2026-03-30'), daysBetween('2026-11-26', '2026-10-25')]).toEqual([2, -32])
  expect(printDate('2026-01-01', "EEEE, 'week' I 'of' RRRR")).toBe('Thursday, week 1 of 2026')
})

/* Source: DuckDB, which counts days and ISO weeks without a time zone. Lord Howe changes its clock by half an hour;
 * Cairo, Beirut, Havana and Santiago by an hour at midnight, so that their day begins at one (IANA time zone database). */
test('dates are counted alike in every time zone, also where a day has no midnight', async () => {
  const from = '2026-10-01'
  const database = await (await DuckDBInstance.create()).connect()
  const found = await database.runAndReadAll(`
    SELECT d::VARCHAR, (d + 1)::VARCHAR, (d - 366)::VARCHAR, (d - DATE '${from}')::INTEGER,
      strftime(d, '%G-W%V'), (d - isodow(d)::INTEGER + 1)::VARCHAR, dayname(d)
    FROM (SELECT unnest(range(DATE '${from}', DATE '2028-03-15', INTERVAL 1 DAY))::DATE AS d)`)
  const expected = found.getRows()
  expect(expected).toHaveLength(531)
  const { call, end } = await apart<typeof import('./calendar.apart.ts')>(
    join(import.meta.dirname, 'calendar.apart.ts'),
  )
  onTestFinished(end)
  const dates = expected.map(([date]) => String(date))
  for (const zone of [
    ...['Europe/Berlin', 'America/Los_Angeles', 'Asia/Kolkata', 'Pacific/Apia', 'Pacific/Kiritimati'],
    ...['Australia/Lord_Howe', 'Africa/Cairo', 'Asia/Beirut', 'America/Havana', 'America/Santiago'],
  ])
    expect(await call('calendarIn', zone, dates, from), zone).toEqual(expected)
})
