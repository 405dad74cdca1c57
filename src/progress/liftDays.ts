import { exerciseKey, isSameExercise } from '../prescription/exercise.ts'
import type { Exercise, Load } from '../prescription/model.ts'
import { printLoad } from '../prescription/print.ts'
import { isSameItem, type SetStep } from '../prescription/step.ts'
import { kilogramsOfLoad, prescribedLoadOf } from '../session/load.ts'
import type { LiftedLoad, SetResult } from '../session/model.ts'
import { isWarningNoted } from '../session/pain.ts'
import { resultOf, type SessionState } from '../session/state.ts'
import { doseDone, isMeantToTheLimit } from '../summary/performed.ts'

/* How the lift lines of a day went. Every rule about lifts reads this, so that it judges the load that was lifted,
 * not the one that was written. */

/** An exercise of a lift line. */
export interface LiftLine {
  part: number
  item: number
  exercise: number
  written: Exercise
  /** How many lines before it on its day have the same exercise and sets. */
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
  outcome: SetOutcome
  /** How many kilograms it was above its prescribed load; below 0 if lighter. */
  kgOver: number
}

/** An exercise of a line as it went on one day. */
export interface LiftDay {
  date: string | null
  line: LiftLine
  outcome: LineOutcome
  sets: SetOfDay[]
  /** The load of each written set, as a mass if that is known. */
  prescribed: (Load | null)[]
  /** For each written set, the load that the day is judged by: the lifted one. It is the prescribed one for a set
   * that was not done, and for all sets of an incomplete day on which some were lighter or heavier than prescribed
   * and others not. */
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
  const isMixed = outcome !== 'complete' && new Set(sets.map(({ kgOver }) => Math.sign(kgOver))).size > 1
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

/** A known load as it would be written; the written range where the load is within it. */
function asWritten(written: Load | null, known: LiftedLoad | null): Load | null {
  if (known === null) return written
  if (known.kind === 'bodyweight') return known
  const { value, unit, pair } = known
  if (written?.kind === 'mass' && written.unit === unit && written.pair === pair)
    if (value >= written.from && value <= written.to) return written
  return { kind: 'mass', from: value, to: value, unit, pair }
}

/** The sessions after and before the one being decided about, each newest first. */
export interface OtherSessions {
  later: Iterable<SessionState>
  before: Iterable<SessionState>
}

/** The earlier days on which this line was lifted, newest first: the same exercise with the same number of sets, in
 * the same place among lines like it. Another session on the same date does not count as another day. */
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

/** Whether any line of another session after `previous` missed the exercise at the heaviest load of this day or
 * less. */
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
      .some((set) => set.outcome === 'missed' && kg(set) <= heaviest + 1e-6)
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

/** Whether the lifted loads differ from those the line names. Lines without a load, loads that build on last time,
 * and drop sets are not compared. */
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
 * A range of repetitions is complete at its upper end and missed below its lower one. A failure above the written
 * load is not a miss, and a lighter load is not complete. Where an effort is prescribed, a set is complete only if
 * its typed effort is known and no higher; otherwise any effort will do. An exercise that was swapped, hurt or has an
 * untried set is neither complete nor missed, nor is any exercise on a day with a sign that needs a doctor. Common
 * practice, no source. */
export function lineOutcome(state: SessionState, steps: readonly SetStep[]): LineOutcome {
  if (steps.length === 0 || steps.some((step) => step.insteadOf !== null)) return 'other'
  if (state.notes.some((note) => note.pain && steps.some((step) => step.id === note.about))) return 'other'
  const outcomes = steps.map((step) => setOf(state, step)?.outcome ?? 'other')
  if (outcomes.includes('hurt') || isWarningNoted(state)) return 'other'
  if (outcomes.includes('missed')) return 'missed'
  return outcomes.every((outcome) => outcome === 'complete') ? 'complete' : 'other'
}

/** Null if it was not recorded. */
function setOf(state: SessionState, step: SetStep): SetOfDay | null {
  const result = resultOf(state, step)
  if (result === null) return null
  const written = kilogramsOfLoad(prescribedLoadOf(state, step))
  const difference = written === null ? 0 : (kilogramsOfLoad(result.load) ?? 0) - written
  const kgOver = Math.abs(difference) < 1e-6 ? 0 : difference
  return { step, result, kgOver, outcome: setOutcome({ step, result, kgOver }) }
}

function setOutcome({ step, result, kgOver }: Omit<SetOfDay, 'outcome'>): SetOutcome {
  if (result.pain !== null) return 'hurt'
  const done = doseDone(step.dose, result)
  const isToTheLimit = isMeantToTheLimit(step.dose, result)
  if ((result.failed && !isToTheLimit) || done === 'missed') return kgOver > 0 ? 'other' : 'missed'
  if (done === 'other' || kgOver < 0) return 'other'
  if (isToTheLimit && step.rpe === null) return 'complete'
  if (step.rpe !== null && (result.rpe === null || result.rpe > step.rpe.to)) return 'other'
  return 'complete'
}
