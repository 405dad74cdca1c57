import { sum } from 'd3-array'
import { hardEffort, hardHeartShare, slowestHardPace } from '../figures/advice.ts'
import type { Prescription } from '../prescription/model.ts'
import { goalIn, type IntervalStep, isInterval, type Step } from '../prescription/step.ts'
import { kilogramsOfLoad, maximumOf } from '../session/load.ts'
import type { SessionState } from '../session/state.ts'
import { joined } from '../units/lists.ts'
import { type Done, stepsDone } from './performed.ts'

/* Compares what was meant with what was done: hard running, heavy sets, easy days. All this program's own rules. */

const legWords =
  /squat|dead-?lift|lunge|leg ?press|hip|hinge|rdl|step-? ?up|good ?morning|leg ?(extension|curl)|calf|calves|hamstring|glute|nordic|pistol|(?<!\b(?:shoulder|arm|scapular?|horizontal)[ -])(?:adduct|abduct|swing)|sled|jump|\bhops?\b|bound|clean|snatch/i

/** Lifts of the arms or the trunk, even in a part called legs. */
const otherWords =
  /pull|chin|\bdips?\b|push|bench|\brows?\b|overhead|plank|sit-? ?up|crunch|(?<!leg )curl|raise to bar/i

/** Whether a lift trains the legs, by its name: split squats, lunges, hinges and jumps do. */
export function isLegLift(exercise: string): boolean {
  return legWords.test(exercise)
}

const heavyShare = 0.8
const heavyEffort = 8
const mostReps = 6
/** A set that failed after more repetitions was light: `18!` of 20 calf raises. */
const mostRepsOfFailure = 12

/** Whether a set is heavy: at least 80 % of the known maximum, or at most 6 repetitions at an effort of 8 or more, or
 * failed within 12 repetitions. */
function isHeavySet(state: SessionState, { step: { name, load }, result }: Done<'set'>): boolean {
  const { reps, rpe, failed } = result
  if (failed && (reps ?? 0) <= mostRepsOfFailure) return true
  if (load?.kind === 'percent' && load.to >= heavyShare * 100) return true
  const kg = kilogramsOfLoad(result.load)
  const maximum = load?.kind === 'bodyweight' ? null : maximumOf(state, name)
  if (kg !== null && maximum !== null && kg >= heavyShare * maximum.kg) return true
  return (rpe ?? 0) >= heavyEffort && reps !== null && reps <= mostReps
}

/** Whether a set is heavy for the legs: a heavy set of a leg lift, or, in a part called legs, of any lift that is
 * not plainly one of the arms or the trunk. */
function isHeavyLegs(state: SessionState, done: Done<'set'>): boolean {
  const { name, part } = done.step
  const isInLegs = /\blegs?\b/i.test(state.parts[part]?.name ?? '') && !otherWords.test(name)
  return (isLegLift(name) || isInLegs) && isHeavySet(state, done)
}

/** The number of sets that were heavy for the legs. */
export function heavyLegSetsOf(state: SessionState): number {
  return stepsDone(state, 'set').filter((done) => isHeavyLegs(state, done)).length
}

const hardWords: readonly string[] = ['tempo', 'threshold', 'hard', 'fast', 'all out', 'race', 'trial']
const easyWords: readonly string[] = ['easy', 'relaxed', 'warm-up', 'cool-down']

/** Whether an interval is meant to be hard: by its word (tempo, threshold, hard, fast, all out, race, trial),
 * an effort of 7 or more, or a pace that is hard for the goal; without a goal, any pace or time is hard. */
export function isHardRunning(step: IntervalStep, prescription: Prescription): boolean {
  const { target } = step
  if (target === null) return false
  if (target.word !== null || target.rpe !== null) return isHardByWord(step)
  if (target.secondsPerKm === null) return false
  const hard = hardSecondsPerKm(prescription)
  return hard === null || target.secondsPerKm.from <= hard
}

/** The slowest pace that is hard for the goal of a day; null without a goal, and if that says nothing about it. */
function hardSecondsPerKm(prescription: Prescription): number | null {
  const goal = goalIn(prescription)
  return goal && slowestHardPace(goal)
}

/** Like `isHardRunning`, by the word or the effort alone. */
function isHardByWord({ target }: IntervalStep): boolean {
  if (target === null || target.word === null) return (target?.rpe?.to ?? 0) >= hardEffort
  return hardWords.includes(target.word)
}

/** The recorded intervals of a part that were hard, each by the first of these that is known: its heart rate against the
 * highest one (88 %), its effort or that of the part (7), its pace against the goal's (`hardSecondsPerKm`), its word. In
 * a part with an effort of 7 or more those that are hard by pace or word count; if there are none, all do.
 * @param hrMax beats a minute; null if unknown */
export function hardIntervals(state: SessionState, part: number, hrMax: number | null): IntervalStep[] {
  const all = stepsDone(state, 'interval', stepsIn(state, part))
  const effort = state.partStates[part]?.effort ?? null
  const isHard = (done: Done<'interval'>) =>
    isHardByPace(state, done) || (effort !== null && isHardByWord(done.step))
  const areAllHard = effort !== null && !all.some(isHard)
  const hard = all.filter((done) => {
    const { heartRate, rpe } = done.result
    if (hrMax !== null && heartRate !== null) return heartRate >= hardHeartShare * hrMax
    if (rpe !== null) return rpe >= hardEffort
    return (effort === null || effort >= hardEffort) && (areAllHard || isHard(done))
  })
  return hard.map(({ step }) => step)
}

/** The seconds of running whose distance is not known. */
export function unmeasuredSeconds(
  runs: readonly { meters: number | null; seconds: number | null }[],
): number {
  return sum(runs, ({ meters, seconds }) => (meters === null ? seconds : 0))
}

function isHardByPace({ prescription }: SessionState, { step, result }: Done<'interval'>): boolean {
  const hard = hardSecondsPerKm(prescription)
  const isLevel = (step.grade ?? 0) <= 1
  if (hard !== null && isLevel && result.seconds !== null && result.meters !== null)
    return result.seconds / (result.meters / 1000) <= hard
  return isHardRunning(step, prescription)
}

function stepsIn({ steps }: SessionState, part: number): Step[] {
  return steps.filter((step) => step.part === part)
}

/** An easy day may have strides: hard running, by word or effort, of up to this many metres or seconds. */
const strideMeters = 1000
const strideSeconds = 300

/** `easy` if the plan says so: the day's title or the part's name has the word and its hard running is strides at
 * most, or every interval is easy by its word; null if not. */
export function meantOf(state: SessionState, part: number): 'easy' | null {
  const planned = state.parts[part]
  if (planned?.kind !== 'run' && planned?.kind !== 'cross') return null
  const intervals = stepsIn(state, part).filter(isInterval)
  const hard = intervals.filter(isHardByWord)
  const isStrides =
    sum(hard, ({ meters }) => meters ?? 0) <= strideMeters && unmeasuredSeconds(hard) <= strideSeconds
  const title = `${state.prescription.title} ${planned.name ?? ''}`
  if (isStrides && /\b(easy|recovery|regeneration)\b/i.test(title)) return 'easy'
  const words = new Set(intervals.map(({ target }) => target?.word ?? ''))
  return words.has('easy') && [...words].every((word) => easyWords.includes(word)) ? 'easy' : null
}

/** Whether a part turned out hard: it has hard running or a heavy set. Null if it has neither running nor sets. */
export function wasHard(state: SessionState, part: number, hrMax: number | null): boolean | null {
  const steps = stepsIn(state, part)
  if (stepsDone(state, 'interval', steps).length > 0) return hardIntervals(state, part, hrMax).length > 0
  const sets = stepsDone(state, 'set', steps)
  if (sets.length === 0) return null
  return sets.some((done) => isHeavySet(state, done))
}

/** By how many beats a heart rate was above the written one; 0 if it was not, or if either is unknown. */
export function beatsOver({ step, result }: Done<'interval'>): number {
  const most = step.target?.heartRate?.to ?? null
  return most === null || result.heartRate === null ? 0 : Math.max(0, result.heartRate - most)
}

/** Whether any heart rate of a part was above the written one. */
export function isOverItsHeartRate(state: SessionState, part: number): boolean {
  return stepsDone(state, 'interval', stepsIn(state, part)).some((done) => beatsOver(done) > 0)
}

/** `hr 168 and effort 8 in fact`, for a part that was meant to be easy and was hard, or above its written heart rate;
 * null for any other. Strides that are meant to be hard do not count. */
export function harderThanMeant(state: SessionState, part: number, hrMax: number | null): string | null {
  const done = stepsDone(state, 'interval', stepsIn(state, part))
  const effort = state.partStates[part]?.effort ?? null
  const isHeartKnown = hrMax !== null && done.some(({ result }) => result.heartRate !== null)
  const isHard =
    isOverItsHeartRate(state, part) ||
    (done.length > 0 && !isHeartKnown && (effort ?? 0) >= hardEffort) ||
    hardIntervals(state, part, hrMax).some((step) => !isHardByWord(step))
  if (meantOf(state, part) === null || !isHard) return null
  const rates = done.flatMap(({ result }) => result.heartRate ?? [])
  const facts = joined(' and ', [
    rates.length > 0 && `hr ${Math.max(...rates)}`,
    effort !== null && `effort ${effort}`,
  ])
  return `${facts || 'hard'} in fact`
}
