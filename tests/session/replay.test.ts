import { describe, expect, test } from 'vitest'
import { clockSeconds, whenOf } from '../../src/session/clock.ts'
import { dueEvents } from '../../src/session/due.ts'
import type { SessionEvent } from '../../src/session/model.ts'
import { applyEvent } from '../../src/session/reduce.ts'
import { effectiveEvents, replay } from '../../src/session/replay.ts'
import { notesIn } from '../../src/session/state.ts'
import { undoOf } from '../../src/session/undo.ts'
import { comparable, dayOf, sessionOf, thursdayMorning, walkThrough } from '../day.ts'
import { everyLine } from './smallDay.ts'

const straight = 'One\n\nlift\n  bench press: 2 x 5 @ 70 kg, rest 1:00\n'
const when = whenOf(thursdayMorning)

describe('a session of very many notes', () => {
  test('copies no notes when one is added, so that the time to replay is proportional to their number', () => {
    const note = (text: string): SessionEvent => ({
      type: 'noteAdded',
      ...when,
      about: null,
      text,
      pain: false,
    })
    const before = replay({ prescription: dayOf(straight), events: [note('one'), note('two')] })
    const after = applyEvent(before, note('three')).state
    expect(after.lastNote?.before).toBe(before.lastNote)
    expect(notesIn(after).map(({ text }) => text)).toEqual(['one', 'two', 'three'])
    const many = Array.from({ length: 100_000 }, (_, index) => note(`note ${index}`))
    expect(notesIn(replay({ prescription: dayOf(straight), events: many }))).toHaveLength(100_000)
  })
})

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

  test('of an empty session are none', () => {
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
      expect(applyEvent(start, event).state).toBe(start)
    },
  )

  test('a start of unknown time is ignored, because no clock runs on paper', () => {
    const event: SessionEvent = { type: 'effortBegun', at: null, up: null, step: '1.1.s1', auto: false }
    expect(applyEvent(start, event).state).toBe(start)
  })

  test('while a set is under way nothing else begins or pauses', () => {
    const { state } = walkThrough(straight).space()
    for (const event of [
      { type: 'effortBegun', ...when, step: '1.1.s2', auto: false },
      { type: 'effortEnded', ...when, step: '1.1.s2', auto: false },
      { type: 'groupEnded', ...when, step: '1.1.s1', group: 0, auto: false },
      { type: 'restChanged', ...when, seconds: 15 },
    ] satisfies SessionEvent[])
      expect(applyEvent(state, event).state).toBe(state)
  })

  test('the last group is not followed by another, and a pause ends only for its own set', () => {
    const clusters = walkThrough('One\n\nlift\n  squat: 2 x (1+1) @ 70 kg, pause 20 s\n').effort(4)
    const other: SessionEvent = { type: 'groupBegun', ...when, step: '1.1.s2', group: 1, auto: false }
    expect(applyEvent(clusters.state, other).state).toBe(clusters.state)
    const { state } = clusters.wait(20)
    const ended: SessionEvent = { type: 'groupEnded', ...when, step: '1.1.s1', group: 1, auto: false }
    expect(applyEvent(state, ended).state).toBe(state)
  })

  test('a passed step does not begin again, and a stopped clock does not stop twice', () => {
    const { state } = walkThrough(straight).effort(20)
    expect(applyEvent(state, { type: 'effortBegun', ...when, step: '1.1.s1', auto: false }).state).toBe(state)
    const held = applyEvent(state, { type: 'held', ...when, since: null }).state
    expect(applyEvent(held, { type: 'held', ...when, since: null }).state).toBe(held)
  })

  test('a step is skipped once, and a finished session finished once', () => {
    const { state } = walkThrough(straight).typed('s')
    expect(applyEvent(state, { type: 'stepSkipped', ...when, step: '1.1.s1' }).state).toBe(state)
    const finished = applyEvent(state, { type: 'sessionFinished', ...when }).state
    expect(applyEvent(finished, { type: 'sessionFinished', ...when }).state).toBe(finished)
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
  const { state } = applyEvent(walked.state, { type: 'setRecorded', ...when, step: '1.1.s1', result })
  expect(state.skipped.has('1.1.s1')).toBe(false)
  expect(state.recorded.has('1.1.s1')).toBe(true)
})

test('a clock that was stopped for longer than it has run shows 0', () => {
  expect(clockSeconds({ since: thursdayMorning, heldSeconds: 20 }, thursdayMorning)).toBe(0)
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

test('saving and the long signal are described as data', () => {
  const { state } = walkThrough('One\n\nlift\n  squat: 2 x (1+1) @ 70 kg, pause 20 s\n').effort(4)
  const by = (auto: boolean) =>
    applyEvent(state, { type: 'groupBegun', ...when, step: '1.1.s1', group: 1, auto }).effects
  expect(by(false)).toEqual([{ kind: 'save' }])
  expect(by(true)).toEqual([{ kind: 'save' }, { kind: 'signal', signal: 'go' }])
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
