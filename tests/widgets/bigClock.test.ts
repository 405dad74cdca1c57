import { describe, expect, test } from 'vitest'
import { asciiFrame } from '../../src/ui/terminal/inkStreams.ts'
import { type BigClock, bigClockOf } from '../../src/ui/widgets/bigClock.ts'
import { lightOfLines } from '../screens/light.ts'

/* As seen from three metres: the share of the clock's room that is lit distinguishes work, a rest and a rest that is
 * over. */

function shareOf(clock: BigClock, columns: number, rows: number): number {
  const drawn = bigClockOf(clock, { columns, rows }) ?? []
  expect(drawn.length).toBeGreaterThanOrEqual(3)
  expect(drawn.length).toBeLessThanOrEqual(rows)
  const widest = Math.max(...drawn.map((line) => [...line].length))
  expect(widest).toBeLessThanOrEqual(columns)
  return lightOfLines(drawn) / (columns * rows)
}

/** The room of the clock in windows of 40 x 12, 60 x 20, 80 x 24, 120 x 40 and 200 x 60. */
const rooms = [
  [40, 3],
  [40, 4],
  [60, 7],
  [60, 9],
  [80, 10],
  [80, 13],
  [120, 26],
  [200, 46],
] as const

describe.each(rooms)('in a room of %i x %i', (columns, rows) => {
  test.each(['0:11', '0:48', '2:35', '12:06'])(
    'work, a rest and a rest that is over differ in light: %s',
    (text) => {
      for (const number of [null, '8 x 60', '20 reps', '3 x 102.5']) {
        const works = ['WORK', 'SET', 'REPEAT'].map((word) =>
          shareOf({ kind: 'work', text, word, number, share: 0 }, columns, rows),
        )
        for (const share of [1, 0.5, 0]) {
          const rest = shareOf({ kind: 'rest', text, word: '', number, share }, columns, rows)
          const over = shareOf({ kind: 'over', text: `+${text}`, word: '', number, share }, columns, rows)
          for (const work of works) {
            const shares = `work ${work} rest ${rest} over ${over} ${number} ${share}`
            expect(work / rest, shares).toBeGreaterThanOrEqual(1.5)
            expect(over / work, shares).toBeGreaterThanOrEqual(1.5)
          }
        }
      }
    },
  )
})

test('the repetitions beside a rest are as large as its digits, with their word', () => {
  const clock = { kind: 'rest' as const, text: '0:11', word: '', number: '6 reps', share: 0.5 }
  const drawn = bigClockOf(clock, { columns: 60, rows: 4 })
  const ends = [' _', '|_', '|_| reps']
  for (const [row, text] of ends.entries()) expect(drawn?.[row]?.trimEnd().endsWith(text)).toBe(true)
  const carried = bigClockOf({ ...clock, number: '40 m x 2x30' }, { columns: 60, rows: 4 })
  expect(carried?.[2]).toMatch(/ \| \|_\| m x 2x30$/)
})

test('the seconds of a hold are never drawn as a time, nor with a letter that looks like a digit', () => {
  for (const kind of ['work', 'rest'] as const) {
    const clock = { kind, text: '0:11', word: 'WORK', number: '45 sec', share: 0.5 }
    expect(bigClockOf(clock, { columns: 100, rows: 14 })?.join('\n')).toMatch(/ sec *$/m)
  }
})

describe('the drawn clock', () => {
  const clocks: BigClock[] = [
    { kind: 'work', text: '10:23', word: 'REPEAT', number: '8 x 60', share: 0 },
    { kind: 'rest', text: '45:27', word: '', number: '20 reps', share: 0.4 },
    { kind: 'over', text: '+8:19', word: '', number: null, share: 0.7 },
    { kind: 'idle', text: '6:48', word: '', number: '3 x 102.5', share: 0 },
  ]
  const golden = [...rooms.slice(0, 4), [50, 20], [80, 13], [100, 30]] as const
  test.each([
    ['blocks', true],
    ['ASCII', false],
  ])('is the one in the golden file: %s', async (name, isUnicode) => {
    const drawings = clocks.flatMap((clock) =>
      golden.map(([columns, rows]) => {
        const drawn = bigClockOf(clock, { columns, rows }) ?? ['nothing fits']
        const lines = drawn.map((line) => `${isUnicode ? line : asciiFrame(line)}|`)
        return [`${clock.kind} in ${columns} x ${rows}`, ...lines].join('\n')
      }),
    )
    await expect(`${drawings.join('\n\n')}\n`).toMatchFileSnapshot(`golden/clock-${name}.txt`)
  })

  test('takes exactly the room that it needs and no less', () => {
    const [work] = clocks as [BigClock]
    const digits =
      bigClockOf({ ...work, word: '', number: null, kind: 'idle' }, { columns: 80, rows: 7 }) ?? []
    const width = Math.max(...digits.map((line) => [...line].length))
    expect(digits).toHaveLength(7)
    const again = (columns: number, rows: number) =>
      bigClockOf({ ...work, word: '', number: null, kind: 'idle' }, { columns, rows })?.length
    expect(again(width, 7)).toBe(7)
    expect(again(width - 1, 7)).toBe(5)
    expect(again(width, 6)).toBe(5)
    expect(again(3, 20)).toBeUndefined()
    expect(again(80, 2)).toBeUndefined()
  })

  test('cannot show letters', () => {
    expect(bigClockOf({ ...(clocks[0] as BigClock), text: 'over' }, { columns: 200, rows: 50 })).toBeNull()
  })
})
