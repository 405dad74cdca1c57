import { basename } from 'node:path'
import { sort } from 'd3-array'
import { formatDistanceStrict } from 'date-fns/formatDistanceStrict'
import { unlessRefused } from '../logbook/errors.ts'
import type { IndexEntry, SessionView } from '../logbook/model.ts'
import { isNamedOn, prescriptionsIn, readDayAt, readDayFile } from '../logbook/ownTexts.ts'
import type { Logbook } from '../logbook/store.ts'
import type { Plan } from '../plan/model.ts'
import type { Prescription } from '../prescription/model.ts'
import { readHead } from '../prescription/read.ts'
import { entryTitle } from '../recorder/labels.ts'
import type { Session } from '../session/model.ts'
import { replay } from '../session/replay.ts'
import { type SessionState, stepNow } from '../session/state.ts'
import { dayFiguresOf } from '../summary/day.ts'
import { daysBetween, printDate } from '../units/calendarDate.ts'
import { counted } from '../units/decimal.ts'
import { formatMeters } from '../units/length.ts'
import { joined } from '../units/lists.ts'
import { type Known, remembered } from './known.ts'

interface Listed {
  id: string
  /** Its date in a few characters. */
  when: string
  title: string
  /** What a day holds, or how many problems it has; of a session, when it was left and where. */
  detail: () => string
}

/** What the first screen can open: an unfinished session, which another program may be recording, or a written day,
 * whose id is the path of its file. */
export type Choice =
  | (Listed & { kind: 'unfinished'; mayResume: boolean })
  | (Listed & { kind: 'day'; date: string | null; sample: boolean })

type DayChoice = Extract<Choice, { kind: 'day' }>

/** From this many stored sessions on, the samples are no longer offered. */
const samplesUntil = 3

/** What can be opened, in this order: unfinished sessions; days dated today; days without a date; the next seven days;
 * days done today; later days, and earlier days from the newest; the samples, until three sessions are stored.
 * @param samples the folder of the sample days; null without */
export function choicesOf(known: Known, samples: string | null, now: Date): Choice[] {
  const { logbook, entries, plan, today } = known
  const ready = logbook.prescriptions()
  const ofToday = entries.filter(({ date, finished }) => date === today && finished)
  const done = new Set(ofToday.map(({ brief }) => brief.title))
  const written = ready.map(({ path }) => dayOf(path, known))
  const planned = plannedOn(today, written, plan, ({ id }) => basename(id))
  const days = written.map((day) => {
    const date = planned.includes(day) ? today : day.date
    const isDone = done.has(day.title) && (date === null || date === today)
    return { ...day, date, when: isDone ? doneToday : dateText(date, today) }
  })
  const names = new Set(ready.map(({ name }) => name))
  const isNew = samples !== null && entries.length < samplesUntil
  const offered = (isNew ? prescriptionsIn(samples, '') : []).filter(
    ({ name }) => /(?<!\.results)\.txt$/.test(name) && !names.has(name),
  )
  const away = ({ date }: DayChoice) => (date === null ? 0 : Math.abs(daysBetween(today, date)))
  return [
    ...unfinishedChoices(logbook, now, entries),
    ...sort(days, (day) => rankOf(day, today), away),
    ...offered.map(({ path }) => ({ ...dayOf(path, known), when: 'sample', sample: true })),
  ]
}

/** The days without a date of their own that the plan names on a date, except those with the title of a day that has
 * that date. */
export function plannedOn<Day extends Pick<Prescription, 'title' | 'date'>>(
  date: string,
  days: readonly Day[],
  plan: Plan | null,
  fileOf: (day: Day) => string,
): Day[] {
  const dated = new Set(days.flatMap((day) => (day.date === date ? day.title : [])))
  return days.filter(
    (day) => day.date === null && !dated.has(day.title) && isNamedOn(plan, date, fileOf(day)),
  )
}

const doneToday = 'done today'

/** Days ahead that are listed before all later ones: a week. */
const soonDays = 7

const ranks = { today: 0, undated: 1, soon: 2, done: 3, later: 4, earlier: 5 } as const

function rankOf({ date, when }: DayChoice, today: string): number {
  if (when === doneToday) return ranks.done
  if (date === null) return ranks.undated
  const ahead = daysBetween(today, date)
  if (ahead === 0) return ranks.today
  if (ahead < 0) return ranks.earlier
  return ahead <= soonDays ? ranks.soon : ranks.later
}

/** @param entries the index, if it has just been read */
export function unfinishedChoices(logbook: Logbook, now: Date, entries?: readonly IndexEntry[]): Choice[] {
  return logbook.unfinished(entries).map((view) => {
    const { id, prescription } = view.session
    const { date } = replay(view.session)
    const day = date === null ? '' : `${printDate(date, 'EEEE d MMMM')}: `
    const { mayResume, where } = leftAt(view, now)
    const detail = mayResume ? `left ${where}` : where
    const title = day + prescription.title
    return { kind: 'unfinished', id, title, detail: () => detail, when: 'unfinished', mayResume }
  })
}

/** Where a session was left, `14 minutes ago in the rest before front squat, set 3 of 5`, or who records it. */
function leftAt({ session, recordedBy }: SessionView, now: Date): { mayResume: boolean; where: string } {
  if (recordedBy !== null)
    return { mayResume: false, where: `being recorded by process ${recordedBy.pid} on ${recordedBy.host}` }
  return { mayResume: true, where: joined(' ', [agoText(session, now), placeText(replay(session))]) }
}

/** A day as listed. Only what is shown of it is read beyond its first lines: a folder of many days would take seconds. */
function dayOf(path: string, known: Known): Omit<DayChoice, 'when'> {
  const { title, date } = unlessRefused(
    () => readHead(readDayFile(path), known.defaults),
    () => ({ title: '', date: null }),
  )
  const detail = remembered(() => detailOf(path, known))
  return { kind: 'day', id: path, sample: false, title: title || basename(path), date, detail }
}

/** `no date`, `today`, `Sat 28 Nov`; with the year if it is another year. */
function dateText(date: string | null, today: string): string {
  if (date === null) return 'no date'
  if (date === today) return 'today'
  return printDate(date, date.slice(0, 4) === today.slice(0, 4) ? 'EEE d MMM' : 'd MMM yyyy')
}

/** "13.6 km, 16 sets, about 104 min"; of a day that cannot be read, why. */
function detailOf(path: string, { warmUpOf, defaults }: Known): string {
  const reading = readDayAt(path, defaults)
  if ('refused' in reading) return 'the file cannot be read'
  if ('problems' in reading)
    return `${counted(reading.problems.length, 'problem')}: e opens the day to correct it`
  const { prescription } = reading
  const { runMeters, liftSets, expectedMinutes } = dayFiguresOf(prescription, warmUpOf)
  return joined(', ', [
    runMeters > 0 && formatMeters(runMeters, prescription.units.distance),
    liftSets > 0 && counted(liftSets, 'set'),
    `about ${expectedMinutes} min`,
  ])
}

/** How long ago the last event of a session was: `12 s ago`, `14 minutes ago`; null if its time is unknown. */
function agoText(session: Session, now: Date): string | null {
  const last = session.events.at(-1)?.at ?? null
  if (last === null) return null
  const seconds = Math.max(0, Math.round((now.getTime() - Date.parse(last)) / 1000))
  return seconds < 60 ? `${seconds} s ago` : formatDistanceStrict(new Date(last), now, { addSuffix: true })
}

/** The newest unfinished session of a day, preferably one that no program is recording, and what to ask before the day
 * begins; null without one. Days with the same title and date are the same. */
export function unfinishedSessionOf(logbook: Logbook, { title, date }: Prescription, now: Date) {
  const views = logbook
    .unfinished()
    .filter(({ session: { prescription } }) => prescription.title === title && prescription.date === date)
  const view = views.find(({ recordedBy }) => recordedBy === null) ?? views[0]
  if (!view) return null
  const { mayResume, where } = leftAt(view, now)
  const question = mayResume
    ? `Go on where you left off, ${where}? Enter yes, n starts over`
    : `This day is ${where}. n begins it a second time`
  return { id: view.session.id, question, mayResume }
}

/** Where an unfinished session was left: `in the pause of front squat, set 2 of 3`, `before 2 km`. */
export function placeText(state: SessionState): string {
  const step = stepNow(state)
  if (!step) return 'with everything done'
  const exercise = step.kind === 'warm-up' ? `${step.name}, ` : ''
  return `${placeWords[state.phase.kind]} ${exercise}${entryTitle(state, step).label}`
}

const placeWords: Record<SessionState['phase']['kind'], string> = {
  ready: 'before',
  effort: 'in',
  recovery: 'in',
  pause: 'in the pause of',
  roundPause: 'in the pause before',
  rest: 'in the rest before',
}
