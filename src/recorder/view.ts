import { openSteps, type WalkState } from '../session/state.ts'
import { isSameItem, stepNow } from './availability.ts'
import type { ClockText } from './clockText.ts'
import { type DayLine, dayLines } from './dayLines.ts'
import { type EntryLabel, entryOf } from './entryLabel.ts'
import { footer } from './footer.ts'
import { partsDone, type SplitShown, splitsNow, stepTitle } from './labels.ts'
import type { RecorderContext, RecorderModel, StandingModel } from './model.ts'
import { type NowText, nowText, textOf } from './nowText.ts'
import { type Panel, panelOf } from './panel.ts'
import { passingOver } from './passing.ts'

/** Everything the recorder's screen says, as text. */
export interface RecorderView {
  head: { title: string; place: string; minutes: string; saved: string; isSaved: boolean }
  day: DayLine[]
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
  keys: { key: string; label: string }[]
  panel: Panel | null
}

export function viewOf(model: RecorderModel, context: RecorderContext): RecorderView {
  const { state } = model
  const { minutes, clock, go, echo, line } = passingOver(model, context)(model.now)
  return {
    head: headOf(model, minutes),
    day: dayLines(state),
    now: nowText(state, context),
    clock,
    go,
    open: openText(state),
    next: nextText(state, context),
    lastTime: lastTimeText(state, context),
    echo,
    splits: splitsNow(state),
    strip: partsDone(state),
    entry: entryOf(model),
    line,
    isNotice: model.notice !== null,
    keys: footer(model),
    panel: panelOf(model, model.now),
  }
}

function headOf(model: StandingModel, minutes: string): RecorderView['head'] {
  const { state } = model
  const step = stepNow(state)
  const items = step ? (state.parts[step.part]?.items.length ?? 0) : 0
  const kind = step ? (state.parts[step.part]?.kind ?? '') : ''
  return {
    title: state.prescription.title,
    place: step ? `${kind} ${step.item + 1} of ${items}` : 'all done',
    minutes,
    saved: model.saved.ok ? 'saved' : `NOT SAVED: ${model.saved.reason}`,
    isSaved: model.saved.ok,
  }
}

function openText(state: WalkState): string {
  const open = openSteps(state)
  if (open.length === 0) return ''
  return open.length === 1 ? '1 result open' : `${open.length} results open`
}

/** What comes after what is now. */
function nextText(state: WalkState, context: RecorderContext): string {
  const now = stepNow(state)
  if (!now) return ''
  const following = state.steps.slice(state.steps.indexOf(now) + 1).find((step) => !state.passed.has(step.id))
  if (!following) return 'then: the end of the day'
  const same = isSameItem(now, following)
  if (same && now.kind !== 'recovery' && following.kind !== 'recovery') return `then: ${stepTitle(following)}`
  const { what } = textOf(state, following, context)
  return following.kind === 'piece' && following.of > 1
    ? `then ${following.number} of ${following.of}: ${what}`
    : `then: ${what}`
}

function lastTimeText(state: WalkState, context: RecorderContext): string {
  const step = stepNow(state)
  const item = step ? state.parts[step.part]?.items[step.item] : null
  const key =
    step?.kind === 'set' || step?.kind === 'ramp' ? { exercise: step.name } : { text: item?.text ?? '' }
  const last = step && step.kind !== 'prep' && step.kind !== 'fuel' ? context.lastTime(key) : null
  return last === null ? '' : `last time ${last}`
}
