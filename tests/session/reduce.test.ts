import { describe, expect, test } from 'vitest'
import { momentAfter, whenOf } from '../../src/session/clock.ts'
import { shownLoadOf } from '../../src/session/load.ts'
import type { SessionEvent } from '../../src/session/model.ts'
import { applyEvent } from '../../src/session/reduce.ts'
import { type SessionState, stepAhead, stepsAhead } from '../../src/session/state.ts'
import { countdownOf, minutesMeasured } from '../../src/session/timers.ts'
import { type Walked, walkThrough } from '../day.ts'

/* What single events make of the state of a session. */

const day = (...parts: string[]) => walkThrough(`One\n\n${parts.join('\n\n')}\n`)
const meals = 'fuel\n  after: "rice"\n  between: "water"\n  before: "oats"'
const run = 'run\n  2 km easy'
const lift = 'lift\n  row: 1 x 5 @ 40 kg'
const curls = 'lift\n  curl: 1 x 5 @ 20 kg'
const prep = 'prep\n  foam roll 3:00'
const rower = 'cross: rower\n  2 km easy'

const at = (walked: Walked, seconds = 0) => whenOf(momentAfter(walked.now, seconds))
const after = (walked: Walked, ...events: SessionEvent[]): SessionState =>
  events.reduce(applyEvent, walked.state)
const typed = {
  ...{ reps: 5, groups: null, seconds: null, meters: null, load: null, rpe: null },
  ...{ failed: false, note: null, pain: null },
}
const timed = {
  ...{ meters: 500, seconds: 110, precision: 1, heartRate: null, heartRateMax: null },
  ...{ rpe: null, byKey: false, note: null, pain: null },
}

describe('meals', () => {
  test.each([
    ['first of all', [meals, run, lift], '1.3.f1 2.1.p1 1.2.f1 3.1.s1 1.1.f1'],
    ['in between', [run, meals, lift], '2.3.f1 1.1.p1 2.2.f1 3.1.s1 2.1.f1'],
    ['after a prep', [prep, meals, run], '2.3.f1 1.1.x1 3.1.p1 2.2.f1 2.1.f1'],
    ['of a single part', [run, meals], '2.3.f1 1.1.p1 2.2.f1 2.1.f1'],
    [
      'with two runs before a lift',
      [prep, run, meals, rower, lift],
      '3.3.f1 1.1.x1 2.1.p1 4.1.p1 3.2.f1 5.1.s1 3.1.f1',
    ],
    ['with two lifts before a run', [lift, meals, curls, run], '2.3.f1 1.1.s1 3.1.s1 2.2.f1 4.1.p1 2.1.f1'],
    ['with two runs only', [run, rower, meals], '3.3.f1 1.1.p1 3.2.f1 2.1.p1 3.1.f1'],
    [
      'with a prep between a lift and a run',
      [lift, prep, meals, run],
      '3.3.f1 1.1.s1 2.1.x1 3.2.f1 4.1.p1 3.1.f1',
    ],
    ['of a day that is nothing else', [meals], '1.3.f1 1.2.f1 1.1.f1'],
  ])('have their place in the day wherever they are written: %s', (_, parts, ids) => {
    expect(day(...parts).ids.join(' ')).toBe(ids)
  })

  test('come last if their time is over, and nothing waits for them', () => {
    const walked = day(run, meals, lift)
    const ahead = () => [stepAhead(walked.state)?.id, ...stepsAhead(walked.state).map(({ id }) => id)]
    expect(ahead()).toEqual(['2.3.f1', '2.3.f1', '1.1.p1', '2.2.f1', '3.1.s1', '2.1.f1'])
    walked.space()
    expect(ahead()).toEqual(['1.1.p1', '1.1.p1', '2.2.f1', '3.1.s1', '2.1.f1', '2.3.f1'])
    walked.wait(60).space()
    expect(ahead()).toEqual(['2.2.f1', '2.2.f1', '3.1.s1', '2.1.f1', '2.3.f1'])
    walked.space()
    expect(ahead()).toEqual(['3.1.s1', '3.1.s1', '2.1.f1', '2.3.f1', '2.2.f1'])
    walked.wait(20).space()
    expect(ahead()).toEqual(['2.1.f1', '2.1.f1', '2.3.f1', '2.2.f1'])
  })

  test('are not waited for between two parts after the set under way if their time is over', () => {
    const walked = day('run\n  2 km easy', meals, 'lift\n  row: 2 x 5 @ 40 kg, rest 1:00')
      .space()
      .wait(60)
      .space()
    walked.space().wait(20).space()
    expect(walked.phase).toMatchObject({ kind: 'rest', next: '3.1.s2' })
    expect(stepAhead(walked.state)?.id).toBe('3.1.s2')
  })
})

describe('a recovery', () => {
  test('lasts until its send-off, whatever was stopped, in this repeat or before', () => {
    const walked = day('run\n  3 x 500 m in 1:50, every 3:00').space().wait(100)
    walked.typed('h').wait(10).typed('h').wait(10).space().wait(5)
    expect(countdownOf(walked.state)).toEqual({ seconds: 70, byItself: true })
    expect(walked.typed('h').wait(7).typed('h').shows).toBe('rest 1:05')
    expect(walked.wait(66).phase).toMatchObject({ kind: 'effort', step: '1.1.p2' })
    walked.typed('h').wait(20).typed('h').wait(109).space()
    expect(countdownOf(walked.state)?.seconds).toBeCloseTo(70, 6)
  })

  test('follows the typed times of its repeats if it takes the same time, and has no end without one', () => {
    const walked = day('run\n  2 x (200 m in 35 s, 400 m in 1:20, jog same time)').space().wait(35).space()
    walked.wait(80).space()
    expect(countdownOf(walked.state)).toMatchObject({ seconds: 80 })
    walked.entry('36').entry('1:21')
    expect(countdownOf(walked.state)).toMatchObject({ seconds: 81 })
    const skipped = day('run\n  2 x 500 m in 1:50, jog same time').space().wait(30).typed('s')
    expect(skipped.phase.kind).toBe('recovery')
    expect(countdownOf(skipped.state)).toBeNull()
  })

  test('is not ended by the result of a repeat before it', () => {
    const walked = day('run\n  3 x 500 m in 1:50, jog 200 m').effort(110)
    const corrected = after(walked, {
      type: 'pieceRecorded',
      ...at(walked, 5),
      step: '1.1.p1',
      result: timed,
    })
    expect(corrected.phase).toEqual(walked.phase)
    const ahead = after(walked, { type: 'pieceRecorded', ...at(walked, 5), step: '1.1.p2', result: timed })
    expect(ahead.phase).toMatchObject({ kind: 'recovery', step: '1.1.j2' })
  })

  test('comes with an added repeat only if it belongs to that line of that part', () => {
    const walked = day(
      'run: a\n  1 km easy\n  walk 3:00\n  1 km easy',
      'run: b\n  1 km easy\n  500 m in 1:50',
    )
    const ids = (state: SessionState, like: string) =>
      applyEvent(state, { type: 'stepAdded', at: null, up: null, step: 'new', like }).steps.map(
        ({ id }) => id,
      )
    expect(ids(walked.state, '1.3.p1')).not.toContain('new-recovery')
    const moved = after(walked, { type: 'itemMoved', ...at(walked), item: [0, 1], before: [1, 1] })
    expect(moved.steps.map(({ id }) => id)).toEqual(['1.1.p1', '1.3.p1', '2.1.p1', '1.2.j1', '2.2.p1'])
    expect(ids(moved, '2.2.p1')).toEqual(['1.1.p1', '1.3.p1', '2.1.p1', '1.2.j1', '2.2.p1', 'new'])
  })
})

describe('a result', () => {
  const rows = 'lift\n  row: 3 x 5 @ 40 kg, rest 1:00'
  const recorded = (walked: Walked, step: string) =>
    after(walked, { type: 'setRecorded', ...at(walked, 5), step, result: typed })
  const endOf = (state: SessionState, part = 0) => state.partStates[part]?.ended?.wall ?? null

  test('typed in a rest begins the next rest now if it is that of the set waited for', () => {
    const walked = day(rows).effort(20)
    const now = momentAfter(walked.now, 5).wall
    expect(recorded(walked, '1.1.s2').phase).toMatchObject({
      after: '1.1.s2',
      next: '1.1.s3',
      since: { wall: now },
    })
    expect(recorded(walked, '1.1.s1').phase).toEqual(walked.phase)
    expect(recorded(walked, '1.1.s3').phase).toEqual(walked.phase)
  })

  test('dates the end of its part if its own clock is running, and not by another', () => {
    const walked = day(run, rows)
    const now = momentAfter(walked.space().wait(60).now, 5).wall
    const piece = after(walked, { type: 'pieceRecorded', ...at(walked, 5), step: '1.1.p1', result: timed })
    expect([endOf(piece), endOf(piece, 1)]).toEqual([now, null])
    const sets = day(rows).effort(20).wait(30).space().wait(10)
    const ended = endOf(sets.state)
    expect(endOf(recorded(sets, '1.1.s1'))).toBe(ended)
    expect(endOf(recorded(sets, '1.1.s2'))).toBe(momentAfter(sets.now, 5).wall)
    const resting = day(rows).effort(20).wait(30)
    expect(endOf(recorded(resting, '1.1.s1'))).toBe(endOf(resting.state))
  })

  test('ends the set under way, in a pause as well, and no run or other set', () => {
    const added = (walked: Walked, entry: string) => {
      const before = walked.events.length
      return walked
        .entry(entry)
        .events.slice(before)
        .map(({ type }) => type)
    }
    const cluster = 'lift\n  squat: 2 x (1+1) @ 70 kg, pause 20 s, rest 2:00'
    expect(added(day(cluster).space().wait(4), '1+1')).toEqual(['effortEnded', 'setRecorded'])
    expect(added(day(cluster).effort(4), '1+1')).toEqual(['effortEnded', 'setRecorded'])
    expect(added(day(run).space().wait(480), '8:00')).toEqual(['pieceRecorded'])
    expect(added(day(rows).effort(20).space().wait(4), '5')).toEqual(['setRecorded'])
    expect(added(day(rows), '5')).toEqual(['setRecorded'])
  })

  test('dates no part once the session was reopened', () => {
    const walked = day(rows).effort(20)
    const { state } = walked
    const paper: SessionState = { ...state, fromPaper: true, endedBefore: walked.now }
    const event: SessionEvent = { type: 'setRecorded', ...at(walked, 60), step: '1.1.s1', result: typed }
    expect(applyEvent(paper, event).partStates).toEqual(state.partStates)
    expect(applyEvent({ ...paper, endedBefore: null }, event).partStates).not.toEqual(state.partStates)
  })
})

describe('a session that was reopened', () => {
  const closed = () => day(run).effort(480).typed('f').entry('5').entry('8')

  test('ends when it ended before, unless a clock has run since', () => {
    const walked = closed()
    const end = walked.state.finishedAt
    expect(end).not.toBeNull()
    walked.reopen().wait(60)
    const finished: SessionEvent = { type: 'sessionFinished', ...at(walked, 30) }
    expect(after(walked, finished).finishedAt).toEqual(end)
    const more = { type: 'stepAdded', ...at(walked), step: 'new', like: '1.1.p1' } as const
    const begun = { type: 'effortBegun', ...at(walked, 5), step: 'new', auto: false } as const
    const impossible = { ...begun, step: 'no such step' }
    expect(after(walked, more, impossible).endedBefore).toEqual(end)
    const running = after(walked, more, begun)
    expect([running.phase.kind, running.endedBefore]).toEqual(['effort', null])
    expect(applyEvent(running, finished).finishedAt?.wall).toBe(momentAfter(walked.now, 30).wall)
  })
})

describe('an event', () => {
  test('closes only its own part', () => {
    const walked = day(run, lift)
    const { passed, partStates } = after(walked, {
      ...{ type: 'partClosed', ...at(walked), part: 0, effort: 5, minutes: 10 },
    })
    expect([...passed]).toEqual(['1.1.p1'])
    expect(partStates.map((part) => [part.closed, part.effort])).toEqual([
      [true, 5],
      [false, null],
    ])
  })

  test('keeps a note with the step it is about, or for the whole day', () => {
    const walked = day(run, lift)
    const note = (about: string | null) =>
      ({ type: 'noteAdded', ...at(walked), about, text: 'x', pain: false }) as const
    expect(after(walked, note('2.1.s1'), note(null)).notes.map(({ about }) => about)).toEqual([
      '2.1.s1',
      null,
    ])
  })

  test('tells of another start of the machine', () => {
    const walked = day(run)
    const opened = after(walked, { type: 'opened', ...at(walked, 60), boot: 'second' })
    expect(opened.boot).toBe('second')
  })

  test('is left alone by a step that does not exist', () => {
    const walked = day('lift\n  row: 3 x 5 @ 40 kg, rest 1:00').effort(20).typed('h')
    const impossible: SessionEvent = {
      type: 'effortBegun',
      ...at(walked, 30),
      step: 'no such step',
      auto: false,
    }
    expect(applyEvent(walked.state, impossible)).toBe(walked.state)
  })
})

describe('the load shown', () => {
  const shown = (walked: Walked, id: string) => {
    const step = walked.step(id)
    if (step.kind !== 'set') throw new Error(`${id} is no set`)
    const load = shownLoadOf(walked.state, step)
    return [load.shown?.kind === 'mass' ? load.shown.value : load.shown?.added, load.unknown]
  }

  test('is that of its own line, its own part and its own place in a superset', () => {
    const lines = day('lift\n  row: 1 x 5 @ 50 kg\n  row: 1 x 5 @ 40 kg').entry('5 x 55')
    expect(shown(lines, '1.2.s1')).toEqual([40, false])
    const parts = day('lift: a\n  row: 1 x 5 @ 50 kg', 'lift: b\n  row: 1 x 5 @ 40 kg').entry('5 x 55')
    expect(shown(parts, '2.1.s1')).toEqual([40, false])
    const both = day('lift\n  row 2 x 5 @ 50 kg + row 2 x 5 @ 40 kg').entry('5 x 55')
    expect(shown(both, both.ids[1] ?? '')).toEqual([40, false])
    expect(shown(both, both.ids[2] ?? '')).toEqual([55, false])
  })

  test('is not one that was typed later, or for the exercise before it was swapped', () => {
    const walked = day('lift\n  row: 3 x 5 @ 50 kg').entry('5').entry('5 x 60')
    expect(shown(walked, '1.1.s1')).toEqual([50, false])
    const swapped = day('lift\n  row: 3 x 5 @ 50 kg').entry('5 x 60').typed('x').entry('seal row')
    expect(shown(swapped, '1.1.s2')).toEqual([undefined, true])
  })

  test('goes on from set to set only if exactly the load shown was lifted', () => {
    const next = (entry: string) => shown(day('lift\n  row 10/8/6 @ 40/45/50 kg').entry(entry), '1.1.s2')
    expect(next('10 x 40')).toEqual([45, false])
    expect(next('10 x 40 lb')).toEqual([40, false])
    expect(next('10 x 2x40')).toEqual([40, false])
    expect(next('10 x bw+40')).toEqual([40, false])
    const dips = (entry: string) =>
      shown(day('lift\n  dip 10/8 @ bodyweight+10/15 kg').entry(entry), '1.1.s2')
    expect(dips('10 x bw+10')).toEqual([15, false])
    expect(dips('10 x bw+12')).toEqual([12, false])
    expect(dips('10 x 10 kg')).toEqual([15, false])
  })

  const chosen = { kind: 'mass', value: 60, unit: 'kg', pair: false } as const
  const shownIn = (state: SessionState) =>
    state.steps.flatMap((step) => (step.kind === 'set' ? [shownLoadOf(state, step)] : []))

  test('is the one chosen before the set began, for the sets after it, too', () => {
    const walked = day('lift\n  row: 2 x 5 @ rpe 8')
    const state = after(walked, { type: 'loadChosen', ...at(walked), step: '1.1.s1', load: chosen })
    expect(shownIn(state)).toEqual([
      { shown: chosen, unknown: false },
      { shown: chosen, unknown: false },
    ])
  })

  test('is the one chosen on each of two lines', () => {
    const walked = day('lift\n  squat: 1 x 5 @ 95 kg\n  row: 1 x 5 @ 50 kg')
    const choose = (step: string, value: number) =>
      ({ type: 'loadChosen', ...at(walked), step, load: { ...chosen, value } }) as const
    const state = after(walked, choose('1.1.s1', 100), choose('1.2.s1', 55))
    expect(shownIn(state)).toMatchObject([{ shown: { value: 100 } }, { shown: { value: 55 } }])
  })

  test('comes down with the prescription for back-off sets, and stays where less was typed than is prescribed there', () => {
    const line = 'lift\n  squat: 1 x 5 @ 140 kg then 2 x 5 @ -15%'
    const after145 = day(line).entry('5 x 145').entry('5').state
    expect(shownIn(after145).map(({ shown }) => shown)).toMatchObject([
      { value: 140 },
      { value: 120 },
      { value: 120 },
    ])
    expect(shownIn(day(line).entry('5 x 100').state)).toMatchObject([
      { shown: { value: 140 } },
      { shown: { value: 100 } },
      { shown: { value: 100 } },
    ])
  })
})

describe('rounds at a fixed interval', () => {
  const next = (walked: Walked) =>
    walked.phase.kind === 'rest' ? [walked.phase.seconds, walked.phase.byItself] : walked.phase.kind

  test('rest for what is left of their own round, whatever was stopped before it', () => {
    const walked = day('lift\n  clean: 1 x 2 @ 60 kg, every 1:30\n  row: 4 x 3 @ 40 kg, every 1:00').effort(
      20,
    )
    walked.wait(50).effort(10)
    expect(next(walked)).toEqual([50, true])
    walked.typed('h').wait(10).typed('h').wait(50)
    expect(walked.phase).toMatchObject({ kind: 'effort', step: '1.2.s2', auto: true })
    walked.wait(15).space()
    expect(next(walked)).toEqual([45, true])
    const parts = day('lift\n  row: 1 x 3 @ 40 kg, every 1:00', 'lift: b\n  row: 2 x 3 @ 40 kg, every 1:00')
    expect(next(parts.effort(10).wait(70).effort(10))).toEqual([50, true])
  })

  test('have a rest without an end if no key began the round, and none if it took too long', () => {
    const walked = day('lift\n  row: 3 x 3 @ 40 kg, every 1:00').effort(10)
    expect(next(walked.entry('3').entry('3'))).toEqual([null, false])
    const long = day('lift\n  row: 3 x 3 @ 40 kg, every 1:00').effort(70)
    expect(long.phase).toMatchObject({ kind: 'effort', step: '1.1.s2', auto: true })
  })
})

describe('an event of another phase or another step', () => {
  const base = (walked: Walked, step: string) => ({ ...at(walked, 5), step, auto: false })
  const same = (walked: Walked, ...events: SessionEvent[]) => {
    for (const event of events) expect(applyEvent(walked.state, event), event.type).toBe(walked.state)
  }

  test('changes nothing in a recovery, a rest, a pause or an effort', () => {
    const recovery = day('run\n  2 x 500 m in 1:50, jog 200 m').effort(110)
    same(
      recovery,
      { type: 'effortEnded', ...base(recovery, '1.1.p2') },
      { type: 'groupEnded', ...base(recovery, '1.1.j1'), group: 0 },
      { type: 'startForgotten', ...at(recovery), step: '1.1.j1' },
      // A jog by distance has no length to change.
      { type: 'restChanged', ...at(recovery), seconds: 15 },
    )
    const rest = day('lift\n  row: 2 x 5 @ 40 kg').effort(20)
    same(
      rest,
      { type: 'effortEnded', ...base(rest, '1.1.s1') },
      { type: 'restChanged', ...at(rest), seconds: 15 },
    )
    const cluster = day('lift\n  squat: 2 x (1+1) @ 70 kg, pause 20 s').effort(4)
    same(
      cluster,
      { type: 'effortEnded', ...base(cluster, '1.1.s2') },
      { type: 'groupEnded', ...base(cluster, '1.1.s1'), group: 1 },
      { type: 'effortBegun', ...base(cluster, '1.1.s1') },
    )
    const ended = after(cluster, { type: 'effortEnded', ...base(cluster, '1.1.s1') })
    expect(ended.passed.has('1.1.s1')).toBe(true)
    const effort = day('lift\n  squat: 2 x (1+1) @ 70 kg, pause 20 s').space()
    same(
      effort,
      { type: 'startForgotten', ...at(effort), step: '1.1.s2' },
      { type: 'groupEnded', ...base(effort, '1.1.s2'), group: 0 },
      { type: 'groupBegun', ...base(effort, '1.1.s1'), group: 1 },
    )
    const ready = day('lift\n  row: 2 x 5 @ 40 kg')
    same(ready, { type: 'restChanged', ...at(ready), seconds: 15 })
  })

  test('begins a recovery as one, and passes no recovery of another part', () => {
    const walked = day('run: a\n  1 km easy\n  walk 3:00\n  1 km easy', 'run: b\n  1 km easy')
    const begun = after(walked, { type: 'effortBegun', ...base(walked, '1.2.j1') })
    expect(begun.phase).toMatchObject({ kind: 'recovery', step: '1.2.j1', changedBy: 0 })
    const moved = after(
      walked,
      { type: 'itemMoved', ...at(walked), item: [0, 1], before: [1, 0] },
      { type: 'effortBegun', ...base(walked, '2.1.p1') },
    )
    expect([...moved.passed]).toEqual([])
  })
})

describe('the end of an effort', () => {
  test('leads on within its line, and else to the time between two items', () => {
    const kinds = (walked: Walked) => [walked.phase.kind, 'step' in walked.phase ? walked.phase.step : null]
    expect(kinds(day('run\n  2 km @ 4:00/km, split 1 km').effort(240))).toEqual(['effort', '1.1.p2'])
    expect(kinds(day('run\n  2 x (1:00 fast, 2:00 easy)').space().wait(61))).toEqual(['effort', '1.1.p2'])
    expect(kinds(day('run\n  2 x 1 km tempo').effort(240))).toEqual(['ready', null])
    expect(kinds(day('run\n  1 km easy\n  1 km tempo').effort(300))).toEqual(['ready', null])
    expect(kinds(day('run\n  1 km easy', 'cross: rower\n  1 km easy').effort(300))).toEqual(['ready', null])
    expect(kinds(day('lift\n  row: 1 x 5 @ 40 kg', 'lift: b\n  row: 1 x 5 @ 40 kg').effort(20))).toEqual([
      'ready',
      null,
    ])
  })

  test('measures a cluster set from its first group to its last, without what was stopped', () => {
    const walked = day('lift\n  squat: 2 x (1+1) @ 70 kg, pause 20 s, rest 1:00').effort(4)
    walked.typed('h').wait(5).typed('h').wait(20.5).wait(3.5).space()
    expect(walked.measured('1.1.s1').seconds).toBeCloseTo(28, 6)
    walked.typed('h').wait(7).typed('h').wait(10).effort(4).wait(24).space()
    expect(walked.measured('1.1.s2').seconds).toBeCloseTo(28, 6)
  })
})

describe('clocks that are stopped', () => {
  test('have stood since the running clock began, if the stop is moved back, whatever the wall clock said then', () => {
    const walked = day('run\n  5 km easy').space().wait(60)
    const held: SessionEvent = { type: 'held', ...at(walked, 10), since: at(walked, -7200).at }
    const { stopped } = after(walked, held)
    expect(stopped?.since).toEqual(walked.phase.since)
    expect(after(walked, { ...held, since: null }).stopped?.since.up).toBe((walked.now.up ?? 0) + 10)
  })

  test('count for their own part only, and for none between two parts', () => {
    const walked = day('run\n  1 km easy', 'lift\n  row: 2 x 5 @ 40 kg, rest 1:00').effort(300)
    const minutes = () => [0, 1].map((part) => minutesMeasured(walked.state, part))
    walked.typed('h').wait(600).typed('h')
    expect(minutes()).toEqual([5, null])
    walked.effort(60).typed('h').wait(600).typed('h').effort(120)
    expect(minutes()).toEqual([5, 3])
  })
})

describe('the countdown of an effort', () => {
  test('ends at its prescribed time, and begins nothing by itself', () => {
    for (const [part, seconds] of [
      ['lift\n  plank: 2 x 45 s', 45],
      ['prep\n  foam roll 3:00', 180],
      ['run\n  3:00 hard', 180],
    ] as const)
      expect(countdownOf(day(part).space().state)).toEqual({ seconds, byItself: false })
    expect(countdownOf(day('prep\n  leg swings 2 x 10 each side').space().state)).toBeNull()
    expect(countdownOf(day('lift\n  row: 1 x 5 @ 40 kg').space().state)).toBeNull()
  })

  test('at a pace ends each group but the last by itself', () => {
    const walked = day('lift\n  squat: 1 x (2+2+max) @ 70 kg, pause 20 s').space()
    const paced = (group: number) => {
      const { phase } = walked.state
      if (phase.kind !== 'effort') throw new Error('the set is under way')
      const pace = new Map([['squat', 4]])
      return countdownOf({ ...walked.state, pace, phase: { ...phase, group } })
    }
    expect([paced(0), paced(1), paced(2), paced(3)]).toEqual([
      { seconds: 8, byItself: true },
      { seconds: 8, byItself: true },
      null,
      null,
    ])
  })
})

test('a part took at least its typed times and the recoveries between them', () => {
  const walked = day(
    'run\n  2 x (2 x 200 m in 35 s, jog 200 m), walk 3:00',
    'cross: rower\n  2 x 500 m in 2:00, stand 1:00',
  )
  walked.entry('35').entry('36').entry('34').entry('35')
  // By hand: 140 s of running, two jogs of 84 s at 7:00/km, one walk of 180 s.
  expect(minutesMeasured(walked.state, 0)).toBeCloseTo((140 + 2 * 84 + 180) / 60, 6)
  expect(minutesMeasured(walked.state, 1)).toBeNull()
  walked.entry('2:00')
  expect(minutesMeasured(walked.state, 1)).toBeCloseTo(3, 6)
})
