import { formatClock } from '../units/duration.ts'
import { massIn } from '../units/mass.ts'
import type { DoneExercise } from './lifted.ts'
import { loadText } from './loadText.ts'
import type { Summary } from './model.ts'
import type { DoneSet } from './performed.ts'
import type { SummaryView } from './view.ts'

type Lifted = Summary['lifting']['exercises'][number]

/** Rests so near the prescribed ones are as prescribed. Invented. */
const restShare = 0.1
const restSeconds = 10

/** Equal sets in a row are one: `4 x (2+2) x 140 kg @8 8 8.5 9!`, `2 x 6 x bodyweight, 5 x bodyweight @!`. */
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
}

function setText({ result, step }: DoneSet, view: SummaryView): string {
  const count =
    result.groups !== null
      ? `(${result.groups.join('+')})`
      : result.seconds !== null
        ? `${Number(result.seconds.toFixed(1))} s`
        : result.meters !== null
          ? `${Number(result.meters.toFixed(1))} m`
          : String(result.reps ?? 0)
  const side = step.side === null ? '' : ` ${step.side}`
  const unit = view.state.prescription.units.mass === view.mass ? null : view.mass
  return `${count}${side}${result.load === null ? '' : ` x ${loadText(result.load, unit)}`}`
}

/** Efforts of equal sets, `-` where none was typed; `!` behind one, or in its place, for a failed repetition. */
function effortsText(sets: readonly DoneSet[]): string {
  const efforts = sets.map(({ result }) => `${result.rpe ?? ''}${result.failed ? '!' : ''}`)
  if (efforts.every((effort) => effort === '')) return ''
  return ` @${efforts.map((effort) => (effort === '' ? '-' : effort)).join(' ')}`
}

/** The estimated maximum with its range, and what is to be said of it. */
export function estimatePhrases(lifted: Lifted, exercise: DoneExercise, view: SummaryView): string[] {
  const best = lifted.oneRepMax
  if (best === null) return []
  const isBody = exercise.sets.some(
    (set) => set.number === best.fromSet && set.result.load?.kind === 'bodyweight',
  )
  const number = (kg: number) => Number(massIn({ value: kg, unit: 'kg' }, view.mass).toFixed(1))
  const text = (kg: number) => {
    const value = number(kg)
    return isBody ? `bodyweight${signed(value)} ${view.mass}` : `${value} ${view.mass}`
  }
  const after = best.afterRun ? ['made after the run: not a fresh one'] : []
  if (best.formula === null && !best.cluster) {
    const named = best.atLeast ? 'maximum at least' : 'lifted once:'
    return [`${named} ${text(best.kg)}, set ${best.fromSet}`, ...after]
  }
  const named = best.atLeast ? 'maximum at least' : 'estimated maximum'
  const formula = view.full && best.formula !== null ? `, by ${best.formula}` : ''
  return [
    `${named} ${text(best.kg)}${rangeOf(best, (kg) => (isBody ? signed(number(kg)) : String(number(kg))))}, set ${best.fromSet}${formula}`,
    ...(best.cluster ? ['a cluster set: from its longest group alone to no pause at all'] : []),
    ...after,
  ]
}

function signed(value: number): string {
  return `${value < 0 ? '-' : '+'}${Math.abs(value)}`
}

function rangeOf(best: NonNullable<Lifted['oneRepMax']>, printed: (kg: number) => string): string {
  if (best.lowKg === null) return ''
  // A range around an "at least" would contradict it: what spreads there is the equations.
  const who = best.atLeast ? 'the equations say ' : ''
  if (best.highKg === null) return ` (${who}${printed(best.lowKg)} or more)`
  return best.lowKg === best.highKg ? '' : ` (${who}${printed(best.lowKg)} to ${printed(best.highKg)})`
}

/** Pauses and rests where they were measured; in a note only those that were not as prescribed. */
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
