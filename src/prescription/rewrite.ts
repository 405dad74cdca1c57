import { wordsFor } from '../units/words.ts'
import { clauseWords, effortWords, liftClauses, machines } from './words.ts'

/* Rewriting a scribbled line, phrase by phrase, until the grammar reads it. A table says which phrases there are and
 * what the notation writes instead. Its rows are tried from the top; after each that fits the grammar is asked, and a
 * rewriting that leads nowhere is taken back. */

/** What a phrase becomes: a text in which `$1` is its first group, or a function of it and its groups. */
type Said = string | ((...found: string[]) => string)

/** A scribbled line, the phrase that the row finds in it, and what the notation writes instead. In a phrase a space is
 * any number of spaces, ` +` is at least one, and `<time|far>` is one of these pieces. */
export type Row = readonly [example: string, phrase: RegExp, said: Said]

/** Rows by what is wrong with a line that needs them, in the order in which they are tried. */
export type Table = readonly Record<string, readonly Row[]>[]

/** A line, the phrase in it that only the athlete can complete, and what is asked. */
export type Question = readonly [example: string, phrase: RegExp, message: Said]

/* The pieces of phrases. */

const apart = '(?![\\p{L}\\p{N}])'
const number = '(?<![\\d.:])\\d+(?:\\.\\d+)?'
const time = `(?<![\\d.:])\\d+(?::\\d\\d){1,2}(?![\\d:])|${number} *(?:s|secs?|mins?|h)${apart}`
const mass = `${number} *(?:kgs?|lbs?)${apart}`
const m = `(?:m|km?|mi|miles?|yd|laps?)${apart}`
const far = `${number} *${m}|half[ -]marathon\\b|marathon\\b`
const units = wordsFor('m', 'km', 'mi', 'yd', 'lap', 's', 'min', 'h', 'kg', 'lb')
const effort = `(?:${effortWords.join('|').replace(/[ -]/g, '[ -]?')})\\b`
const side = 'each +(?:side|arm|leg)\\b'
const dose = `\\([\\d +>]+\\)|(?:max|amrap)\\b|${number} *(?:s|secs?|mins?|${m})${apart}|\\d+(?:-\\d+)?\\+?(?![\\d.:%])`
/** Words of a scribble that say more than a note. */
const known = [
  ...clauseWords,
  'on *\\d|x(?:max|amrap)?|w|up|at|in|to|of|with|and|for|the|between|under|below|sets|failure|bw|bodyweight',
  'e\\d?mom|rounds?|superset|ea|arm|leg|out|rests|ramp|back|down|same|equal|off|recovery|recover|rec|float',
  'hr|rpe|goal|pace|effort|repeats?|reps|intervals?|week|session|dropsets?',
].join('|')
/** A word that the notation does not have. */
const own = `(?!(?:${units}|${effort}|${known})${apart})\\p{L}[\\p{L}'-]*`

const pieces: Record<string, string> = {
  time,
  mass,
  m,
  far,
  effort,
  side,
  dose,
  /** The first word of a clause of a lift line. */
  clause: `(?:${liftClauses.join('|')})\\b`,
  /** How often: sets, repeats or repetitions. */
  n: '(?<![\\d.:])\\d{1,3}(?![\\d.:%])',
  /** A number without a unit. */
  num: `${number}(?![\\d.:%]| *(?:${units})${apart})`,
  /** `78-82 s`. */
  times: `(?<![\\d.:])[\\d:.]+ *- *(?:${time})`,
  /** Repetitions and a side, after the number of sets. */
  sets: `(?:${dose})(?: *${side})?`,
  load: [
    `2 *x *(?:${mass})|(?:${number} *- *)?(?:${mass}|${number} *%)`,
    `(?:bw|bodyweight)\\b(?: *[+-] *(?:${mass}|${number}))?`,
  ].join('|'),
  move: '(?:jog|walk|stand|rest)\\b',
  pace: '\\d{1,2}:\\d\\d(?: *- *\\d{1,2}:\\d\\d)? *\\/ *(?:km|mi|500 *m)\\b',
  /** A pace by the name of a race. */
  race: `(?:(?:(?:${far}) *- *)?(?:${far}|half|mile)(?: *race)?|race)(?: +(?:pace|effort)\\b)|h?mp\\b|(?<=@ *)\\d+ *k(?= *(?:,|$))`,
  at: '@|\\bat\\b',
  aim: `@|\\bin\\b|${effort}`,
  and: '(?: *(?:[,;/&+(-]|and\\b|then\\b|with\\b|w\\/))?',
  end: '(?= *(?:$|,))',
  /** Exercises with the body as the load. */
  ofbody: '(?:dips?|chins?|(?:pull|chin|push|muscle)[ -]?ups?)',
  /** What heads exercises and is none. */
  heads: '(?:accessor(?:y|ies)|assistance|finishers?|core|conditioning|upper|lower|strength)(?: *work)?',
  /** Lifts with a bar, to which no load is added as it is to the body. */
  barred: '\\b(?:squat|dead-?lift|bench|press|row|clean|snatch|jerk)(?:e?s)?\\b',
  /** An exercise before its sets. */
  name: '(?:^|[+] *)(?:[a-h]\\d[.):]? *)?[^\\d@,+]*\\p{L}(?<! x)',
  /** After the sets: the end, a comma or a clause. */
  last: '(?= *(?:$|, *(?!\\d)|(?:rest|on|every)\\b))',
  set: '(?<![\\d.])[\\d.]+(?: *(?:kgs?|lbs?|%))? *(?:[x@]|at\\b) *[\\d.]+(?![\\d.])(?: *(?:kgs?|lbs?|%))?',
  workup: '(?:(?:work|build|ramp)(?: *up)?|(?:up *)?(?=to\\b.*\\bheavy)) *to\\b(?: *an?\\b)?(?: *heavy\\b)?',
  rounds: [
    '(?:for +time|\\d{1,3} *rounds?(?: +for +time)?|e\\d?mom *[\\d:]+(?: *min)?|amrap *[\\d:]+(?: *min)?',
    'every\\b.* for *[\\d:]+(?: *min)?|[\\d:]+ *min *(?:amrap|of))',
  ].join('|'),
  in: '(?:(?:in|sub|under|below|at|for)\\b|[@<,-]| )*',
  machine: `(?:${machines.join('|')})\\b`,
  weekday: '(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*',
  month: '(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\\.?',
  th: '(?:st|nd|rd|th)?',
  nutrient: '(carb|prot|fat)(?:ohydrate|ein)?s?\\b',
  meal: '(?:before|between|after)\\b',
  /** An amount of a meal for each hour, kilogram or time. */
  rate: '(?:(?:\\/|\\bper\\b|\\ban?\\b) *(?:h|hr|hour|kg|\\d+ *min)\\b|\\bevery\\b)',
  ahead: '(?:\\d+:\\d\\d|\\d[\\d.]* *(?:min|h))\\b',
  /** What names or counts the time after it. */
  named: '(?:\\b(?:rest|pause|every|then|of|for)|[x@])',
  /** Repeats or a ladder, to the recovery after them. */
  repeats: '^ *(?:\\d{1,2} *x *|\\d+(?:-\\d+)+)[^()",]*',
  /** What words of one's own in brackets do not have. */
  kept: '\\d *x *\\d|\\b(?:max|amrap|failure|drop|rest|jog|walk|every)\\b',
  words: `${own}(?: +${own})*(?![\\p{L}'-]| *[\\d:]| +${own})`,
}

const compiled = new Map<RegExp, RegExp>()

function compile(phrase: RegExp): RegExp {
  const known = compiled.get(phrase)
  if (known !== undefined) return known
  const source = phrase.source
    .replace(/\[[^\]]*\]| (?![+*?{])/g, (found) => (found === ' ' ? ' *' : found))
    .replace(
      /<([a-z|]+)>/g,
      (_, names: string) =>
        `(?:${names
          .split('|')
          .map((name) => pieces[name])
          .join('|')})`,
    )
  const pattern = new RegExp(source, 'giu')
  compiled.set(phrase, pattern)
  return pattern
}

/** A group without a match is the empty text. */
function filledIn(said: Said, found: readonly (string | undefined)[]): string {
  const groups = found.map((each) => each ?? '')
  return typeof said === 'function'
    ? said(...groups)
    : said.replace(/\$(\d)/g, (_, index) => groups[index] ?? '')
}

/** The text with every such phrase rewritten. */
export function respelled(text: string, [, phrase, said]: Row): string {
  return text.replace(compile(phrase), (...found) => {
    const end = found.findIndex((each) => typeof each === 'number')
    return filledIn(said, found.slice(0, end))
  })
}

/** Without the spaces and commas that a rewriting left over. */
function tidy(text: string): string {
  return text
    .replace(/ *,[ ,]*/g, ', ')
    .replace(/ {2,}/g, ' ')
    .replace(/^[ ,]+|[ ,]+$/g, '')
}

/** What is asked about a line; null if nothing is. */
export function ask(line: string, questions: readonly Question[]): string | null {
  for (const [, phrase, message] of questions) {
    const [found] = line.matchAll(compile(phrase))
    if (found !== undefined) return filledIn(message, found)
  }
  return null
}

/** A line as the notation prints it; null if it would be refused. */
export type Written = (line: string) => string | null

export interface Rewritten {
  /** As the notation prints it. */
  line: string
  /** As it was rewritten. */
  said: string
  /** What was wrong, in the order of the table. */
  reasons: string[]
}

/** How many rewritings of one line are tried: a hundred hostile lines are answered within a second. */
const mostTries = 16

/** The ways to rewrite a line until it reads, in the order of the table. */
export function* rewritings(text: string, table: Table, written: Written): Generator<Rewritten> {
  const all = table
    .flatMap((rows) => Object.entries(rows))
    .flatMap(([reason, rows]) => rows.map((row) => ({ reason, row })))
  const seen = new Set<string>()
  function* search(said: string, from: number, reasons: string[]): Generator<Rewritten> {
    seen.add(said)
    const line = written(said)
    if (line !== null) yield { line, said, reasons: [...new Set(reasons)] }
    // Texts in quotes stay as they are.
    const [words = ''] = said.split(/[ ,]*"/, 1)
    for (const [index, { reason, row }] of all.entries()) {
      if (index < from || seen.size > mostTries) continue
      const next = respelled(words, row)
      if (next === words) continue
      const anew = tidy(next) + said.slice(words.length)
      if (!seen.has(anew)) yield* search(anew, index, [...reasons, reason])
    }
  }
  yield* search(text, 0, [])
}
