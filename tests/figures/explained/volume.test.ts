import { describe, expect, test } from 'vitest'
import { catalogue } from '../../../src/figures/catalogue.ts'

/* What is not known is said, not shown as zero. */

describe('volume, worked out', () => {
  test('a top set whose load or repetitions are not known', () => {
    const sets = [
      { kg: null, reps: 8 },
      { kg: 60, reps: null },
    ]
    expect(catalogue['top-set'].work({ sets })).toEqual([
      'set 1: 8 x not known',
      'set 2: - x 60 kg',
      'top: set 2',
    ])
    expect(catalogue['top-set'].work({ sets: [] })).toEqual(['no set'])
  })

  test('rests of which none was measured', () => {
    expect(catalogue['rest-taken'].work({ seconds: [], prescribedSeconds: null })).toEqual([
      'measured: none',
      'mean not known, prescribed not known',
    ])
  })
})
