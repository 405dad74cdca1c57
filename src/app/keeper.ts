import type { Logbook, Saved, SessionFile } from '../logbook/model.ts'
import type { Prescription } from '../prescription/model.ts'
import type { SessionEvent } from '../session/model.ts'

/** Keeps one session on the disk while it is recorded. */
export interface Keeper {
  /** Null before the first fact: a day that was only looked at leaves no session. */
  readonly id: string | null
  append(events: readonly SessionEvent[]): { ok: true } | { ok: false; reason: string }
  retry(): { ok: true } | { ok: false; reason: string }
  close(): void
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

/** A session that is taken up again: that a program opened it is written down with the first fact.
 * @param opened as it stands in memory already */
export function keeperOf(file: SessionFile, opened: SessionEvent): Keeper {
  let isSaid = false
  return keeper(
    () => file,
    (events) => {
      const all = isSaid ? events : [opened, ...events]
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
    close: () => void file()?.close(),
  }
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
