import { basename, dirname, join } from 'node:path'
import { type Morning, morningsOf, type TypedMorning, typedMornings } from '../plan/morning.ts'
import type { MorningEvent } from '../plan/morningModel.ts'
import { faultsIn } from '../validate/faults.ts'
import { makeFolder, readWithCopy, replaceDamaged, restoredText, writeDurably } from './durableFile.ts'
import { LogbookError, reasonOf } from './errors.ts'
import { morningsShape } from './generated/shapes.js'
import { withLock } from './lock.ts'
import { isYearOfMornings } from './logbookFiles.ts'
import { type Machine, thisMachine } from './machine.ts'
import type { Damage } from './model.ts'
import { namesIn } from './sessionName.ts'
import { faultText, morningFormat, printableValueOf, readStored, sealed, type Wrong, zeros } from './text.ts'

/* The mornings of a logbook: one file a year, written whole and durably at every change, like a session. */

interface MorningsReading {
  mornings: Morning[]
  /** What they were typed as, with the times. */
  typed: TypedMorning[]
  /** Files that cannot be read, and a folder that cannot be listed. Reading changes nothing. */
  damages: Damage[]
  /** Files without a checksum, relative to the logbook. */
  unsealed: string[]
}

/** Every morning, in order of dates. If a file is ruined, its previous copy counts. */
export function readMornings(logbook: string): MorningsReading {
  const damages: Damage[] = []
  const unsealed: string[] = []
  const files = filesIn(logbook, (damage) => damages.push(damage))
  const events = files.flatMap((file) => {
    const { events, wrong, isEarlier, isSealed } = readYear(logbook, file)
    if (!isSealed) unsealed.push(file)
    if (wrong !== null) {
      const done = isEarlier
        ? `Nothing was changed; the previous copy, ${basename(file)}.bak, is used. "pausebook verify --repair" restores it.`
        : 'Nothing was changed.'
      damages.push({ file, wrong: `The file ${wrong}.`, done })
    }
    return events
  })
  return { mornings: morningsOf(events), typed: typedMornings(events), damages, unsealed }
}

/** Restores the previous copy of a ruined year of mornings.
 * @param damage as `readMornings` found it
 * @returns the damage and what was done */
export function repairMornings(logbook: string, damage: Damage, machine: Machine): Damage {
  const { file } = damage
  if (!isYearOfMornings(file)) return damage
  const path = join(logbook, file)
  try {
    return withLock(`${path}.lock`, machine, () => {
      const { events, isEarlier } = readYear(logbook, file)
      if (!isEarlier) return damage
      const aside = replaceDamaged(path, printMornings(events))
      return { ...damage, done: `${restoredText(aside)} the previous copy.` }
    })
  } catch (error) {
    return { ...damage, done: `Nothing was changed: ${reasonOf(error)}.` }
  }
}

/** Adds a morning, which is on the disk when this returns; the previous file is kept as `.bak`.
 * @throws LogbookError `damaged` for a file that cannot be read, which is left as it is; `locked`, `cannot_write` */
export function addMorning(logbook: string, event: MorningEvent, machine: Machine = thisMachine()): void {
  addMornings(logbook, [event], machine)
}

/** Adds many mornings, one year after the other.
 * @throws LogbookError as `addMorning`; it says which years are already saved */
export function addMornings(logbook: string, events: readonly MorningEvent[], machine: Machine): void {
  const years = [...new Set(events.map(({ date }) => date.slice(0, 4)))].sort()
  years.forEach((year, index) => {
    try {
      const ofYear = events.filter(({ date }) => date.startsWith(year))
      addToYear(logbook, `mornings/${year}.json`, ofYear, machine)
    } catch (error) {
      const saved = index === 0 ? 'It is as before.' : `Saved are ${years.slice(0, index).join(', ')}.`
      if (error instanceof LogbookError && index > 0)
        throw new LogbookError(error.code, `${error.message} ${saved}`)
      if (error instanceof LogbookError || (error as NodeJS.ErrnoException).code === undefined) throw error
      throw new LogbookError('cannot_write', `The morning cannot be saved: ${reasonOf(error)}. ${saved}`)
    }
  })
}

/** Writes a year of mornings again with more of them, or with none to give its file a checksum.
 * @param file `mornings/YYYY.json`
 * @throws LogbookError `damaged`, `locked`, and the system's errors */
export function addToYear(
  logbook: string,
  file: string,
  events: readonly MorningEvent[],
  machine: Machine,
): void {
  const path = join(logbook, file)
  makeFolder(dirname(path))
  withLock(`${path}.lock`, machine, () => {
    const reading = readYear(logbook, file)
    if (reading.wrong !== null) {
      const advice = reading.isEarlier
        ? '"pausebook verify --repair" restores the previous copy'
        : 'Correct it or move it away'
      const message = `${file} ${reading.wrong}. ${advice}; nothing was changed.`
      throw new LogbookError('damaged', message)
    }
    writeDurably(path, printMornings([...reading.events, ...events]), true)
  })
}

/** The years of which there is a file or a previous copy, `mornings/YYYY.json` each. */
function filesIn(logbook: string, onDamage: (damage: Damage) => void): string[] {
  const names = namesIn(logbook, join(logbook, 'mornings'), onDamage)
  const files = names.map((name) => `mornings/${name.replace(/\.bak$/, '')}`)
  return [...new Set(files)].filter(isYearOfMornings).sort()
}

interface YearReading {
  events: MorningEvent[]
  /** The end of a sentence; null if the file is sound or missing. */
  wrong: string | null
  /** The events are those of the previous copy. */
  isEarlier: boolean
  /** It has its checksum; also true if the file is missing or damaged. */
  isSealed: boolean
}

function readYear(logbook: string, path: string): YearReading {
  const { file, copy } = readWithCopy(join(logbook, path), parseMornings)
  if (file !== null && 'events' in file) return { ...file, wrong: null, isEarlier: false }
  if (copy !== null && 'events' in copy)
    return { events: copy.events, wrong: file?.wrong ?? 'is gone', isEarlier: true, isSealed: true }
  const wrong = copy === null ? null : `is gone, and the previous copy (${basename(path)}.bak) ${copy.wrong}`
  return { events: [], wrong: file?.wrong ?? wrong, isEarlier: false, isSealed: true }
}

/** Parses a file's text, or says what is wrong with it. */
export function parseMornings(text: string): { events: MorningEvent[]; isSealed: boolean } | Wrong {
  const stored = readStored(text, 'mornings', morningFormat)
  if ('wrong' in stored) return stored
  const printable = printableValueOf(stored.content)
  const [fault] = faultsIn(morningsShape(), printable, 1)
  if (fault !== undefined) return { wrong: faultText(fault, printable) }
  return { events: (printable as { events: MorningEvent[] }).events, isSealed: stored.isSealed }
}

/** A year of mornings as its file holds it, one morning a line, with its checksum. */
export function printMornings(events: readonly MorningEvent[]): string {
  const lines = events.map((event) => JSON.stringify(event)).join(',\n')
  return sealed(`{\n"format": ${morningFormat},\n"checksum": "${zeros}",\n"events": [\n${lines}\n]\n}\n`)
}
