import { expand } from '../prescription/expand.ts'
import type { RampOf } from '../prescription/layOutLift.ts'
import type { Prescription } from '../prescription/model.ts'
import { planOf } from '../prescription/plan.ts'
import type { PieceStep, SetStep } from '../prescription/step.ts'
import { maximumOf, prescribedLoadOf } from '../session/prompt.ts'
import { startOf, type SessionState } from '../session/state.ts'
import type { Summary } from '../summary/model.ts'
import { kilogramsOfLoad } from '../summary/performed.ts'
import { isHardRunning } from './hardRunning.ts'
import { isHeavyLegs } from './heavyLegs.ts'

/** What a day of the week comes to, whether it was done or lies ready. SI units. */
export interface WeekDay {
  title: string
  /** Running, recoveries by distance included. */
  meters: number
  hardMeters: number
  /** Hard running whose metres are not known. */
  hardSeconds: number
  sets: number
  heavyLegSets: number
  /** Null where it is not known. */
  minutes: number | null
}

/** A day that lies ready.
 * @param rampOf warm-up ramps, which take time; @param maxima known one-repetition maxima, besides the file's */
export function plannedDay(
  prescription: Prescription,
  rampOf: RampOf,
  maxima: readonly { name: string; kg: number; basis: string }[],
): WeekDay {
  const plan = planOf(prescription, rampOf, maxima)
  const state = {
    ...startOf(
      prescription,
      expand(prescription, () => []),
    ),
    maxima,
  }
  return {
    title: prescription.title,
    meters: plan.runMeters,
    ...hardOf(state, (step) => step),
    sets: plan.liftSets,
    heavyLegSets: heavySetsOf(state, (step) => ({
      kg: kilogramsOfLoad(prescribedLoadOf(state, step)),
      rpe: step.rpe?.to ?? null,
    })),
    minutes: plan.expectedMinutes,
  }
}

/** A day that was done: only what was recorded counts. */
export function doneDay(state: SessionState, summary: Summary): WeekDay {
  return {
    title: state.prescription.title,
    meters: summary.running.meters,
    ...hardOf(state, (step) => {
      const recorded = state.recorded.get(step.id)
      return recorded?.kind === 'piece' ? recorded.result : null
    }),
    sets: summary.lifting.sets,
    heavyLegSets: heavySetsOf(state, (step) => {
      const recorded = state.recorded.get(step.id)
      if (recorded?.kind !== 'set') return null
      return { kg: kilogramsOfLoad(recorded.result.load), rpe: recorded.result.rpe }
    }),
    minutes: summary.session.minutes,
  }
}

function hardOf(
  state: SessionState,
  run: (step: PieceStep) => { meters: number | null; seconds: number | null } | null,
): { hardMeters: number; hardSeconds: number } {
  const hard = { hardMeters: 0, hardSeconds: 0 }
  for (const step of state.steps) {
    if (step.kind !== 'piece' || state.parts[step.part]?.kind !== 'run') continue
    const done = isHardRunning(step, state.prescription) ? run(step) : null
    if (done === null) continue
    if (done.meters !== null) hard.hardMeters += done.meters
    else hard.hardSeconds += done.seconds ?? 0
  }
  return hard
}

function heavySetsOf(
  state: SessionState,
  lifted: (step: SetStep) => { kg: number | null; rpe: number | null } | null,
): number {
  return state.steps.filter((step) => {
    if (step.kind !== 'set') return false
    const done = lifted(step)
    const name = state.parts[step.part]?.name ?? null
    const maximum = (exercise: string) => maximumOf(state, exercise)?.kg ?? null
    return done !== null && isHeavyLegs(step, name, done.kg, done.rpe, maximum)
  }).length
}
