import { namesFood } from './hasty.ts'
import type { PartKind, PrepItem } from './model.ts'
import { isReadable, strictlyRead } from './readLine.ts'
import { isRounds } from './together.ts'
import { type LineRule, machines, partKinds, ruleOf } from './words.ts'

/* Recognises headings of parts in other words, and lines that belong to another kind of part. */

/** The kind of part in which a text is an item: those of a cross part read as a run's, and nearly any words as prep. */
function kindReading(text: string, but?: LineRule): PartKind | undefined {
  return (['run', 'lift', 'fuel'] as const).find(
    (kind) => ruleOf[kind] !== but && isReadable(text, ruleOf[kind]),
  )
}

/** How the heading of a part begins, or all of it. */
export const beginsPart = new RegExp(`^\\s*(?:${partKinds.join('|')})\\s*(?::|$)`, 'i')

/** Whether the name of a part is really an item that needs its own line. */
export function isItem(kind: PartKind, name: string): boolean {
  if (kind !== 'prep') return isReadable(name, ruleOf[kind])
  const item = strictlyRead<PrepItem>(name, 'prepItem')
  return item !== null && item.amount !== null && (item.amount.kind !== 'reps' || item.count !== null)
}

/* Headings in other words: `Strength`, `run track`. */

const otherWords: Partial<Record<PartKind, RegExp>> = {
  prep: /^(?:warm[- ]?up|mobility|activation|prehab|stretching|preparation)$/,
  run: /^(?:running|track|runs|main(?: set| part)?|intervals|workout|cool[- ]?down)$/,
  cross: /^(?:bike|biking|cycling|ride|swim|swimming|row|rowing|rower|erg|ski)$/,
  lift: /^(?:lifting|lifts|strength|weights|gym|legs|push|pull|upper|lower|core|conditioning|accessor(?:y|ies)|assistance)$/,
  fuel: /^(?:food|nutrition|meals?|eat|eating|fuell?ing)$/,
}

function kindCalled(word: string): PartKind | undefined {
  return partKinds.find((each) => otherWords[each]?.test(word.trim().toLowerCase()))
}

const kindFirst = new RegExp(
  `^[ *_=~-]*(${partKinds.join('|')})(?: *[*_=~.;-]+)?(?: *$| +| *(?=\\())(.*)$`,
  'i',
)

/** The kind of a part at the beginning of a line, also decorated (`**Run**`, `run - track`), and what follows it
 * without a colon: a name, or an item; null for any other line. */
export function afterKind(text: string): { kind: PartKind; rest: string } | null {
  const [, kind = '', rest = ''] = kindFirst.exec(text) ?? []
  return kind === '' ? null : { kind: kind.toLowerCase() as PartKind, rest: rest.trim() }
}

/** A longer text after the kind of a part is not a name. */
const mostNameWords = 3

export interface MeantPart {
  kind: PartKind
  name: string | null
}

/** The part meant by an unknown heading; null for any other line. */
export function unknownHeadingOf(text: string): MeantPart | null {
  const begun = afterKind(text)
  const name = begun?.rest.replace(/^\(|[ *_=~)-]+$/g, '') ?? ''
  if (begun !== null && /^(?:\p{L}[^()]*)?$/u.test(name)) {
    const { kind } = begun
    const isLine = /\d *x *\d/i.test(name) || isItem(kind, name)
    const isName = name.split(' ').length <= mostNameWords && !isLine
    return isName ? { kind, name: name || null } : null
  }
  const [, word = '', after = ''] = /^ *(\p{L}[\p{L} -]*?) *(?:: *(\D*))?$/u.exec(text) ?? []
  const kind = kindCalled(word)
  if (kind === undefined || isReadable(after, ruleOf[kind])) return null
  return { kind, name: after || word.toLowerCase() }
}

/* Lines that belong to another kind of part. */

/** Nearly any words are an item of prep, so only these are taken for one. */
const warmsUp = /^ *(?:warm(?:ing)?[ -]?up|cool(?:ing)?[ -]?down|stretch(?:ing|es)?|mobility)\b/i

const machine = new RegExp(`(?<!["\\p{L}]|\\bin a )(?:${machines.join('|')})(?!["\\p{L}])`, 'iu')

/** The kind of part that a line belongs to instead; null if none fits better than the one that it is in.
 * @param current the kind of the part that it is in */
export function homeOf(text: string, current?: PartKind): PartKind | null {
  if (current !== 'fuel' && namesFood.test(text) && /\b(?:before|between|after)\b/i.test(text)) return 'fuel'
  if (current !== 'lift' && current !== 'prep' && isRounds(text)) return 'lift'
  const rule = current && ruleOf[current]
  const called = kindBefore(text)
  if (called !== null) return ruleOf[called] === rule ? null : called
  const isWarmUp = current === 'lift' && warmsUp.test(text) && isReadable(text.replace(/,.*/, ''), 'prepItem')
  // `plank: 1:00` lacks its sets.
  const item = current === 'lift' && onlyLength.test(afterColon(text)) ? '' : afterColon(text)
  return kindReading(text, rule) ?? (isWarmUp ? 'prep' : (kindReading(item, rule) ?? null))
}

const onlyLength = /^ *[\d:.]+ *(?:s|secs?|mins?|m)? *$/i

/** The kind of part that is called by the word before an item of it: `Main: 6 x 500 m`; null for any other line. */
function kindBefore(text: string): PartKind | null {
  const item = afterColon(text)
  const kind = kindCalled(text.slice(0, -item.length - 1))
  // The words of prep and cross name exercises too.
  const isSure = kind === 'run' || kind === 'lift' || kind === 'fuel'
  return isSure && isReadable(item, ruleOf[kind]) ? kind : null
}

/** `2 km easy` of `Warm up: 2 km easy`; the empty text for a line without a word and a colon. */
function afterColon(text: string): string {
  return /^[^\d:]*:(.*)$/.exec(text)?.[1] ?? ''
}

/** The message for a line that belongs to another kind of part; null for any other line. */
export function misplacedMessage(text: string, kind: PartKind): string | null {
  if (kind === 'lift' && /^ *(?:rest *:? *\d[\d:]* *\p{L}*|\d[\d:]* *\p{L}* +rest) *$/iu.test(text))
    return 'a rest is written after the sets that it belongs to, such as squat 3 x 8, rest 90 s'
  const home = homeOf(text, kind)
  return home && misplaced(home)
}

export function misplaced(kind: PartKind): string {
  return `this reads as an item of a ${kind} part: write ${kind} on a line above it`
}

/** The message for a line that its part would read as something else than it is; null for any other line. */
export function strangeMessage(text: string, kind: PartKind): string | null {
  // Nearly any words are an item of prep, so only those after a heading are taken for another.
  const item = afterColon(text)
  if (kind === 'prep' && kindCalled(text.slice(0, -item.length - 1)) && !/^ *[\d:.]+ *\p{L}* *$/u.test(item))
    return kindReading(item) === undefined ? null : misplacedMessage(item, kind)
  // `Main: 6 x 500 m` would be sets of an exercise called Main.
  if (kind === 'lift' && kindBefore(text) === 'run') return misplacedMessage(text, kind)
  const machine = kind === 'run' ? machineIn(text) : null
  return machine && `this is not running: write cross: ${machine} on a line above it`
}

/** The machine in a line of a run part; null for any other line. */
function machineIn(text: string): string | null {
  // After a comma, words are a note.
  const found = machine.exec(text.replace(/,.*/, ''))?.[0].toLowerCase()
  return found === undefined || text.includes('"') || isReadable(text, 'runItem') ? null : found
}
