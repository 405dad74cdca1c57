import { rmSync } from 'node:fs'
import { join, relative, resolve } from 'node:path'
import { readPlan } from '../plan/read.ts'
import type { Diagnostic } from '../prescription/diagnostic.ts'
import { expand } from '../prescription/expand.ts'
import { readFoods } from '../session/entry/fuel.ts'
import type { Session } from '../session/model.ts'
import { applyEvent } from '../session/reduce.ts'
import { effectiveEvents } from '../session/replay.ts'
import { startOf } from '../session/state.ts'
import { sanitize } from '../validate/unsafe.ts'
import { sweepLogbook, writeDurably } from './durableFile.ts'
import { LogbookError } from './errors.ts'
import { addToIndex, type IndexWork, isCurrent, knownRows, readIndex } from './index.ts'
import { underLock } from './lock.ts'
import { isBackedUp, isQuarantined } from './logbookFiles.ts'
import { type Machine, thisMachine } from './machine.ts'
import type { Damage, IndexRow, SessionEntry } from './model.ts'
import { addToYear, readMornings, repairMornings } from './mornings.ts'
import { type OwnText, ownTexts, readOwnText } from './ownTexts.ts'
import { goesOnFrom, loadSession, printSession, readSession, repairSession } from './sessionFile.ts'
import {
  keptBeside,
  namesIn,
  quarantinedBefore,
  resultsBeside,
  sessionEntriesOf,
  sessionPathOf,
  sessionsFolderOf,
  versionId,
  yearFoldersOf,
} from './sessionName.ts'
import { changeSettings, readSettings, repairSettings, settingsPathOf } from './settings.ts'
import { lockPathOf, storeArrivals } from './store.ts'
import { readTextFile } from './text.ts'

interface Verification {
  /** Files with a session's file name. */
  sessions: number
  /** Sound ones. */
  sound: number
  /** In all sound sessions. */
  events: number
  /** `not written` if the disk cannot be written to; the next run then computes it again. `none`: there are no sessions. */
  index: 'rebuilt' | 'not written' | 'none'
  damages: Damage[]
  /** Files without a checksum: of an earlier version, or edited by hand. Relative to the logbook. */
  unsealed: string[]
  /** Files that got their checksum. */
  sealed: string[]
}

export interface VerifyTools {
  onProgress: (done: number, of: number) => void
  machine?: Machine
  /** Replaces a ruined file with its previous copy, and merges results that were kept separately. */
  mayRepair?: boolean
  /** Adds a checksum to files without one. */
  maySeal?: boolean
}

/** Reads every file of a logbook: the settings; each session against its schema, checksum, id, name and
 * order of events, replayed to the end; the index against the files. It reports what is damaged or was renamed. It
 * writes only derived files, unless told to repair or to seal. */
export function verifyLogbook(directory: string, tools: VerifyTools): Verification {
  const { onProgress, machine = thisMachine(), mayRepair = false, maySeal = false } = tools
  const home = resolve(directory)
  const damages = new Map<string, Damage>()
  const add = (damage: Damage) => {
    if (!damages.has(damage.file)) damages.set(damage.file, damage)
  }
  sweepLogbook(home, machine)
  const arrivals = storeArrivals(home)
  if (arrivals !== null) add(arrivals)
  for (const folder of ['', 'mornings/'])
    for (const path of namesIn(home, join(home, folder), () => {}).map((name) => `${folder}${name}`))
      if (isQuarantined(path) && isBackedUp(path)) add(quarantinedBefore(home, join(home, path)))
  const settings = readSettings(home)
  if (settings.damage !== null)
    add(mayRepair ? repairSettings(home, settings.damage, machine) : settings.damage)
  for (const damage of keptBesideIn(home, machine, mayRepair)) add(damage)
  const mornings = readMornings(home)
  for (const damage of mornings.damages) add(mayRepair ? repairMornings(home, damage, machine) : damage)
  for (const damage of [...ownTextProblems(home), ...unknownFiles(home)]) add(damage)
  const entries = sessionEntriesOf(home, add)
  const unsealed = new Map<string, () => boolean>()
  if (!settings.isSealed)
    unsealed.set(relative(home, settingsPathOf(home)), () => {
      changeSettings(home, (same) => same, machine)
      return true
    })
  for (const file of mornings.unsealed)
    unsealed.set(file, () => {
      addToYear(home, file, [], machine)
      return true
    })
  let events = 0
  let index: Verification['index'] = entries.length > 0 ? 'rebuilt' : 'none'
  const known = knownRows(home)
  const rebuilt: IndexRow[] = []
  const work: IndexWork = {
    home,
    settings: settings.settings,
    onDamage: add,
    onProgress,
    onUnwritten: () => {
      index = 'not written'
    },
    onRow: (row) => rebuilt.push(row),
    onSession: (entry, session, isSealed) => {
      events += session.events.length
      const file = relative(home, entry.path)
      if (!isSealed) unsealed.set(file, () => isSealedNow(home, entry, machine))
      const wrong =
        disorderOf(session) ?? wrongDateOf(entry, session) ?? (isSealed ? null : idleEventOf(session))
      if (wrong !== null) add({ file, wrong, done: 'Nothing was changed.' })
    },
  }
  readIndex(work, true)
  const done = index === 'rebuilt' ? 'The index has those of the file now.' : 'Nothing was changed.'
  for (const file of disagreements(known, rebuilt))
    add({
      file,
      wrong: 'The index has other figures of the file, although its size and time are the same.',
      done,
    })
  if (mayRepair)
    for (const entry of entries) {
      const damage = damages.get(relative(home, entry.path))
      if (damage !== undefined) damages.set(damage.file, repaired(work, machine, entry, damage))
    }
  const sealed = maySeal ? [...unsealed].flatMap(([file, seal]) => (seal() ? [file] : [])) : []
  if (sealed.length > 0) readIndex({ home, settings: work.settings, onDamage: () => {} })
  const damaged = entries.filter((entry) => damages.has(relative(home, entry.path))).length
  return {
    sessions: entries.length,
    sound: entries.length - damaged,
    events,
    index,
    damages: [...damages.values()],
    unsealed: [...unsealed.keys()].filter((file) => !sealed.includes(file)),
    sealed,
  }
}

function repaired(work: IndexWork, machine: Machine, entry: SessionEntry, damage: Damage): Damage {
  const repair = (): Damage => {
    const { session, damage: found } = repairSession(work.home, entry)
    if (found === null) return damage
    if (session !== null) addToIndex({ ...work, onSession: undefined }, entry)
    return found
  }
  try {
    return underLock(lockPathOf(entry), machine, repair, ({ pid, host }) => ({
      ...damage,
      done: `Nothing was changed: process ${pid} on ${sanitize(host)} is recording it.`,
    }))
  } catch {
    // If a lock cannot be written, nothing else can.
    return damage
  }
}

/** What is wrong in the plan and the foods. They have no checksum, because they are the athlete's own texts. */
function ownTextProblems(home: string): Damage[] {
  const problemsIn = (file: OwnText, text: string): readonly Diagnostic[] => {
    const reading = file === 'plan.txt' ? readPlan(text) : readFoods(text)
    return 'problems' in reading ? reading.problems : []
  }
  return ownTexts.flatMap((file) => {
    try {
      const text = readOwnText(home, file)
      const [first, ...more] = text === null ? [] : problemsIn(file, text)
      if (first === undefined) return []
      const others = more.length === 0 ? '' : ` And ${more.length} more.`
      const message = sanitize(first.message).replace(/[.]?$/, '.')
      const wrong = `Line ${first.line}: ${message}${others}`
      return [{ file, wrong, done: 'Nothing was changed; correct it.' }]
    } catch (error) {
      if (!(error instanceof LogbookError)) throw error
      return [{ file, wrong: error.message, done: 'Nothing was changed.' }]
    }
  })
}

/** Adds the checksum to a session; false if it is being recorded. */
function isSealedNow(home: string, entry: SessionEntry, machine: Machine): boolean {
  const seal = (): boolean => {
    const { session, damage } = loadSession(home, entry)
    if (session === null || damage !== null) return false
    writeDurably(entry.path, printSession(session), true)
    return true
  }
  return underLock(lockPathOf(entry), machine, seal, () => false)
}

/** Merges results that a recorder kept separately after another program changed the session. If one continues the
 * other, the longer one becomes the session; else both are kept. */
function keptBesideIn(home: string, machine: Machine, mayRepair: boolean): Damage[] {
  return keptBeside(home).map((path) => {
    const damage = resultsBeside(home, path)
    if (!mayRepair) return damage
    const entry = sessionEntriesOf(home).find((each) => path.startsWith(`${each.path}.kept-`))
    const kept = readSession(readTextFile(path) ?? '', null)
    if (entry === undefined || 'wrong' in kept) return damage
    const merge = (): Damage => {
      const done = together(home, entry, loadSession(home, entry).session, kept.session)
      rmSync(path)
      return { ...damage, done }
    }
    return underLock(lockPathOf(entry), machine, merge, () => damage)
  })
}

function together(home: string, entry: SessionEntry, there: Session | null, kept: Session): string {
  if (there !== null && goesOnFrom(there, kept)) return 'The session holds all of them, so it was removed.'
  if (there === null || goesOnFrom(kept, there)) {
    writeDurably(entry.path, printSession(kept), true)
    return 'The session holds all of them now, so it was removed.'
  }
  const id = versionId(entry.id, printSession(kept))
  writeDurably(sessionPathOf(home, entry.date, id), printSession({ ...kept, id }), false)
  return `Both were kept: it is the session ${id} now. "pausebook sync --keep ID" keeps one of them.`
}

/** The files whose row differed from them before the index was rebuilt, although size and time were the same. */
function disagreements(before: ReadonlyMap<string, IndexRow>, rebuilt: readonly IndexRow[]): string[] {
  return rebuilt
    .filter((row) => {
      const old = before.get(row.file)
      return old !== undefined && isCurrent(old, row) && JSON.stringify(old) !== JSON.stringify(row)
    })
    .map(({ file }) => join('sessions', file))
}

/** The first event that changes nothing. A recorder never writes one; editing by hand can. */
function idleEventOf(session: Session): string | null {
  let state = startOf(
    session.prescription,
    expand(session.prescription, () => []),
  )
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

/** Uptimes cannot fall by a minute while the machine runs on, whatever the wall clock does. */
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

/** Files among the sessions whose names are not those of sessions. */
function unknownFiles(home: string): Damage[] {
  const known = new Set(sessionEntriesOf(home).map((entry) => entry.path))
  return [sessionsFolderOf(home), ...yearFoldersOf(home)].flatMap((folder) =>
    namesIn(home, folder, () => {})
      .filter((name) => name.endsWith('.json') && !known.has(join(folder, name)))
      .map((name) => ({
        file: sanitize(relative(home, join(folder, name))),
        wrong: 'The file is not named as a session is (YYYY-MM-DD-ID.json in the folder of its year).',
        done: 'Nothing was changed.',
      })),
  )
}
