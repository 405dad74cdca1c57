import { describe, expect, test } from 'vitest'
import { entryTextOf } from '../../src/session/entry/lex.ts'
import { painsIn, placeKey } from '../../src/session/pain.ts'
import { notesIn } from '../../src/session/state.ts'
import { setRows } from '../../src/summary/rows.ts'
import { summaryOf } from '../../src/summary/summarise.ts'
import { walkThrough } from '../day.ts'

const day =
  'Both\n\nrun\n  2 x 1 km in 4:00, jog 200 m\n\nlift\n  squat: 3 x 5 @ 100 kg, rest 2:00\n  plank: 2 x 45 s\n'
const context = { equation: 'median' as const, bodyMassKg: null }

test.each([
  ['left calf', [{ place: 'left calf', level: null }]],
  ['left calf 4', [{ place: 'left calf', level: 4 }]],
  ['left calf 10/10', [{ place: 'left calf', level: 10 }]],
  ['left calf, sharp', [{ place: 'left calf, sharp', level: null }]],
  ['pain: right elbow', [{ place: 'right elbow', level: null }]],
  [
    'left calf 4; right knee 0',
    [
      { place: 'left calf', level: 4 },
      { place: 'right knee', level: 0 },
    ],
  ],
])('%s is read with its place and number', (text, pains) => expect(painsIn(text)).toEqual(pains))

test('a place is the same whatever its case, its spaces and the words after a comma', () => {
  const key = (place: string) => placeKey({ place })
  expect(key('Left  calf, sharp')).toBe(key('left calf'))
  expect(key('right calf')).not.toBe(key('left calf'))
})

describe('pain after a result', () => {
  test.each([
    ['6 pain left calf', '6', 'left calf'],
    ['6 pain left calf 4', '6', 'left calf 4'],
    ['4:16 hr 168 pain "left calf, sharp"', '4:16 hr 168', 'left calf, sharp'],
    ['6 x 100 @8 pain "left calf" 4', '6 x 100 @8', 'left calf 4'],
    ['pain left calf 4', '', 'left calf 4'],
  ])('%s', (typed, body, pain) => expect(entryTextOf(typed)).toMatchObject({ body, pain }))

  test('an effort is never taken for the level of a pain', () => {
    expect(entryTextOf('6 pain left calf rpe 8')).toMatchObject({ pain: null })
    expect(entryTextOf('pain "left knee" 6')).toMatchObject({ body: '6', pain: 'left knee' })
  })
})

describe('pain in the summary', () => {
  test('has its place, its level and the entry it was typed for', () => {
    const walked = walkThrough(day).entry('3:58').space().wait(60).space().wait(240).space()
    walked.entry('4:01 pain left calf 4')
    const { pain } = summaryOf(walked.state, 'one', context)
    expect(pain).toEqual([{ place: 'left calf', level: 4, at: { line: 4, entry: 2 } }])
  })

  test('a note after a cut set belongs to the last set that was done, and is in the table', () => {
    const walked = walkThrough(day.replace(/\nrun\n.*\n/, '')).entry('5')
    walked.typed('t').entry('5').enter()
    walked.typed('n').entry('pain left calf 4')
    expect(notesIn(walked.state)).toEqual([{ about: '1.1.s1', part: 0, text: 'left calf 4', pain: true }])
    expect(setRows(walked.state, 'one')[0]?.pain).toBe('left calf 4')
  })
})
