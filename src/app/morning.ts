import { sort } from 'd3-array'
import { attempt } from '../logbook/errors.ts'
import { localTimeOf } from '../logbook/machine.ts'
import { addMornings, readMornings } from '../logbook/mornings.ts'
import { bodyMassOn, readSettings } from '../logbook/settings.ts'
import { type MorningReading, printMorning, readMorning } from '../plan/morning.ts'
import type { MorningValues } from '../plan/morningModel.ts'
import { allPains, standingPains } from '../progress/pain.ts'
import { hasSign, type Pain } from '../session/pain.ts'
import { doctorPhrase } from '../summary/notes.ts'
import { plainOf } from '../summary/plain.ts'
import type { MassUnit } from '../units/model.ts'

/* The morning's figures, in the app and in commands: sleep, resting heart rate, body mass, soreness, a note. */

/** What the logbook has of a morning: what was typed, the damage met while reading, and the text about it.
 * @param unit of the body mass in the text; null keeps its own */
export function morningOn(logbook: string, date: string, unit: MassUnit | null = null) {
  const read = readMornings(logbook)
  const morning = read.mornings.find((each) => each.date === date)
  const text = () => {
    const last = bodyMassOn(readSettings(logbook, read).settings, date)
    const pains = allPains([], read.typed).filter((pain) => pain.date === date)
    return morningText(
      morning,
      date,
      last && printMorning({ bodyMass: last }, unit),
      standingPains(pains),
      unit,
    )
  }
  return { morning, damages: read.damages, text }
}

/** What was typed for a morning, whether a sign in it needs a doctor, and what is still missing. Ends with a line feed.
 * @param mass the last known body mass before or on that date, as an example; null if none is known
 * @param pains of that morning, those that need a doctor first */
export function morningText(
  morning: MorningValues | undefined,
  date: string,
  mass: string | null,
  pains: readonly Pain[],
  unit: MassUnit | null = null,
): string {
  const asked = [
    [morning?.sleepSeconds, 'sleep (6:40 h)'],
    [morning?.restingHeartRate, 'resting heart rate (48 bpm)'],
    [morning?.bodyMass, mass === null ? 'body mass' : `body mass (${mass})`],
    [morning?.soreness, 'soreness or pain by place, 0 to 10 (legs 3)'],
  ] as const
  const missing = asked.flatMap(([value, name]) => (value === undefined ? [name] : []))
  const typed = morning === undefined ? 'nothing typed yet' : printMorning(morning, unit)
  const rest = missing.length === 0 ? '' : `Optional, not typed: ${missing.join(', ')}.\n`
  const doctor = doctorPhrase(pains)
  const warning =
    doctor === '' ? '' : `${plainOf(`${doctor}. A sign that is over ends with 0: ${pains[0]?.place} 0`)}.\n`
  return `${date}: ${plainOf(typed)}\n${warning}${rest}`
}

/** Stores a line of the morning; the word `undo` takes back the last line of today, whichever morning it is
 * about.
 * @returns a message if it is refused; null once it is on the disk */
export function takeMorning(logbook: string, typed: string): string | null {
  const at = localTimeOf(new Date())
  const today = at.slice(0, 10)
  if (typed.trim().toLowerCase() === 'undo') {
    const { typed: all } = readMornings(logbook)
    const last = sort(all, ({ at }) => Date.parse(at)).at(-1)
    if (last?.at.slice(0, 10) !== today) return 'nothing was typed today'
    return attempt(() => addMornings(logbook, [{ type: 'undone', at, date: last.date }]))
  }
  const reading = morningTyped(typed, today, readSettings(logbook).settings.units.mass)
  if ('problem' in reading) return plainOf(reading.problem)
  const { date, values } = reading
  if (Object.keys(values).length === 0)
    return 'The line holds nothing but a date. Example: 6:40 h, 48 bpm, 67.8 kg.'
  return attempt(() => addMornings(logbook, [{ type: 'typed', at, date: date ?? today, values }]))
}

/** @param unit that of the example's body mass */
export function morningHint(unit: MassUnit): string {
  const mass = unit === 'kg' ? '67.8 kg' : '149.5 lb'
  return `Type any of it, in any order: 6:40 h, 48 bpm, ${mass}, legs 3, "late train". Typing again corrects; undo takes back the last line.`
}

/** Reads what is typed of a morning; signs that need a doctor are its note without quotes too: `6:40 h, dizzy`. */
export function morningTyped(typed: string, today: string, massUnit: MassUnit): MorningReading {
  const signs = typed.includes('"')
    ? []
    : [...typed.matchAll(withoutFigure)].filter(([words]) => hasSign(words))
  const rest = signs.reduce((text, [words]) => text.replace(words, ''), typed)
  const note = signs.map(([words]) => words.trim()).join(', ')
  return readMorning(note === '' ? typed : `${rest}, "${note}"`, today, massUnit)
}

/** Between commas or after a date. */
const withoutFigure = /(?<=^|,|\d{4}-\d\d-\d\d)[^",\d]+(?=,|$)/g
