import { describe, expect, test } from 'vitest'
import { carbsWhileRacing, cardSplits } from '../../src/figures/race.ts'

describe('the race card', () => {
  // Arithmetic: 39:30 is 2370 s, 237 s for each of ten kilometres.
  test('has ten splits of 3:57 for 10 km in 39:30', () => {
    const splits = cardSplits(10_000, 2370, 1000, 0)
    expect(splits).toHaveLength(10)
    for (const [index, split] of splits.entries()) {
      expect(split.seconds).toBeCloseTo(237, 9)
      expect(split.runningSeconds).toBeCloseTo(237 * (index + 1), 9)
    }
  })

  test('has a second half 1 % faster than the first with 1 %, in the same time', () => {
    const splits = cardSplits(10_000, 2370, 5000, 1)
    const [first, second] = splits.map(({ seconds }) => seconds)
    expect((second ?? 0) / (first ?? 1)).toBeCloseTo(0.99, 12)
    expect(splits.at(-1)?.runningSeconds).toBeCloseTo(2370, 9)
  })

  test('has a last split of 195 m in a marathon', () => {
    const splits = cardSplits(42_195, 4 * 3600, 1000, 0)
    expect(splits).toHaveLength(43)
    expect(splits.at(-1)).toMatchObject({
      meters: 42_195,
      seconds: expect.closeTo((195 / 42_195) * 14_400, 9),
    })
  })

  // Thomas, Erdman & Burke 2016, Med Sci Sports Exerc 48(3):543-568: 30-60 g/h in 1 to 2.5 h, up to 90 beyond; by
  // duration as Jeukendrup 2014, Sports Med 44(Suppl 1):S25-S33.
  test.each([
    [3600, null],
    [3601, { from: 30, to: 60 }],
    [2.5 * 3600, { from: 30, to: 60 }],
    [2.5 * 3600 + 1, { from: 30, to: 90 }],
  ])('has the right carbohydrate for a race of %d s', (seconds, range) => {
    expect(carbsWhileRacing(seconds)).toEqual(range)
  })
})
