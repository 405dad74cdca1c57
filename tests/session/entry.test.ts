import { describe, expect, it } from 'vitest'
import { describeEmpty, printEntry, readEntry } from '../../src/session/entry/entry.ts'
import type { SetPrompt } from '../../src/session/prompt.ts'
import {
  answered,
  asManyAsGo,
  carry,
  cluster,
  complex,
  dropSet,
  easyTwo,
  fiveHundred,
  foamRoll,
  hold,
  porridge,
  straight,
  timedByKey,
  treadmill,
  twentyMinutes,
  unloaded,
} from './entryPrompts.ts'

const single: SetPrompt = { ...unloaded, dose: { kind: 'reps', from: 1, to: 1 } }

describe('a prep item', () => {
  it.each([
    ['', { kind: 'prep', result: { note: null, pain: null } }],
    ['=', { kind: 'prep', result: { note: null, pain: null } }],
    ['done "stiff"', { kind: 'prep', result: { note: 'stiff', pain: null } }],
    ['-', { kind: 'skipped', note: null, pain: null }],
    ['skip', { kind: 'skipped', note: null, pain: null }],
    ['done no pain', { kind: 'prep', result: { note: 'no pain', pain: null } }],
    ['done, pain free', { kind: 'prep', result: { note: 'pain free', pain: null } }],
  ])('%j is read', (text, answer) => {
    expect(answered(text, foamRoll)).toEqual(answer)
  })
})

describe('a fuel item', () => {
  const eaten = (
    carbsG: number | null,
    proteinG: number | null,
    fatG: number | null,
    kcal: number | null,
  ) => ({
    kind: 'fuel',
    result: { carbsG, proteinG, fatG, kcal, note: null, pain: null },
  })

  it.each([
    ['', eaten(75, 20, 10, null)],
    ['carbs 70 g, protein 18 g', eaten(70, 18, null, null)],
    ['70 g carbs 18 g protein 8 g fat', eaten(70, 18, 8, null)],
    ['carbs 70', eaten(70, null, null, null)],
    ['450 kcal', eaten(null, null, null, 450)],
    ['carbs 80,5 g', eaten(80.5, null, null, null)],
  ])('%j is read', (text, answer) => {
    expect(answered(text, porridge)).toEqual(answer)
  })

  it.each([
    ['caffeine 100 mg', eaten(null, null, null, null), 'caffeine 100 mg'],
    ['100 kcal, 30 mg of caffeine "gel"', eaten(null, null, null, 100), 'caffeine 30 mg; gel'],
  ])('%j keeps its caffeine in words, since no figure uses it', (text, { result }, note) => {
    expect(answered(text, porridge)).toEqual({ kind: 'fuel', result: { ...result, note } })
  })
})

describe('an answer as it would be typed', () => {
  const set = {
    reps: 6,
    groups: null,
    seconds: null,
    meters: null,
    load: null,
    rpe: null,
    failed: false,
    note: null,
    pain: null,
  }
  const piece = {
    meters: 400,
    seconds: 88.4,
    precision: 1,
    heartRate: null,
    heartRateMax: null,
    rpe: null,
    byKey: true,
    note: null,
    pain: null,
  }

  it('leaves out the metres that the prompt knows, and has a time measured by key as a time', () => {
    const typed = (result: Partial<typeof piece>, asked: Parameters<typeof printEntry>[1]) =>
      printEntry({ kind: 'interval', result: { ...piece, ...result } }, asked)
    expect(typed({ meters: 500 }, timedByKey)).toBe('1:28.4')
    expect(typed({ meters: 500 }, fiveHundred)).toBe('1:28.4')
    expect(typed({ meters: 3570, seconds: 1190 }, treadmill)).toBe('19:50')
    expect(typed({ meters: 3571, seconds: 1190 }, treadmill)).toBe('3571 m in 19:50')
    expect(typed({ meters: 3570, seconds: 1190 }, twentyMinutes)).toBe('3.57 km in 19:50')
  })

  it('has the groups of a drop set and its loads with their own sign', () => {
    const groups = { ...set, reps: 22, groups: [12, 10] }
    expect(printEntry({ kind: 'set', result: groups }, dropSet)).toBe('12>10')
    const added = [20, 10].map((value) => ({
      kind: 'bodyweight' as const,
      added: value,
      unit: 'kg' as const,
    }))
    const [load = null] = added
    expect(printEntry({ kind: 'set', result: { ...groups, load, loads: added } }, straight)).toBe(
      '12>10 x bw+20>10',
    )
  })

  it('leaves out the lower loads of a drop set in another unit than the typed one, which would take its unit', () => {
    const typed = readEntry('x 200 lb', dropSet)
    expect(typed).toMatchObject({ value: { result: { loads: [{ unit: 'lb' }, { unit: 'kg' }] } } })
    if (typed.outcome !== 'answer') throw new Error('the entry was not read')
    const printed = printEntry(typed.value, dropSet)
    expect(printed).toBe('12>10 x 200 lb')
    expect(readEntry(printed, dropSet)).toEqual(typed)
  })
})

describe('the empty field says what Enter alone would record', () => {
  const fortyYards: SetPrompt = { ...carry, dose: { kind: 'distance', length: { value: 40, unit: 'yd' } } }
  it.each([
    [straight, '6 x 92.5'],
    [cluster, '2+2 x 92.5'],
    [unloaded, '6 reps'],
    [hold, '45 s'],
    [carry, '40 m x 92.5'],
    [fortyYards, '40 yd x 92.5'],
    [single, '1 rep'],
    [complex, '1+2 x 92.5'],
    [{ ...complex, shown: null }, '1+2'],
    [asManyAsGo, null],
    [fiveHundred, null],
    [timedByKey, '1:52.4, timed by you'],
    [easyTwo, 'done, not timed'],
    [twentyMinutes, '20:00, metres not known'],
    [treadmill, '20:00, 3.6 km'],
    [{ ...treadmill, unit: 'mi' as const }, '20:00, 2.24 mi'],
    [foamRoll, 'done'],
    [porridge, 'carbs 75 g, protein 20 g, fat 10 g'],
  ])('describes what is asked: %j', (asked, text) => {
    expect(describeEmpty(asked)).toBe(text)
  })
})
