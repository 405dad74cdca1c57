import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { printDiagnostics } from '../../src/prescription/lines.ts'
import type { Prescription } from '../../src/prescription/model.ts'
import { printPrescription } from '../../src/prescription/print.ts'
import { readPrescription } from '../../src/prescription/read.ts'
import { publishedSchema } from '../publishedSchema.ts'

const folder = join(import.meta.dirname, '../../sample-sessions')
const samples = readdirSync(folder).filter((name) => name.endsWith('.txt') && !name.includes('results'))
const isPrescription = publishedSchema('prescription')

function read(input: string | Uint8Array): Prescription {
  const reading = readPrescription(input)
  if ('problems' in reading) throw new Error(printDiagnostics(reading.problems, 'day.txt'))
  expect(reading.warnings).toEqual([])
  return reading.prescription
}

describe.each(samples)('the sample %s', (name) => {
  const prescription = read(readFileSync(join(folder, name)))

  it('is valid by the published schema', () => {
    expect(
      isPrescription(JSON.parse(JSON.stringify(prescription))),
      JSON.stringify(isPrescription.errors),
    ).toBe(true)
  })

  it('prints as a text that reads back the same', () => {
    const printed = printPrescription(prescription)
    expect(printPrescription(read(printed))).toBe(printed)
  })

  it('is the same day as JSON', () => {
    expect(read(JSON.stringify(prescription))).toEqual(prescription)
  })
})

describe('the published schema', () => {
  const day = JSON.parse(JSON.stringify(read('Day\nlift\n  squat 3 x 5 @ 60 kg')))

  it.each([
    ['a date that is none', { ...day, date: '2026-02-30' }],
    ['an unknown key', { ...day, mood: 'good' }],
    ['a day without parts', { ...day, parts: [] }],
    ['a mass of nothing', { ...day, bar: { value: 0, unit: 'kg' } }],
    ['a part of an unknown kind', { ...day, parts: [{ kind: 'yoga', name: null, items: [] }] }],
  ])('refuses %s, and so does the reader', (_, value) => {
    expect(isPrescription(value)).toBe(false)
    expect(readPrescription(JSON.stringify(value))).toHaveProperty('problems')
  })
})
