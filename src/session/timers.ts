import { sum } from 'd3-array'
import type { RecoveryStep } from '../prescription/step.ts'
import { completeSum } from '../units/lists.ts'
import { elapsedSeconds, type Moment, momentAfter, secondsBetween } from './clock.ts'
import { mostUsualMinutes } from './entry/closing.ts'
import type { SessionEvent } from './model.ts'
import {
  inPart,
  measuredOf,
  type PhaseOf,
  resultOf,
  type SessionState,
  stepNow,
  stepOf,
  wasRecoveredIn,
} from './state.ts'

/** The time at which the running clock ends, in seconds on that clock. */
export interface Countdown {
  seconds: number
  /** The clock then starts the next effort. */
  byItself: boolean
  /** Only an estimate (a jog by distance): one signal sounds, and the clock keeps counting up. */
  expected?: true
}

/** Null if the clock only counts up. */
export function countdownOf(state: SessionState): Countdown | null {
  const { phase } = state
  switch (phase.kind) {
    case 'ready':
      return null
    case 'pause':
      return { seconds: phase.seconds, byItself: true }
    case 'rest':
    case 'roundPause': {
      const { seconds, byItself } = phase
      return seconds === null ? null : { seconds, byItself }
    }
    case 'recovery': {
      const step = stepOf(state, phase.step)
      const length = step?.kind === 'recovery' ? recoveryLength(state, step, phase.since) : null
      if (step?.kind !== 'recovery' || length === null) return null
      const seconds = Math.max(0, length + phase.changedBy)
      const byItself = step.startsByItself || step.sendOff !== null
      return isTimed(step) ? { seconds, byItself } : { seconds, byItself, expected: true }
    }
    case 'effort':
      return countdownOfEffort(state, phase)
  }
}

/** Whether a recovery ends by the clock, not by distance. */
function isTimed(step: RecoveryStep): boolean {
  return step.seconds !== null || step.sendOff !== null || step.sameTime
}

/** Seconds a recovery lasts. With a send-off it ends a fixed time after the start of the repeat before it; if no key
 * marked that start, there is no end and the clock only counts up. */
function recoveryLength(state: SessionState, step: RecoveryStep, begun: Moment): number | null {
  if (step.sendOff !== null) {
    const since = measuredOf(state, step.sendOff.from).begun
    return since && Math.max(0, step.sendOff.seconds - activeSeconds(state, since, begun))
  }
  if (!step.sameTime) return step.expectedSeconds
  const times = step.countsWith.map((id) => {
    const recorded = state.recorded.get(id)
    return (recorded?.kind === 'interval' ? recorded.result.seconds : null) ?? measuredOf(state, id).seconds
  })
  return completeSum(times)
}

function countdownOfEffort(state: SessionState, phase: PhaseOf<'effort'>): Countdown | null {
  const step = stepOf(state, phase.step)
  switch (step?.kind) {
    case 'interval':
      return step.seconds === null ? null : { seconds: step.seconds, byItself: step.startsByItself }
    case 'prep': {
      const { amount } = step.prep
      return amount?.kind === 'time' ? { seconds: amount.seconds, byItself: false } : null
    }
    case 'set': {
      const { dose, name } = step
      if (dose.kind === 'time' || dose.kind === 'roundsIn') return { seconds: dose.seconds, byItself: false }
      // The pace of an exercise ends the groups of its cluster sets, except the last one and AMRAP groups.
      const secondsPerRep = state.pace.get(name)
      const reps = dose.kind === 'cluster' ? (dose.groups[phase.group] ?? 'max') : 'max'
      if (dose.kind !== 'cluster' || secondsPerRep === undefined || reps === 'max') return null
      return { seconds: reps * secondsPerRep, byItself: phase.group < dose.groups.length - 1 }
    }
    default:
      return null
  }
}

/** The moment at which the running clock ends; null if it only counts up or is stopped. */
export function endOf(state: SessionState): Moment | null {
  const { since } = state.phase
  const countdown = countdownOf(state)
  if (!countdown || since === null || state.stopped) return null
  return momentAfter(since, countdown.seconds + stoppedSeconds(state.stops, since, null))
}

/** Seconds the running clock shows; 0 without one. */
export function clockSeconds(state: SessionState, now: Moment): number {
  const { since } = state.phase
  return since === null ? 0 : activeSeconds(state, since, now)
}

/** Seconds from one moment to another, at least 0, without stopped time. */
export function activeSeconds({ stops, stopped }: SessionState, from: Moment, to: Moment): number {
  const all = stopped ? [...stops, { from: stopped.since, to }] : stops
  return Math.max(0, elapsedSeconds(from, to) - stoppedSeconds(all, from, to))
}

/** @param to null: to the end of the last stop */
function stoppedSeconds(stops: SessionState['stops'], from: Moment, to: Moment | null): number {
  return sum(stops, (stop) => {
    const begun = isBefore(from, stop.from) ? stop.from : from
    const ended = to && isBefore(to, stop.to) ? to : stop.to
    return elapsedSeconds(begun, ended)
  })
}

/** Stops all clocks from now, or from the beginning of the running clock, to which a stop can also be moved back. */
export function stopClock(state: SessionState, isFromBeginning: boolean, at: Moment): SessionState {
  const { stopped, stops, phase } = state
  const from = (isFromBeginning && phase.since) || at
  if (stopped && !isBefore(from, stopped.since)) return state
  // Where it reaches back into an earlier stop, each second counts once.
  const earlier = stops
    .filter((stop) => isBefore(stop.from, from))
    .map((stop) => (isBefore(from, stop.to) ? { ...stop, to: from } : stop))
  return { ...state, stopped: { since: from }, stops: earlier }
}

export function resume(state: SessionState, at: Moment): SessionState {
  const { stopped, stops } = state
  return stopped ? { ...state, stopped: null, stops: [...stops, { from: stopped.since, to: at }] } : state
}

/** How many seconds late a signal may sound. Signals missed while the lid was closed stay silent. */
export const latestSignal = 1.5

/** The signal due between two readings of the clock: short at 3, 2 and 1 s before an end, long at the end; a jog by
 * distance has one short signal at its expected end. Null without a signal in between. */
export function signalBetween(state: SessionState, from: Moment, to: Moment): 'short' | 'long' | null {
  const end = endOf(state)
  const countdown = countdownOf(state)
  if (!end || !countdown) return null
  const start = state.phase.since
  const last = (countdown.expected ? [0] : [3, 2, 1, 0]).findLast((seconds) => {
    const at = momentAfter(end, -seconds)
    if (start && isBefore(at, start)) return false
    return isBefore(from, at) && !isBefore(to, at) && secondsBetween(at, to) <= latestSignal
  })
  if (last === undefined) return null
  return last === 0 && !countdown.expected ? 'long' : 'short'
}

/** Whether the clock has begun something, not too long ago for a signal. */
export function isSignalled(event: SessionEvent, at: Moment | null, now: Moment): boolean {
  if ((event.type !== 'effortBegun' && event.type !== 'groupBegun') || !event.auto) return false
  return at !== null && elapsedSeconds(at, now) <= latestSignal
}

function isBefore(one: Moment, other: Moment): boolean {
  return secondsBetween(one, other) > 0
}

/** Minutes a part took: by the clock without stopped time, but at least its recorded work and the recoveries
 * in between, because the clock may not have run throughout. Null if neither is known. */
export function minutesMeasured(state: SessionState, part: number): number | null {
  const { begun = null, ended = null } = state.partStates[part] ?? {}
  const byClock = begun && ended && activeSeconds(state, begun, ended) / 60
  const ofWork = secondsOfWork(state, part) / 60
  // A part whose clock ran on for hours was left, overnight for example.
  const isClocked = byClock !== null && byClock <= mostUsualMinutes
  return isClocked || ofWork > 0 ? Math.max(isClocked ? byClock : 0, ofWork) : null
}

/** Minutes of the day so far: those of its parts, as typed or measured, without the time between two parts. The part
 * under way counts up to now. Null if one of them was left for hours. */
export function minutesSoFar(state: SessionState, now: Moment): number | null {
  const part = stepNow(state)?.part ?? -1
  const isUnderWay = state.partStates[part]?.begun
  const upToNow = isUnderWay ? inPart(state, part, () => ({ ended: now })) : state
  const each = upToNow.partStates.map(
    ({ begun, ended, minutes }, index) =>
      minutes ?? minutesMeasured(upToNow, index) ?? (begun && ended ? null : 0),
  )
  return completeSum(each)
}

function secondsOfWork(state: SessionState, part: number): number {
  return sum(state.steps, (step) => {
    if (step.part !== part) return 0
    if (step.kind === 'interval') return resultOf(state, step)?.seconds
    return wasRecoveredIn(state, step) ? step.expectedSeconds : 0
  })
}
