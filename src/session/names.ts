import {
  type ExpandedWork,
  type IntervalStep,
  isSameItem,
  isSet,
  type SetStep,
  type Step,
} from '../prescription/step.ts'
import { formatClock } from '../units/duration.ts'
import { formatAsWritten } from '../units/length.ts'
import { joined } from '../units/lists.ts'
import type { DistanceUnit } from '../units/model.ts'
import type { SessionState } from './state.ts'

/* What steps, works and items are called. */

/** Which result this is, in a few words: "set 3 of 5", "split 2 of 5: 1 km", "repeat 3 of 6: 500 m". */
export function stepTitle(state: SessionState, step: Step): string {
  const unit = state.prescription.units.distance
  switch (step.kind) {
    case 'warm-up':
      return 'warm-up set'
    case 'recovery':
      return joined(' ', [step.move, step.way, amountText(step, unit)])
    case 'interval': {
      const amount = amountText(step, unit)
      return step.of === 1 ? amount : `${placeOf(step)}: ${amount}`
    }
    case 'set':
      return `${step.superset ? `${step.name}, ` : ''}${placeOf(step)}`
    default:
      return stepName(state, step)
  }
}

/** Which one of its work or exercise it is: `set 3 of 5`, `repeat 3 of 6`, `split 2 of 5`. */
export function placeOf(step: IntervalStep | SetStep): string {
  const noun = step.kind === 'set' ? 'set' : step.split ? 'split' : 'repeat'
  return `${noun} ${step.number} of ${step.of}`
}

/** Its distance, else its time: `500 m`, `3:00`; empty without either. */
export function amountText(step: Pick<IntervalStep, 'meters' | 'seconds'>, unit: DistanceUnit): string {
  if (step.meters !== null) return formatAsWritten(step.meters, unit)
  return step.seconds === null ? '' : formatClock(step.seconds)
}

/** The short name of a work: its line up to the first comma outside brackets. */
export function workName(text: string): string {
  let depth = 0
  for (const [index, character] of [...text].entries()) {
    if (character === '(') depth++
    else if (character === ')') depth--
    else if ((character === ',' || character === '"') && depth <= 0)
      return [...text].slice(0, index).join('').trim() || text
  }
  return text
}

/** The short name of a step: of a set its prescribed exercise, of an interval its work. */
export function stepName(state: SessionState, step: Step): string {
  switch (step.kind) {
    case 'prep':
      return step.prep.name
    case 'fuel':
      return `fuel ${step.fuel.when}`
    case 'set':
      return step.insteadOf ?? step.name
    case 'warm-up':
      return step.name
    case 'recovery':
      return step.move
    case 'interval':
      return workName(workOf(state, step)?.text ?? '')
  }
}

export function workOf({ parts }: SessionState, step: IntervalStep): ExpandedWork | undefined {
  return parts[step.part]?.items[step.item]?.works[step.work]
}

/** The short name of an item of the day: its exercises, its first work, or the meal or preparation. */
export function itemName(state: SessionState, part: number, item: number): string {
  const steps = state.steps.filter((each) => isSameItem(each, { part, item }))
  const sets = steps.filter(isSet)
  const [first] = steps
  if (sets.length > 0) return [...new Set(sets.map((set) => stepName(state, set)))].join(' + ')
  if (first?.kind === 'prep' || first?.kind === 'fuel') return stepName(state, first)
  return workName(lineText(state, { part, item }))
}

/** The line of the day that a step comes from, as written. */
export function lineText({ parts }: SessionState, { part, item }: Pick<Step, 'part' | 'item'>): string {
  return parts[part]?.items[item]?.text ?? ''
}
