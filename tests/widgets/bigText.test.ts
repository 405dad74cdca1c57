import { describe, expect, it } from 'vitest'
import { bigTextOf, threeRows, threeRowsOfStrokes } from '../../src/ui/widgets/bigText.ts'

describe('big text', () => {
  it('has three rows of half blocks', () => {
    expect(bigTextOf('+0:12')).toEqual([' ▄  █▀█ ▄ ▀█  ▀▀█', '▀█▀ █ █ ▄  █  █▀▀', '    ▀▀▀   ▀▀▀ ▀▀▀'])
  })

  it('has three rows of thin strokes', () => {
    expect(bigTextOf('25', true)).toEqual([' _   _ ', ' _| |_ ', '|_   _|'])
  })

  it('is nothing without a shape for a character', () => {
    expect(bigTextOf('12 kg')).toBeNull()
  })

  it.each([
    ['three rows', threeRows],
    ['strokes', threeRowsOfStrokes],
  ] as const)('has shapes of one width, all different: %s', (_, shapes) => {
    for (const shape of shapes.values()) {
      expect(shape).toHaveLength(3)
      expect(new Set(shape.map((row) => [...row].length)).size).toBe(1)
    }
    const signs = [...'0123456789:.+-x']
    const letters = shapes === threeRows ? 'WORKSETPAM' : ''
    expect([...shapes.keys()].join('')).toBe(`${signs.join('')}${letters}`)
    expect(new Set(signs.map((sign) => shapes.get(sign)?.join('\n'))).size).toBe(signs.length)
  })
})
