import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import { expect, test } from 'vitest'
import { viewOf } from '../../src/recorder/view.ts'
import { momentAfter } from '../../src/session/clock.ts'
import { Recorder } from '../../src/ui/screens/Recorder.tsx'
import { formatClock } from '../../src/units/duration.ts'
import { walkThrough } from '../day.ts'
import { livingStore } from '../recorder/living.ts'
import { drawn } from './frame.tsx'

setFlagsFromString('--expose-gc')
const collect = runInNewContext('gc') as () => void

/** React's development build, which tests run on, leaves a performance entry a rendering; the built program does
 * not. */
function heap(): number {
  performance.clearMeasures()
  performance.clearMarks()
  collect()
  collect()
  return process.memoryUsage().heapUsed
}

/* `npm run soak`: reads the heap, so it is no part of `npm test`. */

test('an hour of a ticking clock does not drift, nor grow by more than a tenth from its tenth minute on', () => {
  const walked = walkThrough('Squat\nlift\n  squat: 2 x 5 @ 60 kg\n').effort(20)
  const start = walked.now
  let now = start
  const store = livingStore(walked, () => now)
  const screen = drawn(<Recorder store={store} />, 80, 24)
  const second = (elapsed: number) => {
    // A machine under load: ticks come late, each by another amount.
    now = momentAfter(start, elapsed + ((elapsed * 7) % 10) / 11)
    store.tick()
    screen.again()
  }
  for (let elapsed = 1; elapsed <= 600; elapsed++) second(elapsed)
  const before = heap()
  for (let elapsed = 601; elapsed <= 3600; elapsed++) {
    second(elapsed)
    if (elapsed % 100 === 0) expect(viewOf(store.get()).clock.text).toBe(formatClock(elapsed))
    expect(store.wakeIn()).toBeLessThanOrEqual(1000)
  }
  const after = heap()
  screen.unmount()
  // Ink keeps the width of every text that it has drawn, some hundred bytes for a new time on the clock.
  expect(after / before).toBeLessThan(1.1)
})
