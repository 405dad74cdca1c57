import { existsSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { changeSettings } from '../../src/logbook/settings.ts'
import { writeMadeUpLogbook } from '../../src/setup/madeUp/logbook.ts'
import { dayOf } from '../day.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { keys } from '../terminal/harness.ts'
import { appOn, atTime } from './appOnGlass.ts'

/* The history and the progress of a logbook without an index. */

describe('looking back', () => {
  test('the history lists the sessions and opens their summaries, and the progress turns its pages', async () => {
    const logbook = temporaryFolder()
    writeMadeUpLogbook(logbook, { seed: 1, weeks: 16, last: '2026-11-25' })
    changeSettings(logbook, (before) => ({ ...before, firstStartSeen: true }))
    rmSync(join(logbook, 'index.ndjson'))
    atTime('2026-11-25T20:00:00+01:00')
    const { glass, shows, press, status } = await appOn(logbook, { rows: 30 })
    const leads = async (key: string, ...texts: string[]) => {
      await press(key)
      for (const text of texts) expect(await shows(), `after ${JSON.stringify(key)}`).toContain(text)
    }
    expect(await shows()).toContain('h history')

    // The history lists the sessions, shows the summary on Enter, and returns to the same line.
    await leads('h', 'History: 1 of 102')
    expect((await shows()).split('\n')[2]).toMatch(/^> 2026-11-25 {2}\S{10} .* 255 \(5\) {2}Wednesday: push/)
    await leads(keys.down, 'History: 2 of 102')
    await leads(keys.enter, '6 x 500 m')
    await leads('q', 'History: 2 of 102')
    await leads('q', 'h history')

    // The progress turns from everything to the running, the load and each lift.
    await leads('g', 'Progress: all (1 of')
    await leads(keys.right, 'Progress: run', 'by week from Monday: km')
    await leads(keys.right, 'Progress: load')
    await leads(keys.right, 'Progress: pain', 'left calf')
    await leads(keys.right, 'Progress: body', 'resting heart rate')
    await leads(keys.right, 'Progress: front squat', 'estimated maximum for one repetition')
    await leads(keys.pageDown, 'best sets by repetitions')
    await leads(keys.left, 'Progress: body')
    await leads(keys.left, 'Progress: pain')
    await leads(keys.left, 'Progress: load')
    await glass.resize(40, 12)
    expect(await shows()).toContain('run (=), lift (#)')
    await glass.resize(80, 30)
    await leads('q', 'h history')
    await press('q')
    expect((await shows()).trim()).toBe('')
    expect(await status).toBe(0)
  })

  const easy = dayOf('Easy\n\nrun\n  2 km easy\n')
  test.each([
    ['the list of days', null, 'h history'],
    ['a given day', easy, 'Space begin'],
  ] as const)('every session is read when %s comes', async (_, begin, shown) => {
    const folder = temporaryFolder()
    writeMadeUpLogbook(folder, { seed: 1, weeks: 2, last: '2026-11-25' })
    changeSettings(folder, (settings) => ({ ...settings, firstStartSeen: true }))
    rmSync(join(folder, 'index.ndjson'))
    const app = await appOn(folder, { start: begin && { begin } })
    expect(await app.shows()).toContain(shown)
    expect(existsSync(join(folder, 'index.ndjson'))).toBe(true)
  })
})
