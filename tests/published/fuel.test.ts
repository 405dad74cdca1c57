import { describe, expect, test } from 'vitest'
import reference from '../../shared/reference.json'
import { usualPlates } from '../../src/figures/bar.ts'
import { atwaterKcal, runningKcal } from '../../src/figures/fuel.ts'

const { energy, runningCost, discs } = reference.tables

describe('fuel and discs against the publications', () => {
  // Merrill, Watt 1955, USDA Agriculture Handbook 74: the general factors.
  test('a gram of carbohydrate, of protein, of fat has the energy of the general factors', () => {
    const gram = { carbsG: null, proteinG: null, fatG: null }
    expect(atwaterKcal({ ...gram, carbsG: 1 })).toBe(energy.kcalInGram.carbohydrate)
    expect(atwaterKcal({ ...gram, proteinG: 1 })).toBe(energy.kcalInGram.protein)
    expect(atwaterKcal({ ...gram, fatG: 1 })).toBe(energy.kcalInGram.fat)
  })
  test.each([
    [{ carbsG: 60, proteinG: 25, fatG: 10 }, 430],
    [{ carbsG: null, proteinG: null, fatG: 14 }, 126],
    [{ carbsG: 0, proteinG: 30, fatG: 0 }, 120],
  ])('the energy of %o is %s kcal', (meal, kcal) => {
    expect(atwaterKcal(meal)).toBe(kcal)
  })

  // Margaria et al. 1963, J Appl Physiol 18:367-370: 1.0 kcal/kg/km, net.
  test.each([
    [70, 10_000, 700],
    [62.5, 21_097.5, 1318.59375],
  ])('%s kg over %s m is at most %s kcal', (kg, meters, kcal) => {
    expect(runningKcal(kg, meters).to).toBeCloseTo(kcal, 9)
    expect(runningKcal(kg, meters).to).toBeCloseTo(runningCost.margariaKcalPerKgKm * kg * (meters / 1000), 9)
  })
  // Minetti et al. 2002, J Appl Physiol 93:1039-1046: 3.40 J/kg/m, which is 0.813 kcal/kg/km.
  test('the cost measured by Minetti lies in the range, at its lower end', () => {
    const minetti = (runningCost.minettiJoulesPerKgMeter * 1000) / runningCost.joulesInKilocalorie
    const { from, to } = runningKcal(1, 1000)
    expect(minetti).toBeGreaterThan(from)
    expect(minetti).toBeLessThan(to)
    expect(minetti - from).toBeLessThan(0.02)
  })

  // IWF Technical and Competition Rules: the discs.
  test('the usual plates in kg are the discs of the rules', () => {
    expect(usualPlates.kg.map((plate) => plate.mass)).toEqual(discs.discsKg)
  })
})
