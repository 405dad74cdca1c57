import { expectedSecondsOf } from '../prescription/estimate.ts'
import { elapsedSeconds, type Moment } from '../session/clock.ts'
import { openSteps, type SessionState } from '../session/state.ts'
import { adviceOf } from './advice.ts'
import { isSameItem, stepNow } from './availability.ts'
import { type ClockText, clockText } from './clockText.ts'
import { partsDone, type SplitShown, splitsNow, stepTitle } from './labels.ts'
import type { RecorderContext, RecorderModel } from './model.ts'
import type { EntryLabel, Hint, Panel } from './modes/mode.ts'
import { modeOf } from './modes/modes.ts'
import { type NowText, nowText, textOf } from './nowText.ts'
import { echoSeconds, goSeconds } from './update.ts'

/** Everything the recorder's screen says, as text, but the day: that changes with the state alone (`dayLines`). */
export interface RecorderView {
  head: { title: string; planned: string; place: string; minutes: string; saved: string; isSaved: boolean }
  now: NowText
  clock: ClockText
  /** The long signal sounded a moment ago. */
  go: boolean
  open: string
  next: string
  lastTime: string
  echo: string | null
  /** The splits or repeats so far of the work that is now. */
  splits: SplitShown[]
  /** How much of each part is done. */
  strip: ReturnType<typeof partsDone>
  entry: EntryLabel
  /** What is said below the entry: what was wrong, else the advice. */
  line: string
  isNotice: boolean
  keys: Hint[]
  panel: Panel | null
}

export function viewOf(model: RecorderModel, context: RecorderContext): RecorderView {
  const { state, now, echo, signalled, mode } = model
  const shown = modeOf(mode)
  return {
    head: headOf(model, context),
    now: nowText(state, context),
    clock: clockText(state, now),
    go: signalled !== null && elapsedSeconds(signalled, now) < goSeconds,
    open: openText(state),
    next: nextText(state, context),
    lastTime: lastTimeText(state, context),
    echo: echo && elapsedSeconds(echo.at, now) < echoSeconds ? echo.text : null,
    splits: splitsNow(state),
    strip: partsDone(state),
    entry: shown.prompt(model, mode),
    line: model.notice ?? adviceOf(state, context, now) ?? '',
    isNotice: model.notice !== null,
    keys: shown.hints(model, mode),
    panel: shown.panel(model, mode, now, context),
  }
}

function headOf(model: RecorderModel, context: RecorderContext): RecorderView['head'] {
  const { state } = model
  const step = stepNow(state)
  const items = step ? (state.parts[step.part]?.items.length ?? 0) : 0
  const kind = step ? (state.parts[step.part]?.kind ?? '') : ''
  return {
    title: state.prescription.title,
    planned: context.planned ?? '',
    place: step ? `${kind} ${step.item + 1} of ${items}` : 'all done',
    minutes: minutesText(state, model.now),
    saved: model.saved.ok ? 'saved' : `NOT SAVED: ${model.saved.reason}`,
    isSaved: model.saved.ok,
  }
}

/** Minutes since the first effort of the day, of those expected without what was cut or skipped. */
function minutesText(state: SessionState, now: Moment): string {
  const begun = state.partStates.map((part) => part.begun).filter((each): each is Moment => each !== null)
  const first = begun.sort((one, other) => one.wall - other.wall)[0]
  const meant = state.steps.filter((each) => !state.skipped.has(each.id))
  const expected = roundedMinutes(expectedSecondsOf(meant, state.prescription))
  const gone = first ? roundedMinutes(elapsedSeconds(first, state.finishedAt ?? now)) : 0
  return `${gone} of ${expected} min`
}

function roundedMinutes(seconds: number): number {
  return Math.round(seconds / 60)
}

function openText(state: SessionState): string {
  const open = openSteps(state)
  if (open.length === 0) return ''
  return open.length === 1 ? '1 result to enter' : `${open.length} results to enter`
}

/** What comes after what is now. */
function nextText(state: SessionState, context: RecorderContext): string {
  const now = stepNow(state)
  if (!now) return ''
  const following = state.steps.slice(state.steps.indexOf(now) + 1).find((step) => !state.passed.has(step.id))
  if (!following) return 'then: the end of the day'
  const same = isSameItem(now, following)
  if (same && now.kind !== 'recovery' && following.kind !== 'recovery') return `then: ${stepTitle(following)}`
  const { what } = textOf(state, following, context)
  return following.kind === 'piece' && following.of > 1
    ? `then ${following.split ? 'split' : 'repeat'} ${following.number} of ${following.of}: ${what}`
    : `then: ${what}`
}

function lastTimeText(state: SessionState, context: RecorderContext): string {
  const step = stepNow(state)
  const item = step ? state.parts[step.part]?.items[step.item] : null
  const key =
    step?.kind === 'set' || step?.kind === 'ramp' ? { exercise: step.name } : { text: item?.text ?? '' }
  const last = step && step.kind !== 'prep' && step.kind !== 'fuel' ? context.lastTime(key) : null
  return last === null ? '' : `last time ${last}`
}
