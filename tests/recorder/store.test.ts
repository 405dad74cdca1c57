import { describe, expect, test } from 'vitest'
import { createRecorderStore, type EffectHandlers } from '../../src/recorder/store.ts'
import { type Moment, momentAfter } from '../../src/session/clock.ts'
import type { SessionEvent } from '../../src/session/model.ts'
import { effectiveEvents } from '../../src/session/replay.ts'
import { pressOf, type Walked, walkThrough } from '../day.ts'

const straight = 'One\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n'

const cluster = 'One\n\nlift\n  squat: 3 x (2+2) @ 70 kg, pause 20 s, rest 2:30\n'

/** A recorder that records its effects. */
function living(walked: Walked) {
  const log: string[] = []
  const world = { now: walked.now as Moment, disk: true }
  const kept: SessionEvent[] = []
  const outside: EffectHandlers = {
    now: () => world.now,
    append: (events) => {
      kept.push(...events)
      return world.disk ? { ok: true } : { ok: false, reason: 'the disk is full' }
    },
    retry: () => {
      log.push('retry')
      return world.disk ? { ok: true } : { ok: false, reason: 'the disk is full' }
    },
    ring: (signal) => log.push(signal),
    leave: () => log.push('leave'),
  }
  const store = createRecorderStore(walked.model, outside)
  const pass = (seconds: number) => {
    world.now = momentAfter(world.now, seconds)
  }
  return { store, log, world, kept, pass }
}

describe('a running recorder', () => {
  test('saves every event before its listeners are told', () => {
    const { store, kept } = living(walkThrough(straight))
    const heard: number[] = []
    const stop = store.subscribe(() => heard.push(kept.length))
    store.typed(' ')
    expect(heard).toEqual([1])
    expect(kept).toEqual([expect.objectContaining({ type: 'effortBegun', step: '1.1.s1' })])
    stop()
    store.typed(' ')
    expect(heard).toHaveLength(1)
  })

  test('no longer tells a listener that an earlier one removed: the screen of a finished day is gone', () => {
    const { store } = living(walkThrough(straight))
    const heard: string[] = []
    store.subscribe(() => {
      heard.push('first')
      stop()
    })
    const stop = store.subscribe(() => heard.push('second'))
    store.typed(' ')
    expect(heard).toEqual(['first'])
  })

  test('rings, leaves and takes keys and pastes', () => {
    const { store, log, pass } = living(walkThrough(straight).effort(20))
    pass(149)
    store.tick()
    pass(1)
    store.tick()
    expect(log).toEqual(['short', 'long'])
    store.press({ kind: 'paste', text: '5\n@8\n' })
    expect(store.get().draft).toBe('5 @8')
    store.press({ kind: 'named', name: 'enter' })
    expect(store.get().state.recorded.size).toBe(1)
    store.typed('q')
    expect(log.at(-1)).toBe('leave')
  })

  test('needs a second press to leave with unsaved results, and says what would be lost', () => {
    const { store, log, world } = living(walkThrough(straight))
    world.disk = false
    store.typed(' ')
    store.typed('q')
    expect(store.get().notice).toBe('not saved: the disk is full; q again quits and tries to save elsewhere')
    expect(log).not.toContain('leave')
    store.typed('q')
    expect(log).toContain('leave')
  })

  test('drops that warning and the second press once everything is saved', () => {
    const { store, world } = living(walkThrough(straight))
    world.disk = false
    store.typed(' ')
    store.typed('q')
    store.tick()
    expect(store.get().notice).toBe('not saved: the disk is full; q again quits and tries to save elsewhere')
    world.disk = true
    store.tick()
    expect(store.get()).toMatchObject({ saved: { ok: true }, notice: null, pressedOnce: null })
  })

  test('takes a key repeated within an eighth of a second as held down, not pressed twice', () => {
    const { store, pass } = living(walkThrough(straight))
    const space = { kind: 'text', text: ' ' } as const
    store.press(space)
    const begun = store.get().events
    for (let press = 0; press < 30; press++) {
      pass(0.033)
      expect(store.press(space)).toBe(true)
      expect(store.get().events).toBe(begun)
    }
    pass(20)
    store.press(space)
    expect(store.get().events.at(-1)?.type).toBe('effortEnded')
    // Another key is never the held one.
    store.press({ kind: 'named', name: 'enter' })
    expect(store.get().events.at(-1)?.type).toBe('setRecorded')
  })

  test.each([
    ['a set', walkThrough(straight), ' ', ['effortBegun']],
    ['a pause', walkThrough(cluster).effort(4), ' ', ['groupBegun']],
    ['a result', walkThrough(straight).effort(20).space().wait(20).space(), 'enter', ['setRecorded']],
    [
      'a typed result',
      walkThrough(straight).effort(20).wait(20).effort(20).typed('5'),
      'enter',
      ['setRecorded'],
    ],
    ['a question', walkThrough(cluster), 'enter', []],
    ['one more', walkThrough(straight), 'a', ['stepAdded']],
    ['the effort of a part', walkThrough(straight).effort(20).enter().typed('f'), 'enter', []],
  ])(
    'takes a key held down as one press after the longer wait before its first repeat, too: %s',
    (_, walked, name, kept) => {
      const { store, pass } = living(walked)
      const before = store.get().events.length
      for (const seconds of [0, 0.5, 0.033, 0.033, 0.033]) {
        pass(seconds)
        store.press(pressOf(name))
      }
      const done = effectiveEvents(store.get().events).filter(({ index }) => index >= before)
      expect(done.map(({ event }) => event.type)).toEqual(kept)
    },
  )

  test('says what could not be saved, and retries with the clock until it succeeds', () => {
    const { store, log, world } = living(walkThrough(straight))
    world.disk = false
    store.typed(' ')
    expect(store.get().saved).toEqual({ ok: false, reason: 'the disk is full' })
    expect(store.wakeIn()).toBeLessThanOrEqual(2000)
    store.tick()
    expect(store.get().saved.ok).toBe(false)
    world.disk = true
    store.tick()
    expect(log).toEqual(['retry', 'retry'])
    expect(store.get().saved).toEqual({ ok: true })
  })
})

test('a failed save is tried again every 2 seconds while no clock runs', () => {
  const { store, world, pass } = living(walkThrough(straight))
  world.disk = false
  store.typed('5')
  store.press({ kind: 'named', name: 'enter' })
  pass(5)
  expect(store.wakeIn()).toBe(2000)
  world.disk = true
  store.tick()
  expect(store.wakeIn()).toBe(60_000)
})

describe('the next reading of the clock', () => {
  test('is a minute away while no clock runs, and at the clock’s next second while one does', () => {
    expect(living(walkThrough(straight)).store.wakeIn()).toBe(60_000)
    const { store, pass } = living(walkThrough(straight).space())
    expect(store.wakeIn()).toBe(1000)
    pass(0.25)
    expect(store.wakeIn()).toBe(750)
    pass(0.74)
    // Never too soon for drawing to keep up.
    expect(store.wakeIn()).toBe(20)
  })

  test('comes at an end that is not a whole second of the clock', () => {
    const every = walkThrough('One\n\nlift\n  clean: 2 x 2 @ 60 kg, every 1:30\n').space().jump(10.25).space()
    const { store, pass } = living(every)
    expect(every.phase).toMatchObject({ kind: 'rest', seconds: 79.75 })
    expect(store.wakeIn()).toBe(750)
    pass(79.5)
    expect(store.wakeIn()).toBe(250)
    pass(0.25)
    store.tick()
    expect(store.get().state.phase).toMatchObject({ kind: 'effort', step: '1.1.s2', auto: true })
  })

  test('removes the echo of a result in time', () => {
    const { store, pass } = living(walkThrough(straight).entry('5'))
    expect(store.wakeIn()).toBe(2500)
    pass(2.5)
    expect(store.wakeIn()).toBe(60_000)
  })

  test('follows a stopped clock, and stops in a finished session', () => {
    const held = walkThrough(straight).effort(20).wait(0.5).typed('h')
    expect(living(held).store.wakeIn()).toBe(1000)
    const finished = walkThrough(straight).effort(20).enter().typed('f').enter().enter().wait(5)
    expect(living(finished).store.wakeIn()).toBe(60_000)
  })
})
