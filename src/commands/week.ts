import type { Logbook } from '../logbook/model.ts'
import { readMornings } from '../logbook/mornings.ts'
import { isNamedAfter, planIn } from '../logbook/ownTexts.ts'
import { dueOf, type Plan, wordsOn } from '../plan/model.ts'
import { painProgress, painsNoted } from '../progress/pain.ts'
import {
  type CalendarDay,
  type PlannedWeek,
  plannedDay,
  runLiftGaps,
  type Week,
  weekOf,
  weekPage,
} from '../progress/week.ts'
import { isoWeekOf } from '../progress/weeks.ts'
import { dayAfter } from '../units/calendarDate.ts'
import { metersOf } from '../units/length.ts'
import { CommandError, type CommandInput, type ExitCode, parseDate, show } from './command.ts'
import { type Context, contextOf, reportDamages } from './context.ts'
import { doneOf, isReadyFor, meantWith, type ReadyDay, readyDays } from './preparedDays.ts'

/** The last Sunday of the calendar. */
const lastDay = '9999-12-26'

/** Prints a week on one page: the days done and the days planned.
 * @throws CommandError for an invalid date */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io } = input
  const context = contextOf(input)
  const advice = 'Write any day of the week, as in 2026-11-26.'
  const day = parseDate(input.words[0], '1970', advice) ?? context.today
  if (day > lastDay)
    throw new CommandError('bad_date', `The week of ${day} ends after the year 9999. ${advice}`, { exit: 2 })
  const plan = planIn(input.logbookDir)
  const week = calendarWeek(context, day, plan)
  const { logbook, units } = context
  const status = reportDamages(io, logbook)
  const planned = plannedIn(plan, logbook, week)
  show(input, { ...week, planned }, weekPage(week, units.distance, Math.min(io.columns, 110), planned))
  return status
}

function calendarWeek(context: Context, day: string, plan: Plan | null): Week {
  const { today, settings, logbook, entries, warmUpOf, maxima } = context
  const { week, monday } = isoWeekOf(day)
  const sunday = dayAfter(monday, 6)
  const ready = readyDays(context)
  const planned = ({ file, prescription }: ReadyDay) => ({
    file,
    ...plannedDay(prescription, warmUpOf, maxima),
  })
  const calendarDay = (offset: number): CalendarDay => {
    const date = dayAfter(monday, offset)
    const ofDate = entries.filter((entry) => entry.date === date).reverse()
    const done = ofDate.flatMap((entry) => doneOf(context, entry))
    return {
      date,
      done: done.map(({ day }) => day),
      ready: ready.days.filter(({ prescription }) => isReadyFor(date, prescription, ofDate)).map(planned),
      gaps: runLiftGaps(done.map(({ summary }) => summary)),
    }
  }
  const days = [0, 1, 2, 3, 4, 5, 6].map(calendarDay)
  // What has no date is not for a week that is over.
  const isOver = sunday < today
  const undated = ready.days.filter(({ prescription }) => prescription.date === null)
  const pains = painsNoted(entries, readMornings(logbook.directory).typed)
  const meant = meantWith(context)
  const ahead = (of: Plan) =>
    days
      .filter(({ date, done, ready }) => date >= today && done.length === 0 && ready.length === 0)
      .map(({ date }) => ({ date, ...meant(wordsOn(of, date)) }))
  return weekOf(
    {
      week,
      days,
      undated: isOver ? [] : undated.map(planned),
      unreadable: isOver ? [] : ready.unreadable,
      pain: painProgress(pains, { from: monday, to: sunday }).places,
      due: dueOf(settings.rotation, entries),
    },
    [calendarDay(-2), calendarDay(-1)],
    plan?.race ? { on: plan.race.date, ahead: ahead(plan) } : null,
  )
}

/** Null without a plan, or with one that does not mention this week. */
function plannedIn(plan: Plan | null, logbook: Logbook, { days }: Week): PlannedWeek | null {
  if (plan === null) return null
  const files = logbook.prescriptions().map(({ name }) => name)
  const named = days.map(({ date }) => {
    const words = wordsOn(plan, date)
    return { date, words, files: files.filter((file) => words.some((word) => isNamedAfter(file, word))) }
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
