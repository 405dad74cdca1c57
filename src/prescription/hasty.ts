import { sum } from 'd3-array'
import { printClock } from '../units/duration.ts'
import { metersIn, metersOf, printLength, readLength } from '../units/length.ts'
import type { Length } from '../units/model.ts'
import { liftAnswers, liftQuestions, liftScribble, roundsScribble, withoutName } from './hastyLifts.ts'
import { runAnswers, runScribble } from './hastyRuns.ts'
import { ownWords, type Scribble } from './scribble.ts'
import { type AnswerRow, type LineRule, put } from './words.ts'

/* Lines as coaches scribble them that the notation does not have, and the line to write instead: headers, meals, and
 * the order in which the answers to any line are tried. */

/** Answers a line that cannot be read with what to write. */
export interface Answer {
  message: string
  suggestion: string | null
}

// ---- headers ----------------------------------------------------------------------------------

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

const headerAnswers: readonly AnswerRow[] = [
  [
    /^goal *: *(.*)$/i,
    (_, goal) =>
      `a goal is written as a distance in a time${dateInWords.test(goal) ? ', and its date as on 2027-04-18' : ''}`,
    (_, goal) => goalText(goal),
  ],
  [/^date *: *(.*)$/i, 'a date is written year-month-day', (line) => withDate(line)],
  [/^lap *: *(\d{2,4})$/i, 'the length of a lap needs a unit', 'lap: $1 m'],
  [/^(athlete *: *\d[\d.]* *(?:kg|lb)s?)\b.*$/i, 'the athlete is given as a body mass alone', '$1'],
  // Several values on the line of one.
  [
    /^max *: *([^,]*\d[^,]*(?:,[^,]*\d[^,]*)+)$/i,
    (_, maxima) =>
      `each maximum has a line of its own: write ${maxima
        .split(/ *, */)
        .map((each) => `max: ${each}`)
        .join(' and below it ')}`,
    null,
  ],
]

// ---- meals ------------------------------------------------------------------------------------

/** What a meal is named after: `before the run`. */
const occasion = '( +(?:the +|my +)?(?:run|running|lift|lifting|training|session|workout|race|gym|weights))?'
const foodLast = new RegExp(
  `^(?:(\\d[\\d:.]* *(?:min|h)) +)?(before|between|after)${occasion}[ :,]+(.+)$`,
  'i',
)
const foodFirst = new RegExp(
  `^([^:]+?)(?: +(\\d[\\d:.]* *(?:min|h|s)))? +(before|between|after)${occasion}$`,
  'i',
)

/** `gel before run`, `before run: gel`: the meal in the notation, each food as written or as words in quotes. */
function mealScribble(line: string, isQuoted: boolean): Scribble | null {
  const [, late, last, named, after] = foodLast.exec(line) ?? []
  const [, before, early, first] = foodFirst.exec(line) ?? []
  const [when, time, foods = ''] = (late ?? named) ? [last, late, after] : [first, early, before]
  const bits = foods.split(/ *[,+&] *| +and +/).map((food) => {
    const [, amount, nutrient] = /^(\d[\d.]* *m?g) +(?:of +)?(carbs|protein|fat|caffeine)$/i.exec(food) ?? []
    if (amount !== undefined) return `${nutrient} ${amount}`
    return isQuoted && !/\d *m?g\b/.test(food) ? `"${food}"` : food
  })
  if (!/\p{L}/u.test(foods)) return null
  const wrong = [
    'a meal begins with before, between or after and a colon, and words of your own are in quotes',
  ]
  return { line: `${when?.toLowerCase()}${time ? ` ${time}` : ''}: ${bits.join(', ')}`, wrong }
}

/** Names something that is eaten. */
export const namesFood =
  /\b(?:gels?|coffee|tea|caffeine|bananas?|carbs?|protein|shakes?|drinks?|oats|porridge|eggs?|rice|toast|bread|yogh?urt|milk|juice|fruit|snacks?|meal|breakfast|kcal)\b/i

/** Whether the words of a meal are something that is eaten, and not a nutrient whose amount is missing. */
export function isFood(words: string): boolean {
  return namesFood.test(words) && !/^(?:carbs?|protein|fat|caffeine|kcal)$/i.test(words)
}

// ---- any line ----------------------------------------------------------------------------------

type Reader = (line: string) => Scribble | null

/** In the order in which they are tried. */
const readers: Partial<Record<LineRule, readonly Reader[]>> = {
  header: headerAnswers.map(readerOf),
  fuelItem: [(line) => mealScribble(line, false), (line) => mealScribble(line, true)],
  liftItem: [
    ...liftAnswers.map(readerOf),
    roundsScribble,
    liftScribble,
    ...liftQuestions.map(readerOf),
    withoutName,
  ],
  runItem: [
    ...runAnswers.map(readerOf),
    (line) => runScribble(line),
    (line) => (/race/i.test(line) ? runScribble(line, false) : null),
  ],
}

function readerOf([pattern, message, said]: AnswerRow): Reader {
  return (line) =>
    pattern.test(line)
      ? { line: said === null ? null : put(line, pattern, said), wrong: [put(line, pattern, message)] }
      : null
}

/** Answers a line that reads neither as it is nor with synonyms replaced; null for a line without an answer.
 * @param isReadable whether a line reads, so that only readable lines are suggested
 * @param isLast whether nothing else has an answer, so that words of one's own may be all that is wrong */
export function hastyAnswer(
  text: string,
  rule: LineRule,
  isReadable: (text: string) => boolean,
  isLast = false,
): Answer | null {
  const [, line = '', quoted = ''] = /^ *(.*?)((?: *,? *"[^"]*")*) *$/.exec(text) ?? []
  const notes = quoted.replace(/ *,? *("[^"]*")/g, ', $1')
  for (const read of readers[rule] ?? []) {
    const scribble = read(line)
    if (scribble === null) continue
    const { line: written, wrong } = scribble
    const suggestion = written === null ? null : written + notes
    const isSure = isLast || wrong.some((each) => each !== ownWords)
    if (isSure && (suggestion === null || isReadable(suggestion)))
      return { message: wrong.join('; ') || 'put a comma before each clause, and no brackets', suggestion }
  }
  if (!isLast) return rule === 'runItem' ? severalIntervals(line, notes, isReadable) : null
  // Words in brackets are a clause, or else a note.
  const [, before = '', words = '', after = ''] =
    /^(.*[\d%\p{L})])(?<!\d *x) *\(([^()"]+)\)(.*)$/u.exec(line) ?? []
  if (!/\p{L}{3}/u.test(words) || /\b(?:amrap|max|failure|drop)\b/i.test(words)) return null
  const clause = `${before}${after}, ${words.trim()}${notes}`
  const asClause = clause.includes('(') ? null : hastyAnswer(clause, rule, isReadable, true)
  if (asClause?.suggestion) return asClause
  if (/\b(?:rest|jog|walk|every)\b/i.test(words)) return null
  const note = `${before}${after}, "${words.trim()}"${notes}`
  return isReadable(note)
    ? { message: ownWords, suggestion: note }
    : hastyAnswer(note, rule, isReadable, true)
}

/** `6 km easy, 2 km @ goal`: suggests a line for each interval. */
function severalIntervals(text: string, notes: string, isReadable: (text: string) => boolean): Answer | null {
  if (/^\d+ *x/i.test(text)) return null
  const lines = fastEnd(text) ?? intervalsIn(text)
  if (lines.length < 2 || lines.length > 9) return null
  const written = lines.map((line) =>
    isReadable(line) ? line : (hastyAnswer(line, 'runItem', isReadable, true)?.suggestion ?? null),
  )
  if (written.includes(null)) return null
  return {
    message: 'each interval is written on a line of its own',
    suggestion: written.join('\n  ') + notes,
  }
}

/** A run with repeats in it, of the same kind: how much of it they are, is left to the athlete. */
const withRepeats = /^\d[\d.:]* *(?:(min|h)|km|mi)\b.* with +\d+ *x *\d[\d.:]* *(?:(min)|km|mi)\b/i

/** A recovery after repeats belongs to them; after any other interval it has a line of its own. */
function intervalsIn(text: string): string[] {
  const repeats = withRepeats.exec(text)
  if (repeats !== null && (repeats[1] === undefined) === (repeats[2] === undefined)) return []
  const hasTarget = /@|\bin\b/i.test(text)
  const isRecovery = (interval: string) => /^(?:jog|walk|stand|rest)\b/i.test(interval)
  const intervals = text
    .replace(/ *\((\d+ *x[^()]*)\)/i, ', $1')
    .split(/[,;+]| (?:plus|then) | with (?=\d+ *x)/i)
    .map((interval) => interval.trim())
    .map((interval, index) =>
      index > 0 && hasTarget && isTime.test(interval) ? `rest ${interval}` : interval,
    )
  const lines: string[] = []
  for (const interval of intervals)
    if (isRecovery(interval) && /^\d+ *x/i.test(lines.at(-1) ?? '')) lines.push(`${lines.pop()}, ${interval}`)
    else lines.push(interval)
  const isWork = (line = '') => /^(?:\d|warm|cool)/i.test(line)
  // A recovery has work before and after it.
  const isWhole = isWork(lines.at(0)) && isWork(lines.at(-1))
  return isWhole &&
    !lines.some((line) => /\bwith\b/i.test(line)) &&
    lines.every((line) => isWork(line) || isRecovery(line))
    ? lines
    : []
}

const isTime = /^(?:\d+:\d\d|\d[\d.]* *(?:s|min|'|″))$/i

/** `14 km easy, last 4 km @ 4:00/km`: the easy kilometres and the fast ones; null for any other line. */
function fastEnd(text: string): [string, string] | null {
  const [, whole, unit = '', easy = '', last, end = ''] =
    /^(\d+(?:\.\d+)?) *(km|mi|min|m)\b([^,]*?)(?: *, *(?:the +)?last| +with(?: +(?:the +)?last)?) +(\d+(?:\.\d+)?) *\2\b *([^,]*)$/i.exec(
      text,
    ) ?? []
  const first = Math.round((Number(whole) - Number(last)) * 100) / 100
  if (!(first > 0) || !/^(?:@|at\b|in\b|steady|tempo|threshold|hard|fast)/i.test(end)) return null
  return [`${first} ${unit}${easy || ' easy'}`, `${last} ${unit} ${end}`]
}
