import { sort } from 'd3-array'
import { betweenCommas, type Diagnostic, errorIn, type Line, linesOfText } from '../prescription/lines.ts'
import { implausibleTime } from '../prescription/plausible.ts'
import { isCalendarDate, mondayOf, printDate } from '../units/calendarDate.ts'
import { readDuration } from '../units/duration.ts'
import { metersOf, printLength, readLength } from '../units/length.ts'
import { emptyWeek, type Plan, type PlanDays, type PlanWeek, weekdayNamed } from './model.ts'

export type PlanReading = { plan: Plan } | { problems: Diagnostic[] }

/** A piece of a line, such as the text between two commas. `at`: where it begins in the line, in UTF-16 units. */
interface Bit {
  text: string
  at: number
}

interface Wrong {
  bit: Bit
  message: string
  suggestion?: string
}

/** Reads the block of training in `plan.txt`: a title, then `race:`, `week:` and a line for each week from its
 * Monday. Comments, quotes and line ends work as in a prescription.
 * @param input the file's bytes or its text
 * @returns the plan, or every problem that prevents reading it */
export function readPlan(input: Uint8Array | string): PlanReading {
  const problems: Diagnostic[] = []
  const plan: Plan = { title: '', race: null, days: {}, weeks: [] }
  for (const line of linesOfText(input, 'plan', problems))
    for (const { bit, message, suggestion } of readLine(line, plan))
      problems.push(errorIn(line, bit.at, bit.text.length || 1, message, suggestion))
  if (plan.title === '' && problems.length === 0) {
    const message = 'a plan begins with its title. Example: Ten under forty'
    problems.push(errorIn({ number: 1, shown: '' }, 0, 1, message))
  }
  if (problems.length > 0) return { problems }
  return { plan: { ...plan, weeks: sort(plan.weeks, ({ monday }) => monday) } }
}

const example = 'Example: 2026-12-07: 42 km, long 16 km'

/** Adds a line to the plan; returns what is wrong with it. */
function readLine(line: Line, plan: Plan): Wrong[] {
  const at = line.text.length - line.text.trimStart().length
  if (line.openQuote !== null)
    return [{ bit: { text: '"', at: line.openQuote }, message: 'this quote never closes: write one more "' }]
  const [begin = '', word = ''] =
    /^\s*(\d{4}-\d[^\s:"]*(?=\s)|[^\s:"]{1,40}(?=\s*:))\s*:?/.exec(line.text) ?? []
  const key = { text: word, at }
  const rest = { text: line.text.slice(begin.length), at: begin.length }
  const what = /^\d{4}-/.test(word) ? 'date' : word.toLowerCase()
  if (plan.title === '') {
    plan.title = line.written
    const message = 'a plan begins with its title. Write one above this line'
    return ['race', 'week', 'date'].includes(what) ? [{ bit: key, message }] : []
  }
  if (what === 'race') return readRace(key, rest, line.number, plan)
  if (what === 'week') return readDays(key, rest, plan)
  if (what === 'date') return readWeek(key, rest, line, plan)
  const bit = begin === '' ? { text: line.text.trim(), at } : key
  return [{ bit, message: `this line does not begin with race:, week: or a Monday. ${example}` }]
}

const raceExample = 'Example: race: 10 km in 39:30 on 2027-04-18'

function readRace(key: Bit, rest: Bit, line: number, plan: Plan): Wrong[] {
  if (plan.race !== null) {
    const message = `a plan leads to one race, which is on line ${plan.race.line}. Remove one of the two, or note the other on its week: "trial: 5 km"`
    return [{ bit: key, message }]
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
  const wrong = implausibleTime(printLength(length), metersOf(length), { from: seconds, to: seconds }, 'run')
  if (wrong !== null) return [{ bit: time, message: wrong.message }]
  if (!isCalendarDate(date.text)) return invalid('date', date)
  plan.race = { length, seconds, on: date.text, line }
  return []
}

function readDays(key: Bit, rest: Bit, plan: Plan): Wrong[] {
  if (Object.keys(plan.days).length > 0)
    return [{ bit: key, message: 'the days of the week are given twice. Write both on one line' }]
  const unknown = (bit: string) =>
    `"${bit}" does not begin with a weekday. Example: week: Tue track, Thu tempo + legs`
  return wrongBits(rest, (text) => addDay(text, plan.days, unknown(text)))
}

/** @param read adds a piece between two commas; returns what is wrong with it, or null */
function wrongBits(rest: Bit, read: (text: string) => string | null): Wrong[] {
  return betweenCommas(rest.text).flatMap(({ text, at }) => {
    const message = read(text)
    return message === null ? [] : [{ bit: { text, at: rest.at + at }, message }]
  })
}

/** Adds `Thu tempo + legs`; returns what is wrong with it, `unknown` if it does not begin with a weekday. */
function addDay(text: string, days: PlanDays, unknown: string): string | null {
  // `Wed sun salutation`: the next day would leave this one without a word.
  const isDay = (word: string, at: number) => weekdayNamed(word) !== null && (at !== 1 || word !== 'sun')
  const words = text.split(/(?:[\s/&]|\band\b)+/i)
  const named = words.findIndex((word, at) => !isDay(word, at))
  if (named > 1) {
    const each = words.slice(0, named).map((day) => `${day} ${words.slice(named).join(' ')}`)
    return `each day has words of its own: write ${each.join(', ')}`
  }
  const [, name = '', all = ''] = /^(\p{L}+)[.:]?(?:\s+(.*))?$/u.exec(text) ?? []
  const weekday = weekdayNamed(name)
  if (weekday === null) return unknown
  const next = all.split(/\s+/).find((word, at) => isDay(word, at + 1))
  if (next !== undefined)
    return `write a comma before ${next}: ${text.replace(new RegExp(`[^\\p{L}\\p{N}]*\\s${next}`, 'u'), `, ${next}`)}`
  const before = days[weekday]
  if (before !== undefined)
    return `${weekday} is given twice. Write ${weekday} ${[...before, all].join(' + ')}`
  const purposes = all.split('+').map((word) => word.trim())
  days[weekday] = purposes
  if (purposes.includes(''))
    return `${weekday} has no word. Example: ${weekday} tempo + legs, or ${weekday} rest`
  const [odd] = /[^\p{L}\p{M}\p{N}+ _.'-]/u.exec(all) ?? []
  return odd === undefined
    ? null
    : `a word of a day cannot have ${odd}. Write + between words and a comma before the next day: ${weekday} tempo + legs`
}

function readWeek(key: Bit, rest: Bit, line: Line, plan: Plan): Wrong[] {
  const { text: date } = key
  if (!isCalendarDate(date)) return [{ bit: key, message: `Invalid date "${date}". ${example}` }]
  const monday = mondayOf(date)
  if (monday !== date) {
    const message = `${date} is a ${printDate(date, 'EEEE')}: a week begins on Monday. Write ${monday}`
    return [{ bit: key, message, suggestion: line.written.replace(date, monday) }]
  }
  const same = plan.weeks.find((week) => week.monday === monday)
  if (same) return [{ bit: key, message: `line ${same.line} already has this week. Write both on one line` }]
  const week: PlanWeek = { ...emptyWeek(monday), line: line.number }
  plan.weeks.push(week)
  return wrongBits(rest, (text) => addToWeek(text, week))
}

const bitExamples = 'Write a distance, long 16 km, easy, taper, race week, Thu tempo or a "note"'

/** Adds the text between two commas to the week; returns what is wrong with it, or null. */
function addToWeek(text: string, week: PlanWeek): string | null {
  const [, note] = /^"(.*)"$/.exec(text) ?? []
  const words = text
    .toLowerCase()
    .replace(/\s+/g, ' ')
    .replace(/^(easy|taper) week$/, '$1')
  if (note !== undefined) week.notes.push(note)
  else if (words === 'easy' || words === 'taper' || words === 'race week') {
    if (week.kind !== null) return `the week is already called ${week.kind}. Remove one of the two`
    week.kind = words
  } else if (/^(?:long\b|\d)/.test(words)) {
    const amount = words.replace(/^long(?: run)? | long(?: run)?$/, '')
    const length = readLength(amount)
    const field = amount === words ? 'distance' : 'long'
    if (length === null || length.unit === 'lap')
      return `Invalid distance "${amount}". Example: 42 km, long 16 km`
    if (week[field] !== null)
      return `the week already has a ${field === 'long' ? 'long run' : field}. Remove one of the two`
    week[field] = length
    const { distance, long: run } = week
    if (distance && run && metersOf(run) > metersOf(distance))
      return `the long run of ${printLength(run)} is longer than the week's ${printLength(distance)}. Correct one of the two`
  } else return addDay(text, week.days, `"${text}" is not understood. ${bitExamples}`)
  return null
}
