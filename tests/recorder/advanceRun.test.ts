import { describe, expect, test } from 'vitest'
import { expectUndone, walkThrough } from '../day.ts'

const repeats = 'Track\n\nrun: track\n  3 x 500 m @ 3:35-3:45/km, jog 200 m\n  2 km easy\n'
const splits =
  'Track\n\nrun: track\n  3 km @ 4:05-4:10/km, split 1 km\n  jog 600 m\n  2 x 500 m @ 3:35-3:45/km, jog 200 m\n'
const byTime = 'Hills\n\nrun\n  3 x (3:00 hard, jog 2:00)\n  2 km easy\n'

describe('a repeat by distance', () => {
  test('begins and ends with Space, and its measured time is offered', () => {
    const walked = walkThrough(repeats)
    expect(walked.view.now.what).toBe('500 m in 1:47.5-1:52.5, lap 1:26.0-1:30.0')
    walked.space().wait(50)
    expect(walked.shows).toBe('repeat 0:50')
    walked.wait(59.5).space()
    expect(walked.view.entry).toMatchObject({
      label: 'repeat 1 of 3: 500 m',
      placeholder: 'Enter: 1:49.5, timed by you',
    })
    walked.enter()
    expect(walked.recorded('1.1.p1')).toMatchObject({
      meters: 500,
      seconds: 109.5,
      precision: 0.1,
      byKey: true,
    })
  })

  test('has a jog that counts up against its expected time, with one signal at its expected end', () => {
    const walked = walkThrough(repeats)
    walked.effort(109.5).wait(30)
    expect(walked.clock).toMatchObject({ label: 'jog', text: '0:30', kind: 'rest', beside: 'about 1:24' })
    walked.wait(70)
    expect(walked.rung).toEqual(['short'])
    expect(walked.clock).toMatchObject({ text: '1:40', kind: 'rest' })
    walked.space()
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.p2' })
    expect(walked.measured('1.1.j1').seconds).toBe(100)
  })

  test('begins early with Space in a jog', () => {
    const walked = walkThrough(repeats)
    walked.effort(109.5).wait(10).space()
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.p2' })
  })

  test('has no jog after the last one', () => {
    const walked = walkThrough(repeats)
    walked.effort(110).wait(60).effort(110).wait(60).effort(110)
    expect(walked.phase).toMatchObject({ kind: 'ready' })
    expect(walked.shows).toBe('since the repeat 0:00')
    expect(walked.view.pending).toBe('3 results to enter')
  })

  test('can be run first, with all times typed on one line in the last jog', () => {
    const walked = walkThrough(repeats)
    walked.effort(110).wait(60).effort(110).wait(60).effort(110)
    walked.typed('1:50.1 1:49.4 1:49.2').enter()
    expect(walked.view.panel?.title).toBe('these results, in order')
    expect(walked.view.panel?.lines).toEqual([
      'repeat 1 of 3: 500 m  1:50.1',
      'repeat 2 of 3: 500 m  1:49.4',
      'repeat 3 of 3: 500 m  1:49.2',
    ])
    walked.enter()
    expect(walked.recorded('1.1.p3')).toMatchObject({ seconds: 109.2, byKey: false })
    expect(walked.view.pending).toBe('')
  })

  test('typed in the jog without its start leads to the next jog', () => {
    const walked = walkThrough(repeats)
    walked.effort(110).enter().wait(200).entry('1:50')
    expect(walked.view.panel?.title).toBe(
      'Repeat 2 has not started. Save this time for it? Enter yes, Esc no, e corrects repeat 1 of 3: 500 m',
    )
    walked.enter()
    expect(walked.recorded('1.1.p2')).toMatchObject({ seconds: 110 })
    expect(walked.phase).toMatchObject({ kind: 'recovery', step: '1.1.j2' })
    expect(walked.shows).toBe('jog 0:00')
  })

  test('has an expected end for a walk back of a known distance only', () => {
    const after = (line: string) => walkThrough(`Strides\n\nrun\n  ${line}, walk back\n`).effort(20).wait(80)
    const byDistance = after('4 x 100 m strides')
    expect(byDistance.clock).toMatchObject({ label: 'walk', text: '1:20', beside: 'about 1:00' })
    expect(byDistance.rung).toEqual(['short'])
    const walked = after('4 x 20 s strides')
    expect(walked.clock).toMatchObject({ label: 'walk', text: '1:20', kind: 'rest', beside: '' })
  })

  test('counts a recovery by time down, rings at its end, counts up, and waits for Space', () => {
    const walked = walkThrough('Track\n\nrun\n  3 x 500 m in 1:50, stand 1:00\n')
    walked.effort(110).wait(20)
    expect(walked.shows).toBe('stand 0:40')
    walked.wait(50)
    expect(walked.shows).toBe('stand +0:10')
    expect(walked.rung).toEqual(['short', 'short', 'short', 'long'])
    expect(walked.phase.kind).toBe('recovery')
    walked.space()
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.p2' })
  })

  test('has a recovery by time that can be made longer and shorter by 15 s', () => {
    const walked = walkThrough('Track\n\nrun\n  3 x 500 m in 1:50, stand 1:00\n')
    walked.effort(110).wait(20).key('up')
    expect(walked.shows).toBe('stand 0:55')
    walked.key('down').key('down')
    expect(walked.shows).toBe('stand 0:25')
    for (let press = 0; press < 4; press++) walked.key('down')
    expect(walked.shows).toBe('stand +0:00')
  })
})

describe('a continuous run with splits', () => {
  test('passes a split with Space without a stop, and offers its measured time', () => {
    const walked = walkThrough(splits)
    walked.space().wait(249)
    expect(walked.shows).toBe('split 4:09')
    walked.space()
    expect(walked.shows).toBe('split 0:00')
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.p2' })
    expect(walked.view.entry).toMatchObject({
      label: 'split 1 of 3: 1 km',
      placeholder: 'Enter: 4:09.0, timed by you',
    })
    walked.wait(60).enter()
    expect(walked.recorded('1.1.p1')).toMatchObject({ seconds: 249, meters: 1000 })
    expect(walked.shows).toBe('split 1:00')
  })

  test('is followed by the recovery on the next line', () => {
    const walked = walkThrough(splits)
    walked.effort(249).wait(248).space().wait(247).space()
    expect(walked.phase).toMatchObject({ kind: 'recovery', step: '1.2.j1' })
    expect(walked.measured('1.1.p3').seconds).toBe(247)
    walked.wait(250).space()
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.3.p1' })
  })

  test('ends the split under way when its time is typed, and the next split runs from there', () => {
    const walked = walkThrough(splits)
    walked.space().wait(250).entry('4:08')
    expect(walked.recorded('1.1.p1')).toMatchObject({ seconds: 248, byKey: false })
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.p2' })
    expect(walked.shows).toBe('split 0:00')
  })

  test('is never guessed by Enter alone while it is under way', () => {
    const walked = walkThrough(splits)
    walked.space().wait(100).enter()
    expect(walked.notice).toBe('split 1 of 3: 1 km is under way: Space ends it, or type its time')
    expect(walked.state.recorded.size).toBe(0)
  })

  test('is ended by Space and recorded with its time by Enter if it is easy', () => {
    const walked = walkThrough('Easy\n\nrun\n  2 km easy\n')
    walked.effort(720)
    expect(walked.shows).toBe('since the run 0:00')
    walked.enter()
    expect(walked.recorded('1.1.p1')).toMatchObject({ meters: 2000, seconds: 720, byKey: true })
  })
})

describe('intervals and recoveries both given by time', () => {
  test('follow each other after Space began the first, with the count-in', () => {
    const walked = walkThrough(byTime)
    walked.space()
    expect(walked.shows).toBe('repeat 3:00')
    walked.wait(180)
    expect(walked.phase).toMatchObject({ kind: 'recovery', step: '1.1.j1' })
    expect(walked.shows).toBe('jog 2:00')
    walked.wait(120)
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.p2', auto: true })
    expect(walked.rung).toEqual(['short', 'short', 'short', 'long', 'short', 'short', 'short', 'long'])
    walked.wait(180 + 120 + 180)
    expect(walked.phase.kind).toBe('ready')
    expect(walked.view.pending).toBe('3 results to enter')
    expect(walked.measured('1.1.p3').seconds).toBe(180)
  })

  test('are all run, each at its time, after the lid was closed throughout', () => {
    const walked = walkThrough(byTime)
    walked.space().restart(180 + 120 + 180 + 50)
    expect(walked.phase).toMatchObject({ kind: 'recovery', step: '1.1.j2' })
    expect(walked.shows).toBe('jog 1:10')
    expect(walked.measured('1.1.j1').seconds).toBe(120)
  })

  test('end early with Space, which begins the next one', () => {
    const walked = walkThrough(byTime)
    walked.effort(100)
    expect(walked.phase).toMatchObject({ kind: 'recovery' })
    walked.wait(10).space()
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.p2' })
  })

  test('are recorded by the empty entry with the prescribed time, metres unknown', () => {
    const walked = walkThrough('Hills\n\nrun\n  2 x (3:00 easy, jog 2:00)\n')
    walked.space().wait(200)
    expect(walked.view.entry.placeholder).toBe('Enter: 3:00, metres not known')
    walked.enter()
    expect(walked.recorded('1.1.p1')).toMatchObject({ seconds: 180, meters: null })
  })

  test('include hard and easy by time in turn', () => {
    const walked = walkThrough('Fartlek\n\nrun\n  2 x (3:00 hard, 2:00 easy)\n')
    walked.space().wait(180)
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.p2' })
    walked.wait(120 + 180 + 120)
    expect(walked.phase.kind).toBe('ready')
    expect(walked.rung.filter((signal) => signal === 'long')).toHaveLength(4)
  })

  test('keep running when a result is typed while the next one is run', () => {
    const walked = walkThrough(byTime)
    walked.space().wait(180).wait(20).entry('0.8 km')
    expect(walked.recorded('1.1.p1')).toMatchObject({ meters: 800, seconds: 180 })
    expect(walked.shows).toBe('jog 1:40')
  })
})

describe('a recovery that is the last of its part', () => {
  test('is ended by Space, and nothing of another part begins', () => {
    const walked = walkThrough(`${splits}\nlift\n  row: 1 x 5 @ 50 kg\n`)
    walked.typed('o').key('down').key('down').enter().key('up').key('up').enter()
    walked.effort(110).wait(60).effort(110).wait(60)
    walked.effort(249).wait(248).space().wait(247).space().wait(30)
    expect(walked.phase).toMatchObject({ kind: 'recovery', step: '1.2.j1' })
    walked.space()
    expect(walked.shows).toBe('since the run 0:00')
    expect(walked.measured('1.2.j1').seconds).toBe(30)
    walked.space()
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '2.1.s1' })
  })

  test('is skipped with the repeat before it if that has not begun', () => {
    const walked = walkThrough(repeats).typed('s')
    expect(walked.view.entry.label).toBe('repeat 2 of 3: 500 m')
    expect([...walked.state.skipped]).toEqual(['1.1.j1', '1.1.p1'])
    expect(walked.typed('u').state.skipped.size).toBe(0)
    expect(walked.notice).toBe('undone: skipping repeat 1 of 3: 500 m')
    expect([...walked.space().typed('s').state.skipped]).toEqual(['1.1.p1'])
    expect(walked.phase.kind).toBe('recovery')
  })

  test('takes along the jog before it when a repeat is skipped', () => {
    const walked = walkThrough(
      'Two\n\nrun\n  1 km @ 4:00/km\n  jog 600 m\n  500 m @ 3:40/km\n\nlift\n  row: 1 x 5 @ 50 kg\n',
    )
    walked.effort(240).wait(10).entry('-').entry('-')
    expect([...walked.state.skipped]).toEqual(['1.1.p1', '1.3.p1'])
    expect(walked.phase.kind).toBe('ready')
    expect(walked.view.entry.label).toBe('row, set 1 of 1')
  })
})

describe('Space twice', () => {
  test('within three seconds of a start means that it had been forgotten: no such time is offered', () => {
    const walked = walkThrough('Two\n\nrun\n  10 min easy\n  500 m @ 3:40/km\n').effort(1.8)
    expect(walked.view.entry.placeholder).toBe('Enter: 10:00, metres not known')
    expect(walked.shows).toBe('since the run 0:01')
    const repeat = walkThrough(repeats).effort(110).wait(170).effort(2)
    expect(repeat.enter().recorded('1.1.p1')).toMatchObject({ seconds: 110 })
    expect(repeat.view.entry).toMatchObject({ label: 'repeat 2 of 3: 500 m', placeholder: 'type its time' })
    expect(repeat.shows).toBe('jog 0:02')
  })

  test('at the end of a split ends only that one', () => {
    const walked = walkThrough(splits).effort(249).wait(0.4).space().wait(1)
    expect(walked.shows).toBe('split 0:01')
    expect(walked.view.pending).toBe('1 result to enter')
  })

  test('ends a sprint, which may be over in two seconds', () => {
    const walked = walkThrough('Fast\n\nrun\n  4 x 20 m fast, walk back\n').effort(2.4)
    expect(walked.view.entry.placeholder).toBe('Enter: 0:02.4, timed by you')
  })
})

test('undo asks before it removes a Space, and removes a result at once', () => {
  const walked = walkThrough(repeats)
  expectUndone(walked, () => walked.space())
  walked.space().wait(110)
  expectUndone(walked, () => walked.space())
  walked.space().wait(1)
  expectUndone(walked, () => walked.enter())
  expectUndone(walked, () => walked.wait(5).space())
})
