import type { LoadedBar } from '../figures/bar.ts'
import { isSameExercise } from '../prescription/exercise.ts'
import type { Load } from '../prescription/model.ts'
import { loadFromLast, type Maximum, maximumFor, plannedMass } from '../prescription/planned.ts'
import { printHeight } from '../prescription/print.ts'
import { isSet, isSibling, type SetStep } from '../prescription/step.ts'
import { printNumber, roundTo } from '../units/decimal.ts'
import { neighbours } from '../units/lists.ts'
import { kilogramsOf, massIn } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import type { LiftedLoad } from './model.ts'
import { liftItemOf, resultOf, type SessionState } from './state.ts'

/* The load of a set: in kilograms, in words, on the bar, and the one that an empty entry means. */

/** A load in kilograms: both of a pair; for a bodyweight exercise the added load; null without a load. */
export function kilogramsOfLoad(load: LiftedLoad): number
export function kilogramsOfLoad(load: LiftedLoad | null): number | null
export function kilogramsOfLoad(load: LiftedLoad | null): number | null {
  if (load === null) return null
  return kilogramsOf({ value: numberOf(load), unit: load.unit }) * (isPair(load) ? 2 : 1)
}

/** The number of a load as typed. */
export function numberOf(load: LiftedLoad): number {
  return load.kind === 'mass' ? load.value : load.added
}

export function withNumber(load: LiftedLoad, number: number): LiftedLoad {
  return load.kind === 'mass' ? { ...load, value: number } : { ...load, added: number }
}

const isPair = (load: LiftedLoad) => load.kind === 'mass' && load.pair

/** Whether two loads differ at most in their number. */
export function isAlike(one: LiftedLoad, other: LiftedLoad): boolean {
  return one.unit === other.unit && one.kind === other.kind && isPair(one) === isPair(other)
}

/** Whether two loads are the same as written: 20 kg and 44 lb are not. */
export function isSameLoad(one: LiftedLoad, other: LiftedLoad): boolean {
  return isAlike(one, other) && numberOf(one) === numberOf(other)
}

/** Writes a load: `92.5 kg`, `2x22.5 kg`, `bodyweight`, `bodyweight+10 kg`; to two decimals.
 * @param unit for printing; null keeps the load's own */
export function loadText(load: LiftedLoad, unit: MassUnit | null = null): string {
  const shown = unit ?? load.unit
  const converted = roundTo(massIn({ value: numberOf(load), unit: load.unit }, shown), 2)
  return formatted(withNumber(load, converted), 'bodyweight', ` ${shown}`)
}

/** Writes a load exactly, as it is typed after the x: `100`, `225 lb`, `2x25`, `bw+10`.
 * @param unit the unit to leave out; null writes every unit */
export function typedLoad(load: LiftedLoad, unit: MassUnit | null): string {
  return formatted(load, 'bw', load.unit === unit ? '' : ` ${load.unit}`)
}

function formatted(load: LiftedLoad, body: 'bodyweight' | 'bw', suffix: string): string {
  if (load.kind === 'mass') return `${load.pair ? '2x' : ''}${printNumber(load.value)}${suffix}`
  if (load.added === 0) return body
  return `${body}${load.added > 0 ? '+' : '-'}${printNumber(Math.abs(load.added))}${suffix}`
}

/** The height of a jump, `at 60 cm`; empty for other sets, and for another exercise in its place. */
export function heightText(state: SessionState, step: SetStep): string {
  const exercise = step.insteadOf === null ? liftItemOf(state, step)?.exercises[step.exercise] : undefined
  return exercise ? printHeight(exercise) : ''
}

/** Writes the plates of a side: `25 + 10 + 1.25 a side`, `the bar alone`. Five or more are counted by size, as in
 * `4 x 25 + 2 x 20 a side`. */
export function sideText({ side }: Pick<LoadedBar, 'side'>): string {
  if (side.length === 0) return 'the bar alone'
  if (side.length < 5) return `${side.map(printNumber).join(' + ')} a side`
  const equal = neighbours(side, (mass, before) => mass === before)
  const counts = equal.map((row) => `${row.length > 1 ? `${row.length} x ` : ''}${printNumber(row[0])}`)
  return `${counts.join(' + ')} a side`
}

/** The load of an empty entry, and whether one must be typed because it is unknown. A load typed on this line stays
 * until another is typed, because the bar is still loaded; where the prescription takes load off for back-off sets,
 * only if it is no more than prescribed. */
export function shownLoadOf(
  state: SessionState,
  step: SetStep,
): { shown: LiftedLoad | null; unknown: boolean } {
  let typed: LiftedLoad | null = null
  let before: SetStep | null = null
  for (const each of state.steps) {
    if (each.kind !== 'set' || !isSibling(each, step)) continue
    const written = writtenLoadOf(state, each)
    if (typed && before && isMore(typed, written) && isMore(writtenLoadOf(state, before), written))
      typed = null
    before = each
    const chosen = state.chosenLoads.get(each.id) ?? null
    const load = each.id === step.id ? chosen : (resultOf(state, each)?.load ?? chosen)
    const shown = typed ?? written
    if (load && each.name === step.name && !(shown && isSameLoad(shown, load))) typed = load
    if (each.id === step.id) break
  }
  const shown = typed ?? writtenLoadOf(state, step)
  return { shown, unknown: shown === null && (step.load !== null || step.rpe !== null) }
}

/** The prescribed load of a set, if it was written for the exercise that is now done there. */
function writtenLoadOf(state: SessionState, step: SetStep): LiftedLoad | null {
  return isSameExercise(step.loadFor, step.name) ? prescribedLoadOf(state, step) : null
}

function isMore(one: LiftedLoad | null, other: LiftedLoad | null): boolean {
  return (
    one !== null && other !== null && one.kind === other.kind && kilogramsOfLoad(one) > kilogramsOfLoad(other)
  )
}

/** For a drop set, the loads after the first: those of the last set on this line that began at the load shown, else as
 * prescribed. */
export function lowerLoadsOf(state: SessionState, step: SetStep): LiftedLoad[] {
  if (step.dose.kind !== 'drop') return []
  const { shown } = shownLoadOf(state, step)
  const isBefore = (each: SetStep) =>
    isSibling(each, step) && each.name === step.name && each.number < step.number
  const before = state.steps.filter(isSet).filter(isBefore)
  const [first, ...lower] = before.flatMap((each) => [resultOf(state, each)?.loads ?? []]).at(-1) ?? []
  if (first && shown && isSameLoad(first, shown)) return lower.slice(0, step.dose.lower.length)
  return step.dose.lower.flatMap((load) => resolvedLoad(state, load, step.name) ?? [])
}

/** The lower end of the prescribed load; null without a load, or for a % of an unknown maximum. */
export function prescribedLoadOf(state: SessionState, step: SetStep): LiftedLoad | null {
  return step.load ? resolvedLoad(state, step.load, step.name) : null
}

/** A prescribed load of an exercise as it is lifted, at its lower end; null where a maximum or the last load it refers to
 * is unknown. */
export function resolvedLoad(state: SessionState, load: Load, name: string): LiftedLoad | null {
  if (load.kind === 'bodyweight') return load
  if (load.kind === 'last') return loadFromLast(load, name, state.lastLoads)
  const mass = plannedMass(load, name, state.prescription, state.maxima)
  return mass && { kind: 'mass', value: mass.from, unit: mass.unit, pair: mass.pair }
}

/** The one-repetition maximum that % loads refer to, and where it comes from; null when it is unknown. */
export function maximumOf(state: SessionState, name: string): Maximum | null {
  return maximumFor(name, state.prescription, state.maxima)
}
