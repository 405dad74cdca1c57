import { groups, sort } from 'd3-array'
import { betweenCommas } from '../prescription/lines.ts'
import { isCalendarDate } from '../units/calendarDate.ts'
import { printHours, readDuration } from '../units/duration.ts'
import { joined } from '../units/lists.ts'
import { kilogramsOf, readMass } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import { wordsFor } from '../units/words.ts'
import type { MorningEvent, MorningValues } from './morningModel.ts'

export interface Morning extends MorningValues {
  date: string
}

/** The latest state of each morning, in order of dates: a later value for the same thing, or the same place, replaces
 * an earlier one. Mornings whose entries were all undone are left out. */
export function morningsOf(events: readonly MorningEvent[]): Morning[] {
  return entriesByDate(events).map(([date, typed]) => ({
    date,
    ...typed.map(({ values }) => values).reduce(withValues, {}),
  }))
}

/** One entry for a morning. */
export type TypedMorning = Extract<MorningEvent, { type: 'typed' }>

/** The entries that were not undone, in order of dates. */
export function typedMornings(events: readonly MorningEvent[]): TypedMorning[] {
  return entriesByDate(events).flatMap(([, typed]) => typed)
}

function entriesByDate(events: readonly MorningEvent[]): [date: string, typed: TypedMorning[]][] {
  const typed = entriesOf(events).flatMap(({ typed, undone }) => (undone === null ? [typed] : []))
  return sort(
    groups(typed, ({ date }) => date),
    ([date]) => date,
  )
}

interface Entry {
  typed: TypedMorning
  /** The event that undoes it; null if none does. */
  undone: MorningEvent | null
}

/** Each entry with what undoes it: an `undone` takes back the last entry of its date that is not undone yet. */
function entriesOf(events: readonly MorningEvent[]): Entry[] {
  const entries: Entry[] = []
  for (const event of events) {
    if (event.type === 'typed') entries.push({ typed: event, undone: null })
    else {
      const last = entries.findLast(({ typed, undone }) => typed.date === event.date && undone === null)
      if (last !== undefined) last.undone = event
    }
  }
  return entries
}

/** `left calf pain` and `left calf` are the same place. */
function withoutPain(place: string): string {
  return place
    .replace(/\bpains?\b/, '')
    .replace(/\s+/g, ' ')
    .trim()
}

function withValues(before: MorningValues, values: MorningValues): MorningValues {
  const places = new Map(
    [...(before.soreness ?? []), ...(values.soreness ?? [])].map((each) => [withoutPain(each.place), each]),
  )
  const soreness = places.size === 0 ? {} : { soreness: [...places.values()] }
  return { ...before, ...values, ...soreness }
}

/** The values that `before` does not have yet; soreness is compared place by place. */
export function valuesNotIn(before: MorningValues, values: MorningValues): MorningValues {
  return valuesWhere(values, before, (_, other) => other === undefined)
}

/** How two versions of a morning differ in what both have: `67.8 kg here, 68.1 kg there`; null if they do not. */
export function differenceBetween(here: MorningValues, there: MorningValues): string | null {
  const isUnlike = (value: unknown, other: unknown) =>
    other !== undefined && JSON.stringify(value) !== JSON.stringify(other)
  const mine = printMorning(valuesWhere(here, there, isUnlike))
  return mine === '' ? null : `${mine} here, ${printMorning(valuesWhere(there, here, isUnlike))} there`
}

function valuesWhere(
  { soreness = [], ...values }: MorningValues,
  others: MorningValues,
  isWanted: (value: unknown, other: unknown) => boolean,
): MorningValues {
  const levels = new Map((others.soreness ?? []).map(({ place, level }) => [withoutPain(place), level]))
  const places = soreness.filter(({ place, level }) => isWanted(level, levels.get(withoutPain(place))))
  const wanted = Object.entries(values).filter(([key, value]) =>
    isWanted(value, others[key as keyof typeof values]),
  )
  return { ...Object.fromEntries(wanted), ...(places.length === 0 ? {} : { soreness: places }) }
}

export type MorningReading = { date: string | null; values: MorningValues } | { problem: string }

/* Values beyond these limits are typing errors. This program's own rules. */
const heartRates = { from: 25, to: 130 }
const kilograms = { from: 25, to: 300 }
const longestSleep = 18 * 3600
const example = 'Example: 6:40 h, 48 bpm, 67.8 kg, legs 3, "late train"'

// `hr` is a heart rate as well: `7 hr` is sleep, `48 hr` is not.
const timeWords = `hr|${wordsFor('h', 'min')}`
const massWords = wordsFor('kg', 'lb')
const unit = new RegExp(`^(?:bpm|${timeWords}|${massWords})$`, 'i')
const sleep = new RegExp(`^[\\d.:]+\\s*(?:${timeWords})$`, 'i')
const bodyMass = new RegExp(`^[\\d.]+\\s*(?:${massWords})$`, 'i')
const hoursAndMinutes = new RegExp(
  `"[^"]*"|\\b(\\d{1,2})(?:\\s*(?:hr|${wordsFor('h')})\\s*(\\d{1,2})\\s*(?:${wordsFor('min')})|h(\\d\\d))\\b`,
  'gi',
)
const decimalComma = new RegExp(`"[^"]*"|(?<=\\d\\d),(?=\\d\\s*(?:${massWords})\\b)`, 'gi')
const startsNumber = /^-?\d/

/** Splits the text between two commas into its values: `sleep 7h hr 52` is `sleep 7h` and `hr 52`. */
function valuesIn(piece: string): string[] {
  const words: readonly string[] = piece.match(/"[^"]*"|[^\s"]+|"/g) ?? []
  if (words.includes('"')) return [piece]
  const values: string[][] = []
  let isOpen = false
  for (const [index, word] of words.entries()) {
    const before = words[index - 1] ?? ''
    // In `7 hr 52` the word belongs to the second number.
    const isHeartRate = /^hr$/i.test(word) && /^\d/.test(words[index + 1] ?? '')
    const isUnit = unit.test(word) && /^[\d.:]+$/.test(before) && !isHeartRate
    if (isUnit || (isOpen && !word.startsWith('"'))) values.at(-1)?.push(word)
    else values.push([word])
    isOpen = isUnit ? false : !startsNumber.test(word) && !word.startsWith('"')
  }
  return values.length === 0 ? [''] : values.map((value) => value.join(' '))
}

/** Reads `6:40 h, 48 bpm, 67.8 kg, legs 3, left calf 2, "late train"` in any order, every part and comma optional, with
 * a date if it is about another morning.
 * @param today local date; later mornings are refused
 * @param massUnit of a body mass without a unit: `mass 72`
 * @returns `problem`: what is wrong and what to write */
export function readMorning(text: string, today: string, massUnit: MassUnit = 'kg'): MorningReading {
  const values: MorningValues = {}
  let date: string | null = null
  for (const piece of betweenCommas(withPainFirst(withClock(withPlainSigns(text)))).flatMap(
    ({ text: piece }) => valuesIn(piece),
  )) {
    if (/^\d{4}-\d/.test(piece)) {
      if (!isCalendarDate(piece)) return { problem: `Invalid date "${piece}". Example: 2026-11-26.` }
      if (piece > today) return { problem: `${piece} is in the future. Write ${today} or an earlier day.` }
      if (date !== null) return { problem: `There are two dates. Write one of ${date} and ${piece}.` }
      date = piece
      continue
    }
    const problem = readPiece(piece, values, massUnit)
    if (problem !== null) return { problem }
  }
  return { date, values }
}

/** Curly quotes as plain ones, and outside of quotes `67,8 kg` as `67.8 kg`: no other comma comes between digits right
 * before a mass. */
function withPlainSigns(text: string): string {
  return text.replace(/[“”„]/g, '"').replace(decimalComma, (found) => (found === ',' ? '.' : found))
}

/** `6 h 40 min` and `6h40`, outside of quotes, as `6:40 h`. */
function withClock(text: string): string {
  return text.replace(hoursAndMinutes, (all, hours?: string, minutes?: string, short?: string) =>
    hours === undefined ? all : `${hours}:${(minutes ?? short ?? '').padStart(2, '0')} h`,
  )
}

/** `left ankle 3 pain`, outside of quotes, as `left ankle pain 3`. */
function withPainFirst(text: string): string {
  return text.replace(
    /"[^"]*"|(?<![\d.])(\d+(?:\.\d+)?(?:\s*\/\s*10)?)\s+pain(?=\s*(?:,|$))/gi,
    (all, level?: string) => (level === undefined ? all : `pain ${level}`),
  )
}

/** Strips the words around a value and adds the unit that they imply. */
function plainPiece(piece: string, massUnit: MassUnit): string {
  return piece
    .replace(/^(?:and\s+)?(?:sore(?:ness)?\s+(?!throat|\d))?(?=\S)/i, '')
    .replace(/^(?:(?:slept|sleep)\s+([\d.:]+)|(\d+:\d+))$/i, '$1$2 h')
    .replace(/^(?:body\s+mass|body\s?weight|mass|weight)\s+([\d.]+)$/i, `$1 ${massUnit}`)
    .replace(/^(?:slept|sleep)\s+(?=\d)/i, '')
    .replace(/^(?:body\s+mass|body\s?weight|mass|weight)\s+(?=\d)/i, '')
    .replace(
      /^(?:resting(?:\s+(?:hr|heart\s+rate))?|rhr|hr|heart\s+rate|pulse)\s+(\d+)(?:\s*bpm)?$/i,
      '$1 bpm',
    )
}

function readPiece(given: string, values: MorningValues, massUnit: MassUnit): string | null {
  const piece = plainPiece(given, massUnit)
  if (piece === '') return `There is nothing between two commas. ${example}.`
  const quoted = /^"(.*)"$/.exec(piece)
  if (quoted !== null) return put(values, 'note', quoted[1] ?? '', 'two notes')
  const beats = /^(\d+(?:\.\d+)?)\s*(?:bpm|hr)$/i.exec(piece)
  const value = Number(beats?.[1])
  const isHours = /hr$/i.test(piece) && value * 3600 <= longestSleep
  if (beats !== null && !isHours) return readHeartRate(value, values)
  if (sleep.test(piece)) return readSleep(piece, values)
  if (bodyMass.test(piece)) return readBodyMass(piece, values)
  const sore = /^(\D*?\p{L}\D*?)[\s:]+(-?\d+(?:\.\d+)?)(?:\s*\/\s*10)?$/u.exec(piece)
  if (sore !== null) return readSoreness(sore[1] ?? '', Number(sore[2]), values)
  if (/^[\d.:]+$/.test(piece)) return `"${piece}" has no unit. Write ${piece} h, ${piece} bpm or ${piece} kg.`
  return `"${piece}" is not understood. A place takes a number from 0 to 10: legs 3; a note goes in quotes. ${example}.`
}

function readSleep(piece: string, values: MorningValues): string | null {
  const clock = /^(\d{1,2}):(\d{1,2})\s*h/i.exec(piece)
  const [hours, minutes] = [Number(clock?.[1]), Number(clock?.[2])]
  if (clock !== null && minutes > 59) {
    return `Invalid sleep "${piece}": minutes go to 59. Write ${hours + 1}:${String(minutes - 60).padStart(2, '0')} h, or 6:40 h.`
  }
  const seconds = clock === null ? readDuration(piece.replace(/hr$/i, 'h')) : hours * 3600 + minutes * 60
  if (seconds === null) return `Invalid sleep "${piece}". Example: 6:40 h.`
  if (seconds > longestSleep) return `${piece} is too long for a night's sleep. Example: 6:40 h.`
  // Whole minutes, as they are printed, so that a morning read back from an export is the same.
  return put(values, 'sleepSeconds', Math.round(seconds / 60) * 60, 'two sleep times')
}

function readHeartRate(beats: number, values: MorningValues): string | null {
  const { from, to } = heartRates
  if (!Number.isInteger(beats) || beats < from || beats > to) {
    return `Invalid resting heart rate ${beats} bpm: it must be from ${from} to ${to}. Example: 48 bpm.`
  }
  return put(values, 'restingHeartRate', beats, 'two heart rates')
}

function readBodyMass(piece: string, values: MorningValues): string | null {
  const mass = readMass(piece, 'kg')
  if (mass === null) return `Invalid body mass "${piece}". Example: 67.8 kg.`
  const isPossible = (value: number) => {
    const kg = kilogramsOf({ value, unit: mass.unit })
    return kg >= kilograms.from && kg <= kilograms.to
  }
  if (!isPossible(mass.value)) {
    const tenth = Number((mass.value / 10).toFixed(2))
    const advice = isPossible(tenth) ? `Did you mean ${tenth} ${mass.unit}?` : 'Example: 67.8 kg.'
    return `Invalid body mass "${piece}". ${advice}`
  }
  return put(values, 'bodyMass', mass, 'two body masses')
}

function readSoreness(place: string, level: number, values: MorningValues): string | null {
  const name = place.toLowerCase().replace(/\s+/g, ' ').trim()
  if (level < 0 || level > 10) return `"${place} ${level}": the scale goes from 0 to 10. Example: ${name} 3.`
  const before = values.soreness ?? []
  if (before.some((each) => each.place === name)) return `"${name}" is given twice. Write it once.`
  values.soreness = [...before, { place: name, level }]
  return null
}

function put<Key extends keyof MorningValues>(
  values: MorningValues,
  key: Key,
  value: NonNullable<MorningValues[Key]>,
  twice: string,
): string | null {
  if (values[key] !== undefined) return `There are ${twice}. Write one of them.`
  values[key] = value
  return null
}

/** Writes a morning as it would be typed. */
export function printMorning({
  sleepSeconds,
  restingHeartRate,
  bodyMass,
  soreness = [],
  note,
}: MorningValues): string {
  return joined(', ', [
    sleepSeconds !== undefined && printHours(sleepSeconds),
    restingHeartRate !== undefined && `${restingHeartRate} bpm`,
    bodyMass !== undefined && `${bodyMass.value} ${bodyMass.unit}`,
    ...soreness.map(({ place, level }) => `${place} ${level}`),
    note !== undefined && `"${note}"`,
  ])
}

/** Merges the entries of two machines, each once, in the order in which they were typed. What either machine has undone
 * is undone, and only once. An undoing comes right after its entry: later it would undo what the other machine typed. */
export function mergedEvents(ours: readonly MorningEvent[], theirs: readonly MorningEvent[]): MorningEvent[] {
  const [byOurs, byTheirs] = [byKey(ours), byKey(theirs)]
  const keys = [...new Map([...byOurs, ...byTheirs])]
  const entries = keys.map(([key, { typed }]) => {
    const undone = byOurs.get(key)?.undone ?? byTheirs.get(key)?.undone ?? null
    return { typed, undone }
  })
  return sort(entries, ({ typed }) => Date.parse(typed.at)).flatMap(({ typed, undone }) =>
    undone === null ? [typed] : [typed, undone],
  )
}

/** Entries by a key that is the same on all machines. The same words typed again in the same second are another
 * entry. */
function byKey(events: readonly MorningEvent[]): Map<string, Entry> {
  const entries = new Map<string, Entry>()
  for (const entry of entriesOf(events)) {
    let key = JSON.stringify(entry.typed)
    while (entries.has(key)) key += ' again'
    entries.set(key, entry)
  }
  return entries
}
