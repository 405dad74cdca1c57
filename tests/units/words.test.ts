import { describe, expect, test } from 'vitest'
import { strictlyRead } from '../../src/prescription/readLine.ts'
import { inNotation } from '../../src/prescription/spellings.ts'
import { readEntry } from '../../src/session/entry/entry.ts'
import { readDuration } from '../../src/units/duration.ts'
import { readLength } from '../../src/units/length.ts'
import { readMass } from '../../src/units/mass.ts'
import { lengthUnitOf, massUnitOf, secondsIn, unitWords } from '../../src/units/words.ts'
import { printedLine } from '../prescription/liftLine.ts'
import { carry, hold, straight } from '../session/entryPrompts.ts'

const units = Object.entries(unitWords)
const all = units.flatMap(([unit, { notation, others }]) =>
  [...notation, ...others].map((word) => ({ unit, word, isNotation: notation.includes(word) })),
)
const masses = all.filter(({ word }) => massUnitOf(word) !== null)
const lengths = all.filter(({ word }) => lengthUnitOf(word) !== null)
const times = all.filter(({ word }) => secondsIn(word) !== null)

test('every unit has its own words, and each is a mass, a length or a time', () => {
  expect(new Set(all.map(({ word }) => word)).size).toBe(all.length)
  expect(masses.length + lengths.length + times.length).toBe(all.length)
  for (const [unit, { notation }] of units) expect(notation[0]).toBe(unit)
})

describe('every word of a unit', () => {
  test('is read like the unit itself in a day', () => {
    for (const { unit, word } of masses)
      expect(printedLine(`squat 3 x 5 @ 7.5 ${word}`)).toBe(`squat 3 x 5 @ 7.5 ${unit}`)
    for (const { unit, word } of lengths)
      expect(printedLine(`carry 3 x 2 ${word}`)).toBe(printedLine(`carry 3 x 2 ${unit}`))
    for (const { unit, word } of times)
      expect(printedLine(`plank 3 x 2 ${word}`)).toBe(printedLine(`plank 3 x 2 ${unit}`))
  })

  test('is read after the time of a pace', () => {
    const isRead = (line: string) => strictlyRead(inNotation(line, 'runItem'), 'runItem') !== null
    for (const { word } of lengths.filter(
      ({ unit, word }) => /^(?:km|mi)$/.test(unit) && !/^(?:k|miles?)$/.test(word),
    ))
      expect([word, isRead(`5 km @ 4:00/${word}`)]).toEqual([word, true])
  })

  test('belongs to the grammar if the table says so', () => {
    const reads = (line: string) => strictlyRead(line, 'liftItem') !== null
    for (const { word, isNotation } of masses)
      expect([word, reads(`squat 3 x 5 @ 50 ${word}`)]).toEqual([word, isNotation || word === 'pounds'])
    for (const { word, isNotation } of [...lengths, ...times])
      expect([word, reads(`carry 3 x 2 ${word}`)]).toEqual([word, isNotation])
  })

  test('is read like the unit itself in an entry', () => {
    for (const { unit, word } of masses)
      expect(readEntry(`6 x 100 ${word}`, straight)).toEqual(readEntry(`6 x 100 ${unit}`, straight))
    for (const { unit, word } of times)
      expect(readEntry(`2 ${word}`, hold)).toEqual(readEntry(`2 ${unit}`, hold))
    for (const { word } of lengths.filter(({ unit }) => unit === 'm'))
      expect(readEntry(`40 ${word}`, carry)).toEqual(readEntry('40', carry))
  })

  test('is read by itself, in any case', () => {
    for (const { unit, word } of masses)
      expect(readMass(`5 ${word.toUpperCase()}`, 'kg')).toEqual({ value: 5, unit })
    for (const { unit, word } of lengths)
      expect(readLength(`5 ${word.toUpperCase()}`)).toEqual({ value: 5, unit })
    for (const { unit, word } of times)
      expect(readDuration(`5 ${word.toUpperCase()}`)).toBe(readDuration(`5 ${unit}`))
  })
})

test('hr is a heart rate and no hour', () => expect(secondsIn('hr')).toBeNull())
