import { describe, expect, test } from 'vitest'
import type { SetStep } from '../../src/prescription/step.ts'
import { secondsPerRepOf } from '../../src/recorder/keys.ts'
import { warningText } from '../../src/recorder/update.ts'
import { stepNow } from '../../src/session/state.ts'
import { expectUndone, type Walked, walkThrough } from '../day.ts'

const day = 'Day\n\nrun: track\n  2 km easy\n\nlift\n  row: 2 x 5 @ 50 kg, rest 1:00\n'

describe('n', () => {
  test('adds a note to the last result', () => {
    const walked = walkThrough(day).entry('11:02').typed('n').entry('windy back straight')
    expect(walked.state.notes).toMatchObject([{ about: '1.1.p1', text: 'windy back straight', pain: false }])
    expect(walked.model.mode.kind).toBe('recording')
  })

  test('shows the note, and what it belongs to', () => {
    const said = (text: string) => walkThrough(day).entry('11:02').typed('n').entry(text).notice
    expect(said('windy back straight')).toBe('noted: windy back straight')
    expect(said('pain "left knee"')).toBe('Pain noted: left knee. Stop if it is sharp or gets worse.')
    expect(said('with: flats')).toBe('noted: with flats')
    expect(said('day: slept 5 h')).toBe('noted for the day: slept 5 h')
    expect(said(' ')).toBeNull()
  })

  test('is also the first letter of note, which is not part of it', () => {
    const said = (text: string) => walkThrough(day).entry('11:02').spell(text, 0.2).enter().notice
    expect(said('note: windy back straight')).toBe('noted: windy back straight')
    expect(said('note windy')).toBe('noted: windy')
    expect(said('nother leg fine')).toBe('noted: other leg fine')
  })

  test('stores pain as a note for later advice', () => {
    const walked = walkThrough(day).entry('11:02').typed('n').entry('pain "left knee"')
    expect(walked.state.notes).toMatchObject([{ about: '1.1.p1', text: 'left knee', pain: true }])
  })

  test('with: notes the conditions of the part', () => {
    const walked = walkThrough(day).typed('n').entry('with: flats, track, windy')
    expect(walked.state.partStates[0]?.conditions).toBe('flats, track, windy')
    walked.entry('11:02').entry('5').entry('5').typed('n').entry('with belt')
    expect(walked.state.partStates[1]?.conditions).toBe('belt')
  })

  test('after a part was closed is about its last result, not about a set that was left', () => {
    const walked = walkThrough('Day\n\nlift\n  row: 3 x 5 @ 50 kg\n\nrun\n  2 km easy\n').effort(20).enter()
    walked.typed('f').entry('7').enter().wait(5).typed('n').entry('back tight')
    expect(walked.events.at(-1)).toMatchObject({ type: 'noteAdded', about: '1.1.s1' })
  })

  test('with: after a part was closed is for that part, not for the one that has not begun', () => {
    const walked = walkThrough(day).entry('11:02').typed('f').entry('5').entry('12')
    walked.typed('n').entry('with: flats')
    expect(walked.state.partStates.map(({ conditions }) => conditions)).toEqual(['flats', null])
  })

  test('day: adds a note to the day, and so does any note before the first result', () => {
    const walked = walkThrough(day)
      .typed('n')
      .entry('slept 5 h')
      .enter()
      .entry('11:02')
      .typed('n')
      .entry('day: pain in the neck')
    expect(walked.state.notes).toMatchObject([
      { about: null, text: 'slept 5 h', pain: false },
      { about: null, text: 'neck', pain: true },
    ])
  })

  test('works while a clock runs, and stops none', () => {
    const walked = walkThrough(day).space().wait(60).typed('n').wait(10).entry('"strides after"').enter()
    expect(walked.shows).toBe('run 1:10')
    expect(walked.state.notes).toMatchObject([{ text: 'strides after' }])
  })

  test('asks what the note is about more than two minutes after the last result', () => {
    const later = () => walkThrough(day).entry('11:02').wait(121).typed('n').entry('calf tight')
    expect(later().view.panel).toMatchObject({
      title: 'what is "calf tight" about?',
      lines: ['r 2 km', 'p run: track', 'd the day'],
    })
    const noted = (walked: Walked) => walked.state.notes.map(({ about, text }) => [about, text])
    expect(noted(later().enter())).toEqual([['1.1.p1', 'calf tight']])
    expect(noted(later().typed('r'))).toEqual([['1.1.p1', 'calf tight']])
    expect(noted(later().typed('p'))).toEqual([[null, 'run: track: calf tight']])
    expect(noted(later().typed('d'))).toEqual([[null, 'calf tight']])
    expect(later().key('escape').model).toMatchObject({ mode: { kind: 'noting' }, draft: 'calf tight' })
    expect(later().typed('k').notice).toBe('Press Enter (result), p (part), d (day) or Esc (back).')
    const soon = walkThrough(day).entry('11:02').wait(119).typed('n').entry('calf tight')
    expect(noted(soon)).toEqual([['1.1.p1', 'calf tight']])
    const ofDay = walkThrough(day).entry('11:02').wait(300).typed('n').entry('day: slept 5 h')
    expect(noted(ofDay)).toEqual([[null, 'slept 5 h']])
  })

  test('keeps the note where Enter would put it if a result is typed at the question', () => {
    const walked = walkThrough(day).entry('11:02').wait(121).typed('n').entry('calf tight').spell('12:00')
    expect(walked.state.notes).toMatchObject([{ about: '1.1.p1', text: 'calf tight' }])
    expect(walked.model).toMatchObject({ mode: { kind: 'recording' }, draft: '12:00' })
  })

  test('asks nothing about a pain, which is of the effort under way, else of the last result', () => {
    const pain = (walked: Walked) => walked.typed('n').entry('pain left foot 2').state.notes
    const later = () => walkThrough(day).entry('11:02').wait(900)
    expect(pain(later())).toMatchObject([{ about: '1.1.p1', text: 'left foot 2', pain: true }])
    const { id } = stepNow(later().state) ?? {}
    expect(pain(later().space().wait(300))).toMatchObject([{ about: id, pain: true }])
  })

  test('asks before the first result too, and Enter takes the day', () => {
    const walked = walkThrough(day).typed('n').entry('slept 5 h')
    expect(walked.view.keys.map(({ key, label }) => `${key} ${label}`)).toEqual([
      'Enter day',
      'p part',
      'Esc back',
    ])
    expect(walked.enter().state.notes).toMatchObject([{ about: null, text: 'slept 5 h' }])
  })

  test('ignores an empty note, and Escape cancels once the text is cleared', () => {
    const walked = walkThrough(day).typed('n').enter()
    walked.typed('n').typed('wind').key('escape')
    expect(walked.model).toMatchObject({ draft: '', mode: { kind: 'noting' } })
    walked.key('escape')
    expect(walked.model.mode.kind).toBe('recording')
    expect(walked.events).toHaveLength(2)
  })

  test('is undone, for a note and for conditions', () => {
    const walked = walkThrough(day).entry('11:02')
    expectUndone(walked, () => walked.typed('n').entry('windy'))
    expect(walked.notice).toBe('undone: the note')
    expectUndone(walked, () => walked.typed('n').entry('with: flats'))
    expect(walked.notice).toBe('undone: the conditions')
  })

  test('keeps the words of a skipped result as a note about it', () => {
    const walked = walkThrough(day).entry('- "calf tight"').entry('- pain "left calf"')
    expect(walked.state.notes).toMatchObject([
      { about: '1.1.p1', text: 'calf tight', pain: false },
      { about: '2.1.s1', text: 'left calf', pain: true },
    ])
    expect(walked.view.echo).toBe('skipped')
  })
})

describe('f', () => {
  test('closes the part with its effort and its minutes, offering the live ones', () => {
    const walked = walkThrough(day).space().wait(662).space().enter().typed('f')
    expect(walked.view.panel?.title).toBe('how hard was the run (track), as a whole?')
    expect(walked.view.panel?.lines).toEqual([
      ' 0  rest',
      ' 1  very, very easy',
      ' 2  easy',
      ' 3  moderate',
      ' 4  somewhat hard',
      ' 5  hard',
      ' 7  very hard',
      '10  maximal',
    ])
    walked.entry('3')
    expect(walked.view.entry).toMatchObject({ label: 'minutes', placeholder: 'Enter: 11' })
    walked.enter()
    expect(walked.state.partStates[0]).toMatchObject({ closed: true, effort: 3, minutes: 11 })
    expect(walked.state.finished).toBe(false)
  })

  test('closes a meal without an effort or minutes, and first names what is missing', () => {
    const walked = walkThrough('Meals\n\nfuel\n  before 2 h: carbs 75 g\n  after: carbs 80 g\n')
      .enter()
      .typed('f')
    expect(walked.view.panel).toMatchObject({
      title: 'close the fuel',
      lines: ['not recorded, so not done: fuel after'],
    })
    expect(walked.view.entry).toMatchObject({ label: 'close fuel', placeholder: 'Enter closes it' })
    expect(walked.state.finished).toBe(false)
    walked.enter()
    expect(walked.state.partStates[0]).toMatchObject({ closed: true, effort: null, minutes: null })
    expect(walked.state.finished).toBe(true)
  })

  test('offers the minutes of work and recoveries if no clock ran', () => {
    const walked = walkThrough('Track\n\nrun\n  3 x 1 km @ 3:50/km, jog 400 m\n')
    walked.typed('3:50 3:50 3:50').enter().enter().typed('f').enter()
    // 690 s of running and two jogs of 400 m at 7:00/km
    expect(walked.view.entry.placeholder).toBe('Enter: 17')
  })

  test('does not trust a clock that ran for only some of the part', () => {
    const walked = walkThrough('Track\n\nrun\n  3 x 1 km @ 3:50/km, jog 400 m\n')
    walked.effort(60).typed('3:50 3:50 3:50').enter().enter().typed('f').enter()
    expect(walked.view.entry.placeholder).toBe('Enter: 17')
  })

  test('offers nothing if nothing is known', () => {
    const walked = walkThrough(day).entry('-').typed('f').enter()
    expect(walked.view.entry.placeholder).toBe('Enter: not known')
    walked.enter()
    expect(walked.state.partStates[0]).toMatchObject({ closed: true, effort: null, minutes: null })
  })

  test('names a distance as it is written, on the whole screen, on a day in miles', () => {
    const walked = walkThrough('Day\nunits: mi lb\n\nrun\n  5 km steady\n  3 x 1 km hard, jog 200 m\n')
    expect(walked.view.now.what).toBe('5 km steady')
    walked.space().entry('26:10')
    expect(walked.view.panel?.title).toBe('5 km is at 0:00. Save 26:10 for it? Enter yes, Esc no')
    walked.enter()
    expect(walked.view).toMatchObject({
      now: { what: '1000 m hard' },
      entry: { label: 'repeat 1 of 3: 1000 m' },
    })
    expect(walked.enter().notice).toContain('repeat 1 of 3: 1000 m')
  })

  test('calls a cross part cross-training in a sentence', () => {
    const walked = walkThrough('Day\n\ncross: bike\n  10 min easy\n\nrun\n  2 km easy\n')
      .space()
      .wait(600)
      .space()
      .enter()
    expect(walked.view.clock.label).toBe('since the cross-training')
    expect(walked.typed('f').view.panel?.title).toBe('how hard was the cross-training (bike), as a whole?')
  })

  test('lists what is still pending, including the step under way, before it closes', () => {
    const walked = walkThrough(day).space().wait(600).typed('f')
    expect(walked.view.panel?.lines[0]).toBe('not recorded, so not done: 2 km')
    walked.key('escape').space().typed('f')
    expect(walked.view.panel?.lines[0]).toBe('not recorded, so not done: 2 km')
    walked.enter().enter()
    expect(walked.state.partStates[0]?.closed).toBe(true)
    expect(walked.view.pending).toBe('')
    expect(walked.view.entry.label).toBe('row, set 1 of 2')
  })

  test('closes a part that is under way before one that was passed over', () => {
    const walked = walkThrough('Two\n\nprep\n  foam roll 3:00\n\nrun\n  2 km easy\n')
    walked.typed('o').key('down').typed('b').space().wait(60).typed('f')
    expect(walked.view.entry.label).toBe('effort of run')
  })

  test('asks again for an impossible effort or minutes', () => {
    const walked = walkThrough(day).entry('11:02').typed('f').entry('11')
    expect(walked.notice).toBe('invalid effort "11"; write 0 (rest) to 10 (maximal), halves allowed')
    walked.entry('very hard').entry('x')
    expect(walked.notice).toBe('invalid minutes "x"; write 62 or 1:02')
    walked.entry('1:02')
    expect(walked.state.partStates[0]).toMatchObject({ effort: 7, minutes: 62 })
  })

  test('accepts a dash for unknown minutes', () => {
    const walked = walkThrough(day).entry('11:02').typed('f').entry('3').entry('-')
    expect(walked.state.partStates[0]).toMatchObject({ closed: true, minutes: null })
  })

  test('finishes the session after the last part', () => {
    const walked = walkThrough(day).entry('11:02').typed('f').entry('3').enter()
    walked.entry('5').entry('5').typed('f').entry('4').entry('20')
    expect(walked.state).toMatchObject({ finished: true })
    expect(walked.events.slice(-2).map(({ type }) => type)).toEqual(['partClosed', 'sessionFinished'])
    walked.space()
    expect(walked.notice).toBe('the session is closed')
    walked.typed('f')
    expect(walked.notice).toBe('every part is closed')
  })

  test('passes whatever was not done in a closed part', () => {
    const walked = walkThrough(day).entry('11:02').typed('f').enter().enter().entry('5')
    walked.typed('f').enter().enter()
    expect(walked.state.finished).toBe(true)
    expect([...walked.state.recorded.keys()]).toEqual(['1.1.p1', '2.1.s1'])
  })
})

describe('u', () => {
  test('undoes the last action and names it, and asks before undoing a clock step', () => {
    const walked = walkThrough(day).space().wait(30)
    walked.typed('u')
    expect(walked.view.panel?.title).toBe('undo the start of 2 km?')
    expect(walked.state.phase.kind).toBe('effort')
    walked.key('escape')
    expect(walked.state.phase.kind).toBe('effort')
    walked.typed('u').typed('k').wait(1).typed('u')
    expect(walked.notice).toBe('undone: the start of 2 km')
    expect(walked.state.phase).toMatchObject({ kind: 'ready', since: null })
  })

  test('is confirmed by Enter too', () => {
    const walked = walkThrough(day).space().wait(30).typed('u').enter()
    expect(walked.phase.kind).toBe('ready')
  })

  test('undoes a set that Enter ended together with its result', () => {
    const walked = walkThrough(day).entry('11:02').space().wait(20)
    expectUndone(walked, () => walked.enter())
    expect(walked.notice).toBe('undone: the result of set 1 of 2')
    expect(walked.shows).toBe('set 0:20')
  })

  test('undoes the results of one line together, as one Enter recorded them', () => {
    const walked = walkThrough('Track\n\nrun: track\n  4 x 1600 m @ 3:45-3:50/km, jog 400 m\n')
    walked.entry('6:08').wait(1)
    expectUndone(walked, () => walked.typed('6:07 - 6:04').enter().enter())
    expect(walked.notice).toBe('undone: the 3 results up to repeat 4 of 4: 1.6 km')
    expect([...walked.state.recorded.keys()]).toEqual(['1.1.p1'])
    walked.typed('u')
    expect(walked.notice).toBe('undone: the result of repeat 1 of 4: 1.6 km')
  })

  test('undoes the sets of one line together, too', () => {
    const walked = walkThrough('Legs\n\nlift\n  squat: 3 x 3 @ 60 kg\n')
      .effort(20)
      .wait(60)
      .effort(20)
      .wait(1)
    expectUndone(walked, () => walked.typed('3 3').enter().enter())
    expect(walked.notice).toBe('undone: the 2 results up to set 2 of 3')
  })

  test('undoes a skip on the line with its words', () => {
    const walked = walkThrough('Track\n\nrun: track\n  4 x 1600 m @ 3:45-3:50/km, jog 400 m\n')
    expectUndone(walked, () => walked.typed('6:07 - "calf" 6:04').enter().enter())
    expect(walked.notice).toBe('undone: the 3 results up to repeat 3 of 4: 1.6 km')
    expectUndone(walked.wait(1), () => walked.entry('- "calf"'))
    expect(walked.notice).toBe('undone: skipping repeat 1 of 4: 1.6 km')
  })

  test('goes back one action at a time, to the start', () => {
    const walked = walkThrough(day).effort(662).wait(1).enter().effort(20).wait(1).entry('5')
    for (let press = 0; press < 12; press++) walked.typed('u')
    expect(walked.state.recorded.size).toBe(0)
    expect(walked.phase).toMatchObject({ kind: 'ready', since: null })
    expect(walked.notice).toBe('nothing to undo since the start')
  })

  test('undoes what the clock did together with its cause', () => {
    const walked = walkThrough('One\n\nlift\n  squat: 2 x (1+1) @ 90 kg, pause 20 s, rest 2:00\n')
    walked.space().wait(4).space().wait(25)
    expect(walked.events.at(-1)).toMatchObject({ type: 'groupBegun', auto: true })
    walked.typed('u').typed('u')
    expect(walked.notice).toBe('undone: the end of group 1 of set 1 of 2')
    expect(walked.phase).toMatchObject({ kind: 'effort', group: 0 })
    expect(walked.shows).toBe('set 0:29')
  })

  test('undoes the start of a group by key', () => {
    const walked = walkThrough('One\n\nlift\n  squat: 2 x (1+1) @ 90 kg, pause 20 s, rest 2:00\n')
      .effort(4)
      .wait(5)
    expectUndone(walked, () => walked.space())
    expect(walked.notice).toBe('undone: the start of group 2 of set 1 of 2')
  })

  test('takes the last closing back, with the prep that was closed with it and the sets not entered', () => {
    const lift =
      'Gym\n\nprep\n  hip circles\n\nlift\n  row: 2 x 5 @ 60 kg, rest 2:00\n\nfuel\n  after: carbs 80 g\n'
    const walked = walkThrough(lift).enter().wait(6).effort(20).wait(60).effort(20).wait(5)
    expectUndone(walked, () => walked.typed('f').entry('7').enter())
    expect(walked.notice).toBe('undone: closing lift')
    expect(walked.enter().enter().recorded('2.1.s1')).toMatchObject({ reps: 5 })
  })

  test('goes on past a closing that it took back, but never past the end of the session', () => {
    const walked = walkThrough(day).entry('11:02').typed('f').enter().enter()
    expectUndone(walked, () => walked.entry('4'))
    walked.typed('u').typed('u')
    expect([walked.state.partStates[0]?.closed, walked.state.recorded.size]).toEqual([false, 0])
    const over = walkThrough('One\n\nrun\n  2 km easy\n').entry('11:02').typed('f').enter().enter().typed('u')
    expect(over.state.finished).toBe(true)
  })
})

describe('a reopened session', () => {
  const reopened = () => {
    const walked = walkThrough(day).entry('11:02').typed('f').entry('3').entry('12')
    walked.entry('5').typed('f').entry('6').entry('20')
    return walked.reopen()
  }

  test('asks for what was not done, and closes each part with its earlier values', () => {
    const walked = reopened()
    expect(walked.state.finished).toBe(false)
    expect(walked.view.entry.label).toBe('row, set 2 of 2')
    walked.entry('4 @9')
    walked.typed('f')
    expect(walked.view.entry.label).toBe('effort of lift')
    walked.enter()
    expect(walked.view.entry.placeholder).toBe('Enter: 20')
    walked.enter()
    walked.typed('f').enter().enter()
    expect(walked.state.finished).toBe(true)
    expect(walked.state.partStates).toMatchObject([
      { effort: 3, minutes: 12 },
      { effort: 6, minutes: 20 },
    ])
  })

  test('can be undone past the part that was closed last', () => {
    const walked = reopened()
    walked.typed('u')
    expect(walked.notice).toBe('undone: the result of set 1 of 2')
    expect(walked.state.partStates).toMatchObject([{ closed: true }, { closed: false }])
    walked.typed('u')
    expect(walked.notice).toBe('undone: closing run: track')
  })
})

test('q leaves, ? shows the keys, and any key returns', () => {
  const walked = walkThrough(day).typed('?')
  expect(walked.view.panel?.title).toBe('keys')
  walked.typed('x')
  expect(walked.model.mode.kind).toBe('recording')
  walked.typed('?').enter().typed('q')
  expect(walked.left).toBe(true)
})

test('same means the exercise itself in a round, not the one before it', () => {
  const walked = walkThrough('Round\n\nlift\n  pull-up 2 x 6 @ bodyweight + dip 2 x 8 @ bodyweight\n')
  walked.entry('5').entry('9').entry('same').entry('same')
  expect(['1.1.s1', '1.1.s2', '1.1.s3', '1.1.s4'].map((id) => walked.recorded(id))).toMatchObject([
    { reps: 5 },
    { reps: 9 },
    { reps: 5 },
    { reps: 9 },
  ])
})

test('same repeats the load that was lifted, where the next set of the line has another', () => {
  const walked = walkThrough('One\n\nlift\n  bench press: 1 x 5 @ 70 kg then 1 x 5 @ 80 kg\n')
    .entry('5')
    .entry('same')
  expect(walked.view.echo).toBe('5 x 70')
})

test('a failed hold is said without the repetition that failed', () => {
  expect(walkThrough('One\n\nlift\n  plank: 2 x 45 s\n').effort(20).entry('30!').view.echo).toBe(
    '30 s, failed',
  )
})

describe('a note about the day', () => {
  const noted = (typed: string) => {
    const last = walkThrough(day).typed('n').entry(typed).typed('d').events.at(-1)
    return last?.type === 'noteAdded' ? [last.about, last.text] : last?.type
  }
  test.each([
    ['day:slept 5 h', [null, 'slept 5 h']],
    ['day:   slept 5 h', [null, 'slept 5 h']],
    ['hard day: slept 5 h', [null, 'hard day: slept 5 h']],
  ])('is taken from %s', (typed, note) => {
    expect(noted(typed)).toEqual(note)
  })
})

test('a warning sign in the note of a result is answered like one in a pain', () => {
  const said = (line: string) =>
    walkThrough('One\n\nlift\n  row: 2 x 5 @ 50 kg\n').effort(20).entry(line).notice
  expect(said('5 "felt faint"')).toBe(warningText)
  expect(said('5 pain "chest"')).toBe(warningText)
  expect(said('5 "felt strong"')).toBeNull()
})

test('a pain or a note typed while a result waits that needs figures is kept, and the result still waits', () => {
  for (const line of [
    'lift\n  row 2 x 5 @ rpe 8',
    'lift\n  row 2 x max',
    'run\n  2 x 1 km @ 4:00/km, jog 200 m',
  ]) {
    const walked = walkThrough(`One\n\n${line}\n`).effort(20).entry('"windy" pain left calf 3')
    expect(walked.notice, line).toBe('Pain noted: left calf 3. Stop if it is sharp or gets worse.')
    expect(walked.state.notes.map(({ about }) => about)).toEqual([walked.ids[0], walked.ids[0]])
    expect([walked.view.pending, walked.model.draft]).toEqual(['1 result to enter', ''])
  }
})

describe('a warning sign without quotes', () => {
  const row = 'One\n\nlift\n  row: 2 x 5 @ 50 kg\n'

  test('is answered even where its entry is refused, and another Enter says why', () => {
    const walked = walkThrough(row).typed('t').entry('5 dizzy')
    expect(walked.notice).toBe(warningText)
    expect(walked.enter().notice).toBe('invalid minutes "5 dizzy"; write 62 or 1:02')
    expect(walkThrough(row).effort(20).entry('abc chest pain').notice).toBe(warningText)
  })

  test('is answered as the place of a pain, too, where the result is unknown or must be asked about', () => {
    for (const line of ['lift\n  row 1 x 5 @ rpe 8', 'run\n  1 km @ 4:00/km'])
      for (const typed of ['pain heart', 'pain left knee, chest 3', '5.5 pain "left arm numb"'])
        expect(walkThrough(`One\n\n${line}\n`).effort(20).entry(typed).notice, typed).toBe(warningText)
    for (const typed of ['hr 170 pain heart 4', '45 s pain heart', '6 x 700kg pain heart', 'done pain heart'])
      expect(walkThrough(row).effort(20).entry(typed).notice, typed).toBe(warningText)
    expect(walkThrough(row).effort(20).entry('55 x 700 pain chest 0').notice).toBeNull()
    expect(walkThrough(row).effort(20).entry('hr 170, knee pain, not of the heart').notice).not.toBe(
      warningText,
    )
  })

  test.each(['dizzy', 'chest pain'])('alone is a note: %s', (typed) => {
    const walked = walkThrough(row).space().wait(5).entry(typed)
    expect(walked.notice).toBe(warningText)
    expect(walked.state.notes).toMatchObject([{ about: '1.1.s1', text: typed }])
    expect(walked.state.recorded.size).toBe(0)
  })

  test.each(['dizzy', 'chest pain', 'chest pain 5', 'chest pain 3.5', 'light-headed, dizzy'])(
    'is a note while a result waits, and before a prep item: %s',
    (typed) => {
      const day = `${row}\nrun\n  2 x 400 m in 80-84 s, jog 200 m\n`
      const waiting = walkThrough(day).entry('5').entry('5').space().wait(90).space().entry(typed)
      expect([waiting.notice, waiting.state.recorded.size]).toEqual([warningText, 2])
      const prep = walkThrough('One\n\nprep\n  foam roll 3:00\n').entry(typed)
      expect([prep.notice, prep.state.recorded.size]).toEqual([warningText, 0])
    },
  )

  test.each(['felt dizzy', 'pain heart'])(
    'is answered before anything is asked about the note: %s',
    (typed) => {
      const walked = walkThrough(row).effort(20).entry('5').wait(300).typed('n').entry(typed)
      expect([walked.notice, walked.model.mode.kind]).toEqual([warningText, 'recording'])
    },
  )

  test.each(['e', 'x'])('is a note in the field of %s', (key) => {
    const walked = walkThrough(row).effort(20).entry('5').typed(key)
    if (key === 'e') walked.enter().typed('')
    expect([walked.entry('chest pain').notice, walked.state.notes.length]).toEqual([warningText, 1])
  })

  test.each(['faint', 'heart racing', 'numb arm', 'passed out', 'tight chest'])(
    'begins with a letter that is a command: %s',
    (typed) => {
      const walked = walkThrough(row).effort(20).entry('5').wait(5).spell(typed).enter()
      expect([walked.notice, walked.state.notes.map(({ text }) => text)]).toEqual([warningText, [typed]])
      expect([walked.state.skipped.size, walked.model.mode.kind]).toEqual([0, 'recording'])
    },
  )

  test.each(['skip "dizzy"', '- pain chest'])('does not take the place of a result: %s', (typed) => {
    const walked = walkThrough(row).entry(typed)
    expect([walked.notice, walked.state.skipped.size]).toEqual([warningText, 1])
  })
})

test('a pain in the words of a note is kept as a note, and what would make it count is said', () => {
  const said = (line: string) =>
    walkThrough('One\n\nlift\n  row: 2 x 5 @ 50 kg\n').effort(20).entry(line).notice
  const hint = 'Kept as a note. For it to count as pain, type pain and the place: pain left calf'
  expect([said('5 "sharp pain left calf"'), said('5 "limped after it"')]).toEqual([hint, hint])
  expect([said('5 "calf twinge"'), said('5 "left knee hurts"')]).toEqual([hint, hint])
  expect(said('5 "no knee pain but the hip hurts"')).toBe(hint)
  const none = [
    'no pain today',
    'pain-free',
    'painted the rack',
    'nothing hurts',
    'no twinge',
    "didn't hurt",
    'no knee pain',
    'not painful',
    'hips not hurting',
  ]
  expect(none.map((words) => said(`5 "${words}"`))).toEqual(none.map(() => null))
})

test('closing the last run or lift closes finished prep with it, and the session', () => {
  const walked = walkThrough('Day\n\nprep\n  hip circles\n\nrun\n  2 km easy\n').enter().entry('11:00')
  walked.typed('f').entry('3').entry('12')
  expect(walked.state.partStates).toMatchObject([
    { closed: true, effort: null },
    { closed: true, effort: 3, minutes: 12 },
  ])
  expect(walked.state.finished).toBe(true)
})

test('closing prep takes no minutes: a number in the field does not close it', () => {
  const walked = walkThrough('Day\n\nprep\n  hip circles\n\nrun\n  2 km easy\n').typed('f').entry('400')
  expect(walked.state.partStates[0]).toMatchObject({ closed: false })
  walked.press({ kind: 'named', name: 'escape' })
  walked.enter()
  expect(walked.state.partStates[0]).toMatchObject({ closed: true, effort: null, minutes: null })
})

test('a tempo of no seconds is paced as usual', () => {
  const set = (tempo: string | null) => secondsPerRepOf({ tempo } as SetStep, 4)
  expect([set('0-0-0'), set(null), set('3-1-X'), set('31X1')]).toEqual([4, 4, 5, 6])
  // A part of a tempo can have two digits.
  expect(set('10-0-X')).toBe(11)
})
