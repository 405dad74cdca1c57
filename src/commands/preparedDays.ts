import { remembered } from '../app/earlierDays.ts'
import { readable } from '../app/nextDay.ts'
import { readDayAt } from '../app/ownTexts.ts'
import { contextOn } from '../logbook/index.ts'
import type { IndexEntry } from '../logbook/model.ts'
import { isNamedAfter } from '../logbook/ownTexts.ts'
import { type DayMeant, meantByWords } from '../plan/model.ts'
import type { Prescription } from '../prescription/model.ts'
import { type CalendarDay, doneDay, legsOf, plannedDay } from '../progress/week.ts'
import type { Summary } from '../summary/model.ts'
import { figuresOf } from '../summary/summarise.ts'
import type { Context } from './context.ts'

/* The days of a week: those prepared as files, and those done. */

/** A prescription of the logbook; null for a file with problems or one that cannot be read. */
function dayAt(path: string, { settings, maxima }: Context): Prescription | null {
  const reading = readDayAt(path, { units: settings.units, maxima })
  return 'prescription' in reading ? reading.prescription : null
}

/** What the words of a day of the plan mean: by the day file named after a word, else by the word itself. This
 * program's own rule. */
export function meantWith(context: Context): (words: readonly string[]) => DayMeant {
  const files = context.logbook.prescriptions()
  const meantBy = remembered((word: string): DayMeant => {
    const file = files.findLast(({ name }) => isNamedAfter(name, word))
    const prescription = file === undefined ? null : dayAt(file.path, context)
    if (prescription === null) return meantByWords([word])
    const day = plannedDay(prescription, context.warmUpOf, context.maxima)
    return { isHard: day.isHard, ...legsOf(day) }
  })
  return (words) => {
    const all = words.map((word) => meantBy(word))
    return {
      isHard: all.some(({ isHard }) => isHard),
      isHeavyLegs: all.some(({ isHeavyLegs }) => isHeavyLegs),
      isLong: all.some(({ isLong }) => isLong),
    }
  }
}

export interface ReadyDay {
  file: string
  prescription: Prescription
}

/** The prescriptions of the logbook, and the names of those with problems. */
export function readyDays(context: Context): { days: ReadyDay[]; unreadable: string[] } {
  const days: ReadyDay[] = []
  const unreadable: string[] = []
  for (const { name, path } of context.logbook.prescriptions()) {
    const prescription = dayAt(path, context)
    if (prescription === null) unreadable.push(name)
    else days.push({ file: name, prescription })
  }
  return { days, unreadable }
}

/** Whether a day is prepared for a date, and no session with its title was done on it. */
export function isReadyFor(
  date: string,
  { title, date: planned }: Prescription,
  entries: Context['entries'],
) {
  return planned === date && !entries.some((entry) => entry.date === date && entry.brief.title === title)
}

/** Whether a hard day is prepared for today and not done yet. */
export function isHardReady(context: Context): boolean {
  const { today, entries, warmUpOf, maxima } = context
  return readyDays(context).days.some(
    ({ prescription }) =>
      isReadyFor(today, prescription, entries) && plannedDay(prescription, warmUpOf, maxima).isHard,
  )
}

/** A session as a day of the calendar, and its summary. Empty for one that can no longer be read; the logbook reports
 * it. */
export function doneOf(
  { logbook, settings }: Context,
  entry: IndexEntry,
): { day: CalendarDay['done'][number]; summary: Summary }[] {
  const session = readable(logbook, entry)
  if (session === null) return []
  const { state, summary } = figuresOf(session, contextOn(settings, entry.date))
  const day = { id: entry.id, finished: entry.finished, ...doneDay(state, summary, settings.hrMax) }
  return [{ day, summary }]
}
