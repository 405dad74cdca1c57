import { readdirSync } from 'node:fs'
import { join, relative, sep } from 'node:path'
import { customAlphabet } from 'nanoid'
import { sanitize } from '../validate/unsafe.ts'
import { LogbookError } from './errors.ts'
import type { Damage, SessionEntry } from './model.ts'

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

/** The session that is meant.
 * @param which `newest`, an id, the beginning of exactly one id, or the date of the only session begun on it
 * @param entries newest first
 * @throws LogbookError `no_such_session`, `ambiguous_session` */
export function findSession(which: string, entries: readonly SessionEntry[]): SessionEntry {
  const [newest] = entries
  if (newest === undefined) {
    throw new LogbookError(
      'no_such_session',
      'There is no session in this logbook yet. Record one with "pausebook".',
    )
  }
  if (which === 'newest') return newest
  const exact = entries.filter((entry) => entry.id === which)
  const isDate = exact.length === 0 && /^\d{4}-\d\d-\d\d$/.test(which)
  const isMeant = (entry: SessionEntry) =>
    isDate ? entry.date === which : which !== '' && entry.id.startsWith(which)
  const found = exact.length > 0 ? exact : entries.filter(isMeant)
  const [first] = found
  const shown = `"${sanitize(which.slice(0, 60))}"`
  if (first === undefined) {
    const named = isDate ? `of ${shown}` : `whose id begins with ${shown}`
    const message = `There is no session ${named}. "pausebook history" lists them.`
    throw new LogbookError('no_such_session', message)
  }
  if (found.length > 1) {
    const some = found.slice(0, 5).map((entry) => `${entry.id} (${entry.date})`)
    const more = found.length > 5 ? ' and more' : ''
    const nextStep = isDate ? 'Write the id of one.' : 'Write more of the id.'
    const advice = exact.length > 1 ? 'Remove the one that is a copy.' : nextStep
    const message = `${found.length} sessions answer to ${shown}: ${some.join(', ')}${more}. ${advice}`
    throw new LogbookError('ambiguous_session', message)
  }
  return first
}

/** Each session once: of two files with the same id the first counts, and the other is named. */
export function withoutDuplicates(
  home: string,
  entries: readonly SessionEntry[],
  onDamage: (damage: Damage) => void,
): readonly SessionEntry[] {
  if (new Set(entries.map(({ id }) => id)).size === entries.length) return entries
  const seen = new Map<string, SessionEntry>()
  return entries.filter((entry) => {
    const first = seen.get(entry.id)
    seen.set(entry.id, first ?? entry)
    if (first === undefined) return true
    const wrong = `The file has the same id as ${relative(home, first.path)}.`
    onDamage({
      file: relative(home, entry.path),
      wrong,
      done: 'Both were left alone, and only that one counts.',
    })
    return false
  })
}
