import { describe, expect, test } from 'vitest'
import {
  halvesOf,
  judge,
  paceOfSplits,
  splitFigures,
  timeRange,
  timeRangeOfPace,
} from '../../src/figures/splits.ts'

const splitsOf = (...seconds: number[]) =>
  seconds.map((each, index) => ({ number: index + 1, seconds: each }))
const splitsOver = (meters: number, ...seconds: number[]) =>
  seconds.map((each) => ({ meters, seconds: each }))
const kilometers = (...seconds: number[]) => splitsOver(1000, ...seconds)
const nothing = {
  meanSeconds: null,
  sdSeconds: null,
  cvPercent: null,
  rangeSeconds: null,
  fadePercentPerSplit: null,
}

describe('the figures of splits', () => {
  test('do not exist for one split', () => {
    expect(splitFigures(splitsOf(240))).toEqual(nothing)
    expect(splitFigures([])).toEqual(nothing)
  })
  test('have no fade for two splits', () => {
    expect(splitFigures(splitsOf(240, 244))).toEqual({
      meanSeconds: 242,
      sdSeconds: Math.sqrt(8),
      cvPercent: (Math.sqrt(8) / 242) * 100,
      rangeSeconds: 4,
      fadePercentPerSplit: null,
    })
  })
  test('keep the gap of a skipped split, and compute the fade by number', () => {
    const figures = splitFigures([
      { number: 1, seconds: 100 },
      { number: 2, seconds: 102 },
      { number: 5, seconds: 108 },
    ])
    expect(figures.fadePercentPerSplit).toBeCloseTo((2 / (310 / 3)) * 100, 12)
  })
  test('have no spread and no fade for equal splits', () => {
    expect(splitFigures(splitsOf(90, 90, 90))).toEqual({
      meanSeconds: 90,
      sdSeconds: 0,
      cvPercent: 0,
      rangeSeconds: 0,
      fadePercentPerSplit: 0,
    })
  })
})

describe('pace', () => {
  test('is all seconds over all metres', () => {
    expect(
      paceOfSplits([
        { meters: 1000, seconds: 240 },
        { meters: 500, seconds: 110 },
      ]),
    ).toBeCloseTo(233.3333, 4)
  })
  test('does not exist without a split', () => {
    expect(paceOfSplits([])).toBeNull()
  })
})

describe('halves', () => {
  test('are a negative split of -2.469136 % if they take 2430 s and 2370 s', () => {
    expect(halvesOf(splitsOver(5000, 2430, 2370))).toEqual({
      firstSecondsPerKm: 486,
      secondSecondsPerKm: 474,
      changePercent: expect.closeTo(-2.469136, 6),
      shape: 'negative',
    })
  })
  test('divide a split across the middle by distance', () => {
    expect(halvesOf(kilometers(240, 250, 270))).toEqual({
      firstSecondsPerKm: (240 + 125) / 1.5,
      secondSecondsPerKm: (125 + 270) / 1.5,
      changePercent: expect.closeTo((30 / 365) * 100, 10),
      shape: 'positive',
    })
  })
  test('divide splits of different lengths by distance, not by number', () => {
    const halves = halvesOf([
      { meters: 2000, seconds: 480 },
      { meters: 1000, seconds: 200 },
      { meters: 1000, seconds: 200 },
    ])
    expect(halves).toMatchObject({ firstSecondsPerKm: 240, secondSecondsPerKm: 200 })
  })
  test('are even within 0.5 %, but not beyond', () => {
    expect(halvesOf(kilometers(200, 201))?.shape).toBe('even')
    expect(halvesOf(kilometers(200, 199))?.shape).toBe('even')
    expect(halvesOf(kilometers(200, 201.01))?.shape).toBe('positive')
    expect(halvesOf(kilometers(200, 198.99))?.shape).toBe('negative')
  })
  test('are even within 0.5 s, however short', () => {
    expect(halvesOf(splitsOver(200, 35, 35.5))?.shape).toBe('even')
    expect(halvesOf(splitsOver(200, 35, 34.5))?.shape).toBe('even')
    expect(halvesOf(splitsOver(200, 35, 35.503))?.shape).toBe('positive')
    expect(halvesOf(splitsOver(200, 35, 34.497))?.shape).toBe('negative')
  })
  test('do not exist for one split', () => {
    expect(halvesOf(kilometers(240))).toBeNull()
  })
})

describe('the range for a time', () => {
  test('is 1:47.5 to 1:52.5 for 500 m at 3:35-3:45/km', () => {
    expect(timeRangeOfPace({ from: 215, to: 225 }, 500)).toEqual({ from: 107.5, to: 112.5 })
  })
  test('is sorted', () => {
    expect(timeRange({ from: 35, to: 33 })).toEqual({ from: 33, to: 35 })
  })
  test('goes 1 % each way from a single value', () => {
    expect(timeRange({ from: 200, to: 200 })).toEqual({ from: 198, to: 202 })
  })
  test('goes at least 0.5 s each way from a single value', () => {
    expect(timeRange({ from: 34, to: 34 })).toEqual({ from: 33.5, to: 34.5 })
  })
  test('scales a single pace first and widens it then', () => {
    expect(timeRangeOfPace({ from: 160, to: 160 }, 200)).toEqual({ from: 31.5, to: 32.5 })
  })
  test.each([
    [366.5, 1, 'in'],
    [366.4, 1, 'fast'],
    [372.5, 1, 'in'],
    [372.6, 1, 'slow'],
    [366.95, 0.1, 'in'],
    [366.94, 0.1, 'fast'],
    [372.05, 0.1, 'in'],
    [372.06, 0.1, 'slow'],
    [367, 1, 'in'],
    [372, 0.01, 'in'],
  ] as const)('%s s typed to %s s against 6:07 to 6:12 is %s', (seconds, precision, verdict) => {
    expect(judge(seconds, { from: 367, to: 372 }, precision)).toBe(verdict)
  })
})
