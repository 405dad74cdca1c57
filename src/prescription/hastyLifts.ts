import { recoveryText } from './hastyRuns.ts'
import {
  type AnswerRow,
  aboutLine,
  type Context,
  ownWords,
  type Rule,
  readScribble,
  type Scribble,
  Slots,
  wordsAlone,
} from './scribble.ts'

/* Lines of lifting as coaches scribble them, and the line to write instead. */

/** `sets` are sets and their repetitions, `set` the repetitions and the load of one; `pair` is a load in each hand,
 * `added` one from last time; `last` and `drop` are what the last set is instead; `nothing` is left out. */
type Slot =
  | ('name' | 'side' | 'load' | 'rpe' | 'clause' | 'note')
  | ('sets' | 'set' | 'pair' | 'added' | 'last' | 'drop' | 'nothing')

const isLoad = (text = '') => /[^\d.]/.test(text) || Number(text) >= 20
const slashed = ([list = '']: string[]) => list.replace(/ *[-,/] */g, '/')
const setOf = (reps = '', load = '') => (isLoad(load) ? `${reps} @ ${load}` : null)

/** Sets, repetitions and load, of which a load may come first: `100 x 5 x 3`. */
function inOrder(first = '', reps = '', last = ''): string {
  return isLoad(first) && !isLoad(last) ? `${last} x ${reps} @ ${first}` : `${first} x ${reps} @ ${last}`
}

/** A bare time after the sets: some seconds are the pause in a cluster set, any other time is the rest. */
function bareTime([sign, time = '']: string[], { slots, gap }: Context): string | null {
  const sets = slots.of('sets')
  const isApart =
    sign !== '' || /[,(]/.test(gap) || /@/.test([...sets.slice(-1), ...slots.of('load', 'pair')].join())
  if (sets.length === 0 || !isApart) return null
  return `${sets.some((each) => each.includes('(')) && /^[1-6]?\d *s/i.test(time) ? 'pause' : 'rest'} ${time}`
}

/** What follows sets before the next ones is theirs. */
function nextSets(text: string, { slots, gap }: Context): string | null {
  const sets = slots.of('sets')
  if (sets.length === 0) return text
  if (gap.trim() === '' && !slots.has('nothing')) return null
  slots.set('sets', [...sets.slice(0, -1), `${sets.at(-1)} ${loadedOf(slots)}`.trim()])
  for (const slot of ['side', 'load', 'pair', 'added', 'rpe']) slots.delete(slot)
  return text
}

/** The side and the load of the last sets. */
function loadedOf(slots: Slots): string {
  const loads = slots.of('load', 'pair', 'added')
  const isBare = slots.has('rpe') && loads.length === 0 && !/@/.test(slots.of('sets').at(-1) ?? '')
  return [...slots.of('side'), ...(isBare ? ['@'] : loads), ...slots.of('rpe')].join(' ')
}

const rules: readonly Rule<Slot, keyof typeof messages>[] = [
  // Sets, repetitions and loads.
  [
    'LOAD|NUMBER x DOSE x LOAD|NUMBER',
    'sets!@',
    ([sets, , reps, , load], context) => nextSets(inOrder(sets, reps, load), context),
  ],
  ['NUMBER x PERCENT', 'set!set', '$1 @ $3'], // 5x70%
  ['LOAD x NUMBER', 'set!set', '$3 @ $1'], // 65kg x 3
  ['NUMBER x NUMBER', 'set', ([load, , reps]) => setOf(reps, load)], // 100x5
  ['@ LOAD|NUMBER x NUMBER', 'set!set', ([, load, , reps]) => setOf(reps, load)],
  ['NUMBER @ LOAD|NUMBER', 'set', ([reps, , load]) => setOf(reps, load)],
  ['TO NUMBER @ LOAD|NUMBER', 'drop!drop', '$2 @ $4'], // 10 @ 20 kg -> 8 @ 15 kg
  ['NUMBER x LIST|PAIR', 'sets!each', ([, , list = '']) => (list.includes('/') ? list : null)],
  ['NUMBER x BARE', 'sets!cluster', (found, context) => nextSets(found.join(' '), context)],
  ['NUMBER x DOSE|LIST|PAIR', 'sets', (found, context) => nextSets(found.join(' '), context)],
  ['TIME|DISTANCE x NUMBER', 'sets!count', '$3 x $1'],
  ['LIST', 'sets!sets', slashed],
  ['PAIR', 'sets'],
  ['GROUPS', 'sets!drop', ([drops = '']) => (drops.includes('>') ? `1 x ${drops}` : null)],
  ['for > NUMBER x', 'nothing!order', ''],
  ['then|BACKOFF sets?', 'nothing', ''],
  ['+ > NUMBER x', 'nothing!schemes', ''],
  ['last set|one? to? max|amrap|failure', 'last!last', 'max'],
  ['last set|one DOSE', 'last!last', '$3'], // last set 3+
  ['with? last? set? drop|drop-set|drop-sets|dropset set|sets?', 'drop!drop', ''],
  // Loads and sides.
  ['@ NUMBER x MASS', 'pair', ([, two, , load]) => (two === '2' ? `@ 2x${load}` : null)],
  ['NUMBER x MASS', 'pair!pair', ([two, , load]) => (two === '2' ? `@ 2x${load}` : null)],
  ['@? MASS in? each|per|/ hand', 'pair!pair', '@ 2x$2'], // 20 kg per hand
  ['@? MASS each', 'pair!pair', ([, load], { next }) => (next.includes('SIDE') ? null : `@ 2x${load}`)],
  [
    '@ LOAD|NUMBER|PAIR for?',
    'load!order',
    ([, load = ''], { slots }) => (slots.has('sets') ? null : `@ ${load}`),
  ],
  ['@ LIST', 'load!sets', ([, list = '']) => `@ ${slashed([list])}`],
  ['@ LOAD|NUMBER|PAIR', 'load'],
  ['LOAD', 'load!@', '@ $1'],
  [
    'NUMBER',
    'load!@',
    ([load = ''], { slots }) => (slots.has('sets') && Number(load) > 10 ? `@ ${load}` : null),
  ],
  // +2.5 kg from last week
  [
    'SIGNED|SIGN MASS? from|on|than|over last week|time|session',
    'added!added',
    ([sign = '', mass]) => `@ last ${sign.replace('+', '+ ')} ${mass}`,
  ],
  ['add MASS|NUMBER', 'added!added', ([, load = '']) => (/^\d+$/.test(load) ? null : `@ last + ${load}`)],
  ['@? rpe NUMBER', 'rpe!rpe', 'rpe $3'],
  ['each|ea SIDE?', 'side', ([, side]) => `each ${side || 'side'}`],
  // The rest.
  ['with|and > rest|pause|every', 'nothing', ''],
  ['rest|pause|every TIME', 'clause'],
  ['rest|pause|every NUMBER', 'clause!unit', ([word, time = '']) => recoveryText(time, word)],
  ['TIME rest|pause', 'clause!rest', '$2 $1'],
  ['TIME between sets|rounds?', 'clause!rest', 'rest $1'],
  ['tempo LIST|NUMBER', 'clause'],
  ['build|ramp up? from|to MASS|NUMBER', 'clause', 'build from $4'],
  ['on the minute', 'clause!every', 'every 1:00'],
  ['SIGN? TIME', 'clause!rest', bareTime],
  ['DOSE', 'sets!one', ([dose], { slots }) => (slots.has('sets') || slots.has('set') ? null : `1 x ${dose}`)],
  ['of? WORD|TOOL+', 'name!name', ([, name = '']) => name],
  ['TOOL', 'note!words'],
  ['WORD+', 'note!words', wordsAlone],
]

const single: readonly string[] = ['name', 'load', 'pair', 'added', 'rpe', 'side', 'last']
const messages = {
  name: 'the name of the exercise comes first',
  '@': 'put @ before the load',
  count: 'the number of sets comes first',
  one: 'the number of sets is missing',
  cluster: 'a cluster set is written in brackets',
  unit: 'a time needs a unit',
  order: 'put the sets before the load',
  rpe: 'put the effort after its load, without a comma',
  set: 'the repetitions come before the load, and the sets before them',
  sets: 'the repetitions of sets that differ have slashes between them, and so have their loads',
  each: 'slashes give one set each: remove the count',
  schemes: 'sets that differ are written one after the other with then',
  last: 'the last set is written after then',
  drop: 'a drop set says its drops in brackets, and their loads after one @',
  pair: 'two of a load, one in each hand, are written 2x20 kg; one side at a time is each side',
  added: 'a load from last time is written last',
  rest: 'a rest after a set is written rest; between the groups of a cluster set it is a pause',
  every: 'a set every minute is written every',
  joint: 'the exercises of a superset have a + between them, with spaces',
  missing: 'the sets and their repetitions are missing',
  words: ownWords,
}

const joint = / *(?:\+|&|\/|,? *\b(?:super ?set(?:ted)?(?: *w(?:\/|ith\b))?|ss|and|then)\b) */.source
/** Before its last exercise, a superset: the sets of the others, and what joins them. */
const superset = new RegExp(
  String.raw`^(.*?\d.*?)(${joint})(?=(?:[a-h]\d[.):]? +)?\p{L}[^\d@,+]*\d+ *x *\d)(.*)$`,
  'iu',
)

/** The line to write, from its slots; null if they make none.
 * @param isOneSet whether repetitions without sets are one set */
export function liftScribble(line: string, isOneSet = false): Scribble | null {
  // The clauses of a superset are those of its last exercise.
  const [, before = '', sign = '', lift = line] = superset.exec(line) ?? []
  const [, written = '', said = ''] =
    /^(?:[a-h](?:\d[.):]?|\)) +)?([^\d@(]*?\p{L}[^\d@(]*?)(?<!\b(?:add|for|then|at|x|rpe) *)(?:[ :,]| - )*((?:[\d@(]| (?:every|rpe) ).*)$/iu.exec(
      lift,
    ) ?? []
  const known = rules.filter(([, slot]) => isOneSet || slot !== 'sets!one')
  const named = new Slots(written === '' ? [] : [['name', [written]]])
  const read = readScribble(said || lift, known, single, messages, named, line.length - (said || lift).length)
  if (read === null) return null
  const { slots, wrong } = read
  const [name] = slots.of('name')
  const first = before === '' ? '' : `${liftScribble(before)?.line ?? before} + `
  const more = sign === '' || sign === ' + ' ? [] : [messages.joint]
  const sets = setsText(slots, loadedOf(slots), more)
  if (name === undefined || sets === null || slots.of('load', 'pair', 'added').length > 1) return null
  const notes = slots.of('note').map((words) => `"${words}"`)
  return {
    line: [`${first}${name} ${sets}`.trim(), ...slots.of('clause'), ...notes].join(', '),
    wrong: [...wrong, ...more.map((message) => aboutLine(line, message))],
  }
}

/** The sets, one scheme after the other, with a side and a load; null if they make none. */
function setsText(slots: Slots, loaded: string, wrong: string[]): string | null {
  const [sets, set, last] = [slots.of('sets'), slots.of('set'), slots.of('last')]
  const whole = (schemes: string) => `${schemes} ${loaded}`.trim()
  if (set.length > 0) {
    const each = sets.length + last.length > 0 ? null : setsEachOf(set, slots.of('drop'), wrong)
    return each === null ? null : whole(each)
  }
  if (sets.length === 0) {
    wrong.push(messages.missing)
    return /\bevery\b/i.test(slots.of('clause').join()) ? whole('10 x 1') : null
  }
  if (last.length === 0 && !slots.has('drop')) {
    if (sets.length > 1) wrong.push(messages.schemes)
    // What would be more repetitions than anyone does is a load: 5x70, 5x75.
    if (sets.length > 1 && sets.some((each) => /x (?:[4-9]\d|\d{3})\b(?! *[a-z])/i.test(each))) return null
    return whole(sets.join(' then '))
  }
  const [, count, reps, load = ''] = /^(\d+) x (\d+)( @ .*)?$/.exec(sets.join()) ?? []
  if (reps === undefined) return null
  const first = Number(count) > 1 ? `${whole(`${Number(count) - 1} x ${reps}${load}`)} then ` : ''
  if (last.length > 0) return slots.has('drop') ? null : `${first}${whole(`1 x ${last[0]}${load}`)}`
  // A drop is two repetitions and a quarter of the load less.
  const lower = whole(load).replace(
    /(?<=^ ?@ )([\d.]+)(?= *(?:kg|lb|$))/i,
    (each) => `${each}/${Number(each) * 0.75}`,
  )
  return `${first}1 x (${reps} > ${Math.max(1, Number(reps) - 2)}) ${lower.trim()}`.trim()
}

/** Sets with a load each: `6/4/2 @ 100/105/110 kg`. */
function setsEachOf(set: readonly string[], drop: readonly string[], wrong: string[]): string | null {
  const all = [...set, ...drop].map((each) => /^(.*) @ ([\d.]+) *(.*)$/.exec(each) ?? [])
  const units = new Set(all.map(([, , , unit]) => unit).filter((unit) => unit !== ''))
  if (units.size > 1) return null
  const reps = all.map(([, reps]) => reps)
  const loads = `@ ${all.map(([, , load]) => load).join('/')} ${[...units][0] ?? ''}`
    .replace(/ %$/, '%')
    .trim()
  if (drop.length > 0) return `1 x (${reps.join(' > ')}) ${loads}`
  wrong.push(all.length > 1 ? messages.sets : messages.one)
  return `${all.length > 1 ? reps.join('/') : `1 x ${reps[0]}`} ${loads}`
}

const complex =
  /^([^\d@(]*?\p{L}[^@(]*?) +(\d+) *x *(\d+|\(\d+(?: *\+ *\d+)+\))(?= *(?:[@,]|each\b|$))(.*)$/iu

/** `clean + jerk 5 x 1`, `clean + jerk 3 x (2+1)`, `clean 1 + jerk 2 x 5`, whose last number is that of the sets. */
export function complexScribble(line: string): Scribble | null {
  const [, names = '', sets = '', dose = '', rest = ''] = complex.exec(line) ?? []
  const lifts = names.split(/ *\+ */).map((each) => /^(\D*\p{L}\D*?)(?: +(\d{1,2}))?$/u.exec(each))
  const own = lifts.map((lift) => lift?.[2])
  const unsaid = own.filter((reps) => reps === undefined).length
  const groups = dose.match(/\d+/g) ?? []
  let reps: (string | undefined)[] = []
  if (unsaid === lifts.length) reps = groups.length === 1 ? lifts.map(() => dose) : groups
  else if (unsaid === 0 && dose === '1') reps = own
  else if (unsaid === 1 && own.at(-1) === undefined) reps = [...own.slice(0, -1), sets]
  if (lifts.length < 2 || lifts.includes(null) || reps.length !== lifts.length) return null
  const count = unsaid === 1 ? dose : sets
  const all = lifts.map((lift, index) => `${lift?.[1]} ${reps[index]}`).join(' + ')
  const message = 'the lifts of a complex are written in brackets, each with its repetitions'
  return { line: `${count} x (${all})${rest}`, wrong: [aboutLine(line, message)] }
}

/* Rounds. */

/** Writes a station of a round: `push-up 10` and `10x push-up` become `10 push-up`, `90 s rest` becomes `rest 90 s`. */
export function stationText(station: string): string {
  const [, rest] = /^(\d[\d:]* *(?:s|min)?) +rest(?: +between(?: +rounds)?)?$/i.exec(station) ?? []
  if (rest !== undefined) return recoveryText(rest)
  if (/^(?:rest|pause|every|tempo|build)\b|^"/i.test(station)) return station
  const [, name, dose = '', after = ''] =
    /^(\p{L}[^\d@]*?) *:? +(?:(?:1 *)?x *)?(\d[\d:.]* *(?:m|km|mi|yd|s|min)?(?![\p{L}\d]))( *@.*| +each .*)?$/iu.exec(
      station,
    ) ?? []
  return name === undefined
    ? station.replace(/^(\d+) *x +(?=\p{L})/iu, '$1 ')
    : `${dose.trim()} ${name} ${after.trim()}`.trim()
}

/** `3 rounds of: 10 push-up, ...`, `EMOM 12: ...`, `12 min AMRAP of ...`, `for time: ...`. */
const rounds =
  /^((?:for +time|\d{1,3} *rounds?(?: +for +time)?|e\d?mom *[\d:]+(?: *min)?|amrap *[\d:]+(?: *min)?|every\b.* for [\d:]+(?: *min)?|[\d:]+ *min *(?:amrap|of))(?: +of\b)? *:?) *(\S.*)$/i
/** After `for time`: `18-14-10 step-up`, repetitions that go down from round to round, or `10 x 100 m run`. */
const roundsForTime =
  /^(?:(\d{1,3}(?: *[-/] *\d{1,3}){2,}) +(?!m\b)(?=\p{L})|(\d{1,3}) *x *(?=\d[^,+]*$))(.+)$/iu

/** Rounds of stations with commas between them; rounds that differ are written out. */
export function roundsScribble(line: string): Scribble | null {
  const [, begin, all = ''] = rounds.exec(line) ?? []
  if (begin === undefined) return null
  const [, list, times, once = all] = (/^for/i.test(begin) ? roundsForTime.exec(all) : null) ?? []
  const stations = once.split(/ *[,;+] *(?:then +)?/).map(stationText)
  const ofRound = (reps: string) =>
    stations.map((each) => (/^(?:\d|rest)/i.test(each) ? each : `${reps} ${each}`))
  const written = list === undefined ? stations : list.split(/ *[-/] */).flatMap(ofRound)
  return {
    line: `${begin.trim()} ${times === undefined ? '' : `${times} rounds of `}${written.join(', ')}`,
    wrong: [
      aboutLine(
        line,
        'the stations of a round have one number before the name and commas between them; rounds that differ are written out',
      ),
    ],
  }
}

/* What phrases cannot express. */

const repsSaid: Record<string, number> = { single: 1, double: 2, triple: 3 }
const heavySet = (name: string, reps = '') =>
  `${name.replace(/[ :]+$/, '')} 1 x ${repsSaid[reps.toLowerCase()] ?? (Number.parseInt(reps, 10) || 1)} @ rpe 8`

export const liftAnswers: readonly AnswerRow[] = [
  [
    // work up to a heavy single
    /^(?:work|build|ramp) *(?:up)? *to\b *(?:an? +)?(?:heavy +)?(single|double|triple|\d+ *(?:rm)?)?.*$/i,
    (_, reps) => `working up to a heavy set is written by effort: ${heavySet('the exercise and', reps)}`,
    null,
  ],
  [
    // front squat: work up to a heavy triple, rest 3:00
    /^([^,@"]*?\p{L}[ :]+)(?:(?:work|build|ramp) *(?:up)? *to\b *(?:an? +)?(?:heavy +)?|(?=\d+ *rm\b))(single|double|triple|\d+ *(?:rm)?)?[^,@]*(,.*)?$/iu,
    'working up to a heavy set is written by effort',
    (_, name, reps, rest) => heavySet(name, reps) + rest,
  ],
  [
    /^(.*?\d+\/\d+ +\p{L}[^\d@,]*?) +(\d+ *x *\d.*)$/iu, // 90/90 hip lift 3 x 8
    'put a colon after a name that looks like sets',
    '$1: $2',
  ],
  // Numbers without a load, drop set curl 20/15/10, are probably the loads; ten repetitions are only an example.
  [
    /^drop[ -]?sets? *:? *(\p{L}[^\d@]*?) *:? *(\d+(?: *\/ *\d+)+)$/iu,
    'a drop set needs the repetitions of each drop, and its loads after @',
    (_, name, loads) => `${name} 1 x (${loads.replace(/\d+/g, '10').replaceAll('/', ' > ')}) @ ${loads}`,
  ],
  // The same repetitions of two exercises: 18-14-10 step-up 40 kg, push-up.
  [
    /^(\d{1,2}(?:-\d{1,2}){2,}) +(?!m\b)(\p{L}[^\d,@]*?) *((?:@? *\d[\d.]* *(?:kg|lb)s?)?) *(?:,|\+|and\b) *(?!(?:rest|pause|tempo|every)\b)(\p{L}[^\d,@]*)$/iu,
    'the name of the exercise comes first; sets that differ have slashes between them',
    (_, list, first, load, second) => {
      const reps = list.replaceAll('-', '/')
      return `${first} ${reps}${load === '' ? '' : ` @ ${load.replace(/^@ */, '')}`} + ${second} ${reps}`
    },
  ],
]

/** Lines that lack what only the athlete knows: the example says how they are written. */
export const liftQuestions: readonly AnswerRow[] = [
  [
    /^.*% *(?:of +)?(?:bw\b|body ?weight).*$/i,
    'a percentage is of the maximum, not of the body mass: write the load, such as @ 40 kg',
    null,
  ],
  [
    /^(.*\p{L})[ :]+(?:(\d+) *x *)?(\d+(?: *> *\d+)+) *@ *[\d.]+ *(?:kg|lb)?s?$/iu, // curl 12 > 10 > 8 @ 20 kg
    (_, name, sets, drops) =>
      `a drop set says its drops in brackets and a load for each: write ${name} ${sets || 1} x (${drops}) @ and the loads, with slashes between them`,
    null,
  ],
  [
    /^circuits? *:? +(\S.*,.*)$/i,
    (_, list) =>
      `the number of rounds is missing: write it first, such as 3 rounds: ${list.split(/ *, */).map(stationText).join(', ')}`,
    null,
  ],
  [
    /^(\d{1,3}) *rounds?(?: +of\b)?[ :]*$/i,
    'the exercises of the rounds are missing: write them on the same line, such as $1 rounds: 10 push-up, 8 row @ 40 kg',
    null,
  ],
  [
    /^(.*\p{L}) *:? +(\d{1,2}) *x *(\d[\d.]*) *(kg|lb)s?$/iu, // squat 3x140kg
    '$2 can be sets or repetitions: write $1 $2 x 5 @ $3 $4, or $1 1 x $2 @ $3 $4',
    null,
  ],
]

/** Lines with a phrase that can have no other meaning. */
export const liftRefusals: readonly AnswerRow[] = [
  [/^[^@,"]{81,}? *\d+ *x.*$/, 'a name has at most 80 characters', null],
  [
    /^.*@ *(?!2 *x)\d+ *x *\d[\d.]* *(?:kg|lb).*$/i, // squat 5 x 5 @ 3x24 kg
    'only a pair of loads can be written: 2x and the mass of one',
    null,
  ],
  [/^.*\btempo\b.*$/i, 'a tempo is written 3-1-1, 3-1-1-0 or 31X1', null],
  [
    /^(?:.*[ ,;])?e\d?mom\b.*$/i,
    'every minute on the minute is written with every, such as clean 10 x 2 @ 60 kg, every 1:00',
    null,
  ],
]

/** `3 x 5`, `3x5x140kg`, `140kg x 5`, `5,5,3`. */
export const nameless =
  /^(?:\d+ *x *\d+|\d+ *x *\d+ *[x@]? *[\d.]+ *(?:kg|lb)s?|[\d.]+ *(?:kg|lb)s? *x *\d+|\d+(?: *[,/] *\d+)+)$/i

/** `3 x 5 x 140 kg`, `@ rpe 8`: asks for the exercise of sets, and for the sets of a load or a clause. */
export function withoutName(line: string): Scribble | null {
  const ask = (what: string, example = '') => ({
    line: null,
    wrong: [
      aboutLine(
        line,
        `the ${what} missing: write ${what.endsWith('is') ? 'it' : 'them'} first, such as ${example}`,
      ),
    ],
  })
  if (/^(?:@ *|rpe +)\d/i.test(line)) return ask('exercise and its sets are', `squat 3 x 5 ${line}`)
  if (/^every +\d+:\d\d$/i.test(line))
    return ask('exercise, its sets and its repetitions are', `clean 10 x 1, ${line}`)
  const written = nameless.test(line) ? liftScribble(`squat ${line.replace(/ *, */g, '/')}`)?.line : null
  return written ? ask('name of the exercise is', written) : null
}
