import { liftLineOf } from './buildLift.ts'
import { runStepOf } from './buildRun.ts'
import { misplacedMessage, ruleOf, strangeMessage } from './headings.ts'
import { type Line, lineOf } from './lines.ts'
import type { FuelItem, PartKind } from './model.ts'
import { type Item, printItem } from './print.ts'
import { type LineRead, readLine, refused } from './readLine.ts'
import {
  type Building,
  bare,
  type FuelNode,
  type PrepNode,
  type RecoveryNode,
  type WorkNode,
  wholeOf,
} from './syntax.ts'

/* Reads one item of a part with the grammar rule and the builder of the part's kind. */

export function readItem(kind: PartKind, line: Line, building: Building): LineRead<Item> {
  const strange = strangeMessage(line.text, kind)
  if (strange !== null) return refused(line, { at: wholeOf(line.text), message: strange })
  const rule = ruleOf[kind]
  const build = (node: never, own: Building): Item => ({
    line: line.number,
    text: line.written,
    ...builders[rule](node, own),
  })
  const elsewhere = () => misplacedMessage(line.text, kind)
  return readLine(line, { rule, build, print: printItem, elsewhere }, building)
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
