import { recoveryText, someTime } from './hastyRuns.ts'
import type { Line } from './lines.ts'
import type { AnswerRow } from './words.ts'

/* Lines of lifting as coaches scribble them, and the line to write instead. */

/** A clause of a round that stays as it is. */
const roundClause = /^(?:rest|pause|every|tempo|build)\b|^"/i

/** Puts the number first in `push-up 10` and `run 200 m @ 20 kg`, unless it is there already. */
function numberFirst(station: string): string {
  const [, name = '', dose = '', load = ''] =
    /^(\p{L}[^\d@]*?) *:? +(?:1 *x *)?(\d[\d:.]* *(?:m|km|mi|yd|s|min)?(?![\p{L}\d]))( *@.*| +each .*)?$/iu.exec(
      station,
    ) ?? []
  return name === '' ? station : `${dose.trim()} ${name}${load === '' ? '' : ` ${load.trim()}`}`
}

/** The stations of each round of `21-15-9 thruster @ 40 kg, pull-up, 200 m run`, one round after the other: what has no
 * number of its own has that of the round. */
function roundsOut(list: string, stations: string): string {
  const named = stations.split(/ *[,+] */).map((each) => numberFirst(each))
  const rounds = list.split(/[-/]/).map((reps) => reps.trim())
  return rounds
    .flatMap((reps) => named.map((each) => (/^\d/.test(each) ? each : `${reps} ${each}`)))
    .join(', ')
}

const oneNumber = 'a station has one number before its name'

const nameless = 'the name of the exercise is missing: write it first, such as'

export const liftAnswers: readonly AnswerRow[] = [
  // Rounds against the clock whose repetitions go down: for time: 21-15-9 thruster @ 40 kg, pull-up.
  [
    /^for +time *:? +(\d{1,3}(?: *([-/]) *\d{1,3})(?: *\2 *\d{1,3})+) +(?!m\b)(\p{L}.*)$/iu,
    `${oneNumber}: rounds that differ are written out`,
    (_, list, _sign, stations) => `for time: ${roundsOut(list, stations)}`,
  ],
  [
    /^for +time *:? +(\d{1,3}) *x *(\d[^,+]*)$/i,
    `${oneNumber}: what is repeated is written as rounds`,
    'for time: $1 rounds of $2',
  ],
  [
    /^((?:e\d?mom|every|for +time|\d+ +rounds|amrap|\d[\d:]* *(?:min)? *(?:amrap|of))\b.*?[ :,]\d{1,3}) *x +(\p{L}.*)$/iu,
    `${oneNumber} and no x`,
    '$1 $2',
  ],
  [
    new RegExp(`^(\\d{1,3} *rounds?\\b(?! +for\\b).*,) *(${someTime}) +rest$`, 'i'),
    'a rest after each round is written rest first',
    (_, stations, time) => `${stations} ${recoveryText(time)}`,
  ],
  // A load for each set: squat 6 @ 100, 4 @ 110, 2 @ 120 kg.
  [
    /^(\p{L}[^\d:@]*?) *:? +((?:\d{1,2} *@ *\d{2,3}(?:\.\d+)? *(?:kg|lb)?(?: *, *| +|$)){2,9})$/iu,
    'the repetitions of sets that differ have slashes between them, and so have their loads',
    (_, name, list) => {
      const sets = list.split(/ *, *| +(?=\d+ *@)/).map((each) => each.split(/ *@ */))
      const units = new Set(list.match(/kg|lb/gi) ?? [])
      if (units.size > 1) return ''
      const unit = [...units][0] ?? ''
      const loads = sets.map(([, load = '']) => load.replace(/ *(?:kg|lb) *$/i, ''))
      return `${name} ${sets.map(([reps]) => reps).join('/')} @ ${loads.join('/')} ${unit}`.trim()
    },
  ],
  // A percentage for each set: squat 70% x 5, 75% x 5 or squat 5x70% 5x75%.
  [
    /^(\p{L}[^\d:@]*?) *:? +((?:(?:\d{2,3} *% *x *\d{1,2}|\d{1,2} *x *\d{2,3} *%)(?: *, *| +|$)){2,9})$/iu,
    'the repetitions of sets that differ have slashes between them, and so have their loads',
    (_, name, list) => {
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
    /^(\d{1,2}(?:-\d{1,2}){2,}) +(?!m\b)(\p{L}[^\d,@]*?) *((?:@? *\d[\d.]* *(?:kg|lb)s?)?) *(?:,|\+|and\b) *(?!(?:rest|pause|tempo|every)\b)(\p{L}[^\d,@]*)$/iu,
    'the name of the exercise comes first; sets that differ have slashes between them',
    (_, list, first, load, second) => {
      const reps = list.replaceAll('-', '/')
      return `${first} ${reps}${load === '' ? '' : ` @ ${load.replace(/^@ */, '')}`} + ${second} ${reps}`
    },
  ],
  [
    /^(.*\d.*?) +add +(\d[\d.]* *(?:kg|lb)|\d+\.\d+)s?$/i,
    'a load from last time is written last',
    '$1 @ last + $2',
  ],
  [/^(.*\d.*?) *,? +(?:emom|on +the +minute)$/i, 'a set every minute is written every', '$1, every 1:00'],
  // Loads before their repetitions, set by set: squat 100x5, 105x5, 110x5.
  [
    /^(\p{L}[^\d:]*?) *:? +((?:(?:[2-9]\d|\d{3})(?:\.\d+)? *x *\d{1,2}(?: *, *|$)){2,9})$/iu,
    'the repetitions come before the load',
    (_, name, list) => {
      const sets = list.split(/ *, */).map((each) => each.split(/ *x */))
      return `${name} ${sets.map(([, reps]) => reps).join('/')} @ ${sets.map(([load]) => load).join('/')}`
    },
  ],
  // A bare time after a cluster set: deadlift 4x2+2+2 120kg 20s.
  [
    /^(.*?\p{L}) *:? +(\d{1,2}) *x *\(?(\d{1,2}(?: *\+ *\d{1,2})+)\)? *@? *(\d[\d.]*) *(kg|lb|)s? *,? +(\d{1,3}) *s(?:ecs?)?$/iu,
    'the pause between the groups of a cluster set is written pause',
    (_, name, sets, groups, load, unit, pause) =>
      `${name} ${sets} x (${groups}) @ ${`${load} ${unit}`.trim()}, pause ${pause} s`,
  ],
  // Without a unit: squat 3 x 5 x 100.
  [/^(.*\D\d{1,2} *x *\d{1,2}) *x *(\d{2,3}(?:\.\d+)?)( *,.*)?$/i, 'put @ before the load', '$1 @ $2$3'],
  [
    /^(.*\d.*?) *,? *\+ *(\d[\d.]* *(?:kg|lb))s? +(?:from|on|than|over) +last +(?:week|time|session)$/i,
    'a load from last time is written last',
    '$1 @ last + $2',
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
    (_, name, sets, reps, load, last) =>
      `${name} ${Number(sets) - 1} x ${reps}${load} then 1 x ${last || 'max'}${load}`,
  ],
  // The implement after the load: rows 3x10 each 24kg kb.
  [
    /^(.*\d) *((?:\/ *side|each(?: *(?:side|arm|leg))?)?) *@? +(\d[\d.]*) *(kg|lb)s? +(kb|db|bb|kettlebell|dumbbell|barbell)$/i,
    'the load comes after @, and words of your own last, in quotes',
    (_, sets, side, load, unit, implement) =>
      `${sets}${side === '' ? '' : ` ${/arm|leg/i.test(side) ? side : 'each side'}`} @ ${load} ${unit}, "${implement}"`,
  ],
  [
    /^(\d{1,3}) *rounds?(?: +of\b)? *:? +(.*\S)$/i,
    'the stations of a round have the number first and commas between them',
    (_, rounds, list) =>
      `${rounds} rounds of ${list
        .split(/ *[,+;] */)
        .map((each) => (roundClause.test(each) ? each : numberFirst(each)))
        .join(', ')}`,
  ],
  // What would be more repetitions than anyone does is a load: 5x70, 5x75.
  [
    /^(.*?\d *[x/] *(?:\d|\(|max|amrap)[^,]*?) *, *(\d{1,2} *x *(?!(?:[4-9]\d|\d{3}) *(?:,|$))(?:\d|\(|max|amrap).*)$/i,
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
    (_, name, load, unit, reps) => `${name} 1 x ${reps} @ ${load} ${unit}`.trim(),
  ],
  [
    /^(.*?) *(?:@ *|(?<=\d) +)(\d[\d.]*) *(kg|lb)s? *(?:each|\/ *hand|per +hand|in +each +hand|each +hand)(?! +(?:side|arm|leg))(.*)$/i,
    'two of $2 $3, one in each hand, are written 2x$2 $3; one side at a time is each side',
    '$1 @ 2x$2 $3$4',
  ],
  [
    new RegExp(`^(.*\\d.*?) *(?:[,(]|(?<= )- |(?<=(?:kg|lb) *)(?= )) *(${someTime})\\)?$`, 'i'),
    'a rest between sets is written rest',
    (_, sets, time) => `${sets}, ${recoveryText(time)}`,
  ],
  [
    /^([^\d@]*\p{L})[ ,:]*\bevery +(\d+:\d\d)$/iu,
    'the sets and their repetitions are missing',
    '$1 10 x 1, every $2',
  ],
  // Drops and their loads.
  [
    /^(.*?\D) *(\d{1,2}) *x *(\d{1,2})(?: *@ *(\d[\d.]*) *(kg|lb|)s?)?,? *(?:with )?(?:last set )?drop[ -]?sets?$/i,
    'a drop set says its drops, each with its load',
    (_, name, sets, reps, load, unit) => {
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
    (_, name, first, load, unit, second, lower) =>
      `${name} 1 x (${first} > ${second}) @ ${load}/${lower} ${unit || 'kg'}`,
  ],
  // Without a name, or without what only the athlete knows: the example says how they are written.
  [
    /^.*% *(?:of +)?(?:bw\b|body ?weight).*$/i,
    'a percentage is of the maximum, not of the body mass: write the load, such as @ 40 kg',
    null,
  ],
  [
    /^circuits? *:? +(\S.*,.*)$/i,
    (_, list) =>
      `the number of rounds is missing: write it first, such as 3 rounds: ${list.split(/ *, */).map(numberFirst).join(', ')}`,
    null,
  ],
  [
    /^(\d{1,3}) *rounds?(?: +of\b)?[ :]*$/i,
    'the exercises of the rounds are missing: write them on the same line, such as $1 rounds: 10 push-up, 8 row @ 40 kg',
    null,
  ],
  [/^(\d{1,2}) *x *(\d{1,2}) *(?:x|@)? *(\d[\d.]*) *(kg|lb)s?$/i, `${nameless} squat $1 x $2 @ $3 $4`, null],
  [/^(\d[\d.]*) *(kg|lb)s? *x *(\d{1,2})$/i, `${nameless} squat 1 x $3 @ $1 $2`, null],
  [/^\d{1,2}(?: *[,/] *\d{1,2})+$/, (list) => `${nameless} squat ${list.replace(/ *[,/] */g, '/')}`, null],
  [
    /^(?:@ *|rpe +)\d.*$/i,
    'the exercise and its sets are missing: write them first, such as squat 3 x 5 $&',
    null,
  ],
  [
    /^every +\d+:\d\d$/i,
    'the exercise, its sets and its repetitions are missing: write them first, such as clean 10 x 1, $&',
    null,
  ],
  [
    /^(.*\p{L}) *:? +(\d{1,2}) *x *(\d[\d.]*) *(kg|lb)s?$/iu,
    '$2 can be sets or repetitions: write $1 $2 x 5 @ $3 $4, or $1 1 x $2 @ $3 $4',
    null,
  ],
]

/* Exercises done in turn that are written on lines of their own: stations below `3 rounds:`, or A1 and A2. The notation
 * has them on one line, so these lines are answered together, with that line. */

/** The lines of one group so far. */
export interface Together {
  first: Line
  others: Line[]
  kind: 'below a heading' | 'labelled'
}

const heading =
  /^ *(?:(super ?set|tri-?set|giant ?set|circuit|round)s?\b)?[ ,:]*(?:x *)?(\d{1,2})? *(?:(rounds?|x|times|sets?)\b)?(?: *of\b)?[ ,:]*((?:rest|pause)\b.*)?$/i

/** Rounds and clauses of a line such as `superset, 3 rounds, rest 1:00`; null for any other line. */
function headingOf(text: string): { rounds: string | null; clauses: string } | null {
  const [, word, rounds, unit, clauses = ''] = heading.exec(text) ?? []
  if (word === undefined && (rounds === undefined || unit === undefined)) return null
  return { rounds: rounds ?? null, clauses }
}

/** `circuit`, `3 rounds:`: a heading of exercises done in turn; `circuit: ...` lacks the number of rounds. */
export function isRounds(text: string): boolean {
  return headingOf(text) !== null || /^ *circuits? *:/i.test(text)
}

/** The letter and the number of `A1) squat 3 x 5`; null without a label. The grammar leaves it out of the name. */
function labelOf(text: string): { letter: string; number: number } | null {
  const [, letter = '', number] = /^ *([a-h])(\d)[.):]? +/i.exec(text) ?? []
  return number === undefined ? null : { letter: letter.toUpperCase(), number: Number(number) }
}

/** Begins a group with a line; null if it begins none. */
export function beginTogether(line: Line): Together | null {
  if (labelOf(line.text)?.number === 1) return { first: line, others: [], kind: 'labelled' }
  return headingOf(line.text) === null ? null : { first: line, others: [], kind: 'below a heading' }
}

/** Whether a line continues a group: the next label of the same letter, or a line below the heading, indented if the
 * first one was. */
export function continues({ first, others, kind }: Together, line: Line): boolean {
  if (kind === 'labelled') {
    const [before, label] = [labelOf((others.at(-1) ?? first).text), labelOf(line.text)]
    return label !== null && label.letter === before?.letter && label.number === before.number + 1
  }
  if (headingOf(line.text) !== null || labelOf(line.text)?.number === 1) return false
  const isIndented = indentOf(others[0] ?? line) > indentOf(first)
  return !isIndented || indentOf(line) > indentOf(first)
}

function indentOf({ shown }: Line): number {
  return shown.search(/\S|$/)
}

/** What is wrong with a group of several lines, and its exercises on one line, which may not be readable; null where
 * only the athlete knows the number of rounds. */
export function answerTogether({ first, others, kind }: Together): { message: string; line: string | null } {
  const lines = others.map(({ text }) => text.replace(/^ *[-*•] /, '').trim())
  const message = 'exercises done in turn are on one line'
  if (kind === 'labelled')
    return { message: `${message}, with a + between them`, line: supersetOf([first.text.trim(), ...lines]) }
  const { rounds, clauses } = headingOf(first.text) ?? { rounds: null, clauses: '' }
  const isRest = (text: string) => /^rest\b/i.test(text)
  const stations = lines.filter((text) => !isRest(text))
  const end = [clauses, ...lines.filter(isRest)]
    .map((clause) => (clause === '' ? '' : `, ${clause}`))
    .join('')
  if (stations.every((text) => /\d *x *\d/i.test(text)))
    return { message, line: `${supersetOf(stations)}${end}` }
  if (rounds === null)
    return {
      message: `${message}, with the number of rounds first: 3 rounds: 10 push-up, 8 row @ 40 kg`,
      line: null,
    }
  return { message, line: `${rounds} rounds: ${stations.map(numberFirst).join(', ')}${end}` }
}

const restAtEnd = /,? *\brest +([\d:.]+ *(?:s|min)?) *$/i

/** The exercises with a + between them; the rest after each but the last becomes the pause in a round. */
function supersetOf(exercises: readonly string[]): string {
  const rests = exercises.map((text) => restAtEnd.exec(text)?.[1])
  const last = rests.pop()
  const [pause] = rests
  if (pause === undefined || rests.some((rest) => rest !== pause)) return exercises.join(' + ')
  const bare = exercises.map((text) => text.replace(restAtEnd, ''))
  return `${bare.join(' + ')}, pause ${pause}${last === undefined ? '' : `, rest ${last}`}`
}
