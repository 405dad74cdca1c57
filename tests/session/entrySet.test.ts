import { describe, expect, it } from 'vitest'
import { readEntry } from '../../src/session/entry/entry.ts'
import type { SetResult } from '../../src/session/model.ts'
import {
  answered,
  asManyAsGo,
  bodyweight,
  carry,
  cluster,
  hold,
  roundsIn,
  straight,
  unloaded,
} from './entryPrompts.ts'

/* The forms follow the notation's page on entries; the texts are Pausebook's. */

const kilograms = (value: number) => ({ kind: 'mass' as const, value, unit: 'kg' as const, pair: false })
const result = (changes: Partial<SetResult>): SetResult => ({
  reps: null,
  groups: null,
  seconds: null,
  meters: null,
  load: kilograms(92.5),
  rpe: null,
  failed: false,
  note: null,
  pain: null,
  ...changes,
})
const set = (changes: Partial<SetResult>) => ({ kind: 'set', result: result(changes) })

describe('a set', () => {
  it.each([
    ['', set({ reps: 6 })],
    ['=', set({ reps: 6 })],
    ['7', set({ reps: 7 })],
    ['6 x 100', set({ reps: 6, load: kilograms(100) })],
    ['6x100kg', set({ reps: 6, load: kilograms(100) })],
    ['6 × 100', set({ reps: 6, load: kilograms(100) })],
    ['x 100', set({ reps: 6, load: kilograms(100) })],
    ['100 kg', set({ reps: 6, load: kilograms(100) })],
    ['6 x 97,5', set({ reps: 6, load: kilograms(97.5) })],
    ['6 x 225 lb', set({ reps: 6, load: { kind: 'mass', value: 225, unit: 'lb', pair: false } })],
    ['@8', set({ reps: 6, rpe: 8 })],
    ['rpe 8', set({ reps: 6, rpe: 8 })],
    ['6 rpe: 8', set({ reps: 6, rpe: 8 })],
    ['rir 2', set({ reps: 6, rpe: 8 })],
    ['5 @ rir 2', set({ reps: 5, rpe: 8 })],
    ['6 x 100 @ 8 RPE', set({ reps: 6, load: kilograms(100), rpe: 8 })],
    ['6 @8', set({ reps: 6, rpe: 8 })],
    ['6 x 100 @8.5', set({ reps: 6, load: kilograms(100), rpe: 8.5 })],
    ['@8 6 x 100', set({ reps: 6, load: kilograms(100), rpe: 8 })],
    ['4!', set({ reps: 4, failed: true })],
    ['4 failed', set({ reps: 4, failed: true })],
    ['4x100 failed', set({ reps: 4, load: kilograms(100), failed: true })],
    ['5 @ 2 rir', set({ reps: 5, rpe: 8 })],
    ['5 x 100 2rir', set({ reps: 5, load: kilograms(100), rpe: 8 })],
    ['2rir', set({ reps: 6, rpe: 8 })],
    ['8 each side', set({ reps: 8 })],
    ['8 reps', set({ reps: 8 })],
    ['6 x bw+0', set({ reps: 6, load: { kind: 'bodyweight', added: 0, unit: 'kg' } })],
    ['6 "one" "two"', set({ reps: 6, note: 'one; two' })],
    ['6 “one”', set({ reps: 6, note: 'one' })],
    ['6 ""', set({ reps: 6 })],
    ['0!', set({ reps: 0, failed: true })],
    ['bw', set({ reps: 6, load: { kind: 'bodyweight', added: 0, unit: 'kg' } })],
    ['6 x bw+10', set({ reps: 6, load: { kind: 'bodyweight', added: 10, unit: 'kg' } })],
    ['6 x +10', set({ reps: 6, load: kilograms(102.5) })],
    ['failed at 4', set({ reps: 3, failed: true })],
    ['6 x 2x25', set({ reps: 6, load: { kind: 'mass', value: 25, unit: 'kg', pair: true } })],
    ['6 x 100 "windy back straight"', set({ reps: 6, load: kilograms(100), note: 'windy back straight' })],
    ['6 pain "left knee"', set({ reps: 6, pain: 'left knee' })],
    ['6 pain Left knee', set({ reps: 6, pain: 'Left knee' })],
    ['- "left knee"', { kind: 'skipped', note: 'left knee', pain: null }],
  ])('%j is read', (text, answer) => {
    expect(answered(text, straight)).toEqual(answer)
  })

  it('has no load for an exercise without any', () => {
    expect(answered('8', unloaded)).toEqual(set({ reps: 8, load: null }))
  })

  it('adds a bare mass to the body for a bodyweight exercise', () => {
    expect(answered('6 x 10', bodyweight)).toEqual(
      set({ reps: 6, load: { kind: 'bodyweight', added: 10, unit: 'kg' } }),
    )
    expect(answered('6 x 0 lb', bodyweight)).toEqual(
      set({ reps: 6, load: { kind: 'bodyweight', added: 0, unit: 'kg' } }),
    )
    expect(answered('6 x -20', bodyweight)).toEqual(
      set({ reps: 6, load: { kind: 'bodyweight', added: -20, unit: 'kg' } }),
    )
  })

  it.each([
    ['6\u001b[2J', 'control characters'],
    ['6 "\u202eabc"', 'control characters'],
    ['6'.repeat(501), 'at most 500 characters, and this one has 501'],
    [`1${'+1'.repeat(60)}`, 'at most 50 groups'],
  ])('is refused as %j', (text, reason) => {
    expect(readEntry(text, straight)).toMatchObject({
      outcome: 'error',
      message: expect.stringContaining(reason),
    })
  })

  it('of as many repetitions as possible has those that are typed, or seconds', () => {
    expect(answered('12', asManyAsGo)).toEqual(set({ reps: 12, load: null }))
    expect(answered('45 s', asManyAsGo)).toEqual(set({ seconds: 45, load: null }))
  })
})

describe('a cluster set', () => {
  it.each([
    ['', set({ reps: 4, groups: [2, 2] })],
    ['2+2', set({ reps: 4, groups: [2, 2] })],
    ['(2+2)', set({ reps: 4, groups: [2, 2] })],
    ['2+1 x 140 @9', set({ reps: 3, groups: [2, 1], load: kilograms(140), rpe: 9 })],
    ['2+0', set({ reps: 2, groups: [2, 0] })],
    ['4', set({ reps: 4, groups: [2, 2] })],
    ['4 x 140', set({ reps: 4, groups: [2, 2], load: kilograms(140) })],
    ['0!', set({ reps: 0, groups: [0, 0], failed: true })],
    ['2+2+1', set({ reps: 5, groups: [2, 2, 1] })],
  ])('%j is read', (text, answer) => {
    expect(answered(text, cluster)).toEqual(answer)
  })

  it('fills groups that were not typed with 0', () => {
    const singles = { ...cluster, dose: { kind: 'cluster' as const, groups: [1, 1, 1] } }
    expect(answered('1+1', singles)).toEqual(set({ reps: 2, groups: [1, 1, 0] }))
  })

  it('is typed as a number if it has one group', () => {
    const single = { ...cluster, dose: { kind: 'cluster' as const, groups: [4] } }
    expect(answered('3', single)).toEqual(set({ reps: 3, groups: [3] }))
  })

  it('has what was typed of an AMRAP group', () => {
    const open = { ...cluster, dose: { kind: 'cluster' as const, groups: [2, 'max' as const] } }
    expect(answered('2+5', open)).toEqual(set({ reps: 7, groups: [2, 5] }))
  })
})

describe('a timed or carried set', () => {
  it.each([
    ['', hold, set({ seconds: 45, load: null })],
    ['50', hold, set({ seconds: 50, load: null })],
    ['45 s', hold, set({ seconds: 45, load: null })],
    ['0:45', hold, set({ seconds: 45, load: null })],
    ['1:30 x 20', hold, set({ seconds: 90, load: kilograms(20) })],
    ['', carry, set({ meters: 40 })],
    ['35', carry, set({ meters: 35 })],
    ['40 m', carry, set({ meters: 40 })],
    ['40 m x 95', carry, set({ meters: 40, load: kilograms(95) })],
    ['x 95', carry, set({ meters: 40, load: kilograms(95) })],
  ])('%j is read', (text, asked, answer) => {
    expect(answered(text, asked)).toEqual(answer)
  })

  it('has as many repetitions as its rounds, in a round without those of a carry', () => {
    const repsOf = (typed: string) => answered(typed, roundsIn)
    // By hand: a round is 8 rows and a carry.
    expect(['6+7', '6+8', '6'].map(repsOf)).toMatchObject([55, 56, 48].map((reps) => ({ result: { reps } })))
  })
})

it('an exercise for each side takes the repetitions of both sides', () => {
  const eachSide = { ...straight, side: 'each side' as const }
  expect(readEntry('5/5 x 20', eachSide)).toMatchObject({
    value: { result: { reps: 5, load: { value: 20 } } },
  })
  expect(readEntry('5+5 x 20', eachSide)).toMatchObject({ outcome: 'answer', value: { result: { reps: 5 } } })
  expect(readEntry('5/4 x 20', eachSide).outcome).toBe('question')
})
