import { describe, expect, test } from 'vitest'
import reference from '../../shared/reference.json'
import { usualPlates } from '../../src/figures/bar.ts'
import { atwaterKcal, runningKcal } from '../../src/figures/fuel.ts'

const { energy, runningCost, discs } = reference.tables

describe('fuel and discs against the publications', () => {
  // Merrill, Watt 1955, USDA Agriculture Handbook 74: the general factors.
  test('give a gram of carbohydrate, protein and fat the energy of the general factors', () => {
    const gram = { carbsG: null, proteinG: null, fatG: null }
    expect(atwaterKcal({ ...gram, carbsG: 1 })).toBe(energy.kcalInGram.carbohydrate)
    expect(atwaterKcal({ ...gram, proteinG: 1 })).toBe(energy.kcalInGram.protein)
    expect(atwaterKcal({ ...gram, fatG: 1 })).toBe(energy.kcalInGram.fat)
  })

  // Margaria et al. 1963, J Appl Physiol 18:367-370: 1.0 kcal/kg/km, net.
  test('have the cost measured by Margaria at the upper end of the range', () => {
    expect(runningKcal(1, 1000).to).toBeCloseTo(runningCost.margariaKcalPerKgKm, 9)
  })
  // Minetti et al. 2002, J Appl Physiol 93:1039-1046: 3.40 J/kg/m, which is 0.813 kcal/kg/km.
  test('have the cost measured by Minetti in the range, at its lower end', () => {
    const minetti = (runningCost.minettiJoulesPerKgMeter * 1000) / runningCost.joulesInKilocalorie
    const { from, to } = runningKcal(1, 1000)
    expect(minetti).toBeGreaterThan(from)
    expect(minetti).toBeLessThan(to)
    expect(minetti - from).toBeLessThan(0.02)
  })

  // IWF Technical and Competition Rules. The 1.25 of gyms is not among today's discs.
  test('have the discs of the rules down to 2.5 as usual plates in kg, and the 1.25 of gyms', () => {
    const heavy = discs.discsKg.filter((mass) => mass >= 2.5)
    expect(usualPlates.kg.map((plate) => plate.mass)).toEqual([...heavy, 1.25])
  })
})
