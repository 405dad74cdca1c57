import type { FuelStep, PieceStep, PrepStep, SetStep } from '../prescription/step.ts'
import type { Change, SessionState } from '../session/state.ts'
import { loadChange } from './loadChange.ts'
import type { Summary } from './model.ts'
import { itemName, workName } from './names.ts'
import type { DoneWork } from './performed.ts'

/* What was done otherwise than prescribed, each in one line: what was left out or done in part first, then
 * what was changed. What may still come is no change. */

type AskedStep = PrepStep | FuelStep | PieceStep | SetStep

/** The steps of one exercise of a line, of one piece of work, of one item. */
interface Row {
  name: string
  /** What its steps are called, in the plural. */
  noun: string
  steps: AskedStep[]
}

/** One line for each change, in the order in which the page is written. */
export function changesOf(state: SessionState): string[] {
  const rows = rowsOf(state)
  const shortfalls = rows.map((row) => shortfallOf(row, state))
  return [
    ...shortfalls.flatMap((shortfall) => (shortfall?.whole ? [shortfall.text] : [])),
    ...shortfalls.flatMap((shortfall) => (shortfall && !shortfall.whole ? [shortfall.text] : [])),
    ...rows.flatMap((row) => addedText(row, state)),
    ...changesMade(state),
    ...rows.flatMap((row) => loadChange(row.name, row.steps.filter(isSet), state)),
  ]
}

/** Whether the changes say already that nothing was done of a piece of work. */
export function isAmongChanges({ work, splits }: DoneWork, { changes }: Summary): boolean {
  const said = ['not done', 'cut', 'skipped'].map((word) => `${workName(work.text)}: ${word}`)
  return splits.length === 0 && said.some((text) => changes.includes(text))
}

function isSet(step: AskedStep): step is SetStep {
  return step.kind === 'set'
}

function rowsOf(state: SessionState): Row[] {
  const rows = new Map<string, Row>()
  for (const step of state.steps) {
    if (step.kind === 'recovery' || step.kind === 'ramp') continue
    const [key, name, noun] = labelled(step, state)
    const row = rows.get(key)
    if (row) row.steps.push(step)
    else rows.set(key, { name, noun, steps: [step] })
  }
  return [...rows.values()]
}

function labelled(step: AskedStep, state: SessionState): [key: string, name: string, noun: string] {
  const item = `${step.part}.${step.item}`
  switch (step.kind) {
    case 'prep':
      return [item, step.prep.name, 'times']
    case 'fuel':
      return [item, `fuel ${step.fuel.when}`, 'times']
    case 'set':
      return [`${item}.${step.exercise}`, step.insteadOf ?? step.name, 'sets']
    case 'piece': {
      const work = state.parts[step.part]?.items[step.item]?.works[step.work]
      return [`${item}.${step.work}`, workName(work?.text ?? ''), work?.repeats ? 'repeats' : 'splits']
    }
  }
}

function addedSteps(state: SessionState): Set<string> {
  return new Set(state.changes.flatMap((change) => (change.kind === 'added' ? [change.step] : [])))
}

/** What of a row is missing: skipped, cut or, once its part is closed, not done. */
function shortfallOf(row: Row, state: SessionState): { whole: boolean; text: string } | null {
  const added = addedSteps(state)
  const prescribed = row.steps.filter((step) => !added.has(step.id)).length
  const done = row.steps.filter((step) => state.recorded.has(step.id)).length
  const left = row.steps.filter((step) => !state.recorded.has(step.id))
  const skipped = left.filter((step) => state.skipped.has(step.id))
  const undone = left.filter((step) => !state.skipped.has(step.id))
  const isOver = undone.every((step) => isBehind(step, state))
  if (done >= prescribed || (skipped.length === 0 && !isOver)) return null
  if (undone.some((step) => step.kind === 'fuel')) return null
  if (!isOver) {
    const text = `${row.name}: ${skipped.length} of ${prescribed} ${row.noun} skipped`
    return { whole: false, text }
  }
  if (done > 0) return { whole: false, text: `${row.name}: ${done} of ${prescribed} ${row.noun}` }
  const word = undone.length > 0 ? 'not done' : isCut(skipped, state) ? 'cut' : 'skipped'
  return { whole: true, text: `${row.name}: ${word}` }
}

/** Nothing more will be recorded of it. */
function isBehind(step: AskedStep, state: SessionState): boolean {
  return state.finished || state.partStates[step.part]?.closed === true
}

function isCut(steps: readonly AskedStep[], state: SessionState): boolean {
  const cut = new Set(state.changes.flatMap((change) => (change.kind === 'cut' ? change.steps : [])))
  return steps.every((step) => cut.has(step.id))
}

function addedText(row: Row, state: SessionState): string[] {
  const added = addedSteps(state)
  const prescribed = row.steps.filter((step) => !added.has(step.id)).length
  const done = row.steps.filter((step) => state.recorded.has(step.id)).length
  return done > prescribed ? [`${row.name}: ${done} ${row.noun}, ${prescribed} prescribed`] : []
}

function changesMade(state: SessionState): string[] {
  const texts = state.changes.flatMap((change) => changeText(change, state))
  return [...new Set(texts)]
}

function changeText(change: Change, state: SessionState): string[] {
  switch (change.kind) {
    case 'added':
      return []
    case 'swapped': {
      const step = state.steps.find((each) => each.id === change.step)
      const from = step?.kind === 'set' && step.number > 1 ? ` from set ${step.number} on` : ''
      return [`${change.from}: ${change.to} instead${from}`]
    }
    case 'moved':
      return [`${itemName(state, change.part, change.item)}: moved`]
    case 'cut':
      return [`cut to the ${change.minutes} min that were left`]
  }
}
