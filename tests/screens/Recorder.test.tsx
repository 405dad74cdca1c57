import { readFileSync } from 'node:fs'
import { describe, expect, onTestFinished, test } from 'vitest'
import type { RecorderStore } from '../../src/recorder/store.ts'
import { clockLines } from '../../src/ui/screens/NowPanel.tsx'
import { Recorder } from '../../src/ui/screens/Recorder.tsx'
import { asciiFrame } from '../../src/ui/terminal/inkStreams.ts'
import { bigTextOf } from '../../src/ui/widgets/bigText.ts'
import { type Walked, walkThrough } from '../day.ts'
import { drawn } from './frame.tsx'

/* Golden frames: the screen at the moments that matter, at three sizes. After an intended change, rewrite a frame
 * with `npx vitest run -c tests/vitest.config.ts tests/screens -u`. */

const thursday = readFileSync('sample-sessions/track-and-cluster.txt', 'utf8')
const sizes = [
  [80, 24],
  [40, 12],
  [200, 60],
] as const

/** The recorder of a day on a screen; keys go to that day. */
function storeOf(walked: Walked): RecorderStore {
  return {
    get: () => walked.model,
    subscribe: () => () => {},
    typed: (value) => void walked.typed(value),
    press: (press) => walked.press(press),
    together: (apply) => apply(),
    tick: () => {},
    wakeIn: () => 60_000,
  }
}

const recorderOf = (walked: Walked, isClockPlain = false) => (
  <Recorder store={storeOf(walked)} isClockPlain={isClockPlain} />
)

function frameOf(walked: Walked, columns: number, rows: number, isClockPlain = false): string {
  const screen = drawn(recorderOf(walked, isClockPlain), columns, rows)
  const frame = screen.text()
  screen.unmount()
  return frame
}

const lastTime: Walked['context']['lastTime'] = (key) =>
  'exercise' in key ? '12 Nov: (1+1+1) x 90 @8 8 8.5 9 9' : '12 Nov: 1:51.2 1:50.4 1:50.9 1:51.5 1:50 1:48.8'

/** The run parts are done, the squat's second cluster set is in its second group. */
function inGroup(): Walked {
  const walked = walkThrough(thursday, { context: { lastTime } })
  walked.enter().enter().enter().entry('9:58').entry('4:09 4:08 4:07.2 4:06 4:05').enter()
  walked.entry('1:50.1 1:49.4 1:49.2 1:48.5 1:48.9 1:46.8').enter().entry('10:20')
  walked.typed('f').entry('8').entry('62')
  for (let warmUp = 0; warmUp < 4; warmUp++) walked.effort(20).wait(warmUp < 3 ? 60 : 90)
  for (const _ of [1, 2]) walked.effort(3).wait(21)
  return walked.effort(3).entry('@8').wait(150).effort(3).wait(8)
}

function inJog(): Walked {
  const walked = walkThrough(thursday, { context: { lastTime } })
  walked.enter().enter().enter().entry('9:58').entry('4:09 4:08 4:07.2 4:06 4:05').enter()
  walked.space().wait(250)
  return walked.effort(109.4).entry('1:49.4').wait(60).effort(110.2).wait(31)
}

function inEntry(): Walked {
  const walked = inGroup()
  walked.wait(20).effort(3).wait(21).effort(3).wait(40)
  return walked.typed('1+1+0 x 90 @9 "left heel')
}

const moments = { group: inGroup, jog: inJog, entry: inEntry, start: () => walkThrough(thursday) }

describe.each(sizes)('at %i x %i', (columns, rows) => {
  test.each(Object.keys(moments) as (keyof typeof moments)[])('the recorder at the %s', async (moment) => {
    const frame = frameOf(moments[moment](), columns, rows)
    expect(frame.split('\n').length).toBeLessThan(rows)
    for (const line of frame.split('\n')) expect([...line].length).toBeLessThanOrEqual(columns)
    await expect(frame).toMatchFileSnapshot(`golden/recorder-${moment}-${columns}x${rows}.txt`)
  })

  test('the page of keys, the order of the day, and the closing of a part', async () => {
    const walked = inJog()
    for (const [key, name] of [
      ['?', 'keys'],
      ['o', 'order'],
      ['f', 'closing'],
    ] as const) {
      const frame = frameOf(walked.typed(key), columns, rows)
      expect(frame.split('\n').length).toBeLessThan(rows)
      await expect(frame).toMatchFileSnapshot(`golden/recorder-${name}-${columns}x${rows}.txt`)
      walked.key('escape')
    }
  })
})

describe('the recorder on its screen', () => {
  test('ends the names for a swap with dots where there are more', () => {
    const lift = 'Legs\n\nlift\n  front squat 3 x 5 @ 60 kg\n'
    const exercises = () => Array.from({ length: 30 }, (_, index) => `press ${index + 1}`)
    const frame = frameOf(walkThrough(lift, { context: { exercises } }).typed('x'), 40, 12)
    expect(frame).toMatch(/front squat;[\s\S]+press \d+;? …$/m)
    expect(frameOf(walkThrough(lift).typed('x'), 40, 12)).not.toMatch(/ …$/m)
  })

  test('echoes what was skipped as such, and what was recorded as that', () => {
    const lift = 'Legs\n\nlift\n  front squat 3 x 5 @ 60 kg\n'
    expect(frameOf(walkThrough(lift).entry('-'), 80, 24)).toMatch(/ {2}skipped$/m)
    expect(frameOf(walkThrough(lift).entry('5'), 80, 24)).toMatch(/ {2}recorded 5 x 60$/m)
  })

  test('scrolls a list that is longer than its room, and a question whose title is', () => {
    const opened = (walked: Walked) => {
      const screen = drawn(recorderOf(walked), 40, 12)
      onTestFinished(() => screen.unmount())
      const arrow = (name: 'up' | 'down', times = 1) => {
        for (let time = 0; time < times; time++) {
          screen.feed.press({ kind: 'named', name })
          screen.again()
          screen.again()
        }
        return screen.text()
      }
      return { top: screen.text(), arrow }
    }
    const names = ['bench press', 'row', 'dip', 'curl', 'shrug', 'press', 'lunge', 'fly', 'crunch']
    const many = names.flatMap((name) => [`low ${name}`, `high ${name}`])
    const lifts = many.map((name) => `  ${name} 4 x 8 @ 40 kg, rest 2:00\n`).join('')
    const { top, arrow } = opened(walkThrough(`Push\n\nlift\n${lifts}`).typed('t').entry('12'))
    expect(top).toContain('to fit into 12 min')
    expect(top).not.toContain('then about')
    expect(top).toContain('Enter save   ↑ ↓ scroll   Esc cancel')
    const end = arrow('down', 9)
    expect(end).toContain('then about')
    expect(end).not.toContain('…')
    expect(arrow('up')).not.toBe(end)
    const few = walkThrough(`Push\n\nlift\n${lifts.split('\n').slice(0, 9).join('\n')}`)
    const all = frameOf(few.typed('t').entry('12'), 40, 12)
    expect(all).toMatch(/: left out; /)
    expect(all).not.toContain('scroll')
    const repeats = 'Track\n\nrun\n  6 x 1 km hard, jog 200 m\n'
    const asked = walkThrough(repeats).entry('4:10').wait(60).space().wait(9).entry('4:12').typed('k')
    const question = opened(asked)
    expect(question.top).toContain('Repeat 2 has not started. Save this time')
    expect(question.arrow('down', 3)).toContain('meant: 4:12')
  })

  test('says below 40 x 12 how much room is needed, and keeps the clock', () => {
    expect(frameOf(inGroup(), 60, 11)).toBe('set 0:08\ntoo small: 40x12 needed')
    expect(frameOf(inGroup(), 20, 6)).toBe('set 0:08\ntoo small: 40x12\nneeded')
  })

  test('draws only ASCII characters without Unicode', () => {
    for (const walked of [inGroup(), inJog(), inJog().typed('?')]) {
      const frame = asciiFrame(frameOf(walked, 80, 24))
      expect([...frame].filter((character) => character > '~')).toEqual([])
    }
  })

  test('shows the end of a text that is longer than its line, with the label', () => {
    const walked = inGroup()
    walked.wait(20).effort(3).wait(21).effort(3).wait(40)
    walked.typed('1+1+0 x 90 @9 "left heel came up twice"')
    const line = frameOf(walked, 40, 12).split('\n').at(-3)
    expect(line).toBe('set 2 of 5 > …"left heel came up twice"')
  })

  test('puts a notice of two lines on the free line, and on a small screen drops what follows a semicolon', () => {
    const walked = inGroup()
    const long = `this is said first; ${'and then more of it '.repeat(6).trim()}`
    walked.model = { ...walked.model, notice: long }
    const tail = frameOf(walked, 80, 24).split('\n').slice(-4)
    expect(tail.slice(1, 3).join(' ')).toBe(long)
    expect(frameOf(walked, 40, 12).split('\n').at(-2)).toBe('this is said first')
  })

  test('makes room for the second line of a notice without a semicolon with a smaller body', () => {
    const walked = inGroup()
    walked.model = { ...walked.model, notice: 'a notice that is somewhat longer than forty columns' }
    const lines = frameOf(walked, 40, 12).split('\n')
    expect(lines).toHaveLength(11)
    expect(lines.slice(-3, -1)).toEqual(['a notice that is somewhat longer than', 'forty columns'])
  })

  test('shows the results of a superset after the name of each exercise', () => {
    const walked = walkThrough('A day\nlift\n  pull-up 2 x 6 @ bodyweight + dip 2 x 8 @ bodyweight+10 kg\n')
    walked.entry('6').entry('8').entry('5')
    expect(frameOf(walked, 200, 60)).toContain('    pull-up 6 x bw, 5 x bw; dip 8 x bw+10 ')
  })

  test('gives each line its own row and shows the plates even if a name takes more lines than there are', () => {
    const name = 'paused front squat with straps and a slow descent to the very low box'
    const walked = walkThrough(`A day\nlift\n  ${name}: 3 x (2+1+1) @ 92.5 kg, rest 2:00\n`)
    for (const columns of [40, 80] as const) {
      const lines = frameOf(walked, columns, columns === 40 ? 12 : 24).split('\n')
      const texts = lines.map((line) => (columns === 40 ? line : line.slice(33)))
      const set = texts.indexOf('set 1 of 3')
      expect(texts[set - 1]).toMatch(/25 \+ 10 \+ 1.25 a side$/)
    }
    walked.space()
    expect(frameOf(walked, 80, 24)).toMatch(/92.5 kg: 25 \+ 10 \+ 1.25 a side,/m)
  })

  test('never covers the clock or its label with the echo of a result on the smallest screen', () => {
    const walked = walkThrough('A day\nlift\n  front squat 3 x (1+1+1) @ 92.5 kg, rest 2:00\n')
    walked.space().wait(5).space().wait(1).space().wait(1).space()
    const before = frameOf(walked, 40, 12).split('\n')
    const after = frameOf(walked.enter(), 40, 12).split('\n')
    expect(after.slice(4, 8)).toEqual(before.slice(4, 8))
    expect(after).toContain('recorded 1+1+1 x 92.5')
  })

  test('keeps the unit of a large distance, and the time where there is room', () => {
    const walked = walkThrough('Easy\n\nrun\n  15 min steady\n').effort(900).entry('3.6 km in 15:02')
    const wide = frameOf(walked, 80, 24)
    expect(wide).toMatch(/recorded 3\.6 km in 15:02$/m)
    expect(wide).toMatch(/█ km in 15:02$/m)
  })

  test('shows the whole load of a cluster set on the smallest screen, before and in a group', () => {
    const walked = walkThrough('A day\nlift\n  deadlift 4 x (2+2+2) @ 120 kg, pause 20 s, rest 2:00\n')
    walked.space().wait(5)
    expect(frameOf(walked, 40, 12)).toMatch(/^set 1 of 4 > {3}Enter: 2\+2\+2 x 120$/m)
    expect(frameOf(walked, 40, 12)).toMatch(/^120 kg: 25 \+ 25 a side, deadlift/m)
    expect(frameOf(walked, 80, 24)).toMatch(/^deadlift, set 1 of 4 > {3}Enter: 2\+2\+2 x 120$/m)
  })

  test('never draws lines over one another, whatever the name, the height, the clock and the echo', () => {
    for (const name of ['front squat', 'paused front squat with straps to a low box'])
      for (const rows of [12, 15, 18, 19, 24])
        for (const columns of [40, 80])
          for (const plainClock of [false, true]) {
            const walked = walkThrough(`A day\nlift\n  ${name} 3 x (1+1+1) @ 92.5 kg, rest 2:00\n`)
            walked.space().wait(5).space().wait(1).space().wait(4).space().enter()
            const lines = frameOf(walked, columns, rows, plainClock).split('\n')
            const at = `${name} at ${columns} x ${rows}, ${plainClock ? 'plain' : 'large'}`
            expect(lines, at).toHaveLength(rows - 1)
            // From 19 rows up a running clock takes the whole width.
            const day = columns < 70 || rows >= 19 ? 0 : Math.floor(columns * 0.42)
            const texts = lines.map((line) => line.slice(day))
            expect(texts.join('\n'), at).toMatch(/^recorded( 1\+1\+1 x 92.5)?$/m)
            expect(texts, at).toContain('rest')
            expect(texts.join('\n'), at).toMatch(new RegExp(`^${name.slice(0, 22)}`, 'm'))
          }
  })

  test('keeps three rows of the clock in a question or a list', () => {
    const digits = '| | .  _|   |'
    for (const [columns, rows] of [...sizes, [60, 20] as const])
      for (const key of ['?', 'o', 'e', 'f']) {
        const frame = frameOf(inJog().typed(key), columns, rows)
        expect(frame, `${key} at ${columns} x ${rows}`).toContain(digits)
      }
  })

  test('keeps the clock that counts since the run in a question between two parts', () => {
    const day = 'Day\nrun\n  500 m in 1:47-1:52\nlift\n  row: 2 x 5 @ 50 kg, rest 1:00\n'
    for (const [columns, rows] of [...sizes, [60, 20] as const]) {
      const walked = walkThrough(day).space().wait(110).space().enter().wait(12).typed('f')
      expect(walked.shows).toBe('since the run 0:12')
      expect(frameOf(walked, columns, rows), `${columns} x ${rows}`).toContain('|_| .   | |_')
    }
  })

  test("keeps the clock's three rows at 40 x 12 with a notice of two lines", () => {
    const clusters = walkThrough('A day\nlift\n  front squat: 3 x (1+1+1) @ 92.5 kg, pause 20 s, rest 2:30\n')
    clusters.space().wait(4).space().wait(20).wait(4).space().wait(20).wait(4).space()
    clusters.entry('pain left knee 3').wait(5)
    const frame = frameOf(clusters, 40, 12)
    expect(frame).toContain('Pain noted: left knee 3. Stop if it is\nsharp or gets worse.')
    expect(frame).toContain(' _     _')
    expect(frame.split('\n')).toHaveLength(11)
  })

  test('draws the figures of a recorded result large, with the complete result above', () => {
    const frame = frameOf(
      walkThrough('A day\nrun\n  2 x 500 m in 1:47-1:52, jog 200 m\n').entry('1:49.2 hr 168'),
      80,
      24,
    )
    expect(frame).toMatch(/recorded 1:49.2 hr 168\n.*▄▄ {4}▄ ▄ ▄▄▄ {3}▄▄▄/)
  })

  test('echoes repetitions large and a bodyweight load small beside them, never an x alone', () => {
    const lift = 'A day\nlift\n  pull-up 3 x 6 @ bodyweight, rest 2:00\n'
    expect(frameOf(walkThrough(lift).effort(20).entry('5 x bw+10'), 80, 24)).toMatch(/^▄▄█ x bw\+10$/m)
  })

  test('calls a repeat REPEAT in large letters and a split of a continuous run WORK', () => {
    const [work, repeat] = ['█▄█▄█ █▄█ █ █ █ ▀▄', '█ █ █▄▄ █   █▄▄ █ █  █']
    const frame = (item: string) => frameOf(walkThrough(`A day\nrun\n  ${item}\n`).space().wait(90), 80, 24)
    expect(frame('2 km @ 4:05-4:10/km, split 1 km')).toContain(work)
    expect(frame('2 x 1 km @ 4:05-4:10/km, jog 200 m')).toContain(repeat)
  })

  test('draws a recorded set large below a smaller clock where both do not fit otherwise', () => {
    const walked = walkThrough('A day\nlift\n  front squat 3 x 5 @ 92.5 kg, rest 2:00\n').effort(20).enter()
    for (const [columns, rows] of [
      [80, 24],
      [80, 20],
      [40, 22],
    ] as const) {
      const frame = frameOf(walked, columns, rows)
      expect(frame, `${columns} x ${rows}`).toMatch(/recorded 5 x 92\.5\n.*▄▄▄ {11}▄▄▄ ▄▄▄ {3}▄▄▄/)
      expect(frame, `${columns} x ${rows}`).toMatch(/[┌╶]─+[┐┘╴]/)
    }
  })

  test('draws no result large where the clock of the effort under way would become as small as the echo', () => {
    const run = 'A day\nrun\n  6 x 500 m @ 3:35-3:45/km, jog 200 m in 1:30\n'
    const walked = walkThrough(run).effort(109.4).wait(20).space().wait(20).entry('1:49.4')
    const frame = frameOf(walked, 80, 19)
    expect(frame).toMatch(/^recorded 1:49\.4$/m)
    expect(frame).toContain('████████')
    expect(frame).not.toMatch(/^▄▄ {4}▄ ▄ ▄▄▄/m)
  })

  test('keeps the clock large beside an echo without large letters', () => {
    const walked = walkThrough('A day\nlift\n  front squat 3 x 5 @ 92.5 kg, rest 2:00\n')
      .effort(20)
      .entry('-')
    const rowsOfDigits = () =>
      frameOf(walked, 80, 24)
        .split('\n')
        .filter((line) => /[│┌└╶╷╵]/.test(line)).length
    expect(walked.view.echo).toBe('skipped')
    const during = rowsOfDigits()
    walked.wait(3)
    expect(walked.view.echo).toBeNull()
    expect([during, rowsOfDigits()]).toEqual([10, 10])
  })

  test('names the keys that decide at 40 columns', () => {
    const walked = walkThrough('A day\nlift\n  front squat 3 x 5 @ 92.5 kg, rest 2:00\n')
    const keys = (of = walked) => frameOf(of, 40, 12).split('\n').at(-1)
    walked.typed('5 x 900')
    expect(keys()).toBe('Enter record   Esc clear')
    walked.enter()
    expect(keys()).toBe('Enter yes   ! as typed   Esc back')
    const early = walkThrough('A day\nlift\n  front squat 3 x 5 @ 92.5 kg, rest 2:00\n')
      .space()
      .wait(1)
      .enter()
    expect(keys(early)).toBe('Enter yes   Space done   Esc no')
    walked.key('escape').typed('o')
    expect(keys()).toBe('Enter move   b begin   Esc cancel')
    walked.key('escape').entry('5').typed('e')
    expect(keys()).toBe('Enter edit   ↑ ↓ pick   Esc cancel')
    walked.key('escape').typed('n')
    expect(keys()).toBe('Enter save   Esc cancel')
    walked.typed('tired')
    expect(keys()).toBe('Enter save   Esc clear')
    walked.key('escape')
    expect(keys()).toBe('Enter save   Esc cancel')
  })

  test('no longer shows an undone result as recorded', () => {
    const walked = walkThrough('A day\nlift\n  front squat 3 x 5 @ 92.5 kg, rest 2:00\n')
    walked.entry('5')
    expect(frameOf(walked, 80, 24)).toContain('recorded')
    walked.typed('u')
    expect(frameOf(walked, 80, 24)).not.toContain('recorded')
  })

  test('shows a failed save in the head line, with the reason', () => {
    const walked = inGroup()
    walked.model = { ...walked.model, saved: { ok: false, reason: 'the disk is full' } }
    expect(frameOf(walked, 80, 24).split('\n')[0]).toContain('NOT SAVED: the disk is full')
    expect(frameOf(walked, 40, 12).split('\n')[0]).toContain('NOT SAVED: the disk is full')
  })

  test('uses no colour as the only sign: without colours all marks and words remain', () => {
    const frame = frameOf(inJog(), 80, 18)
    expect(frame).toMatch(/^ > 6 x 500 m/m)
    expect(frame).toMatch(/^ ✓ jog 600 m/m)
    expect(frame).toContain('jog, about 1:24')
  })
})

describe('the current step at every height', () => {
  const set = 'paused front squat with straps: 3 x 5 @ 92.5 kg, rest 2:00'
  const inSet = () => walkThrough(`A day\nlift\n  ${set}\n`, { context: { lastTime } }).space().wait(7)
  const steps = {
    'a set': inSet,
    'a recorded set': () => inSet().space().enter(),
    'a rest with splits': () => inJog().entry('1:49.9').wait(3),
  }
  test.each(Object.keys(steps) as (keyof typeof steps)[])('is shown for %s', async (name) => {
    const heights = [12, 13, 14, 16, 18, 19, 21, 26, 27, 28].map((rows) => [40, rows] as const)
    const frames = [...heights, [64, 12] as const, [64, 24] as const].map(([columns, rows]) => {
      const frame = frameOf(steps[name](), columns, rows).split('\n').slice(1, -3)
      return [`${columns} x ${rows}`, ...frame.map((line) => `${line}|`)].join('\n')
    })
    await expect(`${frames.join('\n\n')}\n`).toMatchFileSnapshot(
      `golden/heights-${name.replaceAll(' ', '-')}.txt`,
    )
  })
})

test('a rest that is long over still shows in large letters what comes next', () => {
  const walked = walkThrough('Over\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n').effort(20).enter()
  const frame = frameOf(walked.jump(2000), 80, 24)
  expect(frame).toContain('over since')
  expect(frame).toContain(bigTextOf('5 X 70')?.[1])
  const run = walkThrough('Over\n\nrun\n  2 x 3:00 hard, jog 1:00\n').effort(180).jump(60)
  expect(
    clockLines(
      { ...run.view, isClockPlain: false, clock: { ...run.clock, text: 'over' } },
      { columns: 80, rows: 9 },
    ),
  ).toEqual(['over'])
})
