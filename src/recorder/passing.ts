import { expectedSecondsOf } from '../prescription/cutSteps.ts'
import { elapsedSeconds, type Moment } from '../session/clock.ts'
import type { WalkState } from '../session/state.ts'
import { adviceOver } from './advice.ts'
import { type ClockText, clockText } from './clockText.ts'
import type { RecorderContext, StandingModel } from './model.ts'
import { echoSeconds } from './update.ts'

/** What passing time alone changes of what the screen says while recording. */
export interface Passing {
  minutes: string
  clock: ClockText
  /** The long signal sounded a moment ago. */
  go: boolean
  echo: string | null
  /** What was wrong, else the advice. */
  line: string
}

/** How long the word "go" is shown, in seconds. */
export const goSeconds = 1.5

/** What it says at a moment, as long as nothing but the time changes. What is the same at all moments is found out
 * once: it is asked every second, for hours. */
export function passingOver(model: StandingModel, context: RecorderContext): (now: Moment) => Passing {
  const { state, notice, echo, signalled } = model
  const minutes = minutesOver(state)
  const advice = notice === null ? adviceOver(state, context) : () => notice
  return (now) => ({
    minutes: minutes(now),
    clock: clockText(state, now),
    go: signalled !== null && elapsedSeconds(signalled, now) < goSeconds,
    echo: echo && elapsedSeconds(echo.at, now) < echoSeconds ? echo.text : null,
    line: advice(now) ?? '',
  })
}

/** Whether nothing differs, unless it is the time that the clock shows. */
export function isSameButTime(one: Passing, other: Passing): boolean {
  return isSameBut('clock', one, other) && isSameBut('text', one.clock, other.clock)
}

/** Whether two values of the same keys hold the same under each, one of them left out. */
export function isSameBut<T extends object>(left: keyof T, one: T, other: T): boolean {
  return (Object.keys(one) as (keyof T)[]).every((key) => key === left || one[key] === other[key])
}

function minutesOver(state: WalkState): (now: Moment) => string {
  const begun = state.partStates.map((part) => part.begun).filter((each): each is Moment => each !== null)
  // Since the first effort of the day: a recorder that lay open before it counts for nothing.
  const first = begun.sort((one, other) => one.wall - other.wall)[0]
  // What was cut or skipped is not expected any more.
  const meant = state.steps.filter((each) => !state.skipped.has(each.id))
  const expected = roundedMinutes(expectedSecondsOf(meant, state.prescription))
  return (now) => {
    const gone = first ? roundedMinutes(elapsedSeconds(first, state.finishedAt ?? now)) : 0
    return `${gone} of ${expected} min`
  }
}

function roundedMinutes(seconds: number): number {
  return Math.round(seconds / 60)
}
