import { roundedPercentLoad } from '../figures/percentLoad.ts'
import { kilogramsOf, printMass } from '../units/mass.ts'
import { type Building, isSound, report } from './building.ts'
import type { LiftLine } from './buildLift.ts'
import type { Load } from './model.ts'
import type { LiftNode } from './syntax.ts'

/* What the clauses of a line of a lift part ask of the rest of the line. */

/** A pause stands inside cluster sets or between the exercises of a superset. */
export function checkPause(node: LiftNode, line: LiftLine, building: Building): void {
  const clause = node.clauses.find((each) => each.clause === 'pause')
  const hasClusters = line.exercises.some(({ sets }) => sets.some(({ dose }) => dose.kind === 'cluster'))
  if (clause === undefined || line.exercises.length > 1 || hasClusters) return
  report(
    building,
    clause.at,
    'a pause stands between the groups of a cluster set, such as 4 x (2+2), or between the exercises of a superset; rest is for after a set, tempo is for a pause in a repetition',
  )
}

/** Sets that begin by the clock have no rest besides. */
export function checkRest(node: LiftNode, building: Building): void {
  const every = node.clauses.find((each) => each.clause === 'every')
  if (every !== undefined && node.clauses.some((each) => each.clause === 'rest'))
    report(
      building,
      every.at,
      'with every a set begins by the clock and there is no rest besides: leave one out',
    )
}

/** A ramp goes up to a load that is known and more than where it begins. */
export function checkBuildFrom(node: LiftNode, line: LiftLine, building: Building): void {
  const clause = node.clauses.find((each) => each.clause === 'buildFrom')
  const [exercise] = line.exercises
  if (clause?.clause !== 'buildFrom' || exercise === undefined || !isSound(clause.value)) return
  const load = exercise.sets[0]?.load ?? null
  if (load === null || load.kind === 'bodyweight') {
    report(building, clause.at, 'build from needs a load in kg or lb to build up to, such as @ 90 kg')
    return
  }
  const working = load.kind === 'mass' ? massLoad(load) : percentLoad(exercise.name, load, building)
  if (working === null) {
    const max = `max: ${exercise.name} 100 kg`
    report(
      building,
      clause.at,
      `build from needs a load that is known: write the maximum above, such as ${max}`,
    )
    return
  }
  if (kilogramsOf(clause.value) >= kilogramsOf(working))
    report(
      building,
      clause.at,
      `build from ${printMass(clause.value)} must be less than the first load, ${printMass(working)}`,
    )
}

function massLoad(load: Load & { kind: 'mass' }) {
  return { value: load.from, unit: load.unit }
}

function percentLoad(name: string, load: Load & { kind: 'percent' }, building: Building) {
  const maximumKg = building.maximumKgOf(name)
  const unit = building.units.mass
  return maximumKg === null ? null : { value: roundedPercentLoad(maximumKg, load.from, unit), unit }
}
