import type { Session } from '../session/model.ts'
import { printSession } from './printSession.ts'
import { readSession } from './readSession.ts'
import { changesBetween, type Tree } from './syncTree.ts'

/** A file that was changed on two machines, and where the two versions are. */
export interface DuplicateSession {
  /** With the version of the other machine. */
  path: string
  /** With the version of this machine. */
  own: string
}

export interface Merged {
  tree: Tree
  keptTwice: DuplicateSession[]
}

export interface MergeTools {
  textOf(object: string): string
  /** Puts a text away; the object that holds it. */
  store(text: string): string
}

/** Two states of a logbook that came from one put together. Files that only one machine changed are as that machine has
 * them; one that was deleted on one and changed on the other is kept. A session that went on on one machine
 * only, from where the other has it, is the longer one. All else that both changed is kept twice: nothing
 * is ever mixed within a file, and what is no session never takes the place of one. */
export function mergedTree(before: Tree, own: Tree, other: Tree, tools: MergeTools): Merged {
  const changedHere = changesBetween(before, own)
  const changedThere = changesBetween(before, other)
  const tree = new Map(other)
  const keptTwice: DuplicateSession[] = []
  // A name that holds the very same text was given by a run that was cut off.
  const isTaken = (path: string, object: string) =>
    [own, tree].some((each) => each.has(path) && each.get(path) !== object)
  for (const [path, object] of changedHere) {
    const there = changedThere.get(path)
    if (there === undefined || there === null) {
      if (object !== null) tree.set(path, object)
      else if (there === undefined) tree.delete(path)
      continue
    }
    if (object === null || object === there) continue
    const outcome = bothOf(path, object, tools.textOf(object), tools.textOf(there), isTaken)
    if (outcome === 'own') tree.set(path, object)
    else if (outcome !== 'other') {
      tree.set(outcome.path, outcome.text === null ? object : tools.store(outcome.text))
      keptTwice.push({ path, own: outcome.path })
    }
  }
  for (const [path, object] of changedThere) {
    const here = own.get(path)
    if (object === null || here === undefined || changedHere.has(path)) continue
    if (isRuin(path, object, here, tools)) tree.set(path, here)
  }
  return { tree, keptTwice }
}

/** Whether a session has become no JSON at all: no program writes that, a disk or a hand does. What only this
 * program cannot read, as a newer one's format, is none. */
function isRuin(path: string, object: string, here: string, { textOf }: MergeTools): boolean {
  if (!path.startsWith('sessions/')) return false
  const theirs = readSession(textOf(object), null)
  return (
    theirs.outcome === 'wrong' && theirs.isNoText && readSession(textOf(here), null).outcome === 'session'
  )
}

/** As many as `newId` gives, so that lists stay aligned. */
const lettersOfId = 10

type Outcome = 'own' | 'other' | { path: string; text: string | null }

function bothOf(
  path: string,
  object: string,
  own: string,
  other: string,
  isTaken: (path: string, object: string) => boolean,
): Outcome {
  if (!path.startsWith('sessions/'))
    return { path: freeName(path, (name) => isTaken(name, object)), text: null }
  const [mine, theirs] = [readSession(own, null), readSession(other, null)]
  if (theirs.outcome === 'wrong' && theirs.isNoText) return 'own'
  if (mine.outcome === 'wrong') return 'other'
  // What only this program cannot read is kept beside.
  if (theirs.outcome === 'session') {
    if (goesOnFrom(mine.session, theirs.session)) return 'own'
    if (goesOnFrom(theirs.session, mine.session)) return 'other'
  }
  // Of the text, so that a run after one that was cut off gives the same.
  const id = object.slice(0, lettersOfId)
  const [, folder = '', date = ''] = /^(.*\/)(\d{4}-\d{2}-\d{2})-/.exec(path) ?? []
  return { path: `${folder}${date}-${id}.json`, text: printSession({ ...mine.session, id }) }
}

/** Whether one version of a session is the other with more events behind it. */
function goesOnFrom(longer: Session, shorter: Session): boolean {
  const events = longer.events.slice(0, shorter.events.length)
  return (
    JSON.stringify(longer.prescription) === JSON.stringify(shorter.prescription) &&
    JSON.stringify(events) === JSON.stringify(shorter.events)
  )
}

/** `push.txt`, `push-2.txt` and so on, the first that nobody has. */
function freeName(path: string, isTaken: (path: string) => boolean): string {
  const [, name = path, ending = ''] = /^(.*)(\.\w+)$/.exec(path) ?? []
  for (let number = 2; ; number += 1) {
    const free = `${name}-${number}${ending}`
    if (!isTaken(free)) return free
  }
}
