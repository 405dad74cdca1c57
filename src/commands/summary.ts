import { summaryContextOf } from '../app/lookBack.ts'
import type { IndexEntry } from '../logbook/model.ts'
import { exerciseKey } from '../prescription/exercise.ts'
import { runCostOf } from '../progress/lift.ts'
import type { Summary, SummaryContext } from '../summary/model.ts'
import { jsonOf } from '../summary/plain.ts'
import { summarise } from '../summary/summarise.ts'
import { summaryMarkdown, summaryText } from '../summary/text.ts'
import { clipboardSequence } from '../ui/terminal/capabilities.ts'
import { type CommandInput, type ExitCode, fitted } from './command.ts'
import { contextOf } from './context.ts'

/** Prints the summary of one session, by default the newest; with --copy also puts it on the terminal's clipboard.
 * @throws LogbookError for a session that is unknown or cannot be read */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io, flags, units } = input
  const known = contextOf(input)
  const view = known.logbook.read(input.words[0] ?? 'newest')
  const { session } = view
  const format = input.json ? 'json' : (input.values.format ?? 'text')
  const full = flags.has('full')
  const context = summaryContextOf(view, known, full)
  const options = { full, units }
  const text =
    format === 'json'
      ? jsonOf(withOtherSessions(summarise(session, context), context, known.entries))
      : format === 'markdown'
        ? summaryMarkdown(session, context, options)
        : summaryText(session, context, options)
  io.out(format === 'text' ? fitted(text, io) : text)
  return !flags.has('copy') || copy(text, io) ? 0 : 1
}

/** A summary with what only the other sessions tell. */
function withOtherSessions(
  summary: Summary,
  { next }: SummaryContext,
  entries: readonly IndexEntry[],
): Summary {
  const { session, lifting } = summary
  const exercises = lifting.exercises.map((exercise) => {
    const cost = runCostOf(entries, exerciseKey(exercise.name), session.date)
    if (cost === null) return exercise
    const { percent, lowPercent, highPercent, days } = cost
    return { ...exercise, runCost: { percent, lowPercent, highPercent, days } }
  })
  return { ...summary, lifting: { ...lifting, exercises }, next }
}

/** Writes to whichever stream is the terminal, so that a redirected summary contains nothing else.
 * @returns whether there is one */
function copy(text: string, { terminal, steer, err }: CommandInput['io']): boolean {
  const canCopy = terminal.err || terminal.out
  if (canCopy) steer(clipboardSequence(text))
  else err('pausebook: There is no terminal to copy to. Run it in a terminal, without redirection.\n')
  return canCopy
}
