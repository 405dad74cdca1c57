import { type Equipment, type LoadedBar, loadBar } from '../figures/bar.ts'
import type { Prescription } from '../prescription/model.ts'
import { isOnBar } from '../prescription/onBar.ts'
import { type KnownMaxima, maximumFor, plannedMasses } from '../prescription/plannedLoad.ts'
import type { LaidOutItem, SetStep } from '../prescription/step.ts'
import { prescribedLoadText } from '../summary/loadText.ts'
import { plainOf } from '../summary/plain.ts'
import { formatMass } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import { sideText } from './plates.ts'

/** What loads are made of, and what percentages are of. */
export interface Rack {
  prescription: Prescription
  maxima: KnownMaxima
  equipmentOf: (unit: MassUnit, prescription: Prescription) => Equipment
}

/** Each different load of an item as plates a side; in a superset behind the exercise's name. */
export function loadLines(item: LaidOutItem, day: Rack): string[] {
  const sets = item.steps.filter((step): step is SetStep => step.kind === 'set')
  const lines = sets.map((step) => {
    const text = loadLine(step, day)
    return text !== '' && step.superset ? `${plainOf(step.name)} ${text}` : text
  })
  return [...new Set(lines)].filter((line) => line !== '')
}

/** Empty for what says itself: bodyweight, a pair, no load, a mass that is less than the bar or on none. */
function loadLine(step: SetStep, day: Rack): string {
  const { load } = step
  if (load === null || load.kind === 'bodyweight') return ''
  const masses = plannedMasses(load, step.name, day.prescription, day.maxima)
  if (masses === null)
    return `${prescribedLoadText(load)} of a maximum that is not known: the load is typed at the first set`
  if (masses.pair || (load.kind === 'mass' && !isOnBar(step.name))) return ''
  const ends = masses.from === masses.to ? [masses.from] : [masses.from, masses.to]
  if (ends.every((value) => isBelowBar({ value, unit: masses.unit }, day)) && load.kind === 'mass') return ''
  const made = (value: number) => {
    const mass = { value, unit: masses.unit }
    return isOnBar(step.name) ? plateText(mass, day) : formatMass(mass)
  }
  const plates = ends.map(made).join('; ')
  if (load.kind === 'mass') return plates
  const maximum = maximumFor(step.name, day.prescription, day.maxima)
  const of = maximum ? `${formatMass({ value: maximum.kg, unit: 'kg' })} (${plainOf(maximum.basis)})` : ''
  return `${prescribedLoadText(load)} of ${of}: ${plates}`
}

function isBelowBar(load: { value: number; unit: MassUnit }, day: Rack): boolean {
  const { bar, collar } = day.equipmentOf(load.unit, day.prescription)
  return load.value < bar + 2 * collar
}

/** `92.5 kg: 25 + 10 + 1.25 a side`; a load that nothing here makes with the nearest that can be made; a load
 * below the bar is on none. */
export function plateText(load: { value: number; unit: MassUnit }, day: Rack): string {
  const equipment = day.equipmentOf(load.unit, day.prescription)
  const mass = formatMass(load)
  if (isBelowBar(load, day)) return `${mass}: less than the bar`
  const { exact, below, above } = loadBar(load.value, equipment)
  if (exact) return `${mass}: ${sideText(exact)}`
  const near = [below, above].filter((made): made is LoadedBar => made !== null)
  const texts = near.map((made) => `${formatMass({ value: made.load, unit: load.unit })} (${sideText(made)})`)
  return `${mass}: nothing here makes it, the nearest is ${texts.join(' or ')}`
}
