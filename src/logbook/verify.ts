import { readdirSync } from 'node:fs'
import { join, relative, resolve } from 'node:path'
import type { Session } from '../session/model.ts'
import { sanitize } from '../validate/unsafe.ts'
import { storeArrivals } from './arrivals.ts'
import { sweepLogbook } from './durableFile.ts'
import { addToIndex, type IndexWork, readIndex } from './index.ts'
import { quarantinedFiles, repairSession } from './loadSession.ts'
import { isLock, takeLock } from './lock.ts'
import { type Machine, thisMachine } from './machine.ts'
import type { Damage, SessionEntry } from './model.ts'
import { readMornings } from './mornings.ts'
import { sessionEntriesOf, sessionsFolderOf, yearFoldersOf } from './sessionName.ts'
import { readSettings, repairSettings } from './settingsFile.ts'
import { lockPathOf } from './store.ts'

export interface Verification {
  /** Files that are named as sessions are. */
  sessions: number
  /** Those that are as they should be. */
  sound: number
  /** In all sound sessions. */
  events: number
  /** `not written`: on a disk that cannot be written to, where it costs time only. */
  index: 'rebuilt' | 'not written'
  damages: Damage[]
}

/** Reads every file of a logbook: the settings; each session against its schema, its id, the order of its
 * events, replayed to the end. What is damaged is named and mended as far as nothing is lost by it, what was set
 * aside earlier is named, and the index is rebuilt. */
export function verifyLogbook(
  directory: string,
  onProgress: (done: number, of: number) => void,
  machine: Machine = thisMachine(),
): Verification {
  const home = resolve(directory)
  const damages = new Map<string, Damage>()
  const add = (damage: Damage) => {
    if (!damages.has(damage.file)) damages.set(damage.file, damage)
  }
  sweepLogbook(home, machine)
  const arrivals = storeArrivals(home)
  if (arrivals !== null) add(arrivals)
  const quarantine = quarantinedFiles(home)
  const settingsDamage = repairSettings(home, machine)
  if (settingsDamage !== null) add(settingsDamage)
  const { damages: mornings } = readMornings(home)
  for (const damage of [...quarantine, ...mornings, ...strangeNames(home)]) add(damage)
  const entries = sessionEntriesOf(home)
  let events = 0
  let index: Verification['index'] = 'rebuilt'
  const work: IndexWork = {
    home,
    settings: readSettings(home).settings,
    onDamage: add,
    onProgress,
    onUnwritten: () => {
      index = 'not written'
    },
    onSession: (entry, session) => {
      events += session.events.length
      const wrong = disorderOf(session)
      if (wrong !== null) add({ file: relative(home, entry.path), wrong, done: 'It was left alone.' })
    },
  }
  readIndex(work, true)
  for (const entry of entries) {
    const damage = damages.get(relative(home, entry.path))
    if (damage !== undefined) damages.set(damage.file, mended(work, machine, entry, damage))
  }
  const damaged = entries.filter((entry) => damages.has(relative(home, entry.path))).length
  const sound = entries.length - damaged
  return { sessions: entries.length, sound, events, index, damages: [...damages.values()] }
}

function mended(work: IndexWork, machine: Machine, entry: SessionEntry, damage: Damage): Damage {
  try {
    const lock = takeLock(lockPathOf(entry), machine)
    if (!isLock(lock))
      return {
        ...damage,
        done: `It was left alone, for process ${lock.pid} on ${sanitize(lock.host)} is recording it.`,
      }
    try {
      const { session, damage: found } = repairSession(work.home, entry)
      if (found === null) return damage
      if (session !== null) addToIndex({ ...work, onSession: undefined }, entry)
      return found
    } finally {
      lock.release()
    }
  } catch {
    // Where no lock can be written nothing else can.
    return damage
  }
}

/** Uptimes cannot fall by a minute while the machine runs on, whatever the wall clock does. */
function disorderOf(session: Session): string | null {
  let latest: number | null = null
  for (const [index, event] of session.events.entries()) {
    if (event.type === 'opened') latest = null
    if (event.up === null) continue
    if (latest !== null && event.up < latest - 60)
      return `The file has events out of order: number ${index + 1} happened before the one ahead of it.`
    latest = Math.max(latest ?? 0, event.up)
  }
  return null
}

/** Folders that cannot be listed, and files among the sessions that are named as none is. */
function strangeNames(home: string): Damage[] {
  const folders = [sessionsFolderOf(home), ...yearFoldersOf(home)]
  const known = new Set(sessionEntriesOf(home).map((entry) => entry.path))
  return folders.flatMap((folder, index): Damage[] => {
    try {
      const names = readdirSync(folder).filter(
        (name) => name.endsWith('.json') && !known.has(join(folder, name)),
      )
      return names.map((name) => ({
        file: sanitize(relative(home, join(folder, name))),
        wrong: 'The file is not named as a session is (YYYY-MM-DD-ID.json in the folder of its year).',
        done: 'It was left alone.',
      }))
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException
      if (code === 'ENOENT' && index === 0) return []
      return [
        {
          file: relative(home, folder),
          wrong: `The folder cannot be listed (${code}).`,
          done: 'It was left alone.',
        },
      ]
    }
  })
}
