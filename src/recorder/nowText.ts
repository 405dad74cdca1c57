import { loadBar } from '../figures/bar.ts'
import { isOnBar, isSameExercise } from '../prescription/exercise.ts'
import { scaled } from '../prescription/expandRun.ts'
import type { Dose, Span } from '../prescription/model.ts'
import { printDose, printLoad, printSpan } from '../prescription/print.ts'
import {
  type IntervalStep,
  isOnTrack,
  lapMetersOf,
  type RecoveryStep,
  type SetStep,
  type Step,
  type WarmUpStep,
} from '../prescription/step.ts'
import {
  heightText,
  loadText,
  lowerLoadsOf,
  maximumOf,
  numberOf,
  shownLoadOf,
  sideText,
  typedLoad,
  withNumber,
} from '../session/load.ts'
import type { LiftedLoad } from '../session/model.ts'
import { amountText, lineText, placeOf, stepTitle } from '../session/names.ts'
import { liftItemOf, pendingSteps, type SessionState, stepNow } from '../session/state.ts'
import { counted, roundTo } from '../units/decimal.ts'
import { formatClock, formatClockSpan, type PaceUnit, paceIn } from '../units/duration.ts'
import { joined } from '../units/lists.ts'
import { formatMass } from '../units/mass.ts'
import type { DistanceUnit } from '../units/model.ts'
import { closesText, whyNoAdvance } from './labels.ts'
import type { RecorderModel } from './model.ts'

/** What to do now, in the unit the athlete thinks in: one line, and its place in the item. */
export interface NowText {
  what: string
  where: string
  /** The most important figure, for large digits: `3 x 92.5`, `1:47-1:52`; null without one. */
  number: string | null
}

export function nowText(model: RecorderModel): NowText {
  const { state } = model
  const step = stepNow(state)
  if (step) return stepText(model, step)
  const pending = pendingText(state)
  if (pending === '') return { what: 'everything is done', where: closesText(state), number: null }
  return { what: pending, where: `then ${closesText(state)}`, number: null }
}

/** `1 result to enter`; empty if none is pending. */
export function pendingText(state: SessionState): string {
  const { length } = pendingSteps(state)
  return length === 0 ? '' : `${counted(length, 'result')} to enter`
}

export function stepText(model: RecorderModel, step: Step): NowText {
  const { state } = model
  switch (step.kind) {
    case 'fuel':
      return {
        what: lineText(state, step),
        where: `Enter: eaten, or type it; ${whyNoAdvance(state) === null ? 'Space: go on' : 's: skip'}`,
        number: null,
      }
    case 'interval':
      return intervalText(state, step)
    case 'recovery':
      return { what: joined(', ', [stepTitle(state, step), lengthText(step)]), where: '', number: null }
    case 'warm-up': {
      const load: LiftedLoad = { kind: 'mass', ...step.load, pair: step.pair }
      return {
        what: `${loadText(load)} x ${step.reps}${platesText(model, step, load)}`,
        where: `warm-up for ${step.name}, not recorded`,
        number: `${step.reps} x ${step.load.value}`,
      }
    }
    case 'set':
      return setText(model, step)
    default:
      return { what: lineText(state, step), where: '', number: null }
  }
}

function setText(model: RecorderModel, step: SetStep): NowText {
  const { state } = model
  const { phase } = state
  const { shown, unknown } = shownLoadOf(state, step)
  const loaded = setLoadText(model, step, shown)
  const typed = unknown ? '; type the load you use' : ''
  const inSet = 'group' in phase && phase.step === step.id
  const side = step.side ? ` ${step.side}` : ''
  const beside = step.insteadOf ? [] : writtenBeside(state, step)
  if (inSet && step.dose.kind === 'cluster') {
    const groups = step.dose.groups
    const reps = groups[phase.group]
    const what = `group ${phase.group + 1} of ${groups.length}: ${reps === 'max' ? 'max reps' : counted(reps ?? 0, 'rep')}${side}`
    return {
      what,
      // The load first: a narrow screen cuts the end.
      where: joined(', ', [loaded, step.name, placeOf(step), ...beside]),
      number: largeText(`${reps}`, loadNumber(shown)),
    }
  }
  if ('stations' in step.dose) return { what: doseText(step.dose), where: joined(', ', beside), number: null }
  const what = `${step.name} ${doseText(step.dose)}${side}${loaded ? ` at ${loaded}` : ''}${typed}`
  const where = joined(', ', [
    placeOf(step),
    step.insteadOf && `instead of ${step.insteadOf}`,
    step.tempo && `tempo ${step.tempo}`,
    ...beside,
  ])
  return { what, where, number: largeText(doseText(step.dose), loadNumber(shown)) }
}

/** The height of a jump, and the notes of its line. */
function writtenBeside(state: SessionState, step: SetStep): string[] {
  return [heightText(state, step), ...(liftItemOf(state, step)?.notes ?? [])]
}

function largeText(dose: string, load: string | null): string {
  if (load !== null) return `${dose} x ${load}`
  // Beside the clock, a bare number or a time would be mistaken for the clock.
  if (/^\d+([+]|-\d+)?$/.test(dose)) return `${dose} reps`
  // A lone s is drawn like a 5.
  const seconds = /^0:(\d+)$/.exec(dose)?.[1]
  return seconds === undefined ? dose.replace(/^[\d:]+$/, '$& min') : `${Number(seconds)} sec`
}

/** What an interval requires: its distance or time, the target time, and the time for a lap of the track. */
function intervalText(state: SessionState, step: IntervalStep): NowText {
  const unit = state.prescription.units.distance
  const range = step.target?.seconds ?? null
  const amount = joined(' ', [amountText(step, unit), targetText(step, unit)])
  const what = joined(', ', [amount, lapText(state, step)])
  const where = step.of > 1 ? placeOf(step) : ''
  const grade = step.grade === null ? '' : `grade ${step.grade} %`
  const extra = [where, step.negative ? 'second half faster' : '', grade, ...step.notes]
  const seconds = range
    ? formatClockSpan({ from: Math.round(range.from), to: Math.round(range.to) }, 0)
    : null
  const number = step.target?.speed ?? seconds
  return { what, where: joined(', ', extra), number }
}

/** How long a recovery lasts, if its own time does not say. */
function lengthText(step: RecoveryStep): string {
  if (step.sendOff !== null) return `next start after ${formatClock(step.sendOff.seconds)}`
  if (step.sameTime) return 'as long as the repeat took'
  if (step.expectedSeconds === null) return ''
  if (step.seconds === null) return `about ${formatClock(step.expectedSeconds)}`
  return step.meters === null ? '' : `in ${formatClock(step.seconds)}`
}

function targetText(step: IntervalStep, unit: DistanceUnit): string {
  const { target } = step
  if (!target) return ''
  const { seconds } = target
  // The time says the pace.
  const pace = seconds === null && target.secondsPerKm ? paceSpan(target.secondsPerKm, unit) : null
  const speed = target.speed ?? pace
  return joined(', ', [
    speed && `at ${speed}`,
    seconds && `in ${formatClockSpan(seconds, step.meters !== null && step.meters < 1000 ? 1 : 0)}`,
    target.word,
    target.rpe && `at rpe ${printSpan(target.rpe)}`,
    target.heartRate && heartRateText(target.heartRate),
  ])
}

function heartRateText(range: Span): string {
  return range.from === 0 ? `heart rate under ${range.to}` : `at heart rate ${printSpan(range)}`
}

/** The time of a lap on a track, for an interval longer than one. */
function lapText({ prescription }: SessionState, step: IntervalStep): string {
  const lap = lapMetersOf(prescription, step.lane)
  const pace = step.target?.secondsPerKm
  if (!isOnTrack(prescription, step) || !pace || step.meters === null || step.meters <= lap) return ''
  return `lap ${formatClockSpan(scaled(pace, lap / 1000), 1)}`
}

/** `4:05-4:10/km`; one pace where both round to the same. */
export function paceSpan(secondsPerKm: Span, unit: PaceUnit): string {
  return `${formatClockSpan(scaled(secondsPerKm, paceIn(1, unit)), 0)}/${unit}`
}

/** The dose: `3`, `8-10`, `5+`, `1+1+1`, `max`, `0:45`, `40 m`. */
function doseText(dose: Dose): string {
  switch (dose.kind) {
    case 'cluster':
      return dose.groups.join('+')
    case 'time':
      return formatClock(dose.seconds)
    case 'drop':
      return dose.reps.join('>')
    case 'complex':
      return dose.lifts.map(({ reps }) => reps).join('+')
    default:
      return printDose(dose)
  }
}

/** The bare number of a load, for the large digits: `137.5`, `2x22.5`, `+10`; null without a load. */
function loadNumber(load: LiftedLoad | null): string | null {
  if (!load || (load.kind === 'bodyweight' && load.added === 0)) return null
  return typedLoad(withNumber(load, roundTo(numberOf(load), 2)), load.unit).replace('bw', '')
}

/** The plates for each side of the bar, after a load: `: 25 + 10 + 1.25 a side`, `: the bar alone`; empty if there is
 * no bar, or the load cannot be made. */
function platesText({ state, context }: RecorderModel, step: SetStep | WarmUpStep, load: LiftedLoad): string {
  const equipment = context.equipmentOf(load.unit, state.prescription, step.name)
  if (load.kind !== 'mass' || load.pair || !isOnBar(step, equipment) || load.value < equipment.bar) return ''
  const { exact } = loadBar(load.value, equipment)
  return exact ? `: ${sideText(exact)}` : ''
}

/** The load of a set in words, with its plates, the source of a percentage and the effort; without load and plates if
 * the load is unknown. */
function setLoadText(model: RecorderModel, step: SetStep, shown: LiftedLoad | null): string {
  const effort = step.rpe ? `rpe ${printSpan(step.rpe)}` : ''
  const from = fromText(model.state, step)
  if (!shown) return joined(', ', [from, effort])
  const lower = lowerLoadsOf(model.state, step).map((load) => `then ${loadText(load)}`)
  return joined(', ', [loadText(shown) + platesText(model, step, shown), ...lower, from, effort])
}

/** The source of a load by percent or from last time; empty for any other. */
function fromText(state: SessionState, { load, name }: SetStep): string {
  if (load?.kind === 'percent') return `${printSpan(load)} % of ${basisText(state, name)}`
  const isSame = (each: { name: string }) => isSameExercise(each.name, name)
  const last = load?.kind === 'last' ? state.lastLoads.find(isSame) : undefined
  if (load?.kind !== 'last' || last === undefined) return ''
  const more = last.isKept ? 'the same after a failed or painful set, or weeks away' : printLoad(load)
  return `${more} (${loadText(last.load)} on ${last.date})`
}

function basisText(state: SessionState, name: string): string {
  const maximum = maximumOf(state, name)
  if (!maximum) return 'an unknown maximum'
  return `${formatMass(maximum.mass)} (${maximum.basis})`
}
