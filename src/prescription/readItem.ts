import { liftLineOf } from './buildLift.ts'
import { checkedRun } from './checkRun.ts'
import { misplacedMessage, ruleOf, strangeMessage } from './headings.ts'
import { type Line, lineOf } from './lines.ts'
import type { PartKind } from './model.ts'
import { type Item, printItem } from './print.ts'
import { type LineRead, readLine, refused } from './readLine.ts'
import { type Building, wholeOf } from './written.ts'

/* Reads one item of a part: the grammar makes it, and the builder of the part's kind checks it. */

export function readItem(kind: PartKind, line: Line, building: Building): LineRead<Item> {
  const strange = strangeMessage(line.text, kind)
  if (strange !== null) return refused(line, { at: wholeOf(line.text), message: strange })
  const rule = ruleOf[kind]
  const build = (parsed: never, own: Building) =>
    ({ line: line.number, text: line.written, ...builders[rule](parsed, own) }) as Item
  const elsewhere = () => misplacedMessage(line.text, kind)
  return readLine(line, { rule, build, print: printItem, elsewhere }, building)
}

const asWritten = (item: object) => item

/** Check what the grammar made of a line, and put right what was probably meant. */
const builders = {
  prepItem: asWritten,
  runItem: checkedRun,
  liftItem: liftLineOf,
  fuelItem: asWritten,
}

/** Writes an item in the notation, as read or as suggested; null if neither is possible. */
export function itemText(
  line: Line,
  part: { kind: PartKind; name: string | null },
  item: string,
  building: Building,
): string | null {
  const read = readItem(part.kind, lineOf(item, line.number), { ...building, part })
  return read.value === null ? (read.problems[0]?.suggestion ?? null) : printItem(read.value)
}
