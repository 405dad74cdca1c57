import { lengthUnitOf } from '../units/words.ts'
import { inNotation, type LineRule, put, type Row, type Said } from './synonyms.ts'

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
  // A load for each set: squat 6 @ 100, 4 @ 110, 2 @ 120 kg.
  [
    /^(\p{L}[^\d:@]*?) *:? +((?:\d{1,2} *@ *\d[\d.]* *(?:kg|lb)?(?: *, *| +|$)){2,9})$/iu,
    'the repetitions of sets that differ have slashes between them, and so have their loads',
    (_, name = '', list = '') => {
      const sets = list.split(/ *, *| +(?=\d+ *@)/).map((each) => each.split(/ *@ */))
      const unit = /(kg|lb) *$/i.exec(list)?.[1] ?? 'kg'
      const loads = sets.map(([, load = '']) => load.replace(/ *(?:kg|lb) *$/i, ''))
      return `${name} ${sets.map(([reps]) => reps).join('/')} @ ${loads.join('/')} ${unit}`
    },
  ],
  // A percentage for each set: squat 70% x 5, 75% x 5 or squat 5x70% 5x75%.
  [
    /^(\p{L}[^\d:@]*?) *:? +((?:(?:\d{2,3} *% *x *\d{1,2}|\d{1,2} *x *\d{2,3} *%)(?: *, *| +|$)){2,9})$/iu,
    'the repetitions of sets that differ have slashes between them, and so have their loads',
    (_, name = '', list = '') => {
      const numbers = (pattern: RegExp) => list.match(pattern)?.join('/')
      return `${name} ${numbers(/\b\d{1,2}(?= *x)|(?<=x *)\d{1,2}\b(?! *%)/g)} @ ${numbers(/\d{2,3}(?= *%)/g)}%`
    },
  ],
  [
    /^(.*\d *x *\d.*?) *, *back-?offs?(?: +sets?)? +(\d{1,2} *x.*)$/i,
    'sets that differ are written one after the other with then',
    '$1 then $2',
  ],
  // The same repetitions of two exercises: 21-15-9 thruster 40 kg, pull-up.
  [
    /^(\d{1,2}(?:-\d{1,2})+) +(\p{L}[^\d,@]*?) *((?:@? *\d[\d.]* *(?:kg|lb)s?)?) *(?:,|\+|and\b) *(\p{L}[^\d,@]*)$/iu,
    'the name of the exercise comes first; sets that differ have slashes between them',
    (_, list = '', first = '', load = '', second = '') => {
      const reps = list.replaceAll('-', '/')
      return `${first} ${reps}${load === '' ? '' : ` @ ${load.replace(/^@ */, '')}`} + ${second} ${reps}`
    },
  ],
  [/^(.*\d.*?) +add +(\d[\d.]* *(?:kg|lb|))s?$/i, 'a load from last time is written last', '$1 @ last + $2'],
  [/^(.*\d.*?) *,? +(?:emom|on +the +minute)$/i, 'a set every minute is written every', '$1, every 1:00'],
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
    /^(.*?\p{L}) *:? +(\d{1,2}) *x *\(?(\d{1,2}(?: *\+ *\d{1,2})+)\)? *@? *(\d[\d.]*) *(kg|lb|)s? *,? +(\d{1,3}) *s(?:ecs?)?$/iu,
    'the pause between the groups of a cluster set is written pause',
    (_, name = '', sets = '', groups = '', load = '', unit = '', pause = '') =>
      `${name} ${sets} x (${groups}) @ ${load} ${unit || 'kg'}, pause ${pause} s`,
  ],
  // A pair of loads without its @: farmer walk 4 x 30 m 2 x 24 kg.
  [
    /^(.*\d *x *\d.*?) *@? +2 *x *(\d[\d.]*) *(kg|lb)s?((?: *,.*)?)$/i,
    'put @ before the load',
    '$1 @ 2x$2 $3$4',
  ],
  [
    /^(.*\D) (\d{1,2}) *x *(\d{1,2})( *@[^,(]*?)? *[,(] *last +(?:set +|one +)?(?:amrap|max|to +failure|(\d{1,2}\+))\)?$/i,
    'the last set is written after then',
    (_, name = '', sets = '', reps = '', load = '', last = 'max') =>
      `${name} ${Number(sets) - 1} x ${reps}${load} then 1 x ${last}${load}`,
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
    /^([^\d@]*?\p{L}) *:? *@ *(\d{2,3}(?:\.\d+)?) *(kg|lb|)s? *x *(\d{1,2})$/iu,
    'the repetitions come before the load, and the sets before them',
    (_, name = '', load = '', unit = '', reps = '') => `${name} 1 x ${reps} @ ${load} ${unit || 'kg'}`,
  ],
  [
    /^(.*?) *(?:@ *|(?<=\d) +)(\d[\d.]*) *(kg|lb)s? *(?:each|\/ *hand|per +hand|in +each +hand|each +hand)(?! +(?:side|arm|leg))(.*)$/i,
    'two of $2 $3, one in each hand, are written 2x$2 $3; one side at a time is each side',
    '$1 @ 2x$2 $3$4',
  ],
  [
    new RegExp(`^(.*\\d.*?) *(?:[,(]|(?<= )- |(?<=(?:kg|lb) *)(?= )) *(${someTime})\\)?$`, 'i'),
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
    /^.*% *(?:of +)?(?:bw\b|body ?weight).*$/i,
    'a percentage is of the maximum, not of the body mass: write the load, such as @ 40 kg',
  ],
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

/** The pace or effort of a race. */
const racePace = String.raw`((?:\d+ ?km?|mile|half|(?:half )?marathon|race)(?: +race)?[ -]*(?:pace|effort)|h?mp)\b`

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

const ownWords = 'words of your own come last, in quotes'

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
    /^(?:(\d{1,2}) *x *)?(\d{1,3})-(\d{1,3}) *(s|min|)(?: *x *(\d{1,2}))?$/i,
    'work and recovery are written out in brackets',
    // Of two rising numbers the line can mean a range.
    (_, before, work = '', off = '', unit = '', after) =>
      Number(work) < Number(off) || (before === undefined) === (after === undefined)
        ? ''
        : `${before ?? after} x ${onOffText([work, unit, off, unit])}`,
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
    /^(?:progressi(?:on|ve)(?: +run)? +)?(\d.*?)(?: +progressi(?:on|ve)(?: +run)?)? *@? *(\d:\d\d) *(?:->|→|>|to|-) *(\d:\d\d)(\/(?:km|mi))?$/i,
    'a progression is a pace from split to split',
    (line, length = '', first = '', last = '', unit = '') =>
      /progressi/i.test(line ?? '') ? `${length} @ ${first} to ${last}${unit}, split 1 km` : '',
  ],
  [
    /^(\d{1,2}) *x *((?:\p{L}+ +){0,2}(?:sprints?|hills?|strides?) +)(\d{1,3} *(?:s|m|min))((?:, *.*)?)$/iu,
    'words of your own come last, in quotes',
    (_, count = '', words = '', amount = '', clauses = '') => namedRepeats(count, amount, words, clauses),
  ],
  [
    /^fartlek *:? *(?:for )?(\d[\d:.]* *(?:min|h|km|mi|m))(?: *[:,] *([^"]+))?$/i,
    'a run by feel is written with its length, and words of your own in quotes',
    (_, length = '', words) => `${length} steady, "fartlek${words === undefined ? '' : `: ${words}`}"`,
  ],
  [
    /^(\d.*?) *(?:@|at) *race +(?:pace|effort)(.*)$/i,
    'the pace of the goal is written @ goal',
    '$1 @ goal$2',
  ],
  [
    new RegExp(`^(\\d.*?) *(?:@|at) *${racePace} *[,(@]? *(\\d:\\d\\d(?:/(?:km|mi))?)\\)?(.*)$`, 'i'),
    'a pace is written in figures',
    '$1 @ $3$4',
  ],
  [
    new RegExp(`^(\\d.*?) *(?:@|at) *${racePace}(.*)$`, 'i'),
    'a pace is written in figures, such as @ 4:05/km, or as @ goal; put words of your own in quotes',
    '$1 hard$3, "at $2"',
  ],
  [
    /^((?:\d{1,2} *x *)?\d{2,4}) *m? *@ *(\d{2,3}(?:-\d{2,3})?)(?: *s$|(?: *s)?( *,.*))/i,
    'a time for the whole interval is written with in',
    (_, work = '', time = '', rest = '') => `${work} m in ${time} s${rest}`,
  ],
  // A time for each repeat: 5 x 400 m (78, 77, 76, 75, 74), jog 200 m.
  [
    /^(\d{1,2}) *x *(\d{2,4}) *m? *(?:@|in\b)? *\(?(\d[\d.:]*(?: *[,/] *\d[\d.:]*)+) *s?\)?(, *\p{L}.*)?$/iu,
    'a time for each repeat is written with in, and slashes between the times',
    (_, count = '', length = '', list = '', rest = '') => {
      const times = list.split(/ *[,/] */)
      const unit = list.includes(':') ? '' : ' s'
      return times.length === Number(count)
        ? `${count} x ${length} m in ${times.join('/')}${unit}${rest}`
        : ''
    },
  ],
  // Of two recoveries after a bracket, the first is that inside.
  [
    new RegExp(
      `^(\\d{1,2} *x) *\\(([^()"]*)\\)(?: *,? *off +(${amount})|, *((?:jog|walk|stand|rest) +[^,]*))(, *rest +[^,]*)$`,
      'i',
    ),
    'the recovery between the repeats goes into the brackets',
    (_, count = '', work = '', off, clause, between = '') => {
      const recovery = clause ?? recoveryText(off ?? '')
      const isLadder = /^\d{3,4}(?:-\d{3,4})+ *m?$/.test(work)
      const within = isLadder
        ? work.replace(/ *m$/, '').replaceAll('-', ` m, ${recovery}, `)
        : `${work}, ${recovery}`
      return `${count} (${within}${isLadder ? ' m' : ''})${between}`
    },
  ],
  [
    /^(\d{2,4}) *m? *(?:@|in) *(\d{2,3}(?:-\d{2,3})?) *s *x *(\d{1,2})$/i,
    'the number of repeats comes first',
    '$3 x $1 m in $2 s',
  ],
  [
    /^(\d.*?) *@ *(\d+(?:-\d+)? *(?:w(?:atts?)?\b|% *(?:of +)?(?:max *)?hr *(?:max)?))(.*)$/i,
    ownWords,
    '$1$3, "$2"',
  ],
  [
    /^(easy|steady|tempo|threshold|hard|fast) +(\d{1,2} *x *[^,]*?)(,.*)?$/i,
    'a word comes after its distance or time',
    '$2 $1$3',
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
      `^((?:\\d{1,2} *x *|\\d+(?=-\\d+ *-))(?:(?:${someTime})|[^(),]*(?:@|\\b(?:at|in)\\b|\\p{L}{4})[^(),]*)), *(${amount})$`,
      'iu',
    ),
    restAnswer,
    (_, work = '', time = '') => `${work}, ${recoveryText(time)}`,
  ],
  [
    new RegExp(
      `^(\\d{1,2} *x *[^()",]*[^()", ])(?: *,? *off +(${amount})(?: +(jog|walk|rest))?| *\\((${amount})\\))$`,
      'i',
    ),
    restAnswer,
    (_, work = '', off, word, inBrackets) =>
      `${work}, ${word === undefined ? recoveryText(off ?? inBrackets ?? '') : `${word} ${off}`}`,
  ],
]

/** Lines that mean one of two things. */
const ambiguousRuns: readonly Row[] = [
  [/^.*\b(jog|walk) +half\b(?! +marathon).*$/i, 'write the metres of the recovery, such as $1 200 m'],
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
  const isReadableWithNotes = (said: string) => isReadable(`${said}${notes}`)
  const mended =
    rowsAnswer(line, rule, isReadableWithNotes, mostRows) ??
    rowsAnswer(spelledOut(line, rule), rule, isReadableWithNotes, mostRows)
  if (mended !== null) return { ...mended, suggestion: `${mended.suggestion}${notes}` }
  const open = openLinesOf[rule]?.find(([pattern]) => pattern.test(line))
  if (open !== undefined) return { message: put(line, ...open), suggestion: null }
  if (rule !== 'runItem') return null
  return severalIntervals(line, isReadable) ?? severalIntervals(spelledOut(line, rule), isReadable)
}

/** What the grammar answers itself if nothing else is amiss in a line. */
const grammarsOwn: Partial<Record<LineRule, readonly Row[]>> = {
  runItem: [
    [/(?<=\d)'/g, ' min'],
    [
      /(?<=^|[x(,] *|\b(?:jog|walk) +)(\d{3,4}(?:-\d{3,4})*)(?= *(?:[),@]|$)| +(?:in\b|jog\b|\p{L}{4}))/giu,
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
    if (answer !== null) return { ...answer, message: `${message}; ${answer.message}` }
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

/** A recovery after repeats belongs to them; after any other interval it has a line of its own. */
function intervalsIn(text: string): string[] {
  const isRecovery = (interval: string) => /^(?:jog|walk|stand|rest)\b/i.test(interval)
  const intervals = text
    .split(/[,;+]| (?:plus|then) | with (?=\d+ *x)/i)
    .map((interval) => interval.trim())
    .map((interval, index) => (index > 0 && isTime.test(interval) ? recoveryText(interval) : interval))
  const lines: string[] = []
  for (const interval of intervals)
    if (isRecovery(interval) && /^\d+ *x/i.test(lines.at(-1) ?? '')) lines.push(`${lines.pop()}, ${interval}`)
    else lines.push(interval)
  const isWork = (line = '') => /^(?:\d|warm|cool)/i.test(line)
  // A recovery has work before and after it.
  const isWhole = isWork(lines.at(0)) && isWork(lines.at(-1))
  return isWhole && lines.every((line) => isWork(line) || isRecovery(line)) ? lines : []
}

const isTime = new RegExp(`^(?:${someTime})$`, 'i')

/** `14 km easy, last 4 km @ 4:00/km`: the easy kilometres and the fast ones; null for any other line. */
function fastEnd(text: string): [string, string] | null {
  const [, whole, unit = '', easy = '', last, end = ''] =
    /^(\d+(?:\.\d+)?) *(km|mi|min|m)\b([^,]*?)(?: *, *(?:the +)?last| +with(?: +(?:the +)?last)?) +(\d+(?:\.\d+)?) *\2\b *([^,]*)$/i.exec(
      text,
    ) ?? []
  const first = Math.round((Number(whole) - Number(last)) * 100) / 100
  if (!(first > 0) || end === '') return null
  return [`${first} ${unit}${easy || ' easy'}`, `${last} ${unit} ${end}`]
}
