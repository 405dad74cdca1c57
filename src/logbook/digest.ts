import { relative } from 'node:path'
import type { Session } from '../session/model.ts'
import { basisOf, contextOn } from './basis.ts'
import { digestDayOf } from './digestDay.ts'
import { EntryOfLine } from './digestEntry.ts'
import { appendToDigest, digestLines, headOf, writeDigest } from './digestFile.ts'
import { type FileHead, holds, printDigestLine } from './digestLine.ts'
import type { DigestDay } from './digestModel.ts'
import { lineFinder } from './lineFinder.ts'
import { loadSession } from './loadSession.ts'
import type { Machine } from './machine.ts'
import type { Damage, DigestEntry, SessionEntry } from './model.ts'
import { sessionEntriesOf, withoutDuplicates } from './sessionName.ts'
import type { Settings } from './settings.ts'
import { printableOf } from './text.ts'

/* The digest: one line a session with what many sessions are asked for, so that not every file has to be read.
 * It is derived and never trusted over the files: a line holds only for a file of that size and time of
 * change. A session that was changed gets another line, which supersedes the one before it. */

export interface DigestWork {
  home: string
  settings: Settings
  machine: Machine
  onDamage: (damage: Damage) => void
  /** Told now and then while sessions are read: how many of how many. */
  onProgress?: (done: number, of: number) => void
  /** The digest that was made anew could not be written. */
  onUnwritten?: () => void
  /** Given each session that is read from its own file. */
  onSession?: (entry: SessionEntry, session: Session) => void
}

/** Every session of the logbook, newest first, as the digest has it. What is missing in it or wrong is made
 * anew from the files and put into it; a digest that cannot be written costs time only.
 * @param isFresh as if there were no digest */
export function readDigest(work: DigestWork, isFresh = false): DigestEntry[] {
  const { home, settings, machine, onProgress } = work
  const basis = basisOf(settings)
  const read = isFresh ? null : digestLines(home)
  const lines = read?.lines ?? []
  const lineOf = lineFinder(lines)
  const entries = withoutDuplicates(home, sessionEntriesOf(home), work.onDamage)
  const anew = (entry: SessionEntry) => dayAnew(work, entry)
  const found: EntryOfLine[] = []
  const kept: string[] = []
  const added: string[] = []
  entries.forEach((entry, index) => {
    const head = headOf(entry)
    if (head === null) return
    const line = lineOf(head.file)
    if (line !== null && holds(line, head, basis)) {
      found.push(new EntryOfLine(entry, line, anew))
      kept.push(line)
      return
    }
    onProgress?.(index, entries.length)
    const made = madeAnew(work, entry, { ...head, basis })
    if (made === null) return
    found.push(new EntryOfLine(entry, made.line, anew))
    if (made.isSound) added.push(made.line)
  })
  // Two lines for each session and some more may lie there before they are worth a rewrite.
  if (read === null || !read.isWhole || lines.length + added.length > 2 * found.length + 100) {
    if (!writeDigest(home, [...kept, ...added], machine) && found.length > 0) work.onUnwritten?.()
  } else if (added.length > 0) appendToDigest(home, added, machine)
  return inOrder(found)
}

/** Puts the line of a session into the digest that was just stored. */
export function addToDigest(work: DigestWork, entry: SessionEntry): void {
  const head = headOf(entry)
  const made = head === null ? null : madeAnew(work, entry, { ...head, basis: basisOf(work.settings) })
  if (made?.isSound) appendToDigest(work.home, [made.line], work.machine)
}

function madeAnew(
  work: DigestWork,
  entry: SessionEntry,
  head: FileHead & { basis: string },
): { line: string; isSound: boolean } | null {
  const figures = figuresAnew(work, entry)
  if (figures === null) return null
  const { day, finished, started, isSound } = figures
  return { line: printDigestLine({ ...head, finished, started }, day), isSound }
}

function dayAnew(work: DigestWork, entry: SessionEntry): DigestDay | null {
  return figuresAnew(work, entry)?.day ?? null
}

/** From the file itself. `isSound`: damage is not put into the digest, so that it is met again. */
function figuresAnew(
  work: DigestWork,
  entry: SessionEntry,
): (ReturnType<typeof digestDayOf> & { isSound: boolean }) | null {
  const { session, damage } = loadSession(work.home, entry)
  if (damage !== null) work.onDamage(damage)
  if (session === null) return null
  if (damage === null) work.onSession?.(entry, session)
  const figures = figuresOf(work, entry, session)
  return figures === null ? null : { ...figures, isSound: damage === null }
}

/** Null for a session of numbers so far from any training that a formula refuses them. */
function figuresOf(
  work: DigestWork,
  entry: SessionEntry,
  session: Session,
): ReturnType<typeof digestDayOf> | null {
  try {
    return digestDayOf(session, contextOn(work.settings, entry.date))
  } catch (error) {
    if (!(error instanceof RangeError)) throw error
    const wrong = `The figures of the file cannot be computed: ${printableOf(error.message)}.`
    work.onDamage({ file: relative(work.home, entry.path), wrong, done: 'It was left alone.' })
    return null
  }
}

/** Newest first; within a day the one that began last, as `newestFirst` has it. Files are listed by date, so only
 * days with several sessions are sorted, and only their starts are read.
 * @param entries newest date first */
function inOrder(entries: readonly EntryOfLine[]): DigestEntry[] {
  const ordered: DigestEntry[] = []
  for (let index = 0; index < entries.length; ) {
    const first = entries[index] as EntryOfLine
    let end = index + 1
    while (entries[end]?.date === first.date) end += 1
    if (end === index + 1) ordered.push(first)
    else ordered.push(...entries.slice(index, end).sort(lastBegunFirst))
    index = end
  }
  return ordered
}

function lastBegunFirst(a: EntryOfLine, b: EntryOfLine): number {
  return b.begun - a.begun || (a.id < b.id ? 1 : -1)
}
