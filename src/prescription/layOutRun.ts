import { lapMetersOfLane } from '../figures/lanes.ts'
import { metersOf } from '../units/length.ts'
import { recoverySecondsPerMeter } from './expectedStep.ts'
import { type HandedDown, handedDown, nothingHandedDown } from './handedDown.ts'
import type { Amount, Piece, Prescription, Recovery, RunItem, Span, Work } from './model.ts'
import { lapMetersOf, pieceTargetOf } from './pieceTarget.ts'
import { printWork } from './print.ts'
import type { LaidOutItem, LaidOutWork, PieceStep, RecoveryStep } from './step.ts'
import { stretchesOf } from './stretches.ts'

/** One line of a run or cross part as the steps it is walked in. */
export function layOutRunItem(
  item: RunItem,
  place: { part: number; item: number; treadmill: boolean },
  prescription: Prescription,
): LaidOutItem {
  const row = new Row(place, prescription)
  if (item.step.kind === 'recovery') row.recover(item.step, lapMetersOf(prescription))
  else {
    row.walk(item.step, nothingHandedDown)
    row.dropTrailingRecoveries()
  }
  const leaves = row.leaves()
  const works: LaidOutWork[] = leaves.map((leaf) => ({
    text: leaves.length === 1 ? item.text : printWork(leaf.work),
    nominalMeters: leaf.nominalMeters,
    judgedAgainstGoal:
      ['pace', 'speed', 'goal', 'time'].includes(leaf.piece.target?.kind ?? '') &&
      Math.abs(leaf.grade ?? 0) <= 1,
    repeats: leaf.steps.filter((step) => step.endsPiece).length > 1,
  }))
  return { text: item.text, line: item.line, steps: row.finished(), works }
}

interface Leaf {
  work: Work
  piece: Piece
  grade: number | null
  nominalMeters: number | null
  steps: PieceStep[]
}

/** Collects the steps of one item in the order in which they are run. */
class Row {
  private readonly steps: (PieceStep | RecoveryStep)[] = []
  private readonly found = new Map<Work, Leaf>()
  private pieces = 0
  private recoveries = 0

  constructor(
    private readonly place: { part: number; item: number; treadmill: boolean },
    private readonly prescription: Prescription,
  ) {}

  leaves(): Leaf[] {
    return [...this.found.values()]
  }

  /** Goes through a work as often as it is repeated, recoveries between. */
  walk(work: Work, outer: HandedDown): void {
    const handed = handedDown(work, outer)
    const lap = handed.lane ? lapMetersOfLane(handed.lane) : lapMetersOf(this.prescription)
    const times = work.times ?? 1
    for (let time = 1; time <= times; time++) {
      if (work.body.kind === 'piece') this.piece(work, work.body, handed, lap)
      else
        for (const step of work.body.steps) {
          if (step.kind === 'recovery') this.recover(step, lap)
          else this.walk(step, handed)
        }
      if (work.recovery && (time < times || work.times === null)) this.recover(work.recovery, lap)
    }
  }

  private piece(work: Work, piece: Piece, handed: HandedDown, lap: number): void {
    const leaf = this.leafOf(work, piece, handed, lap)
    const lengths = piece.amounts.map((amount) => metersOfAmount(amount, lap))
    const whole = lengths.every((meters) => meters !== null)
      ? lengths.reduce((sum: number, meters) => sum + (meters ?? 0), 0)
      : null
    piece.amounts.forEach((amount, rung) => {
      const meters = lengths[rung] ?? null
      const stretches = stretchesOf(meters, handed.split ? metersOf(handed.split, lap) : null)
      stretches.forEach((stretch, index) => {
        const target = pieceTargetOf(piece.target, handed.heartRate, stretch.meters, whole, this.prescription)
        this.pieces += 1
        const step: PieceStep = {
          id: this.id('p', this.pieces),
          part: this.place.part,
          item: this.place.item,
          kind: 'piece',
          work: this.leaves().indexOf(leaf),
          number: leaf.steps.length + 1,
          of: 0,
          meters: stretch.meters,
          seconds: amount.kind === 'time' ? amount.seconds : null,
          target,
          split: stretches.length > 1,
          endsPiece: index === stretches.length - 1,
          short: stretch.short,
          walksItself: false,
          grade: handed.grade,
          lane: handed.lane,
          negative: handed.negative,
          treadmillSpeed:
            this.place.treadmill && piece.target?.kind === 'speed' ? speedOf(target?.secondsPerKm) : null,
          notes: handed.notes,
        }
        leaf.steps.push(step)
        this.steps.push(step)
      })
      const rungFollows = rung < piece.amounts.length - 1
      if (rungFollows && work.recovery) this.recover(work.recovery, lap)
    })
  }

  private leafOf(work: Work, piece: Piece, handed: HandedDown, lap: number): Leaf {
    const known = this.found.get(work)
    if (known) return known
    const lengths = new Set(piece.amounts.map((amount) => metersOfAmount(amount, lap)))
    const only = lengths.size === 1 ? (metersOfAmount(piece.amounts[0] as Amount, lap) ?? null) : null
    const splitMeters = handed.split ? metersOf(handed.split, lap) : null
    const nominalMeters = splitMeters !== null && only !== null ? Math.min(splitMeters, only) : only
    const leaf: Leaf = { work, piece, grade: handed.grade, nominalMeters, steps: [] }
    this.found.set(work, leaf)
    return leaf
  }

  recover(recovery: Recovery, lap: number): void {
    this.recoveries += 1
    const { amount, move } = recovery
    const meters = amount.kind === 'distance' ? metersOf(amount.length, lap) : null
    const seconds = amount.kind === 'time' ? amount.seconds : null
    this.steps.push({
      id: this.id('j', this.recoveries),
      part: this.place.part,
      item: this.place.item,
      kind: 'recovery',
      move,
      meters,
      seconds,
      way: amount.kind === 'way' ? amount.way : null,
      expectedSeconds: seconds ?? (meters === null ? null : meters * recoverySecondsPerMeter[move]),
      walksItself: false,
      countsWith: this.lastPiece().map((step) => step.id),
    })
  }

  /** The steps of the piece that was run last: all of its splits. */
  private lastPiece(): PieceStep[] {
    const splits: PieceStep[] = []
    for (let index = this.steps.length - 1; index >= 0; index--) {
      const step = this.steps[index]
      if (step?.kind !== 'piece') continue
      if (step.endsPiece && splits.length > 0) break
      splits.unshift(step)
    }
    return splits
  }

  /** A recovery that would end the item is left out. */
  dropTrailingRecoveries(): void {
    while (this.steps.at(-1)?.kind === 'recovery') this.steps.pop()
  }

  /** The steps, with the counts and the pieces that follow each other by themselves filled in. */
  finished(): (PieceStep | RecoveryStep)[] {
    for (const leaf of this.found.values()) for (const step of leaf.steps) step.of = leaf.steps.length
    this.steps.forEach((step, index) => {
      const after = this.steps[index + 1]
      if (step.kind === 'piece') {
        const goesOn = after?.kind === 'piece' && after.work !== step.work
        if (goesOn && step.seconds !== null && after.seconds !== null) walksItself(step, after)
        return
      }
      const before = this.steps[index - 1]
      if (before?.kind !== 'piece' || before.seconds === null || step.seconds === null) return
      if (after?.kind === 'piece' && after.seconds !== null) walksItself(before, step, after)
    })
    return this.steps
  }

  private id(letter: string, number: number): string {
    return `${this.place.part + 1}.${this.place.item + 1}.${letter}${number}`
  }
}

/** Steps by time, one after the other: nobody reaches for a key from a belt. */
function walksItself(...steps: (PieceStep | RecoveryStep)[]): void {
  for (const step of steps) step.walksItself = true
}

function metersOfAmount(amount: Amount, lap: number): number | null {
  return amount.kind === 'distance' ? metersOf(amount.length, lap) : null
}

/** Metres per second in the middle of a range of seconds per kilometre. */
function speedOf(secondsPerKm: Span | null | undefined): number | null {
  return secondsPerKm ? 2000 / (secondsPerKm.from + secondsPerKm.to) : null
}
