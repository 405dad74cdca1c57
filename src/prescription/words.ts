import { inSentence } from '../units/lists.ts'
import { unitWords } from '../units/words.ts'

/* The words of the notation that the schema, the grammar and the messages share, and other words for them. */

/** The kinds of parts, in the order in which messages name them. The grammar lists them too. */
export const partKinds = ['prep', 'run', 'cross', 'lift', 'fuel'] as const

/** As a sentence names them: `prep, run, cross, lift or fuel`. */
export const anyPartKind = inSentence(partKinds, 'or')

/** Done on one side after the other. */
export const sides = ['each side', 'each arm', 'each leg'] as const

/** How hard running is. The grammar lists them too. */
export const effortWords = [
  'easy',
  'steady',
  'tempo',
  'threshold',
  'hard',
  'fast',
  'strides',
  'relaxed',
  'all out',
  'warm-up',
  'cool-down',
  'race',
  'trial',
] as const

/** A race or a time trial, by the word of a target. */
export function isRaceWord(word: string | null | undefined): word is 'race' | 'trial' {
  return word === 'race' || word === 'trial'
}

/** Those of one word that do not name the kind of run. */
export const plainEffortWords = effortWords.filter((word) => /^\w+$/.test(word) && !isRaceWord(word))

/** How a line is parsed: the start rules of the grammar. */
export type LineRule = 'header' | 'prepItem' | 'runItem' | 'liftItem' | 'fuelItem'

/** What a match becomes, as in `String.replace`. */
export type Said = string | ((...found: string[]) => string)

type Row = readonly [pattern: RegExp, said: Said]

/** A row that answers a whole line with what to write; null for what only the athlete can complete. */
export type AnswerRow = readonly [pattern: RegExp, message: Said, suggestion: Said | null]

/* Other words, replaced before a line is parsed. A row is for unambiguous words only; the grammar asks about ambiguous
 * ones. */

const anywhere: readonly Row[] = [
  [/(?<=(?<![\d:.])\d{1,2}) *, *x *(?=\d)/gi, ' x '],
  ...Object.entries(unitWords).flatMap(([unit, { others }]): Row[] =>
    others.length === 0
      ? []
      : [[new RegExp(`(?<=\\d ?/? ?)(?:${others.join('|')})(?![\\p{L}\\p{N}])`, 'giu'), unit]],
  ),
  [/(?<=\d ?)hr(?![\p{L}\p{N}])/giu, 'h'],
  [/\brest *: *(?=\d)/gi, 'rest '],
  [/(?<=\d) *sets? *(?:x|of) *(?=\(?\d|max|amrap)/gi, ' x '],
  [/(?<=\d) *sets? +(?=(?:to +)?(?:failure|max|amrap)\b|\d+(?:-\d+)? *rep)/gi, ' x '],
  [/(?<![\d:.])(\d{1,2}) ?h ?(\d\d)(?: ?min)?(?![\p{L}\p{N}])/giu, '$1:$2:00'],
  [/(?<![\d:.])(\d{1,2}) ?min ?([0-5]\d)(?= +(?:hard|easy|steady|tempo|threshold|fast)\b)/giu, '$1:$2'],
  [/(?<=\d:\d\d) ?min(?![\p{L}\p{N}]| *(?:\/|per\b))/giu, ''],
]

const reps: Row = [/(?<=\d ?)(?:reps?|repetitions?)(?![\p{L}\p{N}])/giu, '']

const inPreps: readonly Row[] = [reps, [/(?<=\d) *times *$/gi, '']]

const inLifts: readonly Row[] = [
  [
    /^ *super ?sets? *(?:: *| of +)(.*)$/gi,
    (_, lifts) =>
      lifts.replace(
        / *[,;] *(?!(?:and +)?(?:then|last|back-?offs?|drop|rest|pause|tempo|each|max)\b)(?=\p{L}[^\d@,/+]* \d+ *x *\d)/gu,
        ' + ',
      ),
  ],
  [/^ *clusters? *: */gi, ''],
  [
    /(?<=^(?!.*\bpause\b).*\(\d[^()]*\+[^()]*\).*, *)(\d{1,2} *s) +between(?: +(?:groups|reps))?\b(?! +sets)/gi,
    'pause $1',
  ],
  [/(?<=(?:\bthen|;) *\d+ *x *\d+) +(?=-\d+ *%)/gi, ' @ '],
  [/(?<=x *\d{1,2}(?:-\d{1,2})?) *each(?= *(?:@|,|$))/gi, ' each side'],
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
  [/(?<=\d *(?:x|\/) *(?:\d|max|amrap|\().*) *, *then +(?=\d)/gi, ' then '],
  [/\bbuild +up +from\b/gi, 'build from'],
  reps,
  [/ *,? *\bw(?:\/|ith) *(\d[\d:.]* *(?:s|secs?|min|mins)?) *rest\b/gi, ', rest $1'],
  // The amount before its word: 20s pause, 2 min rest. A rest after a comma is asked about by the grammar.
  [
    /(?<!(?:\b(?:rest|pause|every|then|of|for)|[x@]) *) *,? *(?:\b(?:with|w\/) *)?(?<=[ ,/])(\d[\d.]* *(?:s|secs?|mins?)|\d+:\d\d) *pauses?(?= *(?:,|$|\d))/gi,
    ', pause $1',
  ],
  [
    /(?<=[^ ,])(?<!(?:\b(?:rest|pause|every|then|of|for)|[x@]) *) +(\d[\d.]* *(?:s|secs?|mins?|'|″)|\d+:\d\d) +rest(?= *(?:,|$))/gi,
    ', rest $1',
  ],
  [/ *\bw(?:\/|ith) *(?=\d+:\d\d|\d[\d.]* *(?:s|secs?|mins?)\b)/gi, ', '],
  [/\bw\/ *(?=\d)/gi, '@ '],
  [/\brpe(?=\d)/gi, 'rpe '],
  [
    / *(?:\bea(?:ch)? *|\bper +(?!hand)|\/ *(?!side|hand))(side|arm|hand|leg)\b/gi,
    (_, what) => ` each ${what.toLowerCase().replace('hand', 'arm')}`,
  ],
  [/(?<=x *\d{1,2}(?:-\d{1,2})?) *e(?![\p{L}\d:])/giu, ' each side'],
  [/(?: *, *|(?<=x *\d{1,2}) +)(?=\d+ *(?:cm|in)\b *(?:,|$))/gi, ' at '],
  [/\bbody +weight\b/gi, 'bodyweight'],
  [/(?<=\d) *%? *percent\b/gi, '%'],
  [/(?<=%) *(?:of +)?(?:1? ?rm|max)\b/gi, ''],
  [/@ *(?:the +)?same +as +last(?: +time)?\b/gi, '@ last'],
  [/(?<=\d) +(?=last +time\b)/gi, ' @ '],
  [/@ *rpe *: */gi, '@ rpe '],
  [/(?<=@[^,@]*\d ?(?:kg|lb)?) *@ *rpe/gi, ' rpe'],
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
  [/\bevery +(\d{1,2}) *min(?:utes?)?\b/gi, (_, minutes) => `every ${minutes}:00`],
  // The load of a station: EMOM 10: 3 power cleans 70kg.
  [
    /^ *(?:e\d?mom|amrap|every|for +time|\d+ +rounds|\d[\d:]* *(?:min)? *(?:amrap|of))\b.*$/gi,
    (line) => line.replace(/(?<=[\p{L})] +)(?=\d[\d.]* ?(?:kg|lb)s?\b)/giu, '@ '),
  ],
  // Drops written as sets: drop set curl 3 x 12/10/8 @ 20/15/10 kg, curl drop set 12/10/8 @ 20/15/10 kg.
  [
    /^ *([^\d@]*?) *\bdrop[ -]?sets? *:? *([^\d@]*?) *:? *(?:(\d+) *x *)?\(?(\d+(?: *\/ *\d+)+)\)?(?= *@)/gi,
    (_, before, after, sets, reps) =>
      `${before || after} ${sets || '1'} x (${reps
        .split('/')
        .map((each) => each.trim())
        .join(' > ')})`,
  ],
  // Sets, repetitions and load in a row: squat 3x5x140kg.
  [/(?<=\d) *x *(\d{1,2}) *x *(?=\d[\d.]* *(?:kg|lb))/gi, (_, reps) => ` x ${reps} @ `],
]

const inRuns: readonly Row[] = [
  [/(?:@|\bat\b) *(?=\d{2,3}(?: *- *\d{2,3})? *bpm\b)/gi, '@ hr '],
  [/(?<=, *)(?=\d{2,3}(?: *- *\d{2,3})? *bpm\b)/gi, 'hr '],
  [/(?<=\d ?)bpm(?![\p{L}\p{N}])/giu, ''],
  // A pace with the marks of minutes and seconds: @ 4'05"-4'10"/km.
  [/(?<=@[^,]*)(?<![\d:.])(\d{1,2})'([0-5]\d)(?:″|'')?(?!\d)/gi, '$1:$2'],
  [/(?<=^ *(?:\d{1,2} *x *|\d+(?:-\d+)+)[^()",]*\S) +w(?:\/| ) *(?=\d|(?:jog|walk|stand|rest)\b)/gi, ', '],
  [/\bw\/ *(?=\d+ *x)/gi, 'with '],
  [/\bw\/ *(?=\d)/gi, ''],
  [/\bgoal +pace\b/gi, 'goal'],
  [/\b(?:(jog)g|(walk))ing +(?=\d|back\b|down\b)/gi, (_, jog, walk) => `${jog || walk} `],
  [/\btime +trial\b|\btt\b/gi, 'trial'],
  [/\bw\/?u\b/gi, 'warm-up'],
  [/\bc\/?d\b/gi, 'cool-down'],
  [/(?<=^ *|\bx *)(?:a +|one +)?mile(?= *$| *[@,]| +[^\d\s])/gi, '1 mi'],
  [/(?<=\d ?(?:km|mi|min|h|m)) +(?:long +)?run\b/gi, ''],
  [/(?<=\b(?:easy|steady|relaxed)) +run\b/gi, ''],
  // The word for the run before its length: easy run 8 km, long run: 18 km, warm-up jog 2 km.
  [
    /^ *(easy|steady|long|recovery|slow)? *run(?:ning)? *:? +(?=\d)(?!\d[\d.]* *-)/gi,
    (_, word) => (/^(?:long|)$/i.test(word) ? '' : /steady/i.test(word) ? 'steady ' : 'easy '),
  ],
  [/(?<=^ *(?:warm|cool)[ -]?(?:up|down)) +(?:jog|run)(?= +\d)(?! +\d[\d.]* *-)/gi, ''],
  [/^ *(?:pyramid|ladder) *:? +(?=\d)/gi, ''],
  [/^ *(\d{1,2}) +sets? *: *(?=\d+ *x)/gi, '$1 x '],
  [/ *, *(?:rest|jog|walk|stand) +0(?: *(?:s|sec|min))?(?= *(?:,|$))/gi, ''],
  [/ *; */g, ', '],
  [/ *\/ *(\d[\d:.]* *(?:m|km|mi|min|s)) +(jog|walk|rest)(?= *$)/gi, ', $2 $1'],
  // A recovery after its repeats: 5 x 3 min hard (2 min easy), 5 x 3 min hard with 2 min easy.
  [
    /(?<=^ *\d{1,2} *x *[^()"]*\S) *\( *((?:jog|walk|rest|stand)\b[^()"]*|\d[^()"]*\p{L}{3}[^()"]*[^()" ]) *\) *$/giu,
    ', $1',
  ],
  [/(?<=^ *(?:\d{1,2} *x *|\d+(?:-\d+)+)[^()",]*\S) +with +(?=\d|(?:jog|walk|stand|rest)\b)/gi, ', '],
  [/(?<=\d ?)(?:kmh|kph|km\/hr)(?![\p{L}\p{N}])/giu, 'km/h'],
  [/ *, *(\d[\d.]* *%) *(?:incline|gradient|grade)(?= *(?:,|$))/gi, ', grade $1'],
  [
    /(?<=, *)(\d[\d:.]* *(?:m|km|mi|min|s)?) +(jog|walk|stand)(?:ing)? +(?:rest|recovery)(?= *(?:,|\)|$))/gi,
    '$2 $1',
  ],
  [/(?<=\d) *(?:times|reps? +of|repeats? +of) +(?=\d)/gi, ' x '],
  [
    /(?<=^ *|, *)(\d[\d:.]* *(?:m|km|mi|min|s|sec)?) +(?:(?:easy|slow) +)?(jog|walk)(?:ing)?(?: +(?:recovery|recoveries|between))?(?= *(?:,|\)|$))/gi,
    '$2 $1',
  ],
  [
    /(?<=, *)(?:rest +)?(\d[\d:.]* *(?:min|s)?) +(?:rest +)?between(?: +(?:sets|reps|repeats|rounds))?(?= *$)/gi,
    'rest $1',
  ],
]

const rowsOf: Partial<Record<LineRule, readonly Row[]>> = {
  prepItem: inPreps,
  runItem: inRuns,
  liftItem: inLifts,
}

/** The line in the words of the notation; the same text if it has no synonyms. Quotes stay as they are. */
export function inNotation(text: string, rule: LineRule): string {
  const rows = [...anywhere, ...(rowsOf[rule] ?? [])]
  return text
    .split('"')
    .map((piece, index) => (index % 2 === 1 ? piece : replaced(piece, rows)))
    .join('"')
    .replace(/[ ,;.]+$/, '')
}

function replaced(text: string, rows: readonly Row[]): string {
  return rows.reduce((line, [pattern, said]) => put(line, pattern, said), text)
}

/** Replaces what matches; a group without a match is the empty text. */
export function put(text: string, pattern: RegExp, said: Said): string {
  if (typeof said === 'string') return text.replace(pattern, said)
  return text.replace(pattern, (...found) => said(...found.map((each) => each ?? '')))
}
