import { beforeEach, expect, test, vi } from 'vitest'
import { dayOf } from '../day.ts'
import { settled } from '../terminal/glass.ts'
import { appOn, atTime, logbookWith } from './appOnGlass.ts'

/* What sweaty hands do to the recorder. */

const enter = '\r'
const right = '\x1b[C'
const escapeKey = '\x1b'

const day = `Übung: Kniebeuge und 深蹲
run: track
  8 x 100 m in 20-24 s, jog 100 m
lift: legs
  Kniebeuge vorn 1 x 3 @ 60 kg
  深蹲 1 x 5 @ 80 kg
  row: 2 x (1+1) @ 50 kg, pause 3 s, rest 0:40
run: later
  2 x 100 m in 20-24 s, jog 100 m
`

beforeEach(() => atTime('2026-12-03T06:40:00+01:00'))

test('text that is pasted, deleted, held down, accented or in any script arrives as it was meant', async () => {
  const start = { begin: dayOf(day) }
  const { glass, shows } = await appOn(logbookWith(), { start, columns: 100, rows: 30 })
  expect(await shows()).toContain('Space begin')
  // A pasted letter is text, not a command.
  await glass.type('\x1b[200~q\x1b[201~')
  expect(await shows()).toContain('100 m > q')
  await glass.type(escapeKey)
  while ((await shows()).includes('100 m > q')) await settled()
  // Backspaces in one chunk delete as many characters.
  await glass.type('22.999')
  expect(await shows()).toContain('> 22.999')
  await glass.type('\x7f\x7f\x7f1\r')
  expect(await shows()).toContain('repeat 2 of 8')
  expect(await shows()).toContain('0:22.1')
  await glass.type('u')
  expect(await shows()).not.toContain('repeat 2 of 8')
  // Eight times pasted at once are shown before Enter takes them.
  await glass.type('\x1b[200~22.1 21.9 22.4\n22.0 21.8 22.3 22.2 21.7\x1b[201~')
  expect(await shows()).toContain('22.1 21.9 22.4 22.0')
  await glass.type(enter)
  expect(await shows()).toContain('these results, in order')
  expect(await shows()).toContain('repeat 8 of 8: 100 m  0:21.7')
  await glass.type(enter)
  expect(await shows()).toContain('Kniebeuge vorn, set 1 of 1 >')
  // Names in any script, and notes with accents, are kept as typed.
  await glass.type('3 @8 "Ferse löst sich"\r')
  expect(await shows()).toContain('3 x 60 @8 "Ferse löst sich"')
  expect(await shows()).toContain('深蹲 5 at 80 kg')
  await glass.type('5\r')
  expect(await shows()).toContain('row, set 1 of 2 >')
  await glass.type(right)
  expect(await shows()).toContain('group 1 of 2')
  vi.setSystemTime(Date.now() + 2000)
  await glass.type(right)
  expect(await shows()).toMatch(/^ *pause$/m)
  vi.setSystemTime(Date.now() + 3000)
  // Any key makes the recorder look at its clock.
  await glass.type('z')
  await glass.type('\x7f')
  expect(await shows()).toContain('group 2 of 2')
  await glass.type('1+1\r')
  expect(await shows()).toContain('set 2 of 2')
  await glass.type('1+1\r')
  expect(await shows()).toContain('repeat 1 of 2')
  // A held Space is one press.
  await glass.type(' '.repeat(8))
  expect(await shows()).toContain('Space done')
  expect(await shows()).not.toContain('to enter')
})
