import { roundTo } from '../units/decimal.ts'
import { liftQuestions, lifts } from './hastyLifts.ts'
import { figures, oneSet, ownWords, runQuestions, runs } from './hastyRuns.ts'
import { ask, type Question, type Rewritten, rewritings, type Table, type Written } from './rewrite.ts'
import type { LineRule } from './words.ts'
import { type Mark, type Place, wholeOf } from './written.ts'

/* Answers lines as coaches scribble them that the notation does not have: headers and meals, and what is said of any
 * line. */

/* Headers. */

const iso = (year = '', month = '', day = '') => `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`

/** `26.11.2026`, `11/26/2026`; unchanged if the day could be the month. */
function dateInFigures(found: string, first = '', second = '', year = ''): string {
  if (first === second || Number(first) > 12) return iso(year, second, first)
  return Number(second) > 12 ? iso(year, first, second) : found
}

const months = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec']

/** `18 April 2027`, `Apr 18, 2027`; the empty text without a year. */
function dateInWords(_: string, day = '', month = '', monthFirst = '', dayAfter = '', year = ''): string {
  const number = months.indexOf((month || monthFirst).slice(0, 3).toLowerCase()) + 1
  return year === '' ? '' : iso(year, String(number), day || dayAfter)
}

const headers: Table = [
  figures,
  {
    'pounds are written with lb': [['athlete: 150#', /(?<=\d) #/, ' lb']],
    'a date is written year-month-day': [
      ['date: 26.11.2026', /\b(\d\d?)[./-](\d\d?)[./-](\d{4})$/, dateInFigures],
      ['date: 2026/11/26', /\b(\d{4})[./](\d\d?)[./](\d\d?)$/, '$1-$2-$3'],
      [
        'date: Thu Nov 26th, 2026',
        /(?:\b<weekday>,? )?(?:(?<![\d:.])(\d\d?)<th> (?:of )?(<month>)|(<month>) (\d\d?)<th>)\b,? (\d{4})?/,
        dateInWords,
      ],
    ],
    'units name a distance and a mass, with a space between them': [
      ['units: metric', /(?<=^units : )(?:metric|kg|km|metres|meters)$/, 'km kg'],
      ['units: imperial', /(?<=^units : )imperial$/, 'mi lb'],
      ['units: lb', /(?<=^units : )lbs?$/, 'km lb'],
      ['units: miles', /(?<=^units : )(?:mi|miles?)$/, 'mi kg'],
      ['units: kg, km', /(?<=^units : )(kg|lb)s? [,/]? (km|mi)(?:les?)?$/, '$2 $1'],
      ['units: km/kg', /(?<=^units : )(km|mi)(?:les?)? [,/]? (kg|lb)s?$/, '$1 $2'],
    ],
    'a goal is written as a distance in a time': [
      ['goal: run 10 km in 39:30', /(?<=^goal :.*)\b(?:run|race|target)\b/, ''],
      ['goal: 10k in 39.30', /(?<=^goal :.*\d)\.(?=[0-5]\d\b)/, ':'],
      ['goal: half in 1:28', /(?<=^goal :.*)\b(?:half|hm)\b(?![ -]*marathon)/, 'half marathon'],
      ['goal: mile in 5:30', /(?<=^goal :.*)(?<!\d )\bmile\b/, '1 mi'],
      [
        'goal: sub 40 10k',
        /^goal : <in> ([\d:]+(?: (?:min|h)\b)?) (?:for\b|over\b|,)? (<far>)/,
        'goal: $2 in $1',
      ],
      ['goal: 10k sub 39:30', /(?<=^goal : <far>) <in> (?=\d)/, ' in '],
      ['goal: 10 km in 40', /(?<=^goal : <far> in +\d+)(?![\d:.]| [a-z])/, ' min'],
      ['goal: 10 km in 39:30, 2027-04-18', /(?<!\bon)(?:,? by +|, (?:on +)?| +)(?=\d{4}-)/, ' on '],
    ],
    'the length of a lap needs a unit': [['lap: 200', /^(lap : \d{2,4})$/, '$1 m']],
    'the athlete is given as a body mass alone': [['athlete: 150 lb, 34 y', /^(athlete : <mass>).+$/, '$1']],
  },
]

const headerQuestions: readonly Question[] = [
  [
    'date: 5/6/2027',
    /^date : (\d\d?)[./](\d\d?)[./](\d{4})$/,
    (_, first, second, year) =>
      `a date is written year-month-day: write ${iso(year, second, first)} or ${iso(year, first, second)}`,
  ],
  [
    'max: bench 90 kg, squat 120 kg',
    /^max : ([^,]*\d[^,]*(?:,[^,]*\d[^,]*)+)$/,
    (_, maxima = '') =>
      `each maximum has a line of its own: write max: ${maxima.split(/ *, */).join(' and below it max: ')}`,
  ],
]

/* Meals. */

/** Names something that is eaten. */
export const namesFood =
  /\b(?:gels?|coffee|tea|caffeine|bananas?|carbs?|protein|shakes?|drinks?|oats|porridge|eggs?|rice|toast|bread|yogh?urt|milk|juice|fruit|snacks?|meal|breakfast|kcal)\b/i

/** Whether the words of a meal are something that is eaten, and not a nutrient whose amount is missing. */
export function isFood(words: string): boolean {
  return namesFood.test(words) && !/^(?:carbs?|protein|fat|caffeine|kcal)$/i.test(words)
}

const nutrients: Record<string, string> = { carb: 'carbs', prot: 'protein', fat: 'fat' }
const grams = (amount = '', word = '') => `${nutrients[word.toLowerCase()]} ${amount} g`

const meals: Table = [
  {
    'meals are before, between or after': [
      ['pre: carbs 80 g', /^pre(?:-?workout)?\b(?=[ :])/, 'before'],
      ['during: carbs 30 g', /^during\b(?=[ :])/, 'between'],
      ['post: carbs 80 g', /^post(?:-?workout)?\b(?=[ :])/, 'after'],
    ],
    'a nutrient is written before its amount, such as carbs 80 g': [
      [
        'after: 80 g of carbs',
        /(?<![-\d.])(\d[\d.]*) (?:g|gr|grams?) (?:of +)?<nutrient>/,
        (_, amount, word) => grams(amount, word),
      ],
      ['after: 80 carbs', /(\d[\d.]*) <nutrient>(?! :? \d)/, (_, amount, word) => grams(amount, word)],
      [
        'after carbs: 80',
        /(?<!["\p{L}])<nutrient> :? (\d[\d.]*)(?![\d.])(?: grams?\b| gr\b|(?! (?:g|mg|k?cals?)\b))/u,
        (_, word, amount) => grams(amount, word),
      ],
      ['after: 200 mg caffeine', /(\d[\d.]*) mg (?:of +)?caffeine\b/, 'caffeine $1 mg'],
    ],
    'a food comes after its mass, such as 80 g oats': [
      ['before: oats 80 g', /(?<=[:,] )(?!<nutrient>)(\p{L}[\p{L} ]*?) +(\d[\d.]*) g(?=,|$)/u, '$3 g $2'],
    ],
    'energy is written 500 kcal': [['after: 500 cal', /(?<=\d) (?:k?cals|cal|k?calories)\b/, ' kcal']],
    'a meal begins with before, between or after and a colon, and words of your own are in quotes': [
      ['before: gel and banana', / (?:[+&]|\band\b|\/(?= (?:\d|<nutrient>))(?<=\p{L} \/)) /u, ', '],
      [
        'after the gym: milk',
        /\b(<meal>)(?: +(?:the|my))? +(?:run|lift|train|session|workout|race|gym|weights)(?:n?ing)?\b/,
        '$1',
      ],
      ['2 h before: porridge', /^(<ahead>) +(<meal>)/, '$2 $1'],
      ['gel 15 min before', /^(?!.*\d between)([^:]+?),?(?: +(<ahead>))? +(<meal>)$/, '$3 $2: $1'],
      ['before 2 h - porridge', /^(<meal>(?: +<ahead>)?)[ :,-]+(?=\S)/, '$1: '],
      ['carbs 75 g', /^(?=(?:carbs|protein|fat) \d)/, 'before: '],
      ['before: porridge carbs 80 g', /(?<=:.*[^,: ]) (?=(?:carbs|protein|fat|caffeine) \d)/, ', '],
      ['before: carbs 80 g porridge', /(?<=(?:carbs|protein|fat) [\d.]+ g) (?!<rate>)(?=\p{L})/u, ', '],
      [
        'before: coffee',
        /(?<=[:,] )((?!(?:carbs|protein|fat|caffeine)\b(?: \d| [,]| $))\p{L}[^",:\d]*|[^",: ][^",:]*<rate>[^",:]*)(?=,|$)/u,
        '"$1"',
      ],
    ],
  },
]

/* Any line. */

export const tables: Partial<Record<LineRule, Table>> = {
  header: headers,
  prepItem: [figures],
  runItem: runs,
  liftItem: lifts,
  fuelItem: meals,
}
const mealQuestions: readonly Question[] = [
  [
    'gel at 45 min',
    /^(?!.*\b<meal>)([^":]+)$/,
    'write first when it is eaten: before, between or after, such as before: "$1"',
  ],
]

export const questions: Partial<Record<LineRule, readonly Question[]>> = {
  header: headerQuestions,
  runItem: runQuestions,
  liftItem: liftQuestions,
  fuelItem: mealQuestions,
}

/** A name of an exercise that swallowed a load, a time, a height or other sets: `squat 80%: 3 x 5`. */
const hasFigures = /^[^:",@]+(?:\d *(?:x|%|(?:kgs?|lbs?|s|min|cm|in|m)\b)| then| for| at \d+)[^:",@]*: /i

/** The answer to a line that reads neither as it is nor with synonyms replaced. */
export interface Hasty extends Mark {
  /** False if words of one's own, a set or a line break were made up, and the line may mean something else. */
  isSure: boolean
}

/** Answers a scribbled line; null for a line without an answer. */
export function hastyAnswer(text: string, rule: LineRule, written: Written): Hasty | null {
  const line = text.trim()
  const isSure = ({ reasons }: Rewritten) =>
    rule === 'fuelItem' || (reasons.some((reason) => reason !== ownWords) && !reasons.includes(oneSet))
  const offered: Written = (said) => {
    const printed = written(said)
    return printed === null || (rule === 'liftItem' && hasFigures.test(printed)) ? null : printed
  }
  const answered = (found: Rewritten): Hasty => ({
    at: changed(text, found.said),
    message: found.reasons.join('; '),
    suggestion: found.line,
    isSure: isSure(found),
  })
  let unsure: Rewritten | null = null
  for (const found of rewritings(line, tables[rule] ?? [], offered)) {
    if (isSure(found)) return answered(found)
    unsure ??= found
  }
  const question = ask(line, questions[rule] ?? [])
  if (question !== null) return { at: wholeOf(text), message: question, isSure: true }
  return unsure === null ? severalItems(line, rule, written) : answered(unsure)
}

/** The words of a line that are written in another way. */
function changed(text: string, said: string): Place {
  const line = text.trimEnd()
  const start = text.length - text.trimStart().length
  let from = start
  while (from < line.length && line[from] === said[from - start]) from++
  let after = 0
  while (after < line.length - from && line.at(-1 - after) === said.at(-1 - after)) after++
  const before = line.slice(0, from).replace(/[^ ,]+$/, '')
  const rest = /^[^ ,]*/.exec(line.slice(line.length - after))?.[0] ?? ''
  return [before.length, line.length - after + rest.length]
}

/** `6 km easy, 2 km @ goal`, `bench 3x8, row 3x8`: suggests a line for each interval or exercise. */
function severalItems(text: string, rule: LineRule, written: Written): Hasty | null {
  const [, line = '', notes = ''] = /^([^"]*?)((?: *,? *"[^"]*")*)$/.exec(text) ?? []
  const lines = rule === 'runItem' ? intervalLines(line) : rule === 'liftItem' ? exerciseLines(line) : []
  const repeats = /^\d+ *x *[\d(]/i
  if (repeats.test(text) && !lines.every((each) => repeats.test(each))) return null
  if (lines.length < 2 || lines.length > 9) return null
  const anew = lines.map((each) => written(each) ?? hastyAnswer(each, rule, written)?.suggestion ?? null)
  if (anew.includes(null)) return null
  return {
    message: `each ${rule === 'runItem' ? 'interval' : 'exercise'} is written on a line of its own`,
    suggestion: anew.join('\n  ') + notes,
    at: wholeOf(text),
    isSure: false,
  }
}

/** The exercises of a line, each with a name and sets. */
function exerciseLines(text: string): string[] {
  return text.split(
    / *[,;] *(?=\p{L}[^\d@,;+]*\d+ *x *\d|\d+ *x *\d+ +\p{L}{3})(?!(?:then|last|back[ -]?off|rest|pause|tempo|warm)\b)/iu,
  )
}

/** `14 km easy, last 4 km @ 4:00/km`: the easy kilometres, and the fast ones. */
function withFastEnd(text: string): string {
  return text.replace(
    /^(\d[\d.]*) *(km|mi|min|m)\b([^,]*?)(?: *, *(?:the +)?last| +(?:with|w\/)(?: +(?:the +)?last)?) +(\d[\d.]*) *\2\b *((?:@|at\b|in\b|steady|tempo|threshold|hard|fast)[^,]*)$/i,
    (found, whole, unit, easy, last, end) => {
      const first = roundTo(Number(whole) - Number(last), 2)
      return first > 0 ? `${first} ${unit}${easy || ' easy'}, ${last} ${unit} ${end}` : found
    },
  )
}

/** A run with repeats in it, of the same kind: how much of it they are, is left to the athlete. */
const withRepeats =
  /^\d[\d.:]* *(?:(?:min|h)\b.* with +\d+ *x *[\d.:]+ *min|(?:km|mi)\b.* with +\d+ *x *[\d.:]+ *(?:km|mi))\b/i
const isRecovery = /^(?:jog|walk|stand|rest)\b/i

/** The intervals of a line. A recovery after repeats belongs to them; after any other interval it has a line of its
 * own, and work before and after it. */
function intervalLines(text: string): string[] {
  if (withRepeats.test(text)) return []
  const hasTarget = /@|\bin\b/i.test(text)
  const lines: string[] = []
  for (const each of withFastEnd(text)
    .replace(/ *\((\d+ *x[^()]*)\)/i, ', $1')
    .split(/[,;+]| (?:plus|then) | (?:with|w\/) (?=\d+ *x)/i)) {
    const bare = each.trim()
    const isRest = lines.length > 0 && hasTarget && /^(?:\d+:\d\d|\d[\d.]* *(?:s|min|'|″))$/i.test(bare)
    const interval = isRest ? `rest ${bare}` : bare
    if (isRecovery.test(interval) && /^\d+ *x/i.test(lines.at(-1) ?? ''))
      lines.push(`${lines.pop()}, ${interval}`)
    else lines.push(interval)
  }
  const isWork = (line = '') => /^(?:\d|warm|cool)/i.test(line) && !/\bwith\b/i.test(line)
  const isWhole = isWork(lines[0]) && isWork(lines.at(-1))
  return isWhole && lines.every((line) => isWork(line) || isRecovery.test(line)) ? lines : []
}
