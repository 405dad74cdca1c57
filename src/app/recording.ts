import { momentNow, thisMachine } from '../logbook/machine.ts'
import type { Logbook } from '../logbook/model.ts'
import type { Settings } from '../logbook/settings.ts'
import { layOut } from '../prescription/layOut.ts'
import type { Prescription } from '../prescription/model.ts'
import { recorderOf } from '../recorder/model.ts'
import { createRecorderStore, type RecorderStore } from '../recorder/store.ts'
import { whenOf } from '../session/clock.ts'
import { dueEvents } from '../session/due.ts'
import type { SessionEvent } from '../session/model.ts'
import { replay } from '../session/replay.ts'
import { openSteps, startOf } from '../session/state.ts'
import { walk } from '../session/walk.ts'
import { type Keeper, keeperOf, keeperOfNew } from './keeper.ts'
import { bodyMassKgOn, type EarlierDays, recorderContextOf } from './recorderContext.ts'

/** A recorder at work, and the file it keeps. */
export interface Recording {
  store: RecorderStore
  keeper: Keeper
}

export interface RecordingTools {
  logbook: Logbook
  settings: Settings
  earlier: EarlierDays
  ring(signal: 'short' | 'long'): void
  leave(): void
}

const machine = thisMachine()

/** Takes a day up for the first time. */
export function beginRecording(prescription: Prescription, tools: RecordingTools): Recording {
  const now = momentNow(machine)
  const when = whenOf(now)
  const date = now.at.slice(0, 10)
  const start: SessionEvent & { type: 'sessionStarted' } = {
    type: 'sessionStarted',
    ...when,
    date,
    bodyMassKg: bodyMassKgOn(date, prescription, tools.settings),
    maxima: tools.earlier.maxima,
    fromPaper: false,
  }
  const opened: SessionEvent = { type: 'opened', ...when, boot: now.boot }
  const context = recorderContextOf(tools.settings, tools.earlier)
  const empty = startOf(prescription, layOut(prescription, context.rampOf))
  const state = [start, opened].reduce((before, event) => walk(before, event).state, empty)
  const keeper = keeperOfNew(tools.logbook, prescription, [start, opened])
  return {
    keeper,
    store: createRecorderStore(recorderOf([start, opened], state, now), context, outside(keeper, tools)),
  }
}

/** Takes a session up again, where it was.
 * @throws LogbookError when it cannot be read, or another process records it */
export function resumeRecording(id: string, tools: RecordingTools): Recording {
  const file = tools.logbook.open(id)
  const now = momentNow(machine)
  const opened: SessionEvent = { type: 'opened', ...whenOf(now), boot: now.boot }
  const { prescription, events } = file.session
  const started = events.find((event) => event.type === 'sessionStarted')
  const maxima = started?.type === 'sessionStarted' ? started.maxima : []
  const context = recorderContextOf(tools.settings, { ...tools.earlier, maxima })
  const left = replay({ prescription, events }, context.rampOf)
  // What the clock did meanwhile happened before this program opened the session, and stands before it.
  const since = [...dueEvents(left, now), opened]
  const state = since.reduce((before, event) => walk(before, event).state, left)
  const keeper = keeperOf(file, since)
  const notice = whileAway(openSteps(state).length - openSteps(left).length)
  const model = { ...recorderOf([...events, ...since], state, now), notice }
  return { keeper, store: createRecorderStore(model, context, outside(keeper, tools)) }
}

/** Results that came open by the clock alone are said: whether they happened only the athlete knows. */
function whileAway(count: number): string | null {
  if (count <= 0) return null
  const results = count === 1 ? '1 result is open' : `${count} results are open`
  return `while you were away the clock went on: ${results}; - skips what was not done`
}

function outside(keeper: Keeper, tools: RecordingTools) {
  return {
    now: () => momentNow(machine),
    append: keeper.append,
    retry: keeper.retry,
    ring: tools.ring,
    leave: tools.leave,
  }
}
