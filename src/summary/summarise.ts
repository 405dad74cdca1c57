import { sum } from 'd3-array'
import { atwaterKcal, runningKcal } from '../figures/fuel.ts'
import { effortMinutes, sessionLoad } from '../figures/load.ts'
import { hasResult, isSameItem, isTraining } from '../prescription/step.ts'
import { type Moment, secondsBetween, timeTextOf } from '../session/clock.ts'
import type { Session } from '../session/model.ts'
import { painsAndSigns } from '../session/pain.ts'
import { replay } from '../session/replay.ts'
import { type SessionState, stepOf } from '../session/state.ts'
import { changesOf, fallenShort, type ShortSet } from './changes.ts'
import { meantOf, wasHard } from './hard.ts'
import { bodyMassOf, type ExerciseView, exerciseFigures, liftingOf } from './lifting.ts'
import type { Brief, FiguresContext, Summary } from './model.ts'
import { notesOf } from './notes.ts'
import { type DoneMeal, exercisesDone, mealsDone, worksDone } from './performed.ts'
import { goalOf, runningItemOf, runningOf, type WorkView } from './running.ts'

/** A session with its figures, and what was done that they are computed from. */
export interface SessionFigures {
  state: SessionState
  context: FiguresContext
  summary: Summary
  /** Of the run parts, then of the cross parts. */
  works: WorkView[]
  /** Running in circuits included. */
  exercises: ExerciseView[]
  meals: DoneMeal[]
  /** What was not done as prescribed: of items, and of single sets. */
  changes: string[]
  shortSets: ShortSet[]
  /** Kilograms; null if unknown. */
  bodyKg: number | null
}

/** Computes a session's figures: SI units, full precision, null for what is unknown, which here includes what only the
 * other sessions tell. */
export function summarise(session: Session, context: FiguresContext): Summary {
  return figuresOf(session, context).summary
}

/** Like `summarise`, with what the figures are computed from. */
export function figuresOf(session: Session, context: FiguresContext): SessionFigures {
  const state = replay(session)
  const goal = goalOf(state)
  const works = [
    ...worksDone(state, 'run').map((done) => ({ done, item: runningItemOf(done, goal, context.race) })),
    ...worksDone(state, 'cross').map((done) => ({ done, item: runningItemOf(done, null) })),
  ]
  const exercises = exercisesDone(state).map((exercise) => ({
    ...exercise,
    figures: exerciseFigures(exercise, state, context),
  }))
  const meals = mealsDone(state)
  const bodyKg = bodyMassOf(state, context)
  const changes = changesOf(state, context.hrMax)
  const shortSets = fallenShort(exercises, state)
  const parts = partsOf(state, context.hrMax)
  const running = runningOf(state, 'run', works, goal)
  const load = sessionLoad(partsOfLoad(state, parts).map(({ effortMinutes }) => effortMinutes))
  const summary = {
    session: {
      id: session.id,
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
    cross: runningOf(state, 'cross', works, null),
    lifting: liftingOf(exercises),
    fuel: {
      before: eatenOf(meals, 'before'),
      between: eatenOf(meals, 'between'),
      after: eatenOf(meals, 'after'),
      runningKcal: runningKcalOf(works, bodyKg, running.meters ?? 0),
    },
    pain: painOf(state),
    notes: notesOf(state),
    changes: [...changes, ...shortSets.map(({ text }) => text)],
    next: [],
  }
  return { state, context, summary, works, exercises, meals, changes, shortSets, bodyKg }
}

/** A session in one line, with more of its parts and pains than the index keeps. */
export function briefOf({ session, parts, running, cross, lifting, pain }: Summary): Brief {
  const { title, ...others } = session
  return {
    title,
    runMeters: running.meters ?? 0,
    crossMeters: cross.meters ?? 0,
    sets: lifting.sets,
    tonnageKg: lifting.tonnageKg,
    exercises: lifting.exercises.map((exercise) => exercise.name),
    ...others,
    parts,
    pain,
  }
}

function painOf(state: SessionState): Summary['pain'] {
  return painsAndSigns(state).map(({ place, level, step: id }) => {
    const step = id === null ? null : stepOf(state, id)
    const item = step && state.parts[step.part]?.items[step.item]
    if (!step || !item) return { place, level, at: null }
    const entries = state.steps.filter((each) => isSameItem(each, step) && hasResult(each))
    return { place, level, at: { line: item.line, entry: entries.indexOf(step) + 1 } }
  })
}

/** The parts that count towards the load of a session: those with an effort, and run, cross and lift parts that were
 * done without one. */
export function partsOfLoad(state: SessionState, parts: Summary['parts']): Summary['parts'] {
  return parts.filter(({ kind, effortMinutes }, index) => {
    const isDone = state.steps.some((step) => step.part === index && state.recorded.has(step.id))
    return effortMinutes !== null || (isTraining(kind) && isDone)
  })
}

/** The parts of a session as they were closed. Minutes and effort are null until then, or if not given. */
function partsOf(state: SessionState, hrMax: number | null): Summary['parts'] {
  return state.parts.map((part, index) => {
    const { effort, minutes, conditions } = state.partStates[index]!
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
  return moment === null ? null : timeTextOf(moment).replace('.000', '')
}

/** When a part began and ended. On paper that is known only if its first result,
 * or its last, has a time. */
function timesOf(state: SessionState, part: number): { begun: Moment | null; ended: Moment | null } {
  const { begun, ended } = state.partStates[part]!
  if (!state.fromPaper) return { begun, ended }
  const times = state.steps.flatMap((step) => {
    const recorded = step.part === part ? state.recorded.get(step.id) : undefined
    return recorded ? [recorded.at] : []
  })
  return { begun: times[0] ? begun : null, ended: times.at(-1) ? ended : null }
}

/** Minutes from the end of the part done before this one to its beginning; null for the first, and if
 * either is unknown. A meal is not work: it falls into the gap. */
function gapMinutes(state: SessionState, part: number): number | null {
  const first = state.steps.findIndex((step) => step.part === part)
  const before = state.steps
    .slice(0, Math.max(0, first))
    .findLast(({ id, kind }) => kind !== 'fuel' && (state.recorded.has(id) || state.measured.has(id)))
  const ended = before === undefined ? null : timesOf(state, before.part).ended
  const { begun } = timesOf(state, part)
  const seconds = ended && begun ? secondsBetween(ended, begun) : -1
  return seconds < 0 ? null : seconds / 60
}

/** What was eaten, as typed. Intake minus expenditure is never computed. */
function eatenOf(meals: readonly DoneMeal[], when: DoneMeal['when']): Summary['fuel']['before'] {
  const results = meals.flatMap((meal) => (meal.when === when ? [meal.result] : []))
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

/** The energy of the running, in kcal. Null without running, with an unknown distance or body mass, or on a grade over
 * 1 %. */
function runningKcalOf(
  works: readonly WorkView[],
  bodyKg: number | null,
  meters: number,
): [number, number] | null {
  const splits = works.flatMap(({ done }) => (done.kind === 'run' ? done.splits : []))
  const isUnknown = splits.some(({ step, result }) => result.meters === null || Math.abs(step.grade ?? 0) > 1)
  if (bodyKg === null || meters === 0 || isUnknown) return null
  const { from, to } = runningKcal(bodyKg, meters)
  return [from, to]
}
