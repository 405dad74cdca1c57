import { describe, expect, test } from 'vitest'
import { repeatsAdvice, restOfPiece } from '../../../src/figures/advice.ts'

const range = { from: 107.5, to: 112.5 }
const advice = (seconds: number[], grade: number | null = null) =>
  repeatsAdvice(
    seconds.map((each) => ({ seconds: each, precision: 0.1, range })),
    grade,
  )?.kind ?? null

describe('repeats out of their range', () => {
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
  ])('%s', (_, seconds, kind) => {
    expect(advice(seconds)).toBe(kind)
  })
  test('nothing is said on a grade over 1 %', () => {
    expect([advice([120, 121], 1.5), advice([120, 121], -2), advice([120, 121], 1)]).toEqual([
      null,
      null,
      'rangeLooksFast',
    ])
  })
  test('the words are plain', () => {
    const words = (seconds: number[]) =>
      repeatsAdvice(
        seconds.map((each) => ({ seconds: each, precision: 0.1, range })),
        null,
      )?.words
    expect(words([100, 100])).toBe('ease, the range is there')
    expect(words([120, 120])).toBe('the range looks fast today')
    expect(words([110, 110, 120, 120])).toBe('rest longer, ease off, or stop here')
  })
  test('a time typed to whole seconds has half a second to spare', () => {
    const two = [113, 113].map((seconds) => ({ seconds, precision: 1, range }))
    expect(repeatsAdvice(two, null)).toBeNull()
  })
})

describe('the rest of a continuous piece', () => {
  test('what two more kilometres must be after three of 5 km in 20:25 to 20:50', () => {
    expect(restOfPiece({ meters: 3000, seconds: 740 }, 5000, { from: 1225, to: 1250 })).toEqual({
      meanSecondsPerKm: expect.closeTo(740 / 3, 10),
      restMeters: 2000,
      restSeconds: { from: 485, to: 510 },
      restSecondsPerKm: { from: 242.5, to: 255 },
    })
  })
  test('the range cannot be missed at its fast end any more', () => {
    expect(restOfPiece({ meters: 4000, seconds: 1230 }, 5000, { from: 1225, to: 1250 })).toMatchObject({
      restSeconds: { from: null, to: 20 },
      restSecondsPerKm: { from: null, to: 20 },
    })
  })
  test('half a second is left at either end', () => {
    const range = { from: 1225, to: 1250 }
    expect(restOfPiece({ meters: 4000, seconds: 1249.5 }, 5000, range)?.restSeconds).toEqual({
      from: null,
      to: 0.5,
    })
    expect(restOfPiece({ meters: 4000, seconds: 1224.5 }, 5000, range)).toMatchObject({
      restSeconds: { from: 0.5, to: 25.5 },
      restSecondsPerKm: { from: 0.5, to: 25.5 },
    })
    expect(restOfPiece({ meters: 4999.5, seconds: 1230 }, 5000, range)?.restMeters).toBe(0.5)
  })
  test('the time is gone', () => {
    expect(restOfPiece({ meters: 4000, seconds: 1250 }, 5000, { from: 1225, to: 1250 })).toBeNull()
  })
  test('nothing is left', () => {
    expect(restOfPiece({ meters: 5000, seconds: 1240 }, 5000, { from: 1225, to: 1250 })).toBeNull()
  })
  test('a distance of 0 is refused', () => {
    expect(() => restOfPiece({ meters: 0, seconds: 10 }, 5000, { from: 1, to: 2 })).toThrow(
      new RangeError('the distance must be a number above 0, and 0 arrived'),
    )
  })
})
