import { printLoad } from '../prescription/print.ts'
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
  const added = roundTo(massIn({ value: load.added, unit: load.unit }, shown), 2)
  return printLoad({ kind: 'bodyweight', added, unit: shown })
}

/** Writes a load in short, without its unit, as it would be typed: `137.5`, `2x22.5`, `bodyweight`, `bw+10`. */
export function shortLoadText(load: LiftedLoad): string {
  if (load.kind === 'mass') return `${load.pair ? '2x' : ''}${amount(load.value)}`
  if (load.added === 0) return 'bodyweight'
  return `bw${load.added > 0 ? '+' : '-'}${amount(Math.abs(load.added))}`
}

function amount(value: number): string {
  return String(roundTo(value, 2))
}
