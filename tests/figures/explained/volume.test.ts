import { describe, expect, test } from 'vitest'
import { catalogue } from '../../../src/figures/catalogue.ts'

/* Unknown values are named, not shown as zero. */

describe('volume, worked out', () => {
  test('describes a top set of unknown load or repetitions', () => {
    const sets = [
      { kg: null, reps: 8 },
      { kg: 60, reps: null },
    ]
    expect(catalogue['top-set'].work({ sets })).toEqual([
      'set 1: 8 x not known',
      'set 2: - x 60 kg',
      'top: set 2',
    ])
  })

  test('describes rests that were not measured', () => {
    expect(catalogue['rest-taken'].work({ seconds: [], prescribedSeconds: null })).toEqual([
      'measured: none',
      'mean not known, prescribed not known',
    ])
  })
})
