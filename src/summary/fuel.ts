import { atwaterKcal, runningKcal } from '../figures/fuel.ts'
import type { FuelResult } from '../session/result.ts'
import type { SessionState } from '../session/state.ts'
import { bodyMassOf, type SummaryContext } from './estimate.ts'
import type { Summary } from './model.ts'
import { worksDone } from './performed.ts'

type Eaten = NonNullable<Summary['fuel']['before']>

/** What was eaten, as it was typed, and what the running took, in kcal. Intake less expenditure is not a figure. */
export function fuelOf(state: SessionState, context: SummaryContext, runMeters: number): Summary['fuel'] {
  return {
    before: eatenOf(state, 'before'),
    between: eatenOf(state, 'between'),
    after: eatenOf(state, 'after'),
    runningKcal: runningKcalOf(state, context, runMeters),
  }
}

function eatenOf(state: SessionState, when: 'before' | 'between' | 'after'): Eaten | null {
  const prescribed = state.steps.flatMap((step) => {
    const recorded = step.kind === 'fuel' && step.fuel.when === when ? state.recorded.get(step.id) : undefined
    return recorded?.kind === 'fuel' ? [recorded.result] : []
  })
  const besides = state.meals.flatMap((meal) => (meal.when === when ? [meal.result] : []))
  const results = [...prescribed, ...besides]
  if (results.length === 0) return null
  const grams = {
    carbsG: knownSum(results, 'carbsG'),
    proteinG: knownSum(results, 'proteinG'),
    fatG: knownSum(results, 'fatG'),
  }
  return { ...grams, kcal: knownSum(results, 'kcal'), atwaterKcal: atwaterKcal(grams) }
}

/** Null when none is known. */
function knownSum(
  results: readonly FuelResult[],
  of: 'carbsG' | 'proteinG' | 'fatG' | 'kcal',
): number | null {
  const known = results.map((result) => result[of]).filter((value) => value !== null)
  return known.length === 0 ? null : known.reduce((sum, value) => sum + value, 0)
}

/** Null without running, with a distance or a body mass that is not known, or on a grade over 1 %. */
function runningKcalOf(
  state: SessionState,
  context: SummaryContext,
  meters: number,
): [number, number] | null {
  const bodyKg = bodyMassOf(state, context)
  const splits = worksDone(state, 'run').flatMap((work) => work.splits)
  const isUnknown = splits.some(({ step, result }) => result.meters === null || Math.abs(step.grade ?? 0) > 1)
  if (bodyKg === null || meters === 0 || isUnknown) return null
  const { from, to } = runningKcal(bodyKg, meters)
  return [from, to]
}
