import { addWeeks, format } from 'date-fns'
import { linearRegression } from 'simple-statistics'
import { describe, expect, it } from 'vitest'
import { trendOf } from '../../src/progress/chart.ts'

const dateIn = (weeks: number) => format(addWeeks(new Date(2026, 0, 5), weeks), 'yyyy-MM-dd')

/* Source: Anscombe FJ (1973) Graphs in statistical analysis. American Statistician 27(1):17-21, first data
 * set: slope 0.5, its standard error 0.118, residual sum of squares 13.75 on 9 degrees of freedom. */
const anscombe: [x: number, y: number][] = [
  [10, 8.04],
  [8, 6.95],
  [13, 7.58],
  [9, 8.81],
  [11, 8.33],
  [14, 9.96],
  [6, 7.24],
  [4, 4.26],
  [12, 10.84],
  [7, 4.82],
  [5, 5.68],
]

describe('a straight line over the weeks', () => {
  // Computed within each test, so that a mutant meets it.
  const trendOfAll = () => trendOf(anscombe.map(([weeks, value]) => ({ date: dateIn(weeks), value })))

  it('has the published slope, standard error and scatter', () => {
    const trend = trendOfAll()
    expect(trend?.count).toBe(11)
    expect(trend?.perWeek).toBeCloseTo(0.5, 3)
    expect(trend?.perWeekError).toBeCloseTo(0.118, 3)
    expect(trend?.scatter).toBeCloseTo(Math.sqrt(13.75 / 9), 2)
  })

  it('goes from its first to its last day, as another library draws it', () => {
    const trend = trendOfAll()
    const { m, b } = linearRegression(anscombe)
    expect(trend?.first.date).toBe(dateIn(4))
    expect(trend?.first.value).toBeCloseTo(m * 4 + b, 9)
    expect(trend?.last.date).toBe(dateIn(14))
    expect(trend?.last.value).toBeCloseTo(m * 14 + b, 9)
  })

  it('is less certain at its ends than in the middle', () => {
    const trend = trendOfAll()
    // s * sqrt(1/11 + (x - 9)^2 / 110): the sum of squares of 4 to 14 is 110.
    const scatter = trend?.scatter ?? 0
    expect(trend?.last.error).toBeCloseTo(scatter * Math.sqrt(1 / 11 + 25 / 110), 9)
  })

  it('has a 95 % interval: 0.5 +- 2.262157 x 0.117906', () => {
    const trend = trendOfAll()
    expect(trend?.perWeekLow).toBeCloseTo(0.233, 3)
    expect(trend?.perWeekHigh).toBeCloseTo(0.767, 3)
    expect(trend?.isClear).toBe(true)
  })

  it('is the same in any order of the days, and clear if it falls', () => {
    const points = anscombe.map(([weeks, value]) => ({ date: dateIn(weeks), value }))
    expect(trendOf(points.toReversed())).toEqual(trendOf(points))
    const falling = trendOf(points.map(({ date, value }) => ({ date, value: -value })))
    expect(falling?.isClear).toBe(true)
    expect(falling?.perWeekHigh).toBeCloseTo(-0.233, 3)
  })

  it('is not drawn through nothing, and has an error of 0 through points on a line', () => {
    expect(trendOf([])).toBeNull()
    const exact = trendOf([1, 2, 3, 4].map((week) => ({ date: dateIn(week), value: week })))
    expect(exact?.perWeek).toBeCloseTo(1, 12)
    expect(exact?.scatter).toBeCloseTo(0, 12)
  })

  it('is not clear if it could be noise', () => {
    const noise = trendOf([3, 1, 4, 1, 5].map((value, week) => ({ date: dateIn(week), value })))
    expect(noise?.isClear).toBe(false)
    const flat = trendOf([5, 5, 5, 5].map((value, week) => ({ date: dateIn(week), value })))
    expect(flat).toMatchObject({ isClear: false, scatter: 0 })
  })

  it('is not drawn through four sessions in less than 21 days', () => {
    const four = (days: number[]) =>
      trendOf(days.map((day) => ({ date: `2026-01-${String(day).padStart(2, '0')}`, value: day })))
    expect(four([1, 2, 3, 4])).toBeNull()
    expect(four([1, 5, 9, 21])).toBeNull()
    expect(four([1, 5, 9, 22])).not.toBeNull()
  })

  it('is not drawn through three points, or through one day', () => {
    expect(trendOf([1, 2, 3].map((week) => ({ date: dateIn(week), value: week })))).toBeNull()
    expect(trendOf([1, 2, 3, 4].map((value) => ({ date: dateIn(1), value })))).toBeNull()
  })
})
