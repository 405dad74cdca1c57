import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { keyRows } from '../../src/recorder/keys.ts'
import { type Moment, whenOf } from '../../src/session/clock.ts'
import { SessionEvent } from '../../src/session/model.ts'
import { promptedStep } from '../../src/session/prompt.ts'
import { replay, undoOf } from '../../src/session/replay.ts'
import { summarise } from '../../src/summary/summarise.ts'
import { comparable, plainContext, thursdayMorning, type Walked, walkThrough } from '../day.ts'
import fc, { times } from '../fastCheck.ts'
import { smallDay } from './smallDay.ts'

/* Any keys and text at any time. fast-check prints the seed and the shrunk run of a failure. */

type Act =
  /** `free`: starts from the recorder itself, whatever was open before; else continues where the last act ended. */
  | { do: 'letter'; value: string; free: boolean }
  | { do: 'key'; value: 'enter' | 'escape' | 'up' | 'down' | 'right' | 'pageDown' }
  /** A line and Enter, or only the text left in the field. */
  | { do: 'line' | 'type'; value: string }
  | { do: 'wait' | 'jump' | 'restart' | 'reboot'; value: number }
  | { do: 'clockSet'; value: number }
  /** Keys that belong together, starting from the recorder itself. */
  | { do: 'keys'; value: 'close' | 'cut' | 'move' | 'begin now' | 'skip the item' | 'reopen' }

const letters = [...keyRows.map((row) => row.key).filter((key) => key.length === 1), ' ', '!', 'z']
const entries = [
  ...'5|6 x 100|@8|6 @9.5|4!|0!|2+1|1+1+1|3|45 s|40 m|bw|12 x bw|6@100|-|=|25|7'.split('|'),
  ...'6:07|1:49.2 hr 171/179|6:07 6:05 6:04|6:07 12:12 18:16|2.9 km in 14:30|0.8 km|6.07'.split('|'),
  ...'"windy"|pain "left knee"|carbs 70 g|done|row|with: flats|day: slept|é́ 力|  '.split('|'),
]
const quarter = (most: number) => fc.integer({ min: 0, max: most * 4 }).map((value) => value / 4)
const gap = fc.oneof({ weight: 3, arbitrary: quarter(30) }, quarter(300), quarter(20_000))
const acts = (more: fc.Arbitrary<Act>[]) =>
  fc.array(
    fc.oneof(
      { weight: 6, arbitrary: fc.constant<Act>({ do: 'letter', value: ' ', free: true }) },
      { weight: 4, arbitrary: fc.constant<Act>({ do: 'key', value: 'enter' }) },
      {
        weight: 8,
        arbitrary: fc.record({
          do: fc.constant('letter' as const),
          value: fc.constantFrom(...letters),
          free: fc.integer({ min: 0, max: 3 }).map((side) => side > 0),
        }),
      },
      {
        weight: 4,
        arbitrary: fc.record({
          do: fc.constant('key' as const),
          value: fc.constantFrom('enter' as const, 'escape', 'up', 'down', 'right', 'pageDown'),
        }),
      },
      {
        weight: 6,
        arbitrary: fc.record({ do: fc.constant('line' as const), value: fc.constantFrom(...entries) }),
      },
      fc.record({ do: fc.constant('type' as const), value: fc.constantFrom(...entries) }),
      {
        weight: 2,
        arbitrary: fc.record({
          do: fc.constant('keys' as const),
          value: fc.constantFrom('close' as const, 'cut', 'move', 'begin now', 'skip the item', 'reopen'),
        }),
      },
      { weight: 4, arbitrary: fc.record({ do: fc.constant('wait' as const), value: quarter(40) }) },
      { weight: 3, arbitrary: fc.record({ do: fc.constant('jump' as const), value: gap }) },
      fc.record({ do: fc.constant('restart' as const), value: gap }),
      ...more,
    ),
    // Short sequences of keys would never reach a rest.
    { minLength: 5, maxLength: 60, size: 'max' },
  )
const reboot: fc.Arbitrary<Act> = fc.record({ do: fc.constant('reboot' as const), value: gap })
const clockSet: fc.Arbitrary<Act> = fc.record({
  do: fc.constant('clockSet' as const),
  value: fc.constantFrom(-3600, 3600, -86_400),
})

function freed(walked: Walked): void {
  for (
    let press = 0;
    press < 4 && (walked.model.draft !== '' || walked.model.mode.kind !== 'recording');
    press++
  )
    walked.key('escape')
}

function together(walked: Walked, keys: (Act & { do: 'keys' })['value']): void {
  freed(walked)
  switch (keys) {
    case 'close':
      walked.typed('f').entry('5').entry('20')
      return
    case 'cut':
      walked.typed('t').entry('4').enter()
      return
    case 'move':
      walked.typed('o').enter().key('down').enter()
      return
    case 'begin now':
      walked.typed('o').key('down').typed('b')
      return
    case 'skip the item':
      walked.typed('s').typed('s')
      return
    case 'reopen':
      if (walked.state.finished) walked.reopen()
  }
}

let boots = 0
function doIt(walked: Walked, act: Act): void {
  switch (act.do) {
    case 'letter':
      if (act.free) freed(walked)
      walked.typed(walked.model.draft + act.value)
      return
    case 'line':
      walked.entry(act.value)
      return
    case 'key':
      walked.key(act.value)
      return
    case 'type':
      walked.typed(walked.model.draft === '' ? act.value : `${walked.model.draft}${act.value}`)
      return
    case 'keys':
      together(walked, act.value)
      return
    case 'wait':
      walked.wait(act.value)
      return
    case 'jump':
      walked.jump(act.value)
      return
    case 'restart':
      walked.restart(act.value)
      return
    case 'reboot':
      boots += 1
      walked.restart(act.value, `boot ${boots}`)
      return
    case 'clockSet':
      walked.at({ ...walked.now, wall: walked.now.wall + act.value * 1000 })
  }
}

function stored(walked: Walked, events: readonly SessionEvent[] = walked.events) {
  return comparable(
    replay({ prescription: walked.prescription, events: [...events] }, walked.context.warmUpOf),
  )
}

function check(walked: Walked, before: number): void {
  const { state } = walked
  for (const event of walked.events.slice(before)) expect(SessionEvent.parse(event)).toEqual(event)
  expect(walked.clock.text).toMatch(/^(\+?(\d+:)?\d{1,2}:\d\d|over)$/)
  walked.view
  const asked = promptedStep(state)
  if (asked) {
    expect(state.recorded.has(asked.id)).toBe(false)
    expect(state.skipped.has(asked.id)).toBe(false)
  }
  const { phase } = state
  if (phase.kind === 'rest' || phase.kind === 'roundPause') expect(state.passed.has(phase.next)).toBe(false)
  if (phase.kind === 'effort' || phase.kind === 'pause' || phase.kind === 'recovery')
    expect(state.passed.has(phase.step)).toBe(false)
  for (const { seconds, rest, pauses } of state.measured.values())
    for (const value of [seconds, rest, ...pauses]) expect(value ?? 0).toBeGreaterThanOrEqual(0)
}

/** Undoing the last action restores the state before it. */
function checkUndo(walked: Walked): void {
  const back = undoOf(walked.events)
  if (!back) return
  const undone: SessionEvent = { type: 'undone', ...whenOf(walked.now), from: back.from }
  const { boot: _, ...after } = stored(walked, [...walked.events, undone])
  const { boot: __, ...before } = stored(walked, walked.events.slice(0, back.from))
  expect(after).toEqual(before)
}

const runs = times(12)

describe('any keys, at any times, over any day', () => {
  test('never throw, keep the clock at zero or above and leave events that reproduce the state', () => {
    fc.assert(
      fc.property(smallDay, acts([reboot, clockSet]), (day, list) => {
        const walked = walkThrough(day)
        let events: readonly SessionEvent[] = []
        let again = stored(walked)
        for (const act of list) {
          const before = walked.events.length
          doIt(walked, act)
          check(walked, before)
          if (walked.events !== events) again = stored(walked)
          events = walked.events
          expect(again).toEqual(comparable(walked.state))
        }
      }),
      runs,
    )
  })

  test('can be undone, the last one first, without a trace', () => {
    fc.assert(
      fc.property(smallDay, acts([reboot]), (day, list) => {
        const walked = walkThrough(day)
        for (const act of list) {
          const before = walked.events
          doIt(walked, act)
          if (walked.events !== before) checkUndo(walked)
        }
      }),
      runs,
    )
  })

  test('show the same clock in a program that was restarted as in one that kept running', () => {
    fc.assert(
      fc.property(smallDay, acts([]), gap, (day, list, later) => {
        const walked = walkThrough(day)
        for (const act of list) {
          doIt(walked, act)
        }
        const events = [...walked.events]
        const { now } = walked
        const again = (moment: Partial<Moment>, boot?: string) => {
          const other = walkThrough(day)
          other.model = { ...other.model, events, now: { ...now, ...moment } }
          other.restart(later, boot)
          return other.shows
        }
        const sameClock = walked.jump(later).shows
        expect(again({})).toBe(sameClock)
        expect(again({}, 'another')).toBe(sameClock)
        expect(again({ wall: now.wall + 3_600_000 })).toBe(sameClock)
        expect(again({ wall: now.wall - 3_600_000 })).toBe(sameClock)
      }),
      runs,
    )
  })
})

test('the figures stay the same while the wall clock is set, or the laptop travels to another time zone', () => {
  const figuresOf = (walked: Walked) => {
    const context = { equation: 'median' as const, bodyMassKg: null, hrMax: null, race: null }
    const { session, parts, ...others } = summarise(walked.session(), context)
    const untimed = (times: object) => ({ ...times, startedAt: null, finishedAt: null })
    const shown = { session: untimed(session), parts: parts.map(untimed), ...others, clock: walked.shows }
    // Both clocks are kept to the millisecond.
    return JSON.stringify(shown, (_, value) => (typeof value === 'number' ? Number(value.toFixed(3)) : value))
  }
  const sets = fc.record({
    seconds: fc.constantFrom(0, 0, 7, -300, 3600, -86_400),
    offset: fc.constantFrom(60, 0, -540, 840),
  })
  fc.assert(
    fc.property(smallDay, acts([]), fc.array(sets, { minLength: 5 }), (day, list, changes) => {
      const [still, set] = [walkThrough(day), walkThrough(day)]
      for (const [index, act] of list.entries()) {
        // Undo takes what has one moment for the work of one key, and no clock is set within a key.
        for (const walked of [still, set]) walked.wait(0.001)
        doIt(still, act)
        const { seconds, offset } = changes[index % changes.length]!
        set.model = { ...set.model, now: { ...set.now, wall: set.now.wall + seconds * 1000, offset } }
        doIt(set, act)
      }
      expect(figuresOf(set)).toBe(figuresOf(still))
    }),
    runs,
  )
})

test('Space, Enter and what must be typed lead every sample day to its end', () => {
  const folder = new URL('../../sample-sessions/', import.meta.url)
  const days = readdirSync(folder).filter((name) => name.endsWith('.txt') && !name.endsWith('.results.txt'))
  expect(days.length).toBeGreaterThan(0)
  for (const name of days) {
    const walked = walkThrough(readFileSync(new URL(name, folder), 'utf8'), {
      context: plainContext,
      from: thursdayMorning,
    })
    for (let press = 0; press < 5000 && !walked.state.finished; press++) {
      walked.space().jump(20).enter()
      if (walked.model.mode.kind !== 'recording') walked.typed('!')
      if (walked.notice?.includes('type') && walked.view.pending !== '') walked.entry('-')
      if (walked.view.now.what === 'everything is done') walked.typed('f').enter().enter()
      walked.jump(200)
    }
    expect(walked.state.finished, name).toBe(true)
    for (const part of walked.state.partStates) expect(part.closed).toBe(true)
  }
})
