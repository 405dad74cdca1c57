import { mostProblems, type Problem } from '../prescription/problem.ts'
import type { LaidOutPart, Step } from '../prescription/step.ts'
import { printNumber } from '../units/decimal.ts'
import type { Answer, Asked } from './asked.ts'
import { askedOf } from './asking.ts'
import { readEntry } from './entry.ts'
import { problemAt, unlessInsisted } from './paperLines.ts'
import type { PaperAnswer, PaperEntry, PlacedEntry } from './paperModel.ts'
import { paperTotals } from './paperTotals.ts'
import { isAsked, type Recorded, type WalkState } from './state.ts'

/* The entries of a results file, held against what the recorder would have asked for. */

/** The answers, in order; as many as there are entries, unless there are problems.
 * @param start the state before the first of them */
export function answersOf(
  entries: readonly PlacedEntry[],
  start: WalkState,
): { answers: PaperAnswer[]; problems: Problem[] } {
  const steps = start.steps.filter((step) => isAsked(step) && step.kind !== 'fuel')
  const recorded = new Map<string, Recorded>()
  const answers: PaperAnswer[] = []
  const problems: Problem[] = []
  let item: WalkState | null = null
  for (const [index, entry] of entries.entries()) {
    const step = steps[index]
    if (step === undefined) {
      problems.push(problemAt(entry.place, tooMany(steps.length)))
      break
    }
    if (item === null || !isIn(item, step)) item = itemOf(start, step, recorded)
    const asked = askedOf(item, step.id) as Asked
    const taken = takenFrom(entry, asked)
    if (typeof taken === 'string') {
      problems.push(problemAt(entry.place, `${taken} (expected here: ${expectedText(step, start.parts)})`))
      if (problems.length > mostProblems) break
      continue
    }
    answers.push({ step, asked, answer: taken, entry })
    if (taken.kind !== 'skipped') recorded.set(step.id, { ...taken, at: null } as Recorded)
  }
  return { answers, problems: [...problems, ...paperTotals(answers)] }
}

/** What is asked for depends on the item alone; a state of nothing else is looked through quickly. */
function itemOf(start: WalkState, { part, item }: Step, recorded: Map<string, Recorded>): WalkState {
  return { ...start, steps: start.parts[part]?.items[item]?.steps ?? [], recorded }
}

function isIn({ steps: [first] }: WalkState, step: Step): boolean {
  return first?.part === step.part && first.item === step.item
}

/** The answer of an entry, or why there is none. */
function takenFrom(entry: PaperEntry, asked: Asked): Answer | string {
  const reading = readEntry(entry.text, asked)
  if (reading.outcome === 'answer') return reading.answer
  if (reading.outcome === 'error' || reading.insisted === null) return reading.message
  return entry.insists ? reading.insisted : unlessInsisted(reading.message)
}

function tooMany(count: number): string {
  if (count === 0) return 'nothing is expected here: the prescription asks for no results'
  if (count === 1)
    return 'nothing is expected here: the one result that the prescription asks for stands above'
  return `nothing is expected here: all ${count} results that the prescription asks for stand above`
}

/** `set 3 of 5 of front squat, line 20 of the prescription` */
function expectedText(step: Step, parts: readonly LaidOutPart[]): string {
  const at = `line ${parts[step.part]?.items[step.item]?.line ?? 0} of the prescription`
  if (step.kind === 'prep') return `${step.prep.name}, ${at}`
  if (step.kind === 'set') return `set ${step.number} of ${step.of} of ${step.name}, ${at}`
  if (step.kind !== 'piece') return at
  const what =
    step.meters === null
      ? `${printNumber(step.seconds ?? 0)} s`
      : `${printNumber(Math.round(step.meters * 100) / 100)} m`
  const place = step.of === 1 ? '' : `${step.split ? 'split' : 'repeat'} ${step.number} of ${step.of}, `
  return `${place}${what}, ${at}`
}
