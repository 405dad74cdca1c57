import { describe, expect, it } from 'vitest'
import { printPrescription } from '../../src/prescription/print.ts'
import { readPrescription } from '../../src/prescription/read.ts'
import { dayOf } from '../day.ts'

/* The foods of a meal, which are words: what they contain is in the athlete's list. */

const day = (line: string) => `Day\n\nfuel\n  ${line}\n`

describe('the foods of a meal', () => {
  it.each([
    ['before 1:30: 2 banana, 60 g oats', 'before 90 min: "2 banana", "60 g oats"'],
    ['after: carbs 30 g, 250 ml milk, "black tea"', 'after: carbs 30 g, "250 ml milk", "black tea"'],
    ['before: carbs 30 g "and coffee"', 'before: carbs 30 g, "and coffee"'],
    ['before: 2 eggs & toast', 'before: "2 eggs & toast"'],
  ])('%s is kept in words, and printed as them', (line, form) => {
    for (const said of [line, form]) expect(printPrescription(dayOf(day(said)))).toContain(`  ${form}\n`)
  })

  it('is not warned of as a note, but a nutrient without its amount is', () => {
    const warningsOf = (line: string) => readPrescription(day(line))
    expect(warningsOf('after: carbs 30 g, banana')).toMatchObject({ warnings: [] })
    expect(warningsOf('after: carbs 30 g, protein')).toMatchObject({
      warnings: [{ message: 'note: protein' }],
    })
  })

  it.each([
    ['after - 30g protein shake', 'after: protein 30 g, "shake"'],
    ['after: protein shake', 'after: "protein shake"'],
    ['before 2 h: carbs 75 protein 20', 'before 2 h: carbs 75 g, protein 20 g'],
    ['before 2 h - porridge', 'before 2 h: "porridge"'],
  ])('%s is answered with %s', (line, form) => {
    expect(readPrescription(day(line))).toMatchObject({ problems: [{ suggestion: form }] })
  })

  it('300 kcal are not suggested as 300 g', () => {
    const words = 'after: "carbs 300 kcal"'
    expect(readPrescription(day('after: carbs 300 kcal'))).toMatchObject({
      problems: [{ suggestion: words }],
    })
  })

  it.each([
    ['before 2 h: carbs 2 g/kg, protein 20 g', 'before 2 h: protein 20 g, "carbs 2 g/kg"'],
    ['between: carbs 60 g/h', 'between: "carbs 60 g/h"'],
    ['after: whey 30 g', 'after: "whey 30 g"'],
  ])('an amount that has no place in the notation is offered in words: %s', (line, words) => {
    expect(readPrescription(day(line))).toMatchObject({ problems: [{ suggestion: words }] })
    expect(readPrescription(day(words))).toHaveProperty('prescription')
  })

  it.each([
    'before: coffee',
    'before: 80 g crabs',
    'before: 80 g of carbs',
    'before: protien',
    'before: crabs 80 g',
  ])('%s is asked about', (line) => {
    expect(readPrescription(day(line))).toHaveProperty('problems')
  })
})
