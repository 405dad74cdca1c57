import { greatest, groups } from 'd3-array'
import { noise } from '../figures/figure.ts'
import type { Dose } from '../prescription/model.ts'
import { plannedMass } from '../prescription/planned.ts'
import { printLoad } from '../prescription/print.ts'
import { type ExpandedPart, hasResult, type ResultStep, type SetStep } from '../prescription/step.ts'
import { kilogramsOfLoad, loadText } from '../session/load.ts'
import type { LiftedLoad } from '../session/model.ts'
import { itemName, stepName, workOf } from '../session/names.ts'
import { type Change, resultOf, type SessionState } from '../session/state.ts'
import { roundTo } from '../units/decimal.ts'
import { formatClock, printTime } from '../units/duration.ts'
import { formatAsWritten, printInUnitOf } from '../units/length.ts'
import { beatsOver, harderThanMeant, isOverItsHeartRate } from './hard.ts'
import {
  amountOf,
  type Done,
  type DoneExercise,
  doseDone,
  isMeantToTheLimit,
  stepsDone,
} from './performed.ts'

/* Deviations from the prescription, one line each: first what was left out or partly done, then what was changed. A
 * step that can still be done is not a deviation. */

/** The steps of one exercise of a line, of one work, or of one item. */
interface Row {
  name: string
  /** What its steps are called, in the plural. */
  noun: string
  steps: ResultStep[]
}

/** One line for each change, in the order of the file; `fallenShort` has those of single sets.
 * @param hrMax beats a minute; null if unknown */
export function changesOf(state: SessionState, hrMax: number | null): string[] {
  const rows = rowsOf(state)
  const counts = rows.flatMap((row) => countOf(row, state) ?? [])
  const counted = (which: Count['done']) =>
    counts.filter(({ done }) => done === which).map(({ text }) => text)
  return [
    ...counted('nothing'),
    ...counted('less'),
    ...rows.flatMap((row) => {
      const intervals = stepsDone(state, 'interval', row.steps)
      return [...cutShort(row, intervals, state), ...overTheWritten(row, intervals, state)]
    }),
    ...state.parts.flatMap((part, at) => harderText(part, at, state, hrMax)),
    ...counted('more'),
    ...new Set(state.changes.flatMap((change) => changeText(change, state))),
    ...rows.flatMap((row) => loadChange(row, state)),
  ]
}

/** A set that was not done as prescribed. */
export interface ShortSet {
  /** The id of its step. */
  step: string
  text: string
}

/** Sets that failed, or had fewer repetitions, seconds or metres than prescribed: `pull-up set 4 (5, failed)`,
 * `dip set 4 (7 of 8)`, `deadlift set 2 (5 of 6)` for a cluster, `plank set 3 (40 s: cut short)` with its note. */
export function fallenShort(exercises: readonly DoneExercise[], state: SessionState): ShortSet[] {
  const short = exercises.flatMap((exercise) => shortSets(exercise, state))
  // Each drop and each lift of a complex is a set of its own, but is shown only once.
  return short.filter(({ step }, at) => short.findIndex((each) => each.step === step) === at)
}

function shortSets({ name, sets }: DoneExercise, state: SessionState): ShortSet[] {
  return sets.flatMap(({ step, result, number }) => {
    const { dose } = step
    const whole = resultOf(state, step) ?? result
    const amount = amountOf(dose, whole)
    const isShort = amount !== null && doseDone(dose, whole) === 'missed'
    if (!isShort && (!result.failed || isMeantToTheLimit(step, result))) return []
    const done = amount?.done ?? whole.reps ?? 0
    const doneText = dose.kind === 'roundsIn' ? (whole.groups ?? []).join('+') : amountText(dose, done)
    const of =
      isShort && !result.failed && result.note === null ? ` of ${amountText(dose, amount.least)}` : ''
    const why = `${result.failed ? ', failed' : ''}${result.note === null ? '' : `: ${result.note}`}`
    const which = dose.kind === 'complex' ? `${step.name} set ${step.number}` : `${name} set ${number}`
    return [{ step: step.id, text: `${which} (${doneText}${of}${why})` }]
  })
}

function amountText(dose: Dose, amount: number): string {
  if (dose.kind === 'distance') return printInUnitOf(dose.length, amount)
  return dose.kind === 'time' ? printTime(roundTo(amount, 1)) : String(roundTo(amount, 1))
}

function rowsOf(state: SessionState): Row[] {
  const asked = state.steps.filter(hasResult)
  return groups(asked, rowKey).map(([, steps]) => {
    const first = steps[0]!
    return { name: stepName(state, first), noun: nounOf(first, state), steps }
  })
}

function rowKey(step: ResultStep): string {
  const within = step.kind === 'set' ? step.exercise : step.kind === 'interval' ? step.work : ''
  return `${step.part}.${step.item}.${within}`
}

function nounOf(step: ResultStep, state: SessionState): string {
  if (step.kind === 'interval') return workOf(state, step)?.repeats ? 'repeats' : 'splits'
  return step.kind === 'set' ? 'sets' : 'times'
}

/** The steps that the prescription does not have. */
export function addedSteps(state: SessionState): Set<string> {
  return new Set(state.changes.flatMap((change) => (change.kind === 'added' ? [change.step] : [])))
}

interface Count {
  done: 'nothing' | 'less' | 'more'
  text: string
}

/** More or fewer of these steps than prescribed: skipped, cut or, once their part is closed, not done. */
function countOf({ name, noun, steps }: Row, state: SessionState): Count | null {
  const added = addedSteps(state)
  const prescribed = steps.filter((step) => !added.has(step.id)).length
  const left = steps.filter((step) => !state.recorded.has(step.id))
  const done = steps.length - left.length
  const skipped = left.filter((step) => state.skipped.has(step.id))
  const undone = left.filter((step) => !state.skipped.has(step.id))
  const areOver = undone.every((step) => isOver(step, state))
  const deviation = (which: Count['done'], text: string) => ({ done: which, text: `${name}: ${text}` })
  if (done > prescribed) return deviation('more', `${done} ${noun}, ${prescribed} prescribed`)
  if (done === prescribed || (skipped.length === 0 && !areOver)) return null
  if (undone.some((step) => step.kind === 'fuel')) return null
  if (!areOver) return deviation('less', `${skipped.length} of ${prescribed} ${noun} skipped`)
  if (done > 0) return deviation('less', `${done} of ${prescribed} ${noun}`)
  return deviation('nothing', undone.length > 0 ? 'not done' : isCut(skipped, state) ? 'cut' : 'skipped')
}

/** Whether less than nine tenths of an interval were run; false if that is unknown. This program's own rule. */
export function isCutShort({ step, result: { meters, seconds } }: Done<'interval'>): boolean {
  const [done, meant] = step.meters === null ? [seconds, step.seconds] : [meters, step.meters]
  return done !== null && meant !== null && done < 0.9 * meant
}

/** `10 min easy: 5:00 of 10:00`, `6 x 1 km: 600 m of 1 km in repeat 5`. */
function cutShort(row: Row, intervals: readonly Done<'interval'>[], state: SessionState): string[] {
  const lengthText = (meters: number) => formatAsWritten(meters, state.prescription.units.distance)
  return intervals.filter(isCutShort).map(({ step, result: { meters, seconds } }) => {
    const [done, text] = step.meters === null ? [seconds, formatClock] : [meters, lengthText]
    const where = step.of > 1 ? ` in ${row.noun.replace(/s$/, '')} ${step.number}` : ''
    return `${row.name}: ${text(done!)} of ${text((step.meters ?? step.seconds)!)}${where}`
  })
}

/** An effort this much above the written one is over it, as in the advice. */
const effortOver = 1

/** `3 km easy: hr 168, 23 over`, `bench press: rpe 9.5, 1.5 over`: what exceeded the written value the most. */
function overTheWritten(
  { name, steps }: Row,
  intervals: readonly Done<'interval'>[],
  state: SessionState,
): string[] {
  const efforts = [
    ...stepsDone(state, 'set', steps).map(({ step, result }) => ({ rpe: result.rpe, written: step.rpe })),
    ...intervals.map(({ step, result }) => ({ rpe: result.rpe, written: step.target?.rpe ?? null })),
  ].map(({ rpe, written }) => {
    const by = rpe === null || written === null ? 0 : rpe - written.to
    return { text: `rpe ${rpe}`, by: by < effortOver ? 0 : by }
  })
  const rates = intervals.map((done) => ({ text: `hr ${done.result.heartRate}`, by: beatsOver(done) }))
  return [rates, efforts].flatMap((values) => {
    const worst = greatest(values, ({ by }) => by)
    return worst === undefined || worst.by === 0 ? [] : [`${name}: ${worst.text}, ${worst.by} over`]
  })
}

/** `run: easy by the plan, effort 8 in fact`; empty where a heart rate over the written one already says so. */
function harderText(
  { kind, name }: ExpandedPart,
  index: number,
  state: SessionState,
  hrMax: number | null,
): string[] {
  if (isOverItsHeartRate(state, index)) return []
  const fact = harderThanMeant(state, index, hrMax)
  return fact === null ? [] : [`${name ?? kind}: easy by the plan, ${fact}`]
}

/** Whether no more results can be recorded for a step. */
function isOver(step: ResultStep, state: SessionState): boolean {
  return state.finished || state.partStates[step.part]?.closed === true
}

function isCut(steps: readonly ResultStep[], state: SessionState): boolean {
  const cut = new Set(state.changes.flatMap((change) => (change.kind === 'cut' ? change.steps : [])))
  return steps.every((step) => cut.has(step.id))
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

/** Loads other than prescribed, in one line; empty if the prescription fixes no load. A load within a
 * prescribed range counts as prescribed. */
function loadChange({ name, steps }: Row, state: SessionState): string[] {
  const done = stepsDone(state, 'set', steps).flatMap(({ step, result: { load } }) =>
    load === null
      ? []
      : [{ number: step.number, load: loadText(load), meant: prescribedInstead(step, load, state) }],
  )
  const changed = groups(
    done.filter(({ meant }) => meant !== null),
    ({ load, meant }) => `${load} instead of ${meant}`,
  )
  const texts = changed.map(([text, sets]) => {
    const numbers = sets.map(({ number }) => number).join(', ')
    return sets.length === done.length ? text : `${sets.length > 1 ? 'sets' : 'set'} ${numbers} at ${text}`
  })
  return texts.length === 0 ? [] : [`${name}: ${texts.join(', ')}`]
}

/** What was prescribed, if the load differs; null if it is as prescribed, or nothing was fixed. */
function prescribedInstead(step: SetStep, load: LiftedLoad, state: SessionState): string | null {
  const meant = step.insteadOf === null ? rangeOf(step, state) : null
  if (meant === null) return null
  const kg = kilogramsOfLoad(load)
  const isWithin = load.kind === meant.kind && kg > meant.from - noise && kg < meant.to + noise
  return isWithin ? null : meant.text
}

/** The prescribed load in kilograms, both of a pair; null without one, for one from last time, and for a percentage of
 * an unknown maximum. */
function rangeOf(
  { name, load }: SetStep,
  { prescription, maxima }: SessionState,
): { kind: LiftedLoad['kind']; from: number; to: number; text: string } | null {
  if (load === null || load.kind === 'last') return null
  if (load.kind === 'bodyweight') {
    const kg = kilogramsOfLoad(load)
    return { kind: load.kind, from: kg, to: kg, text: printLoad(load) }
  }
  const mass = plannedMass(load, name, prescription, maxima)
  if (mass === null) return null
  const kg = (value: number) => kilogramsOfLoad({ ...mass, value })
  const text = load.kind === 'mass' ? printLoad(load) : `${printLoad(mass)} (${printLoad(load)})`
  return { kind: 'mass', from: kg(mass.from), to: kg(mass.to), text }
}
