import { linearRegression } from 'simple-statistics'
import { describe, expect, test } from 'vitest'
import reference from '../../shared/reference.json'
import { carbsWhileRacing, equalPerformanceSeconds, lapMetersOfLane } from '../../src/figures/race.ts'
import { criticalSpeed } from '../../src/figures/runForm.ts'
import { metersInPaceUnit } from '../../src/units/duration.ts'
import { metersOf } from '../../src/units/length.ts'
import { kilogramsOf } from '../../src/units/mass.ts'

const { lanes, equalPerformances, units, distances } = reference.tables

describe('running against the publications', () => {
  // World Athletics, Track and Field Facilities Manual; Technical Rule 14.
  test.each([1, 2, 3, 4, 5, 6, 7, 8])('lane %s has the length of the rule', (lane) => {
    expect(lapMetersOfLane(lane)).toBeCloseTo(lanes.lapMeters[lane - 1] as number, 2)
  })

  // The figures that result from 0.30 m in every lane are widely copied; they are not the rule's.
  test.each(['2', '3', '4', '8'] as const)('lane %s does not have the widely copied length', (lane) => {
    expect(lanes.commonMistakeMeters[lane] - lapMetersOfLane(Number(lane))).toBeGreaterThan(0.5)
  })

  // International yard and pound agreement, 1959; World Athletics for the marathon.
  test('units are what the agreement of 1959 makes them', () => {
    expect(metersOf({ value: 1, unit: 'mi' })).toBe(units.metersInMile)
    expect(metersInPaceUnit.mi).toBe(units.metersInMile)
    expect(metersOf({ value: 1, unit: 'yd' })).toBe(units.metersInYard)
    expect(kilogramsOf({ value: 1, unit: 'lb' })).toBe(units.kilogramsInPound)
    expect(kilogramsOf({ value: 225, unit: 'lb' })).toBeCloseTo(units.kilogramsIn225Pounds, 9)
    expect(20 / kilogramsOf({ value: 1, unit: 'lb' })).toBeCloseTo(units.poundsIn20Kilograms, 8)
    expect(metersOf({ value: 1, unit: 'marathon' })).toBe(distances.marathonMeters)
    expect(metersOf({ value: 1, unit: 'half marathon' })).toBe(distances.halfMarathonMeters)
  })

  // The printed table (3rd edition, table 5.1; partly from memory) differs from the equations by up to 10 s.
  test.each(equalPerformances.rows)(
    'the printed table at $equivalent over $meters m is met within 12 s',
    (row) => {
      expect(Math.abs(equalPerformanceSeconds(row.meters, row.equivalent) - row.seconds)).toBeLessThanOrEqual(
        12,
      )
    },
  )

  // The printed example of `critical_speed` (linear model) in the manual of the R package cyclingtools 0.0.0.9000 by
  // Mattioni Maturana, who wrote of the models in J Sci Med Sport 21(7):742-747 (2018): CS 4.52 m/s, standard error 0.00;
  // D' 142 m, standard error 1.
  test('the critical speed of three trials is that of a published worked example', () => {
    const found = criticalSpeed([
      { meters: 956, seconds: 180 },
      { meters: 1500, seconds: 300 },
      { meters: 3399, seconds: 720 },
    ])
    expect(found?.metersPerSecond).toBeCloseTo(4.52, 2)
    expect(found?.speedError).toBeCloseTo(0, 2)
    expect(found?.meters).toBeCloseTo(142, 0)
    expect(found?.metersError).toBeCloseTo(1, 2)
  })
  test('the critical speed has the line of simple-statistics', () => {
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

  // Thomas, Erdman & Burke 2016, Med Sci Sports Exerc 48(3):543-568: 30-60 g/h in 1 to 2.5 h, up to 90 beyond; by
  // duration as Jeukendrup 2014, Sports Med 44(Suppl 1):S25-S33.
  test.each([
    [3600, null],
    [3601, { from: 30, to: 60 }],
    [2.5 * 3600, { from: 30, to: 60 }],
    [2.5 * 3600 + 1, { from: 30, to: 90 }],
  ])('a race of %d s has the carbohydrate of Thomas 2016 and Jeukendrup 2014', (seconds, range) => {
    expect(carbsWhileRacing(seconds)).toEqual(range)
  })
})
