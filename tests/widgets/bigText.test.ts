import { describe, expect, it } from 'vitest'
import { bigTextOf } from '../../src/ui/widgets/bigText.ts'

describe('big text', () => {
  it('has three rows of half blocks', () => {
    expect(bigTextOf('+0:12')).toEqual(['    ▄▄▄   ▄▄  ▄▄▄', '▄█▄ █ █ ▀  █  ▄▄█', ' ▀  █▄█ ▀ ▄█▄ █▄▄'])
  })

  it('has three rows of thin strokes', () => {
    expect(bigTextOf('25', true)).toEqual([' _   _ ', ' _| |_ ', '|_   _|'])
  })

  it('is nothing without a shape for a character', () => {
    expect(bigTextOf('12 kg')).toBeNull()
  })

  it.each([
    ['blocks', false, '0123456789:.+-xWORKETPAM'],
    ['strokes', true, '0123456789:.+-x'],
  ] as const)('has a shape of one width for each character, all different: %s', (_, isThin, characters) => {
    const shapes = [...characters].map((character) => bigTextOf(character, isThin) ?? [])
    for (const shape of shapes) expect(new Set(shape.map((row) => [...row].length)).size).toBe(1)
    const without = characters.replace('O', '')
    expect(new Set(shapes.map((shape) => shape.join('\n'))).size).toBe(without.length)
  })
})
