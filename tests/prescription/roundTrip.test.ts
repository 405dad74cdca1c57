import { expect, test } from 'vitest'
import type { Prescription } from '../../src/prescription/model.ts'
import { printPrescription } from '../../src/prescription/print.ts'
import { readHead, readPrescription } from '../../src/prescription/read.ts'
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

test.each([
  ['lift', '100 rounds: 10 push-up, 5 pull-up', '100 sets of push-up are more than anyone does'],
  ['lift', 'AMRAP 12 5x5', 'the stations of a round have the number first'],
  [
    'lift',
    'EMOM 12: 3 - power clean',
    'this would be printed as - power clean 12 x 3, every 1:00; that would be',
  ],
  ['prep', 'leg swings 2 x - 10', 'this would be printed as leg swings 2 x 10; that would be another item'],
])('an item is refused that would not be read again as it is printed: %s, %s', (part, line, message) => {
  const reading = readPrescription(`Day\n\n${part}\n  ${line}\n`)
  expect('problems' in reading && reading.problems[0]?.message).toContain(message)
})
