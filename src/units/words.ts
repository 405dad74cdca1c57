import type { DistanceUnit, LengthUnit, MassUnit } from './model.ts'

interface Words {
  /** The notation's own words, which the grammar lists too. */
  notation: readonly string[]
  /** Also accepted: in a day they are replaced by the unit itself before the line is parsed. */
  others: readonly string[]
}

/** The words for each unit, in lower case. `hr` is left out, because it also means heart rate. */
const masses: Record<MassUnit, Words> = {
  kg: { notation: ['kg', 'kgs'], others: ['kilogram', 'kilograms', 'kilo', 'kilos'] },
  // The grammar reads `pounds` too.
  lb: { notation: ['lb', 'lbs'], others: ['pound', 'pounds', 'lbm'] },
}
const lengths: Record<Exclude<LengthUnit, 'marathon' | 'half marathon'>, Words> = {
  m: { notation: ['m'], others: ['meter', 'meters', 'metre', 'metres', 'mtr', 'mtrs'] },
  km: { notation: ['km', 'k'], others: ['kms', 'kilometer', 'kilometers', 'kilometre', 'kilometres'] },
  mi: { notation: ['mi', 'mile', 'miles'], others: [] },
  yd: { notation: ['yd'], others: ['yds', 'yard', 'yards'] },
  lap: { notation: ['lap', 'laps'], others: [] },
}
const times: Record<'s' | 'min' | 'h', Words> = {
  s: { notation: ['s', 'sec', 'secs'], others: ['second', 'seconds'] },
  min: { notation: ['min', 'mins'], others: ['minute', 'minutes'] },
  h: { notation: ['h'], others: ['hrs', 'hour', 'hours'] },
}

export const unitWords = { ...masses, ...lengths, ...times }

/** The unit of mass that a word means, upper or lower case; null for any other word. */
export const massUnitOf = (word: string) => unitIn(masses, word)

/** The unit of length that a word means, upper or lower case; null for any other word. */
export const lengthUnitOf = (word: string) => unitIn(lengths, word)

/** Reads a unit of distance, a unit of mass, or one of each, in either order: `mi lb`, `pounds`. What is not named is
 * null; null for any other text. */
export function readUnits(text: string): { distance: DistanceUnit | null; mass: MassUnit | null } | null {
  const words = text.split(/[\s,/]+/).filter((word) => word !== '')
  const [mass = null] = words.flatMap((word) => massUnitOf(word) ?? [])
  const [distance = null] = words.flatMap((word) => {
    const unit = lengthUnitOf(word)
    return unit === 'km' || unit === 'mi' ? unit : []
  })
  const named = [mass, distance].filter((unit) => unit !== null)
  return named.length > 0 && named.length === words.length ? { distance, mass } : null
}

/** Seconds in the unit of time that a word means, upper or lower case; null for any other word. */
export function secondsIn(word: string): number | null {
  const unit = unitIn(times, word)
  return unit === null ? null : { s: 1, min: 60, h: 3600 }[unit]
}

function unitIn<U extends string>(table: Record<U, Words>, word: string): U | null {
  const lowerCase = word.toLowerCase()
  const units = Object.keys(table) as U[]
  return units.find((unit) => [...table[unit].notation, ...table[unit].others].includes(lowerCase)) ?? null
}

/** Splits a number above 0 from the word after it, which may be empty: `92.5 kg`, `5k`. Null for other text. */
export function numberAndWord(text: string): { value: number; word: string } | null {
  const [, number, word = ''] = /^(\d{1,300}(?:\.\d{1,100})?)\s{0,9}([a-z]{0,10})$/i.exec(text.trim()) ?? []
  const value = positive(Number(number))
  return value === null ? null : { value, word }
}

/** The value if it is more than 0 and finite, else null. */
export function positive(value: number): number | null {
  return value > 0 && Number.isFinite(value) ? value : null
}

/** All words for these units, as alternatives of a regular expression: `kg|kgs|kilogram`. */
export function wordsFor(...units: (keyof typeof unitWords)[]): string {
  return units.flatMap((unit) => [...unitWords[unit].notation, ...unitWords[unit].others]).join('|')
}
