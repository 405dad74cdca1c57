import { describe, expect, it } from 'vitest'
import {
  noticeLines,
  screenLines,
  screenLinesUpTo,
  wrappedItems,
  wrappedLine,
} from '../../src/ui/widgets/wrapped.ts'

it('items stay whole on a line, except one that is longer than a line; none are no lines', () => {
  expect(wrappedItems(['front squat', 'a press with both hands', 'row'], 16)).toEqual([
    'front squat; a',
    'press with both',
    'hands; row',
  ])
  expect(wrappedItems([], 16)).toEqual([])
})

describe('a line of the summary on a narrow screen', () => {
  it('continues with a deeper indent', () => {
    expect(wrappedLine('  mean 4:07.0, 4:07/km, spread 4.0 s, 5 of 5', 30)).toEqual([
      '  mean 4:07.0, 4:07/km, spread',
      '    4.0 s, 5 of 5',
    ])
    expect(wrappedLine('run: track, 62 min', 40)).toEqual(['run: track, 62 min'])
  })

  it('keeps a bar whole, including the blanks in its range', () => {
    expect(wrappedLine('  1:46.8  ======   [            ]  fast hr 175', 34)).toEqual([
      '  1:46.8  ======   [            ]',
      '    fast hr 175',
    ])
    expect(wrappedLine('  4:09    ========[================    ]  hr 161', 40)).toEqual([
      '  4:09    ========[================    ]',
      '    hr 161',
    ])
  })
})

describe('a text on the screen', () => {
  it('keeps its beginning and its end if there are fewer lines than it needs', () => {
    const text = 'paused squat with straps and a slow descent 2+1 at 92.5 kg: 25 + 10 a side'
    expect(screenLines('one\ntwo three\n', 5)).toEqual(['one', 'two', 'three', ''])
    expect(screenLinesUpTo(4, text, 30)).toEqual(screenLines(text, 30))
    expect(screenLinesUpTo(2, text, 30)).toEqual([
      'paused squat with straps and …',
      '2+1 at 92.5 kg: 25 + 10 a side',
    ])
    expect(screenLinesUpTo(2, text, 34)[0]).toBe('paused squat with straps and a …')
    expect(screenLinesUpTo(1, text, 30)).toEqual([text])
    expect(screenLinesUpTo(2, '深くしゃがむ 92.5 kg: 10 a side', 18)).toEqual([
      '深くしゃがむ 92.5',
      'kg: 10 a side',
    ])
    expect(screenLinesUpTo(2, '深くしゃがむ 92.5 kg: 10 a side', 16)).toEqual([
      '深くしゃがむ …',
      'kg: 10 a side',
    ])
    expect(screenLinesUpTo(2, 'one two threehundredweight', 8)).toEqual(['one two…', 'ht'])
  })

  it('is broken at spaces, a longer word is cut, and there is at least one line', () => {
    expect(screenLines('one two three', 8)).toEqual(['one two', 'three'])
    expect(screenLines('a threehundredweight b', 8)).toEqual(['a', 'threehun', 'dredweig', 'ht b'])
    expect(screenLines('', 8)).toEqual([''])
    expect(screenLines('two', 0)).toEqual(['t', 'w', 'o'])
    expect(screenLines('深くしゃがむ: 3 sets fewer', 18)).toEqual(['深くしゃがむ: 3', 'sets fewer'])
  })
})

describe('a notice', () => {
  it('drops what follows a semicolon until it fits, and is cut only without one', () => {
    expect(noticeLines('one two; three four; five', 8, 1)).toEqual(['one two'])
    expect(noticeLines('one two; three four; five', 12, 2)).toEqual(['one two;', 'three four'])
    expect(noticeLines('one two three four', 8, 2)).toEqual(['one two', 'three four'])
    expect(noticeLines('one two three four five', 8, 2)).toEqual(['one two', 'three four five'])
    expect(noticeLines('', 8, 2)).toEqual([''])
  })
})
