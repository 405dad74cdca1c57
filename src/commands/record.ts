import { maximaOn } from '../logbook/earlierLoads.ts'
import { todayOf } from '../logbook/machine.ts'
import { openLogbook } from '../logbook/store.ts'
import type { CommandInput, ExitCode } from './command.ts'
import { loadSettings } from './loadSettings.ts'
import { openOn } from './open.ts'
import { parsePrescription } from './prescriptionRead.ts'
import { indexOf } from './sessionsRead.ts'

/** Opens the recorder on a prescription.
 * @throws CommandError `bad_prescription` with every problem of the file */
export async function run(input: CommandInput): Promise<ExitCode> {
  const [path = ''] = input.words
  const today = todayOf(input.io.now())
  const maximaKnown = () => maximaOn(indexOf(input.io, openLogbook(input.logbookDir)), today)
  const { prescription } = parsePrescription(input, path, loadSettings(input), maximaKnown)
  return openOn(input, prescription)
}
