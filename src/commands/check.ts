import { basename } from 'node:path'
import { equipmentWith } from '../app/recorderContext.ts'
import { planOf } from '../prescription/plan.ts'
import { type KnownMaxima, usesPercent } from '../prescription/plannedLoad.ts'
import { printProblems } from '../prescription/problem.ts'
import { warmUpWith } from '../prescription/warmUp.ts'
import { jsonOf } from '../summary/json.ts'
import { checkText } from './checkText.ts'
import { printableOf } from './io.ts'
import type { CommandInput, ExitCode } from './port.ts'
import { prescriptionGiven } from './prescriptionGiven.ts'
import { settingsAsSet } from './settingsAsSet.ts'

/** Reads a prescription and prints the day laid out; hints in it go to stderr.
 * @throws CommandError `bad_prescription` with every problem of the file */
export async function run(input: CommandInput): Promise<ExitCode> {
  const [path = ''] = input.words
  const settings = settingsAsSet(input)
  const { prescription, warnings } = prescriptionGiven(input, path, settings)
  if (warnings.length > 0) input.io.err(`${printProblems(warnings, printableOf(basename(path)))}\n`)
  const date = prescription.date ?? dateOf(input.io.now())
  const maxima = usesPercent(prescription) ? await maximaKnownOn(input, date) : []
  const equipmentOf = equipmentWith(settings)
  const rampOf = warmUpWith(equipmentOf, maxima)
  const plan = planOf(prescription, rampOf, maxima)
  input.io.out(input.json ? jsonOf(plan) : checkText(plan, { prescription, rampOf, maxima, equipmentOf }))
  return 0
}

/** The logbook is opened only for a day that asks for it. */
async function maximaKnownOn({ io, logbookDir }: CommandInput, date: string): Promise<KnownMaxima> {
  const [{ openLogbook }, { maximaOn }, { digestOf }] = await Promise.all([
    import('../logbook/store.ts'),
    import('../logbook/maximaOn.ts'),
    import('./progressLine.ts'),
  ])
  return maximaOn(digestOf(io, openLogbook(logbookDir)), date)
}

/** The local date of an instant. */
function dateOf(now: Date): string {
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()]
    .map((part) => String(part).padStart(2, '0'))
    .join('-')
}
