export interface KeyHint {
  /** As it is written for people: `Space`, `↑ ↓`. */
  key: string
  label: string
}

/** The hints that fit on one line, in their order; the last one always stands, for it leads to the others.
 * @param columns width of the line in cells */
export function keyHintsThatFit(hints: readonly KeyHint[], columns: number): KeyHint[] {
  const last = hints.at(-1)
  if (last === undefined) return []
  let left = columns - widthOf(last)
  const fitting: KeyHint[] = []
  for (const hint of hints.slice(0, -1)) {
    left -= widthOf(hint) + between
    if (left < 0) break
    fitting.push(hint)
  }
  return [...fitting, last]
}

const between = 3

function widthOf(hint: KeyHint): number {
  return [...hint.key].length + 1 + [...hint.label].length
}
