import { type Equipment, loadBar } from '../figures/bar.ts'
import type { Dose } from '../prescription/model.ts'
import { isOnBar } from '../prescription/onBar.ts'
import type { SetStep } from '../prescription/step.ts'
import { maximumOf, shownLoadOf } from '../session/asking.ts'
import type { LiftedLoad } from '../session/result.ts'
import type { WalkState } from '../session/state.ts'
import { loadText, shortLoadText } from '../summary/loadText.ts'
import { printNumber } from '../units/decimal.ts'
import { formatClock } from '../units/duration.ts'
import { printLength } from '../units/length.ts'
import { formatMass } from '../units/mass.ts'
import type { RecorderContext } from './model.ts'

/** How often, or how long: `3`, `8-10`, `5+`, `1+1+1`, `max`, `0:45`, `40 m`. */
export function doseText(dose: Dose): string {
  switch (dose.kind) {
    case 'reps':
      return dose.from === dose.to ? `${dose.from}` : `${dose.from}-${dose.to}`
    case 'atLeast':
      return `${dose.reps}+`
    case 'cluster':
      return dose.groups.join('+')
    case 'max':
      return 'max'
    case 'time':
      return formatClock(dose.seconds)
    case 'distance':
      return printLength(dose.length)
  }
}

/** The bare number of a load, for the large digits; null where there is none. */
export function loadNumber(load: LiftedLoad | null): string | null {
  if (!load || (load.kind === 'bodyweight' && load.added === 0)) return null
  return shortLoadText(load).replace('bw', '')
}

/** What goes on each side of the bar: `25 + 10 + 1.25 a side`, `the bar alone`; null for what is on no bar, or
 * cannot be made. */
export function platesText(load: { value: number; unit: 'kg' | 'lb' }, equipment: Equipment): string | null {
  if (load.value < equipment.bar) return null
  const side = loadBar(load.value, equipment).exact?.side
  if (!side) return null
  return side.length === 0 ? 'the bar alone' : `${side.map(printNumber).join(' + ')} a side`
}

/** The load of a set in words, with the plates for it and what a percentage is of; what must be asked where it is not known. */
export function setLoadText(state: WalkState, step: SetStep, context: RecorderContext): string {
  const { shown, unknown } = shownLoadOf(state, step)
  const effort = step.rpe ? `rpe ${spanText(step.rpe)}` : ''
  if (!shown) return unknown ? [effort, 'the load is yours to type'].filter(Boolean).join(', ') : effort
  const onBar = shown.kind === 'mass' && !shown.pair && isOnBar(step.name)
  const plates = onBar ? platesText(shown, context.equipmentOf(shown.unit, state.prescription)) : null
  const percent =
    step.load?.kind === 'percent' ? `${spanText(step.load)} % of ${basisText(state, step.name)}` : ''
  return [loadText(shown) + (plates ? `: ${plates}` : ''), percent, effort].filter(Boolean).join(', ')
}

function basisText(state: WalkState, name: string): string {
  const maximum = maximumOf(state, name)
  if (!maximum) return 'an unknown maximum'
  return `${formatMass({ value: Math.round(maximum.kg * 10) / 10, unit: 'kg' })} (${maximum.basis})`
}

function spanText(span: { from: number; to: number }): string {
  return span.from === span.to ? printNumber(span.from) : `${printNumber(span.from)}-${printNumber(span.to)}`
}
