import { differencesOf, mergedEvents } from '../plan/morning.ts'
import { LogbookError } from './errors.ts'
import { contentOf, versionId } from './logbookFiles.ts'
import { morningsKind, printMornings } from './mornings.ts'
import { continues, printSession, readSession } from './sessionFile.ts'
import { readStored, type Wrong } from './storedFile.ts'
import { changesBetween, type Tree } from './syncRepository.ts'

/** A file that changed on two machines, and where its two versions are. */
export interface DuplicateSession {
  /** With the version of the other machine. */
  path: string
  /** With the version of this machine. */
  own: string
}

interface Merged {
  tree: Map<string, string>
  keptTwice: DuplicateSession[]
  /** Differences between two machines about the same mornings. */
  mornings: string[]
  /** Files that both have, one of which cannot be read and was left out. */
  damaged: string[]
}

interface MergeTools {
  textOf(object: string): string
  /** Stores a text and returns the object that holds it. */
  store(text: string): string
}

/** A merge that is under way. */
type Merge = Merged & MergeTools & { own: Tree }

/** Merges two states of a logbook with a common ancestor. A file that only one machine changed is taken from that
 * machine; a file deleted on one and changed on the other is kept. If only one machine continued a session, the
 * longer one counts. The mornings of both come into one file. Anything else that both changed is kept twice, and
 * nothing that cannot be read replaces what can. If each machine kept a different version of a session and deleted
 * the rest, what either kept stays. Results and mornings that a change has lost are put back.
 * @throws LogbookError `cannot_sync` for mornings that both changed and only a newer program can read */
export function mergedTree(before: Tree, own: Tree, other: Tree, tools: MergeTools): Merged {
  const changedHere = changesBetween(before, own)
  const changedThere = changesBetween(before, other)
  const merged: Merged = { tree: new Map(other), keptTwice: [], mornings: [], damaged: [] }
  const merge: Merge = { ...merged, ...tools, own }
  const gone = [...changedHere].flatMap(([path, object]) => (object === null ? [path] : []))
  // Deleted first: a version may be kept under a name that is given up here.
  for (const path of gone) if (!changedThere.get(path)) merged.tree.delete(path)
  for (const [path, object] of changedHere) {
    const there = changedThere.get(path) ?? null
    if (object === null || object === there) continue
    if (there !== null) mergeBoth(merge, path, object, there)
    else merged.tree.set(path, object)
  }
  for (const [path, object] of changedThere) {
    const here = own.get(path)
    if (object !== null && here !== undefined && !changedHere.has(path))
      keepWhatIsLost(merge, path, here, object)
  }
  for (const family of new Set(gone.map(familyOf))) keepSomeVersion(merged, family, own, other)
  return merged
}

/** A file that both machines changed. */
function mergeBoth(merge: Merge, path: string, here: string, there: string): void {
  const content = contentOf(path)
  if (content === 'session') mergeSessions(merge, path, here, there)
  else if (content === 'mornings') mergeMornings(merge, path, here, there)
  else keepBeside(merge, path, freeName(merge, path, here), here)
}

/** Keeps the version of this machine under a name of its own, beside that of the other machine. */
function keepBeside({ tree, keptTwice }: Merge, path: string, own: string, object: string): void {
  tree.set(own, object)
  keptTwice.push({ path, own })
}

/** A file that only the other machine changed, perhaps by damaging it or by restoring an old copy. */
function keepWhatIsLost(
  { tree, damaged, textOf, store }: Merge,
  path: string,
  here: string,
  there: string,
): void {
  const [theirs, mine] = [textOf(there), textOf(here)]
  const whole = withLost(path, mine, theirs)
  // A newer format is not ruined.
  if (wrongIn(path, theirs)?.isRuined && wrongIn(path, mine) === null) {
    tree.set(path, here)
    damaged.push(path)
  } else if (whole !== null) tree.set(path, store(whole))
}

/** If all versions of a session are gone, because each machine kept a different one, what either kept stays. */
function keepSomeVersion({ tree, keptTwice }: Merged, family: string, own: Tree, other: Tree): void {
  if (versionsIn(tree, family).length > 0) return
  const [mine, theirs] = [versionsIn(own, family), versionsIn(other, family)]
  const [[path] = []] = theirs
  if (path === undefined || mine.length === 0) return
  for (const [each, object] of [...mine, ...theirs]) tree.set(each, object)
  keptTwice.push(...mine.map(([each]) => ({ path, own: each })))
}

/** The path of a session without what distinguishes its versions; any other path as it is. */
function familyOf(path: string): string {
  return path.replace(/^(sessions\/\d{4}\/\d{4}-\d\d-\d\d-[^-]+)(?:-[0-9a-f]{6})+(\.json)$/, '$1$2')
}

function versionsIn(tree: Tree, family: string): [path: string, object: string][] {
  return [...tree].filter(([path]) => familyOf(path) === family)
}

/** What is wrong with the text of a session or of a year of mornings, as the end of a sentence; null if nothing is, and
 * for the texts that sync only copies. */
export function wrongIn(path: string, text: string): Wrong<unknown> | null {
  const content = contentOf(path)
  const reading =
    content === 'session' ? readSession(text, null) : content === 'mornings' && readStored(text, morningsKind)
  return reading && 'wrong' in reading ? reading : null
}

/** The text of a file, completed by what only an earlier text of it has; null if that is nothing. Results, mornings
 * and undos are only ever added, so what is missing was lost, as when a repair restores an old copy. A text without a
 * checksum was changed by hand and counts as it is. */
export function withLost(path: string, before: string, now: string): string | null {
  const content = contentOf(path)
  if (content === 'session') {
    const [was, is] = [readSession(before, null), readSession(now, null)]
    if ('wrong' in was || 'wrong' in is || !is.isSealed) return null
    const isLonger = was.value.events.length > is.value.events.length
    return isLonger && continues(was.value, is.value) ? before : null
  }
  if (content !== 'mornings') return null
  const [was, is] = [readStored(before, morningsKind), readStored(now, morningsKind)]
  if ('wrong' in was || 'wrong' in is || !is.isSealed) return null
  const all = mergedEvents(was.value, is.value)
  return all.length > mergedEvents([], is.value).length ? printMornings(all) : null
}

/** Leaves out a version that is damaged or that the other one continues; else keeps both, as where only a newer program
 * can read the other machine's. */
function mergeSessions(merge: Merge, path: string, here: string, there: string): void {
  const { tree, damaged, textOf, store } = merge
  const [mine, theirs] = [readSession(textOf(here), null), readSession(textOf(there), null)]
  const isRuined = 'wrong' in theirs && theirs.isRuined === true
  if (isRuined || 'wrong' in mine) {
    if (isRuined) tree.set(path, here)
    damaged.push(path)
    return
  }
  if ('value' in theirs && continues(mine.value, theirs.value)) tree.set(path, here)
  else if ('wrong' in theirs || !continues(theirs.value, mine.value)) {
    // Derived from the text, so that the next run after one that was cut off gives the same id.
    const id = versionId(mine.value.id, textOf(here))
    const beside = path.replace(/(\d{4}-\d{2}-\d{2}-)[^/]+$/, `$1${id}.json`)
    keepBeside(merge, path, beside, store(printSession({ ...mine.value, id })))
  }
}

/** A year has only one file, so a version that cannot be read cannot be kept beside one that can. */
function mergeMornings(merge: Merge, path: string, here: string, there: string): void {
  const { tree, mornings, damaged, textOf, store } = merge
  const [mine, theirs] = [readStored(textOf(here), morningsKind), readStored(textOf(there), morningsKind)]
  if ('value' in mine && 'value' in theirs) {
    tree.set(path, store(printMornings(mergedEvents(mine.value, theirs.value))))
    mornings.push(...differencesOf(mine.value, theirs.value))
    return
  }
  for (const reading of [mine, theirs])
    if ('wrong' in reading && reading.isNewer) {
      const message = `Two machines have changed ${path}, and one of the two files ${reading.wrong}. Update Pausebook on this machine and sync again. No file was changed.`
      throw new LogbookError('cannot_sync', message)
    }
  if ('wrong' in theirs) tree.set(path, here)
  damaged.push(path)
}

/** `push-version-2.txt` for `push.txt`, and so on, the first that is free; `plan-2.txt` for the plan. */
function freeName({ tree, own }: Merge, path: string, here: string): string {
  const [, name = path, ending = ''] = /^(.*)(\.\w+)$/.exec(path) ?? []
  const between = contentOf(path) === 'text' ? '-' : '-version-'
  for (let number = 2; ; number += 1) {
    const free = `${name}${between}${number}${ending}`
    // The name may hold the very same text already, from a run that was cut off.
    if ([own, tree].every((each) => !each.has(free) || each.get(free) === here)) return free
  }
}
