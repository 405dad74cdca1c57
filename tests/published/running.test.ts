import { describe, expect, test } from 'vitest'
import reference from '../../shared/reference.json'
import { equalPerformanceSeconds, lapMetersOfLane } from '../../src/figures/race.ts'
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
})
