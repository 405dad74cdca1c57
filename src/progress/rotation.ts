/** A day that was done, as far as its kind can be told. */
export interface DoneDay {
  date: string
  title: string
  parts: readonly { kind: string; name: string | null }[]
  /** How many sets were lifted. */
  sets: number
}

export interface Due {
  /** The kind of day that comes next. */
  kind: string
  /** The kind that was done last, and when; null where none of the rotation was. */
  last: { kind: string; date: string } | null
}

/** Which kind of day is due: the one that follows the kind that was done last. A day is of a kind that stands as
 * words in the name of one of its parts, else in its title; a lift of which no set was done counts for neither. Where a kind stands in the rotation more than once, the days
 * before the last one tell which of them it was.
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
  const places = rotation.flatMap((kind, place) => (kind === last.kind ? [place] : []))
  const matched = places.map((place) => daysMatched(rotation, place, done))
  const place = places[matched.indexOf(Math.max(...matched))] ?? 0
  return { kind: rotation[(place + 1) % rotation.length] ?? first, last }
}

/** How many days, counted back from the newest, are what the rotation has up to this place. */
function daysMatched(rotation: readonly string[], place: number, done: readonly { kind: string }[]): number {
  const size = rotation.length
  const different = done.findIndex(
    (day, back) => day.kind !== rotation[(((place - back) % size) + size) % size],
  )
  return different === -1 ? done.length : different
}

function kindOf(day: DoneDay, rotation: readonly string[]): string | null {
  const isDone = (part: { kind: string }) => part.kind !== 'lift' || day.sets > 0
  const title = day.parts.every(isDone) ? [day.title] : []
  const names = [...day.parts.filter(isDone).map((part) => part.name ?? ''), ...title].map(wordsOf)
  for (const name of names) {
    const kind = rotation.find((each) => name.includes(wordsOf(each)))
    if (kind !== undefined) return kind
  }
  return null
}

/** Words with a space on either side, so that only whole ones are found. */
function wordsOf(text: string): string {
  return ` ${text
    .toLowerCase()
    .normalize('NFKC')
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '')
    .join(' ')} `
}
