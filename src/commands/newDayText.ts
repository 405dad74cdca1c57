import type { Prescription } from '../prescription/model.ts'
import type { ReadingDefaults } from '../prescription/openDay.ts'
import { printPrescription } from '../prescription/print.ts'
import { readPrescription } from '../prescription/read.ts'

/** A short day to begin with, with comments that say how it is written.
 * @param title its first line; @param date YYYY-MM-DD */
export function templateOf(title: string, date: string, units: Prescription['units']): string {
  const [run, pace, load, bar] = [
    units.distance === 'km' ? '2 km' : '1 mile',
    units.distance === 'km' ? '3:50-4:00/km' : '6:10-6:25/mi',
    units.mass === 'kg' ? '60 kg' : '135 lb',
    units.mass === 'kg' ? '20 kg' : '45 lb',
  ]
  return `${title}
date: ${date}
units: ${units.distance} ${units.mass}

# One thing to do on each line. What stands behind a # is left out; what is not needed can go.
# A day has any of the parts prep, run, cross, lift and fuel, in any order.

run
  ${run} easy
  4 x 400 m @ ${pace}, jog 200 m

lift: legs
  front squat: 3 x 5 @ ${load}, rest 2:30, build from ${bar}   # clusters: 5 x (1+1+1), pause 20 s
`
}

/** Another day's text made one of this day: its title and its date are put in the place of the old ones, its
 * comments stay. Where it is not plain which lines those are, the day is printed anew.
 * @param text that can be read; @param title null keeps its own */
export function likeText(
  text: string,
  title: string | null,
  date: string,
  defaults: ReadingDefaults,
): string {
  const read = readPrescription(text, defaults)
  if (!('prescription' in read)) throw new TypeError('a day that cannot be read is no pattern')
  const meant: Prescription = { ...read.prescription, title: title ?? read.prescription.title, date }
  const changed = text.trimStart().startsWith('{') ? null : withHeaders(text, title, date)
  const again = changed === null ? null : readPrescription(changed, defaults)
  return changed !== null && again !== null && 'prescription' in again && isSame(again.prescription, meant)
    ? changed
    : printPrescription(meant)
}

function withHeaders(text: string, title: string | null, date: string): string | null {
  const lines = text.replace(/^\uFEFF/, '').split(/\r?\n/)
  const first = lines.findIndex((line) => line.trim() !== '' && !line.trimStart().startsWith('#'))
  if (first === -1) return null
  const head = title ?? (lines[first] as string)
  const dated = lines.findIndex((line, index) => index > first && /^\s*date\s*:/i.test(line))
  const kept = dated === -1 ? lines : lines.filter((_, index) => index !== dated)
  return [...kept.slice(0, first), head, `date: ${date}`, ...kept.slice(first + 1)].join('\n')
}

/** Lines may have moved; what is to be done may not. */
function isSame(one: Prescription, other: Prescription): boolean {
  return printPrescription(one) === printPrescription(other)
}
