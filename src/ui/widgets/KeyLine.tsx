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
          {label !== '' && <Text> {label}</Text>}
        </Box>
      ))}
    </Box>
  )
}

export interface KeyHint {
  /** As shown to people: `Space`, `↑ ↓`. */
  key: string
  /** Empty for the key alone. */
  label: string
  /** Goes before any other key, the last one too. */
  isVital?: boolean
}

/** The hints that fit on one line, in order. Keeps the vital ones; of the others the last one, and the one that leads to
 * all others if two more fit beside it, without its label where that has no room.
 * @param columns width of the line in cells */
export function keyHintsThatFit(hints: readonly KeyHint[], columns: number): KeyHint[] {
  const labelled = firstHints(hints, columns)
  if (labelled.some(({ key }) => key === '?')) return labelled
  return firstHints(
    hints.map((hint) => (hint.key === '?' ? { ...hint, label: '' } : hint)),
    columns,
  )
}

function firstHints(hints: readonly KeyHint[], columns: number): KeyHint[] {
  const last = hints.at(-1)
  if (last === undefined) return []
  const shown = fittingBeside(last, hints.slice(0, -1), columns)
  if (hints.every((hint) => !hint.isVital || shown.includes(hint))) return shown
  const need = ({ key, isVital }: KeyHint) => (isVital ? 0 : key === '?' ? 1 : 2)
  const needed = firstThatFit(
    [...hints].sort((a, b) => need(a) - need(b)),
    columns + between,
  )
  return hints.filter((hint) => needed.includes(hint))
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

function widthOf({ key, label }: KeyHint): number {
  return [...key].length + (label === '' ? 0 : 1 + [...label].length)
}

/** Whether only ASCII characters may be drawn: `<AsciiContext value={true}>` around everything. */
export const AsciiContext = createContext(false)

const names: Readonly<Record<string, string>> = { '↑': 'Up', '↓': 'Down', '←': 'Left', '→': 'Right' }

/** Replaces arrows with the names of their keys: `↑ ↓` becomes `Up Down`. */
export function withoutArrows(text: string): string {
  return text.replace(/[↑↓←→]/g, (arrow) => names[arrow] ?? arrow)
}
