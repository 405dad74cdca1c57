import type { AnswerRow } from './words.ts'

/* Lines of running as coaches scribble them, and the line to write instead. */

export const someTime = String.raw`\d+:\d\d|\d[\d.]* *(?:s|min|'|″)`

/** A bare amount as a recovery: a time is rested, a distance is jogged. */
export function recoveryText(amount: string): string {
  const said = amount.replace("'", ' min').replace('″', ' s')
  return `${/m$|mi$/i.test(said) ? 'jog' : 'rest'} ${said}`
}

export const amount = String.raw`\d[\d:.]* *(?:s|min|m|km|mi|'|″)?`

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

export const ownWords = 'words of your own come last, in quotes'

const restAnswer = 'a recovery begins with its word: jog, walk, stand or rest'

export const runAnswers: readonly AnswerRow[] = [
  // Sets of repeats: 2 sets of 4 x 400 m, jog 200 m, rest 4 min.
  [
    /^(\d{1,2}) *(?:sets? *(?:of|x)|x) *(\d{1,2} *x *[^()"]+?)(, *rest +\d[\d:.]* *(?:min|s)?)?$/i,
    'repeats that are repeated go in brackets, and the rest between the sets after them',
    // A single rest is that between the repeats.
    (_, sets, repeats, rest) =>
      repeats.includes(',') ? `${sets} x (${repeats})${rest}` : `${sets} x (${repeats}${rest})`,
  ],
  // Work and recovery side by side: 10 x 30/30, 6 x 3 min on, 2 min off, 1 min on 1 min off x 12.
  [
    new RegExp(`^(\\d{1,2}) *x *\\(?${onOff}\\)?$`, 'i'),
    'work and recovery are written out in brackets',
    (_, count, ...amounts) => `${count} x ${onOffText(amounts)}`,
  ],
  [
    /^(?:(\d{1,2}) *x *)?(\d{1,3})-(\d{1,3}) *(s|min|)(?: *x *(\d{1,2}))?$/i,
    'work and recovery are written out in brackets',
    // Of two rising numbers the line can mean a range.
    (_, before, work, off, unit, after) =>
      Number(work) < Number(off) || (before === '') === (after === '')
        ? ''
        : `${before || after} x ${onOffText([work, unit, off, unit])}`,
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
    (_, work, target, off, unit) =>
      `${work} m${target}, rest ${off}${off.includes(':') ? '' : ` ${unit || 's'}`}`,
  ],
  [
    /^(\d{1,2} *x *\d{2,4}) *m? +(\d{2,3}(?:-\d{2,3})?) *s(?:,? +(?:(jog|walk|rest) +)?(\d[\d:]*) *(s|m|min)?(?: *(jog|walk|rest))?)?$/i,
    'a time for each repeat is written with in, and a recovery begins with its word',
    (_, work, time, first, off, unit, last) =>
      `${work} m in ${time} s${off === '' ? '' : `, ${first || last || 'rest'} ${off}${off.includes(':') ? '' : ` ${unit || 's'}`}`}`,
  ],
  [
    /^(?:progressi(?:on|ve)(?: +run)? +)?(\d.*?)(?: +progressi(?:on|ve)(?: +run)?)? *@? *(\d:\d\d) *(?:->|→|>|to|-) *(\d:\d\d)(\/(?:km|mi))?$/i,
    'a progression is a pace from split to split',
    (line, length, first, last, unit) =>
      /progressi/i.test(line) ? `${length} @ ${first} to ${last}${unit}, split 1 km` : '',
  ],
  [
    /^(\d{1,2}) *x *((?:\p{L}+ +){0,2}(?:sprints?|hills?|strides?) +)(\d{1,3} *(?:s|m|min))((?:, *.*)?)$/iu,
    'words of your own come last, in quotes',
    (_, count, words, amount, clauses) => namedRepeats(count, amount, words, clauses),
  ],
  [
    /^fartlek *:? *(?:for )?(\d[\d:.]* *(?:min|h|km|mi|m))(?: *[:,] *([^"]+))?$/i,
    'a run by feel is written with its length, and words of your own in quotes',
    (_, length, words) => `${length} steady, "fartlek${words === '' ? '' : `: ${words}`}"`,
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
    /^((?:\d{1,2} *x *)?\d{2,4}) *m? *@ *(?![2-9][0-5]\d(?:-\d{3})? *,)(\d{2,3}(?:-\d{2,3})?)(?: *s$|(?: *s)?( *,.*))/i,
    'a time for the whole interval is written with in',
    (_, work, time, rest) => `${work} m in ${time} s${rest}`,
  ],
  [
    /^(.*\d *(?:m|km|mi|min))(?: +(easy|steady|tempo|threshold|hard|fast|relaxed|race))? +(\d{1,2}:\d\d(?:-\d{1,2}:\d\d)? *\/ *(?:km|mi)\b.*)$/i,
    'put @ before the pace',
    (_, work, word, pace) => `${work} @ ${pace}${word === '' ? '' : `, "${word}"`}`,
  ],
  [
    /^((?:\d{1,2} *x *)?\d{3,4}) *m? +(\d{1,2}:\d\d(?:-\d{1,2}:\d\d)?|\d{2,3} *s)( *,.*)?$/i,
    'a time for the whole interval is written with in',
    '$1 m in $2$3',
  ],
  [
    /^(\d{3,4}(?: *\/ *\d{3,4}){2,}) *m?( *(?:[,@].*)?)$/i,
    'the distances of a ladder have hyphens between them',
    (_, ladder, rest) => `${ladder.replace(/ *\/ */g, '-')} m${rest}`,
  ],
  // A time for each repeat: 5 x 400 m (78, 77, 76, 75, 74), jog 200 m.
  [
    /^(\d{1,2}) *x *(\d{2,4}) *m? *(?:@|in\b)? *\(?(\d[\d.:]*(?: *[,/] *\d[\d.:]*)+) *s?\)?(, *\p{L}.*)?$/iu,
    'a time for each repeat is written with in, and slashes between the times',
    (_, count, length, list, rest) => {
      const times = list.split(/ *[,/] */)
      const unit = list.includes(':') ? '' : ' s'
      // Two with a comma can be a time and the rest after it.
      const isSure = times.length > 2 || list.includes('/')
      return isSure && times.length === Number(count)
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
    (_, count, work, off, clause, between) => {
      const recovery = clause || recoveryText(off)
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
    /^(\d[\d.]* *(?:m|km|mi|min|s)|\d+:\d\d)(?: +(?:repeats?|reps|intervals?))? *x *(\d{1,2})(?!\d)(.*)$/i,
    'the number of repeats comes first',
    '$2 x $1$3',
  ],
  [
    /^(\d{1,2} *x *\d{2,4}) *m? *, *(?:in *)?(\d{2,3}(?:-\d{2,3})?) *s? *, *(?:(jog|walk|rest) *)?(\d[\d:]*) *(s|m|min)?(?: *(jog|walk|rest))?$/i,
    'a time for each repeat is written with in, and a recovery begins with its word',
    (_, work, time, first, off, unit, last) =>
      `${work} m in ${time} s, ${first || last || 'rest'} ${off}${off.includes(':') ? '' : ` ${unit || 's'}`}`,
  ],
  [
    /^((?:\p{L}+ +){1,3})(\d{1,2}) *x *(\d{1,3}) *(s|m|min)$/iu,
    'the repeats come first, and words of your own last, in quotes',
    (_, words, count, amount, unit) => namedRepeats(count, `${amount} ${unit}`, words),
  ],
  // After a time or a target, a bare amount is the recovery.
  [
    new RegExp(
      `^((?:\\d{1,2} *x *|\\d+(?=-\\d+ *-))(?:(?:${someTime})|[^(),]*(?:@|\\b(?:at|in)\\b|\\p{L}{4})[^(),]*)), *(${amount})$`,
      'iu',
    ),
    restAnswer,
    (_, work, time) => `${work}, ${recoveryText(time)}`,
  ],
  [
    new RegExp(
      `^((?:\\d{1,2} *x|\\d+-\\d+) *[^()",]*[^()", ])(?: *,? *off +(${amount})(?: +(jog|walk|rest))?| *\\((${amount})\\))$`,
      'i',
    ),
    restAnswer,
    (_, work, off, word, inBrackets) =>
      `${work}, ${word === '' ? recoveryText(off || inBrackets) : `${word} ${off}`}`,
  ],
  // These mean one of two things.
  [/^.*\b(jog|walk) +half\b(?! +marathon).*$/i, 'write the metres of the recovery, such as $1 200 m', null],
  [
    new RegExp(`^(\\d{1,2} *x *\\d[\\d.]* *(?:m|km|mi|yd|laps?)) *, *(${someTime})$`, 'i'),
    (_, work, time) => {
      const rest = recoveryText(time)
      const target = rest.replace('rest', 'in')
      return `${time} can be the time of each repeat or the rest after it: write ${work} ${target}, or ${work}, ${rest}`
    },
    null,
  ],
]
