import { describe, expect, it } from 'vitest'
import { daysOf, inWeeks, isIn, isoWeekOf, spanOf, spanText, weekText } from '../../src/progress/weeks.ts'

describe('ISO weeks', () => {
  // Source: GNU coreutils, date -d DATE +%G-W%V.
  it.each([
    ['2026-12-31', '2026-W53'],
    ['2027-01-01', '2026-W53'],
    ['2027-01-03', '2026-W53'],
    ['2027-01-04', '2027-W01'],
    ['2025-12-28', '2025-W52'],
    ['2025-12-29', '2026-W01'],
    ['2020-12-31', '2020-W53'],
    ['2021-01-03', '2020-W53'],
    ['2024-12-30', '2025-W01'],
    ['2026-11-26', '2026-W48'],
  ])('%s is in %s', (date, week) => {
    expect(isoWeekOf(date).week).toBe(week)
  })

  it('go from Monday to Sunday, also across a change of clocks', () => {
    expect(isoWeekOf('2026-10-25')).toEqual({
      week: '2026-W43',
      monday: '2026-10-19',
      sunday: '2026-10-25',
    })
    expect(daysOf(isoWeekOf('2026-10-25').monday)).toEqual([
      '2026-10-19',
      '2026-10-20',
      '2026-10-21',
      '2026-10-22',
      '2026-10-23',
      '2026-10-24',
      '2026-10-25',
    ])
  })

  it('follow each other without a gap over thirty years', () => {
    const weeks = inWeeks({ from: '1997-01-01', to: '2026-12-31' }, [])
    expect(weeks[0]?.week).toBe('1997-W01')
    expect(weeks.at(-1)?.week).toBe('2026-W53')
    // 10 957 days from Monday 30 December 1996 to Sunday 3 January 2027 and a day: 1566 weeks.
    expect(weeks).toHaveLength(1566)
    expect(new Set(weeks.map(({ week }) => week)).size).toBe(1566)
  })
})

describe('a span', () => {
  it('has both of its ends', () => {
    const dates = ['2026-11-01', '2026-11-02', '2026-11-29', '2026-11-30']
    const span = { from: '2026-11-02', to: '2026-11-29' }
    expect(dates.map((date) => isIn(span, date))).toEqual([false, true, true, false])
  })

  it('has the week of its last day, even of a Monday, and at most 5300 weeks', () => {
    expect(inWeeks({ from: '2026-11-08', to: '2026-11-09' }, []).map(({ monday }) => monday)).toEqual([
      '2026-11-02',
      '2026-11-09',
    ])
    expect(inWeeks({ from: '1900-01-01', to: '2026-11-29' }, [])).toHaveLength(5300)
  })
})

describe('the weeks shown', () => {
  const nothing = { from: null, to: null }
  it('are sixteen whole ones up to today', () => {
    expect(spanOf(nothing, '2026-11-25', '2026-11-24')).toEqual({ from: '2026-08-10', to: '2026-11-29' })
    expect(spanOf(nothing, '2026-11-25', null)).toEqual({ from: '2026-08-10', to: '2026-11-29' })
  })

  it('leave out weeks before the first session, unless asked for', () => {
    expect(spanOf(nothing, '2026-11-25', '2026-11-24', '2026-11-12')).toEqual({
      from: '2026-11-09',
      to: '2026-11-29',
    })
    expect(spanOf(nothing, '2026-11-25', '2026-11-24', '2025-01-01').from).toBe('2026-08-10')
    const asked = { from: '2026-10-01', to: null }
    expect(spanOf(asked, '2026-11-25', '2026-11-24', '2026-11-12').from).toBe('2026-09-28')
  })

  it('end with the newest session if they would be empty', () => {
    expect(spanOf(nothing, '2026-11-25', '2026-03-03')).toEqual({ from: '2025-11-17', to: '2026-03-08' })
  })

  it('are those asked for, made whole', () => {
    expect(spanOf({ from: '2026-10-01', to: '2026-10-20' }, '2026-11-25', '2026-10-20')).toEqual({
      from: '2026-09-28',
      to: '2026-10-25',
    })
  })

  it('end with the newest session only if it came before the sixteen', () => {
    expect(spanOf(nothing, '2026-11-25', '2026-08-10').to).toBe('2026-11-29')
    expect(spanOf(nothing, '2026-11-25', '2026-08-09').to).toBe('2026-08-09')
    expect(spanOf(nothing, '2026-11-25', '2026-03-03', '2026-03-03')).toEqual({
      from: '2026-03-02',
      to: '2026-03-08',
    })
    expect(spanOf(nothing, '2026-11-25', '2026-03-03', '2026-11-24').from).toBe('2025-11-17')
  })

  it('begin with the first session, even one on their last day', () => {
    expect(spanOf(nothing, '2026-11-25', '2026-11-29', '2026-11-29').from).toBe('2026-11-23')
    expect(spanOf(nothing, '2026-11-25', '2026-11-24', '2026-08-10').from).toBe('2026-08-10')
    expect(spanOf(nothing, '2026-11-25', '2026-11-24', '2026-08-17').from).toBe('2026-08-17')
    expect(spanOf(nothing, '2026-11-25', '2026-11-24', null).from).toBe('2026-08-10')
  })

  it('are told with their number, with a year where it changes', () => {
    expect(spanText({ from: '2026-08-10', to: '2026-11-29' })).toBe('16 weeks, 10 Aug to 29 Nov 2026')
    expect(spanText({ from: '2026-11-23', to: '2026-11-29' })).toBe('1 week, 23 Nov to 29 Nov 2026')
    expect(spanText({ from: '2026-12-28', to: '2027-01-10' })).toBe('2 weeks, 28 Dec 2026 to 10 Jan 2027')
  })

  it('have the year of each from 60 columns on', () => {
    const week = { week: '2026-W45', monday: '2026-11-02' }
    expect([weekText(week, 60), weekText(week, 59)]).toEqual(['2026-W45  2 Nov', 'W45  2 Nov'])
  })

  it('are the week of a future day that was asked for', () => {
    const ahead = { from: '2026-12-31', to: null }
    expect(spanOf(ahead, '2026-11-25', '2026-11-24')).toEqual({ from: '2026-12-28', to: '2027-01-03' })
  })
})
