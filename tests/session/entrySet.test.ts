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
  pair,
  shownReading,
  straight,
  unknownLoad,
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
    ['6@100', '100 is not an RPE; a load is written 6 x 100 | suggested: 6 x 100 | insisted: nothing'],
    [
      '6 @ 100 kg',
      '100 is not an RPE; a load is written 6 x 100 kg | suggested: 6 x 100 kg | insisted: nothing',
    ],
    [
      '5 at 100',
      'a load is written after an x; did you mean 5 x 100? | suggested: 5 x 100 | insisted: nothing',
    ],
    [
      '5 at -10',
      'a load is written after an x; did you mean 5 x -10? | suggested: 5 x -10 | insisted: nothing',
    ],
    [
      '8 x 60 kg left shoulder hurts',
      'did you mean 8 x 60 kg pain "left shoulder"? | suggested: 8 x 60 kg pain "left shoulder" | insisted: nothing',
    ],
    [
      '6 pain left calf 4 sharp',
      'did you mean 6 pain left calf 4 "sharp"? | suggested: 6 pain left calf 4 "sharp" | insisted: nothing',
    ],
    ['100 x 6', '100 repetitions with 6 kg; did you mean 6 x 100? | suggested: 6 x 100 | insisted: 100 x 6'],
    [
      '100 x 6 @8',
      '100 repetitions with 6 kg; did you mean 6 x 100 @8? | suggested: 6 x 100 @8 | insisted: 100 x 6 @8',
    ],
    [
      '6 x 1000',
      'a load of 1000 kg is over 500 kg; did you mean 6 x 100? | suggested: 6 x 100 | insisted: 6 x 1000',
    ],
    [
      '6 x 501',
      'a load of 501 kg is over 500 kg; did you mean 6 x 50.1? | suggested: 6 x 50.1 | insisted: 6 x 501',
    ],
    [
      '6 x 1200 lb',
      'a load of 1200 lb is over 500 kg; did you mean 6 x 120 lb? | suggested: 6 x 120 lb | insisted: 6 x 1200 lb',
    ],
    ['101 x 20', '101 repetitions in one set are over 100 | suggested: nothing | insisted: 101 x 20'],
    [
      '100',
      '100 repetitions at 92.5 kg; did you mean 6 x 100 kg? | suggested: 6 x 100 kg | insisted: 100 x 92.5',
    ],
    [
      '92.5',
      'repetitions are whole numbers, not 92.5; a load is written x 92.5 | suggested: x 92.5 | insisted: nothing',
    ],
    [
      '6 100',
      'an x goes between repetitions and load; did you mean 6 x 100? | suggested: 6 x 100 | insisted: nothing',
    ],
    ['3+3', '3+3 counts the groups of a cluster set; did you mean 6? | suggested: 6 | insisted: 3+3 x 92.5'],
    [
      '8/7',
      'one number counts for both sides; did you mean 7 "8/7"? | suggested: 7 "8/7" | insisted: nothing',
    ],
    ['45 s', '45 s? the prescription says repetitions | suggested: nothing | insisted: 45 s x 92.5'],
    [
      '6 @7.3',
      '7.3 is not an RPE: it runs from 1 to 10, in halves; did you mean 6 @7.5? | suggested: 6 @7.5 | insisted: nothing',
    ],
    ['6 @8-9', 'an effort is one number; did you mean 6 @8.5? | suggested: 6 @8.5 | insisted: nothing'],
    ['6 "open', 'the quote is not closed; did you mean 6 "open"? | suggested: 6 "open" | insisted: nothing'],
    ['8/8', 'one number counts for both sides; did you mean 8? | suggested: 8 | insisted: nothing'],
    [
      '7/8',
      'one number counts for both sides; did you mean 7 "7/8"? | suggested: 7 "7/8" | insisted: nothing',
    ],
    [
      '92.5 x 6',
      'repetitions are whole numbers, not 92.5; did you mean 6 x 92.5? | suggested: 6 x 92.5 | insisted: nothing',
    ],
    [
      '100 kg x 6 @8',
      'two loads typed; type one; did you mean 6 x 100 kg @8? | suggested: 6 x 100 kg @8 | insisted: nothing',
    ],
    ['6 x 95 new belt', 'did you mean 6 x 95 "new belt"? | suggested: 6 x 95 "new belt" | insisted: nothing'],
    ['6 gave up', 'error: "gave" is not understood; a set is typed 6, 6 x 92.5 or 6 x 92.5 @8'],
    [
      '4 missed last shoulder hurts',
      'error: "missed" is not understood; a set is typed 6, 6 x 92.5 or 6 x 92.5 @8',
    ],
    ['6 lighter', 'error: "lighter" is not understood; a set is typed 6, 6 x 92.5 or 6 x 92.5 @8'],
    ['6 missed last', 'error: "missed" is not understood; a set is typed 6, 6 x 92.5 or 6 x 92.5 @8'],
    [
      '6 x 0',
      'a load of 0 kg: leave the load out for an exercise without one | suggested: nothing | insisted: 6 x 0',
    ],
    ['8"', 'the quote is not closed; did you mean 8? | suggested: 8 | insisted: nothing'],
    ['6 x bw+', 'error: "+" is not understood; a set is typed 6, 6 x 92.5 or 6 x 92.5 @8'],
    ['6 x 100 bw', 'error: two loads typed; type one'],
    ['6 x 100 7', 'error: "7" is one number too many for a set'],
    ['2+x', 'error: "+" is not understood; a set is typed 6, 6 x 92.5 or 6 x 92.5 @8'],
    [`1${'+1'.repeat(60)}`, 'error: a set has at most 50 groups'],
    ['pain ""', 'error: write where it hurts: pain "left knee"'],
    ['6 @11', 'error: 11 is not an RPE: it runs from 1 to 10, in halves'],
    ['6 @0', 'error: 0 is not an RPE: it runs from 1 to 10, in halves'],
    ['6 rir 10', 'error: rir 10 is out of range: repetitions in reserve run from 0 to 9'],
    ['6 @8 rpe 9', 'error: two efforts typed; type one'],
    ['6 x 100 x 110', 'error: two loads typed; type one'],
    ['6 x', 'error: "x" needs a number after it; a set is typed 6, 6 x 92.5 or 6 x 92.5 @8'],
    ['6!!', 'error: one ! is enough: 4! says that the next repetition failed'],
    ['!', 'error: type how many there were before the one that failed: 4!'],
    ['hr 150', 'error: a heart rate belongs to running, not to a set; type it as a note: "hr 150"'],
    ['pain', 'error: write where it hurts: pain "left knee"'],
    [
      'my left knee hurts 4',
      'did you mean pain "left knee 4"? | suggested: pain "left knee 4" | insisted: nothing',
    ],
    ['sharp pain in the knee', 'error: write where it hurts: pain "left knee"'],
    ['no knee pain', 'error: "no" is not understood; a set is typed 6, 6 x 92.5 or 6 x 92.5 @8'],
    ['squat', 'error: "squat" is not understood; a set is typed 6, 6 x 92.5 or 6 x 92.5 @8'],
    ['-5', 'error: "-" is not understood; a set is typed 6, 6 x 92.5 or 6 x 92.5 @8'],
    ['99999999', 'error: 99999999 is neither a number nor a time such as 6:07, 1:28.4 or 1:02:11'],
    ['6\u001b[2J', 'error: an entry cannot hold control characters; type it again'],
    ['6 "\u202eabc"', 'error: an entry cannot hold control characters; type it again'],
    ['6'.repeat(501), 'error: an entry has at most 500 characters, and this one has 501'],
  ])('%j is answered', (text, answer) => {
    expect(shownReading(text, straight)).toBe(answer)
  })

  it('asks whether a mass on a pair, or on the body, was meant as one', () => {
    expect(shownReading('6 x 25', pair)).toBe(
      'a pair of 25 kg; did you mean 6 x 2x25? | suggested: 6 x 2x25 | insisted: 6 x 25',
    )
    expect(shownReading('2x25', pair)).toBe(
      'a pair of 25 kg; did you mean x 2x25? | suggested: x 2x25 | insisted: 2 x 25',
    )
    expect(shownReading('6 x 100', bodyweight)).toBe(
      '100 kg on top of bodyweight; did you mean 6 x bw+100? | suggested: 6 x bw+100 | insisted: 6 x 100',
    )
  })

  it('does not take a target for a result: an unknown load must be typed', () => {
    const text = 'error: the load is not known yet: type it as well, such as 6 x 100'
    expect(shownReading('', unknownLoad)).toBe(text)
    expect(shownReading('6', unknownLoad)).toBe(text)
    expect(shownReading('x 80', unknownLoad)).toBe('6 x 80')
  })

  it('does not take a target for a result: the repetitions of an AMRAP must be typed', () => {
    const text = 'error: as many reps as possible: type how many there were, such as 6'
    expect(shownReading('', asManyAsGo)).toBe(text)
    expect(shownReading('@9', asManyAsGo)).toBe(text)
    expect(shownReading('', { ...straight, dose: { kind: 'atLeast', reps: 5 } })).toBe(text)
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

  it.each([
    ['2', '2 repetitions in groups: 2+0 or 1+1? | suggested: 2+0 | insisted: nothing'],
    ['3 x 140', '3 repetitions in groups: 2+1? | suggested: 2+1 x 140 | insisted: nothing'],
    ['1', '1 repetition in groups: 1+0? | suggested: 1+0 | insisted: nothing'],
    ['failed at 2', '1 repetition in groups: 1+0? | suggested: failed 1+0 | insisted: nothing'],
  ])('asks about %j, which is not the prescribed total', (text, answer) => {
    expect(shownReading(text, cluster)).toBe(answer)
  })

  it('fills groups that were not typed with 0', () => {
    const singles = { ...cluster, dose: { kind: 'cluster' as const, groups: [1, 1, 1] } }
    expect(answered('1+1', singles)).toEqual(set({ reps: 2, groups: [1, 1, 0] }))
  })

  it('is typed as a number if it has one group', () => {
    const single = { ...cluster, dose: { kind: 'cluster' as const, groups: [4] } }
    expect(answered('3', single)).toEqual(set({ reps: 3, groups: [3] }))
  })

  it('must be typed group by group if it has an AMRAP group', () => {
    const open = { ...cluster, dose: { kind: 'cluster' as const, groups: [2, 'max' as const] } }
    expect(shownReading('', open)).toBe(
      'error: as many reps as possible: type how many there were, such as 2+3',
    )
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

  it('questions a point that was typed for a colon', () => {
    expect(shownReading('0.45 @8', hold)).toBe(
      '0.45 s? the prescription says 45 s; did you mean 0:45 @8? | suggested: 0:45 @8 | insisted: 0.45 s @8',
    )
    expect(answered('44.5', hold)).toEqual(set({ seconds: 44.5, load: null }))
  })

  it('questions an entry in another measure than prescribed', () => {
    expect(shownReading('10 reps', hold)).toBe(
      '10 repetitions? the prescription says 45 s | suggested: nothing | insisted: 10 reps',
    )
    expect(shownReading('0:30', carry)).toBe(
      '30 s? the prescription says 40 m | suggested: nothing | insisted: 30 s x 92.5',
    )
  })

  it.each(['10k', '9 km', '4 mi'])('takes %s for no distance', (text) => {
    expect(shownReading(text, carry)).toMatch(/^error: /)
  })

  it('questions a hold of over an hour', () => {
    expect(shownReading('3601', hold)).toBe('3601 s is over an hour | suggested: nothing | insisted: 3601 s')
    expect(shownReading('10000 m', carry)).toBe('10000 m x 92.5')
    expect(shownReading('10100 m', carry)).toBe(
      '10100 m in one set are over 10 km | suggested: nothing | insisted: 10100 m x 92.5',
    )
    expect(shownReading('1441 min', hold)).toBe('error: 86460 s is longer than a day')
  })
})

it('an exercise for each side takes the repetitions of both sides', () => {
  const eachSide = { ...straight, side: 'each side' as const }
  expect(readEntry('5/5 x 20', eachSide)).toMatchObject({
    value: { result: { reps: 5, load: { value: 20 } } },
  })
  expect(readEntry('5+5 x 20', eachSide)).toMatchObject({ outcome: 'answer', value: { result: { reps: 5 } } })
  expect(readEntry('5/4 x 20', eachSide).outcome).toBe('question')
  expect(shownReading('5+4', eachSide)).toBe(shownReading('5/4', eachSide))
  const six = { ...eachSide, dose: { kind: 'reps' as const, from: 6, to: 6 } }
  expect(shownReading('12', six)).toBe(
    '12 on each side; did you mean 6? | suggested: 6 | insisted: 12 x 92.5',
  )
})
