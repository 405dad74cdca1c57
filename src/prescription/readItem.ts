import { liftLineOf } from './buildLift.ts'
import { runStepOf } from './buildRun.ts'
import type { Answer } from './hasty.ts'
import { isItem, misplacedMessage, ruleOf, unknownHeadingOf } from './headers.ts'
import { type Line, lineOf } from './lines.ts'
import type { FuelItem, PartKind, PrepItem } from './model.ts'
import { warnOfDistance } from './plausible.ts'
import { type Item, partName, printItem } from './print.ts'
import { type Elsewhere, readLine } from './readLine.ts'
import {
  type Building,
  bare,
  type FuelNode,
  type PrepNode,
  type RecoveryNode,
  type UnknownHeading,
  type WorkNode,
} from './syntax.ts'
import { anyPartKind } from './words.ts'

/* Reads one item of a part with the grammar rule and the builder of the part's kind. */

/** Reads one item, or finds that its line is an unknown heading. */
export function readItem(part: { kind: PartKind; tried: number }, line: Line, building: Building) {
  const rule = ruleOf[part.kind]
  const build = (node: never): Item => ({
    line: line.number,
    text: line.written,
    ...builders[rule](node, building),
  })
  const elsewhere = (): Elsewhere | null => {
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

/* Prep and fuel. */

type PrepLine = Omit<PrepItem, 'line' | 'text'>

function prepLineOf(node: PrepNode, building: Building): PrepLine {
  if (node.amount?.kind === 'distance') warnOfDistance(node.amount.length, building)
  return bare(node)
}

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

const itemExamples: Record<PartKind, string> = {
  prep: 'foam roll 3:00',
  run: '5 km easy',
  cross: '20 min easy',
  lift: 'squat 3 x 8',
  fuel: 'before: carbs 75 g',
}

/** Answers a line with an unknown heading with how to write it: the part, and below it the item. */
export function unknownHeadingAnswer(
  line: Line,
  part: UnknownHeading,
  building: Building,
): Omit<Answer, 'at'> {
  const { kind, name } = part
  if (part.item === null && name !== null && isItem(kind, name))
    return unknownHeadingAnswer(line, { kind, name: null, item: name }, building)
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
  const read = readItem({ ...part, tried: 0 }, lineOf(item, line.number), { ...building, part })
  return read.value === null ? (read.problems[0]?.suggestion ?? null) : printItem(read.value)
}
