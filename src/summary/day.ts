import { sum } from 'd3-array'
import { countedReps, tonnageKg } from '../figures/volume.ts'
import { isJump } from '../prescription/exercise.ts'
import type { WarmUpOf } from '../prescription/expand.ts'
import { expectedSecondsOf } from '../prescription/expectedTime.ts'
import type { DayFigures, Prescription } from '../prescription/model.ts'
import type { LastLoad, SourcedMaxima } from '../prescription/planned.ts'
import {
  type ExpandedItem,
  type IntervalStep,
  isEntry,
  isLiftedSet,
  isSet,
  metersOfSteps,
  repsOf,
  type SetStep,
  type Step,
} from '../prescription/step.ts'
import { noEffort } from '../session/entry/effort.ts'
import { lowerLoadsOf, prescribedLoadOf } from '../session/load.ts'
import type { SetResult } from '../session/model.ts'
import { type Recorded, type SessionState, startOf } from '../session/state.ts'
import { metersOf } from '../units/length.ts'
import { harderThanMeant, hardIntervals, heavyLegSetsOf, isHardRunning, unmeasuredSeconds } from './hard.ts'
import { setsCounted, volumeOf } from './lifting.ts'
import type { WeekDay } from './model.ts'
import { liftsDone, metersRunInLifts, stepsDone } from './performed.ts'
import { metersOfPart } from './running.ts'
import type { SessionFigures } from './summarise.ts'

/* The figures of a day. Those of a planned day are those of the day done exactly as it is written. */

/** A day with every set and interval done as it is written, at the lower end of every range. What a target or an open end
 * leaves open stays unknown.
 * @param warmUpOf works out the warm-up sets, which take time
 * @param maxima known besides the file's, for loads by percent
 * @param lastLoads for loads from last time */
function asWritten(
  prescription: Prescription,
  warmUpOf: WarmUpOf,
  maxima: SourcedMaxima,
  lastLoads: readonly LastLoad[] = [],
): SessionState {
  const state = { ...startOf(prescription, warmUpOf), maxima, lastLoads }
  const recorded = state.steps.flatMap((step): [string, Recorded][] => {
    if (step.kind === 'set') return [[step.id, { kind: 'set', result: setAsWritten(state, step), at: null }]]
    if (step.kind !== 'interval') return []
    const { meters, seconds } = step
    const result = { meters, seconds, precision: null, byKey: false, ...noEffort, ...noRemarks }
    return [[step.id, { kind: 'interval', result, at: null }]]
  })
  return { ...state, recorded: new Map(recorded) }
}

const noRemarks = { note: null, pain: null }

function setAsWritten(state: SessionState, step: SetStep): SetResult {
  const { dose, rpe } = step
  const load = prescribedLoadOf(state, step)
  return {
    reps: dose.kind === 'max' ? null : repsOf(dose, 0),
    groups: dose.kind === 'drop' ? dose.reps : null,
    seconds: dose.kind === 'time' ? dose.seconds : null,
    meters: dose.kind === 'distance' ? metersOf(dose.length) : null,
    load,
    ...(load && dose.kind === 'drop' ? { loads: [load, ...lowerLoadsOf(state, step)] } : {}),
    rpe: rpe?.to ?? null,
    failed: false,
    ...noRemarks,
  }
}

/** Expands a day and adds up its figures.
 * @param warmUpOf, maxima, lastLoads as of `asWritten` */
export function dayFiguresOf(
  prescription: Prescription,
  warmUpOf: WarmUpOf,
  maxima: SourcedMaxima = [],
  lastLoads: readonly LastLoad[] = [],
): DayFigures {
  const state = asWritten(prescription, warmUpOf, maxima, lastLoads)
  const { title, date } = prescription
  const { parts, steps } = state
  const planned = (item: ExpandedItem) => plannedItem(item, state)
  return {
    title,
    date,
    parts: parts.map(({ kind, name, items }) => ({ kind, name, items: items.map(planned) })),
    entries: steps.filter(isEntry).length,
    runMeters: metersRun(state),
    liftSets: steps.filter(isSet).filter(isLiftedSet).length,
    plannedTonnageKg: sum(liftsDone(state), (set) => tonnageKg(volumeOf(set))),
    expectedMinutes: Math.round(expectedSecondsOf(steps, prescription) / 60),
  }
}

type PlannedItem = DayFigures['parts'][number]['items'][number]

function plannedItem({ text, line, steps, works }: ExpandedItem, state: SessionState): PlannedItem {
  const { entries, ...target } = targetOf(steps)
  const ofWorks = works.map((_, index) =>
    targetOf(steps.filter((step) => step.kind === 'interval' && step.work === index)),
  )
  const meters = metersOfSteps(steps) + metersRunInLifts(state, steps)
  return { text, line, entries, meters, ...(works.length > 1 ? { targets: ofWorks } : target) }
}

/** The number of results, and the range for one of them in seconds, if all full splits or repeats share one. */
function targetOf(steps: readonly Step[]): Pick<PlannedItem, 'entries' | 'targetSeconds'> {
  const [first, ...others] = steps.flatMap((step) =>
    step.kind === 'interval' && !step.short ? [step.target?.seconds ?? null] : [],
  )
  const isShared = others.every((each) => each?.from === first?.from && each?.to === first?.to)
  return {
    entries: steps.filter(isEntry).length,
    ...(first && isShared ? { targetSeconds: [first.from, first.to] } : {}),
  }
}

/** Metres of running, in lift parts too. */
function metersRun(state: SessionState): number {
  return sum(metersOfRuns(state)) + metersRunInLifts(state)
}

/** The metres of each run part. */
function metersOfRuns(state: SessionState): number[] {
  return state.parts.flatMap(({ kind }, part) => (kind === 'run' ? metersOfPart(state, part) : []))
}

export function hasHardRun(day: Pick<WeekDay, 'hardMeters' | 'hardSeconds'>): boolean {
  return day.hardMeters > 0 || day.hardSeconds > 0
}

/** The figures of a prepared day.
 * @param warmUpOf, maxima as of `asWritten` */
export function plannedDay(prescription: Prescription, warmUpOf: WarmUpOf, maxima: SourcedMaxima): WeekDay {
  const state = asWritten(prescription, warmUpOf, maxima)
  const day = sumsOf(state, (step) => isHardRunning(step, prescription))
  return {
    ...day,
    isHard: hasHardRun(day) || day.heavyLegSets > 0,
    harderThanMeant: null,
    minutes: Math.round(expectedSecondsOf(state.steps, prescription) / 60),
  }
}

/** The figures of a day that was done: only recorded results count. */
export function doneDay({ state, summary, context }: SessionFigures): WeekDay {
  const { hrMax } = context
  const hard = state.parts.flatMap((_, part) => hardIntervals(state, part, hrMax))
  const facts = state.parts.map((_, part) => harderThanMeant(state, part, hrMax))
  return {
    ...sumsOf(state, (step) => hard.includes(step)),
    isHard: summary.parts.some(({ hard }) => hard === true),
    harderThanMeant: facts.find((fact) => fact !== null) ?? null,
    minutes: summary.session.minutes,
  }
}

function sumsOf(
  state: SessionState,
  isHard: (step: IntervalStep) => boolean,
): Omit<WeekDay, 'isHard' | 'harderThanMeant' | 'minutes'> {
  const lifts = liftsDone(state)
  return {
    title: state.prescription.title,
    meters: metersRun(state),
    longestMeters: Math.max(0, ...metersOfRuns(state)),
    ...runningOfDay(state, isHard),
    sets: setsCounted(lifts.filter(({ step }) => isLiftedSet(step))),
    heavyLegSets: heavyLegSetsOf(state),
    // Landings of jumps and hops, on both sides.
    contacts: sum(lifts, (set) => (isJump(set.name) ? countedReps(volumeOf(set)) : 0)),
  }
}

const longMeters = 15_000
const longSeconds = 4500

/** The figures of the run parts. A day is special for a race or a trial, by the word of an interval, else for a long
 * run if a part's continuous running adds up to one. */
export function runningOfDay(
  state: SessionState,
  isHard: (step: IntervalStep) => boolean,
): Pick<WeekDay, 'unmeasuredSeconds' | 'hardMeters' | 'hardSeconds' | 'special'> {
  const runs = stepsDone(state, 'interval')
    .filter(({ step }) => state.parts[step.part]?.kind === 'run')
    .map(({ step, result: { meters, seconds } }) => ({ step, meters, seconds }))
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
