import { sum } from 'd3-array'
import { tonnageKg } from '../figures/volume.ts'
import { metersOf } from '../units/length.ts'
import { kilogramsOf } from '../units/mass.ts'
import { isJump, isRunning } from './exercise.ts'
import { expand, type WarmUpOf } from './expand.ts'
import { expectedSecondsOf } from './expectedTime.ts'
import type { DayFigures, Prescription } from './model.ts'
import { type KnownMaxima, plannedMasses } from './plannedLoads.ts'
import {
  type ExpandedItem,
  isEntry,
  isLiftedSet,
  isSet,
  repsOf,
  type SetStep,
  type Step,
  stepsOf,
} from './step.ts'

/* The figures of a day as it is planned: metres, sets, tonnage, landings, minutes. */

/** Expands a day and adds up its figures.
 * @param warmUpOf makes up warm-up sets, which take time
 * @param maxima known besides the file's, for loads by percent */
export function dayFiguresOf(
  prescription: Prescription,
  warmUpOf: WarmUpOf,
  maxima: KnownMaxima = [],
): DayFigures {
  const parts = expand(prescription, warmUpOf)
  const steps = stepsOf(parts)
  return {
    title: prescription.title,
    date: prescription.date,
    parts: parts.map(({ kind, name, items }) => ({ kind, name, items: items.map(plannedItem) })),
    entries: steps.filter(isEntry).length,
    runMeters: metersOfSteps(stepsOf(parts.filter((part) => part.kind === 'run'))) + metersInLifts(steps),
    liftSets: steps.filter(isSet).filter(isLiftedSet).length,
    plannedTonnageKg: sum(steps.filter(isSet).flatMap(liftsOf), (lift) =>
      tonnageOf(lift, prescription, maxima),
    ),
    expectedMinutes: Math.round(expectedSecondsOf(steps, prescription) / 60),
  }
}

type PlannedItem = DayFigures['parts'][number]['items'][number]

function plannedItem({ text, line, steps, works }: ExpandedItem): PlannedItem {
  const { entries, ...target } = targetOf(steps)
  const ofWorks = works.map((_, index) =>
    targetOf(steps.filter((step) => step.kind === 'interval' && step.work === index)),
  )
  const meters = metersOfSteps(steps)
  return { text, line, entries, meters, ...(works.length > 1 ? { targets: ofWorks } : target) }
}

/** The number of results, and the range for one of them in seconds, if they share one. */
function targetOf(steps: readonly Step[]): Pick<PlannedItem, 'entries' | 'targetSeconds'> {
  const target = targetSecondsOf(steps)
  return {
    entries: steps.filter(isEntry).length,
    ...(target === null ? {} : { targetSeconds: [target.from, target.to] }),
  }
}

/** Metres of work and recoveries by distance. */
export function metersOfSteps(steps: readonly Step[]): number {
  return sum(steps, (step) => (step.kind === 'interval' || step.kind === 'recovery' ? step.meters : 0))
}

/** Metres run in circuits, and in rounds for time; the number of rounds in an AMRAP is not known beforehand. */
function metersInLifts(steps: readonly Step[]): number {
  const metersRun = ({ name, dose }: Pick<SetStep, 'name' | 'dose'>) =>
    dose.kind === 'distance' && isRunning(name) ? metersOf(dose.length) : 0
  return sum(steps.filter(isSet), (set) =>
    set.dose.kind === 'forTime' ? set.dose.rounds * sum(set.dose.stations, metersRun) : metersRun(set),
  )
}

/** The time range that all full splits or repeats share, in seconds; null without one. */
function targetSecondsOf(steps: readonly Step[]): { from: number; to: number } | null {
  const full = steps.filter((step) => step.kind === 'interval' && !step.short)
  const [first, ...others] = full.map((step) =>
    step.kind === 'interval' ? (step.target?.seconds ?? null) : null,
  )
  if (!first || others.some((each) => each?.from !== first.from || each.to !== first.to)) return null
  return first
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
    .filter(isSet)
    .flatMap(liftsOf)
    .filter(({ name }) => isJump(name))
  return sum(jumps, ({ dose, side }) => (repsOf(dose, 0) ?? 0) * (side === null ? 1 : 2))
}

/** Planned tonnage in kilograms: the lower end of the repetitions and of the load; 0 for an unknown load and for an
 * AMRAP set. */
function tonnageOf(step: Lift, prescription: Prescription, maxima: KnownMaxima): number {
  const { load } = step
  // A load from last time has already been replaced, if it is known.
  if (load === null || load.kind === 'last') return 0
  const set = { reps: repsOf(step.dose, 0), eachSide: step.side !== null, pair: false }
  if (load.kind === 'bodyweight') {
    return tonnageKg({ ...set, kg: kilogramsOf({ value: load.added, unit: load.unit }), bodyweight: true })
  }
  const masses = plannedMasses(load, step.percentOf ?? step.name, prescription, maxima)
  if (masses === null) return 0
  const kg = kilogramsOf({ value: masses.from, unit: masses.unit })
  return tonnageKg({ ...set, kg, pair: masses.pair, bodyweight: false })
}
