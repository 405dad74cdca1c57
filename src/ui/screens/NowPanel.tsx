import { Box, Text } from 'ink'
import { echoLine, type RecorderView } from '../../recorder/view.ts'
import { barLines } from '../../summary/splitBars.ts'
import { bigClockOf } from '../widgets/bigClock.ts'
import { bigTextOf } from '../widgets/bigText.ts'
import { accent, Lines } from '../widgets/Lines.tsx'
import { screenLinesUpTo } from '../widgets/wrapped.ts'

/** `isClockPlain`: the clock is one line of text. */
export type ShownView = RecorderView & { isClockPlain: boolean }

/** What to do now, the clock, what comes next, the splits so far. */
export function NowPanel({ view, columns, height }: { view: ShownView; columns: number; height: number }) {
  const { echo, splits } = view
  const largeEcho = echo === null || view.isClockPlain ? null : drawBig(echo, columns)
  const room = { columns, height, isEchoLarge: largeEcho !== null }
  const { what, where, clock, notes, rowsBelow } = fitted(view, room)
  const big = rowsBelow >= echoRows ? largeEcho : null
  const free = rowsBelow - Math.max(notes.length, echo === null ? 0 : big ? echoRows : 1)
  const hasBlanks = free > 1
  // Without a line below the clock the echo replaces the last line above it.
  const isEchoAbove = echo !== null && rowsBelow < 1
  return (
    <Box flexDirection="column" width={columns} height={height}>
      <Lines lines={isEchoAbove && where.length === 0 ? what.slice(0, -1) : what} bold />
      <Lines lines={isEchoAbove ? where.slice(0, -1) : where} />
      {isEchoAbove && <Echo text={echo} big={null} />}
      {hasBlanks && <Text> </Text>}
      <ClockLabel view={view} />
      <ClockLines lines={clock} columns={columns} isTurned={view.go || view.clock.isEnding} />
      {hasBlanks && <Text> </Text>}
      {echo !== null && !isEchoAbove && <Echo text={echo} big={big} />}
      {echo === null && <Lines lines={notes} />}
      {echo === null && splits.length > 0 && free > 4 && (
        <Box flexDirection="column" marginTop={1}>
          <Lines lines={barLines(splits.slice(3 - free), columns).lines} />
        </Box>
      )}
    </Box>
  )
}

/** A recorded result in small and in large letters. */
const echoRows = 4
/** For a large echo the digits of the clock get no smaller than this many rows. */
const leastBesideEcho = 5

/** The texts and the clock at a height: small lines are dropped before the digits shrink. Below the clock are the
 * notes, whose place the echo of a recorded result takes. */
function fitted(
  view: ShownView,
  { columns, height, isEchoLarge }: { columns: number; height: number; isEchoLarge: boolean },
) {
  const { now, pending, next, lastTime, isClockPlain } = view
  const leastClockRows = isClockPlain ? 1 : 3
  const task = linesUpTo(now.what, columns, height >= 12 ? 3 : 2)
  // Where the task, one line of the place, the clock's label and large digits do not fit, the place is left out,
  // because the entry line names it, and the task is cut.
  const isCut = !isClockPlain && height < task.length + 1 + 1 + leastClockRows
  const what = isCut ? task.slice(0, Math.max(1, height - 1 - leastClockRows)) : task
  const where = isCut ? [] : linesUpTo(now.where, columns, height >= 12 ? 2 : 1)
  const rows = height - what.length - where.length - 1
  const notes = [pending, next, lastTime]
    .filter((text) => text !== '')
    .slice(0, Math.max(0, rows - leastClockRows))
  const room = { columns, rows: rows - Math.max(notes.length, echoRows), least: leastBesideEcho }
  const beside = isEchoLarge ? drawnClock(view, room) : null
  const clock = beside ?? clockLines(view, { columns, rows: rows - notes.length })
  return { what, where, clock, notes, rowsBelow: rows - clock.length }
}

/** Not shown for an empty text. */
function linesUpTo(text: string, columns: number, most: number): string[] {
  return text === '' ? [] : screenLinesUpTo(most, text, columns)
}

const words: Readonly<Record<string, string>> = {
  set: 'SET',
  'warm-up': 'SET',
  repeat: 'REPEAT',
}

type Clocked = Pick<ShownView, 'clock' | 'now' | 'isClockPlain'>

/** The clock as large as it fits, with the most important figure; one line of each if nothing large fits. */
export function clockLines(view: Clocked, room: { columns: number; rows: number }): string[] {
  const { clock, now, isClockPlain } = view
  const { number } = now
  const small = number === null || room.rows < 2 ? [] : [number]
  const large = number === null || isClockPlain || room.rows < 5 ? null : bigTextOf(number.toUpperCase())
  const isLarge = large?.every((line) => line.length <= room.columns)
  return drawnClock(view, room) ?? [clock.text, ...(large && isLarge ? ['', ...large] : small)]
}

function drawnClock({ clock, now, isClockPlain }: Clocked, room: Parameters<typeof bigClockOf>[1]) {
  const { kind, text, share, label } = clock
  const word = words[label] ?? 'WORK'
  return isClockPlain ? null : bigClockOf({ kind, text, word, share, number: now.number }, room)
}

/** @param isTurned inverts the colours: the last seconds of a countdown, and "go" */
export function ClockLines(props: { lines: readonly string[]; columns: number; isTurned: boolean }) {
  const { lines, columns, isTurned } = props
  return (
    <Box flexDirection="column" flexShrink={0}>
      {lines.map((line, index) => (
        <Text key={index} wrap="truncate" color={accent} bold={lines.length <= 2} inverse={isTurned}>
          {(isTurned ? line.padEnd(columns) : line) || ' '}
        </Text>
      ))}
    </Box>
  )
}

/** The clock's label; for a moment after the long signal, the word go. */
function ClockLabel({ view }: { view: RecorderView }) {
  const { label, beside } = view.clock
  return (
    <Text wrap="truncate">
      <Text bold inverse={view.go}>
        {view.go ? ' go ' : label}
      </Text>
      {beside === '' ? '' : `, ${beside}`}
    </Text>
  )
}

/** The recorded result, to be checked from a distance. */
function Echo({ text, big }: { text: string; big: readonly string[] | null }) {
  return (
    <Box flexDirection="column">
      <Lines lines={[echoLine(text)]} bold />
      <ClockLines lines={big ?? []} columns={0} isTurned={false} />
    </Box>
  )
}

/** As many of the first words as fit in large letters: the figures of an entry come first. A unit or a load that has no
 * such letters follows small with the rest, or alone. Null if not even one word fits. */
function drawBig(text: string, columns: number): string[] | null {
  const words = text.split(' ')
  for (let count = words.length; count > 0; count--) {
    const lines = bigTextOf(words.slice(0, count).join(' '))
    if (lines === null || words[count - 1] === 'x') continue
    const room = columns - Math.max(...lines.map((line) => [...line].length))
    if (room < 0) continue
    const rest = words.slice(count)
    if (!/^(m|km|mi|yd|s|x)$/.test(rest[0] ?? '')) return lines
    const small = [` ${rest.join(' ')}`, ` ${rest[0]}`].find(({ length }) => length <= room)
    if (small !== undefined) return lines.map((line, row) => (row === 2 ? `${line}${small}` : line))
  }
  return null
}
