import { isAtTheLimit } from '../figures/advice.ts'
import { noise } from '../figures/figure.ts'
import { isSameExercise } from '../prescription/exercise.ts'
import type { Exercise, Load } from '../prescription/model.ts'
import { loadAsWritten } from '../prescription/planned.ts'
import { printLoad } from '../prescription/print.ts'
import { isSameItem, type SetStep } from '../prescription/step.ts'
import { kilogramsOfLoad, prescribedLoadOf } from '../session/load.ts'
import type { LiftedLoad } from '../session/model.ts'
import { isWarningNoted, painsDuring } from '../session/pain.ts'
import type { SessionState } from '../session/state.ts'
import { type Done, doseDone, isMeantToTheLimit, stepsDone } from '../summary/performed.ts'

/* How the lift lines of a day went. Every rule about lifts reads this, so that it judges the load that was lifted,
 * not the one that was written. */

export interface LiftLine {
  part: number
  item: number
  exercise: number
  written: Exercise
  /** How many lines before it on its day have the same exercise and sets. */
  ordinal: number
}

/** How a set or all sets of a line went. `complete`: as prescribed, with something left. `unrated`: the same at the
 * written load, but without the effort that would tell. `missed`: tried at the written load or less, and failed.
 * `other`: none of these. */
type Outcome = 'complete' | 'unrated' | 'missed' | 'other'

/** An exercise of a line as it went on one day. */
export type LiftDay = ReturnType<typeof liftDay>

export function liftLinesIn({ prescription }: SessionState): LiftLine[] {
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

export function liftDay(state: SessionState, line: LiftLine) {
  const steps = state.steps.filter(
    (step): step is SetStep =>
      step.kind === 'set' && isSameItem(step, line) && step.exercise === line.exercise,
  )
  const sets = stepsDone(state, 'set', steps)
    .filter(({ step }) => step.insteadOf === null)
    .map((done) => setOf(state, done))
  const outcome = lineOutcome(state, steps, sets)
  const isAsLifted = outcome === 'complete' || sets.every(({ kgOver }) => kgOver < 0)
  const written = line.written.sets.map(({ load }, at) => {
    const step = steps.find(({ number }) => number === at + 1)
    const known = step ? prescribedLoadOf(state, step) : null
    const prescribed = asWritten(load, known)
    const lifted = sets.find((set) => set.step === step)?.result.load ?? null
    return { prescribed, lifted: lifted && (isAsLifted || !known) ? asWritten(load, lifted) : prescribed }
  })
  return {
    date: state.date,
    line,
    outcome,
    sets,
    // The load of each written set, as a mass if that is known.
    prescribed: written.map(({ prescribed }) => prescribed),
    // What the next day starts from: the lifted load if the day was complete or all of it was lighter, else the
    // prescribed one.
    loads: written.map(({ lifted }) => lifted),
  }
}

/** A known load as it would be written; the written range where the load is within it. */
function asWritten(written: Load | null, known: LiftedLoad | null): Load | null {
  if (known === null) return written
  if (known.kind === 'mass' && written?.kind === 'mass') {
    const isSameKind = written.unit === known.unit && written.pair === known.pair
    if (isSameKind && known.value >= written.from && known.value <= written.to) return written
  }
  return loadAsWritten(known)
}

/** The earlier days on which this line was lifted, newest first: the same exercise with the same number of sets, in
 * the same place among lines like it. Another session on the same date does not count as another day.
 * @param earlier sessions, newest first */
export function* pastDays({ date, line }: LiftDay, earlier: readonly SessionState[]): Generator<LiftDay> {
  for (const state of earlier) {
    if (date !== null && state.date === date) continue
    const same = liftLinesIn(state).find(
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

export function alikeOrAll(texts: readonly string[]): string {
  return texts.every((text) => text === texts[0]) ? (texts[0] ?? '') : texts.join('/')
}

/** An exercise that was swapped, hurt or has an untried set is neither complete nor missed, nor is any exercise on a
 * day with a sign that needs a doctor. This program's own rule. */
function lineOutcome(state: SessionState, steps: readonly SetStep[], sets: readonly SetOfDay[]): Outcome {
  const isHurt = painsDuring(state, steps).length > 0
  if (isHurt || isWarningNoted(state) || steps.some(({ insteadOf }) => insteadOf !== null)) return 'other'
  const outcomes = sets.map(({ outcome }) => outcome)
  if (outcomes.includes('missed')) return 'missed'
  if (sets.length < steps.length || outcomes.includes('other')) return 'other'
  return outcomes.includes('unrated') ? 'unrated' : 'complete'
}

type SetOfDay = ReturnType<typeof setOf>

/** A recorded set, and how many kilograms it was above its prescribed load; below 0 if lighter. */
function setOf(state: SessionState, done: Done<'set'>) {
  const written = kilogramsOfLoad(prescribedLoadOf(state, done.step))
  const difference = written === null ? 0 : (kilogramsOfLoad(done.result.load) ?? 0) - written
  const kgOver = Math.abs(difference) < noise ? 0 : difference
  return { ...done, kgOver, outcome: setOutcome(done, kgOver) }
}

/** The highest effort, where none is written, after which more is due. This program's own rule. */
const reasonableEffort = 8.5

/** A range of repetitions is complete at its upper end and missed below its lower one. A failure above the written load
 * is not a miss, and a lighter load is not complete. Where an effort is prescribed, a set is complete only if its typed
 * effort is known, no higher, and not at the limit. Common practice, no source. */
function setOutcome({ step, result }: Done<'set'>, kgOver: number): Outcome {
  const done = doseDone(step.dose, result)
  const isToTheLimit = isMeantToTheLimit(step, result)
  if ((result.failed && !isToTheLimit) || done === 'missed') return kgOver > 0 ? 'other' : 'missed'
  if (done === 'other' || kgOver < 0) return 'other'
  const { rpe } = result
  if (step.rpe === null) return isToTheLimit || (rpe ?? 0) <= reasonableEffort ? 'complete' : 'other'
  if (rpe === null) return kgOver > 0 ? 'other' : 'unrated'
  return rpe <= step.rpe.to && !isAtTheLimit(rpe) ? 'complete' : 'other'
}
