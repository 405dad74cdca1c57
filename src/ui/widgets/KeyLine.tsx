import { Box, Text } from 'ink'
import { createContext, useContext } from 'react'

/** The foot of a screen: the keys that do something now, most useful first, as many as fit. */
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
  /** As the last one, gives way to the first three. */
  yields?: boolean
}

/** The hints that fit on one line, in order. Keeps the last one, unless it yields, and the one that leads to all others
 * if two more fit beside it.
 * @param columns width of the line in cells */
export function keyHintsThatFit(hints: readonly KeyHint[], columns: number): KeyHint[] {
  const last = hints.at(-1)
  if (last === undefined) return []
  const shown = fittingBeside(last, hints.slice(0, -1), columns)
  const third = hints[2]
  if (!last.yields || !third || shown.includes(third)) return shown
  const others = hints.slice(3).sort((a, b) => Number(b.key === '?') - Number(a.key === '?'))
  const first = firstThatFit([...hints.slice(0, 3), ...others], columns + between)
  return first.includes(third) ? hints.filter((hint) => first.includes(hint)) : shown
}

function fittingBeside(last: KeyHint, others: readonly KeyHint[], columns: number): KeyHint[] {
  const all = others.find(({ key }) => key === '?')
  const kept = all ? widthOf(all) + between : 0
  const usual = others.filter((hint) => hint !== all)
  const room = columns - widthOf(last)
  const beside = firstThatFit(usual, room - kept)
  if (!all || (beside.length < 2 && firstThatFit(usual, room).length > beside.length))
    return [...firstThatFit(others, room), last]
  return [...others.filter((hint) => hint === all || beside.includes(hint)), last]
}

function firstThatFit(hints: readonly KeyHint[], columns: number): KeyHint[] {
  let left = columns
  const end = hints.findIndex((hint) => {
    left -= widthOf(hint) + between
    return left < 0
  })
  return end < 0 ? [...hints] : hints.slice(0, end)
}

const between = 3

function widthOf(hint: KeyHint): number {
  return [...hint.key].length + 1 + [...hint.label].length
}

/** Whether only ASCII characters may be drawn: `<AsciiContext value={true}>` around everything. */
export const AsciiContext = createContext(false)

const names: Readonly<Record<string, string>> = { '↑': 'Up', '↓': 'Down', '←': 'Left', '→': 'Right' }

/** Replaces arrows with the names of their keys: `↑ ↓` becomes `Up Down`. */
export function withoutArrows(text: string): string {
  return text.replace(/[↑↓←→]/g, (arrow) => names[arrow] ?? arrow)
}
