import { expectedSecondsOf } from './cutSteps.ts'
import { expand } from './expand.ts'
import type { RampOf } from './layOutLift.ts'
import type { Prescription } from './model.ts'
import type { Plan } from './planModel.ts'
import { type KnownMaxima, plannedTonnageKg } from './plannedLoad.ts'
import type { ExpandedItem, ExpandedPart, Step } from './step.ts'

/** A day laid out with what it comes to.
 * @param rampOf how warm-up ramps are made up: they take time
 * @param maxima known besides the file's, for loads by percent */
export function planOf(prescription: Prescription, rampOf: RampOf, maxima: KnownMaxima = []): Plan {
  const parts = expand(prescription, rampOf)
  const steps = stepsOf(parts)
  return {
    title: prescription.title,
    date: prescription.date,
    parts: parts.map(({ kind, name, items }) => ({ kind, name, items: items.map(plannedItem) })),
    entries: steps.filter(isEntry).length,
    runMeters: metersOfSteps(stepsOf(parts.filter((part) => part.kind === 'run'))),
    liftSets: steps.filter((step) => step.kind === 'set').length,
    plannedTonnageKg: steps.reduce(
      (sum, step) => sum + (step.kind === 'set' ? plannedTonnageKg(step, prescription, maxima) : 0),
      0,
    ),
    expectedMinutes: Math.round(expectedSecondsOf(steps, prescription) / 60),
  }
}

/** The steps of these parts, one after the other. */
export function stepsOf(parts: readonly ExpandedPart[]): Step[] {
  return parts.flatMap((part) => part.items.flatMap((item) => item.steps))
}

function plannedItem({ text, line, steps }: ExpandedItem): Plan['parts'][number]['items'][number] {
  const target = targetSecondsOf(steps)
  return {
    text,
    line,
    entries: steps.filter(isEntry).length,
    meters: metersOfSteps(steps),
    ...(target === null ? {} : { targetSeconds: [target.from, target.to] }),
  }
}

/** A results file has a line for it; what was eaten stands in lines of its own there. */
function isEntry(step: Step): boolean {
  return step.kind === 'prep' || step.kind === 'piece' || step.kind === 'set'
}

/** Metres of work and recoveries by distance. */
export function metersOfSteps(steps: readonly Step[]): number {
  return steps.reduce(
    (sum, step) => sum + (step.kind === 'piece' || step.kind === 'recovery' ? (step.meters ?? 0) : 0),
    0,
  )
}

/** The time range that all full splits or repeats of an item share, in seconds; null without one. */
export function targetSecondsOf(steps: readonly Step[]): { from: number; to: number } | null {
  const full = steps.filter((step) => step.kind === 'piece' && !step.short)
  const [first, ...others] = full.map((step) =>
    step.kind === 'piece' ? (step.target?.seconds ?? null) : null,
  )
  if (!first || others.some((each) => each?.from !== first.from || each.to !== first.to)) return null
  return first
}
