import { describe, expect, test } from 'vitest'
import { walkThrough } from '../day.ts'

/* What is typed while an effort goes on, or cannot be over yet. */

const easy = 'Easy\n\nrun\n  10 km easy\n'
const hard = 'Hard\n\nrun\n  3 x 2:00 hard, jog 1:00\n'
const track = 'Track\n\nrun\n  3 x 400 m in 80-84 s, jog 200 m\n'
const splits = 'Splits\n\nrun\n  3 km in 12:30, split 1 km\n'
const squat = 'Squat\n\nlift\n  squat: 4 x 5 @ 95 kg, rest 2:00\n'
const cluster = 'Cluster\n\nlift\n  squat: 4 x (2+2) @ 95 kg, pause 20 s, rest 2:00\n'

describe('a pain or a note during an effort', () => {
  test.each([
    [easy, 4],
    [hard, 30],
    [track, 40],
    [squat, 3],
    [squat, 30],
  ])('is a note about it, and the effort goes on: %s', (day, seconds) => {
    const walked = walkThrough(day).space().wait(seconds).entry('pain left calf 3').entry('"windy"')
    expect([walked.state.recorded.size, walked.phase.kind, walked.model.draft]).toEqual([0, 'effort', ''])
    const about = walked.ids.find((id) => walked.state.measured.has(id))
    expect(walked.state.notes).toMatchObject([
      { about, text: 'left calf 3', pain: true },
      { about, text: 'windy', pain: false },
    ])
    expect(walked.notice).toBe('noted: windy')
  })

  test('is one in the pause of a cluster set and in an item of prep', () => {
    const pause = walkThrough(cluster).effort(4).wait(3).entry('pain wrist 2')
    expect([pause.phase.kind, pause.state.recorded.size]).toEqual(['pause', 0])
    expect(pause.state.notes).toMatchObject([{ about: '1.1.s1', text: 'wrist 2', pain: true }])
    const prep = walkThrough('Early\n\nprep\n  foam roll 3:00\n').space().wait(20).entry('pain left calf 3')
    expect([prep.phase.kind, prep.state.recorded.size]).toEqual(['effort', 0])
  })

  test('keeps both where both are typed', () => {
    const walked = walkThrough(easy).space().wait(60).entry('"windy" pain left calf 3')
    expect(walked.state.notes).toMatchObject([
      { text: 'windy', pain: false },
      { text: 'left calf 3', pain: true },
    ])
    expect(walked.notice).toMatch(/^Pain noted: left calf 3/)
    expect(walked.typed('u').state.notes).toEqual([])
  })
})

describe('an entry without repetitions soon after a set began', () => {
  test.each([
    ['@8', 'Record all 5 repetitions with @8? Enter yes, Esc no'],
    ['x 100', 'Record all 5 repetitions with x 100? Enter yes, Esc no'],
  ])('is asked about: %s', (typed, question) => {
    const walked = walkThrough(squat).space().wait(3).entry(typed)
    expect(walked.view.panel?.title).toBe(question)
    expect(walked.state.recorded.size).toBe(0)
    expect(walked.enter().recorded('1.1.s1')).toMatchObject({ reps: 5 })
  })

  test.each([
    ['plank: 2 x 45 s', '1 s'],
    ['farmer carry 2 x 40 m @ 2x30 kg', '40 m x 2x30'],
    ['curl 2 x (12 > 10) @ 20/15 kg', '12>10 x 20>15'],
    ['2 x (clean 1 + jerk 2) @ 40 kg', '1+2 x 40'],
  ])('is asked about in a hold, a carry, a drop set and a complex, too: %s', (item, meant) => {
    const walked = walkThrough(`Early\n\nlift\n  ${item}, rest 1:00\n`).space().wait(1).enter()
    expect(walked.view.panel).toMatchObject({
      title: 'Record it already? Enter yes, Esc no',
      lines: [`meant: ${meant}`],
    })
    expect(walked.state.recorded.size).toBe(0)
    expect(walked.key('escape').phase.kind).toBe('effort')
  })

  test('can correct the set before instead', () => {
    const walked = walkThrough(squat).effort(20).enter().wait(100).space().wait(3).entry('@8')
    expect(walked.view.panel?.title).toMatch(/Esc no, e corrects set 1 of 4$/)
    expect(walked.typed('e').enter().recorded('1.1.s1')).toMatchObject({ reps: 5, rpe: 8 })
    expect(walked.phase.kind).toBe('effort')
  })

  test.each(['@8', 'x 100'])('is asked about in the pause of a cluster set: %s', (typed) => {
    const walked = walkThrough(cluster).effort(4).wait(3).entry(typed)
    expect(walked.view.panel?.title).toBe(`Record both groups with ${typed}? Enter yes, Esc no`)
  })

  test('is the result of a set that can be over, and repetitions always are', () => {
    expect(walkThrough(squat).space().wait(20).entry('@8').recorded('1.1.s1')).toMatchObject({ rpe: 8 })
    expect(walkThrough(squat).space().wait(3).entry('2!').recorded('1.1.s1')).toMatchObject({ reps: 2 })
  })
})

describe('a result longer than the clock of its repeat shows', () => {
  test('is asked about if it is the word same', () => {
    const walked = walkThrough(track).effort(81).entry('1:21').wait(60).space().wait(4).entry('same')
    expect(walked.view.panel?.title).toMatch(/^Repeat 2 is at 0:04\. Save 1:21 for it\?/)
  })

  test('is asked about, and e takes it for the repeat before', () => {
    const walked = walkThrough(track).effort(81).entry('1:21').wait(60).space().wait(20).entry('1:20.6')
    expect(walked.view.panel?.title).toBe(
      'Repeat 2 is at 0:20. Save 1:20.6 for it? Enter yes, Esc no, e corrects repeat 1 of 3: 400 m',
    )
    expect([walked.phase.kind, walked.state.recorded.size]).toEqual(['effort', 1])
    walked.typed('e').enter()
    expect(walked.recorded('1.1.p1')).toMatchObject({ seconds: 80.6 })
    expect([walked.phase.kind, walked.state.recorded.size]).toEqual(['effort', 1])
  })

  test.each([
    [splits, 100, '4:07', 'Split 1 is at 1:40. Save 4:07 for it? Enter yes, Esc no'],
    [
      'Easy\n\nrun\n  12 min easy\n',
      100,
      '2.4 km',
      /^12:00 is at 1:40\. Save 2\.4 km in 12:00 for it\? Enter yes/,
    ],
    [hard, 30, 'hr 170', /^Repeat 1 is at 0:30\. Save 2:00 hr 170 for it\? Enter yes/],
    [easy, 4, 'hr 150', /^10 km is at 0:04\. Save hr 150 for it\? Enter yes/],
  ])('is asked about in %s after %i s: %s', (day, seconds, typed, question) => {
    const walked = walkThrough(day).space().wait(seconds).entry(typed)
    expect(walked.view.panel?.title).toMatch(question)
    expect([walked.phase.kind, walked.state.recorded.size]).toEqual(['effort', 0])
    expect(walked.enter().state.recorded.size).toBe(1)
  })

  test.each([
    [easy, 'hr 150', '10 km has not started. Save hr 150 for it? Enter yes, Esc no'],
    [
      easy,
      'rpe 6, hr 150 "windy"',
      '10 km has not started. Save hr 150 rpe 6 "windy" for it? Enter yes, Esc no',
    ],
    [hard, '@9', 'Repeat 1 has not started. Save 2:00 rpe 9 for it? Enter yes, Esc no'],
  ])('is asked about where %s has not begun and only an effort is typed: %s', (day, typed, question) => {
    const walked = walkThrough(day).entry(typed)
    expect([walked.view.panel?.title, walked.state.recorded.size]).toEqual([question, 0])
    expect(walked.enter().state.recorded.size).toBe(1)
  })

  test('is the effort of the repeat before where it is typed in the jog after it', () => {
    const jog = walkThrough(hard).space().wait(120).wait(20).entry('2:00')
    expect(jog.entry('hr 171').view.panel?.title).toBe('hr 171 for repeat 1 of 3: 2:00? Enter yes, Esc no')
    expect(jog.enter().recorded('1.1.p1')).toMatchObject({ heartRate: 171 })
    expect(jog.entry('hr 17').enter().view.panel?.title).toMatch(/17 is outside/)
    expect(jog.key('escape').model.mode.kind).toBe('recording')
  })

  test.each([
    ['a repeat with a target', 'run\n  1 km @ 4:00/km\n  1 km @ 4:00/km\n', 'hr 171', { heartRate: 171 }],
    ['a lift', 'run\n  1 km @ 4:00/km\n\nlift\n  row 2 x 5 @ 50 kg\n', '171 bpm', { heartRate: 171 }],
    ['the end of the day', 'run\n  1 km @ 4:00/km\n', 'hr 171/180', { heartRateMax: 180 }],
  ])('is the heart rate of the run before where %s follows', (_, parts, typed, result) => {
    const walked = walkThrough(`Next\n\n${parts}`).effort(240).entry('4:00').space().wait(3)
    expect(walked.entry(typed).enter().recorded('1.1.p1')).toMatchObject({ seconds: 240, ...result })
    expect(walked.state.recorded.size).toBe(1)
  })

  test('is a time typed before its run begins, and a run that is done without one', () => {
    expect(walkThrough(easy).entry('52:10 hr 150').recorded('1.1.p1')).toMatchObject({ seconds: 3130 })
    expect(walkThrough(easy).entry('done').recorded('1.1.p1')).toMatchObject({ seconds: null })
  })

  test('is taken once the clock shows as much, two seconds sooner for a hand that is late', () => {
    const walked = walkThrough(track).space().wait(79).entry('1:20.6')
    expect(walked.recorded('1.1.p1')).toMatchObject({ seconds: 80.6 })
  })
})

describe('with the clocks stopped in a rest', () => {
  const stopped = () => walkThrough(squat).effort(20).enter().wait(20).typed('h').wait(30)

  test.each(['pain left knee 3', '"phone rang"'])('%s is a note', (typed) => {
    const walked = stopped().entry(typed)
    expect(walked.state.notes).toMatchObject([{ about: '1.1.s1' }])
    expect(walked.state.recorded.size).toBe(1)
  })

  test.each([
    ['x 102.5', 'next: 5 x 102.5'],
    ['+2.5', 'next: 5 x 97.5; 97.5 kg is 2.5 kg more than 95 kg'],
  ])('%s is the load of the coming set', (typed, notice) => {
    const walked = stopped().entry(typed)
    expect([walked.notice, walked.state.recorded.size]).toEqual([notice, 1])
  })

  test('an effort is asked about, and so is the time of a repeat in a stopped jog', () => {
    expect(stopped().entry('@8').view.panel?.title).toMatch(/^Set 2 has not begun\. Record 5 x 95 @8\?/)
    const jog = walkThrough(track).effort(81).entry('1:21').wait(20).typed('h').wait(30).entry('1:20.6')
    expect(jog.view.panel?.title).toMatch(/^Repeat 2 has not started\. Save this time for it\?/)
    expect(jog.state.recorded.size).toBe(1)
  })

  test('repetitions are a result', () => {
    expect(stopped().entry('4').recorded('1.1.s2')).toMatchObject({ reps: 4 })
  })
})

describe('a load alone before its set is the load of that set, however it is typed', () => {
  const pullUp = 'Pull\n\nlift\n  pull-up: 3 x 5 @ bodyweight, rest 2:00\n'
  const assisted = 'Pull\n\nlift\n  pull-up: 3 x 5 @ bodyweight-20 kg, rest 2:00\n'
  const pair = 'Pair\n\nlift\n  dumbbell press: 3 x 8 @ 2x20 kg, rest 2:00\n'

  test.each([
    [squat, 'x -2.5', 'next: 5 x 92.5; 92.5 kg is 2.5 kg less than 95 kg'],
    [squat, 'x -5 kg', 'next: 5 x 90; 90 kg is 5 kg less than 95 kg'],
    [squat, '+ 2.5', 'next: 5 x 97.5; 97.5 kg is 2.5 kg more than 95 kg'],
    [squat, 'x + 2.5', 'next: 5 x 97.5; 97.5 kg is 2.5 kg more than 95 kg'],
    [squat, '100 kilos', 'next: 5 x 100'],
    [pullUp, 'bw+10', 'next: 5 x bw+10'],
    [pullUp, 'x bw+10', 'next: 5 x bw+10'],
    [pullUp, 'bw', 'next: 5 x bw'],
    [pullUp, 'x -10', 'next: 5 x bw-10'],
    [assisted, 'x -10', 'next: 5 x bw-10'],
    [assisted, '-10', 'next: 5 x bw-10'],
  ])('%s %s', (day, typed, notice) => {
    const walked = walkThrough(day).effort(20).enter().wait(20).entry(typed)
    expect([walked.notice, walked.state.recorded.size]).toEqual([notice, 1])
  })

  test.each([
    [squat, 'x 1000', 'next: 5 x 100'],
    [squat, '102.5', 'next: 5 x 102.5'],
    [pair, '22.5 kg', 'next: 8 x 2x22.5'],
  ])('%s %s, once its question is answered', (day, typed, notice) => {
    const walked = walkThrough(day).effort(20).enter().wait(20).entry(typed)
    expect(walked.model.mode.kind).toBe('question')
    expect(walked.enter().notice).toBe(notice)
    expect([walked.model.mode.kind, walked.state.recorded.size]).toEqual(['recording', 1])
  })

  test('also as it was typed, by !', () => {
    const insisted = walkThrough(squat).entry('x 1000').typed('!')
    expect([insisted.notice, insisted.state.recorded.size]).toEqual(['next: 5 x 1000', 0])
  })

  test('an effort with a note asks of which set it is', () => {
    const walked = walkThrough(squat).entry('@8 "slow"')
    expect(walked.view.panel?.title).toMatch(/^Set 1 has not begun\. Record \S+ x \S+ @8 "slow"\?/)
    expect(walked.enter().recorded('1.1.s1')).toMatchObject({ reps: 5, rpe: 8, note: 'slow' })
  })
})
