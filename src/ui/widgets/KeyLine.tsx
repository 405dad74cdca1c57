import { Box, Text } from 'ink'
import type { Hint } from '../../recorder/modes/mode.ts'

/** The foot of a screen: the keys that do something now, most useful first, as many as fit. */
export function KeyLine({ hints, columns }: { hints: readonly Hint[]; columns: number }) {
  return (
    <Box columnGap={3} height={1} overflow="hidden">
      {keyHintsThatFit(hints, columns).map(({ key, label }) => (
        <Box key={key} flexShrink={0}>
          <Text bold>{key}</Text>
          {label !== '' && <Text> {label}</Text>}
        </Box>
      ))}
    </Box>
  )
}

/** On a narrower line the ? key goes without its label where that makes room for one more key. */
const narrow = 60

/** The hints that fit on one line, in order.
 * @param columns width of the line in cells */
export function keyHintsThatFit(hints: readonly Hint[], columns: number): Hint[] {
  const labelled = firstByRank(hints, columns)
  if (columns >= narrow) return labelled
  const bare = firstByRank(
    hints.map((hint) => (hint.key === '?' ? { ...hint, label: '' } : hint)),
    columns,
  )
  return bare.length > labelled.length ? bare : labelled
}

/** Which hints stay where not all fit: the vital ones, then the one that leads to all others, then the last one, then
 * from the first on. */
function firstByRank(hints: readonly Hint[], columns: number): Hint[] {
  const rank = (hint: Hint) => (hint.isVital ? 0 : hint.key === '?' ? 1 : hint === hints.at(-1) ? 2 : 3)
  const shown = new Set<Hint>()
  let left = columns + between
  for (const hint of [...hints].sort((a, b) => rank(a) - rank(b))) {
    left -= widthOf(hint) + between
    if (left < 0) break
    shown.add(hint)
  }
  return hints.filter((hint) => shown.has(hint))
}

const between = 3

function widthOf({ key, label }: Hint): number {
  return [...key].length + (label === '' ? 0 : 1 + [...label].length)
}
