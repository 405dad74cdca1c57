import { readdirSync } from 'node:fs'
import { join, sep } from 'node:path'
import { customAlphabet } from 'nanoid'
import type { SessionEntry } from './model.ts'

/** Ten characters of 31 that are told apart when read aloud, in one case for file systems that see none,
 * and none of which a shell or an option parser takes for something else. */
export const newId = customAlphabet('23456789abcdefghjkmnpqrstuvwxyz', 10)

const fileName = /^\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])-[A-Za-z0-9_-]{6,40}\.json$/
const dateLength = 'YYYY-MM-DD'.length

/** The folder of the sessions. */
export function sessionsFolderOf(logbook: string): string {
  return join(logbook, 'sessions')
}

/** Where a session that starts on this local date lies.
 * @param date YYYY-MM-DD, @param id as the session's schema allows it: no dot, no slash */
export function sessionPathOf(logbook: string, date: string, id: string): string {
  return join(sessionsFolderOf(logbook), date.slice(0, 4), `${date}-${id}.json`)
}

/** The sessions by their files' names, newest date first; what has another name is none. */
export function sessionEntriesOf(logbook: string): SessionEntry[] {
  const entries: SessionEntry[] = []
  for (const folder of yearFoldersOf(logbook)) {
    for (const name of namesIn(folder)) {
      if (!fileName.test(name)) continue
      const [date, id] = [name.slice(0, dateLength), name.slice(dateLength + 1, -'.json'.length)]
      if (!isInMonth(date)) continue
      entries.push({ id, date, path: `${folder}${sep}${name}` })
    }
  }
  return entries.sort((a, b) => (a.date === b.date ? (a.id < b.id ? 1 : -1) : a.date < b.date ? 1 : -1))
}

/** Whether the month has that day: every one has 28. @param date of a possible month and day */
function isInMonth(date: string): boolean {
  const day = Number(date.slice(-2))
  if (day <= 28) return true
  return new Date(Date.UTC(Number(date.slice(0, 4)), Number(date.slice(5, 7)) - 1, day)).getUTCDate() === day
}

/** The folders that sessions lie in; none where they cannot be listed, which verify names. */
export function yearFoldersOf(logbook: string): string[] {
  const sessions = sessionsFolderOf(logbook)
  try {
    return readdirSync(sessions, { withFileTypes: true })
      .filter((entry) => /^\d{4}$/.test(entry.name) && !entry.isFile())
      .map((entry) => join(sessions, entry.name))
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException
    if (code === 'ENOENT' || code === 'ENOTDIR' || code === 'EACCES') return []
    throw error
  }
}

/** What a folder holds; nothing where it may not be listed, which verify names. */
function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder)
  } catch {
    return []
  }
}
