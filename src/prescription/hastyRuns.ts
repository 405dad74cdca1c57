import {
  type AnswerRow,
  aboutLine,
  type Context,
  ownWords,
  type Rule,
  readScribble,
  type Scribble,
  type Slots,
  wordsAlone,
} from './scribble.ts'

/* Lines of running as coaches scribble them, and the line to write instead. */

/** `either` is a time after a comma, the target of a repeat or the rest after it; `racePace` a pace by the name of a
 * race; `paces` the two of a progression; `measure` what the notation has no target for; `nothing` is left out. */
type Slot =
  | ('count' | 'work' | 'target' | 'word' | 'recovery' | 'clause' | 'name' | 'note')
  | ('either' | 'racePace' | 'paces' | 'progression' | 'measure' | 'nothing')

const isBare = (text: string) => /^[\d.-]+$/.test(text)
const isRound = (text: string) => isBare(text) && Number(text) >= 100 && Number(text) % 50 === 0
const isShort = (text: string) => Number.parseFloat(text) <= 10
const isDistance = (text = '') => /(?:m|km?|mi|miles?|yd|laps?)$/i.test(text)

/** A bare amount as a recovery: a time is rested, a distance is jogged. */
export function recoveryText(text: string, word = ''): string {
  const unit = isRound(text) ? ' m' : isShort(text) ? ' min' : ' s'
  const said = isBare(text) ? text + unit : text
  return `${word || (isDistance(said) ? 'jog' : 'rest')} ${said}`
}

/** A number alone is metres if it is as long and round as a distance on the track; else minutes if both are at most 10,
 * or if it is and the other is in minutes; else seconds. `3 m` are minutes. */
function onOffText(work = '', off = ''): string {
  const said = (text: string, other: string) => {
    if (isRound(text)) return `${text} m`
    if (/^\d+ *m$/i.test(text) && isShort(text)) return `${Number.parseFloat(text)} min`
    const isMinutes = isShort(text) && (isBare(other) ? isShort(other) : /min$|:/i.test(other))
    return isBare(text) ? `${text} ${isMinutes ? 'min' : 's'}` : text
  }
  return `(${said(work, off)} hard, jog ${said(off, work)})`
}

/** `40/20 s`, `30-30 s`; null where the line can mean a range, of two rising numbers. */
function pairText(pair: string): string | null {
  const [, work = '', sign, off = '', unit = ''] = /^([\d.:]+) *([-/]) *([\d.:]+)(.*)$/.exec(pair) ?? []
  if (work === '' || (sign === '-' && Number.parseFloat(work) < Number.parseFloat(off))) return null
  return onOffText(isBare(work) && !isRound(work) ? work + unit : work, off + unit)
}

/** A time for each repeat; null where there are others than repeats. */
function timesText(list: string, slots: Slots): string | null {
  const times = list.split(/ *[,/] */)
  const isEach = slots.has('work') && times.length === Number(slots.of('count')[0])
  return isEach ? `in ${times.join('/')}${/:|s$/.test(list) ? '' : ' s'}` : null
}

/** `@ 80` as the time of the whole interval; null for a pace, and for `412`, which can be 4:12. */
function wholeTime(text: string): string | null {
  const isUnsure = /^(?:[2-9][0-5]\d(?:-\d{3})?|\d|.*[.:].*)$/.test(text)
  return isUnsure ? null : `in ${text.replace(/\d$/, '$& s')}`
}

/** A bare amount after the work: a time right after it is its target, any other a recovery. */
function bareText(slot: 'target' | 'either' | 'recovery') {
  return ([text = '']: string[], { slots, gap, next }: Context) => {
    const isTarget = /\d *s$|:/.test(text) && isDistance(slots.of('work')[0]) && !isAimed(slots)
    const meant = !isTarget || gap.includes('(') ? 'recovery' : gap.includes(',') ? 'either' : 'target'
    const isSpan = text.includes('-')
    if (meant !== slot || next.includes('EFFORT') || !slots.has('work')) return null
    if (slot === 'recovery')
      return isSpan || !/[,(]/.test(gap) || (isDistance(text) && !isAimed(slots)) ? null : recoveryText(text)
    return slot === 'target' ? `in ${text}` : text
  }
}

const isAimed = (slots: Slots) => slots.of('target', 'word', 'racePace').length > 0

/** `80 s jog back`: the time is not that of the jog. */
const isWay = (next: readonly string[]) => next.some((kind) => /^(?:back|down|same)$/.test(kind))

const isTrack = (text: string) => /^\d{3,4}$/.test(text)

const rules: readonly Rule<Slot, keyof typeof messages>[] = [
  // How often, and what.
  ['EFFORT > NUMBER x', 'word!word'], // fast 10 x 400 m
  ['NUMBER x? strides', 'work!strides', '$1 x 100 m strides, walk back'],
  ['NUMBER x', 'count', ([count = ''], { slots }) => (slots.has('work') ? null : count)],
  ['x NUMBER', 'count!count', ([, count = ''], { slots }) => (slots.has('count') ? null : count)],
  ['NUMBER x|times', 'count!count', ([count = ''], { slots }) => (slots.has('count') ? null : count)],
  ['LADDER', 'work', ([list = '']) => list + (/\d$/.test(list) ? ' m' : '')],
  ['LIST', 'work!ladder', ([list = '']) => list.replace(/ *[/,] */g, '-') + (/\d$/.test(list) ? ' m' : '')],
  // 1 min on 1 min off
  [
    'AMOUNT|NUMBER hard? on SIGN|and|with? ,AMOUNT|NUMBER easy? off',
    'work!brackets',
    (found) => onOffText(found[0], found[4]),
  ],
  ['AMOUNT EFFORT SIGN|and|with? ,AMOUNT easy', 'work!brackets', '($1 $2, $4 $5)'], // 3 min hard, 2 min easy
  ['AMOUNT|NUMBER / AMOUNT|NUMBER easy? off?', 'work!brackets', (found) => onOffText(found[0], found[2])],
  ['PAIR|NUMBER|TIME easy? off?', 'work!brackets', ([pair = '']) => pairText(pair)], // 40/20 s, 3/2
  ['AMOUNT', 'work'],
  ['NUMBER', 'work!unit', ([text = '']) => (isTrack(text) ? `${text} m` : null)],
  ['WORD > x', 'nothing', ([text = '']) => (/^(?:repeats?|reps|intervals?)$/i.test(text) ? '' : null)],
  // The recovery.
  ['then|with|and > MOVE', 'nothing', ''],
  ['MOVE back|down|same time?', 'recovery'],
  ['equal MOVE', 'recovery'],
  ['MOVE DISTANCE in TIME', 'recovery'],
  ['DISTANCE MOVE in TIME', 'recovery', '$2 $1 in $4'],
  ['MOVE AMOUNT', 'recovery'],
  ['MOVE NUMBER', 'recovery!unit', ([move, text = '']) => recoveryText(text, move)],
  ['AMOUNT|NUMBER recovery|rec', 'recovery!move', ([text = '']) => recoveryText(text)],
  ['recovery|recover|rec|float|r =? AMOUNT|NUMBER', 'recovery!move', ([, , text = '']) => recoveryText(text)],
  [
    'AMOUNT|NUMBER MOVE',
    'recovery!move',
    ([text = '', move], { next }) => (isWay(next) ? null : recoveryText(text, move)),
  ],
  ['off AMOUNT|NUMBER MOVE?', 'recovery!off', ([, text = '', move]) => recoveryText(text, move)],
  // How fast.
  ['@ race pace|effort', 'target!goal', '@ goal'],
  ['@ goal', 'target'],
  ['@ DISTANCE|RACE race? pace|effort? @? CLOCK|PACE', 'target!pace', '@ $6'],
  ['@ DISTANCE race? pace|effort', 'racePace!pace', '$2 $3 $4'],
  ['@ RACE race? pace|effort?', 'racePace!pace', '$2 $3 $4'], // @ half marathon pace, @ MP
  ['@ race pace|effort', 'racePace!pace', '$2 $3'],
  ['@ NUMBER w|watts', 'measure!measure', '$2 $3'], // @ 150 W
  ['@ PERCENT of? max? hr|hrmax max?', 'measure!measure', '$2 $3 $4 $5 $6'], // @ 85% of max hr
  ['@ hr|rpe UNDER? NUMBER', 'target'],
  ['@ CLOCK|PACE', 'target'],
  // in 80, 78, 76, 74
  ['@|in? LIST|PAIR', 'target!each', ([, list = ''], { slots }) => timesText(list, slots)],
  ['in TIME', 'target'],
  ['in NUMBER', 'target!seconds', ([, text = '']) => wholeTime(text)],
  ['@ TIME|NUMBER', 'target!in', ([, text = '']) => wholeTime(text)],
  ['@? CLOCK TO CLOCK|PACE', 'paces!progression', '@ $2 to $4'],
  ['PROGRESSION run?', 'progression'],
  ['PACE', 'target!@', '@ $1'],
  ['@? EFFORT', 'word', '$2'],
  ['TIME', 'target!in', bareText('target')],
  ['TIME', 'either!move', bareText('either')],
  ['AMOUNT', 'recovery!move', bareText('recovery')],
  // What else is said.
  ['on TIME', 'clause!every', 'every $2'],
  ['split|lane|grade|every AMOUNT|NUMBER|PERCENT', 'clause'],
  ['hr UNDER? NUMBER', 'clause'],
  ['negative split?', 'clause'],
  ['on WORD+', 'note!words'],
  [
    'WORD+',
    'name!name',
    ([text = ''], { slots, next }) => (slots.has('work') || next.includes(':') ? null : text),
  ],
  ['WORD+', 'note!words', wordsAlone],
]

const single: readonly string[] = ['work', 'target', 'word', 'name', 'either', 'racePace', 'paces']
const messages = {
  count: 'the number of repeats comes first',
  brackets: 'work and recovery are written out in brackets',
  sets: 'repeats that are repeated go in brackets, and the rest between the sets after them',
  ladder: 'the distances of a ladder have hyphens between them',
  strides: 'strides need a length',
  word: 'a word comes after its distance or time',
  move: 'a recovery begins with its word: jog, walk, stand or rest',
  off: 'a rest between repeats is written rest; a start at fixed times is written every',
  every: 'a start at fixed times is written every',
  goal: 'the pace of the goal is written @ goal',
  pace: 'a pace is written in figures, such as @ 4:05/km, or as @ goal; put words of your own in quotes',
  '@': 'put @ before the pace',
  unit: 'a distance or a time needs a unit',
  seconds: 'a time without a colon needs a unit',
  in: 'a time for the whole interval is written with in',
  each: 'a time for each repeat is written with in, and slashes between the times',
  progression: 'a progression is a pace from split to split',
  measure: 'watts and shares of a heart rate are words of your own: put them last, in quotes',
  name: 'the repeats come first, and words of your own last, in quotes',
  words: ownWords,
}

/** The line to write, from its slots; null if they make none.
 * @param hasGoal whether the pace of a race can be that of the goal */
export function runScribble(line: string, hasGoal = true): Scribble | null {
  const known = rules.filter(([, slot]) => hasGoal || slot !== 'target!goal')
  // `400s x 8`: the s is a plural.
  const read = readScribble(line.replace(/^(\d{3,4})s(?= *x)/i, '$1 m'), known, single, messages)
  if (read === null) return null
  const { slots, wrong } = read
  const [count, recovery, clause] = [slots.of('count'), slots.of('recovery'), slots.of('clause')]
  const [work = ''] = slots.of('work')
  const [name = ''] = slots.of('name')
  // Without a number of repeats, a name or a pair is an item of another kind.
  if (count.length > 2 || (count.length === 0 && (name !== '' || work.startsWith('(')))) return null
  if (slots.has('paces') !== slots.has('progression')) return null
  const [either] = slots.of('either')
  if (either !== undefined) {
    if (isAimed(slots)) recovery.push(recoveryText(either))
    else if (recovery.length > 0) slots.set('target', [`in ${either}`])
    else return eitherOf(line, count.map((each) => `${each} x `).join('') + work, either)
  }
  if (slots.has('paces') && !/split/i.test(clause.join())) clause.push('split 1 km')
  if (/sprint|hill|stride/i.test(name) && recovery.length + clause.length === 0) recovery.push('walk back')
  const text = repeatsText(count, `${work} ${aimOf(slots)}`.trim(), recovery, clause)
  if (count.length > 1 && !line.includes('(')) wrong.push(aboutLine(line, messages.sets))
  const race = slots.of('racePace').map((pace) => `at ${pace}`)
  const aside = slots.of('target', 'paces').length > 0 ? slots.of('word') : []
  const notes = [...slots.of('name'), ...aside, ...slots.of('note'), ...race, ...slots.of('measure')]
  return text === null ? null : { line: text + notes.map((words) => `, "${words}"`).join(''), wrong }
}

/** The target of the work: its pace or time, else its word, said or not. */
function aimOf(slots: Slots): string {
  const isSprint = slots.of('name').some((name) => /sprint/i.test(name)) && !isDistance(slots.of('work')[0])
  const unsaid = slots.has('racePace') ? 'hard' : isSprint ? 'all out' : ''
  return [...slots.of('target', 'paces', 'word'), unsaid][0] ?? ''
}

function eitherOf(line: string, work: string, time: string): Scribble {
  const message = `${time} can be the time of each repeat or the rest after it: write ${work} in ${time}, or ${work}, rest ${time}`
  return { line: null, wrong: [aboutLine(line, message)] }
}

/** The work with its repeats. Of two recoveries the first is between the repeats of a set or the distances of a ladder,
 * the second between the sets; null for any other two. */
function repeatsText(
  [first, second]: readonly string[],
  work: string,
  [between, after, ...more]: readonly string[],
  clauses: readonly string[],
): string | null {
  const listed = (...parts: (string | undefined)[]) => parts.filter(Boolean).join(', ')
  const each = listed(work, between, ...clauses)
  if (more.length > 0) return null
  if (second !== undefined) return listed(`${first} x (${second} x ${each})`, after)
  if (after === undefined) return first === undefined ? each : `${first} x ${each}`
  // A time for the whole ladder is not that of each of its distances.
  const [, ladder, aim] = /^(\d+(?:-\d+)+)((?!.* in ).*)$/.exec(work) ?? []
  if (ladder === undefined || first === undefined || clauses.length > 0) return null
  const rungs = ladder.split('-').map((rung) => rung + aim)
  return `${first} x (${rungs.join(`, ${between}, `)}), ${after}`
}

/** What phrases cannot express. */
export const runAnswers: readonly AnswerRow[] = [
  [
    /^.*(?:@|\bat\b) *\d[\d:.-]* *(?:\/|per\b|a\b) *(?:laps?|400 *m?)\b.*$/i, // 5 km @ 1:20 per lap
    'a pace is for each km, mi or 500 m; a time for the whole interval is written with in, such as 400 m in 1:20',
    null,
  ],
  [/^.*\b(jog|walk) +half\b(?! +marathon).*$/i, 'write the metres of the recovery, such as $1 200 m', null],
  [
    // fartlek: 40 min, by feel
    /^fartlek *:? *(?:for )?(\d[\d:.]* *(?:min|h|km|mi|m))(?: *[:,] *([^"]+))?$/i,
    'a run by feel is written with its length, and words of your own in quotes',
    (_, length, words) => `${length} steady, "fartlek${words === '' ? '' : `: ${words}`}"`,
  ],
]

/** Lines that lack what only the athlete knows. */
export const runQuestions: readonly AnswerRow[] = [
  [
    /^(?:jog|walk|stand|rest)\b.*\bbetween\b.*$/i, // jog 200 m between
    'a recovery between repeats is written after them, such as 6 x 400 m, jog 200 m',
    null,
  ],
  [
    /^.*(?:@|\bin\b) *([2-9])([0-5]\d)(?=$|[ ,-]).*$/i, // 1 km @ 412
    '$1$2 can be $1:$2 or seconds: write @ $1:$2 for a pace, in $1:$2 or in $1$2 s for the whole',
    null,
  ],
  [/^.*\bgrade *-.*$/i, 'a grade has no sign: a descent cannot be written yet', null],
  [
    // 8 easy, 6 x 2 @ 4:00
    /^(?:\d+ *x *)?(\d{1,2}(?:\.\d+)?)(?= *(?:$|,(?!\d)|@|in\b|\p{L}{2,}))(?! *(?:min|km|mi|sec|laps?|yd|x)).*$/iu,
    '$1 needs a unit, such as $1 km or $1 min',
    null,
  ],
]
