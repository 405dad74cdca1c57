import type { Length, Mass } from '../units/model.ts'
import type {
  Amount,
  Dose,
  Load,
  PartKind,
  PrepItem,
  Prescription,
  Recovery,
  Side,
  Span,
  Target,
} from './model.ts'

/* The grammar's result for one line: like the model, with the position of everything on the line and
 * a mark on invalid values. build*.ts turns it into the model. */

/** From and to, in the characters (UTF-16) of the line. */
export type Place = readonly [from: number, to: number]

/** What is wrong at a place of a line. `fixed`: the value was replaced with what was probably meant. */
export interface Mark {
  at: Place
  message: string
  fixed?: boolean
  /** It can be read, but is probably not meant. */
  isWarning?: true
  /** The whole line to write; null or absent if it is not known. */
  suggestion?: string | null
}

export function wholeOf(text: string): Place {
  return [0, text.length]
}

export interface Node {
  at: Place
  wrong?: Mark
}

/** A number, a name, a side or a text with its place. */
type Valued<T> = Node & { value: T }
type NumberNode = Valued<number> & { text: string }
type CountNode = Valued<number>
type NameNode = Valued<string>
export type TextNode = Valued<string>
type SideNode = Valued<Side>
type TimeNode = Node & { seconds: number }
export type SpanNode = Node & Span
export type LengthNode = Node & Length
/** `bare`: without a unit, so the file's unit applies. */
type MassNode = Node & Mass & { bare: boolean }

/** With the place of its length. */
type Measured<T> = T extends { length: Length } ? Omit<T, 'length'> & { length: LengthNode } : T
type AmountNode = Node & Measured<Amount>

/* Lines. */

export type PartNode = Node & { kind: PartKind; name: NameNode | null }

export type HeaderNode = Node &
  (
    | { header: 'date'; value: TextNode }
    | { header: 'units'; value: Node & Prescription['units'] }
    | { header: 'goal'; length: LengthNode; time: TimeNode; on: TextNode | null }
    | { header: 'athlete'; value: MassNode }
    | { header: 'bar'; name: NameNode | null; value: MassNode }
    | { header: 'lap'; value: LengthNode }
    | { header: 'max'; name: NameNode; value: MassNode }
    | { header: 'note'; text: string }
  )

export type PrepNode = Node & {
  name: NameNode
  count: CountNode | null
  amount: (Node & Measured<NonNullable<PrepItem['amount']>>) | null
  side: SideNode | null
  notes: TextNode[]
}

/* Run and cross. */

export type RecoveryNode = Node & Omit<Recovery, 'amount'> & { amount: Node & Measured<Recovery['amount']> }

/** `bare`: a pace without a unit, so the file's unit applies. */
export type TargetNode = Node & { bare?: boolean } & (
    | Exclude<Target, { kind: 'times' }>
    | { kind: 'times'; each: SpanNode[] }
  )
export type PaceNode = TargetNode & { kind: 'pace' }

export type IntervalNode = Node & {
  kind: 'piece'
  amounts: AmountNode[]
  target: TargetNode | null
  /** A second target, kept as a text. */
  extra?: string
}
export type GroupNode = Node & { kind: 'group'; steps: (WorkNode | RecoveryNode)[] }
type RunClauseNode = Node &
  (
    | { clause: 'recovery'; value: RecoveryNode }
    | { clause: 'split'; value: LengthNode }
    | { clause: 'negative'; value: true }
    | { clause: 'lane'; value: CountNode }
    | { clause: 'grade'; value: NumberNode }
    | { clause: 'heartRate'; value: SpanNode | (Node & { under: number }) }
    | { clause: 'every'; value: TimeNode }
    | { clause: 'text'; value: TextNode }
  )
export type WorkNode = Node & {
  kind: 'work'
  times: CountNode | null
  body: IntervalNode | GroupNode
  clauses: RunClauseNode[]
}

/* Lift. */

/** Of rounds against the clock. */
type StationNode = Node & {
  name: NameNode
  dose: Node &
    (
      | { kind: 'time'; seconds: number }
      | { kind: 'distance'; length: LengthNode }
      | Extract<Dose, { kind: 'reps' }>
    )
  side: SideNode | null
  load: WeightNode | null
}
export type DoseNode = Node &
  (
    | { kind: 'drop'; reps: CountNode[]; lower: [] }
    | { kind: 'complex'; lifts: (Node & { name: NameNode; reps: CountNode })[] }
    | { kind: 'roundsIn'; seconds: number; stations: StationNode[] }
    | { kind: 'forTime'; rounds: CountNode; stations: StationNode[] }
    | { kind: 'cluster'; groups: Valued<number | 'max'>[] }
    | { kind: 'time'; seconds: number; secondsInUnit?: number }
    | { kind: 'distance'; length: LengthNode }
    | Extract<Dose, { kind: 'max' } | { kind: 'reps' } | { kind: 'atLeast' }>
  )
/** `bare`: a mass without a unit, so the file's unit applies. */
export type WeightNode = Node & Load & { bare?: boolean }
export type LoadNode = Node & { weights: WeightNode[]; rpe: SpanNode | null }
export type ExerciseNode = Node & {
  name: NameNode
  /** Without `sets`, one set for each dose. */
  scheme: Node & { sets: CountNode | null; doses: DoseNode[] }
  side: SideNode | null
  load: LoadNode | null
  height?: (Node & { value: number; unit: 'cm' | 'in' }) | null
  /** Further schemes on the same line. `less`: percent off the first scheme's load. */
  more?: (Node & { scheme: ExerciseNode['scheme']; load: LoadNode | (Node & { less: number }) | null })[]
  /** Of a circuit. */
  isStation?: boolean
}
type LiftClauseNode = Node &
  (
    | { clause: 'pause'; value: TimeNode }
    | { clause: 'every'; value: TimeNode }
    | { clause: 'rest'; value: SpanNode }
    | { clause: 'side'; value: SideNode }
    | { clause: 'tempo' | 'text'; value: TextNode }
    | { clause: 'buildFrom'; value: MassNode }
  )
/** `inTurn`: each start is for the next station. */
export type LiftNode = Node & { exercises: ExerciseNode[]; clauses: LiftClauseNode[]; inTurn?: boolean }

/* Fuel. */

export type FuelNode = Node & {
  when: 'before' | 'between' | 'after'
  seconds: TimeNode | null
  bits: (
    | { bit: 'carbs' | 'protein' | 'fat' | 'kcal'; value: NumberNode }
    | { bit: 'text'; value: TextNode }
  )[]
}

/* From the syntax to the model. */

/** What only the builders need. */
type Hidden = 'at' | 'wrong' | 'bare' | 'secondsInUnit'
type Bare<N> = N extends readonly (infer E)[]
  ? Bare<E>[]
  : N extends Node
    ? N extends Valued<infer V>
      ? N extends { unit: unknown }
        ? BareFields<N>
        : V
      : BareFields<N>
    : N
type BareFields<N> = { [K in Exclude<keyof N, Hidden>]: Bare<N[K]> }

/** Strips places and marks from a node, which leaves the model; a node of one value becomes that value. */
export function bare<N>(node: N): Bare<N> {
  const bareOf = (value: unknown): unknown => {
    if (typeof value !== 'object' || value === null) return value
    if (Array.isArray(value)) return value.map(bareOf)
    if ('value' in value && !('unit' in value)) return value.value
    const fields = Object.entries(value).filter(([key]) => !hidden.includes(key))
    return Object.fromEntries(fields.map(([key, inner]) => [key, bareOf(inner)]))
  }
  return bareOf(node) as Bare<N>
}

const hidden: readonly string[] = ['at', 'wrong', 'bare', 'secondsInUnit'] satisfies Hidden[]

/** Every mark in the syntax of a line, in order, each once. */
export function marksIn(syntax: unknown): Mark[] {
  const marks = new Set<Mark>()
  const visit = (value: unknown): void => {
    if (typeof value !== 'object' || value === null) return
    if ('wrong' in value && value.wrong !== undefined) marks.add(value.wrong as Mark)
    for (const [key, inner] of Object.entries(value)) if (key !== 'wrong' && key !== 'at') visit(inner)
  }
  visit(syntax)
  return [...marks].sort((a, b) => a.at[0] - b.at[0])
}

/** Whether a value can be judged further: it is as written, or as probably meant. */
export function isSound(node: Node): boolean {
  return node.wrong === undefined || node.wrong.fixed === true
}

/** What the builders of items need to know about the file, and where they report problems. */
export interface Building {
  units: Prescription['units']
  goal: Prescription['goal']
  lapMeters: number
  /** The mass that a percentage of a known maximum is; any other load as it is. */
  knownLoad(load: Load, name: string): Load
  /** Kind and name of the item's part. */
  part: { kind: string; name: string | null }
  found: Mark[]
  /** Reports what cannot be right. `fixed`: the item was built as it was probably meant. */
  report(at: Place, message: string, how?: { fixed: boolean }): void
  warn(at: Place, message: string): void
}

/** The first clause of a kind. */
export function clauseOf<C extends { clause: string }, K extends C['clause']>(
  clauses: readonly C[],
  kind: K,
): Extract<C, { clause: K }> | undefined {
  return clauses.find((each) => each.clause === kind) as Extract<C, { clause: K }> | undefined
}

/** Reports a second clause of the same kind, except texts. */
export function reportDuplicates(building: Building, clauses: readonly (Node & { clause: string })[]): void {
  const once = new Set<string>()
  for (const { clause, at } of clauses) {
    if (clause !== 'text' && once.has(clause)) building.report(at, 'this clause is given twice: remove one')
    once.add(clause)
  }
}
