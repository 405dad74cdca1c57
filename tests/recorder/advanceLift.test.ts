import { describe, expect, test } from 'vitest'
import { expectUndone, walkThrough } from '../day.ts'

const clusters = `Clusters
max: front squat 110 kg

lift: legs
  front squat: 2 x (1+1+1) @ 92.5 kg, pause 20 s, rest 2:30, build from 40 kg
`
const noWarmUp = clusters.replace(', build from 40 kg', '')

const straight = `Straight sets

lift
  bench press: 3 x 5 @ 70 kg, rest 2:30
`

describe('a warm-up', () => {
  test('begins and ends a set with Space, asks for nothing, and counts the rest down', () => {
    const walked = walkThrough(clusters)
    expect(walked.view.now.what).toBe('40 kg x 8: 10 a side')
    expect(walked.view.now.where).toBe('warm-up for front squat, not recorded')
    walked.space()
    expect(walked.shows).toBe('warm-up 0:00')
    walked.wait(25)
    expect(walked.shows).toBe('warm-up 0:25')
    walked.space()
    expect(walked.shows).toBe('rest 1:00')
    expect(walked.view.pending).toBe('')
    walked.wait(61)
    expect(walked.shows).toBe('rest +0:01')
    expect(walked.phase).toMatchObject({ kind: 'rest', next: '1.1.b2' })
  })

  test('has a rest of 90 s before the work, and shows the bar when it changes', () => {
    const walked = walkThrough(clusters)
    for (let step = 1; step <= 3; step++) walked.effort(20).wait(60)
    expect(walked.view.now.what).toBe('85 kg x 1: 25 + 5 + 2.5 a side')
    walked.effort(20)
    expect(walked.shows).toBe('rest 1:30')
    expect(walked.view.now.what).toContain('92.5 kg: 25 + 10 + 1.25 a side')
    expect(walked.view.line).toBe('')
  })

  test('is passed when a working set is typed and Enter says so', () => {
    const walked = walkThrough(clusters)
    walked.entry('1+1+1').enter()
    expect(walked.state.passed.has('1.1.b4')).toBe(true)
    expect(walked.recorded('1.1.s1')).toMatchObject({ reps: 3, load: { value: 92.5 } })
  })
})

describe('a cluster set', () => {
  test('ends a group with Space; the pause counts down and the next group begins at 0', () => {
    const walked = walkThrough(noWarmUp)
    walked.effort(4)
    expect(walked.shows).toBe('pause 0:20')
    expect(walked.view.now.what).toBe('group 2 of 3: 1 rep')
    walked.wait(19.5)
    expect(walked.shows).toBe('pause 0:01')
    walked.wait(0.5)
    expect(walked.shows).toBe('set 0:00')
    expect(walked.phase).toMatchObject({ kind: 'effort', group: 1, auto: true })
    expect(walked.view.go).toBe(true)
    expect(walked.rung).toEqual(['short', 'short', 'short', 'long'])
  })

  test('rings nothing for a group that a key begins', () => {
    const walked = walkThrough(noWarmUp)
    walked.effort(4).wait(10).space()
    expect(walked.phase).toMatchObject({ kind: 'effort', group: 1, auto: false })
    expect(walked.rung).toEqual([])
  })

  test('ends with Space in the last group: its result is pending, and the rest runs down, rings at 0 and counts up', () => {
    const walked = walkThrough(noWarmUp)
    walked.effort(4).wait(20).wait(5).space().wait(20).wait(5).space()
    expect(walked.shows).toBe('rest 2:30')
    expect(walked.view.pending).toBe('1 result to enter')
    expect(walked.view.entry).toMatchObject({
      label: 'front squat, set 1 of 2',
      placeholder: 'Enter: 1+1+1 x 92.5',
    })
    expect(walked.measured('1.1.s1')).toMatchObject({ seconds: 54, pauses: [20, 20], paced: false })
    walked.rung.length = 0
    walked.wait(150)
    expect(walked.rung).toEqual(['short', 'short', 'short', 'long'])
    walked.wait(7)
    expect(walked.clock).toMatchObject({ label: 'rest', text: '+0:07', kind: 'over', beside: 'over' })
    expect(walked.phase.kind).toBe('rest')
    walked.enter()
    expect(walked.recorded('1.1.s1')).toMatchObject({ reps: 3, groups: [1, 1, 1], load: { value: 92.5 } })
    expect(walked.shows).toBe('rest +0:07')
    walked.space()
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.s2', group: 0 })
    expect(walked.measured('1.1.s1').rest).toBe(157)
  })

  test('begins the next group early with Space in a pause', () => {
    const walked = walkThrough(noWarmUp)
    walked.effort(4).wait(12).space()
    expect(walked.phase).toMatchObject({ kind: 'effort', group: 1, auto: false })
    expect(walked.measured('1.1.s1').pauses).toEqual([12])
  })

  test('has a group that began when it was due after a long gap, and nothing rings late', () => {
    const walked = walkThrough(noWarmUp)
    walked.effort(4).jump(600)
    expect(walked.phase).toMatchObject({ kind: 'effort', group: 1 })
    expect(walked.shows).toBe('set 9:40')
    expect(walked.rung).toEqual([])
    expect(walked.view.go).toBe(false)
    expect(walked.measured('1.1.s1').pauses).toEqual([20])
  })

  test('shows after a crash in a pause what it would show if the program had kept running', () => {
    const walked = walkThrough(noWarmUp)
    walked.effort(4).wait(5).restart(10)
    expect(walked.shows).toBe('pause 0:05')
    walked.restart(65)
    expect(walked.shows).toBe('set 1:00')
    expect(walked.rung).toEqual([])
  })

  test('uses the wall clock after a restart of the machine in a pause', () => {
    const walked = walkThrough(noWarmUp)
    walked.effort(4).wait(5).restart(75, 'second')
    expect(walked.shows).toBe('set 1:00')
    walked.wait(3)
    expect(walked.shows).toBe('set 1:03')
    const begun = walked.events.at(-1)
    expect(begun).toMatchObject({ type: 'groupBegun', auto: true, up: null })
  })

  test('is ended and recorded by Enter alone while under way, in a pause too', () => {
    const walked = walkThrough(noWarmUp)
    walked.effort(4).wait(5)
    walked.enter()
    expect(walked.view.panel?.title).toBe('Record all three groups? Enter yes, Esc no')
    expect(walked.key('escape').state.recorded.size).toBe(0)
    walked.enter().enter()
    expect(walked.recorded('1.1.s1')).toMatchObject({ groups: [1, 1, 1] })
    expect(walked.shows).toBe('rest 2:30')
    expect(walked.measured('1.1.s1').pauses).toEqual([])
    expect(walked.rung).toEqual([])
  })
})

describe('a straight set', () => {
  test('takes Space, then Enter', () => {
    const walked = walkThrough(straight)
    walked.space().wait(20).enter()
    expect(walked.recorded('1.1.s1')).toMatchObject({
      reps: 5,
      load: { kind: 'mass', value: 70, unit: 'kg' },
    })
    expect(walked.measured('1.1.s1').seconds).toBe(20)
    expect(walked.shows).toBe('rest 2:30')
    expect(walked.view.echo).toBe('5 x 70')
    walked.wait(3)
    expect(walked.view.echo).toBeNull()
  })

  test('stays pending while the rest runs after Space', () => {
    const walked = walkThrough(straight)
    walked.effort(20).wait(30)
    expect(walked.shows).toBe('rest 2:00')
    expect(walked.view.pending).toBe('1 result to enter')
    walked.entry('5 @8')
    expect(walked.shows).toBe('rest 2:00')
    expect(walked.recorded('1.1.s1')).toMatchObject({ reps: 5, rpe: 8 })
  })

  test('begins early with Space before the rest is over', () => {
    const walked = walkThrough(straight)
    walked.effort(20).wait(100).space()
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.s2' })
    expect(walked.measured('1.1.s1').rest).toBe(100)
  })

  test('shows the time since it if it was the last', () => {
    const walked = walkThrough('One\n\nlift\n  bench press: 1 x 5 @ 70 kg, rest 2:30\n  row: 1 x 5 @ 50 kg')
    walked.effort(20).enter().wait(10)
    expect(walked.shows).toBe('since the set 0:10')
  })

  test('says that its rest is over by ten minutes instead of counting minutes', () => {
    const walked = walkThrough(straight)
    walked.effort(20).jump(150 + 599)
    expect(walked.shows).toBe('rest +9:59')
    walked.jump(1)
    expect(walked.clock).toMatchObject({
      label: 'rest',
      text: 'over',
      kind: 'over',
      beside: 'over since 06:42',
    })
  })

  test('shows a clock counting up until the next set if no rest is prescribed', () => {
    const walked = walkThrough('One\n\nlift\n  bench press: 2 x 5 @ 70 kg')
    walked.effort(20).wait(200)
    expect(walked.shows).toBe('rest 3:20')
    expect(walked.clock.kind).toBe('rest')
    walked.space()
    expect(walked.measured('1.1.s1').rest).toBe(200)
  })

  test('counts down if it is by time, rings at its end and counts on until Space', () => {
    const walked = walkThrough('One\n\nlift\n  plank: 2 x 45 s, rest 0:45')
    walked.space()
    expect(walked.shows).toBe('hold 0:45')
    walked.wait(50)
    expect(walked.clock).toMatchObject({ label: 'hold', text: '0:50', beside: 'of 0:45' })
    expect(walked.rung).toEqual(['short', 'short', 'short', 'long'])
    walked.space()
    expect(walked.view.entry.placeholder).toBe('Enter: 50 s')
    walked.enter()
    expect(walked.recorded('1.1.s1')).toMatchObject({ seconds: 50, reps: null })
  })

  test('is not guessed by Enter if it is an AMRAP, and stays under way', () => {
    const walked = walkThrough('One\n\nlift\n  pull-up 2 x max @ bodyweight, rest 2:00')
    walked.space().wait(30).enter()
    expect(walked.notice).toBe('as many reps as possible: type how many there were, such as 6')
    expect(walked.phase.kind).toBe('effort')
    walked.entry('9')
    expect(walked.recorded('1.1.s1')).toMatchObject({ reps: 9 })
    expect(walked.shows).toBe('rest 2:00')
  })
})

describe('a forgotten start', () => {
  test('means "that was the set" when a second Space comes in less than a second per repetition', () => {
    const walked = walkThrough(straight)
    walked.effort(20).enter().wait(170)
    walked.space().wait(3).space()
    expect(walked.events.at(-1)?.type).toBe('startForgotten')
    expect(walked.measured('1.1.s1').rest).toBeNull()
    expect(walked.measured('1.1.s2')).toMatchObject({ begun: null, seconds: null })
    expect(walked.view.pending).toBe('1 result to enter')
    // The set ended with the first press.
    expect(walked.shows).toBe('rest 2:27')
  })

  test('is not assumed after as many seconds as repetitions: then it was the set itself', () => {
    const walked = walkThrough(straight)
    walked.effort(20).enter().wait(170).effort(5)
    expect(walked.events.at(-1)?.type).toBe('effortEnded')
    expect(walked.measured('1.1.s1').rest).toBe(170)
    expect(walked.measured('1.1.s2').seconds).toBe(5)
  })

  test('can happen at the first set of all', () => {
    const walked = walkThrough(straight)
    walked.effort(2)
    expect(walked.events.at(-1)?.type).toBe('startForgotten')
    expect(walked.shows).toBe('rest 2:28')
  })

  test('leaves a rest with a stopped clock without a measured length', () => {
    const walked = walkThrough(straight)
    walked.effort(20).enter().wait(60).typed('h').wait(100).typed('h').wait(10).effort(2)
    expect(walked.measured('1.1.s1').rest).toBeNull()
  })

  test('is not assumed for a group of a cluster set that ends at once', () => {
    const walked = walkThrough(noWarmUp)
    walked.effort(0.5)
    expect(walked.events.at(-1)?.type).toBe('groupEnded')
  })

  test('is not assumed for an exercise that the clock began', () => {
    const walked = walkThrough(
      'One\n\nlift\n  pull-up 2 x 6 @ bodyweight + dip 2 x 8 @ bodyweight, pause 10 s, rest 1:30',
    )
    walked.effort(20).wait(10)
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.s2', auto: true })
    walked.wait(3).space()
    expect(walked.events.at(-1)?.type).toBe('effortEnded')
    expect(walked.measured('1.1.s1').rest).toBe(10)
  })

  test('is assumed for a minimum of repetitions in too few seconds', () => {
    const walked = walkThrough('One\n\nlift\n  bench press: 2 x 5+ @ 70 kg, rest 2:00')
    walked.effort(4)
    expect(walked.events.at(-1)?.type).toBe('startForgotten')
  })

  test('is undone as one action', () => {
    const walked = walkThrough(straight)
    walked.effort(20).enter().wait(170).space().wait(3)
    expectUndone(walked, () => walked.space())
  })
})

describe('a set at a fixed interval', () => {
  const every = 'One\n\nlift\n  clean: 3 x 2 @ 60 kg, every 1:30\n'

  test('begins when the interval is over, counted from the start of the last', () => {
    const walked = walkThrough(every)
    walked.effort(10)
    expect(walked.shows).toBe('rest 1:20')
    walked.enter().wait(80)
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.s2', auto: true })
    expect(walked.rung).toEqual(['short', 'short', 'short', 'long'])
    walked.wait(10).space().wait(80)
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.s3' })
    walked.wait(5).space()
    expect(walked.phase.kind).toBe('ready')
  })

  test('follows at once after a set that takes longer', () => {
    const walked = walkThrough(every)
    walked.effort(95)
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.1.s2' })
  })

  test('does not count stopped time', () => {
    const walked = walkThrough(every)
    walked.space().wait(5).typed('h').wait(60).typed('h').wait(5).space()
    expect(walked.shows).toBe('rest 1:20')
  })

  test('counts up if no key began a set', () => {
    const walked = walkThrough(every)
    walked.entry('2').space().wait(10).entry('2')
    expect(walked.shows).toBe('rest 1:20')
    expect(walkThrough(every).entry('2').phase.kind).toBe('ready')
  })
})
