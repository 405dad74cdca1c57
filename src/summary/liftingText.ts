import { mostRepetitionsInANote } from '../figures/oneRepMax.ts'
import { isSingleJoint } from '../prescription/exercise.ts'
import { heightText, loadText, typedLoad } from '../session/load.ts'
import type { SetResult } from '../session/model.ts'
import { counted, roundTo } from '../units/decimal.ts'
import { formatClock, printTime } from '../units/duration.ts'
import { printInUnitOf } from '../units/length.ts'
import { joined, neighbours } from '../units/lists.ts'
import { kilogramsIn } from '../units/mass.ts'
import type { Length, MassUnit } from '../units/model.ts'
import type { ExerciseView } from './lifting.ts'
import type { LiftedExercise } from './model.ts'
import { type DoneExercise, type DoneSet, isRunningExercise } from './performed.ts'
import { type Row, rowOf, type SummaryView } from './view.ts'

/** Rests this close to the prescribed ones count as prescribed. This program's own rule. */
const restShare = 0.1
const restSeconds = 10

/** A part's sets of each exercise. The figures are those of the whole session, so they follow the exercise's last sets;
 * a short summary has only the estimate of each part's main lift, the first with one that is worth a note. */
export function liftRows(index: number, view: SummaryView): Row[] {
  const endsHere = ({ sets }: ExerciseView) => sets.at(-1)?.step.part === index
  const main = view.exercises.find((each) => endsHere(each) && isForANote(each))
  const rows = view.exercises.flatMap((each) => {
    const { name, sets } = each
    const here = sets.filter(({ step }) => step.part === index)
    const [first] = here
    if (first === undefined) return []
    const figures = endsHere(each) ? figurePhrases(each, each === main, view) : []
    const row = rowOf(name, setsText({ name, sets: here }, view), figures)
    return [{ at: view.state.steps.indexOf(first.step), row }]
  })
  return rows.sort((one, other) => one.at - other.at).map(({ row }) => row)
}

function figurePhrases(exercise: ExerciseView, isMain: boolean, view: SummaryView): string[] {
  const { figures } = exercise
  const estimate = isMain || view.full ? estimatePhrases(exercise, view) : []
  const tonnage = view.full && figures.tonnageKg > 0 ? [`${massText(figures.tonnageKg, view)} in all`] : []
  return [...estimate, ...tonnage, ...restPhrases(figures, view)]
}

/** Merges equal consecutive sets: `4 x (2+2) x 140 kg @8 8 8.5 9!`, `2 x 6 x bodyweight, 5 x bodyweight @!`,
 * `3 x (12 x 20 kg > 8 x 15 kg)` of drop sets. */
function setsText(exercise: DoneExercise, view: SummaryView): string {
  const isDrop = ({ step }: DoneSet, before: DoneSet) => step === before.step && step.dose.kind === 'drop'
  const text = (drops: readonly DoneSet[]) => drops.map((set) => setText(set, view)).join(' > ')
  return neighbours(neighbours(exercise.sets, isDrop), (set, before) => text(set) === text(before))
    .map((sets) => {
      const one = text(sets[0])
      const each = sets[0].length > 1 ? `(${one})` : one
      const efforts = effortsText(sets.map((drops) => drops.at(-1)!.result))
      return `${sets.length > 1 ? `${sets.length} x ${each}` : one}${efforts}`
    })
    .join(', ')
    .concat(isRunningExercise(exercise) ? ', counted as running' : '')
}

function setText({ result, step, side }: DoneSet, { state, askedMass }: SummaryView): string {
  const { dose } = step
  const { groups, reps, seconds, meters, load } = result
  if (dose.kind === 'roundsIn' && groups !== null) {
    const [rounds = 0, begun = 0] = groups
    return `${counted(rounds, 'round')}${begun === 0 ? '' : ` and ${begun} reps`}`
  }
  if (dose.kind === 'forTime' && seconds !== null && reps === null && meters === null)
    return formatClock(seconds)
  const count = countText(result, dose.kind === 'distance' ? dose.length : null)
  return joined(' ', [count, side, load && `x ${loadText(load, askedMass)}`, heightText(state, step)])
}

/** What is shown of a recorded set. */
type ShownSet = Pick<SetResult, 'reps' | 'groups' | 'seconds' | 'meters' | 'load' | 'rpe' | 'failed'>

/** What was done in a set, without its load and its effort: `5`, `(2+2)`, `45 s`, `40 m`.
 * @param written the prescribed distance, for its unit */
function countText({ reps, groups, seconds, meters }: ShownSet, written: Length | null = null): string {
  if (groups !== null) return `(${groups.join('+')})`
  if (seconds !== null) return printTime(roundTo(seconds, 1))
  if (meters === null) return String(reps ?? 0)
  return written === null ? `${roundTo(meters, 1)} m` : printInUnitOf(written, meters)
}

/** Efforts of equal sets, `-` where none was typed; `!` after one, or instead of one, for a failed repetition. */
function effortsText(sets: readonly ShownSet[]): string {
  const efforts = sets.map(({ rpe, failed }) => `${rpe ?? ''}${failed ? '!' : ''}`)
  if (efforts.every((effort) => effort === '')) return ''
  return ` @${efforts.map((effort) => (effort === '' ? '-' : effort)).join(' ')}`
}

/** The sets of an exercise in short, those that differ only in effort as one: `(2+2) x 137.5 @8 8 9, 4 x 120`,
 * `5 x 100, 3 sets, 1 failed at 6`.
 * @param unit of loads that need not name it */
export function shortSetsText(sets: readonly ShownSet[], unit: MassUnit): string {
  const text = (set: ShownSet) =>
    set.load === null ? countText(set) : `${countText(set)} x ${typedLoad(set.load, unit)}`
  return neighbours(sets, (set, before) => text(set) === text(before))
    .map((alike) => {
      const isTyped = alike.some(({ rpe }) => rpe !== null)
      return text(alike[0]) + (isTyped ? effortsText(alike) : failedText(alike))
    })
    .join(', ')
}

/** How many sets of the same repetitions there were, and at which repetition some failed. */
function failedText(sets: readonly [ShownSet, ...ShownSet[]]): string {
  const count = sets.length > 1 ? `, ${sets.length} sets` : ''
  const failed = sets.filter((set) => set.failed).length
  if (failed === 0) return count
  const { groups, reps } = sets[0]
  const at = groups !== null || reps === null ? '' : ` at ${reps + 1}`
  return `${count}, ${failed === sets.length ? '' : `${failed} `}failed${at}`
}

/** The estimated maximum with its range and a caution, if one applies, in the unit of the set it is from. */
function estimatePhrases({ sets, figures }: ExerciseView, view: SummaryView): string[] {
  const best = figures.oneRepMax
  if (best === null) return []
  const { load = null } = sets.find((set) => set.number === best.fromSet)?.result ?? {}
  const isBody = load?.kind === 'bodyweight'
  const both = load?.kind === 'mass' && load.pair ? ' both together' : ''
  const unit = view.askedMass ?? load?.unit ?? view.mass
  const printed = (kg: number) => {
    const value = roundTo(kilogramsIn(kg, unit), 1)
    return isBody ? signedLoad(value) : String(value)
  }
  const text = `${isBody ? 'bodyweight' : ''}${printed(best.kg)} ${unit}${both}`
  const isEstimate = best.formula !== null
  const named = best.atLeast ? 'maximum at least' : isEstimate ? 'estimated maximum' : 'measured maximum'
  const formula = isEstimate && view.full ? `, by ${best.formula}` : ''
  const ofCluster = 'a cluster set: from its longest group alone to no pause at all'
  return [
    `${named} ${text}${rangeOf(best, printed)}, set ${best.fromSet}${formula}`,
    ...(isEstimate && best.cluster ? [ofCluster] : []),
    ...(best.afterRun ? ['made after the run: not a fresh one'] : []),
  ]
}

/** Whether a lift has an estimate that says enough for a note: not one from many repetitions, or of one joint. */
function isForANote({ name, figures }: ExerciseView): boolean {
  const most = figures.oneRepMax?.repetitions ?? Number.POSITIVE_INFINITY
  return most <= mostRepetitionsInANote && !isSingleJoint(name)
}

function signedLoad(value: number): string {
  return `${value < 0 ? '-' : '+'}${Math.abs(value)}`
}

function rangeOf(best: NonNullable<LiftedExercise['oneRepMax']>, printed: (kg: number) => string): string {
  if (best.lowKg === null) return ''
  // A range around an "at least" would contradict it: the spread comes from the equations.
  const source = best.atLeast ? 'the equations say ' : ''
  if (best.highKg === null) return ` (${source}${printed(best.lowKg)} or more)`
  return best.lowKg === best.highKg ? '' : ` (${source}${printed(best.lowKg)} to ${printed(best.highKg)})`
}

/** The measured pauses and rests; in a note only those that differ from the prescription. */
export function restPhrases({ pauses, rests }: LiftedExercise, view: SummaryView): string[] {
  return [
    pauses === null ? '' : restPhrase('pause', pauses, view, pauses.paced),
    rests === null ? '' : restPhrase('rest', rests, view),
  ].filter((phrase) => phrase !== '')
}

function restPhrase(
  what: string,
  { prescribedSeconds, meanSeconds }: NonNullable<LiftedExercise['rests']>,
  { full }: SummaryView,
  paced = false,
): string {
  if (meanSeconds === null) return ''
  const off = prescribedSeconds === null ? 0 : Math.abs(meanSeconds - prescribedSeconds)
  if (!full && off <= Math.max(restSeconds, (prescribedSeconds ?? 0) * restShare)) return ''
  const prescribed = prescribedSeconds === null ? '' : `, ${formatClock(prescribedSeconds)} prescribed`
  return `mean ${what} ${formatClock(meanSeconds)}${prescribed}${paced ? ', set by the clock' : ''}`
}

/** A mass from kilograms in the unit of the page, to a tenth. */
export function massText(kg: number, view: SummaryView): string {
  return `${roundTo(kilogramsIn(kg, view.mass), 1)} ${view.mass}`
}
