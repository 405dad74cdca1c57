import { parseISO } from 'date-fns'
import { knownBefore } from '../app/known.ts'
import { LogbookError, writingAdvice } from '../logbook/errors.ts'
import { localTimeOf } from '../logbook/machine.ts'
import { foodsIn } from '../logbook/ownTexts.ts'
import { printDiagnostics } from '../prescription/lines.ts'
import { maximaOn } from '../progress/earlierLoads.ts'
import { typedIn } from '../session/newEvents.ts'
import { type PaperReading, readPaper } from '../session/paper/paper.ts'
import { sanitize } from '../validate/unsafe.ts'
import {
  CommandError,
  type CommandInput,
  commandLineError,
  type ExitCode,
  fileName,
  parseDate,
  problemsError,
  show,
} from './command.ts'
import { contextOf, parsePrescription } from './context.ts'

/** Stores a session recorded on paper, whole or not at all, and prints its id.
 * @throws CommandError for files that cannot be read, a missing or invalid date
 * @throws LogbookError `cannot_write` */
export async function run(input: CommandInput): Promise<ExitCode> {
  const [prescriptionPath = '', resultsPath = ''] = input.words
  if (prescriptionPath === '-' && resultsPath === '-')
    throw commandLineError(
      'Both files are standard input, which can only be read once. Give the path of one of them.',
    )
  const date = parseDate(input.values.date, '1970', 'Example: --date 2026-11-26.')
  const context = contextOf(input)
  const { logbook, today } = context
  const { prescription } = parsePrescription(context, prescriptionPath)
  const foods = foodsIn(input.logbookDir, (problems) =>
    input.io.err(`${printDiagnostics(problems, 'foods.txt')}\n`),
  )
  const reading = readPaper(input.io.readText(resultsPath, 'results file'), prescription, {
    date,
    foods,
    known: (day) => knownBefore(prescription, context, day, maximaOn(context.entries, day)),
    instantOf: (day, time) => localTimeOf(parseISO(`${day}T${time}`)),
  })
  const { start, events } = sessionIn(reading, resultsPath)
  if (date !== null && date !== start.date) {
    input.io.err(`pausebook: The files are dated ${start.date}; --date ${date} was ignored.\n`)
  }
  const { title } = prescription
  const duplicate = context.entries.find(({ date, brief }) => date === start.date && brief.title === title)
  const file = logbook.create(prescription, start, [...events, typedIn(localTimeOf(input.io.now()))])
  const saved = file.state
  if (!saved.ok) {
    file.discard()
    const message = `The session cannot be saved in ${sanitize(input.logbookDir)}: ${saved.reason}. Nothing was stored. ${writingAdvice}`
    throw new LogbookError('cannot_write', message)
  }
  file.close()
  if (start.date > today) input.io.err(`pausebook: ${start.date} is in the future. Check the date.\n`)
  if (duplicate !== undefined) {
    input.io.err(
      `pausebook: The logbook has another session with this title and date, ${duplicate.id}. Both are kept.\n`,
    )
  }
  const { id } = file
  show(input, { id, title, date: start.date }, `${id}\n`)
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
        `The results file "${fileName(path)}" has no entries. Write one entry a line, = for as prescribed and - for skipped.`,
      )
  }
}
