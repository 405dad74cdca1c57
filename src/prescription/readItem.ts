import { liftLineOf } from './buildLift.ts'
import { fuelLineOf, prepLineOf } from './buildPrepFuel.ts'
import { runStepOf } from './buildRun.ts'
import type { Answer } from './hasty.ts'
import { misplacedMessage, ruleOf, type UnknownHeading, unknownHeadingOf } from './headers.ts'
import { anyPartKind } from './kinds.ts'
import { type Line, lineOf } from './lines.ts'
import type { PartKind } from './model.ts'
import { type Item, partName, printItem } from './print.ts'
import { type Elsewhere, readLine } from './readLine.ts'
import type { Building, RecoveryNode, WorkNode } from './syntax.ts'

/* Reads one item of a part, by what its kind is built of, and writes it again. */

/** Reads one item, or finds that its line is an unknown heading. */
export function readItem(part: { kind: PartKind; tried: number }, line: Line, building: Building) {
  const rule = ruleOf[part.kind]
  const build = (node: never): Item => ({
    line: line.number,
    text: line.written,
    ...builders[rule](node, building),
  })
  const elsewhere = (): Elsewhere<UnknownHeading> | null => {
    const heading = part.tried > 0 ? unknownHeadingOf(line.text) : null
    if (heading !== null) return { heading }
    const message = misplacedMessage(line.text, part.kind)
    return message === null ? null : { message }
  }
  return readLine(line, rule, building, build, printItem, elsewhere)
}

const builders = {
  prepItem: prepLineOf,
  runItem: (node: WorkNode | RecoveryNode, building: Building) => ({ step: runStepOf(node, building) }),
  liftItem: liftLineOf,
  fuelItem: fuelLineOf,
}

const itemExamples: Record<PartKind, string> = {
  prep: 'foam roll 3:00',
  run: '5 km easy',
  cross: '20 min easy',
  lift: 'squat 3 x 8',
  fuel: 'before: carbs 75 g',
}

/** Says how to write an unknown heading: the part, and below it the item. */
export function unknownHeadingAnswer(line: Line, part: UnknownHeading, building: Building): Answer {
  const heading = partName(part)
  const message = `a part is ${anyPartKind}, on a line of its own: write \`${heading}\``
  if (part.item === null) return { message, suggestion: heading }
  const item = itemText(line, part, part.item, building)
  return item === null
    ? {
        message: `${message} and its items below it, such as \`  ${itemExamples[part.kind]}\``,
        suggestion: null,
      }
    : { message: `${message} and below it \`  ${item}\``, suggestion: `${heading}\n  ${item}` }
}

/** Writes the item in the notation, as read or as suggested; null if neither is possible. */
export function itemText(
  line: Line,
  part: { kind: PartKind; name: string | null },
  item: string,
  building: Building,
): string | null {
  const own = lineOf(item, line.number)
  const read = readItem({ ...part, tried: 0 }, own, { ...building, part })
  return read.value === null ? (read.problems[0]?.suggestion ?? null) : printItem(read.value)
}
