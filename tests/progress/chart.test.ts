import { describe, expect, it, test } from 'vitest'
import { barLines, type Chart, chartLines, withGaps } from '../../src/progress/chart.ts'

const chart: Chart = {
  unit: 'kg',
  from: '2026-11-02',
  to: '2026-11-29',
  points: [
    { date: '2026-11-02', value: 100, mark: 'o', low: 95, high: 104 },
    { date: '2026-11-15', value: 105, mark: 'x' },
    { date: '2026-11-29', value: 110, mark: '^', low: 106, high: null },
  ],
  lines: [{ from: { date: '2026-11-02', value: 100 }, to: { date: '2026-11-29', value: 110 } }],
  print: String,
}

describe('a chart in characters', () => {
  it('has labelled axes, marks with their ranges, and a line of dots', () => {
    expect(chartLines(chart, 47, 9)).toEqual([
      ' kg ^',
      '110 +                                       .^',
      '    |                               ........ |',
      '    |                       ........         |',
      '105 + |             .....x..',
      '    | |     ........',
      '100 + o.....',
      '    | |',
      '    | |',
      ' 95 + |',
      '    +-+---------+---------+---------+--------->',
      '      2 Nov     9 Nov     16 Nov    23 Nov',
    ])
  })

  it('leaves out a date that has no room below its tick', () => {
    const longer = chartLines({ ...chart, to: '2026-11-30' }, 47, 9)
    expect(longer.at(-1)).toMatch(/ 23 Nov$/)
    expect(longer.at(-2)).toMatch(/\+>$/)
  })

  it('has no line longer than the columns', () => {
    for (const columns of [30, 40, 80, 200]) {
      for (const line of chartLines(chart, columns, 12)) expect(line.length).toBeLessThanOrEqual(columns)
    }
  })

  it('draws a line that falls, from its first day to its last, and leaves out what is outside the days', () => {
    const lines = chartLines(
      {
        ...chart,
        points: [
          { date: '2026-11-01', value: 100, mark: '<' },
          { date: '2026-11-29', value: 100, mark: 'o', high: 102 },
          { date: '2026-11-30', value: 100, mark: '>' },
        ],
        lines: [
          { from: { date: '2026-11-09', value: 110 }, to: { date: '2026-11-22', value: 90 } },
          { from: { date: '2026-11-05', value: 110 }, to: { date: '2026-11-05', value: 90 } },
        ],
      },
      47,
      9,
    )
    expect(lines.slice(1, -2)).toEqual([
      '110 +     .     .',
      '    |            ..',
      '    |              ...',
      '    |                 ...                    |',
      '100 +                    ..                  o',
      '    |                      ...',
      '    |                         ...',
      '    |                            ..',
      ' 90 +                              .',
    ])
  })

  it('turns paces so that faster is up', () => {
    const paces = chart.points.map(({ date, value, mark }) => ({ date, value, mark }))
    const lines = chartLines({ ...chart, points: paces, lines: [], isReversed: true }, 40, 7)
    const rowOf = (mark: string) => lines.findIndex((line) => line.includes(mark) && !line.includes('kg'))
    expect(rowOf('o')).toBeLessThan(rowOf('x'))
  })

  it('of a single value, or a single day, still has both axes', () => {
    const points = [{ date: '2026-11-02', value: 100, mark: 'o' }]
    const lines = chartLines(
      { unit: 'kg', from: '2026-11-02', to: '2026-11-02', points, print: String },
      30,
      5,
    )
    expect(lines.join('\n')).toContain('100 + o')
    expect(lines.at(-1)?.trim()).toBe('2 Nov')
  })

  it('of thirty years names months', () => {
    const points = [
      { date: '1997-01-06', value: 100, mark: 'o' },
      { date: '2026-11-25', value: 120, mark: 'o' },
    ]
    const lines = chartLines(
      { unit: 'kg', from: '1997-01-06', to: '2026-11-25', points, print: String },
      80,
      5,
    )
    expect(lines.at(-1)).toBe('      Jan 1997    Dec 2001    Dec 2006    Dec 2011    Dec 2016    Dec 2021')
  })
})

test('blocks of lines have an empty line between them, and empty blocks are left out', () => {
  expect(withGaps([['a', 'b'], [], ['c']])).toEqual(['a', 'b', '', 'c'])
  expect(withGaps([[], ['c']])).toEqual(['c'])
})

describe('bars in characters', () => {
  it('share one scale from 0, and show every value above 0', () => {
    const rows = [
      { label: 'W47', text: '40.0', segments: [{ value: 40, mark: '=' }] },
      {
        label: 'W48',
        text: '0.1',
        segments: [
          { value: 0.1, mark: '=' },
          { value: 20, mark: '#' },
        ],
      },
      { label: 'W49', text: '0.0', segments: [{ value: 0, mark: '=' }] },
    ]
    expect(barLines(rows, 31)).toEqual([
      'W47  40.0  ====================',
      'W48   0.1  =##########',
      'W49   0.0',
    ])
    expect(barLines([], 40)).toEqual([])
  })
})
