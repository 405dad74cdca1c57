import { isWithinRaceSpeeds } from '../figures/load.ts'
import { betweenCommas, type Diagnostic, errorIn, type Line, linesOfText } from '../prescription/lines.ts'
import { isCalendarDate, mondayOf, printDate } from '../units/calendarDate.ts'
import { readDuration } from '../units/duration.ts'
import { metersOf, printLength, readLength } from '../units/length.ts'
import type { Length } from '../units/model.ts'
import { type Plan, type PlanWeek, weekdayNamed } from './model.ts'

export type PlanReading = { plan: Plan } | { problems: Diagnostic[] }

/** A piece of a line, such as the text between two commas. `at`: where it begins in the line, in UTF-16 units. */
interface Bit {
  text: string
  at: number
}

/** Reads the block of training in `plan.txt`: a title, then `race:`, `week:` and a line for each week from its
 * Monday. Comments, quotes and line ends work as in a prescription.
 * @param input the file's bytes or its text
 * @returns the plan, or every problem that prevents reading it */
export function readPlan(input: Uint8Array | string): PlanReading {
  const problems: Diagnostic[] = []
  const plan: Plan = { title: '', titleLine: 0, race: null, days: {}, daysLine: null, weeks: [] }
  for (const line of linesOfText(input, 'plan', problems))
    for (const { bit, message, suggestion } of readLine(line, plan))
      problems.push(errorIn(line, bit.at, bit.text.length || 1, message, suggestion))
  if (plan.titleLine === 0 && problems.length === 0) {
    const message = 'a plan begins with its title. Example: Ten under forty'
    problems.push(errorIn({ number: 1, shown: '' }, 0, 1, message))
  }
  if (problems.length > 0) return { problems }
  return { plan }
}

/** What is wrong with a piece of a line. */
interface Wrong {
  bit: Bit
  message: string
  suggestion?: string
}

/** Adds a line to the plan; returns what is wrong with it. */
function readLine(line: Line, plan: Plan): Wrong[] {
  const all = { text: line.text.trim(), at: line.text.length - line.text.trimStart().length }
  if (line.openQuote !== null)
    return [{ bit: { text: '"', at: line.openQuote }, message: 'this quote never closes: write one more "' }]
  const [begin, word = ''] = /^\s*([^\s:"]{1,40})\s*:/.exec(line.text) ?? []
  const key = { text: word, at: all.at }
  const rest = { text: line.text.slice(begin?.length), at: begin?.length ?? 0 }
  const isKey = /^(race|week)$/i.test(word)
  if (plan.titleLine === 0) {
    plan.title = line.written
    plan.titleLine = line.number
    const message = 'a plan begins with its title. Write one above this line'
    const untitled = isKey || /^\d{4}-/.test(word) ? [{ bit: key, message }] : []
    return isKey ? [...untitled, ...readKey(rest, all, line, plan)] : untitled
  }
  if (isKey) return readKey(rest, all, line, plan)
  if (begin === undefined)
    return [{ bit: all, message: `this line does not begin with race:, week: or a Monday. ${example}` }]
  if (/^\d/.test(word)) return readWeek(key, rest, line, plan)
  const message = `"${word}:" cannot begin a line. Write race:, week: or a Monday. ${example}`
  return [{ bit: key, message }]
}

function readKey(rest: Bit, all: Bit, { number }: Line, plan: Plan): Wrong[] {
  return /^race/i.test(all.text) ? readRace(rest, all, number, plan) : readDays(rest, all, number, plan)
}

const example = 'Example: 2026-12-07: 42 km, long 16 km'
const raceExample = 'Example: race: 10 km in 39:30 on 2027-04-18'

function readRace(rest: Bit, all: Bit, line: number, plan: Plan): Wrong[] {
  if (plan.race !== null) {
    const message = `a plan leads to one race, which is on line ${plan.race.line}. Remove one of the two, or note the other on its week: "trial: 5 km"`
    return [{ bit: all, message }]
  }
  const parts = /^\s*(.*?)\s+in\s+(.*?)\s+on\s+(.*)$/di.exec(rest.text)
  if (parts === null) {
    const at = rest.at + Math.max(0, rest.text.search(/\S/))
    const message = `a race is a distance "in" a time "on" a date. ${raceExample}`
    return [{ bit: { text: rest.text.trim(), at }, message }]
  }
  const [distance, time, date] = [1, 2, 3].map((place) => ({
    text: (parts[place] ?? '').trim(),
    at: rest.at + (parts.indices?.[place]?.[0] ?? 0),
  })) as [Bit, Bit, Bit]
  const length = readLength(distance.text)
  const seconds = readDuration(time.text)
  const invalid = (what: string, bit: Bit) => [
    { bit, message: `Invalid ${what} "${bit.text}". ${raceExample}` },
  ]
  if (length === null || length.unit === 'lap') return invalid('distance', distance)
  if (seconds === null) return invalid('time', time)
  if (!isWithinRaceSpeeds(metersOf(length) / seconds)) {
    const text = rest.text.slice(distance.at - rest.at, time.at + time.text.length - rest.at)
    const message = `${printLength(length)} in ${time.text} is not a running speed. Check both. ${raceExample}`
    return [{ bit: { text, at: distance.at }, message }]
  }
  if (!isCalendarDate(date.text)) return invalid('date', date)
  plan.race = { distance: length, seconds, date: date.text, line }
  return []
}

function readDays(rest: Bit, all: Bit, line: number, plan: Plan): Wrong[] {
  if (plan.daysLine !== null) {
    const message = `line ${plan.daysLine} already has the days of the week. Write both on one line`
    return [{ bit: { text: all.text.slice(0, 5), at: all.at }, message }]
  }
  plan.daysLine = line
  return bitsOf(rest).flatMap((bit) => {
    const wrong = `"${bit.text}" does not begin with a weekday. Example: week: Tue track, Thu tempo + legs`
    const message = addDay(bit.text, plan.days) ?? wrong
    return message === '' ? [] : [{ bit, message }]
  })
}

/** Adds `Thu tempo + legs`; returns what is wrong with it, or nothing; null if it does not begin with a weekday. */
function addDay(text: string, days: Plan['days']): string | null {
  const parts = /^(\p{L}+)\.?(?:\s+(.*))?$/u.exec(text)
  const weekday = weekdayNamed(parts?.[1] ?? '')
  if (parts === null || weekday === null) return null
  const before = days[weekday]
  if (before !== undefined)
    return `${weekday} is given twice. Write ${weekday} ${[...before, parts[2] ?? ''].join(' + ')}`
  const words = (parts[2] ?? '').split('+').map((word) => word.trim())
  days[weekday] = words
  const bad = words.find((word) => !/^[\p{L}\p{N}][\p{L}\p{N} _.'-]*$/u.test(word))
  if (bad === undefined) return ''
  return bad === ''
    ? `${weekday} has no word. Example: ${weekday} tempo + legs, or ${weekday} rest`
    : `Invalid word "${bad}". Write letters, digits, spaces and hyphens: ${weekday} tempo + legs`
}

function readWeek(key: Bit, rest: Bit, line: Line, plan: Plan): Wrong[] {
  const { text: word } = key
  if (!isCalendarDate(word)) return [{ bit: key, message: `Invalid date "${word}". ${example}` }]
  const monday = mondayOf(word)
  if (monday !== word) {
    const message = `${word} is a ${printDate(word, 'EEEE')}: a week begins on Monday. Write ${monday}`
    return [{ bit: key, message, suggestion: line.written.replace(word, monday) }]
  }
  const last = plan.weeks.at(-1)
  const same = plan.weeks.find((week) => week.monday === monday)
  if (same) return [{ bit: key, message: `line ${same.line} already has this week. Write both on one line` }]
  if (last && monday < last.monday) {
    const message = `the weeks are out of order: ${last.monday} is on line ${last.line}. Move this line above it`
    return [{ bit: key, message }]
  }
  const nothing = { distance: null, long: null, kind: null, days: {}, notes: [] }
  const week: PlanWeek = { monday, line: line.number, ...nothing }
  plan.weeks.push(week)
  return bitsOf(rest).flatMap((bit) => {
    const message = wrongWith(bit.text, week)
    return message === '' ? [] : [{ bit, message }]
  })
}

const bitExamples = 'Write a distance, long 16 km, easy, taper, race week, Thu tempo or a "note"'

/** Adds the text between two commas to the week; returns what is wrong with it, or nothing. */
function wrongWith(text: string, week: PlanWeek): string {
  const quoted = /^"(.*)"$/.exec(text)
  const words = text.toLowerCase().replace(/\s+/g, ' ')
  if (text === '') return `there is nothing before this comma. ${bitExamples}`
  if (quoted !== null) {
    week.notes.push(quoted[1] ?? '')
    return ''
  }
  if (words === 'easy' || words === 'taper' || words === 'race week') {
    if (week.kind !== null) return `the week is already called ${week.kind}. Remove one of the two`
    week.kind = words
    return ''
  }
  const [, long, amount = ''] = /^(long\b|(?=\d))(.*)$/.exec(words) ?? []
  if (long !== undefined) {
    const distance = distanceOf(amount)
    if (distance === null) return `Invalid distance "${amount.trim()}". Example: 42 km, long 16 km`
    const [field, what] = long === '' ? (['distance', 'distance'] as const) : (['long', 'long run'] as const)
    if (week[field] !== null) return `the week already has a ${what}. Remove one of the two`
    if (metersOf(distance) > mostMeters) return `${text} is more than 500 km in a week. Example: 42 km`
    week[field] = distance
    return longerThanWeek(week)
  }
  return addDay(text, week.days) ?? `"${text}" is not understood. ${bitExamples}`
}

const mostMeters = 500_000

function longerThanWeek({ long, distance }: PlanWeek): string {
  if (long === null || distance === null || metersOf(long) <= metersOf(distance)) return ''
  const [run, all] = [printLength(long), printLength(distance)]
  return `the long run of ${run} is longer than the week's ${all}. Write ${run} or more for the week`
}

function distanceOf(text: string): Length | null {
  const length = readLength(text)
  return length !== null && ['km', 'mi', 'm'].includes(length.unit) ? length : null
}

function bitsOf({ text, at }: Bit): Bit[] {
  return betweenCommas(text).map((bit) => ({ text: bit.text, at: at + bit.at }))
}
