import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { changeSettings } from '../../src/logbook/settings.ts'
import { writeMadeUpLogbook } from '../../src/setup/madeUp/logbook.ts'
import { keys, startProgram } from './harness.ts'
import { usedLogbook } from './usedLogbook.ts'

/* The history and the progress in the built program, in a real terminal. */

/** Read only. */
let sixteenWeeks = ''
beforeAll(() => {
  sixteenWeeks = mkdtempSync(join(tmpdir(), 'pausebook-weeks-'))
  changeSettings(sixteenWeeks, (settings) => ({ ...settings, firstStartSeen: true }))
  writeMadeUpLogbook(sixteenWeeks, { seed: 1, weeks: 16, last: '2026-11-25' })
  return () => rmSync(sixteenWeeks, { recursive: true, force: true })
})

describe('looking back', () => {
  test('the history lists the sessions, shows the summary on Enter, and returns to the same line', async () => {
    const program = await startProgram([], { logbook: sixteenWeeks })
    await program.waitFor('h history')
    program.type('h')
    await program.waitFor('History: 1 of 102')
    expect(program.screen()[2]).toMatch(/^> 2026-11-25 {2}\S{10} .* 255 \(5\) {2}Wednesday: push/)
    program.type(keys.down)
    await program.waitFor('History: 2 of 102')
    program.type(keys.enter)
    await program.waitFor('6 x 500 m')
    program.type('q')
    await program.waitFor('History: 2 of 102')
    program.type('q')
    await program.waitFor('h history')
    program.type('q')
    expect((await program.exited).code).toBe(0)
  })

  test('the progress turns from everything to the running, the load and each lift', async () => {
    const program = await startProgram([], { logbook: sixteenWeeks, rows: 30 })
    await program.waitFor('g progress')
    program.type('g')
    await program.waitFor('Progress: all (1 of')
    program.type(keys.right)
    await program.waitFor('Progress: run')
    await program.waitFor('by week from Monday: km')
    program.type(keys.right)
    await program.waitFor('Progress: load')
    program.type(keys.right)
    await program.waitFor('Progress: pain')
    await program.waitFor('left calf')
    program.type(keys.right)
    await program.waitFor('Progress: front squat')
    await program.waitFor('estimated maximum for one repetition')
    program.type(keys.pageDown)
    await program.waitFor('best sets by repetitions')
    program.type(keys.left)
    await program.waitFor('Progress: pain')
    program.type(keys.left)
    await program.waitFor('Progress: load')
    program.resize(40, 12)
    await program.waitFor('run (=), lift (#)')
    program.type('q')
    await program.waitFor('Pausebook')
    program.type('q')
    expect((await program.exited).code).toBe(0)
  })

  test('an empty logbook says so', async () => {
    const program = await startProgram([], { logbook: usedLogbook() })
    await program.waitFor('Pausebook')
    for (const key of ['h', 'g']) {
      program.type(key)
      await program.waitFor('no session is in this logbook yet')
    }
    program.type('q')
    expect((await program.exited).code).toBe(0)
  })
})
