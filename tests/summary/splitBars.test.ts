import { describe, expect, it } from 'vitest'
import { barLines, splitBarsOf } from '../../src/summary/splitBars.ts'
import fc from '../fastCheck.ts'

const range = { from: 107.5, to: 112.5 }

describe('bars for splits', () => {
  it('show the range, and end inside it, before it or beyond it', () => {
    const bars = splitBarsOf(
      [
        { value: 109.2, range, target: 'in' },
        { value: 106, range, target: 'fast' },
        { value: 114, range, target: 'slow' },
      ],
      20,
    )
    expect(bars).toEqual(['=========[===     ]', '======   [        ]', '=========[========]==='])
  })

  it('stand between the splits and what is beside them, where there is room', () => {
    const rows = [
      { text: '1 1:46', bar: { value: 106, range, target: 'fast' as const }, beside: 'fast' },
      { text: '2 not timed', bar: null, beside: '' },
      { text: '3 1:49.2', bar: { value: 109.2, range, target: 'in' as const }, beside: 'hr 171' },
    ]
    expect(barLines(rows, 40).lines).toEqual([
      '1 1:46       =====   [         ]  fast',
      '2 not timed',
      '3 1:49.2     ========[===      ]  hr 171',
    ])
    expect(barLines(rows, 30)).toEqual({
      lines: ['1 1:46       fast', '2 not timed', '3 1:49.2     hr 171'],
      hasBars: false,
    })
  })

  it('have no brackets without a range', () => {
    expect(
      splitBarsOf(
        [
          { value: 100, range: null, target: null },
          { value: 110, range: null, target: null },
        ],
        10,
      ),
    ).toEqual(['===', '=========='])
  })

  it('draw equal values alike', () => {
    const equal = { value: 240, range: null, target: null }
    expect(splitBarsOf([equal, equal], 10)).toEqual(['===', '==='])
  })

  it('are never on the wrong side of a bracket, whatever the scale', () => {
    const seconds = fc.double({ min: 10, max: 5000, noNaN: true })
    fc.assert(
      fc.property(fc.array(fc.tuple(seconds, seconds, seconds), { minLength: 1, maxLength: 9 }), (rows) => {
        const bars = rows.map(([value, one, other]) => {
          const held = { from: Math.min(one, other), to: Math.max(one, other) }
          const target = value < held.from ? 'fast' : value > held.to ? 'slow' : 'in'
          return { value, range: held, target } as const
        })
        splitBarsOf(bars, 28).forEach((row, index) => {
          const target = bars[index]?.target
          expect(row.length).toBeLessThanOrEqual(28 + 4)
          const [before = '', inside = '', after = ''] = row.split(/[[\]]/)
          if (target === 'fast') expect(before.endsWith('=')).toBe(false)
          if (target === 'slow') expect(after).toContain('=')
          if (target === 'in') expect(after).toBe('')
          if (target === 'in' && inside.includes('=')) expect(before).not.toContain(' ')
        })
      }),
    )
  })
})
