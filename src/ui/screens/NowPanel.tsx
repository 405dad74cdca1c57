import { Box, Text } from 'ink'
import type { RecorderView } from '../../recorder/view.ts'
import { type SplitBar, splitBarsOf } from '../../summary/splitBars.ts'
import { bigClockOf } from '../widgets/bigClock.ts'
import { bigTextOf } from '../widgets/bigText.ts'
import { accent } from '../widgets/colours.ts'
import { Lines } from '../widgets/Lines.tsx'
import { screenLinesUpTo } from '../widgets/wrapped.ts'

interface Props {
  view: RecorderView
  columns: number
  height: number
  look: { ascii: boolean; plainClock: boolean }
}

/** What to do now, the big clock, what comes next, the splits so far. Drops small lines before it shrinks the digits. */
export function NowPanel({ view, columns, height, look }: Props) {
  const { now } = view
  const under = [view.open, view.next, view.lastTime].filter((text) => text !== '')
  const whole = saidLines(now.what, columns, height >= 12 ? 3 : 2)
  // Below these lines are the label of the clock and digits of three rows; the entry line names the place in the item.
  const isTight = !look.plainClock && height < whole.length + 1 + 1 + 3
  const what = isTight ? whole.slice(0, Math.max(1, height - 1 - 3)) : whole
  const where = isTight ? [] : saidLines(now.where, columns, height >= 12 ? 2 : 1)
  const head = what.length + where.length + 1
  const small = Math.min(under.length, Math.max(0, height - head - (look.plainClock ? 1 : 3)))
  const big = clockLines(view, { columns, rows: height - head - small }, look)
  const spare = height - head - small - big.length
  const isAiry = spare - (view.echo !== null && small === 0 ? 1 : 0) > 1
  const isRoomy = !look.plainClock && spare + small - (isAiry ? 2 : 0) >= 4
  const echo = view.echo === null || !isRoomy ? null : drawBig(view.echo, columns, !look.ascii)
  // Without a line below the clock the echo replaces the last line above it.
  const isEchoAbove = view.echo !== null && small + spare < 1
  return (
    <Box flexDirection="column" width={columns} height={height}>
      <Lines lines={isEchoAbove && where.length === 0 ? what.slice(0, -1) : what} bold />
      <Lines lines={isEchoAbove ? where.slice(0, -1) : where} />
      {isEchoAbove && <Echo text={view.echo ?? ''} big={null} />}
      {isAiry && <Text> </Text>}
      <ClockLabel view={view} />
      <ClockLines lines={big} columns={columns} isTurned={view.go || view.clock.isEnding} />
      {isAiry && <Text> </Text>}
      {view.echo !== null && !isEchoAbove && <Echo text={view.echo} big={echo} />}
      {view.echo === null && <Lines lines={under.slice(0, small)} />}
      {view.echo === null && view.splits.length > 0 && spare > 4 && (
        <Box marginTop={1}>
          <SplitBars splits={view.splits} columns={columns} rows={spare - 3} />
        </Box>
      )}
    </Box>
  )
}

/** Not shown for an empty text. */
function saidLines(text: string, columns: number, most: number): string[] {
  return text === '' ? [] : screenLinesUpTo(most, text, columns)
}

const words: Readonly<Record<string, string>> = {
  set: 'SET',
  'warm-up': 'SET',
  repeat: 'REPEAT',
  split: 'REPEAT',
}

/** The clock as large as it fits, with the most important figure; one line of each if nothing large fits. */
export function clockLines(
  { clock, now }: Pick<RecorderView, 'clock' | 'now'>,
  room: { columns: number; rows: number },
  look: Props['look'],
): string[] {
  const { kind, text, share, label } = clock
  const word = words[label] ?? 'WORK'
  const drawn = look.plainClock
    ? null
    : bigClockOf({ kind, text, word, share, number: now.number }, room, !look.ascii)
  return drawn ?? [text, ...(now.number === null || room.rows < 2 ? [] : [now.number])]
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
  return big ? (
    <Box flexDirection="column">
      <Text wrap="truncate">{`recorded ${text}`}</Text>
      <ClockLines lines={big} columns={0} isTurned={false} />
    </Box>
  ) : (
    <Text bold wrap="truncate">{`recorded ${text}`}</Text>
  )
}

/** As many of the first words as fit in large letters: the figures of an entry come first. A unit that has no such
 * letters follows small with the rest, or alone. Null if not even one word fits. */
function drawBig(text: string, columns: number, isUnicode: boolean): string[] | null {
  const words = text.split(' ')
  for (let count = words.length; count > 0; count--) {
    const lines = bigTextOf(words.slice(0, count).join(' '), 3, isUnicode)
    if (lines.length !== 3) continue
    const room = columns - Math.max(...lines.map((line) => [...line].length))
    if (room < 0) continue
    const rest = words.slice(count)
    if (!/^(m|km|mi|yd|s)$/.test(rest[0] ?? '')) return lines
    const small = [` ${rest.join(' ')}`, ` ${rest[0]}`].find(({ length }) => length <= room)
    if (small !== undefined) return lines.map((line, row) => (row === 2 ? `${line}${small}` : line))
  }
  return null
}

interface LabelledSplit extends SplitBar {
  /** `3`, `500 m`. */
  label: string
  /** The value as text: `1:48.2`. */
  text: string
}

const splitWords = { fast: 'fast', in: '', slow: 'slow' } as const

/** Draws splits as bars with their target range in brackets, and a word after a split outside it. Shows the newest if
 * there are more than rows. */
export function SplitBars(props: { splits: readonly LabelledSplit[]; columns: number; rows: number }) {
  const splits = props.splits.slice(-props.rows)
  const widthOf = (text: (split: LabelledSplit) => string) =>
    Math.max(0, ...splits.map((split) => [...text(split)].length))
  const label = widthOf((split) => split.label)
  const text = widthOf((split) => split.text)
  const room = props.columns - label - text - '   '.length - splitWords.slow.length - '[]'.length
  const bars = room < 8 ? null : splitBarsOf(splits, Math.min(room, 40))
  return (
    <Box flexDirection="column">
      {splits.map((split, index) => (
        <Text key={index} wrap="truncate">
          {split.label.padStart(label)} {split.text.padStart(text)}
          {bars === null ? '' : ` ${bars[index]}`}
          {split.target === null || split.target === 'in' ? '' : ` ${splitWords[split.target]}`}
        </Text>
      ))}
    </Box>
  )
}
