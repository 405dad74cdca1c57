import { lstatSync } from 'node:fs'
import { loadSession } from './loadSession.ts'
import type { SessionEntry } from './model.ts'

/** Puts those of the newest date in order: which of the newest date was started last can only be read from the files. */
export function newestFirst(home: string, entries: SessionEntry[]): SessionEntry[] {
  const [first, second] = entries
  if (first === undefined || second === undefined || first.date !== second.date) return entries
  const sameDay = entries.filter((entry) => entry.date === first.date)
  const started = new Map(sameDay.map((entry) => [entry, startedAt(home, entry)]))
  sameDay.sort((a, b) => (started.get(b) ?? 0) - (started.get(a) ?? 0))
  return [...sameDay, ...entries.slice(sameDay.length)]
}

function startedAt(home: string, entry: SessionEntry): number {
  const at = loadSession(home, entry).session?.events[0]?.at
  return typeof at === 'string'
    ? Date.parse(at)
    : (lstatSync(entry.path, { throwIfNoEntry: false })?.mtimeMs ?? 0)
}
