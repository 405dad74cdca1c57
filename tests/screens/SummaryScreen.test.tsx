import { afterEach, expect, test } from 'vitest'
import { SummaryScreen } from '../../src/ui/screens/SummaryScreen.tsx'
import { type Drawn, drawn } from './frame.tsx'

const note = 'A day\n\nrun\n  mean 4:07.0, 4:07/km, spread 4.0 s, 5 of 5 in 4:05-4:10\n'

let open: Drawn | null = null
afterEach(() => open?.unmount())

function shown(columns: number, rows: number): Drawn {
  open = drawn(
    <SummaryScreen text={() => note} copy={() => {}} next={() => null} leave={() => {}} />,
    columns,
    rows,
  )
  return open
}

test('a line that is wider than the screen continues on the next', () => {
  expect(shown(40, 12).text().split('\n').slice(0, 5)).toEqual([
    'A day',
    '',
    'run',
    '  mean 4:07.0, 4:07/km, spread 4.0 s, 5',
    '    of 5 in 4:05-4:10',
  ])
})

test('what was copied is reported in as many lines as there are, without its second half if there are few', () => {
  const screen = shown(40, 12)
  screen.feed.press({ kind: 'text', text: 'c' })
  screen.again()
  expect(screen.text().split('\n').slice(-3, -1)).toEqual([
    'copied to the clipboard, where the',
    'terminal allows it',
  ])
})
