import { cpSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { thisMachine } from '../../src/logbook/machine.ts'
import { changeSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { readPrescription } from '../../src/prescription/read.ts'
import { writeMadeUpLogbook } from '../../src/setup/madeUp/logbook.ts'
import { appOn } from '../app/appOnGlass.ts'
import { keys, startProgram, temporaryFolder } from './harness.ts'

/* The first reading of a logbook, its history and its progress in the built program, in a real terminal. For the
 * program a minute passes in each second, so reading these sessions takes long. */

const env = { NODE_OPTIONS: `--require "${resolve('src/setup/clock.cjs')}"` }

/** Only copied. */
let sixteenWeeks = ''
beforeAll(() => {
  sixteenWeeks = mkdtempSync(join(tmpdir(), 'pausebook-weeks-'))
  writeMadeUpLogbook(sixteenWeeks, { seed: 1, weeks: 16, last: '2026-11-25' })
  rmSync(join(sixteenWeeks, 'index.ndjson'))
  return () => rmSync(sixteenWeeks, { recursive: true, force: true })
})

function withoutIndex(settings: { firstStartSeen?: boolean; screenReader?: boolean } = {}): string {
  const logbook = temporaryFolder()
  cpSync(sixteenWeeks, logbook, { recursive: true })
  changeSettings(logbook, (before) => ({ ...before, firstStartSeen: true, ...settings }))
  return logbook
}

/** The text on the terminal before the alternate screen. */
const before = (sent: string) => sent.slice(0, sent.indexOf('\u001b[?1049h'))
const progress = /^\rreading session \d+ of 102[\s\S]*\r\u001b\[K/

describe('looking back', () => {
  test('the first reading is announced and cleared, then the history and the progress are turned', async () => {
    const program = await startProgram([], { logbook: withoutIndex(), env, rows: 30 })
    await program.waitFor('h history')
    expect(before(program.sent())).toMatch(progress)
    expect(program.sent().slice(before(program.sent()).length)).not.toContain('reading session')

    // The history lists the sessions, shows the summary on Enter, and returns to the same line.
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

    // The progress turns from everything to the running, the load and each lift.
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
    program.resize(80, 30)
    program.type('q')
    await program.waitFor('h history')
    program.type('q')
    await program.waitForNo('h history')
    expect(program.screen().join('')).toBe('')
    expect((await program.exited).code).toBe(0)
  })

  test('the first reading is announced in one line for a screen reader', async () => {
    const program = await startProgram([], { logbook: withoutIndex({ screenReader: true }), env })
    await program.waitFor('the number of the day')
    expect(program.sent().match(/reading 102 sessions, it takes a moment/g)).toHaveLength(1)
    expect(program.sent()).not.toContain('reading session ')
    program.type('q\r')
    expect((await program.exited).code).toBe(0)
  })

  const easy = readPrescription('Easy\n\nrun\n  2 km easy\n')
  test.each([
    ['the list of days', true, null, 'h history'],
    ['the first start', false, null, 'no coach'],
    ['a given day', true, 'prescription' in easy ? easy.prescription : null, 'Space begin'],
  ] as const)(
    'every session is read before %s comes, and none after',
    async (_, firstStartSeen, begin, shown) => {
      const folder = temporaryFolder()
      writeMadeUpLogbook(folder, { seed: 1, weeks: 2, last: '2026-11-25' })
      changeSettings(folder, (settings) => ({ ...settings, firstStartSeen }))
      rmSync(join(folder, 'index.ndjson'))
      const happened: string[] = []
      const logbook = openLogbook(folder, thisMachine(), (done, of) => happened.push(`${done + 1} of ${of}`))
      const app = await appOn(folder, {
        logbook,
        begin,
        screenComes: () => happened.push('the screen comes'),
      })
      expect(await app.shows()).toContain(shown)
      expect(happened.slice(-2)).toEqual([
        happened.at(-2)?.replace(/^\d+ of (\d+)$/, '$1 of $1'),
        'the screen comes',
      ])
      expect(happened.filter((each) => each === 'the screen comes')).toHaveLength(1)
      expect(happened.length).toBeGreaterThan(10)
    },
  )
})
