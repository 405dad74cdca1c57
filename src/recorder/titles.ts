import type { Step } from '../prescription/step.ts'
import type { WalkState } from '../session/state.ts'
import { partName } from '../summary/names.ts'
import { formatClock } from '../units/duration.ts'
import { formatMeters } from '../units/length.ts'

/** Which result this is, in a few words: "set 3 of 5", "split 2 of 5: 1 km", "repeat 3 of 6: 500 m". */
export function stepTitle(step: Step, unit: 'km' | 'mi' = 'km'): string {
  switch (step.kind) {
    case 'prep':
      return step.prep.name
    case 'fuel':
      return `fuel ${step.fuel.when}`
    case 'ramp':
      return 'ramp set'
    case 'recovery':
      return `${step.move}${amountOf(step, unit)}`
    case 'piece': {
      const amount = amountOf(step, unit).trim()
      if (step.of === 1) return amount
      return `${step.split ? 'split' : 'repeat'} ${step.number} of ${step.of}: ${amount}`
    }
    case 'set':
      return `${step.superset ? `${step.name}, ` : ''}set ${step.number} of ${step.of}`
  }
}

function amountOf(step: { meters: number | null; seconds: number | null }, unit: 'km' | 'mi'): string {
  if (step.meters !== null) return ` ${formatMeters(step.meters, unit)}`
  return step.seconds === null ? '' : ` ${formatClock(step.seconds)}`
}

/** The part as people call it: its name, else its kind. */
export function partTitle(state: WalkState, part: number): string {
  return partName(state.parts[part] ?? { kind: 'prep', name: null })
}

/** `a-b`, or one of them when they read the same. */
export function exactlyOne(from: string, to: string): string {
  return from === to ? from : `${from}-${to}`
}
