import { type Equipment, usualStep, warmUpLoads } from '../figures/bar.ts'
import { roundedPercentLoad, tonnageKg } from '../figures/volume.ts'
import { roundTo } from '../units/decimal.ts'
import { metersOf } from '../units/length.ts'
import { kilogramsOf, massIn } from '../units/mass.ts'
import type { Mass, MassUnit } from '../units/model.ts'
import { exerciseKey, isJump, isOnBar, isRunning, namedFor } from './exercise.ts'
import { expand, prescribedReps, type WarmUpOf } from './expand.ts'
import type { Dose, Exercise, Load, Plan, Prescription } from './model.ts'
import {
  type ExpandedItem,
  type ExpandedPart,
  expectedSecondsOf,
  isLiftedSet,
  isRunningSet,
  type SetStep,
  type Step,
} from './step.ts'

/** Expands a day and adds up its figures.
 * @param warmUpOf makes up warm-up sets, which take time
 * @param maxima known besides the file's, for loads by percent */
export function planOf(prescription: Prescription, warmUpOf: WarmUpOf, maxima: KnownMaxima = []): Plan {
  const parts = expand(prescription, warmUpOf)
  const steps = stepsOf(parts)
  return {
    title: prescription.title,
    date: prescription.date,
    parts: parts.map(({ kind, name, items }) => ({ kind, name, items: items.map(plannedItem) })),
    entries: steps.filter(isEntry).length,
    runMeters: metersOfSteps(stepsOf(parts.filter((part) => part.kind === 'run'))) + metersInLifts(steps),
    liftSets: steps.filter((step) => step.kind === 'set' && isLiftedSet(step)).length,
    plannedTonnageKg: steps.reduce(
      (sum, step) => sum + (step.kind === 'set' ? plannedTonnageKg(step, prescription, maxima) : 0),
      0,
    ),
    expectedMinutes: Math.round(expectedSecondsOf(steps, prescription) / 60),
  }
}

/** The steps of these parts, one after the other. */
export function stepsOf(parts: readonly ExpandedPart[]): Step[] {
  return parts.flatMap((part) => part.items.flatMap((item) => item.steps))
}

function plannedItem({ text, line, steps }: ExpandedItem): Plan['parts'][number]['items'][number] {
  const target = targetSecondsOf(steps)
  return {
    text,
    line,
    entries: steps.filter(isEntry).length,
    meters: metersOfSteps(steps),
    ...(target === null ? {} : { targetSeconds: [target.from, target.to] }),
  }
}

/** Whether a step needs an entry in a results file; food has lines of its own there. */
export function isEntry(step: Step): boolean {
  return step.kind !== 'recovery' && step.kind !== 'warm-up' && step.kind !== 'fuel'
}

/** Metres of work and recoveries by distance. */
export function metersOfSteps(steps: readonly Step[]): number {
  return steps.reduce(
    (sum, step) => sum + (step.kind === 'interval' || step.kind === 'recovery' ? (step.meters ?? 0) : 0),
    0,
  )
}

/** Metres run in circuits, and in rounds for time; the number of rounds in an AMRAP is not known beforehand. */
function metersInLifts(steps: readonly Step[]): number {
  const sets = steps.filter((step) => step.kind === 'set')
  const circuits = sets.map((set) =>
    set.dose.kind === 'distance' && isRunningSet(set) ? metersOf(set.dose.length) : 0,
  )
  const rounds = sets.flatMap(({ dose }) => (dose.kind === 'forTime' ? [dose] : []))
  const inRounds = rounds.map(({ rounds: count, stations }) => {
    const runs = stations.filter(({ name }) => isRunning(name))
    const meters = runs.map(({ dose }) => (dose.kind === 'distance' ? metersOf(dose.length) : 0))
    return count * meters.reduce((sum, each) => sum + each, 0)
  })
  return [...circuits, ...inRounds].reduce((sum, each) => sum + each, 0)
}

/** The time range that all full splits or repeats of an item share, in seconds; null without one. */
export function targetSecondsOf(steps: readonly Step[]): { from: number; to: number } | null {
  const full = steps.filter((step) => step.kind === 'interval' && !step.short)
  const [first, ...others] = full.map((step) =>
    step.kind === 'interval' ? (step.target?.seconds ?? null) : null,
  )
  if (!first || others.some((each) => each?.from !== first.from || each.to !== first.to)) return null
  return first
}

/** Known one-repetition maxima besides the file's, with their sources. */
export type KnownMaxima = readonly { name: string; kg: number; basis?: string }[]

export interface Maximum {
  kg: number
  /** For the screen: as written, else in the day's unit to a tenth. */
  mass: { value: number; unit: MassUnit }
  /** Its source. */
  basis: string
}

/** The one-repetition maximum for an exercise's percentages: the file's, else a known one; null without one. */
export function maximumFor(name: string, prescription: Prescription, maxima: KnownMaxima): Maximum | null {
  const isSame = (each: { name: string }) => exerciseKey(each.name) === exerciseKey(name)
  const names = exercisesOf(prescription).map((each) => each.name)
  const written = namedFor(prescription.maxima, name, names)
  if (written) return { kg: kilogramsOf(written.mass), mass: written.mass, basis: 'max: in the file' }
  const known = maxima.find(isSame)
  if (!known) return null
  const { mass: unit } = prescription.units
  const value = roundTo(massIn({ value: known.kg, unit: 'kg' }, unit), 1)
  return { kg: known.kg, mass: { value, unit }, basis: known.basis ?? 'known from before' }
}

/** A planned load as masses, both ends in its unit; null for a percentage of an unknown maximum. */
export function plannedMasses(
  load: Exclude<Load, { kind: 'bodyweight' | 'last' }>,
  name: string,
  prescription: Prescription,
  maxima: KnownMaxima,
): { from: number; to: number; unit: MassUnit; pair: boolean } | null {
  if (load.kind === 'mass') return { from: load.from, to: load.to, unit: load.unit, pair: load.pair }
  const maximum = maximumFor(name, prescription, maxima)
  if (maximum === null) return null
  const unit = prescription.units.mass
  const at = (percent: number) => roundedPercentLoad(maximum.kg, percent, unit)
  return { from: at(load.from), to: at(load.to), unit, pair: false }
}

/** Planned tonnage of a set in kilograms: the lower end of its repetitions and of its load; 0 for an unknown
 * load and for an AMRAP set. */
export function plannedTonnageKg(step: SetStep, prescription: Prescription, maxima: KnownMaxima): number {
  return liftsOf(step).reduce((sum, lift) => sum + tonnageOf(lift, prescription, maxima), 0)
}

type Lift = Pick<SetStep, 'name' | 'dose' | 'load' | 'side'> & {
  /** The lift whose maximum a percentage refers to, if not this one: a complex has one bar. */
  percentOf?: string
}

/** The components of a set: the drops of a drop set, the lifts of a complex, the stations of rounds for time. */
function liftsOf(step: SetStep): Lift[] {
  const { dose, load, side, name } = step
  const times = (reps: number) => ({ kind: 'reps' as const, from: reps, to: reps })
  switch (dose.kind) {
    case 'drop':
      return dose.reps.map((reps, index) => ({
        name,
        side,
        dose: times(reps),
        load: index === 0 ? load : (dose.lower[index - 1] ?? null),
      }))
    case 'complex':
      return dose.lifts.map((lift) => ({
        name: lift.name,
        side,
        dose: times(lift.reps),
        load,
        percentOf: name,
      }))
    case 'forTime':
      return Array.from({ length: dose.rounds }, () => dose.stations).flat()
    default:
      return [step]
  }
}

/** Landings of the jumps and hops in these steps, by the lower end of their repetitions, counting both sides. */
export function plannedContacts(steps: readonly Step[]): number {
  const jumps = steps
    .flatMap((step) => (step.kind === 'set' ? liftsOf(step) : []))
    .filter(({ name }) => isJump(name))
  return jumps.reduce((sum, { dose, side }) => sum + (leastReps(dose) ?? 0) * (side === null ? 1 : 2), 0)
}

function tonnageOf(step: Lift, prescription: Prescription, maxima: KnownMaxima): number {
  const { load } = step
  // A load from last time has already been replaced, if it is known.
  if (load === null || load.kind === 'last') return 0
  const set = { reps: leastReps(step.dose), eachSide: step.side !== null, pair: false }
  if (load.kind === 'bodyweight') {
    return tonnageKg({ ...set, kg: kilogramsOf({ value: load.added, unit: load.unit }), bodyweight: true })
  }
  const masses = plannedMasses(load, step.percentOf ?? step.name, prescription, maxima)
  if (masses === null) return 0
  const kg = kilogramsOf({ value: masses.from, unit: masses.unit })
  return tonnageKg({ ...set, kg, pair: masses.pair, bodyweight: false })
}

/** The fewest repetitions of a dose; null for a hold or a carry. */
function leastReps(dose: Dose): number | null {
  switch (dose.kind) {
    case 'reps':
      return dose.from
    case 'atLeast':
      return dose.reps
    case 'cluster':
      return dose.groups.reduce<number>((sum, group) => sum + (group === 'max' ? 0 : group), 0)
    case 'max':
      return 0
    default:
      return null
  }
}

/** The bar that a header names for an exercise, by the beginning of its name, else for the day; null without one. */
export function barFor({ bar, bars = [] }: Prescription, exercise: string | undefined): Mass | null {
  const key = exerciseKey(exercise ?? '')
  return bars.find(({ name }) => key.startsWith(exerciseKey(name)))?.mass ?? bar
}

/** Whether any load of the day is a percentage: only then are maxima of earlier days needed. */
export function usesPercent(prescription: Prescription): boolean {
  return loadsOf(prescription).some(({ load }) => load.kind === 'percent')
}

/** Every load of the day with its exercise, including loads of drops and of stations. */
function loadsOf(prescription: Prescription): { name: string; load: Load }[] {
  return exercisesOf(prescription).flatMap(({ name, sets }) =>
    sets.flatMap(({ dose, load }) => {
      const own = [load, ...(dose.kind === 'drop' ? dose.lower : [])].flatMap((each) =>
        each === null ? [] : [{ name, load: each }],
      )
      if (dose.kind !== 'roundsIn' && dose.kind !== 'forTime') return own
      return dose.stations.flatMap((station) =>
        station.load === null ? [] : [{ name: station.name, load: station.load }],
      )
    }),
  )
}

function exercisesOf(prescription: Prescription): Exercise[] {
  return prescription.parts.flatMap((part) =>
    part.kind === 'lift' ? part.items.flatMap(({ exercises }) => exercises) : [],
  )
}

/** The names of the day's exercises with a load from last time (`last + 2.5 kg`). */
export function namesFromLastTime(prescription: Prescription): string[] {
  const using = loadsOf(prescription).filter(({ load }) => load.kind === 'last')
  return [...new Map(using.map(({ name }) => [exerciseKey(name), name])).values()]
}

/** The heaviest load of an exercise in an earlier session. `isKept`: a set failed or hurt then, so nothing is added. */
export interface LastLoad {
  name: string
  date: string
  load:
    | { kind: 'mass'; value: number; unit: MassUnit; pair: boolean }
    | { kind: 'bodyweight'; added: number; unit: MassUnit }
  isKept: boolean
}

/** The load that `last + 2.5 kg` means, in the unit of last time; null without a last time. */
export function loadFromLast(
  written: Extract<Load, { kind: 'last' }>,
  name: string,
  lastLoads: readonly LastLoad[],
): LastLoad['load'] | null {
  const last = lastLoads.find((each) => exerciseKey(each.name) === exerciseKey(name))
  if (last === undefined) return null
  const more = last.isKept ? 0 : massIn({ value: written.added, unit: written.unit }, last.load.unit)
  const sum = (value: number) => Math.round((value + more) * 100) / 100
  if (last.load.kind === 'bodyweight') return { ...last.load, added: sum(last.load.added) }
  return { ...last.load, value: Math.max(0, sum(last.load.value)) }
}

/** The day with known loads of last time in place of `last + 2.5 kg`. */
export function withLastLoads(prescription: Prescription, lastLoads: readonly LastLoad[]): Prescription {
  const known = (written: Load | null, name: string): Load | null => {
    const load = written?.kind === 'last' ? loadFromLast(written, name, lastLoads) : null
    if (load === null) return written
    if (load.kind === 'bodyweight') return load
    return { kind: 'mass', from: load.value, to: load.value, unit: load.unit, pair: load.pair }
  }
  const filled = ({ sets, ...exercise }: Exercise): Exercise => ({
    ...exercise,
    sets: sets.map(({ dose, ...set }) => ({
      ...set,
      dose:
        dose.kind === 'roundsIn' || dose.kind === 'forTime'
          ? {
              ...dose,
              stations: dose.stations.map((each) => ({ ...each, load: known(each.load, each.name) })),
            }
          : dose,
      load: known(set.load, exercise.name),
    })),
  })
  const parts = prescription.parts.map((part) =>
    part.kind === 'lift'
      ? { ...part, items: part.items.map((item) => ({ ...item, exercises: item.exercises.map(filled) })) }
      : part,
  )
  return { ...prescription, parts }
}

/** Assumed repetitions of a set with an open number. */
const longSet = 10

/** Makes up warm-up sets from the available bar and plates, in the unit of the working load: none if that is only an
 * effort, or a percentage of an unknown maximum.
 * @param equipmentOf the bar of an exercise and the plates, in a unit */
export function warmUpWith(
  equipmentOf: (unit: MassUnit, prescription: Prescription, exercise?: string) => Equipment,
  maxima: KnownMaxima,
): WarmUpOf {
  return ({ buildFrom, exercises }, prescription) => {
    const { name, sets } = exercises[0] as Exercise
    const load = sets[0]?.load
    if (buildFrom === null || (load?.kind !== 'mass' && load?.kind !== 'percent')) return []
    const work = plannedMasses(load, name, prescription, maxima)
    if (work === null) return []
    const start = kilogramsOf(buildFrom) / kilogramsOf({ value: 1, unit: work.unit })
    if (start >= work.from) return []
    const bar = equipmentOf(work.unit, prescription, name)
    const equipment = isOnBar(name, bar) && !work.pair ? bar : { step: usualStep[work.unit] }
    return warmUpLoads(work.from, start, repsOfFirstSet(sets[0]?.dose), equipment).map((step) => ({
      load: { value: step.load, unit: work.unit },
      pair: work.pair,
      reps: step.reps,
      restSeconds: step.restSeconds,
    }))
  }
}

/** The fewest repetitions of the first working set; an AMRAP, a hold and a carry count as a long set. */
function repsOfFirstSet(dose: Dose | undefined): number {
  if (dose?.kind === 'atLeast') return dose.reps
  return (dose && prescribedReps(dose)) ?? longSet
}
