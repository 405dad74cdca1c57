import { describe, expect, it, test } from 'vitest'
import { barLines, type Chart, chartLines, pageOf } from '../../src/progress/chart.ts'

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
    const points = [
      { date: '2026-11-02', value: 240, mark: 'o' },
      { date: '2026-11-29', value: 236, mark: 'x' },
    ]
    // From 234.8 to 241.2: half a per cent of 240 on both sides.
    expect(
      chartLines({ ...chart, unit: '/km', points, lines: [], isReversed: true }, 30, 5).slice(0, 6),
    ).toEqual(['/km ^', '235 +', `    | ${' '.repeat(22)}x`, '    |', '240 + o', '    |'])
  })

  it('draws a range that is open upwards one row above its value', () => {
    const points = [
      { date: '2026-11-02', value: 90, mark: 'a' },
      { date: '2026-11-15', value: 100, mark: 'o', low: null, high: null },
      { date: '2026-11-29', value: 110, mark: 'b' },
    ]
    expect(chartLines({ ...chart, points, lines: [] }, 47, 9).slice(1, 10)).toEqual([
      `110 + ${' '.repeat(39)}b`,
      ...['    |', '    |'],
      `    | ${' '.repeat(19)}|`,
      `100 + ${' '.repeat(19)}o`,
      ...['    |', '    |', '    |'],
      ' 90 + a',
    ])
  })

  it('has a date every eight cells or more', () => {
    // 36 cells for 28 days.
    expect(chartLines({ ...chart, to: '2026-11-30' }, 44, 9).slice(-2)).toEqual([
      '    +-+--------+--------+--------+--------+>',
      '      2 Nov    9 Nov    16 Nov   23 Nov',
    ])
    expect(
      chartLines({ ...chart, to: '2026-11-30' }, 39, 9)
        .at(-1)
        ?.trim(),
    ).toMatch(/^2 Nov +16 Nov$/)
  })

  it('has a date that fits exactly', () => {
    const lines = chartLines({ ...chart, unit: 'kilograms', to: '2026-11-11', points: [], lines: [] }, 32, 5)
    expect(lines.at(-1)).toBe(`${' '.repeat(12)}2 Nov         9 Nov`)
  })

  it.each([
    ['2026-02-10', '6 Jan'],
    ['2026-02-11', 'Jan 2025'],
  ])('names months for more than 400 days, as up to %s', (to, first) => {
    const lines = chartLines({ ...chart, from: '2025-01-06', to, points: [], lines: [] }, 80, 5)
    expect(lines.at(-1)?.trim().startsWith(`${first} `)).toBe(true)
  })

  it('has both axes even for a single value or a single day', () => {
    const points = [{ date: '2026-11-02', value: 100, mark: 'o' }]
    const lines = chartLines(
      { unit: 'kg', from: '2026-11-02', to: '2026-11-02', points, print: String },
      30,
      5,
    )
    expect(lines.join('\n')).toContain('100 + o')
    expect(lines.at(-1)?.trim()).toBe('2 Nov')
  })

  it('names months over thirty years', () => {
    const points = [
      { date: '1997-01-06', value: 100, mark: 'o' },
      { date: '2026-11-25', value: 120, mark: 'o' },
    ]
    const lines = chartLines(
      { unit: 'kg', from: '1997-01-06', to: '2026-11-25', points, print: String },
      80,
      5,
    )
    expect(lines.at(-1)).toBe('      Jan 1997 Oct 2000 Jun 2004 Mar 2008 Dec 2011 Sep 2015 Jun 2019 Mar 2023')
  })
})

test('blocks of lines have an empty line between them, and empty blocks are left out', () => {
  expect(pageOf([['a', '', 'b'], [], ['c']], 40)).toEqual(['a', 'b', '', 'c'])
  expect(pageOf([[''], ['c']], 40)).toEqual(['c'])
})

test('a line that is too long is wrapped, and keeps the spaces at its start', () => {
  expect(pageOf([['  on two lines']], 10)).toEqual(['  on two', '    lines'])
})

describe('bars in characters', () => {
  it('share one scale from 0, and show every value above 0', () => {
    const rows = [
      { cells: ['W47', '40.0'], segments: [{ value: 40, mark: '=' }] },
      {
        cells: ['W48', '0.1'],
        segments: [
          { value: 0.1, mark: '=' },
          { value: 20, mark: '#' },
        ],
      },
      { cells: ['W49', '0.0'], segments: [{ value: 0, mark: '=' }] },
    ]
    expect(barLines(rows, 31)).toEqual([
      'W47  40.0  ====================',
      'W48   0.1  =##########',
      'W49   0.0',
    ])
    expect(barLines([], 40)).toEqual([])
  })

  it('take at least five cells, else they are left out', () => {
    const rows = [
      { cells: ['W47', '40.0'], segments: [{ value: 40, mark: '=' }] },
      { cells: ['W48', '0.1'], segments: [{ value: 0.1, mark: '=' }] },
    ]
    expect(barLines(rows, 16)).toEqual(['W47  40.0  =====', 'W48   0.1  ='])
    expect(barLines(rows, 15)).toEqual(['W47  40.0', 'W48   0.1'])
  })
})
