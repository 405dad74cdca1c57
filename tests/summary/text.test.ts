import { describe, expect, it } from 'vitest'
import { summaryText } from '../../src/summary/text.ts'
import { walkThrough } from '../day.ts'
import { bareContext as context } from './bareContext.ts'
import { Kept, keptDay } from './kept.ts'
import { exampleDay, wholeDay } from './wholeDay.ts'

/* Wording and layout are this program's own. */

describe('the note', () => {
  const note = () => summaryText(wholeDay().session, context, { full: false })

  it('shows the plan, the results and the figures', () => {
    expect(note()).toBe(`Thursday: five hundreds, then front squat
Thu 26 Nov 2026 · 143 days to 10 km in 39:30
Done as planned but: leg swings: skipped;
  plank: skipped; pull-up: 3 of 4 sets; dip:
  sets 3, 4 at bodyweight+5 kg instead of
  bodyweight+10 kg; pull-up set 3 (5 of 6)
pull-up, set 3 of 4, pain: left elbow
110 min, session load 832 (run 496, lift
  336) · slept 5 h · flats, windy

run: track, 13.6 km, 62 min, effort 8
2 km easy: done, not timed
5 km @ 4:05-4:10/km: 20:40.9, 4:08/km, 4 of
  5 in range
  4:09  4:08  4:07  4:06.5  4:10.4 slow
  even split; 11.2 s/km slower than goal
    pace 3:57/km
6 x 500 m @ 3:35-3:45/km: mean 1:49.2, 3 of
  6 in range
  1:49.2  1:47.4 fast  1:50.0  1:48.8
    1:53.1 slow  1:46.5 fast    hr 171
  second half 0.6 % slower
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
  6 x 500 m, repeat 1 of 6: windy back
    straight
`)
  })

  it('has the sleep of the morning where no note says it, and the race of the plan', () => {
    const race = { meters: 10_000, seconds: 2370, isThatDay: false, ahead: '115 days to 10 km in 39:30' }
    const given = { ...context, race, sleepSeconds: 24_000 }
    const short = summaryText(new Kept(exampleDay).close(1, 8, 62).session, given, { full: false })
    expect(short).toContain('Thu 26 Nov 2026, from 06:40, not finished ·\n  115 days to 10 km in 39:30\n')
    expect(short).toContain('62 min, session load 496 · slept 6:40 h\n')
    const sore = summaryText(wholeDay().session, { ...given, soreness: 'left calf 3' }, { full: false })
    expect(sore.replace(/\s+/g, ' ')).toContain('· left calf 3 in the morning')
    const noted = summaryText(wholeDay().session, given, { full: false })
    expect(noted).toContain('· slept 5 h ·')
    expect(noted).not.toContain('6:40 h')
  })

  it('tells what fell short with what was said of it, once', () => {
    const kept = keptDay('lift\n  plank 3 x 45 s\n  pull-up 2 x 6\n')
    const told = summaryText(
      kept.type('=', '=', '40 "cut short"', '6', '5! "grip"').finish().session,
      context,
      { full: false },
    )
    expect(told).toContain(
      'Done as planned but: plank set 3 (40 s: cut\n  short), pull-up set 2 (5, failed: grip)\n',
    )
    expect(told).not.toContain('notes')
  })

  it('tells which clusters, drop sets and sets of at least some repetitions fell short', () => {
    const kept = keptDay(
      'lift\n  deadlift 2 x (2+2+2) @ 140 kg\n  curl 1 x (8 > 6 > 4) @ 20/15/10 kg\n  dip 1 x 8+ @ bodyweight\n',
    )
    const { session } = kept.type('=', '2+2+1', '8+6+3', '7').finish()
    const told = summaryText(session, context, { full: false }).replace(/\n */g, ' ')
    expect(told).toContain(
      'Done as planned but: deadlift set 2 (5 of 6), curl set 1 (17 of 18), dip set 1 (7 of 8)',
    )
  })

  it('tells the rounds of a failure in as many as fit', () => {
    const { session } = keptDay('lift\n  12 min of: 5 pull-up, 10 push-up\n', '3+4!').finish()
    expect(summaryText(session, context, { full: false })).toMatch(
      /^Done as planned but: pull-up \+ push-up set 1\s+\(3\+4, failed\)$/m,
    )
  })

  it('has the height of a jump, but not of another exercise in its place', () => {
    const walked = walkThrough('Day\n\nlift\n  box jump 3 x 3 at 60 cm\n')
      .space()
      .entry('3')
      .space()
      .entry('3')
    const swapped = walked.typed('x').entry('step-up').space().entry('3')
    const text = summaryText(swapped.session(), context, { full: false })
    expect(text).toContain('\nbox jump: 2 x 3 at 60 cm\n')
    expect(text).toContain('\nstep-up: 3\n')
  })

  it('has the drops of a drop set together, and equal drop sets once', () => {
    const kept = keptDay('lift\n  curl 3 x (8 > 6) @ 20/15 kg\n')
    const { session } = kept.type('=', '= @9', '8>5!').finish()
    expect(summaryText(session, context, { full: false }).replace(/\n */g, ' ')).toContain(
      'curl: 2 x (8 x 20 kg > 6 x 15 kg) @- 9, 8 x 20 kg > 5 x 15 kg @!',
    )
  })

  it('tells which carries and complexes fell short, in the prescribed unit and by their lifts together', () => {
    const lines = [
      'lift',
      '  carry 2 x 40 yd @ 2x24 kg',
      '  hold 1 x 20 m @ 20 kg',
      '  2 x (clean 1 + front squat 2 + jerk 1) @ 60 kg, rest 2:00',
    ]
    const { session } = keptDay(`${lines.join('\n')}\n`)
      .type('=', '30 yd', '15 m "grip"', '=', '2 of 3 lifts')
      .finish()
    const told = summaryText(session, context, { full: false }).replace(/\n */g, ' ')
    expect(told).toContain(
      'Done as planned but: carry set 2 (30 yd of 40 yd), hold set 1 (15 m: grip), clean + front squat + jerk set 2 (3 of 4)',
    )
  })

  it('never has a line of more than 44 characters, the width of a notes app', () => {
    for (const line of note().split('\n')) expect([...line].length).toBeLessThanOrEqual(44)
  })

  it('shows in full what a note leaves out, in the requested units', () => {
    const full = summaryText(wholeDay().session, context, {
      full: true,
      units: { distance: 'mi', mass: 'lb' },
    })
    for (const line of [
      'run: track, 8.45 mi, 62 min, effort 8',
      '  ran 8.45 mi, 7.46 mi of it without the recoveries',
      '  standard deviation 1.6 s (0.6 % of the mean), range 3.9 s, fade +0.05',
      '  even split: 6:39.4, then 6:39.4/mi; 18.0 s/mi slower than goal pace',
      'front squat: 5 x (1+1+1) x 203.93 lb @- - - 7.5 8',
      '  estimated maximum 223.3 lb (210.6 to 248.4), set 5, by median',
      '  3058.9 lb in all',
      '  before: carbs 70 g, protein 18 g, 352 kcal from its grams',
      'more figures',
      '  lifted 12 sets, 64 repetitions, 3588 lb over different exercises',
      '  the running took 750 to 900 kcal above rest, on the level',
    ])
      expect(full.split('\n')).toContain(line)
  })

  it('has the distance of a part in its heading, so that it is not taken for the work below it', () => {
    const walked = walkThrough('One\n\nrun\n  500 m in 1:45-1:50\n')
      .entry('1:48')
      .typed('f')
      .entry('8')
      .entry('5')
    expect(summaryText(walked.session(), context, { full: false })).toMatch(
      /^run, 500 m, 5 min, effort 8\n500 m in 1:45-1:50: 1:48/m,
    )
  })

  it('has no line wider than a narrow screen, in short or in full', () => {
    const { session } = wholeDay()
    for (const columns of [40, 60])
      for (const full of [false, true])
        for (const line of summaryText(session, context, { full, columns }).split('\n'))
          expect([...line].length, line).toBeLessThanOrEqual(columns)
  })

  it('shows what there is of a day that has only begun, and nothing else', () => {
    expect(
      summaryText(new Kept(exampleDay).type('=').session, context, { full: false }),
    ).toBe(`Thursday: five hundreds, then front squat
Thu 26 Nov 2026, from 06:40, not finished ·
  143 days to 10 km in 39:30
`)
  })

  it('names a run that was skipped, not one that is still to do', () => {
    const walked = walkThrough('One\n\nrun\n  2 km easy\n  2 km easy\n').typed('s')
    const lines = summaryText(walked.session(), context, { full: false }).split('\n')
    expect(lines.filter((line) => line.includes('2 km easy'))).toEqual([
      'So far as planned but: 2 km easy: skipped',
    ])
  })

  it('does not call a day done as planned of which nothing was done', () => {
    const day = keptDay('run\n  3 km @ 4:20\nlift\n  squat 1 x 5 @ 80 kg\n', '-', '-').finish()
    expect(summaryText(day.session, context, { full: false }).split('\n').slice(2)).toEqual([
      'Nothing done: 3 km @ 4:20: skipped; squat:',
      '  skipped',
      '',
    ])
  })

  it('has no terminal control characters, and none that reverse text', () => {
    const day = new Kept({ ...exampleDay, title: 'a\u001b[2Jb \u202Ec' }).finish()
    day.add({ type: 'noteAdded', at: null, up: null, about: null, text: 'x\u0007\u2066y\nz', pain: false })
    const text = summaryText(day.session, context, { full: true })
    expect(text.split('\n')[0]).toBe('a\uFFFD[2Jb \uFFFDc')
    expect(text).toContain('  x\uFFFD\uFFFDy z\n')
  })
})
