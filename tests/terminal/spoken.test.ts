import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { temporaryFolder } from '../temporaryFolder.ts'
import { keys, startProgram, usedLogbook } from './harness.ts'

/* The app as a screen reader prints it, on a terminal without drawing. */

const day = `One
lift
  front squat: 1 x (1+1) @ 60 kg, pause 1 s, rest 0:40
run
  2 x 100 m in 20-24 s, jog 100 m
`

test('on a dumb terminal the same steps are announced, typing is echoed, and no sequence is sent', async () => {
  const path = join(temporaryFolder(), 'day.txt')
  writeFileSync(path, day)
  const logbook = usedLogbook({ screenReader: true })
  const program = await startProgram(['record', path], { logbook, env: { TERM: 'dumb' }, rows: 60 })
  await program.waitFor('asked: front squat, set 1 of 1')
  program.type(keys.right)
  await program.waitFor('group 1 of 2')
  // The same key again at once would be a held one.
  program.type(keys.pageDown)
  await program.waitFor('pause 0:01')
  await program.waitFor('group 2 of 2')
  program.type('1+1 @8')
  await program.waitFor(/^1\+1 @8$/m)
  program.type('\x7f9\r')
  await program.waitFor('recorded 1+1 x 60 @9')
  program.type('pain knee 2')
  await program.waitFor(/^pain knee 2$/m)
  expect(program.sent()).not.toMatch(/one more|the clock ends the groups/)
  program.type('\r')
  await program.waitFor('Pain noted: knee 2.')
  await program.waitFor(/^1\+1 @9$/m)
  program.type(keys.right)
  await program.waitFor('repeat 0:00')
  program.type('q')
  expect((await program.exited).code).toBe(0)
  expect(program.sent()).not.toContain('\x1b')
})

test('after the summary the decisions about the next day are accepted or dropped, and the day is saved', async () => {
  const path = join(temporaryFolder(), 'day.txt')
  writeFileSync(path, 'Push\nlift\n  front squat: 1 x 5 @ 60 kg\n  row: 1 x 5 @ 50 kg\n')
  const logbook = usedLogbook({ screenReader: true })
  const program = await startProgram(['record', path], { logbook, env: { TERM: 'dumb' }, rows: 60 })
  await program.waitFor('asked: front squat, set 1 of 1')
  program.type('5 @8\r')
  await program.waitFor('recorded 5 x 60 @8')
  program.type('5 @8\r')
  await program.waitFor('recorded 5 x 50 @8')
  program.type('f7\r')
  await program.waitFor('asked: minutes')
  program.type('30\r')
  await program.waitFor('c copy, n next, m more, q quit')
  program.type('n\r')
  await program.waitFor('2: row')
  program.type('\r')
  await program.waitFor(/accept, - reject[\s\S]*accept, - reject/)
  program.type('-\r')
  await program.waitFor('Enter save')
  program.type('\r')
  await program.waitFor('saved: Push, ')
  program.type('q\r')
  expect((await program.exited).code).toBe(0)
  const [day, ...others] = readdirSync(join(logbook, 'prescriptions'))
  expect(others).toEqual([])
  expect(readFileSync(join(logbook, 'prescriptions', String(day)), 'utf8')).toMatch(/row 1 x 5 @ 50 kg/)
})
