import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, describe, expect, test } from 'vitest'
import { keys, look, type RunningProgram, startProgram, stillClock, temporaryFolder } from './harness.ts'
import { usedLogbook } from './usedLogbook.ts'

/* What sweaty hands do to the recorder, with the built program in a real terminal. */

let clock: ReturnType<typeof stillClock>
beforeEach(() => {
  clock = stillClock('2026-12-03T06:40:00+01:00')
})

const clusters = 'row: 2 x (1+1) @ 50 kg, pause 3 s, rest 0:40'

const day = `Übung: Kniebeuge und 深蹲
run: track
  8 x 100 m in 20-24 s, jog 100 m
lift: legs
  Kniebeuge vorn 1 x 3 @ 60 kg
  深蹲 1 x 5 @ 80 kg
  ${clusters}
run: later
  2 x 100 m in 20-24 s, jog 100 m
`

async function recorderOn(text: string, env: Record<string, string> = {}): Promise<RunningProgram> {
  const path = join(temporaryFolder(), 'day.txt')
  writeFileSync(path, text)
  const program = await startProgram(['record', path], {
    columns: 100,
    rows: 30,
    logbook: usedLogbook(),
    env: { ...clock.env, ...env },
  })
  await program.waitFor('Space begin')
  return program
}

/** Walks into the last seconds of the pause of a cluster, which are inverted.
 * @returns whether any text that was sent has a colour */
async function inPause(program: RunningProgram): Promise<boolean> {
  program.type(keys.right)
  await program.waitFor('group 1 of 2')
  program.type(keys.right)
  await program.waitFor(/^ *pause$/m)
  expect((await program.cells()).join('\n')).toMatch(/\{\d*b?i\}/)
  // Select Graphic Rendition of ECMA-48: 30 to 37 and 90 to 97 are the colours of the text.
  return /\x1b\[(?:\d+;)*(?:3[0-7]|9[0-7])(?:;\d+)*m/.test(program.sent())
}

describe('in the hand', () => {
  test('text that is pasted, deleted, held down, accented or in any script arrives as it was meant', async () => {
    const program = await recorderOn(day)
    // A pasted letter is text, not a command.
    program.type('\x1b[200~q\x1b[201~')
    await program.waitFor('100 m > q')
    program.type(keys.escape)
    await program.waitForNo('100 m > q')
    // Backspaces in one chunk delete as many characters.
    program.type('22.999')
    await program.waitFor('> 22.999')
    program.type('\x7f\x7f\x7f1\r')
    await program.waitFor('repeat 2 of 8')
    await program.waitFor('0:22.1')
    program.type('u')
    await program.waitForNo('repeat 2 of 8')
    // Eight times pasted at once are shown before Enter takes them.
    program.type('\x1b[200~22.1 21.9 22.4\n22.0 21.8 22.3 22.2 21.7\x1b[201~')
    await program.waitFor('22.1 21.9 22.4 22.0')
    program.type(keys.enter)
    await program.waitFor('these results, in order')
    await program.waitFor('repeat 8 of 8: 100 m  0:21.7')
    program.type(keys.enter)
    await program.waitFor('Kniebeuge vorn, set 1 of 1 >')
    // Names in any script, and notes with accents, are kept as typed.
    program.type('3 @8 "Ferse löst sich"\r')
    await program.waitFor('3 x 60 @8 "Ferse löst sich"')
    await program.waitFor('深蹲 5 at 80 kg')
    program.type('5\r')
    await program.waitFor('row, set 1 of 2 >')
    expect(await inPause(program)).toBe(true)
    clock.pass(3)
    await look(program)
    await program.waitFor('group 2 of 2')
    program.type('1+1\r')
    await program.waitFor('set 2 of 2')
    program.type('1+1\r')
    await program.waitFor('repeat 1 of 2')
    // A held Space is one press.
    program.type(' '.repeat(8))
    await program.waitFor('Space done')
    await look(program)
    expect(program.screen().join('\n')).not.toContain('to enter')
  })

  test('the last seconds of a pause are inverted even without colours', async () => {
    const program = await recorderOn(`Clusters\nlift\n  ${clusters}\n`, { NO_COLOR: '1' })
    expect(await inPause(program)).toBe(false)
  })
})
