import type { Building } from './building.ts'
import { isSound, report } from './building.ts'
import type { Load } from './model.ts'
import { warnOfLoad } from './oddValues.ts'
import { printSpan } from './printRun.ts'
import type { ExerciseNode, WeightNode } from './syntax.ts'

/** One load for each set; a single one holds for all. */
export function loadsOf(node: ExerciseNode, sets: number, building: Building): (Load | null)[] {
  const weights = withUnits(node.load?.weights ?? [])
  checkBare(weights, building)
  for (const weight of weights) warnOfLoad(weight, building)
  const loads = weights.map(loadOf)
  if (loads.length <= 1) return Array.from({ length: sets }, () => loads[0] ?? null)
  if (loads.length !== sets) {
    const places = node.load?.at ?? node.at
    const said = `${loads.length} loads for ${sets} ${sets === 1 ? 'set' : 'sets'}`
    report(building, places, `${said}: write one load, or one for each set`)
  }
  return Array.from({ length: sets }, (_, index) => loads[index] ?? loads.at(-1) ?? null)
}

/** In a list with slashes a bare number has the unit, or the %, of what stands right of it. */
function withUnits(weights: readonly WeightNode[]): WeightNode[] {
  const done: WeightNode[] = []
  for (const weight of [...weights].reverse()) {
    const right = done[0]
    if (weight.kind !== 'mass' || !weight.bare || right === undefined) done.unshift(weight)
    else if (right.kind === 'percent' && !weight.pair) done.unshift({ ...weight, kind: 'percent' })
    else if (right.kind === 'mass' && !right.bare) done.unshift({ ...weight, unit: right.unit, bare: false })
    else done.unshift(weight)
  }
  return done
}

const smallestBareLoad = 10

function checkBare(weights: readonly WeightNode[], building: Building): void {
  const [first] = weights
  if (first === undefined) return
  const isSmall = (weight: WeightNode) =>
    weight.kind === 'mass' && weight.bare && !weight.pair && weight.to <= smallestBareLoad
  if (!weights.every(isSmall) || !weights.every(isSound)) return
  const said = weights.map((weight) => (weight.kind === 'mass' ? printSpan(weight) : '')).join('/')
  const unit = building.units.mass
  const at = [first.at[0], weights.at(-1)?.at[1] ?? first.at[1]] as const
  report(building, at, `${said} can be a load or an effort: ${said} ${unit} or rpe ${said}?`)
}

function loadOf(weight: WeightNode): Load {
  switch (weight.kind) {
    case 'mass':
      return { kind: 'mass', from: weight.from, to: weight.to, unit: weight.unit, pair: weight.pair }
    case 'percent':
      return { kind: 'percent', from: weight.from, to: weight.to }
    case 'bodyweight':
      return { kind: 'bodyweight', added: weight.added, unit: weight.unit }
  }
}
