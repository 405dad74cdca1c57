import { describe, expect, it } from 'vitest'
import { shortSetsText } from '../../src/summary/liftingText.ts'

describe('sets in short', () => {
  const set = { reps: null, groups: null, seconds: null, meters: null, load: null, rpe: null, failed: false }

  const hundred = { kind: 'mass', value: 100, unit: 'kg', pair: false } as const

  it('are told with at most one decimal, as in the summary: 40 yd are 36.576 m', () => {
    expect(
      shortSetsText(
        [{ ...set, meters: 36.576, load: { kind: 'mass', value: 22.5, unit: 'kg', pair: true } as const }],
        'kg',
      ),
    ).toBe('36.6 m x 2x22.5')
  })

  it('that differ only in effort are one', () => {
    const fives = [8, 8.5, null].map((rpe) => ({ ...set, reps: 5, load: hundred, rpe }))
    const failed = { ...set, reps: 4, load: hundred, failed: true }
    expect(shortSetsText([...fives, failed], 'kg')).toBe('5 x 100 @8 8.5 -, 4 x 100, failed at 5')
  })
})
