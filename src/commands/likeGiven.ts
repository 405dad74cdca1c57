import { LogbookError } from '../logbook/errors.ts'
import type { Logbook } from '../logbook/model.ts'
import type { Settings } from '../logbook/settings.ts'
import { printPrescription } from '../prescription/print.ts'
import { printableOf } from './io.ts'
import { CommandError, type CommandInput } from './port.ts'
import { prescriptionGiven } from './prescriptionGiven.ts'

/** The text of the day that a new one is to be like: of a prescription that lies ready, of a file, or of a session.
 * @param given the name of a prescription in the logbook, with or without its ending, a path, or what names a
 * session: `newest`, an id or its beginning. A name alone is a prescription before it is the beginning of an id,
 * and a session before it is a file; a file lies nearer than a prescription named with its ending.
 * @throws CommandError for a file that cannot be read or has problems, and where there is none of them
 * @throws LogbookError for a beginning that several ids have, and for a session that cannot be read */
export function likeGiven(
  input: CommandInput,
  given: string,
  logbook: Logbook,
  settings: Settings,
  maxima: readonly { name: string; kg: number }[],
): string {
  const isPath = /[./\\]|^-$/.test(given)
  const ready = readyPath(given, logbook)
  const read = (path: string) => prescriptionText(input, path, settings, maxima)
  if (!isPath) {
    if (ready !== null && given !== 'newest') return read(ready)
    const ofSession = sessionText(given, logbook)
    if (ofSession !== null) return ofSession
  }
  try {
    return read(given)
  } catch (error) {
    if (!(error instanceof CommandError) || error.code !== 'cannot_read') throw error
    if (ready !== null) return read(ready)
    if (isPath) throw error
    const message = `There is no prescription, no session and no file "${printableOf(given)}". Give the name or the path of a prescription, or an id of "pausebook history".`
    throw new CommandError('no_such_day', message)
  }
}

/** The prescription of the logbook that has this name, with its ending or without; null where none has. */
function readyPath(name: string, logbook: Logbook): string | null {
  const ready = logbook.prescriptions()
  const found =
    ready.find((each) => each.name === name) ??
    ready.find((each) => each.name.replace(/\.(txt|json)$/, '') === name)
  return found?.path ?? null
}

/** Read once: standard input cannot be read again. */
function prescriptionText(
  input: CommandInput,
  path: string,
  settings: Settings,
  maxima: readonly { name: string; kg: number }[],
): string {
  const bytes = input.io.readBytes(path, 'prescription')
  const again = { io: { ...input.io, readBytes: () => bytes }, units: input.units }
  prescriptionGiven(again, path, settings, () => maxima)
  return new TextDecoder().decode(bytes)
}

function sessionText(which: string, logbook: Logbook): string | null {
  try {
    return printPrescription(logbook.read(which).session.prescription)
  } catch (error) {
    if (error instanceof LogbookError && error.code === 'no_such_session') return null
    throw error
  }
}
