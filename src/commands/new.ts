import { basename, parse } from 'node:path'
import { createInterface } from 'node:readline'
import { LogbookError } from '../logbook/errors.ts'
import { addPrescription, prescriptionName, readDayAt } from '../logbook/ownTexts.ts'
import type { Logbook } from '../logbook/store.ts'
import { errorAt, printDiagnostics } from '../prescription/lines.ts'
import type { Prescription } from '../prescription/model.ts'
import { printPrescription } from '../prescription/print.ts'
import { readPrescription } from '../prescription/read.ts'
import type { ReadingDefaults } from '../prescription/reader.ts'
import { sanitize } from '../validate/unsafe.ts'
import { CommandError, type CommandInput, type ExitCode, problemCount, show } from './command.ts'
import { type Context, contextOf, parsePrescription } from './context.ts'
import { edit, editorOf } from './editor.ts'

export const usualTitle = 'New day'

/** Writes a day into the logbook's prescriptions, from a template or like another day, and prints its path. On a
 * terminal it opens the editor, and reopens it as long as the day has problems and the user presses Enter.
 * @throws CommandError for an invalid title, a model day that cannot be read, an editor that fails */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io, values, words } = input
  const context = contextOf(input)
  const { today, units } = context
  const editor = io.terminal.in && io.terminal.out && !input.json ? editorOf(io.env) : null
  const text =
    values.like === undefined
      ? templateOf(words[0] ?? usualTitle, today, units)
      : likeText(modelText(context, values.like), words[0] ?? null, today, context)
  const { title, date } = dayIn(text, words[0] ?? '', context)
  const path = addPrescription(input.logbookDir, prescriptionName(title, date), text)
  show(input, { path, title, date }, `${path}\n`)
  return editor === null ? 0 : editUntilRead(path, editor, input, context)
}

/** The template and the model day can both be read, so any problem comes from the title. */
function dayIn(text: string, title: string, defaults: ReadingDefaults): { title: string; date: string } {
  const reading = readPrescription(text, defaults)
  if ('prescription' in reading && (title === '' || reading.prescription.title === title.trim()))
    return { title: reading.prescription.title, date: reading.prescription.date ?? '' }
  const message = `"${title}" cannot be the title of a day. Give one line that does not begin like a part or a header.`
  throw new CommandError('bad_title', message, { exit: 2 })
}

/** A short day to begin with, whose comments explain the notation.
 * @param title its first line; @param date YYYY-MM-DD */
export function templateOf(title: string, date: string, units: Prescription['units']): string {
  const [run, pace, load, bar] = [
    units.distance === 'km' ? '2 km' : '1 mile',
    units.distance === 'km' ? '3:50-4:00/km' : '6:10-6:25/mi',
    units.mass === 'kg' ? '60 kg' : '135 lb',
    units.mass === 'kg' ? '20 kg' : '45 lb',
  ]
  return `${title}
date: ${date}
units: ${units.distance} ${units.mass}

# One thing to do on each line. Text after # is a comment.
# A day has any of the parts prep, run, cross, lift and fuel, in any order.

run
  ${run} easy
  4 x 400 m @ ${pace}, jog 200 m

lift: legs
  front squat: 3 x 5 @ ${load}, rest 2:30, build from ${bar}
  # in cluster sets: front squat: 5 x (1+1+1) @ ${load}, pause 20 s, rest 2:30
`
}

/** Turns another day's text into this day: replaces the title and the date and keeps the comments. If it cannot find
 * those lines, it prints the whole day again.
 * @param text of a day without problems; @param title null keeps the old one */
export function likeText(
  text: string,
  title: string | null,
  date: string,
  defaults: ReadingDefaults,
): string {
  const read = readPrescription(text, defaults)
  if (!('prescription' in read)) throw new TypeError('an unreadable day cannot be a model')
  const meant: Prescription = { ...read.prescription, title: title ?? read.prescription.title, date }
  const changed = withHeaders(text, title, date)
  const again = readPrescription(changed, defaults)
  const whole = printPrescription(meant)
  return 'prescription' in again && printPrescription(again.prescription) === whole ? changed : whole
}

/** Keeps line ends and comments; the date goes below the title. */
function withHeaders(text: string, title: string | null, date: string): string {
  const lineEnd = /\r?\n/.exec(text)?.[0] ?? '\n'
  const lines = text.replace(/^\uFEFF/, '').split(/\r?\n/)
  const first = lines.findIndex((line) => line.trim() !== '' && !line.trimStart().startsWith('#'))
  const below = lines.slice(first + 1).filter((line) => !/^\s*date\s*:/i.test(line))
  return [...lines.slice(0, first), title ?? lines[first], `date: ${date}`, ...below].join(lineEnd)
}

/** The text of the model day: of the logbook's prescription with this name (with or without its ending), else of the
 * session that it names (`newest`, an id or its beginning), else of the file at this path.
 * @throws CommandError for a file that cannot be read or has problems
 * @throws LogbookError for a beginning that several ids have, and for a session that cannot be read */
function modelText(context: Context, like: string): string {
  const { logbook } = context
  const ready = logbook.prescriptions().find(({ name }) => [name, parse(name).name].includes(like))
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
