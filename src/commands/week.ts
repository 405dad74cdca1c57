import { readFileSync } from 'node:fs'
import { addDays, formatISO, getISOWeek, getISOWeekYear, parseISO, startOfISOWeek } from 'date-fns'
import { equipmentWith } from '../app/recorderContext.ts'
import { contextOn } from '../logbook/basis.ts'
import { LogbookError } from '../logbook/errors.ts'
import { localTimeOf } from '../logbook/machine.ts'
import { maximaOn } from '../logbook/maximaOn.ts'
import type { DigestEntry, Logbook } from '../logbook/model.ts'
import type { Settings } from '../logbook/settings.ts'
import { openLogbook } from '../logbook/store.ts'
import type { Prescription } from '../prescription/model.ts'
import type { ReadingDefaults } from '../prescription/openDay.ts'
import { readPrescription } from '../prescription/read.ts'
import { warmUpWith } from '../prescription/warmUp.ts'
import { runLiftGaps } from '../progress/gaps.ts'
import { type DoneDay, dueOf } from '../progress/rotation.ts'
import { type CalendarDay, weekOf } from '../progress/week.ts'
import { doneDay, plannedDay } from '../progress/weekDay.ts'
import { replay } from '../session/replay.ts'
import { jsonOf } from '../summary/json.ts'
import { summaryOf } from '../summary/summarise.ts'
import { dateGiven } from './datesGiven.ts'
import type { CommandInput, ExitCode } from './port.ts'
import { digestOf } from './progressLine.ts'
import { settingsAsSet } from './settingsAsSet.ts'
import { weekText } from './weekText.ts'

/** The days done in a week and the days that lie ready for it, on one page.
 * @throws CommandError for a date that is none */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io } = input
  const today = localTimeOf(io.now()).slice(0, 10)
  const monday = startOfISOWeek(
    parseISO(dateGiven(input.words[0], '1970', 'Write any day of the week as in 2026-11-26.') ?? today),
  )
  const settings = settingsAsSet(input)
  const logbook = openLogbook(input.logbookDir)
  const entries = digestOf(io, logbook)
  const maxima = maximaOn(entries, today)
  const ready = readyDays(logbook, { units: settings.units, maxima })
  const rampOf = warmUpWith(equipmentWith(settings), maxima)
  const planned = ({ file, prescription }: ReadyDay) => ({
    file,
    ...plannedDay(prescription, rampOf, maxima),
  })
  const calendarDay = (offset: number): CalendarDay => {
    const date = formatISO(addDays(monday, offset), { representation: 'date' })
    const done = entries.filter((entry) => entry.date === date).reverse()
    const isDone = (title: string) => done.some((entry) => entry.day.summary.session.title === title)
    return {
      date,
      done: done.flatMap((entry) => doneOf(logbook, entry, settings)),
      ready: ready.days
        .filter(({ prescription }) => prescription.date === date && !isDone(prescription.title))
        .map(planned),
      gaps: runLiftGaps(done.map((entry) => entry.day.summary)),
    }
  }
  const week = weekOf(
    {
      week: `${getISOWeekYear(monday)}-W${String(getISOWeek(monday)).padStart(2, '0')}`,
      days: [0, 1, 2, 3, 4, 5, 6].map(calendarDay),
      undated: ready.days.filter(({ prescription }) => prescription.date === null).map(planned),
      unreadable: ready.unreadable,
      due: dueOf(settings.rotation, historyOf(entries)),
    },
    calendarDay(-1),
  )
  for (const { file, wrong, done } of logbook.damages) io.err(`pausebook: ${file}: ${wrong} ${done}\n`)
  const unit = input.units.distance ?? settings.units.distance
  io.out(input.json ? jsonOf(week) : weekText(week, unit, Math.min(io.columns, 110)))
  return 0
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

/** Null for what has problems, or cannot be read at all. */
function dayAt(path: string, defaults: ReadingDefaults): Prescription | null {
  try {
    const reading = readPrescription(readFileSync(path), defaults)
    return 'prescription' in reading ? reading.prescription : null
  } catch {
    return null
  }
}

/** Nothing for a session that cannot be read any more: the logbook tells it. */
function doneOf(logbook: Logbook, entry: DigestEntry, settings: Settings): CalendarDay['done'] {
  try {
    const state = replay(logbook.read(entry.id).session)
    const summary = summaryOf(state, entry.id, contextOn(settings, entry.date))
    return [{ id: entry.id, finished: entry.finished, ...doneDay(state, summary) }]
  } catch (error) {
    if (error instanceof LogbookError) return []
    throw error
  }
}

function* historyOf(entries: readonly DigestEntry[]): Generator<DoneDay> {
  for (const { date, day } of entries) {
    const { session, parts } = day.summary
    yield { date, title: session.title, parts }
  }
}
