import { rmSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { thisMachine } from '../../src/logbook/machine.ts'
import { changeSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { readPrescription } from '../../src/prescription/read.ts'
import { writeMadeUpLogbook } from '../../src/setup/madeUp/logbook.ts'
import { appOn } from '../app/appOnGlass.ts'
import { keys, startProgram, stillClock, temporaryFolder } from './harness.ts'

/* The history and the progress of a logbook without an index, in the built program, in a real terminal. */

describe('looking back', () => {
  test('the history lists the sessions and opens their summaries, and the progress turns its pages', async () => {
    const logbook = temporaryFolder()
    writeMadeUpLogbook(logbook, { seed: 1, weeks: 16, last: '2026-11-25' })
    changeSettings(logbook, (before) => ({ ...before, firstStartSeen: true }))
    rmSync(join(logbook, 'index.ndjson'))
    const { env } = stillClock('2026-11-25T20:00:00+01:00')
    const program = await startProgram([], { logbook, env, rows: 30 })
    await program.waitFor('h history')

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

  const easy = readPrescription('Easy\n\nrun\n  2 km easy\n')
  test.each([
    ['the list of days', true, null, 'h history'],
    ['the first start', false, null, 'not a coach'],
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
