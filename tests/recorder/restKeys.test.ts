import { describe, expect, test } from 'vitest'
import { expectUndone, walkThrough } from '../day.ts'

const straight = 'Straight sets\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n'
const clusters = 'Clusters\n\nlift\n  front squat: 3 x (2+2) @ 92.5 kg, pause 20 s, rest 2:30\n'

describe('a rest', () => {
  test('is longer or shorter by 15 s, a pause by 5 s', () => {
    const rest = walkThrough(straight).effort(20).key('up').key('up').key('down')
    expect(rest.shows).toBe('rest 2:45')
    const pause = walkThrough(clusters).effort(8).key('up').key('up').key('down')
    expect(pause.shows).toBe('pause 0:25')
  })

  test('is never shorter than what has gone of it', () => {
    const walked = walkThrough(straight).effort(20).wait(145).key('down')
    expect(walked.shows).toBe('rest +0:00')
    walked.key('down').wait(3)
    expect(walked.shows).toBe('rest +0:03')
  })

  test('a pause that is cut to nothing begins the next group', () => {
    const walked = walkThrough(clusters).effort(8).wait(18).key('down')
    expect(walked.phase).toMatchObject({ kind: 'effort', group: 1 })
    expect(walked.measured('1.1.s1').pauses).toEqual([18])
  })

  test('the next rest is as prescribed again', () => {
    const walked = walkThrough(straight).effort(20).key('up').enter().wait(170).effort(20)
    expect(walked.shows).toBe('rest 2:30')
  })

  test('where none counts down the arrows say so', () => {
    const walked = walkThrough(straight).key('up')
    expect(walked.notice).toBe('no rest counts down now')
    expect(walked.events).toHaveLength(2)
  })

  test('its change is taken back at once, and said', () => {
    const walked = walkThrough(straight).effort(20)
    expectUndone(walked, () => walked.key('up'))
    expect(walked.notice).toBe('taken back: lengthening the rest by 15 s')
    expectUndone(walked, () => walked.key('down'))
    expect(walked.notice).toBe('taken back: shortening the rest by 15 s')
  })
})

describe('a hold', () => {
  test('stops the clock, and h goes on where it was', () => {
    const walked = walkThrough(straight).effort(20).wait(50).typed('h').wait(600)
    expect(walked.shows).toBe('stopped 10:00')
    expect(walked.rung).toEqual([])
    walked.typed('h')
    expect(walked.shows).toBe('rest 1:40')
    walked.wait(110).space()
    expect(walked.measured('1.1.s1').rest).toBe(160)
  })

  test('Space goes on too, and does no more', () => {
    const walked = walkThrough(straight).effort(20).wait(50).typed('h').wait(600).space()
    expect(walked.phase.kind).toBe('rest')
    expect(walked.shows).toBe('rest 1:40')
  })

  test('in a pause nothing begins by itself', () => {
    const walked = walkThrough(clusters).effort(8).wait(5).typed('h').wait(60).typed('h')
    expect(walked.shows).toBe('pause 0:15')
  })

  test('b while held sets it back to when the clock began: since the set ended', () => {
    const walked = walkThrough(straight).effort(20).wait(70).typed('h').wait(10).typed('b')
    expect(walked.notice).toBe('stopped since this clock began')
    expect(walked.shows).toBe('stopped 1:20')
    walked.wait(10).typed('h')
    expect(walked.shows).toBe('rest 2:30')
  })

  test('set back after the wall clock was put forward an hour it still is since the set ended', () => {
    const walked = walkThrough(straight).effort(20).wait(70)
    const { now } = walked
    walked
      .at({ ...now, wall: now.wall + 3_600_000 })
      .typed('h')
      .wait(10)
      .typed('b')
    expect(walked.shows).toBe('stopped 1:20')
    walked.typed('h')
    expect(walked.shows).toBe('rest 2:30')
  })

  test('is not in what a set, a cluster set or a part took', () => {
    const set = walkThrough(straight).space().wait(10).typed('h').wait(100).typed('h').wait(10).space()
    expect(set.measured('1.1.s1').seconds).toBe(20)
    const cluster = walkThrough(clusters)
      .effort(8)
      .wait(5)
      .typed('h')
      .wait(100)
      .typed('h')
      .wait(15)
      .wait(8)
      .space()
    expect(cluster.measured('1.1.s1')).toMatchObject({ seconds: 36, pauses: [20] })
    cluster.wait(44).typed('f').typed('7').enter()
    // 36 s between the first key and the last is less than a minute.
    expect(cluster.view.entry.placeholder).toBe('Enter: 1')
  })

  test('a set recorded while held ended when it was recorded, the hold taken out of it and not of the rest', () => {
    const walked = walkThrough(straight).space().wait(20).typed('h').wait(100).entry('5 @8')
    expect(walked.measured('1.1.s1').seconds).toBe(20)
    expect(walked.shows).toBe('stopped 1:40')
    walked.wait(60).typed('h')
    expect(walked.shows).toBe('rest 2:30')
    walked.wait(30).space()
    expect(walked.measured('1.1.s1').rest).toBe(30)
  })

  test('outlives a crash', () => {
    const walked = walkThrough(straight).effort(20).wait(50).typed('h').wait(60).restart(1000)
    expect(walked.shows).toBe('stopped 17:40')
    walked.typed('h')
    expect(walked.shows).toBe('rest 1:40')
  })

  test('outlives another start of the machine', () => {
    const walked = walkThrough(straight).effort(20).wait(50).typed('h').wait(60).restart(1000, 'second')
    walked.typed('h')
    expect(walked.shows).toBe('rest 1:40')
    walked.wait(10)
    expect(walked.shows).toBe('rest 1:30')
  })

  test('between two items counts for neither', () => {
    const walked = walkThrough('Two\n\nlift\n  row: 1 x 5 @ 50 kg\n  curl: 1 x 5 @ 30 kg\n')
    walked.effort(30).enter().typed('h').wait(600).typed('h').wait(60).effort(30).enter()
    expect(walked.state.partStates[0]).toMatchObject({ heldSeconds: 600, heldByEnd: 600 })
    walked.typed('f').typed('5').enter()
    expect(walked.view.entry.placeholder).toBe('Enter: 2')
  })

  test('after the last item is not a time of the part', () => {
    const walked = walkThrough('Two\n\nlift\n  row: 1 x 5 @ 50 kg\n\nrun\n  2 km easy\n')
    walked.effort(120).enter().typed('h').wait(600).typed('h').typed('f').typed('5').enter()
    expect(walked.view.entry.placeholder).toBe('Enter: 2')
  })

  test('set back after some of it was counted, it counts nothing twice', () => {
    const walked = walkThrough(straight).effort(20).wait(50).typed('h').wait(10).key('down').wait(10)
    walked.typed('b').wait(10).typed('h')
    expect(walked.phase).toMatchObject({ kind: 'rest', heldSeconds: 80 })
    expect(walked.state.partStates[0]).toMatchObject({ heldSeconds: 80 })
    expect(walked.wait(5).shows).toBe('rest 2:10')
  })

  test('the hold, its setting back and going on are each taken back', () => {
    const walked = walkThrough(straight).effort(20).wait(50)
    expectUndone(walked, () => walked.typed('h'))
    walked.typed('h').wait(10)
    expectUndone(walked, () => walked.typed('b'))
    expectUndone(walked, () => walked.typed('h'))
    expect(walked.state.held).not.toBeNull()
  })
})

describe('pace', () => {
  test('one Space begins the set; the clock sounds each group, each pause, each go; the last Space ends it', () => {
    const walked = walkThrough(clusters).typed('p')
    expect(walked.notice).toBe('front squat: the clock ends the groups but the last, 4 s a repetition')
    walked.space()
    expect(walked.shows).toBe('set 0:08')
    walked.wait(8)
    expect(walked.shows).toBe('pause 0:20')
    walked.wait(20)
    expect(walked.phase).toMatchObject({ kind: 'effort', group: 1 })
    walked.wait(10)
    expect(walked.phase).toMatchObject({ kind: 'effort', group: 1 })
    // The key ends the last group: past its pace the clock only counts up.
    expect(walked.clock).toMatchObject({ label: 'set', text: '0:10', over: false, beside: '' })
    expect(walked.rung.filter((signal) => signal === 'long')).toHaveLength(3)
    walked.space()
    expect(walked.shows).toBe('rest 2:30')
    expect(walked.measured('1.1.s1')).toMatchObject({ paced: true, pauses: [20] })
  })

  test('a written tempo says how long a repetition takes; X is a second', () => {
    const dashes = walkThrough(clusters.replace('rest 2:30', 'rest 2:30, tempo 3-1-1')).typed('p')
    expect(dashes.notice).toBe('front squat: the clock ends the groups but the last, 5 s a repetition')
    const letters = walkThrough(clusters.replace('rest 2:30', 'rest 2:30, tempo 31X1')).typed('p')
    expect(letters.notice).toBe('front squat: the clock ends the groups but the last, 6 s a repetition')
  })

  test('Space before the last group ends the set, and Enter records it', () => {
    const walked = walkThrough(clusters).typed('p').space().wait(3).space()
    expect(walked.phase.kind).toBe('rest')
    const other = walkThrough(clusters).typed('p').space().wait(30).enter()
    expect(other.recorded('1.1.s1')).toMatchObject({ groups: [2, 2] })
  })

  test('a group of as many as go is ended, timed by you', () => {
    const walked = walkThrough('One\n\nlift\n  dip: 2 x (max+2) @ bodyweight, pause 10 s, rest 2:00\n')
    walked.typed('p').space().wait(60)
    expect(walked.phase).toMatchObject({ kind: 'effort', group: 0 })
    walked.space()
    expect(walked.shows).toBe('pause 0:10')
    walked.wait(10).wait(8)
    expect(walked.phase).toMatchObject({ kind: 'effort', group: 1 })
  })

  test('p again takes it off, also within a set', () => {
    const walked = walkThrough(clusters).typed('p').space().wait(3).typed('p')
    expect(walked.notice).toBe('front squat: you end the groups')
    walked.wait(30)
    expect(walked.phase).toMatchObject({ kind: 'effort', group: 0 })
    walked.space()
    expect(walked.phase.kind).toBe('pause')
  })

  test('only a cluster set is paced', () => {
    const walked = walkThrough(straight).typed('p')
    expect(walked.notice).toBe('only a cluster set is paced')
  })

  test('is taken back', () => {
    const walked = walkThrough(clusters)
    expectUndone(walked, () => walked.typed('p'))
    expect(walked.notice).toBe('taken back: the pace')
  })
})

describe('what was half typed', () => {
  test('is put aside when a clock begins an effort by itself, and is back in the next rest', () => {
    const walked = walkThrough(clusters)
    walked.effort(8).wait(20).wait(8).space().wait(150).space().wait(8).space()
    walked.wait(10).typed('2+1 x')
    walked.wait(10)
    expect(walked.phase).toMatchObject({ kind: 'effort', group: 1 })
    expect(walked.model).toMatchObject({ draft: '', aside: '2+1 x' })
    walked.wait(8).space()
    expect(walked.phase.kind).toBe('rest')
    expect(walked.model).toMatchObject({ draft: '2+1 x', aside: null })
    walked.typed('2+1 x 90').enter()
    expect(walked.recorded('1.1.s1')).toMatchObject({ groups: [2, 1], load: { value: 90 } })
  })

  test('while the field holds something Space is text, and PageDown moves nothing on', () => {
    const walked = walkThrough(straight).effort(20).typed('5')
    walked.typed('5 ').key('pageDown').key('right')
    expect(walked.phase.kind).toBe('rest')
    expect(walked.model.draft).toBe('5 ')
  })

  test('a character typed just when the clock takes over goes aside too', () => {
    const walked = walkThrough(clusters).effort(8).typed('2+')
    const late = { ...walked.now, up: (walked.now.up ?? 0) + 21, wall: walked.now.wall + 21_000 }
    walked.model = { ...walked.model, now: late }
    walked.typed('2+1')
    expect(walked.model).toMatchObject({ draft: '', aside: '2+1' })
  })

  test('a list that is open when the clock takes over gives the field back in the rest', () => {
    const walked = walkThrough(clusters).effort(8).wait(19).typed('2+').wait(2)
    walked.typed('n').key('escape')
    expect(walked.model).toMatchObject({ draft: '', aside: '2+' })
    walked.wait(8).space()
    expect(walked.model).toMatchObject({ draft: '2+', aside: null })
  })

  test('PageDown and the right arrow are a Space', () => {
    const walked = walkThrough(straight).key('pageDown').wait(20).key('right')
    expect(walked.phase.kind).toBe('rest')
  })

  test('Escape clears the field', () => {
    const walked = walkThrough(straight).typed('5 x').key('escape')
    expect(walked.model.draft).toBe('')
  })

  test('a space in the empty field of a list is no text', () => {
    const walked = walkThrough(straight).typed('  ')
    expect(walked.model.draft).toBe('')
    expect(walked.phase.kind).toBe('ready')
  })
})
