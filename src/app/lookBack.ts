import { todayOf } from '../logbook/machine.ts'
import { historyHead, historyLine, historyOf } from '../progress/history.ts'
import { replay } from '../session/replay.ts'
import type { SummaryOptions } from '../summary/summarise.ts'
import {
  enterKey,
  keysKey,
  leavingKey,
  letterKey,
  pickKey,
  type ScreenKey,
} from '../ui/widgets/screenKeys.ts'
import { screenLinesUpTo } from '../ui/widgets/wrapped.ts'
import { type Decisions, decisionsContent } from './nextDay.ts'
import { type ProgressSubject, progressContent, summaryTextOf } from './overWeeks.ts'
import { listOf, type Screens } from './screens.ts'

const noSessions = 'no session is in this logbook yet'

/** Shows the summary of a session; its `n` leads to the decisions about the next day.
 * @param leave what follows: the program ends unless given
 * @param full with all figures
 * @throws LogbookError if the session cannot be read */
export function showSummary(id: string, screens: Screens, leave = screens.leave, full = false): void {
  const { logbook, settings, terminal, show } = screens
  const { session } = logbook.read(id)
  const text = (how: SummaryOptions) => summaryTextOf(logbook, session, settings(), how)
  const again = (isFull: boolean) => showSummary(id, screens, leave, isFull)
  const copy = () => {
    terminal.copy(text({ full: false }))
    return 'copied to the clipboard, where the terminal allows it; "pausebook summary" prints it'
  }
  const next = () => {
    const decisions = decisionsContent(id, logbook, settings(), todayOf(new Date()), screens.back)
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
    leave: { label: 'quit', act: leave },
  })
}

/** Shows what a session says about the next one like it: each line is accepted or rejected, and Enter on the last line,
 * with the date, saves the day. */
export function showDecisions(
  { rows, dateText, earliest, save }: Decisions,
  show: Screens['show'],
  leave: () => void,
): void {
  const idOf = (index: number) => rows[index]?.id ?? 'save'
  const linesOf = (text: string, columns: number) => screenLinesUpTo(mostLines, text, columns - 2)
  /** @param marks of the lines decided so far
   * @param days by which the offered date is moved */
  const ask = (marks: Readonly<Record<string, '+' | '-'>>, days: number, picked: string | null): void => {
    const mark = (as: '+' | '-', index: number) => () => {
      if (index < rows.length) ask({ ...marks, [idOf(index)]: as }, days, idOf(index + 1))
    }
    const move = (by: number, index: number) => () => ask(marks, Math.max(earliest, days + by), idOf(index))
    const saved = () => save(new Set(rows.flatMap(({ id }) => (marks[id] === '+' ? id : []))), days)
    show({
      kind: 'list',
      head: () => ['Next time: + accepted, - rejected'],
      rows: [
        ...rows.map(({ id, text }) => ({
          id,
          lines: (columns: number) =>
            linesOf(text, columns).map((line, at) => `${(at === 0 && marks[id]) || ' '} ${line}`),
        })),
        { id: 'save', lines: (columns) => linesOf(`save for ${dateText(days)}`, columns) },
      ],
      keys: (index) => [
        index < rows.length
          ? enterKey('accept', 'accepts the line; on the last line saves the day', mark('+', index))
          : enterKey('save', 'saves the day among the prescriptions', saved),
        {
          key: 'Space',
          label: 'reject',
          does: 'rejects the line, which stays in the day as it was',
          acts: { ' ': mark('-', index), '-': mark('-', index) },
        },
        {
          key: '← →',
          label: 'date',
          does: 'move the date of the new day by a day',
          acts: { left: move(-1, index), '<': move(-1, index), right: move(1, index), '>': move(1, index) },
        },
        { ...pickKey, does: 'pick a line' },
        keysKey,
        leavingKey('back', leave, 'back without a new day'),
      ],
      picked,
      usual: (index) => (index < rows.length ? '' : 'lines you do not accept stay as they are'),
    })
  }
  ask({}, 0, null)
}

/** On the smallest screen no more fit. */
const mostLines = 8

/** Returns why there is none.
 * @param picked the id of the session to begin with */
export function showHistory(screens: Screens, picked: string | null = null): string | null {
  const { logbook, settings, show, back } = screens
  const { units } = settings()
  const sessions = [...historyOf(logbook.index(), { from: null, to: null, lift: null, text: null })]
  if (sessions.length === 0) return noSessions
  show(
    listOf({
      title: 'History',
      headings: (columns) => historyHead(Math.max(narrowest, columns)),
      rows: sessions.map((row) => ({
        id: row.id,
        lines: (columns) => [historyLine(row, units, Math.max(narrowest, columns))],
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
    label: 'page',
    does: 'the page before, the page after; Tab does the same as →',
    acts: { right: turn(1), tab: turn(1), '>': turn(1), left: turn(-1), backTab: turn(-1), '<': turn(-1) },
  }
  show({
    kind: 'text',
    title: `Progress: ${subject?.name ?? ''} (${index + 1} of ${subjects.length})`,
    text: (columns) => subject?.lines(columns).join('\n') ?? '',
    keys: [another],
    leave: { label: 'back', act: leave },
  })
}
