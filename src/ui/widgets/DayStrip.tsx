import { Box, Text } from 'ink'
import type { StripPart } from '../../recorder/view.ts'
import { accent } from './Lines.tsx'

/** One line that shows how much of the day is done. */
export function DayStrip(props: { parts: readonly StripPart[]; columns: number; isUnicode: boolean }) {
  const pieces = dayStripOf(props.parts, props.columns, props.isUnicode)
  return (
    <Box columnGap={1} height={1} overflow="hidden">
      {pieces.map((piece, index) => (
        <Box key={index} flexShrink={0}>
          <Text bold={piece.isNow} {...(piece.isNow ? { color: accent } : {})}>
            {piece.text}
          </Text>
        </Box>
      ))}
    </Box>
  )
}

export interface StripPiece {
  text: string
  isNow: boolean
}

/** Lays out the day on one line: for each part a label and a bar with one cell per result. With little room the labels
 * are dropped first, then the bars get narrower.
 * @returns one piece per part, to be joined with a space */
export function dayStripOf(parts: readonly StripPart[], columns: number, isUnicode: boolean): StripPiece[] {
  const total = parts.reduce((sum, part) => sum + part.of, 0)
  const labels = parts.reduce((sum, part) => sum + [...part.label].length + 1, 0)
  const free = columns - Math.max(0, parts.length - 1)
  const isLabelled = free - labels >= parts.length
  const cells = Math.max(parts.length, Math.min(total, isLabelled ? free - labels : free))
  return parts.map((part) => {
    const width = cells >= total ? part.of : 1 + Math.floor(((cells - parts.length) * part.of) / total)
    const bar = barOf(part, width, isUnicode)
    return { text: isLabelled ? `${part.label} ${bar}` : bar, isNow: part.isNow }
  })
}

/** Full only if everything is done, and empty only if nothing is. */
function barOf(part: StripPart, width: number, isUnicode: boolean): string {
  const share = Math.round((width * part.done) / part.of)
  const full = part.done >= part.of ? width : Math.min(share, width - 1)
  const marks = isUnicode ? { done: '█', now: '▒', left: '░' } : { done: '#', now: '>', left: '.' }
  const left = width - full
  return (
    marks.done.repeat(full) +
    (part.isNow && left > 0 ? marks.now : '') +
    marks.left.repeat(left).slice(part.isNow ? 1 : 0)
  )
}
