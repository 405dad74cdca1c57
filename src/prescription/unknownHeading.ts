import type { Building } from './building.ts'
import { headingOf, isOtherHeader, missingColon, ruleOf } from './headings.ts'
import { type Line, lineOf } from './lines.ts'
import { type Day, problemAt, readItem } from './openDay.ts'
import { anyPartKind, type PartKind } from './partKinds.ts'
import { printItem } from './print.ts'
import type { Problem } from './problem.ts'
import { isReadable, strictSyntaxOf } from './readLine.ts'
import type { PrepNode } from './syntax.ts'

/* Lines that begin a part by a word that none begins with: `Main: 6 x 500 m`, `Strength`. */

/** How such a line is written: the part, and the item behind its colon. */
export interface UnknownHeading {
  kind: PartKind
  name: string | null
  /** What stands behind the colon and is an item, or was meant as one. */
  item: string | null
}

/** The part that a line means; null for a line that means none.
 * @param takesAnyWord whether a word that is not known begins a part too, with a colon and an item behind it */
export function unknownHeadingOf(
  text: string,
  { units }: Building,
  takesAnyWord: boolean,
): UnknownHeading | null {
  const bare = missingColon(text)
  if (bare !== null) return { kind: bare.kind, name: bare.name, item: null }
  const [, word = '', after = ''] =
    /^ *(\p{L}[\p{L}\p{N}-]*(?: [\p{L}\p{N}-]+){0,3}) *: *(.*)$/u.exec(text) ?? []
  const known = headingOf(word === '' ? text : word)
  if (
    known !== null &&
    (after === '' || (!/\d/.test(after) && !isReadable(after, ruleOf[known.kind], units)))
  )
    return { kind: known.kind, name: after === '' ? known.name : after, item: null }
  if (known !== null) return withItem(word, after, kindOf(after, known.kind, units))
  if (!takesAnyWord || word === '' || isOtherHeader(word)) return null
  if (after === '') return { kind: 'run', name: word, item: null }
  const isItem = (['run', 'lift', 'fuel'] as const).some((kind) => isReadable(text, ruleOf[kind], units))
  const kind = (['run', 'lift', 'fuel'] as const).find((each) => isReadable(after, ruleOf[each], units))
  return isItem || kind === undefined ? null : withItem(word, after, kind)
}

/** In a prep part nearly every line is an item: only work behind the word of another part is none. */
export function workIn(text: string, building: Building): UnknownHeading | null {
  if (!text.includes(':')) return null
  const found = unknownHeadingOf(text, building, false)
  if (found === null || found.kind === 'prep' || found.item === null) return null
  return isPlainDose(found.item, building.units) ||
    !isReadable(found.item, ruleOf[found.kind], building.units)
    ? null
    : found
}

/** A warm-up of so long is one item of prep; a name is no use where it is the item. */
function withItem(word: string, after: string, kind: PartKind): UnknownHeading {
  const name = word.trim().toLowerCase()
  const isOnly = kind === 'prep' && /^[\d:.]+ *\p{L}*$/u.test(after)
  return isOnly ? { kind, name: null, item: `${name} ${after}` } : { kind, name, item: after }
}

/** The kind of part that an item belongs into, if not into the one that the word before it means. */
function kindOf(item: string, kind: PartKind, units: Building['units']): PartKind {
  const isRun = isReadable(item, 'runItem', units)
  if (kind === 'prep')
    return isRun && (!isPlainDose(item, units) || /\d *(?:km|mi)\b/i.test(item)) ? 'run' : kind
  if (isReadable(item, ruleOf[kind], units)) return kind
  return isRun ? 'run' : isReadable(item, 'liftItem', units) ? 'lift' : kind
}

/** `10 min`, `2 x 10`: any kind of item may be so long. */
function isPlainDose(item: string, units: Building['units']): boolean {
  const node = strictSyntaxOf(`x ${item}`, 'prepItem', units) as PrepNode | null
  return node !== null && node.name.name === 'x'
}

/** What to say of such a line: the part, and below it the item, as they are read. */
export function unknownHeadingProblem(line: Line, part: UnknownHeading, day: Day): Problem {
  const heading = part.name === null ? part.kind : `${part.kind}: ${part.name}`
  const item = part.item === null ? null : itemText(line, part, part.item, day.building)
  const below =
    item === null ? (part.item === null ? '' : ' and below it the item') : ` and below it \`  ${item}\``
  const message = `a part is ${anyPartKind}, on a line of its own: write \`${heading}\`${below}`
  const instead = part.item === null ? heading : item === null ? null : `${heading}\n  ${item}`
  return { ...problemAt(line, message), instead }
}

/** The item as the notation writes it; null where it does not read. */
function itemText(
  line: Line,
  { kind, name }: UnknownHeading,
  item: string,
  building: Building,
): string | null {
  const before = building.part
  building.part = { kind, name }
  const own = lineOf(item, line.number)
  const read = readItem({ kind, name, line: own, tried: 0, items: [] }, own, building, () => null)
  building.part = before
  return read.value === null ? null : printItem(read.value)
}
