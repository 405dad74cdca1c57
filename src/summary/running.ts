import { cumsum, sort, sum } from 'd3-array'
import { halvesOf, paceOfSplits, secondsPerKm, splitFigures } from '../figures/splits.ts'
import { goalIn, goalSecondsPerKm } from '../prescription/step.ts'
import { isRaceWord } from '../prescription/words.ts'
import { type SessionState, wasRecoveredIn } from '../session/state.ts'
import { completeSum } from '../units/lists.ts'
import type { FiguresContext, RunningItem, Summary } from './model.ts'
import { type DoneSplit, type DoneWork, metersRunInLifts, stepsDone } from './performed.ts'

export interface WorkView {
  done: DoneWork
  item: RunningItem
}

type Goal = Summary['running']['goal']
type Race = FiguresContext['race']

/** The run parts, or the cross parts, of a session. Metres are the sum of those that are known, null if none of what
 * was done are; a recovery by distance counts as metres if an interval before it was recorded and it was not skipped
 * itself, and never as seconds. Running in lift parts counts as metres, without an item of its own; its seconds, and so
 * those of all, are not known.
 * @param all works of the session
 * @param goal null for cross parts, which are not compared with it */
export function runningOf(
  state: SessionState,
  kind: 'run' | 'cross',
  all: readonly WorkView[],
  goal: Goal,
): Summary['running'] {
  const works = all.filter(({ done }) => done.kind === kind)
  const results = works.flatMap(({ done }) => done.splits.map(({ result }) => result))
  const inLifts = kind === 'run' ? metersRunInLifts(state) : 0
  const workMeters = sum(results, ({ meters }) => meters) + inLifts
  const recoveries = sum(state.parts, (part, index) =>
    part.kind === kind ? recoveryMeters(state, index) : 0,
  )
  const known = (meters: number) => (meters === 0 && results.length > 0 ? null : meters)
  return {
    meters: known(workMeters + recoveries),
    seconds: inLifts > 0 ? null : completeSum(results.map(({ seconds }) => seconds)),
    workMeters: known(workMeters),
    goal,
    items: works.map(({ item }) => item),
  }
}

export function goalOf({ prescription }: SessionState): Goal {
  const goal = goalIn(prescription)
  const secondsPerKm = goalSecondsPerKm(prescription)
  return goal && secondsPerKm !== null ? { ...goal, secondsPerKm } : null
}

/** Metres of one part, recoveries included. */
export function metersOfPart(state: SessionState, part: number): number {
  const done = stepsDone(state, 'interval').filter(({ step }) => step.part === part)
  return sum(done, ({ result }) => result.meters) + recoveryMeters(state, part)
}

/** Metres of the recoveries by distance of a part that count as run. */
function recoveryMeters(state: SessionState, part: number): number {
  return sum(state.steps, (step) => (step.part === part && wasRecoveredIn(state, step) ? step.meters : 0))
}

/** A length counts as nominal if it differs only by rounding: by at most this share. */
const lengthTolerance = 1e-6

/** The figures of one work.
 *
 * If nothing was done, `splits` is empty and `meters` and `seconds` are 0. They are null
 * if something was done and its distance, or its time, is unknown (`secondsPerKm` is then that of the
 * splits that have both).
 * @param goal null without one; @param race of the plan */
export function runningItemOf(done: DoneWork, goal: Goal, race: Race = null): RunningItem {
  const { splits, work } = done
  const both = splits.map(({ result }) => result).filter(hasBoth)
  const pace = paceOfSplits(both)
  const judged = splits.filter((split) => split.target !== null)
  const compared = work.judgedAgainstGoal && goal !== null && pace !== null
  return {
    text: work.text,
    line: done.line,
    splits: splits.map(splitOf),
    meters: completeSum(splits.map((split) => split.result.meters)),
    seconds: completeSum(splits.map((split) => split.result.seconds)),
    secondsPerKm: pace,
    ...splitFigures(fullSplits(done)),
    halves: hasHalves(done) ? halvesOf(both) : null,
    inRange: judged.filter((split) => split.target === 'in').length,
    judged: judged.length,
    offGoalSecondsPerKm: compared ? pace - goal.secondsPerKm : null,
    gradePercent: done.steps[0]?.grade ?? null,
    goal: raceOf(done, goal, race),
  }
}

/** Whether a work is one race or time trial, from end to end. */
function isRace({ steps, work }: DoneWork): boolean {
  const isMeant = steps.every(({ target }) => isRaceWord(target?.word))
  return steps.length > 0 && isMeant && !work.repeats
}

/** A race or trial run to its end: finish time, the gap to the goal over the same distance (the day's, else the
 * plan's), its extreme splits, and the running times beside those of the even card (`cardRaceOf`); null for other
 * work, and if one of its splits is missing. */
function raceOf(done: DoneWork, goal: Goal, race: Race): RunningItem['goal'] {
  if (!isRace(done) || done.splits.length < done.steps.length) return null
  const known = done.splits.map(({ result }) => result).filter(hasBoth)
  if (known.length === 0 || known.length < done.splits.length) return null
  const covered = cumsum(known, (split) => split.meters)
  const running = cumsum(known, (split) => split.seconds)
  const [meters = 0, finishSeconds = 0] = [covered.at(-1), running.at(-1)]
  const target = [goal, race].find((each) => isRaceDistance(meters, each)) ?? null
  const ofCard = cardRaceOf(meters, goal, race)
  const numbers = sort(fullSplits(done), ({ seconds }) => seconds).map(({ number }) => number)
  const count = numbers.length < fewestForExtremes ? 0 : Math.min(3, Math.floor(numbers.length / 2))
  return {
    finishSeconds,
    offGoalSeconds: target === null ? null : finishSeconds - target.seconds,
    fastest: numbers.slice(0, count),
    slowest: numbers.slice(numbers.length - count).reverse(),
    card:
      ofCard === null
        ? []
        : [...covered].map((meters, index) => ({
            meters,
            runningSeconds: running[index] ?? 0,
            cardSeconds: (meters * ofCard.seconds) / ofCard.meters,
          })),
  }
}

/** Whether a distance is that of a race, within half a per cent. This program's own rule. */
function isRaceDistance(meters: number, race: { meters: number } | null): boolean {
  return race !== null && Math.abs(meters - race.meters) <= race.meters * 0.005
}

/** The race whose even card is used for comparison: the plan's on the plan's day, else the day's goal, else the
 * plan's; each only over its own distance. Null without any. */
export function cardRaceOf(
  meters: number,
  goal: Goal,
  race: Race,
): { meters: number; seconds: number; isPlans: boolean } | null {
  const plans = race && isRaceDistance(meters, race) ? { ...race, isPlans: true } : null
  const goals = goal && isRaceDistance(meters, goal) ? { ...goal, isPlans: false } : null
  return plans?.isThatDay ? plans : (goals ?? plans)
}

/** Fewer splits than this can be seen at a glance. This program's own rule. */
const fewestForExtremes = 4

/** With fewer repeats than this, half of them is hardly more than one. This program's own rule. */
const fewestForHalves = 4

/** Whether halves can be compared: not across a gap (a split that was skipped, or has no distance or no time), in a
 * ladder, or with fewer than four repeats. */
export function hasHalves({ splits, steps, work }: DoneWork): boolean {
  const numbers = splits.map(({ step }) => step.number)
  const isGapless = numbers.every((number, index) => index === 0 || number === (numbers[index - 1] ?? 0) + 1)
  const isLadder =
    work.nominalMeters === null &&
    steps.some(({ meters, seconds }) => meters !== null || seconds !== steps[0]?.seconds)
  const areTooFew = work.repeats && splits.length < fewestForHalves
  return isGapless && !isLadder && !areTooFew && splits.every(({ result }) => hasBoth(result))
}

function splitOf({ result, target }: DoneSplit): RunningItem['splits'][number] {
  const { meters, seconds, heartRate, heartRateMax, rpe } = result
  const pace = hasBoth(result) ? secondsPerKm(result.meters, result.seconds) : null
  return { meters, seconds, secondsPerKm: pace, target, heartRate, heartRateMax, rpe }
}

/** The timed splits of the nominal length, each with its number in the item, so that a skipped one leaves a gap. */
export function fullSplits(done: DoneWork): { number: number; seconds: number }[] {
  const nominal = done.work.nominalMeters
  if (nominal === null) return []
  return done.splits.flatMap(({ step, result }) => {
    const isFull = result.meters !== null && Math.abs(result.meters - nominal) <= nominal * lengthTolerance
    return isFull && !step.short && result.seconds !== null
      ? [{ number: step.number, seconds: result.seconds }]
      : []
  })
}

/** Whether a result has a distance and a time. */
export function hasBoth<R extends { meters: number | null; seconds: number | null }>(
  result: R,
): result is R & { meters: number; seconds: number } {
  return result.meters !== null && result.seconds !== null
}
