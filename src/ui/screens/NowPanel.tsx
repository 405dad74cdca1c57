import { Box, Text } from 'ink'
import { type BigText, type ClockLayout, clockLayout } from '../../recorder/nowLayout.ts'
import type { RecorderView } from '../../recorder/view.ts'
import { bigTextOf } from '../widgets/bigText.ts'
import { accent } from '../widgets/colours.ts'
import { SplitBars } from '../widgets/SplitBars.tsx'
import { screenLinesUpTo } from '../widgets/wrapped.ts'

interface Props {
  view: RecorderView
  columns: number
  height: number
  look: { ascii: boolean; plainClock: boolean }
}

/** What to do now, the big clock, what comes next, the splits so far. Small lines go before the digits shrink away. */
export function NowPanel({ view, columns, height, look }: Props) {
  const { now } = view
  const draw = (text: string, rows: 5 | 3) => (look.plainClock ? null : drawBig(text, rows, !look.ascii))
  const under = [view.open, view.next, view.lastTime].filter((text) => text !== '')
  const what = saidLines(now.what, columns, height >= 12 ? 3 : 2)
  const where = saidLines(now.where, columns, height >= 12 ? 2 : 1)
  const head = what.length + where.length + 1
  const small = Math.min(under.length, Math.max(0, height - head - (look.plainClock ? 1 : 3)))
  const big = clockLayout(view.clock.text, now.number, { columns, lines: height - head - small }, draw)
  const spare = height - head - small - bigLines(big)
  const isAiry = spare - (view.echo !== null && small === 0 ? 1 : 0) > 1
  const echo = view.echo === null ? null : draw(view.echo, 3)
  const isEchoBig = echo !== null && echo.width <= columns && spare + small - (isAiry ? 2 : 0) >= 4
  // Without a line below the clock the echo stands above it, in place of the last line there.
  const isEchoAbove = view.echo !== null && small + spare < 1
  return (
    <Box flexDirection="column" width={columns} height={height}>
      <Said lines={isEchoAbove && where.length === 0 ? what.slice(0, -1) : what} bold />
      <Said lines={isEchoAbove ? where.slice(0, -1) : where} />
      {isEchoAbove && <Echo text={view.echo ?? ''} big={null} />}
      {isAiry && <Text> </Text>}
      <ClockLabel view={view} />
      <Box flexDirection={big.stacked ? 'column' : 'row'}>
        <Lines lines={big.clock} bold={big.clock.length === 1} />
        {big.number.length > 0 && (
          <Box marginLeft={big.stacked ? 0 : 4} marginTop={big.stacked ? 1 : 0}>
            <Lines lines={big.number} bold={big.number.length === 1} />
          </Box>
        )}
      </Box>
      {isAiry && <Text> </Text>}
      {view.echo !== null && !isEchoAbove && <Echo text={view.echo} big={isEchoBig ? echo.lines : null} />}
      {view.echo === null &&
        under.slice(0, small).map((text) => (
          <Text key={text} wrap="truncate">
            {text}
          </Text>
        ))}
      {view.echo === null && view.splits.length > 0 && spare > 4 && (
        <Box marginTop={1}>
          <SplitBars splits={view.splits} columns={columns} rows={spare - 3} />
        </Box>
      )}
    </Box>
  )
}

/** None for an empty text. */
function saidLines(text: string, columns: number, most: number): string[] {
  return text === '' ? [] : screenLinesUpTo(most, text, columns)
}

function bigLines(big: ClockLayout): number {
  return big.stacked
    ? big.clock.length + 1 + big.number.length
    : Math.max(big.clock.length, big.number.length)
}

function Said({ lines, bold = false }: { lines: readonly string[]; bold?: boolean }) {
  return lines.map((line, index) => (
    <Text key={index} bold={bold} wrap="truncate">
      {line}
    </Text>
  ))
}

/** What the clock is; for a moment after the long signal, the word go in its place. */
function ClockLabel({ view }: { view: RecorderView }) {
  const { label, beside } = view.clock
  return (
    <Text wrap="truncate">
      <Text bold inverse={view.go}>
        {view.go ? ' go ' : label}
      </Text>
      {beside === '' ? '' : `  ${beside}`}
    </Text>
  )
}

function Lines({ lines, bold = false }: { lines: readonly string[]; bold?: boolean }) {
  return (
    <Box flexDirection="column" flexShrink={0}>
      {lines.map((line, index) => (
        <Text key={index} wrap="truncate" color={accent} bold={bold}>
          {line}
        </Text>
      ))}
    </Box>
  )
}

/** What was just recorded, to be checked from a distance. */
function Echo({ text, big }: { text: string; big: readonly string[] | null }) {
  return big ? (
    <Box flexDirection="column">
      <Text>recorded</Text>
      <Lines lines={big} />
    </Box>
  ) : (
    <Text bold wrap="truncate">{`recorded ${text}`}</Text>
  )
}

/** Null where the text has a character that is not drawn large. */
function drawBig(text: string, rows: 5 | 3, isUnicode: boolean): BigText | null {
  const lines = bigTextOf(text, rows, isUnicode)
  return lines.length === rows ? { lines, width: Math.max(...lines.map((line) => [...line].length)) } : null
}
