import { Box, Text } from 'ink'
import type { Hint } from '../../recorder/model.ts'

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

/** On a narrower line the ? key has no label. */
const narrow = 60

/** The hints that fit on one line, in order. Where not all fit, the vital ones stay, then the one that leads to all
 * others, then the last one, then from the first on.
 * @param columns width of the line in cells */
export function keyHintsThatFit(hints: readonly Hint[], columns: number): Hint[] {
  const labelled = hints.map((hint) => (hint.key === '?' && columns < narrow ? { ...hint, label: '' } : hint))
  const rank = (hint: Hint) => (hint.isVital ? 0 : hint.key === '?' ? 1 : hint === labelled.at(-1) ? 2 : 3)
  const shown = new Set<Hint>()
  let left = columns + between
  for (const hint of [...labelled].sort((a, b) => rank(a) - rank(b))) {
    left -= widthOf(hint) + between
    if (left < 0) break
    shown.add(hint)
  }
  return labelled.filter((hint) => shown.has(hint))
}

const between = 3

function widthOf({ key, label }: Hint): number {
  return [...key].length + (label === '' ? 0 : 1 + [...label].length)
}
