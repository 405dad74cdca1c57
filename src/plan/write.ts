import { range } from 'd3-array'
import { taperWeeks } from '../figures/load.ts'
import { mean } from '../figures/statistics.ts'
import { easySecondsPerKm } from '../prescription/expectedTime.ts'
import { lineOf } from '../prescription/lines.ts'
import { dayAfter, mondayOf } from '../units/calendarDate.ts'
import { counted, inWords } from '../units/decimal.ts'
import { formatPace, printClock } from '../units/duration.ts'
import { metersOf, printLength } from '../units/length.ts'
import { joined } from '../units/lists.ts'
import type { DistanceUnit } from '../units/model.ts'
import {
  emptyWeek,
  type Plan,
  type PlanRace,
  type PlanWeek,
  type Weekday,
  weekdays,
  wordsOn,
} from './model.ts'

/** What an easy week keeps of the usual distance. This program's own rule. */
const easyShare = 2 / 3
const easyEvery = 4

/** Writes a first plan: weeks like the mean of the last ones, every fourth a third less, the last two a taper. It adds
 * no growth. This program's own rules; the taper from Bosquet et al. 2007.
 * @param last weeks, from the first of four with running; a later one without any counts. Their metres include the
 * running without a distance, at easy pace
 * @param monday the first week's; @param weeks how many, at least 1 */
export function newPlanText(
  last: readonly { meters: number; longestMeters: number; unmeasuredSeconds: number }[],
  race: Omit<PlanRace, 'line'> | null,
  monday: string,
  weeks: number,
  unit: DistanceUnit,
): string {
  const lengthOf = (of: 'meters' | 'longestMeters', share = 1) => {
    const usual = Math.round((mean(last.map((week) => week[of])) ?? 0) / metersOf({ value: 1, unit }))
    return { value: Math.round(usual * share), unit }
  }
  const tapered = race === null ? 0 : Math.min(taperWeeks, weeks)
  const rows = range(weeks).map((index) => {
    const week = emptyWeek(dayAfter(monday, index * 7))
    if (index >= weeks - tapered) {
      const kind = index === weeks - 1 ? 'race week' : 'taper'
      return `${weekLine({ ...week, kind })}  # 41-60 % less than the four weeks before it, intensity and frequency kept (Bosquet et al. 2007)`
    }
    const isEasy = index % easyEvery === easyEvery - 1
    const share = isEasy ? easyShare : 1
    const [distance, long] = [lengthOf('meters', share), lengthOf('longestMeters', share)]
    const hasLong = long.value > 0 && long.value < distance.value
    const line = weekLine({ ...week, distance, long: hasLong ? long : null, kind: isEasy ? 'easy' : null })
    return isEasy ? `${line}  # a third less: this program's own rule` : line
  })
  const length = counted(weeks, 'week')
  const basis = last.length === 1 ? "last week's" : `the mean of the last ${inWords(last.length)} weeks`
  const isMeasured = last.every(({ unmeasuredSeconds }) => unmeasuredSeconds === 0)
  const assumed = isMeasured ? '' : `, running without a distance at ${formatPace(easySecondsPerKm, unit)}`
  return [
    race === null ? length : `${length} to ${printLength(race.length)}`,
    race === null
      ? '# race: 10 km in 39:30 on 2027-04-18'
      : `race: ${printLength(race.length)} in ${printClock(race.seconds)} on ${race.on}`,
    '# week: Tue track, Thu tempo + legs, Sun long',
    `# ${printLength(lengthOf('meters'))} is ${basis}${assumed}. No growth is invented: write your own.`,
    ...rows,
    '',
  ].join('\n')
}

/** `2026-12-07: 42 km, long 16 km, "first week of threes", Thu rest` */
function weekLine({ monday, distance, long, kind, notes, days }: Omit<PlanWeek, 'line'>): string {
  const bits = joined(', ', [
    distance && printLength(distance),
    long && `long ${printLength(long)}`,
    kind,
    ...notes.map((note) => `"${note}"`),
    ...weekdays.map((day) => days[day] !== undefined && `${day} ${days[day].join(' + ')}`),
  ])
  return `${monday}: ${bits}`
}

/** Swaps what two weekdays of a week are for, in that week's line, which is added if it is missing. The line keeps its
 * comment; every other one stays as it is.
 * @param text the file that reads as `plan`; @param date any day of the week */
export function withDaysSwapped(
  text: string,
  plan: Plan,
  date: string,
  first: Weekday,
  second: Weekday,
): string {
  const monday = mondayOf(date)
  const week = plan.weeks.find((each) => each.monday === monday)
  const words = (day: Weekday) => {
    const planned = wordsOn(plan, dayAfter(monday, weekdays.indexOf(day)))
    return planned.length === 0 ? ['rest'] : planned
  }
  const days = { ...week?.days, [first]: words(second), [second]: words(first) }
  const line = weekLine({ ...(week ?? emptyWeek(monday)), days })
  const lines = text.split(/(?<=\n)/)
  if (week !== undefined) {
    const written = lines[week.line - 1] ?? ''
    lines[week.line - 1] = line + written.slice(lineOf(written, week.line).text.length)
    return lines.join('')
  }
  const lineEnd = /\r?\n/.exec(text)?.[0] ?? '\n'
  const after = plan.weeks.findLast((each) => each.monday < monday)?.line
  const before = plan.weeks.find((each) => each.monday > monday)?.line
  const at = after ?? (before === undefined ? lines.length : before - 1)
  const above = lines[at - 1]
  if (above !== undefined && !above.endsWith('\n')) lines[at - 1] = above + lineEnd
  lines.splice(at, 0, line + lineEnd)
  return lines.join('')
}
