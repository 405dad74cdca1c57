import { describe, expect, test } from 'vitest'
import { adviceOf } from '../../src/recorder/advice.ts'
import type { RecorderContext } from '../../src/recorder/model.ts'
import { type Walked, type WalkOptions, walkThrough } from '../day.ts'

/* The 4 % a point: Helms 2018, from memory. All else is this program's own rule; values are computed by hand. */

const advice = (walked: Walked) => adviceOf(walked.model)

describe('the next load', () => {
  const press = (item: string) => walkThrough(`One\n\nlift\n  ${item}\n`)

  test('says nothing within a point of the prescribed effort, nor below 10 without one', () => {
    expect(advice(press('bench press: 3 x 5 @ 70 kg, rest 2:00').entry('5 @8'))).toBeNull()
    expect(advice(press('bench press: 3 x 5 @ 70 kg, rest 2:00').entry('5 @9.5'))).toBeNull()
    expect(advice(press('bench press: 3 x 5 @ 70 kg rpe 7, rest 2:00').entry('5 @7.5'))).toBeNull()
    expect(advice(press('bench press: 3 x 5 @ 70 kg, rest 2:00').entry('5'))).toBeNull()
  })

  test('is less after a prescribed effort exceeded by 1, and after 10 without one, to the nearest load', () => {
    // 4 % less than 70 kg is 67.2 kg, 8 % less 64.4 kg, 10 % less than 100 kg 90 kg.
    expect(advice(press('bench press: 3 x 5 @ 70 kg rpe 7, rest 2:00').entry('5 @8'))).toBe(
      'usual advice: 67.5 kg for the next set',
    )
    expect(advice(press('bench press: 3 x 5 @ 70 kg, rest 2:00').entry('5 @10'))).toBe(
      'usual advice: 65 kg for the next set',
    )
    expect(advice(press('bench press: 3 x 5 @ 100 kg rpe 6, rest 2:00').entry('5 @10'))).toBe(
      'usual advice: 90 kg for the next set',
    )
  })

  test('is at most 5 % more, and only with a prescribed effort', () => {
    expect(advice(press('bench press: 3 x 5 @ 100 kg rpe 8, rest 2:00').entry('5 @4'))).toBe(
      'usual advice: 105 kg for the next set',
    )
    expect(advice(press('bench press: 3 x 5 @ 100 kg, rest 2:00').entry('5 @4'))).toBeNull()
    expect(advice(press('bench press: 5 x 5 @ 100 kg, rest 2:00').entry('5 @6'))).toBeNull()
  })

  test('is never more for sets by the clock, for 70 % of the maximum or less, or for power cleans', () => {
    expect(advice(press('bench press: 5 x 3 @ 60 kg rpe 8, every 1:00').entry('3 @6'))).toBeNull()
    expect(advice(press('power clean: 5 x 3 @ 60 kg rpe 8, rest 2:00').entry('3 @6'))).toBeNull()
    const known = (load: string) =>
      walkThrough(`One\nmax: bench press 100 kg\n\nlift\n  bench press: 4 x 5 @ ${load} rpe 8, rest 2:00\n`)
    expect(advice(known('60%').entry('5 @5'))).toBeNull()
    expect(advice(known('70 kg').entry('5 @5'))).toBeNull()
    expect(advice(known('80 kg').entry('5 @5'))).toBe('usual advice: 85 kg for the next set')
  })

  test('goes from 42.5 kg at RPE 10 to 40 kg, and stays at 10 kg dumbbells with 2 reps fewer', () => {
    expect(advice(press('bench press: 3 x 5 @ 42.5 kg, rest 2:00').entry('5 @10'))).toBe(
      'usual advice: 40 kg for the next set',
    )
    expect(advice(press('dumbbell press: 3 x 8 @ 2x10 kg, rest 2:00').entry('8 @10'))).toBe(
      'same load, 2 reps fewer',
    )
  })

  test('is fewer repetitions after a failed pull-up or push-up, and never weight on the body', () => {
    const after = (item: string, entry: string) => advice(press(item).entry(entry))
    expect(after('pull-up: 4 x 6 @ bodyweight, rest 2:00', '4!')).toBe('same load, 2 reps fewer')
    expect(after('push-up: 4 x 20 @ bodyweight rpe 8, rest 1:00', '20 @9')).toBe('same load, 2 reps fewer')
    expect(after('pull-up: 4 x 6 @ bodyweight rpe 8, rest 2:00', '6 @5')).toBeNull()
    expect(after('pull-up: 4 x max @ bodyweight, rest 2:00', '9!')).toBeNull()
    expect(after('pull-up: 4 x 6 @ bodyweight, rest 2:00', '4! pain left elbow 3')).toBeNull()
  })

  test('takes weight off the body, adds it and helps by the mass that is moved, in loads that can be typed', () => {
    const after = (item: string, entry: string) => press(item).entry(entry)
    // 92 % of 68 + 10 kg are 71.8 kg, 95 % of it 74.1 kg, 105 % of 68 + 20 kg 92.4 kg, 95 % of 68 - 20 kg 45.6 kg.
    expect(advice(after('dip: 4 x 8 @ bodyweight+10 kg, rest 2:00', '8 @10'))).toBe(
      'usual advice: bodyweight+3.75 kg for the next set',
    )
    expect(advice(after('dip: 4 x 8 @ bodyweight+20 kg rpe 8, rest 2:00', '8 @6'))).toBe(
      'usual advice: bodyweight+25 kg for the next set',
    )
    const dip = after('dip: 4 x 8 @ bodyweight+10 kg, rest 2:00', '6!')
    expect(advice(dip)).toBe('5 % less is bodyweight+6.25 kg: type x bw+6.25 kg, or do fewer reps')
    expect(dip.wait(5).entry('x bw+6.25 kg').view.now.number).toBe('8 x +6.25')
    const help = after('pull-up: 4 x 6 @ bodyweight-20 kg, rest 2:00', '4!')
    expect(advice(help)).toBe('5 % less is bodyweight-22.5 kg: type x bw-22.5 kg, or do fewer reps')
    expect(help.wait(5).entry('x bw-22.5 kg').view.now.number).toBe('6 x -22.5')
    const light = after('pull-up: 4 x 6 @ bodyweight+2.5 kg, rest 2:00', '4!')
    expect(advice(light)).toBe('4 % less is bodyweight: type x bw, or do fewer reps')
    expect(light.wait(5).entry('x bw').view.now.number).toBe('6 reps')
  })

  test('is the nearest load that can be made on its side, down by at most 10 %, up only where that is nearer', () => {
    const after = (load: string, entry: string) =>
      advice(press(`bench press: 3 x 5 @ ${load}, rest 2:00`).entry(entry))
    // 96 % of 50 kg are 48 kg, of 30 kg 28.8 kg; 90 % of 70 kg are 63 kg, of which 62.5 kg would be less.
    expect(after('50 kg rpe 8', '5 @9')).toBe('usual advice: 47.5 kg for the next set')
    expect(after('30 kg rpe 8', '5 @9')).toBe('usual advice: 27.5 kg for the next set')
    expect(after('70 kg rpe 7', '5 @10')).toBe('usual advice: 65 kg for the next set')
    expect(after('70 kg rpe 7', '4!')).toBe('7 % less is 65 kg: type x 65, or do fewer reps')
    expect(after('72.5 kg', '4!')).toBe('3 % less is 70 kg: type x 70, or do fewer reps')
    expect(after('25 kg', '4!')).toBe('10 % less is 22.5 kg: type x 22.5, or do fewer reps')
    // 105 % of 50 kg are 52.5 kg; of 25 kg 26.25 kg, as far from 25 as from 27.5; of 20 kg 21 kg.
    expect(after('50 kg rpe 8', '5 @6')).toBe('usual advice: 52.5 kg for the next set')
    expect([after('25 kg rpe 8', '5 @6'), after('20 kg rpe 8', '5 @6')]).toEqual([null, null])
    const double = press('bench press: 3 x 2 @ 20 kg, rest 2:00').entry('2 @10')
    expect(advice(double)).toBe('same load, 1 rep fewer')
  })

  test('takes no repetitions off a hold, a carry or a single', () => {
    expect(advice(press('plank: 3 x 45 s @ 10 kg, rest 2:00').entry('45 @10'))).toBe(
      'rest longer, or stop here',
    )
    expect(advice(press('farmer carry: 3 x 40 m @ 2x24 kg, rest 2:00').entry('30 m!'))).toBe(
      '8 % less is 2x22 kg: type x 22, or stop here',
    )
    expect(advice(press('deadlift: 3 x 1 @ 160 kg, rest 3:00').entry('0!'))).toBe(
      '5 % less is 152.5 kg: type x 152.5, or stop here',
    )
  })

  test('does not change if the change is less than the smallest plates', () => {
    expect(advice(press('curl: 3 x 10 @ 25 kg, rest 1:00').entry('10 @6.5'))).toBeNull()
  })

  test('changes in steps of 2.5 kg for a pair of dumbbells', () => {
    expect(advice(press('press: 3 x 8 @ 2x30 kg, rest 2:00').entry('8 @10'))).toBe(
      'usual advice: 2x27.5 kg for the next set',
    )
  })

  test('uses no plates without a bar, and changes in steps of 2.5 kg', () => {
    const walked = press('dumbbell row: 3 x 8 @ 27.5 kg, rest 2:00')
    expect(advice(walked)).toBeNull()
    expect(walked.view.now.what).toBe('dumbbell row 8 at 27.5 kg')
    expect(advice(walked.entry('8 @10'))).toBe('usual advice: 25 kg for the next set')
  })

  test('goes up for a cluster set only with a prescribed effort', () => {
    expect(advice(press('front squat: 3 x (2+2) @ 100 kg, pause 20 s, rest 2:00').entry('2+2 @10'))).toBe(
      'usual advice: 92.5 kg for the next set',
    )
    expect(advice(press('front squat: 3 x (2+2) @ 100 kg, pause 20 s, rest 2:00').entry('2+2 @6'))).toBeNull()
    expect(
      advice(press('front squat: 3 x (2+2) @ 100 kg rpe 8, pause 20 s, rest 2:00').entry('2+2 @6')),
    ).toBe('usual advice: 105 kg for the next set')
  })

  test('is 5 % less after a failed repetition, or has fewer repetitions, and nothing goes up that day', () => {
    const walked = press('bench press: 4 x 5 @ 100 kg, rest 2:00').entry('4!')
    expect(advice(walked)).toBe('5 % less is 95 kg: type x 95, or do fewer reps')
    walked.entry('5 x 90 @5')
    expect(advice(walked)).toBeNull()
  })

  test('is not computed from the last set where the next one has another load, as written or as typed', () => {
    const scheme = 'deadlift: 1 x 5 @ 140 kg then 2 x 5 @ 110 kg, rest 2:00'
    expect(advice(press(scheme).entry('4!'))).toBeNull()
    expect(advice(press(scheme).entry('5 @10'))).toBeNull()
    const rising = press('bench press: 8/6/4 @ 60/70/80 kg rpe 8, rest 2:00').entry('8 @9')
    expect(advice(rising)).toBeNull()
    // The first set was heavier than written, and that load stays on the bar: the advice is about it.
    expect(advice(press('deadlift: 1 x 5 @ 100 kg then 2 x 5 @ 110 kg').entry('4! x 110'))).toBe(
      '5 % less is 105 kg: type x 105, or do fewer reps',
    )
  })

  test('says nothing after a set that was to go to the limit, unless it has a written effort or fell short', () => {
    const after = (item: string, entry: string) =>
      advice(press(`bench press: 3 x ${item}, rest 2:00`).entry(entry))
    expect(after('max @ 60 kg', '20 @10')).toBeNull()
    expect(after('max @ 60 kg', '20!')).toBeNull()
    expect(after('5+ @ 80 kg', '7 @10')).toBeNull()
    expect(after('5+ @ 80 kg', '8!')).toBeNull()
    expect(after('5+ @ 80 kg', '4!')).toBe('6 % less is 75 kg: type x 75, or do fewer reps')
    // 8 % less than 80 kg is 73.6 kg.
    expect(after('5+ @ 80 kg rpe 8', '8 @10')).toBe('usual advice: 72.5 kg for the next set')
  })

  test('may still go up for another lift after a set that was to go to the limit and failed', () => {
    const day = 'Two\n\nlift\n  squat: 1 x 5+ @ 100 kg\n  bench press: 3 x 5 @ 80 kg rpe 8, rest 2:00\n'
    expect(advice(walkThrough(day).entry('8!').entry('5 @6'))).toBe('usual advice: 85 kg for the next set')
    expect(advice(walkThrough(day).entry('4!').entry('5 @6'))).toBeNull()
  })

  test('ends once the lighter load was typed', () => {
    const walked = press('bench press: 4 x 5 @ 80 kg, rest 2:00').entry('3!')
    expect(advice(walked)).toBe('6 % less is 75 kg: type x 75, or do fewer reps')
    expect(advice(walked.entry('x 70'))).toBeNull()
  })

  test('goes up for no other lift that day after a failed repetition of one', () => {
    const day = 'Two\n\nlift\n  front squat: 1 x 5 @ 100 kg\n  bench press: 3 x 5 @ 80 kg rpe 8, rest 2:00\n'
    const bench = (squat: string) => advice(walkThrough(day).entry(squat).entry('5 @6'))
    expect(bench('5 @8')).toBe('usual advice: 85 kg for the next set')
    expect(bench('4!')).toBeNull()
  })

  test('never goes up after a pain note, whatever the pain is about', () => {
    const written = 'bench press: 3 x 5 @ 100 kg rpe 8, rest 2:00'
    for (const pain of [
      (walked: Walked) => walked.entry('5 @5 pain "left knee"'),
      (walked: Walked) => walked.entry('5 @5').typed('n').entry('pain left knee'),
    ])
      expect(advice(pain(press(written)))).toBeNull()
    const run = walkThrough(`Two\n\nrun\n  2 km easy\n\nlift\n  ${written}\n`)
    run.entry('11:00 pain "left knee"').entry('5 @5')
    expect(advice(run)).toBeNull()
  })

  test('goes up no more after a failure or a pain in another session of the day, unless a 0 ended it', () => {
    const written = 'bench press: 3 x 5 @ 100 kg rpe 8, rest 2:00'
    const after = (earlierToday: RecorderContext['earlierToday'], ...entries: string[]) => {
      const walked = walkThrough(`Two\n\nlift\n  ${written}\n`, { context: { earlierToday } })
      for (const entry of entries) walked.entry(entry)
      return advice(walked)
    }
    const calf = (level: number) => ({ place: 'left calf', level })
    const heavier = 'usual advice: 105 kg for the next set'
    expect(after({ pains: [], hasFailed: false }, '5 @5')).toBe(heavier)
    expect(after({ pains: [], hasFailed: true }, '5 @5')).toBeNull()
    expect(after({ pains: [calf(4)], hasFailed: false }, '5 @5')).toBeNull()
    expect(after({ pains: [calf(4)], hasFailed: false }, '5 @9')).toBe('usual advice: 95 kg for the next set')
    expect(after({ pains: [calf(4), calf(0)], hasFailed: false }, '5 @5')).toBe(heavier)
    expect(after({ pains: [calf(4)], hasFailed: false }, '5 @5 pain "left calf 0"')).toBe(heavier)
    expect(after({ pains: [calf(4)], hasFailed: false }, '5 @5 pain "right calf 0"')).toBeNull()
  })

  test('is never computed after a warning sign of earlier days, until a 0 ends it', () => {
    const chest = { pains: [{ place: 'chest tight', level: null }], hasFailed: false }
    const after = (entry: string) =>
      advice(
        walkThrough('Two\n\nlift\n  press: 3 x 5 @ 50 kg rpe 8\n', {
          context: { earlierToday: chest },
        }).entry(entry),
      )
    expect(after('5 @5')).toBeNull()
    expect(after('5 @10')).toBeNull()
    expect(after('5 @10 pain "chest tight 0"')).toBe('usual advice: 45 kg for the next set')
  })

  test('is not computed after a failed repetition with the left shoulder hurting', () => {
    const walked = press('bench press: 3 x 8 @ 100 kg, rest 2:00').entry('6! pain "left shoulder"')
    expect(advice(walked)).toBeNull()
  })

  test('still goes down after a pain note', () => {
    const walked = press('bench press: 3 x 5 @ 100 kg, rest 2:00').entry('5 @10 pain "left knee"')
    expect(advice(walked)).toBe('usual advice: 92.5 kg for the next set')
  })

  test('is not computed for another exercise after a swap', () => {
    const walked = press('bench press: 3 x 5 @ 100 kg, rest 2:00').entry('5 @10').typed('x').entry('push-up')
    expect(advice(walked)).toBeNull()
  })

  test('stays with the exercise in a superset', () => {
    const walked = press('bench press 2 x 5 @ 100 kg + row 2 x 8 @ 60 kg, pause 20 s, rest 2:00')
    walked.entry('5 @10').entry('8 @8')
    expect(advice(walked)).toBe('usual advice: 92.5 kg for the next set')
    expect(advice(walked.entry('5 x 90 @8'))).toBeNull()
  })
})

describe('a continuous run', () => {
  const splits = 'One\n\nrun\n  5 km @ 4:05-4:10/km, split 1 km\n'

  test('shows the mean so far, and the pace for the rest to end in the range', () => {
    const walked = walkThrough(splits).entry('4:15')
    // 5 km in 20:25 to 20:50, so the 4 km left in 16:10 to 16:35.
    expect(advice(walked)).toBe('mean so far 4:15/km; the 4 km left in 4:03-4:09/km ends in the range')
  })

  test('of a progression on plan is compared with the paces of what is left', () => {
    const walked = walkThrough('One\n\nrun\n  5 km @ 4:15 to 3:55/km, split 1 km\n')
    for (const time of ['4:17', '4:12', '4:07']) walked.entry(time)
    // 4:00 and 3:55 are left, each 1 % wide: 3:55.1 to 3:59.9 a km, the fast end less 1 % 3:52.7.
    expect(advice(walked)).toBe('mean so far 4:12/km; the 2 km left in 3:53-4:00/km ends in the range')
    expect(advice(walked.entry('4:02'))).toBe(
      'mean so far 4:10/km; the 1 km left in 3:50-3:57/km ends in the range',
    )
  })

  test('leaves a skipped split out of what is left', () => {
    const walked = walkThrough('One\n\nrun\n  3 km @ 4:05-4:10/km, split 1 km\n').entry('4:07').entry('skip')
    expect(advice(walked)).toBe('mean so far 4:07/km; the 1 km left in 4:03-4:10/km ends in the range')
  })

  test('shows only the paces inside the range, and nothing at its end', () => {
    const fast = walkThrough('One\n\nrun\n  2 km in 8:00-8:20, split 1 km\n')
    // 4:00 to 4:20 would end in it; the range is 4:00 to 4:10.
    expect(advice(fast.entry('4:00'))).toBe(
      'mean so far 4:00/km; the 1 km left in 4:00-4:10/km ends in the range',
    )
    expect(advice(fast.entry('4:00'))).toBeNull()
  })

  test('is not pushed at 9.5: 4:20, 4:21, 4:22, 4:24 of 5 km @ 4:05-4:10 ask for nothing faster', () => {
    const walked = walkThrough(splits)
    for (const time of ['4:20', '4:21', '4:22 rpe 9.5', '4:24']) walked.entry(time)
    expect(advice(walked)).toBe('The range is out of reach today: hold this pace, or stop here.')
  })

  test('inside the range at an effort of 9.5 is not pushed', () => {
    expect(advice(walkThrough(splits).entry('4:07 rpe 9.5'))).toBeNull()
    expect(advice(walkThrough(splits).entry('4:07 rpe 9'))).toMatch(/ends in the range$/)
  })

  test('is not pushed after a pain in the calf', () => {
    expect(advice(walkThrough(splits).entry('4:16 pain "left calf, sharp"'))).toBeNull()
  })

  test('four splits ahead of the range should hold it or ease off, never slower than the range', () => {
    const walked = walkThrough(splits)
    for (const time of ['4:00', '4:01', '4:00', '4:01']) walked.entry(time)
    // Mean 240.5 s/km, 4.5 faster than 4:05.
    expect(advice(walked)).toBe('5 s/km faster than the range: hold it or ease off.')
  })

  test('four splits ahead with negative is compared with the last split', () => {
    const walked = walkThrough('One\n\nrun\n  5 km @ 4:05-4:10/km, split 1 km, negative\n')
    for (const time of ['4:02', '4:01', '4:01', '4:00']) walked.entry(time)
    expect(advice(walked)).toBe('negative split: compare the next one with the last, 4:00/km')
  })

  test('ahead with negative is too fast once it is hard', () => {
    const walked = walkThrough('One\n\nrun\n  5 km @ 4:05-4:10/km, split 1 km, negative\n')
    expect(advice(walked.entry('3:58 rpe 8.5'))).toContain('negative split')
    expect(advice(walked.entry('3:58 rpe 9'))).toBe(
      'mean so far 3:58/km; the 3 km left in 4:10/km ends in the range',
    )
  })

  test('is in miles if the day is in miles', () => {
    const walked = walkThrough('One\nunits: mi lb\n\nrun\n  3 mi @ 6:30-6:40/mi, split 1 mi\n').entry('6:50')
    // 6:20 to 6:35 would end in it; 6:30 less 1 % is 6:26.1.
    expect(advice(walked)).toBe('mean so far 6:50/mi; the 2 mi left in 6:26-6:35/mi ends in the range')
  })

  test('is in the unit of its written pace, whatever the unit of the day', () => {
    const after = (part: string, time: string) => advice(walkThrough(`One\n\n${part}\n`).entry(time))
    expect(after('run\n  3 mi @ 6:30-6:40/mi, split 1 mi', '6:50')).toBe(
      'mean so far 6:50/mi; the 2 mi left in 6:26-6:35/mi ends in the range',
    )
    // 20:00 to 20:30 less 6:00 is 7:00 and slower for each of two miles.
    expect(after('run\n  3 mi @ 6:40-6:50/mi, split 1 mi', '6:00')).toBe(
      '40 s/mi faster than the range: hold it or ease off.',
    )
    // 2 km in 7:20 to 7:28 less 1:51 are 5:29 to 5:37 for 1.5 km.
    expect(after('cross: row\n  2000 m @ 1:50-1:52/500 m, split 500 m', '1:51')).toBe(
      'mean so far 1:51/500 m; the 1.5 km left in 1:50-1:52/500 m ends in the range',
    )
  })

  test('is the one under way where it is repeated', () => {
    const walked = walkThrough('One\n\nrun\n  2 x 2 km @ 4:05-4:10/km, split 1 km, jog 400 m\n')
    expect(advice(walked.entry('4:07'))).toBe(
      'mean so far 4:07/km; the 1 km left in 4:03-4:10/km ends in the range',
    )
    expect(advice(walked.entry('4:07').entry('4:20'))).toBe(
      'The range is out of reach today: hold this pace, or stop here.',
    )
  })

  test('warns of a heart rate or an effort outside its range', () => {
    const zone = walkThrough('One\n\nrun\n  6 km @ hr 135-145, split 2 km\n')
    expect(advice(zone.entry('12:00 hr 168'))).toBe('hr 168, 23 over the range')
    expect(advice(zone.entry('12:00 hr 140'))).toBeNull()
    // To ease off is no less right after a pain; to do more is.
    const hurt = walkThrough('One\n\nrun\n  6 km @ hr 135-145, split 2 km\n')
    expect(advice(hurt.entry('12:00 hr 168 pain "left knee"'))).toBe('hr 168, 23 over the range')
    const low = walkThrough('One\n\nrun\n  6 km @ hr 135-145, split 2 km\n')
    expect(advice(low.entry('12:00 hr 120'))).toBe('hr 120, 15 under the range')
    expect(advice(low.entry('12:00 hr 120 pain "left knee"'))).toBeNull()
    const effort = walkThrough('One\n\nrun\n  4 x 1 km @ rpe 6-7, jog 200 m\n')
    expect(advice(effort.entry('4:00 rpe 9'))).toBe('effort 9, 2 over the range')
  })

  test('warns of an easy run that turns out hard: by heart rate, else effort, else pace against the goal', () => {
    const easy = (goal: string, entry: string, hrMax: number | null = 190) =>
      advice(walkThrough(`One\n${goal}\nrun\n  4 km easy, split 1 km\n`, { context: { hrMax } }).entry(entry))
    // 88 % of 190 is 167.2.
    expect(easy('', '5:00 hr 168')).toBe('hr 168 is hard, not easy: ease off')
    expect(easy('', '5:00 hr 167 rpe 9')).toBeNull()
    expect(easy('', '5:00 rpe 7', null)).toBe('effort 7 is hard, not easy: ease off')
    // Goal pace 3:57; within 15 % is 4:32.55.
    expect(easy('goal: 10 km in 39:30\n', '4:32')).toBe('that pace is hard, not easy: ease off')
    expect(easy('goal: 10 km in 39:30\n', '4:33')).toBeNull()
    expect(easy('', '4:00')).toBeNull()
  })

  test('has no advice without a target', () => {
    const walked = walkThrough('One\n\nrun\n  5 km easy, split 1 km\n').entry('5:15')
    expect(advice(walked)).toBeNull()
  })
})

describe('repeats', () => {
  const repeats = (times: string[], more = '') => {
    const walked = walkThrough(`One\n\nrun\n  6 x 500 m in 1:48-1:52, jog 200 m${more}\n`)
    for (const time of times) walked.entry(time)
    return advice(walked)
  }

  test('are told to ease when the first two are more than 2 % fast', () => {
    expect(repeats(['1:45', '1:45'])).toBe('ease off: the range is fast enough')
    expect(repeats(['1:45', '1:47'])).toBeNull()
  })

  test('are told that the range looks fast when the first two are slow', () => {
    expect(repeats(['1:54', '1:55'])).toBe('the range looks fast today')
  })

  test('are told to rest longer when two in a row are outside the range and far slower than those before', () => {
    expect(repeats(['1:50', '1:50', '1:54', '1:55'])).toBe('rest longer, ease off, or stop here')
    expect(repeats(['1:50', '1:50', '1:54', '1:51'])).toBeNull()
  })

  test('are at the limit in the range at 9.5', () => {
    expect(repeats(['1:50', '1:50 rpe 9.5'])).toBe('You are at your limit: rest longer or stop here')
    expect(repeats(['1:50', '1:50 rpe 9'])).toBeNull()
  })

  test('by heart rate are at the limit too, unless they were over it, and are never asked for more there', () => {
    const limit = 'You are at your limit: rest longer or stop here'
    const after = (item: string, ...entries: string[]) => {
      const walked = walkThrough(`One\n\nrun\n  ${item}\n`)
      for (const entry of entries) walked.entry(entry)
      return advice(walked)
    }
    for (const item of ['4 x 1 km @ hr 150-155, jog 200 m', '4 x 4 min @ hr 150-155, jog 2 min']) {
      const time = item.includes('km') ? '4:30 ' : '4:00 '
      expect(after(item, `${time}hr 145 rpe 9`)).toBe('hr 145, 5 under the range')
      expect(after(item, `${time}hr 145 rpe 9.5`)).toBe(limit)
      expect(after(item, `${time}hr 152 rpe 9.5`)).toBe(limit)
      expect(after(item, `${time}hr 152 rpe 9`)).toBeNull()
      expect(after(item, `${time}hr 168 rpe 9.5`)).toBe('hr 168, 13 over the range')
    }
    expect(after('6 km @ hr 135-145, split 2 km', '12:00 hr 140 rpe 9.5', '12:00 hr 130')).toBeNull()
    expect(after('4 x 4 min @ 4:00-4:10/km, jog 2 min', '1000 m rpe 9.5')).toBe(limit)
  })

  test('by effort are at no limit where that effort is prescribed', () => {
    const walked = walkThrough('One\n\nrun\n  4 x 1 km @ rpe 9-10, jog 200 m\n')
    expect(advice(walked.entry('3:40 rpe 9.5'))).toBeNull()
    expect(advice(walked.entry('3:50 rpe 8'))).toBe('effort 8, 1 under the range')
  })

  test('are told of a heart rate over their ceiling before anything about their pace', () => {
    const walked = walkThrough('One\n\nrun\n  4 x 1 km @ 4:00-4:10/km, hr under 150, jog 200 m\n')
    walked.entry('4:15 hr 148')
    expect(advice(walked.entry('4:15 hr 160'))).toBe('hr 160, 10 over the range')
  })

  test('get no advice after a pain note', () => {
    expect(repeats(['1:54', '1:55 pain "left calf"'])).toBeNull()
  })

  test('get no advice on a grade', () => {
    expect(repeats(['1:45', '1:45'], ', grade 4%')).toBeNull()
  })

  test('are compared only with repeats of the same work', () => {
    const walked = walkThrough(
      'One\n\nrun\n  2 x (500 m in 1:48-1:52, jog 400 m, 200 m in 40-42 s, jog 200 m)\n',
    )
    expect(advice(walked.entry('1:55').entry('46'))).toBeNull()
    expect(advice(walked.entry('1:55'))).toBe('the range looks fast today')
    // The last one is a 200 m: it is the 200s that are judged.
    expect(advice(walked.entry('40'))).toBeNull()
  })

  test('of every work of a group are judged, not only of the first', () => {
    const walked = walkThrough(
      'One\n\nrun\n  4 x (1 km @ 4:00-4:10/km, jog 200 m, 400 m in 78-82 s, jog 200 m)\n',
    )
    walked.entry('4:05').entry('88').entry('4:05')
    expect(advice(walked)).toBeNull()
    expect(advice(walked.entry('89 rpe 9.5'))).toBe('the range looks fast today')
    walked.entry('4:05')
    expect(advice(walked.entry('89 rpe 9.5'))).toBe('You are at your limit: rest longer or stop here')
  })

  test('of different lengths or targets are compared by their own targets', () => {
    const after = (item: string, ...times: string[]) => {
      const walked = walkThrough(`One\n\nrun\n  ${item}, jog 200 m\n`)
      for (const time of times) walked.entry(time)
      return advice(walked)
    }
    // The middle of 3:30-3:40/km is 43 s for 200 m, 86 for 400 m and 172 for 800 m: 177 is 2.9 % slower.
    const ladder = '200-400-800-400-200-200 m @ 3:30-3:40/km'
    expect(after(ladder, '43', '86', '2:57', '89')).toBeNull()
    expect(after(ladder, '43', '86', '2:58', '89')).toBe('rest longer, ease off, or stop here')
    const times = '6 x 400 m in 70/72/74/76/78/80 s'
    expect(after(times, '71', '73', '76', '78')).toBeNull()
    expect(after(times, '70', '72', '77', '79')).toBe('rest longer, ease off, or stop here')
  })

  test('get no advice without a target time', () => {
    const walked = walkThrough('One\n\nrun\n  4 x 100 m strides, walk back\n').entry('18').entry('18')
    expect(advice(walked)).toBeNull()
  })
})

describe('the difference that running makes to a lift', () => {
  const context: WalkOptions['context'] = {
    runCost: (exercise) =>
      exercise === 'front squat' ? { freshKg: 93.2, afterRunKg: 87.9, isOnBody: false } : null,
  }
  const day =
    'One\n\nrun\n  2 km easy\n\nlift\n  front squat: 2 x 3 @ 75 kg, rest 2:00\n  dip: 2 x 5 @ bodyweight\n'
  const cost = 'estimated maximum after running: about 88 kg (93 fresh)'

  test('is shown before its first set after a run, and not before the second', () => {
    const walked = walkThrough(day, { context }).entry('10:00')
    expect(advice(walked)).toBe(cost)
    expect(advice(walked.entry('3 @7'))).not.toBe(cost)
  })

  test('is not shown without a run before it, after a pain, or for another lift', () => {
    expect(advice(walkThrough(day, { context }))).not.toBe(cost)
    expect(advice(walkThrough(day, { context }).entry('10:00 pain left calf 4'))).not.toBe(cost)
    const other = walkThrough(day.replace('front squat', 'bench press'), { context }).entry('10:00')
    expect(advice(other)).not.toBe(cost)
  })
})

describe('a best', () => {
  const context: WalkOptions['context'] = {
    bestBefore: (exercise, reps) =>
      exercise === 'bench press' && reps === 5 ? { kg: 97.5, text: '97.5, 12 Nov' } : null,
  }
  const day = 'One\n\nlift\n  bench press: 3 x 5 @ 95 kg, rest 2:00\n  dip: 2 x 5 @ bodyweight+10 kg\n'

  test('is announced once, right after it happened', () => {
    const walked = walkThrough(day, { context }).entry('5 x 100 @8')
    expect(advice(walked)).toBe('most for 5 so far (before: 97.5, 12 Nov)')
    expect(advice(walked.entry('5 x 100 @8'))).toBeNull()
    expect(advice(walked.entry('5 x 102.5 @8'))).toBe('most for 5 so far (before: 97.5, 12 Nov)')
  })

  test('is not told after a pain, for it asks for more', () => {
    expect(advice(walkThrough(day, { context }).entry('5 x 100 @8 pain "left knee"'))).toBeNull()
    const noted = walkThrough(day, { context }).entry('5 x 95').typed('n').entry('pain left knee 3')
    expect(advice(noted.entry('5 x 100 @8'))).toBeNull()
  })

  test('is not announced if it was lifted before, or if nothing is known', () => {
    expect(advice(walkThrough(day, { context }).entry('5 x 97.5 @8'))).toBeNull()
    expect(advice(walkThrough(day, { context }).entry('4 x 110 @8'))).toBeNull()
  })

  test('does not count body mass as load', () => {
    const best = { ...context, bestBefore: () => ({ kg: 5, text: '5, 12 Nov' }) }
    const walked = walkThrough('One\n\nlift\n  dip: 2 x 5 @ bodyweight+10 kg\n', { context: best })
    expect(advice(walked.entry('5 @8'))).toBe('most for 5 so far (before: 5, 12 Nov)')
    const bare = walkThrough('One\n\nlift\n  dip: 2 x 5 @ bodyweight\n', { context: best })
    expect(advice(bare.entry('5 @8'))).toBeNull()
  })

  test('is not announced for a cluster set', () => {
    const best = { ...context, bestBefore: () => ({ kg: 5, text: '5, 12 Nov' }) }
    const walked = walkThrough('One\n\nlift\n  squat: 2 x (2+2) @ 80 kg, pause 20 s, rest 2:00\n', {
      context: best,
    })
    expect(advice(walked.entry('2+2'))).toBeNull()
  })
})

describe('the minutes of the day', () => {
  const day = 'One\n\nlift\n  row: 4 x 8 @ 50 kg, rest 1:00\n\nrun\n  2 km easy\n'

  test('are compared with the plan when more than five behind or ahead, within a part', () => {
    const walked = walkThrough(day).space().wait(32).enter().jump(420)
    expect(advice(walked)).toBe('about 6 min behind in this part')
    walked.typed('h').wait(600)
    expect(advice(walked)).toBe('about 6 min behind in this part')
    walked.typed('h')
    expect(advice(walked)).toBe('about 6 min behind in this part')
  })

  test('do not hurry somebody who is in pain', () => {
    const hurt = (place: string) => {
      const walked = walkThrough('One\n\nrun\n  5 km easy\n  10 km easy\n').effort(2400).enter()
      return advice(walked.entry(`pain ${place}`))
    }
    expect(hurt('left calf 0')).toBe('about 10 min behind in this part')
    expect(hurt('left calf 4')).toBeNull()
  })

  test('are shown when ahead', () => {
    const walked = walkThrough('One\n\nrun\n  10 km easy\n  5 km easy\n').effort(3200).enter()
    expect(advice(walked)).toBe('about 7 min ahead in this part')
  })

  test('are not compared over an hour and more, in which something else was done', () => {
    const walked = walkThrough('One\n\nlift\n  row: 3 x 8 @ 40 kg, rest 1:00\n').effort(32).enter()
    expect(advice(walked.jump(1800))).toMatch(/^about 2\d min behind/)
    expect(advice(walked.jump(80_000))).toBeNull()
  })

  test('are not compared when results are typed in afterwards, late or early', () => {
    const walked = walkThrough(day).entry('8').jump(1200).entry('8')
    expect(advice(walked)).toBeNull()
    // Begun and ended by key back at the laptop, with the time of the watch.
    const away = walkThrough('One\n\nrun\n  10 km easy\n  5 km easy\n').effort(2).entry('53:00')
    expect(away.state.recorded.size).toBe(1)
    expect(advice(away)).toBeNull()
  })

  test('are never compared across the gap between two parts', () => {
    const walked = walkThrough(day).entry('8').entry('8').entry('8').space().wait(32).enter().jump(7200)
    expect(advice(walked)).toBeNull()
  })
})

test('advice can be switched off', () => {
  const walked = walkThrough('One\n\nlift\n  bench press: 3 x 5 @ 100 kg, rest 2:00\n', {
    context: { advice: false },
  })
  expect(advice(walked.entry('4!'))).toBeNull()
  expect(walked.view.line).toBe('')
})

test('an error message goes before the advice', () => {
  const walked = walkThrough('One\n\nlift\n  bench press: 3 x 5 @ 100 kg, rest 2:00\n').entry('4!').enter()
  expect(walked.view).toMatchObject({ isNotice: true, line: walked.notice })
})
