import { kilogramsOf } from '../units/mass.ts'
import type { Building } from './building.ts'
import { liftLineOf } from './buildLift.ts'
import { fuelLineOf, prepLineOf } from './buildPrepFuel.ts'
import { runStepOf } from './buildRun.ts'
import { exerciseKey } from './exercise.ts'
import { type Headers, noHeaders } from './headers.ts'
import { misplacedMessage } from './headings.ts'
import type { Line } from './lines.ts'
import type { Amount, FuelItem, LiftItem, Part, PrepItem, Prescription, Recovery, RunItem } from './model.ts'
import type { PartKind } from './partKinds.ts'
import { type Item, printAmount, printItem } from './print.ts'
import type { Problem } from './problem.ts'
import { problemOf, readLine } from './readLine.ts'
import type { FuelNode, LiftNode, PrepNode, RecoveryNode, WorkNode } from './syntax.ts'

/* A day while its lines are being read. */

export interface ReadingDefaults {
  /** Units of a file that says none. */
  units?: Prescription['units']
  /** One-repetition maxima known besides those of the file. */
  maxima?: readonly { name: string; kg: number }[]
}

export interface Day {
  building: Building
  title: Line | null
  headerLines: Line[]
  /** Null until the first part begins. */
  headers: Headers | null
  maximaLines: { line: Line; name: string }[]
  parts: OpenPart[]
  problems: Problem[]
  items: number
  steps: number
  /** A line before the first part stood nowhere, which has been said. */
  isStray: boolean
  /** Below the line of a part that is none: what stands there is not read. */
  isUnread: boolean
  /** A limit is passed: nothing more is read. */
  isOver: boolean
}

export function newDay(defaults: ReadingDefaults): Day {
  const known = defaults.maxima ?? []
  const day: Day = {
    building: {
      units: defaults.units ?? { distance: 'km', mass: 'kg' },
      goal: null,
      lapMeters: 400,
      maximumKgOf(name) {
        const isSame = (each: { name: string }) => exerciseKey(each.name) === exerciseKey(name)
        const written = day.headers?.maxima.find(isSame)
        return written === undefined ? (known.find(isSame)?.kg ?? null) : kilogramsOf(written.mass)
      },
      part: { kind: 'run', name: null },
      found: [],
    },
    title: null,
    headerLines: [],
    headers: null,
    maximaLines: [],
    parts: [],
    problems: [],
    items: 0,
    steps: 0,
    isStray: false,
    isUnread: false,
    isOver: false,
  }
  return day
}

/** What has been read of the day, as the model has it. */
export function prescriptionOf(day: Day): Prescription {
  const headers = day.headers ?? noHeaders(day.building.units)
  return { title: day.title?.shown.trim() ?? '', ...headers, parts: day.parts.map(closedPart) }
}

/* A part while its lines are being read. */

export interface OpenPart {
  kind: PartKind
  name: string | null
  line: Line
  /** Lines that were meant as items, read or not. */
  tried: number
  items: { line: Line; item: Item }[]
}

/** Reads one item of a part. */
export function readItem(
  part: OpenPart,
  line: Line,
  building: Building,
  elsewhere: () => string | null,
): { value: Item | null; problems: Problem[] } {
  const at = { line: line.number, text: line.written }
  const other = () => elsewhere() ?? misplacedMessage(line.text, part.kind, building.units)
  switch (part.kind) {
    case 'prep': {
      const build = (node: PrepNode): PrepItem => ({ ...at, ...prepLineOf(node, building) })
      return readLine(line, 'prepItem', building, build, printItem, other)
    }
    case 'run':
    case 'cross': {
      const build = (node: WorkNode | RecoveryNode): RunItem => ({ ...at, step: runStepOf(node, building) })
      return readLine(line, 'runItem', building, build, printItem, other)
    }
    case 'lift': {
      const build = (node: LiftNode): LiftItem => ({ ...at, ...liftLineOf(node, building) })
      return readLine(line, 'liftItem', building, build, printItem, other)
    }
    case 'fuel': {
      const build = (node: FuelNode): FuelItem => ({ ...at, ...fuelLineOf(node, building) })
      return readLine(line, 'fuelItem', building, build, printItem, other)
    }
  }
}

/** What can only be said of a part when it is over. */
export function problemsOfPart(part: OpenPart): Problem[] {
  if (part.tried === 0) {
    const message = `this ${part.kind} part has no items: write one below it, or leave the part out`
    return [problemAt(part.line, message)]
  }
  const ends = [part.items[0], part.items.length > 1 ? part.items.at(-1) : undefined]
  return ends.flatMap((end, index) => {
    if (end === undefined || part.items.length < part.tried) return []
    if (!('step' in end.item) || end.item.step.kind !== 'recovery') return []
    const where = index === 0 ? 'at the start' : 'at the end'
    return [
      problemAt(
        end.line,
        `a recovery stands between two items, not ${where} of a part: ${insteadOf(end.item.step)}`,
      ),
    ]
  })
}

function insteadOf({ move, amount }: Recovery): string {
  if (amount.kind === 'way' || amount.kind === 'same' || move === 'stand' || move === 'rest')
    return 'leave it out'
  const plain: Amount = amount.kind === 'distanceIn' ? { kind: 'distance', length: amount.length } : amount
  return `write ${printAmount(plain)} easy${move === 'walk' ? ', "walk"' : ''}`
}

/** A problem of a whole line. */
export function problemAt(line: Line, message: string, severity: Problem['severity'] = 'error'): Problem {
  return problemOf(line, { at: [0, line.text.length], message, fixed: false, severity }, null)
}

/** The part as the model has it. */
export function closedPart(part: OpenPart): Part {
  return { kind: part.kind, name: part.name, items: part.items.map(({ item }) => item) } as Part
}
