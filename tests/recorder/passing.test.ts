import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { isSameButTime, passingOver } from '../../src/recorder/passing.ts'
import { type RecorderView, viewOf } from '../../src/recorder/view.ts'
import { momentAfter } from '../../src/session/clock.ts'
import { plainContext, type Walked, walkThrough } from '../day.ts'
import { livingStore } from './living.ts'
import { situations } from './situations.ts'

const straight = 'One\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n'

/** A recorder, and a screen that shows what it was told of: all at once, or the clock alone. */
function watched(walked: Walked) {
  let { now } = walked
  const store = livingStore(walked, () => now)
  const whole = () => viewOf(store.get(), store.context)
  const screen = { view: whole() as RecorderView, drawn: 0, painted: 0, canPaint: true }
  store.subscribe(() => {
    screen.view = whole()
    screen.drawn++
  })
  const stop = store.onClock((text) => {
    if (!screen.canPaint) return false
    screen.view = { ...screen.view, clock: { ...screen.view.clock, text } }
    screen.painted++
    return true
  })
  const pass = (seconds: number) => {
    now = momentAfter(now, seconds)
    store.tick()
  }
  return { store, screen, whole, pass, stop }
}

/** A rest in which the echo of the result is gone. */
const inRest = () => watched(walkThrough(straight).effort(20).enter().wait(10))

describe('a second by which only the clock goes on', () => {
  test('is painted, and nobody else hears of it', () => {
    const { screen, whole, pass } = inRest()
    for (let second = 0; second < 10; second++) pass(1)
    expect(screen).toMatchObject({ painted: 10, drawn: 0 })
    expect(screen.view.clock.text).toBe('2:10')
    expect(screen.view).toEqual(whole())
  })

  test('is not even painted when the clock shows the same', () => {
    const { screen, pass } = inRest()
    for (let time = 0; time < 4; time++) pass(0.2)
    expect(screen).toMatchObject({ painted: 0, drawn: 0 })
  })

  test('is drawn when it cannot be painted, or nobody paints', () => {
    const { screen, pass, stop } = inRest()
    screen.canPaint = false
    pass(1)
    stop()
    pass(1)
    expect(screen).toMatchObject({ painted: 0, drawn: 2 })
  })

  test('is drawn in a question, which says the time in a place of its own', () => {
    const { store, screen, whole, pass } = inRest()
    store.typed('u')
    expect(store.get().mode.kind).toBe('undoing')
    const { drawn } = screen
    pass(1)
    expect(screen).toMatchObject({ painted: 0, drawn: drawn + 1 })
    expect(screen.view).toEqual(whole())
  })
})

describe('what the clock takes with it is drawn', () => {
  test.each<[string, () => Walked, number, (view: RecorderView) => unknown]>([
    ['the minutes since the beginning', () => walkThrough(straight).space(), 60, (view) => view.head.minutes],
    ['the echo', () => walkThrough(straight).effort(20).enter(), 2.5, (view) => view.echo],
    ['the word go', () => walkThrough(straight).effort(20).enter().wait(150), 1.5, (view) => view.go],
    [
      'the end of a rest',
      () => walkThrough(straight).effort(20).enter().wait(148),
      2,
      (view) => view.clock.over,
    ],
    [
      'what stands beside the clock',
      () => walkThrough('Jog\nrun\n  20 min easy\n').space().wait(1199),
      1,
      (view) => view.clock.beside,
    ],
    ['the advice', () => walkThrough(straight).effort(20).enter().wait(700), 60, (view) => view.line],
  ])('%s', (_, begin, seconds, part) => {
    const { screen, whole, pass } = watched(begin())
    const before = part(screen.view)
    pass(seconds)
    expect(screen.drawn).toBe(1)
    expect(screen.view).toEqual(whole())
    expect(part(screen.view)).not.toEqual(before)
  })
})

test('two moments that differ in anything but the time on the clock are not the same', () => {
  const { model } = walkThrough(straight).effort(20)
  const one = passingOver(model, plainContext)(model.now)
  expect(isSameButTime(one, { ...one, clock: { ...one.clock, text: '9:59' } })).toBe(true)
  for (const other of [
    { minutes: '99 of 99 min' },
    { go: !one.go },
    { echo: '5 x 70' },
    { line: 'something else' },
    { clock: { ...one.clock, label: 'jog' } },
    { clock: { ...one.clock, over: !one.clock.over } },
    { clock: { ...one.clock, beside: 'of 0:30' } },
  ])
    expect(isSameButTime(one, { ...one, ...other })).toBe(false)
})

test('whatever is pressed and however time passes, the screen shows what there is', () => {
  const key = fc.constantFrom(...' hufos+?nq5@8"-'.split(''), '8 @9', '1:52', 'enter', 'escape', 'up', 'down')
  const seconds = fc.oneof(
    fc.constant(1),
    fc.integer({ min: 1, max: 400 }).map((tenths) => tenths / 4),
  )
  const step = fc.oneof({ weight: 3, arbitrary: seconds }, { weight: 1, arbitrary: key })
  const names = Object.keys(situations)
  let painted = 0
  fc.assert(
    fc.property(
      fc.constantFrom(...names),
      fc.array(fc.tuple(step, fc.integer({ min: 0, max: 7 })), { maxLength: 60 }),
      (name, steps) => {
        const { store, screen, whole, pass } = watched((situations[name] as () => Walked)())
        for (const [what, chance] of steps) {
          screen.canPaint = chance > 0
          if (typeof what === 'number') pass(what)
          else if (what === 'enter' || what === 'escape' || what === 'up' || what === 'down') store.key(what)
          else store.typed(what)
          expect(screen.view).toEqual(whole())
        }
        painted += screen.painted
      },
    ),
    { numRuns: 200 },
  )
  expect(painted).toBeGreaterThan(50)
})
