import { roundedPercentLoad } from '../figures/volume.ts'
import { kilogramsOf } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import { aside, bracketed, figures, oneSet, ownWords, recoveryText } from './hastyRuns.ts'
import type { Question, Table } from './rewrite.ts'
import { liftClauses } from './words.ts'

/* Lines of lifting as coaches scribble them, and what the notation writes instead. */

const setsSlashed = 'the repetitions of sets that differ have slashes between them, and so have their loads'
const slashed = (list = '') => list.replace(/ *[-,/] */g, '/')
const isLoad = (text: string) => /[^\d.]/.test(text) || Number(text) >= 20

/** Sets, repetitions and load, of which a load may come first: `100 x 5 x 3`. */
function inOrder(found: string, first = '', reps = '', last = ''): string {
  if (isLoad(first) && !isLoad(last)) return ` ${last} x ${reps} @ ${first}`
  return isLoad(last) ? ` ${first} x ${reps} @ ${last}` : found
}

/** Sets with a load each: `6 @ 100, 4 @ 110`, `70% x 5, 75% x 5`; of drops the loads after one set. */
function setsEach(found: string, list = ''): string {
  const sets = [...list.matchAll(/([\d.]+) *(kgs?|lbs?|%)? *([x@]|at\b) *([\d.]+) *(kgs?|lbs?|%)?/gi)].map(
    ([, a = '', ofA, sign, b = '', ofB]) => {
      const isTimes = sign === 'x' || sign === 'X'
      const isTurned = isTimes && ofB === undefined && isLoad(a + (ofA ?? ''))
      const isLoaded = isTurned || (!isTimes && ofA === undefined) || ofB === '%'
      return isTurned ? { load: a, reps: b, unit: ofA, isLoaded } : { load: b, reps: a, unit: ofB, isLoaded }
    },
  )
  const named = new Set(sets.map(({ unit }) => unit).filter((unit) => unit !== undefined))
  if (named.size > 1 || !sets.every(({ isLoaded }) => isLoaded)) return found
  const reps = sets.map((each) => each.reps)
  const loads = `@ ${sets.map(({ load }) => load).join('/')}${[...named][0] ?? ''}`
  if (/>|→/.test(list)) return `1 x (${reps.join(' > ')}) ${loads}`
  return `${sets.length === 1 ? `1 x ${reps}` : reps.join('/')} ${loads}`
}

/** `front squat 5 x 3, last set 3+`: the last set after the others. */
function lastSet(_: string, sets = '', reps = '', before = '', more = '', last = '', after = ''): string {
  const load = before.trim() === '' ? after : before
  const first = Number(sets) > 1 ? `${Number(sets) - 1} x ${reps}${load} then ` : ''
  return `${first}1 x ${/^\d/.test(last) ? last : 'max'}${load}${more}`
}

/** `squat 5 x 5, 2 x 8`: sets after others, of which a load may come first. */
function laterSets(found: string, rest = '', sets = '', dose = ''): string {
  if (!isLoad(sets)) return ` then ${sets} x ${dose}${rest}`
  return dose.includes('@') ? found : ` then 1 x ${dose} @ ${sets}${rest}`
}

const repsSaid: Record<string, number> = { single: 1, double: 2, triple: 3 }
const heavySet = (_: string, reps = '') =>
  ` 1 x ${repsSaid[reps.toLowerCase()] ?? (Number.parseInt(reps, 10) || 1)} @ rpe 8`

/** `clean + jerk 5 x 1`, `clean + jerk 3 x (2+1)`: the repetitions of each lift are all the same, or are listed. */
function complex(found: string, names = '', sets = '', dose = ''): string {
  const lifts = names.split(/ *\+ */)
  const groups = dose.match(/\d+/g) ?? []
  if (lifts.length < 2 || (groups.length > 1 && groups.length !== lifts.length)) return found
  return `${sets} x (${lifts.map((lift, index) => `${lift} ${groups[index] ?? groups[0]}`).join(' + ')})`
}

const clauseOrText = new RegExp(`^(?:${liftClauses.join('|')})\\b|^"`, 'i')

/** Writes a station of a round: `push-up 10` and `10x push-up` become `10 push-up`, `90 s rest` becomes `rest 90 s`. */
export function stationText(station: string): string {
  const [, rest] = /^(\d[\d:]* *(?:s|min)?) +rest(?: +between(?: +rounds)?)?$/i.exec(station) ?? []
  if (rest !== undefined) return recoveryText(rest)
  if (clauseOrText.test(station)) return station
  const [, name, dose = '', after = ''] =
    /^(\p{L}[^\d@]*?) *:? +(?:(?:1 *)?x *)?(\d[\d:.]* *(?:m|km|mi|yd|s|min)?(?![\p{L}\d]))( *@.*| +each .*)?$/iu.exec(
      station,
    ) ?? []
  const [, begin, load, side] =
    /^(\d.*?) *(@ *[\d.]+ *(?:kg|lb)s?) +(each +(?:side|arm|leg))$/i.exec(station) ?? []
  if (side !== undefined) return `${begin} ${side} ${load}`
  return name === undefined
    ? station.replace(/^(\d+) *x +(?=\p{L})/iu, '$1 ')
    : `${dose.trim()} ${name} ${after.trim()}`.trim()
}

/** Stations with commas between them, each with its number first. */
const stations = (_: string, begin = '', all = '') =>
  `${begin} ${all
    .split(/ *(?:[,;+]| - (?=\d)|\band\b(?= *\d)) *(?:then +)?/)
    .map(stationText)
    .join(', ')}`

/** `3 x 8 @ rpe 7/8/9` */
function effortEach(found: string, sets = '', dose = '', efforts = ''): string {
  const each = efforts.split(/ *\/ */)
  return each.length === Number(sets) ? each.map((rpe) => `1 x ${dose} @ rpe ${rpe}`).join(' then ') : found
}

/** `75% of 140 kg`, `60-70% of 140 kg` */
function shareOf(_: string, percents = '', mass = '', unit = ''): string {
  const kilograms = kilogramsOf({ value: Number(mass), unit: unit as MassUnit })
  const load = (percent: string) => roundedPercentLoad(kilograms, Number(percent), unit as MassUnit)
  return `${percents.split('-').map(load).join('-')} ${unit}`
}

export const lifts: Table = [
  figures,
  {
    [ownWords]: [['accessories: 3 x 12 curls', /^(<heads>) : (?=\d+ x)(.+)$/, '$2, "$1"']],
    'pounds are written with lb': [['squat 5 x 5 @ 135#', /(?<=\d) #/, ' lb ']],
    'assistance is written bodyweight- and a mass': [
      ['pull-up 3 x 8 @ -20 kg', /(?<=@ )-(?=\d)/, 'bodyweight-'],
    ],
    'a load added to the body is written bodyweight+ and a mass': [
      ['dip 4 x 5 +15', /(?<=\b<ofbody>\b[^@]*x <sets>),? \+ (?=<num><last>)/, ' @ bodyweight+'],
    ],
    'as many reps as possible is written max': [
      ['chins 3 x failure', /(?<=\d x )(?:to +)?(?:failure|fail|maximum)\b/, 'max'],
    ],
    'a hold or a carry has one length': [
      ['plank 3 x 30-45 s', /(?<=\d x \d+)-\d+(?= (?:s|secs?|min|m)\b)/, ''],
    ],
    'a tempo is written 3-1-1': [
      [
        'squat 5 x 5 @ 100 kg, 3-1-1',
        /(?<=\d x \d.*[\d\p{L}%])(?<!tempo),? +\(? (\d-[\dx]-\d(?:-[\dx])?)(?: \))?<end>/u,
        ', tempo $1',
      ],
      ['squat 5 x 5, tempo 311', /(?<=\btempo +)([\dx])([\dx])([\dx])(?![\dx-])/, '$1-$2-$3'],
      ['squat 5 x 5, tempo 3/1/1', /(?<=\btempo +[\dx/.:]*)[/.:](?=[\dx])/, '-'],
    ],
    'an effort is written rpe 8': [
      [
        'squat 5 x 5 @ 100 kg @8',
        /(?<=@[^,@]*\d (?:kg|lb|%)?) @ (?=(?:10|[1-9](?:\.5)?)(?![\d.:]| (?:kg|lb|%)))/,
        ' rpe ',
      ],
    ],
    'sets on the minute are written with every': [
      [
        'power clean 6 x 2 @ 75 kg EMOM',
        /(?<=\d.*)(?: ,)? \bemom\b(?! \d)|,? \bon +the +minute\b/,
        ', every 1:00',
      ],
      ['clean 10 x 2, E2MOM', /(?<=\d.*)(?: ,)? \be(\d)mom\b(?! \d)/, ', every $1:00'],
    ],
    'working up to a heavy set is written by effort': [
      [
        'squat: work up to a heavy single, rest 3:00',
        /(?<=^(?!(?:work|build|ramp)\b)\D*\p{L})[ :]+<workup> (single|double|triple|\d\d?(?!\d))?(?! \d)[^,@]*/u,
        heavySet,
      ],
      ['squat: work up to 140 x 1', /(?<=\p{L})[ :]+<workup> (?=<mass|num> x \d)/u, ' '],
      ['squat up to 5RM', /(?<=\p{L})[ :]+(?:(?:up +)?to +)?(?:an? +)?(\d+) rm\b/u, heavySet],
    ],
    'put a colon after a name that looks like sets': [
      ['hip 90/90 lift 3 x 8', /^(.*?\d+\/\d+ +\p{L}[^\d@,]*?) +(?=\d+ x \d)/u, '$1: '],
    ],
    'the stations of a round have one number before the name and commas between them': [
      ['3 rounds: push-up 10 + run 200 m', /^(<rounds>(?: +of\b)?)[ :-]*(\S.*)$/, stations],
    ],
    'the lifts of a complex are written in brackets, each with its repetitions': [
      [
        'clean + jerk 5 x 1 @ 60 kg',
        /^([^\d@(]*?\p{L}[^\d@(]*?) +(\d+) x ([1-5](?:\+\d+)*|\([\d +]+\))(?= (?:[@,]|each\b|$))/u,
        complex,
      ],
      [
        '5 x (clean + jerk) @ 60 kg',
        /^(\d+) x \(([^()\d@,]*\+[^()\d@,]*)\)/,
        (found, sets, names) => complex(found, names, sets, '1'),
      ],
    ],
    'a cluster set is written in brackets': [['squat 4 x 2+2', /(?<=\d x )(\d+(?:\+\d+)+)/, '($1)']],
    'for time comes first': [['50 push-ups for time', /^(\d.*?),? +for +time$/, 'for time: $1']],
    'one side at a time is each side': [['lunge 3 x 8/8', /(?<=\d x )(\d+) \/ \1(?! [/\d])/, '$1 each side']],
    'slashes give one set each: remove the count': [
      ['squat 3 x 10/8/6', /\d+ x (?=\d+(?:(?: \/ \d+)+|(?:,\d+){2,})(?!\d| x))/, ''],
    ],
    'the name of the exercise comes first': [
      [
        '5x5 squat',
        /(?<=^|\+ )(?!.*, \d+ x \d+ +\p{L}{3})(\d+ x <dose>|\d+(?: \/ \d+)+) +(?:of +)?(?!<side>|<m>|min|s\b)(\p{L}[^\d@,+]*?)(?= *(?:[@,]|$|\d)| +(?:at|rest|every|rpe|each|ea)\b)/u,
        '$2 $1',
      ],
    ],
  },
  bracketed,
  {
    'a drop set says its drops in brackets, and their loads after one @': [
      [
        'drop set: curl 12 @ 20 kg, 10 @ 15 kg',
        /^(.*?) \bdrop[ -]?sets? :? (.*<set>,.*<set>.*)$/,
        (_, before, rest = '') => `${before} ${rest.replace(/, *(?:then +)?(?=\d)/g, ' > ')}`,
      ],
      ['curl 3 x 12>10>8 @ 20/15/10 kg', /(?<=\d x )(\d+(?: > \d+)+)/, '($1)'],
      ['curl 12 > 10 > 8', /(?<=\p{L}[ :]+)(\d+(?: > \d+)+)(?! @ [\d.]+ (?:kg|lb)?s?$)/u, '1 x ($1)'],
    ],
    [setsSlashed]: [
      ['squat 5, 5, 3', /(?<=\p{L}[ :]+)\d+(?: [,-] \d+){2,}\+?(?! [x\d.:])/u, slashed],
      ['bench 10/8/6 @ 60-65-70 kg', /(?<=@ )[\d.]+(?: [,-] [\d.]+){2,}/, slashed],
      [
        'squat 6 @ 100, 4 @ 110',
        /(?<=<name>[ :,]+)@? (<set>(?: (?:(?:[,;>→]|->) )?(?:then\b )?<set>)+)<last>/,
        setsEach,
      ],
    ],
    'the number of sets comes first, such as 1 x 5 @ 100 kg': [
      ['deadlift 5 @ 140', /(?<=<name>[ :,]+)@? (<set>)(?:<last>|(?= (?:;|then\b)))/, setsEach],
      ['squat 1 @ rpe 8', /(?<=<name>[ :,]+)(\d+)(?= <at>? (?:rpe +\d|(?:bw|bodyweight)\b))/, '1 x $1'],
      ['plank 45 s x 3', /(<time|far>) x (<n>)/, '$2 x $1'],
    ],
    'sets, repetitions and load are written 3 x 5 @ 100 kg': [
      ['squat 100 x 5 x 3', / (<mass>|\d[\d.]*) x (\d+) x (<mass>|\d[\d.]*)/, inOrder],
    ],
    'an effort for each set is written with then': [
      ['bench 3 x 8 @ rpe 7/8/9', /(\d+) x (<dose>) (?:@ )?rpe +(\d[\d.]*(?: \/ \d[\d.]*)+)/, effortEach],
    ],
    'the last set is written after then': [
      [
        'squat 3 x 5 (last set max) @ 100 kg',
        /(<n>) x (\d+)([^,]*?)(,[^,]*)?(?: ,)? last (?:set|one) (?:to )?(max|amrap|failure|\d+\+?)( <at> [^,]*)?/,
        lastSet,
      ],
    ],
    'a percentage is of the maximum: write the load': [
      ['squat 5 x 5 @ 75% of 140 kg', /(\d[\d.]*(?: - [\d.]+)?) % of ([\d.]+) (kg|lb)s?\b/, shareOf],
    ],
    'put the sets before the height': [
      [
        'box jump 60 cm 3 x 5',
        /(?<=^[^\d,@]*\b(?:box|step|depth|drop|hurdle|jumps?)\b[^\d,@]*) (?:<at>|from\b)? (\d+ (?:cm|in)) +(\d+ x <sets>)/,
        ' $2 at $1',
      ],
    ],
    'put the sets before the load': [
      [
        'squat @ 100 kg, 3 x 8',
        /^([^\d@]*?\p{L})(?<!\badd)[,:]? <at>? (<load>(?: @? rpe +\d\S*)?|(?<=<at> )<num>|rpe +\d\S*)[,:]? (?:for +)?(\d+ x <sets>(?: ea(?:ch)?\b)?)/u,
        '$1 $3 @ $2',
      ],
      [
        'row, 3 x 10',
        /(?<=^[^\d@]*\p{L}) +for(?= +\d+ x)|(?<=^(?:[a-h]\d[.):]? )?\p{L}[^\d,@]*),(?= \d+ x)/u,
        '',
      ],
    ],
    'one side at a time is each side': [
      [
        'row 3 x 10 each 24 kg',
        /(?<=x <dose>) ea(?:ch)?(?= (?:@|,|\d|$|<kept>|(?:at|then)\b))/,
        ' each side ',
      ],
    ],
  },
  {
    'two of a load, one in each hand, are written 2x20 kg': [
      [
        'press 3 x 8 @ 20 kg each',
        /(?:(?:@ )?(<mass>)|@ (<num>)) (?:in +)?(?:(?:each|per) +hand|\/ hand|each)\b(?! (?:side|arm|leg))/,
        '@ 2x$1$2',
      ],
      ['db press 3 x 8 @ 20s', /(?<=\b(?:db|dumb-?bells?|kb|kettle-?bells?)\b.*@ )(\d[\d.]*)s\b/u, '2x$1'],
      ['walk 4 x 30 m 2 x 24 kg', /(?=[ ,@])(?<=x <sets>) (?:@ )?2 x (<mass>)/, ' @ 2x$1'],
    ],
    'what is done within a repetition is in quotes': [
      [
        'squat 3 x 5, 3 s pause at the bottom',
        /(?:, ?| +)(?:with +|w\/ )?(<time> +(?:pauses? +(?:at|in|on)|holds?|eccentrics?|lowering|negatives?|descents?)\b(?:(?! (?:<clause>|then\b))[^,@])*)(.*)$/,
        '$2, "$1"',
      ],
    ],
    [ownWords]: [
      aside,
      [
        'squat 3 x 5 @ 100 kg with belt',
        /^(?!<rounds>|\d|<heads> :)(\D*\d.*?[\d\p{L}%)])(?:, ?| +)((?:with +|w\/ )?<words>)(.*)$/u,
        '$1$3, "$2"',
      ],
    ],
    'a load added to the body is written bodyweight+ and a mass': [
      [
        'pull-up 3 x 5 +10 kg',
        /(?=[ ,@])(?<=x <sets>)(?<!<barred>.*)(?:, | +)\+ (?=<mass>)(?!.*\blast\b)/,
        ' @ bodyweight+',
      ],
    ],
    'a load from last time is written last': [
      [
        'squat 3 x 5, +2.5 kg from last week',
        /,? (?:@ )?\+? (<mass|num>) (?:from|on|than|over) (?:@ )?last(?: (?:week|time|session))?\b/,
        ' @ last + $1',
      ],
      ['press 5 x 5 add 2.5', /,? \badd +(\d+\.\d+|<mass>)/, ' @ last + $1'],
    ],
    'assistance is written bodyweight- and a mass': [
      ['pull-up 3 x 8 -20 kg', /(?<=\b<ofbody>\b[^@]*x <sets>)(?:, | +)(?:@ )?-(?=<mass>)/, ' @ bodyweight-'],
    ],
    'put @ before the load': [
      [
        'squat 5 x 5 100 kg',
        /(?=[ ,-])(?<=[x/] <sets>)(?: (?:,|-(?= +)))? (?!2 x)(-\d+ %|<load>)(?! [x/])/,
        ' @ $1',
      ],
      [
        'squat 5 x 5 100',
        /(?=[ ,-])(?<=[x/] <sets>)(?: -(?= +(?:[4-9]\d|\d{3})))? +(1[1-9]|[2-9]\d|\d{3})(?![\d.:%]| [-x/]| (?:<m>|s|min|cm|in)\b)/,
        ' @ $1',
      ],
      ['squat 3 x 5, rest 2:00 @ 100 kg', /(?=[ ,@])(?<=x <sets>)(, (?:(?!\d x)[^@])*?) (@ [^,+]+)/, ' $2$1'],
    ],
    'a time needs a unit': [
      [
        'squat 3 x 5, rest 90',
        /\b(rest|pause|every) ((?:\d+ ?- ?)?<num>)/,
        (_, word, text = '') => recoveryText(text, word),
      ],
    ],
    'put a comma before each clause': [
      ['squat 3 x 5 with rest 2:00', /(?: with\b| w\/| and\b|;)(?= (?:(?:rest|pause|every)\b|<time>))/, ','],
    ],
    'a ramp is written build from': [
      [
        'squat 5 x 5 @ 100 kg, warm up from 40 kg',
        /\b(?:ramp|build|warm|work)(?:[ -]*up)? +from\b/,
        'build from',
      ],
    ],
    'a rest after a set is written rest; between the groups of a cluster set it is a pause': [
      ['row 4 x 10, 90 s rest', /(?: [,/-])? (<time>) (rest|pause)s?\b(?<=\d.*\d.*)/, ', $2 $1'],
      [
        'squat 3 x 5 r3 min',
        /,? \b(?:r(?=[ =]*\d)|rec\b)[ =]*(<time|num>)(?<=\d.*\d.*)/,
        (_, text = '') => `, ${recoveryText(text, 'rest')}`,
      ],
      [
        'row 4 x 10, 90 s between',
        /(?: [,/-])? (<time>) between(?: (?:sets|rounds?))?\b(?<=\d.*\d.*)/,
        ', rest $1',
      ],
      ['squat 3 x 5 (rest 2:00) + row 3 x 8', /, (rest +[^,+]*?) \+ (.*)$/, ' + $2, $1'],
      [
        'squat 3 x (2+2) @ 100 kg, 20 s',
        /(?: [,-] | +)([1-6]?\d s)(?= (?:$|,|then\b))(?<=[,-] \d+ s|@[^,]*)(?<=\([\d +]+\).*)/,
        ', pause $1',
      ],
      [
        'squat 3 x 5 @ 100 kg, 2 min',
        /(?: [,-] ((?:\d+ - (?=\d+ min))?<time>)| +(<time>)(?<=@[^,]*))(?= (?:$|,|then\b))/,
        ', rest $1$2',
      ],
    ],
    'put the effort after its load, without a comma': [
      ['squat 3 x 5 rpe 8 @ 100 kg', /(?:@ )?(rpe +\d\S*) (@ [^,@]+)/, '$2 $1'],
      ['squat 3 x 5, rpe 8', /^((?:(?! +<clause>)[^,])*)(.*?), (?:@ )?(rpe +\d\S*)/, '$1 $3$2'],
    ],
    'sets that differ are written one after the other with then': [
      [
        'squat 1 x 5, back-off 2 x 8',
        /(?=[ ,+])(?<=\b[12]?\d x <dose>[^,+]*)(, (?:rest|pause|every) +[^,]*)?(?: [,+]|,? \b(?:then|back-?offs?(?: sets?)?))+ (\d+) x ((?:[1-3]?\d(?!\d)(?! ?[a-z])|max|amrap|\()[^,]*)/,
        laterSets,
      ],
    ],
    'schemes have then between them': [
      [
        'squat 3 x 3 @ 80% 2 x 2 @ 85%',
        /(?<=\d x \d+ <at> [\d.]+ (?:kgs?|lbs?|%)) +(?=\d+ x \d+ <at>)/,
        ' then ',
      ],
    ],
    'the exercises of a superset have a + between them, with spaces': [
      [
        'bench 3 x 5 & row 3 x 8',
        /(?<=\d.*?)(?: [+&/]|,? \b(?:super ?set(?:ted)?(?: (?:with|w\/))?|s\/?s|and|then|with|w\/)(?!\p{L})) (?=(?:[a-h]\d[.):]? +)?\p{L}[^\d@,+]*\d+ x \d)/u,
        ' + ',
      ],
    ],
  },
  {
    [ownWords]: [['Finisher: plank 3 x 45 s', /^(\p{L}[\p{L} -]*) : (\p{L}.*\d.*)$/u, '$2, "$1"']],
    [oneSet]: [
      ['plank 45 s', /^([^\d@,]*\p{L})(?<!every|mom)[ :]+(<time|far>)(?= (?:$|,|@))/u, '$1 1 x $2'],
      [
        'pull-ups to failure',
        /^([^\d@,]*?\p{L})[ :]+(?:amrap|max|(?:to +)?failure)(?: reps)?(?= (?:$|,|@))/u,
        '$1 1 x max',
      ],
    ],
  },
]

/** `3 x 5`, `3x5x140kg`, `140kg x 5`, `5,5,3`, `3 x 10/8/6`. */
export const nameless =
  /^(?:\d+ *x *\d+|\d+ *x *\d+ *[x@]? *[\d.]+ *(?:kg|lb)s?|[\d.]+ *(?:kg|lb)s? *x *\d+|(?:\d+ *x *)?\d+(?: *[,/] *\d+)+)$/i

/** The sets of a line without a name, as they would be written after it. */
function namelessSets(line: string): string {
  const [load, reps] = /^([\d.]+ *(?:kg|lb))s? *x *(\d+)$/i.exec(line)?.slice(1) ?? []
  if (load !== undefined) return `1 x ${reps} @ ${load.replace(/(?<=\d)(?=[kl])/i, ' ')}`
  return line
    .replace(/^\d+ *x *(?=\d+ *[,/])/i, '')
    .replace(/ *x *(\d+) *[x@]? *(?=[\d.]+ *(?:kg|lb))/i, ' x $1 @ ')
    .replace(/ *[,/] */g, '/')
    .replace(/(?<=\d)(?=kg|lb)/i, ' ')
}

/** Said where a load can be the plates of one end of the bar. */
export const wholeLoad = 'the load of a bar is all of it, bar and plates, such as @ 100 kg'

/** Lines that lack what only the athlete knows, and what is asked. */
export const liftQuestions: readonly Question[] = [
  [
    '@ 2 RIR',
    /^(?:@|rpe\b) \d.*$/u,
    (line) => `the exercise and its sets are missing: write them first, such as squat 3 x 5 ${line}`,
  ],
  [
    '3x5x140kg',
    nameless,
    (line) => `the name of the exercise is missing: write it first, such as squat ${namelessSets(line)}`,
  ],
  [
    'every minute',
    /^([^\d@]*)\bevery +\d+:\d\d$/u,
    (_, name) =>
      `the sets and their repetitions are missing: write them first, such as ${name || 'clean '}10 x 1, every 1:00`,
  ],
  [
    'work up to a heavy single',
    /^(?:work|build|ramp) (?:up)? to\b (?:an? +)?(?:heavy +)?(single|double|triple|\d+ (?:rm)?)?.*$/u,
    (_, reps) =>
      `working up to a heavy set is written by effort: the exercise and ${heavySet('', reps).trim()}`,
  ],
  [
    'squat 5 x 5 @ 100 kg, build from the bar',
    /\bbuild from\b(?! \d)/u,
    'warm-up sets begin at a mass: write build from 20 kg',
  ],
  [
    'squat 3 x 5 @ 60 kg a side',
    /^(?!.*\b(?:leg|lat|cable|machine)\b).*?(?<!x \d*)\d plates?\b|(?<=<mass>) (?:on +)?(?:each|per|a\b|\/) side\b/u,
    `for sets of one side at a time write each side before @; ${wholeLoad}`,
  ],
  [
    'bench 3 x 5 @ 60% of bodyweight',
    /% (?:of +)?(?:bw\b|body ?weight)/u,
    'a percentage is of the maximum, not of the body mass: write the load, such as @ 40 kg',
  ],
  [
    'curl 3 x 10, drop set',
    /\bdrop[ -]?sets?\b|\d > \d/u,
    'a drop set says its drops in brackets and a load for each, such as curl 3 x (12 > 10 > 8) @ 20/15/10 kg',
  ],
  [
    'circuit: push-up 10, 12 lunge',
    /^circuits? :? +(\S.*,.*)$/,
    (_, list) =>
      `the number of rounds is missing: write it first, such as${stations('', ' 3 rounds:', list)}`,
  ],
  [
    '3 rounds:',
    /^(\d{1,3}) rounds?(?: +of\b)?[ :]*$/u,
    'the exercises of the rounds are missing: write them on the same line, such as $1 rounds: 10 push-up, 8 row @ 40 kg',
  ],
  [
    'squat + press 3 x 8',
    /^([^\d@(+,]*\p{L}) \+ ([^\d@(+,]*\p{L}) (\d+) x (\d+)(?![\d+-])/u,
    'these can be a superset or a complex: write $1 $3 x $4 + $2 $3 x $4, or $3 x ($1 $4 + $2 $4)',
  ],
  [
    'squat 3x140kg',
    /^(.*\p{L}) :? +(\d{1,2}) x (\d[\d.]*) (kg|lb)s?$/u,
    '$2 can be sets or repetitions: write $1 $2 x 5 @ $3 $4, or $1 1 x $2 @ $3 $4',
  ],
  [
    'push-up 10',
    /^(?!<clause>|(?:jog|walk|week|day)\b)(\p{L}[^\d@,:"()+]*\p{L})(?<! x) +(\d{1,2})(?: reps)?(?: (?:in )?total)?$/u,
    'the number of sets is missing: write it before the repetitions, such as $1 1 x $2',
  ],
  [
    'squat 3 x 5 -20 kg',
    /(?<=x <sets>)(?=[ ,(])(?: ,)? \(? ([-+]) (<mass>|<num>(?= (?:$|[,)])))(?<!\d - \d+)/,
    'say what $2 is added to or taken off: write @ last $1 $2, or @ bodyweight$1$2',
  ],
  [
    '10 push-up',
    /^(\d{1,3}) +(?!<m>|(?:x|s|min|h|kgs?|lbs?|sets?|rounds?|reps)\b)(\p{L}[^\d@,:"()+]*)$/u,
    'the number of sets is missing: write it before the repetitions, such as $2 1 x $1',
  ],
  [
    'squat 5 x 5 @ 3x24 kg',
    /@ (?!2 x)\d+ x \d[\d.]* (?:kg|lb)/u,
    'only a pair of loads can be written: 2x and the mass of one',
  ],
  [
    'clean 2 x 10 emom 10 min',
    /^e\d?mom$|\d.*[ ,;]e\d?mom\b/u,
    'every minute on the minute is written with every, such as clean 10 x 2 @ 60 kg, every 1:00',
  ],
  [`${'a long name '.repeat(9)}3 x 5`, /^[^@,"]{100,}? \d+ x/u, 'a name has at most 80 characters'],
]
