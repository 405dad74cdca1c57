import { wordsFor } from '../units/words.ts'
import { namesFood } from './hasty.ts'
import type { PartKind } from './model.ts'
import { isReadable, strictSyntaxOf } from './readLine.ts'
import type { PrepNode, UnknownHeading } from './syntax.ts'
import { isRounds } from './together.ts'
import { type LineRule, partKinds, plainEffortWords } from './words.ts'

/* Recognises headings of parts in other words, and lines that belong to another kind of part. */

/** How the items of a part are parsed. */
export const ruleOf = {
  prep: 'prepItem',
  run: 'runItem',
  cross: 'runItem',
  lift: 'liftItem',
  fuel: 'fuelItem',
} as const satisfies Record<PartKind, LineRule>

/** The kind of part in which a text is an item: those of a cross part read as a run's, and nearly any words as prep. */
function kindReading(text: string, but?: LineRule): PartKind | undefined {
  return (['run', 'lift', 'fuel'] as const).find(
    (kind) => ruleOf[kind] !== but && isReadable(text, ruleOf[kind]),
  )
}

/** Whether the name of a part is really an item that needs its own line. */
export function isItem(kind: PartKind, name: string): boolean {
  if (kind !== 'prep') return isReadable(name, ruleOf[kind])
  const item = strictSyntaxOf(name, 'prepItem') as PrepNode | null
  return item !== null && item.amount !== null && (item.amount.kind !== 'reps' || item.count !== null)
}

/* Lines that start a part with an unknown heading: `Main: 6 x 500 m`, `Strength`. */

const otherWords: Record<PartKind, RegExp> = {
  prep: /^(?:warm[- ]?up|mobility|activation|prehab|stretching|preparation)$/,
  run: /^(?:running|track|runs|main(?: set| part)?|intervals|workout|cool[- ]?down)$/,
  cross: /^(?:bike|biking|cycling|ride|swim|swimming|row|rowing|rower|erg|ski)$/,
  lift: /^(?:lifting|lifts|strength|weights|gym|legs|push|pull|upper|lower|core|conditioning|accessories)$/,
  fuel: /^(?:food|nutrition|meals?|eat|eating|fuell?ing)$/,
}

/** Also decorated: `**Run**`, `run - track`, `Run (track)`. */
const kindAndName = new RegExp(
  `^[ *_=~]*(${partKinds.join('|')})(?: *[*_=~.;-]+)?(?:(?: +| *\\()(\\p{L}.*?))?[ *_=~)]*$`,
  'iu',
)

/** A longer text after the kind of a part is not a name. */
const mostNameWords = 3

/** Up to four words, and the text after their colon. */
const headingLine = /^ *(\p{L}[\p{L}\p{N}-]*(?: [\p{L}\p{N}-]+){0,3}) *(?:: *(.*))?$/u

/** The part meant by an unknown heading; null for any other line. A word that means no part begins one too, with a
 * colon and an item after it. */
export function unknownHeadingOf(text: string): UnknownHeading | null {
  const known = missingColon(text) ?? otherHeadingOf(text)
  if (known !== null) return known
  const [, word = '', after] = headingLine.exec(text) ?? []
  if (after === undefined) return null
  // `hill sprints 8x10s:` is work, not a name.
  if (after === '') return /\d *x *\d/i.test(word) ? null : { kind: 'run', name: word, item: null }
  const kind = kindReading(after)
  return kind === undefined || kindReading(text) !== undefined ? null : withItem(word, after, kind)
}

/** A part's kind with its name but no colon, `run track`, or with its item, `lift squat 3 x 5`. */
function missingColon(text: string): UnknownHeading | null {
  const [, word = '', rest = ''] = kindAndName.exec(text) ?? []
  if (word === '') return null
  const kind = word.toLowerCase() as PartKind
  const isName = rest.split(' ').length <= mostNameWords && !isItem(kind, rest)
  return isName ? { kind, name: rest || null, item: null } : { kind, name: null, item: rest }
}

/** The part meant by a heading of another word. */
function otherHeadingOf(text: string): UnknownHeading | null {
  const [, word = '', after = ''] = headingLine.exec(text) ?? []
  const name = word.toLowerCase()
  const kind = partKinds.find((each) => otherWords[each].test(name))
  if (kind === undefined) return null
  const hasItem = /\d/.test(after) || isReadable(after, ruleOf[kind])
  return hasItem ? withItem(word, after, kindOf(after, kind)) : { kind, name: after || name, item: null }
}

/** Splits heading and item; a warm-up of some minutes is one prep item of that name. */
function withItem(word: string, after: string, kind: PartKind): UnknownHeading {
  const name = word.toLowerCase()
  const isOnly = kind === 'prep' && onlyAmount.test(after)
  return isOnly ? { kind, name: null, item: `${name} ${after}` } : { kind, name, item: after }
}

/** The kind of part that an item belongs to, if not the one that the heading means. */
function kindOf(item: string, kind: PartKind): PartKind {
  const isRun = isReadable(item, 'runItem')
  if (kind === 'prep')
    return isRun && (!onlyAmount.test(item) || /\d *(?:km|mi)\b/i.test(item)) ? 'run' : kind
  return isReadable(item, ruleOf[kind]) ? kind : (kindReading(item) ?? kind)
}

/** `10 min`: an amount that any kind of item may have. */
const onlyAmount = /^[\d:.]+ *\p{L}*$/u

/** Finds work under the heading of another part; in a prep part nearly every other line is an item. */
export function workIn(text: string): UnknownHeading | null {
  if (!text.includes(':') || kindAndName.test(text)) return null
  const found = otherHeadingOf(text)
  if (found === null || found.kind === 'prep' || found.item === null) return null
  return onlyAmount.test(found.item) || !isReadable(found.item, ruleOf[found.kind]) ? null : found
}

/* Lines that belong to another kind of part. */

/** `5x5 squat`: a count, a number without a unit, and a word that does not occur in runs. */
const setsThenName = new RegExp(
  `^ *\\d+ *x *\\d+ +(?!(?:${wordsFor('m', 'km', 'mi', 'yd', 'lap', 's', 'min', 'h')}|${plainEffortWords.join('|')}|hr|at|in|all|warm|cool|race|trial|jog|walk|stand|rest|with|w|x)\\b)\\p{L}{2}`,
  'iu',
)

/** Nearly any words are an item of prep, so only these are taken for one. */
const warmsUp = /^ *(?:warm(?:ing)?[ -]?up|cool(?:ing)?[ -]?down|stretch(?:ing|es)?|mobility)\b/i

const machine = /(?<!["\p{L}]|\bin a )(?:bike|cycling|ride|row|rower|rowing|erg|ski|swim)(?!["\p{L}])/iu

/** The kind of part that a line belongs to; null for a line that is no item of another.
 * @param current the kind of the part that it is in */
export function homeOf(text: string, current?: PartKind): PartKind | null {
  if (current !== 'fuel' && namesFood.test(text) && /\b(?:before|between|after)\b/i.test(text)) return 'fuel'
  if (current !== 'lift' && current !== 'prep' && isRounds(text)) return 'lift'
  const rule = current && ruleOf[current]
  if (rule === 'runItem' && setsThenName.test(text)) return 'lift'
  if (current === 'lift' && warmsUp.test(text) && isReadable(text.replace(/,.*/, ''), 'prepItem'))
    return 'prep'
  return kindReading(text, rule) ?? null
}

/** The message for a line that belongs to another kind of part; null for any other line. */
export function misplacedMessage(text: string, kind: PartKind): string | null {
  if (kind === 'lift' && /^ *(?:rest +\d[\d:]* *\p{L}*|\d[\d:]* *\p{L}* +rest) *$/iu.test(text))
    return 'a rest is written after the sets that it belongs to, such as squat 3 x 8, rest 90 s'
  const home = homeOf(text, kind)
  return home && `this reads as an item of a ${home} part: write ${home} on a line above it`
}

/** The machine in a line of a run part, which is no running; null for any other line. */
export function machineIn(text: string): string | null {
  // After a comma, words are a note.
  const found = machine.exec(text.replace(/,.*/, ''))?.[0].toLowerCase()
  return found === undefined || text.includes('"') || isReadable(text, 'runItem') ? null : found
}
