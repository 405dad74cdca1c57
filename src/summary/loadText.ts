import type { Load } from '../prescription/model.ts'
import type { LiftedLoad } from '../session/result.ts'
import { roundTo } from '../units/decimal.ts'
import { massIn } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'

/** Writes a load: `92.5 kg`, `2x22.5 kg`, `bodyweight`, `bodyweight+10 kg`.
 * @param unit for printing; null keeps the load's own */
export function loadText(load: LiftedLoad, unit: MassUnit | null = null): string {
  const shown = unit ?? load.unit
  if (load.kind === 'mass') {
    const value = massIn(load, shown)
    return `${load.pair ? '2x' : ''}${amount(value)} ${shown}`
  }
  return bodyweightText(load, shown)
}

/** Writes a load in short, without its unit, as it would be typed: `137.5`, `2x22.5`, `bodyweight`, `bw+10`. */
export function shortLoadText(load: LiftedLoad): string {
  if (load.kind === 'mass') return `${load.pair ? '2x' : ''}${amount(load.value)}`
  if (load.added === 0) return 'bodyweight'
  return `bw${load.added > 0 ? '+' : '-'}${amount(Math.abs(load.added))}`
}

/** Writes a prescribed load in the same words, with its range: `90-100 kg`, `75-80%`. */
export function prescribedLoadText(load: Load, unit: MassUnit | null = null): string {
  switch (load.kind) {
    case 'percent':
      return `${spanText(load.from, load.to)}%`
    case 'last': {
      const shown = unit ?? load.unit
      const added = massIn({ value: load.added, unit: load.unit }, shown)
      return added === 0 ? 'last' : `last ${added < 0 ? '-' : '+'} ${amount(Math.abs(added))} ${shown}`
    }
    case 'bodyweight':
      return bodyweightText(load, unit ?? load.unit)
    case 'mass': {
      const shown = unit ?? load.unit
      const [from, to] = [load.from, load.to].map((value) => massIn({ value, unit: load.unit }, shown))
      return `${load.pair ? '2x' : ''}${spanText(from ?? 0, to ?? 0)} ${shown}`
    }
  }
}

function bodyweightText(load: { added: number; unit: MassUnit }, unit: MassUnit): string {
  const added = massIn({ value: load.added, unit: load.unit }, unit)
  if (added === 0) return 'bodyweight'
  return `bodyweight${added > 0 ? '+' : '-'}${amount(Math.abs(added))} ${unit}`
}

function spanText(from: number, to: number): string {
  return from === to ? amount(from) : `${amount(from)}-${amount(to)}`
}

function amount(value: number): string {
  return String(roundTo(value, 2))
}
