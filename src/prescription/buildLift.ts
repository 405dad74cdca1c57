import { type Building, onlyOnce, warn } from './building.ts'
import { checkBuildFrom, checkPause, checkRest } from './checkLift.ts'
import { withOneUnit } from './liftDose.ts'
import { loadsOf } from './liftLoad.ts'
import type { LiftItem } from './model.ts'
import { warnOfDistance, warnOfSets } from './oddValues.ts'
import type { DoseNode, ExerciseNode, LiftClauseNode, LiftNode } from './syntax.ts'

type Exercise = LiftItem['exercises'][number]
export type LiftLine = Omit<LiftItem, 'line' | 'text'>

/** What stands on one line of a lift part. */
export function liftLineOf(node: LiftNode, building: Building): LiftLine {
  onlyOnce(building, node.clauses)
  const line: LiftLine = {
    exercises: node.exercises.map((each) => exerciseOf(each, building)),
    pause: null,
    rest: null,
    every: null,
    tempo: null,
    buildFrom: null,
    notes: [],
  }
  for (const clause of node.clauses) takeClause(line, clause)
  checkPause(node, line, building)
  checkRest(node, building)
  checkBuildFrom(node, line, building)
  return line
}

function takeClause(line: LiftLine, clause: LiftClauseNode): void {
  switch (clause.clause) {
    case 'pause':
    case 'every':
      line[clause.clause] = clause.value.seconds
      break
    case 'rest':
      line.rest = { from: clause.value.from, to: clause.value.to }
      break
    case 'side':
      for (const exercise of line.exercises) exercise.side ??= clause.value.side
      break
    case 'tempo':
      line.tempo = clause.value.text
      break
    case 'buildFrom':
      line.buildFrom = { value: clause.value.value, unit: clause.value.unit }
      break
    case 'text':
      line.notes.push(clause.value.text)
      break
    case 'rpe':
      for (const set of line.exercises[0]?.sets ?? [])
        set.rpe ??= { from: clause.value.from, to: clause.value.to }
  }
}

function exerciseOf(node: ExerciseNode, building: Building): Exercise {
  const { sets: count, doses } = node.scheme
  const all = count === null ? doses : Array.from({ length: count.value }, () => doses[0] as DoseNode)
  const loads = loadsOf(node, all.length, building)
  const mass = /\d+(?:\.\d+)? ?(?:kgs?|lbs?)\b/i.exec(node.name.name)
  if (node.isStation && /\d/.test(node.name.name))
    warn(
      building,
      node.name.at,
      `this is read as one name, ${node.name.name}: between the exercises of a circuit stands a comma`,
    )
  if (/(?:^| )e[1-9]?mom(?: |$)/i.test(node.name.name))
    warn(
      building,
      node.name.at,
      `this is read as a name, ${node.name.name}: every minute is written behind a comma, such as clean 10 x 2, every 1:00`,
    )
  if (mass !== null)
    warn(
      building,
      node.name.at,
      `this is read as a name with ${mass[0]} in it; a load stands behind the sets: 3 x 8 @ ${mass[0]}`,
    )
  const rpe = node.load?.rpe ? { from: node.load.rpe.from, to: node.load.rpe.to } : null
  const [dose] = doses
  const reps = dose?.kind === 'reps' && dose.from === dose.to ? dose.from : null
  warnOfSets(node.scheme, node.name.name, node.isStation ? null : reps, building)
  for (const each of doses) if (each.kind === 'distance') warnOfDistance(each, building)
  const dosesOf = withOneUnit(all)
  return {
    name: node.name.name,
    sets: dosesOf.map((dose, index) => ({ dose, load: loads[index] ?? null, rpe })),
    side: node.side?.side ?? null,
  }
}
