import { sum } from 'd3-array'
import type { PartKind } from '../prescription/model.ts'
import { partName } from '../prescription/print.ts'
import { isSameItem, type ResultStep, type Step } from '../prescription/step.ts'
import { printEntry } from '../session/entry/entry.ts'
import { placeOf, stepTitle } from '../session/names.ts'
import { promptOf } from '../session/prompt.ts'
import {
  type PartState,
  pendingSteps,
  type SessionState,
  stepAhead,
  stepNow,
  stepsAhead,
} from '../session/state.ts'
import { joined, neighbours } from '../units/lists.ts'
import { partToClose } from './targets.ts'

/** The label of the field, a set with its exercise: "front squat, set 3 of 5"; short "set 3 of 5" while that exercise
 * is shown above, else "front squat". Where another line has the same exercise, the number of the line comes before
 * the set, as in the head: "front squat, lift 2, set 1 of 1". The short label of a split or repeat has no distance,
 * because a "3.11 mi" cut off would read as metres. */
export function entryTitle(state: SessionState, step: Step): { label: string; short?: string } {
  if (step.kind !== 'set') {
    const label = stepTitle(state, step)
    return step.kind === 'interval' && step.of > 1 ? { label, short: placeOf(step) } : { label }
  }
  const isOnOtherLine = state.steps.some(
    (each) => each.kind === 'set' && each.name === step.name && !isSameItem(each, step),
  )
  const set = placeOf(step)
  const line = lineTitle(state, step).label
  if (isOnOtherLine)
    return { label: `${step.name}, ${line}, ${set}`, short: `${line}, set ${step.number}/${step.of}` }
  const shown = stepNow(state)
  const isShown = shown?.kind === 'set' && shown.name === step.name
  return { label: `${step.name}, ${set}`, short: isShown ? set : step.name }
}

/** Which line of all parts of its kind an item is, `lift 4`, and how many there are. */
export function lineTitle({ parts }: SessionState, { part, item }: Step): { label: string; of: number } {
  const kind = parts[part]?.kind ?? ''
  const countIn = (some: typeof parts) => sum(some, (each) => (each.kind === kind ? each.items.length : 0))
  return { label: `${kind} ${countIn(parts.slice(0, part)) + item + 1}`, of: countIn(parts) }
}

/** A recorded result: `1+1+1 x 92.5 @8`, `1:49.2`; `done` without figures, `-` if skipped; null if nothing is
 * recorded. */
export function resultText(state: SessionState, step: ResultStep): string | null {
  return typedText(state, step).replace(/^=/, 'done') || null
}

/** A recorded result as it would be typed, for editing; empty if nothing is recorded. */
export function typedText(state: SessionState, step: ResultStep): string {
  if (state.skipped.has(step.id)) return '-'
  const recorded = state.recorded.get(step.id)
  return recorded ? printEntry(recorded, promptOf(state, step)) : ''
}

/** The results of an item in a row, equal ones merged: `1+1+1 x 92.5 @8, 3 times; 1+1+1 x 92.5 @9`. */
export function resultsText(state: SessionState, steps: readonly ResultStep[]): string {
  const texts = steps.map((step) => resultText(state, step)).filter((text) => text !== null)
  const rows = neighbours(texts, (text, before) => text === before)
  const isRepeated = rows.some(({ length }) => length > 1)
  return rows.map((row) => repeatedText(row[0], row.length)).join(isRepeated ? '; ' : ', ')
}

function repeatedText(text: string, times: number): string {
  if (text === '-') return times > 1 ? `${times} skipped` : 'skipped'
  return times === 1 ? text : `${text}, ${times === 2 ? 'twice' : `${times} times`}`
}

/** The figures given when a part was closed: `effort 7, 62 min`; empty without any. */
export function closingText({ effort, minutes }: Pick<PartState, 'effort' | 'minutes'>): string {
  return joined(', ', [
    effort !== null && `effort ${effort}`,
    minutes !== null && `${Math.round(minutes)} min`,
  ])
}

/** The name of the part, else its kind; with its number where another part is called the same: `lift part 2`. */
export function partTitle({ parts }: SessionState, part: number): string {
  const number = numberOf(parts, part)
  return `${partName(parts[part]!)}${number === null ? '' : ` part ${number}`}`
}

/** What a part of a kind is called in a sentence. */
export function partWord(kind: PartKind): string {
  return kind === 'cross' ? 'cross-training' : kind
}

/** As `partTitle`, in the middle of a sentence: `the run`, `the lift (legs)`, `the lift, part 2`. */
export function partInWords({ parts }: SessionState, part: number): string {
  const { kind, name } = parts[part]!
  const number = numberOf(parts, part)
  return `the ${partWord(kind)}${name === null ? '' : ` (${name})`}${number === null ? '' : `, part ${number}`}`
}

/** The number of a part among those that are called the same, from 1; null if there is only one. */
function numberOf(parts: SessionState['parts'], part: number): number | null {
  const names = parts.map(partName)
  const isSame = (name: string) => name === names[part]
  return names.filter(isSame).length === 1 ? null : names.slice(0, part + 1).filter(isSame).length
}

/** `f closes run: track` */
export function closesText(state: SessionState): string {
  const part = partToClose(state)
  return part === null ? 'every part is closed' : `f closes ${partTitle(state, part)}`
}

/** Why Space has nothing to begin or to end; null if it has. */
export function whyNoAdvance(state: SessionState): string | null {
  if (state.finished) return 'the session is closed'
  // Space starts stopped clocks again, whatever is left.
  if (state.stopped || state.phase.kind !== 'ready') return null
  const next = stepAhead(state)
  if (!next)
    return pendingSteps(state).length === 0
      ? `everything is done: ${closesText(state)}`
      : `nothing is left to begin: type the result, then ${closesText(state)}`
  return stepsAhead(state).every((step) => step.kind === 'fuel') ? 'Enter records a meal, s skips it' : null
}
