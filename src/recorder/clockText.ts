import type { IntervalStep, Step } from '../prescription/step.ts'
import { elapsedSeconds, type Moment, momentAfter, secondsBetween, timeTextOf } from '../session/clock.ts'
import { type SessionState, stepOf } from '../session/state.ts'
import { clockSeconds, countdownOf, endOf, latestSignal } from '../session/timers.ts'
import { formatClock } from '../units/duration.ts'
import { partWord } from './labels.ts'
import { isPartDone } from './targets.ts'

export interface ClockText {
  label: string
  text: string
  /** Small text beside it; may be empty. */
  beside: string
  /** How it looks from a distance: an effort, a rest, a rest that is over and counts up, or none of these. */
  kind: 'work' | 'rest' | 'over' | 'idle'
  /** For a rest, the share that is left; for one that is over, how much of its length has passed again. 0 to 1. */
  share: number
  /** A countdown has at most three seconds left. */
  isEnding: boolean
}

/** A countdown is shown inverted in its last seconds. */
const endingSeconds = 3

/** After this many seconds over, a rest says so instead of counting minutes. */
const longOver = 600

export function clockText(state: SessionState, now: Moment): ClockText {
  const { phase, stopped } = state
  const idle: ClockText = {
    label: labelOf(state),
    text: formatClock(0),
    beside: '',
    kind: 'idle',
    share: 0,
    isEnding: false,
  }
  if (stopped) {
    const text = formatClock(floor(elapsedSeconds(stopped.since, now)))
    return { ...idle, label: 'stopped', text, beside: 'h starts it again' }
  }
  if (phase.since === null) return idle
  const elapsed = clockSeconds(state, now)
  const countdown = countdownOf(state)
  const kind = phase.kind === 'effort' ? 'work' : phase.kind === 'ready' ? 'idle' : 'rest'
  const up: ClockText = { ...idle, text: formatClock(floor(elapsed)), kind }
  if (!countdown) return up
  const share = countdown.seconds > 0 ? Math.max(0, 1 - floor(elapsed) / countdown.seconds) : 0
  if (countdown.expected) return { ...up, share, beside: `about ${formatClock(countdown.seconds)}` }
  const left = countdown.seconds - elapsed
  if (left > 0)
    return { ...up, share, text: formatClock(Math.ceil(left - 1e-6)), isEnding: left <= endingSeconds }
  if (phase.kind === 'effort')
    return { ...up, beside: isLastPaced(state) ? '' : `of ${formatClock(countdown.seconds)}` }
  const again = countdown.seconds > 0 ? Math.min(1, floor(-left) / countdown.seconds) : 1
  const over = { ...up, kind: 'over' as const, share: again }
  if (-left < longOver) return { ...over, text: `+${formatClock(floor(-left))}`, beside: 'over' }
  const end = momentAfter(now, left)
  return { ...over, text: 'over', beside: `over since ${timeTextOf(end).slice(11, 16)}` }
}

/** Whether the last group of a paced cluster set runs: a key ends it, so its pace is not a countdown. */
function isLastPaced(state: SessionState): boolean {
  const { phase } = state
  const step = phase.kind === 'effort' ? stepOf(state, phase.step) : null
  return step?.kind === 'set' && step.dose.kind === 'cluster'
}

function floor(seconds: number): number {
  return Math.floor(seconds + 1e-6)
}

function labelOf(state: SessionState): string {
  const { phase } = state
  const step = 'step' in phase ? stepOf(state, phase.step) : null
  switch (phase.kind) {
    case 'ready':
      return phase.since === null ? 'ready' : `since the ${sinceWhat(state)}`
    case 'roundPause':
      return 'pause'
    case 'recovery':
      return step?.kind === 'recovery' ? step.move : 'jog'
    case 'effort':
      return step === null ? 'set' : effortWord(state, step)
    default:
      return phase.kind
  }
}

function effortWord(state: SessionState, step: Step): string {
  if (step.kind === 'interval') return intervalWord(state, step)
  if (step.kind !== 'set') return step.kind
  if ('stations' in step.dose) return 'rounds'
  return step.dose.kind === 'time' ? 'hold' : 'set'
}

/** What ended last, by a key or because its result was typed: the set while its part goes on, else the whole run
 * or lift. */
function sinceWhat(state: SessionState): string {
  const last = [...state.measured].filter(([id]) => state.passed.has(id)).at(-1)
  const step = last ? stepOf(state, last[0]) : null
  if (!step) return 'start'
  const part = state.parts[step.part]
  if (part && isPartDone(state, step.part)) return partWord(part.kind)
  if (step.kind === 'set') return 'set'
  return step.kind === 'interval' ? intervalWord(state, step) : 'last item'
}

function intervalWord({ parts }: SessionState, step: IntervalStep): string {
  if (step.split) return 'split'
  if (step.of > 1) return 'repeat'
  return parts[step.part]?.kind === 'cross' ? 'piece' : 'run'
}

const milestones = [60, 30, 10] as const

/** "one minute left" and so on, when the clock passed such a mark between two readings, unless that is no longer true
 * because the lid was closed; "go" at the end; else null. */
export function milestoneBetween(state: SessionState, from: Moment, to: Moment): string | null {
  const end = endOf(state)
  if (!end) return null
  const before = secondsBetween(from, end)
  const after = secondsBetween(to, end)
  if (before > 0 && after <= 0) return 'go'
  const whole = countdownOf(state)?.seconds ?? 0
  const passed = milestones.find(
    (mark) => whole > mark && before > mark && after <= mark && mark - after <= latestSignal,
  )
  if (passed === undefined) return null
  return passed === 60 ? 'one minute left' : `${passed} seconds left`
}
