import { unlessRefused } from '../logbook/errors.ts'
import { isNamedOn, readOwnText } from '../logbook/ownTexts.ts'
import { dueOf, type Plan, wordsOn } from '../plan/model.ts'
import { readPlan } from '../plan/read.ts'
import { blockLines, blockOf, blockPicture } from '../progress/block.ts'
import { type Page, pageColumns } from '../progress/overview.ts'
import { painsOfWeek } from '../progress/pain.ts'
import { type CalendarDay, plannedIn, type Week, weekOf, weekPage } from '../progress/week.ts'
import { daysOf, isoWeekOf } from '../progress/weeks.ts'
import { dayAfter } from '../units/calendarDate.ts'
import { joined } from '../units/lists.ts'
import type { DistanceUnit } from '../units/model.ts'
import type { Known } from './known.ts'
import { hardByPlan, readyDays, readyOn } from './readyDays.ts'

/** The week of a day: what was done, is ready and was planned. */
export function calendarWeek(known: Known, day: string): Week {
  const { today, settings, entries, plan } = known
  const { week, monday, sunday } = isoWeekOf(day)
  const ready = readyDays(known)
  const calendarDay = (date: string): CalendarDay => {
    const ofDate = entries.filter((entry) => entry.date === date).reverse()
    return {
      date,
      done: ofDate.map(({ id, finished, day }) => ({ id, finished, ...day })),
      ready: readyOn(date, ready.days, known),
    }
  }
  const days = daysOf(monday).map(calendarDay)
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
      pain: painsOfWeek(known.pains, { from: monday, to: sunday }, today),
      due: dueOf(settings.rotation, entries),
      planned: plan && plannedDays(plan, known, days),
    },
    daysOf(dayAfter(monday, -7)).map(calendarDay),
  )
}

/** What the plan names on each day; null for a week that it does not mention, and for one that was over before the
 * first that it dates, when nothing was planned. */
function plannedDays(plan: Plan, { logbook, today }: Known, days: readonly CalendarDay[]) {
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

/** The block of training, planned and done. */
export function planPage(known: Known, plan: Plan, unit: DistanceUnit): Page {
  const { entries, today } = known
  const figures = blockOf(plan, entries, today, hardByPlan(known).isHardOnLegs)
  const lines = (columns: number) => blockLines(figures, plan, unit, columns, today)
  return { figures, lines, picture: blockPicture(figures, unit) }
}

/** This week, then the plan, or why it cannot be read; nothing of it without a plan. */
export function weekAndPlan(known: Known, columns: number): string {
  const { today, units, plan } = known
  const unit = units.distance
  const week = weekPage(calendarWeek(known, today), unit, columns)
  if (plan !== null) return [week, ...planPage(known, plan, unit).lines(pageColumns(columns))].join('\n')
  return joined('\n', [week, planProblem(known)])
}

/** Why the plan cannot be read; null for one that can be, and without one. */
export function planProblem({ plan, logbook }: Known): string | null {
  if (plan !== null) return null
  return unlessRefused(
    () => {
      const text = readOwnText(logbook.directory, 'plan.txt')
      const reading = text === null ? null : readPlan(text)
      if (reading === null || 'plan' in reading) return null
      const [first] = reading.problems
      return `plan.txt, line ${first?.line}: ${first?.message}. "pausebook plan" shows every problem.`
    },
    ({ message }) => message,
  )
}
