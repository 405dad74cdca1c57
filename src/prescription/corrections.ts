import { formatClock } from '../units/duration.ts'
import type { Place } from './syntax.ts'
import { effortWords, type LineRule, type Said } from './words.ts'

/* Spellings that the notation does not have, phrase by phrase, with the remark that says how each is written. Phrases in
 * another order than the notation's are in hastyRuns.ts and hastyLifts.ts. */

type Row = readonly [pattern: RegExp, said: Said, remark: Said]

/** What is wrong with a phrase of a line. */
export interface Remark {
  at: Place
  message: string
}

const times: readonly Row[] = [
  [
    /(?<![\d:.])(\d{1,2})(?: *' *|m)([0-5]\d)(?: *(?:″|''|s))?(?![\p{L}\d:.])/giu,
    '$1:$2',
    'a time is written as a clock: $1:$2',
  ],
  [/(?<=\d) *'(?!') */g, ' min ', 'minutes are written with min'],
  [/(?<=\d) *(?:″|'') */g, ' s ', 'seconds are written with s'],
  [/(?<=(\d+:\d\d)) *s(?:ecs?)?\b/gi, '', 'a clock needs no unit: $1'],
]

const perUnit = String.raw`(?:min *)?(?:\/|per\b|a\b) *`
/** Before the figure of a pace, perhaps the second of a range. */
const pace = String.raw`(?<=@ *(?:[\d.:]+ *- *)?)`

const runs: readonly Row[] = [
  ...times,
  [
    new RegExp(String.raw`(?<=\d) *${perUnit}(?:k|kilomet(?:er|re))\b|(?<=\d) *(?:per|min *\/) *km\b`, 'gi'),
    '/km',
    'a pace for each km ends in /km',
  ],
  [
    new RegExp(String.raw`(?<=\d) *${perUnit}miles?\b|(?<=\d) *(?:per|min *\/) *mi\b`, 'gi'),
    '/mi',
    'a pace for each mile ends in /mi',
  ],
  [
    new RegExp(String.raw`${pace}(\d{1,2})\.([0-5]\d)(?![\d.:]| *(?:km\/h|mph))`, 'gi'),
    '$1:$2',
    'a pace is written m:ss: $1:$2',
  ],
  [/(?<=\bin +)(\d)\.([0-5]\d)(?![\d.:]| *s)/gi, '$1:$2', 'a time is written m:ss: $1:$2'],
  [/(?<=@ *)([2-9])([0-5]\d)(?= *\/ *(?:km|mi)\b)/gi, '$1:$2', 'a pace is written m:ss: $1:$2'],
  [
    /(?<=\d *(?:km?|mi|miles?|min|h)\b[^,@]*@ *(?:[\d.:]+ *- *)?)(\d|1\d)(?![\d.:%]| *(?:[-a-z]|\/ *\d))/gi,
    '$1:00',
    'a pace is written m:ss: $1:00',
  ],
  [
    new RegExp(String.raw`(?:@|\bat\b) *(?=(?:${effortWords.join('|')})\b(?! *pace))`, 'gi'),
    '',
    'a word for an effort needs no @',
  ],
  [/(?<=\d *(?:[a-z]+|\d\d) +)rpe(?= *\d)/gi, '@ rpe', 'put @ before the effort'],
  [
    /(?<=^ *\d[\d.:]* *(?:km?|mi|miles?|m|min|h) +)(jog(?:ging|ged)?|gentle|slow|recovery|moderate|sprint|max)(?= *(?:$|,))/gi,
    (word) => effortsSaid[word.toLowerCase()] ?? 'easy',
    (word) => `"${word}" is not a word for an effort: write ${effortsSaid[word.toLowerCase()] ?? 'easy'}`,
  ],
  [/\bsplits?(?: +(?:every|each))? +(?=\d)/gi, 'split ', 'splits are written split 1 km'],
  [/(?<=\bsplit +)(\d{3,})(?![\d.]| *[a-z])/gi, '$1 m', '$1 needs a unit: $1 m'],
  [/(?<=\bgrade +)(\d[\d.]*)(?![\d.]| *%)/gi, '$1%', 'a grade is in percent: grade $1%'],
  [/\b(rest|stand) +(\d|1[0-5]) *m(?=$|[, )])/gi, '$1 $2 min', 'm is metres: write $2 min'],
  [
    /\b(?:rest|stand)(?= +\d[\d.]* *(?:m|km?|mi|yd|laps?)(?=$|[, )]))/gi,
    'walk',
    'a rest is timed: write walk for a distance',
  ],
  [/(?<=^ *|\bx *)(?:half|hm)\b(?![ -]*marathon)/gi, 'half marathon', 'its name is half marathon'],
]

const effortsSaid: Record<string, string> = { sprint: 'all out', max: 'all out', moderate: 'steady' }

const dashed = (text: string) =>
  (/^\w{3}$/.test(text) ? [...text].join('-') : text.replace(/[/.:]/g, '-')).toUpperCase()

const lifts: readonly Row[] = [
  ...times,
  [/(?<=(\d)) *# */g, ' lb ', 'pounds are written with lb'],
  [/(?<=@ *)-(?=\d)/g, 'bodyweight-', 'assistance is written bodyweight- and a mass'],
  [
    /(?<=x *[\d()+-]*\d\)?(?: +each +\w+)?) +\+ *(?=\d[\d.]* *(?:kg|lb))/gi,
    ' @ bodyweight+',
    'a load added to the body is written bodyweight+ and a mass',
  ],
  [/(?<=\d *x *)(?:to +)?(?:failure|fail|maximum)\b/gi, 'max', 'as many reps as possible is written max'],
  [
    /(?<=\btempo +)([\dx]{3}|[\dx]{1,2}(?:[/.:][\dx]{1,2}){2,3})(?![\dx-])/gi,
    dashed,
    (text) => `a tempo is written ${dashed(text)}`,
  ],
  [
    /(?<=@[^,@]*\d *(?:kg|lb|%)?) *@ *(?=(10|[1-9](?:\.5)?)(?![\d.:]| *(?:kg|lb|%)))/gi,
    ' rpe ',
    'an effort is written rpe $1',
  ],
  [
    /(?<=\brest +)(\d+)(?= *- *\d+:\d\d)/gi,
    (seconds) => formatClock(Number(seconds) * (Number(seconds) <= 10 ? 60 : 1)),
    'both ends of a range are written the same way',
  ],
  [/\b(rest|pause|every) +(\d|1[0-5]) *m(?=$|[, )])/gi, '$1 $2 min', 'm is metres: write $2 min'],
  [
    /(?<=\d.*[ ,])e([2-9])?mom\b(?! *\d)/gi,
    (_, minutes) => everySaid(minutes),
    (_, minutes) => `sets on the minute are written ${everySaid(minutes)}`,
  ],
]

const everySaid = (minutes = '') => `every ${minutes || 1}:00`

const iso = (year: string, month: string, day: string) =>
  `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`

const headers: readonly Row[] = [
  [
    /(?<=^ *date *: *)(1[3-9]|2\d|3[01])[./](\d{1,2})[./](\d{4})\b/gi,
    (_, day, month, year) => iso(year, month, day),
    'a date is written year-month-day',
  ],
  [
    /(?<=^ *date *: *)(\d{1,2})[./](1[3-9]|2\d|3[01])[./](\d{4})\b/gi,
    (_, month, day, year) => iso(year, month, day),
    'a date is written year-month-day',
  ],
  [
    /(?<=^ *date *: *)(\d{1,2})[./]\1[./](\d{4})\b/gi,
    (_, day, year) => iso(year, day, day),
    'a date is written year-month-day',
  ],
  [/(?<=^ *units *: *)(?:metric|kg|km|metres|meters)(?= *$)/gi, 'km kg', 'units name a distance and a mass'],
  [/(?<=^ *units *: *)imperial(?= *$)/gi, 'mi lb', 'units name a distance and a mass'],
  [/(?<=^ *units *: *)lbs?(?= *$)/gi, 'km lb', 'units name a distance and a mass'],
  [/(?<=^ *units *: *)(?:mi|miles?)(?= *$)/gi, 'mi kg', 'units name a distance and a mass'],
  [
    /(?<=^ *units *: *)(kg|lb)s? *[,/]? *(km|mi)(?:les?)?(?= *$)/gi,
    '$2 $1',
    'units have the distance first, and a space between them',
  ],
  [
    /(?<=^ *units *: *)(km|mi)(?:les?)?(?: *[,/] *| +(?=lbs))(kg|lb)s?(?= *$)/gi,
    '$1 $2',
    'units are written $1 $2',
  ],
]

const nutrient = String.raw`(carb|prot|fat)(?:ohydrate|ein)?s?\b`
const nutrients: Record<string, string> = { carb: 'carbs', prot: 'protein', fat: 'fat' }
const inGrams = (amount: string, word: string) => `${nutrients[word.toLowerCase()]} ${amount} g`

const meals: readonly Row[] = [
  [
    /^ *(pre|during|post)\b(?=[ :])/gi,
    (_, when) => whenSaid[when.toLowerCase()] ?? '',
    'meals are before, between or after',
  ],
  [
    new RegExp(String.raw`(\d[\d.]*) *(?:g|gr|grams?)? *(?:of +)?${nutrient}(?! *:? *\d)`, 'gi'),
    (_, amount, word) => inGrams(amount, word),
    (_, amount, word) => `put it as ${inGrams(amount, word)}`,
  ],
  [
    new RegExp(
      String.raw`(?<!["\p{L}])${nutrient} *:? *(\d[\d.]*)(?![\d.]) *(?:grams?\b|gr\b|(?! *g))`,
      'giu',
    ),
    (_, word, amount) => inGrams(amount, word),
    (_, word, amount) => `put it as ${inGrams(amount, word)}`,
  ],
  [/(\d[\d.]*) *mg *(?:of +)?caffeine\b/gi, 'caffeine $1 mg', 'put it as caffeine $1 mg'],
  [/(?<=(\d[\d.]*)) *(?:k?cals|cal|k?calories)\b/gi, ' kcal', 'energy is written $1 kcal'],
]

const whenSaid: Record<string, string> = { pre: 'before', during: 'between', post: 'after' }

const rowsOf: Record<LineRule, readonly Row[]> = {
  header: headers,
  prepItem: times,
  runItem: runs,
  liftItem: lifts,
  fuelItem: meals,
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

/** The line with its phrases as the notation has them; without remarks if there are none to correct. Quotes stay as
 * they are. */
export function corrected(text: string, rule: LineRule): { line: string; remarks: Remark[] } {
  const remarks: Remark[] = []
  let line = text
  for (const [pattern, said, remark] of rowsOf[rule]) {
    const before = line
    const quoted = new RegExp(`"[^"]*"|${pattern.source}`, pattern.flags)
    line = line.replace(quoted, (found, ...rest) => {
      if (found.startsWith('"')) return found
      const at = rest.find((each): each is number => typeof each === 'number') ?? 0
      const groups = rest.slice(0, rest.indexOf(at)).map((each) => each ?? '')
      const say = (text: Said) =>
        typeof text === 'string'
          ? text.replace(/\$(\d)/g, (_, n) => groups[n - 1] ?? '')
          : text(found, ...groups)
      const written = say(said)
      if (written !== found)
        remarks.push({ at: placeIn(text, before, [at, at + found.length]), message: say(remark) })
      return written
    })
  }
  line = line.replace(/"[^"]*"| +(?=[,;)]|$)/g, (found) => (found.startsWith('"') ? found : ''))
  return { line, remarks }
}
