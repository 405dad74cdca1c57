import { describe, expect, it } from 'vitest'
import type { StripPart } from '../../src/recorder/view.ts'
import { dayStripOf } from '../../src/ui/screens/DayPanel.tsx'
import fc from '../fastCheck.ts'

const day: StripPart[] = [
  { label: 'prep', done: 2, of: 2, isNow: false },
  { label: 'run', done: 4, of: 13, isNow: true },
  { label: 'lift', done: 0, of: 16, isNow: false },
]
const strip = (columns: number, parts = day) =>
  dayStripOf(parts, columns)
    .map((piece) => piece.text)
    .join(' ')

describe('the strip of the day', () => {
  it('has one cell for each result if there is room', () => {
    expect(strip(80)).toBe('prep ██ run ████▒░░░░░░░░ lift ░░░░░░░░░░░░░░░░')
  })

  it('shrinks in proportion, then drops the labels', () => {
    expect(strip(30)).toBe('prep █ run ██▒░░ lift ░░░░░░')
    expect(strip(14)).toBe('█ █▒░░ ░░░░░')
  })

  it('marks the current part', () => {
    expect(dayStripOf(day, 80).map((piece) => piece.isNow)).toEqual([false, true, false])
  })

  it('is full only when everything is done', () => {
    expect(strip(12, [{ label: 'run', done: 99, of: 100, isNow: false }])).toBe('run ███████░')
    expect(strip(12, [{ label: 'run', done: 100, of: 100, isNow: true }])).toBe('run ████████')
  })

  it('is never wider than its room, as long as every part has a cell', () => {
    const part = fc
      .record({
        label: fc.constantFrom('prep', 'run', 'lift', 'cross', 'fuel'),
        of: fc.integer({ min: 1, max: 60 }),
        isNow: fc.boolean(),
        share: fc.double({ min: 0, max: 1, noNaN: true }),
      })
      .map(({ share, ...rest }) => ({ ...rest, done: Math.round(share * rest.of) }))
    fc.assert(
      fc.property(
        fc.array(part, { minLength: 1, maxLength: 8 }),
        fc.integer({ min: 24, max: 200 }),
        (parts, columns) => strip(columns, parts).length <= columns,
      ),
    )
  })
})
