import { describe, expect, it } from 'vitest'
import { effortWording, readMinutes, readSessionRpe } from '../../src/session/entry/closing.ts'

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
    ['  somewhat   hard ', 4],
    ['0.5', 0.5],
    ['9.500', 9.5],
  ])('%j is read', (text, value) => {
    expect(readSessionRpe(text)).toEqual({ outcome: 'answer', value })
  })

  it.each(['11', '10.5', '-1', '7.25', '8 of 10', 'a8', '8.5000', '1000', 'NaN', '1e1', 'brutal'])(
    '%j is refused',
    (text) => {
      expect(readSessionRpe(text)).toEqual({
        outcome: 'error',
        message: `invalid effort "${text}"; write 0 (rest) to 10 (maximal), halves allowed`,
      })
    },
  )

  // Foster et al. 2001, J Strength Cond Res 15(1):109-115, table 1 (the modified category ratio scale).
  it('has the words of its source', () => {
    const published =
      '0 rest|1 very, very easy|2 easy|3 moderate|4 somewhat hard|5 hard|7 very hard|10 maximal'.split('|')
    expect(effortWording.map(({ value, words }) => `${value} ${words}`)).toEqual(published)
    for (const { value, words } of effortWording)
      expect(readSessionRpe(words)).toEqual({ outcome: 'answer', value })
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
    ['-', null],
    ['5m', 5],
    ['62,5 mins', 62.5],
    ['62 minutes', 62],
    ['62.125', 62.125],
    ['1.125 h', 67.5],
    ['1 h 59', 119],
    ['1.5 h', 90],
    ['1,5h', 90],
    ['1h 2', 62],
    ['1 h 02 mins', 62],
    ['1h2m', 62],
    ['0:59:59', 59 + 59 / 60],
    ['24:00', 1440],
    ['1440', 1440],
    ['0', 0],
  ])('%j is read', (text, value) => {
    expect(readMinutes(text)).toEqual({ outcome: 'answer', value })
  })

  it('are not times of day, and not longer than a day', () => {
    expect(readMinutes('1:75')).toEqual({
      outcome: 'error',
      message: 'invalid minutes "1:75"; write 62 or 1:02',
    })
    expect(readMinutes('62:30')).toEqual({
      outcome: 'error',
      message: 'invalid minutes "62:30"; write 62 or 1:02',
    })
    for (const text of [
      '-5',
      '1:60',
      '1:02:60',
      '1 h 60 min',
      '1:2',
      'x62',
      '62 h 5 x',
      '62 parsecs',
      '1:02:30:00',
    ])
      expect(readMinutes(text), text).toMatchObject({ message: expect.stringContaining('62 or 1:02') })
    for (const text of ['1441', '24:01', '24.1 h'])
      expect(readMinutes(text), text).toMatchObject({ message: expect.stringContaining('62 or 1:02') })
    const long = (letters: number) => readMinutes('a'.repeat(letters))
    expect(long(40)).toMatchObject({ message: expect.stringContaining(`"${'a'.repeat(40)}"`) })
    expect(long(41)).toMatchObject({ message: expect.stringContaining(`"${'a'.repeat(40)}…"`) })
  })
})
