import { afterEach, describe, expect, onTestFinished, test, vi } from 'vitest'
import { clockText } from '../../src/recorder/clockText.ts'
import type { RecorderStore } from '../../src/recorder/store.ts'
import * as view from '../../src/recorder/view.ts'
import { momentAfter } from '../../src/session/clock.ts'
import { Recorder } from '../../src/ui/screens/Recorder.tsx'
import { asciiFrame } from '../../src/ui/terminal/inkStreams.ts'
import { runScreens, type ScreenTerminal } from '../../src/ui/terminal/runScreens.tsx'
import { formatClock } from '../../src/units/duration.ts'
import { type Walked, walkThrough } from '../day.ts'
import fc from '../fastCheck.ts'
import { livingStore } from '../recorder/living.ts'
import { situations } from '../recorder/situations.ts'
import { createGlass, settled } from '../terminal/glass.ts'
import { drawn } from './frame.tsx'

/* The recorder as the program runs it, on a terminal in this process: how often it draws, and what it sends. */

const looks = {
  blocks: { isUnicode: true, isClockPlain: false },
  ascii: { isUnicode: false, isClockPlain: false },
  plain: { isUnicode: true, isClockPlain: true },
}
type Look = keyof typeof looks

let end: (() => Promise<void>) | null = null
afterEach(() => end?.())

async function onGlass(walked: Walked, columns = 80, rows = 24, look: Look = 'blocks', slow = 0) {
  let { now } = walked
  // Reading the time takes a while, as on a machine under load.
  const living = livingStore(walked, () => {
    now = momentAfter(now, slow)
    return now
  })
  // Seconds pass when the test says so.
  const store: RecorderStore = { ...living, wakeIn: () => 1e6 }
  const screen = <Recorder store={store} isClockPlain={looks[look].isClockPlain} />
  const glass = createGlass(columns, rows)
  let terminal: ScreenTerminal | null = null
  const start = (given: ScreenTerminal) => {
    terminal = given
    given.show(screen)
  }
  const run = runScreens(
    { isUnicode: looks[look].isUnicode, start, together: store.together, leave: () => {} },
    glass.streams,
  )
  end = async () => {
    end = null
    terminal?.exit()
    await run
  }
  await settled()
  return {
    store,
    glass,
    pass: (seconds: number) => {
      now = momentAfter(now, seconds)
      living.tick()
      return settled()
    },
    /** Fails if the screen differs from a screen drawn now. */
    expectFresh: async (width = columns, height = rows) => {
      const fresh = drawn(screen, width, height)
      const text = !looks[look].isUnicode ? asciiFrame(fresh.text()) : fresh.text()
      fresh.unmount()
      const cells = (await glass.cells()).map((line) => line.replace(/\{\d*b?i?\}/g, '').trimEnd())
      expect(cells.join('\n').trimEnd()).toBe(text.trimEnd())
    },
  }
}

const straight = 'One\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 10:05\n'
const inRest = () => walkThrough(straight).effort(20).enter().wait(3)

describe('a second that passes', () => {
  test('is sent in one write, with the lines of the clock and at most that of the minutes', async () => {
    const { glass, pass } = await onGlass(
      walkThrough(straight.replace('10:05', '5:05')).effort(20).enter().wait(3),
    )
    const before = glass.writes.length
    for (let second = 0; second < 10; second++) await pass(1)
    const sent = glass.writes.slice(before)
    expect(sent).toHaveLength(10)
    for (const update of sent) {
      expect(update.split('\x1b[K').length - 1).toBeLessThanOrEqual(12)
    }
  })

  test('does not draw the day again', async () => {
    const { pass, glass } = await onGlass(inRest(), 80, 18)
    const dayWindow = vi.spyOn(view, 'dayWindow')
    onTestFinished(() => dayWindow.mockRestore())
    for (let second = 0; second < 10; second++) await pass(1)
    expect(dayWindow).not.toHaveBeenCalled()
    await glass.type(' ')
    expect(dayWindow).toHaveBeenCalled()
  })

  test('sends nothing if nothing on the screen changes', async () => {
    const { glass, pass } = await onGlass(inRest())
    const before = glass.writes.length
    for (let time = 0; time < 4; time++) await pass(0.2)
    expect(glass.writes.slice(before)).toEqual([])
  })
})

describe('keys that arrive together', () => {
  test('are applied together, twenty of them, and drawn once', async () => {
    const { store, glass, expectFresh } = await onGlass(inRest())
    const before = glass.writes.length
    await glass.type('3 x 102.5 @8 "heels"')
    expect(store.get().draft).toBe('3 x 102.5 @8 "heels"')
    expect(glass.writes.slice(before)).toHaveLength(1)
    await expectFresh()
  })

  test('spell an entry word like letters one by one', async () => {
    const { store, glass } = await onGlass(inRest())
    await glass.type('failed at 4')
    expect(store.get()).toMatchObject({ draft: 'failed at 4', mode: { kind: 'recording' } })
    await glass.type('\x7f'.repeat(11))
    await glass.type('pain left knee 3')
    expect(store.get()).toMatchObject({ draft: 'pain left knee 3', mode: { kind: 'recording' } })
  })

  test('are applied in order, with keys without text between them', async () => {
    const { store, glass } = await onGlass(walkThrough(straight).effort(20))
    const before = glass.writes.length
    await glass.type('5 x 71\x7f2\x1b[D\x1b[D\x1b[C\x7f6\r')
    expect(store.get().draft).toBe('')
    expect([...store.get().state.recorded.values()]).toMatchObject([{ result: { load: { value: 62 } } }])
    expect(glass.writes.slice(before)).toHaveLength(1)
  })
})

test('a moving cursor does not change the time', async () => {
  const { store, glass, pass, expectFresh } = await onGlass(inRest())
  await glass.type('102')
  await pass(1)
  await glass.type('\x1b[D')
  await expectFresh()
  await pass(1)
  await glass.type('5')
  await expectFresh()
  expect(store.get().draft).toBe('1052')
})

describe('a held key', () => {
  test('is one press if it arrives many times at once, however slow the machine', async () => {
    const { store, glass } = await onGlass(walkThrough(straight), 80, 24, 'blocks', 0.5)
    await glass.type(' '.repeat(12))
    expect(store.get().state.phase.kind).toBe('effort')
  })

  test('is one press, however often it repeats', async () => {
    const { store, glass, pass } = await onGlass(walkThrough(straight))
    for (let repeat = 0; repeat < 12; repeat++) {
      await glass.type(' ')
      await pass(0.03)
    }
    expect(store.get().state.phase.kind).toBe('effort')
    await pass(0.13)
    await glass.type(' ')
    expect(store.get().state.phase.kind).toBe('rest')
  })
})

test('a resize in the middle of a pause keeps the clock, and the group begins when it is due', async () => {
  const cluster = 'Squat\nlift\n  squat: 2 x (1+1) @ 60 kg, pause 4 s, rest 1:00\n'
  const { store, glass, pass } = await onGlass(walkThrough(cluster).space().wait(3).space(), 100, 30)
  expect(store.get().state.phase.kind).toBe('pause')
  for (const [columns, rows] of [
    [40, 12],
    [200, 60],
    [39, 11],
    [61, 17],
    [100, 30],
  ] as const) {
    await glass.resize(columns, rows)
    await pass(0.75)
  }
  expect(store.get().state.phase.kind).toBe('pause')
  await pass(0.25)
  const shown = (await glass.cells()).join('\n')
  expect(shown).toContain('group 2 of 2')
  expect(shown.split('Squat')).toHaveLength(2)
})

test('late ticks, each late by another amount, neither drift nor become rarer', async () => {
  const walked = walkThrough('Squat\nlift\n  squat: 2 x 5 @ 60 kg\n').effort(20)
  const start = walked.now
  let now = start
  const store = livingStore(walked, () => now)
  for (let elapsed = 1; elapsed <= 900; elapsed++) {
    now = momentAfter(start, elapsed + ((elapsed * 7) % 10) / 11)
    store.tick()
    expect(store.wakeIn()).toBeLessThanOrEqual(1000)
    expect(clockText(store.get().state, store.get().now).text).toBe(formatClock(elapsed))
  }
})

test('another size of the window is drawn with the time of the last second', async () => {
  const { glass, pass, expectFresh } = await onGlass(inRest())
  await pass(1)
  for (const [columns, rows] of [
    [40, 12],
    [200, 60],
    [61, 17],
    [80, 24],
  ] as const) {
    await glass.resize(columns, rows)
    await expectFresh(columns, rows)
    await pass(1)
    await expectFresh(columns, rows)
  }
})

test('whatever is pressed and however time passes, the screen shows what would be drawn', async () => {
  const keys = fc.constantFrom('\r', '\x1b[A', '\x1b[B', '\x1b[D', '\x7f', ...' hufos+?n5@8"')
  const seconds = fc.oneof(
    fc.constant(1),
    fc.integer({ min: 1, max: 200 }).map((tenths) => tenths / 4),
  )
  const step = fc.oneof(
    { weight: 3, arbitrary: seconds },
    { weight: 2, arbitrary: fc.array(keys, { minLength: 1, maxLength: 4 }).map((all) => all.join('')) },
  )
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom(...Object.keys(situations)),
      fc.constantFrom([80, 24], [40, 12], [61, 17]),
      fc.constantFrom(...(Object.keys(looks) as Look[])),
      fc.array(step, { maxLength: 12 }),
      async (name, [columns, rows], look, steps) => {
        const screen = await onGlass((situations[name] as () => Walked)(), columns, rows, look)
        try {
          for (const each of steps) {
            if (typeof each === 'number') await screen.pass(each)
            else await screen.glass.type(each)
            await screen.expectFresh()
          }
        } finally {
          await end?.()
        }
      },
    ),
    { numRuns: 8, seed: 20261127 },
  )
})
