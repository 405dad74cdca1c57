import { liftLineOf } from './buildLift.ts'
import { runStepOf } from './buildRun.ts'
import { machineIn, misplacedMessage, ruleOf, unknownHeadingOf, workIn } from './headings.ts'
import { type Line, lineOf } from './lines.ts'
import type { FuelItem, PartKind } from './model.ts'
import { type Item, partName, printItem } from './print.ts'
import { type LineRead, readLine, refused } from './readLine.ts'
import {
  type Building,
  bare,
  type FuelNode,
  type Mark,
  type PrepNode,
  type RecoveryNode,
  type UnknownHeading,
  type WorkNode,
  wholeOf,
} from './syntax.ts'
import { anyPartKind } from './words.ts'

/* Reads one item of a part with the grammar rule and the builder of the part's kind. */

/** Reads one item.
 * @param isFirst of its part: no heading has items above it there */
export function readItem(kind: PartKind, line: Line, building: Building, isFirst: boolean): LineRead<Item> {
  const { text } = line
  const work = kind === 'prep' ? workIn(text) : null
  const strange = work === null ? notRunning(kind, text) : headingMark(line, work, building)
  if (strange !== null) return refused(line, strange)
  const rule = ruleOf[kind]
  const build = (node: never, own: Building): Item => ({
    line: line.number,
    text: line.written,
    ...builders[rule](node, own),
  })
  const elsewhere = () => {
    const heading = isFirst ? null : unknownHeadingOf(text)
    if (heading !== null) return headingMark(line, heading, building)
    const message = misplacedMessage(text, kind)
    return message === null ? null : { at: wholeOf(text), message }
  }
  return readLine(line, { rule, build, print: printItem, elsewhere }, building)
}

function notRunning(kind: PartKind, text: string): Mark | null {
  const machine = kind === 'run' ? machineIn(text) : null
  return machine === null
    ? null
    : { at: wholeOf(text), message: `this is no running: write cross: ${machine} on a line above it` }
}

const builders = {
  prepItem: (node: PrepNode) => bare(node),
  runItem: (node: WorkNode | RecoveryNode, building: Building) => ({ step: runStepOf(node, building) }),
  liftItem: liftLineOf,
  fuelItem: fuelLineOf,
}

/* Fuel. */

type FuelLine = Omit<FuelItem, 'line' | 'text'>

const keys = { carbs: 'carbsG', protein: 'proteinG', fat: 'fatG', kcal: 'kcal' } as const

function fuelLineOf(node: FuelNode, building: Building): FuelLine {
  const line: FuelLine = {
    when: node.when,
    seconds: node.seconds?.seconds ?? null,
    carbsG: null,
    proteinG: null,
    fatG: null,
    kcal: null,
    notes: [],
  }
  for (const bit of node.bits) {
    if (bit.bit === 'text') {
      line.notes.push(bit.value.value)
      continue
    }
    const key = keys[bit.bit]
    if (line[key] !== null) building.report(bit.value.at, `${bit.bit} is given twice: remove one`)
    line[key] = bit.value.value
  }
  return line
}

/* Answers. */

/** Says how to write an unknown heading: the part, and below it the item after its colon. */
export function headingMark(line: Line, part: UnknownHeading, building: Building): Mark {
  const heading = partName(part)
  const message = `a part is ${anyPartKind}, on a line of its own: write \`${heading}\``
  const mark = { at: wholeOf(line.text), isHeading: true } as const
  if (part.item === null) return { ...mark, message, suggestion: heading }
  const item = itemText(line, part, part.item, building)
  return {
    ...mark,
    message: `${message} and below it \`  ${item ?? part.item}\``,
    suggestion: item && `${heading}\n  ${item}`,
  }
}

/** Writes an item in the notation, as read or as suggested; null if neither is possible. */
export function itemText(
  line: Line,
  part: { kind: PartKind; name: string | null },
  item: string,
  building: Building,
): string | null {
  const read = readItem(part.kind, lineOf(item, line.number), { ...building, part }, true)
  return read.value === null ? (read.problems[0]?.suggestion ?? null) : printItem(read.value)
}
