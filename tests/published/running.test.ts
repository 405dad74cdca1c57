import { describe, expect, test } from 'vitest'
import reference from '../../shared/reference.json'
import { lapMetersOfLane } from '../../src/figures/lanes.ts'
import {
  equalPerformanceSeconds,
  equivalentMaximum,
  oxygenDemand,
  riegelSeconds,
  sustainableShare,
} from '../../src/figures/race.ts'
import { secondsPerKm } from '../../src/figures/splits.ts'
import { speedAtShare } from '../../src/figures/trainingPaces.ts'
import { metersOf } from '../../src/units/length.ts'
import { kilogramsOf } from '../../src/units/mass.ts'
import { metersInPaceUnit } from '../../src/units/pace.ts'

const { lanes, equalPerformances, units, distances } = reference.tables

describe('running against the publications', () => {
  // World Athletics, Track and Field Facilities Manual; Technical Rule 14.
  test.each([1, 2, 3, 4, 5, 6, 7, 8])('lane %s is as long as the rule makes it', (lane) => {
    expect(lapMetersOfLane(lane)).toBeCloseTo(lanes.lapMeters[lane - 1] as number, 2)
  })

  // The figures that come of taking 0.30 m in every lane are widely copied; they are not the rule's.
  test.each(['2', '3', '4', '8'] as const)('lane %s is not the widely copied length', (lane) => {
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

  // Arithmetic from those definitions: a half marathon in 1:20:00.
  test('a half marathon in 1:20:00 is 227.515 s/km and 366.150 s/mi', () => {
    const pace = secondsPerKm(distances.halfMarathonMeters, 4800)
    expect(pace).toBeCloseTo(227.515108, 6)
    expect((pace / 1000) * units.metersInMile).toBeCloseTo(366.150075, 6)
  })

  // Daniels, Gilbert 1979, Oxygen Power: the two equations worked out apart from this program.
  test.each([
    [10_000, 2400, 47.4645, 0.9137614442697204, 51.9440826680247],
    [21_097.5, 4800, 50.6978, 0.868158, 58.39697],
    [42_195, 10_800, 43.839235, 0.818992, 53.528269],
  ])(
    '%s m in %s s has the demand, share and equivalent VO2max of Daniels and Gilbert',
    (meters, seconds, demand, share, value) => {
      expect(oxygenDemand(meters / seconds)).toBeCloseTo(demand, 4)
      expect(sustainableShare(seconds)).toBeCloseTo(share, 5)
      expect(equivalentMaximum(meters, seconds)).toBeCloseTo(value, 5)
    },
  )
  test('full precision is kept', () => {
    expect(sustainableShare(2400)).toBeCloseTo(0.9137614442697204, 14)
    expect(equivalentMaximum(10_000, 2400)).toBeCloseTo(51.9440826680247, 11)
    expect(equivalentMaximum(5000, 1200)).toBeCloseTo(49.8062, 4)
  })
  test('at 5 minutes more than the maximum is asked for: 1.0915', () => {
    expect(sustainableShare(300)).toBeCloseTo(1.0915, 4)
  })

  // The equations solved for the time, apart from this program, to 0.1 s.
  test.each([
    [38, 5000, 1510.3],
    [38, 21_097.5, 6951.4],
    [39, 5000, 1477.5],
    [40, 5000, 1446.2],
    [40, 21_097.5, 6653.9],
    [50, 5000, 1196.0],
    [50, 10_000, 2479.6],
    [50, 21_097.5, 5491.2],
    [50, 42_195, 11_439.7],
    [60, 5000, 1022.8],
    [60, 21_097.5, 4688.6],
    [70, 5000, 895.5],
    [70, 21_097.5, 4102.7],
  ])('at %s an equal performance over %s m takes %s s', (value, meters, seconds) => {
    expect(Math.abs(equalPerformanceSeconds(meters, value) - seconds)).toBeLessThan(0.1)
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

  // The demand equation, solved for the speed by hand: the speed of the demand is the speed.
  test('the speed at a share has the demand of that share', () => {
    expect(oxygenDemand(speedAtShare(51.944, 0.85))).toBeCloseTo(51.944 * 0.85, 9)
  })

  // Riegel 1981, American Scientist 69:285-290: T2 = T1 (D2/D1)^1.06; twice the distance takes 2.084932 times as long.
  test.each([
    [5000, 1200, 10_000, 2501.9178],
    [10_000, 2400, 21_097.5, 5295.3674],
    [21_097.5, 4800, 42_195, 10_007.6713],
    [1, 1, 2, 2.084932],
  ])('Riegel: %s m in %s s is %s m in %s s', (meters, seconds, other, expected) => {
    expect(Math.abs(riegelSeconds(meters, seconds, other) - expected)).toBeLessThan(0.001)
  })
})
