import type { Building } from './building.ts'
import { warn } from './building.ts'
import type { PrepItem } from './model.ts'
import { warnOfDistance } from './oddValues.ts'
import { printQuoted } from './printRun.ts'
import type { PrepNode } from './syntax.ts'

export type PrepLine = Omit<PrepItem, 'line' | 'text'>

/** What stands on one line of a prep part. */
export function prepLineOf(node: PrepNode, building: Building): PrepLine {
  const { name } = node.name
  const moved = amountFirst(name)
  if (moved !== null && node.dose === null) {
    const written = [moved, ...printQuoted(node.texts.map((text) => text.text))].join(', ')
    warn(
      building,
      node.name.at,
      `this is read as a name without an amount; with one it is written ${written}`,
    )
  }
  const other = /\d+ ?(?:minutes?|seconds?|hours?|met(?:er|re)s?|reps?|times)$|\d+ sets(?: of)?$/i.exec(name)
  if (other !== null)
    warn(
      building,
      node.name.at,
      `this is read as a name, ${name}: an amount is written 3 min, 45 s, 20 m, 10 or 2 x 10`,
    )
  return {
    name,
    count: node.count?.value ?? null,
    amount: amountOf(node, building),
    side: node.side?.side ?? null,
    notes: node.texts.map((text) => text.text),
  }
}

function amountOf({ dose }: PrepNode, building: Building): PrepLine['amount'] {
  if (dose === null) return null
  if (dose.kind === 'reps') return { kind: 'reps', reps: dose.reps }
  if (dose.kind === 'time') return { kind: 'time', seconds: dose.seconds }
  warnOfDistance(dose, building)
  return { kind: 'distance', length: { value: dose.value, unit: dose.unit } }
}

/** `5 min bike` the other way round: `bike 5 min`; null where no amount stands first. */
function amountFirst(name: string): string | null {
  const amount =
    /^((?:\d{1,3} ?x ?)?\d{1,4}(?::\d\d)?(?: ?(?:s|sec|secs|min|mins|m|km))?) (?:of )?(\p{L}.*)$/u.exec(name)
  if (amount === null || (!/[:xsmk]/.test(amount[1] ?? '') && !/^\d+ \p{L}/u.test(name))) return null
  return `${amount[2]} ${amount[1]}`
}
