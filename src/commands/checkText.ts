import { format, parseISO } from 'date-fns'
import { lapMetersOfLane } from '../figures/lanes.ts'
import { expectedSecondsOf } from '../prescription/cutSteps.ts'
import { layOut } from '../prescription/layOut.ts'
import type { RampOf } from '../prescription/layOutLift.ts'
import type { Prescription } from '../prescription/model.ts'
import { lapMetersOf } from '../prescription/pieceTarget.ts'
import { metersOfSteps, stepsOf } from '../prescription/plan.ts'
import type { Plan } from '../prescription/planModel.ts'
import type { LaidOutItem, LaidOutPart, PieceStep, RampStep } from '../prescription/step.ts'
import { partName } from '../summary/names.ts'
import { plainOf, wrapped } from '../summary/plain.ts'
import { formatClock } from '../units/duration.ts'
import { formatMeters } from '../units/length.ts'
import { massIn } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import { formatPace } from '../units/pace.ts'
import { loadLines, plateText, type Rack } from './checkLoads.ts'

export interface LaidOutDay extends Rack {
  prescription: Prescription
  rampOf: RampOf
}

/** A day laid out, to be read before it: each pace as the time to run, each load as plates a side. */
export function checkText(plan: Plan, day: LaidOutDay): string {
  const parts = layOut(day.prescription, day.rampOf)
  const blocks = [head(plan, day), ...parts.map((part) => partLines(part, day))]
  return `${blocks.map((block) => block.join('\n')).join('\n\n')}\n`
}

function head(plan: Plan, { prescription }: LaidOutDay): string[] {
  const date = plan.date === null ? [] : [format(parseISO(plan.date), 'EEE d MMM yyyy')]
  const tonnage =
    plan.plannedTonnageKg === 0
      ? []
      : [`${tonnageText(plan.plannedTonnageKg, prescription.units.mass)} in all`]
  const distance = plan.runMeters === 0 ? [] : [formatMeters(plan.runMeters, prescription.units.distance)]
  const sets = plan.liftSets === 0 ? [] : [`${plan.liftSets} ${plan.liftSets === 1 ? 'set' : 'sets'}`]
  const figures = [...distance, ...sets, ...tonnage].join(', ')
  return [
    ...wrapped(plainOf(plan.title), 0, 72, 0),
    ...date,
    ...(figures === '' ? [] : wrapped(figures)),
    `about ${plan.expectedMinutes} min, a rough guess`,
    `${plan.entries} ${plan.entries === 1 ? 'result' : 'results'} to put down`,
  ]
}

function tonnageText(kg: number, unit: MassUnit): string {
  return `${Number(massIn({ value: kg, unit: 'kg' }, unit).toFixed(1))} ${unit}`
}

function partLines(part: LaidOutPart, day: LaidOutDay): string[] {
  const minutes = Math.round(expectedSecondsOf(stepsOf([part]), day.prescription) / 60)
  const meters = part.kind === 'run' || part.kind === 'cross' ? metersOfSteps(stepsOf([part])) : 0
  const figures = [
    ...(meters === 0 ? [] : [formatMeters(meters, day.prescription.units.distance)]),
    ...(minutes === 0 ? [] : [`about ${minutes} min`]),
  ]
  return [
    ...wrapped([plainOf(partName(part)), ...figures].join(', ')),
    ...part.items.flatMap((item) => itemLines(item, day, hasLaps(part))),
  ]
}

/** A machine has no laps. */
function hasLaps(part: LaidOutPart): boolean {
  return part.kind === 'run' && !/treadmill/i.test(part.name ?? '')
}

function itemLines(item: LaidOutItem, day: LaidOutDay, laps: boolean): string[] {
  const said = [...paceLines(item, day, laps), ...rampLines(item, day), ...loadLines(item, day)]
  return [...wrapped(plainOf(item.text), 2), ...said.flatMap((line) => wrapped(line, 4))]
}

/** For each different target of the item: what one entry takes, and one lap of its lane. */
function paceLines(item: LaidOutItem, { prescription }: LaidOutDay, laps: boolean): string[] {
  const pieces = item.steps.filter((step): step is PieceStep => step.kind === 'piece')
  return [...new Set(pieces.map((step) => paceLine(step, prescription, laps)))].filter((line) => line !== '')
}

function paceLine(step: PieceStep, prescription: Prescription, laps: boolean): string {
  const pace = step.target?.secondsPerKm
  if (!pace) return ''
  const { distance } = prescription.units
  const texts: string[] = []
  if (step.meters !== null && step.target?.seconds)
    texts.push(`${formatMeters(step.meters, distance)} in ${spanText(step.target.seconds)}`)
  else texts.push(`${formatPace(pace.from, distance)} to ${formatPace(pace.to, distance)}`)
  const lap = step.lane === null ? lapMetersOf(prescription) : lapMetersOfLane(step.lane)
  const perLap = { from: (pace.from * lap) / 1000, to: (pace.to * lap) / 1000 }
  if (laps && (step.meters === null || Math.abs(step.meters - lap) > 0.5))
    texts.push(`lap${step.lane === null ? '' : ` in lane ${step.lane}`} ${spanText(perLap)}`)
  return texts.join(', ')
}

/** To a tenth of a second, and without it where both ends are whole. */
function spanText(span: { from: number; to: number }): string {
  const isWhole = [span.from, span.to].every((seconds) => Math.abs(seconds - Math.round(seconds)) < 0.05)
  const text = (seconds: number) => formatClock(seconds, isWhole ? 0 : 1)
  return `${text(span.from)}-${text(span.to)}`
}

function rampLines(item: LaidOutItem, day: LaidOutDay): string[] {
  const ramp = item.steps.filter((step): step is RampStep => step.kind === 'ramp')
  return ramp.map((step) => `warm-up ${step.reps} x ${plateText(step.load, day)}`)
}
