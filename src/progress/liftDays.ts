import { exerciseKey, isSameExercise } from '../prescription/exercise.ts'
import type { Exercise, Load } from '../prescription/model.ts'
import { printLoad } from '../prescription/print.ts'
import { isSameItem, type SetStep } from '../prescription/step.ts'
import { kilogramsOfLoad, prescribedLoadOf } from '../session/load.ts'
import type { LiftedLoad, SetResult } from '../session/model.ts'
import { isWarningNoted } from '../session/pain.ts'
import { resultOf, type SessionState } from '../session/state.ts'
import { doseDone, isMeantToTheLimit } from '../summary/performed.ts'

/* What was lifted on a line of a day. Every rule about lifts reads this, so that a load is judged where it was lifted and
 * not where it was written. */

/** An exercise of a lift line. */
export interface LiftLine {
  part: number
  item: number
  exercise: number
  written: Exercise
  /** How many like it, with the same exercise and sets, stand before it on its day. */
  ordinal: number
}

/** How the exercise of a line went in a session. `complete`: every set as prescribed, at the prescribed effort. `missed`:
 * a set at its written load or less was tried and failed. `other`: neither. */
type LineOutcome = 'complete' | 'missed' | 'other'
type SetOutcome = LineOutcome | 'hurt'

/** A recorded set of the exercise that was prescribed. */
interface SetOfDay {
  step: SetStep
  result: SetResult
  went: SetOutcome
  /** Kilograms above its prescribed load, below 0 if it was lighter. */
  beside: number
}

/** An exercise of a line as it went on one day. */
export interface LiftDay {
  date: string | null
  line: LiftLine
  outcome: LineOutcome
  sets: SetOfDay[]
  /** The load of each written set, as a mass if that is known. */
  prescribed: (Load | null)[]
  /** The load at which the day is judged, for each written set: the lifted one; for a set that was not done, and on a day
   * that is not complete where only some sets were lighter or heavier than prescribed, the prescribed one. */
  loads: (Load | null)[]
}

export function liftLines({ prescription }: SessionState): LiftLine[] {
  const lines: LiftLine[] = []
  for (const [part, { kind, items }] of prescription.parts.entries()) {
    if (kind !== 'lift') continue
    for (const [item, { exercises }] of items.entries()) {
      for (const [exercise, written] of exercises.entries()) {
        const like = lines.filter((line) => isLike(line.written, written))
        lines.push({ part, item, exercise, written, ordinal: like.length })
      }
    }
  }
  return lines
}

export function liftDay(state: SessionState, line: LiftLine): LiftDay {
  const steps = state.steps.filter(
    (step): step is SetStep =>
      step.kind === 'set' && isSameItem(step, line) && step.exercise === line.exercise,
  )
  const sets = steps.filter(({ insteadOf }) => insteadOf === null).flatMap((step) => setOf(state, step) ?? [])
  const outcome = lineOutcome(state, steps)
  const isMixed = outcome !== 'complete' && new Set(sets.map(({ beside }) => Math.sign(beside))).size > 1
  const written = line.written.sets.map(({ load }, at) => {
    const step = steps.find(({ number }) => number === at + 1)
    const known = step ? prescribedLoadOf(state, step) : null
    const prescribed = asWritten(load, known)
    const lifted = sets.find((set) => set.step === step)?.result.load ?? null
    return { prescribed, lifted: lifted && !(isMixed && known) ? asWritten(load, lifted) : prescribed }
  })
  return {
    date: state.date,
    line,
    outcome,
    sets,
    prescribed: written.map(({ prescribed }) => prescribed),
    loads: written.map(({ lifted }) => lifted),
  }
}

/** A known load as it would be written, with the written range if it is within that. */
function asWritten(written: Load | null, known: LiftedLoad | null): Load | null {
  if (known === null) return written
  if (known.kind === 'bodyweight') return known
  const { value, unit, pair } = known
  if (written?.kind === 'mass' && written.unit === unit && written.pair === pair)
    if (value >= written.from && value <= written.to) return written
  return { kind: 'mass', from: value, to: value, unit, pair }
}

/** The sessions besides the one that is decided about, each newest first. */
export interface OtherSessions {
  later: Iterable<SessionState>
  before: Iterable<SessionState>
}

/** The same exercise with the same number of sets, in the same place among lines like it, on earlier days on which it was
 * lifted, newest first. What was lifted on the same date is no other day. */
export function* pastDays({ date, line }: LiftDay, { before }: OtherSessions): Generator<LiftDay> {
  for (const state of before) {
    if (date !== null && state.date === date) continue
    const same = liftLines(state).find(
      ({ written, ordinal }) => isLike(written, line.written) && ordinal === line.ordinal,
    )
    const day = same && liftDay(state, same)
    if (day && day.sets.length > 0) yield day
  }
}

function isLike(one: Exercise, other: Exercise): boolean {
  return (
    isSameExercise(one.name, other.name) &&
    one.side === other.side &&
    one.sets.length === other.sets.length &&
    one.sets.every((set, at) => set.dose.kind === other.sets[at]?.dose.kind)
  )
}

/** The newest session with a set of an exercise, on any line. */
export function lastLifted(
  name: string,
  state: SessionState,
  { later, before }: OtherSessions,
): SessionState | undefined {
  const key = exerciseKey(name)
  const isLifted = (each: SessionState) =>
    each.steps.some(
      (step) => step.kind === 'set' && exerciseKey(step.name) === key && resultOf(each, step) !== null,
    )
  for (const sessions of [later, [state], before])
    for (const each of sessions) if (isLifted(each)) return each
  return undefined
}

/** Whether the exercise of a line was missed after a day of it, in a session besides this one, on any line, at the
 * heaviest load of this day or less. */
export function isMissedSince(
  previous: LiftDay,
  { sets, line }: LiftDay,
  { later, before }: OtherSessions,
): boolean {
  const kg = (set: SetOfDay) => kilogramsOfLoad(set.result.load) ?? 0
  const heaviest = Math.max(...sets.map(kg))
  const isMissedIn = (state: SessionState) =>
    liftLines(state)
      .filter(({ written }) => isSameExercise(written.name, line.written.name))
      .flatMap((each) => liftDay(state, each).sets)
      .some((set) => set.went === 'missed' && kg(set) <= heaviest + 1e-6)
  for (const sessions of [later, before]) {
    for (const state of sessions) {
      if (state.date === null || previous.date === null || state.date <= previous.date) break
      if (isMissedIn(state)) return true
    }
  }
  return false
}

/** Whether the same loads were lifted on two days of the same line. */
export function hasSameLoads(one: LiftDay, other: LiftDay): boolean {
  return loadsText(one.loads) === loadsText(other.loads)
}

/** Whether other loads were lifted than a line names. A line without a load, or with one from last time, names none; a
 * drop set names several. */
export function isAtOtherLoads({ line, prescribed, loads }: LiftDay): boolean {
  return line.written.sets.some(
    ({ dose, load }, at) =>
      load !== null &&
      load.kind !== 'last' &&
      dose.kind !== 'drop' &&
      loadText(prescribed[at]) !== loadText(loads[at]),
  )
}

/** `92.5 kg`, or `60 kg/65 kg/70 kg` if they differ. */
export function loadsText(loads: readonly (Load | null)[]): string {
  return alikeOrAll(loads.map(loadText))
}

function loadText(load: Load | null | undefined): string {
  return load ? printLoad(load) : '-'
}

/** `a`, or `a/b/a` if they differ. */
export function alikeOrAll(texts: readonly string[]): string {
  return texts.every((text) => text === texts[0]) ? (texts[0] ?? '') : texts.join('/')
}

/** How the exercise of a line went in a session.
 *
 * A range of repetitions is complete at its upper end and missed below its lower one. What failed above its written load
 * is not missed, and what was lighter is not complete. With a prescribed effort a set counts as complete if the typed
 * effort is known and no higher; without one, any effort counts. An exercise with an untried set, that was swapped, or
 * with pain, is neither complete nor missed, nor is any on a day with a sign that needs a doctor.
 * Common practice, no source. */
export function lineOutcome(state: SessionState, steps: readonly SetStep[]): LineOutcome {
  if (steps.length === 0 || steps.some((step) => step.insteadOf !== null)) return 'other'
  if (state.notes.some((note) => note.pain && steps.some((step) => step.id === note.about))) return 'other'
  const outcomes = steps.map((step) => setOf(state, step)?.went ?? 'other')
  if (outcomes.includes('hurt') || isWarningNoted(state)) return 'other'
  if (outcomes.includes('missed')) return 'missed'
  return outcomes.every((outcome) => outcome === 'complete') ? 'complete' : 'other'
}

/** Null if it was not recorded. */
function setOf(state: SessionState, step: SetStep): SetOfDay | null {
  const result = resultOf(state, step)
  if (result === null) return null
  const written = kilogramsOfLoad(prescribedLoadOf(state, step))
  const more = written === null ? 0 : (kilogramsOfLoad(result.load) ?? 0) - written
  const beside = Math.abs(more) < 1e-6 ? 0 : more
  return { step, result, beside, went: setOutcome({ step, result, beside }) }
}

function setOutcome({ step, result, beside }: Omit<SetOfDay, 'went'>): SetOutcome {
  if (result.pain !== null) return 'hurt'
  const done = doseDone(step.dose, result)
  const isToTheLimit = isMeantToTheLimit(step.dose, result)
  if ((result.failed && !isToTheLimit) || done === 'missed') return beside > 0 ? 'other' : 'missed'
  if (done === 'other' || beside < 0) return 'other'
  if (isToTheLimit && step.rpe === null) return 'complete'
  if (step.rpe !== null && (result.rpe === null || result.rpe > step.rpe.to)) return 'other'
  return 'complete'
}
