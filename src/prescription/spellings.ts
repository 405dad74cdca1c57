import { unitWords } from '../units/words.ts'
import type { Place } from './syntax.ts'
import type { LineRule } from './words.ts'

/* Spellings that the notation does not have, phrase by phrase. The unambiguous ones are read; a row with a remark is
 * refused, and the remark says how the phrase is written. Phrases in another order than the notation's are in
 * hastyRuns.ts and hastyLifts.ts. */

/** What a match becomes: a text in which `$1` is its first group, or a function of it and its groups. */
export type Said = string | ((...found: string[]) => string)

type Row = readonly [pattern: RegExp, said: Said, remark?: Said]

/** What is wrong with a phrase of a line. */
export interface Remark {
  at: Place
  message: string
}

/* Read. */

const anywhere: readonly Row[] = [
  [/(?<=\d *)\*(?= *(?:[\d(]|max|amrap))/gi, 'x'], // 4 * 440 yd
  [/(?<=(?<![\d:.])\d{1,2}) *, *x *(?=\d)/gi, ' x '], // 3, x 8
  ...Object.entries(unitWords).flatMap(([unit, { others }]): Row[] =>
    others.length === 0
      ? []
      : [[new RegExp(`(?<=\\d ?/? ?)(?:${others.join('|')})(?![\\p{L}\\p{N}])`, 'giu'), unit]],
  ),
  [/(?<=\d ?)hr(?![\p{L}\p{N}])/giu, 'h'],
  [/(?<=\d ?(?:min|secs?|km|m|mi|kg|lbs?))\.(?=[ ,)])/gi, ''], // 10 min. easy
  [/[~≈] *(?=[\d½])/g, ''], // ~5 km easy
  [
    / +- +(?=(?:jog|walk|stand|rest|pause|every)\b|\d[\d:.]* *(?:m|km|s|secs?|min)? *(?:jog|walk|rest)\b)/gi,
    ', ',
  ], // squat 3 x 5 - 2:00 rest
  [/(?:(\d+) *)?½/g, (_, whole) => `${whole || '0'}.5`], // 1½ mi
  [/(?<=, *)'([^']+)'(?= *(?:,|$))/g, '"$1"'], // squat 3 x 5, 'go easy'
  [/\brest *: *(?=\d)/gi, 'rest '],
  [/^ *(\d+:\d\d|\d+ *(?:s|secs?|min)) +rest *$/gi, 'rest $1'], // 3:00 rest
  [/(?<=\d) *sets? *(?:x|of) *(?=\(?\d|max|amrap)/gi, ' x '], // 3 sets of 8, 3 sets x 8
  [/(?<=\d) *sets? +(?=(?:to +)?(?:failure|max|amrap)\b|\d+(?:-\d+)? *rep)/gi, ' x '], // 3 sets to failure, 3 sets 8 reps
  [/(?<![\d:.])(\d{1,2}) ?h ?(\d\d)(?: ?min)?(?![\p{L}\p{N}])/giu, '$1:$2:00'], // 1h30
  [/(?<![\d:.])(\d{1,2}) ?min ?([0-5]\d)(?= +(?:hard|easy|steady|tempo|threshold|fast)\b)/giu, '$1:$2'], // 3 min 30 hard
  [/(?<=\d:\d\d) ?min(?![\p{L}\p{N}]| *(?:\/|per\b))/giu, ''], // 1:30 min
]

const reps: Row = [/(?<=\d ?)(?:reps?|repetitions?)(?![\p{L}\p{N}])/giu, '']

const inPreps: readonly Row[] = [
  reps,
  [/(?<=\d) *times *$/gi, ''], // leg swings 10 times
  // The amount before its name: 10 min jog, warm up 5 min bike.
  [
    /^ *((?:\p{L}[^\d,]*? +)?)((?:\d{1,3} *x *)?(?:\d{1,4} *(?:s|sec|min|m|km)|\d{1,2}:\d\d)) +(?:of +)?(?!each\b)(\p{L}[^\d,]*?)(?= *(?:each\b|,|$))/giu,
    '$1$3 $2',
  ],
]

const inLifts: readonly Row[] = [
  [
    /^ *super ?sets? *(?:[:,-] *| of +| (?!with\b|w\/))(.*)$/gi, // superset: bench 3 x 8, row 3 x 8
    (_, lifts) =>
      lifts.replace(
        / *[,;] *(?!(?:and +)?(?:then|last|back-?offs?|drop|rest|pause|tempo|each|max)\b)(?=\p{L}[^\d@,/+]* \d+ *x *\d)/gu,
        ' + ',
      ),
  ],
  [/^ *clusters? *: */gi, ''],
  [
    // squat 3 x (2+2) @ 80 kg, 20 s between
    /(?<=^(?!.*\bpause\b).*\(\d[^()]*\+[^()]*\).*, *)(\d{1,2} *s) +between(?: +(?:groups|reps))?\b(?! +sets)/gi,
    'pause $1',
  ],
  [/(?<=(?:\bthen|;) *\d+ *x *\d+) +(?=-\d+ *%)/gi, ' @ '], // squat 1 x 5 @ 140 kg then 2 x 5 -15%
  [/(?<=x *\d{1,2}(?:-\d{1,2})?) *each(?= *(?:@|,|$))/gi, ' each side'], // lunge 3 x 8 each
  // Rounds named a circuit: circuit 3 rounds: 10 push-up, 12 lunge; circuit x 3: ...; circuit: ..., x 3.
  [/^ *circuits? *:? *(?=\d{1,2} +rounds?\b)/gi, ''],
  [
    /^ *circuits? *:? *(?:x *(\d{1,2})|(\d{1,2}) *(?:x|times)) *(?:of\b)? *:? *(?=\S.*,)/gi,
    (_, after, before) => `${after || before} rounds: `,
  ],
  [
    /^ *circuits? *:? +(\S.*?,.*?)[ ,]+(?:x *(\d{1,2})|(\d{1,2}) *(?:x|rounds?|times)) *$/gi,
    (_, list, after, before) => `${after || before} rounds: ${list}`,
  ],
  // Two lifts of a superset, the first with its load: bench 3x8 60kg / pull ups 3x8.
  [
    /(?<=\d ?(?:kgs?|lbs?)) *(?:\/|,? *\bsuper ?set(?:ted)? *\b(?:w\/|with\b|and\b)) *(?=\p{L}[^\d@,/+]* \d+ *x *\d)/giu,
    ' + ',
  ],
  [/\bsuper ?set(?:ted)? *w\/ */gi, 'superset with '],
  [/(?<=\d *(?:x|\/) *(?:\d|max|amrap|\().*) *, *then +(?=\d)/gi, ' then '], // squat 1 x 5 @ 140 kg, then 2 x 5
  [/\bbuild +up +from\b/gi, 'build from'],
  [/\brests(?= *(?:,|$))/gi, 'rest'], // 3 min rests
  reps,
  [/ *,? *\bw(?:\/|ith) *(\d[\d:.]* *(?:s|secs?|min|mins)?) *rest\b/gi, ', rest $1'], // w/ 90 s rest
  // The amount before its word: 20s pause, 2 min rest. A rest after a comma is asked about by the grammar.
  [
    /(?<!(?:\b(?:rest|pause|every|then|of|for)|[x@]) *) *,? *(?:\b(?:with|w\/) *)?(?<=[ ,/])(\d[\d.]* *(?:s|secs?|mins?)|\d+:\d\d) *pauses?(?= *(?:,|$|\d))/gi,
    ', pause $1',
  ],
  [
    // squat 3 x 5 2 min rest
    /(?<=[^ ,])(?<!(?:\b(?:rest|pause|every|then|of|for)|[x@]) *) +(\d[\d.]* *(?:s|secs?|mins?|'|″)|\d+:\d\d) +rest(?= *(?:,|$))/gi,
    ', rest $1',
  ],
  [/ *\bw(?:\/|ith) *(?=\d+:\d\d|\d[\d.]* *(?:s|secs?|mins?)\b)/gi, ', '], // w/ 2:00
  [/\bw\/ *(?=\d)/gi, '@ '], // squat 3 x 5 w/ 60 kg
  [/\brpe(?=\d)/gi, 'rpe '],
  [
    / *(?:\bea(?:ch)? *|\bper +(?!hand)|\/ *(?!side|hand))(side|arm|hand|leg)\b/gi, // 8 ea arm, 8/arm, 8 per side
    (_, what) => ` each ${what.toLowerCase().replace('hand', 'arm')}`,
  ],
  [/(?<=x *\d{1,2}(?:-\d{1,2})?) *e(?![\p{L}\d:])/giu, ' each side'], // lunge 3x8e
  [/(?: *, *|(?<=x *\d{1,2}) +)(?=\d+ *(?:cm|in)\b *(?:,|$))/gi, ' at '], // box jump 5 x 3, 60 cm
  [/\bbody +weight\b/gi, 'bodyweight'],
  [/ *\((\+ *\d[^()]*)\)/g, ' $1'], // pull-up 4 x 6 (+10 kg)
  [/(?<=\d) *%? *percent\b/gi, '%'],
  [/(?<=%) *(?:of +)?(?:1? ?rm|max)\b/gi, ''], // 80% of 1RM
  [/ *,? *(?:@ *)?(?:the +)?\bsame +(?:as +)?last(?: +(?:time|week))?\b/gi, ' @ last'], // squat 3 x 5, same as last week
  [/(?<=\d) +(?=last +time\b)/gi, ' @ '], // squat 3 x 5 last time
  [/@ *rpe *: */gi, '@ rpe '],
  [/(?<=@[^,@]*\d ?(?:kg|lb)?) *@ *rpe/gi, ' rpe'], // @ 100 kg @ rpe 8
  // Reps in reserve are an effort: RPE = 10 - RIR.
  [
    /(?<![\d.x-] *)(?:@ *)?([0-4])-([1-5]) *rir\b/gi,
    (_, few, many) => `rpe ${10 - Number(many)}-${10 - Number(few)}`,
  ],
  [
    /(?:@ *)?(\d(?:\.5)?) *rir\b|(?:@ *)?rir *(\d(?:\.5)?)\b/gi,
    (_, before, after) => `rpe ${10 - Number(before || after)}`,
  ],
  [/\bevery +minute(?: +on +the +minute)?\b/gi, 'every 1:00'],
  // The load of a station: EMOM 10: 3 power cleans 70kg.
  [
    /^ *(?:e\d?mom|amrap|every|for +time|\d+ +rounds|\d[\d:]* *(?:min)? *(?:amrap|of))\b.*$/gi,
    (line) => line.replace(/(?<=[\p{L})] +)(?=\d[\d.]* ?(?:kg|lb)s?\b)/giu, '@ '),
  ],
  // Drops written as sets: drop set curl 3 x 12/10/8 @ 20/15/10 kg, curl drop set 12/10/8 @ 20/15/10 kg.
  [
    /^ *([^\d@]*?) *\bdrop[ -]?sets? *:? *([^\d@]*?) *:? *(?:(\d+) *x *)?\(?(\d+(?: *[/>] *\d+)+)\)?(?= *@)/gi,
    (_, before, after, sets, reps) =>
      `${before || after} ${sets || '1'} x (${reps
        .split(/[/>]/)
        .map((each) => each.trim())
        .join(' > ')})`,
  ],
  // Sets, repetitions and load in a row: squat 3x5x140kg.
  [/(?<=\d) *x *(\d{1,2}) *x *(?=\d[\d.]* *(?:kg|lb))/gi, (_, reps) => ` x ${reps} @ `],
]

const inRuns: readonly Row[] = [
  [/(?:@|\bat\b) *(?=\d{2,3}(?: *- *\d{2,3})? *bpm\b)/gi, '@ hr '],
  [/(?<=, *)(?=\d{2,3}(?: *- *\d{2,3})? *bpm\b)/gi, 'hr '], // 5 km easy, 130-140 bpm
  [/(?<=\d ?)bpm(?![\p{L}\p{N}])/giu, ''],
  // A pace with the marks of minutes and seconds: @ 4'05"-4'10"/km.
  [/(?<=@[^,]*)(?<![\d:.])(\d{1,2})'([0-5]\d)(?:″|'')?(?!\d)/gi, '$1:$2'],
  // 6 x 400 m w/ 90 s
  [/(?<=^ *(?:\d{1,2} *x *|\d+(?:-\d+)+)[^()",]*\S) +w(?:\/| ) *(?=\d|(?:jog|walk|stand|rest)\b)/gi, ', '],
  [/\bw\/ *(?=\d+ *x)/gi, 'with '], // 30 min easy w/ 6 x 20 s
  [/\bw\/ *(?=\d)/gi, ''],
  [/\bgoal +pace\b/gi, 'goal'],
  [/(?<=@ *\d[\d:-]*(?: *\/ *(?:km|mi))?|\bat +\d[\d:-]*(?: *\/ *(?:km|mi))?) +pace\b/gi, ''], // at 4:05 pace
  [/\b(?:(jog)g|(walk))ing +(?=\d|back\b|down\b)/gi, (_, jog, walk) => `${jog || walk} `],
  [/\btime +trial\b|\btt\b/gi, 'trial'],
  [/\bw\/?u\b/gi, 'warm-up'],
  [/\bc\/?d\b/gi, 'cool-down'],
  [/(?<=^ *|\bx *)(?:a +|one +)?mile(?= *$| *[@,]| +[^\d\s])/gi, '1 mi'], // 4 x mile @ 6:00
  [/(?<=\d ?(?:km|mi|min|h|m)) +(?:long +)?run\b/gi, ''], // 18 km long run
  [/(?<=\b(?:easy|steady|relaxed)) +run\b/gi, ''],
  // The word for the run before its length: easy run 8 km, long run: 18 km, warm-up jog 2 km.
  [
    /^ *(easy|steady|long|recovery|slow)? *run(?:ning)? *:? +(?=\d)(?!\d[\d.]* *-)/gi,
    (_, word) => (/^(?:long|)$/i.test(word) ? '' : /steady/i.test(word) ? 'steady ' : 'easy '),
  ],
  [/(?<=^ *(?:warm|cool)[ -]?(?:up|down)) *:(?= *\d[\d.:]* *\p{L}* *(?:,|$))/giu, ''], // warm up: 2 km
  [/(?<=^ *(?:warm|cool)[ -]?(?:up|down)) +(?:jog|run)(?= +\d)(?! +\d[\d.]* *-)/gi, ''], // warm up jog 2 km
  [/(?<=\d *(?:km?|mi|m|min|s|sec|'|″)) +slow(?= *(?:[,)]|$))/gi, ' easy'], // 1 min fast, 1 min slow
  [
    // warm-up 2 km jog
    /(?<=^ *(?:(?:warm|cool)[ -]?(?:up|down) +\d[^,]*|\d[^,]*(?:warm|cool)[ -]?(?:up|down))) +(?:jog|run)(?= *(?:,|$))/gi,
    '',
  ],
  [/^ *(?:pyramid|ladder) *:? +(?=\d)/gi, ''],
  [/^ *(\d{1,2}) +sets? *: *(?=\d+ *x)/gi, '$1 x '], // 3 sets: 4 x 200 m
  [/ *, *(?:rest|jog|walk|stand) +0(?: *(?:s|sec|min))?(?= *(?:,|$))/gi, ''], // 4 x 200 m, rest 0
  [/ *; */g, ', '],
  [/ *\/ *(\d[\d:.]* *(?:m|km|mi|min|s|'|″)) +(jog|walk|rest)(?= *$)/gi, ', $2 $1'], // 6 x 400 m / 200 m jog
  // A recovery after its repeats: 5 x 3 min hard (2 min easy), 5 x 3 min hard with 2 min easy.
  [
    /(?<=^ *\d{1,2} *x *[^()"]*\S) *\( *((?:jog|walk|rest|stand)\b[^()"]*|\d[^()"]*\p{L}{3}[^()"]*[^()" ]) *\) *$/giu,
    ', $1',
  ],
  // 6 x 400 m with 90 s
  [/(?<=^ *(?:\d{1,2} *x *|\d+(?:-\d+)+)[^()",]*\S) +with +(?=\d|(?:jog|walk|stand|rest)\b)/gi, ', '],
  [/(?<=\d ?)(?:kmh|kph|km\/hr)(?![\p{L}\p{N}])/giu, 'km/h'],
  [/ *, *(\d[\d.]* *%) *(?:incline|gradient|grade)(?= *(?:,|$))/gi, ', grade $1'], // 20 min easy, 1% incline
  [
    // 6 x 400 m, 90 s standing rest
    /(?<=, *)(\d[\d:.]* *(?:m|km|mi|min|s)?) +(jog|walk|stand)(?:ing)? +(?:rest|recovery)(?= *(?:,|\)|$))/gi,
    '$2 $1',
  ],
  [/(?<=\d) *(?:times|reps? +of|repeats? +of) +(?=\d)/gi, ' x '], // 6 repeats of 400 m
  [
    // 400 m walk, 200 m easy jog between
    /(?<=^ *|, *)(\d[\d:.]* *(?:m|km|mi|min|s|sec)?) +(?:(?:easy|slow) +)?(jog|walk)(?:ing)?(?: +(?:rec|recovery|recoveries|between))?(?= *(?:,|\)|$))/gi,
    '$2 $1',
  ],
  [
    // 6 x 400 m, 90 s between reps
    /(?<=, *)(?:rest +)?(\d[\d:.]* *(?:min|s)?) +(?:rest +)?between(?: +(?:sets|reps|repeats|rounds))?(?= *$)/gi,
    'rest $1',
  ],
]

const readRows: Record<LineRule, readonly Row[]> = {
  header: anywhere,
  prepItem: [...anywhere, ...inPreps],
  runItem: [...anywhere, ...inRuns],
  liftItem: [...anywhere, ...inLifts],
  fuelItem: anywhere,
}

/** Maps a place in the reworded line to the original: the same before the first difference, shifted after the last,
 * else the whole line. */
export function placeIn(text: string, said: string, [from, to]: Place): Place {
  const shorter = Math.min(text.length, said.length)
  let before = 0
  while (before < shorter && text[before] === said[before]) before++
  let after = 0
  while (after < shorter - before && text.at(-1 - after) === said.at(-1 - after)) after++
  if (to <= before) return [from, to]
  const shift = text.length - said.length
  return from >= said.length - after ? [from + shift, to + shift] : [0, text.length]
}

/** The line with what is also read in the words of the notation; the same text if there is nothing of the kind. Quotes
 * stay as they are. */
export function inNotation(text: string, rule: LineRule): string {
  const pieces = text.split('"').map((piece, index) =>
    index % 2 === 1
      ? piece
      : readRows[rule].reduce(
          (line, [pattern, said]) =>
            line.replace(pattern, (found: string, ...rest: unknown[]) => {
              const groups = rest
                .slice(
                  0,
                  rest.findIndex((each) => typeof each === 'number'),
                )
                .map((each) => String(each ?? ''))
              return filledIn(said, found, groups)
            }),
          piece,
        ),
  )
  return pieces.join('"').replace(/[ ,;.]+$/, '')
}

/** What a match becomes. A group without a match is the empty text. */
function filledIn(said: Said, found: string, groups: readonly string[]): string {
  if (typeof said === 'function') return said(found, ...groups)
  return said.replace(/\$([\d&])/g, (_, n) => (n === '&' ? found : (groups[n - 1] ?? '')))
}
