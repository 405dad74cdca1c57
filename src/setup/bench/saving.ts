import { readFileSync } from 'node:fs'
import type { SessionFile } from '../../logbook/model.ts'
import { openLogbook } from '../../logbook/store.ts'
import type { SessionEvent } from '../../session/model.ts'
import { madeUpSessions } from '../madeUp/logbook.ts'

/** A session that is being recorded in a logbook, after half a day of training; each call of `save` adds one set
 * and writes the file durably, like one key press. `text` is what its file holds. */
export function recordingIn(directory: string): { save: () => void; text: () => string; close: () => void } {
  const [made] = madeUpSessions({ seed: 2, sessions: 1, last: '2026-11-24' })
  if (made === undefined) throw new Error('no session was made up')
  const { prescription, events } = made.session
  const [start, ...more] = events
  if (start?.type !== 'sessionStarted') throw new Error('the session has no start')
  const recorded = more.filter((event) => event.type === 'setRecorded' || event.type === 'pieceRecorded')
  const file = openLogbook(directory).create(prescription, { ...start, date: '2026-11-26' }, [])
  return {
    save: () => saved(file, recorded[0]),
    text: () => readFileSync(file.path, 'utf8'),
    close: () => file.discard(),
  }
}

function saved(file: SessionFile, event: SessionEvent | undefined): void {
  if (event === undefined) throw new Error('the session has no result')
  const outcome = file.append([event])
  if (!outcome.ok) throw new Error(outcome.reason)
}
