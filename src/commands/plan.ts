import { sum } from 'd3-array'
import { raceGoalOf } from '../app/overWeeks.ts'
import type { IndexEntry } from '../logbook/model.ts'
import { addOwnText, changeOwnText, ownTextPath, readOwnText } from '../logbook/ownTexts.ts'
import type { Logbook } from '../logbook/store.ts'
import {
  beforeRace,
  beforeRaceText,
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
import type { DoneSession } from '../progress/weeks.ts'
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
import { meantWith } from './week.ts'

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
  const block = blockOf(plan, context.entries, today, meantWith(context))
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

/** The four weeks before this one, the earliest first. */
function weeksDone(sessions: readonly DoneSession[], today: string): { meters: number; longest: number }[] {
  const monday = mondayOf(today)
  return [4, 3, 2, 1].map((count) => {
    const [from, end] = [dayAfter(monday, -7 * count), dayAfter(monday, -7 * (count - 1))] as const
    const days = sessions.filter(({ date }) => date >= from && date < end).map(({ day }) => day)
    return {
      meters: sum(days, ({ meters }) => meters),
      longest: Math.max(0, ...days.map(({ longestMeters }) => longestMeters)),
    }
  })
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
  const all = weeksDone(entries, today)
  const begun = all.findIndex(({ meters }) => meters > 0)
  if (begun === -1) {
    const now = entries.some(({ date, day }) => day.meters > 0 && date >= monday)
      ? ` This week does not count until it is over: try again from ${dayAfter(monday, 7)} on, or write`
      : ' Record a week of running first, or write'
    const message = `The four weeks before this one have no running to plan from.${now} ${path} yourself.`
    throw new CommandError('nothing_to_plan_from', message, { details: example })
  }
  const race = raceAhead(logbook, entries, today)
  const nextMonday = dayAfter(monday, 7)
  const first = race !== null && race.date < nextMonday ? monday : nextMonday
  const toRace = race === null ? usualWeeks : daysBetween(first, mondayOf(race.date)) / 7 + 1
  const weeks = weeksGiven ?? Math.max(1, Math.min(mostWeeks, toRace))
  const start = race === null || weeks >= toRace ? first : dayAfter(mondayOf(race.date), -7 * (weeks - 1))
  const done = all.slice(begun)
  const last = {
    meters: done.map(({ meters }) => meters),
    longest: done.map(({ longest }) => longest),
    days: usualDays(entries, monday),
  }
  const text = newPlanText(last, race, start, race === null ? weeks : Math.min(weeks, toRace), units.distance)
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

/** What was done on a weekday in at least two of the four weeks before a Monday: the names of the parts. */
function usualDays(entries: readonly IndexEntry[], monday: string): PlanDays {
  const from = dayAfter(monday, -7 * weeksBack)
  const days: PlanDays = {}
  for (const [index, weekday] of weekdays.entries()) {
    const weeks = [0, 1, 2, 3].map((week) => {
      const date = dayAfter(from, 7 * week + index)
      const parts = entries.filter((entry) => entry.date === date).flatMap(({ brief }) => brief.parts)
      return new Set(
        parts.flatMap(({ kind, name }) =>
          kind === 'run' || kind === 'lift' ? [plainWord(name ?? kind)] : [],
        ),
      )
    })
    const words = [...new Set(weeks.flatMap((week) => [...week]))].filter(
      (word) => weeks.filter((week) => week.has(word)).length >= 2,
    )
    if (words.length > 0) days[weekday] = words
  }
  return days
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
  const meant = meantWith(context)
  const hard = (of: readonly string[]) => meant(of).isHard
  // A day moved to either end of the week has a neighbour in another week.
  const around = [dayOn(dayAfter(monday, -1)), ...week, dayOn(dayAfter(monday, 7))]
  const neighbours = around.flatMap((day, index) => {
    const before = around[index - 1]
    const touches = dates.some((date) => date === day.date || date === before?.date)
    return before !== undefined && touches && hard(day.words) && hard(before.words)
      ? [`${before.weekday} (${before.words.join(' + ')}) and ${day.weekday} (${day.words.join(' + ')})`]
      : []
  })
  const legsOn = (date: string) => week.filter((day) => day.date === date).map(({ words }) => meant(words))
  const racing = beforeRace(plan.race?.date ?? null, legsOn)
  const days = week.map(({ weekday, words }) => ({ weekday, words }))
  const line = days.filter(({ words }) => words.length > 0)
  const lines = [
    `Week of ${monday}: ${line.map(({ weekday, words }) => `${weekday} ${words.join(' + ')}`).join(', ')}`,
    ...(neighbours.length > 0 ? [`Hard days next to each other now: ${neighbours.join('; ')}.`] : []),
    ...racing.map((each) => `${printDate(each.date, 'EEEE')}: ${beforeRaceText(each)}.`),
  ]
  show(input, { week: monday, days, hardNeighbours: neighbours, beforeRace: racing }, `${lines.join('\n')}\n`)
  return 0
}

function dateOf(monday: string, weekday: Weekday): string {
  return dayAfter(monday, weekdays.indexOf(weekday))
}
