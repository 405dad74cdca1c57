import { describe, expect, test } from 'vitest'
import { usualPlates } from '../../../src/figures/bar.ts'
import { catalogue } from '../../../src/figures/catalogue.ts'

/* The expected lines are sums that anybody can add up. */

const equipment = { bar: 20, collar: 0, plates: usualPlates.kg }
const { work } = catalogue.plates

describe('plates, worked out', () => {
  test('accept an empty bar as a load', () => {
    expect(work({ load: 20, equipment })).toEqual(['20 = 20'])
  })

  test('give one load below and one above an impossible load', () => {
    expect(work({ load: 93, equipment })).toEqual([
      'nothing makes 93',
      'below: 20 + 2 x (25 + 10 + 1.25) = 92.5',
      'above: 20 + 2 x (25 + 10 + 2.5) = 95',
    ])
  })

  test('include collars', () => {
    expect(work({ load: 95, equipment: { ...equipment, collar: 2.5 } })).toEqual([
      '20 + 2 x 2.5 + 2 x (25 + 10) = 95',
    ])
  })

  test('give only the bar below the bar, and only all plates above them', () => {
    expect(work({ load: 15, equipment })).toEqual(['nothing makes 15', 'above: 20 = 20'])
    const few = { ...equipment, plates: [{ mass: 10, pairs: 1 }] }
    expect(work({ load: 100, equipment: few })).toEqual(['nothing makes 100', 'below: 20 + 2 x (10) = 40'])
  })
})
