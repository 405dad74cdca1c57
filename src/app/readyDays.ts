import { sort } from 'd3-array'
import { isNamedAfter, readDayAt } from '../logbook/ownTexts.ts'
import { isHardOnLegs, isHardWord, wordsOn } from '../plan/model.ts'
import { plannedDay } from '../summary/day.ts'
import { plannedOn } from './choices.ts'
import type { Known } from './known.ts'

/* The days that are prepared as files, what they hold, and when. */

/** Whether a word of the plan means a hard day, or one that is hard on the legs: by the day file named after it, else by
 * the word itself. This program's own rule. */
export function hardByPlan(known: Known) {
  const { days } = readyDays(known)
  const dayNamed = (word: string) => days.findLast(({ file }) => isNamedAfter(file, word))
  return {
    isHard: (word: string) => dayNamed(word)?.isHard ?? isHardWord(word),
    isHardOnLegs: (word: string) => {
      const day = dayNamed(word)
      return day === undefined ? isHardOnLegs(word) : day.heavyLegSets > 0 || day.special === 'long run'
    },
  }
}

type ReadyDay = ReturnType<typeof readyDays>['days'][number]

/** The prescriptions of the logbook, and the names of those with problems. */
export function readyDays({ logbook, settings, maxima, warmUpOf }: Known) {
  const read = logbook.prescriptions().map(({ name, path }) => {
    const reading = readDayAt(path, { units: settings.units, maxima })
    return { file: name, day: 'prescription' in reading ? reading.prescription : null }
  })
  return {
    days: read.flatMap(({ file, day }) =>
      day === null ? [] : { file, date: day.date, ...plannedDay(day, warmUpOf, maxima) },
    ),
    unreadable: read.flatMap(({ file, day }) => (day === null ? file : [])),
  }
}

/** The days prepared for a date: by their own date or, from today on, by the words of the plan that name their files.
 * Leaves out a day that was done then, by its title, and one in whose place a dated day has the same title. */
export function readyOn(
  date: string,
  days: readonly ReadyDay[],
  { today, entries, plan }: Known,
): ReadyDay[] {
  const dated = days.filter((day) => day.date === date)
  const words = plan === null || date < today ? [] : wordsOn(plan, date)
  const named = words.length === 0 ? [] : plannedOn(date, days, plan, ({ file }) => file)
  // In the order of the words, because the run comes before the lift.
  const planned = sort(named, ({ file }) => words.findIndex((word) => isNamedAfter(file, word)))
  const done = entries.filter((entry) => entry.date === date).map(({ brief }) => brief.title)
  return [...dated, ...planned].filter(({ title }) => !done.includes(title))
}

/** Whether a hard day is prepared for today and not done yet. */
export function isHardReady(known: Known): boolean {
  const { days } = readyDays(known)
  return readyOn(known.today, days, known).some(({ isHard }) => isHard)
}
