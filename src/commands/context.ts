import { remembered, warmUpFor } from '../app/earlierDays.ts'
import { todayOf } from '../logbook/machine.ts'
import type { IndexEntry, Logbook } from '../logbook/model.ts'
import { readSettings } from '../logbook/settings.ts'
import { openLogbook } from '../logbook/store.ts'
import type { Diagnostic } from '../prescription/lines.ts'
import type { Prescription } from '../prescription/model.ts'
import { readPrescription } from '../prescription/read.ts'
import { maximaOn } from '../progress/earlierLoads.ts'
import { CommandError, type CommandInput, type Io, problemsError } from './command.ts'
import { withProgress } from './progressLine.ts'

export type Context = ReturnType<typeof contextOf>

/** What most commands need besides their words, each read when it is first asked for, and only once. */
export function contextOf({ io, logbookDir, damages, units }: CommandInput) {
  const today = todayOf(io.now())
  const settings = remembered(() => {
    const { settings, damage } = readSettings(logbookDir)
    if (damage === null || damages.length > 0) return settings
    damages.push(damage)
    reportDamages(io, { damages })
    return settings
  })
  const logbook = remembered(() => openLogbook(logbookDir))
  const entries = remembered(() =>
    withProgress(io, 'reading session', (show) => logbook().index(show, settings())),
  )
  const maxima = remembered(() => maximaOn(entries(), today))
  return {
    io,
    /** The local date. */
    today,
    /** Damage in their file is reported on stderr and does not stop the command, which then ends with 3. */
    get settings() {
      return settings()
    },
    get logbook() {
      return logbook()
    },
    /** Every session with its figures, newest first, with a progress line if many must be read again. */
    get entries() {
      return entries()
    },
    /** One-repetition maxima of earlier days. */
    get maxima() {
      return maxima()
    },
    /** The warm-up sets of a day with those maxima. */
    get warmUpOf() {
      return warmUpFor(settings(), maxima())
    },
    /** The units of `--units`, as far as given, else those of the settings. */
    get units(): Prescription['units'] {
      const { distance, mass } = settings().units
      return { distance: units.distance ?? distance, mass: units.mass ?? mass }
    },
    /** The units of figures over many sessions; `convert` says that they were asked for, so that sets in other units
     * are converted. */
    get historyUnits() {
      return { ...this.units, convert: units.distance !== null || units.mass !== null }
    },
  }
}

/** Reports on stderr what is damaged or was left out.
 * @returns the exit status: 3 for any damage, else 0 */
export function reportDamages(
  io: Pick<Io, 'err'>,
  { damages }: Pick<Logbook, 'damages'>,
  concerns: (file: string) => boolean = () => true,
): 0 | 3 {
  const told = damages.filter(({ file }) => concerns(file))
  for (const { file, wrong, done } of told) io.err(`pausebook: ${file}: ${wrong} ${done}\n`)
  return told.length > 0 ? 3 : 0
}

/** Every session of the logbook, newest first, and the exit status: 3 if one is damaged or was left out, which is
 * reported on stderr and does not stop the command.
 * @throws CommandError `no_sessions` for an empty logbook */
export function sessionsDone({ io, entries, logbook }: Context): { sessions: IndexEntry[]; status: 0 | 3 } {
  const status = reportDamages(io, logbook)
  if (entries.length > 0) return { sessions: entries, status }
  const message =
    status === 3
      ? 'No session in this logbook can be read. "pausebook verify" says what can be done.'
      : 'There is no session in this logbook yet. Record one with "pausebook".'
  throw new CommandError('no_sessions', message, { exit: status === 3 ? 3 : 1 })
}

const percentSign = 0x25

/** Reads the prescription in a file, with its warnings and the text of the file.
 * @param path of the file, or `-` for standard input
 * @throws CommandError `bad_prescription` with every problem of the file */
export function parsePrescription(
  context: Context,
  path: string,
): { prescription: Prescription; warnings: Diagnostic[]; text: string } {
  const bytes = context.io.readBytes(path, 'prescription')
  const reading = readPrescription(bytes, {
    maxima: bytes.includes(percentSign) ? context.maxima : [],
    units: context.units,
  })
  if ('prescription' in reading) return { ...reading, text: new TextDecoder().decode(bytes) }
  throw problemsError('bad_prescription', 'prescription', path, reading.problems, 'Correct the file.')
}
