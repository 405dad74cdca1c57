import { printLoad } from '../prescription/print.ts'
import type { LiftedLoad, SetResult } from '../session/result.ts'
import { roundTo } from '../units/decimal.ts'
import { printTime } from '../units/duration.ts'
import { metersOf, printLength } from '../units/length.ts'
import { massIn } from '../units/mass.ts'
import type { Length, MassUnit } from '../units/model.ts'
import { neighbours } from '../units/neighbours.ts'

/* What was lifted, in words. */

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

/** What was recorded for a set, as far as it is told in words. */
type Told = Pick<SetResult, 'reps' | 'groups' | 'seconds' | 'meters' | 'load' | 'rpe' | 'failed'>

/** What was done in a set, without its load and its effort: `5`, `(2+2)`, `45 s`, `40 m`.
 * @param written the prescribed distance, for its unit */
export function countText({ reps, groups, seconds, meters }: Told, written: Length | null = null): string {
  if (groups !== null) return `(${groups.join('+')})`
  if (seconds !== null) return printTime(roundTo(seconds, 1))
  if (meters === null) return String(reps ?? 0)
  if (written === null) return `${roundTo(meters, 1)} m`
  return printLength({ ...written, value: roundTo((meters / metersOf(written)) * written.value, 1) })
}

/** Efforts of equal sets, `-` where none was typed; `!` after one, or instead of one, for a failed repetition. */
export function effortsText(sets: readonly Told[]): string {
  const efforts = sets.map(({ rpe, failed }) => `${rpe ?? ''}${failed ? '!' : ''}`)
  if (efforts.every((effort) => effort === '')) return ''
  return ` @${efforts.map((effort) => (effort === '' ? '-' : effort)).join(' ')}`
}

/** The sets of an exercise in short, those that differ only in effort as one: `(2+2) x 137.5 @8 8 9, 4 x 120`,
 * `5 x 100, 3 sets, 1 failed at 6`. */
export function shortSetsText(sets: readonly Told[]): string {
  const text = (set: Told) =>
    set.load === null ? countText(set) : `${countText(set)} x ${shortLoadText(set.load)}`
  return neighbours(sets, (set, before) => text(set) === text(before))
    .map((alike) => {
      const isTyped = alike.some(({ rpe }) => rpe !== null)
      return text(alike[0]!) + (isTyped ? effortsText(alike) : failedText(alike))
    })
    .join(', ')
}

/** How many sets of the same repetitions there were, and at which repetition some failed. */
function failedText(sets: readonly Told[]): string {
  const count = sets.length > 1 ? `, ${sets.length} sets` : ''
  const failed = sets.filter((set) => set.failed).length
  if (failed === 0) return count
  const { groups, reps } = sets[0]!
  const at = groups !== null || reps === null ? '' : ` at ${reps + 1}`
  return `${count}, ${failed === sets.length ? '' : `${failed} `}failed${at}`
}
