import { isUnsafe } from '../validate/unsafe.ts'

/* Which files a logbook has, by their names. What sync keeps in step, what a backup holds, what a restore writes and
 * what is swept are all decided here, so that none of them forgets a file that another one makes. Paths begin in the
 * logbook's folder and have slashes. */

const session = String.raw`\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])-[A-Za-z0-9_-]{6,40}\.json`
const year = String.raw`\d{4}\.json`

const sessionName = new RegExp(`^${session}$`)
const sessionBeginning = new RegExp(`^${session}`)
const yearFolder = /^sessions\/\d{4}$/
const yearPath = new RegExp(`^mornings/${year}$`)
const prescriptionName = /^[^./\\:][^/\\:]*\.(?:txt|json)$/
/** Sync adds a number to a text that two machines changed. */
const ownTextName = /^(?:plan|foods)(?:-\d+)*\.txt$/

/** Whether a name is a session's file name: the day on which it started, which the calendar has, and its id. */
export function isSessionName(name: string): boolean {
  return sessionName.test(name) && isInMonth(name.slice(0, 'YYYY-MM-DD'.length))
}

/** Whether the month has that day; every month has 28 days. @param date with a possible month and day */
function isInMonth(date: string): boolean {
  const day = Number(date.slice(-2))
  if (day <= 28) return true
  return new Date(Date.UTC(Number(date.slice(0, 4)), Number(date.slice(5, 7)) - 1, day)).getUTCDate() === day
}

/** Whether a name is a session's, with or without an ending: of its copy, its lock or a temporary file. */
export function beginsAsSession(name: string): boolean {
  return sessionBeginning.test(name)
}

/** Whether a path is that of a year of mornings, `mornings/YYYY.json`. */
export function isYearOfMornings(path: string): boolean {
  return yearPath.test(path)
}

/** Whether a repair or a sync has moved a damaged file to this name. */
export function isQuarantined(name: string): boolean {
  return /\.json\.damaged-\d+$/.test(name)
}

/** Whether a path is a session's, a year of mornings, a prepared day or one of the athlete's own texts. */
function isContent(path: string): boolean {
  const end = path.lastIndexOf('/')
  const [folder, name] = [path.slice(0, Math.max(end, 0)), path.slice(end + 1)]
  if (folder === '') return ownTextName.test(name)
  if (folder === 'prescriptions') return prescriptionName.test(name)
  return isYearOfMornings(path) || (yearFolder.test(folder) && isSessionName(name))
}

/** A name that some system reads as something else: a pattern, a device, or with its end cut off. */
const badName = /[*?"<>|]|^(?:con|prn|aux|nul|com\d|lpt\d)\.|[. ]\.(?:txt|json)$/i

/** Whether sync keeps a file in step. Derived files, files of one machine (settings name its plates and its commands)
 * and leftovers of a crash stay out, as do names that another system cannot have. */
export function isKeptInStep(path: string): boolean {
  return isContent(path) && !isUnsafe(path) && !badName.test(path.slice(path.lastIndexOf('/') + 1))
}

/** Whether a backup holds a file: all that sync keeps in step, the settings, and of each what stands beside it, the
 * previous copy, damaged ones and results kept separately. */
export function isBackedUp(path: string): boolean {
  const file = path.replace(/\.(?:bak|damaged-\d+|kept-\d+)$/, '')
  return file === 'settings.json' || isContent(file)
}

const own = new RegExp(`^(?:${session}|${year}|settings\\.json|index\\.ndjson|sync|arriving)[\\w.-]*$`)

/** Whether this program has given a file its name; its locks and temporary files have the name with an ending. */
export function isOwnName(name: string): boolean {
  return own.test(name)
}

/** Whether a name may be that of a leftover: the athlete names days, plan and foods, but not their temporary files. */
export function mayBeLeftover(name: string): boolean {
  return isOwnName(name) || /\.txt\.\d+\.[\w-]{8}\.tmp$/.test(name)
}

/** `2 sessions, 1 prescription, plan.txt`, or `nothing`.
 * @param paths of files that sync keeps in step */
export function kindsOf(paths: readonly string[]): string {
  const kinds = [
    ['sessions/', 'session', 'sessions'],
    ['prescriptions/', 'prescription', 'prescriptions'],
    ['mornings/', 'year of mornings', 'years of mornings'],
  ] as const
  const texts = kinds.flatMap(([folder, one, many]) => {
    const count = paths.filter((path) => path.startsWith(folder)).length
    return count === 0 ? [] : [`${count} ${count === 1 ? one : many}`]
  })
  const own = paths.filter((path) => !path.includes('/'))
  return texts.length + own.length === 0 ? 'nothing' : [...texts, ...own].join(', ')
}
