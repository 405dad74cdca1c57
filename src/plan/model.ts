import { daysToGoal } from '../prescription/step.ts'
import { dayAfter, daysBetween, mondayOf, printDate } from '../units/calendarDate.ts'
import { printLength } from '../units/length.ts'
import { joined } from '../units/lists.ts'
import type { Length } from '../units/model.ts'

export const weekdays = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const
export type Weekday = (typeof weekdays)[number]

/** What each weekday is for: one word or more. */
export type PlanDays = Partial<Record<Weekday, string[]>>

/** As the goal of a day. */
export interface PlanRace {
  length: Length
  seconds: number
  /** YYYY-MM-DD. */
  on: string
  line: number
}

export interface PlanWeek {
  /** YYYY-MM-DD. */
  monday: string
  line: number
  distance: Length | null
  long: Length | null
  kind: 'easy' | 'taper' | 'race week' | null
  /** Replaces the plan's own. */
  days: PlanDays
  notes: string[]
}

export function emptyWeek(monday: string): Omit<PlanWeek, 'line'> {
  return { monday, distance: null, long: null, kind: null, days: {}, notes: [] }
}

/** A block of training. Lines count from 1. */
export interface Plan {
  title: string
  race: PlanRace | null
  days: PlanDays
  /** In order; weeks without a line are missing. */
  weeks: PlanWeek[]
}

/** The weekday that a word names, short or in full, upper or lower case; null for any other word. */
export function weekdayNamed(word: string): Weekday | null {
  const short = word.toLowerCase()
  const full = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday']
  const index = full.findIndex((name) => name === short || (short.length >= 3 && name.startsWith(short)))
  return weekdays[index] ?? null
}

/** The plan's words for a date; `10 km race` on race day, unless its week has words of its own for that weekday.
 * Empty for a rest day and for a day that the plan does not mention. After the race only a week's own words count,
 * because the block is over. */
export function wordsOn(plan: Plan, date: string): string[] {
  const week = plan.weeks.find(({ monday }) => monday === mondayOf(date))
  const weekday = printDate(date, 'EEE') as Weekday
  const race = plan.race?.on === date ? [`${printLength(plan.race.length)} race`] : null
  const isOver = plan.race !== null && date > plan.race.on
  const words = week?.days[weekday] ?? race ?? (isOver ? [] : plan.days[weekday]) ?? []
  return words.filter((word) => word.toLowerCase() !== 'rest')
}

/** Whether training is cut back in a week of this kind; `race week` counts as a taper week. */
export function isTaper(kind: PlanWeek['kind']): kind is 'taper' | 'race week' {
  return kind === 'taper' || kind === 'race week'
}

/** The kind of week in which training is cut back before the race: that of the date, or of a week later. Null for other
 * weeks, and after the race. @param race its date; null without one */
export function taperAround(
  race: string | null,
  weeks: Plan['weeks'],
  date: string,
): 'taper' | 'race week' | null {
  if (race !== null && date > race) return null
  for (const day of [date, dayAfter(date, 7)]) {
    const monday = mondayOf(day)
    const kind = weeks.find((week) => week.monday === monday)?.kind ?? null
    if (race !== null && mondayOf(race) === monday) return 'race week'
    if (isTaper(kind)) return kind
  }
  return null
}

/** The first and the last Monday of the block: from its first dated week to the race, or to the last
 * dated week if it has no race. Null without a dated week. */
export function spanOfPlan(plan: Plan): { first: string; last: string } | null {
  const [first, last] = [plan.weeks[0]?.monday, plan.weeks.at(-1)?.monday]
  if (first === undefined || last === undefined) return null
  const race = plan.race === null ? last : mondayOf(plan.race.on)
  return { first, last: race > first ? race : last }
}

/** `Thursday of week 3 of 19, 115 days to 10 km in 39:30`, without what is unknown. Null on a day after the
 * block, and for a plan with neither weeks nor a race. */
export function placeInPlan(plan: Plan, date: string): string | null {
  const span = spanOfPlan(plan)
  const monday = mondayOf(date)
  const weekOf = (of: string) => daysBetween(span?.first ?? of, of) / 7 + 1
  const isInside = span !== null && monday >= span.first && monday <= span.last
  const week = isInside ? `${printDate(date, 'EEEE')} of week ${weekOf(monday)} of ${weekOf(span.last)}` : ''
  return joined(', ', [week, plan.race && daysToGoal(plan.race, date)]) || null
}

const legWords = /(?<!\b(?:no|easy|fresh|light) )\b(legs?|squats?)\b/i
const longWord = /(?<!\bno )\blong\b/i
const hardWords = /\b(tempo|threshold|track|intervals?|repeats|hills?|race|trial|fast|hard)\b/i

/** Whether a word of a day means heavy legs (legs and squat, not after no, easy, fresh or light) or a long run (long,
 * not after no). This program's own rule. */
export function isHardOnLegs(word: string): boolean {
  return legWords.test(word) || longWord.test(word)
}

/** Whether a word of a day means heavy legs, a long run or hard running. This program's own rule. */
export function isHardWord(word: string): boolean {
  return isHardOnLegs(word) || hardWords.test(word)
}

interface DoneDay {
  date: string
  brief: { title: string; sets: number; parts: readonly { kind: string; name: string | null }[] }
}

export type Due = NonNullable<ReturnType<typeof dueOf>>

/** The kind of day that is due: the one after the kind that was done last. A day is of a kind if the kind's words are
 * words in the name of one of its parts, else in its title; where a lift has no recorded set, neither its name nor the
 * title counts. If a kind occurs more than once in the rotation, the days before the last one tell which occurrence it
 * was.
 * @param history newest first
 * @returns null without a rotation; `last`: the kind that was done last, and when, null if none was */
export function dueOf(rotation: readonly string[], history: Iterable<DoneDay>) {
  const [first] = rotation
  if (first === undefined) return null
  const done: { kind: string; date: string }[] = []
  for (const day of history) {
    const kind = kindOf(day, rotation)
    if (kind !== null) done.push({ kind, date: day.date })
    if (done.length > rotation.length) break
  }
  const [last] = done
  if (last === undefined) return { kind: first, last: null }
  // How many days, counted back from the newest, match the rotation up to a place.
  const matched = rotation.map((_, place) => {
    const different = done.findIndex(
      ({ kind }, back) => kind !== rotation.at((place - back) % rotation.length),
    )
    return different === -1 ? done.length : different
  })
  const place = matched.indexOf(Math.max(...matched))
  return { kind: rotation[(place + 1) % rotation.length] ?? first, last }
}

function kindOf({ brief: { parts, sets, title } }: DoneDay, rotation: readonly string[]): string | null {
  const isDone = (part: { kind: string }) => part.kind !== 'lift' || sets > 0
  const names = [
    ...parts.filter(isDone).map(({ name }) => name ?? ''),
    ...(parts.every(isDone) ? [title] : []),
  ].map(wordsOf)
  for (const name of names) {
    const kind = rotation.find((each) => name.includes(wordsOf(each)))
    if (kind !== undefined) return kind
  }
  return null
}

/** Puts a space on both sides of the words, so that only whole words match. */
function wordsOf(text: string): string {
  const words = text
    .toLowerCase()
    .normalize('NFKC')
    .match(/[\p{L}\p{N}]+/gu)
  return ` ${(words ?? []).join(' ')} `
}
