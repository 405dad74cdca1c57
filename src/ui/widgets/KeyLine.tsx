import { Box, Text } from 'ink'
import { createContext, useContext } from 'react'

/** The foot of a screen: the keys that do something now, the most useful first, as many as fit. */
export function KeyLine({ hints, columns }: { hints: readonly KeyHint[]; columns: number }) {
  const isAscii = useContext(AsciiContext)
  const written = isAscii ? hints.map((hint) => ({ ...hint, key: withoutArrows(hint.key) })) : hints
  return (
    <Box columnGap={3} height={1} overflow="hidden">
      {keyHintsThatFit(written, columns).map(({ key, label }) => (
        <Box key={key} flexShrink={0}>
          <Text bold>{key}</Text>
          <Text> {label}</Text>
        </Box>
      ))}
    </Box>
  )
}

export interface KeyHint {
  /** As shown to people: `Space`, `↑ ↓`. */
  key: string
  label: string
}

/** The hints that fit on one line, in order. The last one is always kept, because it leads to the others.
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

/** Whether only ASCII characters may be drawn: `<AsciiContext value={true}>` around everything. */
export const AsciiContext = createContext(false)

const names: Readonly<Record<string, string>> = { '↑': 'Up', '↓': 'Down', '←': 'Left', '→': 'Right' }

/** Replaces arrows by the names of their keys: `↑ ↓` becomes `Up Down`. */
export function withoutArrows(text: string): string {
  return text.replace(/[↑↓←→]/g, (arrow) => names[arrow] ?? arrow)
}
