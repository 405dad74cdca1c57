import { sum } from 'd3-array'
import { isJump } from '../prescription/exercise.ts'
import type { WarmUpOf } from '../prescription/expand.ts'
import type { Prescription } from '../prescription/model.ts'
import { dayFiguresOf, plannedContacts, type SourcedMaxima } from '../prescription/planned.ts'
import type { IntervalStep } from '../prescription/step.ts'
import { prescribedLoadOf } from '../session/load.ts'
import { resultOf, type SessionState, startOf } from '../session/state.ts'
import { harderThanMeant, hardIntervals, heavyLegSetsOf, isHardRunning, unmeasuredSeconds } from './hard.ts'
import type { WeekDay } from './model.ts'
import { metersOfPart } from './running.ts'
import type { SessionFigures } from './summarise.ts'

export function hasHardRun({
  hardMeters,
  hardSeconds,
}: Pick<WeekDay, 'hardMeters' | 'hardSeconds'>): boolean {
  return hardMeters > 0 || hardSeconds > 0
}

/** The figures of a prepared day.
 * @param warmUpOf works out the warm-up sets, which take time
 * @param maxima known one-repetition maxima, besides the file's */
export function plannedDay(prescription: Prescription, warmUpOf: WarmUpOf, maxima: SourcedMaxima): WeekDay {
  const plan = dayFiguresOf(prescription, warmUpOf, maxima)
  const state = { ...startOf(prescription), maxima }
  const running = runningOfDay(
    state,
    (step) => step,
    (step) => isHardRunning(step, prescription),
  )
  const heavyLegSets = heavyLegSetsOf(state, (step) => ({
    load: prescribedLoadOf(state, step),
    rpe: step.rpe?.to ?? null,
    reps: null,
    failed: false,
  }))
  const runs = plan.parts.filter(({ kind }) => kind === 'run')
  return {
    title: prescription.title,
    meters: plan.runMeters,
    longestMeters: Math.max(0, ...runs.map(({ items }) => sum(items, ({ meters }) => meters))),
    ...running,
    sets: plan.liftSets,
    heavyLegSets,
    contacts: plannedContacts(state.steps),
    isHard: hasHardRun(running) || heavyLegSets > 0,
    harderThanMeant: null,
    minutes: plan.expectedMinutes,
  }
}

/** The figures of a day that was done: only recorded results count. */
export function doneDay({ state, summary, works, exercises, context }: SessionFigures): WeekDay {
  const { hrMax } = context
  const hard = state.parts.flatMap((_, part) => hardIntervals(state, part, hrMax))
  const ofParts = state.parts.map(({ kind }, part) => (kind === 'run' ? metersOfPart(state, works, part) : 0))
  const jumps = exercises.flatMap(({ sets }) => sets).filter(({ name }) => isJump(name))
  const facts = state.parts.map((_, part) => harderThanMeant(state, part, hrMax))
  return {
    title: state.prescription.title,
    meters: summary.running.meters ?? 0,
    longestMeters: Math.max(0, ...ofParts),
    ...runningOfDay(
      state,
      (step) => resultOf(state, step),
      (step) => hard.includes(step),
    ),
    sets: summary.lifting.sets,
    heavyLegSets: heavyLegSetsOf(state, (step) => resultOf(state, step)),
    // Landings of jumps and hops, on both sides.
    contacts: sum(jumps, ({ result, side }) => (result.reps ?? 0) * (side === null ? 1 : 2)),
    isHard: summary.parts.some(({ hard }) => hard === true),
    harderThanMeant: facts.find((fact) => fact !== null) ?? null,
    minutes: summary.session.minutes,
  }
}

const longMeters = 15_000
const longSeconds = 4500

/** The figures of the run parts. A day is special for a race or a trial, by the word of an interval, else for a long
 * run if a part's continuous running adds up to one.
 * @param ran the distance and time of an interval; null skips it */
export function runningOfDay(
  state: SessionState,
  ran: (step: IntervalStep) => { meters: number | null; seconds: number | null } | null,
  isHard: (step: IntervalStep) => boolean,
): Pick<WeekDay, 'unmeasuredSeconds' | 'hardMeters' | 'hardSeconds' | 'special'> {
  const runs = state.steps.flatMap((step) => {
    const isRun = step.kind === 'interval' && state.parts[step.part]?.kind === 'run'
    const done = isRun ? ran(step) : null
    return isRun && done !== null ? [{ step, meters: done.meters, seconds: done.seconds }] : []
  })
  const hard = runs.filter(({ step }) => isHard(step))
  const words = new Set(runs.map(({ step }) => step.target?.word))
  const isLong = state.parts.some((_, part) => {
    const continuous = runs.filter(({ step }) => step.part === part && (step.split || step.of === 1))
    const meters = sum(continuous, (run) => run.meters)
    return meters >= longMeters || sum(continuous, ({ seconds }) => seconds) >= longSeconds
  })
  return {
    unmeasuredSeconds: unmeasuredSeconds(runs),
    hardMeters: sum(hard, ({ meters }) => meters),
    hardSeconds: unmeasuredSeconds(hard),
    special: words.has('race') ? 'race' : words.has('trial') ? 'trial' : isLong ? 'long run' : null,
  }
}
