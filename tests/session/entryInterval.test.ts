import { describe, expect, it } from 'vitest'
import type { IntervalResult } from '../../src/session/model.ts'
import { answered, easyTwo, fiveHundred, mile, timedByKey, treadmill, twentyMinutes } from './entryPrompts.ts'

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
})
