import { roundedPercentLoad } from '../figures/percentLoad.ts'
import type { SetStep } from '../prescription/step.ts'
import { maximumOf } from '../session/prompt.ts'
import type { LiftedLoad } from '../session/result.ts'
import type { SessionState } from '../session/state.ts'
import { kilogramsOf } from '../units/mass.ts'
import { loadText, prescribedLoadText } from './loadText.ts'
import { kilogramsOfLoad } from './performed.ts'

const noise = 1e-6

/** Loads other than prescribed, in one line; none where the prescription fixes none. A load within a
 * prescribed range is as prescribed. */
export function loadChange(name: string, steps: readonly SetStep[], state: SessionState): string[] {
  const done = steps.flatMap((step) => {
    const recorded = state.recorded.get(step.id)
    const load = recorded?.kind === 'set' ? recorded.result.load : null
    return load === null ? [] : [{ step, load, otherThan: otherThan(step, load, state) }]
  })
  const runs: { first: number; last: number; load: string; prescribed: string }[] = []
  for (const { step, load, otherThan: prescribed } of done) {
    if (prescribed === null) continue
    const before = runs.at(-1)
    const text = loadText(load)
    if (before && before.last === step.number - 1 && before.load === text && before.prescribed === prescribed)
      before.last = step.number
    else runs.push({ first: step.number, last: step.number, load: text, prescribed })
  }
  if (runs.length === 0) return []
  const isWhole = runs.length === 1 && done.every((set) => set.otherThan !== null)
  const texts = runs.map(({ first, last, load, prescribed }) => {
    const sets = isWhole ? '' : first === last ? `set ${first} at ` : `sets ${first}-${last} at `
    return `${sets}${load} instead of ${prescribed}`
  })
  return [`${name}: ${texts.join(', ')}`]
}

/** What was prescribed, when the load is another; null when it is as prescribed, or nothing was fixed. */
function otherThan(step: SetStep, load: LiftedLoad, state: SessionState): string | null {
  if (step.load === null || step.insteadOf !== null) return null
  const lifted = kilogramsOfLoad(load) ?? 0
  const { kind } = step.load
  if (kind === 'bodyweight') {
    const kg = kilogramsOf({ value: step.load.added, unit: step.load.unit })
    const isSame = load.kind === 'bodyweight' && Math.abs(lifted - kg) < noise
    return isSame ? null : prescribedLoadText(step.load)
  }
  const range = rangeKg(step, state)
  if (range === null) return null
  const isWithin = load.kind === 'mass' && lifted > range.from - noise && lifted < range.to + noise
  return isWithin ? null : range.text
}

/** The prescribed load in kilograms, both of a pair; null for a percentage of what is not known. */
function rangeKg(step: SetStep, state: SessionState): { from: number; to: number; text: string } | null {
  const { load } = step
  if (load?.kind === 'mass') {
    const kg = (value: number) => kilogramsOf({ value, unit: load.unit }) * (load.pair ? 2 : 1)
    return { from: kg(load.from), to: kg(load.to), text: prescribedLoadText(load) }
  }
  const maximum = load?.kind === 'percent' ? maximumOf(state, step.name) : null
  if (load?.kind !== 'percent' || maximum === null) return null
  const { mass: unit } = state.prescription.units
  const at = (percent: number) => roundedPercentLoad(maximum.kg, percent, unit)
  const span = { kind: 'mass' as const, from: at(load.from), to: at(load.to), unit, pair: false }
  const kg = (value: number) => kilogramsOf({ value, unit })
  return {
    from: kg(span.from),
    to: kg(span.to),
    text: `${prescribedLoadText(span)} (${prescribedLoadText(load)})`,
  }
}
