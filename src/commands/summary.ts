import { min } from 'd3-array'
import { summaryContextOn } from '../app/known.ts'
import { decisionsAsJson, nextIn } from '../app/nextDay.ts'
import { isHardReady } from '../app/readyDays.ts'
import type { IndexEntry } from '../logbook/model.ts'
import { exerciseKey } from '../prescription/exercise.ts'
import { runCostOf } from '../progress/lift.ts'
import type { Moment } from '../session/clock.ts'
import { replay } from '../session/replay.ts'
import type { SummaryContext } from '../summary/model.ts'
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
  const { logbook, today } = known
  const { session, entry } = logbook.read(input.words[0] ?? 'newest')
  const format = input.json ? 'json' : (input.values.format ?? 'text')
  // For an earlier day, use what was done then.
  const isAsked = flags.has('full') && entry.date === today
  const context: SummaryContext = {
    ...summaryContextOn(entry.date, known),
    isHardLater: isAsked && isHardReady(known),
    next: () => decisionsAsJson(nextIn(known, { session, entry })),
    secondsToNextHard: () => secondsToNextHard(known.entries, entry.id, replay(session).finishedAt),
    ...(format === 'json' ? { runCost: costWith(known.entries, entry.date) } : {}),
  }
  const options = { full: flags.has('full'), units }
  const text =
    format === 'json'
      ? jsonOf(summarise(session, context))
      : format === 'markdown'
        ? summaryMarkdown(session, context, options)
        : summaryText(session, context, options)
  io.out(format === 'text' ? fitted(text, io) : text)
  if (flags.has('copy')) copy(text, io)
  return 0
}

/** From the end of a session to the start of the first hard one after it; null without one. */
function secondsToNextHard(entries: readonly IndexEntry[], id: string, end: Moment | null): number | null {
  if (end === null) return null
  const hard = entries.filter(
    (entry) => entry.id !== id && entry.day.isHard && (entry.started ?? 0) >= end.wall,
  )
  const next = min(hard, ({ started }) => started)
  return next === undefined ? null : (next - end.wall) / 1000
}

function costWith(entries: readonly IndexEntry[], date: string): SummaryContext['runCost'] {
  return (name) => {
    const cost = runCostOf(entries, exerciseKey(name), date)
    if (cost === null) return null
    const { percent, lowPercent, highPercent, days } = cost
    return { percent, lowPercent, highPercent, days }
  }
}

/** Writes to whichever stream is the terminal, so that a redirected summary contains nothing else. */
function copy(text: string, io: CommandInput['io']): void {
  if (io.terminal.err || io.terminal.out) io.steer(clipboardSequence(text))
  else io.err('pausebook: There is no terminal to copy to. Run it in a terminal, without redirection.\n')
}
