import type { LengthUnit, MassUnit } from '../units/model.ts'

/* The grammar's result for one line: like the model, with the position of everything on the line and
 * a mark on invalid values. build*.ts turns it into the model. */

/** The kinds of parts, in the order in which messages name them. The grammar lists them too. */
export const partKinds = ['prep', 'run', 'cross', 'lift', 'fuel'] as const
type PartKind = (typeof partKinds)[number]

/** Done on one side after the other. */
export const sides = ['each side', 'each arm', 'each leg'] as const
type Side = (typeof sides)[number]

/** As a sentence names them: `prep, run, cross, lift or fuel`. */
export const anyPartKind = `${partKinds.slice(0, -1).join(', ')} or ${partKinds.at(-1)}`

/** From and to, in the characters (UTF-16) of the line. */
export type Place = readonly [from: number, to: number]

/** `fixed`: the value was replaced with what was probably meant. */
export interface Mark {
  at: Place
  message: string
  fixed: boolean
  /** The whole line to write; null or absent if it is not known. */
  suggestion?: string | null
  /** Words that nothing in the notation begins with: perhaps a note. */
  ownWords?: string
  /** The header that the time of a race belongs in: `goal: 5 km in 20:00`. */
  goal?: string
}

export interface Node {
  at: Place
  wrong?: Mark
}

type Valued<T> = Node & { value: T }
type NumberNode = Valued<number> & { text: string }
type CountNode = Valued<number>
type TimeNode = Node & { seconds: number }
type LengthNode = Node & { value: number; unit: LengthUnit }
type MassNode = Node & { value: number; unit: MassUnit; bare: boolean }
export type SpanNode = Node & { from: number; to: number }
export type TextNode = Node & { text: string }
type NameNode = Node & { name: string }
type SideNode = Node & { side: Side }

export type AmountNode = ({ kind: 'time' } & TimeNode) | ({ kind: 'distance' } & LengthNode)

// ---- lines -----------------------------------------------------------------------------------

export type PartNode = Node & { kind: PartKind; name: NameNode | null }

export type HeaderNode = Node &
  (
    | { header: 'date'; value: TextNode }
    | { header: 'units'; value: Node & { distance: 'km' | 'mi'; mass: MassUnit } }
    | { header: 'goal'; length: LengthNode; time: TimeNode; on: TextNode | null }
    | { header: 'athlete'; value: MassNode }
    | { header: 'bar'; name: NameNode | null; value: MassNode }
    | { header: 'lap'; value: LengthNode }
    | { header: 'max'; name: NameNode; value: MassNode }
    | { header: 'note'; text: string }
  )

// ---- prep ------------------------------------------------------------------------------------

export type PrepNode = Node & {
  name: NameNode
  count: CountNode | null
  dose: AmountNode | (Node & { kind: 'reps'; reps: number }) | null
  side: SideNode | null
  texts: TextNode[]
}

// ---- run and cross ---------------------------------------------------------------------------

type WayNode = Node & ({ kind: 'way'; way: 'back' | 'down' } | { kind: 'same' })
type DistanceInNode = LengthNode & { kind: 'distanceIn'; seconds: number }
export type RecoveryNode = Node & {
  node: 'recovery'
  move: 'jog' | 'walk' | 'stand' | 'rest'
  amount: AmountNode | DistanceInNode | WayNode
}

export type TargetNode =
  /** `bare`: without a unit, so the file's unit applies. */
  | ({ kind: 'pace'; per: 'km' | 'mi' | '500 m'; bare?: boolean } & SpanNode)
  | ({ kind: 'speed'; unit: 'km/h' | 'mph' } & SpanNode)
  | ({ kind: 'goal' } & Node)
  | ({ kind: 'time' | 'rpe' | 'heartRate' } & SpanNode)
  | ({ kind: 'times'; each: SpanNode[] } & Node)
  | ({ kind: 'progression'; first: number; last: number; per: 'km' | 'mi' | '500 m' } & Node)
  | ({ kind: 'heartRateUnder'; under: number } & Node)
  | ({ kind: 'word'; word: string } & Node)

export type IntervalNode = Node & {
  node: 'interval'
  amounts: AmountNode[]
  target: TargetNode | null
  /** A second target, a word, kept as a text. */
  extra?: string
  /** The goal that the time of a race would make; null if it is a pace or has no distance. */
  goal?: { seconds: number; text: string } | null
}
export type GroupNode = Node & { node: 'group'; steps: (WorkNode | RecoveryNode)[] }
export type RunClauseNode = Node &
  (
    | { clause: 'recovery'; value: RecoveryNode }
    | { clause: 'split'; value: LengthNode }
    | { clause: 'negative'; value: Node }
    | { clause: 'lane'; value: CountNode }
    | { clause: 'grade'; value: NumberNode }
    | { clause: 'heartRate'; value: SpanNode | (Node & { under: number }) }
    | { clause: 'rpe'; value: SpanNode }
    | { clause: 'every'; value: TimeNode }
    | { clause: 'text'; value: TextNode }
  )
export type WorkNode = Node & {
  node: 'work'
  times: CountNode | null
  body: IntervalNode | GroupNode
  clauses: RunClauseNode[]
}

// ---- lift ------------------------------------------------------------------------------------

export type StationNode = Node & {
  dose: DoseNode
  name: NameNode
  side: SideNode | null
  load: LoadNode | null
}
export type DoseNode = Node &
  (
    | { kind: 'drop'; reps: Valued<number>[] }
    | { kind: 'complex'; lifts: (Node & { name: NameNode; reps: Valued<number> })[] }
    | { kind: 'roundsIn'; time: TimeNode; stations: StationNode[] }
    | { kind: 'forTime'; rounds: CountNode; stations: StationNode[] }
    | { kind: 'cluster'; groups: Valued<number | 'max'>[] }
    | { kind: 'time'; seconds: number; secondsInUnit?: number }
    | { kind: 'distance'; value: number; unit: LengthUnit }
    | { kind: 'max' }
    | { kind: 'reps'; from: number; to: number }
    | { kind: 'atLeast'; reps: number }
  )
export type WeightNode = Node &
  (
    | { kind: 'mass'; from: number; to: number; unit: MassUnit; bare: boolean; pair: boolean }
    | { kind: 'percent'; from: number; to: number }
    | { kind: 'bodyweight' | 'last'; added: number; unit: MassUnit }
  )
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
export type LiftClauseNode = Node &
  (
    | { clause: 'pause' | 'every'; value: TimeNode }
    | { clause: 'rest'; value: SpanNode }
    | { clause: 'side'; value: SideNode }
    | { clause: 'tempo' | 'text'; value: TextNode }
    | { clause: 'buildFrom'; value: MassNode }
    | { clause: 'rpe'; value: SpanNode }
  )
/** `inTurn`: each start is for the next station, `starts` in total. */
export type LiftNode = Node & { exercises: ExerciseNode[]; clauses: LiftClauseNode[]; inTurn?: boolean }

// ---- fuel ------------------------------------------------------------------------------------

type FuelBitNode =
  | { bit: 'carbs' | 'protein' | 'fat' | 'kcal'; value: NumberNode }
  | { bit: 'text'; value: TextNode }
export type FuelNode = Node & {
  when: 'before' | 'between' | 'after'
  seconds: TimeNode | null
  bits: FuelBitNode[]
}
