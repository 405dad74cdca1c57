import { planText } from '../app/dayText.ts'
import { warmUpFor } from '../app/equipment.ts'
import { printDiagnostics } from '../prescription/lines.ts'
import { usesPercent } from '../prescription/planned.ts'
import { lastLoadsOf, maximaOn } from '../progress/earlierLoads.ts'
import { dayFiguresOf } from '../summary/day.ts'
import { type CommandInput, type ExitCode, fileName, fitted, show } from './command.ts'
import { contextOf, parsePrescription } from './context.ts'

/** Reads a prescription and prints the day expanded; hints go to stderr.
 * @throws CommandError `bad_prescription` with every problem of the file */
export async function run(input: CommandInput): Promise<ExitCode> {
  const [path = ''] = input.words
  const context = contextOf(input)
  const { settings, today } = context
  const { prescription, warnings } = parsePrescription(context, path)
  if (warnings.length > 0) input.io.err(`${printDiagnostics(warnings, fileName(path))}\n`)
  const date = prescription.date ?? today
  // The logbook is opened only for a day that needs it.
  const maxima = usesPercent(prescription) ? maximaOn(context.entries, date) : []
  const lastLoads = lastLoadsOf(prescription, context, date)
  const figures = dayFiguresOf(prescription, warmUpFor(settings, maxima), maxima, lastLoads)
  show(input, figures, fitted(planText(prescription, settings, maxima, lastLoads, input.units), input.io))
  return 0
}
