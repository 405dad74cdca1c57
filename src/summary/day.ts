import { sum } from 'd3-array'
import { isJump } from '../prescription/exercise.ts'
import type { WarmUpOf } from '../prescription/expand.ts'
import type { Prescription } from '../prescription/model.ts'
import { dayFiguresOf, plannedContacts, type SourcedMaxima } from '../prescription/planned.ts'
import type { IntervalStep } from '../prescription/step.ts'
import { kilogramsOfLoad, prescribedLoadOf } from '../session/load.ts'
import { resultOf, type SessionState, startOf } from '../session/state.ts'
import {
  type HardRunning,
  harderThanMeant,
  hardRunningDone,
  hardRunningOf,
  heavyLegSetsDone,
  heavyLegSetsOf,
  isHardRunning,
  type Ran,
  runStepsOf,
  unmeasuredSeconds,
} from './hard.ts'
import type { WeekDay } from './model.ts'
import { exercisesDone } from './performed.ts'
import { longestRunOf } from './running.ts'
import type { SessionFigures } from './summarise.ts'

export function hasHardRun({ hardMeters, hardSeconds }: HardRunning): boolean {
  return hardMeters > 0 || hardSeconds > 0
}

/** The figures of a prepared day.
 * @param warmUpOf works out the warm-up sets, which take time
 * @param maxima known one-repetition maxima, besides the file's */
export function plannedDay(prescription: Prescription, warmUpOf: WarmUpOf, maxima: SourcedMaxima): WeekDay {
  const plan = dayFiguresOf(prescription, warmUpOf, maxima)
  const state = { ...startOf(prescription), maxima }
  const run = (step: IntervalStep) => (isHardRunning(step, prescription) ? step : null)
  const heavyLegSets = heavyLegSetsOf(state, (step) => ({
    kg: kilogramsOfLoad(prescribedLoadOf(state, step)),
    rpe: step.rpe?.to ?? null,
    reps: null,
    failed: false,
  }))
  const hard = hardRunningOf(state, run)
  return {
    title: prescription.title,
    meters: plan.runMeters,
    longestMeters: Math.max(
      0,
      ...plan.parts.map(({ kind, items }) => (kind === 'run' ? sum(items, ({ meters }) => meters) : 0)),
    ),
    unmeasuredSeconds: unmeasuredSeconds(runStepsOf(state, (step) => step).map(({ done }) => done)),
    ...hard,
    sets: plan.liftSets,
    heavyLegSets,
    contacts: plannedContacts(state.steps),
    isHard: hasHardRun(hard) || heavyLegSets > 0,
    special: specialOf(state, (step) => step),
    harderThanMeant: null,
    minutes: plan.expectedMinutes,
  }
}

/** The figures of a day that was done: only recorded results count. */
export function doneDay({ state, summary, context: { hrMax = null } }: SessionFigures): WeekDay {
  return {
    title: state.prescription.title,
    meters: summary.running.meters,
    longestMeters: longestRunOf(state),
    unmeasuredSeconds: unmeasuredSeconds(summary.running.items.flatMap(({ splits }) => splits)),
    ...hardRunningDone(state, hrMax),
    sets: summary.lifting.sets,
    heavyLegSets: heavyLegSetsDone(state),
    contacts: contactsOf(state),
    isHard: summary.parts.some(({ hard }) => hard === true),
    special: specialOf(state, (step) => resultOf(state, step)),
    harderThanMeant:
      state.parts.map((_, part) => harderThanMeant(state, part, hrMax)).find((fact) => fact !== null) ?? null,
    minutes: summary.session.minutes,
  }
}

/** Landings of the recorded jumps and hops, counting both sides. */
function contactsOf(state: SessionState): number {
  const jumps = exercisesDone(state)
    .flatMap(({ sets }) => sets)
    .filter(({ name }) => isJump(name))
  return sum(jumps, ({ result, side }) => (result.reps ?? 0) * (side === null ? 1 : 2))
}

const longMeters = 15_000
const longSeconds = 4500

/** `race` or `trial` by the word of an interval, else `long run` if a part's continuous running adds up to one.
 * @param run the relevant values of an interval; null skips it */
function specialOf(state: SessionState, run: (step: IntervalStep) => Ran | null): WeekDay['special'] {
  const intervals = runStepsOf(state, run)
  const isWord = (word: string) => intervals.some(({ step }) => step.target?.word === word)
  if (isWord('race')) return 'race'
  if (isWord('trial')) return 'trial'
  const isLong = state.parts.some((_, part) => {
    const continuous = intervals.filter(({ step }) => step.part === part && (step.split || step.of === 1))
    const meters = sum(continuous, ({ done }) => done.meters)
    return meters >= longMeters || sum(continuous, ({ done }) => done.seconds) >= longSeconds
  })
  return isLong ? 'long run' : null
}
