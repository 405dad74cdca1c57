import { min, sum } from 'd3-array'
import { taperMeters } from '../figures/load.ts'
import { isHardOnLegs, isTaper, type Plan, spanOfPlan, weekdays, wordsOn } from '../plan/model.ts'
import { daysToGoal } from '../prescription/step.ts'
import { hasHardRun } from '../summary/day.ts'
import { plainOf } from '../summary/plain.ts'
import { dayAfter, daysBetween, mondayOf } from '../units/calendarDate.ts'
import { counted } from '../units/decimal.ts'
import { metersInPaceUnit } from '../units/duration.ts'
import { metersOf } from '../units/length.ts'
import type { DistanceUnit } from '../units/model.ts'
import { type BarRow, barLines, type Column, type Picture, pageOf, tableLines } from './chart.ts'
import { sumText, weekDone } from './load.ts'
import { plannedIn } from './week.ts'
import {
  assumedMeters,
  type DoneSession,
  dateText,
  daysOf,
  dayText,
  type InWeek,
  inWeeks,
  isIn,
  isMeasured,
  plusOf,
} from './weeks.ts'

export type Block = ReturnType<typeof blockOf>
type BlockWeek = ReturnType<typeof withTaper>

/** Weeks before this one that a block shows, and that a taper or a new plan starts from. */
export const weeksBack = 4
const mostWeeks = 60
const offPlan = 0.2

/** A block of training: planned and done, week by week, from four weeks back to the race. The thresholds are this
 * program's own rules; the taper is that of Bosquet et al. 2007.
 * @param sessions all of the logbook; @param today local date
 * @param isHard whether a word of the plan means a day that is hard on the legs */
export function blockOf(
  plan: Plan,
  sessions: readonly DoneSession[],
  today: string,
  isHard: (word: string) => boolean = isHardOnLegs,
) {
  const now = mondayOf(today)
  const first = min(sessions, ({ date }) => date) ?? today
  const from = dayAfter(now, -7 * weeksBack)
  const [last = now] = [now, spanOfPlan(plan)?.last ?? now].sort().reverse()
  // A taper starts from weeks that may lie before the first one shown.
  const before = dayAfter(from, -7 * weeksBack)
  const all = inWeeks({ from: before, to: last }, sessions).map((week) => blockWeek(plan, week, today, first))
  const weeks = all
    .map((week, at) => withTaper(week, all.slice(0, at)))
    .slice(weeksBack, weeksBack + mostWeeks)
  const recent = sessions.filter(({ date }) => isIn({ from, to: today }, date))
  const hardRuns = recent.filter(({ day }) => hasHardRun(day))
  const isBeforeHardRun = ({ date, begun }: DoneSession) =>
    hardRuns.some((run) =>
      run.date === date ? run.begun > begun : run.date > date && run.date <= dayAfter(date, 2),
    )
  const legs = recent.filter((each) => each.day.heavyLegSets > 0 && isBeforeHardRun(each))
  const { title, race } = plan
  return {
    title,
    race: race && { meters: metersOf(race.length), seconds: race.seconds, date: race.on },
    weeks,
    days: daysOf(now).map((date) => ({ date, words: wordsOn(plan, date) })),
    // Past weeks that ran at least 20 % over, or under, their planned distance, or over the range of a taper.
    over: weeks.filter((week) => isOffPlan(week, 1)).map(({ monday }) => monday),
    under: weeks.filter((week) => isOffPlan(week, -1)).map(({ monday }) => monday),
    // Dates with heavy leg sets and hard running in a later session of the day or on one of the next two days.
    heavyLegsBeforeHardRun: [...new Set(legs.map(({ date }) => date))].sort(),
    beforeRace: hardBeforeRace(plan, today, isHard),
  }
}

/** What the plan has on the two days before the race, as far as they are to come and it is hard on the legs. This
 * program's own rule. */
function hardBeforeRace(plan: Plan, today: string, isHard: (word: string) => boolean) {
  const { race } = plan
  if (race === null) return []
  const before = [2, 1].map((days) => {
    const date = dayAfter(race.on, -days)
    return { date, days, words: wordsOn(plan, date).filter(isHard) }
  })
  return before.filter(({ date, words }) => date >= today && words.length > 0)
}

/** Whether a past week ran at least 20 % over (1) or under (-1) its plan; a taper week, over the upper end of its
 * range. The week of the race is not held against a taper, because its distance includes the race. Running without a
 * distance may have made up a shortfall, so a week is under only if even that would not be enough. */
function isOffPlan({ when, planned, done }: BlockWeek, way: 1 | -1): boolean {
  const most = way === 1 && planned.kind === 'taper' ? planned.taper?.toMeters : null
  const meters = planned.meters ?? most ?? 0
  if (when !== 'over' || meters === 0 || done === null) return false
  const ran = done.meters + (way === 1 ? 0 : assumedMeters(done.unmeasuredSeconds))
  // Rounded to the metre, so that 48 km for a planned 40 count as 20 % over.
  return way * Math.round(ran - meters) >= Math.round(offPlan * meters)
}

/** @param first date of the first session */
function blockWeek(plan: Plan, week: InWeek<DoneSession>, today: string, first: string) {
  const { monday, sunday } = week
  const now = mondayOf(today)
  const when = monday < now ? 'over' : monday === now ? 'now' : 'ahead'
  return {
    monday,
    when,
    // From Monday; negative after the race.
    daysToRace: plan.race && daysBetween(monday, plan.race.on),
    planned: plannedIn(plan, monday),
    // Nothing is known of weeks to come, and of those before the first session.
    done: monday > now || sunday < first ? null : weekDone(week, today),
  }
}

type PlannedAndDone = ReturnType<typeof blockWeek>

/** Adds the distance in metres that a taper week means, by the mean of the last four weeks before the taper, from the
 * first one with running: done in past weeks, planned in others. Weeks of which too little is known are left out.
 * @param before all weeks before it */
function withTaper(week: PlannedAndDone, before: readonly PlannedAndDone[]) {
  const building = before.slice(0, before.findLastIndex((each) => !isTaper(each.planned.kind)) + 1)
  const known = building.flatMap(({ when, done, planned }) => {
    if (when !== 'over' || done === null) return planned.meters ?? []
    return isMeasured(done) ? done.meters : []
  })
  const last = known.slice(known.findIndex((meters) => meters > 0)).slice(-weeksBack)
  const { planned } = week
  if (!isTaper(planned.kind) || sum(last) === 0) return { ...week, planned: { ...planned, taper: null } }
  const { mean, from, to } = taperMeters(last)
  const taper = { meanMeters: mean, fromMeters: from, toMeters: to }
  return { ...week, planned: { ...planned, taper } }
}

function weekLabel({ when, monday }: BlockWeek): string {
  return `${when === 'now' ? '>' : ' '}${dayText(monday).padStart(6)}`
}

/** What was done as bars; what is planned, or the upper end of a taper, as lines. */
function blockBars({ weeks }: Block, unit: DistanceUnit): BarRow[] {
  const inUnit = (meters: number) => meters / metersInPaceUnit[unit]
  return weeks.map((week) => {
    const planned = week.planned.meters ?? week.planned.taper?.toMeters ?? null
    return {
      cells: [weekLabel(week)],
      segments: [{ value: inUnit(week.done?.meters ?? 0), mark: '=' }],
      line: planned && inUnit(planned),
    }
  })
}

export function blockPicture(block: Block, unit: DistanceUnit): Picture {
  return { title: `${block.title}: done (bars), planned (lines)`, bars: blockBars(block, unit), unit }
}

/** Below this width the table omits two columns. */
const narrow = 64

export function blockLines(
  block: Block,
  plan: Plan,
  unit: DistanceUnit,
  columns: number,
  today: string,
): string[] {
  const inUnit = (meters: number | null, decimals = 0) =>
    meters === null ? '' : String(Number((meters / metersInPaceUnit[unit]).toFixed(decimals)))
  const ran = (meters: number, of: Parameters<typeof isMeasured>[0]) => inUnit(meters, 1) + plusOf([of])
  const ifDone = (text: (done: NonNullable<BlockWeek['done']>) => string) => (week: BlockWeek) =>
    week.done === null ? '' : text(week.done)
  const wide = columns >= narrow
  const hasDays = wide && block.weeks.some(({ daysToRace: days }) => days !== null && days >= 0)
  const table: Column<BlockWeek>[] = [
    ['week', weekLabel],
    ['plan', ({ planned }) => inUnit(planned.meters) || (planned.kind ?? '').replace(' week', '')],
    ['done', ifDone((done) => ran(done.meters, done))],
    [
      'long',
      ({ planned, done }) => (done === null ? inUnit(planned.longMeters) : ran(done.longestMeters, done)),
    ],
    [
      'hard',
      ifDone(({ hardMeters: meters, hardSeconds }) =>
        ran(meters, { meters, unmeasuredSeconds: hardSeconds }),
      ),
    ],
    ['heavy legs', ifDone(({ heavyLegSets }) => String(heavyLegSets)), wide],
    ['load', ifDone((done) => sumText(done.effortMinutes, done))],
    ['days', ({ daysToRace: days }) => (days === null || days < 0 ? '' : String(days)), hasDays],
  ]
  const { race } = plan
  const toRace = race && (daysToGoal(race, today) || `the race was on ${dateText(race.on)}`)
  const blocks = [
    [plainOf(block.title), toRace ?? ''],
    [
      ...tableLines(table, block.weeks),
      `${unit}; long: longest run (ahead: planned)${wide ? '; heavy legs: sets' : ''}; load: session load${hasDays ? '; days: from Monday to the race' : ''}; "+": at least; ">": this week`,
    ],
    ['by week from Monday: done (=), planned (|)', ...barLines(blockBars(block, unit), columns)],
    factsOf(block, unit),
  ]
  return pageOf(blocks, columns)
}

export function factsOf(block: Block, unit: DistanceUnit): string[] {
  const inUnit = (meters: number) => String(Math.round(meters / metersInPaceUnit[unit]))
  const list = (dates: readonly string[]) => dates.map(dayText).join(', ')
  const legs = block.heavyLegsBeforeHardRun
  const words = block.days.flatMap(({ words }, index) =>
    words.length === 0 ? [] : [`${weekdays[index]} ${words.join(' + ')}`],
  )
  const now = block.weeks.find(({ when }) => when === 'now')
  const facts = [
    words.length > 0 && `This week: ${plainOf(words.join(', '))}.`,
    ...(now?.planned.notes ?? []).map((text) => plainOf(`Note: ${text}`)),
    ...(['over', 'under'] as const).map(
      (way) =>
        block[way].length > 0 &&
        `${counted(block[way].length, 'week')} 20 % or more ${way} the plan: ${list(block[way])}.`,
    ),
    legs.length > 0 &&
      `${counted(legs.length, 'heavy leg day')} with a hard run later that day or on one of the two days after: ${list(legs)}.`,
    ...block.beforeRace.map(
      ({ date, words, days }) =>
        `${dayText(date)}: ${plainOf(words.join(' + '))} ${days === 1 ? 'on the day' : 'two days'} before the race.`,
    ),
    ...block.weeks.map(({ monday, when, daysToRace: days, planned: { kind, taper } }) => {
      if (taper === null || when === 'over') return false
      const besides = days !== null && days >= 0 && days < 7 ? ', besides the race' : ''
      return `${dayText(monday)}, ${kind}: ${inUnit(taper.fromMeters)} to ${inUnit(taper.toMeters)} ${unit}: 41-60 % less than the mean of ${inUnit(taper.meanMeters)}${besides} (explain taper).`
    }),
  ]
  return facts.filter((fact) => fact !== false)
}
