import { groups } from 'd3-array'
import { type Morning, mergedEvents, morningsOf, type TypedMorning, typedMornings } from '../plan/morning.ts'
import type { MorningEvent } from '../plan/morningModel.ts'
import { hasSign } from '../session/pain.ts'
import type { Damage } from './errors.ts'
import { morningsShape } from './generated/shapes.js'
import { yearsOfMornings } from './logbookFiles.ts'
import { type Machine, thisMachine } from './machine.ts'
import { changeStored, type ExchangedKind, fitting, loadStored, printEvents } from './storedFile.ts'
import { morningFormat } from './text.ts'

/* The mornings of a logbook: one file a year, written whole and durably at every change, like a session. */

/** A year of mornings: what was typed, in order. */
export const morningsKind: ExchangedKind<MorningEvent[]> = {
  what: 'mornings',
  format: morningFormat,
  read: (content) => {
    const read = fitting<{ events: MorningEvent[] }>(morningsShape(), content)
    return typeof read === 'string' ? { wrong: read } : { value: read.events }
  },
  print: printMornings,
  union: (one, other) => {
    const all = mergedEvents(one, other)
    // Merged with itself, so that an undoing of nothing does not count.
    return [one, other].find((each) => mergedEvents(each, each).length === all.length) ?? all
  },
  absent: [],
}

/** A year of mornings as its file holds it. */
export function printMornings(events: readonly MorningEvent[]): string {
  return printEvents({ format: morningFormat, events })
}

/** Every morning, in order of dates; `typed`: what was typed for them, with the times. If a file is ruined, its
 * previous copy counts. Reading changes nothing.
 * @returns in `damages` the files that cannot be read, and a folder that cannot be listed */
export function readMornings(logbook: string): {
  mornings: Morning[]
  typed: TypedMorning[]
  damages: Damage[]
} {
  const damages: Damage[] = []
  const files = yearsOfMornings(logbook, (damage) => damages.push(damage))
  const events = files.flatMap((file) => {
    const { value, damage } = loadStored(logbook, file, morningsKind)
    if (damage !== null) damages.push(damage)
    return value ?? []
  })
  return { mornings: morningsOf(events, hasSign), typed: typedMornings(events), damages }
}

/** Adds what was typed for mornings, one year after the other. It is on the disk when this returns; the previous files
 * are kept as `.bak`.
 * @throws LogbookError `damaged` for a file that cannot be read, which is left as it is; `locked`, `cannot_write` */
export function addMornings(
  logbook: string,
  events: readonly MorningEvent[],
  machine: Machine = thisMachine(),
): void {
  for (const [year, ofYear] of groups(events, ({ date }) => date.slice(0, 4)))
    changeStored(logbook, `mornings/${year}.json`, morningsKind, machine, (known) => [...known, ...ofYear])
}
