import { sum } from 'd3-array'
import { type Equipment, loadBar } from '../figures/bar.ts'
import type { Settings } from '../logbook/settings.ts'
import { isOnBar } from '../prescription/exercise.ts'
import { expand } from '../prescription/expand.ts'
import { scaled } from '../prescription/expandRun.ts'
import { expectedSecondsOf } from '../prescription/expectedTime.ts'
import type { DayFigures, Prescription } from '../prescription/model.ts'
import {
  type EquipmentOf,
  type LastLoad,
  loadAsWritten,
  loadFromLast,
  maximumFor,
  plannedMass,
  type SourcedMaxima,
} from '../prescription/planned.ts'
import { partName, printLoad } from '../prescription/print.ts'
import {
  type ExpandedItem,
  type ExpandedPart,
  type IntervalStep,
  isOnTrack,
  lapMetersOf,
  metersOfSteps,
  type SetStep,
  type Step,
  stepsOf,
} from '../prescription/step.ts'
import { loadText, sideText } from '../session/load.ts'
import { dayFiguresOf } from '../summary/day.ts'
import { plainOf, wrapped } from '../summary/plain.ts'
import type { AskedUnits } from '../summary/view.ts'
import { printDate } from '../units/calendarDate.ts'
import { counted } from '../units/decimal.ts'
import { formatClockSpan, formatPace } from '../units/duration.ts'
import { formatAsWritten, formatMeters } from '../units/length.ts'
import { joined } from '../units/lists.ts'
import { formatMass, kilogramsIn } from '../units/mass.ts'
import type { DistanceUnit, Mass } from '../units/model.ts'
import { equipmentWith, warmUpFor } from './equipment.ts'

/** Prints a day for reading beforehand: each pace as the time to run, each load as plates per side.
 * @param units of sums over several lines */
export function planText(
  prescription: Prescription,
  settings: Settings,
  maxima: SourcedMaxima,
  lastLoads: readonly LastLoad[],
  units: AskedUnits,
): string {
  const equipmentOf = equipmentWith(settings)
  const warmUpOf = warmUpFor(settings, maxima)
  const parts = expand(prescription, warmUpOf)
  const figures = dayFiguresOf(prescription, warmUpOf, maxima, lastLoads)
  const sums = {
    distance: units.distance ?? prescription.units.distance,
    mass: units.mass ?? prescription.units.mass,
  }
  const day = { prescription, maxima, lastLoads, equipmentOf, sums }
  const blocks = [head(figures, parts, sums), ...parts.map((part) => partLines(part, day))]
  return `${blocks.map((block) => block.join('\n')).join('\n\n')}\n`
}

/** A day, with the plates and the bar for its loads and what these refer to. */
interface PlannedDay {
  prescription: Prescription
  maxima: SourcedMaxima
  lastLoads: readonly LastLoad[]
  equipmentOf: EquipmentOf
  /** The units of sums over several lines. */
  sums: Prescription['units']
}

function head(plan: DayFigures, parts: readonly ExpandedPart[], units: Prescription['units']): string[] {
  const tonnage = kilogramsIn(plan.plannedTonnageKg, units.mass)
  const runs = stepsOf(parts.filter(({ kind }) => kind === 'run'))
  const figures = joined(', ', [
    runningText(plan.runMeters, runs, units.distance),
    plan.liftSets > 0 && counted(plan.liftSets, 'set'),
    tonnage > 0 && `${Number(tonnage.toFixed(1))} ${units.mass} in all`,
  ])
  return [
    ...wrapped(plainOf(plan.title), 72, 0, 0),
    ...(plan.date === null ? [] : [printDate(plan.date, 'EEE d MMM yyyy')]),
    ...wrapped(figures),
    `about ${plan.expectedMinutes} min, a rough guess`,
    `${counted(plan.entries, 'result')} to enter`,
  ]
}

/** The metres, and the minutes of intervals given by time, which have no metres: `3.8 km and 15 min`. Null without
 * metres, because then the expected minutes say it all. */
function runningText(meters: number, steps: readonly Step[], unit: DistanceUnit): string | null {
  if (meters === 0) return null
  const seconds = sum(steps, (step) => (step.kind === 'interval' && step.meters === null ? step.seconds : 0))
  const minutes = Math.round(seconds / 60)
  return `${formatMeters(meters, unit)}${minutes === 0 ? '' : ` and ${minutes} min`}`
}

function partLines(part: ExpandedPart, day: PlannedDay): string[] {
  const steps = stepsOf([part])
  const minutes = Math.round(expectedSecondsOf(steps, day.prescription) / 60)
  const meters = part.kind === 'run' || part.kind === 'cross' ? metersOfSteps(steps) : 0
  const figures = joined(', ', [
    plainOf(partName(part)),
    runningText(meters, steps, day.sums.distance),
    minutes > 0 && `about ${minutes} min`,
  ])
  return [...wrapped(figures), ...part.items.flatMap((item) => itemLines(item, day))]
}

function itemLines(item: ExpandedItem, day: PlannedDay): string[] {
  const details = [...paceLines(item, day), ...warmUpLines(item, day), ...loadLines(item, day)]
  return [...wrapped(plainOf(item.text), 72, 2), ...details.flatMap((line) => wrapped(line, 72, 4))]
}

/** The time of one entry, and of one lap in its lane, for each different target of the item. */
function paceLines(item: ExpandedItem, { prescription }: PlannedDay): string[] {
  const lines = item.steps.flatMap((step) =>
    step.kind === 'interval' ? (paceLine(step, prescription) ?? []) : [],
  )
  return [...new Set(lines)]
}

function paceLine(step: IntervalStep, prescription: Prescription): string | null {
  const { meters, lane, target } = step
  const pace = target?.secondsPerKm
  if (!pace) return null
  const { distance } = prescription.units
  const lap = lapMetersOf(prescription, lane)
  const part = prescription.parts[step.part]
  // A run called intervals may be on a track; one called treadmill, road or trail is not, without a lap in its day.
  const isElsewhere = /treadmill|road|trail/i.test(part?.name ?? '') && !isOnTrack(prescription, step)
  const hasLaps = part?.kind === 'run' && !isElsewhere
  return joined(', ', [
    meters !== null && target.seconds
      ? `${formatAsWritten(meters, distance)} in ${spanText(target.seconds)}`
      : `${formatPace(pace.from, distance)} to ${formatPace(pace.to, distance)}`,
    hasLaps &&
      (meters === null || Math.abs(meters - lap) > 0.5) &&
      `lap${lane === null ? '' : ` in lane ${lane}`} ${spanText(scaled(pace, lap / 1000))}`,
  ])
}

/** To a tenth of a second, or in whole seconds if both ends are whole. */
function spanText(span: { from: number; to: number }): string {
  const isWhole = [span.from, span.to].every((seconds) => Math.abs(seconds - Math.round(seconds)) < 0.05)
  return formatClockSpan(span, isWhole ? 0 : 1)
}

function warmUpLines(item: ExpandedItem, day: PlannedDay): string[] {
  return item.steps.flatMap((step) => {
    if (step.kind !== 'warm-up') return []
    const equipment = day.equipmentOf(step.load.unit, day.prescription, step.name)
    const isBar = isOnBar(step, equipment) && !step.pair
    const load = loadText({ kind: 'mass', ...step.load, pair: step.pair })
    return [`warm-up ${step.reps} x ${isBar ? plateText(step.load, equipment) : load}`]
  })
}

/** Each different load of an item as plates per side; in a superset after the exercise's name. */
function loadLines(item: ExpandedItem, day: PlannedDay): string[] {
  const lines = item.steps.flatMap((step) =>
    step.kind !== 'set'
      ? []
      : loadedIn(step).flatMap((lifted) => {
          const text = loadLine(lifted, day)
          const isNamed = step.superset || lifted.isStation
          return text === '' ? [] : [isNamed ? `${plainOf(lifted.name)} ${text}` : text]
        }),
  )
  return [...new Set(lines)]
}

/** `isStation`: of rounds against the clock, whose load nobody types. */
type Lifted = Pick<SetStep, 'name' | 'load' | 'side'> & { isStation: boolean }

/** The loads of a set: each drop, each station of rounds against the clock. */
function loadedIn({ name, dose, load, side }: SetStep): Lifted[] {
  if ('stations' in dose) return dose.stations.map((station) => ({ ...station, isStation: true }))
  const loads = dose.kind === 'drop' ? [load, ...dose.lower] : [load]
  return loads.map((each) => ({ name, load: each, side, isStation: false }))
}

/** Empty if there is nothing to add: bodyweight, a pair, no load, a mass below the bar or without a bar. */
function loadLine(step: Lifted, day: PlannedDay): string {
  const { load } = step
  const consequence = step.isStation ? 'it is not counted' : 'you type the load at the first set'
  if (load === null || load.kind === 'bodyweight') return ''
  if (load.kind === 'last') {
    const last = loadFromLast(load, step.name, day.lastLoads)
    if (last !== null) return loadLine({ ...step, load: loadAsWritten(last) }, day) || loadText(last)
    return `${printLoad(load)}: there is no session with ${plainOf(step.name)} in eight weeks; ${consequence}`
  }
  const planned = plannedMass(load, step.name, day.prescription, day.maxima)
  if (planned === null) return `${printLoad(load)} of an unknown maximum: ${consequence}`
  const equipment = day.equipmentOf(planned.unit, day.prescription, step.name)
  const isBar = isOnBar(step, equipment)
  if (planned.pair || (load.kind === 'mass' && !isBar)) return ''
  const ends = planned.from === planned.to ? [planned.from] : [planned.from, planned.to]
  if (load.kind === 'mass' && ends.every((value) => isBelowBar(value, equipment))) return ''
  const loadOf = (value: number) => {
    const mass = { value, unit: planned.unit }
    return isBar ? plateText(mass, equipment) : formatMass(mass)
  }
  const plates = ends.map(loadOf).join('; ')
  if (load.kind === 'mass') return plates
  const maximum = maximumFor(step.name, day.prescription, day.maxima)
  const of = maximum ? `${formatMass(maximum.mass)} (${plainOf(maximum.basis)})` : ''
  return `${printLoad(load)} of ${of}: ${plates}`
}

function isBelowBar(load: number, { bar, collar }: Equipment): boolean {
  return load < bar + 2 * collar
}

/** `92.5 kg: 25 + 10 + 1.25 a side`. A load that the plates cannot make comes with the nearest ones; a load below
 * the bar has no plates. */
function plateText(load: Mass, equipment: Equipment): string {
  const mass = formatMass(load)
  if (isBelowBar(load.value, equipment)) return `${mass}: less than the bar`
  const { exact, below, above } = loadBar(load.value, equipment)
  if (exact) return `${mass}: ${sideText(exact)}`
  const near = [below, above].filter((made) => made !== null)
  const texts = near.map((made) => `${formatMass({ value: made.load, unit: load.unit })} (${sideText(made)})`)
  return `${mass}: not possible with these plates; nearest: ${texts.join(' or ')}`
}
