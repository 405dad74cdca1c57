import { linearRegression } from 'simple-statistics'
import { describe, expect, test } from 'vitest'
import { catalogue } from '../../src/figures/catalogue.ts'
import { type LiftDay, runCost, runCostText } from '../../src/figures/longTerm.ts'
import { criticalSpeed, differenceOfMeans, meanWithInterval, ownExponent } from '../../src/figures/runForm.ts'

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

  test('has an interval with noise, and is put in a sentence', () => {
    const cost = runCost(daysWith((fresh) => 0.94 * fresh, noisy))
    expect(cost?.percent).toBeGreaterThan(-8)
    expect(cost?.highPercent).toBeLessThan(0)
    expect(
      runCostText('front squat', {
        ...cost,
        percent: -6,
        lowPercent: -8.2,
        highPercent: -3.8,
        days: 16,
      } as never),
    ).toBe('front squat after running: 6 % below fresh (4 to 8), 16 days')
  })

  test('is not seen if the interval includes 0', () => {
    const cost = runCost(daysWith((fresh) => fresh, noisy))
    expect(cost?.lowPercent).toBeLessThan(0)
    expect(cost?.highPercent).toBeGreaterThan(0)
    expect(runCostText('bench press', { ...cost, lowPercent: -3, highPercent: 2, days: 6 } as never)).toBe(
      'bench press after running: no difference seen (-3 to +2 %), 6 days',
    )
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

describe('critical speed', () => {
  const exact = [150, 300, 600].map((seconds) => ({ meters: 4.5 * seconds + 180, seconds }))

  test('has the slope and intercept of intervals on a line', () => {
    const found = criticalSpeed(exact)
    expect(found?.metersPerSecond).toBeCloseTo(4.5, 12)
    expect(found?.meters).toBeCloseTo(180, 9)
    expect(found?.count).toBe(3)
  })

  test('uses the same line as simple-statistics', () => {
    const intervals = [
      { meters: 800, seconds: 140 },
      { meters: 1500, seconds: 285 },
      { meters: 3000, seconds: 610 },
      { meters: 2000, seconds: 390 },
    ]
    const { m, b } = linearRegression(intervals.map(({ meters, seconds }) => [seconds, meters]))
    expect(criticalSpeed(intervals)?.metersPerSecond).toBeCloseTo(m, 12)
    expect(criticalSpeed(intervals)?.meters).toBeCloseTo(b, 9)
  })

  test('has no figure for two intervals, one longer than 15 min, or one below 2 min', () => {
    expect(criticalSpeed(exact.slice(0, 2))).toBeNull()
    expect(criticalSpeed([...exact.slice(0, 2), { meters: 4400, seconds: 901 }])).toBeNull()
    expect(criticalSpeed([...exact.slice(0, 2), { meters: 600, seconds: 119 }])).toBeNull()
  })
})

test('the exponent of two races is the slope of their logarithms', () => {
  const own = ownExponent([
    { meters: 5000, seconds: 1200 },
    { meters: 10_000, seconds: 2520 },
    { meters: 10_000, seconds: 2600 },
  ])
  expect(own).toBeCloseTo(Math.log(2520 / 1200) / Math.log(2), 12)
  expect(ownExponent([{ meters: 5000, seconds: 1200 }])).toBeNull()
  expect(
    ownExponent([
      { meters: 5000, seconds: 1200 },
      { meters: 5050, seconds: 1190 },
    ]),
  ).toBeNull()
})

test('next is explained with its limits: five weeks away take a tenth off', () => {
  const { sources, example } = catalogue.next
  expect(sources).toEqual(['Mujika and Padilla 2000', "This program's own rule"])
  expect(example().at(-1)).toBe('92.5 x 0.9 = 83.25 kg, the nearest that can be made 82.5 kg')
})

test('a mean has a 95 % interval', () => {
  // By hand: mean 3, deviation 1.581139, t(4) 2.776445: 2.776445 * 1.581139 / sqrt 5 = 1.963243.
  const found = meanWithInterval([1, 2, 3, 4, 5])
  expect(found?.mean).toBe(3)
  expect(found?.low).toBeCloseTo(3 - 1.963243, 5)
  expect(found?.high).toBeCloseTo(3 + 1.963243, 5)
  expect(meanWithInterval([1])).toBeNull()
})

// This program's own rule.
test('the difference of two means is unknown with fewer than two values, or without any spread', () => {
  expect(differenceOfMeans([1], [1, 2])).toBeNull()
  expect(differenceOfMeans([3, 3], [2, 2])).toBeNull()
})

test.each([
  'run-cost',
  'leg-cost',
  'critical-speed',
  'own-exponent',
  'heart-rate-drift',
  'pain',
  'hard',
  'next',
] as const)('%s is explained with an example', (name) => {
  expect(catalogue[name].example().length).toBeGreaterThan(0)
})
