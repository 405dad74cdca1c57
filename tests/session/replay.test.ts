import { describe, expect, test } from 'vitest'
import { whenOf } from '../../src/session/clock.ts'
import type { SessionEvent } from '../../src/session/model.ts'
import { dueEvents } from '../../src/session/newEvents.ts'
import { applyEvent } from '../../src/session/reduce.ts'
import { effectiveEvents, replay, undoOf } from '../../src/session/replay.ts'
import { comparable, dayOf, plainContext, sessionOf, thursdayMorning, walkThrough } from '../day.ts'
import { everyLine } from './smallDay.ts'

const straight = 'One\n\nlift\n  bench press: 2 x 5 @ 70 kg, rest 1:00\n'
const when = whenOf(thursdayMorning)

describe('the events that count', () => {
  const events: SessionEvent[] = [
    { type: 'noteAdded', ...when, about: null, text: 'one', pain: false },
    { type: 'noteAdded', ...when, about: null, text: 'two', pain: false },
    { type: 'opened', ...when, boot: 'second' },
    { type: 'undone', ...when, from: 1 },
    { type: 'noteAdded', ...when, about: null, text: 'three', pain: false },
  ]

  test('are those that were not undone; that a program opened the session always counts', () => {
    expect(effectiveEvents(events).map(({ index }) => index)).toEqual([0, 2, 4])
  })

  test('are undone one by one when undone twice', () => {
    const more: SessionEvent[] = [
      ...events,
      { type: 'undone', ...when, from: 4 },
      { type: 'undone', ...when, from: 0 },
    ]
    expect(effectiveEvents(more).map(({ index }) => index)).toEqual([2])
  })

  test('are again those that an undo took which was undone itself', () => {
    const undone = (from: number): SessionEvent => ({ type: 'undone', ...when, from })
    const [one, two] = events as [SessionEvent, SessionEvent]
    const kept = (...all: SessionEvent[]) => effectiveEvents(all).map(({ index }) => index)
    expect(kept(one, two, undone(1))).toEqual([0])
    expect(kept(one, two, undone(1), undone(2))).toEqual([0, 1])
    expect(kept(one, two, undone(1), undone(0))).toEqual([])
    expect(kept(one, two, undone(1), undone(2), undone(3))).toEqual([0])
  })

  test('are none in an empty session', () => {
    expect(effectiveEvents([])).toEqual([])
    expect(undoOf([])).toBeNull()
  })
})

describe('an event that is impossible in the current state', () => {
  const start = replay(sessionOf(straight))
  const impossible: SessionEvent[] = [
    { type: 'effortBegun', ...when, step: 'no such step', auto: false },
    { type: 'effortEnded', ...when, step: '1.1.s1', auto: false },
    { type: 'groupEnded', ...when, step: '1.1.s1', group: 0, auto: false },
    { type: 'groupBegun', ...when, step: '1.1.s1', group: 1, auto: false },
    { type: 'startForgotten', ...when, step: '1.1.s1' },
    { type: 'restChanged', ...when, seconds: 15 },
    { type: 'resumed', ...when },
    { type: 'stepSkipped', ...when, step: 'no such step' },
    { type: 'itemSkipped', ...when, part: 7, item: 0 },
    { type: 'stepAdded', ...when, step: 'new', like: 'no such step' },
    { type: 'stepAdded', ...when, step: '1.1.s2', like: '1.1.s1' },
    { type: 'exerciseSwapped', ...when, step: 'no such step', name: 'row' },
    { type: 'exerciseSwapped', ...when, step: '1.1.s1', name: 'bench press' },
    { type: 'itemMoved', ...when, item: [4, 4], before: null },
    { type: 'itemMoved', ...when, item: [0, 0], before: [0, 0] },
    { type: 'dayCut', ...when, minutes: 5, steps: ['no such step'] },
    { type: 'partClosed', ...when, part: 9, effort: null, minutes: null },
    { type: 'sessionReopened', ...when },
    { type: 'undone', ...when, from: 0 },
    { type: 'prepRecorded', ...when, step: '1.1.s1', result: { note: null, pain: null } },
  ]

  test.each(impossible.map((event, index) => ({ index, type: event.type, event })))(
    'changes nothing: $type ($index)',
    ({ event }) => {
      expect(applyEvent(start, event)).toBe(start)
    },
  )

  test('a start of unknown time is ignored, because no clock runs on paper', () => {
    const event: SessionEvent = { type: 'effortBegun', at: null, up: null, step: '1.1.s1', auto: false }
    expect(applyEvent(start, event)).toBe(start)
  })

  test('while a set is under way nothing else begins or pauses', () => {
    const { state } = walkThrough(straight).space()
    for (const event of [
      { type: 'effortBegun', ...when, step: '1.1.s2', auto: false },
      { type: 'effortEnded', ...when, step: '1.1.s2', auto: false },
      { type: 'groupEnded', ...when, step: '1.1.s1', group: 0, auto: false },
      { type: 'restChanged', ...when, seconds: 15 },
    ] satisfies SessionEvent[])
      expect(applyEvent(state, event)).toBe(state)
  })

  test('the last group is not followed by another, and a pause ends only for its own set', () => {
    const clusters = walkThrough('One\n\nlift\n  squat: 2 x (1+1) @ 70 kg, pause 20 s\n').effort(4)
    const other: SessionEvent = { type: 'groupBegun', ...when, step: '1.1.s2', group: 1, auto: false }
    expect(applyEvent(clusters.state, other)).toBe(clusters.state)
    const { state } = clusters.wait(20)
    const ended: SessionEvent = { type: 'groupEnded', ...when, step: '1.1.s1', group: 1, auto: false }
    expect(applyEvent(state, ended)).toBe(state)
  })

  test('a passed step does not begin again, and a stopped clock does not stop twice', () => {
    const { state } = walkThrough(straight).effort(20)
    expect(applyEvent(state, { type: 'effortBegun', ...when, step: '1.1.s1', auto: false })).toBe(state)
    const held = applyEvent(state, { type: 'held', ...when, since: null })
    expect(applyEvent(held, { type: 'held', ...when, since: null })).toBe(held)
  })

  test('a step is skipped once, and a finished session finished once', () => {
    const { state } = walkThrough(straight).typed('s')
    expect(applyEvent(state, { type: 'stepSkipped', ...when, step: '1.1.s1' })).toBe(state)
    const finished = applyEvent(state, { type: 'sessionFinished', ...when })
    expect(applyEvent(finished, { type: 'sessionFinished', ...when })).toBe(finished)
  })
})

test('a skipped step that is recorded after all is no longer skipped', () => {
  const walked = walkThrough(straight).typed('s')
  const result = {
    reps: 5,
    groups: null,
    seconds: null,
    meters: null,
    load: null,
    rpe: null,
    failed: false,
    note: null,
    pain: null,
  }
  const state = applyEvent(walked.state, { type: 'setRecorded', ...when, step: '1.1.s1', result })
  expect(state.skipped.has('1.1.s1')).toBe(false)
  expect(state.recorded.has('1.1.s1')).toBe(true)
})

describe('an effort that the clock begins', () => {
  test('has the moment at which it was due', () => {
    const walked = walkThrough('One\n\nlift\n  squat: 2 x (1+1) @ 70 kg, pause 20 s, rest 2:00\n').effort(4)
    const later = { ...walked.now, wall: walked.now.wall + 60_000, up: (walked.now.up ?? 0) + 60 }
    expect(dueEvents(walked.state, later)).toEqual([
      {
        type: 'groupBegun',
        at: '2026-11-26T06:40:24.000+01:00',
        up: 1024,
        step: '1.1.s1',
        group: 1,
        auto: true,
      },
    ])
  })

  test('does not begin while the clock is stopped, or before it is due', () => {
    const walked = walkThrough('One\n\nlift\n  squat: 2 x (1+1) @ 70 kg, pause 20 s, rest 2:00\n')
      .effort(4)
      .typed('h')
    const later = { ...walked.now, wall: walked.now.wall + 60_000, up: (walked.now.up ?? 0) + 60 }
    expect(dueEvents(walked.state, later)).toEqual([])
    expect(dueEvents(walked.state, walked.now)).toEqual([])
  })
})

test('a part with times on paper lasts from its first result to its last', () => {
  const session = sessionOf(dayOf('One\n\nrun\n  2 x 500 m in 1:50, jog 200 m\n'))
  const result = {
    meters: 500,
    seconds: 110,
    precision: 1,
    heartRate: null,
    heartRateMax: null,
    rpe: null,
    byKey: false,
    note: null,
    pain: null,
  }
  const at = (clock: string) => ({ at: `2026-11-26T${clock}+01:00`, up: null })
  const [start] = session.events
  if (start?.type !== 'sessionStarted') throw new Error('a session begins with its start')
  const events: SessionEvent[] = [
    { ...start, fromPaper: true, at: null, up: null },
    { type: 'pieceRecorded', ...at('07:00:00'), step: '1.1.p1', result },
    { type: 'pieceRecorded', ...at('07:04:00'), step: '1.1.p2', result },
  ]
  const part = replay({ ...session, events }).partStates[0]
  expect(part?.begun?.wall).toBe(Date.parse('2026-11-26T06:58:10+01:00'))
  expect(part?.ended?.wall).toBe(Date.parse('2026-11-26T07:04:00+01:00'))
})

test('a session replayed twice is the same', () => {
  const session = sessionOf(everyLine)
  expect(comparable(replay(session))).toEqual(comparable(replay(session)))
})

describe('one key press', () => {
  const at = (second: number) => ({
    at: `2026-11-26T07:00:${String(second).padStart(2, '0')}.000+01:00`,
    up: 1000 + second,
  })
  const piece = (step: string, second: number): SessionEvent => ({
    type: 'pieceRecorded',
    ...at(second),
    step,
    result: {
      ...{ meters: 1000, seconds: 240, precision: 1, heartRate: null, heartRateMax: null },
      ...{ rpe: null, byKey: false, note: null, pain: null },
    },
  })
  const skipped = (step: string, second: number): SessionEvent => ({
    type: 'stepSkipped',
    ...at(second),
    step,
  })
  const note = (second: number, about: string | null = null): SessionEvent => ({
    ...{ type: 'noteAdded', ...at(second), about, text: 'windy', pain: false },
  })
  const pace = (second: number): SessionEvent => ({
    type: 'paceSet',
    ...at(second),
    exercise: 'squat',
    secondsPerRep: 4,
  })
  const ended = (step: string, second: number): SessionEvent => ({
    type: 'effortEnded',
    ...at(second),
    step,
    auto: false,
  })
  const undone = (...events: SessionEvent[]) => {
    const found = undoOf(events)
    return found && [found.from, found.results.length, found.isAdvance]
  }

  test('has all results of a line, with their skips and the comments on them', () => {
    expect(undone(piece('a', 1), piece('b', 5), piece('c', 5))).toEqual([1, 2, false])
    expect(undone(piece('b', 5), skipped('c', 5), note(5, 'c'), piece('d', 5))).toEqual([0, 3, false])
    expect(undone(skipped('c', 5), note(5, 'c'), note(5, 'c'))).toEqual([0, 1, false])
  })

  test('ends where a step comes a second time, where the moment or the uptime is another, and on paper', () => {
    expect(undone(piece('b', 5), piece('b', 5))).toEqual([1, 1, false])
    expect(undone(piece('a', 5), { ...piece('b', 5), up: 1006 })).toEqual([1, 1, false])
    expect(undone({ ...piece('a', 5), up: null }, { ...piece('b', 5), up: null })).toEqual([1, 1, false])
    expect(undone({ ...piece('a', 5), at: null }, { ...piece('b', 5), at: null })).toEqual([1, 1, false])
  })

  test('is not one with another kind of event of the same moment', () => {
    expect(undone(pace(5), piece('b', 5))).toEqual([1, 1, false])
    expect(undone(piece('b', 5), pace(5))).toEqual([1, 0, false])
    expect(undone(piece('b', 5), note(5))).toEqual([1, 0, false])
  })

  test('has the end of an effort with its result, and no other result with it', () => {
    expect(undone(ended('b', 5), piece('b', 5))).toEqual([0, 1, true])
    expect(undone(ended('a', 5), piece('b', 5))).toEqual([1, 1, false])
    expect(undone(piece('a', 5), ended('b', 5), piece('b', 5))).toEqual([1, 1, true])
  })

  test('can be the closing of a part, but not what comes before the end of a session, unless it is reopened', () => {
    const closed: SessionEvent = { type: 'partClosed', ...at(6), part: 0, effort: 7, minutes: 30 }
    const over: SessionEvent = { type: 'sessionFinished', ...at(7) }
    const reopened: SessionEvent = { type: 'sessionReopened', ...at(8) }
    expect(undone(piece('b', 5), closed)).toEqual([1, 0, false])
    expect(undone(piece('b', 5), { ...closed, part: 1 }, closed)).toEqual([1, 0, false])
    expect(undone(piece('b', 5), closed, over)).toBeNull()
    expect(undone(piece('b', 5), closed, over, reopened)).toEqual([0, 1, false])
    expect(undone(piece('b', 5), closed, over, reopened, note(9))).toEqual([4, 0, false])
  })

  test('is not what the clock did by itself', () => {
    const auto: SessionEvent = { type: 'effortBegun', ...at(9), step: 'c', auto: true }
    expect(undone(piece('b', 5), auto)).toEqual([0, 1, false])
    expect(undone(piece('b', 5), { ...auto, auto: false })).toEqual([1, 0, true])
  })
})

describe('a set ended sooner than it can be lifted', () => {
  const ended = (item: string, seconds: number) =>
    walkThrough(`One\n\nlift\n  ${item}\n`).space().wait(seconds).space().events.at(-1)?.type

  test('was begun with the key: one repetition a second is the least', () => {
    expect(ended('row 1 x 5-8 @ 40 kg', 4.5)).toBe('startForgotten')
    expect(ended('row 1 x 5-8 @ 40 kg', 5)).toBe('effortEnded')
    expect(ended('row 1 x 5+ @ 40 kg', 4.5)).toBe('startForgotten')
    expect(ended('row 1 x 5+ @ 40 kg', 5)).toBe('effortEnded')
    expect(ended('row 1 x max @ 40 kg', 1)).toBe('effortEnded')
    expect(ended('curl 1 x (12 > 10) @ 20/15 kg', 21)).toBe('startForgotten')
    expect(ended('1 x (clean 1 + jerk 2) @ 40 kg', 3)).toBe('effortEnded')
  })

  test('was begun with the key: a hold, a carry or rounds of under three seconds were none', () => {
    for (const item of [
      'plank 1 x 45 s',
      'farmer carry 1 x 40 m',
      'for time: 2 rounds of 20 step-up, 60 m carry',
    ]) {
      expect(ended(item, 2), item).toBe('startForgotten')
      expect(ended(item, 3), item).toBe('effortEnded')
    }
  })
})

describe('an effort begun out of order', () => {
  const begun = (lines: string, step: string, warmUps = false) => {
    const session = sessionOf(`One\n\n${lines}`, [{ type: 'effortBegun', ...when, step, auto: false }])
    return [...replay(session, warmUps ? plainContext.warmUpOf : undefined).passed].sort()
  }

  test('passes the jogs and the warm-up sets right before it, and no result', () => {
    const repeats = 'run\n  3 x 500 m in 1:50, jog 200 m\n'
    expect(begun(repeats, '1.1.p2')).toEqual(['1.1.j1'])
    expect(begun(repeats, '1.1.p3')).toEqual(['1.1.j2'])
    const squat = 'lift\n  squat: 2 x 3 @ 92.5 kg, build from 40 kg\n'
    expect(begun(squat, '1.1.s1', true)).toEqual(['1.1.b1', '1.1.b2', '1.1.b3', '1.1.b4'])
    expect(begun(squat, '1.1.s2', true)).toEqual([])
    expect(begun(squat, '1.1.b3', true)).toEqual([])
  })

  test('begins its part, be it a warm-up set that is not worked out again', () => {
    const squat = 'One\n\nlift\n  squat: 2 x 3 @ 92.5 kg, build from 40 kg\n'
    const session = sessionOf(squat, [{ type: 'effortBegun', ...when, step: '1.1.b1', auto: false }])
    expect(replay(session).partStates[0]?.begun).toEqual(
      replay(session, plainContext.warmUpOf).partStates[0]?.begun,
    )
    expect(replay(session).partStates[0]?.begun).not.toBeNull()
  })
})
