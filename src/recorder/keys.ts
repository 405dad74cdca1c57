import { sum } from 'd3-array'
import { type IntervalStep, isSameItem, type SetStep } from '../prescription/step.ts'
import { timeTextOf } from '../session/clock.ts'
import { describeEmpty } from '../session/entry/entry.ts'
import { advanceFacts } from '../session/newEvents.ts'
import { type Prompt, promptedStep, promptOf } from '../session/prompt.ts'
import { undoOf } from '../session/replay.ts'
import { pendingSteps, stepAhead, stepNow, stepOf, stepUnderWay } from '../session/state.ts'
import { applyFacts, recording } from './apply.ts'
import { closesText, entryTitle, whyNoAdvance } from './labels.ts'
import {
  type Mode,
  type ModeKey,
  type ModeObject,
  type RecorderModel,
  stay,
  type Updated,
  withMode,
  withNotice,
} from './model.ts'
import { closeOrAsk } from './modes/closing.ts'
import { enter, whyNothingToEnter } from './modes/enter.ts'
import { clearKey, isKey, leaveKey, panelWith } from './modes/keysAndPanels.ts'
import { ordering, picking } from './modes/lists.ts'
import { noting } from './modes/notes.ts'
import { skip, undo } from './modes/skipAndUndo.ts'
import { swapping } from './modes/swap.ts'
import { timeLeft } from './modes/timeLeft.ts'
import { holdUnderWay, isOffered, partToClose, restStep, stepToAddTo, swappable } from './targets.ts'

/** A key while recording: in the key line and on the page of keys. */
export interface KeyRow extends ModeKey {
  /** One line for the page of keys. */
  does: string
  /** Null if it does something now, else the reason, in a few words. */
  unavailable: (model: RecorderModel) => string | null
  /** Whether the letter begins an entry now and is therefore text; absent where it never is. */
  isText?: (model: RecorderModel) => boolean
  /** The label at this moment, where it changes; null for the usual one. */
  labelNow?: (model: RecorderModel) => string | null
  /** It acts even while the field holds something, because it is not text. */
  whileTyping?: true
  /** What it will do, where a word cannot take it back because it leaves: the key waits while its letter may belong to
   * a word. */
  waits?: string
}

interface KeyOn<Target> extends Omit<KeyRow, 'unavailable' | 'run'> {
  /** What the key acts on now; else the reason why it does nothing, in a few words. */
  target: (model: RecorderModel) => Target | string
  /** @param again pressed twice in a row */
  run: (model: RecorderModel, target: Target, again: boolean, pressed: string) => Updated
}

function keyRow<Target>({ target, run, ...row }: KeyOn<Target>): KeyRow {
  const unavailable = (model: RecorderModel) => {
    const found = target(model)
    return typeof found === 'string' ? found : null
  }
  return {
    ...row,
    unavailable,
    run: (model, pressed) => {
      const found = target(model)
      // Ends what the previous key showed or waited for.
      const cleared = { ...model, notice: null, pressedOnce: null }
      if (typeof found === 'string') return withNotice(cleared, found)
      return run(cleared, found, model.pressedOnce === row.key, pressed)
    },
  }
}

const always = (): true => true
const sessionClosed = 'the session is closed'

/** All keys of the recorder, the most useful first. The handler, the footer, the page of keys and the documentation
 * read this table. */
export const keyRows: readonly KeyRow[] = [
  keyRow({
    key: 'Space',
    label: 'begin or done',
    labelNow: advanceLabel,
    does: 'moves on: begins a set, a repeat, a run, or ends it (PageDown and → do the same)',
    target: ({ state }) => whyNoAdvance(state) ?? true,
    isVital: true,
    run: (model) => applyFacts(model, ...advanceFacts(model.state, model.now)),
  }),
  keyRow({
    key: 'Enter',
    label: 'record',
    does: 'records what is typed or, with nothing typed, the offered result',
    target: (model) => whyNothingToEnter(model) ?? true,
    isVital: true,
    whileTyping: true,
    run: (model) => enter(model),
  }),
  keyRow({
    key: 'u',
    label: 'undo',
    does: 'undoes the last action and names it',
    target: (model) => undoOf(model.events) ?? 'nothing to undo since the start',
    isVital: true,
    run: undo,
  }),
  keyRow({
    key: 'b',
    label: 'stop earlier',
    does: 'moves the stop back to when this clock started: in a rest, to the end of the set',
    target: ({ state }) => (state.stopped && state.phase.since) ?? 'no clock is stopped',
    isText: ({ state }) => state.stopped === null,
    run: (model, since) =>
      applyFacts(
        { ...model, notice: 'stopped since this clock began' },
        { type: 'held', since: timeTextOf(since) },
      ),
  }),
  keyRow({
    key: '↑ ↓',
    label: 'rest +/-',
    does: 'lengthens or shortens this rest by 15 s, a pause by 5 s',
    target: (model) => restStep(model) ?? 'no rest counts down',
    whileTyping: true,
    run: (model, seconds, _, pressed) =>
      applyFacts(model, { type: 'restChanged', seconds: pressed === 'up' ? seconds : -seconds }),
  }),
  keyRow({
    key: 'f',
    label: 'close part',
    does: 'closes the part: asks for its effort (0 to 10) and minutes; after the last part shows the summary',
    target: ({ state }) => partToClose(state) ?? 'every part is closed',
    run: closeOrAsk,
  }),
  keyRow({
    key: 's',
    label: 'skip',
    does: 'skips the current step; pressed twice, the rest of the item; asks first while a result is still to be entered',
    target: ({ state }) => (state.finished ? null : stepNow(state)) ?? 'nothing is left to skip',
    run: skip,
  }),
  keyRow({
    key: 'e',
    label: 'correct',
    does: 'corrects an earlier result: pick it, type a new figure, or edit what the field holds',
    target: ({ state }) => {
      if (state.finished) return sessionClosed
      return state.recorded.size > 0 ? state.recorded.size - 1 : 'nothing is recorded yet'
    },
    run: (model, index) => withMode(model, picking(index)),
  }),
  keyRow({
    key: 'n',
    label: 'note',
    does: 'adds a note to the last result; asks what it is about if that was a while ago',
    target: ({ state }) => (state.finished ? sessionClosed : true),
    run: (model) => withMode(model, noting),
  }),
  keyRow({
    key: 'a',
    label: 'one more',
    does: 'adds one more set or repeat to this item',
    target: (model) => stepToAddTo(model) ?? 'only a set or a repeat can be added to',
    run: addOne,
  }),
  keyRow({
    key: 'x',
    label: 'swap',
    does: 'swaps this exercise for another from here on',
    target: (model) => swappable(model) ?? 'no set is next',
    // Then it begins the load of the set whose result is still to be entered: x 102.5.
    isText: (model) => swappable(model) === null && promptedStep(model.state)?.kind === 'set',
    run: (model, { id }) => withMode(model, swapping(id)),
  }),
  keyRow({
    key: 'o',
    label: 'order',
    does: 'changes the order: moves an item up or down, or begins one now',
    target: ({ state }) => stepAhead(state) ?? 'nothing is left to move',
    run: (model) => withMode(model, ordering(0, false)),
  }),
  keyRow({
    key: 't',
    label: 'time left',
    does: 'fits the rest of the day into the minutes you type: 25, 25 run, 25 lift',
    target: ({ state }) => stepAhead(state) ?? 'nothing is left to cut',
    run: (model) => withMode(model, timeLeft),
  }),
  keyRow({
    key: 'h',
    label: 'stop clock',
    labelNow: ({ state }) => (state.stopped ? 'start clock' : null),
    does: 'stops all clocks, or starts them again',
    target: ({ state }) => (state.finished ? sessionClosed : (state.phase.since ?? 'no clock runs')),
    run: (model) =>
      applyFacts(model, model.state.stopped ? { type: 'resumed' } : { type: 'held', since: null }),
  }),
  keyRow({
    key: 'p',
    label: 'pace',
    does: "lets the clock end the groups of this exercise's cluster sets, or stops that",
    target: (model) => {
      const step = swappable(model)
      return step?.dose.kind === 'cluster' ? step : 'only a cluster set is paced'
    },
    run: pace,
  }),
  keyRow({
    key: '?',
    label: 'keys',
    does: 'shows this page',
    target: always,
    run: (model) => withMode(model, help),
  }),
  keyRow({
    key: 'q',
    label: 'quit',
    does: 'quits; everything is saved, and the next start resumes here',
    waits: 'q quits',
    target: always,
    run: leave,
  }),
]

/** The row of a pressed key, by its name on the keyboard; null for a key without a command. */
export function rowOf(pressed: string): KeyRow | null {
  return keyRows.find(({ key }) => isKey(key, pressed)) ?? null
}

/** The field is about the next result; a letter in the empty field is a command. */
export const recordingMode: ModeObject = {
  prompt: ({ state, draft }) => {
    const step = promptedStep(state)
    const warmUp = stepNow(state)
    if (warmUp?.kind === 'warm-up' && draft === '' && pendingSteps(state).length === 0) {
      const all = state.steps.filter((each) => each.kind === 'warm-up' && isSameItem(each, warmUp))
      const number = all.indexOf(warmUp) + 1
      return {
        label: `warm-up set ${number} of ${all.length}`,
        short: `warm-up ${number}/${all.length}`,
        placeholder: `no result: Space ${stepUnderWay(state) === warmUp ? 'ends it' : 'begins'}`,
      }
    }
    if (step === null) return { label: 'all recorded', placeholder: closesText(state) }
    const prompt = promptOf(state, step)
    const isHeld = holdUnderWay(state)?.id === step.id
    const offered = isHeld ? 'as long as held' : isOffered(state, step) ? describeEmpty(prompt) : null
    return {
      ...entryTitle(state, step),
      placeholder: offered === null ? whatToType(prompt) : `Enter: ${offered}`,
    }
  },
  keys: (model) => {
    const isTyping = model.draft !== ''
    const rows = keyRows
      .filter((row) => row.unavailable(model) === null && (!isTyping || row.whileTyping))
      .map((row) => ({ ...row, label: (!isTyping && row.labelNow?.(model)) || row.label }))
    return isTyping ? [...rows, clearKey] : rows
  },
  /** A command that does nothing now says why; any other key does nothing. */
  otherKey: (model, pressed) =>
    rowOf(pressed)?.run(model, pressed) ?? stay({ ...model, notice: null, pressedOnce: null }),
}

/** What to type where Enter alone records nothing. */
function whatToType(prompt: Prompt): string {
  if (prompt.kind === 'interval') return prompt.seconds === null ? 'type its time' : 'type how far it was'
  const isRounds = prompt.kind === 'set' && prompt.dose.kind === 'roundsIn'
  return isRounds ? 'rounds + reps, such as 6+12' : 'type the result'
}

const help: Mode = {
  kind: 'help',
  panel: (model) =>
    panelWith({
      title: 'keys',
      lines: keyRows.map((row) => {
        const reason = row.unavailable(model)
        return `${row.key.padEnd(6)} ${row.does}${reason === null ? '' : ` (not now: ${reason})`}`
      }),
      hang: 7,
      isWholePage: true,
    }),
  keys: () => [leaveKey('back')],
  onText: (model) => stay(recording(model)),
  otherKey: (model) => stay(recording(model)),
}

/** What Space does now, in a word or two for the footer. */
function advanceLabel({ state }: RecorderModel): string {
  const { phase } = state
  if (state.stopped) return 'go on'
  if (phase.kind === 'recovery') return 'next'
  if (phase.kind !== 'effort') return 'begin'
  const step = stepOf(state, phase.step)
  return step?.kind === 'interval' && step.split && !step.endsInterval ? 'split' : 'done'
}

/** Quitting can lose unsaved results, so it takes a second press. */
function leave(model: RecorderModel, _: true, again: boolean): Updated {
  if (model.saved.ok || again) return { model, effects: [{ kind: 'leave' }] }
  const notice = `not saved: ${model.saved.reason}; q again quits and tries to save elsewhere`
  return stay({ ...model, notice, pressedOnce: 'q' })
}

function addOne(model: RecorderModel, like: SetStep | IntervalStep): Updated {
  const added = model.events.filter((event) => event.type === 'stepAdded').length
  const notice = `one more ${like.kind === 'set' ? like.name : 'repeat'}: ${like.of + 1} in all`
  return applyFacts(
    { ...model, notice },
    { type: 'stepAdded', step: `${like.id}+${added + 1}`, like: like.id },
  )
}

function pace(model: RecorderModel, step: SetStep): Updated {
  const on = !model.state.pace.has(step.name)
  const secondsPerRep = on ? secondsPerRepOf(step, model.context.secondsPerRep) : null
  const notice = on
    ? `${step.name}: the clock ends the groups but the last, ${secondsPerRep} s a repetition`
    : `${step.name}: you end the groups`
  return applyFacts({ ...model, notice }, { type: 'paceSet', exercise: step.name, secondsPerRep })
}

/** Seconds per repetition: the sum of its written tempo (X, as fast as possible, is 1 s), else the setting. */
export function secondsPerRepOf(step: SetStep, usual: number): number {
  if (!step.tempo) return usual
  const counts = step.tempo.includes('-') ? step.tempo.split('-') : [...step.tempo]
  return sum(counts, (count) => (/x/i.test(count) ? 1 : Number(count))) || usual
}
