import { LogbookError } from '../logbook/errors.ts'
import type { Logbook } from '../logbook/model.ts'
import type { Settings } from '../logbook/settings.ts'
import { printPrescription } from '../prescription/print.ts'
import { printableOf } from './io.ts'
import { CommandError, type CommandInput } from './port.ts'
import { prescriptionGiven } from './prescriptionGiven.ts'

/** The text of the day that a new one is to be like: of a file, or of a session.
 * @param given a path, or what names a session: `newest`, an id or its beginning
 * @throws CommandError for a file that cannot be read or has problems, and where there is neither
 * @throws LogbookError for a beginning that several ids have, and for a session that cannot be read */
export function likeGiven(
  input: CommandInput,
  given: string,
  logbook: Logbook,
  settings: Settings,
  maxima: readonly { name: string; kg: number }[],
): string {
  const isPath = /[./\\]|^-$/.test(given)
  const ofSession = isPath ? null : sessionText(given, logbook)
  if (ofSession !== null) return ofSession
  let bytes: Uint8Array
  try {
    bytes = input.io.readBytes(given, 'prescription')
  } catch (error) {
    if (isPath || !(error instanceof CommandError) || error.code !== 'cannot_read') throw error
    const message = `There is no session and no file "${printableOf(given)}". Give the path of a prescription, or an id of "pausebook history".`
    throw new CommandError('no_such_day', message)
  }
  const again = { io: { ...input.io, readBytes: () => bytes }, units: input.units }
  prescriptionGiven(again, given, settings, () => maxima)
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
