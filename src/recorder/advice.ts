import { restOfPiece } from '../figures/advice/continuous.ts'
import { nextLoad } from '../figures/advice/nextLoad.ts'
import { repeatsAdvice } from '../figures/advice/repeats.ts'
import { rackOf } from '../figures/bar.ts'
import { expectedSecondsOf } from '../prescription/cutSteps.ts'
import { exerciseKey } from '../prescription/exerciseKey.ts'
import type { PieceStep, RampStep, SetStep, Step } from '../prescription/step.ts'
import { shownLoadOf } from '../session/asking.ts'
import { elapsedSeconds, type Moment } from '../session/clock.ts'
import type { LiftedLoad } from '../session/result.ts'
import type { Recorded, WalkState } from '../session/state.ts'
import { formatClock } from '../units/duration.ts'
import { formatMeters } from '../units/length.ts'
import { kilogramsOf } from '../units/mass.ts'
import { isSameItem, stepNow } from './availability.ts'
import { loadText, platesText } from './loads.ts'
import type { RecorderContext } from './model.ts'
import { exactlyOne } from './titles.ts'

/** The one most useful thing to say now, or nothing. It advises and never blocks. */
export function adviceLine(state: WalkState, now: Moment, context: RecorderContext): string | null {
  if (!context.advice) return null
  return (
    loadAdvice(state, context) ??
    restOfPieceAdvice(state) ??
    repeatAdvice(state) ??
    bestSoFar(state, context) ??
    changeOfLoad(state, context) ??
    timeAdvice(state, now)
  )
}

type RecordedSet = Extract<Recorded, { kind: 'set' }>

function lastSetOf(state: WalkState, next: SetStep): { step: SetStep; recorded: RecordedSet } | null {
  const earlier = state.steps.filter(
    (step): step is SetStep =>
      step.kind === 'set' &&
      isSameItem(step, next) &&
      step.exercise === next.exercise &&
      step.name === next.name &&
      step.number < next.number,
  )
  const last = earlier.at(-1)
  const recorded = last ? state.recorded.get(last.id) : undefined
  return last && recorded?.kind === 'set' ? { step: last, recorded } : null
}

/** What the last set's effort says for the next one on the same line. */
function loadAdvice(state: WalkState, context: RecorderContext): string | null {
  const next = stepNow(state)
  if (next?.kind !== 'set') return null
  const last = lastSetOf(state, next)
  const load = last?.recorded.result.load
  if (!last || load?.kind !== 'mass' || load.value <= 0) return null
  const rack = rackOf(context.equipmentOf(load.unit, state.prescription))
  const step = load.unit === 'kg' ? 2.5 : 5
  const inSteps = (wanted: number) => Math.floor(wanted / step + 1e-9) * step || null
  const advice = nextLoad({
    load: load.value,
    rpe: last.recorded.result.rpe,
    failed: last.recorded.result.failed,
    target: last.step.rpe,
    cluster: last.step.dose.kind === 'cluster',
    noHeavier: isGuarded(state, next.name),
    atOrBelow: load.pair || load.value < (rack.loads[0] ?? 0) ? inSteps : rack.atOrBelow,
  })
  if (!advice) return null
  const words = advice.words.map((word) =>
    typeof word === 'number' ? loadText({ ...load, value: word }) : word,
  )
  return words.join(' ').replace('( ', '(').replace(' )', ')')
}

/** A failed repetition on this exercise today, or pain anywhere: nothing more upward. */
function isGuarded(state: WalkState, name: string): boolean {
  if (state.notes.some((note) => note.pain)) return true
  if ([...state.recorded.values()].some(({ result }) => result.pain !== null)) return true
  return state.steps.some((step) => {
    const recorded =
      step.kind === 'set' && exerciseKey(step.name) === exerciseKey(name)
        ? state.recorded.get(step.id)
        : undefined
    return recorded?.kind === 'set' && recorded.result.failed
  })
}

/** The mean so far of a continuous piece, and what the rest of it must be. */
function restOfPieceAdvice(state: WalkState): string | null {
  const now = stepNow(state)
  if (now?.kind !== 'piece' || !now.split) return null
  const splits = state.steps.filter(
    (step): step is PieceStep => step.kind === 'piece' && isSameItem(step, now) && step.work === now.work,
  )
  const done = { meters: 0, seconds: 0 }
  for (const split of splits) {
    const recorded = state.recorded.get(split.id)
    if (recorded?.kind !== 'piece' || recorded.result.seconds === null) continue
    done.meters += recorded.result.meters ?? split.meters ?? 0
    done.seconds += recorded.result.seconds
  }
  const whole = splits.reduce((sum, split) => sum + (split.meters ?? 0), 0)
  const range = splits.reduce(
    (sum, split) => ({
      from: sum.from + (split.target?.seconds?.from ?? Number.NaN),
      to: sum.to + (split.target?.seconds?.to ?? Number.NaN),
    }),
    { from: 0, to: 0 },
  )
  if (done.meters === 0 || Number.isNaN(range.to)) return null
  const rest = restOfPiece(done, whole, range)
  if (!rest) return null
  const unit = state.prescription.units.distance
  const per = unit === 'km' ? 1 : 1.609344
  const pace = (secondsPerKm: number) => formatClock(secondsPerKm * per)
  const { from, to } = rest.restSecondsPerKm
  const needed = from === null ? `${pace(to)} or faster` : exactlyOne(pace(from), pace(to))
  return `mean so far ${pace(rest.meanSecondsPerKm)}/${unit}; the last ${formatMeters(rest.restMeters, unit)} in ${needed}/${unit} ends in the range`
}

/** Repeats that leave their range. */
function repeatAdvice(state: WalkState): string | null {
  const now = stepNow(state)
  if (!now || (now.kind !== 'piece' && now.kind !== 'recovery')) return null
  const repeats = state.steps.filter(
    (step): step is PieceStep => step.kind === 'piece' && isSameItem(step, now) && !step.split,
  )
  const first = repeats[0]
  if (!first) return null
  const done = repeats
    .filter((step) => step.work === first.work)
    .flatMap((step) => {
      const recorded = state.recorded.get(step.id)
      if (recorded?.kind !== 'piece' || recorded.result.seconds === null || !step.target?.seconds) return []
      const precision = recorded.result.precision ?? 1
      return [{ seconds: recorded.result.seconds, precision, range: step.target.seconds }]
    })
  return repeatsAdvice(done, first.grade)?.words ?? null
}

/** Said once, while the set that did it is the last one. */
function bestSoFar(state: WalkState, context: RecorderContext): string | null {
  const last = [...state.recorded].at(-1)
  const step = last ? state.steps.find((each) => each.id === last[0]) : null
  const recorded = last?.[1]
  if (step?.kind !== 'set' || recorded?.kind !== 'set' || step.dose.kind === 'cluster') return null
  const { load, reps } = recorded.result
  if (!load || !reps) return null
  const before = context.bestBefore(step.name, reps)
  const kg = kilogramsLifted(load)
  if (!before || kg <= before.kg + 1e-9) return null
  const isOnce = [...state.recorded].slice(0, -1).every(([id, each]) => !isAsMuch(state, id, each))
  if (!isOnce) return null
  return `most for ${reps} so far (before: ${before.text})`
}

/** Whether an earlier set of today was this already. */
function isAsMuch(state: WalkState, id: string, each: Recorded): boolean {
  const last = [...state.recorded].at(-1)
  const one = state.steps.find((step) => step.id === id)
  const other = state.steps.find((step) => step.id === last?.[0])
  if (one?.kind !== 'set' || other?.kind !== 'set' || exerciseKey(one.name) !== exerciseKey(other.name))
    return false
  if (each.kind !== 'set' || last?.[1].kind !== 'set' || one.dose.kind === 'cluster') return false
  const { load, reps } = last[1].result
  if (!load || !each.result.load || (each.result.reps ?? 0) < (reps ?? 0)) return false
  return kilogramsLifted(each.result.load) >= kilogramsLifted(load) - 1e-9
}

function kilogramsLifted(load: LiftedLoad): number {
  return load.kind === 'mass'
    ? kilogramsOf(load) * (load.pair ? 2 : 1)
    : kilogramsOf({ value: load.added, unit: load.unit })
}

/** What to load when it changes before the next set or ramp step. */
function changeOfLoad(state: WalkState, context: RecorderContext): string | null {
  if (state.phase.kind === 'effort' || state.phase.kind === 'pause') return null
  const next = stepNow(state)
  if (next?.kind !== 'ramp' && next?.kind !== 'set') return null
  const load = next.kind === 'ramp' ? next.load : plain(shownLoadOf(state, next).shown)
  if (!load) return null
  const before = state.steps.filter((step) => isOfBar(step, next) && state.passed.has(step.id)).at(-1)
  const was = before?.kind === 'ramp' ? before.load : before?.kind === 'set' ? liftedAt(state, before) : null
  if (was && was.value === load.value && was.unit === load.unit) return null
  const plates = platesText(load, context.equipmentOf(load.unit, state.prescription))
  return plates ? `now load ${load.value} ${load.unit}: ${plates}` : null
}

/** Each exercise of a round has a bar of its own. */
function isOfBar(step: Step, next: SetStep | RampStep): boolean {
  const isLift = step.kind === 'set' || step.kind === 'ramp'
  return isLift && isSameItem(step, next) && step.exercise === next.exercise
}

function liftedAt(state: WalkState, step: SetStep): { value: number; unit: 'kg' | 'lb' } | null {
  const recorded = state.recorded.get(step.id)
  return plain(recorded?.kind === 'set' ? recorded.result.load : shownLoadOf(state, step).shown)
}

function plain(load: LiftedLoad | null): { value: number; unit: 'kg' | 'lb' } | null {
  return load?.kind === 'mass' && !load.pair ? load : null
}

/** Minutes ahead or behind, when more than five, within a part. */
function timeAdvice(state: WalkState, now: Moment): string | null {
  const step = stepNow(state)
  const part = step ? state.partStates[step.part] : null
  if (!step || !part?.begun || part.closed) return null
  const behind = state.steps.filter((each) => each.part === step.part && state.passed.has(each.id))
  const expected = expectedSecondsOf(behind, state.prescription)
  const holding = state.held ? elapsedSeconds(state.held.counted, now) : 0
  const gone = elapsedSeconds(part.begun, now) - part.heldSeconds - holding
  const minutes = Math.round((gone - expected) / 60)
  if (Math.abs(minutes) <= 5 || behind.length === 0) return null
  return minutes > 0 ? `about ${minutes} min behind in this part` : `about ${-minutes} min ahead in this part`
}
