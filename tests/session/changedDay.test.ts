import { describe, expect, test } from 'vitest'
import type { PrescribedSet } from '../../src/prescription/model.ts'
import type { Step } from '../../src/prescription/step.ts'
import { momentAfter, whenOf } from '../../src/session/clock.ts'
import type { SessionEvent } from '../../src/session/model.ts'
import { applyEvent } from '../../src/session/reduce.ts'
import type { SessionState } from '../../src/session/state.ts'
import { type Walked, walkThrough } from '../day.ts'

/* What a change of the day makes of the steps still to come. All of it is this program's own rules. */

const day = (...parts: string[]) => walkThrough(`One\n\n${parts.join('\n\n')}\n`)
const at = (walked: Walked, seconds = 0) => whenOf(momentAfter(walked.now, seconds))
const after = (walked: Walked, ...events: SessionEvent[]): SessionState =>
  events.reduce(applyEvent, walked.state)
const added = (walked: Walked, step: string, like = ''): SessionEvent => ({
  ...{ type: 'stepAdded', ...at(walked), step, like },
})
const swapped = (walked: Walked, step: string, name: string, sets?: PrescribedSet[]): SessionEvent => ({
  ...{ type: 'exerciseSwapped', ...at(walked), step, name, ...(sets ? { sets } : {}) },
})
const set = (reps: number, kg: number): PrescribedSet => ({
  ...{ dose: { kind: 'reps', from: reps, to: reps }, rpe: null },
  load: { kind: 'mass', from: kg, to: kg, unit: 'kg', pair: false },
})

/** One line a step: `1.1.s2 press 2/3 8 @50, rest 120`. */
function row(step: Step): string {
  switch (step.kind) {
    case 'set': {
      const dose = step.dose.kind === 'reps' ? step.dose.from : step.dose.kind
      const load =
        step.load?.kind === 'mass'
          ? `${step.load.from}${step.loadFor === step.name && step.insteadOf !== null ? ' typed' : ''}`
          : '-'
      const rest = step.restAfter ? `, rest ${step.restAfter.from}` : ''
      const pause = step.pauseAfter === null ? '' : `, pause ${step.pauseAfter}`
      return `${step.id} ${step.name} ${step.number}/${step.of} ${dose} @${load}${rest}${pause}`
    }
    case 'interval':
      return `${step.id} ${step.number}/${step.of}`
    case 'recovery':
      return `${step.id} with ${step.countsWith.join()}${step.sendOff ? ` from ${step.sendOff.from}` : ''}`
    case 'warm-up':
      return `${step.id} ${step.name}`
    default:
      return step.id
  }
}
const rows = (state: SessionState) => state.steps.map(row)

describe('a swapped exercise', () => {
  test('changes its own line from there on, and the warm-up of that line', () => {
    const walked = day(
      'lift\n  squat: 3 x 5 @ 100 kg, rest 2:00, build from 60 kg\n  squat: 1 x 8 @ 80 kg, build from 60 kg',
      'lift: b\n  squat: 1 x 3 @ 90 kg, build from 60 kg',
    )
    const warmUps = walked.ids.filter((id) => id.includes('b')).map((id) => `${id} squat`)
    const of = (line: string, name: string) =>
      warmUps.filter((text) => text.startsWith(line)).map((text) => text.replace('squat', name))
    expect(warmUps.length).toBeGreaterThan(3)
    const state = after(
      walked,
      swapped(walked, '1.1.s2', 'hack squat'),
      swapped(walked, '1.2.s1', 'leg press'),
    )
    expect(rows(state)).toEqual([
      ...of('1.1', 'hack squat'),
      '1.1.s1 squat 1/3 5 @100, rest 120',
      '1.1.s2 hack squat 2/3 5 @100, rest 120',
      '1.1.s3 hack squat 3/3 5 @100',
      ...of('1.2', 'leg press'),
      '1.2.s1 leg press 1/1 8 @80',
      ...of('2.1', 'squat'),
      '2.1.s1 squat 1/1 3 @90',
    ])
    expect(state.changes).toEqual([
      { kind: 'swapped', step: '1.1.s2', from: 'squat', to: 'hack squat' },
      { kind: 'swapped', step: '1.2.s1', from: 'squat', to: 'leg press' },
    ])
  })

  test('has the typed sets: fewer, as many, or more', () => {
    const walked = day('lift\n  squat: 4 x 5 @ 100 kg, rest 2:00\n  row: 1 x 5 @ 40 kg').entry('5')
    const pressed = (...sets: PrescribedSet[]) =>
      rows(after(walked, swapped(walked, '1.1.s2', 'press', sets)))
    expect(pressed(set(8, 50), set(6, 55))).toEqual([
      '1.1.s1 squat 1/3 5 @100, rest 120',
      '1.1.s2 press 2/3 8 @50 typed, rest 120',
      '1.1.s3 press 3/3 6 @55 typed',
      '1.2.s1 row 1/1 5 @40',
    ])
    expect(pressed(set(8, 50), set(6, 55), set(4, 60))).toEqual([
      '1.1.s1 squat 1/4 5 @100, rest 120',
      '1.1.s2 press 2/4 8 @50 typed, rest 120',
      '1.1.s3 press 3/4 6 @55 typed, rest 120',
      '1.1.s4 press 4/4 4 @60 typed',
      '1.2.s1 row 1/1 5 @40',
    ])
    expect(pressed(set(8, 50), set(6, 55), set(4, 60), set(2, 65))).toEqual([
      '1.1.s1 squat 1/5 5 @100, rest 120',
      '1.1.s2 press 2/5 8 @50 typed, rest 120',
      '1.1.s3 press 3/5 6 @55 typed, rest 120',
      '1.1.s4 press 4/5 4 @60 typed, rest 120',
      '1.1.s2+swap3 press 5/5 2 @65 typed',
      '1.2.s1 row 1/1 5 @40',
    ])
    const late = after(walked, swapped(walked, '1.1.s3', 'press', [set(8, 50)]))
    expect(rows(late)).toEqual([
      '1.1.s1 squat 1/3 5 @100, rest 120',
      '1.1.s2 squat 2/3 5 @100, rest 120',
      '1.1.s3 press 3/3 8 @50 typed',
      '1.2.s1 row 1/1 5 @40',
    ])
  })

  test('keeps the rounds of a superset, and its last typed set repeats', () => {
    const walked = day('lift\n  pull-up 3 x 6 @ 10 kg + row 2 x 8 @ 20 kg, pause 0:20, rest 1:30')
    expect(rows(after(walked, swapped(walked, '1.1.s1', 'press', [set(8, 50), set(6, 55)])))).toEqual([
      '1.1.s1 press 1/3 8 @50 typed, pause 20',
      '1.1.s2 row 1/2 8 @20, rest 90',
      '1.1.s3 press 2/3 6 @55 typed, pause 20',
      '1.1.s4 row 2/2 8 @20, rest 90',
      '1.1.s5 press 3/3 6 @55 typed',
    ])
  })
})

describe('an added step', () => {
  test('comes after the last round of its superset, and the set before it gets a rest or a pause', () => {
    const superset = 'pull-up 3 x 6 @ 10 kg + row 2 x 8 @ 20 kg, pause 0:20, rest 1:30'
    const walked = day(
      `lift\n  ${superset}\n  curl: 1 x 5 @ 10 kg`,
      'lift: b\n  pull-up 1 x 6 @ 10 kg + row 1 x 8 @ 20 kg',
    )
    const rest = rows(walked.state).slice(5)
    const both = after(walked, added(walked, 'n1', '1.1.s1'), added(walked, 'n2', '1.1.s2'))
    expect(rows(both)).toEqual([
      '1.1.s1 pull-up 1/4 6 @10, pause 20',
      '1.1.s2 row 1/3 8 @20, rest 90',
      '1.1.s3 pull-up 2/4 6 @10, pause 20',
      '1.1.s4 row 2/3 8 @20, rest 90',
      '1.1.s5 pull-up 3/4 6 @10, rest 90',
      'n1 pull-up 4/4 6 @10, rest 90',
      'n2 row 3/3 8 @20',
      ...rest,
    ])
    expect(both.changes).toEqual([
      { kind: 'added', step: 'n1' },
      { kind: 'added', step: 'n2' },
    ])
    const other = after(walked, added(walked, 'n2', '1.1.s2'), added(walked, 'n3', '1.1.s2'))
    expect(rows(other).slice(3)).toEqual([
      '1.1.s4 row 2/4 8 @20, rest 90',
      '1.1.s5 pull-up 3/3 6 @10, pause 20',
      'n2 row 3/4 8 @20, rest 90',
      'n3 row 4/4 8 @20',
      ...rest,
    ])
  })

  test('has no pause before it in a round with a cluster set, whose pause is within the set', () => {
    const walked = day('lift\n  squat: 2 x (1+1) @ 70 kg + row 2 x 8 @ 20 kg, pause 20 s, rest 2:00')
    const state = after(walked, added(walked, 'n1', '1.1.s2'), added(walked, 'n2', '1.1.s1'))
    expect(rows(state).slice(3)).toEqual([
      '1.1.s4 row 2/3 8 @20, rest 120',
      'n1 row 3/3 8 @20, pause 0',
      'n2 squat 3/3 cluster @70',
    ])
  })

  test('gets no rest if its line has none', () => {
    const walked = day('lift\n  row: 1 x 5 @ 40 kg')
    expect(rows(after(walked, added(walked, 'n1', '1.1.s1')))).toEqual([
      '1.1.s1 row 1/2 5 @40',
      'n1 row 2/2 5 @40',
    ])
  })

  test('brings the recovery of its own work, from the repeat before it', () => {
    const walked = day(
      'run\n  2 x 500 m in 1:50, every 3:00\n  2 x 500 m in 1:50, jog 200 m',
      'run: b\n  2 x 500 m in 1:50, jog 200 m',
    )
    const other = ['2.1.p1 1/2', '2.1.j1 with 2.1.p1', '2.1.p2 2/2']
    expect(rows(after(walked, added(walked, 'n1', '1.1.p1'), added(walked, 'n2', '1.2.p2')))).toEqual([
      '1.1.p1 1/3',
      '1.1.j1 with 1.1.p1 from 1.1.p1',
      '1.1.p2 2/3',
      'n1-recovery with 1.1.p2 from 1.1.p2',
      'n1 3/3',
      '1.2.p1 1/3',
      '1.2.j1 with 1.2.p1',
      '1.2.p2 2/3',
      'n2-recovery with 1.2.p2',
      'n2 3/3',
      ...other,
    ])
    const two = day('run\n  2 x (1:00 fast, 2:00 easy)')
    expect(rows(after(two, added(two, 'n1', '1.1.p1')))).toEqual([
      '1.1.p1 1/3',
      '1.1.p2 1/2',
      '1.1.p3 2/3',
      'n1 3/3',
      '1.1.p4 2/2',
    ])
  })

  test('begins its rest with the end of the set before it, and only if nothing else comes first', () => {
    const walked = day('lift\n  row: 1 x 5 @ 40 kg, rest 1:00\n  curl: 1 x 5 @ 20 kg').effort(20)
    const ended = walked.phase.since
    const waiting = after(walked.wait(30), added(walked, 'n1', '1.1.s1'))
    expect(waiting.phase).toMatchObject({
      kind: 'rest',
      after: '1.1.s1',
      next: 'n1',
      seconds: 60,
      since: ended,
    })
    const curl = after(walked, added(walked, 'n1', '1.2.s1'))
    expect(curl.phase).toEqual(walked.phase)
    walked.space()
    expect(after(walked, added(walked, 'n1', '1.1.s1')).phase).toEqual(walked.phase)
    const later = day('lift\n  row: 1 x 5 @ 40 kg, rest 1:00').entry('5')
    expect(after(later, added(later, 'n1', '1.1.s1')).phase).toEqual(later.phase)
  })

  test('cannot be like a prep, or in a part that is closed', () => {
    const walked = day('prep\n  foam roll 3:00', 'run\n  2 km easy')
    expect(after(walked, added(walked, 'n1', '1.1.x1')).steps).toBe(walked.state.steps)
    const closed: SessionEvent = { type: 'partClosed', ...at(walked), part: 1, effort: null, minutes: null }
    expect(after(walked, closed, added(walked, 'n1', '2.1.p1')).steps).toBe(walked.state.steps)
  })
})

describe('a moved item', () => {
  const lines = 'lift\n  row: 2 x 5 @ 40 kg, rest 1:00\n  curl: 1 x 5 @ 20 kg\n  dip 1 x 5 @ bodyweight'
  const moved = (walked: Walked, item: [number, number], before: [number, number] | null): SessionEvent => ({
    ...{ type: 'itemMoved', ...at(walked), item, before },
  })
  const ids = (state: SessionState) => state.steps.map(({ id }) => id).join(' ')

  test('comes right before another, or last, and leaves what is done where it was', () => {
    const walked = day(lines)
    const last = after(walked, moved(walked, [0, 0], null))
    expect(ids(last)).toBe('1.2.s1 1.3.s1 1.1.s1 1.1.s2')
    expect(ids(after(walked, moved(walked, [0, 2], [0, 0])))).toBe('1.3.s1 1.1.s1 1.1.s2 1.2.s1')
    expect(ids(after(walked, moved(walked, [0, 1], [7, 7])))).toBe('1.1.s1 1.1.s2 1.3.s1 1.2.s1')
    const twice = after(walked, moved(walked, [0, 0], null), moved(walked, [0, 1], null))
    expect(twice.changes).toEqual([
      { kind: 'moved', part: 0, item: 0 },
      { kind: 'moved', part: 0, item: 1 },
    ])
    const begun = day(lines).effort(20)
    expect(ids(after(begun, moved(begun, [0, 0], null)))).toBe('1.1.s1 1.2.s1 1.3.s1 1.1.s2')
    expect(ids(after(begun, moved(begun, [0, 2], [0, 0])))).toBe('1.1.s1 1.3.s1 1.1.s2 1.2.s1')
  })

  test('turns a rest into the time between two items only if the rest led to it', () => {
    const walked = day(lines).effort(20).wait(10)
    const { since } = walked.phase
    expect(after(walked, moved(walked, [0, 0], null)).phase).toEqual({
      kind: 'ready',
      since,
    })
    expect(after(walked, moved(walked, [0, 1], null)).phase).toEqual(walked.phase)
    const round = day(
      'lift\n  dip 2 x 5 @ bodyweight + row 2 x 5 @ 40 kg, pause 0:20, rest 1:00\n  curl: 1 x 5 @ 20 kg',
    )
    round.effort(20).wait(5)
    expect(round.phase.kind).toBe('roundPause')
    expect(after(round, moved(round, [0, 1], [0, 0])).phase.kind).toBe('ready')
  })
})
