import { promptedStep } from '../session/prompt.ts'
import { stepAhead, stepOf } from '../session/state.ts'
import { undoOf } from '../session/undo.ts'
import {
  isOffered,
  isPausedSet,
  noBeat,
  partToClose,
  shortensWhat,
  skippedByKey,
  swappable,
  whyNotOffered,
} from './availability.ts'
import type { RecorderModel } from './model.ts'

/** A key of the recorder: what stands on the footer and the page of keys, and why it does nothing now. */
export interface KeyRow {
  /** As it is written for people: `Space`, `u`, `↑ ↓`. */
  key: string
  /** One or two words for the footer. */
  label: string
  /** A line for the page of keys. */
  does: string
  /** Null when it does something now, else why not, in a few words. */
  unavailable: (model: RecorderModel) => string | null
  /** The smaller, the sooner it stands on the footer. */
  rank: number
}

const never = () => null
const closed = 'the session is closed'

/** All keys of the recorder, in the order of the page of keys. The handler, the footer, the page and the
 * documentation read this table. */
export const keyRows: readonly KeyRow[] = [
  {
    key: 'Space',
    label: 'begin or done',
    does: 'moves on: begins a set, a repeat, a run, or ends it (PageDown and → do the same)',
    unavailable: ({ state }) => noBeat(state),
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
    does: 'this rest longer or shorter by 15 s, a pause by 5 s',
    unavailable: (model) => (shortensWhat(model) ? null : 'no rest counts down'),
    rank: 4,
  },
  {
    key: 'u',
    label: 'undo',
    does: 'takes back the last thing and says what',
    unavailable: (model) =>
      undoOf(model.events) ? null : 'nothing to take back since the start or the last closed part',
    rank: 3,
  },
  {
    key: 'e',
    label: 'correct',
    does: 'corrects an earlier result: pick it, type it again',
    unavailable: ({ state }) => {
      if (state.finished) return closed
      return state.recorded.size > 0 ? null : 'nothing is recorded yet'
    },
    rank: 7,
  },
  {
    key: 's',
    label: 'skip',
    does: 'skips what is now; pressed twice, the rest of the item',
    unavailable: (model) => (skippedByKey(model) ? null : 'nothing is left to skip'),
    rank: 6,
  },
  {
    key: 'a',
    label: 'one more',
    does: 'adds one more set or repeat to this item',
    unavailable: (model) => (isPausedSet(model) ? null : 'only a set or a repeat can be added to'),
    rank: 9,
  },
  {
    key: 'x',
    label: 'swap',
    does: "another exercise in this one's place from here on",
    unavailable: (model) => (swappable(model) ? null : 'no set is next'),
    rank: 10,
  },
  {
    key: 'o',
    label: 'order',
    does: 'the order of the day: move an item up or down, or begin one now',
    unavailable: ({ state }) => (stepAhead(state) ? null : 'nothing is left to move'),
    rank: 11,
  },
  {
    key: 't',
    label: 'time left',
    does: 'time left: type the minutes (25, 25 run, 25 lift), and a cut is proposed',
    unavailable: ({ state }) => (stepAhead(state) ? null : 'nothing is left to cut'),
    rank: 12,
  },
  {
    key: 'n',
    label: 'note',
    does: 'a note to this result, to the part or to the day; "pain left knee" is respected by later advice',
    unavailable: ({ state }) => (state.finished ? closed : null),
    rank: 8,
  },
  {
    key: 'h',
    label: 'stop clock',
    does: 'stops every clock; again: they go on; b while stopped: since the set ended',
    unavailable: ({ state }) => {
      if (state.finished) return closed
      return state.phase.since === null ? 'no clock runs' : null
    },
    rank: 13,
  },
  {
    key: 'p',
    label: 'pace',
    does: "the clock ends the groups of this exercise's cluster sets, or no longer",
    unavailable: (model) => {
      const step = swappable(model)
      return step?.dose.kind === 'cluster' ? null : 'only a cluster set is paced'
    },
    rank: 14,
  },
  {
    key: 'f',
    label: 'close part',
    does: 'closes the part with its effort (0 to 10) and its minutes; after the last one the summary',
    unavailable: (model) => (partToClose(model.state) === null ? 'every part is closed' : null),
    rank: 5,
  },
  {
    key: '?',
    label: 'keys',
    does: 'this page',
    unavailable: never,
    rank: 15,
  },
  {
    key: 'q',
    label: 'quit',
    does: 'quits; all is saved, and the next start goes on from here',
    unavailable: never,
    rank: 16,
  },
]

/** The row of a letter that was pressed; null for a letter that is no key. */
export function rowOf(key: string): KeyRow | null {
  return keyRows.find((row) => row.key === key) ?? null
}

/** What the key Space does now, in a word or two for the footer. */
export function beatLabel({ state }: RecorderModel): string {
  const { phase } = state
  if (state.held) return 'go on'
  switch (phase.kind) {
    case 'effort': {
      const step = stepOf(state, phase.step)
      return step?.kind === 'piece' && step.split && !step.endsPiece ? 'split' : 'done'
    }
    case 'recovery':
      return 'next'
    default:
      return 'begin'
  }
}
