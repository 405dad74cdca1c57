import { describe, expect, test } from 'vitest'
import { expectUndone, type Walked, walkThrough } from '../day.ts'

const straight =
  'Straight sets\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n  row: 2 x 8 @ 50 kg, rest 1:00\n'
const superset =
  'Supersets\n\nlift\n  pull-up 2 x 6 @ bodyweight + dip 2 x 8 @ bodyweight, pause 0:20, rest 1:30\n'
const repeats = 'Track\n\nrun: track\n  3 x 500 m @ 3:35-3:45/km, jog 200 m\n  2 km easy\n'
const order = (walked: Walked) =>
  walked.state.steps.map((step) => (step.kind === 'set' ? `${step.name} ${step.number}/${step.of}` : step.id))

describe('s', () => {
  test('skips the current step', () => {
    const walked = walkThrough(straight).typed('s')
    expect(walked.notice).toBe('skipped: bench press, set 1 of 3; s again skips the rest of the item')
    expect(walked.view.entry.label).toBe('bench press, set 2 of 3')
  })

  test('pressed twice skips the rest of the item', () => {
    const walked = walkThrough(straight).typed('s').typed('s')
    expect(walked.notice).toBe('skipped: the rest of the item')
    expect(walked.view.now.what).toBe('row 8 at 50 kg: 15 a side')
    expect([...walked.state.skipped]).toEqual(['1.1.s1', '1.1.s2', '1.1.s3'])
  })

  test('pressed twice in the warm-up skips the rest of the warm-up, never the work', () => {
    const walked = walkThrough('Squat\n\nlift\n  squat: 3 x 3 @ 92.5 kg, build from 40 kg\n').typed('s')
    expect(walked.notice).toBe('skipped: warm-up set; s again skips the rest of the warm-up')
    walked.typed('s')
    expect(walked.notice).toBe('skipped: the rest of the warm-up')
    expect([...walked.state.skipped]).toEqual(['1.1.b1', '1.1.b2', '1.1.b3', '1.1.b4'])
    expect(walked.view.now.where).toBe('set 1 of 3')
  })

  test('pressed late a second time skips one more, not the item', () => {
    const walked = walkThrough('Squat\n\nlift\n  squat: 3 x 3 @ 92.5 kg, rest 2:00\n')
      .typed('s')
      .wait(6)
      .typed('s')
    expect([...walked.state.skipped]).toEqual(['1.1.s1', '1.1.s2'])
  })

  test('pressed again after another key skips one more', () => {
    const walked = walkThrough(straight).typed('s').typed('n').key('escape').typed('s')
    expect([...walked.state.skipped]).toEqual(['1.1.s1', '1.1.s2'])
  })

  test('after the last set of an item says so instead of skipping another item', () => {
    const walked = walkThrough(straight).entry('5').entry('5').typed('s')
    expect(walked.notice).toBe('skipped: bench press, set 3 of 3')
    walked.typed('s')
    expect(walked.notice).toBe('the item has nothing left to skip')
    expect([...walked.state.skipped]).toEqual(['1.1.s3'])
  })

  test('in a rest skips the next set, and the clock keeps running', () => {
    const walked = walkThrough(straight).effort(20).wait(30).typed('s').typed('s')
    expect(walked.phase).toMatchObject({ kind: 'rest', next: '1.1.s3' })
    expect(walked.shows).toBe('rest 2:00')
    walked.typed('s')
    expect(walked.phase.kind).toBe('ready')
    expect(walked.shows).toBe('since the set 0:30')
  })

  test('in a jog skips the jog', () => {
    const walked = walkThrough(repeats).effort(110).wait(30).typed('s').key('enter')
    expect(walked.notice).toBe('skipped: jog 200 m; s again skips the rest of the item')
    expect(walked.phase.kind).toBe('ready')
    walked.space()
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.p2' })
  })

  test('during a repeat goes on to its jog', () => {
    const walked = walkThrough(repeats).space().wait(30).typed('s')
    expect(walked.phase).toMatchObject({ kind: 'recovery', step: '1.1.j1' })
  })

  test('skips a warm-up set', () => {
    const walked = walkThrough('One\n\nlift\n  front squat: 2 x 5 @ 90 kg, rest 2:00, build from 40 kg\n')
    walked.typed('s')
    expect(walked.view.now.what).toBe('60 kg x 5: 20 a side')
  })

  test('pressed twice is undone completely', () => {
    const walked = walkThrough(straight).effort(20).wait(10)
    expectUndone(walked, () => walked.typed('s').typed('s'))
    expect(walked.notice).toBe('undone: skipping set 2 of 3')
    walked.typed('s').typed('s')
    expectUndone(walked, () => walked.typed('s'))
    expect(walked.notice).toBe('undone: skipping the rest of the item')
  })

  test('asks which one is meant while a result is still to be entered, and loses nothing', () => {
    const walked = walkThrough(straight).effort(20).wait(10).typed('s')
    expect(walked.view.panel).toMatchObject({
      title: 'Skip bench press, set 2 of 3?',
      lines: ['bench press, set 1 of 3 is still to be entered'],
    })
    expect(walked.copy().key('escape').enter().recorded('1.1.s1')).toMatchObject({ reps: 5 })
    expect([...walked.copy().typed('-').state.skipped]).toEqual(['1.1.s1'])
    walked.typed('s')
    expect(walked.notice).toBe('skipped: bench press, set 2 of 3; s again skips the rest of the item')
    expect([...walked.state.skipped]).toEqual(['1.1.s2'])
    expect(walked.enter().recorded('1.1.s1')).toMatchObject({ reps: 5 })
  })

  test('becomes the word skip or same also while it asks', () => {
    for (const word of ['skip', 'same']) {
      const walked = walkThrough(straight).effort(20).wait(10)
      for (const letter of word) walked.typed(letter)
      expect(walked.model.mode.kind).toBe('recording')
      expect(walked.model.draft).toBe(word)
    }
  })

  test('has nothing left to skip at the end of the day', () => {
    const walked = walkThrough('One\n\nlift\n  row: 1 x 5 @ 50 kg\n').entry('5').typed('s')
    expect(walked.notice).toBe('nothing is left to skip')
  })
})

describe('a', () => {
  test('adds one more set to the item, with its rest before it', () => {
    const walked = walkThrough(straight).typed('a')
    expect(walked.notice).toBe('one more bench press: 4 in all')
    expect(order(walked).slice(0, 5)).toEqual([
      'bench press 1/4',
      'bench press 2/4',
      'bench press 3/4',
      'bench press 4/4',
      'row 1/2',
    ])
    walked.entry('5').entry('5').effort(20)
    expect(walked.shows).toBe('rest 2:30')
    walked.space().wait(20).space()
    expect(walked.shows).toBe('since the set 0:00')
  })

  test('after the last set adds one there, whose rest began with the end of that set', () => {
    const walked = walkThrough('One\n\nlift\n  row: 1 x 8 @ 50 kg, rest 1:00\n')
      .effort(20)
      .enter()
      .wait(20)
      .typed('a')
    expect(walked.shows).toBe('rest 0:40')
    walked.wait(50).space()
    expect(walked.phase).toMatchObject({ step: '1.1.s1+1' })
    expect(walked.measured('1.1.s1').rest).toBe(70)
    walked.wait(20).enter()
    expect(walked.recorded('1.1.s1+1')).toMatchObject({ reps: 8 })
  })

  test('after a change of the order adds to what was done last, wherever it is now', () => {
    const day = 'Two\n\nlift\n  press: 2 x 5 @ 40 kg\n  row: 2 x 8 @ 50 kg\n  curl: 2 x 10 @ 25 kg\n'
    const walked = walkThrough(day).space().wait(20).typed('o').key('down').typed('b').space().enter().wait(3)
    expect(walked.effort(20).enter().typed('o').key('down').key('down').typed('b').typed('a').notice).toBe(
      'one more row: 3 in all',
    )
  })

  test('adds a repeat with its jog', () => {
    const walked = walkThrough(repeats).typed('a')
    expect(walked.ids).toEqual([
      '1.1.p1',
      '1.1.j1',
      '1.1.p2',
      '1.1.j2',
      '1.1.p3',
      '1.1.p1+1-recovery',
      '1.1.p1+1',
      '1.2.p1',
    ])
    expect(walked.step('1.1.p1+1')).toMatchObject({ number: 4, of: 4 })
    expect(walked.step('1.1.p1')).toMatchObject({ number: 1, of: 4 })
    walked.effort(110).wait(60).effort(110).wait(60).effort(110)
    expect(walked.phase).toMatchObject({ kind: 'recovery', step: '1.1.p1+1-recovery' })
    walked.wait(60).space()
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.p1+1' })
  })

  test('after the last repeat adds one, whose jog began with the end of it', () => {
    const walked = walkThrough('Track\n\nrun\n  2 x 500 m in 1:50, jog 200 m\n')
    walked.effort(110).wait(60).effort(110).wait(20).typed('a')
    expect(walked.phase).toMatchObject({ kind: 'recovery', step: '1.1.p2+1-recovery' })
    expect(walked.shows).toBe('jog 0:20')
  })

  test('in a jog adds to the next work', () => {
    const walked = walkThrough(
      'Track\n\nrun\n  2 x (1 km @ 3:50/km, jog 400 m, 500 m @ 3:40/km, jog 200 m)\n',
    )
    walked.effort(230).wait(10).typed('a')
    expect(walked.step('1.1.p2+1')).toMatchObject({ meters: 500, number: 3, of: 3 })
  })

  test('adds a split as a repeat of its own after the last', () => {
    const walked = walkThrough('Track\n\nrun\n  2.5 km @ 4:00/km, split 1 km\n').typed('a')
    expect(walked.step('1.1.p1+1')).toMatchObject({
      meters: 1000,
      split: false,
      endsInterval: true,
      short: false,
    })
  })

  test('in a superset adds a set after the last round', () => {
    const walked = walkThrough(superset).typed('a')
    expect(order(walked)).toEqual(['pull-up 1/3', 'dip 1/2', 'pull-up 2/3', 'dip 2/2', 'pull-up 3/3'])
    walked.entry('6').entry('8').entry('6').effort(20)
    expect(walked.shows).toBe('rest 1:30')
  })

  test('in both exercises of a superset adds a round', () => {
    const walked = walkThrough(superset).typed('a').entry('6').typed('a')
    expect(order(walked).slice(4)).toEqual(['pull-up 3/3', 'dip 3/3'])
    walked.entry('8').entry('6').entry('8').effort(20)
    expect(walked.shows).toBe('pause 0:20')
    walked.wait(20)
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.s2+2' })
  })

  test('gives added sets their own ids, also after one was undone', () => {
    const walked = walkThrough(straight).typed('a').typed('u').typed('a').typed('a')
    expect(walked.ids.filter((id) => id.includes('+'))).toEqual(['1.1.s1+2', '1.1.s1+3'])
  })

  test('is undone', () => {
    const walked = walkThrough(straight).effort(20)
    expectUndone(walked, () => walked.typed('a'))
    expect(walked.notice).toBe('undone: the added set or repeat')
  })

  test('adds nothing to an item of prep, or to a closed part', () => {
    const prep = walkThrough('One\n\nprep\n  foam roll 3:00\n').typed('a')
    expect(prep.notice).toBe('only a set or a repeat can be added to')
    const closed = walkThrough('Two\n\nlift\n  row: 1 x 5 @ 50 kg\n\nfuel\n  after: carbs 80 g\n')
    closed.entry('5').typed('f').enter().enter().typed('a')
    expect(closed.notice).toBe('only a set or a repeat can be added to')
  })
})

describe('x', () => {
  test('swaps the exercise from here on; its load must be typed', () => {
    const walked = walkThrough(straight).entry('5').typed('x')
    expect(walked.view.panel).toMatchObject({ lines: ['bench press', 'row'] })
    walked.entry('push-up')
    expect(order(walked).slice(0, 3)).toEqual(['bench press 1/3', 'push-up 2/3', 'push-up 3/3'])
    expect(walked.view.now.where).toBe('set 2 of 3, instead of bench press')
    walked.space().wait(20).enter()
    expect(walked.state.recorded.has('1.1.s2')).toBe(false)
    walked.entry('12 x bw')
    expect(walked.recorded('1.1.s2')).toMatchObject({ reps: 12, load: { kind: 'bodyweight' } })
    walked.space().wait(20).enter()
    expect(walked.recorded('1.1.s3')).toMatchObject({ reps: 5, load: { kind: 'bodyweight' } })
  })

  test('swapped back restores the prescription', () => {
    const walked = walkThrough(straight).typed('x').entry('push-up').typed('x').entry('bench press')
    expect(walked.step('1.1.s1')).toMatchObject({ name: 'bench press', insteadOf: null })
    walked.space().wait(20).enter()
    expect(walked.recorded('1.1.s1')).toMatchObject({ load: { value: 70 } })
  })

  test('changes the warm-up still to come too', () => {
    const walked = walkThrough('One\n\nlift\n  front squat: 2 x 5 @ 90 kg, rest 2:00, build from 40 kg\n')
    walked.effort(20).typed('x').entry('back squat')
    expect(walked.view.now.where).toBe('warm-up for back squat, not recorded')
    expect(walked.step('1.1.b1')).toMatchObject({ name: 'front squat' })
  })

  const built = 'One\n\nlift\n  front squat: 2 x 5 @ 90 kg, rest 2:00, build from 40 kg\n'
  const warmUps = (walked: Walked) =>
    walked.state.steps.flatMap((step) =>
      step.kind === 'warm-up' && !walked.state.passed.has(step.id) ? [step.load.value] : [],
    )

  test('leaves out what is as heavy as the new working load of the warm-up still to come', () => {
    const swapped = walkThrough(built).typed('x').entry('goblet squat 3 x 8 @ 40 kg')
    expect(warmUps(swapped)).toEqual([])
    expect(swapped.view.now.what).toMatch(/goblet squat 8 at 40 kg/)
    const all = warmUps(walkThrough(built))
    const lighter = walkThrough(built).entry('x 60')
    expect(warmUps(lighter)).toEqual(all.filter((kg) => kg < 60))
  })

  test('asks for the load after a swap by name, whatever was typed for the exercise before', () => {
    const walked = walkThrough('One\n\nlift\n  front squat: 3 x 5 @ 90 kg, rest 2:00\n')
    walked.typed('x').entry('goblet squat 3 x 8 @ 40 kg').entry('8').typed('x').entry('leg press')
    walked.space().wait(20).space().enter()
    expect(walked.state.recorded.size).toBe(1)
    expect(walked.notice).toContain('the load is not known yet')
  })

  test.each(['goblet squat 40 kg', 'goblet squat, 40 kg', 'goblet squat x 40', 'run 1 km'])(
    'takes no load or distance into the name: %s',
    (typed) => {
      const walked = walkThrough(straight).typed('x').entry(typed)
      expect(walked.step('1.1.s1')).toMatchObject({ name: 'bench press' })
      expect(walked.model.mode.kind).toBe('swapping')
    },
  )

  test('keeps the load of a set that waits to be entered', () => {
    const walked = walkThrough('One\n\nlift\n  squat: 3 x 5 @ 95 kg, rest 2:00\n')
    walked.entry('x 100').space().wait(20).space()
    expect(walked.view.now.what).toMatch(/5 at 100 kg/)
    walked.typed('x').entry('leg press')
    expect(walked.view.entry.placeholder).toBe('Enter: 5 x 100')
  })

  test('in a superset changes only its own exercise', () => {
    const walked = walkThrough(superset).typed('x').entry('ring row')
    expect(order(walked)).toEqual(['ring row 1/2', 'dip 1/2', 'ring row 2/2', 'dip 2/2'])
  })

  test.each([
    ['100', { reps: 5, load: { kind: 'mass', value: 100, unit: 'kg', pair: false } }],
    ['72.5 @9 pain "left knee"', { reps: 5, rpe: 9, pain: 'left knee' }],
    ['2x30 kg', { load: { value: 30, pair: true } }],
  ])(
    'also begins the load of a set: x %s is a result once the set is done, as when pasted',
    (typed, result) => {
      const walked = walkThrough(straight).effort(20).typed('x').spell(` ${typed}`, 0).enter()
      expect(walked.recorded('1.1.s1')).toMatchObject(result)
      expect(order(walked)[0]).toBe('bench press 1/3')
      const whole = walkThrough(straight).effort(20).typed(`x ${typed}`).enter()
      expect(whole.recorded('1.1.s1')).toMatchObject(result)
    },
  )

  test('questions an absurd load after a name, and accepts a name that begins with a figure', () => {
    const walked = walkThrough(straight).typed('x').spell(' 900', 0).enter()
    expect(walked.model.mode.kind).toBe('question')
    walked.key('escape').typed('x').entry('1 arm row')
    expect(order(walked)[0]).toBe('1 arm row 1/3')
  })

  test('asks again for an empty name, and Escape cancels', () => {
    const walked = walkThrough(straight).typed('x').enter()
    expect(walked.notice).toBe('type the name of the exercise; Escape cancels')
    walked.key('escape')
    expect(walked.model.mode.kind).toBe('recording')
    expect(walked.events).toHaveLength(2)
  })

  test('is undone', () => {
    const walked = walkThrough(straight)
    expectUndone(walked, () => walked.typed('x').entry('push-up'))
    expect(walked.notice).toBe('undone: the swap to push-up')
  })

  test('has no set to swap on a run', () => {
    expect(walkThrough(repeats).typed('x').notice).toBe('no set is next')
  })
})

describe('o', () => {
  const items =
    'Three\n\nlift\n  press: 2 x 5 @ 40 kg, rest 1:00\n  row: 2 x 8 @ 50 kg, rest 1:00\n  curl: 2 x 10 @ 25 kg, rest 1:00\n'
  const names = (walked: Walked) => [
    ...new Set(walked.state.steps.map((step) => (step.kind === 'set' ? step.name : ''))),
  ]

  test('picks up an item and moves it with the arrows', () => {
    const walked = walkThrough(items).typed('o')
    expect(walked.view.panel?.title).toBe('the order of what is left')
    walked.key('down').enter().key('down').enter()
    expect(names(walked)).toEqual(['press', 'curl', 'row'])
    expect(walked.model.mode.kind).toBe('recording')
  })

  test('stops at the first and the last place', () => {
    const walked = walkThrough(items).typed('o').enter().key('up')
    expect(walked.events).toHaveLength(2)
    walked.key('down').key('down').key('down')
    expect(names(walked)).toEqual(['row', 'curl', 'press'])
  })

  test('begins an item now with b', () => {
    const walked = walkThrough(items).typed('o').key('down').key('down').typed('b')
    expect(names(walked)).toEqual(['curl', 'press', 'row'])
    expect(walked.view.now.what).toBe('curl 10 at 25 kg')
  })

  test('begins an item in a rest: the rest is the time since the set, and the old item continues afterwards', () => {
    const walked = walkThrough(items).effort(20).enter().wait(10).typed('o').key('down').typed('b')
    expect(walked.phase.kind).toBe('ready')
    expect(walked.shows).toBe('since the set 0:10')
    walked.space()
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.2.s1' })
    walked.wait(20).enter().wait(60).effort(20).enter()
    expect(walked.view.now.where).toBe('set 2 of 2')
    expect(walked.view.now.what).toBe('press 5 at 40 kg: 10 a side')
    expect(walked.measured('1.1.s1').rest).toBeNull()
  })

  test('in a jog runs the jog again before the postponed repeat', () => {
    const walked = walkThrough(repeats).effort(110).wait(30).typed('o').key('down').typed('b')
    expect(walked.phase.kind).toBe('ready')
    walked.space()
    expect(walked.phase).toMatchObject({ step: '1.2.p1' })
  })

  test('ends a set under way first', () => {
    const walked = walkThrough(items).space().wait(20).typed('o').key('down').typed('b').space()
    expect(walked.phase.kind).toBe('ready')
    walked.space()
    expect(walked.phase).toMatchObject({ step: '1.2.s1' })
  })

  test('during a set leaves a note and a correction after the next result to that result', () => {
    const walked = walkThrough(items)
      .space()
      .wait(20)
      .typed('o')
      .key('down')
      .typed('b')
      .space()
      .enter()
      .wait(3)
    walked.entry('8').wait(3).typed('n').entry('felt light')
    expect(walked.events.at(-1)).toMatchObject({ type: 'noteAdded', about: '1.2.s1' })
    expect(walked.typed('e').enter().view.entry.label).toBe('correct row, set 1 of 2')
  })

  test('can change the order of parts', () => {
    const walked = walkThrough('Two\n\nrun\n  2 km easy\n\nlift\n  row: 1 x 5 @ 50 kg\n')
    walked.typed('o').key('down').typed('b').space().wait(20).enter().space().wait(700).space().enter()
    expect([...walked.state.recorded.keys()]).toEqual(['2.1.s1', '1.1.p1'])
  })

  test('leaves the order as it is on Escape, and a move can be undone', () => {
    const walked = walkThrough(items).typed('o').key('down').key('escape')
    expect(walked.events).toHaveLength(2)
    expectUndone(walked, () => walked.typed('o').key('down').typed('b'))
    expect(walked.notice).toBe('undone: the new order')
  })
})

describe('t', () => {
  test('proposes a cut to the remaining minutes, which can be accepted or cancelled', () => {
    const walked = walkThrough(straight).typed('t').entry('5')
    expect(walked.view.panel?.title).toBe('to fit into 5 min')
    expect(walked.view.panel?.lines).toEqual([
      'bench press: 1 set fewer',
      'row: left out',
      'then about 4 min, of 9',
    ])
    walked.key('escape')
    expect(walked.events).toHaveLength(2)
    walked.typed('t').entry('5').enter()
    expect([...walked.state.skipped].sort()).toEqual(['1.1.s3', '1.2.s1', '1.2.s2'])
    expect(walked.state.changes).toEqual([{ kind: 'cut', minutes: 5, steps: ['1.1.s3', '1.2.s1', '1.2.s2'] }])
  })

  test('cuts nothing if the time is enough, and says if nothing can be cut', () => {
    const walked = walkThrough(straight).typed('t').entry('30')
    expect(walked.notice).toBe('about 9 min left: nothing needs to be cut')
    const main = walkThrough('One\n\nrun\n  5 km @ 4:00/km\n').typed('t').entry('10')
    expect(main.notice).toBe('10 min is too short: cut as far as possible, it takes about 20 min')
  })

  test('offers only the run and only the lift if both are too long, and neither takes longer', () => {
    const day = 'Both\n\nrun\n  20 min easy\n\nlift\n  squat: 4 x 5 @ 100 kg, rest 3:00\n'
    const walked = walkThrough(day).typed('t').entry('21')
    expect(walked.notice).toBe('21 min is too short for both: type 21 run (20 min) or type 21 lift (11 min)')
    walked.entry('21 lift')
    expect(walked.view.panel?.lines).toEqual(['20 min easy: left out', 'then about 11 min, of 31'])
    walked.enter()
    expect([...walked.state.skipped]).toEqual(['1.1.p1'])
  })

  test('never shortens a race: its splits stay, however few minutes are left', () => {
    const walked = walkThrough('One\n\nrun\n  10 km race, split 1 km\n').typed('t').entry('30')
    expect(walked.notice).toMatch(/^30 min is too short: cut as far as possible, it takes about \d+ min$/)
  })

  test('asks again for minutes that are 0 or not a number', () => {
    const walked = walkThrough(straight).typed('t').enter()
    expect(walked.notice).toBe('type the minutes that are left; Escape cancels')
    walked.entry('soon')
    expect(walked.notice).toBe('invalid minutes "soon"; write 62 or 1:02')
  })

  test.each([
    ['pain left calf 3', 'Pain noted: left calf 3. Stop if it is sharp or gets worse.', true],
    ['chest pain', 'Stop. Chest pain, faintness or unusual breathlessness need a doctor now.', false],
    ['dizzy', 'Stop. Chest pain, faintness or unusual breathlessness need a doctor now.', false],
  ])('keeps %s as a note, and still asks for the minutes', (typed, notice, pain) => {
    const walked = walkThrough(straight).space().wait(5).typed('t').entry(typed)
    expect([walked.notice, walked.model.mode.kind, walked.model.draft]).toEqual([notice, 'timeLeft', ''])
    const text = typed.replace('pain left', 'left')
    expect(walked.state.notes).toMatchObject([{ text, pain }])
  })

  test('cuts repeats to half, with their recoveries; the cool-down stays', () => {
    const walked = walkThrough(
      'Long\n\nrun\n  3 km @ 4:00/km\n  jog 400 m\n  4 x 100 m strides, walk back\n  5 km easy\n',
    )
    walked.typed('t').entry('47').enter()
    const left = walked.state.steps.filter((step) => !walked.state.passed.has(step.id))
    expect(left.map((step) => step.id)).toEqual(['1.1.p1', '1.2.j1', '1.3.p1', '1.3.j1', '1.3.p2', '1.4.p1'])
  })

  test('does not cut a set under way, and its rest leads to the next step left', () => {
    const walked = walkThrough(straight).entry('5').space().wait(10).typed('t').entry('1').enter()
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.s2' })
    walked.wait(20).space()
    expect(walked.state.skipped.has('1.1.s2')).toBe(false)
    expect(walked.view.pending).toBe('1 result to enter')
  })

  test('keeps the clock running in a rest before a set that is cut', () => {
    const walked = walkThrough(straight).effort(20).wait(10).typed('t').entry('3').enter()
    expect(walked.state.passed.has('1.1.s3')).toBe(true)
    expect(walked.clock.label).toMatch(/^(rest|since the set)$/)
  })

  test('is undone as one action', () => {
    const walked = walkThrough(straight).effort(20).wait(10)
    expectUndone(walked, () => walked.typed('t').entry('3').enter())
    expect(walked.notice).toBe('undone: the cut')
  })
})
