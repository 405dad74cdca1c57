import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { keys, type RunningProgram, startProgram, temporaryFolder } from './harness.ts'
import { usedLogbook } from './usedLogbook.ts'

/* What sweaty hands do to the recorder, with the built program in a real terminal. */

async function recorderOn(day: string): Promise<RunningProgram> {
  const path = join(temporaryFolder(), 'day.txt')
  writeFileSync(path, day)
  const program = await startProgram(['record', path], { columns: 100, rows: 30, logbook: usedLogbook() })
  await program.waitFor('Space begin')
  return program
}

const repeats = `Eight hundreds
run: track
  8 x 100 m in 20-24 s, jog 100 m
`

describe('in the hand', () => {
  test('eight times pasted at once are shown before Enter takes them', async () => {
    const program = await recorderOn(repeats)
    program.type('\x1b[200~22.1 21.9 22.4\n22.0 21.8 22.3 22.2 21.7\x1b[201~')
    await program.waitFor('22.1 21.9 22.4 22.0')
    program.type(keys.enter)
    await program.waitFor('these results, in order')
    await program.waitFor('repeat 8 of 8: 100 m  0:21.7')
    program.type(keys.enter)
    await program.waitFor('all recorded')
  })

  test('the last seconds of a pause are inverted even without colours', async () => {
    const path = join(temporaryFolder(), 'day.txt')
    writeFileSync(path, 'Clusters\nlift\n  row: 2 x (1+1) @ 50 kg, pause 3 s, rest 0:40\n')
    for (const isPlain of [true, false]) {
      const program = await startProgram(['record', path], {
        logbook: usedLogbook(),
        env: isPlain ? { NO_COLOR: '1' } : {},
      })
      await program.waitFor('Space begin')
      program.type(keys.right)
      await program.waitFor('group 1 of 2')
      program.type(keys.right)
      await program.waitFor(/^ *pause$/m)
      expect((await program.cells()).join('\n')).toMatch(/\{\d*b?i\}/)
      // Select Graphic Rendition of ECMA-48: 30 to 37 and 90 to 97 are the colours of the text.
      const isColoured = /\x1b\[(?:\d+;)*(?:3[0-7]|9[0-7])(?:;\d+)*m/.test(program.sent())
      expect(isColoured).toBe(!isPlain)
    }
  })

  test('a pasted letter is text, not a command', async () => {
    const program = await recorderOn(repeats)
    program.type('\x1b[200~q\x1b[201~')
    await program.waitFor('100 m > q')
    program.type(keys.escape)
    await program.waitForNo('100 m > q')
    program.type('22.1\r')
    await program.waitFor('repeat 2 of 8')
  })

  test('a held Space is one press', async () => {
    const program = await recorderOn(repeats)
    program.type(' '.repeat(40))
    await program.waitFor(/^ *repeat$/m)
    expect(program.screen().join('\n')).not.toContain('open')
  })

  test('names in any script, and notes with accents, are kept as typed', async () => {
    const program = await recorderOn(
      'Übung: Kniebeuge und 深蹲\nlift\n  Kniebeuge vorn 2 x 3 @ 60 kg\n  深蹲 1 x 5 @ 80 kg\n',
    )
    await program.waitFor('Kniebeuge vorn 3 at 60 kg')
    program.type('3 @8 "Ferse löst sich"\r')
    await program.waitFor('3 x 60 @8 "Ferse löst sich"')
    program.type('3\r')
    await program.waitFor('深蹲 5 at 80 kg')
  })

  test('backspaces in one chunk delete as many characters', async () => {
    const program = await recorderOn(repeats)
    program.type('22.999')
    await program.waitFor('> 22.999')
    program.type('\x7f\x7f\x7f1\r')
    await program.waitFor('repeat 2 of 8')
    await program.waitFor('0:22.1')
  })
})
