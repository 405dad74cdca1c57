import { mostRepetitionsInANote } from '../figures/oneRepMax.ts'
import { isSingleJoint } from '../prescription/exercise.ts'
import { loadText } from '../session/load.ts'
import { counted, roundTo } from '../units/decimal.ts'
import { formatClock, printTime } from '../units/duration.ts'
import { metersOf, printLength } from '../units/length.ts'
import { massIn } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import type { Summary } from './model.ts'
import { type DoneExercise, type DoneSet, isRunningExercise } from './performed.ts'
import type { SummaryView } from './summarise.ts'

type Lifted = Summary['lifting']['exercises'][number]

/** Rests this close to the prescribed ones count as prescribed. This program's own rule. */
const restShare = 0.1
const restSeconds = 10

/** Merges equal consecutive sets: `4 x (2+2) x 140 kg @8 8 8.5 9!`, `2 x 6 x bodyweight, 5 x bodyweight @!`. */
export function setsText(exercise: DoneExercise, view: SummaryView): string {
  const runs: { text: string; sets: DoneSet[] }[] = []
  for (const set of exercise.sets) {
    const text = setText(set, view)
    const before = runs.at(-1)
    if (before?.text === text) before.sets.push(set)
    else runs.push({ text, sets: [set] })
  }
  return runs
    .map(({ text, sets }) => `${sets.length > 1 ? `${sets.length} x ` : ''}${text}${effortsText(sets)}`)
    .join(', ')
    .concat(isRunningExercise(exercise) ? ', counted as running' : '')
}

function setText({ result, step, side: ofSide }: DoneSet, view: SummaryView): string {
  const [rounds = 0, begun = 0] = result.groups ?? []
  if (step.dose.kind === 'roundsIn' && result.groups !== null)
    return `${counted(rounds, 'round')}${begun === 0 ? '' : ` and ${begun} reps`}`
  if (
    step.dose.kind === 'forTime' &&
    result.seconds !== null &&
    result.reps === null &&
    result.meters === null
  )
    return formatClock(result.seconds)
  const count =
    result.groups !== null
      ? `(${result.groups.join('+')})`
      : result.seconds !== null
        ? printTime(roundTo(result.seconds, 1))
        : result.meters !== null
          ? carriedText(result.meters, step)
          : String(result.reps ?? 0)
  const side = ofSide === null ? '' : ` ${ofSide}`
  return `${count}${side}${result.load === null ? '' : ` x ${loadText(result.load, askedUnit(view))}`}`
}

/** The unit that was asked for; null keeps each load's own. */
function askedUnit({ state, mass }: SummaryView): MassUnit | null {
  return state.prescription.units.mass === mass ? null : mass
}

/** A carried distance in its own unit: `40 yd`. */
function carriedText(meters: number, { dose }: DoneSet['step']): string {
  if (dose.kind !== 'distance') return `${roundTo(meters, 1)} m`
  const written = metersOf(dose.length)
  return printLength({ ...dose.length, value: roundTo((meters / written) * dose.length.value, 1) })
}

/** Efforts of equal sets, `-` where none was typed; `!` after one, or instead of one, for a failed repetition. */
function effortsText(sets: readonly DoneSet[]): string {
  const efforts = sets.map(({ result }) => `${result.rpe ?? ''}${result.failed ? '!' : ''}`)
  if (efforts.every((effort) => effort === '')) return ''
  return ` @${efforts.map((effort) => (effort === '' ? '-' : effort)).join(' ')}`
}

/** The estimated maximum with its range and a caution, if one applies, in the unit of the set it is from. */
export function estimatePhrases(lifted: Lifted, exercise: DoneExercise, view: SummaryView): string[] {
  const best = lifted.oneRepMax
  if (best === null || (!view.full && isForFullOnly(exercise.name, best))) return []
  const { load = null } = exercise.sets.find((set) => set.number === best.fromSet)?.result ?? {}
  const isBody = load?.kind === 'bodyweight'
  const both = load?.kind === 'mass' && load.pair ? ' both together' : ''
  const unit = askedUnit(view) ?? load?.unit ?? view.mass
  const number = (kg: number) => roundTo(massIn({ value: kg, unit: 'kg' }, unit), 1)
  const text = (kg: number) => {
    const value = number(kg)
    return isBody ? `bodyweight${signedLoad(value)} ${unit}` : `${value} ${unit}${both}`
  }
  const after = best.afterRun ? ['made after the run: not a fresh one'] : []
  if (best.formula === null) {
    const named = best.atLeast ? 'maximum at least' : 'measured maximum'
    return [`${named} ${text(best.kg)}, set ${best.fromSet}`, ...after]
  }
  const named = best.atLeast ? 'maximum at least' : 'estimated maximum'
  const formula = view.full ? `, by ${best.formula}` : ''
  return [
    `${named} ${text(best.kg)}${rangeOf(best, (kg) => (isBody ? signedLoad(number(kg)) : String(number(kg))))}, set ${best.fromSet}${formula}`,
    ...(best.cluster ? ['a cluster set: from its longest group alone to no pause at all'] : []),
    ...after,
  ]
}

/** Many repetitions, or one joint: the estimate says little. */
function isForFullOnly(name: string, { repetitions }: NonNullable<Lifted['oneRepMax']>): boolean {
  return repetitions > mostRepetitionsInANote || isSingleJoint(name)
}

function signedLoad(value: number): string {
  return `${value < 0 ? '-' : '+'}${Math.abs(value)}`
}

function rangeOf(best: NonNullable<Lifted['oneRepMax']>, printed: (kg: number) => string): string {
  if (best.lowKg === null) return ''
  // A range around an "at least" would contradict it: the spread comes from the equations.
  const who = best.atLeast ? 'the equations say ' : ''
  if (best.highKg === null) return ` (${who}${printed(best.lowKg)} or more)`
  return best.lowKg === best.highKg ? '' : ` (${who}${printed(best.lowKg)} to ${printed(best.highKg)})`
}

/** The measured pauses and rests; in a note only those that differ from the prescription. */
export function restPhrases(lifted: Lifted, view: SummaryView): string[] {
  return [
    ...(lifted.pauses ? restPhrase('pause', lifted.pauses, lifted.pauses.paced, view) : []),
    ...(lifted.rests ? restPhrase('rest', lifted.rests, false, view) : []),
  ]
}

function restPhrase(
  what: string,
  rest: { prescribedSeconds: number | null; meanSeconds: number | null },
  paced: boolean,
  view: SummaryView,
): string[] {
  const { prescribedSeconds, meanSeconds } = rest
  if (meanSeconds === null) return []
  const off = prescribedSeconds === null ? null : Math.abs(meanSeconds - prescribedSeconds)
  const isAsPrescribed = off === null || off <= Math.max(restSeconds, (prescribedSeconds ?? 0) * restShare)
  if (!view.full && isAsPrescribed) return []
  const meant = prescribedSeconds === null ? '' : `, ${formatClock(prescribedSeconds)} prescribed`
  return [`mean ${what} ${formatClock(meanSeconds)}${meant}${paced ? ', set by the clock' : ''}`]
}
