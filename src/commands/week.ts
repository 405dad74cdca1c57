import { calendarWeek, planProblem } from '../app/weekAndPlan.ts'
import { weekPage } from '../progress/week.ts'
import { isoWeekOf } from '../progress/weeks.ts'
import { CommandError, type CommandInput, type ExitCode, fitted, parseDate, show } from './command.ts'
import { contextOf } from './context.ts'

/** The last Sunday of the calendar. */
const lastDay = '9999-12-26'

/** Prints a week on one page: the days done and the days planned.
 * @throws CommandError for an invalid date */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io } = input
  const context = contextOf(input)
  const advice = 'Write any day of the week, as in 2026-11-26, or the week, as in 2026-W48.'
  const asked = input.words[0]
  const day = parseDate(asked && dayInWeek(asked), '1970', advice) ?? context.today
  if (day > lastDay)
    throw new CommandError('bad_date', `The week of ${day} ends after the year 9999. ${advice}`, { exit: 2 })
  const problem = planProblem(context)
  if (problem !== null) io.err(`pausebook: ${problem} The week is shown without it.\n`)
  const week = calendarWeek(context, day)
  const { units } = context
  show(input, week, fitted(weekPage(week, units.distance, io.columns), io))
  return 0
}

/** The Monday of a week of ISO 8601, `2026-W48`; any other text, and a week that its year does not have, as it is. */
function dayInWeek(text: string): string {
  if (!/^\d{4}-W(?:0[1-9]|[1-4]\d|5[0-3])$/.test(text)) return text
  const { week, monday } = isoWeekOf(text)
  return week === text ? monday : text
}
