import { describe, expect, it } from 'vitest'
import { printEntry, readEntry } from '../../src/session/entry/entry.ts'
import type { IntervalResult } from '../../src/session/model.ts'
import type { Answer } from '../../src/session/prompt.ts'
import {
  answered,
  easyTwo,
  fiveHundred,
  mile,
  shownReading,
  timedByKey,
  treadmill,
  twentyMinutes,
} from './entryPrompts.ts'

const interval = (changes: Partial<IntervalResult>) => ({
  kind: 'interval',
  result: {
    meters: 500,
    seconds: null,
    precision: null,
    heartRate: null,
    heartRateMax: null,
    rpe: null,
    byKey: false,
    note: null,
    pain: null,
    ...changes,
  },
})

describe('a split or a repeat', () => {
  it.each([
    ['1:28.4', interval({ seconds: 88.4, precision: 0.1 })],
    ['88.4', interval({ seconds: 88.4, precision: 0.1 })],
    ["1'28", interval({ seconds: 88, precision: 1 })],
    [`1'28" hr 178`, interval({ seconds: 88, precision: 1, heartRate: 178 })],
    [`1'28"4`, interval({ seconds: 88.4, precision: 0.1 })],
    [`1'28" "5'40 jog after"`, interval({ seconds: 88, precision: 1, note: "5'40 jog after" })],
    ['1:28,4', interval({ seconds: 88.4, precision: 0.1 })],
    ['1:28', interval({ seconds: 88, precision: 1 })],
    ["1'28.4", interval({ seconds: 88.4, precision: 0.1 })],
    ['1m28s hr 178', interval({ seconds: 88, precision: 1, heartRate: 178 })],
    ['1 min 28 s', interval({ seconds: 88, precision: 1 })],
    ['1:28.45', interval({ seconds: 88.45, precision: 0.01 })],
    ['88 s', interval({ seconds: 88, precision: 1 })],
    ['1:28.4 hr 178 rpe 8', interval({ seconds: 88.4, precision: 0.1, heartRate: 178, rpe: 8 })],
    ['rpe 8 hr 178 1:28.4', interval({ seconds: 88.4, precision: 0.1, heartRate: 178, rpe: 8 })],
    ['1:28 hr 171/183', interval({ seconds: 88, precision: 1, heartRate: 171, heartRateMax: 183 })],
    ['1:28 hr: 171', interval({ seconds: 88, precision: 1, heartRate: 171 })],
    [
      '1:28 171/183 bpm @8.5',
      interval({ seconds: 88, precision: 1, heartRate: 171, heartRateMax: 183, rpe: 8.5 }),
    ],
    ['2.9 km in 14:30', interval({ meters: 2900, seconds: 870, precision: 1 })],
    ['14:30 for 2.9 km', interval({ meters: 2900, seconds: 870, precision: 1 })],
    ['1:28 "windy back straight"', interval({ seconds: 88, precision: 1, note: 'windy back straight' })],
    ['-', { kind: 'skipped', note: null, pain: null }],
  ])('%j is read', (text, answer) => {
    expect(answered(text, fiveHundred)).toEqual(answer)
  })

  it('may take hours', () => {
    expect(answered('1:02:11', { ...mile, meters: 15000 })).toEqual(
      interval({ meters: 15000, seconds: 3731, precision: 1 }),
    )
  })

  it.each([
    [
      '6.07',
      '6.07 s for 1 mi is faster than any human; did you mean 6:07? | suggested: 6:07 | insisted: 0:06.07',
    ],
    [
      '6.07 hr 170',
      '6.07 s for 1 mi is faster than any human; did you mean 6:07 hr 170? | suggested: 6:07 hr 170 | insisted: 0:06.07 hr 170',
    ],
    ['6', '6 s for 1 mi is faster than any human; did you mean 6:00? | suggested: 6:00 | insisted: 0:06'],
    [
      '6:07:00',
      '6:07:00 for 1 mi is slower than 0.5 m/s; did you mean 6:07? | suggested: 6:07 | insisted: 6:07:00',
    ],
    ['1:02:11', '1:02:11 for 1 mi is slower than 0.5 m/s | suggested: nothing | insisted: 1:02:11'],
    ['6:07 hr 300', 'a heart rate of 300 is outside 30 to 250 | suggested: nothing | insisted: 6:07 hr 300'],
    ['6:07 hr 29', 'a heart rate of 29 is outside 30 to 250 | suggested: nothing | insisted: 6:07 hr 29'],
    ['6:07 hr 183/171', '6:07 hr 171/183'],
    [
      '6:07 left calf pain 3',
      'did you mean 6:07 pain "left calf 3"? | suggested: 6:07 pain "left calf 3" | insisted: nothing',
    ],
    [
      '6:07 172',
      'there are two times, 6:07 and 172; type one; did you mean 6:07 hr 172? | suggested: 6:07 hr 172 | insisted: nothing',
    ],
    [
      '6:07 into the wind',
      'did you mean 6:07 "into the wind"? | suggested: 6:07 "into the wind" | insisted: nothing',
    ],
    [
      '6:7',
      '6:7 is neither a number nor a time such as 6:07, 1:28.4 or 1:02:11; did you mean 6:07? | suggested: 6:07 | insisted: nothing',
    ],
    [
      '6.07.2',
      '6.07.2 is neither a number nor a time such as 6:07, 1:28.4 or 1:02:11; did you mean 6:07.2? | suggested: 6:07.2 | insisted: nothing',
    ],
    ['1:2:11', 'error: 1:2:11 is neither a number nor a time such as 6:07, 1:28.4 or 1:02:11'],
    ['1:75:00', 'error: 1:75:00 is neither a number nor a time such as 6:07, 1:28.4 or 1:02:11'],
    ['6:75', 'error: 6:75 is neither a number nor a time such as 6:07, 1:28.4 or 1:02:11'],
    ['6:', 'error: 6: is neither a number nor a time such as 6:07, 1:28.4 or 1:02:11'],
    ['0:00', 'error: a time must be more than 0:00; type the time of 1 mi, such as 8:03'],
    ['3:50/km', '3:50/km over 1 mi is 6:10.1; did you mean 6:10.1? | suggested: 6:10.1 | insisted: nothing'],
    ['5:28/mi', '5:28/mi over 1 mi is 5:28; did you mean 5:28? | suggested: 5:28 | insisted: nothing'],
    ['4 laps in 6:07', 'error: laps differ in length; type the distance in m, km or mi'],
    ['0.5 m in 6:07', 'error: 0.5 m is less than a metre; type the time of 1 mi, such as 8:03'],
    ['6:07 6:05', 'error: there are two times, 6:07 and 6:05; type one'],
    ['6:07 hr 170.6', 'error: a heart rate is a whole number'],
    ['6:07 hr 170 hr 171', 'error: two heart rates typed; type one'],
    ['6:07 rir', 'error: "rir" needs a number after it; type the time of 1 mi, such as 8:03'],
    ['1609 m 1 mi', 'error: there are two distances, 1609 m and 1 mi; type one'],
    ['1:2:3:4', 'error: 1:2:3:4 is neither a number nor a time such as 6:07, 1:28.4 or 1:02:11'],
    ['12345:00', 'error: 12345:00 is neither a number nor a time such as 6:07, 1:28.4 or 1:02:11'],
    ['6.07.08', 'error: 6.07.08 is neither a number nor a time such as 6:07, 1:28.4 or 1:02:11'],
    ['700 mi', 'error: 700 mi is farther than the 1000 km that one interval may be'],
    ['97 h', 'error: 97 h is longer than the four days that one interval may take'],
    ['left calf hurts', 'error: write where it hurts: pain "left knee"'],
    ['quick', 'error: "quick" is not understood; type the time of 1 mi, such as 8:03'],
    ['6:07 hr', 'error: "hr" needs a number after it; type the time of 1 mi, such as 8:03'],
    ['6:07 hr 1000', 'error: a heart rate of 1000 cannot be stored: it runs from 30 to 250'],
    ['6:07 @', 'error: "@" needs a number after it; type the time of 1 mi, such as 8:03'],
    ['6:07 @20', 'error: 20 is not an RPE: it runs from 1 to 10, in halves'],
  ])('%j for a mile is answered', (text, answer) => {
    expect(shownReading(text, mile)).toBe(answer)
  })

  it('questions a time far from the written one, such as that of the whole run for one split', () => {
    const repeat = { ...fiveHundred, target: { from: 107, to: 112 } }
    expect(shownReading('0:58', repeat)).toBe(
      '0:58 for 500 m is far from its target of 1:47-1:52 | suggested: nothing | insisted: 0:58',
    )
    expect(shownReading('500', repeat)).toBe(
      '8:20 for 500 m is far from its target of 1:47-1:52 | suggested: nothing | insisted: 8:20',
    )
    expect(shownReading('9:10', repeat)).toBe(
      '9:10 for 500 m is far from its target of 1:47-1:52 | suggested: nothing | insisted: 9:10',
    )
    expect(['1:05', '5:36', '300'].map((typed) => shownReading(typed, repeat))).toEqual([
      '1:05',
      '5:36',
      '5:00',
    ])
  })

  it('questions a ride only where no cyclist is that fast', () => {
    const ride = { ...mile, part: 'cross' as const, meters: 20_000, label: '20 km' }
    expect(shownReading('48:00', ride)).toBe('48:00')
    expect(shownReading('4:48', ride)).toBe(
      '4:48 for 20 km is faster than 25 m/s; did you mean 4:48:00? | suggested: 4:48:00 | insisted: 4:48',
    )
  })

  it('questions 88 s for a half marathon', () => {
    expect(shownReading('1:28', { ...mile, meters: 21097.5, label: 'half marathon' })).toBe(
      '1:28 for half marathon is faster than any human; did you mean 1:28:00? | suggested: 1:28:00 | insisted: 1:28',
    )
  })

  it('does not take a target for a result', () => {
    const text = 'error: a target is never a result: type the time of 1 mi, such as 8:03'
    expect(shownReading('', mile)).toBe(text)
    expect(shownReading('hr 170', mile)).toBe(text)
    expect(shownReading('2.9 km', mile)).toBe('error: type the time as well: 2.9 km in 14:30')
  })

  it('is done and not timed if it is easy and nothing is typed', () => {
    expect(answered('', easyTwo)).toEqual(interval({ meters: 2000 }))
    expect(answered('hr 131', easyTwo)).toEqual(interval({ meters: 2000, heartRate: 131 }))
    expect(answered('2.9 km', easyTwo)).toEqual(interval({ meters: 2900 }))
  })

  it('takes the time measured by key if nothing else is typed', () => {
    expect(answered('', timedByKey)).toEqual(interval({ seconds: 112.4, precision: 0.1, byKey: true }))
    expect(answered('rpe 8', timedByKey)).toEqual(
      interval({ seconds: 112.4, precision: 0.1, byKey: true, rpe: 8 }),
    )
    expect(answered('1:51', timedByKey)).toEqual(interval({ seconds: 111, precision: 1 }))
  })

  it('questions a time measured by a key that was pressed twice', () => {
    expect(shownReading('', { ...timedByKey, offered: 0.4 })).toBe(
      '0:00.4 for 500 m is faster than any human | suggested: nothing | insisted: 0:00.4',
    )
  })
})

describe('bare digits that may be a time without its colon', () => {
  const target = { from: 88, to: 92 }
  it.each([
    ['1110', easyTwo, '1110 s for 2 km is 18:30; did you mean 11:10?', '11:10', '18:30'],
    [
      '1110.5 hr 150',
      easyTwo,
      '1110.5 s for 2 km is 18:30.5; did you mean 11:10.5 hr 150?',
      '11:10.5 hr 150',
    ],
    [
      '2.9 km in 1430',
      easyTwo,
      '1430 s for 2.9 km is 23:50; did you mean 2.9 km in 14:30?',
      '2.9 km in 14:30',
    ],
    [
      '412',
      { ...easyTwo, meters: 1000, label: '1 km' },
      '412 s for 1 km is 6:52; did you mean 4:12?',
      '4:12',
      '6:52',
    ],
    ['131', { ...fiveHundred, target }, '131 s for 500 m is 2:11; did you mean 1:31?', '1:31', '2:11'],
    ['131.4', { ...fiveHundred, target }, '131.4 s for 500 m is 2:11.4; did you mean 1:31.4?', '1:31.4'],
    [
      '12811',
      { ...mile, meters: 21097.5, label: 'half marathon' },
      '12811 s for half marathon is 3:33:31; did you mean 1:28:11?',
      '1:28:11',
      '3:33:31',
    ],
  ] as const)('%j are asked about', (text, asked, message, suggested, insisted?: string) => {
    const reading = readEntry(text, asked)
    expect(reading).toMatchObject({ outcome: 'question', message, suggested: { text: suggested } })
    if (reading.outcome === 'question' && insisted)
      expect(printEntry(reading.insisted as Answer, asked)).toBe(insisted)
  })

  it.each([
    ['less than 200 s without a target', '131', fiveHundred, '2:11'],
    ['seconds near the target', '131', { ...fiveHundred, target: { from: 120, to: 125 } }, '2:11'],
    ['four digits near the target', '1110', { ...easyTwo, target: { from: 1080, to: 1140 } }, '18:30'],
    [
      'a clock that the target does not know',
      '131',
      { ...fiveHundred, target: { from: 60, to: 62 } },
      '2:11',
    ],
    ['digits that are no time', '1175', easyTwo, '19:35'],
    ['a unit', '1110 s', easyTwo, '18:30'],
    ['a time that nobody runs', '1110', { ...mile, meters: 5000, label: '5 km' }, '18:30'],
    ['the prescribed time', '1200', treadmill, '20:00'],
  ] as const)('are seconds for %s', (_, text, asked, answer) => {
    expect(shownReading(text, asked)).toBe(answer)
  })
})

describe('an interval given by time', () => {
  it('took the prescribed time, and its metres are unknown unless they are typed', () => {
    expect(answered('', twentyMinutes)).toEqual(interval({ meters: null, seconds: 1200, precision: 1 }))
    expect(answered('4.1 km', twentyMinutes)).toEqual(interval({ meters: 4100, seconds: 1200, precision: 1 }))
    expect(answered('19:30', twentyMinutes)).toEqual(interval({ meters: null, seconds: 1170, precision: 1 }))
    expect(answered('2.9 km in 14:30', twentyMinutes)).toEqual(
      interval({ meters: 2900, seconds: 870, precision: 1 }),
    )
  })

  it('covers speed times time on a treadmill with a speed', () => {
    expect(answered('', treadmill)).toEqual(interval({ meters: 3600, seconds: 1200, precision: 1 }))
    expect(answered('10:00', treadmill)).toEqual(interval({ meters: 1800, seconds: 600, precision: 1 }))
    expect(answered('3.5 km', treadmill)).toEqual(interval({ meters: 3500, seconds: 1200, precision: 1 }))
  })

  it.each([
    ['4.1', 'the unit is missing; did you mean 4.1 km? | suggested: 4.1 km | insisted: nothing'],
    ['20', 'the unit is missing; did you mean 20 min? | suggested: 20 min | insisted: nothing'],
    ['90', 'the unit is missing; did you mean 90 s? | suggested: 90 s | insisted: nothing'],
    ['1200', '20:00'],
    ['4100', 'the unit is missing; did you mean 4100 m? | suggested: 4100 m | insisted: nothing'],
    [
      '4100 km',
      '4100 km is farther than the 1000 km that one interval may be; did you mean 4100 m? | suggested: 4100 m | insisted: nothing',
    ],
    [
      '4.1 m',
      '20:00 for 4.1 m is slower than 0.5 m/s; did you mean 4.1 km? | suggested: 4.1 km | insisted: 4.1 m in 20:00',
    ],
    ['410 km', '20:00 for 410 km is faster than any human | suggested: nothing | insisted: 410 km in 20:00'],
    ['far', 'error: "far" is not understood; type how far it was, such as 4 km'],
  ])('%j is answered', (text, answer) => {
    expect(shownReading(text, twentyMinutes)).toBe(answer)
  })

  it('asks about a number alone in the miles of a day in miles', () => {
    const inMiles = { ...twentyMinutes, unit: 'mi' } as const
    expect(shownReading('2.6', inMiles)).toContain('did you mean 2.6 mi?')
    expect(shownReading('2.6 m', inMiles)).toContain('did you mean 2.6 mi?')
    expect(shownReading('what', inMiles)).toContain('such as 2.49 mi')
  })
})
