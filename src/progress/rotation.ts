import type { Brief } from '../summary/model.ts'

/** A day that was done, with what tells its kind. */
interface DoneDay {
  date: string
  brief: Pick<Brief, 'title' | 'sets'> & { parts: readonly Pick<Brief['parts'][number], 'kind' | 'name'>[] }
}

export interface Due {
  /** The kind of day that comes next. */
  kind: string
  /** The kind that was done last, and when; null if no kind of the rotation was done. */
  last: { kind: string; date: string } | null
}

/** The kind of day that is due: the one after the kind that was done last. A day is of a kind if the kind's words are
 * words in the name of one of its parts, else in its title; a lift without a recorded set counts for neither. If a
 * kind occurs more than once in the rotation, the days before the last one tell which occurrence it was.
 * @param history newest first
 * @returns null without a rotation */
export function dueOf(rotation: readonly string[], history: Iterable<DoneDay>): Due | null {
  const [first] = rotation
  if (first === undefined) return null
  const done: { kind: string; date: string }[] = []
  for (const day of history) {
    const kind = kindOf(day, rotation)
    if (kind !== null) done.push({ kind, date: day.date })
    if (done.length > rotation.length) break
  }
  const [last] = done
  if (last === undefined) return { kind: first, last: null }
  const matched = rotation.map((_, place) => daysMatched(rotation, place, done))
  const place = matched.indexOf(Math.max(...matched))
  return { kind: rotation[(place + 1) % rotation.length] ?? first, last }
}

/** How many days, counted back from the newest, match the rotation up to this place. */
function daysMatched(rotation: readonly string[], place: number, done: readonly { kind: string }[]): number {
  const size = rotation.length
  const different = done.findIndex(
    (day, back) => day.kind !== rotation[(((place - back) % size) + size) % size],
  )
  return different === -1 ? done.length : different
}

function kindOf({ brief: { parts, sets, title } }: DoneDay, rotation: readonly string[]): string | null {
  const isDone = (part: { kind: string }) => part.kind !== 'lift' || sets > 0
  const names = [
    ...parts.filter(isDone).map(({ name }) => name ?? ''),
    ...(parts.every(isDone) ? [title] : []),
  ].map(wordsOf)
  for (const name of names) {
    const kind = rotation.find((each) => name.includes(wordsOf(each)))
    if (kind !== undefined) return kind
  }
  return null
}

/** Puts a space on both sides of the words, so that only whole words match. */
function wordsOf(text: string): string {
  const words = text
    .toLowerCase()
    .normalize('NFKC')
    .match(/[\p{L}\p{N}]+/gu)
  return ` ${(words ?? []).join(' ')} `
}
