import { Box, Text } from 'ink'
import { type BigText, clockLayout } from '../../recorder/nowLayout.ts'
import type { RecorderView } from '../../recorder/view.ts'
import { bigTextOf } from '../../widgets/bigText.ts'
import { accent } from '../../widgets/colours.ts'

interface Props {
  view: RecorderView
  columns: number
  height: number
  look: { ascii: boolean; plainClock: boolean }
}

/** What to do now, the big clock, what comes next. Small lines go before the digits shrink away. */
export function NowPanel({ view, columns, height, look }: Props) {
  const { now, clock } = view
  const under = [view.open, view.next, view.lastTime].filter((text) => text !== '')
  const whatLines = Math.min(2, Math.ceil(now.what.length / columns))
  const whereLines =
    now.where === '' ? 0 : height >= 12 ? Math.min(2, Math.ceil(now.where.length / columns)) : 1
  const head = whatLines + whereLines
  const small = Math.min(under.length, Math.max(0, height - head - 1 - 3))
  const room = { columns, lines: height - head - 1 - small }
  const draw = (text: string, rows: 5 | 3) => (look.plainClock ? null : drawBig(text, rows, !look.ascii))
  const big = clockLayout(clock.text, now.number, room, draw)
  const echo = view.echo === null ? null : draw(view.echo, 3)
  const blank = height - head - 1 - small - big.clock.length - (big.stacked ? big.number.length + 1 : 0) > 1
  return (
    <Box flexDirection="column" width={columns} height={height}>
      <Box height={whatLines}>
        <Text bold wrap={whatLines > 1 ? 'wrap' : 'truncate'}>
          {now.what}
        </Text>
      </Box>
      {whereLines > 0 && (
        <Box height={whereLines}>
          <Text wrap={whereLines > 1 ? 'wrap' : 'truncate'}>{now.where}</Text>
        </Box>
      )}
      {blank && <Text> </Text>}
      <Text wrap="truncate">
        {view.go ? (
          <Text inverse bold>
            {' go '}
          </Text>
        ) : (
          <Text bold>{clock.label}</Text>
        )}
        {clock.beside === '' ? '' : `  ${clock.beside}`}
      </Text>
      <Box flexDirection={big.stacked ? 'column' : 'row'}>
        <Lines lines={big.clock} bold={big.clock.length === 1} />
        {big.number.length > 0 && (
          <Box marginLeft={big.stacked ? 0 : 4} marginTop={big.stacked ? 1 : 0}>
            <Lines lines={big.number} bold={big.number.length === 1} />
          </Box>
        )}
      </Box>
      {blank && <Text> </Text>}
      {view.echo === null ? (
        under.slice(0, small).map((text) => (
          <Text key={text} wrap="truncate">
            {text}
          </Text>
        ))
      ) : (
        <Echo
          text={view.echo}
          big={
            echo && echo.width <= columns && room.lines + small >= big.clock.length + 4 ? echo.lines : null
          }
        />
      )}
    </Box>
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
