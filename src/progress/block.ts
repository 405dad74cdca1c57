import { sum } from 'd3-array'
import { taperMeters } from '../figures/load.ts'
import {
  type BeforeRace,
  beforeRace,
  beforeRaceText,
  type DayMeant,
  daysToRace,
  meantByWords,
  type Plan,
  type PlanWeek,
  spanOfPlan,
  weekdays,
  wordsOn,
} from '../plan/model.ts'
import { plainOf, wrapped } from '../summary/plain.ts'
import { dayAfter, daysBetween, mondayOf } from '../units/calendarDate.ts'
import { counted } from '../units/decimal.ts'
import { metersOf } from '../units/length.ts'
import { barLines, columnLines, withGaps } from './chart.ts'
import { sumText } from './load.ts'
import { daysOf, dayText, isMeasured, reckonedMeters } from './weeks.ts'

/** The input from one session. SI units. */
export interface BlockSession {
  date: string
  meters: number
  /** Of its longest run. */
  longestMeters: number
  /** Running without a distance. */
  unmeasuredSeconds: number
  hardMeters: number
  /** Hard running of unknown distance. */
  hardSeconds: number
  heavyLegSets: number
  isLong: boolean
  /** Null if nothing of it is known. */
  effortMinutes: number | null
  /** A part has no effort, so the load is a minimum. */
  atLeast: boolean
}

interface BlockWeek {
  monday: string
  /** `over`, `now` or `ahead`. */
  when: 'over' | 'now' | 'ahead'
  /** Days from Monday to the race; negative after the race, null without one. */
  daysToRace: number | null
  planned: {
    meters: number | null
    longMeters: number | null
    kind: PlanWeek['kind']
    /** The target of a taper week in metres; null for other weeks and if nothing is known before it. */
    taper: { meanMeters: number; fromMeters: number; toMeters: number } | null
    notes: string[]
  }
  /** Null for future weeks. */
  done: {
    meters: number
    /** Running without a distance. */
    unmeasuredSeconds: number
    longestMeters: number
    hardMeters: number
    heavyLegSets: number
    effortMinutes: number
    /** A session has no effort, so the load is a minimum. */
    atLeast: boolean
  } | null
}

export interface Block {
  title: string
  race: { meters: number; seconds: number; date: string } | null
  weeks: BlockWeek[]
  /** The words of this week's days, from Monday. */
  days: { date: string; words: string[] }[]
  /** Past weeks with a planned distance of which at least 20 % more or less was done. */
  over: string[]
  under: string[]
  /** Dates with heavy leg sets and hard running on one of the next two days. */
  heavyLegsBeforeHardRun: string[]
  /** Done, or by the words of a day ahead. */
  beforeRace: BeforeRace[]
}

const weeksBack = 4
const mostWeeks = 60
const offPlan = 0.2

/** A block of training: planned and done, week by week, from four weeks back to the race.
 * The thresholds are this program's own rules; the taper is that of Bosquet et al. 2007.
 * @param sessions at least those of the last eight weeks; @param today local date
 * @param meant what the words of a day mean */
export function blockOf(
  plan: Plan,
  sessions: readonly BlockSession[],
  today: string,
  meant: (words: readonly string[]) => DayMeant = meantByWords,
): Block {
  const now = mondayOf(today)
  const from = dayAfter(now, -7 * weeksBack)
  const last = [now, spanOfPlan(plan)?.last ?? now].sort().at(-1) ?? now
  const count = Math.min(mostWeeks, daysBetween(from, last) / 7 + 1)
  const weeks = Array.from({ length: count }, (_, index) => {
    const monday = dayAfter(from, 7 * index)
    return weekOf(plan, sessions, monday, now)
  })
  const judged = weeks.filter(({ when, planned }) => when === 'over' && (planned.meters ?? 0) > 0)
  // Rounded to the metre, so that 48 km of 40 planned are 20 % more.
  const offBy = ({ planned, done }: BlockWeek, reckoned = 0) =>
    Math.round((done?.meters ?? 0) + reckoned - (planned.meters ?? 0))
  const atMost = (week: BlockWeek) => offBy(week, reckonedMeters(week.done?.unmeasuredSeconds ?? 0))
  const limit = ({ planned }: BlockWeek) => Math.round(offPlan * (planned.meters ?? 0))
  const recent = sessions.filter(({ date }) => date >= from && date <= today)
  const isHard = (date: string) =>
    recent.some((each) => each.date === date && (each.hardMeters > 0 || each.hardSeconds > 0))
  const legs = [...new Set(recent.filter(({ heavyLegSets }) => heavyLegSets > 0).map(({ date }) => date))]
  const legsOn = (date: string) => {
    const done = sessions.filter((each) => each.date === date)
    return done.length > 0 || date < today
      ? done.map(({ heavyLegSets, isLong }) => ({ isHeavyLegs: heavyLegSets > 0, isLong }))
      : [meant(wordsOn(plan, date))]
  }
  return {
    title: plan.title,
    race:
      plan.race === null
        ? null
        : { meters: metersOf(plan.race.distance), seconds: plan.race.seconds, date: plan.race.date },
    weeks,
    days: daysOf({ monday: now }).map((date) => ({ date, words: wordsOn(plan, date) })),
    over: judged.filter((week) => offBy(week) >= limit(week)).map(({ monday }) => monday),
    under: judged.filter((week) => atMost(week) <= -limit(week)).map(({ monday }) => monday),
    heavyLegsBeforeHardRun: legs
      .filter((date) => isHard(dayAfter(date, 1)) || isHard(dayAfter(date, 2)))
      .sort(),
    beforeRace: plan.race === null ? [] : beforeRace(plan.race.date, legsOn),
  }
}

function weekOf(plan: Plan, sessions: readonly BlockSession[], monday: string, now: string): BlockWeek {
  const line = plan.weeks.find((week) => week.monday === monday)
  return {
    monday,
    when: monday < now ? 'over' : monday === now ? 'now' : 'ahead',
    daysToRace: plan.race === null ? null : daysBetween(monday, plan.race.date),
    planned: {
      meters: line?.distance ? metersOf(line.distance) : null,
      longMeters: line?.long ? metersOf(line.long) : null,
      kind: line?.kind ?? null,
      taper: taperOf(plan, sessions, line, now),
      notes: line?.notes ?? [],
    },
    done: monday > now ? null : doneIn(sessions, monday),
  }
}

function doneIn(sessions: readonly BlockSession[], monday: string): NonNullable<BlockWeek['done']> {
  const those = sessions.filter(({ date }) => mondayOf(date) === monday)
  return {
    meters: sum(those, ({ meters }) => meters),
    unmeasuredSeconds: sum(those, ({ unmeasuredSeconds }) => unmeasuredSeconds),
    longestMeters: Math.max(0, ...those.map(({ longestMeters }) => longestMeters)),
    hardMeters: sum(those, ({ hardMeters }) => hardMeters),
    heavyLegSets: sum(those, ({ heavyLegSets }) => heavyLegSets),
    effortMinutes: sum(those, ({ effortMinutes }) => effortMinutes),
    atLeast: those.some(({ effortMinutes, atLeast }) => effortMinutes === null || atLeast),
  }
}

/** Takes the four latest known weeks before this taper: what was done in past weeks, what is planned in the
 * others, back to the second past week without any running. */
function taperOf(
  plan: Plan,
  sessions: readonly BlockSession[],
  week: PlanWeek | undefined,
  now: string,
): BlockWeek['planned']['taper'] {
  const isTaper = (each: PlanWeek | undefined): each is PlanWeek =>
    each?.kind === 'taper' || each?.kind === 'race week'
  if (!isTaper(week)) return null
  const weekAt = (monday: string) => plan.weeks.find((each) => each.monday === monday)
  let first = week.monday
  while (isTaper(weekAt(dayAfter(first, -7)))) first = dayAfter(first, -7)
  const begun = mondayOf(sessions.map(({ date }) => date).sort()[0] ?? now)
  const before: number[] = []
  let empty = 0
  for (let weeks = 1; weeks <= mostWeeks && before.length < weeksBack; weeks += 1) {
    const monday = dayAfter(first, -7 * weeks)
    const planned = weekAt(monday)?.distance
    const done = monday < now ? doneIn(sessions, monday) : null
    if (done !== null && monday >= begun && done.meters === 0 && done.unmeasuredSeconds === 0) empty += 1
    if (empty > 1) break
    const meters = done === null ? (planned ? metersOf(planned) : 0) : done.meters
    if (meters > 0 && isMeasured(meters, done?.unmeasuredSeconds ?? 0)) before.push(meters)
  }
  if (before.length === 0) return null
  const { mean, from, to } = taperMeters(before)
  return { meanMeters: mean, fromMeters: from, toMeters: to }
}

/** Below this width the table omits two columns. */
const narrow = 64

/** A block as text. @param columns at least 40 @param today local date */
export function blockLines(
  block: Block,
  plan: Plan,
  unit: 'km' | 'mi',
  columns: number,
  today: string,
): string[] {
  const far = (meters: number | null, decimals: 0 | 1) =>
    meters === null ? '' : String(Number((meters / metersOf({ value: 1, unit })).toFixed(decimals)))
  const isNarrow = columns < narrow
  const race = plan.race === null ? '' : daysToRace(plan.race, today)
  const days = (week: BlockWeek) =>
    week.daysToRace === null || week.daysToRace < 0 ? '' : String(week.daysToRace)
  const head = [
    'week',
    'plan',
    'done',
    'long',
    'hard',
    ...(isNarrow ? [] : ['heavy legs']),
    'load',
    ...(isNarrow ? [] : ['days']),
  ]
  const rows = block.weeks.map((week) => {
    const { planned, done } = week
    return [
      `${week.when === 'now' ? '>' : ' '}${dayText(week.monday).padStart(6)}`,
      planned.meters === null ? kindShort(planned.kind) : far(planned.meters, 0),
      done === null
        ? ''
        : `${far(done.meters, 1)}${isMeasured(done.meters, done.unmeasuredSeconds) ? '' : '+'}`,
      done === null ? far(planned.longMeters, 0) : far(done.longestMeters, 1),
      done === null ? '' : far(done.hardMeters, 1),
      ...(isNarrow ? [] : [done === null ? '' : String(done.heavyLegSets)]),
      done === null ? '' : sumText(done.effortMinutes, done),
      ...(isNarrow ? [] : [days(week)]),
    ]
  })
  const bars = block.weeks.map(({ monday, when, planned, done }) => ({
    label: `${when === 'now' ? '>' : ' '}${dayText(monday).padStart(6)}`,
    text: '',
    segments: [{ value: done?.meters ?? 0, mark: '=' }],
    line: planned.meters ?? planned.taper?.toMeters ?? null,
  }))
  return withGaps([
    [...wrapped(plainOf(block.title), columns), ...wrapped(race, columns)],
    [
      ...columnLines(head, rows),
      ...wrapped(
        `${unit}; long: the longest run, ahead the planned one; load: session load; "+": at least; ">": this week`,
        columns,
      ),
    ],
    [...wrapped('by week from Monday: done (=), planned (|)', columns), ...barLines(bars, columns)],
    factsOf(block, unit).flatMap((fact) => wrapped(fact, columns)),
  ])
}

function kindShort(kind: PlanWeek['kind']): string {
  return kind === 'race week' ? 'race' : (kind ?? '')
}

/** The findings about the block, one sentence each. */
export function factsOf(block: Block, unit: 'km' | 'mi'): string[] {
  const far = (meters: number) => String(Math.round(meters / metersOf({ value: 1, unit })))
  const list = (dates: readonly string[]) => dates.map(dayText).join(', ')
  const offPlanTexts = (way: 'over' | 'under', weeks: readonly string[]) =>
    weeks.length === 0
      ? []
      : [`${counted(weeks.length, 'week')} 20 % or more ${way} the plan: ${list(weeks)}.`]
  const { over, under, heavyLegsBeforeHardRun: legs } = block
  const words = block.days.flatMap(({ words }, index) =>
    words.length === 0 ? [] : [`${weekdays[index]} ${words.join(' + ')}`],
  )
  const notes = block.weeks.flatMap(({ when, planned }) => (when === 'now' ? planned.notes : []))
  return [
    ...(words.length === 0 ? [] : [`This week: ${plainOf(words.join(', '))}.`]),
    ...notes.map((text) => plainOf(`Note: ${text}`)),
    ...offPlanTexts('over', over),
    ...offPlanTexts('under', under),
    ...(legs.length === 0
      ? []
      : [
          `${counted(legs.length, 'heavy leg day')} with a hard run on one of the two days after: ${list(legs)}.`,
        ]),
    ...block.beforeRace.map((each) => `${dayText(each.date)}: ${beforeRaceText(each)}.`),
    ...block.weeks.flatMap(({ monday, when, planned: { kind, taper } }) =>
      taper === null || when === 'over'
        ? []
        : [
            `${dayText(monday)}, ${kind}: ${far(taper.fromMeters)} to ${far(taper.toMeters)} ${unit}: 41-60 % less than the mean of ${far(taper.meanMeters)} (explain taper).`,
          ],
    ),
  ]
}
