import { LogbookError } from '../logbook/errors.ts'
import { isNamedOn } from '../logbook/ownTexts.ts'
import { dueOf, type Plan, wordsOn } from '../plan/model.ts'
import { painProgress } from '../progress/pain.ts'
import { type CalendarDay, plannedIn, type Week, weekOf, weekPage } from '../progress/week.ts'
import { isoWeekOf } from '../progress/weeks.ts'
import { dayAfter } from '../units/calendarDate.ts'
import { CommandError, type CommandInput, type ExitCode, fitted, parseDate, show } from './command.ts'
import { type Context, contextOf, parsePlan } from './context.ts'
import { readyDays, readyOn } from './readyDays.ts'

/** The last Sunday of the calendar. */
const lastDay = '9999-12-26'

/** Prints a week on one page: the days done and the days planned.
 * @throws CommandError for an invalid date */
export async function run(input: CommandInput, context = contextOf(input)): Promise<ExitCode> {
  const { io } = input
  const advice = 'Write any day of the week, as in 2026-11-26.'
  const day = parseDate(input.words[0], '1970', advice) ?? context.today
  if (day > lastDay)
    throw new CommandError('bad_date', `The week of ${day} ends after the year 9999. ${advice}`, { exit: 2 })
  const plan = planFor(input)
  const week = calendarWeek(context, day, plan)
  const { units } = context
  show(input, week, fitted(weekPage(week, units.distance, Math.min(io.columns, 110)), io))
  return 0
}

/** Null without a plan, and for one that cannot be read, which is reported. */
function planFor({ io, logbookDir }: CommandInput): Plan | null {
  try {
    return parsePlan(logbookDir)?.plan ?? null
  } catch (error) {
    if (!(error instanceof CommandError || error instanceof LogbookError)) throw error
    io.err(`pausebook: ${error.message} The week is shown without it.\n`)
    return null
  }
}

function calendarWeek(context: Context, day: string, plan: Plan | null): Week {
  const { today, settings, entries } = context
  const { week, monday } = isoWeekOf(day)
  const sunday = dayAfter(monday, 6)
  const ready = readyDays(context)
  const calendarDay = (offset: number): CalendarDay => {
    const date = dayAfter(monday, offset)
    const ofDate = entries.filter((entry) => entry.date === date).reverse()
    return {
      date,
      done: ofDate.map(({ id, finished, day }) => ({ id, finished, ...day })),
      ready: readyOn(date, ready.days, context, plan),
    }
  }
  const days = [0, 1, 2, 3, 4, 5, 6].map(calendarDay)
  // Days without a date are not offered for a week that is over.
  const isOver = sunday < today
  const undated = ready.days.filter(
    ({ file, date }) => date === null && !days.some((day) => isNamedOn(plan, day.date, file)),
  )
  return weekOf(
    {
      week,
      days,
      undated: isOver ? [] : undated,
      unreadable: isOver ? [] : ready.unreadable,
      pain: painProgress(context.pains, { from: monday, to: sunday }).places,
      due: dueOf(settings.rotation, entries),
      planned: plan && plannedDays(plan, context, days),
    },
    [calendarDay(-2), calendarDay(-1)],
  )
}

/** Null for a week that the plan does not mention, and for one that was over before the first one that it dates:
 * nothing was planned then. */
function plannedDays(plan: Plan, { logbook, today }: Context, days: readonly CalendarDay[]) {
  const begins = plan.weeks[0]?.monday ?? ''
  const files = logbook.prescriptions().map(({ name }) => name)
  const named = days.map(({ date }) => {
    const words = wordsOn(plan, date)
    return { date, words, files: files.filter((file) => isNamedOn(plan, date, file)) }
  })
  const monday = days[0]?.date ?? ''
  const isMentioned =
    plan.weeks.some((week) => week.monday === monday) || named.some(({ words }) => words.length > 0)
  const isAfterBegin = days.some(({ date }) => date >= today || date >= begins)
  return isMentioned && isAfterBegin ? { ...plannedIn(plan, monday), days: named } : null
}
