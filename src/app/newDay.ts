import type { Prescription } from '../prescription/model.ts'
import { printPrescription } from '../prescription/print.ts'
import { readPrescription } from '../prescription/read.ts'
import type { ReadingDefaults } from '../prescription/reader.ts'

/* The text of a new day. */

/** A short day to begin with, whose comments explain the notation.
 * @param title its first line; null: `New day`; @param date YYYY-MM-DD */
export function templateOf(title: string | null, date: string, units: Prescription['units']): string {
  const [run, pace, load, bar] = [
    units.distance === 'km' ? '2 km' : '1 mile',
    units.distance === 'km' ? '3:50-4:00/km' : '6:10-6:25/mi',
    units.mass === 'kg' ? '60 kg' : '135 lb',
    units.mass === 'kg' ? '20 kg' : '45 lb',
  ]
  return `${title ?? 'New day'}
date: ${date}
units: ${units.distance} ${units.mass}

# One thing to do on each line. Text after # is a comment.
# A day has any of the parts prep, run, cross, lift and fuel, in any order.

run
  ${run} easy
  4 x 400 m @ ${pace}, jog 200 m

lift: legs
  front squat: 3 x 5 @ ${load}, rest 2:30, build from ${bar}
  # in cluster sets: front squat: 5 x (1+1+1) @ ${load}, pause 20 s, rest 2:30
`
}

/** Turns another day's text into this day: replaces the title and the date and keeps the comments. If it cannot find
 * those lines, it prints the whole day again.
 * @param text of a day without problems; @param title null keeps the old one */
export function likeText(
  text: string,
  title: string | null,
  date: string,
  defaults: ReadingDefaults,
): string {
  const read = readPrescription(text, defaults)
  if (!('prescription' in read)) throw new TypeError('an unreadable day cannot be a model')
  const meant: Prescription = { ...read.prescription, title: title ?? read.prescription.title, date }
  const changed = withHeaders(text, title, date)
  const again = readPrescription(changed, defaults)
  const whole = printPrescription(meant)
  return 'prescription' in again && printPrescription(again.prescription) === whole ? changed : whole
}

/** Keeps line ends and comments; the date goes below the title. */
function withHeaders(text: string, title: string | null, date: string): string {
  const lineEnd = /\r?\n/.exec(text)?.[0] ?? '\n'
  const lines = text.replace(/^\uFEFF/, '').split(/\r?\n/)
  const first = lines.findIndex((line) => line.trim() !== '' && !line.trimStart().startsWith('#'))
  const below = lines.slice(first + 1).filter((line) => !/^\s*date\s*:/i.test(line))
  return [...lines.slice(0, first), title ?? lines[first], `date: ${date}`, ...below].join(lineEnd)
}
