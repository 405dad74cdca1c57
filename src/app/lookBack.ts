import { min } from 'd3-array'
import { contextOn } from '../logbook/index.ts'
import type { SessionEntry, SessionView } from '../logbook/model.ts'
import { printMorning } from '../plan/morning.ts'
import { historyHead, historyLine, historyOf } from '../progress/history.ts'
import { replay } from '../session/replay.ts'
import type { SessionState } from '../session/state.ts'
import type { SummaryContext } from '../summary/model.ts'
import { summaryText } from '../summary/text.ts'
import type { SummaryOptions } from '../summary/view.ts'
import { letterKey, type ScreenKey } from '../ui/widgets/screenKeys.ts'
import type { Known } from './known.ts'
import { decisionsAsJson, decisionsContent, nextIn, showDecisions } from './nextDay.ts'
import { type ProgressSubject, progressContent } from './overWeeks.ts'
import { isHardReady } from './readyDays.ts'
import { listOf, type Screens } from './screens.ts'

/** What the summary of a session needs besides it: the equation of the settings, the body mass and the morning of its
 * day, the plan's race, what comes next.
 * @param full with what only the full summary says */
export function summaryContextOf(
  { session, entry }: SessionView,
  known: Known,
  full: boolean,
): SummaryContext {
  const { plan, settings, mornings } = known
  const morning = mornings.mornings.find(({ date }) => date === entry.date)
  return {
    ...contextOn(settings, entry.date, plan?.race),
    sleepSeconds: morning?.sleepSeconds ?? null,
    soreness: printMorning({ soreness: morning?.soreness }),
    next: decisionsAsJson(nextIn(known, { session, entry }).decisions),
    nextHard: full ? nextHardAfter(entry, known, replay(session)) : null,
  }
}

/** As `SummaryContext.nextHard`. */
function nextHardAfter({ id, date }: SessionEntry, known: Known, { finishedAt }: SessionState) {
  const end = finishedAt?.wall ?? Number.POSITIVE_INFINITY
  const later = known.entries.filter((each) => each.id !== id && (each.started ?? 0) >= end)
  const next = min(later, ({ day, started }) => (day.isHard ? started : null))
  if (next !== undefined) return (next - end) / 1000
  // For an earlier day, only what was done then counts.
  return date === known.today && isHardReady(known) ? 'later today' : null
}

const noSessions = 'no session is in this logbook yet'

/** Shows the summary of a session; its `n` leads to the decisions about the next day.
 * @param back where `q` leads; null: the program ends
 * @param full with all figures
 * @throws LogbookError if the session cannot be read */
export function showSummary(
  id: string,
  screens: Screens,
  back: (() => void) | null = null,
  full = false,
): void {
  const { logbook, terminal, show } = screens
  const view = logbook.read(id)
  const { session } = view
  const known = screens.known()
  const context = summaryContextOf(view, known, full)
  const text = (how: SummaryOptions) => summaryText(session, context, { ...how, units: known.asked })
  const again = (isFull: boolean) => showSummary(id, screens, back, isFull)
  const copy = () => {
    terminal.copy(text({ full: false }))
    return 'copied to the clipboard, where the terminal allows it; "pausebook summary" prints it'
  }
  const next = () => {
    const decisions = decisionsContent(id, screens.known(), screens.back)
    if (decisions !== null) return showDecisions(decisions, show, () => again(full))
    return replay(session).finished ? 'No advice for this day.' : 'Finish the session first.'
  }
  show({
    kind: 'text',
    text: (columns) => text({ full, columns }),
    keys: [
      letterKey('c', 'copy', 'copies the summary to the clipboard', copy),
      letterKey('n', 'next', 'decides about the next day like it, line by line', next),
      letterKey('m', full ? 'less' : 'more', 'shows all figures, or fewer', () => again(!full)),
    ],
    leave: back === null ? { label: 'quit', act: screens.leave } : { label: 'back', act: back },
  })
}

/** Shows the sessions, newest first. Returns a message if there are none.
 * @param picked the id of the session to begin with */
export function showHistory(screens: Screens, picked: string | null = null): string | null {
  const { show, back } = screens
  const known = screens.known()
  const { historyUnits: units } = known
  const sessions = historyOf(known.entries)
  if (sessions.length === 0) return noSessions
  show(
    listOf({
      title: 'History',
      headings: historyHead,
      rows: sessions.map((row) => ({
        id: row.id,
        lines: (columns) => [historyLine(row, units, columns)],
      })),
      picked,
      enter: { label: 'its summary', does: 'shows the summary of the session' },
      open: (index) => {
        const id = sessions[index]?.id ?? ''
        showSummary(id, screens, () => showHistory(screens, id))
      },
      leave: () => back(null),
    }),
  )
  return null
}

/** Shows the progress from its first page on. Returns a message if there is no session. */
export function showProgress({ known, show, back }: Screens): string | null {
  const subjects = progressContent(known())
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
    label: 'page',
    does: 'the page before, the page after; Tab does the same as →',
    acts: { left: turn(-1), backTab: turn(-1), '<': turn(-1), right: turn(1), tab: turn(1), '>': turn(1) },
  }
  show({
    kind: 'text',
    title: `Progress: ${subject?.name ?? ''} (${index + 1} of ${subjects.length})`,
    text: (columns) => subject?.lines(columns).join('\n') ?? '',
    keys: [another],
    leave: { label: 'back', act: leave },
  })
}
