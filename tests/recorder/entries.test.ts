import { describe, expect, test } from 'vitest'
import { expectUndone, pressOf, walkThrough } from '../day.ts'

const straight = 'Straight sets\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n'
const repeats = 'Track\n\nrun: track\n  4 x 1600 m @ 3:45-3:50/km, jog 400 m\n'
const day =
  'Day\n\nprep\n  leg swings 2 x 10\n\nrun\n  2 km easy\n\nlift\n  row: 2 x 5 @ 50 kg, rest 1:00\n\nfuel\n  after: carbs 80 g\n'

describe('an entry with no clock at all', () => {
  test('fills the next result in order', () => {
    const walked = walkThrough(day)
    walked.enter().entry('11:02').entry('5').entry('5 x 52.5 @8').enter()
    expect([...walked.state.recorded.keys()]).toEqual(['1.1.x1', '2.1.p1', '3.1.s1', '3.1.s2', '4.1.f1'])
    expect(walked.recorded('2.1.p1')).toMatchObject({ seconds: 662, byKey: false })
    expect(walked.recorded('4.1.f1')).toMatchObject({ carbsG: 80 })
    expect(walked.phase).toMatchObject({ kind: 'ready', since: null })
    expect(walked.shows).toBe('ready 0:00')
  })

  test('fills several results with several times on one line, shown before Enter records them', () => {
    const walked = walkThrough(repeats).typed('6:07 6:05 6:04 6:01').enter()
    expect(walked.view.panel).toMatchObject({ title: 'these results, in order' })
    expect(walked.state.recorded.size).toBe(0)
    walked.enter()
    expect(
      [...walked.state.recorded.values()].map(({ result }) => 'seconds' in result && result.seconds),
    ).toEqual([367, 365, 364, 361])
    expect(walked.view.echo).toBe('6:07  6:05  6:04  6:01')
  })

  test('shows a skipped one as such, and what else was typed with each', () => {
    const walked = walkThrough(repeats).typed('6:07 hr 170 "windy" - 6:04 pain calf 3').enter()
    expect(walked.view.panel?.lines.map((line) => line.split('  ').at(-1))).toEqual([
      '6:07 hr 170 "windy"',
      'skipped',
      '6:04 pain "calf 3"',
    ])
  })

  test('leaves the line as typed after Escape, to be corrected', () => {
    const walked = walkThrough(repeats).typed('6:07 6:05').enter().key('escape')
    expect(walked.model).toMatchObject({ draft: '6:07 6:05', mode: { kind: 'recording' } })
    expect(walked.state.recorded.size).toBe(0)
  })

  test('is questioned if times rise like those of a stopwatch that was never reset, and Enter takes the differences', () => {
    const walked = walkThrough(repeats).typed('6:07 12:12 18:16').enter()
    expect(walked.view.panel).toMatchObject({ title: 'running totals? The differences are 6:07 6:05 6:04' })
    walked.enter()
    expect(walked.recorded('1.1.p3')).toMatchObject({ seconds: 364 })
  })

  test('is refused with more times than results', () => {
    const walked = walkThrough(repeats).typed('6:07 6:05 6:04 6:01 6:02').enter()
    expect(walked.notice).toBe('there are 5 times, and only 4 times are asked for next')
    expect(walked.model.draft).toBe('6:07 6:05 6:04 6:01 6:02')
  })

  test('ends the first of several repeats that is still running', () => {
    const walked = walkThrough(repeats).space().wait(400).typed('6:07 6:05').enter().enter()
    expect(walked.recorded('1.1.p2')).toMatchObject({ seconds: 365 })
    expect(walked.phase).toMatchObject({ kind: 'recovery', step: '1.1.j2' })
  })
})

describe('Enter alone', () => {
  test('records the oldest pending result as offered', () => {
    const walked = walkThrough(straight).effort(20).wait(10).effort(20)
    expect(walked.view.pending).toBe('2 results to enter')
    walked.enter()
    expect(walked.state.recorded.has('1.1.s1')).toBe(true)
    expect(walked.state.recorded.has('1.1.s2')).toBe(false)
  })

  test('records the pending set even while the next one is under way', () => {
    const walked = walkThrough(straight).effort(20).wait(10).space().wait(5).enter()
    expect(walked.state.recorded.has('1.1.s1')).toBe(true)
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.s2' })
    expect(walked.shows).toBe('set 0:05')
  })

  test('never guesses when nothing is pending or under way', () => {
    const walked = walkThrough(straight).enter()
    expect(walked.view.panel?.title).toBe('Set 1 has not begun. Record 5 x 70? Enter yes, Esc no')
    expect(walked.state.recorded.size).toBe(0)
    walked.key('escape').effort(20).enter().wait(1).enter()
    expect(walked.notice).toBe('nothing to enter yet: Space begins set 2 of 3, or type its result')
    expect(walked.state.recorded.size).toBe(1)
    walked.wait(1).enter()
    expect(walked.view.panel?.title).toBe('Set 2 has not begun. Record 5 x 70? Enter yes, Esc no')
    expect(walked.enter().state.recorded.size).toBe(2)
  })

  test('records an item of prep, or a meal, without a clock', () => {
    const walked = walkThrough(day).enter()
    expect(walked.state.recorded.has('1.1.x1')).toBe(true)
    expect(walked.view.echo).toBe('done')
  })

  test('echoes what was eaten', () => {
    const meal = 'Meals\n\nfuel\n  before 1 h: carbs 75 g\n  after: "shake"\n'
    const walked = walkThrough(meal).entry('carbs 55 g "a banana"')
    expect(walked.view.echo).toBe('carbs 55 g "a banana"')
    expect(walked.enter().view.echo).toBe('done')
    expect(walkThrough(meal).enter().view.echo).toBe('carbs 75 g')
  })

  test('undoes an item of prep that Space ended together with its end', () => {
    const walked = walkThrough(day).space().wait(30)
    expectUndone(walked, () => walked.space())
    walked.space()
    expect(walked.recorded('1.1.x1')).toEqual({ note: null, pain: null })
    expect(walked.view.pending).toBe('')
    walked.space().wait(310).entry('5:10 hr 140')
    expect(walked.recorded('2.1.p1')).toMatchObject({ seconds: 310, heartRate: 140 })
    expect(walked.shows).toBe('since the run 0:00')
  })

  test('a run whose result is typed while it runs is over, and so is whatever came before', () => {
    const walked = walkThrough('Easy\n\nrun\n  2 km easy\n').space().wait(660).entry('11:00').wait(20)
    expect(walked.shows).toBe('since the run 0:20')
  })

  test('an easy run that no clock measured is done, not timed, once it is pending', () => {
    const walked = walkThrough(day).enter().enter()
    expect(walked.notice).toBe('nothing to enter yet: Space begins 2 km, or type its result')
    walked.entry('=')
    expect(walked.recorded('2.1.p1')).toMatchObject({ meters: 2000, seconds: null })
  })

  test('a run with a target must be typed if no clock ran', () => {
    const walked = walkThrough(repeats).entry('=')
    expect(walked.state.recorded.size).toBe(0)
    expect(walked.notice).not.toBeNull()
  })

  test('asks for nothing at the end of the day', () => {
    const walked = walkThrough('One\n\nlift\n  row: 1 x 5 @ 50 kg\n').entry('5').enter()
    expect(walked.notice).toBe('there is no result to enter now')
  })
})

describe('a value that is questioned', () => {
  test('is recorded as suggested by Enter, and as typed by !', () => {
    const meant = walkThrough('Mile\n\nrun\n  1 mi @ 6:00-6:10/mi\n').entry('6.07')
    expect(meant.model.mode.kind).toBe('question')
    expect(meant.view.panel?.title).toContain('did you mean 6:07?')
    meant.enter()
    expect(meant.recorded('1.1.p1')).toMatchObject({ seconds: 367 })
    const insisted = walkThrough('Mile\n\nrun\n  1 mi @ 6:00-6:10/mi\n').entry('6.07').typed('!')
    expect(insisted.recorded('1.1.p1')).toMatchObject({ seconds: 6.07 })
  })

  test('is cleared by Escape, which shows it, and the next entry starts afresh', () => {
    const walked = walkThrough('Mile\n\nrun\n  1 mi @ 6:00-6:10/mi\n').entry('6.07').typed('k').key('escape')
    expect(walked.model).toMatchObject({ draft: '', mode: { kind: 'recording' } })
    expect(walked.notice).toBe('was: 6.07')
    expect(walked.entry('6:07').recorded('1.1.p1')).toMatchObject({ seconds: 367 })
  })

  test('does not stop the clock, which stays visible', () => {
    const walked = walkThrough(straight).effort(20).wait(60).entry('6@100')
    expect([walked.view.panel?.lines, walked.shows]).toEqual([['meant: 6 x 100'], 'rest 1:30'])
    expect(walked.wait(5).shows).toBe('rest 1:25')
    walked.key('escape').key('escape').typed('u')
    expect([walked.view.panel?.title, walked.shows]).toEqual(['undo the end of set 1 of 3?', 'rest 1:25'])
  })

  test.each(['u', 's'])('closes the question of %s, which Enter would have answered', (key) => {
    const walked = walkThrough(straight).effort(20).wait(60).typed(key)
    expect(walked.model.mode.kind).toBe('question')
    expect(walked.spell('4 @9').enter().recorded('1.1.s1')).toMatchObject({ reps: 4, rpe: 9 })
    expect([walked.phase.kind, walked.state.skipped.size]).toEqual(['rest', 0])
  })

  test('stays in the field after an error, to be corrected', () => {
    const walked = walkThrough(straight).entry('six')
    expect(walked.model.draft).toBe('six')
  })

  test('is not taken by Enter if there is no suggestion', () => {
    const walked = walkThrough('One\n\nrun\n  2 km easy\n').entry('2:00')
    expect(walked.model.mode.kind).toBe('question')
    walked.enter()
    expect(walked.notice).toBe('Press ! (as typed) or Esc (back).')
    walked.typed('!')
    expect(walked.state.recorded.size).toBe(1)
  })

  test('says so if it cannot be taken as typed', () => {
    const walked = walkThrough(straight).entry('6@100')
    expect(walked.model.mode.kind).toBe('question')
    walked.typed('!')
    expect(walked.notice).toBe('Press Enter (yes) or Esc (back).')
    walked.enter()
    expect(walked.recorded('1.1.s1')).toMatchObject({ reps: 6, load: { value: 100 } })
  })

  test('returns to a correction with Escape', () => {
    const walked = walkThrough('Miles\n\nrun\n  2 x 1 mi @ 6:00-6:10/mi, jog 400 m\n').entry('6:06')
    walked.typed('e').enter().entry('6.07').key('escape')
    expect(walked.view.entry.label).toBe('correct repeat 1 of 2: 1 mi')
    walked.entry('6:07')
    expect(walked.recorded('1.1.p1')).toMatchObject({ seconds: 367 })
    expect(walked.state.recorded.size).toBe(1)
  })
})

describe('the shown load', () => {
  test('is the last one typed on the line, because the bar is still loaded', () => {
    const walked = walkThrough(straight).entry('5 x 72.5').entry('5')
    expect(walked.recorded('1.1.s2')).toMatchObject({ load: { value: 72.5 } })
  })

  test('is that of every drop of a drop set', () => {
    const walked = walkThrough('Day\n\nlift\n  curl 4 x (12 > 10 > 8) @ 20/15/10 kg\n')
    walked.entry('12>10>7 x 22>16>10')
    expect(walked.view.entry.placeholder).toBe('Enter: 12>10>8 x 22>16>10')
    expect(walked.view.now.what).toBe('curl 12>10>8 at 22 kg, then 16 kg, then 10 kg')
    walked.entry('12>10>8 x 20')
    expect(walked.recorded('1.1.s2')).toMatchObject({ loads: [{ value: 20 }, { value: 16 }, { value: 10 }] })
  })

  test('is still on the bar after a failed repetition', () => {
    const walked = walkThrough(straight).entry('4!')
    expect(walked.view.entry.placeholder).toBe('Enter: 5 x 70')
    walked.space().wait(20)
    expect(walked.view.entry.placeholder).toBe('Enter: 5 x 70')
    walked.entry('5 x 67.5')
    walked.entry('5')
    expect(walked.recorded('1.1.s3')).toMatchObject({ load: { value: 67.5 } })
  })
})

test('with two results open, the set that was lifted at 70 is recorded at 70 after a failed one', () => {
  const walked = walkThrough(straight).effort(20).wait(150).effort(20)
  walked.entry('4!').enter()
  expect(walked.recorded('1.1.s2')).toMatchObject({ reps: 5, load: { value: 70 } })
})

test('a second number that is no time of the next repeat is the heart rate of the one that is over', () => {
  const track = 'Track\n\nrun\n  4 x 400 m in 78-82 s, jog 200 m\n'
  const one = () => walkThrough(track).effort(79).wait(5)
  for (const [typed, meant] of [
    ['79 171', 'meant: 79 hr 171'],
    ['1:19 102', 'meant: 1:19 hr 102'],
    ['79, 171, rpe 8', 'meant: 79, hr 171, rpe 8'],
  ])
    expect(one().entry(typed ?? '').view.panel?.lines).toEqual([meant])
  expect(one().entry('79 101').view.panel?.title).toBe('these results, in order')
  expect(one().space().wait(82).space().entry('79 161').view.panel?.title).toMatch(/^running totals/)
  // Timed by a watch alone, both may be over.
  expect(walkThrough(track).entry('79 158').view.panel?.title).toMatch(/^running totals/)
})

describe('Space at the line', () => {
  const repeats = 'One\n\nrun\n  3 x 1 km @ 4:00/km, jog 200 m\n'
  const inJog = () => walkThrough(repeats).effort(240).wait(5)
  const asked = () => inJog().entry('1:00')

  test('begins and ends a repeat while a question is open, which stays', () => {
    const walked = asked().wait(60).space().wait(239)
    walked.press({ kind: 'named', name: 'pageDown' })
    expect(walked.measured('1.1.p2').seconds).toBe(239)
    expect(walked.view.panel?.title).toBe(asked().view.panel?.title)
    walked.key('escape').entry('3:58 3:59')
    expect(walked.enter().recorded('1.1.p2')).toMatchObject({ seconds: 239 })
  })

  test('closes a question that it answers or outdates, and keeps what was typed', () => {
    const undoing = inJog().typed('u').space()
    expect([undoing.model.mode.kind, undoing.phase.kind]).toEqual(['recording', 'effort'])
    const skipping = inJog().typed('s').space().wait(239).space()
    expect([skipping.model.mode.kind, skipping.enter().state.skipped.size]).toEqual(['recording', 0])
    const late = inJog().enter().wait(9).entry('4:01')
    expect(late.view.panel?.title).toMatch(/has not started/)
    expect(late.space().model).toMatchObject({ mode: { kind: 'recording' }, draft: '4:01' })
  })

  test.each(['e', 'f', 'n', 'o', 't'])('begins a repeat while %s is open', (key) => {
    const walked = inJog().entry('4:00').typed(key)
    const { mode } = walked.model
    expect(walked.view.keys).toContainEqual({ key: 'Space', label: 'next' })
    walked.press(pressOf(' '))
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.p2' })
    expect(walked.model.mode).toBe(mode)
  })

  test('begins the next run while a question is open, but not while a part is closed', () => {
    const next = () => walkThrough('Two\n\nrun\n  1 km @ 4:00/km\n  1 km @ 4:00/km\n').effort(240).wait(5)
    expect(next().entry('1:00').space().phase).toMatchObject({ kind: 'effort', step: '1.2.p1' })
    expect(next().typed('f').space().phase.kind).toBe('ready')
  })

  test('held down over a question counts once', () => {
    const walked = asked().wait(60)
    for (const pause of [0.5, 0.03, 0.03, 0.03]) {
      walked.press(pressOf(' '))
      walked.jump(pause)
    }
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.p2' })
  })

  test('is no answer in a rest between sets', () => {
    const walked = walkThrough(straight).effort(20).wait(5).entry('500').space()
    expect(walked.notice).toMatch(/^Press .*Esc/)
    expect(walked.phase.kind).toBe('rest')
  })

  test('begins the repeat when it was pressed, though a time was left in the field, once it is pressed again', () => {
    const walked = inJog().spell('4:01').wait(5).spell(' ', 0).wait(242)
    expect(walked.phase.kind).toBe('recovery')
    walked.spell(' ', 0)
    expect(walked.measured('1.1.p2').seconds).toBe(242)
    expect(walked.wait(3).enter().recorded('1.1.p1')).toMatchObject({ seconds: 241 })
  })

  test('begins the repeat now where the Space before belongs to the text', () => {
    const walked = inJog().spell('4:01 ').wait(80)
    walked.press(pressOf(' '))
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.p2' })
    expect(walked.clock.text).toBe('0:00')
  })

  test.each([
    ['a tired thumb doubles it in the middle of an entry', '4:01  hr 170', 0.2],
    ['a note is not closed yet', '4:01 "felt  good', 3],
  ])('is text where %s', (_, typed, apart) => {
    const walked = inJog().spell(typed, apart)
    expect([walked.phase.kind, walked.model.draft]).toEqual(['recovery', typed])
  })

  test.each(['e5 x 50', 'n felt good', 'o2.9 km in 14:30', 't 25'])(
    'is text right after other keys: %s',
    (typed) => {
      const walked = inJog().entry('4:00').spell(typed, 0.3)
      expect(walked.phase).toMatchObject({ kind: 'recovery', step: '1.1.j1' })
    },
  )

  test('right after the key of a list is refused once', () => {
    const walked = inJog().entry('4:00').spell('o ', 0.5)
    expect([walked.phase.kind, walked.notice]).toEqual(['recovery', expect.stringMatching(/^Press .*Space/)])
    expect(walked.spell(' ').phase.kind).toBe('effort')
    expect(inJog().spell('? ').model.mode.kind).toBe('recording')
  })

  test('held down in a text counts not at all', () => {
    const walked = inJog().spell('4:01')
    for (const pause of [0.6, 0.03, 0.03, 0.03]) walked.spell(' ', 0).jump(pause)
    expect(walked.phase).toMatchObject({ kind: 'recovery', step: '1.1.j1' })
  })

  test('pressed twice with a time left in the field ends the repeat once, at the first press', () => {
    const walked = inJog().space().wait(237).spell('4:01', 0).wait(2).spell('  ', 2)
    expect(walked.phase).toMatchObject({ kind: 'recovery' })
    expect(walked.measured('1.1.p2').seconds).toBe(239)
    expect(walked.model.draft).toBe('4:01')
  })
})

test('Space twice or PageDown after a typed result, to begin the next set, is answered with what comes first', () => {
  const walked = walkThrough(straight).effort(20).wait(5).spell('5 @8', 0.2)
  expect(walked.spell(' ', 0.2).notice).toBeNull()
  expect(walked.spell(' ', 0.2).notice).toMatch(/Enter/)
  expect(walked.key('pageDown').notice).toMatch(/Enter/)
  expect(walked.enter().space().notice).toBeNull()
  expect(walked.view.clock.label).toBe('set')
})

test('Space behind a Space is for the editor, which knows the cursor, except where it may mark a moment', () => {
  const space = { kind: 'text', text: ' ' } as const
  const resting = walkThrough(straight).effort(20).wait(5).spell('5 @8 ')
  expect(resting.press(space)).toBe(false)
  expect(walkThrough(straight).space().wait(20).spell('5 @8 ').press(space)).toBe(true)
})

describe('an earlier result', () => {
  test('is picked with e and typed again', () => {
    const walked = walkThrough(straight).entry('5').entry('5').entry('4')
    walked.typed('e')
    expect(walked.view.panel?.lines).toEqual([
      'bench press, set 1 of 3: 5 x 70',
      'bench press, set 2 of 3: 5 x 70',
      'bench press, set 3 of 3: 4 x 70',
    ])
    expect(walked.view.panel?.selected).toBe(2)
    walked.key('up').key('up').key('up').key('down').enter()
    expect(walked.view.entry).toMatchObject({
      label: 'correct bench press, set 2 of 3',
      short: 'correct set 2 of 3',
      placeholder: '5 x 70',
    })
    walked.entry('5 x 70 @9')
    expect(walked.recorded('1.1.s2')).toMatchObject({ rpe: 9 })
    expect(walked.model.mode.kind).toBe('recording')
  })

  test('stays as it is when nothing is typed', () => {
    const walked = walkThrough(straight).entry('4 @9')
    const escLabel = () => walked.view.keys.find(({ key }) => key === 'Esc')?.label
    walked.typed('e').enter()
    expect(escLabel()).toBe('cancel')
    walked.typed('4 @95')
    expect(escLabel()).toBe('clear')
    walked.typed('4 @9').enter()
    expect(walked.recorded('1.1.s1')).toMatchObject({ reps: 4, rpe: 9 })
    expect(walked.model.mode.kind).toBe('recording')
  })

  test('takes a load after x while a run is next, where x swaps nothing', () => {
    const walked = walkThrough('Day\n\nlift\n  row 1 x 5 @ 50 kg\n\nrun\n  1 km easy\n').effort(20)
    for (const letter of 'x 60') walked.typed(walked.model.draft + letter)
    expect(walked.model.draft).toBe('x 60')
    expect(walked.enter().recorded('1.1.s1')).toMatchObject({ load: { value: 60 } })
  })

  test('can be skipped after all, and a skipped one recorded', () => {
    const walked = walkThrough(straight).entry('5')
    walked.typed('e').enter().entry('-')
    expect(walked.state.skipped.has('1.1.s1')).toBe(true)
    expect(walked.state.recorded.has('1.1.s1')).toBe(false)
    walked.entry('5')
    expect([...walked.state.recorded.keys()]).toEqual(['1.1.s2'])
  })

  test('can be restored by undoing the correction', () => {
    const walked = walkThrough(straight).entry('5')
    walked.typed('e').enter()
    expectUndone(walked, () => walked.entry('4'))
    expect(walked.notice).toBe('undone: the result of set 1 of 3')
  })

  test('does not exist while nothing is recorded', () => {
    expect(walkThrough(straight).typed('e').notice).toBe('nothing is recorded yet')
  })
})

describe('work by time', () => {
  const steady = 'Easy\n\nrun\n  2 min steady\n'
  const plank = 'Core\n\nlift\n  plank: 2 x 45 s, rest 0:45\n'

  test('lasted as long as the clock measured if a key ended it before or after its time', () => {
    for (const [seconds, offered] of [
      [25, 'Enter: 0:25.0, timed by you'],
      [125.5, 'Enter: 2:05.5, timed by you'],
    ] as const) {
      const walked = walkThrough(steady).effort(seconds)
      expect(walked.view.entry.placeholder).toBe(offered)
      walked.enter()
      expect(walked.recorded('1.1.p1')).toMatchObject({
        seconds,
        precision: 0.1,
        byKey: true,
      })
    }
    const walked = walkThrough(steady).effort(25).enter()
    expect(walked.view.echo).toBe('0:25.0')
  })

  test('echoes a typed distance with its unit and its time, to the metre', () => {
    const echoOf = (typed: string, day = 'Easy\n\nrun\n  15 min steady\n') =>
      walkThrough(day).effort(900).entry(typed).view.echo
    expect(echoOf('3.6 km in 15:02')).toBe('3.6 km in 15:02')
    expect(echoOf('3605 m in 15:02')).toBe('3605 m in 15:02')
    expect(echoOf('900 m in 15:02')).toBe('900 m in 15:02')
    expect(echoOf('2.25 mi in 15:02')).toBe('2.25 mi in 15:02')
  })

  test('is as prescribed if it ended within 2 s of its time, or by the clock', () => {
    for (const seconds of [118, 122]) {
      const walked = walkThrough(steady).effort(seconds).enter()
      expect(walked.recorded('1.1.p1')).toMatchObject({ seconds: 120, precision: 1, byKey: false })
    }
    const repeats = walkThrough('Track\n\nrun\n  2 x (0:30 hard, jog 1:00)\n').space().wait(40).enter()
    expect(repeats.recorded('1.1.p1')).toMatchObject({ seconds: 30, byKey: false })
  })

  test('keeps what is typed', () => {
    const typed = walkThrough(steady).effort(25).entry('0:40')
    expect(typed.recorded('1.1.p1')).toMatchObject({ seconds: 40, byKey: false })
    const far = walkThrough(steady).effort(25).entry('110 m')
    expect(far.recorded('1.1.p1')).toMatchObject({ meters: 110, seconds: 25, byKey: true })
    expect(walkThrough(plank).effort(15).entry('20').recorded('1.1.s1')).toMatchObject({ seconds: 20 })
  })

  test('ended early lasts as long as it was held, by Space and by Enter', () => {
    const walked = walkThrough(plank).effort(15)
    expect(walked.view.entry.placeholder).toBe('Enter: 15 s')
    expect(walked.enter().recorded('1.1.s1')).toMatchObject({ seconds: 15 })
    walked.space().wait(20)
    expect(walked.view.entry.placeholder).toBe('Enter: as long as held')
    expect(walked.enter().recorded('1.1.s2')).toMatchObject({ seconds: 20 })
    expect(walkThrough(plank).effort(44).enter().recorded('1.1.s1')).toMatchObject({ seconds: 45 })
    expect(walkThrough(plank).effort(3).enter().recorded('1.1.s1')).toMatchObject({ seconds: 3 })
  })

  test('takes a bare number close to its seconds as its time', () => {
    const walked = walkThrough('Track\n\nrun\n  2 x (0:30 hard, jog 1:00)\n').space().wait(40).entry('30')
    expect(walked.recorded('1.1.p1')).toMatchObject({ meters: null, seconds: 30 })
  })
})

describe('an entry has at most 500 characters, and what is cut off is reported', () => {
  const day = 'A day\nlift\n  squat: 2 x 5 @ 60 kg\n'
  const long = `5 "${'a'.repeat(20_000)}`

  test.each(['typed', 'pasted'])('where it is %s', (how) => {
    const walked = walkThrough(day)
    if (how === 'typed') walked.typed(long)
    else walked.press({ kind: 'paste', text: long })
    expect(walked.model.draft).toHaveLength(500)
    expect(walked.notice).toBe('an entry has at most 500 characters: the rest was left out')
  })

  test('and Enter takes what the field took', () => {
    const walked = walkThrough(day)
      .effort(20)
      .typed(`5 "${'a'.repeat(496)}"`)
    expect(walked.notice).toBeNull()
    expect(walked.enter().recorded('1.1.s1')).toMatchObject({ note: 'a'.repeat(496) })
  })
})

describe('words of an entry', () => {
  const straight = 'One\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n'
  const said = (line: string, day = straight) => {
    const walked = walkThrough(day).effort(20).wait(5).entry(line)
    return walked.view.echo ?? walked.notice
  }

  test.each([
    ['failed at 4', '3 x 70, failed at 4'],
    ['failed at 4 x 100', '3 x 100, failed at 4'],
    ['4 failed', '4 x 70, failed at 5'],
    ['4x100 failed', '4 x 100, failed at 5'],
    ['4 x 100 failed at 5 @10', '4 x 100 @10, failed at 5'],
    ['5 failed at 4', '5 done, or failed at 4? Type 5! or 3!'],
    ['failed at 0', 'repetitions are counted from 1: failed at 4'],
    ['5 @ 2 rir', '5 x 70 @8'],
    ['2rir', '5 x 70 @8'],
    ['rpe 8', '5 x 70 @8'],
    ['done', '5 x 70'],
    ['easy', '5 x 70 "easy"'],
    ['6 easy', '6 x 70 "easy"'],
    ['skip', 'skipped'],
    ['pain left knee 3', '5 x 70 pain "left knee 3"'],
  ])('%s: %s', (line, echo) => {
    expect(said(line)).toBe(echo)
  })

  test.each([
    ['hr 168', '1:50.0 hr 168'],
    ['easy', '1:50.0 "easy"'],
    ['done hr 168', '1:50.0 hr 168'],
  ])('are echoed for a repeat that was timed: %s: %s', (line, echo) => {
    const walked = walkThrough('One\n\nrun\n  3 x 500 m in 1:50, jog 200 m\n').effort(110).entry(line)
    expect(walked.view.echo).toBe(echo)
  })

  test('a failure in rounds counts the repetitions of all rounds', () => {
    const day = 'One\n\nlift\n  10 min of: 5 pull-up, 10 push-up\n'
    expect(said('2+3!', day)).toBe('2+3, failed at 34')
  })

  test('same repeats the set before it, its repetitions and its load; the effort is typed anew', () => {
    const walked = walkThrough(straight)
      .effort(20)
      .entry('4 x 72.5 @9 "slow"')
      .wait(150)
      .effort(20)
      .entry('same @9.5')
    expect(walked.view.echo).toBe('4 x 72.5 @9.5')
    expect(said('same')).toBe('5 x 70')
    const heavier = walkThrough(straight).entry('4 x 72.5').entry('x 75').entry('same')
    expect(heavier.view.echo).toBe('4 x 75')
    const run = walkThrough('One\n\nrun\n  3 x 500 m in 1:50, jog 200 m\n')
      .entry('1:49.2 hr 170')
      .entry('same')
    expect(run.recorded('1.1.p2')).toMatchObject({ seconds: 109.2, heartRate: null, byKey: false })
  })

  describe('a load typed as a change', () => {
    test.each([
      ['+2.5', '5 x 72.5', '72.5 kg is 2.5 kg more than 70 kg'],
      ['6 x +2.5', '6 x 72.5', '72.5 kg is 2.5 kg more than 70 kg'],
      ['x -5 @8', '5 x 65 @8', '65 kg is 5 kg less than 70 kg'],
    ])('is that much more or less on a loaded lift, and says so: %s', (line, echo, notice) => {
      const walked = walkThrough(straight).effort(20).wait(5).entry(line)
      expect([walked.view.echo, walked.notice]).toEqual([echo, notice])
    })

    test('changes the load of each of a pair, and must be in its unit', () => {
      const pair = 'One\n\nlift\n  dumbbell row: 3 x 5 @ 2x25 kg, rest 2:30\n'
      expect(said('+2.5', pair)).toBe('5 x 2x27.5')
      expect(said('+5 lb')).toBe('the load shown is in kg: type its change in kg')
      expect(said('x -80')).toBe('80 kg less than 70 kg is below 0')
    })

    test('is added load for a bodyweight exercise', () => {
      const body = 'One\n\nlift\n  dip: 3 x 5 @ bodyweight+5 kg, rest 2:30\n'
      expect(said('+10', body)).toBe('5 x bw+10')
    })

    test('changes the coming load before the set and records nothing', () => {
      const walked = walkThrough(straight).entry('+2.5')
      expect(walked.notice).toBe('next: 5 x 72.5; 72.5 kg is 2.5 kg more than 70 kg')
      expect(walked.state.recorded.size).toBe(0)
    })
  })
})
