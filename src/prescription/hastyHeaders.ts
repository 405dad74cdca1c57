import { sum } from 'd3-array'
import { printClock } from '../units/duration.ts'
import { metersIn, metersOf, printLength, readLength } from '../units/length.ts'
import type { Length } from '../units/model.ts'
import type { AnswerRow, Row } from './synonyms.ts'

/* Headers as coaches scribble them, and the line to write instead. */

const months = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec']
const monthName = `(${months.join('|')})[a-z]*\\.?`
const dateInWords = new RegExp(
  `(?<![\\d:.])\\b(?:(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*,? +)?(?:(\\d{1,2})(?:st|nd|rd|th)? +(?:of +)?${monthName}|${monthName} +(\\d{1,2})(?:st|nd|rd|th)?)(?:,? +(\\d{4}))?\\b`,
  'i',
)

/** The text with a date such as `18 April 2027` or `Apr 18, 2027` as `2027-04-18`; a date without a year stays. */
function withDate(text: string): string {
  return text.replace(dateInWords, (date, day, month, monthFirst, dayAfter, year) => {
    if (year === undefined) return date
    const two = (value: number | string) => String(value).padStart(2, '0')
    const number = months.indexOf((month ?? monthFirst).toLowerCase()) + 1
    return `${year}-${two(number)}-${two(day ?? dayAfter)}`
  })
}

/* What a goal is made of; each may stand anywhere in a scribbled one. */
const goalDate = /\d{4}-\d\d-\d\d/
const goalPace = /(?<![\d:.])(\d{1,2}):([0-5]\d) *(?:min *)?(?:\/|per +)(km|mi)\b/i
const goalLength =
  /(?<![\d:.])(\d+(?:\.\d+)?) *(km|k|mi|miles?|m(?! *\d\d *(?:s|$)))\b|\b(half(?:[ -]*marathon)?|hm|marathon|mile)\b/i
const goalTime = /\d+(?:[ :.'hm]+[0-5]\d){0,2}(?: *(?:s|sec|min|h|m|″|'+))?(?!\p{L})/iu
const goalWords = /\b(?:run|race|in|sub|under|below|for|on|at|target)\b|[-<@,:()]/gi

/** A goal with its distance, time and date in any order, a date without a year left out; the empty text if anything
 * else is not understood. */
function goalText(scribbled: string): string {
  let rest = withDate(scribbled).replace(dateInWords, '')
  const take = (pattern: RegExp) => {
    const found = pattern.exec(rest)
    if (found !== null) rest = rest.replace(found[0], ' ')
    return found
  }
  const date = take(goalDate)?.[0]
  const pace = take(goalPace)
  const length = goalDistance(take(goalLength))
  const seconds =
    pace === null || length === null ? goalSeconds(take(goalTime)?.[0], length) : paced(pace, length)
  if (length === null || seconds === null || rest.replace(goalWords, '').trim() !== '') return ''
  return `goal: ${printLength(length)} in ${printClock(seconds)}${date === undefined ? '' : ` on ${date}`}`
}

function goalDistance(found: RegExpExecArray | null): Length | null {
  if (found === null) return null
  const [, count, unit, race = ''] = found
  if (count !== undefined) return readLength(`${count} ${unit}`)
  if (/^mile$/i.test(race)) return { value: 1, unit: 'mi' }
  return { value: 1, unit: /^marathon$/i.test(race) ? 'marathon' : 'half marathon' }
}

/** Seconds of a goal's pace over its distance, in whole seconds. */
function paced([, minutes, seconds, unit]: RegExpExecArray, length: Length): number {
  const perUnit = Number(minutes) * 60 + Number(seconds)
  return Math.round((metersOf(length) / metersIn[unit?.toLowerCase() === 'mi' ? 'mi' : 'km']) * perUnit)
}

/** Seconds of `39:30`, `39.30`, `39 min 30 s`, `40`. From a half marathon up a small first figure is hours, and up to
 * two laps a large one alone is seconds. */
function goalSeconds(text: string | undefined, length: Length | null): number | null {
  if (text === undefined || length === null) return null
  const figures = (text.match(/\d+/g) ?? []).map(Number)
  const [first = 0] = figures
  const meters = metersOf(length)
  const isHours = figures.length === 3 || /h/i.test(text) || (meters > 20_000 && first < 10)
  const isSeconds = figures.length === 1 && meters <= 800 && first >= 40
  const units = isHours ? [3600, 60, 1] : isSeconds ? [1] : [60, 1]
  return sum(figures.map((figure, index) => figure * (units[index] ?? 0)))
}

export const headerAnswers: readonly AnswerRow[] = [
  [
    /^goal *: *(.*)$/i,
    (_, goal = '') =>
      `a goal is written as a distance in a time${dateInWords.test(goal) ? ', and its date as on 2027-04-18' : ''}`,
    (_, goal = '') => goalText(goal),
  ],
  [/^date *: *(.*)$/i, 'a date is written year-month-day', (line = '') => withDate(line)],
  [/^lap *: *(\d{2,4})$/i, 'the length of a lap needs a unit', 'lap: $1 m'],
  [/^(athlete *: *\d[\d.]* *(?:kg|lb)s?)\b.*$/i, 'the athlete is given as a body mass alone', '$1'],
]

/** Several values on the line of one. */
export const severalHeaders: readonly Row[] = [
  [
    /^max *: *([^,]*\d[^,]*(?:,[^,]*\d[^,]*)+)$/i,
    (_, maxima = '') =>
      `each maximum has a line of its own: write ${maxima
        .split(/ *, */)
        .map((each) => `max: ${each}`)
        .join(' and below it ')}`,
  ],
]
