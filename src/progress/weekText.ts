import { sourceLine } from '../figures/figure.ts'
import { beforeRaceText } from '../plan/model.ts'
import { plainOf, wrapped } from '../summary/plain.ts'
import { dayAfter, daysBetween, printDate } from '../units/calendarDate.ts'
import { counted, inWords } from '../units/decimal.ts'
import { formatMeters } from '../units/length.ts'
import { painsText } from './pain.ts'
import { type CalendarDay, hasHeavyLegs, type Running, type Week, type WeekDay } from './week.ts'
import { isMeasured } from './weeks.ts'

/* A week on one page, as text. */

/** The plan's entry for a week. */
export interface PlannedWeek {
  /** Metres of the week and of its long run; null if the plan does not say. */
  meters: number | null
  longMeters: number | null
  kind: 'easy' | 'taper' | 'race week' | null
  notes: string[]
  /** The words of each day, and the prescription files named after them. */
  days: { date: string; words: string[]; files: string[] }[]
}

const indent = ' '.repeat(15)

/** A week as text.
 * @param width of the terminal, in characters */
export function weekPage(week: Week, unit: 'km' | 'mi', width: number, planned: PlannedWeek | null): string {
  const [first, last] = [week.days[0]?.date ?? '', week.days.at(-1)?.date ?? '']
  const head = `${printDate(first, "'Week' I 'of' RRRR: EEE d MMM")} to ${printDate(last, 'EEE d MMM yyyy')}`
  const rows = [
    ...week.days.flatMap((day) => [
      ...dayRows(day, unit),
      ...plannedRows(planned?.days.find(({ date }) => date === day.date)),
    ]),
    ...week.undated.flatMap((day) => entryRows('no date', 'ready', day, unit)),
    ...week.unreadable.map(
      (file) => `${'no date'.padEnd(8)}${plainOf(file)} has problems: "pausebook check" shows them`,
    ),
  ]
  const facts = [...plannedFacts(planned, unit), ...factsOf(week, unit)].flatMap((fact) =>
    wrapped(fact, Math.max(40, width), 0, 0),
  )
  return `${[head, '', ...rows, '', ...facts].join('\n')}\n`
}

function plannedRows(day: PlannedWeek['days'][number] | undefined): string[] {
  if (day === undefined || day.words.length === 0) return []
  const files = day.files.length === 0 ? '' : ` (${day.files.join(', ')})`
  return [`${''.padEnd(8)}plan   ${plainOf(`${day.words.join(' + ')}${files}`)}`]
}

function plannedFacts(planned: PlannedWeek | null, unit: 'km' | 'mi'): string[] {
  if (planned === null) return []
  const { meters, longMeters, kind, notes } = planned
  const bits = [
    ...(meters === null ? [] : [formatMeters(meters, unit)]),
    ...(longMeters === null ? [] : [`long ${formatMeters(longMeters, unit)}`]),
    ...(kind === null ? [] : [kind]),
    ...notes.map((note) => plainOf(note)),
  ]
  return bits.length === 0 ? [] : [`Planned: ${bits.join(', ')}.`]
}

function dayRows(day: CalendarDay, unit: 'km' | 'mi'): string[] {
  const name = dayName(day.date)
  const entries = [
    ...day.done.map((entry) => ({ state: entry.finished ? 'done' : 'open', entry })),
    ...day.ready.map((entry) => ({ state: 'ready', entry })),
  ]
  if (entries.length === 0) return [`${name.padEnd(8)}-`]
  return [
    ...entries.flatMap(({ state, entry }, index) => entryRows(index === 0 ? name : '', state, entry, unit)),
    ...day.gaps.map((gap) => `${indent}${gap.order}: ${Math.round(gap.minutes)} min between`),
  ]
}

function entryRows(name: string, state: string, entry: WeekDay, unit: 'km' | 'mi'): string[] {
  const about = state === 'ready' ? 'about ' : ''
  const bits = [
    distanceText(entry, unit),
    hardText(entry, unit),
    entry.sets > 0 ? counted(entry.sets, 'set') : '',
    entry.heavyLegSets > 0 ? `${entry.heavyLegSets} of them heavy for the legs` : '',
    entry.contacts > 0 ? counted(entry.contacts, 'contact') : '',
    entry.minutes === null ? '' : `${about}${Math.round(entry.minutes)} min`,
  ].filter((bit) => bit !== '')
  const head = `${name.padEnd(8)}${state.padEnd(7)}${entry.title}`
  return bits.length === 0 ? [head] : [head, `${indent}${bits.join(', ')}`]
}

function hardText({ hardMeters, hardSeconds }: Running, unit: 'km' | 'mi'): string {
  const bits = [
    hardMeters > 0 ? formatMeters(hardMeters, unit) : '',
    hardSeconds > 0 ? `${Math.round(hardSeconds / 60)} min` : '',
  ].filter((bit) => bit !== '')
  return bits.length === 0 ? '' : `${bits.join(' and ')} of it hard`
}

/** @param dates each the last of three hard days in a row; merges those on consecutive days */
function hardDaysTexts(dates: readonly string[]): string[] {
  let inRow = 3
  return dates.flatMap((date, index) => {
    const next = dates[index + 1]
    if (next !== undefined && daysBetween(date, next) === 1) {
      inRow += 1
      return []
    }
    const text = `${dayName(date)}: ${inWords(inRow)} hard days in a row.`
    inRow = 3
    return [text]
  })
}

function factsOf(week: Week, unit: 'km' | 'mi'): string[] {
  const legs = week.days.filter(hasHeavyLegs).map(({ date }) => dayName(date))
  const pain = painsText(week.pain)
  const ready = distanceText(week.ready, unit) === '' ? '' : `, ${runningText(week.ready, unit)} ready`
  const facts = [
    ...(pain === null ? [] : [pain]),
    `Running: ${runningText(week.done, unit)} done${ready}.`,
    ...(legs.length === 0 ? [] : [`Heavy legs: ${legs.join(', ')}.`]),
    ...week.harderThanMeant.map(({ date, fact }) => `${dayName(date)}: easy by the plan, ${fact}.`),
    ...hardDaysTexts(week.threeHardDays),
    ...week.longAfterHeavyLegs
      .filter(({ date }) => !week.hardRunAfterHeavyLegs.includes(date))
      .map(({ date, what }) => `${dayName(date)}: a ${what} on the day after heavy legs.`),
    ...beforeRaceTexts(week),
    ...(week.longestRunShare === null
      ? []
      : [`Longest run: ${Math.round(100 * week.longestRunShare)} % of the running that was done.`]),
    ...week.hardRunAfterHeavyLegs.map((date) => {
      const special = week.longAfterHeavyLegs.find((each) => each.date === date)?.what
      const what = special === undefined ? 'hard running' : `a ${special}`
      return `${dayName(date)}: ${what} on the day after heavy legs. ${sourceLine('Doma and Deakin 2013')}`
    }),
  ]
  if (week.due === null) return facts
  const { kind, last } = week.due
  const after =
    last === null ? 'none of the rotation was done yet' : `${last.kind} was done on ${dateName(last.date)}`
  return [...facts, `Due next: ${kind} (${after}).`]
}

/** Heavy legs on the day before are left out where the line of the race has them. */
function beforeRaceTexts({ beforeRace, longAfterHeavyLegs, hardRunAfterHeavyLegs }: Week): string[] {
  const said = new Set([...longAfterHeavyLegs.map(({ date }) => date), ...hardRunAfterHeavyLegs])
  return beforeRace
    .filter(({ date, what, days }) => days > 1 || what === 'long run' || !said.has(dayAfter(date, 1)))
    .map((each) => `${dayName(each.date)}: ${beforeRaceText(each)}.`)
}

function runningText(running: Running, unit: 'km' | 'mi'): string {
  const hard = hardText(running, unit)
  return `${distanceText(running, unit) || formatMeters(0, unit)}${hard === '' ? '' : ` (${hard})`}`
}

/** `10 km and 60 min without a distance`, as long as that is not a small part; empty without running. */
function distanceText({ meters, unmeasuredSeconds }: Running, unit: 'km' | 'mi'): string {
  const minutes = isMeasured(meters, unmeasuredSeconds) ? 0 : Math.round(unmeasuredSeconds / 60)
  return [
    ...(meters > 0 ? [formatMeters(meters, unit)] : []),
    ...(minutes > 0 ? [`${minutes} min without a distance`] : []),
  ].join(' and ')
}

function dayName(date: string): string {
  return printDate(date, 'EEE d')
}

function dateName(date: string): string {
  return printDate(date, 'EEE d MMM')
}
