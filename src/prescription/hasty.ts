import { sum } from 'd3-array'
import { printClock } from '../units/duration.ts'
import { metersIn, metersOf, printLength, readLength } from '../units/length.ts'
import type { Length } from '../units/model.ts'
import { liftAnswers } from './hastyLifts.ts'
import { amount, ownWords, recoveryText, runAnswers, someTime } from './hastyRuns.ts'
import { type AnswerRow, inNotation, type LineRule, put, type Row } from './words.ts'

/* Lines as coaches scribble them that the notation does not have, and the line to write instead: headers and meals, and
 * how rows are tried. */

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
const occasion = '(?:the +|my +)?(?:run|running|lift|lifting|training|session|workout|race|gym|weights)'
const foodBefore = new RegExp(
  `^((?:\\d[\\d.]* *)?\\p{L}[^:]*?)(?: +(\\d[\\d:.]* *(?:min|h|s)))? +(before|between|after)(?: +${occasion})?$`,
  'iu',
)
/** @param foods the food that may follow, as a pattern: in quotes, nothing with a figure */
const foodAtTime = (foods: string) =>
  new RegExp(`^(\\d[\\d:.]* *(?:min|h)) +(before|after)(?: +${occasion})?[ :,]+(${foods})$`, 'iu')
const foodAfter = new RegExp(`^(before|between|after) +${occasion}[ :]+(.*\\p{L}.*)$`, 'iu')

/** `gel before run`, `before run: gel`: the meal in the notation, each food as written or as words in quotes. */
function mealText(when: string, time: string, foods: string, isQuoted: boolean): string {
  const bits = foods.split(/ *[,+&] *| +and +/).map((food) => {
    const [, amount, nutrient] = /^(\d[\d.]* *m?g) +(?:of +)?(carbs|protein|fat|caffeine)$/i.exec(food) ?? []
    if (amount !== undefined) return `${nutrient} ${amount}`
    return isQuoted ? `"${food}"` : food
  })
  return `${when.toLowerCase()}${time === '' ? '' : ` ${time}`}: ${bits.join(', ')}`
}

const mealMessage =
  'a meal begins with before, between or after and a colon, and words of your own are in quotes'
const fuelAnswers = [false, true].flatMap((isQuoted): AnswerRow[] => [
  [foodBefore, mealMessage, (_, foods, time, when) => mealText(when, time, foods, isQuoted)],
  [foodAfter, mealMessage, (_, when, foods) => mealText(when, '', foods, isQuoted)],
  [
    foodAtTime(isQuoted ? '\\D+' : '.+'),
    mealMessage,
    (_, time, when, foods) => mealText(when, time, foods, isQuoted),
  ],
])

/** Names something that is eaten. */
export const namesFood =
  /\b(?:gels?|coffee|tea|caffeine|bananas?|carbs?|protein|shakes?|drinks?|oats|porridge|eggs?|rice|toast|bread|yogh?urt|milk|juice|fruit|snacks?|meal|breakfast|kcal)\b/i

/** Whether the words of a meal are something that is eaten, and not a nutrient whose amount is missing. */
export function isFood(words: string): boolean {
  return namesFood.test(words) && !/^(?:carbs?|protein|fat|caffeine|kcal)$/i.test(words)
}

// ---- how rows are tried ------------------------------------------------------------------------

/** In the order in which they are tried. */
const answersOf: Partial<Record<LineRule, readonly AnswerRow[]>> = {
  header: headerAnswers,
  liftItem: liftAnswers,
  fuelItem: fuelAnswers,
  runItem: runAnswers,
}

/** The most rows that may repair one line, each what the one before wrote. */
const mostRows = 3

/** Answers a line that reads neither as it is nor with synonyms replaced; null for a line without an answer.
 * @param isReadable whether a line reads, so that only readable lines are suggested */
export function hastyAnswer(
  text: string,
  rule: LineRule,
  isReadable: (text: string) => boolean,
): Answer | null {
  const [, line = '', notes = ''] = /^ *(.*?)((?: *, *"[^"]*")*) *$/.exec(text) ?? []
  const spellings = new Set([line, spelledOut(line, rule)])
  for (const said of spellings) {
    const mended = rowsAnswer(said, rule, (each) => isReadable(`${each}${notes}`), mostRows)
    if (mended !== null) return { ...mended, suggestion: `${mended.suggestion}${notes}` }
  }
  const open = answersOf[rule]?.find(([pattern, , said]) => said === null && pattern.test(line))
  if (open !== undefined) return { message: put(line, open[0], open[1]), suggestion: null }
  if (rule !== 'runItem' || notes !== '') return null
  for (const said of spellings) {
    const several = severalIntervals(said, isReadable)
    if (several !== null) return several
  }
  return null
}

/** What the grammar answers itself if nothing else is amiss in a line. */
const grammarsOwn: Partial<Record<LineRule, readonly Row[]>> = {
  runItem: [
    [/(?<=\d)'/g, ' min'],
    [
      /(?<=^|[x(,] *|\b(?:jog|walk) +)(\d{3,4}(?:-\d{3,4})*)(?= *(?:[),@]|$)| +(?:in\b|off\b|jog\b|\p{L}{4}))/giu,
      '$1 m',
    ],
    [new RegExp(`(?<=, *)(${amount}) +rest(?= *(?:,|$))`, 'gi'), 'rest $1'],
  ],
  liftItem: [[/(?<=x *[\d-]+) *, *(?=rpe +\d)/gi, ' @ ']],
}

function spelledOut(line: string, rule: LineRule): string {
  const said = (grammarsOwn[rule] ?? []).reduce((text, row) => put(text, ...row), line)
  return said === line ? line : inNotation(said, rule)
}

/** The answer with the fewest rows. */
function rowsAnswer(
  line: string,
  rule: LineRule,
  isReadable: (text: string) => boolean,
  rows: number,
): { message: string; suggestion: string } | null {
  const mended = (answersOf[rule] ?? []).flatMap(([pattern, message, said]) =>
    said !== null && pattern.test(line)
      ? [{ message: put(line, pattern, message), suggestion: put(line, pattern, said) }]
      : [],
  )
  const direct = mended.find(({ suggestion }) => isReadable(suggestion))
  if (direct !== undefined || rows === 1) return direct ?? null
  for (const { message, suggestion } of mended) {
    const answer = rowsAnswer(suggestion, rule, isReadable, rows - 1)
    if (answer !== null)
      return answer.message === message ? answer : { ...answer, message: `${message}; ${answer.message}` }
  }
  return null
}

/** Words that begin a clause, and so are not a note. */
const clauseWord =
  /^(?:s|secs?|mins?|h|m|km|kg|lbs?)\b|\b(?:pause|rest|every|on|tempo|build|each|then|last|max|amrap|jog|walk|stand|split|negative|lane|grade|hr|rpe|progression|emom|drop|superset|pace)\b/i

/** `deadlift 1 x 5 @ 140 kg belt`, `bench 3 x 8 (rest 2 min) @ 60 kg`: words after a complete item are a note, and words
 * in brackets are a clause if they read as one.
 * @param offer the line that would be written for another text, if there is one */
export function ownWordsLast(
  text: string,
  rule: LineRule,
  isReadable: (text: string) => boolean,
  offer: (text: string) => string | null,
): Answer | null {
  if (rule !== 'liftItem' && rule !== 'runItem') return null
  const line = text.trim()
  const [, before = '', inBrackets, after = ''] =
    /^(.*[\d%\p{L})])(?<!\d *x) *\(([^()"]+)\)(.*)$/u.exec(line) ?? []
  if (inBrackets !== undefined)
    return outOfBrackets(`${before}${after}`, inBrackets.trim(), isReadable, offer)
  const suggestion = withNote(line, isReadable)
  return suggestion === null ? null : { message: ownWords, suggestion }
}

/** The line with the words at its end as a note; null if no words make a readable item of it. */
function withNote(line: string, isReadable: (text: string) => boolean): string | null {
  for (let end = line.lastIndexOf(' '); end > 0; end = line.lastIndexOf(' ', end - 1)) {
    const words = line.slice(end + 1)
    if (!/^\p{L}[\p{L} '-]*$/u.test(words) || clauseWord.test(words)) return null
    const item = line.slice(0, end).trimEnd()
    if (isReadable(item)) return `${item}, "${words}"`
  }
  return null
}

function outOfBrackets(
  item: string,
  words: string,
  isReadable: (text: string) => boolean,
  offer: (text: string) => string | null,
): Answer | null {
  if (/\b(?:amrap|max|failure|drop)\b/i.test(words)) return null
  const note = `${item}, "${words}"`
  const asNote = offer(note)
  for (const clause of [offer(`${item}, ${words}`), offer(`${item} ${words}`)])
    if (clause !== null && clause !== asNote)
      return {
        message: 'a clause has a comma before it, and no brackets',
        suggestion: clause,
      }
  return isReadable(note) ? { message: ownWords, suggestion: note } : null
}

/** `6 km easy, 2 km @ goal`: suggests a line for each interval. */
function severalIntervals(text: string, isReadable: (text: string) => boolean): Answer | null {
  if (/^\d+ *x/i.test(text)) return null
  const lines = fastEnd(text) ?? intervalsIn(text)
  if (lines.length < 2 || lines.length > 9) return null
  const written = lines.map((line) =>
    isReadable(line)
      ? line
      : (hastyAnswer(line, 'runItem', isReadable)?.suggestion ?? withNote(line, isReadable)),
  )
  if (written.includes(null)) return null
  return { message: 'each interval is written on a line of its own', suggestion: written.join('\n  ') }
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
    .split(/[,;+]| (?:plus|then) | with (?=\d+ *x)/i)
    .map((interval) => interval.trim())
    .map((interval, index) =>
      index > 0 && hasTarget && isTime.test(interval) ? recoveryText(interval) : interval,
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

const isTime = new RegExp(`^(?:${someTime})$`, 'i')

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
