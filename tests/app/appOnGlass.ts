import { mkdirSync, writeFileSync } from 'node:fs'
import { syncBuiltinESMExports } from 'node:module'
import os from 'node:os'
import { join } from 'node:path'
import { onTestFinished, vi } from 'vitest'
import { openApp } from '../../src/app/openApp.tsx'
import type { Settings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { createGlass, settled } from '../terminal/glass.ts'

/* The whole app on a terminal in this process. Its date and the machine's uptime are fake, set with
 * `vi.setSystemTime`. */

/** A new logbook of a user who has already seen the first start, with these days among its prescriptions.
 * @param days by file name */
export function logbookWith(days: Record<string, string> = {}, settings: Partial<Settings> = {}): string {
  const folder = join(temporaryFolder(), 'book')
  mkdirSync(join(folder, 'prescriptions'), { recursive: true, mode: 0o700 })
  writeFileSync(
    join(folder, 'settings.json'),
    JSON.stringify({ format: 1, firstStartSeen: true, ...settings }),
  )
  for (const [name, text] of Object.entries(days)) writeFileSync(join(folder, 'prescriptions', name), text)
  return folder
}

type Given = Partial<Parameters<typeof openApp>[0]> & {
  columns?: number
  rows?: number
}

/** Opens the app on a logbook. */
export async function appOn(folder: string, given: Given = {}) {
  const { columns = 80, rows = 24, ...rest } = given
  const glass = createGlass(columns, rows)
  const status = openApp({
    logbook: openLogbook(folder),
    samples: null,
    env: { LANG: 'C.UTF-8' },
    start: null,
    err: () => {},
    edit: null,
    units: { distance: null, mass: null },
    ...rest,
    streams: glass.streams,
  })
  onTestFinished(() => glass.type('\x03'))
  await settled()
  /** The text on the screen, without colours. */
  async function shows(): Promise<string> {
    const lines = await glass.cells()
    return lines.map((line) => line.replace(/\{\d*b?i?\}/g, '').trimEnd()).join('\n')
  }
  return {
    glass,
    status,
    shows,
    /** Waits until the screen shows a text that was not there before, for as long as the test may take. */
    async untilShown(text: string): Promise<void> {
      for (let shown = await shows(); !shown.includes(text); shown = await shows()) await settled()
    },
    /** Presses these keys one after the other; each character of a text is a key. */
    async press(...keys: string[]): Promise<void> {
      for (const key of keys) await glass.type(key)
    },
  }
}

/** Stops the date, and with it the machine's uptime, at this time until the test moves it on. */
export function atTime(time: string): void {
  vi.useFakeTimers({ toFake: ['Date'], now: Date.parse(time) })
  const uptime = vi.spyOn(os, 'uptime').mockImplementation(() => Date.now() / 1000 - 1.7e9)
  syncBuiltinESMExports()
  onTestFinished(() => {
    vi.useRealTimers()
    uptime.mockRestore()
    syncBuiltinESMExports()
  })
}
