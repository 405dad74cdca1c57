import { sum } from 'd3-array'
import {
  changeAfter,
  isAtTheLimit,
  isExplosive,
  lessText,
  lightPercent,
  outsideOf,
  repeatsAdvice,
  restAdvice,
  restOfInterval,
  type Stretch,
} from '../figures/advice.ts'
import { noise } from '../figures/figure.ts'
import { secondsPerKm } from '../figures/splits.ts'
import { isSameExercise } from '../prescription/exercise.ts'
import { expectedSecondsOf } from '../prescription/expectedTime.ts'
import type { Load, Span } from '../prescription/model.ts'
import { loadAsWritten } from '../prescription/planned.ts'
import { printLoad } from '../prescription/print.ts'
import {
  type IntervalStep,
  type IntervalTarget,
  isSet,
  isSibling,
  repsOf,
  type SetStep,
  type Step,
} from '../prescription/step.ts'
import { afterRunText } from '../progress/lift.ts'
import { type Lifter, loadKilograms, loadNear } from '../progress/loadSteps.ts'
import { standingPains } from '../progress/pain.ts'
import type { Moment } from '../session/clock.ts'
import { isSameLoad, kilogramsOfLoad, maximumOf, shownLoadOf } from '../session/load.ts'
import type { LiftedLoad, SetResult } from '../session/model.ts'
import {
  isPainNoted,
  isWarningNoted,
  needsADoctor,
  type Pain,
  painsNoted,
  placeKey,
} from '../session/pain.ts'
import { intervalsOf, type Recorded, resultOf, type SessionState, stepNow, stepOf } from '../session/state.ts'
import { activeSeconds, clockSeconds } from '../session/timers.ts'
import { hardIntervals } from '../summary/hard.ts'
import { isMeantToTheLimit, splitsDone } from '../summary/performed.ts'
import { counted, printNumber } from '../units/decimal.ts'
import { formatPace, paceIn } from '../units/duration.ts'
import { formatMeters } from '../units/length.ts'
import type { RecorderModel } from './model.ts'
import { paceSpan } from './nowText.ts'

/** The most useful piece of advice at this moment; null without any. It never blocks. */
export function adviceOf(model: RecorderModel): string | null {
  const { state, context } = model
  if (!context.advice || isWarningNoted(state) || painsBefore(model).some(needsADoctor)) return null
  return (
    loadAdvice(model) ??
    // Comes before advice about pace, which could be in range at a heart rate that is too high.
    effortTargetAdvice(state, context.hrMax, 'over') ??
    (isPainNotedToday(model) ? null : askingAdvice(model))
  )
}

/** Advice that asks for more, for hurry, or for holding a pace at any cost; never given after pain. */
function askingAdvice(model: RecorderModel): string | null {
  const { state, context, now } = model
  return (
    restOfIntervalAdvice(state) ??
    repeatAdvice(state) ??
    effortTargetAdvice(state, context.hrMax, 'under') ??
    bestSoFar(model) ??
    runCostAdvice(model) ??
    timeAdvice(state, now)
  )
}

/** Minutes ahead of or behind the plan within a part, if more than five. Beyond an hour something else came between. This
 * program's own rules. */
function timeAdvice(state: SessionState, now: Moment): string | null {
  const step = stepNow(state)
  const part = step ? state.partStates[step.part] : null
  if (!step || !part?.begun || part.closed) return null
  // A skipped step counts neither as spent nor as saved time.
  const steps = state.steps.filter((each) => each.part === step.part && !state.skipped.has(each.id))
  const ahead = steps.filter((each) => !state.passed.has(each.id))
  if (ahead.length === steps.length) return null
  // A part whose first start was forgotten begins with the end of that step, so its work is not in it.
  const before = steps.filter(({ id }) => state.measured.get(id)?.ended === part.begun)
  const secondsOf = (each: readonly Step[]) => expectedSecondsOf(each, state.prescription)
  // The rest before the steps ahead is expected too.
  const expected = secondsOf(steps) - secondsOf(ahead) - secondsOf(before)
  // What is under way has its own time before it is late.
  const inTime = Math.min(clockSeconds(state, now), 'step' in state.phase ? secondsOf([step]) : 0)
  const minutes = Math.round((activeSeconds(state, part.begun, now) - expected - inTime) / 60)
  // Results that are typed in afterwards do not tell how long they took.
  const isSaid = Math.abs(minutes) > 5 && Math.abs(minutes) <= 60
  if (!isSaid || !steps.every((each) => isByClock(state, each))) return null
  return minutes > 0 ? `about ${minutes} min behind in this part` : `about ${-minutes} min ahead in this part`
}

/** A typed time this many seconds above its clock was not run by the clock but, say, on a road. This program's own
 * rule. */
const offClock = 60

/** Whether the clock ran while a step was done; a step without a result counts as such. */
function isByClock({ recorded, measured }: SessionState, { id }: Step): boolean {
  const done = recorded.get(id)
  if (!done) return true
  const typed = done.kind === 'interval' ? done.result.seconds : null
  return measured.has(id) && (typed ?? 0) <= (measured.get(id)?.seconds ?? 0) + offClock
}

/* Lifting. */

function lastSetOf(state: SessionState, next: SetStep): { step: SetStep; result: SetResult } | null {
  const step = state.steps
    .filter(isSet)
    .findLast((each) => isSibling(each, next) && each.name === next.name && each.number < next.number)
  const result = step && resultOf(state, step)
  return step && result ? { step, result } : null
}

/** What the last set's effort suggests for the next set on the same line. Null where the next set already has a
 * different load, written or typed: then the last set says nothing about it. */
function loadAdvice(model: RecorderModel): string | null {
  const { state } = model
  const next = stepNow(state)
  if (next?.kind !== 'set') return null
  const last = lastSetOf(state, next)
  const load = last?.result.load
  if (!last || !load || isMeantToTheLimit(last.step, last.result)) return null
  const { shown } = shownLoadOf(state, next)
  if (shown === null || !isSameLoad(shown, load)) return null
  const { rpe, failed } = last.result
  const hasPain = isPainNotedToday(model)
  // A pain may be why it failed: no arithmetic.
  if (failed && hasPain) return null
  const change = changeAfter({
    rpe,
    failed,
    target: last.step.rpe,
    noHeavier:
      hasPain ||
      (load.kind === 'bodyweight' && load.added <= 0) ||
      hasFailed(model) ||
      next.every !== null ||
      isExplosive(next.name) ||
      isLight(state, last.step, load),
  })
  return change === null ? null : changeWords(model, next, load, change, failed)
}

/** What to do about a change of the load by a share, with the loads that can be made. Null if none is heavier. */
function changeWords(
  { state, context }: RecorderModel,
  next: SetStep,
  load: LiftedLoad,
  change: number,
  failed: boolean,
): string | null {
  const { name, side } = next
  const lifter: Lifter = {
    name,
    side,
    bodyKg: state.bodyMassKg,
    equipmentOf: (unit) => context.equipmentOf(unit, state.prescription, name),
  }
  const lifted = loadAsWritten(load)
  const other = loadNear(lifted, 1 + change, lifter, { isNear: true })
  const reps = leastReps(next.dose)
  if (other === null) {
    const fewer = Math.min(2, (reps ?? 3) - 1)
    if (change > 0) return null
    return fewer > 0 ? `same load, ${counted(fewer, 'rep')} fewer` : 'rest longer, or stop here'
  }
  if (!failed) return `usual advice: ${printLoad(other)} for the next set`
  const kilograms = (each: Load) => loadKilograms(each, name, state.bodyMassKg) ?? 0
  const typed = other.kind === 'mass' ? printNumber(other.from) : printLoad(other).replace('bodyweight', 'bw')
  return `${lessText(kilograms(lifted), kilograms(other))} is ${printLoad(other)}: type x ${typed}, or ${reps === 1 ? 'stop here' : 'do fewer reps'}`
}

/** The repetitions of which some can be dropped; of a timed or carried set none can. */
function leastReps(dose: SetStep['dose']): number | null {
  if (dose.kind === 'time' || dose.kind === 'distance') return 1
  return ['reps', 'atLeast', 'cluster'].includes(dose.kind) ? repsOf(dose, 1) : null
}

/** Whether a load is at most 70 % of the maximum, by its written percentage or by the known maximum. */
function isLight(state: SessionState, step: SetStep, load: LiftedLoad): boolean {
  if (step.load?.kind === 'percent') return step.load.to <= lightPercent
  const maximum = maximumOf(state, step.name)
  return maximum !== null && kilogramsOfLoad(load) <= (maximum.kg * lightPercent) / 100 + noise
}

/** Whether a repetition failed today, in any exercise and any session: then nothing advises more load. */
function hasFailed({ state, context }: RecorderModel): boolean {
  const isFailed = (step: SetStep) => {
    const result = resultOf(state, step)
    return result?.failed && !isMeantToTheLimit(step, result)
  }
  return context.earlierToday.hasFailed || state.steps.filter(isSet).some(isFailed)
}

/** Whether a pain was noted in this session, or earlier today and not ended in this session by a 0. */
function isPainNotedToday(model: RecorderModel): boolean {
  return isPainNoted(model.state) || painsBefore(model).length > 0
}

/** The pains before this session that count today, without those of which it has a number itself. */
function painsBefore({ state, context }: RecorderModel): Pain[] {
  const notedHere = painsNoted(state).map(placeKey)
  return standingPains(context.earlierToday.pains).filter((pain) => !notedHere.includes(placeKey(pain)))
}

/** Before the first set of a lift, after running in this session: its maximum after running, and fresh. */
function runCostAdvice({ state, context }: RecorderModel): string | null {
  const next = stepNow(state)
  if ((next?.kind !== 'set' && next?.kind !== 'warm-up') || state.phase.kind === 'effort') return null
  const isSame = (name: string) => isSameExercise(name, next.name)
  const done = state.steps.filter((step) => state.recorded.has(step.id))
  if (done.some((step) => step.kind === 'set' && isSame(step.name))) return null
  if (!done.some((step) => step.kind === 'interval' && state.parts[step.part]?.kind === 'run')) return null
  const cost = context.runCost(next.name)
  return cost && afterRunText(cost, state.prescription.units.mass)
}

/** Shown once, while the set in question is the last one. */
function bestSoFar({ state, context }: RecorderModel): string | null {
  const lifts = [...state.recorded].map(([id, recorded]) => liftOf(stepOf(state, id), recorded))
  const last = lifts.pop() ?? null
  const before = last && context.bestBefore(last.name, last.reps)
  if (!last || !before || last.kg <= before.kg + noise) return null
  const isMatched = lifts.some(
    (each) =>
      each !== null &&
      isSameExercise(each.name, last.name) &&
      each.reps >= last.reps &&
      each.kg >= last.kg - noise,
  )
  return isMatched ? null : `most for ${last.reps} so far (before: ${before.text})`
}

/** A recorded set with a load; null for a cluster set and for anything else. */
function liftOf(step: Step | null, recorded: Recorded): { name: string; reps: number; kg: number } | null {
  if (step?.kind !== 'set' || recorded.kind !== 'set' || step.dose.kind === 'cluster') return null
  const { load, reps } = recorded.result
  return load && reps ? { name: step.name, reps, kg: kilogramsOfLoad(load) } : null
}

/* Running. */

/** The mean so far of a continuous run, and the pace left for the rest of it. */
function restOfIntervalAdvice(state: SessionState): string | null {
  const now = stepNow(state)
  if (now?.kind !== 'interval' || !now.split) return null
  const steps = splitsOf(state, now)
  const done = splitsDone(state, steps).flatMap(({ result: { seconds, meters }, range }) =>
    seconds && meters && range ? [{ seconds, meters, range }] : [],
  )
  const ahead = steps.filter((step) => !resultOf(state, step)?.seconds && !state.skipped.has(step.id))
  const left = stretchOf(
    ahead.flatMap(({ meters, target }) =>
      meters && target?.seconds ? [{ meters, range: target.seconds }] : [],
    ),
  )
  const last = done.at(-1)
  if (!last) return null
  const seconds = sum(done, (split) => split.seconds)
  const effort = steps.flatMap((step) => resultOf(state, step)?.rpe ?? []).at(-1) ?? null
  const rest = restOfInterval({ ...stretchOf(done), seconds, effort, negative: now.negative }, left)
  if (!rest) return null
  const distanceUnit = state.prescription.units.distance
  const unit = state.parts[now.part]?.items[now.item]?.works[now.work]?.paceUnit ?? distanceUnit
  switch (rest.kind) {
    case 'endsInRange':
      return `mean so far ${formatPace(rest.meanSecondsPerKm, unit)}; the ${formatMeters(left.meters, unit === '500 m' ? distanceUnit : unit)} left in ${paceSpan(rest.secondsPerKm, unit)} ends in the range`
    case 'outOfReach':
      return restAdvice.outOfReach
    case 'ahead':
      return restAdvice.ahead(`${Math.max(1, Math.round(paceIn(rest.aheadSecondsPerKm, unit)))} s/${unit}`)
    case 'keepOn':
      return `negative split: compare the next one with the last, ${formatPace(secondsPerKm(last.meters, last.seconds), unit)}`
  }
}

/** The splits of the interval that a split belongs to; of a repeated one, only those of this repeat. */
function splitsOf(state: SessionState, split: IntervalStep): IntervalStep[] {
  const all = intervalsOf(state, split)
  const at = all.findIndex((step) => step.id === split.id)
  const begin = all.findLastIndex((step, index) => index < at && step.endsInterval) + 1
  const end = all.findIndex((step, index) => index >= at && step.endsInterval)
  return all.slice(begin, end + 1)
}

function stretchOf(splits: readonly Stretch[]): Stretch {
  const from = sum(splits, ({ range }) => range.from)
  const to = sum(splits, ({ range }) => range.to)
  return { meters: sum(splits, ({ meters }) => meters), range: { from, to } }
}

/** The repeats or splits of the current item, and the last one with a result. */
function intervalsNow(state: SessionState): { intervals: IntervalStep[]; last: IntervalStep | undefined } {
  const now = stepNow(state)
  const intervals = now?.kind === 'interval' || now?.kind === 'recovery' ? intervalsOf(state, now) : []
  return { intervals, last: intervals.findLast((step) => state.recorded.has(step.id)) }
}

function repeatAdvice(state: SessionState): string | null {
  const { intervals, last } = intervalsNow(state)
  if (!last || last.split) return null
  const ofWork = intervals.filter((step) => step.work === last.work)
  const splits = splitsDone(state, ofWork)
  const done = splits.flatMap(({ result: { seconds, precision }, range }) =>
    seconds && range ? [{ seconds, precision: precision ?? 1, range }] : [],
  )
  const effort = countsEffort(last.target) ? (resultOf(state, last)?.rpe ?? null) : null
  // Nothing about the range after a repeat of which nobody knows how far it went.
  return repeatsAdvice(splits.at(-1)?.range ? done : [], last.grade, effort)
}

/** An effort at the limit speaks against a pace or a heart rate, but not where the effort itself is prescribed. */
function countsEffort(target: IntervalTarget | null): boolean {
  if (target === null || target.rpe !== null) return false
  return target.secondsPerKm !== null || target.seconds !== null || target.heartRate !== null
}

/** Advice on a heart rate or an effort over or under its target, while another interval follows. An easy interval
 * that was hard counts as over. Once the last typed effort is at the limit nothing counts as under, since that would
 * ask for more. */
function effortTargetAdvice(state: SessionState, hrMax: number | null, way: 'over' | 'under'): string | null {
  const { intervals, last } = intervalsNow(state)
  const result = last ? resultOf(state, last) : null
  if (!last?.target || !result) return null
  const lastEffort = intervals.flatMap((step) => resultOf(state, step)?.rpe ?? []).at(-1) ?? null
  if (way === 'under' && isAtTheLimit(lastEffort)) return null
  const { heartRate, rpe, word } = last.target
  return (
    outside(way, 'hr', result.heartRate, heartRate) ??
    outside(way, 'effort', result.rpe, rpe) ??
    (way === 'over' && word === 'easy' ? tooHardForEasy(state, last, hrMax) : null)
  )
}

/** `easy` is judged by what counts as hard running; other words are not judged. */
function tooHardForEasy(state: SessionState, last: IntervalStep, hrMax: number | null): string | null {
  if (!hardIntervals(state, last.part, hrMax).includes(last)) return null
  const { heartRate = null, rpe = null } = resultOf(state, last) ?? {}
  const byEffort = rpe === null ? 'that pace' : `effort ${printNumber(rpe)}`
  const what = heartRate === null || hrMax === null ? byEffort : `hr ${heartRate}`
  return `${what} is hard, not easy: ease off`
}

function outside(
  way: 'over' | 'under',
  what: string,
  value: number | null,
  range: Span | null,
): string | null {
  const off = value === null || range === null ? 0 : outsideOf(value, range)
  if (value === null || off === 0 || off > 0 !== (way === 'over')) return null
  return `${what} ${printNumber(value)}, ${printNumber(Math.abs(off))} ${way} the range`
}
