import { groups, sort } from 'd3-array'
import { isCalendarDate } from '../units/calendarDate.ts'
import { roundTo } from '../units/decimal.ts'
import { printHours } from '../units/duration.ts'
import { joined } from '../units/lists.ts'
import { kilogramsOf, massIn, printMass, readMass } from '../units/mass.ts'
import type { Mass, MassUnit } from '../units/model.ts'
import { secondsIn, wordsFor } from '../units/words.ts'
import type { MorningEvent, MorningValues } from './morningModel.ts'

export interface Morning extends MorningValues {
  date: string
}

/** The latest state of each morning, in order of dates: a later value for the same thing, or the same place, replaces
 * an earlier one. Mornings whose entries were all undone are left out.
 * @param isKept whether a note stays beside a later one, such as one with a warning sign */
export function morningsOf(
  events: readonly MorningEvent[],
  isKept: (note: string) => boolean = () => false,
): Morning[] {
  const byDate = groups(typedMornings(events), ({ date }) => date)
  return sort(byDate, ([date]) => date).map(([date, typed]) => ({
    date,
    ...typed.map(({ values }) => values).reduce(withValues(isKept), {}),
  }))
}

export type TypedMorning = Extract<MorningEvent, { type: 'typed' }>

export function typedMornings(events: readonly MorningEvent[]): TypedMorning[] {
  return entriesOf(events).flatMap(({ typed, undone }) => (undone === null ? [typed] : []))
}

interface Entry {
  typed: TypedMorning
  /** The event that undoes it; null if none does. */
  undone: MorningEvent | null
  /** When it was typed, in milliseconds, but not before what it corrects: a clock can be turned back. */
  time: number
}

/** Each entry with what undoes it: an `undone` takes back the last entry of its date that is not undone yet. */
function entriesOf(events: readonly MorningEvent[]): Entry[] {
  const entries: Entry[] = []
  for (const event of events) {
    if (event.type === 'typed') {
      const before = entries.findLast(({ typed }) => typed.date === event.date)
      entries.push({ typed: event, undone: null, time: Math.max(before?.time ?? 0, Date.parse(event.at)) })
    } else {
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

function withValues(isKept: (note: string) => boolean) {
  return (before: MorningValues, values: MorningValues): MorningValues => {
    const sore = [...(before.soreness ?? []), ...(values.soreness ?? [])]
    const places = new Map(sore.map((each) => [withoutPain(each.place), each]))
    const soreness = places.size === 0 ? {} : { soreness: [...places.values()] }
    const { note } = before
    const isBeside = note !== undefined && isKept(note) && values.note?.includes(note) === false
    return { ...before, ...values, ...soreness, ...(isBeside ? { note: `${note}; ${values.note}` } : {}) }
  }
}

/** How two versions of a morning differ in what both have: `67.8 kg here, 68.1 kg there`; null if they do not. */
function differenceBetween(here: MorningValues, there: MorningValues): string | null {
  const mine = printMorning(valuesUnlike(here, there))
  return mine === '' ? null : `${mine} here, ${printMorning(valuesUnlike(there, here))} there`
}

/** The values of a morning that the other has, too, and otherwise; soreness is compared place by place. */
function valuesUnlike({ soreness = [], ...values }: MorningValues, others: MorningValues): MorningValues {
  const isUnlike = (value: unknown, other: unknown) =>
    other !== undefined && JSON.stringify(value) !== JSON.stringify(other)
  const levels = new Map((others.soreness ?? []).map(({ place, level }) => [withoutPain(place), level]))
  const places = soreness.filter(({ place, level }) => isUnlike(level, levels.get(withoutPain(place))))
  const unlike = Object.entries(values).filter(([key, value]) =>
    isUnlike(value, others[key as keyof typeof values]),
  )
  return { ...Object.fromEntries(unlike), ...(places.length === 0 ? {} : { soreness: places }) }
}

export type MorningReading = { date: string | null; values: MorningValues } | { problem: string }

/* Values beyond these limits are typing errors. This program's own rules. */
const heartRates = { from: 25, to: 130 }
const kilograms = { from: 25, to: 300 }
const longestSleep = 18 * 3600
const example = 'Example: 6:40 h, 48 bpm, 67.8 kg, legs 3, "late train"'

/** A form in which a value is typed, and what reading it changes; returns what is wrong. */
interface Form {
  text: RegExp
  read(found: Record<string, string>, draft: Draft): string | null
}

interface Draft {
  date: string | null
  values: MorningValues
  today: string
  /** The unit of a body mass that is typed without one. */
  massUnit: MassUnit
}

/** A form ends at a space, a comma, a semicolon, a quote or the end. */
function form(text: string, read: Form['read']): Form {
  return { text: new RegExp(`^(?:${text})(?![^\\s,;"])`, 'iu'), read }
}

/** An amount with its unit, with a label before or after that, or with both. */
function amount(label: string, number: string, unit: string, read: Form['read']): Form[] {
  return [
    form(`(?:${label})\\s+(?<amount>${number})(?:\\s*(?<unit>${unit}))?`, read),
    form(`(?<amount>${number})\\s*(?<unit>${unit})(?:\\s+(?:${label}))?`, read),
  ]
}

const number = String.raw`\d+(?:\.\d+)?`
// In `7 hr 52` the word belongs to the second number.
const hour = String.raw`hr(?!\s+\d)|${wordsFor('h')}`
const minute = wordsFor('min')
const massUnits = wordsFor('kg', 'lb')
// Beside hours, `m` is minutes.
const minuteBesideHours = `${minute}|m`
const hoursThen = String.raw`:|h(?=\d\d(?!\d))|\s*(?:hr|${hour})\s*(?=\d+\s*(?:${minuteBesideHours})\b)`

const forms: readonly Form[] = [
  form('"(?<note>[^"]*)"', readNote),
  form(String.raw`(?<date>\d{4}-\d[\d-]*)`, readDate),
  form(
    String.raw`(?:(?:slept|sleep)\s+)?(?<hours>\d{1,2})(?:${hoursThen})(?<minutes>\d{1,2})(?:\s*(?:${hour}|${minuteBesideHours}))?(?:\s+sleep)?`,
    readSleep,
  ),
  ...amount('slept|sleep', number, `${hour}|${minute}`, readSleep),
  ...amount(
    String.raw`resting(?:\s+(?:hr|heart\s+rate))?|rhr|hr|heart\s+rate|pulse`,
    number,
    'bpm',
    readHeartRate,
  ),
  // A comma between digits right before a unit of mass is a decimal comma.
  ...amount(
    String.raw`body\s+mass|body\s?weight|mass|weight`,
    String.raw`\d+(?:\.\d+|,\d(?=\s*(?:${massUnits})))?`,
    massUnits,
    readBodyMass,
  ),
  // Only a place of the body takes a number: a mood of 7 would be a pain.
  form(
    String.raw`(?<note>(?:mood|stress|energy|fatigue|motivation|readiness|hrv)[\s:=]+${number}(?:\s*\/\s*10|\s*ms)?)`,
    readNote,
  ),
  form(
    String.raw`(?:sore(?:ness)?\s+(?!throat|\d))?(?<place>\p{L}[^\d",;]*?)(?:\s+sore)?[\s:=]+(?<level>-?${number})(?:\s*\/\s*10)?(?<pain>\s+pain(?=\s*(?:[,;]|$)))?`,
    readSoreness,
  ),
  form(
    String.raw`(?<bare>[\d.:]+)`,
    ({ bare }, { massUnit }) => `"${bare}" has no unit. Write ${bare} h, ${bare} bpm or ${bare} ${massUnit}.`,
  ),
  form(
    '(?<other>[^,]+)',
    ({ other = '' }) =>
      `"${other.trim()}" is not understood. A place takes a number from 0 to 10: legs 3; a note goes in quotes. ${example}.`,
  ),
]

/** Reads `6:40 h, 48 bpm, 67.8 kg, legs 3, left calf 2, "late train"` in any order, every part and comma optional, with
 * a date if it is about another morning.
 * @param today local date; later mornings are refused
 * @param massUnit of a body mass without a unit: `mass 72`
 * @returns `problem`: what is wrong and what to write */
export function readMorning(typed: string, today: string, massUnit: MassUnit = 'kg'): MorningReading {
  const draft: Draft = { date: null, values: {}, today, massUnit }
  let rest = typed.replace(/[“”„]/g, '"')
  for (;;) {
    rest = rest.replace(/^[\s,;]*(?:and\s+)?/, '')
    const [found] = forms.flatMap(({ text, read }) => {
      const match = text.exec(rest)
      return match === null ? [] : [{ match, read }]
    })
    if (found === undefined) return { date: draft.date, values: draft.values }
    const problem = found.read((found.match.groups ?? {}) as Record<string, string>, draft)
    if (problem !== null) return { problem }
    rest = rest.slice(found.match[0].length)
  }
}

function readDate({ date = '' }: Record<string, string>, draft: Draft): string | null {
  if (!isCalendarDate(date)) return `Invalid date "${date}". Example: 2026-11-26.`
  if (date > draft.today) return `${date} is in the future. Write ${draft.today} or an earlier day.`
  if (draft.date !== null) return `There are two dates. Write one of ${draft.date} and ${date}.`
  draft.date = date
  return null
}

function readNote({ note = '' }: Record<string, string>, { values }: Draft): null {
  values.note = joined(', ', [values.note ?? null, note])
  return null
}

function readSleep(found: Record<string, string>, draft: Draft): string | null {
  const { hours, minutes, amount, unit = 'h' } = found
  const isHr = unit.toLowerCase() === 'hr'
  const text = hours === undefined ? `${amount} ${unit}` : `${hours}:${minutes} h`
  if (Number(minutes) > 59) return `Invalid sleep "${text}": minutes go to 59. Example: 6:40 h.`
  const seconds =
    hours === undefined
      ? Number(amount) * (secondsIn(isHr ? 'h' : unit) ?? 0)
      : Number(hours) * 3600 + Number(minutes) * 60
  // `hr` is a heart rate as well: `7 hr` is sleep, `48 hr` is not.
  if (isHr && seconds > longestSleep) return readHeartRate(found, draft)
  if (seconds > longestSleep) return `${text} is too long for a night's sleep. Example: 6:40 h.`
  // Whole minutes, as they are printed.
  return put(draft.values, 'sleepSeconds', Math.round(seconds / 60) * 60, 'two sleep times')
}

function readHeartRate({ amount }: Record<string, string>, { values }: Draft): string | null {
  const { from, to } = heartRates
  const beats = Number(amount)
  if (!Number.isInteger(beats) || beats < from || beats > to) {
    return `Invalid resting heart rate ${beats} bpm: it must be from ${from} to ${to}. Example: 48 bpm.`
  }
  return put(values, 'restingHeartRate', beats, 'two heart rates')
}

function readBodyMass(
  { amount = '', unit = '' }: Record<string, string>,
  { values, massUnit }: Draft,
): string | null {
  const text = `${amount.replace(',', '.')} ${unit || massUnit}`
  const mass = readMass(text, massUnit)
  const kg = mass === null ? 0 : kilogramsOf(mass)
  const { from, to } = kilograms
  if (mass === null || kg < from || kg > to)
    return `Invalid body mass "${text}": it must be from ${from} to ${to} kg. Example: 67.8 kg.`
  return put(values, 'bodyMass', mass, 'two body masses')
}

function readSoreness(
  { place = '', level = '', pain }: Record<string, string>,
  { values }: Draft,
): string | null {
  const name = `${place}${pain ? ' pain' : ''}`.toLowerCase().replace(/\s+/g, ' ').trim()
  if (Number(level) < 0 || Number(level) > 10)
    return `"${place} ${level}": the scale goes from 0 to 10. Example: ${name} 3.`
  const before = values.soreness ?? []
  if (before.some((each) => each.place === name)) return `"${name}" is given twice. Write it once.`
  values.soreness = [...before, { place: name, level: Number(level) }]
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

/** Writes a morning as it would be typed.
 * @param unit for printing the body mass, to a tenth; null keeps its own */
export function printMorning(
  { sleepSeconds, restingHeartRate, bodyMass, soreness = [], note }: MorningValues,
  unit: MassUnit | null = null,
): string {
  const massText = (mass: Mass) =>
    printMass(unit === null ? mass : { value: roundTo(massIn(mass, unit), 1), unit })
  return joined(', ', [
    sleepSeconds !== undefined && printHours(sleepSeconds),
    restingHeartRate !== undefined && `${restingHeartRate} bpm`,
    bodyMass !== undefined && massText(bodyMass),
    ...soreness.map(({ place, level }) => `${place} ${level}`),
    note !== undefined && `"${note}"`,
  ])
}

/** Merges the entries of two machines, each once, in the order in which they were typed. What either machine has undone
 * is undone, and only once. An undoing comes right after its entry: later it would undo what the other machine
 * typed. */
export function mergedEvents(ours: readonly MorningEvent[], theirs: readonly MorningEvent[]): MorningEvent[] {
  const [byOurs, byTheirs] = [byKey(ours), byKey(theirs)]
  const keys = [...new Map([...byOurs, ...byTheirs])]
  const entries = keys.map(([key, { typed, time }]) => {
    const undone = byOurs.get(key)?.undone ?? byTheirs.get(key)?.undone ?? null
    return { typed, undone, time }
  })
  return sort(entries, ({ time }) => time).flatMap(({ typed, undone }) =>
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

/** How two machines differ about the same morning in what only one of them has typed:
 * `2026-11-28: 67.8 kg here, 68.1 kg there`. */
export function differencesBetween(ours: readonly MorningEvent[], theirs: readonly MorningEvent[]): string[] {
  const [byOurs, byTheirs] = [byKey(ours), byKey(theirs)]
  const onlyIn = (own: typeof byOurs, other: typeof byOurs) =>
    morningsOf([...own].flatMap(([key, { typed, undone }]) => (other.has(key) || undone ? [] : [typed])))
  const there = new Map(onlyIn(byTheirs, byOurs).map((morning) => [morning.date, morning]))
  return onlyIn(byOurs, byTheirs).flatMap((here) => {
    const difference = differenceBetween(here, there.get(here.date) ?? {})
    return difference === null ? [] : [`${here.date}: ${difference}`]
  })
}
