import { doneDays } from '../app/choices.ts'
import { warmUpFor } from '../app/earlierDays.ts'
import { sourceLine } from '../figures/figure.ts'
import { maximaOn } from '../logbook/earlierLoads.ts'
import { LogbookError } from '../logbook/errors.ts'
import { contextOn } from '../logbook/index.ts'
import { todayOf } from '../logbook/machine.ts'
import type { IndexEntry, Logbook } from '../logbook/model.ts'
import { readMornings } from '../logbook/mornings.ts'
import { planIn } from '../logbook/ownTexts.ts'
import type { Settings } from '../logbook/settings.ts'
import { openLogbook } from '../logbook/store.ts'
import { beforeRaceText, type Plan, wordsOn } from '../plan/model.ts'
import type { Prescription } from '../prescription/model.ts'
import type { ReadingDefaults } from '../prescription/reader.ts'
import { painProgress, painsNoted, painsText } from '../progress/pain.ts'
import {
  type CalendarDay,
  doneDay,
  dueOf,
  hasHeavyLegs,
  plannedDay,
  type Running,
  runLiftGaps,
  type Week,
  type WeekDay,
  weekOf,
} from '../progress/week.ts'
import { isMeasured, isoWeekOf } from '../progress/weeks.ts'
import { replay } from '../session/replay.ts'
import { jsonOf } from '../summary/json.ts'
import { summaryOf } from '../summary/summarise.ts'
import { screenLines } from '../ui/widgets/wrapped.ts'
import { dayAfter, daysBetween, printDate } from '../units/calendarDate.ts'
import { counted, inWords } from '../units/decimal.ts'
import { formatMeters, metersOf } from '../units/length.ts'
import { sanitize } from '../validate/unsafe.ts'
import { CommandError, type CommandInput, type ExitCode } from './command.ts'
import { loadSettings, unitsOf } from './loadSettings.ts'
import { dayAt, meantWith } from './planWords.ts'
import { indexOf, parseDate, reportDamages } from './sessionsRead.ts'

/** The last Sunday of the calendar. */
const lastDay = '9999-12-26'

/** Prints a week on one page: the days done and the days planned.
 * @throws CommandError for an invalid date */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io } = input
  const today = todayOf(io.now())
  const advice = 'Write any day of the week, as in 2026-11-26.'
  const day = parseDate(input.words[0], '1970', advice) ?? today
  if (day > lastDay)
    throw new CommandError('bad_date', `The week of ${day} ends after the year 9999. ${advice}`, { exit: 2 })
  const { week: name, monday } = isoWeekOf(day)
  const settings = loadSettings(input)
  const logbook = openLogbook(input.logbookDir)
  const entries = indexOf(io, logbook)
  const maxima = maximaOn(entries, today)
  const ready = readyDays(logbook, { units: settings.units, maxima })
  const warmUpOf = warmUpFor(settings, maxima)
  const planned = ({ file, prescription }: ReadyDay) => ({
    file,
    ...plannedDay(prescription, warmUpOf, maxima),
  })
  const plan = planIn(input.logbookDir)
  const calendarDay = (offset: number): CalendarDay => {
    const date = dayAfter(monday, offset)
    const done = entries.filter((entry) => entry.date === date).reverse()
    const isDone = (title: string) => done.some((entry) => entry.brief.title === title)
    return {
      date,
      done: done.flatMap((entry) => doneOf(logbook, entry, settings)),
      ready: ready.days
        .filter(({ prescription }) => prescription.date === date && !isDone(prescription.title))
        .map(planned),
      gaps: runLiftGaps(done.flatMap((entry) => entry.summary() ?? [])),
    }
  }
  const days = [0, 1, 2, 3, 4, 5, 6].map(calendarDay)
  // What has no date is not for a week that is over.
  const isOver = dayAfter(monday, 6) < today
  const wordsMean = meantWith(logbook, settings, maxima)
  const ahead = (of: Plan) =>
    days
      .filter(({ date, done, ready }) => date >= today && done.length === 0 && ready.length === 0)
      .map(({ date }) => ({ date, ...wordsMean(wordsOn(of, date)) }))
  const week = weekOf(
    {
      week: name,
      days,
      undated: isOver ? [] : ready.days.filter(({ prescription }) => prescription.date === null).map(planned),
      unreadable: isOver ? [] : ready.unreadable,
      pain: painProgress(painsNoted(entries, readMornings(input.logbookDir).typed), {
        from: monday,
        to: dayAfter(monday, 6),
      }).places,
      due: dueOf(settings.rotation, doneDays(entries)),
    },
    [calendarDay(-2), calendarDay(-1)],
    plan?.race ? { on: plan.race.date, ahead: ahead(plan) } : null,
  )
  const status = reportDamages(io, logbook)
  const unit = unitsOf(input, settings).distance
  const meant = plannedIn(plan, logbook, week)
  io.out(
    input.json ? jsonOf({ ...week, planned: meant }) : weekText(week, unit, Math.min(io.columns, 110), meant),
  )
  return status
}

/** The plan's entry for a week. */
interface PlannedWeek {
  /** Metres of the week and of its long run; null if the plan does not say. */
  meters: number | null
  longMeters: number | null
  kind: 'easy' | 'taper' | 'race week' | null
  notes: string[]
  /** The words of each day, and the prescription files named after them. */
  days: { date: string; words: string[]; files: string[] }[]
}

/** Null without a plan, or with one that does not mention this week. */
function plannedIn(plan: Plan | null, logbook: Logbook, { days }: Week): PlannedWeek | null {
  if (plan === null) return null
  const files = logbook.prescriptions().map(({ name }) => name)
  const named = days.map(({ date }) => {
    const words = wordsOn(plan, date)
    const isNamed = (file: string) =>
      words.some((word) => file.replace(/\.\w+$/, '').toLowerCase() === word.toLowerCase())
    return { date, words, files: files.filter(isNamed) }
  })
  const line = plan.weeks.find(({ monday }) => monday === days[0]?.date)
  if (line === undefined && named.every(({ words }) => words.length === 0)) return null
  return {
    meters: line?.distance ? metersOf(line.distance) : null,
    longMeters: line?.long ? metersOf(line.long) : null,
    kind: line?.kind ?? null,
    notes: line?.notes ?? [],
    days: named,
  }
}

interface ReadyDay {
  file: string
  prescription: Prescription
}

function readyDays(logbook: Logbook, defaults: ReadingDefaults): { days: ReadyDay[]; unreadable: string[] } {
  const days: ReadyDay[] = []
  const unreadable: string[] = []
  for (const { name, path } of logbook.prescriptions()) {
    const prescription = dayAt(path, defaults)
    if (prescription === null) unreadable.push(name)
    else days.push({ file: name, prescription })
  }
  return { days, unreadable }
}

/** Whether a hard day is prepared for a date and no session with its title was done on it. */
export function isHardReady(
  logbook: Logbook,
  settings: Settings,
  entries: readonly IndexEntry[],
  date: string,
): boolean {
  const maxima = maximaOn(entries, date)
  const warmUpOf = warmUpFor(settings, maxima)
  return readyDays(logbook, { units: settings.units, maxima }).days.some(
    ({ prescription }) =>
      prescription.date === date &&
      !entries.some((entry) => entry.date === date && entry.brief.title === prescription.title) &&
      plannedDay(prescription, warmUpOf, maxima).isHard,
  )
}

/** Empty for a session that can no longer be read; the logbook reports it. */
export function doneOf(logbook: Logbook, entry: IndexEntry, settings: Settings): CalendarDay['done'] {
  try {
    const state = replay(logbook.read(entry.id).session)
    const summary = summaryOf(state, entry.id, contextOn(settings, entry.date))
    return [{ id: entry.id, finished: entry.finished, ...doneDay(state, summary, settings.hrMax) }]
  } catch (error) {
    if (error instanceof LogbookError) return []
    throw error
  }
}

const indent = ' '.repeat(15)

/** A week as text.
 * @param width of the terminal, in characters */
export function weekText(week: Week, unit: 'km' | 'mi', width: number, planned: PlannedWeek | null): string {
  const [first, last] = [week.days[0]?.date ?? '', week.days.at(-1)?.date ?? '']
  const head = `${printDate(first, "'Week' I 'of' RRRR: EEE d MMM")} to ${printDate(last, 'EEE d MMM yyyy')}`
  const rows = [
    ...week.days.flatMap((day) => [
      ...dayRows(day, unit),
      ...plannedRows(planned?.days.find(({ date }) => date === day.date)),
    ]),
    ...week.undated.flatMap((day) => entryRows('no date', 'ready', day, unit)),
    ...week.unreadable.map(
      (file) => `${'no date'.padEnd(8)}${sanitize(file)} has problems: "pausebook check" shows them`,
    ),
  ]
  const facts = [...plannedFacts(planned, unit), ...factsOf(week, unit)].flatMap((fact) =>
    screenLines(fact, Math.max(40, width)),
  )
  return `${[head, '', ...rows, '', ...facts].join('\n')}\n`
}

function plannedRows(day: PlannedWeek['days'][number] | undefined): string[] {
  if (day === undefined || day.words.length === 0) return []
  const files = day.files.length === 0 ? '' : ` (${day.files.join(', ')})`
  return [`${''.padEnd(8)}plan   ${sanitize(`${day.words.join(' + ')}${files}`)}`]
}

function plannedFacts(planned: PlannedWeek | null, unit: 'km' | 'mi'): string[] {
  if (planned === null) return []
  const { meters, longMeters, kind, notes } = planned
  const bits = [
    ...(meters === null ? [] : [formatMeters(meters, unit)]),
    ...(longMeters === null ? [] : [`long ${formatMeters(longMeters, unit)}`]),
    ...(kind === null ? [] : [kind]),
    ...notes.map((note) => sanitize(note)),
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
