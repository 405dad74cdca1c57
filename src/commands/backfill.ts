import { parseISO } from 'date-fns'
import { bodyMassKgOn } from '../app/earlierDays.ts'
import { foodsIn } from '../app/ownTexts.ts'
import { lastLoadsOf, maximaOn } from '../logbook/earlierLoads.ts'
import { localTimeOf, todayOf } from '../logbook/machine.ts'
import type { Logbook } from '../logbook/model.ts'
import { openLogbook } from '../logbook/store.ts'
import { printDiagnostics } from '../prescription/diagnostic.ts'
import { withMealsSummed } from '../session/entry/fuel.ts'
import { type PaperReading, readPaper } from '../session/paper/paper.ts'
import { jsonOf } from '../summary/json.ts'
import { CommandError, type CommandInput, commandLineError, type ExitCode } from './command.ts'
import { loadSettings } from './loadSettings.ts'
import { parsePrescription, problemsError } from './prescriptionRead.ts'
import { indexOf, parseDate } from './sessionsRead.ts'

/** Stores a session recorded on paper, whole or not at all, and prints its id.
 * @throws CommandError for files that cannot be read, a missing or invalid date, a logbook that cannot be written */
export async function run(input: CommandInput): Promise<ExitCode> {
  const [prescriptionPath = '', resultsPath = ''] = input.words
  if (prescriptionPath === '-' && resultsPath === '-')
    throw commandLineError(
      'Both files are standard input, which can only be read once. Give the path of one of them.',
    )
  const date = parseDate(input.values.date, '1970', 'Example: --date 2026-11-26.')
  const settings = loadSettings(input)
  const logbook = openLogbook(input.logbookDir)
  const maximaKnown = (day: string) => maximaOn(indexOf(input.io, logbook), day)
  const today = todayOf(input.io.now())
  const { prescription } = parsePrescription(input, prescriptionPath, settings, () => maximaKnown(today))
  const lastLoadsIn = (day: string) => {
    const lastLoads = lastLoadsOf(prescription, () => indexOf(input.io, logbook), day)
    return lastLoads.length === 0 ? {} : { lastLoads }
  }
  const foods = foodsIn(input.logbookDir, (problems) =>
    input.io.err(`${printDiagnostics(problems, 'foods.txt')}\n`),
  )
  const results = withMealsSummed(input.io.readText(resultsPath, 'results file'), foods)
  const reading = readPaper(results, prescription, {
    date,
    known: (day) => ({
      bodyMassKg: bodyMassKgOn(day, prescription, settings),
      maxima: maximaKnown(day),
      ...lastLoadsIn(day),
    }),
    instantOf: (day, time) => localTimeOf(parseISO(`${day}T${time}`)),
  })
  const { start, events } = sessionIn(reading, resultsPath)
  if (date !== null && date !== start.date) {
    input.io.err(`pausebook: The files are dated ${start.date}; --date ${date} was ignored.\n`)
  }
  const duplicate = sameDay(logbook, start.date, prescription.title)
  const file = logbook.create(prescription, start, events)
  const saved = file.state
  if (!saved.ok) {
    file.discard()
    throw new CommandError(
      'cannot_write',
      `The session cannot be saved: ${saved.reason}. Nothing was stored.`,
      { exit: 3 },
    )
  }
  file.close()
  if (start.date > today) input.io.err(`pausebook: ${start.date} is in the future; check the date.\n`)
  if (duplicate !== null) {
    input.io.err(
      `pausebook: the logbook has another session of this title and day, ${duplicate}; both are kept\n`,
    )
  }
  const { id } = file
  const { title } = prescription
  input.io.out(input.json ? jsonOf({ id, title, date: start.date }) : `${id}\n`)
  return 0
}

function sessionIn(reading: PaperReading, path: string): Extract<PaperReading, { outcome: 'session' }> {
  switch (reading.outcome) {
    case 'session':
      return reading
    case 'problems':
      throw problemsError(
        'bad_results',
        'results file',
        path,
        reading.problems,
        'Nothing was stored; correct the file.',
      )
    case 'noDate':
      throw new CommandError(
        'no_date',
        'Neither the results nor the prescription have a date. Give it with --date, as in --date 2026-11-26.',
      )
    case 'nothing':
      throw new CommandError(
        'no_results',
        `The results file "${path}" says nothing. Write one entry a line, = for as prescribed and - for skipped.`,
      )
  }
}

/** The id of a session with the same date and title; null without one, or if it cannot be read. */
function sameDay(logbook: Logbook, date: string, title: string): string | null {
  for (const entry of logbook.list()) {
    if (entry.date !== date) continue
    try {
      if (logbook.read(entry.id).session.prescription.title === title) return entry.id
    } catch {
      // `verify` names a damaged session; here it does not matter.
    }
  }
  return null
}
