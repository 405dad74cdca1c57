import { type Diagnostic, mostDiagnostics } from '../../prescription/diagnostic.ts'
import { type ExpandedPart, isEntry, isSameItem, type Step } from '../../prescription/step.ts'
import { printNumber } from '../../units/decimal.ts'
import { printTime } from '../../units/duration.ts'
import { printEntry } from '../entry/print.ts'
import { differencesOf } from '../entry/several.ts'
import { type Prompt, promptOf } from '../prompt.ts'
import type { Recorded, SessionState } from '../state.ts'
import { diagnosticAt, type PaperAnswer, type PlacedEntry, takenFrom } from './lines.ts'

/* Compares the entries of a results file with the prompts of the recorder. */

/** The answers, in order; as many as there are entries, unless there are problems.
 * @param start the state before the first of them */
export function answersOf(
  entries: readonly PlacedEntry[],
  start: SessionState,
): { answers: PaperAnswer[]; problems: Diagnostic[] } {
  const steps = start.steps.filter(isEntry)
  const recorded = new Map<string, Recorded>()
  const answers: PaperAnswer[] = []
  const problems: Diagnostic[] = []
  for (const [index, entry] of entries.entries()) {
    const step = steps[index]
    if (step === undefined) {
      problems.push(diagnosticAt(entry.place, `${tooMany(steps.length)}${asNote(entry.text)}`))
      break
    }
    const prompt = promptOf(itemOf(start, step, recorded), step.id) as Prompt
    const taken = takenFrom(entry, prompt)
    if (typeof taken === 'string') {
      problems.push(diagnosticAt(entry.place, `${taken} (expected here: ${expectedText(step, start.parts)})`))
      if (problems.length > mostDiagnostics) break
      continue
    }
    answers.push({ step, prompt, answer: taken, entry })
    if (taken.kind !== 'skipped') recorded.set(step.id, { ...taken, at: null } as Recorded)
  }
  return { answers, problems: [...problems, ...paperTotals(answers)] }
}

/** The prompt depends on the item alone; a state with only that item is quick to search. */
function itemOf(start: SessionState, { part, item }: Step, recorded: Map<string, Recorded>): SessionState {
  return { ...start, steps: start.parts[part]?.items[item]?.steps ?? [], recorded }
}

/** How a pain of the day is written, where a line is one. */
function asNote(text: string): string {
  const place = /^pain\b:?\s*(.+)$/i.exec(text)?.[1]
  return place === undefined ? '' : `; a pain of the whole day is a note: note: pain ${place}`
}

function tooMany(count: number): string {
  if (count === 0) return 'nothing is expected here: the prescription asks for no results'
  if (count === 1) return 'nothing is expected here: the one result that the prescription asks for is above'
  return `nothing is expected here: all ${count} results that the prescription asks for are above`
}

/** `set 3 of 5 of front squat, line 20 of the prescription` */
function expectedText(step: Step, parts: readonly ExpandedPart[]): string {
  const at = `line ${parts[step.part]?.items[step.item]?.line ?? 0} of the prescription`
  if (step.kind === 'prep') return `${step.prep.name}, ${at}`
  if (step.kind === 'set') return `set ${step.number} of ${step.of} of ${step.name}, ${at}`
  if (step.kind !== 'interval') return at
  const what =
    step.meters === null
      ? printTime(step.seconds ?? 0)
      : `${printNumber(Math.round(step.meters * 100) / 100)} m`
  const place = step.of === 1 ? '' : `${step.split ? 'split' : 'repeat'} ${step.number} of ${step.of}, `
  return `${place}${what}, ${at}`
}

/** Times of one work that rise from line to line like those of a stopwatch that was never reset; a problem
 * unless one of the lines insists. */
function paperTotals(answers: readonly PaperAnswer[]): Diagnostic[] {
  return worksOf(answers).flatMap((work) => {
    const first = work[0]
    if (first === undefined || work.some(({ entry }) => entry.insists)) return []
    const prompts = work.map((each) => each.prompt)
    const differences = differencesOf(
      work.map(({ answer }) => answer),
      prompts,
    )
    if (differences === null) return []
    const last = work.at(-1) ?? first
    const typed = differences.map((answer, index) => {
      const what = prompts[index]
      return what === undefined ? '' : printEntry(answer, what)
    })
    const lines = `lines ${first.entry.place.line} to ${last.entry.place.line}`
    const message = `running totals? The times of ${lines} come from ${typed.join(', ')}: write these, or, where they are right, end one of the lines with !!`
    return [diagnosticAt(first.entry.place, message)]
  })
}

/** Consecutive answers of the same work. */
function worksOf(answers: readonly PaperAnswer[]): PaperAnswer[][] {
  const works: PaperAnswer[][] = []
  for (const answer of answers) {
    const before = works.at(-1)
    const last = before?.at(-1)
    if (before !== undefined && last !== undefined && isSameWork(last, answer)) before.push(answer)
    else works.push([answer])
  }
  return works
}

function isSameWork({ step: one }: PaperAnswer, { step: other }: PaperAnswer): boolean {
  if (one.kind !== 'interval' || other.kind !== 'interval') return false
  return isSameItem(one, other) && one.work === other.work
}
