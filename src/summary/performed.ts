import { judge, type Range } from '../figures/range.ts'
import { exerciseKey } from '../prescription/exercise.ts'
import { type ExpandedWork, isRunningSet, type PieceStep, type SetStep } from '../prescription/step.ts'
import type { PieceResult, SetResult } from '../session/result.ts'
import type { SessionState } from '../session/state.ts'
import { kilogramsOf } from '../units/mass.ts'

/* What was done, put beside what was meant: the rows that every figure of the summary is made of. */

/** A split, repeat or piece that was recorded. */
export interface DoneSplit {
  step: PieceStep
  result: PieceResult
  /** What its time is held against, in seconds, for the distance that was run; null where no pace is prescribed or the distance is not known. */
  range: Range | null
  target: 'fast' | 'in' | 'slow' | null
}

/** A piece of work of a run or cross part, done or not. */
export interface DoneWork {
  part: number
  line: number
  work: ExpandedWork
  /** All of its steps, added ones included, in the order of the walk. */
  steps: PieceStep[]
  /** Those that were recorded. */
  splits: DoneSplit[]
}

/** Every piece of work of the parts of a kind, as prescribed, in the order of the file. */
export function worksDone(state: SessionState, kind: 'run' | 'cross'): DoneWork[] {
  const stepsOf = new Map<string, PieceStep[]>()
  for (const step of state.steps) {
    if (step.kind !== 'piece') continue
    const key = `${step.part}.${step.item}.${step.work}`
    const known = stepsOf.get(key)
    if (known) known.push(step)
    else stepsOf.set(key, [step])
  }
  return state.parts.flatMap((part, partIndex) =>
    part.kind !== kind
      ? []
      : part.items.flatMap((item, itemIndex) =>
          item.works.map((work, workIndex): DoneWork => {
            const steps = stepsOf.get(`${partIndex}.${itemIndex}.${workIndex}`) ?? []
            const splits = steps.flatMap((step) => splitDone(state, step))
            return { part: partIndex, line: item.line, work, steps, splits }
          }),
        ),
  )
}

function splitDone(state: SessionState, step: PieceStep): DoneSplit[] {
  const recorded = state.recorded.get(step.id)
  if (recorded?.kind !== 'piece') return []
  const { result } = recorded
  const range = rangeOf(step, result.meters)
  const judged = range && result.seconds !== null ? judge(result.seconds, range, result.precision ?? 1) : null
  return [{ step, result, range, target: judged }]
}

/** The range for the distance that was run: the prescribed one's, else the pace's. */
function rangeOf(step: PieceStep, meters: number | null): Range | null {
  if (!step.target || meters === null) return null
  const { seconds, secondsPerKm } = step.target
  if (seconds && meters === step.meters) return seconds
  if (!secondsPerKm) return null
  return { from: (secondsPerKm.from * meters) / 1000, to: (secondsPerKm.to * meters) / 1000 }
}

/** A set that was recorded. */
export interface DoneSet {
  step: SetStep
  result: SetResult
  /** Its number among all sets of this exercise in the session, done or not, from 1. */
  number: number
  /** Both of a pair; with a bodyweight exercise what was added, negative for assistance; null without a load. */
  kg: number | null
}

/** Kilograms of a load: both of a pair; with the body what was added; null without a load. */
export function kilogramsOfLoad(load: SetResult['load']): number | null {
  if (load === null) return null
  if (load.kind === 'mass') return kilogramsOf(load) * (load.pair ? 2 : 1)
  return kilogramsOf({ value: load.added, unit: load.unit })
}

/** An exercise with all that was recorded of it, on however many lines it stood. */
export interface DoneExercise {
  /** As it was written where it was first recorded. */
  name: string
  sets: DoneSet[]
}

/** The exercises with a recorded set, in the order in which they were first done. The same name is the same
 * exercise whatever its case, spaces, hyphens, plural s. Without the running in circuits. */
export function exercisesDone(state: SessionState): DoneExercise[] {
  return exercisesWithRunning(state).filter((exercise) => !isRunning(exercise))
}

/** Whether an exercise is the running in a circuit. */
export function isRunning({ sets }: DoneExercise): boolean {
  return sets.every(({ step }) => isRunningSet(step))
}

/** As `exercisesDone`, and the running in circuits among them. */
export function exercisesWithRunning(state: SessionState): DoneExercise[] {
  const numbers = new Map<string, number>()
  const exercises = new Map<string, DoneExercise>()
  for (const step of state.steps) {
    if (step.kind !== 'set') continue
    const key = exerciseKey(step.name)
    const number = (numbers.get(key) ?? 0) + 1
    numbers.set(key, number)
    const set = setDone(state, step, number)
    if (!set) continue
    const known = exercises.get(key)
    if (known) known.sets.push(set)
    else exercises.set(key, { name: step.name, sets: [set] })
  }
  return [...exercises.values()]
}

function setDone(state: SessionState, step: SetStep, number: number): DoneSet | null {
  const recorded = state.recorded.get(step.id)
  if (recorded?.kind !== 'set') return null
  return { step, result: recorded.result, number, kg: kilogramsOfLoad(recorded.result.load) }
}

/** What a piece of work is called for short: its line up to the first comma outside brackets. */
export function workName(text: string): string {
  let depth = 0
  for (const [index, character] of [...text].entries()) {
    if (character === '(') depth++
    else if (character === ')') depth--
    else if ((character === ',' || character === '"') && depth <= 0)
      return [...text].slice(0, index).join('').trim() || text
  }
  return text
}

/** What an item of the day is called for short. */
export function itemName(state: SessionState, part: number, item: number): string {
  const step = state.steps.find((each) => each.part === part && each.item === item)
  const names = new Set(
    state.steps.flatMap((each) =>
      each.kind === 'set' && each.part === part && each.item === item ? [each.insteadOf ?? each.name] : [],
    ),
  )
  if (names.size > 0) return [...names].join(' + ')
  if (step?.kind === 'prep') return step.prep.name
  if (step?.kind === 'fuel') return `fuel ${step.fuel.when}`
  return workName(state.parts[part]?.items[item]?.text ?? '')
}

/** What a part is called: its kind, and its name behind a colon. */
export function partName(part: { kind: string; name: string | null }): string {
  return part.name === null ? part.kind : `${part.kind}: ${part.name}`
}
