import type { Question, Row, Table } from './rewrite.ts'

/* Lines of running as coaches scribble them, and what the notation writes instead. */

const isBare = (text: string) => /^[\d.-]+$/.test(text)
const isRound = (text: string) => isBare(text) && Number(text) >= 100 && Number(text) % 50 === 0
const isShort = (text: string) => Number.parseFloat(text) <= 10

/** A recovery, of which a number alone is metres if it is as long and round as a distance on the track, minutes up to
 * 10, else seconds; without its word a distance is jogged and a time is rested. */
export function recoveryText(text: string, word = ''): string {
  const unit = isRound(text) ? ' m' : isShort(text) ? ' min' : ' s'
  const said = isBare(text) ? text + unit : text
  return `${word || (/(?:m|km?|mi|miles?|yd|laps?)$/i.test(said) ? 'jog' : 'rest')} ${said}`
}
const recovery = (_: string, text = '', word = '') => `, ${recoveryText(text, word)}`
const bareRest = (_: string, work = '', text = '') => `${work}, ${recoveryText(text)}`

/** Work and recovery in turn. As in `recoveryText`, but numbers alone are minutes only if both are at most 10. */
function onOff(_: string, work = '', off = ''): string {
  const said = (text: string, other: string) => {
    if (isRound(text)) return `${text} m`
    if (/^\d+ *m$/i.test(text) && isShort(text)) return `${Number.parseFloat(text)} min`
    const isMinutes = isShort(text) && (isBare(other) ? isShort(other) : /min$|:/i.test(other))
    return isBare(text) ? `${text} ${isMinutes ? 'min' : 's'}` : text
  }
  return `(${said(work, off)} hard, jog ${said(off, work)})`
}

/** `40/20 s`, `30-30 s`; two rising numbers with a hyphen can be a range. */
function pair(found: string, work = '', sign = '', off = '', unit = ''): string {
  if (sign === '-' && Number(work) < Number(off)) return found
  return onOff(found, isRound(work) ? work : work + unit, off + unit)
}

/** Short hills and sprints: walked back unless a recovery is written, and a sprint is all out. */
function named(_: string, count = '', name = '', work = ''): string {
  const aimed = /sprint/i.test(name)
    ? work.replace(/^((?:\d+ *x *)?\d+ *s)(?= *(?:,|$))/i, '$1 all out')
    : work
  const isWalked =
    /sprint|hill|stride/i.test(name) && !/,|jog|walk|rest|stand|\brec|off|every|on \d/i.test(work)
  return `${count}${aimed}${isWalked ? ', walk back' : ''}, "${name}"`
}

/** `5:00 -> 4:20` of a run that is called a progression, kilometre by kilometre. */
function progression(found: string): string {
  if (!/progress/i.test(found)) return found
  const run = found
    .replace(/ *,? *\bprogress(?:ion|ive)\b(?: *run\b)?(?: *from\b)?/i, '')
    .replace(/ *@? *(\d+:\d\d) *(?:->|→|>|to\b|-) *(\d+:\d\d)/i, ' @ $1 to $2')
  return /\bsplit\b/i.test(run) ? run : `${run}, split 1 km`
}

/** A time for each repeat: `78, 77, 76`. */
function timeEach(_: string, list = '', unit = ''): string {
  return ` in ${list.replace(/ *[,/] */g, '/')}${list.includes(':') ? '' : unit || ' s'}`
}

/** A capital M may be miles. */
const inMinutes = (found: string) => found.replace(/ *m$/, ' min')

export const ownWords = 'words of your own come last, in quotes'
export const oneSet = 'the number of sets is missing'

/** Figures of any line. */
export const figures: Table[number] = {
  'thousands have no comma': [['10,000 m easy', /(?<=(?<![\d.,])\d{1,2}),(?=\d{3} m\b)/, '']],
  'a number has a point, not a comma': [['1,5 km easy', /(?<=(?<![\d.,])\d+),(?=\d\d? [a-z])/, '.']],
  'a time is written as a clock': [
    [`3 km in 12'05"`, /(?<![\d:.])(\d\d?)(?: ' |m)([0-5]\d)(?: (?:″|''|s))?(?![\p{L}\d:.])/u, '$1:$2'],
    ['foam roll 1:30 s', /(?<=\d+:\d\d) s(?:ecs?)?\b/, ''],
  ],
  'minutes are written with min': [
    ["foam roll 3'", /(?<=\d) '(?!')/, ' min '],
    ['squat 3 x 5, rest 2 m', /\b(rest|pause|stand|every) +(\d|1[0-5]) m(?=$|[, )])/, '$1 $2 min'],
  ],
  'seconds are written with s': [
    ['plank 3 x :45', /(?<=[x, (]):([0-5]\d)(?![\d:])/, '$1 s'],
    ['plank 3 x 45"', /(?<=\d) (?:″|'')/, ' s '],
  ],
  'one number of repeats or sets is written': [
    ['4-6 x 200 m strides', /(?<=^[^\d@"]*\d{1,2})-\d{1,2}(?= x [\d(])/, ''],
  ],
}

export const bracketed: Table[number] = {
  'put a comma before each clause, and no brackets': [
    [
      '6 x 800 m (jog 200 m) @ 4:20',
      /(?<=[\p{L}\d%)])(?<!\bx|\dx) \( ((?:[^()]*\d|each|<move>|last)[^()]*)\)/u,
      ', $1',
    ],
  ],
}

/** Words in brackets. */
export const aside: Row = [
  'squat 3 x 3 (3 s pause)',
  /(?<=[\p{L}\d%)] )(?<!x )\((?!.*<kept|mass>)([^()]*\p{L}{3}[^()]*)\)(.*)$/u,
  '$2, "$1"',
]

const move = 'a recovery begins with its word: jog, walk, stand or rest'

export const runs: Table = [
  figures,
  {
    'a pace ends in /km or /mi': [
      ['5 km @ 4:05/km-4:10/km', /(?<=@ \d\d?:\d\d) \/ (?:km|mi)(?= (?:-|to\b|->) \d\d?:\d\d \/)/, ''],
      [
        '5 km @ 4:00 per km',
        /(?<=\d)(?! \/ km\b) (?:min )?(?:\/|per\b|a\b) (?:km?|kilomet(?:er|re))\b/,
        '/km',
      ],
      ['5 km @ 6:30 per mile', /(?<=\d)(?! \/ mi\b) (?:min )?(?:\/|per\b|a\b) (?:mi|miles?)\b/, '/mi'],
    ],
    'a pace or a time is written m:ss': [
      ['5 km @ 4.05-4.10/km', /(?<=@ (?:[\d.:]+ - )?\d{1,2})\.(?=[0-5]\d(?![\d.:]| (?:km\/h|mph)))/, ':'],
      ['400 m in 1.20', /(?<=\bin +\d)\.(?=[0-5]\d(?![\d.:]| s))/, ':'],
      ['5 km @ 405/km', /(?<=@ [2-9])(?=[0-5]\d \/ (?:km|mi)\b)/, ':'],
      [
        '5 km @ 4',
        /(?<=\d (?:<m>|min|h\b)[^,@]*<at> (?:[\d.:]+ - )?)(1?\d)(?![\d.:%]| (?:[-a-z]|\/ \d))/,
        '$1:00',
      ],
    ],
    'minutes are written with min': [
      ['6 x 3m hard (1m jog)', /(?<![\d.:-])[1-9] m(?![\p{L}\d]| \/)/u, inMinutes],
      [
        '20m tempo @ 4:00',
        /(?<=^ )\d\d m(?= (?:easy|steady|tempo|threshold|warm|cool|recovery|fartlek|progress|long\b))/,
        inMinutes,
      ],
    ],
    'a word for an effort needs no @': [['5 km @ tempo', /<at> (?=<effort>(?! pace))/, '']],
    'put @ before the effort': [['5 km rpe 6', /(?<=\d (?:[a-z]+|\d\d) +)rpe(?= \d)/, '@ rpe']],
    'a run has one word': [
      ['2 km jog cool-down', /(?<=^ <time|far> +)jog(?:ging)? +(?=(?:warm|cool)[ -]?(?:up|down)\b)/, ''],
    ],
    'a slow run is called easy': [
      ['3 km jogging', /(?<=^ <time|far> +)(?:jogg(?:ing|ed)|gentle|slow|recovery)<end>/, 'easy'],
    ],
    'a moderate run is called steady': [['3 km moderate', /(?<=^ <time|far> +)moderate<end>/, 'steady']],
    'a sprint is all out': [['100 m sprint', /(?<=^ <time|far> +)(?:sprint|max)<end>/, 'all out']],
    'splits are written split 1 km': [
      ['5 km, 1 km splits', /(<far>) splits\b/, 'split $1'],
      ['10 km easy, splits every 1 km', /\bsplits?(?: +(?:every|each))? +(?=\d)/, 'split '],
      ['5 km, split 1000', /(?<=\bsplit +\d{3,})(?![\d.]| [a-z])/, ' m'],
    ],
    'a grade is in percent': [['5 km, grade 5', /(?<=\bgrade +\d[\d.]*)(?![\d.]| %)/, '%']],
    'a rest is timed: write walk for a distance': [
      ['6 x 400 m, rest 200 m', /\b(?:rest|stand)(?= +<far>)/, 'walk'],
    ],
    'its name is half marathon': [
      ['half @ 4:10', /(?<=^ |\bx )(?:half|hm)\b(?![ -]*marathon)/, 'half marathon'],
    ],
    'a run by feel is written with its length, and words of your own in quotes': [
      [
        'fartlek: 40 min, by feel',
        /^fartlek :? (?:for )?(<time|far>)(?: [:,] (.+))?$/,
        (_, length, words = '') => `${length} steady, "fartlek${words && `: ${words}`}"`,
      ],
      ['30 min progression', /^(<time|far>) (fartlek|progression)(?: +run)?<end>/, '$1 steady, "$2"'],
    ],
  },
  {
    [ownWords]: [
      ['Warm up: 10 min easy', /^(\p{L}[\p{L} '-]*(?= :)|<machine>(?! +\d+ x)) :? (\d.*)$/u, '$2, "$1"'],
    ],
  },
  {
    'the repeats come first, and words of your own last, in quotes': [
      ['hills 6 x 400 m', /^()(?!<effort>)(\p{L}[\p{L} '-]*?)[,:]? (\d+ x .*)$/u, named],
      ['6 x hill sprints 10 s', /^(\d+ x )(?!<m>|<effort>)(\p{L}[\p{L} ]*?) +(\d.*)$/u, named],
    ],
    'work and recovery are written out in brackets': [
      [
        '10 x 1 min on, 1 min off',
        /\(? (<time|far|num>) (?:hard )?on\b<and> (<time|far|num>) (?:easy )?off\b(?: \))?/,
        onOff,
      ],
      [
        '5 x 3 min hard, 2 min easy',
        /(?<=x )\(? (<time|far>) (<effort>)<and> (<time|far>) easy\b(?: \))?/,
        '($1 $2, $3 easy)',
      ],
      [
        '8 x 40/20 s',
        /(?<=x |^ )\(? (\d[\d.:]*) ([-/]) (\d[\d.:]*)( (?:s|sec|min|m)\b)?(?: easy)?(?: off)?(?: \))?(?= (?:$|,|x \d))/,
        pair,
      ],
      [
        '5 x 400 m / 90',
        /(?<=x )\(? (<time|far>) \/ (<time|far|num>)(?: easy)?(?: off)?(?: \))?<end>/,
        onOff,
      ],
    ],
    'the number of repeats comes first': [
      ['400s x 8', /^(\d{3,4})s?(?= x \d\d?(?!\d| (?:<m>|min|s\b)))/, '$1 m'],
      ['mile repeats x 4', / (?:repeats?|reps|intervals?)(?= x)/, ''],
      [
        '400 m in 80 x 12 off 2 min',
        /^(?!\d+ x)([\d(].*?),? (?:x (\d\d?)|(\d\d?) times)(?![\d.:]| (?:\d|<m>|min|s\b))(.*)$/,
        '$2$3 x $1$4',
      ],
    ],
    'a word comes after its distance or time': [
      ['fast 10 x 400 m', /^(<effort>) :? ((?:\d+ x )*<time|far|num>)(?! x)/, '$2 $1'],
    ],
    'strides need a length': [
      ['6 strides of 20 s', /^(<n>) x? strides(?: of| x|,)? (<time|far>)/, '$1 x $2 strides'],
      ['6 strides', /^(<n>) x? strides\b(?:,? (?:w\/|with)? walk back)?/, '$1 x 100 m strides, walk back'],
    ],
    'a progression is a pace from split to split': [
      ['8 km progression 5:00 -> 4:20', /^.*\d:\d\d (?:->|→|>|to\b|-) \d.*$/, progression],
    ],
    'the distances of a ladder have hyphens between them': [
      [
        '200/400/600 m',
        /(?<=^ (?:\d+ x \(? )?)\d+(?: [,/] \d+){2,}/,
        (list) => list.replace(/ *[,/] */g, '-'),
      ],
      ['3 x (800-600-400)', /\( (\d+(?:-\d+)+)(?: m)? \)/, '$1'],
      ['400-800-400', /(?<=^ (?:\d+ x \(? )?)(\d{3,4}(?:-\d{3,4})+)(?![-\d]| (?:<m>|min|s\b|x))/, '$1 m'],
    ],
    'a distance or a time needs a unit': [
      ['6 x 500', /(?<=(?:^|x|[(+]) )(\d{3,4})(?![\d.:\p{L}]| [-/] ?\d| (?:<m>|(?:min|s|sec|x)\b))/u, '$1 m'],
      [
        '6 x 400 m, jog 200',
        /(?<=\d.*?),? \b(<move>) (<num>)(?! x)/,
        (_, word, text) => recovery('', text, word),
      ],
      ['jog 400', /^(<move>) (<num>)/, (_, word, text = '') => recoveryText(text, word)],
    ],
    'a time for each repeat is written with in, and slashes between the times': [
      [
        '3 x 400 m (78, 77, 76)',
        /(?<=x \d+ <m>) (?:@|\bin\b)? [(,]? ([\d:]+(?:(?: , [\d:]+){2,}|(?: \/ [\d:]+)+))( s\b)?(?: \))?/,
        timeEach,
      ],
    ],
    'a pace is written in figures, such as @ 4:05/km, or as @ goal; put words of your own in quotes': [
      ['800 m @ 5k pace (3:50/km)', /<at> <race>? [(@]+ (\d+:\d\d(?: \/ (?:km|mi))?)\b(?: \))?/, '@ $1'],
      ['5 km at race pace', /<at> (?:race +(?:pace|effort)\b|goal race\b)(?: pace\b)?/, '@ goal'],
      ['5 km @ 10k goal pace', /<at> (<far> goal(?: (?:race|pace)\b)*)(.*)$/, '@ goal$2, "$1"'],
      ['5 km easy @ 5k pace', /(?<=<effort>|\bin +[^,]*) <at> (<race>)(.*)$/, '$2, "at $1"'],
      ['5 x 1 km @ 5k pace, jog 400 m', /<at> (<race>)(.*)$/, 'hard$2, "at $1"'],
    ],
    'a rest begins with its word': [['6 x 400 m (90 s)', /(?<=^ \d+ x [^()]*)\( (<time>) \)/, recovery]],
  },
  bracketed,
  {
    'watts, zones and shares of a heart rate are words of your own: put them last, in quotes': [
      ['30 min @ Z2', /,? (?:<at>|\bin\b)? \b(z(?:one)? \d)\b(.*)$/, '$2, "$1"'],
      [
        '30 min @ 150-160 W',
        /<at> (\d+(?: - \d+)? (?:w\b(?!\/)|watts\b|% (?:of +)?(?:max +)?(?:hr|vo2) ?(?:max)?\b))(.*)$/,
        '$2, "$1"',
      ],
    ],
    // Words before a figure may be a misspelt clause.
    [ownWords]: [
      aside,
      ['6 x 400 m 90 s jog uphill', /(?<=\d.*?[\d\p{L}%)])(?:, ?| +)(<words>)(.*)$/u, '$2, "$1"'],
    ],
    [move]: [
      [
        '6 x 400 m 90 s jog',
        /(?<=\d.*?)(?: \/|<and>) (<time|far|num>) (<move>)(?! (?:back|down|same|in|rest)\b)/,
        recovery,
      ],
      ['6 x 400 m off 90 s', /,? \boff +(<time|num>)(?: (<move>))?/, recovery],
      ['6 x 400 m r90', /,? \b(?:r(?=[ =]*\d)|(?:rec|recover|recovery)\b)[ =]*(<time|far|num>)/, recovery],
      [
        '15 x 1 min hard, 1 min float',
        /,? (?:\bfloat +(<time|far|num>)|(<time|far|num>) float\b(?! \d))/,
        (_, after = '', before = '') => recovery('', after || before, 'jog'),
      ],
      ['6 x 400 m, 60 s recovery', /,? (<time|far|num>) (?:rec|recovery)\b/, recovery],
      ['5 x 1 km then jog 400 m', /<and> (?=<move>)(?<=\d.*)/, ', '],
    ],
    'the target comes right after its distance or time': [
      ['6 x 400 m, in 80 s', /(?<=\d (?:<m>|s|min)), (?=(?:in\b|@) \d)/, ' '],
      ['6 x 800 m, rest 90 s @ 4:20', /(, <move> [^,@]*?) (@ [^,]*)/, ' $2$1'],
      ['8 x 400 m on 3:00 @ 80 s', /(,? \b(?:every|on) [\d:]+(?: (?:min|s)\b)?) ((?:@|in\b) [^,]*)/, ' $2$1'],
    ],
    'a time for the whole interval is written with in, and a colon or a unit': [
      ['8 x 400 m @ 80 s', /@ (<times|time>)/, (found, text = '') => (/:/.test(text) ? found : `in ${text}`)],
      [
        '8 x 400 m @ 78-80',
        /(?:@|\bin +) (?![2-9][0-5]\d(?![\d.]))(\d\d+(?: - \d\d+)?)(?![\d.:%a-z]| (?:[-/]|km|mph|s\b|min))/,
        'in $1 s',
      ],
      [
        '4 x 400 m 84 s',
        /(?<=\d m|[12] (?:km|mi))(?:,(?=[^,]*, <move>))? (<times|time>)(?= (?:$|[^\d/-]))(?<!min)(?! (?:<move>|<effort>))/,
        ' in $1',
      ],
      ['5 km under 20:00', /(?<=\d <m>|marathon) (?:in\b)? (?:under|sub|<) (?=\d+:\d\d)/, ' in '],
      ['10 km 41:30', /(?<=\d (?:km|mi)|marathon),? (?=(?:\d:)?\d\d:\d\d(?! \/|[\d:]))/, ' in '],
    ],
    'put @ before the pace': [['10 km in 5:30/km', /(?<=[a-z\d] +)(?<!\bto +)(?:in +)?(<pace>)/, ' @ $1']],
    'an interval has one target': [
      ['10 km easy @ 5:30/km', /(?!race|trial)(<effort>) ((?:@|\b(?:in|at)\b) [^,]*)(.*)$/, '$2$3, "$1"'],
      ['5 x 400 @ 80 hard', /((?:@|\bin\b) [^,]*?) (?!race|trial)(<effort>)(.*)$/, '$1$3, "$2"'],
    ],
    'an easy stretch between repeats is a jog': [
      [
        '5 x 3 min @ 3:50, 2 min easy',
        /^(\d+ x [^()]*), ([1-5] min|[1-5]:\d\d|\d{2,3} (?:m|s)) easy<end>/,
        '$1, jog $2',
      ],
    ],
    'after repeats, a bare time is a rest and a bare distance a jog': [
      [
        '6 x 800 m @ 4:20, 2 min',
        /^(\d.*<aim>[^,(]*|\d+ x <time>), (<time|far>)(?= (?:$|[,\p{L}]))/u,
        bareRest,
      ],
      ['6 x 800 m, 400 m', /^(\d+ x [^,]*), (\d+ min|\d+ <m>)<end>/, bareRest],
    ],
    'the steps of a group have commas between them': [
      ['4 x (1 km @ 4:00 + 1 km @ 4:20)', /(?<=^\d+ x \([^)]*) \+ (?=\d[^)]*\))/, ', '],
    ],
    'repeats that are repeated go in brackets, and the rest between the sets after them': [
      ['3 sets: 4 x 200 m', /^(\d\d?) +sets? : (?=\d+ x)/, '$1 x '],
      [
        '2 x 4 x 400 m, jog 200 m, rest 4:00',
        /^(<n>) x (\d+ x [^()]*, <move> [^()]*?)(, <move> [^,()]*)$/,
        '$1 x ($2)$3',
      ],
      ['2 x 4 x 400 m, jog 200 m', /^(<n>) x (\d+ x [^()]*)$/, '$1 x ($2)'],
    ],
  },
]

/** Lines that lack what only the athlete knows, and what is asked. */
export const runQuestions: readonly Question[] = [
  [
    '6 x 800 m, rest 2 to 3 min',
    /\b(jog|walk|stand|rest) +([\d:.]+)(?: (?:min|s|m)\b)? (?:-|to\b) ([\d:.]+(?:(?<=:\d\d)|(?= (?:min|s|m)\b)))( *(?:min|s|m)\b)?/,
    'a recovery has one length: write $1 $2$4 or $1 $3$4',
  ],
  [
    '5 km @ 1:20 per lap',
    /<at> \d[\d:.-]* (?:\/|per\b|a\b) (?:laps?|400 m?)\b/,
    'a pace is for each km, mi or 500 m; a time for the whole interval is written with in, such as 400 m in 1:20',
  ],
  [
    '6 x 400 m, jog half',
    /\b(jog|walk) +half\b(?! +marathon)/,
    'write the metres of the recovery, such as $1 200 m',
  ],
  [
    '6 x 400 m, 90 s',
    /^(\d+ x \d[^,@]*), (<time>)$/,
    '$2 can be the time of each repeat or the rest after it: write $1 in $2, or $1, rest $2',
  ],
  [
    'jog 200 m between',
    /^<move>.*\bbetween\b/,
    'a recovery between repeats is written after them, such as 6 x 400 m, jog 200 m',
  ],
  [
    '1 km @ 412',
    /(?:@|\bin\b) ([2-9])([0-5]\d)(?! w\b| watts)(?=$|[ ,-])/,
    '$1$2 can be $1:$2 or seconds: write @ $1:$2 for a pace, in $1:$2 or in $1$2 s for the whole',
  ],
  ['5 km, grade -2%', /\bgrade -/, 'a grade has no sign: a descent cannot be written yet'],
  [
    '8 easy, 6 x 2 @ 4:00',
    /^(?:<effort> )?(?:\d+ x )?(\d\d?(?:\.\d+)?)(?! strides\b)(?= (?:$|,(?!\d)|@|in\b|<effort>))/,
    '$1 needs a unit, such as $1 km or $1 min',
  ],
]
