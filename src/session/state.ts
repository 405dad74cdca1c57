import { expand, type WarmUpOf } from '../prescription/expand.ts'
import type { FuelItem, LiftItem, Prescription } from '../prescription/model.ts'
import type { LastLoad, SourcedMaxima } from '../prescription/planned.ts'
import {
  type ExpandedPart,
  hasResult,
  type IntervalStep,
  isInterval,
  isSameItem,
  isTraining,
  type RecoveryStep,
  type ResultStep,
  type Step,
  stepsOf,
} from '../prescription/step.ts'
import type { Moment } from './clock.ts'
import type { FuelResult, LiftedLoad, Recording, Result, Results, SessionEvent } from './model.ts'

/* The state of a session, computed from its events. It is never stored. */

/** A result, and when it was recorded; null if unknown. */
export type Recorded = Result & { at: Moment | null }

/** The event that records a kind of result. */
export function recordedBy(kind: keyof Results): Recording['type'] {
  return kind === 'interval' ? 'pieceRecorded' : `${kind}Recorded`
}

export function isRecording(event: SessionEvent): event is Recording {
  return 'step' in event && 'result' in event
}

export function resultOf<K extends keyof Results>(
  { recorded }: SessionState,
  step: Step & { kind: K },
): Results[K] | null {
  // Every result was recorded for a step of its kind (`reduce.ts`).
  return (recorded.get(step.id)?.result ?? null) as Results[K] | null
}

/** What the clock measured for one step, in seconds, without stopped time. */
export interface Measured {
  begun: Moment | null
  ended: Moment | null
  seconds: number | null
  /** The pauses between the groups of a cluster set. */
  pauses: number[]
  paced: boolean
  /** From the key that ended it to the key that began the next; null when that key was not pressed. */
  rest: number | null
}

/** What is under way, and since when. */
export type Phase =
  /** Nothing is running: before the first effort, between items, between parts. */
  | { kind: 'ready'; since: Moment | null }
  /** A set or one of its groups, a repeat, a split, a warm-up set, a prep item. `auto`: begun by the clock;
   * `rested`: the step whose rest ended when this began. */
  | { kind: 'effort'; step: string; group: number; auto: boolean; rested: string | null; since: Moment }
  /** Inside a cluster set, before `group`, which the clock starts. */
  | { kind: 'pause'; step: string; group: number; seconds: number; since: Moment }
  /** Before a set, or inside a round before the next exercise. `seconds` null: counts up. `byItself`: the clock starts
   * the set. */
  | {
      kind: 'rest' | 'roundPause'
      after: string
      next: string
      seconds: number | null
      byItself: boolean
      since: Moment
    }
  /** The jog, walk or stand between two repeats. `changedBy`: seconds by which a key made it longer or shorter. */
  | { kind: 'recovery'; step: string; changedBy: number; since: Moment }

export type PhaseOf<K extends Phase['kind']> = Extract<Phase, { kind: K }>

export interface PartState {
  begun: Moment | null
  /** When its last step was ended or recorded. */
  ended: Moment | null
  closed: boolean
  effort: number | null
  minutes: number | null
  conditions: string | null
}

/** `about`: a step; null for the whole day. */
type Note = Pick<EventOf<'noteAdded'>, 'about' | 'text' | 'pain'> & { at: Moment | null }

/** A deviation from the prescription, for the summary. */
export type Change =
  | { kind: 'added'; step: string }
  | { kind: 'swapped'; step: string; from: string; to: string }
  | { kind: 'moved'; part: number; item: number }
  | { kind: 'cut'; minutes: number; steps: string[] }

export interface SessionState {
  prescription: Prescription
  parts: ExpandedPart[]
  /** In the order in which they are to be done. */
  steps: readonly Step[]
  /** Local date, body mass, maxima: as known at the start. */
  date: string | null
  bodyMassKg: number | null
  maxima: SourcedMaxima
  lastLoads: readonly LastLoad[]
  fromPaper: boolean
  boot: string | null
  phase: Phase
  stopped: { since: Moment } | null
  /** Earlier stops of all clocks, one after the other. */
  stops: readonly { from: Moment; to: Moment }[]
  /** Ids of passed steps: ended by a key, recorded, skipped or closed with their part. */
  passed: ReadonlySet<string>
  skipped: ReadonlySet<string>
  recorded: ReadonlyMap<string, Recorded>
  measured: ReadonlyMap<string, Measured>
  /** Seconds per repetition after which the clock ends the groups of an exercise's cluster sets. */
  pace: ReadonlyMap<string, number>
  partStates: readonly PartState[]
  /** Food that was not prescribed. */
  meals: readonly { when: FuelItem['when']; result: FuelResult }[]
  notes: readonly Note[]
  changes: readonly Change[]
  /** Loads typed before their set begins, by the ids of the sets. */
  chosenLoads: ReadonlyMap<string, LiftedLoad>
  startedAt: Moment | null
  finishedAt: Moment | null
  /** The end before the session was reopened: correcting a result is not training. Null again once a clock runs. */
  endedBefore: Moment | null
  finished: boolean
}

/** The steps of a day in order, with each meal when it is eaten, wherever the file has it: `before` first, `between`
 * where the day changes from running to lifting or back, else before the second of these parts, `after` at the end. */
function withMealsInPlace(parts: readonly ExpandedPart[]): Step[] {
  const steps = stepsOf(parts)
  const meals = (when: FuelItem['when']) =>
    steps.filter((step) => step.kind === 'fuel' && step.fuel.when === when)
  const training = parts.flatMap((part, index) =>
    isTraining(part.kind) ? [{ index, isLift: part.kind === 'lift' }] : [],
  )
  const change = training.find(({ isLift }, place) => place > 0 && isLift !== training[place - 1]?.isLift)
  const second = (change ?? training[1])?.index ?? null
  const others = steps.filter((step) => step.kind !== 'fuel')
  const found = others.findIndex((step) => step.part === second)
  const between = found === -1 ? others.length : found
  return [
    ...meals('before'),
    ...others.slice(0, between),
    ...meals('between'),
    ...others.slice(between),
    ...meals('after'),
  ]
}

export type EventOf<T extends SessionEvent['type']> = Extract<SessionEvent, { type: T }>

/** The state before anything has happened.
 * @param warmUpOf works out the warm-up sets; by default there are none, which changes no result */
export function startOf(prescription: Prescription, warmUpOf: WarmUpOf = () => []): SessionState {
  const parts = expand(prescription, warmUpOf)
  return {
    prescription,
    parts,
    steps: withMealsInPlace(parts),
    date: null,
    bodyMassKg: null,
    maxima: [],
    lastLoads: [],
    fromPaper: false,
    boot: null,
    phase: { kind: 'ready', since: null },
    stopped: null,
    stops: [],
    passed: new Set(),
    skipped: new Set(),
    recorded: new Map(),
    measured: new Map(),
    pace: new Map(),
    partStates: parts.map(() => ({
      begun: null,
      ended: null,
      closed: false,
      effort: null,
      minutes: null,
      conditions: null,
    })),
    chosenLoads: new Map(),
    meals: [],
    notes: [],
    changes: [],
    startedAt: null,
    finishedAt: null,
    endedBefore: null,
    finished: false,
  }
}

export function stepOf(state: SessionState, id: string): Step | null {
  return state.steps.find((step) => step.id === id) ?? null
}

/** The repeats or splits of the item of a step, in order. */
export function intervalsOf(state: SessionState, step: Step): IntervalStep[] {
  return state.steps.filter(isInterval).filter((each) => isSameItem(each, step))
}

/** The lift line a step comes from; null for a step of any other part. */
export function liftItemOf(state: SessionState, step: Step): LiftItem | null {
  const part = state.prescription.parts[step.part]
  return part?.kind === 'lift' ? (part.items[step.item] ?? null) : null
}

/** The step that is under way or that a rest, a pause or a recovery leads to; between items the next one. */
export function stepNow(state: SessionState): Step | null {
  const { phase } = state
  if (phase.kind === 'ready') return stepAhead(state)
  return stepOf(state, 'next' in phase ? phase.next : phase.step)
}

/** The step whose effort is under way, including a pause inside it; null in a rest or between items. */
export function stepUnderWay(state: SessionState): Step | null {
  const { phase } = state
  return 'group' in phase ? stepOf(state, phase.step) : null
}

/** The first of the `stepsAhead`; null at the end of the day. */
export function stepAhead(state: SessionState): Step | null {
  return stepsAhead(state)[0] ?? null
}

/** The steps not passed yet, in order. A meal whose time is over, because a later step was begun, comes at
 * the end: it can still be entered, and nothing waits for it. */
export function stepsAhead(state: SessionState): Step[] {
  const { steps, passed } = state
  const ahead = steps.filter((step) => !passed.has(step.id))
  if (!ahead.some((step) => step.kind === 'fuel')) return ahead
  const underWay = stepUnderWay(state)
  const reached = steps.findLastIndex(
    (step) => step.kind !== 'fuel' && (passed.has(step.id) || step === underWay),
  )
  const isOver = (step: Step) => step.kind === 'fuel' && steps.indexOf(step) < reached
  return [...ahead.filter((step) => !isOver(step)), ...ahead.filter(isOver)]
}

/** The interval that follows a recovery; null after the last of its part. */
export function intervalAfter(state: SessionState, recovery: string): Step | null {
  const index = state.steps.findIndex((step) => step.id === recovery)
  const next = state.steps.slice(index + 1).find((step) => !state.passed.has(step.id))
  return next?.kind === 'interval' && next.part === state.steps[index]?.part ? next : null
}

/** Whether a step is a recovery that counts as done: not skipped, after an interval that was recorded. */
export function wasRecoveredIn({ recorded, skipped }: SessionState, step: Step): step is RecoveryStep {
  return step.kind === 'recovery' && !skipped.has(step.id) && step.countsWith.some((id) => recorded.has(id))
}

/** Passing a step also passes the recoveries and the warm-up sets right before it; a warm-up set passes only
 * recoveries. */
export function stepsPassedWith(state: SessionState, step: Step): string[] {
  const before = state.steps.slice(0, state.steps.indexOf(step))
  const stop = before.findLastIndex((each) => each.part !== step.part || hasResult(each))
  return before
    .slice(stop + 1)
    .filter((each) => step.kind !== 'warm-up' || each.kind === 'recovery')
    .map(({ id }) => id)
}

/** The step that was done or left out last, of those for which this holds: another order of the day does not change
 * it. */
export function lastPassed(state: SessionState, isSought: (step: Step) => boolean): Step | null {
  for (const id of [...state.passed].reverse()) {
    const step = stepOf(state, id)
    if (step && isSought(step)) return step
  }
  return null
}

/** Passed steps whose result is still to be entered, oldest first. */
export function pendingSteps({ steps, passed, recorded, skipped, partStates }: SessionState): ResultStep[] {
  return steps
    .filter(hasResult)
    .filter(({ id }) => passed.has(id) && !recorded.has(id) && !skipped.has(id))
    .filter(({ part }) => !partStates[part]?.closed)
}

const unmeasured: Measured = { begun: null, ended: null, seconds: null, pauses: [], paced: false, rest: null }

export function measuredOf(state: SessionState, step: string): Measured {
  return state.measured.get(step) ?? unmeasured
}

export function measuring(state: SessionState, step: string, change: Partial<Measured>): SessionState {
  return { ...state, measured: new Map(state.measured).set(step, { ...measuredOf(state, step), ...change }) }
}

export function passing(state: SessionState, steps: readonly string[]): SessionState {
  return { ...state, passed: new Set([...state.passed, ...steps]) }
}

export function inPart(
  state: SessionState,
  part: number,
  change: (part: PartState) => Partial<PartState>,
): SessionState {
  const partStates = state.partStates.map((each, index) =>
    index === part ? { ...each, ...change(each) } : each,
  )
  return { ...state, partStates }
}
