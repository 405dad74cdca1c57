import { expect, test } from 'vitest'
import * as z from 'zod'
import { isCalendarDate } from '../../src/units/calendarDate.ts'
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
