import { sum } from 'd3-array'
import { atwaterKcal, runningKcal } from '../figures/fuel.ts'
import { effortMinutes, sessionLoad } from '../figures/load.ts'
import type { Prescription } from '../prescription/model.ts'
import { daysToGoal, isSameItem } from '../prescription/step.ts'
import { localTimeOf, type Moment } from '../session/clock.ts'
import type { Session } from '../session/model.ts'
import { painsAndSigns } from '../session/pain.ts'
import { replay } from '../session/replay.ts'
import { isPrompted, type SessionState, stepOf } from '../session/state.ts'
import type { MassUnit } from '../units/model.ts'
import { changesOf } from './changes.ts'
import { bodyMassOf, type SummaryContext } from './estimate.ts'
import { meantOf, wasHard } from './hard.ts'
import { exerciseOf, liftingOf } from './lifting.ts'
import type { RunningItem, Summary } from './model.ts'
import { notesOf, sleptPhrase } from './notes.ts'
import { type DoneExercise, type DoneWork, exercisesWithRunning, mealsDone, worksDone } from './performed.ts'
import { runningItemOf, runningOf } from './running.ts'

/** Computes a session's figures: SI units, full precision, null for what is unknown. */
export function summarise(session: Session, context: SummaryContext): Summary {
  return summaryOf(replay(session), session.id, context)
}

/** As `summarise`, for a session that was already replayed.
 * @param id of the session */
export function summaryOf(state: SessionState, id: string, context: SummaryContext): Summary {
  const parts = partsOf(state, context.hrMax ?? null)
  const running = runningOf(state, 'run', context.race)
  const load = sessionLoad(partsOfLoad(state, parts).map(({ effortMinutes }) => effortMinutes))
  return {
    session: {
      id,
      title: state.prescription.title,
      date: state.date ?? state.prescription.date ?? '',
      startedAt: timeOf(state.startedAt),
      finishedAt: timeOf(state.finishedAt),
      minutes: knownSum(parts, 'minutes'),
      effortMinutes: load.effortMinutes,
      effortMinutesAtLeast: load.atLeast,
      finished: state.finished,
    },
    parts,
    running,
    cross: runningOf(state, 'cross'),
    lifting: liftingOf(state, context),
    fuel: fuelOf(state, context, running.meters),
    pain: painOf(state),
    notes: notesOf(state),
    changes: changesOf(state),
    next: context.next?.(state) ?? [],
  }
}

function painOf(state: SessionState): Summary['pain'] {
  return painsAndSigns(state).map(({ place, level, step: id }) => {
    const step = id === null ? null : stepOf(state, id)
    const item = step && state.parts[step.part]?.items[step.item]
    if (!step || !item) return { place, level, at: null }
    const entries = state.steps.filter((each) => isSameItem(each, step) && isPrompted(each))
    return { place, level, at: { line: item.line, entry: entries.indexOf(step) + 1 } }
  })
}

/** The parts that count for the load of a session: those with an effort, and those of work that were done without
 * one. */
export function partsOfLoad(state: SessionState, parts: Summary['parts']): Summary['parts'] {
  return parts.filter(({ kind, effortMinutes }, index) => {
    const isWork = kind === 'run' || kind === 'cross' || kind === 'lift'
    const isDone = state.steps.some((step) => step.part === index && state.recorded.has(step.id))
    return effortMinutes !== null || (isWork && isDone)
  })
}

/** The parts of a session as they were closed. Minutes and effort are null until then, or if not given. */
function partsOf(state: SessionState, hrMax: number | null): Summary['parts'] {
  return state.parts.map((part, index) => {
    const { effort, minutes, conditions } = state.partStates[index] as SessionState['partStates'][0]
    const { begun, ended } = timesOf(state, index)
    return {
      kind: part.kind,
      name: part.name,
      effort,
      minutes,
      effortMinutes: effort === null || minutes === null ? null : effortMinutes(effort, minutes),
      startedAt: timeOf(begun),
      finishedAt: timeOf(ended),
      gapMinutes: gapMinutes(state, index),
      meant: meantOf(state, index),
      hard: wasHard(state, index, hrMax),
      with: conditions,
    }
  })
}

/** Local time with its offset, without a fraction if it is a whole second; null if unknown. */
function timeOf(moment: Moment | null): string | null {
  return moment === null ? null : localTimeOf(moment).replace('.000', '')
}

/** When a part began and ended. On paper that is known only if its first result,
 * or its last, has a time. */
function timesOf(state: SessionState, part: number): { begun: Moment | null; ended: Moment | null } {
  const { begun, ended } = state.partStates[part] as SessionState['partStates'][0]
  if (!state.fromPaper) return { begun, ended }
  const times = state.steps.flatMap((step) => {
    const recorded = step.part === part ? state.recorded.get(step.id) : undefined
    return recorded ? [recorded.at] : []
  })
  return { begun: times[0] ? begun : null, ended: times.at(-1) ? ended : null }
}

/** Minutes from the end of the part done before this one to its beginning; null for the first, and if
 * either is unknown. */
function gapMinutes(state: SessionState, part: number): number | null {
  const before = partBefore(state, part)
  const ended = before === null ? null : timesOf(state, before).ended
  const { begun } = timesOf(state, part)
  if (!ended || !begun || begun.wall < ended.wall) return null
  return (begun.wall - ended.wall) / 60_000
}

/** The last part before this one of which anything was done. A meal is not part of
 * the work: it falls into the gap. */
function partBefore(state: SessionState, part: number): number | null {
  let before: number | null = null
  for (const step of state.steps) {
    if (step.part === part) return before
    const isDone = state.recorded.has(step.id) || state.measured.has(step.id)
    if (isDone && step.kind !== 'fuel') before = step.part
  }
  return null
}

export interface SummaryOptions {
  /** Adds what a note leaves out. */
  full: boolean
  /** Shows splits as bars, for which a note has no room; by default only in the full summary. */
  bars?: boolean
  /** The available columns; by default those of a note: 44, or 72 with bars. */
  columns?: number
  /** Units for printing; null or absent: the file's. */
  units?: { distance: 'km' | 'mi' | null; mass: MassUnit | null }
}

/** A session ready for writing: its figures, and their input. */
export interface WorkView {
  done: DoneWork
  item: RunningItem
}

export interface ExerciseView {
  exercise: DoneExercise
  figures: Summary['lifting']['exercises'][number]
}

export interface SummaryView {
  summary: Summary
  /** Each work, and each exercise, with its figures. */
  works: { run: WorkView[]; cross: WorkView[] }
  exercises: ExerciseView[]
  state: SessionState
  /** Kilograms; null if unknown. */
  bodyKg: number | null
  /** Seconds from its end to the start of the next hard session; null if unknown. */
  secondsToNextHard: number | null
  /** Of the plan; null without one. */
  race: NonNullable<SummaryContext['race']> | null
  /** `143 days to 10 km in 39:30`; empty where no race is ahead. */
  toRace: string
  /** `slept 7 h`; empty where it is not known. */
  slept: string
  /** `left calf 3, legs 2 in the morning`; empty if nothing was noted. */
  sore: string
  isHardLater: boolean
  full: boolean
  bars: boolean
  /** The most columns in a line. */
  columns: number
  distance: 'km' | 'mi'
  mass: MassUnit
}

/** The width of a note, for a phone's notes app. With bars a line is longer. */
const noteWidth = 44
const fullWidth = 72

export function viewOf(session: Session, context: SummaryContext, options: SummaryOptions): SummaryView {
  const state = replay(session)
  const { units } = state.prescription
  const summary = summaryOf(state, session.id, context)
  const goal = summary.running.goal
  const bars = options.bars ?? options.full
  return {
    summary,
    works: {
      run: worksDone(state, 'run').map((done) => ({ done, item: runningItemOf(done, goal, context.race) })),
      cross: worksDone(state, 'cross').map((done) => ({ done, item: runningItemOf(done, null) })),
    },
    exercises: exercisesWithRunning(state).map((exercise) => ({
      exercise,
      figures: exerciseOf(exercise, state, context),
    })),
    state,
    bodyKg: bodyMassOf(state, context),
    secondsToNextHard: options.full ? (context.secondsToNextHard?.() ?? null) : null,
    race: context.race ?? null,
    toRace: context.race?.ahead ?? goalAhead(state.prescription.goal, summary.session.date),
    slept: sleptPhrase(context.sleepSeconds ?? null, summary.notes),
    sore: context.soreness ? `${context.soreness} in the morning` : '',
    isHardLater: options.full === true && context.isHardLater === true,
    full: options.full,
    bars,
    columns: Math.min(options.columns ?? fullWidth, bars ? fullWidth : noteWidth),
    distance: options.units?.distance ?? units.distance,
    mass: options.units?.mass ?? units.mass,
  }
}

/** Without a plan the goal of the day is the race, where it has a date. */
function goalAhead(goal: Prescription['goal'], date: string): string {
  if (goal === null || goal.on === null || date === '') return ''
  return daysToGoal({ ...goal, on: goal.on }, date)
}

type Eaten = NonNullable<Summary['fuel']['before']>

/** What was eaten, as typed, and what the running took, in kcal. Intake minus expenditure is never computed. */
function fuelOf(state: SessionState, context: SummaryContext, runMeters: number): Summary['fuel'] {
  return {
    before: eatenOf(state, 'before'),
    between: eatenOf(state, 'between'),
    after: eatenOf(state, 'after'),
    runningKcal: runningKcalOf(state, context, runMeters),
  }
}

function eatenOf(state: SessionState, when: 'before' | 'between' | 'after'): Eaten | null {
  const results = mealsDone(state).flatMap((meal) => (meal.when === when ? [meal.result] : []))
  if (results.length === 0) return null
  const grams = {
    carbsG: knownSum(results, 'carbsG'),
    proteinG: knownSum(results, 'proteinG'),
    fatG: knownSum(results, 'fatG'),
  }
  return { ...grams, kcal: knownSum(results, 'kcal'), atwaterKcal: atwaterKcal(grams) }
}

/** The sum of what is known; null if nothing is. */
function knownSum<Of extends string>(rows: readonly Record<Of, number | null>[], of: Of): number | null {
  return rows.every((row) => row[of] === null) ? null : sum(rows, (row) => row[of])
}

/** Null without running, with an unknown distance or body mass, or on a grade over 1 %. */
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
