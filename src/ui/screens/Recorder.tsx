import { Box, Text } from 'ink'
import { memo, useEffect, useMemo, useRef, useState, useSyncExternalStore } from 'react'
import { moved } from '../../recorder/modes/mode.ts'
import type { RecorderStore } from '../../recorder/store.ts'
import {
  type DayLine,
  dayLines,
  dayWidthOf,
  dayWindow,
  type RecorderView,
  viewOf,
} from '../../recorder/view.ts'
import { joined } from '../../units/lists.ts'
import { DayStrip } from '../widgets/DayStrip.tsx'
import { EntryLine, fieldTextOf } from '../widgets/EntryLine.tsx'
import { AsciiContext, KeyLine } from '../widgets/KeyLine.tsx'
import { type Key, useKeys } from '../widgets/keys.ts'
import { accent, Lines } from '../widgets/Lines.tsx'
import { keepTicking } from '../widgets/ticking.ts'
import { useTerminalSize } from '../widgets/useTerminalSize.ts'
import { noticeLines, screenLinesUpTo } from '../widgets/wrapped.ts'
import { ListPanel, pageOf } from './ListPanel.tsx'
import { ClockLines, clockLines, NowPanel } from './NowPanel.tsx'

interface Props {
  store: RecorderStore
  /** Which characters the terminal can show, and how large the clock may be. */
  look: { ascii: boolean; plainClock: boolean }
}

/** The smallest terminal that can show everything needed. */
const least = { columns: 40, lines: 11 }
/** From this width on the day is shown beside the current step. */
const wide = 70
/** From this height on there are blank lines between the parts of the screen, and a running clock takes all columns. */
const tall = 18
/** From this width on half of the columns suffice for the current step. */
const roomy = 120

const scrollHint = { key: '↑ ↓', label: 'scroll' }

/** The one screen of a session: the current step, its clock, the entry, the advice, the keys. */
export function Recorder({ store, look }: Props) {
  const model = useSyncExternalStore(store.subscribe, store.get)
  const { columns, lines } = useTerminalSize()
  // The same array until the state changes, so that a tick does not draw the day panel.
  const day = useMemo(() => dayLines(model.state), [model.state])
  useEffect(() => keepTicking(store), [store])
  const [scrolled, setScrolled] = useState({ mode: model.mode, top: 0 })
  // How many lines of the list or question drawn last have no room: the arrows scroll to them.
  const drawn = useRef({ mode: model.mode, hidden: 0 })
  useKeys((key) => {
    const { mode, hidden } = drawn.current
    const isArrow = key.kind === 'named' && (key.name === 'up' || key.name === 'down')
    if (!isArrow || hidden === 0 || store.get().mode !== mode) return pressed(store, key)
    setScrolled((before) => {
      const top = before.mode === mode ? Math.min(before.top, hidden) : 0
      return { mode, top: moved(top, key.name, hidden + 1) }
    })
    return true
  })
  if (columns < least.columns || lines < least.lines) return <Text>{tooSmall(columns, lines)}</Text>
  const view = viewOf(model)
  const spare = lines >= tall ? 2 : 0
  const said = noticeLines(view.line, columns, 2)
  // On a tall screen a second line replaces the blank one above the entry, else one of the body.
  const isSpaced = spare > 0 && said.length === 1
  const body = lines - 4 - spare - (spare > 0 ? 0 : said.length - 1)
  const isWholePage = view.panel?.isWholePage === true
  const isRunning = view.clock.kind !== 'idle'
  const isClockAlone = isRunning && view.panel === null && lines >= tall
  const dayWidth = columns >= wide && !isWholePage && !isClockAlone ? widthOfDay(day, columns) : 0
  // A question or a list leaves the clock three rows, and a fourth for the bar of a rest if there is room.
  const showsTime = view.clock.label !== 'ready'
  const clock =
    showsTime && view.panel !== null
      ? clockLines(view, { columns: columns - dayWidth, rows: body >= 12 ? 4 : 3 }, look)
      : []
  const room = { columns: columns - dayWidth, height: body - clock.length }
  const hidden = view.panel?.selected === null ? pageOf(view.panel, room, look.ascii).hidden : 0
  drawn.current = { mode: model.mode, hidden }
  // Before the last one, which stays where not all fit.
  const keys = hidden > 0 ? [...view.keys.slice(0, -1), scrollHint, ...view.keys.slice(-1)] : view.keys
  return (
    <AsciiContext value={look.ascii}>
      <Box flexDirection="column" width={columns} height={lines}>
        <HeadLine head={view.head} columns={columns} />
        {spare > 0 && <DayStrip parts={view.strip} columns={columns} isUnicode={!look.ascii} />}
        <Box height={body}>
          {dayWidth > 0 && <DayPanel lines={day} width={dayWidth} height={body} ascii={look.ascii} />}
          {view.panel ? (
            <Box flexDirection="column">
              <ClockLines
                lines={clock}
                columns={columns - dayWidth}
                isTurned={view.go || view.clock.isEnding}
              />
              <ListPanel panel={view.panel} top={scrolled.mode === model.mode ? scrolled.top : 0} {...room} />
            </Box>
          ) : (
            <NowPanel view={view} columns={columns - dayWidth} height={body} look={look} />
          )}
        </Box>
        {isSpaced && <Text> </Text>}
        {view.entry.isField ? (
          <EntryLine
            label={view.entry.label}
            short={view.entry.short}
            value={model.draft}
            onChange={store.typed}
            placeholder={view.entry.placeholder}
          />
        ) : (
          <Text> </Text>
        )}
        <Lines lines={said} bold={view.isNotice} color={view.isNotice ? undefined : accent} />
        <KeyLine hints={keys} columns={columns} />
      </Box>
    </AsciiContext>
  )
}

function tooSmall(columns: number, lines: number): string {
  const rows = least.lines + 1
  const text = `${least.columns} columns and ${rows} rows are needed, here are ${columns} and ${lines + 1}`
  return text.length <= columns ? text : `too small: ${least.columns}x${rows} needed`
}

/** If there is room, the day takes what its longest line needs, up to half. */
function widthOfDay(day: readonly DayLine[], columns: number): number {
  const usual = Math.min(60, Math.floor(columns * 0.42))
  return columns < roomy ? usual : Math.max(usual, Math.min(dayWidthOf(day), Math.floor(columns / 2)))
}

/** The recorder takes the keys that it handles; keys that edit the text go on to the field. */
function pressed(store: RecorderStore, key: Key): boolean {
  return store.press(key.kind === 'paste' ? { kind: 'paste', text: fieldTextOf(key.text).trim() } : key)
}

/** Title, place, minutes, and whether everything is saved. The title is shortened first. */
function HeadLine({ head, columns }: { head: RecorderView['head']; columns: number }) {
  const right = joined('   ', [columns >= 60 && head.place, head.minutes, head.saved])
  return (
    <Box width={columns} justifyContent="space-between">
      <Box flexGrow={1} flexShrink={1} minWidth={0}>
        <Text bold wrap="truncate">
          {columns >= 60 ? head.title : head.isSaved ? head.place : ''}
          {columns >= 60 && head.planned !== '' && <Text bold={false}>{`   ${head.planned}`}</Text>}
        </Text>
      </Box>
      <Box flexShrink={head.isSaved ? 0 : 1} marginLeft={2}>
        <Text wrap="truncate" bold={!head.isSaved} inverse={!head.isSaved}>
          {head.isSaved ? right : head.saved}
        </Text>
      </Box>
    </Box>
  )
}

const marks = { done: '=', now: '>', ahead: ' ', skipped: '-', none: ' ' } as const

interface DayPanelProps {
  lines: readonly DayLine[]
  width: number
  height: number
  ascii: boolean
}

/** Every item of the day, with the current one marked and in the middle third. Memoised: a day can have thousands of
 * lines, and the clock ticks every second. */
const DayPanel = memo(function DayPanel({ lines, width, height, ascii }: DayPanelProps) {
  const wrapped = useMemo(() => lines.flatMap((line) => wrappedLines(line, width - 6)), [lines, width])
  const shown = dayWindow(wrapped, height)
  return (
    <Box flexDirection="column" width={width} height={height} paddingRight={2}>
      {shown.map((line, index) => (
        <Line key={index} line={line} ascii={ascii} />
      ))}
    </Box>
  )
})

/** A long item wraps, so that its load stays visible. */
function wrappedLines(line: DayLine, columns: number): DayLine[] {
  if (line.kind === 'part' || line.text.length <= columns) return [line]
  return screenLinesUpTo(3, line.text, columns).map((text, index) =>
    index === 0 ? { ...line, text } : { kind: 'results', mark: 'none', text },
  )
}

function Line({ line, ascii }: { line: DayLine; ascii: boolean }) {
  if (line.kind === 'part')
    return (
      <Text bold wrap="truncate">
        {line.text}
      </Text>
    )
  const now = line.mark === 'now'
  const done = line.mark === 'done' && !ascii ? '✓' : marks[line.mark]
  const text = line.kind === 'results' ? `    ${line.text}` : ` ${done} ${line.text}`
  return (
    <Text wrap="truncate" color={now ? accent : undefined} bold={now}>
      {text}
    </Text>
  )
}
