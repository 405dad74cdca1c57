import { afterEach, describe, expect, test } from 'vitest'
import { Recorder } from '../../src/ui/screens/Recorder.tsx'
import { asciiFrame } from '../../src/ui/terminal/inkStreams.ts'
import { type Walked, walkThrough } from '../day.ts'
import { livingStore } from '../recorder/living.ts'
import { type Drawn, drawn } from './frame.tsx'
import { lightOfLines } from './light.ts'

/* As seen from three metres, in grey: in whole frames, the share of the clock's area that is lit distinguishes work, a
 * rest and a rest that is over. */

let open: Drawn | null = null
afterEach(() => {
  open?.unmount()
  open = null
})

/** The share of the clock's area that is lit: the lines between the head and the entry. */
function shareOf(walked: Walked, columns: number, rows: number, ascii: boolean): number {
  const store = livingStore(walked, () => walked.now)
  const screen = <Recorder store={store} />
  if (open === null) open = drawn(screen, columns, rows)
  else open.again(screen)
  const lines = (ascii ? asciiFrame(open.text()) : open.text()).split('\n')
  const area = lines.slice(1, rows - (rows > 18 ? 5 : 4))
  return lightOfLines(area) / (columns * area.length)
}

const sizes = [
  [40, 12],
  [60, 20],
  [80, 24],
  [120, 40],
  [200, 60],
] as const

const days = {
  lift: 'Day\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n',
  clusters: 'Day\n\nlift\n  front squat: 3 x (1+1+1) @ 92.5 kg, pause 20 s, rest 2:30\n',
  track: 'Day\n\nrun\n  3 x 500 m in 1:45-1:50, jog 1:30\n',
}

describe.each(sizes)('at %i x %i', (columns, rows) => {
  describe.each(Object.keys(days) as (keyof typeof days)[])('on a day of %s', (name) => {
    // ASCII differs in its characters, not in its sizes.
    test.each([40, 80].includes(columns) ? [false, true] : [false])(
      'work is brighter than a rest and than the clock before it, and over than work (ASCII: %s)',
      (ascii) => {
        const walked = walkThrough(days[name])
        const share = () => shareOf(walked, columns, rows, ascii)
        const before = share()
        walked.space().wait(8)
        const work = share()
        expect(work / before, `work ${work}, before it ${before}`).toBeGreaterThanOrEqual(1.5)
        if (name === 'clusters') walked.space().wait(20).wait(4).space().wait(20).wait(4).space()
        else walked.wait(name === 'track' ? 99 : 12).space()
        walked.wait(3).enter().wait(4)
        let passed = 0
        const after = (seconds: number) => {
          walked.wait(seconds - passed)
          passed = seconds
          return share()
        }
        for (const left of [10, 60]) {
          const rest = after(left)
          expect(work / rest, `work ${work}, rest ${rest} after ${left} s`).toBeGreaterThanOrEqual(1.5)
        }
        if (name === 'track') return
        for (const past of [5, 60, 140]) {
          const over = after(150 + past)
          expect(over / work, `over ${over} by ${past} s, work ${work}`).toBeGreaterThanOrEqual(1.5)
        }
      },
    )
  })
})
