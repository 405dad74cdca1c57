import { attempt } from '../logbook/errors.ts'
import { todayOf } from '../logbook/machine.ts'
import { historyHead, historyLine, historyOf } from '../progress/history.ts'
import { replay } from '../session/replay.ts'
import type { SummaryOptions } from '../summary/summarise.ts'
import { DecisionsScreen } from '../ui/screens/DecisionsScreen.tsx'
import { ListScreen } from '../ui/screens/ListScreen.tsx'
import { TextScreen } from '../ui/screens/TextScreen.tsx'
import { letterKey, type ScreenKey } from '../ui/widgets/KeyedScreen.tsx'
import { decisionsContent } from './nextDay.ts'
import { type ProgressSubject, progressContent, summaryTextOf } from './overWeeks.ts'
import type { Screens } from './screens.ts'

const noSessions = 'no session is in this logbook yet'

/** Shows the summary of a session; its `n` leads to the decisions about the next day.
 * @param leave what follows: the program ends unless given
 * @param full with all figures
 * @throws LogbookError if the session cannot be read */
export function showSummary(id: string, screens: Screens, leave = screens.leave, full = false): void {
  const { logbook, settings, terminal, show } = screens
  const { session } = logbook.read(id)
  const text = (how: SummaryOptions) => summaryTextOf(logbook, session, settings(), how)
  const again = (isFull: boolean) => attempt(() => showSummary(id, screens, leave, isFull))
  const copy = () => {
    terminal.copy(text({ full: false }))
    return 'copied to the clipboard, where the terminal allows it; "pausebook summary" prints it'
  }
  const next = () => showDecisions(id, screens, () => again(full))
  show(
    <TextScreen
      text={(columns) => text({ full, columns })}
      keys={[
        letterKey('c', 'copy', 'copies the summary to the clipboard', copy),
        letterKey('n', 'next', 'decides about the next day like it, line by line', next),
        letterKey('m', full ? 'less' : 'more', 'shows all figures, or fewer', () => again(!full)),
      ]}
      leave={{ label: 'quit', act: leave }}
    />,
  )
}

/** Returns why there is nothing to decide. */
function showDecisions(id: string, { logbook, settings, show, back }: Screens, leave: () => void) {
  let nothing: string | null = null
  const problem = attempt(() => {
    const content = decisionsContent(id, logbook, settings(), todayOf(new Date()), back)
    if (content !== null) show(<DecisionsScreen {...content} leave={leave} />)
    else if (replay(logbook.read(id).session).finished) nothing = 'No advice for this day.'
    else nothing = 'Finish the session first.'
  })
  return problem ?? nothing
}

/** Returns why there is none.
 * @param picked the id of the session to begin with */
export function showHistory(screens: Screens, picked: string | null = null): string | null {
  const { logbook, settings, show, back } = screens
  const { units } = settings()
  const sessions = [...historyOf(logbook.index(), { from: null, to: null, lift: null, text: null })]
  if (sessions.length === 0) return noSessions
  const again = (id: string) => void showHistory(screens, id)
  show(
    <ListScreen
      title="History"
      head={(columns) => historyHead(Math.max(narrowest, columns))}
      rows={sessions.map((row) => ({
        id: row.id,
        line: (columns) => historyLine(row, units, Math.max(narrowest, columns)),
      }))}
      picked={picked}
      enter={{ label: 'its summary', does: 'shows the summary of the session' }}
      open={(id) => attempt(() => showSummary(id, screens, () => again(id)))}
      leave={() => back(null)}
    />,
  )
  return null
}

/** The least columns for a row of the history. */
const narrowest = 38

/** Returns why there is none. */
export function showProgress({ logbook, settings, show, back }: Screens): string | null {
  const subjects = progressContent(logbook, settings(), todayOf(new Date()))
  if (subjects === null) return noSessions
  showSubject(subjects, 0, show, () => back(null))
  return null
}

/** Shows how everything, the running, the load and each lift have developed, one at a time. */
export function showSubject(
  subjects: readonly ProgressSubject[],
  index: number,
  show: Screens['show'],
  leave: () => void,
): void {
  const subject = subjects[index]
  const turn = (by: number) => () =>
    showSubject(subjects, (index + by + subjects.length) % subjects.length, show, leave)
  const another: ScreenKey = {
    key: '← →',
    label: 'another',
    does: 'another subject; Tab does the same as →',
    acts: { right: turn(1), tab: turn(1), left: turn(-1), backTab: turn(-1) },
  }
  show(
    <TextScreen
      title={`Progress: ${subject?.name ?? ''} (${index + 1} of ${subjects.length})`}
      text={(columns) => subject?.lines(columns).join('\n') ?? ''}
      keys={[another]}
      leave={{ label: 'back', act: leave }}
    />,
  )
}
