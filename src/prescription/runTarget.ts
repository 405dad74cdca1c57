import { printDuration } from '../units/duration.ts'
import { metersOf } from '../units/length.ts'
import { metersInPaceUnit, metersPerSecondOf, printPace } from '../units/pace.ts'
import type { Building } from './building.ts'
import { isSound, report } from './building.ts'
import type { Amount, Target } from './model.ts'
import { warnOfPace } from './oddValues.ts'
import { implausibleSpeed, implausibleTime, limitsOf } from './plausible.ts'
import { printAmount, printSpan } from './printRun.ts'
import type { PieceNode, TargetNode } from './syntax.ts'

/** The target of a piece; one that nobody can hold is reported. */
export function targetOf(node: TargetNode, piece: PieceNode, amounts: Amount[], building: Building): Target {
  const limits = limitsOf(building.part.kind)
  switch (node.kind) {
    case 'word':
      return { kind: 'word', word: node.word } as Target
    case 'goal':
      if (building.goal === null)
        report(building, node.at, 'this day has no goal: write one above, such as goal: 10 km in 40:00')
      return { kind: 'goal' }
    case 'rpe':
    case 'heartRate':
      return { kind: node.kind, from: node.from, to: node.to }
    case 'time':
      return timeTargetOf(node, piece, amounts, building)
    case 'pace': {
      const { from, to, per } = node
      const said = `a pace of ${printPace({ from, to, per })}`
      const meters = metersInPaceUnit[per]
      const message =
        implausibleSpeed(said, meters / from, limits) ?? implausibleSpeed(said, meters / to, limits)
      if (message !== null && isSound(node)) report(building, node.at, message)
      if (message === null) warnOfPace(node, piece, building)
      return { kind: 'pace', from, to, per }
    }
    case 'speed': {
      const { from, to, unit } = node
      const said = `${printSpan(node)} ${unit}`
      const [slow, fast] = [metersPerSecondOf(from, unit), metersPerSecondOf(to, unit)]
      const message = implausibleSpeed(said, slow, limits) ?? implausibleSpeed(said, fast, limits)
      if (message !== null && isSound(node)) report(building, node.at, message)
      return { kind: 'speed', from, to, unit }
    }
  }
}

function timeTargetOf(
  node: TargetNode & { kind: 'time' | 'rpe' | 'heartRate' },
  piece: PieceNode,
  amounts: Amount[],
  building: Building,
): Target {
  const target: Target = { kind: 'time', from: node.from, to: node.to }
  const meters = amounts.map((each) =>
    each.kind === 'distance' ? metersOf(each.length, building.lapMeters) : 0,
  )
  if (meters.includes(0)) {
    report(
      building,
      node.at,
      `a piece of ${amounts.map(printAmount).join('-')} has its time already: a target in ${printDuration(node.from)} needs a distance`,
    )
    return target
  }
  if (!isSound(node) || !piece.amounts.every(isSound)) return target
  const total = meters.reduce((sum, each) => sum + each, 0)
  const what = amounts.map(printAmount).join(' and ')
  const limits = limitsOf(building.part.kind)
  const [low, high] = [
    implausibleTime(what, total, node.from, limits),
    implausibleTime(what, total, node.to, limits),
  ]
  const found = low ?? high
  if (found === null) return target
  const meant = [low === null ? node.from : low.meant, high === null ? node.to : high.meant]
  const [from, to] = meant
  const fixed = from != null && to != null && from <= to
  report(building, node.at, found.message, fixed)
  return fixed ? { kind: 'time', from, to } : target
}
