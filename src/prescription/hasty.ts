import { lengthUnitOf } from '../units/words.ts'
import { type LineRule, put, type Row, type Said } from './synonyms.ts'

/* Lines as coaches scribble them that the notation does not have, and the line to write instead. */

/** Answers a line that cannot be read with what to write. */
export interface Answer {
  message: string
  suggestion: string | null
}

/** The pattern matches a whole line. */
type AnswerRow = readonly [pattern: RegExp, message: Said, suggestion: Said]

/** A clause of a round that stays as it is. */
const roundClause = /^(?:rest|pause|every|tempo|build)\b|^"/i

/** Puts the number first in `push-up 10` and `run 200 m @ 20 kg`, unless it is there already. */
export function numberFirst(station: string): string {
  const [, name = '', dose = '', load = ''] =
    /^(\p{L}[^\d@]*?) *:? +(?:1 *x *)?(\d[\d:.]* *(?:m|km|mi|yd|s|min)?(?![\p{L}\d]))( *@.*| +each .*)?$/iu.exec(
      station,
    ) ?? []
  return name === '' ? station : `${dose.trim()} ${name}${load === '' ? '' : ` ${load.trim()}`}`
}

/** A time as scribbled. */
const someTime = String.raw`\d+:\d\d|\d[\d.]* *(?:s|min|'|″)`

/** A bare amount as a recovery: a time is rested, a distance is jogged. */
function recoveryText(amount: string): string {
  const said = amount.replace("'", ' min').replace('″', ' s')
  return `${/m$|mi$/i.test(said) ? 'jog' : 'rest'} ${said}`
}

const liftAnswers: readonly AnswerRow[] = [
  // Loads before their repetitions, set by set: squat 100x5, 105x5, 110x5.
  [
    /^(\p{L}[^\d:]*?) *:? +((?:(?:[2-9]\d|\d{3})(?:\.\d+)? *x *\d{1,2}(?: *, *|$)){2,9})$/iu,
    'the repetitions come before the load',
    (_, name = '', list = '') => {
      const sets = list.split(/ *, */).map((each) => each.split(/ *x */))
      return `${name} ${sets.map(([, reps]) => reps).join('/')} @ ${sets.map(([load]) => load).join('/')}`
    },
  ],
  // A bare time after a cluster set: deadlift 4x2+2+2 120kg 20s.
  [
    /^(.*?\p{L}) *:? +(\d{1,2}) *x *\(?(\d{1,2}(?: *\+ *\d{1,2})+)\)? *@? *(\d[\d.]*) *(kg|lb)s? *,? +(\d{1,3}) *s(?:ecs?)?$/iu,
    'the pause between the groups of a cluster set is written pause',
    '$1 $2 x ($3) @ $4 $5, pause $6 s',
  ],
  // A pair of loads without its @: farmer walk 4 x 30 m 2 x 24 kg.
  [
    /^(.*\d *x *\d.*?) *@? +2 *x *(\d[\d.]*) *(kg|lb)s?((?: *,.*)?)$/i,
    'put @ before the load',
    '$1 @ 2x$2 $3$4',
  ],
  [
    /^(.*\D) (\d{1,2}) *x *(\d{1,2})( *@[^,(]*?)? *[,(] *last +(?:set +|one +)?(?:amrap|max|to +failure)\)?$/i,
    'the last set is written after then',
    (_, name = '', sets = '', reps = '', load = '') =>
      `${name} ${Number(sets) - 1} x ${reps}${load} then 1 x max${load}`,
  ],
  // The implement after the load: rows 3x10 each 24kg kb.
  [
    /^(.*\d) *((?:\/ *side|each(?: *(?:side|arm|leg))?)?) *@? +(\d[\d.]*) *(kg|lb)s? +(kb|db|bb|kettlebell|dumbbell|barbell)$/i,
    'the load comes after @, and words of your own last, in quotes',
    (_, sets = '', side = '', load = '', unit = '', implement = '') =>
      `${sets}${side === '' ? '' : ` ${/arm|leg/i.test(side) ? side : 'each side'}`} @ ${load} ${unit}, "${implement}"`,
  ],
  [
    /^(\d{1,3}) *rounds?(?: +of\b)? *:? +(.*\S)$/i,
    'the stations of a round have the number first and commas between them',
    (_, rounds = '', list = '') =>
      `${rounds} rounds of ${list
        .split(/ *[,+;] */)
        .map((each) => (roundClause.test(each) ? each : numberFirst(each)))
        .join(', ')}`,
  ],
  [
    /^(.*?\d *[x/] *(?:\d|\(|max|amrap)[^,]*?) *, *(\d{1,2} *x *(?:\d|\(|max|amrap).*)$/i,
    'sets that differ are written one after the other with then',
    '$1 then $2',
  ],
  [
    /^(.*?\p{L}) *:? +(\d[\d.]*) *(kg|lb)s? *x *(\d{1,2})$/iu,
    'the repetitions come before the load, and the sets before them',
    '$1 1 x $4 @ $2 $3',
  ],
  [
    /^(.*?) *(?:@ *|(?<=\d) +)(\d[\d.]*) *(kg|lb)s? *(?:each|\/ *hand|per +hand|in +each +hand|each +hand)(?! +(?:side|arm|leg))(.*)$/i,
    'two of $2 $3, one in each hand, are written 2x$2 $3; one side at a time is each side',
    '$1 @ 2x$2 $3$4',
  ],
  [
    new RegExp(`^(.*\\d.*?) *(?:[,(]|(?<= )- ) *(${someTime})\\)?$`, 'i'),
    'a rest between sets is written rest',
    (_, sets = '', time = '') => `${sets}, ${recoveryText(time)}`,
  ],
  [
    /^([^\d@]*\p{L})[ ,:]*\bevery +(\d+:\d\d)$/iu,
    'the sets and their repetitions are missing',
    '$1 10 x 1, every $2',
  ],
]

const nameless = 'the name of the exercise is missing: write it first, such as'

/** Lines without a name, or without what only the athlete knows: the example says how they are written. */
const incompleteLifts: readonly Row[] = [
  [
    /^circuits? *:? +(\S.*,.*)$/i,
    (_, list = '') =>
      `the number of rounds is missing: write it first, such as 3 rounds: ${list.split(/ *, */).map(numberFirst).join(', ')}`,
  ],
  [
    /^(\d{1,3}) *rounds?(?: +of\b)?[ :]*$/i,
    'the exercises of the rounds are missing: write them on the same line, such as $1 rounds: 10 push-up, 8 row @ 40 kg',
  ],
  [/^(\d{1,2}) *x *(\d{1,2}) *(?:x|@)? *(\d[\d.]*) *(kg|lb)s?$/i, `${nameless} squat $1 x $2 @ $3 $4`],
  [/^(\d[\d.]*) *(kg|lb)s? *x *(\d{1,2})$/i, `${nameless} squat 1 x $3 @ $1 $2`],
  [/^\d{1,2}(?: *[,/] *\d{1,2})+$/, (list = '') => `${nameless} squat ${list.replace(/ *[,/] */g, '/')}`],
  [/^(?:@ *|rpe +)\d.*$/i, 'the exercise and its sets are missing: write them first, such as squat 3 x 5 $&'],
  [
    /^every +\d+:\d\d$/i,
    'the exercise, its sets and its repetitions are missing: write them first, such as clean 10 x 1, $&',
  ],
  [
    /^(.*\p{L}) *:? +(\d{1,2}) *x *(\d[\d.]*) *(kg|lb)s?$/iu,
    '$2 can be sets or repetitions: write $1 $2 x 5 @ $3 $4, or $1 1 x $2 @ $3 $4',
  ],
]

const dropAnswers: readonly AnswerRow[] = [
  [
    /^(.*?\D) *(\d{1,2}) *x *(\d{1,2})(?: *@ *(\d[\d.]*) *(kg|lb|)s?)?,? *(?:with )?(?:last set )?drop[ -]?sets?$/i,
    'a drop set says its drops, each with its load',
    (_, name = '', sets = '', reps = '', load = '', unit = '') => {
      const one = Number(sets) - 1
      const drops = `1 x (${reps} > ${Math.max(1, Number(reps) - 2)})`
      const [at, down] =
        load === ''
          ? ['', '']
          : [` @ ${load} ${unit || 'kg'}`, ` @ ${load}/${Number(load) * 0.75} ${unit || 'kg'}`]
      return one < 1 ? `${name} ${drops}${down}` : `${name} ${one} x ${reps}${at} then ${drops}${down}`
    },
  ],
  [
    /^(.*?\D) *(\d{1,2}) *@ *(\d[\d.]*) *(kg|lb|)s? *(?:->|→|>) *(\d{1,2}) *@ *(\d[\d.]*) *(?:kg|lb)?s?$/i,
    'the drops of a drop set go in brackets, and their loads after one @',
    (_, name = '', first = '', load = '', unit = '', second = '', lower = '') =>
      `${name} 1 x (${first} > ${second}) @ ${load}/${lower} ${unit || 'kg'}`,
  ],
]

const amount = String.raw`\d[\d:.]* *(?:s|min|m|km|mi|'|″)?`

/** Four groups: the number and the unit of work, and of recovery. */
const onOff = String.raw` *(\d+(?::\d\d)?) *(s|min|m|'|″|)(?: *(?:hard )?on\b(?=.*\boff\b) *(?:[,/;&+-]|and\b|with\b)? *| */ *)(\d+(?::\d\d)?) *(s|min|m|'|″|)(?: *(?:easy )?off\b)? *`

/** A number alone is metres if it is as long and round as a distance on the track; else minutes if both are at most 10,
 * or if it is and the other is in minutes; else seconds. `3 m` are minutes. */
function onOffText([work = '', unit = '', off = '', offUnit = '']: readonly string[]): string {
  const isShort = (number: string) => Number(number) <= 10
  const isMinutes = (unit: string) => /^(?:min|')$/.test(unit)
  const said = (number: string, own: string, other: string, otherUnit: string) => {
    if (number.includes(':')) return number
    const isTrack = Number(number) >= 100 && Number(number) % 50 === 0
    if (isMinutes(own) || (own === 'm' && isShort(number))) return `${number} min`
    if (own !== '') return `${number} ${own === '″' ? 's' : own}`
    if (isTrack) return `${number} m`
    const both = otherUnit === '' ? isShort(other) : isMinutes(otherUnit)
    return `${number} ${isShort(number) && both ? 'min' : 's'}`
  }
  return `(${said(work, unit, off, offUnit)} hard, jog ${said(off, offUnit, work, unit)})`
}

/** Repeats with a name, such as hill sprints. */
function namedRepeats(count: string, amount: string, name: string, clauses = ''): string {
  return `${count} x ${amount}${/sprint/i.test(name) ? ' all out' : ''}${clauses || ', walk back'}, "${name.trim()}"`
}

const restAnswer = 'a recovery begins with its word: jog, walk, stand or rest'

const runAnswers: readonly AnswerRow[] = [
  // Sets of repeats: 2 sets of 4 x 400 m, jog 200 m, rest 4 min.
  [
    /^(\d{1,2}) *(?:sets? *(?:of|x)|x) *(\d{1,2} *x *[^()"]+?)(, *rest +\d[\d:.]* *(?:min|s)?)?$/i,
    'repeats that are repeated go in brackets, and the rest between the sets after them',
    // A single rest is that between the repeats.
    (_, sets = '', repeats = '', rest = '') =>
      repeats.includes(',') ? `${sets} x (${repeats})${rest}` : `${sets} x (${repeats}${rest})`,
  ],
  // Work and recovery side by side: 10 x 30/30, 6 x 3 min on, 2 min off, 1 min on 1 min off x 12.
  [
    new RegExp(`^(\\d{1,2}) *x *\\(?${onOff}\\)?$`, 'i'),
    'work and recovery are written out in brackets',
    (_, count = '', ...amounts) => `${count} x ${onOffText(amounts)}`,
  ],
  [
    new RegExp(`^\\(?${onOff}\\)? *[x,] *(\\d{1,2})(?: *x| +times)?$`, 'i'),
    'work and recovery are written out in brackets',
    (_, ...found) => `${found[4]} x ${onOffText(found)}`,
  ],
  [
    /^(\d{1,2} *x *\d{3,4}) +on +(\d+:\d\d|\d+ *(?:s|min))$/i,
    'a start at fixed times is written every',
    '$1 m, every $2',
  ],
  [
    /^((?:\d{1,2} *x *)\d{2,4}) *m?((?: +in +.*?\d.*?| *@.*?)?),? +off +(\d[\d:]*) *(s|min)?$/i,
    'a rest between repeats is written rest; a start at fixed times is written every',
    (_, work = '', target = '', off = '', unit = '') =>
      `${work} m${target}, rest ${off}${off.includes(':') ? '' : ` ${unit || 's'}`}`,
  ],
  [
    /^(\d{1,2} *x *\d{2,4}) *m? +(\d{2,3}(?:-\d{2,3})?) *s(?:,? +(?:(jog|walk|rest) +)?(\d[\d:]*) *(s|m|min)?(?: *(jog|walk|rest))?)?$/i,
    'a time for each repeat is written with in, and a recovery begins with its word',
    (_, work = '', time = '', first = '', off = '', unit = '', last = '') =>
      `${work} m in ${time} s${off === '' ? '' : `, ${first || last || 'rest'} ${off}${off.includes(':') ? '' : ` ${unit || 's'}`}`}`,
  ],
  [
    /^(?:progression|progressive)(?: +run)? +(\d.*?) *@? *(\d:\d\d) *(?:->|→|>|to|-) *(\d:\d\d)(\/(?:km|mi))?$/i,
    'a progression is a pace from split to split',
    (_, length = '', first = '', last = '', unit = '') =>
      `${length} @ ${first} to ${last}${unit}, split 1 km`,
  ],
  [
    /^(\d{1,2}) *x *((?:\p{L}+ +){0,2}(?:sprints?|hills?|strides?) +)(\d{1,3} *(?:s|m|min))((?:, *.*)?)$/iu,
    'words of your own come last, in quotes',
    (_, count = '', words = '', amount = '', clauses = '') => namedRepeats(count, amount, words, clauses),
  ],
  [
    /^fartlek *:? *(?:for )?(\d.*)$/i,
    'a run by feel is written with its length, and words of your own in quotes',
    '$1 steady, "fartlek"',
  ],
  [
    /^(\d.*?) *(?:@|at) *((?:\d+ ?k|mile|half|(?:half )?marathon)(?: +race)?)[ -]*pace(.*)$/i,
    'a pace is written in figures, such as @ 4:05/km, or as @ goal; put words of your own in quotes',
    '$1 hard$3, "at $2 pace"',
  ],
  [
    /^((?:\d{1,2} *x *)?\d{2,4}) *m *@ *(\d{1,3}) *s((?: *,.*)?)$/i,
    'a time for the whole interval is written with in',
    '$1 m in $2 s$3',
  ],
  [
    /^(\d{2,4}) *m? *(?:@|in) *(\d{2,3}(?:-\d{2,3})?) *s *x *(\d{1,2})$/i,
    'the number of repeats comes first',
    '$3 x $1 m in $2 s',
  ],
  [/^(\d{1,2}) *x? *strides$/i, 'strides need a length', '$1 x 100 m strides, walk back'],
  [/^(\d{3,4})s? *x *(\d{1,2})$/i, 'the number of repeats comes first', '$2 x $1 m'],
  [
    /^(\d{1,2} *x *\d{2,4}) *m? *, *(?:in *)?(\d{2,3}(?:-\d{2,3})?) *s? *, *(?:(jog|walk|rest) *)?(\d[\d:]*) *(s|m|min)?(?: *(jog|walk|rest))?$/i,
    'a time for each repeat is written with in, and a recovery begins with its word',
    (_, work = '', time = '', first = '', off = '', unit = '', last = '') =>
      `${work} m in ${time} s, ${first || last || 'rest'} ${off}${off.includes(':') ? '' : ` ${unit || 's'}`}`,
  ],
  [
    /^((?:\p{L}+ +){1,3})(\d{1,2}) *x *(\d{1,3}) *(s|m|min)$/iu,
    'the repeats come first, and words of your own last, in quotes',
    (_, words = '', count = '', amount = '', unit = '') => namedRepeats(count, `${amount} ${unit}`, words),
  ],
  // After a time or a target, a bare amount is the recovery.
  [
    new RegExp(
      `^(\\d{1,2} *x *(?:(?:${someTime})|[^(),]*(?:@|\\b(?:at|in)\\b|\\p{L}{4})[^(),]*)), *(${amount})$`,
      'iu',
    ),
    restAnswer,
    (_, work = '', time = '') => `${work}, ${recoveryText(time)}`,
  ],
  [
    new RegExp(`^(\\d{1,2} *x *[^()",]*[^()", ])(?: *,? *off +(${amount})| *\\((${amount})\\))$`, 'i'),
    restAnswer,
    (_, work = '', off, inBrackets = '') => `${work}, ${recoveryText(off ?? inBrackets)}`,
  ],
]

/** Lines that mean one of two things. */
const ambiguousRuns: readonly Row[] = [
  [
    new RegExp(`^(\\d{1,2} *x *\\d[\\d.]* *(?:m|km|mi|yd|laps?)) *, *(${someTime})$`, 'i'),
    (_, work = '', time = '') => {
      const rest = recoveryText(time)
      const target = rest.replace('rest', 'in')
      return `${time} can be the time of each repeat or the rest after it: write ${work} ${target}, or ${work}, ${rest}`
    },
  ],
]

/** The distance of a goal as scribbled, in two groups: a number and its unit, or the name of a race. */
const goalLength = String.raw`(?:(\d+(?:\.\d+)?) *(km|k|mi|miles?|m)|((?:half[ -]*)?marathon))\b`
const goalTime = String.raw`(?:in|sub|under|below|<|target|@)[ -]*(\d[\d:]*)(?: *min)?(?![\d:]|[.,]\d| *h)(?!.*\bon +\d+[./])`

const goalDate = (rest: string) => /\d{4}-\d\d-\d\d/.exec(rest)?.[0]

/** For both orders of a goal: the fifth group is the text after it. */
const goalMessage: Said = (...found) => {
  const rest = found[5] ?? ''
  const aboutDate =
    rest.trim() === '' || goalDate(rest) !== undefined ? '' : ', and its date as on 2027-04-18'
  return `a goal is written as a distance in a time${aboutDate}`
}

function goalText(count: string, unit: string, race: string, time: string, rest: string): string {
  const length = race === '' ? `${count} ${lengthUnitOf(unit)}` : race
  const on = goalDate(rest)
  return `goal: ${length} in ${time.includes(':') ? time : `${time}:00`}${on === undefined ? '' : ` on ${on}`}`
}

const headerAnswers: readonly AnswerRow[] = [
  [
    new RegExp(`^goal *: *${goalLength}[ ,]*${goalTime}(.*)$`, 'i'),
    goalMessage,
    (_, count = '', unit = '', race = '', time = '', rest = '') => goalText(count, unit, race, time, rest),
  ],
  [
    new RegExp(`^goal *: *${goalTime}[ ,]*(?:for +)?${goalLength}(.*)$`, 'i'),
    goalMessage,
    (_, time = '', count = '', unit = '', race = '', rest = '') => goalText(count, unit, race, time, rest),
  ],
]

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
  liftItem: [...liftAnswers, ...dropAnswers],
  fuelItem: fuelAnswers,
  runItem: runAnswers,
}

/** Lines that only the athlete can complete. */
const openLinesOf: Partial<Record<LineRule, readonly Row[]>> = {
  liftItem: incompleteLifts,
  runItem: ambiguousRuns,
}

/** Answers a line that reads neither as it is nor with synonyms replaced; null for a line without an answer.
 * @param isReadable whether a line reads, so that only readable lines are suggested */
export function hastyAnswer(
  text: string,
  rule: LineRule,
  isReadable: (text: string) => boolean,
): Answer | null {
  const line = text.trim()
  for (const [pattern, message, said] of answersOf[rule] ?? []) {
    if (!pattern.test(line)) continue
    const suggestion = put(line, pattern, said)
    if (isReadable(suggestion)) return { message: put(line, pattern, message), suggestion }
  }
  const open = openLinesOf[rule]?.find(([pattern]) => pattern.test(line))
  if (open !== undefined) return { message: put(line, ...open), suggestion: null }
  return rule === 'runItem' ? severalIntervals(line, isReadable) : null
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
  const [, before = '', inBrackets, after = ''] = /^(.*[\d%\p{L})]) *\(([^()"]+)\)(.*)$/u.exec(line) ?? []
  if (inBrackets !== undefined)
    return outOfBrackets(`${before}${after}`, inBrackets.trim(), isReadable, offer)
  for (let end = line.lastIndexOf(' '); end > 0; end = line.lastIndexOf(' ', end - 1)) {
    const words = line.slice(end + 1)
    if (!/^\p{L}[\p{L} '-]*$/u.test(words) || clauseWord.test(words)) return null
    const item = line.slice(0, end).trimEnd()
    if (isReadable(item)) return { message: ownWords, suggestion: `${item}, "${words}"` }
  }
  return null
}

const ownWords = 'words of your own come last, in quotes'

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
  const intervals = text.split(/[,;+]| (?:plus|then) | with (?=\d+ *x)/i).map((interval) => interval.trim())
  if (
    intervals.length < 2 ||
    intervals.length > 9 ||
    /^\d+ *x/i.test(text) ||
    !intervals.every((interval) => /^\d/.test(interval) && isReadable(interval))
  )
    return null
  return { message: 'each interval is written on a line of its own', suggestion: intervals.join('\n  ') }
}
