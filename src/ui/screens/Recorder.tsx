import { Box, Text } from 'ink'
import { useEffect, useMemo, useState, useSyncExternalStore } from 'react'
import { moved } from '../../recorder/modes/keysAndPanels.ts'
import type { RecorderStore } from '../../recorder/store.ts'
import { dayLines, type RecorderView, viewOf } from '../../recorder/view.ts'
import { joined } from '../../units/lists.ts'
import { EntryLine } from '../widgets/EntryLine.tsx'
import { KeyLine } from '../widgets/KeyLine.tsx'
import { useKeys } from '../widgets/keys.ts'
import { accent, Lines } from '../widgets/Lines.tsx'
import { useTerminalSize } from '../widgets/terminalSize.ts'
import { keepTicking } from '../widgets/ticking.ts'
import { noticeLines } from '../widgets/wrapped.ts'
import { DayPanel, widthOfDay } from './DayPanel.tsx'
import { ListPanel, panelPage } from './ListPanel.tsx'
import { NowPanel } from './NowPanel.tsx'

/** The smallest terminal that can show everything needed. */
const least = { columns: 40, lines: 11 }
/** From this width on the day is shown beside the current step. */
const wide = 70
/** From this height on there is a blank line above the entry, and a running clock takes all columns. */
const tall = 18

const scrollHint = { key: '↑ ↓', label: 'scroll' }

export interface RecorderContent {
  store: RecorderStore
  /** The clock is one line of text. */
  isClockPlain?: boolean
}

/** The one screen of a session: the current step, its clock, the entry, the advice, the keys. */
export function Recorder({ store, isClockPlain = false }: RecorderContent) {
  const model = useSyncExternalStore(store.subscribe, store.get)
  const { columns, lines } = useTerminalSize()
  // The same array until the state changes, so that a tick does not draw the day panel.
  const day = useMemo(() => dayLines(model.state), [model.state])
  useEffect(() => keepTicking(store), [store])
  const [scrolled, setScrolled] = useState({ mode: model.mode, top: 0 })
  const view = { ...viewOf(model), isClockPlain }
  const { panel, clock, entry, isNotice } = view
  const isTall = lines >= tall
  const notice = noticeLines(view.line, columns, 2)
  // On a tall screen a second line replaces the blank one above the entry, else one of the body.
  const height = lines - 4 - (isTall ? 1 : notice.length - 1)
  const isClockAlone = isTall && clock.kind !== 'idle' && panel === null
  const hasDay = columns >= wide && !isClockAlone && !panel?.isWholePage
  const dayWidth = hasDay ? widthOfDay(columns) : 0
  const room = { columns: columns - dayWidth, height }
  const page = panelPage(view, room)
  const hidden = page?.hidden ?? 0
  const top = scrolled.mode === model.mode ? Math.min(scrolled.top, hidden) : 0
  useKeys((key) => {
    const isArrow = key.kind === 'named' && (key.name === 'up' || key.name === 'down')
    if (!isArrow || hidden === 0 || store.get().mode !== model.mode) return store.press(key)
    setScrolled({ mode: model.mode, top: moved(top, key.name, hidden + 1) })
    return true
  })
  if (columns < least.columns || lines < least.lines) {
    const size = `${least.columns}x${least.lines + 1}`
    return <Text>{`${clock.label} ${clock.text}\ntoo small: ${size} needed`}</Text>
  }
  // Goes before Space and the last key, which is kept where not all fit.
  const place = view.keys.findIndex(({ key }, index) => key === 'Space' || index === view.keys.length - 1)
  const keys = hidden > 0 ? view.keys.toSpliced(place, 0, scrollHint) : view.keys
  return (
    <Box flexDirection="column" width={columns} height={lines}>
      <HeadLine head={view.head} columns={columns} />
      <Box height={height}>
        {hasDay && <DayPanel lines={day} width={dayWidth} height={height} />}
        {page ? (
          <ListPanel view={view} page={page} top={top} {...room} />
        ) : (
          <NowPanel view={view} {...room} />
        )}
      </Box>
      {isTall && notice.length === 1 && <Text> </Text>}
      {entry.isField ? <EntryLine {...entry} value={model.draft} onChange={store.typed} /> : <Text> </Text>}
      <Lines lines={notice} bold={isNotice} color={isNotice ? undefined : accent} />
      <KeyLine hints={keys} columns={columns} />
    </Box>
  )
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
