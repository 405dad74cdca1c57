import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { type Morning, type MorningEvent, morningsOf } from '../plan/morning.ts'
import { faultsIn } from '../validate/faults.ts'
import { sealed, sealOf, unsealed, wrongSeal } from './checksum.ts'
import { makeFolder, writeDurably } from './durableFile.ts'
import { LogbookError, reasonOf } from './errors.ts'
import { morningsShape } from './generated/shapes.js'
import { withLock } from './lock.ts'
import { type Machine, thisMachine } from './machine.ts'
import type { Damage } from './model.ts'
import { morningFormat } from './morningFormat.ts'
import { faultText, printableValueOf, readObject, readTextFile, UnreadableFile } from './text.ts'

/* The mornings of a logbook: a file a year, written whole and durably at every change, as a session is. */

/** Every morning, in order of dates, and the files that cannot be read; those are left alone. */
export function readMornings(logbook: string): { mornings: Morning[]; damages: Damage[] } {
  const damages: Damage[] = []
  const events = yearsIn(logbook).flatMap((year) => {
    const reading = readYear(logbook, year)
    if ('events' in reading) return reading.events
    damages.push({
      file: `mornings/${year}.json`,
      wrong: `The file ${reading.wrong}.`,
      done: 'It was left alone.',
    })
    return []
  })
  return { mornings: morningsOf(events), damages }
}

/** Adds what was typed, on the disk when it returns; the file before it is kept as `.bak`.
 * @throws LogbookError `damaged` for a file that cannot be read, which is left as it is; `locked`, `cannot_write` */
export function addMorning(logbook: string, event: MorningEvent, machine: Machine = thisMachine()): void {
  const year = event.date.slice(0, 4)
  const path = join(logbook, 'mornings', `${year}.json`)
  try {
    makeFolder(join(logbook, 'mornings'))
    withLock(`${path}.lock`, machine, () => {
      const reading = readYear(logbook, year)
      if ('wrong' in reading) {
        const message = `mornings/${year}.json ${reading.wrong}. Mend it or move it away; it was left alone.`
        throw new LogbookError('damaged', message)
      }
      writeDurably(path, printMornings([...reading.events, event]), true)
    })
  } catch (error) {
    if (error instanceof LogbookError || (error as NodeJS.ErrnoException).code === undefined) throw error
    throw new LogbookError(
      'cannot_write',
      `The morning cannot be saved: ${reasonOf(error)}. It is as before.`,
    )
  }
}

function yearsIn(logbook: string): string[] {
  try {
    return readdirSync(join(logbook, 'mornings'))
      .flatMap((name) => /^(\d{4})\.json$/.exec(name)?.[1] ?? [])
      .sort()
  } catch {
    return []
  }
}

/** `wrong` is the end of a sentence. A year without a file has no events. */
function readYear(logbook: string, year: string): { events: MorningEvent[] } | { wrong: string } {
  try {
    const text = readTextFile(join(logbook, 'mornings', `${year}.json`))
    return text === null ? { events: [] } : parseMornings(text)
  } catch (error) {
    if (error instanceof UnreadableFile) return { wrong: error.message }
    throw error
  }
}

/** What a file's text holds, or what is wrong with it, as the end of a sentence. */
export function parseMornings(text: string): { events: MorningEvent[] } | { wrong: string } {
  const read = readObject(text)
  if (typeof read === 'string') return { wrong: read.replace('a session', 'mornings') }
  const { format } = read
  if (typeof format === 'number' && Number.isInteger(format) && format > morningFormat) {
    return {
      wrong: `is of format ${format}, written by a newer program; this one reads format ${morningFormat}`,
    }
  }
  if (sealOf(text, read) === 'wrong') return { wrong: wrongSeal }
  const printable = printableValueOf(read)
  const [fault] = faultsIn(morningsShape(), printable, 1)
  if (fault !== undefined) return { wrong: faultText(fault, printable) }
  return { events: (printable as { events: MorningEvent[] }).events }
}

/** A year of mornings as its file holds it, one a line, with its checksum. */
export function printMornings(events: readonly MorningEvent[]): string {
  const lines = events.map((event) => JSON.stringify(event)).join(',\n')
  return sealed(`{\n"format": ${morningFormat},\n"checksum": "${unsealed}",\n"events": [\n${lines}\n]\n}\n`)
}
