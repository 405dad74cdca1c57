import { nothingInherited } from './inherited.ts'
import type { Prescription, RunItem } from './model.ts'
import { lapMetersOf } from './pieceTarget.ts'
import { printWork } from './print.ts'
import { RunRow } from './runRow.ts'
import type { ExpandedItem, ExpandedWork, PieceStep, RecoveryStep } from './step.ts'

/** One line of a run or cross part as the steps it is walked in. */
export function expandRunItem(
  item: RunItem,
  place: { part: number; item: number; treadmill: boolean },
  prescription: Prescription,
): ExpandedItem {
  const row = new RunRow(place, prescription)
  if (item.step.kind === 'recovery') row.recover(item.step, lapMetersOf(prescription))
  else {
    row.walk(item.step, nothingInherited)
    row.dropTrailingRecoveries()
  }
  const leaves = row.leaves()
  for (const { steps } of leaves) for (const step of steps) step.of = steps.length
  markThoseThatWalkThemselves(row.steps)
  const works: ExpandedWork[] = leaves.map((leaf) => ({
    text: leaves.length === 1 ? item.text : printWork(leaf.work),
    nominalMeters: leaf.nominalMeters,
    judgedAgainstGoal:
      ['pace', 'speed', 'goal', 'time'].includes(leaf.piece.target?.kind ?? '') &&
      Math.abs(leaf.grade ?? 0) <= 1,
    repeats: leaf.steps.filter((step) => step.endsPiece).length > 1,
  }))
  return { text: item.text, line: item.line, steps: row.steps, works }
}

/** Steps by time follow each other by themselves: nobody reaches for a key from a belt. */
function markThoseThatWalkThemselves(steps: readonly (PieceStep | RecoveryStep)[]): void {
  steps.forEach((step, index) => {
    const after = steps[index + 1]
    if (step.kind === 'piece') {
      const goesOn = after?.kind === 'piece' && after.work !== step.work
      if (goesOn && step.seconds !== null && after.seconds !== null) walksItself(step, after)
      return
    }
    const before = steps[index - 1]
    if (before?.kind !== 'piece' || before.seconds === null || step.seconds === null) return
    if (after?.kind === 'piece' && after.seconds !== null) walksItself(before, step, after)
  })
}

function walksItself(...steps: (PieceStep | RecoveryStep)[]): void {
  for (const step of steps) step.walksItself = true
}
