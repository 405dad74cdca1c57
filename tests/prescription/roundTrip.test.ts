import { expect, test } from 'vitest'
import type { Prescription } from '../../src/prescription/model.ts'
import { printPrescription } from '../../src/prescription/print.ts'
import { readHead } from '../../src/prescription/read.ts'
import { dayOf as read } from '../day.ts'
import fc, { times } from '../fastCheck.ts'
import { day } from './arbitraryDay.ts'

/** Without the source lines and texts of items. */
function withoutSource(prescription: Prescription): unknown {
  return JSON.parse(JSON.stringify(prescription), (_, value) =>
    value !== null && typeof value === 'object' && 'line' in value ? { ...value, line: 0, text: '' } : value,
  )
}

test('a printed day reads as the same day, and prints as the same text', () => {
  fc.assert(
    fc.property(day, (prescription) => {
      const printed = printPrescription(prescription)
      const again = read(printed)
      expect(withoutSource(again)).toEqual(withoutSource(prescription))
      expect(printPrescription(again)).toBe(printed)
    }),
    times(40),
  )
})

test('the line and the text of an item come from the file', () => {
  fc.assert(
    fc.property(day, (prescription) => {
      const printed = printPrescription(prescription)
      const lines = printed.split('\n')
      for (const part of read(printed).parts)
        for (const item of part.items) expect(lines[item.line - 1]?.trim()).toBe(item.text)
    }),
    times(25),
  )
})

test('the head of a day is its title and its date, as notation and as JSON', () => {
  fc.assert(
    fc.property(day, (prescription) => {
      const { title, date } = prescription
      expect(readHead(printPrescription(prescription))).toEqual({ title, date })
      expect(readHead(JSON.stringify(prescription))).toMatchObject({ title, date })
    }),
    times(40),
  )
})

test('a day as JSON is the same day', () => {
  fc.assert(
    fc.property(day, (prescription) => {
      expect(read(JSON.stringify(prescription))).toEqual(JSON.parse(JSON.stringify(prescription)))
    }),
    times(30),
  )
})
