import { basename, parse } from 'node:path'
import { createInterface } from 'node:readline'
import { likeText, templateOf } from '../app/newDay.ts'
import { LogbookError } from '../logbook/errors.ts'
import { addPrescription, isNamedAfter, prescriptionName, readDayAt } from '../logbook/ownTexts.ts'
import type { Logbook } from '../logbook/store.ts'
import { errorAt, printDiagnostics } from '../prescription/lines.ts'
import { printPrescription } from '../prescription/print.ts'
import { readPrescription } from '../prescription/read.ts'
import type { ReadingDefaults } from '../prescription/reader.ts'
import { refusalOf } from '../ui/terminal/capabilities.ts'
import { sanitize } from '../validate/unsafe.ts'
import { CommandError, type CommandInput, type ExitCode, problemCount, show } from './command.ts'
import { type Context, contextOf, parsePrescription } from './context.ts'
import { edit, editorOf } from './editor.ts'
import { openOn } from './open.ts'

/** Writes a day into the logbook's prescriptions, from a template or like another day, and prints its path. On a
 * terminal it opens the editor: the built-in one of the app, or the user's, which it reopens as long as the day has
 * problems and the user presses Enter.
 * @throws CommandError for an invalid title, a model day that cannot be read, an editor that fails */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io, values, words } = input
  const context = contextOf(input)
  const { today, units } = context
  const text =
    values.like === undefined
      ? templateOf(words[0] ?? null, today, units)
      : likeText(modelText(context, values.like), words[0] ?? null, today, context)
  const { title, date } = dayIn(text, words[0] ?? '', context)
  const path = addPrescription(input.logbookDir, prescriptionName(title, date), text)
  show(input, { path, title, date }, `${path}\n`)
  if (input.json || !io.terminal.in || !io.terminal.out) return 0
  const editor = editorOf(io.env)
  if (editor !== null) return editUntilRead(path, editor, input, context)
  // The built-in one can only be drawn.
  const isDrawn = !context.settings.screenReader && refusalOf(io.terminal, io.env, false) === null
  if (isDrawn) return openOn({ edit: path }, input, context)
  io.err('The day is written. To edit it here, set VISUAL or EDITOR to the command of your editor.\n')
  return 0
}

/** The template and the model day can both be read, so any problem comes from the title. */
function dayIn(text: string, title: string, defaults: ReadingDefaults): { title: string; date: string } {
  const reading = readPrescription(text, defaults)
  if ('prescription' in reading && (title === '' || reading.prescription.title === title.trim()))
    return { title: reading.prescription.title, date: reading.prescription.date ?? '' }
  const message = `"${title}" cannot be the title of a day. Give one line that does not begin like a part or a header.`
  throw new CommandError('bad_title', message, { exit: 2 })
}

/** The text of the model day: of the logbook's prescription with this name, with or without its ending, else of the
 * newest one whose name without the date that `new` puts before it is this, else of the session that it names
 * (`newest`, an id or its beginning), else of the file at this path.
 * @throws CommandError for a file that cannot be read or has problems
 * @throws LogbookError for a beginning that several ids have, and for a session that cannot be read */
function modelText(context: Context, like: string): string {
  const { logbook } = context
  const days = logbook.prescriptions()
  const ready =
    days.find(({ name }) => [name, parse(name).name].includes(like)) ??
    days.findLast(({ name }) => isNamedAfter(name.replace(/^\d{4}-\d\d-\d\d-/, ''), like))
  if (ready !== undefined) return parsePrescription(context, ready.path).text
  return sessionText(like, logbook) ?? parsePrescription(context, like).text
}

function sessionText(which: string, logbook: Logbook): string | null {
  try {
    return printPrescription(logbook.read(which).session.prescription)
  } catch (error) {
    if (error instanceof LogbookError && error.code === 'no_such_session') return null
    throw error
  }
}

/** Opens the editor until the day can be read or the user gives up. */
async function editUntilRead(
  path: string,
  editor: string,
  { io }: CommandInput,
  defaults: ReadingDefaults,
): Promise<ExitCode> {
  for (;;) {
    await edit(editor, path, io.env)
    const reading = readDayAt(path, defaults)
    if ('prescription' in reading) {
      io.err('The day can be read. "pausebook check" lays it out, and "pausebook" offers it.\n')
      return 0
    }
    const problems = 'refused' in reading ? [errorAt(1, 1, reading.refused)] : reading.problems
    io.err(
      `${printDiagnostics(problems, sanitize(basename(path)))}\n\n` +
        `${problemCount(problems)}. Enter goes back to the editor, q and Enter leaves the day as it is. `,
    )
    if (!(await goesBack())) {
      io.err('pausebook: The day was left with problems. "pausebook check" shows them.\n')
      return 1
    }
  }
}

/** Waits for a typed line: whether it goes back to the editor. q, Ctrl-C and the end of input leave. */
async function goesBack(): Promise<boolean> {
  const typed = createInterface({ input: process.stdin, output: process.stderr })
  try {
    return await new Promise<boolean>((resolve) => {
      typed.once('line', (line) => resolve(!/^\s*q/i.test(line)))
      typed.once('close', () => resolve(false))
    })
  } finally {
    typed.close()
  }
}
