import { join, relative, resolve } from 'node:path'
import { readPlan } from '../plan/read.ts'
import { readFoods } from '../session/entry/fuel.ts'
import type { Session } from '../session/model.ts'
import { applyEvent } from '../session/reduce.ts'
import { effectiveEvents } from '../session/replay.ts'
import { startOf } from '../session/state.ts'
import { sanitize } from '../validate/unsafe.ts'
import { sweepLogbook } from './durableFile.ts'
import { type Damage, unlessRefused, untouched } from './errors.ts'
import { type IndexWork, updateIndex } from './index.ts'
import {
  contentOf,
  damageBeside,
  isBackedUp,
  pathsIn,
  sessionEntriesOf,
  withoutDuplicates,
  yearsOfMornings,
} from './logbookFiles.ts'
import { type Machine, thisMachine } from './machine.ts'
import type { SessionEntry } from './model.ts'
import { morningsKind } from './mornings.ts'
import { type OwnText, ownTexts, readOwnText } from './ownTexts.ts'
import { sessionKind } from './sessionFile.ts'
import { readSettings, settingsFile, settingsKind } from './settings.ts'
import { storeArrivals } from './store.ts'
import { changeStored, loadStored, repairUnderLock, type StoredKind } from './storedFile.ts'
import { readFileBytes } from './text.ts'

interface VerifyTools {
  machine?: Machine
  /** Replaces a ruined file with its previous copy. */
  mayRepair?: boolean
  /** Adds a checksum to files without one. */
  maySeal?: boolean
}

/** Reads every file of a logbook: settings, mornings and sessions against schema and checksum; each session also
 * against its id, name and order of events; the index against the files. It reports what is damaged or was renamed. It
 * writes only derived files, unless told to repair or to seal. */
export function verifyLogbook(
  directory: string,
  { machine = thisMachine(), mayRepair = false, maySeal = false }: VerifyTools = {},
) {
  const home = resolve(directory)
  const damages = new Map<string, Damage>()
  /** Files without a checksum, from an earlier version or edited by hand, and those that got one now. */
  const unsealed: string[] = []
  const sealed: string[] = []
  /** The first damage of a file counts. */
  const add = (damage: Damage | null) => {
    if (damage !== null && !damages.has(damage.file)) damages.set(damage.file, damage)
  }
  const check = <T>(file: string, kind: StoredKind<T>) => {
    const loaded = loadStored(home, file, kind)
    const { damage, isSealed } = loaded
    if (damage !== null) add((mayRepair && repairUnderLock(home, file, kind, machine)) || damage)
    if (!isSealed) (maySeal && isSealedNow(home, file, kind, machine) ? sealed : unsealed).push(file)
    return loaded
  }
  sweepLogbook(home, machine)
  add(storeArrivals(home))
  const paths = pathsIn(home, add)
  for (const path of paths.filter(isBackedUp)) add(damageBeside(path))
  check(settingsFile, settingsKind)
  for (const year of yearsOfMornings(home, add)) check(year, morningsKind)
  for (const damage of [...ownTextProblems(home), ...unreadableDays(home, paths), ...unknownFiles(paths)])
    add(damage)
  const entries = sessionEntriesOf(home, add)
  let events = 0
  for (const entry of withoutDuplicates(home, entries, add)) {
    const file = relative(home, entry.path)
    const { value: session, damage, isSealed } = check(file, sessionKind(entry.id))
    if (session === null || damage !== null) continue
    events += session.events.length
    const wrong =
      disorderOf(session) ?? wrongDateOf(entry, session) ?? (isSealed ? null : idleEventOf(session))
    if (wrong !== null) add(untouched(file, wrong))
  }
  const files = entries.map(({ path }) => relative(home, path))
  // Everything but the sessions has been listed before a repair gave damaged files other names.
  const isWritten = rebuildIndex(home, (damage) => {
    if (files.includes(damage.file)) add(damage)
  })
  const index: 'none' | 'rebuilt' | 'not written' =
    entries.length === 0 ? 'none' : isWritten ? 'rebuilt' : 'not written'
  return {
    sessions: entries.length,
    sound: files.filter((file) => !damages.has(file)).length,
    /** In all sound sessions. */
    events,
    index,
    damages: [...damages.values()],
    unsealed,
    sealed,
  }
}

/** @returns whether it could be written */
function rebuildIndex(home: string, onDamage: IndexWork['onDamage']): boolean {
  const work = { home, settings: readSettings(home).settings, onDamage }
  const { differing, isWritten } = updateIndex(work, { isFresh: true })
  const wrong = 'The index has different figures for the file, although its size and time are the same.'
  const done = isWritten ? 'The index now has those of the file.' : 'Nothing was changed.'
  for (const file of differing) onDamage({ file: join('sessions', file), wrong, done })
  return isWritten
}

/** Adds the checksum to a file; false if another process has it.
 * @throws LogbookError `cannot_write` */
function isSealedNow<T>(home: string, file: string, kind: StoredKind<T>, machine: Machine): boolean {
  return unlessRefused(
    () => {
      changeStored(home, file, kind, machine, (same) => same)
      return true
    },
    (refused) => {
      if (refused.code === 'cannot_write') throw refused
      return false
    },
  )
}

/** What is wrong in the plan and the foods. They have no checksum, because they are the athlete's own texts. */
function ownTextProblems(home: string): Damage[] {
  const problemIn = (file: OwnText): string | null => {
    const text = readOwnText(home, file)
    if (text === null) return null
    const reading = file === 'plan.txt' ? readPlan(text) : readFoods(text)
    const [first, ...more] = 'problems' in reading ? reading.problems : []
    if (first === undefined) return null
    const others = more.length === 0 ? '' : ` And ${more.length} more.`
    return `Line ${first.line}: ${sanitize(first.message).replace(/[.]?$/, '.')}${others}`
  }
  return ownTexts.flatMap((file) => {
    const wrong = unlessRefused(
      () => problemIn(file),
      ({ message }) => message,
    )
    return wrong === null ? [] : [{ file, wrong, done: 'Nothing was changed; correct it.' }]
  })
}

/** Days that cannot be read at all, as backup and sync name them. One with mistakes in it is no damage. */
function unreadableDays(home: string, paths: readonly string[]): Damage[] {
  const days = paths.filter((path) => contentOf(path) === 'prescription')
  return days.flatMap((file) => {
    const bytes = readFileBytes(join(home, file))
    return bytes !== null && 'wrong' in bytes ? [untouched(sanitize(file), `The file ${bytes.wrong}.`)] : []
  })
}

/** The first event that changes nothing. A recorder never writes one; editing by hand can. */
function idleEventOf(session: Session): string | null {
  let state = startOf(session.prescription)
  for (const { event, index } of effectiveEvents(session.events)) {
    const next = applyEvent(state, event)
    if (next === state && event.type !== 'opened')
      return `The file has an event that changes nothing: number ${index + 1}, ${event.type}.`
    state = next
  }
  return null
}

function wrongDateOf(entry: SessionEntry, { events }: Session): string | null {
  const [first] = events
  if (first?.type !== 'sessionStarted' || first.date === entry.date) return null
  return `The file is named for ${entry.date}, and its session began on ${first.date}.`
}

/** Uptimes cannot fall by a minute while the machine keeps running, whatever the wall clock does. */
function disorderOf(session: Session): string | null {
  let latest: number | null = null
  for (const [index, event] of session.events.entries()) {
    if (event.type === 'opened') latest = null
    if (event.up === null) continue
    if (latest !== null && event.up < latest - 60)
      return `The file has events out of order: event ${index + 1} has an earlier time than an event before it.`
    latest = Math.max(latest ?? 0, event.up)
  }
  return null
}

/** Files among the sessions and the mornings that have other names, such as the copies of a program that keeps folders
 * in step. */
function unknownFiles(paths: readonly string[]): Damage[] {
  const wrong =
    'The file is not named as a session (YYYY-MM-DD-ID.json in the folder of its year) or a year of mornings (YYYY.json) is.'
  return paths
    .filter((path) => /^(?:sessions|mornings)\/.*\.json$/.test(path) && contentOf(path) === null)
    .map((path) => untouched(sanitize(path), wrong))
}
