import { describe, expect, test } from 'vitest'
import {
  changeAfter,
  type IntervalUnderWay,
  isExplosive,
  type LastSet,
  outsideOf,
  repeatsAdvice,
  restOfInterval,
  slowestHardPace,
} from '../../src/figures/advice.ts'
import type { Range } from '../../src/figures/splits.ts'

/* Advice while running, then while lifting. All limits: this program's own rule. */

const range = { from: 107.5, to: 112.5 }
const advice = (seconds: number[], grade: number | null = null) =>
  repeatsAdvice(
    seconds.map((each) => ({ seconds: each, precision: 0.1, range })),
    grade,
    null,
  )
const words = {
  ease: 'ease off: the range is fast enough',
  rangeLooksFast: 'the range looks fast today',
  restLonger: 'rest longer, ease off, or stop here',
  atLimit: 'You are at your limit: rest longer or stop here',
}

describe('repeats outside their range', () => {
  test.each([
    ['the first two more than 2 % fast', [105.34, 105.34], 'ease'],
    ['the first two just 2 % fast', [105.34, 105.36], null],
    ['the first two slow', [112.6, 113], 'rangeLooksFast'],
    ['one of the first two slow', [112.5, 113], null],
    ['one fast and one slow', [104, 114], null],
    ['one alone', [120], null],
    ['none', [], null],
    ['the third slow', [110, 110, 120], null],
    ['the second and third slow', [110, 118, 119], null],
    ['two later ones in a row slow', [110, 110, 114, 114], 'restLonger'],
    ['two later ones slow by a little more than 3 %', [110, 110, 113.31, 113.31], 'restLonger'],
    ['slower than the first, but not than the median of all before', [108, 110, 112, 113, 113], null],
    ['slower than the median of the two before', [108, 112, 113.5, 113.5], 'restLonger'],
    ['two later ones slow by just 3 %', [110, 110, 113.3, 113.3], null],
    ['two later ones, one of them less slow', [110, 110, 114, 113], null],
    ['two slow ones apart', [110, 110, 114, 110, 114], null],
    ['slower than the median, but in the range', [108, 108, 111.5, 111.5], null],
    ['the last two of six', [108, 110, 112, 110, 115, 116], 'restLonger'],
    ['slow from the start, and no slower now', [115, 115, 115, 116], null],
  ] as const)('are advised on: %s', (_, seconds, kind) => {
    expect(advice([...seconds])).toBe(kind && words[kind])
  })
  test('get no advice on a grade over 1 %', () => {
    expect([advice([120, 121], 1.5), advice([120, 121], -2), advice([120, 121], 1)]).toEqual([
      null,
      null,
      words.rangeLooksFast,
    ])
  })
  test('typed to whole seconds have half a second to spare', () => {
    const two = [113, 113].map((seconds) => ({ seconds, precision: 1, range }))
    expect(repeatsAdvice(two, null, null)).toBeNull()
  })
})

test('repeats of 200, 400, 800 and 400 m are compared by the middle of their own ranges', () => {
  const each = (seconds: number, from: number, to: number) => {
    return { seconds, precision: 0.1, range: { from, to } }
  }
  const before = [each(43, 42, 44), each(86, 84, 88)]
  // 3 % more than 172 s and 86 s is 177.16 and 88.58.
  expect(repeatsAdvice([...before, each(177.1, 168, 176), each(88.6, 84, 88)], null, null)).toBeNull()
  expect(repeatsAdvice([...before, each(177.2, 168, 176), each(88.6, 84, 88)], null, null)).toBe(
    words.restLonger,
  )
})

describe('the effort of the last repeat', () => {
  const limit = (seconds: number[], effort: number | null, grade: number | null = null) =>
    repeatsAdvice(
      seconds.map((each) => ({ seconds: each, precision: 0.1, range })),
      grade,
      effort,
    )
  test('is at the limit in the range at 9.5 or more', () => {
    expect([limit([110], 9.5), limit([110, 110, 110], 10), limit([110], 9)]).toEqual([
      words.atLimit,
      words.atLimit,
      null,
    ])
  })
  test('counts less than what the times say', () => {
    expect(limit([120, 120], 10)).toBe('the range looks fast today')
  })
  test('alone counts without a target time', () => {
    expect([limit([], 9.5), limit([], 9)]).toEqual([words.atLimit, null])
  })
  test('alone counts on a grade', () => {
    expect([limit([120, 120], 10, 4), limit([120, 120], 8, 4)]).toEqual([words.atLimit, null])
  })
})

/* All expected paces are computed by hand from (range of the interval - time so far) / kilometres left, cut to the
 * range with its fast end 1 % faster. */
describe('the rest of a continuous run', () => {
  const fiveKm = { from: 1225, to: 1250 }
  const soFar = (
    seconds: number[],
    more: Partial<Omit<IntervalUnderWay, 'range'>> = {},
  ): Omit<IntervalUnderWay, 'range'> => ({
    meters: seconds.length * 1000,
    seconds: seconds.reduce((sum, each) => sum + each, 0),
    effort: null,
    negative: false,
    ...more,
  })

  /** With one target for all of it. */
  const restOf = (done: Omit<IntervalUnderWay, 'range'>, meters: number, range: Range) => {
    const stretch = (length: number) => ({
      meters: length,
      range: { from: (range.from * length) / meters, to: (range.to * length) / meters },
    })
    return restOfInterval({ ...done, ...stretch(done.meters) }, stretch(meters - done.meters))
  }

  test('cannot reach 4:05-4:10 over 5 km after 4:20, 4:21, 4:22, 4:24, and never asks for 2:58', () => {
    for (const effort of [null, 9.5]) {
      expect(restOf(soFar([260, 261, 262, 264], { effort }), 5000, fiveKm)).toMatchObject({
        kind: 'outOfReach',
      })
    }
  })

  test('is the part inside the range after 4:06, 4:07, 4:07', () => {
    // 1225 - 740 = 485 s and 1250 - 740 = 510 s for 2 km: 242.5 to 255; 245 less 1 % is 242.55, 250 the slow end.
    expect(restOf(soFar([246, 247, 247]), 5000, fiveKm)).toEqual({
      kind: 'endsInRange',
      meanSecondsPerKm: expect.closeTo(740 / 3, 10),
      secondsPerKm: { from: expect.closeTo(242.55, 10), to: 250 },
    })
  })

  test('need not reach the range at an effort of 9.5', () => {
    expect(restOf(soFar([246, 247, 247], { effort: 9.5 }), 5000, fiveKm)).toBeNull()
    expect(restOf(soFar([246, 247, 247], { effort: 9 }), 5000, fiveKm)).toMatchObject({
      kind: 'endsInRange',
    })
  })

  test('is to hold the range or ease off after four splits ahead of it, never slower than the range', () => {
    // 4 x 240 s: 265 to 290 s for the last km, all slower than 4:10.
    const ahead = restOf(soFar([240, 240, 240, 240]), 5000, fiveKm)
    expect(ahead).toMatchObject({ kind: 'ahead', aheadSecondsPerKm: 5 })
  })

  test('is compared with the last split, not slowed down, if it is negative and four splits are ahead', () => {
    const seconds = [242, 241, 240, 239]
    expect(restOf(soFar(seconds, { negative: true }), 5000, fiveKm)).toEqual({ kind: 'keepOn' })
    expect(restOf(soFar(seconds, { negative: true, effort: 9 }), 5000, fiveKm)).toMatchObject({
      kind: 'ahead',
    })
  })

  test('is the same with negative as without if it is inside the range', () => {
    expect(restOf(soFar([247, 247], { negative: true }), 5000, fiveKm)).toMatchObject({
      kind: 'endsInRange',
    })
  })

  test('is out of reach when the time is over', () => {
    expect(restOf(soFar([312, 313, 312, 313]), 5000, fiveKm)).toMatchObject({ kind: 'outOfReach' })
  })

  test('is not faster than the fast end of a very wide range', () => {
    expect(restOf(soFar([240]), 2000, { from: 180, to: 840 })).toMatchObject({
      kind: 'endsInRange',
      secondsPerKm: { from: expect.closeTo(89.1, 10), to: 420 },
    })
  })

  test('is just within reach at one per cent faster than the range', () => {
    // 245 less 1 % is 242.55: 4 km in 1007.45 s leave 242.55 s to the slow end.
    const slow = (seconds: number) => restOf(soFar([251, 252, 252, seconds]), 5000, fiveKm)?.kind
    expect([slow(252.4), slow(252.5)]).toEqual(['endsInRange', 'outOfReach'])
  })

  // 4:15, 4:10, 4:05, 4:00 and 3:55, each 1 % wide: 980.1 to 999.9 s for four, 232.65 to 237.35 s for the last.
  test('of a progression is compared with the paces of what is left, not of the whole', () => {
    const last = { meters: 1000, range: { from: 232.65, to: 237.35 } }
    const four = (seconds: number, negative = false) =>
      restOfInterval(
        { ...soFar([0, 0, 0, 0], { negative }), seconds, range: { from: 980.1, to: 999.9 } },
        last,
      )
    expect(four(998)).toEqual({
      kind: 'endsInRange',
      meanSecondsPerKm: 249.5,
      // 980.1 + 232.65 - 998 = 214.75 s is more than 1 % faster than 232.65; 999.9 + 237.35 - 998 = 239.25 s is slower.
      secondsPerKm: { from: expect.closeTo(230.3235, 10), to: 237.35 },
    })
    // 980.1 - 970 = 10.1 s ahead over 4 km; 242.75 s would be left.
    expect(four(970)).toMatchObject({ kind: 'ahead', aheadSecondsPerKm: expect.closeTo(2.525, 10) })
    // 999.9 + 237.35 - 1008 = 229.25 s is left.
    expect(four(1008)?.kind).toBe('outOfReach')
    expect([four(980, true)?.kind, four(981, true)?.kind]).toEqual(['keepOn', 'endsInRange'])
  })

  test('does not exist at the end', () => {
    expect(restOf(soFar([248, 248, 248, 248, 248]), 5000, fiveKm)).toBeNull()
  })
})

test('a heart rate of 168 against 135-145 is 23 over, 130 is 5 under, 145 is in', () => {
  const range = { from: 135, to: 145 }
  expect([outsideOf(168, range), outsideOf(130, range), outsideOf(145, range)]).toEqual([23, -5, 0])
})

// The shares of 88 % and 115 % and the effort of 7 are this program's own rule.
describe('hard running', () => {
  // 12,600 s x (10 / 42.195)^1.06 = 2739 s, by hand: 4:34 a kilometre, and 15 % more.
  test.each([
    ['10 km in 40:00', { meters: 10_000, seconds: 2400 }, 276],
    ['5 km in 20:00', { meters: 5000, seconds: 1200 }, 276],
    ['a marathon in 3:30:00, of which 5:40 is an easy pace', { meters: 42_195, seconds: 12_600 }, 315],
  ])('is 15 %% slower than the goal at most: %s', (_, goal, slowest) =>
    expect(slowestHardPace(goal)).toBeCloseTo(slowest, 0),
  )

  test('has no pace of its own for the goal of an ultra runner, whose easy miles are faster than the race', () => {
    expect(slowestHardPace({ meters: 50 * 1609.344, seconds: 9.5 * 3600 })).toBeNull()
  })
})

/* 4 % of the load for a point of effort: Helms 2018, from memory. All limits: this program's own rule. What the change
 * becomes with the loads that can be made is in tests/recorder/advice.test.ts. */

const after = (set: Partial<LastSet>) =>
  changeAfter({ rpe: null, failed: false, target: null, noHeavier: false, ...set })
const percentAfter = (set: Partial<LastSet>) => Math.round((after(set) ?? 0) * 1000) / 10

describe('the change of the load after a set', () => {
  test.each([
    ['a written 8 undercut by 2', 6, { from: 8, to: 8 }, 5],
    ['a written 8 undercut by 1.5', 6.5, { from: 8, to: 8 }, 5],
    ['a written 7-8 undercut by 2', 5, { from: 7, to: 8 }, 5],
    ['a written 8 exceeded by 1', 9, { from: 8, to: 8 }, -4],
    ['a written 7-8 exceeded by 1', 9, { from: 7, to: 8 }, -4],
    ['a written 8 exceeded by 1.5', 9.5, { from: 8, to: 8 }, -6],
    ['a written 8 exceeded by 2', 10, { from: 8, to: 8 }, -8],
    ['a written 7 exceeded by 3: at most 10 % less', 10, { from: 7, to: 7 }, -10],
    ['10 without a written effort, as if 8 were written', 10, null, -8],
  ])('%s: after RPE %s against %o it is %s %%', (_, rpe, target, percent) => {
    expect(percentAfter({ rpe, target })).toBe(percent)
  })

  test.each([
    ['a written 8 undercut by 1', 7, { from: 8, to: 8 }],
    ['inside the written range', 7.5, { from: 7, to: 8 }],
    ['exceeded by half a point', 8.5, { from: 8, to: 8 }],
    ['9.5 without a written effort', 9.5, null],
    ['an easy first set without a written effort', 6, null],
    ['no effort typed', null, { from: 8, to: 8 }],
  ])('%s: gives no advice', (_, rpe, target) => {
    expect(after({ rpe, target })).toBeNull()
  })

  test('never goes up after pain, a failed repetition, on sets by the clock, light loads and explosive lifts', () => {
    expect(after({ rpe: 5, target: { from: 8, to: 8 }, noHeavier: true })).toBeNull()
    expect(percentAfter({ rpe: 10, noHeavier: true })).toBe(-8)
  })

  // A failed repetition is an effort of 10; a set done at 10 must not come down further than one that failed.
  test.each([
    ['9 written', { from: 9, to: 9 }, -5],
    ['8 written', { from: 8, to: 8 }, -8],
    ['7-8 written', { from: 7, to: 8 }, -8],
    ['7 written: at most 10 % less', { from: 7, to: 7 }, -10],
    ['none written', null, -5],
  ])('after a failed repetition with %s, against %o, is %s %%', (_, target, percent) => {
    for (const rpe of [null, 6, 10]) expect(percentAfter({ failed: true, rpe, target })).toBe(percent)
  })
})

test.each([
  ['power clean', true],
  ['clean & jerk', true],
  ['snatch', true],
  ['box jumps', true],
  ['kettlebell swing', true],
  ['push press', true],
  ['medicine ball throw', true],
  ['bench press', false],
  ['deadlift', false],
  ['jumper row', false],
])('%s explosive: %s', (name, explosive) => {
  expect(isExplosive(name)).toBe(explosive)
})
