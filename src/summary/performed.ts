import { group, sum } from 'd3-array'
import { noise } from '../figures/figure.ts'
import { judge, type Range } from '../figures/splits.ts'
import { exerciseKey, isRunning } from '../prescription/exercise.ts'
import { stationsDone } from '../prescription/expand.ts'
import { scaled } from '../prescription/expandRun.ts'
import type { Dose, FuelItem, Side } from '../prescription/model.ts'
import {
  type ExpandedWork,
  type IntervalStep,
  isInterval,
  isRunningSet,
  repsOf,
  type SetStep,
  type Step,
} from '../prescription/step.ts'
import { kilogramsOfLoad, resolvedLoad } from '../session/load.ts'
import type { FuelResult, Results, SetResult } from '../session/model.ts'
import { resultOf, type SessionState } from '../session/state.ts'
import { metersOf } from '../units/length.ts'

/* Pairs what was done with what was prescribed: the rows from which every figure of the summary is computed. */

/** A step of a kind with what was recorded for it. */
export interface Done<K extends keyof Results> {
  step: Extract<Step, { kind: K }>
  result: Results[K]
}

/** The steps of a kind that have a result, in their order. */
export function stepsDone<K extends keyof Results>(
  state: SessionState,
  kind: K,
  steps: readonly Step[] = state.steps,
): Done<K>[] {
  return steps.flatMap((step) => {
    const result = step.kind === kind ? (state.recorded.get(step.id)?.result ?? null) : null
    return result === null ? [] : [{ step, result } as Done<K>]
  })
}

/** A recorded split, repeat or interval. */
export interface DoneSplit extends Done<'interval'> {
  /** The target time for the distance that was run, in seconds; null if no pace is prescribed or the distance is
   * unknown. */
  range: Range | null
  target: 'fast' | 'in' | 'slow' | null
}

/** A work of a run or cross part, done or not. */
export interface DoneWork {
  kind: 'run' | 'cross'
  part: number
  /** Its item's index in the part. */
  item: number
  line: number
  /** Its item as it is written. */
  text: string
  /** Its index among the works of its item. */
  index: number
  work: ExpandedWork
  /** All of its steps, added ones included, in order. */
  steps: IntervalStep[]
  /** The recorded steps. */
  splits: DoneSplit[]
}

/** Every work of the parts of a kind, as prescribed, in the order of the file. */
export function worksDone(state: SessionState, kind: 'run' | 'cross'): DoneWork[] {
  const intervals = state.steps.filter(isInterval)
  const stepsOf = group(intervals, ({ part, item, work }) => `${part}.${item}.${work}`)
  return state.parts.flatMap(({ kind: its, items }, part) =>
    (its === kind ? items : []).flatMap(({ line, text, works }, item) =>
      works.map((work, index): DoneWork => {
        const steps = stepsOf.get(`${part}.${item}.${index}`) ?? []
        const splits = splitsDone(state, steps)
        return { kind, part, item, line, text, index, work, steps, splits }
      }),
    ),
  )
}

/** The recorded splits among these steps. */
export function splitsDone(state: SessionState, steps: readonly IntervalStep[]): DoneSplit[] {
  return stepsDone(state, 'interval', steps).map(({ step, result }) => {
    const { seconds, meters, precision } = result
    const range = rangeOf(step, meters)
    const target = range && seconds !== null ? judge(seconds, range, precision ?? 1) : null
    return { step, result, range, target }
  })
}

/** The range for the distance that was run: from the prescribed time, else from the pace. */
function rangeOf(step: IntervalStep, meters: number | null): Range | null {
  if (!step.target || meters === null) return null
  const { seconds, secondsPerKm } = step.target
  if (seconds && meters === step.meters) return seconds
  return secondsPerKm && scaled(secondsPerKm, meters / 1000)
}

export interface DoneSet extends Done<'set'> {
  /** Its number among all sets of this exercise in the session, done or not, from 1. */
  number: number
  /** The exercise; in a complex or in rounds, the lift or the station. */
  name: string
  side: Side | null
  /** A drop, a lift of a complex, or a station of a round: no maximum is estimated from it. */
  isPart: boolean
  /** Both of a pair; for a bodyweight exercise the added load, negative for assistance; null without a load. */
  kg: number | null
}

/** Whether a set was meant to go to the limit and did: an AMRAP set, or a `5+` set with more than its minimum, without
 * a written effort, which means to stop before. A failed repetition and a high effort are then as prescribed. */
export function isMeantToTheLimit({ dose, rpe }: SetStep, { reps }: SetResult): boolean {
  return rpe === null && (dose.kind === 'max' || (dose.kind === 'atLeast' && (reps ?? 0) > dose.reps))
}

/** What was done of a dose and the least that it asks for: repetitions of all groups, seconds or metres. Null for a
 * dose without such a number, and if it is not known what was done. */
export function amountOf(
  dose: Dose,
  { reps, seconds, meters }: SetResult,
): { done: number; least: number } | null {
  const done = dose.kind === 'time' ? seconds : dose.kind === 'distance' ? meters : reps
  // "As many as possible" asks for no number, also as the last group of a cluster set.
  const leastReps = dose.kind === 'max' ? null : repsOf(dose, 0)
  const least =
    dose.kind === 'time' ? dose.seconds : dose.kind === 'distance' ? metersOf(dose.length) : leastReps
  return done === null || least === null ? null : { done, least }
}

/** Whether a set's dose was done, whatever its load and effort. A range of repetitions is complete at its upper end and
 * missed below its lower one; `other`: in between, or the dose has no number. */
export function doseDone(dose: Dose, result: SetResult): 'complete' | 'missed' | 'other' {
  const amount = amountOf(dose, result)
  if (amount === null) return 'other'
  if (amount.done < amount.least - noise) return 'missed'
  return dose.kind === 'reps' && amount.done < dose.to ? 'other' : 'complete'
}

/** An exercise with all its recorded sets, from any number of lines. */
export interface DoneExercise {
  /** As written where it was first recorded. */
  name: string
  sets: DoneSet[]
}

/** Whether an exercise is running in a circuit. */
export function isRunningExercise({ sets }: DoneExercise): boolean {
  return sets.every(({ step }) => isRunningSet(step))
}

/** The exercises with a recorded set, running in circuits included, in the order in which they were first done. Names
 * match whatever their case, spaces, hyphens and plural s. */
export function exercisesDone(state: SessionState): DoneExercise[] {
  const exercises = group(liftsDone(state), ({ name }) => exerciseKey(name))
  return [...exercises.values()].map((sets) => ({ name: sets[0]?.name ?? '', sets }))
}

/** Every recorded set in the order of the day, running in circuits included; one of several loads or exercises is split
 * up, rounds against the clock into the whole and its stations. */
export function liftsDone(state: SessionState): DoneSet[] {
  const numbers = new Map<string, number>()
  return state.steps.flatMap((step) => {
    if (step.kind !== 'set') return []
    const stepNumbers = new Map<string, number>()
    for (const name of new Set(namesIn(step))) {
      const number = (numbers.get(exerciseKey(name)) ?? 0) + 1
      numbers.set(exerciseKey(name), number)
      stepNumbers.set(name, number)
    }
    return setsDone(state, step).map((set) => ({ ...set, number: stepNumbers.get(set.name) ?? 1 }))
  })
}

/** The exercises for which a set has figures: for rounds against the clock the line itself and its stations. */
function namesIn({ name, dose }: SetStep): string[] {
  if (dose.kind === 'complex') return dose.lifts.map((lift) => lift.name)
  if (!('stations' in dose)) return [name]
  return [name, ...dose.stations.map((station) => station.name).filter((station) => !isRunning(station))]
}

/** The result of a set, split up if it has several loads or exercises. */
function setsDone(state: SessionState, step: SetStep): Omit<DoneSet, 'number'>[] {
  const result = resultOf(state, step)
  if (result === null) return []
  const { loads = [], ...whole } = result
  const set = (change: Partial<SetResult>, name = step.name, side = step.side, isPart = true) => {
    const done = { ...whole, ...change }
    return { step, result: done, name, side, isPart, kg: kilogramsOfLoad(done.load) }
  }
  const { dose } = step
  switch (dose.kind) {
    case 'drop':
      return (result.groups ?? []).flatMap((reps, index) =>
        reps === 0 && index > 0 ? [] : [set({ reps, groups: null, load: loads[index] ?? result.load })],
      )
    case 'complex':
      return dose.lifts.flatMap((lift, index) => {
        const reps = result.groups?.[index] ?? lift.reps
        return reps === 0 ? [] : [set({ reps, groups: null }, lift.name)]
      })
    case 'roundsIn':
    case 'forTime': {
      const stations = stationsOfRounds(state, step, result).filter(({ station }) => !isRunning(station.name))
      return [
        set({ reps: null }, step.name, null),
        ...stations.map(({ station, change }) => set(change, station.name, station.side)),
      ]
    }
    default:
      return [set({}, step.name, step.side, false)]
  }
}

/** The result at each station of rounds against the clock. */
function stationsOfRounds(state: SessionState, { dose }: SetStep, result: SetResult) {
  if (!('stations' in dose)) return []
  const [rounds = 0, begun = 0] = dose.kind === 'forTime' ? [dose.rounds] : (result.groups ?? [])
  const done = stationsDone(dose.stations, rounds, begun)
  return dose.stations.map((station, index) => {
    const times = done[index] ?? 0
    const { dose: each } = station
    const change = {
      reps: each.kind === 'reps' ? times : null,
      groups: null,
      seconds: each.kind === 'time' ? times * each.seconds : null,
      meters: each.kind === 'distance' ? times * metersOf(each.length) : null,
      load: station.load === null ? null : resolvedLoad(state, station.load, station.name),
      rpe: null,
      failed: false,
    }
    return { station, change }
  })
}

/** Metres run inside lift parts: in circuits, those prescribed where only a time was typed, and in rounds against the
 * clock. */
export function metersRunInLifts(state: SessionState, steps: readonly Step[] = state.steps): number {
  return sum(stepsDone(state, 'set', steps), ({ step, result }) => {
    const { dose } = step
    const isTimed = result.meters === null && result.seconds !== null
    if (isRunningSet(step)) return isTimed && dose.kind === 'distance' ? metersOf(dose.length) : result.meters
    const run = stationsOfRounds(state, step, result).filter(({ station }) => isRunning(station.name))
    return sum(run, ({ change }) => change.meters)
  })
}

export interface DoneMeal {
  /** The step's id, or one of its own for a meal that was not prescribed. */
  id: string
  when: FuelItem['when']
  result: FuelResult
  /** What was eaten, if none of its amounts is known: as prescribed, else as typed. Null if an amount is known, or
   * nothing says what it was. */
  name: string | null
}

/** The meals of a session, the prescribed ones first. */
export function mealsDone(state: SessionState): DoneMeal[] {
  const prescribed = stepsDone(state, 'fuel').map(({ step: { id, fuel }, result }) => {
    return { id, when: fuel.when, result, name: nameOf(result, fuel.notes) }
  })
  const besides = state.meals.map(({ when, result }, index) => {
    return { id: `meal ${index + 1}`, when, result, name: nameOf(result, []) }
  })
  return [...prescribed, ...besides]
}

function nameOf(result: FuelResult, written: readonly string[]): string | null {
  const { carbsG, proteinG, fatG, kcal, note } = result
  if ([carbsG, proteinG, fatG, kcal].some((amount) => amount !== null)) return null
  return written.length > 0 ? written.join(', ') : note
}
