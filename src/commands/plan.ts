import { pairs, rollups } from 'd3-array'
import { raceGoalOf } from '../app/overWeeks.ts'
import type { IndexEntry } from '../logbook/model.ts'
import { addOwnText, changeOwnText, ownTextPath, readOwnText } from '../logbook/ownTexts.ts'
import type { Logbook } from '../logbook/store.ts'
import {
  type Plan,
  type PlanDays,
  type PlanRace,
  type Weekday,
  weekdayNamed,
  weekdays,
  wordsOn,
} from '../plan/model.ts'
import { readPlan } from '../plan/read.ts'
import { newPlanText, withDaysSwapped } from '../plan/write.ts'
import { blockLines, blockOf, blockPicture, weeksBack } from '../progress/block.ts'
import { weekDone } from '../progress/load.ts'
import { inWeeks, isIn } from '../progress/weeks.ts'
import { jsonOf } from '../summary/plain.ts'
import { dayAfter, daysBetween, mondayOf, printDate } from '../units/calendarDate.ts'
import { raceLength } from '../units/length.ts'
import { sanitize } from '../validate/unsafe.ts'
import {
  CommandError,
  type CommandInput,
  commandLineError,
  type ExitCode,
  invalid,
  pageColumns,
  show,
} from './command.ts'
import { contextOf, parsePlan, reportDamages } from './context.ts'
import { hardByPlan } from './week.ts'

const example = `For example:
Ten under forty
race: 10 km in 39:30 on 2027-04-18
week: Mon pull, Tue track, Wed push, Thu tempo + legs, Sat legs, Sun long
2026-12-07: 42 km, long 16 km, "first week of threes"`
const usualWeeks = 8
const mostWeeks = 52

/** Shows the block of training, planned and done; writes a first plan; swaps two days of this week.
 * @throws CommandError for a plan with problems, no plan, an invalid option */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io, flags, values } = input
  if (flags.has('new') && flags.has('move'))
    throw commandLineError('--new and --move do not go together. Give one of them.')
  if (input.words.length > 0 && !flags.has('move')) {
    throw commandLineError(`plan takes no words without --move. Leave "${input.words.join(' ')}" out.`)
  }
  if (values.weeks !== undefined && !flags.has('new'))
    throw commandLineError('--weeks needs --new. Write plan --new --weeks 12.')
  if (flags.has('new')) return writeNew(input)
  const { text, plan } = planIn(input)
  if (flags.has('move')) return move(input, text, plan)
  const context = contextOf(input)
  const { today } = context
  const unit = context.units.distance
  const block = blockOf(plan, context.entries, today)
  const status = reportDamages(io, context.logbook)
  if (input.json) io.out(jsonOf(block))
  else if (values.format === 'svg') {
    const { pictureOf } = await import('./progressPicture.ts')
    io.out(pictureOf(blockPicture(block, unit)))
  } else {
    const columns = pageColumns(io)
    io.out(`${blockLines(block, plan, unit, columns, today).join('\n')}\n`)
  }
  return status
}

/** @throws CommandError `no_plan`, and as parsePlan */
function planIn({ logbookDir }: CommandInput): { text: string; plan: Plan } {
  const read = parsePlan(logbookDir)
  if (read === null) {
    const path = ownTextPath(logbookDir, 'plan.txt')
    const message = `There is no plan yet. "pausebook plan --new" writes one, or write ${path} yourself.`
    throw new CommandError('no_plan', message, { details: example })
  }
  return read
}

function writeNew(input: CommandInput): ExitCode {
  const { io, logbookDir } = input
  const path = ownTextPath(logbookDir, 'plan.txt')
  const planExists = `${sanitize(path)} exists already and was left as it is. Move it away first.`
  if (readOwnText(logbookDir, 'plan.txt') !== null) throw new CommandError('plan_exists', planExists)
  const weeksGiven = weeksAsked(input.values.weeks)
  const context = contextOf(input)
  const { today, logbook, entries, units } = context
  const status = reportDamages(io, logbook)
  const monday = mondayOf(today)
  const span = { from: dayAfter(monday, -7 * weeksBack), to: dayAfter(monday, -1) }
  const all = inWeeks(span, entries).map((week) => weekDone(week, today))
  const begun = all.findIndex(({ meters }) => meters > 0)
  if (begun === -1) {
    const message = `The four weeks before this one have no running to plan from. Record a week of running first, or write ${path} yourself.`
    throw new CommandError('nothing_to_plan_from', message, { details: example })
  }
  const done = all.slice(begun)
  const nextMonday = dayAfter(monday, 7)
  const race = raceAhead(logbook, entries, today)
  const first = race !== null && race.date < nextMonday ? monday : nextMonday
  const toRace = race && daysBetween(first, mondayOf(race.date)) / 7 + 1
  const weeks = Math.min(weeksGiven ?? (race ? mostWeeks : usualWeeks), toRace ?? mostWeeks)
  const last = {
    meters: done.map(({ meters }) => meters),
    longest: done.map(({ longestMeters }) => longestMeters),
    days: usualDays(entries.filter(({ date }) => isIn(span, date))),
  }
  const start = dayAfter(first, 7 * ((toRace ?? weeks) - weeks))
  const text = newPlanText(last, race, start, weeks, units.distance)
  if (!addOwnText(logbookDir, 'plan.txt', text)) throw new CommandError('plan_exists', planExists)
  show(input, { path, text }, text)
  io.err(`Written to ${sanitize(path)}. It is yours: change it in any editor.\n`)
  return status
}

function weeksAsked(text: string | undefined): number | null {
  if (text === undefined) return null
  const weeks = Number(text)
  if (/^\d{1,2}$/.test(text) && weeks >= 1 && weeks <= mostWeeks) return weeks
  throw invalid('number of weeks', text, `Write 1 to ${mostWeeks}, as in --weeks 12.`)
}

/** The newest goal with a future date. */
function raceAhead(
  logbook: Logbook,
  entries: readonly IndexEntry[],
  today: string,
): Omit<PlanRace, 'line'> | null {
  const goal = raceGoalOf(logbook, entries)
  if (goal === null || goal.date === null || goal.date <= today) return null
  return { distance: raceLength(goal.meters), seconds: goal.seconds, date: goal.date }
}

/** What was done on a weekday in at least two weeks: the names of the parts. @param entries of the weeks */
function usualDays(entries: readonly IndexEntry[]): PlanDays {
  const done = entries.flatMap(({ date, brief }) =>
    brief.parts
      .filter(({ kind }) => kind === 'run' || kind === 'lift')
      .map(({ kind, name }) => ({ date, day: printDate(date, 'EEE'), word: plainWord(name ?? kind) })),
  )
  const dates = rollups(
    done,
    (those) => new Set(those.map(({ date }) => date)).size,
    ({ day }) => day,
    ({ word }) => word,
  )
  const usual = dates.map(
    ([day, words]) => [day, words.flatMap(([word, count]) => (count >= 2 ? word : []))] as const,
  )
  return Object.fromEntries(usual.filter(([, words]) => words.length > 0))
}

function plainWord(name: string): string {
  return (
    name
      .replace(/[^\p{L}\p{N} _.'-]/gu, ' ')
      .replace(/\s+/g, ' ')
      .trim() || 'run'
  )
}

function move(input: CommandInput, text: string, plan: Plan): ExitCode {
  const { words, logbookDir } = input
  const [first, second] = words.map((word) => weekdayNamed(word))
  const bad = words.find((word) => weekdayNamed(word) === null)
  if (bad !== undefined) throw invalid('weekday', bad, 'Write plan --move Thu Fri.')
  if (words.length !== 2 || !first || !second || first === second) {
    throw commandLineError('--move needs two different weekdays. Write plan --move Thu Fri.')
  }
  const context = contextOf(input)
  const { today } = context
  const monday = mondayOf(today)
  const dates = [dateOf(monday, first), dateOf(monday, second)]
  if (plan.race !== null && dates.includes(plan.race.date)) {
    const message = `The race is on ${plan.race.date} and does not move. Write another date on line ${plan.race.line} of the plan.`
    throw new CommandError('race_does_not_move', message)
  }
  if (dates.every((date) => wordsOn(plan, date).length === 0)) {
    throw new CommandError(
      'nothing_to_move',
      `The plan has nothing on ${first} and ${second} of this week. Write it there first.`,
    )
  }
  const changed = withDaysSwapped(text, plan, today, first, second)
  const reading = readPlan(changed)
  if ('problems' in reading)
    throw new TypeError(`the plan cannot be read after the move: ${reading.problems[0]?.message}`)
  changeOwnText(logbookDir, 'plan.txt', text, changed)
  const dayOn = (date: string) => ({
    date,
    weekday: printDate(date, 'EEE'),
    words: wordsOn(reading.plan, date),
  })
  const week = weekdays.map((weekday) => dayOn(dateOf(monday, weekday)))
  // A day moved to either end of the week has a neighbour in another week.
  const around = [dayOn(dayAfter(monday, -1)), ...week, dayOn(dayAfter(monday, 7))]
  const isHard = hardByPlan(context)
  const neighbours = pairs(around).flatMap(([before, day]) => {
    const isMoved = dates.includes(before.date) || dates.includes(day.date)
    return isMoved && isHard(before.words) && isHard(day.words)
      ? `${before.weekday} (${before.words.join(' + ')}) and ${day.weekday} (${day.words.join(' + ')})`
      : []
  })
  const days = week.map(({ weekday, words }) => ({ weekday, words }))
  const line = days.filter(({ words }) => words.length > 0)
  const lines = [
    `Week of ${monday}: ${line.map(({ weekday, words }) => `${weekday} ${words.join(' + ')}`).join(', ')}`,
    ...(neighbours.length > 0 ? [`Hard days next to each other now: ${neighbours.join('; ')}.`] : []),
  ]
  show(input, { week: monday, days, hardNeighbours: neighbours }, `${lines.join('\n')}\n`)
  return 0
}

function dateOf(monday: string, weekday: Weekday): string {
  return dayAfter(monday, weekdays.indexOf(weekday))
}
