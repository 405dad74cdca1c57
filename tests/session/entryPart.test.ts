import { describe, expect, it } from 'vitest'
import { effortWording, readMinutes, readPartEffort } from '../../src/session/entry/effort.ts'

describe('the effort of a part', () => {
  it.each([
    ['8', 8],
    ['8.5', 8.5],
    ['8,5', 8.5],
    ['0', 0],
    ['10', 10],
    ['', null],
    ['-', null],
    ['Very hard', 7],
    ['very very easy', 1],
  ])('%j is read', (text, value) => {
    expect(readPartEffort(text)).toEqual({ outcome: 'answer', value })
  })

  it.each(['11', '-1', '7.25', '8 of 10', 'NaN', '1e1', 'brutal'])('%j is refused', (text) => {
    expect(readPartEffort(text)).toEqual({
      outcome: 'error',
      message: `an effort runs from 0 (rest) over 5 (hard) to 10 (maximal), in halves, not "${text}"`,
    })
  })

  // Foster et al. 2001, J Strength Cond Res 15(1):109-115, table 1 (the modified category ratio scale).
  it('has the words of its source', () => {
    for (const { value, words } of effortWording)
      expect(readPartEffort(words)).toEqual({ outcome: 'answer', value })
    expect(effortWording.map(({ value }) => value)).toEqual([0, 1, 2, 3, 4, 5, 7, 10])
  })
})

describe('minutes', () => {
  it.each([
    ['62', 62],
    ['62 min', 62],
    ['62.5', 62.5],
    ['1:02', 62],
    ['1:02:30', 62.5],
    ['0:45', 45],
    ['1 h 2 min', 62],
    ['1h02', 62],
    ['1 h', 60],
    ['', null],
  ])('%j is read', (text, value) => {
    expect(readMinutes(text)).toEqual({ outcome: 'answer', value })
  })

  it('are not times of day, and not longer than a day', () => {
    expect(readMinutes('1:75')).toEqual({
      outcome: 'error',
      message: 'minutes are written 62, or 1:02 for an hour and two; "1:75" is neither',
    })
    expect(readMinutes('62:30')).toEqual({
      outcome: 'error',
      message: '"62:30" is longer than a day; 62 is minutes, 1:02 hours and minutes',
    })
    expect(readMinutes('-5').outcome).toBe('error')
  })
})
