import { bodyShare, type Formula } from '../figures/oneRepMax.ts'
import type { LiftedSet } from '../figures/sessionMaximum.ts'
import { isJump } from '../prescription/exercise.ts'
import type { SetStep } from '../prescription/step.ts'
import type { Moment } from '../session/clock.ts'
import type { SessionState } from '../session/state.ts'
import { kilogramsOf } from '../units/mass.ts'
import type { Summary } from './model.ts'
import type { DoneSet } from './performed.ts'

/** What estimates need in addition to the session. */
export interface SummaryContext {
  /** The equation for one-repetition maxima. */
  equation: Formula
  /** Body mass if neither the file nor the session's start has one; kilograms. */
  bodyMassKg?: number | null
  /** Highest heart rate, beats a minute. */
  hrMax?: number | null
  /** The plan's race. A race over its distance, on its day or on a day without a goal, is compared
   * with it. */
  race?: {
    meters: number
    seconds: number
    isThatDay: boolean
    /** `143 days to 10 km in 39:30`; empty when it is over. */
    ahead: string
  } | null
  /** Of the morning of the session's date. */
  sleepSeconds?: number | null
  /** The places that hurt or were sore that morning, with their numbers: `left calf 3, legs 2`; empty if none. */
  soreness?: string
  /** What the session says about the next one like it; only called if the sessions before it are available. */
  next?: (state: SessionState) => Summary['next']
  /** Seconds from the session's end to the start of the next hard one; only called for the full summary. */
  secondsToNextHard?: () => number | null
  /** Whether a hard day is planned for the rest of the session's date, at an unknown hour. */
  isHardLater?: boolean
  /** How much running before a lift lowers it, by its name. */
  runCost?: (name: string) => Summary['lifting']['exercises'][number]['runCost']
}

/** Body mass: the file's, else as known when the session began, else the context's; null if unknown. */
export function bodyMassOf(state: SessionState, context: SummaryContext): number | null {
  const { athlete } = state.prescription
  return athlete ? kilogramsOf(athlete) : (state.bodyMassKg ?? context.bodyMassKg ?? null)
}

/** A set as input for the equations; null for one that they cannot use: timed, carried, a jump, without a load. */
function effortOfSet(set: DoneSet, bodyMassKg: number | null, formula: Formula): LiftedSet | null {
  const { result, kg, step } = set
  if (set.isPart || isJump(step.name)) return null
  if (kg === null || result.reps === null || result.load === null) return null
  const bodyKg = bodyMassKg === null ? null : bodyMassKg * bodyShare(step.name)
  const effort = {
    kg,
    rpe: result.rpe,
    failed: result.failed,
    openEnded: isOpenEnded(step),
    formula,
    ...(result.load.kind === 'bodyweight' ? { bodyKg } : {}),
  }
  return result.groups === null ? { ...effort, reps: result.reps } : { ...effort, groups: result.groups }
}

/** The sets that the equations can use, each with its input. */
export function effortsOf(
  sets: readonly DoneSet[],
  bodyMassKg: number | null,
  formula: Formula,
): { set: DoneSet; effort: LiftedSet }[] {
  return sets.flatMap((set) => {
    const effort = effortOfSet(set, bodyMassKg, formula)
    return effort === null ? [] : [{ set, effort }]
  })
}

/** An AMRAP leaves nothing in reserve unless an effort says otherwise. In a cluster set the last group decides. */
function isOpenEnded({ dose }: SetStep): boolean {
  if (dose.kind === 'cluster') return dose.groups.at(-1) === 'max'
  return dose.kind === 'max' || dose.kind === 'atLeast'
}

/** Whether running was recorded before this set: by the clock if both were timed, else by the order of
 * the steps. */
export function isAfterRun(state: SessionState, set: SetStep): boolean {
  const at = doneAt(state, set.id)
  const place = state.steps.indexOf(set)
  return state.steps.some((step, index) => {
    if (step.kind !== 'interval' || state.parts[step.part]?.kind !== 'run') return false
    if (!state.recorded.has(step.id)) return false
    const runAt = doneAt(state, step.id)
    return at && runAt ? runAt.wall < at.wall : index < place
  })
}

/** When a step was done. A result typed live does not tell: it may be typed an hour later. */
function doneAt(state: SessionState, id: string): Moment | null {
  const ended = state.measured.get(id)?.ended ?? null
  return ended ?? (state.fromPaper ? (state.recorded.get(id)?.at ?? null) : null)
}
