import { existsSync, lstatSync, readdirSync } from 'node:fs'
import { join, relative, sep } from 'node:path'
import { customAlphabet } from 'nanoid'
import { sanitize } from '../validate/unsafe.ts'
import { type Damage, LogbookError } from './errors.ts'
import { beginsAsSession, isQuarantined, isSessionName } from './logbookFiles.ts'
import type { SessionEntry } from './model.ts'
import { sumOf } from './text.ts'

/** Ten of 31 characters that sound different when read aloud, all lower case for file systems that ignore case,
 * and none special to a shell or an option parser. */
export const newId = customAlphabet('23456789abcdefghjkmnpqrstuvwxyz', 10)

const dateLength = 'YYYY-MM-DD'.length

/** The id of another version of a session, stored next to it: `ID-` and six hexadecimal digits from its text. No
 * other id has a hyphen.
 * @param text of the version, so that the same version gets the same id again */
export function versionId(id: string, text: string): string {
  return `${id.slice(0, 33)}-${sumOf(text).slice(0, 6)}`
}

/** The session of which an id names a version; null if the id is a session's own. */
export function versionOf(id: string): string | null {
  return /^(.+)-[0-9a-f]{6}$/.exec(id)?.[1] ?? null
}

/** The folder of the sessions. */
export function sessionsFolderOf(logbook: string): string {
  return join(logbook, 'sessions')
}

/** The path of a session that starts on this local date.
 * @param date YYYY-MM-DD, @param id valid by the session's schema: no dot, no slash */
export function sessionPathOf(logbook: string, date: string, id: string): string {
  return join(sessionsFolderOf(logbook), date.slice(0, 4), `${date}-${id}.json`)
}

/** Lists the sessions by their file names, newest date first, and ignores files with other names. A copy whose session
 * is gone counts as one.
 * @param onDamage called for what cannot be listed, and for renamed damaged files; the list leaves both out */
export function sessionEntriesOf(
  logbook: string,
  onDamage: (damage: Damage) => void = () => {},
): SessionEntry[] {
  const entries: SessionEntry[] = []
  for (const folder of yearFoldersOf(logbook, onDamage)) {
    const names = new Set(namesIn(logbook, folder, onDamage))
    for (const each of names) {
      if (isQuarantined(each)) onDamage(quarantinedBefore(logbook, `${folder}${sep}${each}`))
      if (isKeptBeside(each)) onDamage(resultsBeside(logbook, `${folder}${sep}${each}`))
      const isLoneCopy = each.endsWith('.json.bak') && !names.has(each.slice(0, -'.bak'.length))
      const name = isLoneCopy ? each.slice(0, -'.bak'.length) : each
      if (!isSessionName(name)) continue
      const [date, id] = [name.slice(0, dateLength), name.slice(dateLength + 1, -'.json'.length)]
      entries.push({ id, date, path: `${folder}${sep}${name}` })
    }
  }
  return entries.sort((a, b) => (a.date === b.date ? (a.id < b.id ? 1 : -1) : a.date < b.date ? 1 : -1))
}

/** The folders of the sessions, one a year.
 * @param onDamage called if they cannot be listed */
export function yearFoldersOf(logbook: string, onDamage: (damage: Damage) => void = () => {}): string[] {
  const sessions = sessionsFolderOf(logbook)
  return namesIn(logbook, sessions, onDamage)
    .filter((name) => /^\d{4}$/.test(name))
    .map((name) => join(sessions, name))
}

/** Lists a folder of a logbook. It need not exist yet. */
export function namesIn(logbook: string, folder: string, onDamage: (damage: Damage) => void): string[] {
  try {
    return readdirSync(folder)
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException
    // A link without a target counts as a folder that cannot be listed.
    const isMissing = code === 'ENOENT' && lstatSync(folder, { throwIfNoEntry: false }) === undefined
    if (isMissing) return []
    onDamage({
      file: relative(logbook, folder) || '.',
      wrong: `The folder cannot be listed (${code}), so what is in it is left out.`,
      done: 'Nothing was changed.',
    })
    return []
  }
}

/** A damaged file under another name may hold what its replacement does not. */
export function quarantinedBefore(logbook: string, path: string): Damage {
  return {
    file: sanitize(relative(logbook, path)),
    wrong: 'This is a damaged file that an earlier repair moved here.',
    done: 'Save what you can from it, then delete it.',
  }
}

/** The files in which a recorder keeps its results after another program changed the session. */
export function keptBeside(logbook: string): string[] {
  return yearFoldersOf(logbook).flatMap((folder) =>
    namesIn(logbook, folder, () => {})
      .filter(isKeptBeside)
      .map((name) => join(folder, name)),
  )
}

function isKeptBeside(name: string): boolean {
  return /\.json\.kept-\d+$/.test(name)
}

/** The results in such a file count nowhere until they are merged. */
export function resultsBeside(logbook: string, path: string): Damage {
  return {
    file: sanitize(relative(logbook, path)),
    wrong: 'The file holds results that were recorded while another program changed the session.',
    done: 'Nothing was changed; "pausebook verify --repair" merges both.',
  }
}

/** Whether a folder looks like a logbook of this program. In any other folder nothing is removed. */
export function isLogbook(directory: string): boolean {
  if (['settings.json', 'index.ndjson'].some((name) => existsSync(join(directory, name)))) return true
  const names = yearFoldersOf(directory).map((folder) => namesIn(directory, folder, () => {}))
  return names.length > 0 && names.flat().every(beginsAsSession)
}

/** Finds the session that a word names.
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

/** Lists each session once: of two files with the same id the first counts, and the other is reported. */
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
      done: 'Both are unchanged, and only that one counts.',
    })
    return false
  })
}
