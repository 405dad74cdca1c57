import { type IntervalStep, isSameItem, type SetStep } from '../prescription/step.ts'
import { localTimeOf, whenOf } from '../session/clock.ts'
import type { SessionEvent } from '../session/model.ts'
import { promptedStep } from '../session/prompt.ts'
import { undoOf } from '../session/replay.ts'
import { type SessionState, stepAhead, stepOf, stepUnderWay } from '../session/state.ts'
import { inWords } from '../units/decimal.ts'
import { applyEvents } from './apply.ts'
import {
  asksForEffort,
  isOffered,
  isPartDone,
  type Mode,
  partTitle,
  partToClose,
  type RecorderContext,
  type RecorderModel,
  restStep,
  skippedByKey,
  stay,
  stepToAddTo,
  swappable,
  type Updated,
  whyNoAdvance,
  whyNotOffered,
  withMode,
  withNotice,
} from './model.ts'
import { closePart, minutesUnasked } from './modes/closing.ts'
import { skip, undo } from './modes/skipAndUndo.ts'

/** A key of the recorder: its text in the footer and on the page of keys, and why it does nothing now. */
export interface KeyRow {
  /** As shown to people: `Space`, `u`, `↑ ↓`. */
  key: string
  /** One or two words for the footer. */
  label: string
  /** One line for the page of keys. */
  does: string
  /** Null if it does something now, else the reason, in a few words. */
  unavailable: (model: RecorderModel) => string | null
  /** Whether the letter begins an entry now and is therefore text; absent where it never is. */
  isText?: (model: RecorderModel) => boolean
  /** The smaller, the earlier in the footer. */
  rank: number
  /** What a letter does; absent for keys that are no letters. It is called only while the key is available.
   * @param again it was pressed twice at once */
  run?: (model: RecorderModel, context: RecorderContext, again: boolean) => Updated
}

const never = () => null
const sessionClosed = 'the session is closed'

/** All keys of the recorder, in the order of the page of keys. The handler, the footer, the page and the
 * documentation read this table. */
export const keyRows: readonly KeyRow[] = [
  {
    key: 'Space',
    label: 'begin or done',
    does: 'moves on: begins a set, a repeat, a run, or ends it (PageDown and → do the same)',
    unavailable: ({ state }) => whyNoAdvance(state),
    rank: 1,
  },
  {
    key: 'Enter',
    label: 'record',
    does: 'records what is typed, or with nothing typed the result as offered',
    unavailable: ({ state, draft }) => {
      const step = promptedStep(state)
      if (!step) return 'no result is asked for'
      if (draft !== '') return null
      if (!isOffered(state, step)) return 'nothing to enter yet: Space begins, or type a result'
      return whyNotOffered(state, step)
    },
    rank: 2,
  },
  {
    key: '↑ ↓',
    label: 'rest +/-',
    does: 'lengthens or shortens this rest by 15 s, a pause by 5 s',
    unavailable: (model) => (restStep(model) === null ? 'no rest counts down' : null),
    rank: 5,
  },
  {
    key: 'u',
    label: 'undo',
    does: 'undoes the last action and names it',
    unavailable: (model) => (undoOf(model.events) ? null : 'nothing to undo since the start'),
    rank: 3,
    run: undo,
  },
  {
    key: 'e',
    label: 'correct',
    does: 'corrects an earlier result: pick it, type a new figure, or edit what the field holds',
    unavailable: ({ state }) => {
      if (state.finished) return sessionClosed
      return state.recorded.size > 0 ? null : 'nothing is recorded yet'
    },
    rank: 8,
    run: (model) => withMode(model, { kind: 'picking', index: model.state.recorded.size - 1 }),
  },
  {
    key: 's',
    label: 'skip',
    does: 'skips the current step; twice, the rest of the item; asks first while a result is still to enter',
    unavailable: (model) => (skippedByKey(model) ? null : 'nothing is left to skip'),
    rank: 7,
    run: (model, context, again) => skip(model, again, context),
  },
  {
    key: 'a',
    label: 'one more',
    does: 'adds one more set or repeat to this item',
    unavailable: (model) => (stepToAddTo(model) ? null : 'only a set or a repeat can be added to'),
    rank: 10,
    run: addOne,
  },
  {
    key: 'x',
    label: 'swap',
    does: 'swaps this exercise for another from here on',
    unavailable: (model) => (swappable(model) ? null : 'no set is next'),
    // It begins the load of the set whose result is still to be entered: x 102.5.
    isText: (model) => swappable(model) === null && promptedStep(model.state)?.kind === 'set',
    rank: 11,
    run: (model) => withMode(model, { kind: 'swapping', step: (swappable(model) as SetStep).id }),
  },
  {
    key: 'o',
    label: 'order',
    does: 'changes the order: moves an item up or down, or begins one now',
    unavailable: ({ state }) => (stepAhead(state) ? null : 'nothing is left to move'),
    rank: 12,
    run: (model) => withMode(model, { kind: 'ordering', index: 0, carrying: false }),
  },
  {
    key: 't',
    label: 'time left',
    does: 'fits the rest of the day into the minutes you type: 25, 25 run, 25 lift',
    unavailable: ({ state }) => (stepAhead(state) ? null : 'nothing is left to cut'),
    rank: 13,
    run: (model) => withMode(model, { kind: 'timeLeft' }),
  },
  {
    key: 'n',
    label: 'note',
    does: 'adds a note to the last result; asks what it is about if that was a while ago',
    unavailable: ({ state }) => (state.finished ? sessionClosed : null),
    rank: 9,
    run: (model) => withMode(model, { kind: 'noting' }),
  },
  {
    key: 'h',
    label: 'stop clock',
    does: 'stops all clocks, or starts them again',
    unavailable: ({ state }) => {
      if (state.finished) return sessionClosed
      return state.phase.since === null ? 'no clock runs' : null
    },
    rank: 14,
    run: (model, context) => applyEvents(model, [stopOrResume(model)], context),
  },
  {
    key: 'b',
    label: 'stop earlier',
    does: 'dates a stop of the clocks back to when this clock began: in a rest, to the end of the set',
    unavailable: ({ state }) => (state.stopped ? null : 'no clock is stopped'),
    isText: ({ state }) => state.stopped === null,
    rank: 4,
    run: stopSinceSetEnd,
  },
  {
    key: 'p',
    label: 'pace',
    does: "lets the clock end the groups of this exercise's cluster sets, or stops that",
    unavailable: (model) => {
      const step = swappable(model)
      return step?.dose.kind === 'cluster' ? null : 'only a cluster set is paced'
    },
    rank: 15,
    run: (model, context) => pace(model, swappable(model), context),
  },
  {
    key: 'f',
    label: 'close part',
    does: 'closes the part: asks for its effort (0 to 10) and minutes; after the last part shows the summary',
    unavailable: (model) => (partToClose(model.state) === null ? 'every part is closed' : null),
    rank: 6,
    run: closeOrAsk,
  },
  {
    key: '?',
    label: 'keys',
    does: 'shows this page',
    unavailable: never,
    rank: 16,
    run: (model) => withMode(model, { kind: 'help', top: 0 }),
  },
  {
    key: 'q',
    label: 'quit',
    does: 'quits; everything is saved, and the next start resumes here',
    unavailable: never,
    rank: 17,
    run: (model, _context, again) => leave(model, again),
  },
]

/** The row of a pressed letter; null for a letter without a command. */
export function rowOf(key: string): KeyRow | null {
  return keyRows.find((row) => row.key === key) ?? null
}

/** What Space does now, in a word or two for the footer. */
export function advanceLabel({ state }: RecorderModel): string {
  const { phase } = state
  if (state.stopped) return 'go on'
  switch (phase.kind) {
    case 'effort': {
      const step = stepOf(state, phase.step)
      return step?.kind === 'interval' && step.split && !step.endsInterval ? 'split' : 'done'
    }
    case 'recovery':
      return 'next'
    default:
      return 'begin'
  }
}

/** A letter pressed while the field is empty. One without an effect now says why; one that is no command does nothing. */
export function command(model: RecorderModel, letter: string, context: RecorderContext): Updated {
  const row = rowOf(letter)
  // What the previous key said, or waited for, is over.
  const cleared = { ...model, notice: null, pressedOnce: null }
  if (!row?.run) return stay(cleared)
  const reason = row.unavailable(model)
  if (reason !== null) return withNotice(cleared, reason)
  return row.run(cleared, context, model.pressedOnce === letter)
}

/** Closes the part at once if there is nothing to ask, else asks. */
function closeOrAsk(model: RecorderModel, context: RecorderContext): Updated {
  const { state } = model
  const part = partToClose(state) as number
  if (!asksForEffort(state, part) && isPartDone(state, part))
    return closePart(model, part, null, minutesUnasked(state, part), context)
  const now = stepUnderWay(state)
  const notice =
    now && now.part > part
      ? `${partTitle(state, now.part)} goes on; this closes ${partTitle(state, part)}`
      : null
  return withMode({ ...model, notice }, closingMode(state, part))
}

/** Unsaved results are lost with the program, so leaving takes a second press. */
function leave(model: RecorderModel, again: boolean): Updated {
  if (model.saved.ok || again) return { model, effects: [{ kind: 'leave' }] }
  const notice = `not saved: ${model.saved.reason}; q again leaves and loses it`
  return stay({ ...model, notice, pressedOnce: 'q' })
}

/** Asks for the effort and offers the one from an earlier closing of the part. */
function closingMode(state: SessionState, part: number): Mode {
  const stage = asksForEffort(state, part) ? 'effort' : 'confirm'
  return { kind: 'closing', part, stage, effort: state.partStates[part]?.effort ?? null }
}

function addOne(model: RecorderModel, context: RecorderContext): Updated {
  const like = stepToAddTo(model)
  if (!like) return stay(model)
  const added = model.events.filter((event) => event.type === 'stepAdded').length
  const event: SessionEvent = {
    type: 'stepAdded',
    ...whenOf(model.now),
    step: `${like.id}+${added + 1}`,
    like: like.id,
  }
  const notice = moreText(like, addedInARow(model, like) + 1)
  return applyEvents({ ...model, notice }, [event], context)
}

/** `one more bench press`, `two more repeats` */
function moreText(like: SetStep | IntervalStep, count: number): string {
  const number = inWords(count)
  if (like.kind === 'interval') return `${number} more ${count === 1 ? 'repeat' : 'repeats'}`
  return count === 1 ? `one more ${like.name}` : `${number} more sets: ${like.name}`
}

/** How many the previous presses of this key added to an item. */
function addedInARow({ events, state }: RecorderModel, like: SetStep | IntervalStep): number {
  const other = events.findLastIndex((event) => {
    const step = event.type === 'stepAdded' ? stepOf(state, event.step) : null
    return step === null || !isSameItem(step, like)
  })
  return events.length - 1 - other
}

/** Stops the clock from now on, or restarts it. */
function stopOrResume(model: RecorderModel): SessionEvent {
  const when = whenOf(model.now)
  return model.state.stopped ? { type: 'resumed', ...when } : { type: 'held', ...when, since: null }
}

/** The clocks stopped when this one began: in a rest, when the set ended. */
function stopSinceSetEnd(model: RecorderModel, context: RecorderContext): Updated {
  const { since } = model.state.phase
  if (!since) return stay(model)
  const event: SessionEvent = { type: 'held', ...whenOf(model.now), since: localTimeOf(since) }
  return applyEvents({ ...model, notice: 'stopped since this clock began' }, [event], context)
}

function pace(model: RecorderModel, step: SetStep | null, context: RecorderContext): Updated {
  if (!step) return stay(model)
  const on = !model.state.pace.has(step.name)
  const secondsPerRep = on ? secondsPerRepOf(step, context.secondsPerRep) : null
  const notice = on
    ? `${step.name}: the clock ends the groups but the last, ${secondsPerRep} s a repetition`
    : `${step.name}: you end the groups`
  const event: SessionEvent = { type: 'paceSet', ...whenOf(model.now), exercise: step.name, secondsPerRep }
  return applyEvents({ ...model, notice }, [event], context)
}

/** Seconds per repetition: the sum of its written tempo (X, as fast as possible, is 1 s), else the setting. */
export function secondsPerRepOf(step: SetStep, usual: number): number {
  if (!step.tempo) return usual
  const counts = [...step.tempo]
    .filter((each) => /[0-9X]/i.test(each))
    .map((each) => (/x/i.test(each) ? 1 : Number(each)))
  const sum = counts.reduce((total, each) => total + each, 0)
  return sum > 0 ? sum : usual
}
