import { describe, expect, test } from 'vitest'
import { atwaterKcal, runningKcal } from '../../src/figures/fuel.ts'
import { effortMinutes, weekLoad } from '../../src/figures/load.ts'
import { type EquationName, equation, equationNames, estimateSet } from '../../src/figures/oneRepMax.ts'
import {
  equalPerformanceSeconds,
  equivalentMaximum,
  lapMetersOfLane,
  oxygenDemand,
  riegelSeconds,
  sustainableShare,
} from '../../src/figures/race.ts'
import { sessionMaximum } from '../../src/figures/sessionMaximum.ts'
import { halvesOf, secondsPerKm, splitFigures } from '../../src/figures/splits.ts'
import { restSeconds } from '../../src/figures/volume.ts'
import { metersInPaceUnit } from '../../src/units/duration.ts'
import { metersOf } from '../../src/units/length.ts'
import { kilogramsOf } from '../../src/units/mass.ts'
import checkValues from './checkValues.json'

/* Re-evaluation, no outside source: the program's figures against the same formulas evaluated by another program.
 * Values printed by others are checked in tests/published. */

// biome-ignore lint/suspicious/noExplicitAny: the inputs are JSON, and each figure takes another shape.
type Input = any
type Output = number | Record<string, unknown>

const inUnit = ({ value, unit, in: other }: { value: number; unit: string; in?: string }): number => {
  const isMass = unit === 'kg' || unit === 'lb'
  const base = isMass ? kilogramsOf({ value, unit: unit as 'kg' }) : metersOf({ value, unit: unit as 'km' })
  if (other === 'lb') return base / kilogramsOf({ value: 1, unit: 'lb' })
  if (other === 'mi') return base / metersOf({ value: 1, unit: 'mi' })
  return base
}

const evaluate: Record<string, (input: Input) => Output> = {
  ...Object.fromEntries(
    equationNames.map((name: EquationName) => [name, ({ kg, reps }: Input) => equation(name, kg, reps)]),
  ),
  clusterOneRepMax: (set) =>
    estimateSet({ ...set, rpe: 10, failed: false, openEnded: false, bodyKg: 0 })?.kg ?? Number.NaN,
  sessionMaximum: (sets) => ({
    ...sessionMaximum(
      sets.map(({ reps, ...set }: { reps: number }) => ({
        ...{ groups: [reps], rpe: null, failed: false, openEnded: false },
        ...{ formula: 'median', bodyKg: 0 },
        ...set,
      })),
    ),
  }),
  restOfScheme: restSeconds,
  effortMinutes: ({ effort, minutes }) => effortMinutes(effort, minutes),
  week: (days: number[]) => ({ ...weekLoad(days.map((each) => ({ effortMinutes: each, known: true }))) }),
  equivalentVo2max: ({ meters, seconds }) => ({
    demand: oxygenDemand(meters / seconds),
    share: sustainableShare(seconds),
    equivalent: equivalentMaximum(meters, seconds),
  }),
  equalPerformance: ({ meters, equivalent }) => equalPerformanceSeconds(meters, equivalent),
  riegel: ({ meters, seconds, otherMeters }) => riegelSeconds(meters, seconds, otherMeters),
  pace: ({ meters, seconds }) => ({
    secondsPerKm: secondsPerKm(meters, seconds),
    secondsPerMile: (secondsPerKm(meters, seconds) / metersInPaceUnit.km) * metersInPaceUnit.mi,
    kmh: 3600 / secondsPerKm(meters, seconds),
  }),
  units: inUnit,
  lapOfLane: ({ lane }) => lapMetersOfLane(lane),
  splits: (times: number[]) => ({
    ...splitFigures(times.map((seconds, index) => ({ number: index + 1, seconds }))),
  }),
  halves: (times: number[]) => ({ ...halvesOf(times.map((seconds) => ({ meters: 1000, seconds }))) }),
  atwater: (meal) => atwaterKcal(meal) ?? Number.NaN,
  runningCost: ({ kg, meters }) => runningKcal(kg, meters).to,
}

describe('re-evaluation, no outside source', () => {
  test('covers exactly the kinds of figure in the file', () => {
    expect(checkValues.figures.map(({ figure }) => figure).sort()).toEqual(Object.keys(evaluate).sort())
  })

  const cases = checkValues.figures.flatMap(({ figure, checks }) =>
    checks.map((check) => ({ figure, given: JSON.stringify(check.input), ...check })),
  )
  test.each(cases)('$figure of $given', ({ figure, input, output, tolerance }) => {
    const value = evaluate[figure]?.(input)
    const pairs =
      typeof output === 'object'
        ? Object.entries(output).map(([key, expected]) => [(value as Record<string, unknown>)[key], expected])
        : [[value, output]]
    for (const [actual, expected] of pairs) {
      if (typeof expected !== 'number') expect(actual).toBe(expected)
      else expect(Math.abs((actual as number) - expected)).toBeLessThanOrEqual(tolerance)
    }
  })
})
