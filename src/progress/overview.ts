import { groups } from 'd3-array'
import type { Morning } from '../plan/morning.ts'
import { exerciseKey } from '../prescription/exercise.ts'
import { plainOf } from '../summary/plain.ts'
import { counted, signed } from '../units/decimal.ts'
import { kilogramsIn } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import { bodyLines, bodyProgress } from './body.ts'
import { type Column, type Picture, pageOf, tableLines } from './chart.ts'
import type { HistoryUnits } from './history.ts'
import { estimateMarks, estimatesOf, liftLines, liftPicture, liftProgress, massSlopeText } from './lift.ts'
import { loadLines, loadPicture, loadProgress, sumText, type WeekDone, weekDone } from './load.ts'
import { type PastPain, painLines, painProgress } from './pain.ts'
import { runLines, runPicture, runProgress } from './run.ts'
import type { RaceGoal } from './towardRace.ts'
import {
  type DoneSession,
  dateText,
  distanceOf,
  inWeeks,
  isIn,
  plusOf,
  type Span,
  spanOf,
  spanText,
  weekText,
} from './weeks.ts'

/** A page is printed in 40 to 100 columns. */
export function pageColumns(columns: number): number {
  return Math.max(40, Math.min(columns, 100))
}

/** What is shown of a subject: its figures for --json, its lines, and its first chart. */
export interface Page {
  figures: object
  lines: (columns: number) => string[]
  /** Null without a chart. */
  picture: Picture | null
}

export interface PageInput {
  /** Newest first. */
  sessions: readonly DoneSession[]
  /** Local dates; null if not asked for. */
  asked: { from: string | null; to: string | null }
  /** Local date. */
  today: string
  units: HistoryUnits
  /** Adds what only --full shows. */
  isFull: boolean
  /** Called only for running. */
  goal: () => RaceGoal | null
  /** Called only for pain: every one, oldest first. */
  pains: () => readonly PastPain[]
  /** Called only for the body. */
  mornings: () => readonly Morning[]
}

/** The pages of `progress`, apart from those of the lifts. */
const pages = {
  all: (input) => {
    const figures = overviewOf(input.sessions, spanWith(input), input.today)
    return { figures, lines: (columns) => overviewLines(figures, input.units, columns), picture: null }
  },
  run: (input) => {
    const figures = runProgress(input.sessions, spanWith(input), input.goal(), input.today)
    const lines = (columns: number) => runLines(figures, input.units, columns)
    return { figures, lines, picture: runPicture(figures, input.units.distance) }
  },
  load: (input) => {
    const figures = loadProgress(input.sessions, spanWith(input), input.today)
    const lines = (columns: number) => loadLines(figures, columns, input.today, input.isFull)
    return { figures, lines, picture: loadPicture(figures) }
  },
  pain: (input) => {
    const figures = painProgress(input.pains(), spanWith(input))
    return { figures, lines: (columns) => painLines(figures, input.units.distance, columns), picture: null }
  },
  body: ({ mornings, asked, today, units }) => {
    const figures = bodyProgress(mornings(), asked.to ?? today)
    return { figures, lines: (columns) => bodyLines(figures, units, columns), picture: null }
  },
} satisfies Record<string, (input: PageInput) => Page>

type PageName = keyof typeof pages
export const pageNames = Object.keys(pages) as PageName[]
export type Subject = { kind: PageName } | { kind: 'lift'; name: string }

export function pageAbout(subject: Subject, input: PageInput): Page {
  if (subject.kind !== 'lift') return pages[subject.kind](input)
  const key = exerciseKey(subject.name)
  const lifted = input.sessions.filter((session) => session.lifted(key) !== null)
  const figures = liftProgress(input.sessions, subject.name, spanWith(input, lifted), input.today)
  const lines = (columns: number) => liftLines(figures, input.units, columns)
  return { figures, lines, picture: liftPicture(figures, input.units) }
}

/** @param about the sessions about the subject */
function spanWith({ sessions, asked, today }: PageInput, about = sessions): Span {
  const newest = about.find(({ date }) => asked.to === null || date <= asked.to)?.date ?? null
  return spanOf(asked, today, newest, sessions.at(-1)?.date ?? null)
}

const mostLifts = 8

type Overview = ReturnType<typeof overviewOf>

/** The most frequent lifts, each with its last estimate and straight line, and the weeks.
 * @param sessions newest first; @param today local date */
export function overviewOf(sessions: readonly DoneSession[], span: Span, today: string) {
  const within = sessions.filter(({ date }) => isIn(span, date))
  const names = liftNames(within)
  return {
    ...span,
    lifts: names.slice(0, mostLifts).map(({ name, sessions }) => {
      const { estimates, trends } = estimatesOf(within, name, span)
      return { name, sessions, last: estimates.at(-1) ?? null, trends }
    }),
    moreLifts: Math.max(0, names.length - mostLifts),
    weeks: inWeeks(span, within).map((week) => weekDone(week, today)),
  }
}

/** The lifts, most frequent first, each name as last written.
 * @param sessions newest first */
export function liftNames(sessions: readonly DoneSession[]): { name: string; sessions: number }[] {
  const names = sessions.flatMap(({ brief }) => brief.exercises)
  return groups(names, exerciseKey)
    .map(([, [name = '', ...others]]) => ({ name, sessions: 1 + others.length }))
    .sort((a, b) => b.sessions - a.sessions)
}

export function overviewLines(overview: Overview, units: HistoryUnits, columns: number): string[] {
  const lifts = overview.lifts.map((lift) => `  ${liftText(lift, units.mass)}`)
  const more = overview.moreLifts > 0 && `  and ${counted(overview.moreLifts, 'other lift')}`
  const head =
    'lifts, most frequent first: last estimated maximum, and its weekly change with the 95 % interval'
  const others = pageNames.filter((name) => name !== 'all')
  const blocks = [
    [spanText(overview)],
    lifts.length === 0 ? [] : [head, ...lifts, more],
    weekLines(overview, units, columns),
    [`one at a time: progress lift NAME, ${others.join(', ')}; in the app, the arrows`],
  ]
  return pageOf(blocks, columns)
}

function liftText({ name, last, trends }: Overview['lifts'][number], unit: MassUnit): string {
  const estimate = (): string => {
    if (last === null) return 'no estimate'
    const kg = kilogramsIn(last.kg, unit)
    const load = last.isOnBody ? `bodyweight${signed(kg, 1)}` : kg.toFixed(1)
    const both = last.isPair ? ' both together' : ''
    return `${last.atLeast ? 'at least ' : ''}${load} ${unit}${both} on ${dateText(last.date)} (${estimateMarks[last.kind].words})`
  }
  const slopes = trends
    .filter(({ trend }) => trend.isClear)
    .map(({ kind, trend }) => `${estimateMarks[kind].words} ${massSlopeText(trend, unit)}`)
  return [`${plainOf(name)}: ${estimate()}`, ...slopes].join('; ')
}

function weekLines({ weeks }: Overview, units: HistoryUnits, columns: number): string[] {
  const isWide = columns >= 72
  const table: Column<WeekDone>[] = [
    ['week', (week) => weekText(week, columns)],
    [`run ${units.distance}`, (week) => distanceOf(week.meters, units.distance) + plusOf([week])],
    [`lift ${units.mass}`, ({ tonnageKg }) => kilogramsIn(tonnageKg, units.mass).toFixed(0)],
    ['run', (week) => sumText(week.run, week), isWide],
    ['lift', (week) => sumText(week.lift, week), isWide],
    [isWide ? 'session load' : 'load', (week) => sumText(week.effortMinutes, week)],
  ]
  const atLeast = `"?" or "+" (at least): a session has no effort or no minutes${plusOf(weeks) && ', or running has no distance'}`
  const note = `${isWide ? 'run and lift before the last column: their' : 'load:'} session load; ${atLeast}`
  return [...tableLines(table, weeks), note]
}
