import { headerAnswers, severalHeaders } from './hastyHeaders.ts'
import { incompleteLifts, liftAnswers } from './hastyLifts.ts'
import { ambiguousRuns, amount, ownWords, recoveryText, runAnswers, someTime } from './hastyRuns.ts'
import { type AnswerRow, inNotation, type LineRule, put, type Row } from './synonyms.ts'

/* Lines as coaches scribble them that the notation does not have, and the line to write instead: meals, and
 * how rows are tried. */

/** Answers a line that cannot be read with what to write. */
export interface Answer {
  message: string
  suggestion: string | null
}

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
  [foodBefore, mealMessage, (_, foods = '', time = '', when = '') => mealText(when, time, foods, isQuoted)],
  [foodAfter, mealMessage, (_, when = '', foods = '') => mealText(when, '', foods, isQuoted)],
  [
    foodAtTime(isQuoted ? '\\D+' : '.+'),
    mealMessage,
    (_, time = '', when = '', foods = '') => mealText(when, time, foods, isQuoted),
  ],
])

const eaten =
  /\b(?:gels?|coffee|tea|caffeine|bananas?|carbs?|protein|shakes?|drinks?|oats|porridge|eggs?|rice|toast|bread|yogh?urt|milk|juice|fruit|snacks?|meal|breakfast|kcal)\b/i

/** Whether a line is likely a meal, and not some exercise before or after another. */
export function isMeal(text: string): boolean {
  return eaten.test(text) || /^ *(?:before|between|after)\b/i.test(text)
}

/** `gel before run`: the meal in the notation, if the line names something that is eaten; else null. */
export function mealIn(text: string, isReadable: (text: string) => boolean): string | null {
  if (!eaten.test(text)) return null
  return hastyAnswer(text, 'fuelItem', isReadable)?.suggestion ?? null
}

const answersOf: Partial<Record<LineRule, readonly AnswerRow[]>> = {
  header: headerAnswers,
  liftItem: liftAnswers,
  fuelItem: fuelAnswers,
  runItem: runAnswers,
}

/** Lines that only the athlete can complete. */
const openLinesOf: Partial<Record<LineRule, readonly Row[]>> = {
  header: severalHeaders,
  liftItem: incompleteLifts,
  runItem: ambiguousRuns,
}

/** How many rows may mend one line, each what the one before wrote. */
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
  const open = openLinesOf[rule]?.find(([pattern]) => pattern.test(line))
  if (open !== undefined) return { message: put(line, ...open), suggestion: null }
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
  const mended = (answersOf[rule] ?? [])
    .filter(([pattern]) => pattern.test(line))
    .map(([pattern, message, said]) => ({
      message: put(line, pattern, message),
      suggestion: put(line, pattern, said),
    }))
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

/** `deadlift 1 x 5 @ 140 kg belt`, `bench 3 x 8 (rest 2 min) @ 60 kg`: words after a complete item are a note, and what
 * stands in brackets is a clause if it reads as one.
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
