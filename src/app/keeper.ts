import type { Logbook, Saved, SessionFile } from '../logbook/model.ts'
import type { Prescription } from '../prescription/model.ts'
import type { SessionEvent } from '../session/model.ts'

/** Keeps one session on the disk while it is recorded. */
export interface Keeper {
  /** Null before the first fact: a day that was only looked at leaves no session. */
  readonly id: string | null
  append(events: readonly SessionEvent[]): { ok: true } | { ok: false; reason: string }
  retry(): { ok: true } | { ok: false; reason: string }
  /** The last outcome: what was not saved by then is lost with the program. */
  close(): { ok: true } | { ok: false; reason: string }
}

/** A session that begins with its first fact: it is then that the day was started.
 * @param opening its start, and which program opened it, as they stand in memory already */
export function keeperOfNew(
  logbook: Logbook,
  prescription: Prescription,
  opening: [Extract<SessionEvent, { type: 'sessionStarted' }>, SessionEvent],
): Keeper {
  let file: SessionFile | null = null
  /** What could not even be put into a file yet. */
  let waiting: SessionEvent[] = []
  const create = (): Saved => {
    const { at = null, up = null } = waiting[0] ?? {}
    const [start, opened] = opening
    file = logbook.create(prescription, { ...start, at, up }, [{ ...opened, at, up }, ...waiting])
    waiting = []
    return file.state
  }
  return keeper(
    () => file,
    (events) => {
      if (file) return file.append(events)
      waiting = [...waiting, ...events]
      return create()
    },
    () => (file ? file.retry() : waiting.length > 0 ? create() : { saved: true }),
  )
}

/** A session that is taken up again: what the clock did meanwhile, and that a program opened it, is written down
 * with the first fact.
 * @param since as it stands in memory already */
export function keeperOf(file: SessionFile, since: readonly SessionEvent[]): Keeper {
  let isSaid = false
  return keeper(
    () => file,
    (events) => {
      const all = isSaid ? events : [...since, ...events]
      isSaid = true
      return file.append(all)
    },
    () => file.retry(),
  )
}

function keeper(
  file: () => SessionFile | null,
  append: (events: readonly SessionEvent[]) => Saved,
  retry: () => Saved,
): Keeper {
  return {
    get id() {
      return file()?.id ?? null
    },
    append: (events) => outcomeOf(() => append(events)),
    retry: () => outcomeOf(retry),
    close: () => outcomeOf(() => retryAndClose(file, retry)),
  }
}

function retryAndClose(file: () => SessionFile | null, retry: () => Saved): Saved {
  const saved = retry()
  return file()?.close() ?? saved
}

/** A folder that cannot be made is told like a file that cannot be written. */
function outcomeOf(write: () => Saved): { ok: true } | { ok: false; reason: string } {
  try {
    const saved = write()
    return saved.saved ? { ok: true } : { ok: false, reason: saved.reason }
  } catch (error) {
    return { ok: false, reason: error instanceof Error ? error.message : String(error) }
  }
}
