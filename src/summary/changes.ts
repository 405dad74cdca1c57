import { roundedPercentLoad } from '../figures/volume.ts'
import type { Load } from '../prescription/model.ts'
import { printLoad } from '../prescription/print.ts'
import {
  asksNothing,
  type IntervalStep,
  type RecoveryStep,
  type SetStep,
  type Step,
  type WarmUpStep,
} from '../prescription/step.ts'
import { kilogramsOfLoad, loadText, maximumOf } from '../session/load.ts'
import { itemName, workName } from '../session/names.ts'
import type { IntervalResult, LiftedLoad } from '../session/result.ts'
import { type Change, resultOf, type SessionState } from '../session/state.ts'
import { formatClock } from '../units/duration.ts'
import { formatLength } from '../units/length.ts'
import { kilogramsOf } from '../units/mass.ts'
import { beatsOver } from './hard.ts'
import type { DoneWork } from './performed.ts'

/* Deviations from the prescription, one line each: first what was left out or done in part, then
 * what was changed. A step that can still be done does not count as changed. */

type AskedStep = Exclude<Step, RecoveryStep | WarmUpStep>

/** The steps of one exercise of a line, of one work, or of one item. */
interface Row {
  name: string
  /** What its steps are called, in the plural. */
  noun: string
  steps: AskedStep[]
}

/** One line for each change, in the order of the file. */
export function changesOf(state: SessionState): string[] {
  const rows = rowsOf(state)
  const missing = rows.flatMap(({ name, noun, steps }) => {
    const shortfall = shortfallOf(steps, noun, state)
    return shortfall === null ? [] : [{ ...shortfall, text: `${name}: ${shortfall.text}` }]
  })
  return [
    ...missing.filter(({ whole }) => whole).map(({ text }) => text),
    ...missing.filter(({ whole }) => !whole).map(({ text }) => text),
    ...rows.flatMap((row) => [...cutShort(row, state), ...overTheHeartRate(row, state)]),
    ...rows.flatMap((row) => addedText(row, state)),
    ...changesMade(state),
    ...rows.flatMap((row) => loadChange(row.name, row.steps.filter(isSet), state)),
  ]
}

/** Whether the changes already say that nothing of a work was done. */
export function isAmongChanges({ steps }: DoneWork, state: SessionState): boolean {
  return shortfallOf(steps, 'repeats', state)?.whole === true
}

function isSet(step: AskedStep): step is SetStep {
  return step.kind === 'set'
}

function rowsOf(state: SessionState): Row[] {
  const rows = new Map<string, Row>()
  for (const step of state.steps) {
    if (asksNothing(step)) continue
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
    case 'interval': {
      const work = state.parts[step.part]?.items[step.item]?.works[step.work]
      return [`${item}.${step.work}`, workName(work?.text ?? ''), work?.repeats ? 'repeats' : 'splits']
    }
  }
}

/** The steps that the prescription does not have. */
export function addedSteps(state: SessionState): Set<string> {
  return new Set(state.changes.flatMap((change) => (change.kind === 'added' ? [change.step] : [])))
}

/** What is missing of these steps: skipped, cut or, once their part is closed, not done. `whole`: nothing was done. */
function shortfallOf(
  steps: readonly AskedStep[],
  noun: string,
  state: SessionState,
): { whole: boolean; text: string } | null {
  const added = addedSteps(state)
  const prescribed = steps.filter((step) => !added.has(step.id)).length
  const left = steps.filter((step) => !state.recorded.has(step.id))
  const done = steps.length - left.length
  const skipped = left.filter((step) => state.skipped.has(step.id))
  const undone = left.filter((step) => !state.skipped.has(step.id))
  const areOver = undone.every((step) => isOver(step, state))
  if (done >= prescribed || (skipped.length === 0 && !areOver)) return null
  if (undone.some((step) => step.kind === 'fuel')) return null
  if (!areOver) return { whole: false, text: `${skipped.length} of ${prescribed} ${noun} skipped` }
  if (done > 0) return { whole: false, text: `${done} of ${prescribed} ${noun}` }
  return { whole: true, text: undone.length > 0 ? 'not done' : isCut(skipped, state) ? 'cut' : 'skipped' }
}

/** An interval of less than this share of its length was cut short: this program's own rule. */
const whole = 0.9

/** `10 min easy: 5:00 of 10:00`, `6 x 1 km: 600 m of 1 km in repeat 5`. */
function cutShort(row: Row, state: SessionState): string[] {
  return intervalsOf(row, state).flatMap(({ step, result: { meters, seconds } }) => {
    const where = step.of > 1 ? ` in ${row.noun.replace(/s$/, '')} ${step.number}` : ''
    const lengthText = (each: number) => formatLength(each, state.prescription.units.distance)
    if (step.meters !== null && meters !== null && meters < whole * step.meters)
      return [`${row.name}: ${lengthText(meters)} of ${lengthText(step.meters)}${where}`]
    if (step.seconds !== null && seconds !== null && seconds < whole * step.seconds)
      return [`${row.name}: ${formatClock(seconds)} of ${formatClock(step.seconds)}${where}`]
    return []
  })
}

/** `3 km easy: hr 168, 23 over`, of several the highest. */
function overTheHeartRate(row: Row, state: SessionState): string[] {
  const [worst] = intervalsOf(row, state)
    .map(({ step, result }) => ({ heartRate: result.heartRate, by: beatsOver(step, result) }))
    .sort((one, other) => other.by - one.by)
  return worst === undefined || worst.by === 0 ? [] : [`${row.name}: hr ${worst.heartRate}, ${worst.by} over`]
}

function intervalsOf({ steps }: Row, state: SessionState): { step: IntervalStep; result: IntervalResult }[] {
  return steps.flatMap((step) => {
    const result = step.kind === 'interval' ? resultOf(state, step) : null
    return step.kind === 'interval' && result ? [{ step, result }] : []
  })
}

/** No more results can be recorded for it. */
function isOver(step: AskedStep, state: SessionState): boolean {
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

const noise = 1e-6

/** Loads other than prescribed, in one line; empty if the prescription fixes no load. A load within a
 * prescribed range counts as prescribed. */
function loadChange(name: string, steps: readonly SetStep[], state: SessionState): string[] {
  const done = steps.flatMap((step) => {
    const load = resultOf(state, step)?.load ?? null
    return load === null ? [] : [{ step, load, otherThan: otherThan(step, load, state) }]
  })
  const runs: { first: number; last: number; load: string; prescribed: string }[] = []
  for (const { step, load, otherThan: prescribed } of done) {
    if (prescribed === null) continue
    const before = runs.at(-1)
    const text = loadText(load)
    if (before && before.last === step.number - 1 && before.load === text && before.prescribed === prescribed)
      before.last = step.number
    else runs.push({ first: step.number, last: step.number, load: text, prescribed })
  }
  if (runs.length === 0) return []
  const isWhole = runs.length === 1 && done.every((set) => set.otherThan !== null)
  const texts = runs.map(({ first, last, load, prescribed }) => {
    const sets = isWhole ? '' : first === last ? `set ${first} at ` : `sets ${first}-${last} at `
    return `${sets}${load} instead of ${prescribed}`
  })
  return [`${name}: ${texts.join(', ')}`]
}

/** What was prescribed, if the load differs; null if it is as prescribed, or nothing was fixed. */
function otherThan(step: SetStep, load: LiftedLoad, state: SessionState): string | null {
  if (step.load === null || step.insteadOf !== null) return null
  const lifted = kilogramsOfLoad(load) ?? 0
  const { kind } = step.load
  if (kind === 'bodyweight') {
    const kg = kilogramsOf({ value: step.load.added, unit: step.load.unit })
    const isSame = load.kind === 'bodyweight' && Math.abs(lifted - kg) < noise
    return isSame ? null : printLoad(step.load)
  }
  const range = rangeKg(step.load, step.name, state)
  if (range === null) return null
  const isWithin = load.kind === 'mass' && lifted > range.from - noise && lifted < range.to + noise
  return isWithin ? null : range.text
}

/** The prescribed load in kilograms, both of a pair; null for a percentage of an unknown maximum. */
function rangeKg(
  load: Load,
  name: string,
  state: SessionState,
): { from: number; to: number; text: string } | null {
  if (load.kind === 'mass') {
    const kg = (value: number) => kilogramsOf({ value, unit: load.unit }) * (load.pair ? 2 : 1)
    return { from: kg(load.from), to: kg(load.to), text: printLoad(load) }
  }
  const maximum = load.kind === 'percent' ? maximumOf(state, name) : null
  if (load.kind !== 'percent' || maximum === null) return null
  const { mass: unit } = state.prescription.units
  const at = (percent: number) => roundedPercentLoad(maximum.kg, percent, unit)
  const span = { kind: 'mass' as const, from: at(load.from), to: at(load.to), unit, pair: false }
  const kg = (value: number) => kilogramsOf({ value, unit })
  return {
    from: kg(span.from),
    to: kg(span.to),
    text: `${printLoad(span)} (${printLoad(load)})`,
  }
}
