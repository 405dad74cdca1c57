import fc from 'fast-check'
import { render } from 'ink'
import { describe, expect, test } from 'vitest'
import type { RecorderStore } from '../../src/recorder/store.ts'
import { Recorder } from '../../src/screens/Recorder.tsx'
import { momentAfter } from '../../src/session/clock.ts'
import { asciiFrame } from '../../src/terminal/asciiFrame.ts'
import { InkInput, inkBytesOf } from '../../src/terminal/inkStreams.ts'
import type { Key } from '../../src/widgets/key.ts'
import { createKeyFeed } from '../../src/widgets/keyFeed.ts'
import { PaintContext } from '../../src/widgets/paint.ts'
import { KeyFeedContext } from '../../src/widgets/useKeys.ts'
import { type Walked, walkThrough } from '../day.ts'
import { livingStore } from '../recorder/living.ts'
import { situations } from '../recorder/situations.ts'
import { createGlass } from '../terminal/glass.ts'
import { drawn } from './frame.tsx'

/* The recorder on a terminal's glass, where the clock is painted past Ink, against the whole screen drawn anew. */

const looks = {
  blocks: { ascii: false, plainClock: false },
  ascii: { ascii: true, plainClock: false },
  plain: { ascii: false, plainClock: true },
}
type Look = keyof typeof looks

const sizes: [number, number][] = [
  [80, 24],
  [40, 12],
  [200, 60],
  [61, 17],
]

/** What React began has to be ended before the glass is looked at. */
const turn = () => new Promise((done) => setImmediate(done))

async function onGlass(walked: Walked, columns: number, rows: number, look: Look) {
  let { now } = walked
  const living = livingStore(walked, () => now)
  // Seconds pass when the test says so.
  const store: RecorderStore = { ...living, wakeIn: () => 1e6 }
  const glass = createGlass(columns, rows)
  if (looks[look].ascii) glass.output.keepToAscii()
  const input = new InkInput()
  const feed = createKeyFeed()
  const tree = (
    <KeyFeedContext value={feed}>
      <PaintContext value={(patch) => glass.output.paint(patch)}>
        <Recorder store={store} look={looks[look]} />
      </PaintContext>
    </KeyFeedContext>
  )
  const app = render(tree, {
    stdin: input as unknown as NodeJS.ReadStream,
    stdout: glass.output as unknown as NodeJS.WriteStream,
    debug: true,
    exitOnCtrlC: false,
    patchConsole: false,
  })
  glass.output.open()
  await turn()
  return {
    store,
    unmount: app.unmount,
    sent: glass.sent,
    pass: async (seconds: number) => {
      now = momentAfter(now, seconds)
      living.tick()
      await turn()
      await turn()
    },
    press: async (key: Key) => {
      if (!feed.press(key)) input.give(inkBytesOf(key))
      for (let times = 0; times < 2; times++) {
        app.rerender(tree)
        glass.output.draw()
      }
      await turn()
    },
    resize: async (width: number, height: number) => {
      glass.resize(width, height)
      glass.output.resized()
      await turn()
      await turn()
    },
    /** Fails where the glass does not show what a screen shows that is drawn now. */
    expectFresh: async (width = columns, height = rows) => {
      const fresh = drawn(<Recorder store={store} look={looks[look]} />, width, height)
      const text = looks[look].ascii ? asciiFrame(fresh.text()) : fresh.text()
      fresh.unmount()
      const cells = (await glass.cells()).map((line) => line.replace(/\{\d*b?i?\}/g, '').trimEnd())
      expect(cells.join('\n').trimEnd()).toBe(text.trimEnd())
    },
  }
}

const text = (each: string): Key => ({ kind: 'text', text: each })
const straight = 'One\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 10:05\n'
const inRest = () => walkThrough(straight).effort(20).enter().wait(3)

describe.each(sizes)('at %i x %i', (columns, rows) => {
  test.each(Object.keys(looks) as Look[])(
    'a rest is painted second for second, as it would be drawn: %s',
    async (look) => {
      const screen = await onGlass(inRest(), columns, rows, look)
      let painted = 0
      for (let second = 0; second < 16; second++) {
        const before = screen.sent().length
        await screen.pass(1)
        if (!screen.sent().slice(before).includes('\x1b[K')) painted++
        await screen.expectFresh()
      }
      screen.unmount()
      // Not from ten minutes to nine, and not when the minutes of the day or the advice change.
      expect(painted).toBeGreaterThan(12)
    },
  )

  test('past the end, a hold, and an effort that counts up', async () => {
    const screen = await onGlass(walkThrough(straight).effort(20).enter().wait(600), columns, rows, 'blocks')
    const passed = async (seconds: number) => {
      for (let second = 0; second < seconds; second++) {
        await screen.pass(1)
        await screen.expectFresh()
      }
    }
    await passed(9)
    expect(screen.store.get().state.phase.kind).toBe('rest')
    await screen.press(text('h'))
    await passed(3)
    await screen.press(text('h'))
    await passed(3)
    await screen.press(text(' '))
    await passed(12)
    screen.unmount()
  })
})

test('a cursor that moves leaves the painted time as it is', async () => {
  const screen = await onGlass(inRest(), 80, 24, 'blocks')
  for (const each of '102') await screen.press(text(each))
  await screen.pass(1)
  await screen.press({ kind: 'named', name: 'left' })
  await screen.expectFresh()
  await screen.pass(1)
  await screen.press(text('5'))
  await screen.expectFresh()
  expect(screen.store.get().draft).toBe('1052')
  screen.unmount()
})

test('another size of the window is drawn with the time of the last second', async () => {
  const screen = await onGlass(inRest(), 80, 24, 'blocks')
  await screen.pass(1)
  for (const [columns, rows] of [...sizes, [80, 24]] as [number, number][]) {
    await screen.resize(columns, rows)
    await screen.expectFresh(columns, rows)
    await screen.pass(1)
    await screen.expectFresh(columns, rows)
  }
  screen.unmount()
})

test('whatever is pressed and however time passes, the glass shows what would be drawn', async () => {
  const named = fc
    .constantFrom('enter', 'escape', 'up', 'down', 'left', 'backspace')
    .map((name) => ({ kind: 'named', name }) as Key)
  const typed = fc.constantFrom(...' hufos+?n5@8"').map(text)
  const seconds = fc.oneof(
    fc.constant(1),
    fc.integer({ min: 1, max: 200 }).map((tenths) => tenths / 4),
  )
  const step = fc.oneof(
    { weight: 4, arbitrary: seconds },
    { weight: 1, arbitrary: named },
    { weight: 1, arbitrary: typed },
  )
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom(...Object.keys(situations)),
      fc.constantFrom(...sizes),
      fc.constantFrom(...(Object.keys(looks) as Look[])),
      fc.array(step, { maxLength: 25 }),
      async (name, [columns, rows], look, steps) => {
        const screen = await onGlass((situations[name] as () => Walked)(), columns, rows, look)
        try {
          for (const each of steps) {
            if (typeof each === 'number') await screen.pass(each)
            else await screen.press(each)
            await screen.expectFresh()
          }
        } finally {
          screen.unmount()
        }
      },
    ),
    { numRuns: 15 },
  )
}, 60_000)
