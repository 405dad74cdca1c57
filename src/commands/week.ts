import { warmUpFor } from '../app/earlierDays.ts'
import { maximaOn } from '../logbook/earlierLoads.ts'
import { unlessRefused } from '../logbook/errors.ts'
import { contextOn } from '../logbook/index.ts'
import { todayOf } from '../logbook/machine.ts'
import type { IndexEntry, Logbook } from '../logbook/model.ts'
import { readMornings } from '../logbook/mornings.ts'
import { planIn } from '../logbook/ownTexts.ts'
import type { Settings } from '../logbook/settings.ts'
import { openLogbook } from '../logbook/store.ts'
import { type Plan, wordsOn } from '../plan/model.ts'
import type { Prescription } from '../prescription/model.ts'
import type { ReadingDefaults } from '../prescription/reader.ts'
import { painProgress, painsNoted } from '../progress/pain.ts'
import { dueOf } from '../progress/rotation.ts'
import {
  type CalendarDay,
  doneDay,
  type PlannedWeek,
  plannedDay,
  runLiftGaps,
  type Week,
  weekOf,
  weekPage,
} from '../progress/week.ts'
import { isoWeekOf } from '../progress/weeks.ts'
import { jsonOf } from '../summary/json.ts'
import { figuresOf } from '../summary/summarise.ts'
import { dayAfter } from '../units/calendarDate.ts'
import { metersOf } from '../units/length.ts'
import { CommandError, type CommandInput, type ExitCode } from './command.ts'
import { loadSettings, unitsOf } from './loadSettings.ts'
import { dayAt, meantWith } from './planWords.ts'
import { indexOf, parseDate, reportDamages } from './sessionsRead.ts'

/** The last Sunday of the calendar. */
const lastDay = '9999-12-26'

/** Prints a week on one page: the days done and the days planned.
 * @throws CommandError for an invalid date */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io } = input
  const today = todayOf(io.now())
  const advice = 'Write any day of the week, as in 2026-11-26.'
  const day = parseDate(input.words[0], '1970', advice) ?? today
  if (day > lastDay)
    throw new CommandError('bad_date', `The week of ${day} ends after the year 9999. ${advice}`, { exit: 2 })
  const { week: name, monday } = isoWeekOf(day)
  const settings = loadSettings(input)
  const logbook = openLogbook(input.logbookDir)
  const entries = indexOf(io, logbook)
  const maxima = maximaOn(entries, today)
  const ready = readyDays(logbook, { units: settings.units, maxima })
  const warmUpOf = warmUpFor(settings, maxima)
  const planned = ({ file, prescription }: ReadyDay) => ({
    file,
    ...plannedDay(prescription, warmUpOf, maxima),
  })
  const plan = planIn(input.logbookDir)
  const calendarDay = (offset: number): CalendarDay => {
    const date = dayAfter(monday, offset)
    const done = entries.filter((entry) => entry.date === date).reverse()
    const isDone = (title: string) => done.some((entry) => entry.brief.title === title)
    return {
      date,
      done: done.flatMap((entry) => doneOf(logbook, entry, settings)),
      ready: ready.days
        .filter(({ prescription }) => prescription.date === date && !isDone(prescription.title))
        .map(planned),
      gaps: runLiftGaps(done.flatMap((entry) => entry.summary() ?? [])),
    }
  }
  const days = [0, 1, 2, 3, 4, 5, 6].map(calendarDay)
  // What has no date is not for a week that is over.
  const isOver = dayAfter(monday, 6) < today
  const wordsMean = meantWith(logbook, settings, maxima)
  const ahead = (of: Plan) =>
    days
      .filter(({ date, done, ready }) => date >= today && done.length === 0 && ready.length === 0)
      .map(({ date }) => ({ date, ...wordsMean(wordsOn(of, date)) }))
  const week = weekOf(
    {
      week: name,
      days,
      undated: isOver ? [] : ready.days.filter(({ prescription }) => prescription.date === null).map(planned),
      unreadable: isOver ? [] : ready.unreadable,
      pain: painProgress(painsNoted(entries, readMornings(input.logbookDir).typed), {
        from: monday,
        to: dayAfter(monday, 6),
      }).places,
      due: dueOf(settings.rotation, entries),
    },
    [calendarDay(-2), calendarDay(-1)],
    plan?.race ? { on: plan.race.date, ahead: ahead(plan) } : null,
  )
  const status = reportDamages(io, logbook)
  const unit = unitsOf(input, settings).distance
  const meant = plannedIn(plan, logbook, week)
  io.out(
    input.json ? jsonOf({ ...week, planned: meant }) : weekPage(week, unit, Math.min(io.columns, 110), meant),
  )
  return status
}

/** Null without a plan, or with one that does not mention this week. */
function plannedIn(plan: Plan | null, logbook: Logbook, { days }: Week): PlannedWeek | null {
  if (plan === null) return null
  const files = logbook.prescriptions().map(({ name }) => name)
  const named = days.map(({ date }) => {
    const words = wordsOn(plan, date)
    const isNamed = (file: string) =>
      words.some((word) => file.replace(/\.\w+$/, '').toLowerCase() === word.toLowerCase())
    return { date, words, files: files.filter(isNamed) }
  })
  const line = plan.weeks.find(({ monday }) => monday === days[0]?.date)
  if (line === undefined && named.every(({ words }) => words.length === 0)) return null
  return {
    meters: line?.distance ? metersOf(line.distance) : null,
    longMeters: line?.long ? metersOf(line.long) : null,
    kind: line?.kind ?? null,
    notes: line?.notes ?? [],
    days: named,
  }
}

interface ReadyDay {
  file: string
  prescription: Prescription
}

function readyDays(logbook: Logbook, defaults: ReadingDefaults): { days: ReadyDay[]; unreadable: string[] } {
  const days: ReadyDay[] = []
  const unreadable: string[] = []
  for (const { name, path } of logbook.prescriptions()) {
    const prescription = dayAt(path, defaults)
    if (prescription === null) unreadable.push(name)
    else days.push({ file: name, prescription })
  }
  return { days, unreadable }
}

/** Whether a hard day is prepared for a date and no session with its title was done on it. */
export function isHardReady(
  logbook: Logbook,
  settings: Settings,
  entries: readonly IndexEntry[],
  date: string,
): boolean {
  const maxima = maximaOn(entries, date)
  const warmUpOf = warmUpFor(settings, maxima)
  return readyDays(logbook, { units: settings.units, maxima }).days.some(
    ({ prescription }) =>
      prescription.date === date &&
      !entries.some((entry) => entry.date === date && entry.brief.title === prescription.title) &&
      plannedDay(prescription, warmUpOf, maxima).isHard,
  )
}

/** Empty for a session that can no longer be read; the logbook reports it. */
export function doneOf(logbook: Logbook, entry: IndexEntry, settings: Settings): CalendarDay['done'] {
  return unlessRefused(
    () => {
      const { state, summary } = figuresOf(logbook.read(entry.id).session, contextOn(settings, entry.date))
      return [{ id: entry.id, finished: entry.finished, ...doneDay(state, summary, settings.hrMax) }]
    },
    () => [],
  )
}
