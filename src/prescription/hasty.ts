import { sum } from 'd3-array'
import { printClock } from '../units/duration.ts'
import { metersIn, metersOf, printLength, readLength } from '../units/length.ts'
import type { Length } from '../units/model.ts'
import {
  complexScribble,
  liftAnswers,
  liftQuestions,
  liftRefusals,
  liftScribble,
  roundsScribble,
  withoutName,
} from './hastyLifts.ts'
import { runAnswers, runQuestions, runScribble } from './hastyRuns.ts'
import { type AnswerRow, aboutLine, ownWords, type Scribble } from './scribble.ts'
import { corrected, filledIn, placeIn, type Remark } from './spellings.ts'
import type { Place } from './syntax.ts'
import type { LineRule } from './words.ts'

/* Lines as coaches scribble them that the notation does not have, and the line to write instead: headers, meals, and
 * the order in which the answers to any line are tried. */

/** A line as the notation prints it; null if it would be refused. */
export type Written = (line: string) => string | null

/** Answers a line that cannot be read with what to write. */
export interface Answer extends Remark {
  suggestion: string | null
}

/* Headers. */

const months = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec']
const monthName = `(${months.join('|')})[a-z]*\\.?`
/** `Sun 18 April 2027`, `18th of April`, `Apr 18, 2027`. */
const dateInWords = new RegExp(
  `(?<![\\d:.])\\b(?:(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*,? +)?(?:(\\d{1,2})(?:st|nd|rd|th)? +(?:of +)?${monthName}|${monthName} +(\\d{1,2})(?:st|nd|rd|th)?)(?:,? +(\\d{4}))?\\b`,
  'i',
)

/** The text with a date in words as `2027-04-18`; a date without a year stays. */
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
const goalPace = /(?<![\d:.])(\d{1,2}):([0-5]\d) *(?:min *)?(?:\/|per +)(km|mi)\b/i // 3:57/km
/** `10k`, `half`, `mile`; not the minutes of `39m30s`. */
const goalLength =
  /(?<![\d:.])(\d+(?:\.\d+)?) *(km|k|mi|miles?|m(?! *\d\d *(?:s|$)))\b|\b(half(?:[ -]*marathon)?|hm|marathon|mile)\b/i
/** `39:30`, `39m30s`, `1 h 28`, `40`. */
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
  [
    /^date *: *(\d{1,2})[./](\d{1,2})[./](\d{4})$/i,
    (_, day, month, year) => {
      const [one, other] = [day, month].map((each) => each.padStart(2, '0'))
      return `a date is written year-month-day: write ${year}-${other}-${one} or ${year}-${one}-${other}`
    },
    null,
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

/* Meals. */

/** What a meal is named after: `before the run`. */
const occasion =
  '(?: +(?:the +|my +)?(?:run|running|lift|lifting|training|session|workout|race|gym|weights))?'
const when = String.raw`(?:(?<early>\d[\d:.]* *(?:min|h)) +)?(?<when>before|between|after)${occasion}`
/** `2 h before: porridge`, `after the gym 30 min: milk`. */
const foodLast = new RegExp(
  String.raw`^${when}(?: +(?<late>\d[\d:.]* *(?:min|h)?)(?= *[:-]| +\p{L}{2}))?[ :,-]+(?<foods>.+)$`,
  'iu',
)
/** `gel before run`. */
const foodFirst = new RegExp(`^(?<foods>[^:]+?),? +${when}$`, 'i')
/** `porridge carbs 75 g`. */
const nutrientLast = /^(?<words>.*?),? *(?<amount>(?:carbs|protein|fat|caffeine) \d[\d.]* *m?g)$/i

/** `gel before run`, `2 h before: porridge, carbs 80 g`, `carbs 75 g`: the meal in the notation, each food as written
 * or as words in quotes. */
function mealScribble(line: string, isQuoted: boolean): Scribble | null {
  const found = (foodLast.exec(line) ?? foodFirst.exec(line))?.groups
  const { early, when = 'before', late, foods = line } = found ?? {}
  if (!/\p{L}/u.test(foods) || (found === undefined && !/(?:carbs|protein|fat) \d/i.test(line))) return null
  const bits = foods
    .split(/ *[,+&] *| +and +|(?<=\d m?g) +(?=\p{L}+ \d)|(?<=(?:carbs|protein|fat) [\d.]+ g) +(?=\p{L})/u)
    .flatMap((food) => {
      const { words = food, amount = '' } = nutrientLast.exec(food)?.groups ?? {}
      const isOwn = isQuoted && words !== '' && !/\d *m?g\b/.test(words)
      return [amount, isOwn ? `"${words}"` : words].filter((bit) => bit !== '')
    })
  const time = early ?? late
  const message =
    'a meal begins with before, between or after and a colon, and words of your own are in quotes'
  return {
    line: `${when.toLowerCase()}${time === undefined ? '' : ` ${time}`}: ${bits.join(', ')}`,
    wrong: [aboutLine(line, message)],
  }
}

/** Names something that is eaten. */
export const namesFood =
  /\b(?:gels?|coffee|tea|caffeine|bananas?|carbs?|protein|shakes?|drinks?|oats|porridge|eggs?|rice|toast|bread|yogh?urt|milk|juice|fruit|snacks?|meal|breakfast|kcal)\b/i

/** Whether the words of a meal are something that is eaten, and not a nutrient whose amount is missing. */
export function isFood(words: string): boolean {
  return namesFood.test(words) && !/^(?:carbs?|protein|fat|caffeine|kcal)$/i.test(words)
}

/* Any line. */

type Reader = (line: string) => Scribble | null

/** In the order in which they are tried. */
const readers: Partial<Record<LineRule, readonly Reader[]>> = {
  header: headerAnswers.map(readerOf),
  fuelItem: [(line) => mealScribble(line, false), (line) => mealScribble(line, true)],
  liftItem: [
    ...liftAnswers.map(readerOf),
    roundsScribble,
    complexScribble,
    (line) => liftScribble(line),
    ...liftQuestions.map(readerOf),
    withoutName,
  ],
  runItem: [
    ...runAnswers.map(readerOf),
    (line) => runScribble(line),
    (line) => (/race/i.test(line) ? runScribble(line, false) : null),
  ],
}

/** A line in which only the spelling was wrong. */
const asSpelled: Reader = (line) => ({ line, wrong: [] })

/** `Warm up: 10 min easy`, `Finisher: plank 3 x 45 s`. */
const labelledRun = readerOf([/^(\p{L}[\p{L} -]*) *: *(.*\d.*)$/iu, ownWords, '$2, "$1"'])
const labelledLift = readerOf([/^(\p{L}[\p{L} -]*) *: *(\p{L}.*\d.*)$/iu, ownWords, '$2, "$1"'])

/** For lines that nothing else answers. */
const lastReaders: typeof readers = {
  liftItem: [(line) => liftScribble(line, true), ...liftRefusals.map(readerOf), labelledLift],
  runItem: [labelledRun, ...runQuestions.map(readerOf)],
}

function readerOf([pattern, message, said]: AnswerRow): Reader {
  return (line) => {
    const [found, ...groups] = pattern.exec(line)?.map((each) => each ?? '') ?? []
    if (found === undefined) return null
    return {
      line: said === null ? null : filledIn(said, found, groups),
      wrong: [aboutLine(line, filledIn(message, found, groups))],
    }
  }
}

/** Answers a line that reads neither as it is nor with synonyms replaced; null for a line without an answer.
 * @param isLast whether nothing else has an answer, so that words of one's own may be all that is wrong */
export function hastyAnswer(
  text: string,
  rule: LineRule,
  written: Written,
  { isLast = false } = {},
): Answer | null {
  const { line: spelled, remarks } = corrected(text, rule)
  const [, indent = '', line = '', quoted = ''] = /^( *)(.*?)((?: *,? *"[^"]*")*) *$/.exec(spelled) ?? []
  const notes = quoted.replace(/ *,? *("[^"]*")/g, ', $1')
  const inText = ({ message, at: [from, to] }: Remark): Remark => ({
    message,
    at: placeIn(text, spelled, [from + indent.length, to + indent.length]),
  })
  const last = isLast ? (lastReaders[rule] ?? []) : []
  for (const read of [asSpelled, ...(readers[rule] ?? []), ...last]) {
    const scribble = read(line)
    if (scribble === null) continue
    const suggestion = scribble.line === null ? null : written(scribble.line + notes)
    const wrong = [...remarks, ...scribble.wrong.map(inText)]
    const isSure = isLast || wrong.some(({ message }) => message !== ownWords)
    if (isSure && (scribble.line === null || suggestion !== null))
      return { ...inOne(wrong, [0, text.length]), suggestion }
  }
  if (!isLast) return severalItems(line, notes, rule, written)
  // Words in brackets are a clause, or else a note.
  const [, before = '', words = '', after = ''] =
    /^(.*[\d%\p{L})])(?<!\d *x) *\(([^()"]+)\)(.*)$/u.exec(line) ?? []
  if (!/\p{L}{3}/u.test(words) || /\b(?:amrap|max|failure|drop)\b/i.test(words)) return null
  const clause = `${before}${after}, ${words.trim()}${notes}`
  const asClause = clause.includes('(') ? null : hastyAnswer(clause, rule, written, { isLast: true })
  if (asClause?.suggestion) return asClause
  if (/\b(?:rest|jog|walk|every)\b/i.test(words)) return null
  const note = `${before}${after}, "${words.trim()}"${notes}`
  const suggestion = written(note)
  return suggestion !== null
    ? { message: ownWords, suggestion, at: [0, text.length] }
    : hastyAnswer(note, rule, written, { isLast: true })
}

/** All remarks as one, at the place of the first. */
function inOne(wrong: Remark[], whole: Place): Remark {
  const [first] = wrong.sort((a, b) => a.at[0] - b.at[0])
  const messages = new Set(wrong.map(({ message }) => message))
  const message = [...messages].join('; ') || 'put a comma before each clause, and no brackets'
  return { message, at: first?.at ?? whole }
}

/** `6 km easy, 2 km @ goal`, `bench 3x8, row 3x8`: suggests a line for each interval or exercise. */
function severalItems(text: string, notes: string, rule: LineRule, written: Written): Answer | null {
  const lines = rule === 'runItem' ? (fastEnd(text) ?? intervalsIn(text)) : liftsIn(text, rule)
  const repeats = /^\d+ *x *[\d(]/i
  if (repeats.test(text) && !lines.every((line) => repeats.test(line))) return null
  if (lines.length < 2 || lines.length > 9) return null
  const anew = lines.map(
    (line) => written(line) ?? hastyAnswer(line, rule, written, { isLast: true })?.suggestion ?? null,
  )
  if (anew.includes(null)) return null
  return {
    message: `each ${rule === 'runItem' ? 'interval' : 'exercise'} is written on a line of its own`,
    suggestion: anew.join('\n  ') + notes,
    at: [0, text.length],
  }
}

/** The exercises of a line, each with a name and sets. */
function liftsIn(text: string, rule: LineRule): string[] {
  return rule === 'liftItem'
    ? text.split(
        / *[,;] *(?=\p{L}[^\d@,;+]*\d+ *x *\d)(?!(?:then|last|back[ -]?off|rest|pause|tempo|warm)\b)/iu,
      )
    : []
}

/** `10 km easy with 4 x 1 km @ 4:00`, a run with repeats in it, of the same kind: how much of it they are, is left to
 * the athlete. */
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
