import { lstatSync, readdirSync } from 'node:fs'
import { basename, join, relative, resolve } from 'node:path'
import { descending } from 'd3-array'
import { customAlphabet } from 'nanoid'
import { isCalendarDate } from '../units/calendarDate.ts'
import { counted } from '../units/decimal.ts'
import { joined } from '../units/lists.ts'
import { clipped, isUnsafe, sanitize } from '../validate/unsafe.ts'
import { codeOf, type Damage, ifKnown, LogbookError, reasonOf, untouched } from './errors.ts'
import type { SessionEntry } from './model.ts'
import { sha256Of } from './text.ts'

/* Which files a logbook has, by their names. What sync exchanges, what a backup holds, what a restore writes and what
 * is swept are all decided here, so that none of them forgets a file that another one makes. Paths begin in the
 * logbook's folder and have slashes. */

const sessionName = /^(\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01]))-([A-Za-z0-9_-]{6,40})\.json$/
const yearName = /^\d{4}\.json$/
/** A prepared day, also one in a folder of the athlete's own below them. */
const prescriptionPath = /^prescriptions(?:\/[^./\\:][^/\\:]*)+\.(?:txt|json)$/
/** Sync adds a number to a text that two machines changed. */
const ownTextName = /^(?:plan|foods)(?:-\d+)*\.txt$/

/** What a session's file name says: the day on which it started, and its id. Null for any other name. */
function sessionNamed(name: string): Pick<SessionEntry, 'id' | 'date'> | null {
  const [, date = '', id = ''] = sessionName.exec(name) ?? []
  return isCalendarDate(date) ? { id, date } : null
}

export function isSessionName(name: string): boolean {
  return sessionNamed(name) !== null
}

/** What a file holds, by its path: a session, a year of mornings, a prepared day or one of the athlete's own texts;
 * null for any other file. */
export function contentOf(path: string): 'session' | 'mornings' | 'prescription' | 'text' | null {
  const end = path.lastIndexOf('/') + 1
  const [folder, name] = [path.slice(0, end), path.slice(end)]
  if (folder === '') return ownTextName.test(name) ? 'text' : null
  if (prescriptionPath.test(path)) return 'prescription'
  if (folder === 'mornings/') return yearName.test(name) ? 'mornings' : null
  return /^sessions\/\d{4}\/$/.test(folder) && isSessionName(name) ? 'session' : null
}

/** Whether a file is one that only this program writes: a session or a year of mornings. */
export function isStored(path: string): boolean {
  return ['session', 'mornings'].includes(contentOf(path) ?? '')
}

/** A name that some system reads as something else: a pattern, a device, or with its end cut off. */
const badName = /[*?"<>|]|^(?:con|prn|aux|nul|com\d|lpt\d)(?:\.|$)|[. ](?:\.(?:txt|json))?$/i

/** Whether sync exchanges a file. Derived files, files of one machine (settings name its plates and its commands) and
 * leftovers of a crash stay out, as do names that another system cannot have. */
export function isSynced(path: string): boolean {
  return contentOf(path) !== null && !isUnsafe(path) && !path.split('/').some((name) => badName.test(name))
}

/** Whether a backup holds a file: all that sync exchanges, the settings, and beside each of these its previous copy,
 * damaged ones and results kept separately. */
export function isBackedUp(path: string): boolean {
  const file = path.replace(/\.(?:bak|damaged-\d+|kept-\d+)$/, '')
  return file === 'settings.json' || contentOf(file) !== null
}

/** `2 sessions, 1 prescription, plan.txt`, or `nothing`.
 * @param paths of files that sync exchanges */
export function kindsOf(paths: readonly string[]): string {
  const of = (kind: ReturnType<typeof contentOf>) => paths.filter((path) => contentOf(path) === kind)
  const [sessions, days, years] = [of('session').length, of('prescription').length, of('mornings').length]
  const texts = joined(', ', [
    sessions > 0 && counted(sessions, 'session'),
    days > 0 && counted(days, 'prescription'),
    years > 0 && `${counted(years, 'year')} of mornings`,
    ...of('text'),
  ])
  return texts || 'nothing'
}

export type OnDamage = (damage: Damage) => void

/** Every file of a logbook, and whatever else is in the folders that it has.
 * @param onDamage called for a folder that cannot be listed */
export function pathsIn(logbook: string, onDamage: OnDamage = () => {}): string[] {
  const folders = foldersIn(logbook, onDamage)
  const paths = folders.flatMap((folder) => pathsInFolder(logbook, folder, onDamage))
  return paths.filter((path) => !folders.includes(`${path}/`))
}

/** The folders that hold the files of a logbook, each with a slash at its end. */
export function foldersIn(logbook: string, onDamage: OnDamage = () => {}): string[] {
  const years = yearsIn(logbook, onDamage).map((year) => `sessions/${year}/`)
  return ['', ...withFoldersBelow(logbook, 'prescriptions/', onDamage), 'mornings/', 'sessions/', ...years]
}

/** A folder of days and those that the athlete has made below it, without hidden ones and links. */
function withFoldersBelow(logbook: string, folder: string, onDamage: OnDamage): string[] {
  const isFolder = (path: string) =>
    !basename(path).startsWith('.') &&
    contentOf(path) === null &&
    // What cannot be looked at is reported when it is listed.
    ifKnown(() => lstatSync(join(logbook, path)).isDirectory()) !== false
  const below = pathsInFolder(logbook, folder, onDamage).filter(isFolder)
  return [folder, ...below.flatMap((path) => withFoldersBelow(logbook, `${path}/`, onDamage))]
}

/** The years that have a folder of sessions. */
function yearsIn(logbook: string, onDamage: OnDamage = () => {}): string[] {
  const paths = pathsInFolder(logbook, 'sessions/', onDamage)
  return paths.map((path) => basename(path)).filter((name) => /^\d{4}$/.test(name))
}

/** Lists one folder of a logbook. It need not exist yet.
 * @param name with a slash at its end; '' for the logbook itself
 * @param onDamage called if it cannot be listed */
export function pathsInFolder(logbook: string, name: string, onDamage: OnDamage = () => {}): string[] {
  const folder = resolve(logbook, name)
  try {
    return readdirSync(folder).map((each) => `${name}${each}`)
  } catch (error) {
    const code = codeOf(error)
    // A link without a target counts as a folder that cannot be listed.
    const isMissing = code === 'ENOENT' && lstatSync(folder, { throwIfNoEntry: false }) === undefined
    if (isMissing) return []
    const wrong = `The folder cannot be listed: ${reasonOf(error)}; what is in it is left out.`
    onDamage(untouched(name.slice(0, -1) || '.', wrong))
    return []
  }
}

/** The sessions and years of mornings among these paths, also those of which only the previous copy is left. */
export function storedAmong(paths: readonly string[]): string[] {
  const files = paths.map((path) => path.replace(/\.bak$/, ''))
  return [...new Set(files)].filter(isStored)
}

/** The files of the years of mornings, oldest first. */
export function yearsOfMornings(logbook: string, onDamage: OnDamage): string[] {
  return storedAmong(pathsInFolder(logbook, 'mornings/', onDamage)).sort()
}

/** What a file means that a repair has put beside a session or a year of mornings, or a recorder of an earlier version
 * beside its session; null for any other file. It may hold what nothing else does. */
export function damageBeside(path: string): Damage | null {
  const [, session, ending] = /([^/]+\.json)\.(damaged|kept)-\d+$/.exec(path) ?? []
  if (session === undefined) return null
  const file = sanitize(path)
  if (ending === 'damaged') {
    const wrong = 'This is a damaged file that an earlier repair moved here.'
    return { file, wrong, done: 'Save what you can from it, then delete it.' }
  }
  const wrong = 'The file holds results that were recorded while another program changed the session.'
  return {
    file,
    wrong,
    done: `They count nowhere. Rename it to ${session} to use it in place of the session, or delete it.`,
  }
}

/* The sessions among them. */

/** Ten of 31 characters that sound different when read aloud, all lower case for file systems that ignore case,
 * and none special to a shell or an option parser. */
export const newId = customAlphabet('23456789abcdefghjkmnpqrstuvwxyz', 10)

/** The id of another version of a session, stored next to it: `ID-` and six hexadecimal digits from its text. No
 * other id has a hyphen.
 * @param text of the version, so that the same version gets the same id again */
export function versionId(id: string, text: string): string {
  return `${id.slice(0, 33)}-${sha256Of(text).slice(0, 6)}`
}

/** The lock of a stored file. The versions of a session share one, so that no program writes one of them while another
 * program records in it. */
export function lockPathOf(path: string): string {
  return `${originalOf(path)}.lock`
}

/** The path of the file of which this one is a version, as sync and a recorder name them: `push.txt` for
 * `push-version-2.txt`, `plan.txt` for `plan-2.txt`. Any other path as it is: an athlete may name a day push-2,
 * and the plan of another season plan-2026. */
export function originalOf(path: string): string {
  return path
    .replace(/(\d{4}-\d\d-\d\d-[^-/]+)(?:-[0-9a-f]{6})+(\.json)$/, '$1$2')
    .replace(/^(prescriptions\/.+?)(?:-version-\d+)+(\.\w+)$/, '$1$2')
    .replace(/^((?:plan|foods).*?)(?:-\d{1,2})+(\.txt)$/, '$1$2')
}

/** The path of a session that starts on this local date.
 * @param date YYYY-MM-DD, @param id valid by the session's schema: no dot, no slash */
export function sessionPathOf(logbook: string, date: string, id: string): string {
  return join(logbook, 'sessions', date.slice(0, 4), `${date}-${id}.json`)
}

/** Lists the sessions by their file names, newest date first, and ignores files with other names. A copy whose session
 * is gone counts as one.
 * @param onDamage called for what cannot be listed, and for renamed damaged files; the list leaves both out */
export function sessionEntriesOf(logbook: string, onDamage: OnDamage = () => {}): SessionEntry[] {
  const years = yearsIn(logbook, onDamage)
  const paths = years.flatMap((year) => pathsInFolder(logbook, `sessions/${year}/`, onDamage))
  for (const damage of paths.map(damageBeside)) if (damage !== null) onDamage(damage)
  return storedAmong(paths)
    .flatMap((path) => {
      const session = sessionNamed(basename(path))
      return session === null ? [] : [{ id: session.id, date: session.date, path: join(logbook, path) }]
    })
    .sort((a, b) => descending(a.date, b.date) || descending(a.id, b.id))
}

/** What to say of a logbook without a session: its folder, because another one may have been meant, or a disk may not be
 * connected. */
export function emptyText(logbook: string): string {
  return `There is no session in the logbook ${sanitize(logbook)} yet. Record one with "pausebook".`
}

/** Finds the versions of the session that a word names; only the one of this id if it is a whole id.
 * @param which `newest`, an id, the beginning of exactly one id, or the date of the only session begun on it
 * @param entries newest first, at least one
 * @throws LogbookError `no_such_session`, `ambiguous_session` */
export function findVersions(which: string, entries: readonly SessionEntry[]): SessionEntry[] {
  if (which === 'newest') return entries.slice(0, 1)
  const exact = entries.filter((entry) => entry.id === which)
  const isDate = exact.length === 0 && /^\d{4}-\d\d-\d\d$/.test(which)
  const isMeant = (entry: SessionEntry) =>
    isDate ? entry.date === which : which !== '' && entry.id.startsWith(which)
  const found = exact.length > 0 ? exact : entries.filter(isMeant)
  const shown = `"${clipped(which, 60)}"`
  if (found.length === 0) {
    const named = isDate ? `of ${shown}` : `whose id begins with ${shown}`
    const message = `There is no session ${named}. "pausebook history" lists them.`
    throw new LogbookError('no_such_session', message)
  }
  if (new Set(found.map(({ path }) => originalOf(path))).size > 1) {
    const some = found.slice(0, 5).map((entry) => `${entry.id} (${entry.date})`)
    const more = found.length > 5 ? ' and more' : ''
    const nextStep = isDate
      ? 'Write the id of one: "pausebook history" has their titles.'
      : 'Write more of the id.'
    const advice = exact.length > 1 ? 'Remove the one that is a copy.' : nextStep
    const message = `${found.length} sessions match ${shown}: ${some.join(', ')}${more}. ${advice}`
    throw new LogbookError('ambiguous_session', message)
  }
  return found
}

/** Lists each session once: of two files with the same id the first counts, and the other is reported. */
export function withoutDuplicates(
  home: string,
  entries: readonly SessionEntry[],
  onDamage: OnDamage,
): readonly SessionEntry[] {
  if (new Set(entries.map(({ id }) => id)).size === entries.length) return entries
  const seen = new Map<string, SessionEntry>()
  return entries.filter((entry) => {
    const first = seen.get(entry.id)
    seen.set(entry.id, first ?? entry)
    if (first === undefined) return true
    const wrong = `The file has the same id as ${relative(home, first.path)}.`
    const done = 'Both are unchanged, and only that one counts.'
    onDamage({ file: relative(home, entry.path), wrong, done })
    return false
  })
}
