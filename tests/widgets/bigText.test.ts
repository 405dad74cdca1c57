import { describe, expect, it } from 'vitest'
import { bigTextOf, fiveRows, threeRows, threeRowsOfStrokes } from '../../src/ui/widgets/bigText.ts'

describe('big text', () => {
  it('has five rows of blocks', () => {
    expect(bigTextOf('1:47.5', 5, true)).toEqual([
      ' ▄██        ██  ██  ██████      ██████',
      '▀▀██    ██  ██  ██     ▄█▀      ██    ',
      '  ██        ▀█████    ▄█▀       ▀████▄',
      '  ██    ██      ██   ▄█▀            ██',
      '██████          ██   ██     ██  ▀████▀',
    ])
  })

  it('has three rows of half blocks', () => {
    expect(bigTextOf('+0:12', 3, true)).toEqual([
      ' ▄  █▀█ ▄ ▀█  ▀▀█',
      '▀█▀ █ █ ▄  █  █▀▀',
      '    ▀▀▀   ▀▀▀ ▀▀▀',
    ])
  })

  it('is ASCII if blocks cannot be shown', () => {
    expect(bigTextOf('25', 5, false)).toEqual([
      '######  ######',
      '##  ##  ##    ',
      ' #####  ######',
      '###         ##',
      '######  ######',
    ])
    expect(bigTextOf('25', 3, false, true)).toEqual([' _   _ ', ' _| |_ ', '|_   _|'])
    expect(bigTextOf('25', 3, false)).toEqual([' #   # ', ' ## ## ', '##   ##'])
  })

  it('is nothing without a shape for a character', () => {
    expect(bigTextOf('12 kg', 5, true)).toBeNull()
  })

  it.each([
    ['five rows', fiveRows, 5],
    ['three rows', threeRows, 3],
    ['strokes', threeRowsOfStrokes, 3],
  ] as const)('has shapes of one width, all different: %s', (_, shapes, rows) => {
    for (const shape of shapes.values()) {
      expect(shape).toHaveLength(rows)
      expect(new Set(shape.map((row) => [...row].length)).size).toBe(1)
    }
    const signs = [...'0123456789:.+-x']
    const letters = shapes === threeRows ? 'WORKSETPAM' : ''
    expect([...shapes.keys()].join('')).toBe(`${signs.join('')}${letters}`)
    expect(new Set(signs.map((sign) => shapes.get(sign)?.join('\n'))).size).toBe(signs.length)
  })
})
