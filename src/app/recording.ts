import { LogbookError } from '../logbook/errors.ts'
import { clockOf, thisMachine } from '../logbook/machine.ts'
import { foodsIn } from '../logbook/ownTexts.ts'
import { type SessionFile, spillSession } from '../logbook/sessionFile.ts'
import type { Logbook } from '../logbook/store.ts'
import { placeInPlan } from '../plan/model.ts'
import type { Prescription } from '../prescription/model.ts'
import { recentPains } from '../progress/pain.ts'
import { type RecorderContext, type RecorderModel, recorderOf } from '../recorder/model.ts'
import { painToday } from '../recorder/modes/notes.ts'
import { createRecorderStore, type RecorderStore } from '../recorder/store.ts'
import { whenOf } from '../session/clock.ts'
import type { Saved, SessionEvent } from '../session/model.ts'
import { dueEvents } from '../session/newEvents.ts'
import { applyEvent } from '../session/reduce.ts'
import { replay } from '../session/replay.ts'
import { pendingSteps, startOf } from '../session/state.ts'
import { counted } from '../units/decimal.ts'
import { earlierDays } from './earlierDays.ts'
import { equipmentWith, warmUpFor } from './equipment.ts'
import { type Known, knownBefore } from './known.ts'

/** Results that are missing from the logbook. */
export interface Unsaved {
  ok: false
  /** The events, one line of JSON each; none if they are in another version of the session. */
  lines: string[]
  /** What happened, where they are, and what to do. */
  message: string
}

/** Saves one session on the disk while it is recorded.
 * @param known the file of a resumed session; a new one gets its file with its first events
 * @param begin saves the first events */
function writerOf(known: SessionFile | null, begin: (events: readonly SessionEvent[]) => SessionFile) {
  let file = known
  let isBegun = false
  return {
    /** Null before the first event: a day that was only looked at leaves no session. */
    get id() {
      return file?.id ?? null
    },
    append(events: readonly SessionEvent[]): Saved {
      if (file !== null && isBegun) return file.append(events)
      isBegun = true
      file = begin(events)
      return file.state
    },
    retry: (): Saved => file?.retry() ?? { ok: true },
    /** Tries once more to save; writes what cannot be saved into a file in the temporary folder. */
    close(): { ok: true } | Unsaved {
      const closed = file?.close() ?? { ok: true }
      return file === null || closed.ok ? { ok: true } : unsavedIn(file, closed)
    },
  }
}

type SessionWriter = ReturnType<typeof writerOf>

function unsavedIn(file: SessionFile, { reason, isKept }: Saved & { ok: false }): Unsaved {
  if (isKept) return { ok: false, lines: [], message: `The last results are not in the session: ${reason}.` }
  const spilled = spillSession(file.session, file.path)
  const kept =
    spilled === null
      ? 'They are printed above and nowhere else: start again and type them in.'
      : `They are printed above, and the whole session is in ${spilled}. Once it can be written there again, move that file to ${file.path}.`
  return {
    ok: false,
    lines: file.unsaved.map((event) => JSON.stringify(event)),
    message: `The last results are not in the logbook: ${reason}. ${kept}`,
  }
}

/** A running recorder and its file. */
export interface Recording {
  store: RecorderStore
  writer: SessionWriter
}

export interface RecordingTools {
  /** Without the session itself. */
  known: Known
  ring(signal: 'short' | 'long'): void
  leave(): void
}

/** Calls back once, when the session is finished and all of it is saved. */
export function whenFinished({ store, writer }: Recording, then: (id: string) => void): void {
  const stop = store.subscribe(() => {
    const { state, saved } = store.get()
    if (!state.finished || !saved.ok || writer.id === null) return
    stop()
    then(writer.id)
  })
}

const clock = clockOf(thisMachine())

/** Opens a day for the first time. */
export function beginRecording(prescription: Prescription, tools: RecordingTools): Recording {
  const now = clock()
  const when = whenOf(now)
  const date = now.at.slice(0, 10)
  const { logbook, maxima } = tools.known
  const start: SessionEvent & { type: 'sessionStarted' } = {
    type: 'sessionStarted',
    ...when,
    date,
    ...knownBefore(prescription, tools.known, date, maxima),
    fromPaper: false,
  }
  const opened: SessionEvent = { type: 'opened', ...when, boot: now.boot }
  const context = recorderContextOf(date, tools.known)
  const empty = startOf(prescription, context.warmUpOf)
  const state = [start, opened].reduce(applyEvent, empty)
  // The day starts with its first event, not when it was opened to be looked at, perhaps on the evening before.
  const begin = (events: readonly SessionEvent[]) => {
    const { at = null, up = null } = events[0] ?? {}
    const began = { ...start, at, up, date: (at ?? now.at).slice(0, 10) }
    return logbook.create(prescription, began, [{ ...opened, at, up }, ...events])
  }
  const writer = writerOf(null, begin)
  const pains = recentPains(tools.known.pains, tools.known.today)
  const model: RecorderModel = {
    ...recorderOf([start, opened], state, now, context),
    mode: pains.length > 0 ? painToday(pains) : { kind: 'recording' },
  }
  return recordingOf(model, writer, tools)
}

/** Resumes a session where it was.
 * @throws LogbookError if it cannot be read, or another process is recording it */
export function resumeRecording(id: string, tools: RecordingTools): Recording {
  const file = tools.known.logbook.open(id)
  const now = clock()
  const opened: SessionEvent = { type: 'opened', ...whenOf(now), boot: now.boot }
  const { prescription, events } = file.session
  const started = events.find((event) => event.type === 'sessionStarted')
  const warmUpOf = warmUpFor(tools.known.settings, started?.maxima ?? [])
  const context = recorderContextOf(started?.date ?? now.at.slice(0, 10), tools.known, warmUpOf)
  const left = replay({ prescription, events }, context.warmUpOf)
  // What the clock did in the meantime happened before this program opened the session, so its events come first.
  const since = [...dueEvents(left, now), opened]
  const state = since.reduce(applyEvent, left)
  const writer = writerOf(file, (events) => {
    file.append([...since, ...events])
    return file
  })
  const notice = whileAway(pendingSteps(state).length - pendingSteps(left).length)
  const model = { ...recorderOf([...events, ...since], state, now, context), notice }
  return recordingOf(model, writer, tools)
}

/** What the settings and earlier days tell the recorder.
 * @param date local, YYYY-MM-DD */
export function recorderContextOf(date: string, known: Known, warmUpOf = known.warmUpOf): RecorderContext {
  const { isUnwell, ...earlier } = earlierDays(known)
  const { settings, logbook, plan } = known
  return {
    equipmentOf: equipmentWith(settings),
    warmUpOf,
    secondsPerRep: settings.secondsPerRepetition,
    advice: settings.advice && !isUnwell,
    hrMax: settings.hrMax,
    ...earlier,
    planned: plan === null ? null : placeInPlan(plan, date),
    foods: () => foodsIn(logbook.directory),
  }
}

/** Names the results that became pending while the clock ran alone: only the athlete knows whether they happened. */
function whileAway(count: number): string | null {
  if (count <= 0) return null
  const left = `${counted(count, 'result')} to enter`
  return `the clock ran on while you were away: ${left}; - skips what was not done`
}

function recordingOf(
  model: RecorderModel,
  writer: SessionWriter,
  { ring, leave }: RecordingTools,
): Recording {
  const { append, retry } = writer
  return { writer, store: createRecorderStore(model, { now: clock, append, retry, ring, leave }) }
}

/** Closes an unfinished session as it is: what is not recorded counts as not done.
 * @throws LogbookError if it cannot be read or written, or another process is recording it */
export function closeAsItIs(logbook: Logbook, id: string): void {
  const file = logbook.open(id)
  // It ended with its last event, even if it is closed two days later.
  const { at, up } = file.session.events.at(-1) ?? whenOf(clock())
  file.append([{ type: 'sessionFinished', at, up }])
  const closed = file.close()
  // Closing tries to save once more: only what that cannot save either is lost.
  if (!closed.ok)
    throw new LogbookError(
      'cannot_write',
      `The session is not closed: ${closed.reason}. Make room and press c twice again.`,
    )
}
