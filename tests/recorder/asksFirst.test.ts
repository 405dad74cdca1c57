import { describe, expect, test } from 'vitest'
import { nowText } from '../../src/recorder/nowText.ts'
import { warningText } from '../../src/recorder/update.ts'
import { replay } from '../../src/session/replay.ts'
import { walkThrough } from '../day.ts'

const straight =
  'Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n  back squat: 2 x 5 @ 90 kg, rest 2:30\n'
const both = 'Both\n\nrun\n  2 km easy\n\nlift\n  bench press: 2 x 5 @ 70 kg\n'

describe('a result that was not done', () => {
  test('is questioned when Enter comes two seconds into a set of five', () => {
    const walked = walkThrough(straight).space().wait(2).enter()
    expect(walked.view.panel?.title).toBe('Record all 5 repetitions? Enter yes, Esc no')
    expect(walked.key('escape').state.recorded.size).toBe(0)
    expect(walked.wait(10).enter().state.recorded.size).toBe(1)
  })

  test('does not come from a result typed into a question, which goes to the field', () => {
    const walked = walkThrough(straight).enter()
    expect(walked.view.panel?.title).toBe('Set 1 has not begun. Record 5 x 70? Enter yes, Esc no')
    walked.typed('4').typed('4 @9').enter()
    expect(walked.recorded('1.1.s1')).toMatchObject({ reps: 4, rpe: 9 })
    walked.entry('5 x 900').typed('3')
    expect(walked.notice).toBe('was: 5 x 900')
    expect(walked.model.draft).toBe('3')
  })

  test.each(['@9', '+2.5', '=', '-', '"felt light"'])(
    'goes to the field with its first sign: %s',
    (entry) => {
      const walked = walkThrough(straight).enter()
      expect(walked.spell(entry, 0.1).model.draft).toBe(entry)
    },
  )

  test("does not come from a load typed before the set, which is the coming set's load", () => {
    const walked = walkThrough(straight).entry('x 102.5')
    expect(walked.notice).toBe('next: 5 x 102.5')
    expect(walked.state.recorded.size).toBe(0)
    expect(walked.view.now.number).toBe('5 x 102.5')
    walked.effort(20).enter()
    expect(walked.recorded('1.1.s1')).toMatchObject({ reps: 5, load: { value: 102.5 } })
    expect(walked.effort(20).enter().recorded('1.1.s2')).toMatchObject({ load: { value: 102.5 } })
  })

  test('does not come from a chosen load: it survives a restart, can be undone and ends with a swap', () => {
    const walked = walkThrough(straight).entry('x 102.5')
    const again = () => replay({ prescription: walked.prescription, events: [...walked.events] })
    expect(again().chosenLoads).toEqual(walked.state.chosenLoads)
    expect(nowText({ ...walked.model, state: again() }).number).toBe('5 x 102.5')
    walked.typed('u')
    expect(walked.notice).toBe('undone: the load of set 1 of 3')
    expect(walked.view.now.number).toBe('5 x 70')
    walked.entry('x 102.5').typed('x').entry('dumbbell press')
    expect(walked.view.now.number).toBe('5 reps')
  })

  test('does not come from a pain or a note between sets, which is a note; an effort alone asks', () => {
    const walked = walkThrough(straight).effort(20).enter().wait(20).entry('pain left knee 3')
    expect(walked.notice).toBe('Pain noted: left knee 3. Stop if it is sharp or gets worse.')
    expect(walked.state.recorded.size).toBe(1)
    expect(walked.state.notes).toMatchObject([{ about: '1.1.s1', text: 'left knee 3', pain: true }])
    walked.entry('"felt light"')
    expect(walked.state.notes.at(-1)).toMatchObject({ about: '1.1.s1', text: 'felt light', pain: false })
    walked.entry('@8')
    expect(walked.view.panel?.title).toBe(
      'Set 2 has not begun. Record 5 x 70 @8? Enter yes, Esc no, e corrects set 1 of 3',
    )
    expect(walked.key('escape').state.recorded.size).toBe(1)
  })

  test.each([
    ['x 80 pain left knee', '5 x 80 pain "left knee"', { pain: 'left knee' }],
    ['x 72.5 kg @9', '5 x 72.5 @9', { rpe: 9 }],
    ['80 kg 2 rir', '5 x 80 @8', { rpe: 8 }],
    ['x 80 "slow"', '5 x 80 "slow"', { note: 'slow' }],
  ])('is asked about with all that was typed beside its load: %s', (typed, meant, kept) => {
    const walked = walkThrough(straight).entry(typed)
    expect(walked.view.panel).toMatchObject({
      title: `Set 1 has not begun. Record ${meant}? Enter yes, Esc no`,
    })
    expect(walked.view.panel?.lines[0]).toBe(`meant: ${meant}`)
    expect([walked.state.recorded.size, walked.state.chosenLoads.size]).toEqual([0, 0])
    expect(walked.enter().recorded('1.1.s1')).toMatchObject(kept)
  })

  test('is taken for the set before, if e says that the load and its pain belong there', () => {
    const walked = walkThrough(straight).effort(20).enter().wait(20).entry('x 80 pain left knee')
    expect(walked.view.panel?.title).toMatch(/^Set 2 has not begun.* e corrects set 1 of 3$/)
    walked.typed('e').enter()
    expect(walked.recorded('1.1.s1')).toMatchObject({ reps: 5, load: { value: 80 }, pain: 'left knee' })
    expect(walked.state.recorded.size).toBe(1)
  })

  test('does not come from e, which lets a late time correct the repeat before', () => {
    const walked = walkThrough('Track\n\nrun\n  3 x 500 m in 1:50, jog 200 m\n')
    walked.effort(110).enter().wait(20).entry('1:48').typed('e').enter()
    expect(walked.recorded('1.1.p1')).toMatchObject({ seconds: 108 })
    expect(walked.state.recorded.size).toBe(1)
  })
})

describe('adding and closing apply to what was just done', () => {
  test('a after the last set of an item adds one to it, pressed twice two', () => {
    const walked = walkThrough(straight)
    for (const _ of [1, 2, 3]) walked.effort(20).enter().wait(60)
    walked.typed('a')
    expect(walked.notice).toBe('one more bench press: 4 in all')
    walked.typed('a')
    expect(walked.notice).toBe('one more bench press: 5 in all')
    expect(
      walked.state.steps.filter((step) => step.kind === 'set' && step.name === 'bench press'),
    ).toHaveLength(5)
  })

  test('f closes the part of the last result while the next one is under way', () => {
    const walked = walkThrough(both).entry('11:00').space().wait(10).typed('f')
    expect(walked.view.entry.label).toBe('effort of run')
    expect(walked.notice).toBe('lift goes on; this closes run')
  })

  test('more than five hours for a part are asked about', () => {
    const walked = walkThrough(both).entry('11:00').typed('f').entry('3').entry('860')
    expect(walked.notice).toMatch(/^860 minutes are more than 5 hours/)
    expect(walked.enter().state.partStates[0]).toMatchObject({ closed: true, minutes: 860 })
  })
})

describe('the minutes of a part', () => {
  const closing = () => walkThrough(both).entry('45:00').typed('f').entry('3')

  test('are not known to Enter alone if the part was left overnight, and those of its results if it was a run', () => {
    const overnight = (day: string) => walkThrough(day).effort(600).enter().jump(80_000).effort(600).enter()
    const lifted = overnight('Day\nlift\n  plank 2 x 600 s, rest 2:00\n').typed('f').entry('6')
    expect(lifted.view.entry.placeholder).toBe('Enter: not known')
    expect(lifted.enter().state.partStates[0]).toMatchObject({ closed: true, minutes: null })
    const run = overnight('Day\nrun\n  2 km easy\n  2 km easy\n').typed('f').entry('6')
    expect(run.enter().state.partStates[0]).toMatchObject({ closed: true, minutes: 20 })
  })

  test.each(['135', '50', ''])('are taken without a question: "%s"', (typed) => {
    expect(closing().entry(typed).state.partStates[0]).toMatchObject({ closed: true })
  })

  test('are said with the effort once the part is closed', () => {
    expect(closing().entry('50').notice).toBe('run is closed: effort 3, 50 min')
    expect(walkThrough(both).typed('f').enter().enter().notice).toBe('run is closed')
  })
})

test('a result that is corrected opens as it was typed and keeps what is not changed', () => {
  const walked = walkThrough(straight).entry('5 @8 "slow"').typed('e').enter()
  expect(walked.model.draft).toBe('5 x 70 @8 "slow"')
  walked.typed('4 x 70 @8 "slow"').enter()
  expect(walked.recorded('1.1.s1')).toMatchObject({ reps: 4, rpe: 8, note: 'slow' })
})

test('a sign that needs a doctor is warned of before the question about its entry is answered', () => {
  const walked = walkThrough(straight).effort(20).entry('5 chest pain')
  expect([walked.model.mode.kind, walked.notice]).toEqual(['question', warningText])
  expect(walked.typed('k').notice).toBe('Press Enter (yes) or Esc (back).')
  expect(walked.enter().notice).toBe(warningText)
})

describe('what is typed first in a correction', () => {
  const picked = (entry: string) => walkThrough(straight).entry(entry).typed('e').enter()

  test('takes the place of the old result and says what that was', () => {
    const walked = picked('5 x 72.5').spell('4')
    expect(walked.model.draft).toBe('4')
    expect(walked.notice).toBe('was: 5 x 72.5')
    expect(walked.enter().recorded('1.1.s1')).toMatchObject({ reps: 4, load: { value: 72.5 } })
  })

  test('keeps the effort and the note of the old result, unless others are typed', () => {
    expect(picked('5 @8 "slow"').spell('4').enter().recorded('1.1.s1')).toMatchObject({
      reps: 4,
      rpe: 8,
      note: 'slow',
    })
    expect(picked('5 @8').spell('4 @9').enter().recorded('1.1.s1')).toMatchObject({ reps: 4, rpe: 9 })
    expect(picked('5 @8').spell('4!').enter().recorded('1.1.s1')).toMatchObject({ rpe: null, failed: true })
  })

  test('may be a sign of a figure, which keeps the rest of the result', () => {
    const corrected = (typed: string) => picked('4 x 72.5 @8').spell(typed).enter().recorded('1.1.s1')
    expect(corrected('x 70')).toMatchObject({ reps: 4, load: { value: 70 }, rpe: 8 })
    expect(corrected('+2.5')).toMatchObject({ reps: 4, load: { value: 75 }, rpe: 8 })
    expect(corrected('@9')).toMatchObject({ reps: 4, load: { value: 72.5 }, rpe: 9 })
    expect(picked('5').spell('=').enter().recorded('1.1.s1')).toMatchObject({ reps: 5, load: { value: 70 } })
    expect(picked('5').spell('-').enter().state.skipped).toContain('1.1.s1')
  })

  test('is not needed for a word, which follows the result after a space', () => {
    const walked = picked('5 x 72.5').spell('pain left knee 3')
    expect(walked.model.draft).toBe('5 x 72.5 pain left knee 3')
    expect(walked.enter().recorded('1.1.s1')).toMatchObject({ reps: 5, pain: 'left knee 3' })
  })

  test('is not needed for a note, which is added to the one before', () => {
    const walked = picked('5 "belt"').spell('"slow"').enter()
    expect(walked.recorded('1.1.s1')).toMatchObject({ reps: 5, note: 'belt; slow' })
  })

  test('may begin with all of the old result', () => {
    const walked = walkThrough('Day\n\nlift\n  pull-up 1 x 6 @ bodyweight\n').entry('6').typed('e').enter()
    expect(walked.spell('6 x bw-20').enter().recorded('1.1.s1')).toMatchObject({ load: { added: -20 } })
  })

  test('keeps the heart rate of a repeat', () => {
    const walked = walkThrough('Track\n\nrun\n  2 x 500 m in 1:50, jog 200 m\n').effort(110)
    walked.entry('1:50 hr 171/183 @8').typed('e').enter().spell('1:49').enter()
    expect(walked.recorded('1.1.p1')).toMatchObject({
      seconds: 109,
      heartRate: 171,
      heartRateMax: 183,
      rpe: 8,
    })
  })
})

describe('what is typed anew in a correction', () => {
  const bench = (first: string, anew: string) =>
    walkThrough(straight).entry(first).typed('e').enter().typed('').entry(anew).recorded('1.1.s1')

  test.each([
    ['4!', '@9', { reps: 4, failed: true, rpe: 9, load: { value: 70 } }],
    ['3', 'rpe 8', { reps: 3, failed: false, rpe: 8 }],
    ['4!', 'x 67.5 pain knee 3', { reps: 4, failed: true, load: { value: 67.5 }, pain: 'knee 3' }],
    ['4 x 80', '+2.5', { reps: 4, load: { value: 82.5 } }],
    ['4!', '5', { reps: 5, failed: false }],
    ['4', 'failed', { reps: 4, failed: true }],
  ])('is added to a set of %s: %s', (first, anew, kept) => {
    expect(bench(first, anew)).toMatchObject(kept)
  })

  test('is added to the groups of a cluster set and to the loads of a drop set', () => {
    const corrected = (item: string, first: string, anew: string) =>
      walkThrough(`Day\n\nlift\n  ${item}\n`).entry(first).typed('e').enter().typed('').entry(anew)
    const cluster = corrected('squat 2 x (2+2) @ 95 kg, pause 0:15', '2+1', '@9').recorded('1.1.s1')
    expect(cluster).toMatchObject({ groups: [2, 1], rpe: 9 })
    const drops = (anew: string) =>
      corrected('curl 1 x (12 > 10) @ 20/15 kg', '12>9 x 22.5>17.5', anew).recorded('1.1.s1')
    const loads = [{ value: 22.5 }, { value: 17.5 }]
    expect(drops('@9')).toMatchObject({ groups: [12, 9], loads, rpe: 9 })
    expect(drops('12>8')).toMatchObject({ groups: [12, 8], loads })
    const fewer = corrected('curl 1 x (12 > 10) @ 20/15 kg', '12>9>8 x 22>17>12', '12>9').recorded('1.1.s1')
    expect(fewer).toMatchObject({ groups: [12, 9], loads: [{ value: 22 }, { value: 17 }] })
  })

  test('may be a pace, over the distance and the time of the result before', () => {
    const corrected = (item: string, first: string) =>
      walkThrough(`Day\n\nrun\n  ${item}\n`)
        .entry(first)
        .typed('e')
        .enter()
        .typed('')
        .entry('5:00/km')
        .enter()
    const far = corrected('3 km easy', '2.9 km in 14:00').recorded('1.1.p1')
    expect(far).toMatchObject({ meters: 2900, seconds: 870 })
    const long = corrected('3:00 easy', '0.6 km in 2:30').recorded('1.1.p1')
    expect(long).toMatchObject({ meters: 500, seconds: 150 })
  })

  test('is added to the set before, where e says that an effort belongs there', () => {
    const walked = walkThrough(straight).effort(20).entry('4!').wait(20).entry('@9').typed('e').enter()
    expect(walked.recorded('1.1.s1')).toMatchObject({ reps: 4, failed: true, rpe: 9 })
  })

  test('is questioned for itself and keeps the repetitions', () => {
    const walked = walkThrough(straight).entry('4!').typed('e').enter().typed('').entry('x 900').enter()
    expect(walked.recorded('1.1.s1')).toMatchObject({ reps: 4, failed: true, load: { value: 90 } })
  })

  test.each([
    [
      '2 x 400 m, jog 200 m',
      '1:21.4',
      'hr 175',
      { meters: 400, seconds: 81.4, heartRate: 175, byKey: false },
    ],
    ['5 km easy', '25:01 hr 140', 'hr 145', { seconds: 1501, heartRate: 145 }],
    ['2 min easy', '400 m hr 150', 'rpe 3', { meters: 400, heartRate: 150, rpe: 3 }],
    ['3 km easy', '2.9 km in 14:30', '14:20', { meters: 2900, seconds: 860 }],
    ['2 x 400 m, jog 200 m', '1:21.4 hr 175', '=', { seconds: 84.6, byKey: true, heartRate: 175 }],
  ])('takes its place in the result of %s: %s, %s', (item, first, anew, kept) => {
    const walked = walkThrough(`Track\n\nrun\n  ${item}\n`).effort(84.6).entry(first)
    expect(walked.typed('e').enter().typed('').entry(anew).recorded('1.1.p1')).toMatchObject(kept)
  })
})

test('an amount typed anew leaves the others of a meal as they were', () => {
  const walked = walkThrough('Meals\n\nfuel\n  after: carbs 60 g\n').entry('carbs 70 g, protein 18 g')
  expect(walked.typed('e').enter().typed('').entry('carbs 80 g').recorded('1.1.f1')).toMatchObject({
    carbsG: 80,
    proteinG: 18,
  })
})

test('a time by key stays one when something else of its result is corrected', () => {
  const walked = walkThrough('Track\n\nrun\n  2 x 400 m, jog 200 m\n').effort(84.6).enter()
  walked.typed('e').enter().spell(' pain toe').enter()
  expect(walked.recorded('1.1.p1')).toMatchObject({ seconds: 84.6, byKey: true, pain: 'toe' })
  walked.typed('e').enter().typed('1:24.5').enter()
  expect(walked.recorded('1.1.p1')).toMatchObject({ seconds: 84.5, byKey: false })
})

test('anything else typed first in a correction edits the old result', () => {
  const walked = walkThrough(straight).entry('5 @8').typed('e').enter()
  walked.typed('5 x 70')
  expect(walked.enter().recorded('1.1.s1')).toMatchObject({ reps: 5, rpe: null })
  walked.typed('e').enter().spell(' @9').enter()
  expect(walked.recorded('1.1.s1')).toMatchObject({ reps: 5, rpe: 9 })
})

test("a warning sign is answered first and ends the day's advice", () => {
  const walked = walkThrough(straight).entry('5 @10 pain "chest"')
  expect(walked.notice).toBe('Stop. Chest pain, faintness or unusual breathlessness need a doctor now.')
  walked.effort(20)
  expect(walked.notice).toBeNull()
  expect(walked.view.line).toBe('')
  const noted = walkThrough(straight).entry('5 @6').typed('n').entry('heart rate high, out of breath')
  expect(noted.notice).toBe('noted: heart rate high, out of breath')
})

describe('an entry that Enter would refuse', () => {
  const unknown = 'Unknown\n\nlift\n  squat: 3 x 5 @ rpe 8, rest 2:30\n'

  test('is not offered, neither in the key line nor in the field', () => {
    const walked = walkThrough(unknown).effort(20).wait(5)
    expect(walked.view.keys.map(({ key }) => key)).not.toContain('Enter')
    expect(walked.view.entry.placeholder).toBe('type the result')
    expect(walked.enter().notice).toMatch(/^the load is not known yet/)
    walked.typed('5 x 100')
    expect(walked.view.keys.map(({ key }) => key)).toContain('Enter')
  })

  test('is explained on the screen: the repetitions, and that a load must be typed', () => {
    expect(walkThrough(unknown).view.now.what).toBe('squat 5 at rpe 8; type the load you use')
  })
})

test('the field does not hide that a warm-up set is next or under way', () => {
  const warmUps = 'Ramps\n\nlift\n  front squat: 2 x 3 @ 92.5 kg, rest 2:30, build from 60 kg\n'
  const walked = walkThrough(warmUps)
  const entry = () => `${walked.view.entry.label}: ${walked.view.entry.placeholder}`
  expect(entry()).toBe('warm-up set 1 of 3: no result: Space begins')
  expect(walked.space() && entry()).toBe('warm-up set 1 of 3: no result: Space ends it')
  walked.wait(20).space().wait(60)
  expect(entry()).toBe('warm-up set 2 of 3: no result: Space begins')
  expect(walked.typed('3') && entry()).toMatch(/^front squat, set 1 of 2: /)
})

describe('a result typed between two warm-up sets', () => {
  const warmUps = 'Ramps\n\nlift\n  front squat: 2 x 3 @ 92.5 kg, rest 2:30, build from 60 kg\n'
  const between = () => walkThrough(warmUps).effort(20).wait(60).entry('3')

  test('is asked about, for it goes to the first set past the warm-up', () => {
    const walked = between()
    expect(walked.view.panel?.title).toBe('Set 1 has not begun. Record 3 x 92.5? Enter yes, Esc no')
    expect(walked.state.recorded.size).toBe(0)
    expect(walked.enter().recorded('1.1.s1')).toMatchObject({ reps: 3 })
  })

  test('leaves the warm-up where it was after Esc', () => {
    const walked = between().key('escape')
    expect(walked.state.recorded.size).toBe(0)
    expect(walked.view.now.where).toBe('warm-up for front squat, not recorded')
  })
})

describe('a key or a paste without a meaning in a list or a question', () => {
  const recorded = () => walkThrough(straight).effort(20).enter().wait(5)

  test.each([
    ['e', 'Press Enter (edit), an arrow (pick) or Esc (cancel).'],
    ['o', 'Press Enter (move), b (begin), an arrow (pick) or Esc (cancel).'],
  ])('%s beeps and says which keys work', (key, wanted) => {
    const walked = recorded().typed(key).typed('7')
    expect(walked.notice).toBe(wanted)
    expect(walked.rung.at(-1)).toBe('short')
    const pasted = recorded().typed(key)
    pasted.press({ kind: 'paste', text: '5 x 70' })
    expect(pasted.notice).toBe(wanted)
    expect(pasted.rung.at(-1)).toBe('short')
  })

  test('is refused by a carried item and by a question too', () => {
    expect(recorded().typed('o').enter().typed('7').notice).toBe('Press an arrow (move) or Enter (drop).')
    const question = walkThrough(straight).space().wait(2).enter()
    question.press({ kind: 'paste', text: '!' })
    expect(question.notice).toBe('Press Enter (yes), Space (done) or Esc (no).')
    expect(question.state.recorded.size).toBe(0)
  })
})

test('a pain typed with a doubtful result is kept whether the result is typed again or not', () => {
  const doubted = () => walkThrough(straight).effort(20).wait(5).entry('5 x 900 pain left calf 3')
  for (const walked of [doubted().key('escape'), doubted().typed('5')]) {
    expect(walked.state.notes).toMatchObject([{ about: '1.1.s1', text: 'left calf 3', pain: true }])
    expect(walked.notice).toMatch(/^Pain noted: left calf 3/)
  }
  expect(doubted().typed('!').state.notes).toEqual([])
  const corrected = walkThrough(straight).entry('5 pain calf').typed('e').enter().entry('5 x 900 pain calf')
  expect(corrected.key('escape').state.notes).toEqual([])
})

test('f on prep asks neither for an effort nor for minutes, and for nothing at all once it is done', () => {
  const day = 'Early\n\nprep\n  hip circles\n\nrun\n  2 km easy\n'
  const walked = walkThrough(day).enter().typed('f')
  expect([walked.model.mode.kind, walked.notice]).toEqual(['recording', 'prep is closed'])
  expect(walked.state.partStates[0]).toMatchObject({ closed: true, effort: null })
  const early = walkThrough(day).typed('f')
  expect(early.view.entry.label).toBe('close prep')
  expect(early.enter().state.partStates[0]).toMatchObject({ closed: true, effort: null })
})

describe('bare numbers for several pending sets', () => {
  const two = () => walkThrough(straight).effort(20).wait(100).effort(20).wait(5)

  test('are questioned as repetitions, and never stored as a load', () => {
    const walked = two().entry('5 4')
    expect(walked.view.panel).toMatchObject({ title: '5 reps and 4 reps?' })
    expect(walked.view.panel?.lines[0]).toBe('meant: 5 x 70, 4 x 70')
    expect(walked.state.recorded.size).toBe(0)
    walked.enter()
    expect(walked.recorded('1.1.s1')).toMatchObject({ reps: 5, load: { value: 70 } })
    expect(walked.recorded('1.1.s2')).toMatchObject({ reps: 4, load: { value: 70 } })
  })

  test('are a load if they are too large for repetitions, or if only one set is pending', () => {
    expect(two().entry('5 65').view.panel?.title).toMatch(/did you mean 5 x 65/)
    expect(walkThrough(straight).effort(20).wait(5).entry('5 4').view.panel?.title).toMatch(
      /did you mean 5 x 4/,
    )
  })
})

test('a questioned time from the clock is not called typed', () => {
  const walked = walkThrough('Track\n\nrun\n  3 x 500 m in 1:50, jog 200 m\n').effort(30).wait(5).enter()
  expect(walked.view.panel?.title).toMatch(/^0:30 by the clock: /)
  expect(walked.view.keys.map(({ key, label }) => `${key} ${label}`)).toEqual([
    'Enter keep',
    'Space next',
    'Esc type it',
  ])
  expect(walked.enter().recorded('1.1.p1')).toMatchObject({ seconds: 30, byKey: true })
})
