import { groups } from 'd3-array'
import { attempt } from '../logbook/errors.ts'
import { addPrescription, prescriptionName } from '../logbook/ownTexts.ts'
import { taperAround } from '../plan/model.ts'
import type { Prescription } from '../prescription/model.ts'
import { printCommented } from '../prescription/print.ts'
import { commentsOn, type Decision, decisionText } from '../progress/decision.ts'
import { type Next, nextOf } from '../progress/next.ts'
import { isRecent, type PastPain, standingPains } from '../progress/pain.ts'
import type { Session } from '../session/model.ts'
import { replay } from '../session/replay.ts'
import { plainOf } from '../summary/plain.ts'
import { enterKey, keysKey, leavingKey, pickKey } from '../ui/widgets/screenKeys.ts'
import { screenLinesUpTo } from '../ui/widgets/wrapped.ts'
import { dayAfter, daysBetween, printDate } from '../units/calendarDate.ts'
import { equipmentWith } from './equipment.ts'
import type { Known } from './known.ts'
import type { Screens } from './screens.ts'

/** What a session of the logbook says about the next one like it. */
export function nextIn(known: Known, of: { session: Session; entry: { id: string; date: string } }): Next {
  const { today, entries, logbook, pains, plan } = known
  const place = entries.findIndex(({ id }) => id === of.entry.id)
  const { race = null, weeks = [] } = plan ?? {}
  const { prescription } = of.session
  const equipmentOf = equipmentWith(known.settings)
  const races = [race?.on, prescription.goal?.on].filter((date) => date != null)
  const on = races.find((date) => date >= today) ?? races[0] ?? null
  // Today's: those of the last fortnight, and of the session and everything after it.
  const isSince = ({ date }: PastPain) => date >= of.entry.date && date <= today
  const painsToday = standingPains(pains.filter((pain) => isRecent(pain, today) || isSince(pain)))
  return nextOf(replay(of.session), {
    earlier: entries
      .slice(place + 1, place + 1 + mostReadSessions)
      .flatMap((earlier) => logbook.sessionOf(earlier) ?? [])
      .map((session) => replay(session)),
    sessions: entries.filter(({ date }) => date <= today),
    today,
    equipmentOf: (unit, exercise) => equipmentOf(unit, prescription, exercise),
    pains: painsToday.map(({ place, level, date, session }) =>
      session?.id === of.entry.id ? { place, level } : { place, level, on: date },
    ),
    painsOn: (day) => (day === null ? [] : standingPains(pains.filter((pain) => isRecent(pain, day)))),
    taper: taperAround(on, weeks, today),
  })
}

export function decisionsAsJson(decisions: readonly Decision[]) {
  return decisions.map(({ name: item, decision, reason }) => ({ item, decision, reason }))
}

/** The decisions about a session, one row for each line of its day, and how accepted rows become a day. The offered
 * date is a week after the session, or after today once that is over. Null if no rule applies to any line.
 * @param saved called with the path of the new day, and with its title and date in words */
export function decisionsContent(id: string, known: Known, saved: (path: string, notice: string) => void) {
  const { logbook, today } = known
  const { session, entry } = logbook.read(id)
  const next = nextIn(known, { session, entry })
  if (next.decisions.length === 0) return null
  const rows = groups(next.decisions, placeOf).map(([id, decisions]) => ({
    id,
    text: decisions.map((each) => plainOf(decisionText(each))).join('; '),
  }))
  const weekLater = dayAfter(entry.date, 7)
  const first = weekLater >= today ? weekLater : dayAfter(today, 7)
  const dateIn = (days: number) => dayAfter(first, days)
  const dateText = (days: number) => printDate(dateIn(days), 'EEE d MMM yyyy')
  return {
    rows,
    // The offered date, moved by this many days; negative: earlier.
    dateText,
    // The least number of days by which it can be moved.
    earliest: -daysBetween(today, first),
    // Saves the day with these rows accepted; returns a message if it cannot be saved.
    save: (accepted: ReadonlySet<string>, days: number) =>
      attempt(() => {
        const date = dateIn(days)
        const day: Prescription = { ...structuredClone(session.prescription), date }
        const taken = next.decisions.filter((decision) => accepted.has(placeOf(decision)))
        for (const { part, item } of taken) {
          const changed = next.prescription.parts[part]?.items[item]
          if (changed) day.parts[part]?.items.splice(item, 1, changed as never)
        }
        const text = printCommented(day, [`After ${entry.date} (${entry.id})`], commentsOn(taken))
        const path = addPrescription(logbook.directory, prescriptionName(day.title, date), text)
        saved(path, `saved: ${plainOf(day.title)}, ${dateText(days)}`)
      }),
  }
}

function placeOf({ part, item }: Decision): string {
  return `${part}.${item}`
}

/** How many earlier sessions are read for what was done on a line: the best part of a year of daily training. */
const mostReadSessions = 250

/** Shows what a session says about the next one like it: each line is accepted or rejected, and Enter on the last line,
 * with the date, saves the day. */
export function showDecisions(
  { rows, dateText, earliest, save }: NonNullable<ReturnType<typeof decisionsContent>>,
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

/** The smallest screen has room for this many lines. */
const mostLines = 8
