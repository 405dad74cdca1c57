import { pairs } from 'd3-array'
import { raceGoalOf } from '../app/overWeeks.ts'
import { hardByPlan } from '../app/readyDays.ts'
import { planPage } from '../app/weekAndPlan.ts'
import { taperWeeks } from '../figures/load.ts'
import { mean } from '../figures/statistics.ts'
import { addOwnText, changeOwnText, ownTextPath, readOwnText } from '../logbook/ownTexts.ts'
import { type Plan, type PlanRace, weekdayNamed, weekdays, wordsOn } from '../plan/model.ts'
import { readPlan } from '../plan/read.ts'
import { newPlanText, withDaysSwapped } from '../plan/write.ts'
import { weeksBack } from '../progress/block.ts'
import { assumedLongest, assumedMeters, daysOf, inWeeks, runningOf } from '../progress/weeks.ts'
import { dayAfter, daysBetween, mondayOf, printDate } from '../units/calendarDate.ts'
import { metersOf, raceLength } from '../units/length.ts'
import { sanitize } from '../validate/unsafe.ts'
import {
  CommandError,
  type CommandInput,
  commandLineError,
  type ExitCode,
  invalid,
  show,
  showPage,
} from './command.ts'
import { type Context, contextOf, parsePlan } from './context.ts'

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
  const { flags, values } = input
  if (flags.has('new') && flags.has('move'))
    throw commandLineError('--new and --move do not go together. Give one of them.')
  if (input.words.length > 0 && !flags.has('move')) {
    throw commandLineError(`plan takes no words without --move. Leave "${input.words.join(' ')}" out.`)
  }
  if (values.weeks !== undefined && !flags.has('new'))
    throw commandLineError('--weeks needs --new. Write plan --new --weeks 12.')
  if (flags.has('new')) return writeNew(input)
  const { text, plan } = planOrRefuse(input)
  if (flags.has('move')) return move(input, text, plan)
  const context = contextOf(input)
  await showPage(input, planPage(context, plan, context.units.distance))
  return 0
}

/** @throws CommandError `no_plan`, and as parsePlan */
function planOrRefuse({ logbookDir }: CommandInput): { text: string; plan: Plan } {
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
  const { today, entries, units } = context
  const monday = mondayOf(today)
  const span = { from: dayAfter(monday, -7 * weeksBack), to: dayAfter(monday, -1) }
  const all = inWeeks(span, entries).map(({ done }) => {
    const days = done.map(({ day }) => day)
    const { meters, unmeasuredSeconds } = runningOf(days)
    const longestMeters = Math.max(0, ...days.map(assumedLongest))
    return { meters: meters + assumedMeters(unmeasuredSeconds), longestMeters, unmeasuredSeconds }
  })
  const done = all.slice(all.findIndex(({ meters }) => meters > 0))
  // The plan has whole kilometres or miles, and cannot have 0.
  if ((mean(done.map(({ meters }) => meters)) ?? 0) < metersOf({ value: 0.5, unit: units.distance })) {
    const message = `The four weeks before this one have too little running to plan from. Record a week of running first, or write ${path} yourself.`
    throw new CommandError('nothing_to_plan_from', message, { details: example })
  }
  const nextMonday = dayAfter(monday, 7)
  const race = raceAhead(context)
  // This week is planned only where it is part of the taper.
  const isTapering = race !== null && race.on < dayAfter(monday, 7 * taperWeeks)
  const first = isTapering ? monday : nextMonday
  // A plan ends with the week of the race, so a shorter one begins later.
  const toRace = race && daysBetween(first, mondayOf(race.on)) / 7 + 1
  const weeks = Math.min(weeksGiven ?? (race ? mostWeeks : usualWeeks), toRace ?? mostWeeks)
  const start = dayAfter(first, 7 * ((toRace ?? weeks) - weeks))
  const text = newPlanText(done, race, start, weeks, units.distance)
  if (!addOwnText(logbookDir, 'plan.txt', text)) throw new CommandError('plan_exists', planExists)
  show(input, { path, text }, text)
  io.err(`Written to ${sanitize(path)}. It is yours: change it in any editor.\n`)
  return 0
}

function weeksAsked(text: string | undefined): number | null {
  if (text === undefined) return null
  const weeks = Number(text)
  if (/^\d{1,2}$/.test(text) && weeks >= 1 && weeks <= mostWeeks) return weeks
  throw invalid('number of weeks', text, `Write 1 to ${mostWeeks}, as in --weeks 12.`)
}

function raceAhead(context: Context): Omit<PlanRace, 'line'> | null {
  const goal = raceGoalOf(context)
  if (goal === null || goal.date === null || goal.date <= context.today) return null
  return { length: raceLength(goal.meters), seconds: goal.seconds, on: goal.date }
}

function move(input: CommandInput, text: string, plan: Plan): ExitCode {
  const { words, logbookDir } = input
  const [first, second] = words.map((word) => weekdayNamed(word))
  if (words.length !== 2 || !first || !second || first === second)
    throw commandLineError('--move needs two different weekdays. Write plan --move Thu Fri.')
  const context = contextOf(input)
  const { today } = context
  const monday = mondayOf(today)
  const dates = [first, second].map((day) => dayAfter(monday, weekdays.indexOf(day)))
  if (plan.race !== null && dates.includes(plan.race.on)) {
    const message = `The race is on ${plan.race.on} and does not move. Write another date on line ${plan.race.line} of the plan.`
    throw new CommandError('race_does_not_move', message)
  }
  if (dates.every((date) => wordsOn(plan, date).length === 0)) {
    const message = `The plan has nothing on ${first} and ${second} of this week. Write it there first.`
    throw new CommandError('nothing_to_move', message)
  }
  const changed = withDaysSwapped(text, plan, today, first, second)
  const reading = readPlan(changed)
  if ('problems' in reading)
    throw new TypeError(`the plan cannot be read after the move: ${reading.problems[0]?.message}`)
  changeOwnText(logbookDir, 'plan.txt', text, changed)
  const dayOn = (date: string) => {
    const words = wordsOn(reading.plan, date)
    return { date, weekday: printDate(date, 'EEE'), words, text: words.join(' + ') }
  }
  const week = daysOf(monday).map(dayOn)
  // A day moved to either end of the week has a neighbour in another week.
  const around = [dayOn(dayAfter(monday, -1)), ...week, dayOn(dayAfter(monday, 7))]
  const { isHard } = hardByPlan(context)
  const neighbours = pairs(around).flatMap(([before, day]) => {
    const isMoved = dates.includes(before.date) || dates.includes(day.date)
    return isMoved && before.words.some(isHard) && day.words.some(isHard)
      ? `${before.weekday} (${before.text}) and ${day.weekday} (${day.text})`
      : []
  })
  const planned = week.flatMap(({ weekday, text }) => (text === '' ? [] : `${weekday} ${text}`))
  const lines = [
    `Week of ${monday}: ${planned.join(', ')}`,
    ...(neighbours.length > 0 ? [`Hard days next to each other now: ${neighbours.join('; ')}.`] : []),
  ]
  const days = week.map(({ weekday, words }) => ({ weekday, words }))
  show(input, { week: monday, days, hardNeighbours: neighbours }, `${lines.join('\n')}\n`)
  return 0
}
