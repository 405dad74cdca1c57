import { describe, expect, test } from 'vitest'
import { warningText } from '../../src/recorder/update.ts'
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

  test('is never shorter than the time already passed', () => {
    const walked = walkThrough(straight).effort(20).wait(145).key('down')
    expect(walked.shows).toBe('rest +0:00')
    walked.key('down').wait(3)
    expect(walked.shows).toBe('rest +0:03')
  })

  test('begins the next group if it is a pause cut to nothing', () => {
    const walked = walkThrough(clusters).effort(8).wait(18).key('down')
    expect(walked.phase).toMatchObject({ kind: 'effort', group: 1 })
    expect(walked.measured('1.1.s1').pauses).toEqual([18])
  })

  test('is as prescribed again the next time', () => {
    const walked = walkThrough(straight).effort(20).key('up').enter().wait(170).effort(20)
    expect(walked.shows).toBe('rest 2:30')
  })

  test('has arrows that say so if nothing counts down', () => {
    const walked = walkThrough(straight).key('up')
    expect(walked.notice).toBe('no rest counts down')
    expect(walked.events).toHaveLength(2)
  })

  test('can undo its change at once, and says so', () => {
    const walked = walkThrough(straight).effort(20)
    expectUndone(walked, () => walked.key('up'))
    expect(walked.notice).toBe('undone: lengthening the rest by 15 s')
    expectUndone(walked, () => walked.key('down'))
    expect(walked.notice).toBe('undone: shortening the rest by 15 s')
  })
})

describe('a stopped clock', () => {
  test('stands still, and h restarts it at the same time', () => {
    const walked = walkThrough(straight).effort(20).wait(50).typed('h').wait(600)
    expect(walked.shows).toBe('stopped 10:00')
    expect(walked.rung).toEqual([])
    walked.typed('h')
    expect(walked.shows).toBe('rest 1:40')
    walked.wait(110).space()
    expect(walked.measured('1.1.s1').rest).toBe(160)
  })

  test('is restarted by Space too, which does nothing else', () => {
    const walked = walkThrough(straight).effort(20).wait(50).typed('h').wait(600).space()
    expect(walked.phase.kind).toBe('rest')
    expect(walked.shows).toBe('rest 1:40')
  })

  test('is restarted by Space after the last set too, where nothing is left to begin', () => {
    const walked = walkThrough('Day\n\nlift\n  plank: 1 x 45 s\n').effort(45).wait(50).typed('h').wait(600)
    expect(walked.view.keys).toContainEqual(expect.objectContaining({ key: 'Space', label: 'go on' }))
    walked.space()
    expect(walked.notice).toBeNull()
    expect(walked.events.at(-1)?.type).toBe('resumed')
  })

  test('begins nothing in a pause', () => {
    const walked = walkThrough(clusters).effort(8).wait(5).typed('h').wait(60).typed('h')
    expect(walked.shows).toBe('pause 0:15')
  })

  test('is moved back by b to when the clock began: since the set ended', () => {
    const walked = walkThrough(straight).effort(20).wait(70).typed('h').wait(10).typed('b')
    expect(walked.notice).toBe('stopped since this clock began')
    expect(walked.shows).toBe('stopped 1:20')
    walked.wait(10).typed('h')
    expect(walked.shows).toBe('rest 2:30')
  })

  test('is moved back correctly after the wall clock was put forward an hour', () => {
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

  test('does not count in a set, a cluster set or a part', () => {
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

  test('ends a set when it is recorded, with the stopped time taken off the set and not off the rest', () => {
    const walked = walkThrough(straight).space().wait(20).typed('h').wait(100).entry('5 @8')
    expect(walked.measured('1.1.s1').seconds).toBe(20)
    expect(walked.shows).toBe('stopped 1:40')
    walked.wait(60).typed('h')
    expect(walked.shows).toBe('rest 2:30')
    walked.wait(30).space()
    expect(walked.measured('1.1.s1').rest).toBe(30)
  })

  test('survives a crash', () => {
    const walked = walkThrough(straight).effort(20).wait(50).typed('h').wait(60).restart(1000)
    expect(walked.shows).toBe('stopped 17:40')
    walked.typed('h')
    expect(walked.shows).toBe('rest 1:40')
  })

  test('survives a restart of the machine', () => {
    const walked = walkThrough(straight).effort(20).wait(50).typed('h').wait(60).restart(1000, 'second')
    walked.typed('h')
    expect(walked.shows).toBe('rest 1:40')
    walked.wait(10)
    expect(walked.shows).toBe('rest 1:30')
  })

  test('counts for neither of the two items around it', () => {
    const walked = walkThrough('Two\n\nlift\n  row: 1 x 5 @ 50 kg\n  curl: 1 x 5 @ 30 kg\n')
    walked.effort(30).enter().typed('h').wait(600).typed('h').wait(60).effort(30).enter()
    walked.typed('f').typed('5').enter()
    expect(walked.view.entry.placeholder).toBe('Enter: 2')
  })

  test("is not part of the part's time after the last item", () => {
    const walked = walkThrough('Two\n\nlift\n  row: 1 x 5 @ 50 kg\n\nrun\n  2 km easy\n')
    walked.effort(120).enter().typed('h').wait(600).typed('h').typed('f').typed('5').enter()
    expect(walked.view.entry.placeholder).toBe('Enter: 2')
  })

  test('is not part of the rest after a set whose start was forgotten', () => {
    const walked = walkThrough('One\n\nlift\n  row: 3 x 5 @ 50 kg, rest 1:00\n')
    walked.space().typed('h').wait(65).space().space()
    expect(walked.shows).toBe('rest 1:00')
  })

  test('moved back after some time was counted counts nothing twice', () => {
    const walked = walkThrough(straight).effort(20).wait(50).typed('h').wait(10).key('down').wait(10)
    walked.typed('b').wait(10).typed('h')
    expect(walked.wait(5).shows).toBe('rest 2:10')
  })

  test('moved back subtracts nothing that an earlier stop has already subtracted', () => {
    const walked = walkThrough('Rower\n\ncross: rower\n  2 km easy\n').space()
    walked.typed('h').wait(30).typed('h').wait(20).typed('h').typed('b').wait(10).typed('h')
    // A minute since the beginning, all of it stopped: 30 s, then the 20 s in between by moving back, then 10 s.
    expect(walked.wait(7).shows).toBe('piece 0:07')
  })

  test('is undone step by step: the stop, its move back, and the restart', () => {
    const walked = walkThrough(straight).effort(20).wait(50)
    expectUndone(walked, () => walked.typed('h'))
    walked.typed('h').wait(10)
    expectUndone(walked, () => walked.typed('b'))
    expectUndone(walked, () => walked.typed('h'))
    expect(walked.state.stopped).not.toBeNull()
  })
})

describe('pace', () => {
  test('lets one Space begin the set; the clock sounds each group, each pause, each go; the last Space ends it', () => {
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
    expect(walked.clock).toMatchObject({ label: 'set', text: '0:10', kind: 'work', beside: '' })
    expect(walked.rung.filter((signal) => signal === 'long')).toHaveLength(3)
    walked.space()
    expect(walked.shows).toBe('rest 2:30')
    expect(walked.measured('1.1.s1')).toMatchObject({ paced: true, pauses: [20] })
  })

  test('uses a written tempo for the length of a repetition; X is a second', () => {
    const dashes = walkThrough(clusters.replace('rest 2:30', 'rest 2:30, tempo 3-1-1')).typed('p')
    expect(dashes.notice).toBe('front squat: the clock ends the groups but the last, 5 s a repetition')
    const letters = walkThrough(clusters.replace('rest 2:30', 'rest 2:30, tempo 31X1')).typed('p')
    expect(letters.notice).toBe('front squat: the clock ends the groups but the last, 6 s a repetition')
  })

  test('lets Space before the last group end the set, and Enter record it', () => {
    const walked = walkThrough(clusters).typed('p').space().wait(3).space()
    expect(walked.phase.kind).toBe('rest')
    const other = walkThrough(clusters).typed('p').space().wait(30).enter()
    expect(other.recorded('1.1.s1')).toMatchObject({ groups: [2, 2] })
  })

  test('lets a key end an AMRAP group, timed by you', () => {
    const walked = walkThrough('One\n\nlift\n  dip: 2 x (max+2) @ bodyweight, pause 10 s, rest 2:00\n')
    walked.typed('p').space().wait(60)
    expect(walked.phase).toMatchObject({ kind: 'effort', group: 0 })
    walked.space()
    expect(walked.shows).toBe('pause 0:10')
    walked.wait(10).wait(8)
    expect(walked.phase).toMatchObject({ kind: 'effort', group: 1 })
  })

  test('is switched off by p again, also within a set', () => {
    const walked = walkThrough(clusters).typed('p').space().wait(3).typed('p')
    expect(walked.notice).toBe('front squat: you end the groups')
    walked.wait(30)
    expect(walked.phase).toMatchObject({ kind: 'effort', group: 0 })
    walked.space()
    expect(walked.phase.kind).toBe('pause')
  })

  test('works only for cluster sets', () => {
    const walked = walkThrough(straight).typed('p')
    expect(walked.notice).toBe('only a cluster set is paced')
  })

  test('is undone', () => {
    const walked = walkThrough(clusters)
    expectUndone(walked, () => walked.typed('p'))
    expect(walked.notice).toBe('undone: the pace')
  })
})

describe('a half-typed entry', () => {
  test('is put aside when the clock begins an effort, and returns in the next rest', () => {
    const walked = walkThrough(clusters)
    walked.effort(8).wait(20).wait(8).space().wait(150).space().wait(8).space()
    walked.wait(10).typed('2+1 x')
    walked.wait(12)
    expect(walked.phase).toMatchObject({ kind: 'effort', group: 1 })
    expect(walked.model).toMatchObject({ draft: '', aside: '2+1 x' })
    walked.wait(8).space()
    expect(walked.phase.kind).toBe('rest')
    expect(walked.model).toMatchObject({ draft: '2+1 x', aside: null })
    walked.typed('2+1 x 90').enter()
    expect(walked.recorded('1.1.s1')).toMatchObject({ groups: [2, 1], load: { value: 90 } })
  })

  test('makes Space text, and PageDown does not move on', () => {
    const walked = walkThrough(straight).effort(20).typed('5')
    walked.typed('5 ').key('pageDown').key('right')
    expect(walked.phase.kind).toBe('rest')
    expect(walked.model.draft).toBe('5 ')
  })

  test('stays in the field while it is typed across the beginning, and none of its letters is a command', () => {
    const entry = '2+1 x 90 "slow" pain'
    const walked = walkThrough(clusters).effort(8).wait(19.5).spell(entry, 0.3)
    expect(walked.phase).toMatchObject({ kind: 'effort', group: 1 })
    expect(walked.model).toMatchObject({ draft: entry, aside: null })
    expect(walked.wait(2).model).toMatchObject({ draft: '', aside: entry })
    expect(walked.wait(8).space().phase.kind).toBe('rest')
    expect(walked.model).toMatchObject({ draft: entry, aside: null })
  })

  test('is recorded by Enter just after the beginning, and Escape clears it', () => {
    const typing = () =>
      walkThrough('R\nrun\n  4 x 400 m in 80-84 s, every 2:00\n').effort(82).wait(36.5).spell('1:23.5', 0.3)
    const walked = typing().enter()
    expect(walked.recorded('1.1.p1')).toMatchObject({ seconds: 83.5, byKey: false })
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.p2' })
    expect(typing().key('escape').wait(5).model).toMatchObject({ draft: '', aside: null })
  })

  test('warns of a sign that is typed across the beginning', () => {
    const walked = walkThrough(clusters).effort(8).wait(19).spell('chest pain').enter()
    expect(walked.notice).toBe(warningText)
    expect(walked.phase).toMatchObject({ kind: 'effort', group: 1 })
    expect(walked.rung.filter((signal) => signal === 'long')).toHaveLength(1)
  })

  test('does not take Space for itself two seconds after the beginning and its last letter', () => {
    const walked = walkThrough(clusters).effort(8).wait(19.5).spell('2+1 ', 0.3)
    expect(walked.model).toMatchObject({ draft: '2+1 ', aside: null })
    expect(walked.wait(2).space().phase.kind).toBe('rest')
  })

  test('returns in the rest even if a list is open when the clock takes over', () => {
    const walked = walkThrough(clusters).effort(8).wait(19).typed('2+').wait(3)
    walked.typed('n').key('escape')
    expect(walked.model).toMatchObject({ draft: '', aside: '2+' })
    walked.wait(8).space()
    expect(walked.model).toMatchObject({ draft: '2+', aside: null })
  })

  test('does not change PageDown and the right arrow, which act like Space', () => {
    const walked = walkThrough(straight).key('pageDown').wait(20).key('right')
    expect(walked.phase.kind).toBe('rest')
  })

  test('is cleared by Escape', () => {
    const walked = walkThrough(straight).typed('5 x').key('escape')
    expect(walked.model.draft).toBe('')
  })

  test('does not begin with a space in the empty field of a list', () => {
    const walked = walkThrough(straight).typed('  ')
    expect(walked.model.draft).toBe('')
    expect(walked.phase.kind).toBe('ready')
  })
})
