import { expectedSecondsOf } from '../prescription/cutSteps.ts'
import type { Step } from '../prescription/step.ts'
import { askedOf, askedStep } from '../session/asking.ts'
import { elapsedSeconds, type Moment } from '../session/clock.ts'
import { effortWording } from '../session/entryPart.ts'
import { describeEmpty } from '../session/entryPrint.ts'
import { openSteps, stepOf, type WalkState } from '../session/state.ts'
import { formatClock } from '../units/duration.ts'
import { adviceLine } from './advice.ts'
import { isOffered, isSameItem, stepNow } from './availability.ts'
import { type ClockText, clockText } from './clockText.ts'
import { minutesOffered } from './closing.ts'
import { openInPart } from './command.ts'
import { type DayLine, dayLines } from './dayLines.ts'
import { beatLabel, keyRows } from './keys.ts'
import { itemsAhead, recordedSteps } from './lists.ts'
import type { RecorderContext, RecorderModel } from './model.ts'
import { type NowText, nowText, textOf } from './nowText.ts'
import { resultText } from './resultText.ts'
import { partsDone, type SplitShown, splitsNow } from './splits.ts'
import { partTitle, stepTitle } from './titles.ts'
import { echoSeconds } from './update.ts'

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
  entry: { label: string; placeholder: string; isField: boolean }
  /** What is said below the entry: what was wrong, else the advice. */
  line: string
  isNotice: boolean
  keys: { key: string; label: string }[]
  /** A list, a question or a page in the place of Now. */
  panel: { title: string; lines: string[]; selected: number | null; top: number } | null
}

/** How long the word "go" is shown, in seconds. */
const goSeconds = 1.5

export function viewOf(model: RecorderModel, context: RecorderContext): RecorderView {
  const { state, now } = model
  return {
    head: headOf(model),
    day: dayLines(state),
    now: nowText(state, context),
    clock: clockText(state, now),
    go: model.signalled !== null && elapsedSeconds(model.signalled, now) < goSeconds,
    open: openText(state),
    next: nextText(state, context),
    lastTime: lastTimeText(state, context),
    echo: model.echo && elapsedSeconds(model.echo.at, now) < echoSeconds ? model.echo.text : null,
    splits: splitsNow(state),
    strip: partsDone(state),
    entry: entryOf(model),
    line: model.notice ?? adviceLine(state, now, context) ?? '',
    isNotice: model.notice !== null,
    keys: footer(model),
    panel: panelOf(model),
  }
}

function headOf(model: RecorderModel): RecorderView['head'] {
  const { state, now } = model
  const step = stepNow(state)
  const items = step ? (state.parts[step.part]?.items.length ?? 0) : 0
  const kind = step ? (state.parts[step.part]?.kind ?? '') : ''
  const gone = formatMinutes(secondsSinceBegun(state, now))
  const expected = formatMinutes(expectedSecondsOf(state.steps, state.prescription))
  return {
    title: state.prescription.title,
    place: step ? `${kind} ${step.item + 1} of ${items}` : 'all done',
    minutes: `${gone} of ${expected} min`,
    saved: model.saved.ok ? 'saved' : `NOT SAVED: ${model.saved.reason}`,
    isSaved: model.saved.ok,
  }
}

/** Since the first effort of the day: a recorder that lay open before it counts for nothing. */
function secondsSinceBegun(state: WalkState, now: Moment): number {
  const begun = state.partStates.map((part) => part.begun).filter((each): each is Moment => each !== null)
  const first = begun.sort((one, other) => one.wall - other.wall)[0]
  if (!first) return 0
  return elapsedSeconds(first, state.finishedAt ?? now)
}

function formatMinutes(seconds: number): string {
  return String(Math.round(seconds / 60))
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

function entryOf(model: RecorderModel): RecorderView['entry'] {
  const { state, mode } = model
  const unit = state.prescription.units.distance
  switch (mode.kind) {
    case 'recording': {
      const step = askedStep(state)
      const asked = step ? askedOf(state, step.id) : null
      if (!step || !asked) return { label: 'all recorded', placeholder: 'f closes the part', isField: true }
      const offered = isOffered(state, step) ? describeEmpty(asked) : null
      return {
        label: stepTitle(step, unit),
        placeholder: offered === null ? 'type the result' : `Enter: ${offered}`,
        isField: true,
      }
    }
    case 'correcting': {
      const step = stepOf(state, mode.step)
      return {
        label: step ? `correct ${stepTitle(step, unit)}` : 'correct',
        placeholder: step ? (resultText(state, step) ?? '') : '',
        isField: true,
      }
    }
    case 'swapping':
      return { label: 'instead', placeholder: 'name of the exercise', isField: true }
    case 'timeLeft':
      return { label: 'minutes left', placeholder: 'for example 25', isField: true }
    case 'noting':
      return { label: 'note', placeholder: 'pain left knee; with: flats, windy', isField: true }
    case 'closing': {
      if (mode.stage === 'effort')
        return {
          label: `effort of ${partTitle(state, mode.part)}`,
          placeholder: '0 to 10, Enter: none',
          isField: true,
        }
      const offered = minutesOffered(state, mode.part)
      return {
        label: 'its minutes',
        placeholder: offered === null ? 'Enter: not known' : `Enter: ${offered}`,
        isField: true,
      }
    }
    default:
      return { label: '', placeholder: '', isField: false }
  }
}

/** The keys that do something now. */
function footer(model: RecorderModel): { key: string; label: string }[] {
  switch (model.mode.kind) {
    case 'recording': {
      const rows = keyRows.filter((row) => row.unavailable(model) === null).sort((a, b) => a.rank - b.rank)
      return rows.map(({ key, label }) => ({ key, label: key === 'Space' ? beatLabel(model) : label }))
    }
    case 'question':
      return [
        ...(model.mode.suggested ? [{ key: 'Enter', label: 'take what is meant' }] : []),
        ...(model.mode.insisted ? [{ key: '!', label: 'take it as typed' }] : []),
        { key: 'Esc', label: 'type again' },
      ]
    case 'picking':
      return [
        { key: '↑ ↓', label: 'pick' },
        { key: 'Enter', label: 'type it again' },
        { key: 'Esc', label: 'leave it' },
      ]
    case 'ordering':
      return model.mode.carrying
        ? [
            { key: '↑ ↓', label: 'move it' },
            { key: 'Enter', label: 'let go' },
          ]
        : [
            { key: '↑ ↓', label: 'pick' },
            { key: 'Enter', label: 'take it up' },
            { key: 'b', label: 'begin it now' },
            { key: 'Esc', label: 'leave it' },
          ]
    case 'undoing':
      return [
        { key: 'u', label: 'take it back' },
        { key: 'Esc', label: 'leave it' },
      ]
    case 'help':
      return [
        { key: 'Esc', label: 'back' },
        { key: '↑ ↓', label: 'read on' },
      ]
    default:
      return [
        { key: 'Enter', label: 'take it' },
        { key: 'Esc', label: 'leave it' },
      ]
  }
}

/** A page that is longer than its room begins at `top`. */
function panelOf(model: RecorderModel): RecorderView['panel'] {
  const panel = listOf(model)
  return panel && { ...panel, top: model.mode.kind === 'help' ? model.mode.top : 0 }
}

function listOf(model: RecorderModel): Omit<NonNullable<RecorderView['panel']>, 'top'> | null {
  const { state, mode } = model
  const unit = state.prescription.units.distance
  switch (mode.kind) {
    case 'question':
      return {
        title: mode.message,
        lines: mode.suggested ? [`meant: ${mode.suggested.text}`] : [],
        selected: null,
      }
    case 'several':
      return {
        title: 'these results, in order',
        lines: mode.answers.map((answer, index) => {
          const step = stepOf(state, mode.steps[index] ?? '')
          const seconds = answer.kind === 'piece' ? answer.result.seconds : null
          return `${step ? stepTitle(step, unit) : ''}  ${seconds === null ? 'done' : formatClock(seconds, 1).replace(/\.0$/, '')}`
        }),
        selected: null,
      }
    case 'undoing':
      return { title: `take back ${mode.what}?`, lines: [], selected: null }
    case 'picking': {
      const steps = recordedSteps(state)
      return {
        title: 'correct which result?',
        lines: steps.map(
          (step) => `${itemName(state, step)}${stepTitle(step, unit)}: ${resultText(state, step) ?? ''}`,
        ),
        selected: mode.index,
      }
    }
    case 'ordering':
      return {
        title: mode.carrying ? 'move it with the arrows' : 'the order of what is left',
        lines: itemsAhead(state).map((step) => state.parts[step.part]?.items[step.item]?.text ?? ''),
        selected: mode.index,
      }
    case 'swapping':
      return { title: 'another exercise from here on', lines: namesUsed(state), selected: null }
    case 'cutOffered':
      return { title: `to fit into ${mode.minutes} min`, lines: mode.lines, selected: null }
    case 'closing': {
      const open = openInPart(model, mode.part)
      const words = effortWording.map(({ value, words: said }) => `${String(value).padStart(2)}  ${said}`)
      return {
        title: open ?? `how hard was ${partTitle(state, mode.part)}, as a whole?`,
        lines: mode.stage === 'effort' ? words : [],
        selected: null,
      }
    }
    case 'help':
      return {
        title: 'keys',
        lines: keyRows.map((row) => {
          const not = row.unavailable(model)
          return `${row.key.padEnd(6)} ${row.does}${not === null ? '' : ` (not now: ${not})`}`
        }),
        selected: null,
      }
    default:
      return null
  }
}

function itemName(state: WalkState, step: Step): string {
  if (step.kind === 'set') return step.superset ? '' : `${step.name}, `
  if (step.kind !== 'piece') return ''
  return `${state.parts[step.part]?.kind ?? ''} ${step.item + 1}, `
}

function namesUsed(state: WalkState): string[] {
  const names = state.steps.flatMap((step) => (step.kind === 'set' ? [step.name] : []))
  return [...new Set(names)]
}
