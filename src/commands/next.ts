import { decisionsAsJson, nextIn } from '../app/nextDay.ts'
import type { Prescription } from '../prescription/model.ts'
import { printCommented } from '../prescription/print.ts'
import { commentsOn, type Decision, decisionText } from '../progress/decision.ts'
import { type DatedPain, painFact, painReason } from '../progress/pain.ts'
import { needsADoctor, placeKey } from '../session/pain.ts'
import { isLegLift } from '../summary/hard.ts'
import { counted } from '../units/decimal.ts'
import { inSentence } from '../units/lists.ts'
import { type CommandInput, type ExitCode, show } from './command.ts'
import { contextOf } from './context.ts'

const mostListed = 6

/** Prints what a session says about the next one like it: the decisions as comments, then the day as notation with the
 * reason above each line that changed. `again` is its former name.
 * @throws LogbookError for a session that does not exist or cannot be read */
export async function run(input: CommandInput): Promise<ExitCode> {
  const context = contextOf(input)
  const { logbook } = context
  // A day that is still under way says nothing about the next one yet.
  const newest = context.entries.find(({ finished }) => finished)?.id ?? 'newest'
  const { session, entry } = logbook.read(input.words[0] ?? newest)
  const { prescription, decisions, pains } = nextIn(context, { session, entry })
  const text = printCommented(
    prescription,
    [`After ${entry.date} (${entry.id}):`, ...listed(decisions, pains, prescription)],
    commentsOn(decisions),
  )
  show(input, { session: entry.id, decisions: decisionsAsJson(decisions), text }, text)
  return 0
}

/** The lines that change, then what a pain leaves unchanged, a line for each pain, then the others: at most six lines
 * unless more of them change, then the names of the rest and how a pain ends. */
function listed(
  decisions: readonly Decision[],
  pains: readonly DatedPain[],
  prescription: Prescription,
): string[] {
  const changed = commentsOn(decisions).map(({ text }) => text)
  const first = [
    ...changed,
    ...pains.flatMap((pain) => {
      if (decisions.some((each) => each.pain === pain))
        return painReason(pain, linesCoveredBy(pain, decisions, prescription))
      // A line that comes back after weeks names it already.
      return changed.some((line) => line.includes(painFact(pain))) ? [] : painFact(pain)
    }),
  ]
  const same = decisions.filter(({ decision, pain }) => decision === 'same' && pain === undefined)
  const room = Math.max(0, mostListed - first.length)
  const rest = same.slice(room)
  const lines = counted(rest.length, 'line')
  const ending = pains.find((pain) => !needsADoctor(pain))
  if (decisions.length === 0 && pains.length === 0) return ['every line stays as it is']
  return [
    ...first,
    ...same.slice(0, room).map(decisionText),
    ...(rest.length === 0 ? [] : [`and ${lines} unchanged: ${rest.map(({ name }) => name).join(', ')}`]),
    ...(ending ? [`A pain ends with 0: pausebook morning ${placeKey(ending)} 0`] : []),
  ]
}

/** `running and leg lifts`; where only some of them are covered, and for other lifts, their names. */
function linesCoveredBy(pain: DatedPain, decisions: readonly Decision[], { parts }: Prescription): string {
  const kindOf = ({ part, name }: Decision) =>
    parts[part]?.kind !== 'lift' ? 'running' : isLegLift(name) ? 'leg lifts' : 'other lifts'
  const words = (['running', 'leg lifts', 'other lifts'] as const).flatMap((kind) => {
    const all = decisions.filter((each) => kindOf(each) === kind)
    const covered = all.filter((each) => each.pain === pain)
    const areAll = covered.length > 0 && covered.length === all.length && kind !== 'other lifts'
    return areAll ? [kind] : [...new Set(covered.map(({ name }) => name))]
  })
  return inSentence(words, 'and')
}
