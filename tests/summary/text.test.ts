import { describe, expect, it } from 'vitest'
import { summaryText } from '../../src/summary/text.ts'
import { exampleDay } from './exampleDay.ts'
import { Kept } from './kept.ts'
import { wholeDay } from './wholeDay.ts'

/* Wording and layout are this program's own. */

const context = { equation: 'median' } as const

describe('the note', () => {
  const note = summaryText(wholeDay().session, context, { full: false })

  it('shows the plan, the results and the figures', () => {
    expect(note).toBe(`Thursday: five hundreds, then front squat
Thu 26 Nov 2026
Done as planned but: leg swings: skipped;
  plank: skipped; pull-up: 3 of 4 sets; dip:
  sets 3-4 at bodyweight+5 kg instead of
  bodyweight+10 kg; pull-up set 3 (5 of 6)
pull-up, set 3, pain: left elbow
110 min, session load 832 (run 496, lift
  336)

run: track, 62 min, effort 8
with flats, track, windy
13.6 km, 12 km of it without the jogs
2 km easy: done, not timed
5 km @ 4:05-4:10/km, split 1 km, negative
  4:09, 4:08, 4:07, 4:06.5, 4:10.4 slow
  mean 4:08.2, 4:08/km, range 3.9 s, 4 of 5
    in 4:05-4:10
  halves 4:08.2, 4:08.2/km: even
  11.2 s/km slower than goal pace 3:57/km
6 x 500 m @ 3:35-3:45/km, jog 200 m
  1:49.2 hr 171, 1:47.4 fast, 1:50.0,
    1:48.8, 1:53.1 slow, 1:46.5 fast
  mean 1:49.2, 3:38/km, range 6.6 s, 3 of 6
    in 1:47.5-1:52.5
  first and second half of the repeats
    3:37.7, 3:38.9/km: 0.6 % slower
2 km easy: done, not timed

lift: legs, 48 min, effort 7
front squat: 5 x (1+1+1) x 92.5 kg @- - -
  7.5 8
  estimated maximum 101.3 kg (95.5 to
    112.7), set 5
  a cluster set: from its longest group
    alone to no pause at all
  made after the run: not a fresh one
pull-up: 2 x 6 x bodyweight, 5 x bodyweight
dip: 2 x 8 x bodyweight+10 kg, 2 x 8 x
  bodyweight+5 kg

fuel
  before: carbs 70 g, protein 18 g

notes
  slept 5 h
  6 x 500 m, repeat 1: windy back straight
`)
  })

  it('never has a line of more than 44 characters, the width of a notes app', () => {
    for (const line of note.split('\n')) expect([...line].length).toBeLessThanOrEqual(44)
  })

  it('shows in full what a note leaves out, in the requested units', () => {
    const full = summaryText(wholeDay().session, context, {
      full: true,
      units: { distance: 'mi', mass: 'lb' },
    })
    for (const line of [
      '8.45 mi, 7.46 mi of it without the jogs',
      '  standard deviation 1.6 s (0.6 % of the mean), fade +0.05 % a split',
      '  18.0 s/mi slower than goal pace 6:21/mi',
      'front squat: 5 x (1+1+1) x 203.93 lb @- - - 7.5 8',
      '  estimated maximum 223.3 lb (210.6 to 248.4), set 5, by median',
      '  3058.9 lb in all',
      '  before: carbs 70 g, protein 18 g, 352 kcal by its grams',
      'besides',
      '  lifted 12 sets, 64 repetitions, 3588 lb over unlike exercises',
      '  the running took 750 to 900 kcal above rest, on the level',
    ])
      expect(full.split('\n')).toContain(line)
  })

  it('has no line wider than a narrow screen, with bars or without', () => {
    const { session } = wholeDay()
    for (const columns of [40, 60])
      for (const full of [false, true])
        for (const bars of [false, true])
          for (const line of summaryText(session, context, { full, bars, columns }).split('\n'))
            expect([...line].length, line).toBeLessThanOrEqual(columns)
  })

  it('of a day that has only begun shows what there is, and nothing else', () => {
    expect(
      summaryText(new Kept(exampleDay).type('=').session, context, { full: false }),
    ).toBe(`Thursday: five hundreds, then front squat
Thu 26 Nov 2026, from 06:40, not finished

run: track
2 km easy: nothing recorded
5 km @ 4:05-4:10/km, split 1 km, negative:
  nothing recorded
6 x 500 m @ 3:35-3:45/km, jog 200 m: nothing
  recorded
2 km easy: nothing recorded

lift: legs
`)
  })

  it('has no terminal control characters, and none that reverse text', () => {
    const day = new Kept({ ...exampleDay, title: 'a\u001b[2Jb \u202Ec' }).finish()
    day.add({ type: 'noteAdded', at: null, up: null, about: null, text: 'x\u0007\u2066y\nz', pain: false })
    const text = summaryText(day.session, context, { full: true })
    expect(text.split('\n')[0]).toBe('a\uFFFD[2Jb \uFFFDc')
    expect(text).toContain('  x\uFFFD\uFFFDy z\n')
  })
})
