import { taperWeeks } from '../figures/load.ts'
import { mean } from '../figures/statistics.ts'
import { lineOf } from '../prescription/lines.ts'
import { dayAfter, daysBetween, mondayOf } from '../units/calendarDate.ts'
import { counted, inWords } from '../units/decimal.ts'
import { printClock } from '../units/duration.ts'
import { metersOf, printLength } from '../units/length.ts'
import {
  meantByWords,
  type Plan,
  type PlanDays,
  type PlanRace,
  type Weekday,
  weekdays,
  wordsOn,
} from './model.ts'

/** The figures of the last weeks that a first plan needs. */
export interface LastWeeks {
  /** Metres of each week from the first of four with running; a later one without any counts. */
  meters: readonly number[]
  /** The longest run of each week, in metres. */
  longest: readonly number[]
  /** The words for what was done on a weekday in at least two of them. */
  days: PlanDays
}

/** What an easy week keeps of the usual distance. This program's own rule. */
const easyShare = 2 / 3
const easyEvery = 4

/** Writes a first plan: weeks like the mean of the last ones, every fourth a third less, the last two a taper. It adds
 * no growth. This program's own rules; the taper from Bosquet et al. 2007.
 * @param monday the first week's; @param weeks how many, at least 1 */
export function newPlanText(
  last: LastWeeks,
  race: Omit<PlanRace, 'line'> | null,
  monday: string,
  weeks: number,
  unit: 'km' | 'mi',
): string {
  const inUnit = (meters: number) => Math.round(meters / metersOf({ value: 1, unit }))
  const [usual, long] = [last.meters, last.longest].map((meters) => inUnit(mean(meters) ?? 0)) as [
    number,
    number,
  ]
  const distance = (of: number, longest: number) =>
    longest > 0 && longest < of ? `${of} ${unit}, long ${longest} ${unit}` : `${of} ${unit}`
  const tapered = race === null ? 0 : Math.min(taperWeeks, weeks)
  const rows = Array.from({ length: weeks }, (_, index) => {
    const date = dayAfter(monday, index * 7)
    if (index >= weeks - tapered) {
      const eased = index === weeks - 1 ? withoutLegs(date, race?.date, last.days) : []
      const bits = [index === weeks - 1 ? 'race week' : 'taper', ...eased].join(', ')
      const why = eased.length === 0 ? '' : "; no heavy legs or long run just before: this program's own rule"
      return `${date}: ${bits}  # 41-60 % less than the four weeks before it, intensity and frequency kept (Bosquet et al. 2007)${why}`
    }
    if (index % easyEvery === easyEvery - 1) {
      return `${date}: ${distance(Math.round(usual * easyShare), Math.round(long * easyShare))}, easy  # a third less: this program's own rule`
    }
    return `${date}: ${distance(usual, long)}`
  })
  const length = counted(weeks, 'week')
  const title = race === null ? length : `${length} to ${printLength(race.distance)}`
  const words = dayTexts(last.days)
  return [
    title,
    ...(race === null
      ? ['# race: 10 km in 39:30 on 2027-04-18']
      : [`race: ${printLength(race.distance)} in ${printClock(race.seconds)} on ${race.date}`]),
    words === ''
      ? '# week: Tue track, Thu tempo + legs, Sun long'
      : `week: ${words}  # what was done in at least two of the last four weeks`,
    `# ${usual} ${unit} is ${basisText(last.meters.length)}. No growth is invented: write your own.`,
    ...rows,
    '',
  ].join('\n')
}

/** The two days before the race without heavy legs and a long run, as far as they are in the week of the race:
 * `Fri tempo`, `Sat rest`. This program's own rule, as in `beforeRace`. */
function withoutLegs(monday: string, race: string | undefined, days: PlanDays): string[] {
  return weekdays.flatMap((day, index) => {
    const words = days[day] ?? []
    const kept = words.filter((word) => {
      const { isHeavyLegs, isLong } = meantByWords([word])
      return !isHeavyLegs && !isLong
    })
    const left = race === undefined ? 0 : daysBetween(dayAfter(monday, index), race)
    const isJustBefore = left === 1 || left === 2
    return isJustBefore && kept.length < words.length ? [`${day} ${kept.join(' + ') || 'rest'}`] : []
  })
}

function basisText(weeks: number): string {
  return weeks === 1 ? "last week's" : `the mean of the last ${inWords(weeks)} weeks`
}

function dayTexts(days: PlanDays): string {
  return weekdays
    .flatMap((day) => (days[day] === undefined ? [] : [`${day} ${days[day].join(' + ')}`]))
    .join(', ')
}

/** Swaps what two weekdays of a week are for, in that week's line, which is added if it is missing.
 * Everything else stays the same: line ends, comments, order.
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
  const swapped: PlanDays = { [first]: words(second), [second]: words(first) }
  const ends = text.match(/\r\n|\n/g) ?? ['\n']
  const lineEnd = ends[0] ?? '\n'
  const lines = text.split(/(?<=\n)/)
  if (week !== undefined) {
    const index = week.line - 1
    lines[index] = withDays(lines[index] ?? '', swapped)
    return lines.join('')
  }
  const after = plan.weeks.findLast((each) => each.monday < monday)?.line
  const before = plan.weeks.find((each) => each.monday > monday)?.line
  const at = after ?? (before === undefined ? lines.length : before - 1)
  const above = lines[at - 1]
  if (above !== undefined && !above.endsWith('\n')) lines[at - 1] = above + lineEnd
  lines.splice(at, 0, `${monday}: ${dayTexts(swapped)}${lineEnd}`)
  return lines.join('')
}

/** Replaces these days on a dated line, or adds them at its end, before its comment. */
function withDays(raw: string, days: PlanDays): string {
  let text = raw
  const added: string[] = []
  for (const day of weekdays) {
    const words = days[day]
    if (words === undefined) continue
    const written = `${day} ${words.join(' + ')}`
    const place = placeOfDay(text, day)
    if (place === null) added.push(written)
    else text = text.slice(0, place.from) + written + text.slice(place.to)
  }
  if (added.length === 0) return text
  const end = plainOf(text).length
  const body = text.slice(0, end)
  const isBare = /:\s*$/.test(body)
  return `${body}${isBare ? ' ' : ', '}${added.join(', ')}${text.slice(end)}`
}

function placeOfDay(raw: string, day: Weekday): { from: number; to: number } | null {
  const quotesOut = plainOf(raw).replace(/"[^"]*"/g, (quoted) => '"'.repeat(quoted.length))
  const found = new RegExp(`([:,]\\s*)(${day}[\\p{L}]*\\.?\\s[^,]*?)\\s*(?=,|$)`, 'iu').exec(quotesOut)
  if (found === null) return null
  const from = found.index + (found[1] ?? '').length
  return { from, to: from + (found[2] ?? '').length }
}

/** The line without its comment and line end; every character keeps its place. */
function plainOf(raw: string): string {
  return lineOf(raw.replace(/\r?\n$/, ''), 1).text
}
