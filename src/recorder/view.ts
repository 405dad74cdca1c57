import { groups } from 'd3-array'
import { expectedSecondsOf } from '../prescription/expectedTime.ts'
import { hasResult, isSameItem, type ResultStep, type Step, stepsByItem } from '../prescription/step.ts'
import { elapsedSeconds, type Moment } from '../session/clock.ts'
import { lineText, placeOf, stepTitle } from '../session/names.ts'
import { intervalsOf, type SessionState, stepNow } from '../session/state.ts'
import { minutesSoFar } from '../session/timers.ts'
import { splitsDone } from '../summary/performed.ts'
import { splitRow } from '../summary/runningText.ts'
import type { SplitRow } from '../summary/splitBars.ts'
import { joined, pickedIndex, windowStart } from '../units/lists.ts'
import { adviceOf } from './advice.ts'
import { type ClockText, clockText } from './clockText.ts'
import { closingText, lineTitle, partTitle, resultsText } from './labels.ts'
import type { EntryLabel, Hint, Panel, RecorderModel } from './model.ts'
import { keysNow, modeOf, pressText } from './modes/dispatch.ts'
import { type NowText, nowText, pendingText, stepText } from './nowText.ts'
import { echoSeconds, goSeconds } from './update.ts'

/** The texts of the recorder's screen, apart from the day's lines: those change only with the state (`dayLines`). */
export interface RecorderView {
  head: { title: string; planned: string; place: string; minutes: string; saved: string; isSaved: boolean }
  now: NowText
  clock: ClockText
  /** The long signal sounded a moment ago. */
  go: boolean
  /** `1 result to enter`; empty if none is pending. */
  pending: string
  next: string
  lastTime: string
  echo: string | null
  /** The splits or repeats so far, each after its number: `3 1:48.2`. */
  splits: SplitRow[]
  /** `isField`: false where keys pick or answer instead. */
  entry: EntryLabel & { isField: boolean }
  /** The line below the entry: what was wrong, else the advice. */
  line: string
  isNotice: boolean
  keys: Hint[]
  panel: Panel | null
}

export function viewOf(model: RecorderModel): RecorderView {
  const { state, now, echo, signalled } = model
  const shown = modeOf(model)
  const prompt = shown.prompt?.(model)
  return {
    head: headOf(model),
    now: nowText(model),
    clock: clockText(state, now),
    go: signalled !== null && elapsedSeconds(signalled, now) < goSeconds,
    pending: stepNow(state) ? pendingText(state) : '',
    next: nextText(model),
    lastTime: lastTimeText(model),
    echo: echo && elapsedSeconds(echo.at, now) < echoSeconds ? echo.text : null,
    splits: splitsNow(state),
    entry: { ...(prompt ?? { label: '', placeholder: '' }), isField: prompt !== undefined },
    line: model.notice ?? adviceOf(model) ?? '',
    isNotice: model.notice !== null,
    keys: keysNow(model),
    panel: shown.panel?.(model) ?? null,
  }
}

function headOf(model: RecorderModel): RecorderView['head'] {
  const { state } = model
  const step = stepNow(state)
  const line = step ? lineTitle(state, step) : null
  return {
    title: state.prescription.title,
    planned: model.context.planned ?? '',
    place: line ? `${line.label} of ${line.of}` : pendingText(state) === '' ? 'all done' : 'to enter',
    minutes: minutesText(state, model.now),
    saved: model.saved.ok ? 'saved' : `NOT SAVED: ${model.saved.reason}`,
    isSaved: model.saved.ok,
  }
}

/** Minutes of the day so far, if known, of the expected minutes without cut or skipped steps. */
function minutesText(state: SessionState, now: Moment): string {
  const planned = state.steps.filter((each) => !state.skipped.has(each.id))
  const expected = `${Math.round(expectedSecondsOf(planned, state.prescription) / 60)} min`
  const gone = minutesSoFar(state, now)
  return gone === null ? `${expected} expected` : `${Math.round(gone)} of ${expected}`
}

function nextText(model: RecorderModel): string {
  const { state } = model
  const now = stepNow(state)
  if (!now) return ''
  const group = nextGroupText(state, now)
  if (group !== null) return group
  const following = state.steps.slice(state.steps.indexOf(now) + 1).find((step) => !state.passed.has(step.id))
  if (!following) return 'then the end of the day'
  // Of a cluster set all of it, whichever group is under way.
  const still: RecorderModel = { ...model, state: { ...state, phase: { kind: 'ready', since: null } } }
  const { what } = stepText(still, following)
  if (following.kind === 'warm-up') return `then ${following.name} warm-up, ${what}`
  const isSame = isSameItem(now, following) && what === stepText(still, now).what
  if (isSame) return `then ${stepTitle(state, following)}`
  if (following.kind === 'fuel') return `then fuel ${what}`
  return following.kind === 'interval' && following.of > 1
    ? `then ${placeOf(following)}: ${what}`
    : `then ${what}`
}

/** `then group 3 of 3` in a cluster set with a group left after the current one, or after the one that this pause
 * precedes; else null. */
function nextGroupText({ phase }: SessionState, now: Step): string | null {
  if (!('group' in phase) || phase.step !== now.id) return null
  if (now.kind !== 'set' || now.dose.kind !== 'cluster') return null
  const count = now.dose.groups.length
  return phase.group + 1 < count ? `then group ${phase.group + 2} of ${count}` : null
}

function lastTimeText({ state, context }: RecorderModel): string {
  const step = stepNow(state)
  if (step === null || step.kind === 'prep' || step.kind === 'fuel') return ''
  const { mass, distance } = state.prescription.units
  const isTimed = intervalsOf(state, step).some(({ meters }) => meters === null)
  const key =
    step.kind === 'set' || step.kind === 'warm-up'
      ? { exercise: step.name, unit: mass }
      : { text: lineText(state, step), ...(isTimed && { far: distance }) }
  const last = context.lastTime(key)
  return last === null ? '' : `last time ${last}`
}

/** The recorded splits or repeats of the current work. */
function splitsNow(state: SessionState): SplitRow[] {
  const now = stepNow(state)
  if (now?.kind !== 'interval' && now?.kind !== 'recovery') return []
  const intervals = intervalsOf(state, now).filter((step) => step.of > 1)
  const work = now.kind === 'interval' ? now.work : intervals[0]?.work
  const done = splitsDone(
    state,
    intervals.filter((step) => step.work === work),
  )
  const width = String(intervals.length).length
  return done.map((split) => {
    const row = splitRow(split, state.prescription.units.distance)
    return { ...row, text: `${String(split.step.number).padStart(width)} ${row.text}` }
  })
}

/** One line of the day: a part's heading, an item, or what is below an item: the rest of it, its results. */
export interface DayLine {
  kind: 'part' | 'item' | 'below'
  mark: 'done' | 'now' | 'ahead' | 'skipped' | 'none'
  text: string
}

/** Every item of the day in the order in which it is done, with its results. */
export function dayLines(state: SessionState): DayLine[] {
  const lines: DayLine[] = []
  const now = stepNow(state)
  let part = -1
  for (const steps of stepsByItem(state.steps)) {
    const first = steps[0] as Step
    if (first.part !== part) {
      part = first.part
      lines.push({ kind: 'part', mark: 'none', text: partHeading(state, part) })
    }
    lines.push({ kind: 'item', mark: markOf(state, steps, now), text: lineText(state, first) })
    const results = itemResults(state, steps.filter(hasResult))
    if (results !== '' && results !== 'done') lines.push({ kind: 'below', mark: 'none', text: results })
  }
  return lines
}

/** The results of an item; for a superset after each exercise's name: `pull-up 6, 5; dip 8 x bw+10`. */
function itemResults(state: SessionState, steps: readonly ResultStep[]): string {
  const byName = groups(steps, (step) => (step.kind === 'set' && step.superset ? step.name : ''))
  const texts = byName.map(([name, ofName]) => {
    const results = resultsText(state, ofName)
    return results !== '' && joined(' ', [name, results])
  })
  return joined('; ', texts)
}

function partHeading(state: SessionState, part: number): string {
  const now = state.partStates[part]!
  return joined(', ', [partTitle(state, part), now.closed && closingText(now)])
}

function markOf(state: SessionState, steps: readonly Step[], now: Step | null): DayLine['mark'] {
  if (now && steps[0] && isSameItem(steps[0], now) && !state.finished) return 'now'
  if (!steps.every((step) => state.passed.has(step.id))) return 'ahead'
  const counted = steps.some(hasResult) ? steps.filter(hasResult) : steps
  const isLeft = (step: Step) =>
    state.skipped.has(step.id) ||
    (hasResult(step) && !state.recorded.has(step.id) && state.partStates[step.part]?.closed === true)
  return counted.every(isLeft) ? 'skipped' : 'done'
}

/** The lines that fit, with the current item in the middle third if the day is longer than the room. */
export function dayWindow(lines: readonly DayLine[], room: number): DayLine[] {
  const now = pickedIndex(lines, ({ mark }) => mark === 'now')
  const start = windowStart(now, lines.length, room)
  return lines.slice(start, start + room)
}

/** `recorded 5 x 100`, `skipped` */
export function echoLine(echo: string): string {
  return echo === 'skipped' ? echo : `recorded ${echo}`
}

/** A new panel with its title and keys, and its rows, or the picked one. */
function spokenPanel({ title, lines, selected }: Panel, isNew: boolean, keys: string): string[] {
  if (selected === null) return isNew ? [title, ...lines, keys] : []
  const row = lines[selected] ?? ''
  return isNew ? [title, row, keys] : [row]
}

/** What a screen reader prints when the view changes: only the changes, as whole lines. */
export function spokenLines(before: RecorderView | null, after: RecorderView): string[] {
  const lines: string[] = []
  const changed = (part: (view: RecorderView) => string) => before === null || part(before) !== part(after)
  const say = (text: string) => {
    if (text !== '') lines.push(text)
  }
  if (after.echo !== null && changed((view) => view.echo ?? '')) say(echoLine(after.echo))
  if (after.isNotice && changed((view) => view.line)) say(after.line)
  if (after.panel && changed((view) => JSON.stringify(view.panel))) {
    const isNew = before?.panel?.title !== after.panel.title
    spokenPanel(after.panel, isNew, after.entry.isField ? '' : pressText(after.keys)).forEach(say)
  }
  if (changed((view) => view.now.what + view.now.where)) {
    say(joined(', ', [after.now.what, after.now.where]))
    say(after.next)
    say(after.lastTime)
  }
  if (changed((view) => view.clock.label)) say(`${after.clock.label} ${after.clock.text}`)
  const asked = ({ entry }: RecorderView) =>
    entry.label ? `asked: ${entry.label}, ${entry.placeholder}` : ''
  if (changed(asked)) say(asked(after))
  if (!after.isNotice && changed((view) => (view.isNotice ? '' : view.line))) say(after.line)
  if (!after.head.isSaved && changed((view) => view.head.saved)) say(after.head.saved)
  return lines
}
