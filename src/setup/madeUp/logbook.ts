import { mkdirSync, writeFileSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import { printSession } from '../../logbook/printSession.ts'
import { sessionPathOf } from '../../logbook/sessionName.ts'
import { changeSettings } from '../../logbook/settingsFile.ts'
import { openLogbook } from '../../logbook/store.ts'
import { madeUpSessions } from './sessions.ts'

/** Writes the made-up logbook into a directory, with its digest and the athlete's settings, and gives back
 * how many sessions there are. Not flushed to the disk: nobody would miss it. */
export function writeMadeUpLogbook(directory: string, given: Parameters<typeof madeUpSessions>[0]): number {
  const home = resolve(directory)
  const sessions = madeUpSessions(given)
  for (const { date, session } of sessions) {
    const path = sessionPathOf(home, date, session.id)
    mkdirSync(dirname(path), { recursive: true, mode: 0o700 })
    writeFileSync(path, printSession(session), { mode: 0o600 })
  }
  const first = sessions[0]?.date ?? given.last
  changeSettings(home, (settings) => ({
    ...settings,
    rotation: ['legs', 'push', 'pull'],
    bodyMasses: [{ date: first, value: 68, unit: 'kg' }],
  }))
  openLogbook(home).digest()
  return sessions.length
}
