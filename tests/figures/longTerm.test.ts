import { describe, expect, test } from 'vitest'
import { type LiftDay, type RunCost, runCost, runCostText } from '../../src/figures/longTerm.ts'

/** Six fresh days and six after running, a week apart; figures invented. */
function daysWith(
  after: (fresh: number) => number,
  noise: readonly number[],
  cluster = (_: number) => false,
): LiftDay[] {
  return noise.map((off, index) => {
    const isAfter = index % 2 === 1
    const fresh = 100 * Math.exp(0.002 * index + off)
    return {
      day: index * 7,
      kg: isAfter ? after(fresh) : fresh,
      cluster: cluster(index),
      hardKmBefore: isAfter ? 5 : null,
    }
  })
}
const quiet = Array.from({ length: 12 }, () => 0)
const noisy = [0.01, -0.008, 0.004, 0.012, -0.01, -0.003, 0.006, -0.012, 0.002, 0.009, -0.005, -0.004]

describe('the difference that running makes to a lift', () => {
  test('is found exactly without noise, with time taken out', () => {
    const cost = runCost(daysWith((fresh) => 0.94 * fresh, quiet))
    expect(cost?.percent).toBeCloseTo(-6, 9)
    expect(cost?.lowPercent).toBeCloseTo(-6, 6)
    expect(cost?.days).toBe(6)
    // The newest day is after running: 0.94 of the fresh line there.
    expect(cost?.freshKg).toBeCloseTo(100 * Math.exp(0.002 * 11), 9)
    expect(cost?.afterRunKg).toBeCloseTo(94 * Math.exp(0.002 * 11), 9)
  })

  test('is the fifth root for a kilometre, with 5 hard kilometres each time', () => {
    const cost = runCost(daysWith((fresh) => 0.94 * fresh, quiet))
    expect(cost?.perHardKm?.percent).toBeCloseTo(100 * (0.94 ** (1 / 5) - 1), 9)
  })

  test('has the interval that numpy 2.4.6 and scipy 1.17.1 give, with noise', () => {
    const cost = runCost(daysWith((fresh) => 0.94 * fresh, noisy))
    expect(cost?.percent).toBeCloseTo(-6.161228239500379, 9)
    expect(cost?.lowPercent).toBeCloseTo(-7.244565142537581, 9)
    expect(cost?.highPercent).toBeCloseTo(-5.065238505421138, 9)
  })

  test.each([
    [-6, -8.2, -3.8, 'front squat after running: 6 % below fresh (4 to 8), 16 days'],
    [6, 3.8, 8.2, 'front squat after running: 6 % above fresh (4 to 8), 16 days'],
    [-1, -3, 2, 'front squat after running: no difference seen (-3 to +2 %), 16 days'],
  ])('of %s %%, from %s to %s, is put in a sentence', (percent, lowPercent, highPercent, sentence) => {
    const cost = { ...(runCost(daysWith((fresh) => fresh, noisy)) as RunCost), days: 16 }
    expect(runCostText('front squat', { ...cost, percent, lowPercent, highPercent })).toBe(sentence)
  })

  test('is not seen if the interval includes 0', () => {
    const cost = runCost(daysWith((fresh) => fresh, noisy))
    expect(cost?.lowPercent).toBeLessThan(0)
    expect(cost?.highPercent).toBeGreaterThan(0)
  })

  test('has no figure with four days after running, nor with four fresh ones', () => {
    const ten = daysWith((fresh) => fresh, noisy.slice(0, 10))
    expect([runCost(ten.slice(0, 9)), runCost(ten.slice(1))]).toEqual([null, null])
    expect(runCost(ten)).not.toBeNull()
  })

  test('has no figure if clusters come always after the run, and only then', () => {
    expect(
      runCost(
        daysWith(
          (fresh) => fresh,
          noisy,
          (index) => index % 2 === 1,
        ),
      ),
    ).toBeNull()
    expect(
      runCost(
        daysWith(
          (fresh) => fresh,
          noisy,
          (index) => index % 3 === 0,
        ),
      ),
    ).not.toBeNull()
  })
})
