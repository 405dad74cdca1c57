import { rmSync, writeFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { describe, expect, test } from 'vitest'
import { changeSettings } from '../../src/logbook/settings.ts'
import { writeMadeUpLogbook } from '../../src/setup/madeUp/logbook.ts'
import { startProgram, temporaryFolder } from './harness.ts'
import { usedLogbook } from './usedLogbook.ts'

/* What the built program shows before the first screen when it has to rebuild the index. For the program
 * a minute passes in each second, so reading these sessions takes long. */

const env = { NODE_OPTIONS: `--require "${resolve('src/setup/clock.cjs')}"` }

function withoutIndex(settings: { firstStartSeen?: boolean; screenReader?: boolean } = {}): string {
  const logbook = usedLogbook()
  writeMadeUpLogbook(logbook, { seed: 1, weeks: 16, last: '2026-11-25' })
  changeSettings(logbook, (before) => ({ ...before, ...settings }))
  rmSync(join(logbook, 'index.ndjson'))
  return logbook
}

/** The text on the terminal before the alternate screen. */
const before = (sent: string) => sent.slice(0, sent.indexOf('\u001b[?1049h'))
const progress = /^\rreading session \d+ of 102[\s\S]*\r\u001b\[K/

describe('the first reading of a logbook', () => {
  test('is announced before the list of days, and cleared', async () => {
    const program = await startProgram([], { logbook: withoutIndex(), env })
    await program.waitFor('h history')
    expect(before(program.sent())).toMatch(progress)
    expect(program.sent().slice(before(program.sent()).length)).not.toContain('reading session')
    program.type('q')
    await program.waitForNo('h history')
    expect(program.screen().join('')).toBe('')
    expect((await program.exited).code).toBe(0)
  })

  test('is announced before the first start and before a given day', async () => {
    const first = await startProgram([], { logbook: withoutIndex({ firstStartSeen: false }), env })
    await first.waitFor('no coach')
    expect(before(first.sent())).toMatch(progress)
    const day = join(temporaryFolder(), 'day.txt')
    writeFileSync(day, 'Easy\n\nrun\n  2 km easy\n')
    const recorder = await startProgram(['record', day], { logbook: withoutIndex(), env })
    await recorder.waitFor('Space begin')
    expect(before(recorder.sent())).toMatch(progress)
  })

  test('is announced in one line for a screen reader', async () => {
    const program = await startProgram([], { logbook: withoutIndex({ screenReader: true }), env })
    await program.waitFor('the number of the day')
    expect(program.sent().match(/reading 102 sessions, it takes a moment/g)).toHaveLength(1)
    expect(program.sent()).not.toContain('reading session ')
    program.type('q\r')
    expect((await program.exited).code).toBe(0)
  })
})
