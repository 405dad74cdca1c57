import { unitWords } from '../units/words.ts'
import { withoutGaps } from './lines.ts'
import { type Row, respelled } from './rewrite.ts'
import type { LineRule } from './words.ts'
import type { Place } from './written.ts'

/* Spellings that the notation does not have and that can mean one thing only: they are read. What is refused, with the
 * line to write, is in hastyRuns.ts, hastyLifts.ts and hasty.ts. */

const unitRows = Object.entries(unitWords)
  .filter(([, { others }]) => others.length > 0)
  .map(([unit, { others }]): Row => {
    const phrase = new RegExp(`(?<=\\d ?/? ?)(?:${others.join('|')})(?![\\p{L}\\p{N}])`, 'u')
    return [`5 ${others[0]}`, phrase, unit]
  })

const fractions: Record<string, number> = { '¼': 0.25, '½': 0.5, '¾': 0.75 }

const anywhere: readonly Row[] = [
  ['4 * 440 yd', /(?<=\d )\*(?= (?:[\d(]|max|amrap))/, 'x'],
  ['squat 5 by 5', /(?<=\d) +by +(?=\d{1,3}(?!\d))/, ' x '],
  ['squat 3, x 8', /(?<=(?<![\d:.])\d\d?) , x (?=\d)/, ' x '],
  ...unitRows,
  ['6 x 400 m in 78 to 82 s', /(?<=\b(?:in|rest|rpe|hr) +[\d:.]+) +to +(?=\d)/, '-'],
  ['2 hr easy', /(?<=(?<![\p{L}\d.])[\d.]+ ?)hr(?![\p{L}\p{N}])/u, 'h'],
  ['10 min. easy', /(?<=\d ?(?:min|secs?|km|m|mi|kg|lbs?))\.(?=[ ,)])/, ''],
  ['~5 km easy', /[~≈] (?=[\d½¼¾])/, ''],
  [
    'squat 3 x 5 - rest 2:00',
    / +- +(?=(?:<move>|(?:pause|every)\b)|\d[\d:.]* (?:m|km|s|secs?|min)? <move>)/,
    ', ',
  ],
  ['1½ mi easy', /(\d*) ?([½¼¾])/, (_, whole, part = '') => String(Number(whole) + (fractions[part] ?? 0))],
  ['5 km à 4:05', /(?<=[\d\p{L}%)]) +à +(?=\d)/u, ' @ '],
  ["squat 3 x 5, 'go easy'", /(?<=, )'([^']+)'<end>/, '"$1"'],
  ['squat 3 x 5, rest: 2:00', /\b(rest|r|rec) : (?=\d)/, '$1 '],
  ['3:00 rest', /^ (\d+:\d\d|\d+ (?:s|secs?|mins?)) +(?:rest|break) $/, 'rest $1'],
  ['squat 3 sets of 8', /(?<=\d) sets? (?:x|of) (?=\(?\d|max|amrap)/, ' x '],
  ['squat 3 sets 8 reps', /(?<=\d) sets? +(?=(?:to +)?(?:failure|max|amrap)\b|\d+(?:-\d+)? rep)/, ' x '],
  ['1h30 easy', /(?<![\d:.])(\d\d?) ?h ?(\d\d)(?: ?min)?(?![\p{L}\p{N}])/u, '$1:$2:00'],
  [
    '3 min 30 hard',
    /(?<![\d:.])(\d\d?) ?min ?([0-5]\d)(?= +(?:hard|easy|steady|tempo|threshold|fast)\b)/,
    '$1:$2',
  ],
  ['6 x 1:30 min hard', /(?<=\d:\d\d) ?min(?![\p{L}\p{N}]| (?:\/|per\b))/u, ''],
]

const reps: Row = ['squat 3 x 8 reps', /(?<=(?:\d|max|amrap) ?)(?:reps?|repetitions?)(?![\p{L}\p{N}])/u, '']

const inPreps: readonly Row[] = [
  reps,
  ['leg swings 10 times', /(?<=\d) times $/, ''],
  ['leg swings x 10 each leg', /(?<=\p{L}) +x (?=\d{1,3} (?:each\b|e\/s|\/|,|$))/u, ' '],
  ['leg swings 10 e/s', /(?<=\d (?:s|″)?) e\/s $/, ' each side'],
  [
    'warm up 5 min bike',
    /^ ((?:\p{L}[^\d,]*? +)?)((?:\d{1,3} x )?(?:\d{1,4} (?:s|sec|min|m|km)|\d\d?:\d\d)) +(?:of +)?(?!each\b)(\p{L}[^\d,]*?)(?= (?:each\b|,|$))/u,
    '$1$3 $2',
  ],
]

const inLifts: readonly Row[] = [
  [
    'superset: bench 3 x 8, row 3 x 8',
    / [,;] (?<=^ super ?sets?\b.*)(?!(?:and +)?<kept>|(?:then|last|back-?offs?)\b)(?=\p{L}[^\d@,/+]* \d+ x \d)/u,
    ' + ',
  ],
  ['superset: bench 3 x 8', /^ super ?sets? (?:[:,-] | of +| (?!with\b|w\/))/, ''],
  ['clusters: bench 3 x (2+2)', /^ clusters? : /, ''],
  [
    'squat 3 x (2+2), 20 s between',
    /(?<=^(?!.*\bpause\b).*\(\d[^()]*\+[^()]*\).*, )(\d\d? s) +between(?: +(?:groups|reps))?\b(?! +sets)/,
    'pause $1',
  ],
  ['squat 1 x 5 @ 140 kg then 2 x 5 -15%', /(?<=(?:\bthen|;) \d+ x \d+) +(?=-\d+ %)/, ' @ '],
  [
    'lunge 3 x 8 each',
    /(?<=x \d\d?(?:-\d\d?)? (?:s|secs?|″)?) (?:each(?= (?:@|,|$))|e(?:\/?s)?(?![\p{L}\d:/]))/u,
    ' each side',
  ],
  ['squat: top set 1 x 5 @ 140 kg then 2 x 5', /(?<=\p{L} [:,]? )(?:top|working) +sets? :? (?=\d)/u, ''],
  ['3 rds: 10 push-up, 12 lunge', /^ (\d\d?) (?:x|rds?) : (?=\S.*,)/, '$1 rounds: '],
  ['circuit 3 rounds: 10 push-up, 12 lunge', /^ circuits? :? (?=\d\d? +rounds?\b)/, ''],
  [
    'circuit x 3: 10 push-up, 12 lunge',
    /^ circuits? :? (?:x (\d\d?)|(\d\d?) (?:x|times)) (?:of\b)? :? (?=\S.*,)/,
    '$1$2 rounds: ',
  ],
  [
    'circuit: 10 push-up, 12 lunge, x 3',
    /^ circuits? :? +(\S.*?,.*?)[ ,]+(?:x (\d\d?)|(\d\d?) (?:x|rounds?|times)) $/,
    '$2$3 rounds: $1',
  ],
  [
    'bench 3 x 8 @ 60 kg / pull ups 3 x 8',
    /(?<=\d ?(?:kgs?|lbs?)) (?:\/|,? \bsuper ?set(?:ted)? \b(?:w\/|with\b|and\b)) (?=\p{L}[^\d@,/+]* \d+ x \d)/u,
    ' + ',
  ],
  ['squat 1 x 5 @ 140 kg, then 2 x 5', /(?<=\d (?:x|\/) (?:\d|max|amrap|\().*) , then +(?=\d)/, ' then '],
  ['squat 5 x 5 @ 100 kg, build up from 40 kg', /\bbuild +up +from\b/, 'build from'],
  ['db press 3 x 8 @ 2x20 kg, build from 2x10 kg', /(?<=@ 2 ?x ?\d.{0,99}\bbuild from )2 ?x ?(?=\d)/, ''],
  reps,
  ['squat 3 x 5 w/ 90 s rest', / ,? \bw(?:\/|ith) (\d[\d:.]* (?:s|secs?|mins?)?) rest\b/, ', rest $1'],
  // A rest after a comma is asked about, because it may be that of a cluster.
  [
    'squat 3 x (2+2) 20s pause',
    /(?<!<named> ) ,? (?:\b(?:with|w\/) )?(?<=[ ,/])(\d[\d.]* (?:s|secs?|mins?)|\d+:\d\d) pauses?(?= (?:,|$|\d))/,
    ', pause $1',
  ],
  [
    'squat 3 x 5 2 min rest',
    /(?<=[^ ,])(?<!<named> ) +(\d[\d.]* (?:s|secs?|mins?|'|″)|\d+:\d\d) +rest<end>/,
    ', rest $1',
  ],
  [
    'pull-up 3 x 5 with 10 kg',
    /(?<=(?:\b(?:pull|chin|push)[ -]?ups?|\bdips?)\b[^+]*)\bw(?:\/|ith\b) (?=<mass>)/,
    '@ bodyweight+',
  ],
  ['squat 3 x 5 with 60 kg', /\bw(?:\/|ith\b) (?=<mass>)/, '@ '],
  ['squat 3 x 5 @ rpe8', /\brpe(?=\d)/, 'rpe '],
  ['squat 3 x 5 @ 7-8 rpe', /@ (\d[\d.]*(?:-\d[\d.]*)?) rpe\b(?! \d)/, '@ rpe $1'],
  ['row 3 x 8/arm', / (?:\b(?:ea(?:ch)? |e \/ |per +(?!hand))|\/ (?!side|hand))(side|arm|leg)\b/, ' each $1'],
  ['row 3 x 8 each hand', /(?<!\d ?(?:kgs?|lbs?) ?) \bea(?:ch)? hand\b/, ' each arm'],
  [
    'box jump 5 x 3 at 24″',
    /(?<=\b(?:box|step|jump)(?:[^\d,]*|.*<at>) \d+|\bbox jumps? \d+ x \d+ +[12]\d)(?<!x \d+) ″/,
    ' in',
  ],
  ['box jump 5 x 3, 60 cm', /(?: , |(?<=x \d\d?) +)(?=\d+ (?:cm|in)\b (?:,|$))/, ' at '],
  ['dip 3 x 5 @ body weight', /\bbody +weight\b/, 'bodyweight'],
  ['squat 3 x 5 @ 85 percent', /(?<=\d) %? percent\b/, '%'],
  ['squat 3 x 5 @ 80% of 1RM', /(?<=%) (?:of +)?(?:1? ?rm|max)\b/, ''],
  [
    'squat 3 x 5, same as last week',
    / ,? (?:@ )?(?:the +)?\bsame +(?:(?:weight|load) +)?(?:as +)?last(?: +(?:time|week))?\b/,
    ' @ last',
  ],
  ['squat 3 x 5 last time', /(?<=\d) +(?=last +(?:(?:time|week)\b|\+))/, ' @ '],
  ['squat 3 x 5 @ last week + 2', /(?<=@ last +)week\b/, 'time'],
  ['squat 3 x 5 @ rpe: 8', /@ rpe : /, '@ rpe '],
  ['squat 3 x 5 @ 100 kg @ rpe 8', /(?<=@[^,@]*\d ?(?:kg|lb)?) @ rpe/, ' rpe'],
  [
    'squat 3 x 5 @ 2-3 RIR',
    /(?<![\d.x-] )(?:@ )?([0-4])-([1-5]) rir\b/,
    (_, few, many) => `rpe ${10 - Number(many)}-${10 - Number(few)}`,
  ],
  [
    'squat 3 x 5 @ 2 RIR',
    /(?:@ )?(?:(\d(?:\.5)?) rir(?! \d)|rir (\d(?:\.5)?))\b/,
    (_, before, after) => `rpe ${10 - Number(before || after)}`,
  ],
  ['clean 10 x 2 every minute', /\bevery +minute(?: +on +the +minute)?\b/, 'every 1:00'],
  ['EMOM 10: 3 power cleans 70kg', /(?<=^ <rounds>\b.*[\p{L})] +)(?<!@ )(?=\d[\d.]* ?(?:kg|lb)s?\b)/u, '@ '],
  ['drop set curl 12/10/8 @ 20/15/10 kg', /^(?=[^@]*\bdrop\b)[^@]*\d [/>+] \d[^@]*(?=@)/, dropSet],
  ['curl 3 x (12 > 10) @ 20 > 15 kg', /(?<=@ [\d.]+(?: [>/] [\d.]+)*) (?:>|->|→) (?=[\d.])/, '/'],
  ['squat 3x5x140kg', /(?<=\d) x (\d\d?) x (?=\d[\d.]* (?:kg|lb))/, ' x $1 @ '],
]

/** `2 drop sets curl 12/10/8`, `curl 3 x (12+10+8) drop set`: a name, how often, and the repetitions of each drop. */
function dropSet(found: string): string {
  const said = found.replace(/,? *\bdrop(?:[ -]?sets?)?\b *:?/i, ' ')
  const [, before, name = '', sets, reps = ''] =
    /^ *(?:(\d+) *x?)? *(\D*?\p{L}\D*?) *:? *(?:(\d+) *x)? *\(? *(\d+(?: *[/>+] *\d+)+) *\)? *$/iu.exec(
      said,
    ) ?? []
  return name === '' ? found : `${name} ${sets ?? before ?? '1'} x (${reps.replace(/ *[/>+] */g, ' > ')}) `
}

const inRuns: readonly Row[] = [
  [
    '5 km easy, 130-140 bpm',
    /(?:<at>|(?<=,)) (\d{2,3}(?: - \d{2,3})?) bpm\b/,
    (found, beats) => `${/^[@a]/i.test(found) ? '@' : ''} hr ${beats}`,
  ],
  ['400 m flat out', /\bflat +out\b/, 'all out'],
  ['5 km easy, hr 150 bpm', /(?<=\d ?)bpm(?![\p{L}\p{N}])/u, ''],
  [`5 km @ 4'05"-4'10"/km`, /(?<=@[^,]*)(?<![\d:.])(\d\d?)'([0-5]\d)(?:″|'')?(?!\d)/, '$1:$2'],
  ['6 x 400 m w/ 90 s', /(?<=<repeats>\S) +w(?:\/| |ith +) (?=<time>(?: (?:$|,)))/, ', rest '],
  ['6 x 400 m w/ jog 200 m', /(?<=<repeats>\S) +w(?:\/| |ith +) (?=\d|<move>|equal\b)/, ', '],
  ['5 km @ goal pace', /\bgoal +pace\b/, 'goal'],
  ['20 min tempo pace', /(?<=(?!race)<effort>) pace\b/, ''],
  ['5 km at 4:05 pace', /(?<=(?:@ |\bat +)\d[\d:-]*(?: \/ (?:km|mi))?) +pace\b/, ''],
  ['6 x 400 m, jogging 200 m', /\b(?:(jog)g|(walk))ing +(?=\d|back\b|down\b)/, '$1$2 '],
  ['5 km time trial', /\btime +trial\b|\btt\b/, 'trial'],
  ['2 km wu', /\bw\/?u\b/, 'warm-up'],
  ['2 km cd', /\bc\/?d\b/, 'cool-down'],
  ['4 x mile @ 3:50', /(?<=^ |\bx )(?:a +|one +)?mile(?= $| [@,]| +[^\d\s])/, '1 mi'],
  [
    '18 km long run',
    /(?<=\d ?(?:km|mi|miles?|min|h|m)) +(?:long +)?run\b|(?<=\b(?:easy|steady|relaxed)) +run\b/,
    '',
  ],
  ['long run: 18 km', /^ (?:(steady) +|long +)?run(?:ning)? :? +(?=\d)(?!\d[\d.]* -)/, '$1 '],
  ['recovery run 8 km', /^ (?:easy|recovery|slow) run(?:ning)? :? +(?=\d)(?!\d[\d.]* -)/, 'easy '],
  ['tempo: 20 min', /(?<=^ <effort>) :(?= \d[\d.:]* \p{L}* (?:,|$))/u, ''],
  ['warm up jog 2 km', /(?<=^ (?:warm|cool)[ -]?(?:up|down)) +(?:jog|run)(?= +\d)(?! +\d[\d.]* -)/, ''],
  ['8 x (1 min fast, 1 min slow)', /(?<=\d (?:km?|mi|m|min|s|sec|'|″)) +slow(?= (?:[,)]|$))/, ' easy'],
  [
    'warm-up 2 km jog',
    /(?<=^ (?:(?:warm|cool)[ -]?(?:up|down) +\d[^,]*|\d[^,]*(?:warm|cool)[ -]?(?:up|down))) +(?:jog|run)<end>/,
    '',
  ],
  ['ladder: 200-400-200 m', /^ (?:pyramid|ladder) :? +(?=\d)/, ''],
  ['4 x 200 m, rest 0', / , <move> +0(?: (?:s|sec|min))?<end>/, ''],
  ['4 x 200 m; rest 1:00', / ; /, ', '],
  [
    '6 x 400 m / 200 m jog',
    /(?<!\bw) \/ (\d[\d:.]* (?:m|km|mi|min|s|'|″)) +(jog|walk|rest)(?= $)/,
    ', $2 $1',
  ],
  [
    '5 x 3 min hard (jog 2 min)',
    /(?<=^ \d\d? x [^()"]*\S) \( (<move>[^()"]*|\d[^()"]*\p{L}{3}[^()"]*[^()" ]) \) $/u,
    ', $1',
  ],
  ['5 km @ 12 kmh', /(?<=\d ?)(?:kmh|kph|km\/hr)(?![\p{L}\p{N}])/u, 'km/h'],
  ['20 min easy, 1% incline', / , (\d[\d.]* %) (?:incline|gradient|grade)<end>/, ', grade $1'],
  [
    '6 x 400 m, 90 s standing rest',
    /(?<=, )(\d[\d:.]* (?:m|km|mi|min|s)?) +(jog|walk|stand)g?(?:ing)? +(?:rest|recovery)(?= (?:,|\)|$))/,
    '$2 $1',
  ],
  ['6 repeats of 400 m', /(?<=\d) (?:times|reps? +of|repeats? +of) +(?=\d)/, ' x '],
  [
    '6 x 400 m, 200 m easy jog between',
    /(?<=^ |, )(\d[\d:.]* (?:<m>|mins?|s|secs?|'|″)?) +(?:(?:easy|slow) +)?(jog|walk)(?:ing)?(?: +(?:rec|recovery|recoveries|between))?(?= (?:,|\)|$))/,
    '$2 $1',
  ],
  [
    '6 x 400 m, 90 s between reps',
    /(?<=, )(?:rest +)?(\d[\d:.]* (?:min|s)?) +(?:rest +)?between(?: +(?:sets|reps|repeats|rounds))?(?= $)/,
    'rest $1',
  ],
]

const inParts: Partial<Record<LineRule, readonly Row[]>> = {
  prepItem: inPreps,
  runItem: inRuns,
  liftItem: inLifts,
}

/** Those of a kind of line, in the order in which they are replaced. */
export function spellingsOf(rule: LineRule): readonly Row[] {
  return [...anywhere, ...(inParts[rule] ?? [])]
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

/** The line with these spellings in the words of the notation; the same text if there are none. Quotes stay as they
 * are. */
export function inNotation(text: string, rule: LineRule): string {
  const rows = spellingsOf(rule)
  const pieces = text
    .split('"')
    .map((piece, index) => (index % 2 === 1 ? piece : rows.reduce(respelled, withoutGaps(piece))))
  return pieces.join('"').replace(/[ ,;.]+$/, '')
}
