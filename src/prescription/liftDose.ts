import type { Dose } from './model.ts'
import type { DoseNode } from './syntax.ts'

/** Bare numbers before a time or distance at the end of a slash list have its unit: 40/30 s. */
export function withOneUnit(nodes: readonly DoseNode[]): Dose[] {
  const last = nodes.at(-1)
  return nodes.map((node) => {
    if (node.kind !== 'reps' || node.from !== node.to) return doseOf(node)
    if (last?.kind === 'time') return { kind: 'time', seconds: node.from * (last.secondsInUnit ?? 1) }
    if (last?.kind === 'distance') return { kind: 'distance', length: { value: node.from, unit: last.unit } }
    return doseOf(node)
  })
}

function doseOf(node: DoseNode): Dose {
  switch (node.kind) {
    case 'reps':
      return { kind: 'reps', from: node.from, to: node.to }
    case 'atLeast':
      return { kind: 'atLeast', reps: node.reps }
    case 'cluster':
      return { kind: 'cluster', groups: node.groups.map((group) => group.value) }
    case 'max':
      return { kind: 'max' }
    case 'time':
      return { kind: 'time', seconds: node.seconds }
    case 'distance':
      return { kind: 'distance', length: { value: node.value, unit: node.unit } }
  }
}
