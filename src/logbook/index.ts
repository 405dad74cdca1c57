import { rmSync, statSync } from 'node:fs'
import { join, sep } from 'node:path'
import { descending, groups } from 'd3-array'
import { bodyShare } from '../figures/oneRepMax.ts'
import type { PlanRace } from '../plan/model.ts'
import { exerciseKey } from '../prescription/exercise.ts'
import { daysToGoal } from '../prescription/step.ts'
import type { Session } from '../session/model.ts'
import { painsDuring } from '../session/pain.ts'
import type { SessionState } from '../session/state.ts'
import { doneDay } from '../summary/day.ts'
import { lifted } from '../summary/lifting.ts'
import type { FiguresContext, Summary } from '../summary/model.ts'
import { type DoneWork, doseDone } from '../summary/performed.ts'
import { briefOf, figuresOf, summarise } from '../summary/summarise.ts'
import { metersOf } from '../units/length.ts'
import { hasShape, named } from '../validate/faults.ts'
import { isUnsafe } from '../validate/unsafe.ts'
import { writeDurably } from './durableFile.ts'
import { attempt, type Damage, ifKnown } from './errors.ts'
import { indexRowShape } from './generated/shapes.js'
import { originalOf, sessionEntriesOf, withoutDuplicates } from './logbookFiles.ts'
import type { IndexEntry, IndexRow, SessionEntry } from './model.ts'
import { planIn } from './ownTexts.ts'
import { loadSession, newestFirst, timesIn } from './sessionFile.ts'
import { bodyMassKgOn, bodyMassOn, type Settings } from './settings.ts'
import { readTextFile } from './text.ts'

/* The index, index.ndjson, has one row for each session, so that a question about many sessions does not read every
 * file. It is derived: a row counts only if its file still has the same size and modification time. */

export interface IndexWork {
  home: string
  settings: Settings
  onDamage: (damage: Damage) => void
  /** Called before so many sessions are read that it takes a second or more, as when a new version reads them anew. */
  onMany?: (sessions: number) => void
}

/** Reading one takes about 2 ms. */
const many = 500

/** Room for more than a hundred thousand sessions. */
const mostBytes = 400 * 1024 * 1024

/** Brings the index up to date with the files: computes missing or wrong rows; if the index cannot be written, the next
 * run computes them again.
 * @param isFresh computes every row
 * @returns every session, newest first; `differing`: with a fresh index, the files whose old row was different
 * although size and time were the same */
export function updateIndex(
  work: IndexWork,
  { isFresh = false } = {},
): { entries: IndexEntry[]; differing: string[]; isWritten: boolean } {
  const { home } = work
  const before = readRows(home)
  const entries = withoutDuplicates(home, sessionEntriesOf(home, work.onDamage), work.onDamage)
  const race = planIn(home)?.race ?? null
  const looked = entries.map((entry) => {
    const stamp = stampOf(entry, work.settings)
    const known = before.get(stamp.file)
    const isCurrent = known?.size === stamp.size && known.mtime === stamp.mtime && known.basis === stamp.basis
    return { entry, stamp, row: isCurrent ? known : null }
  })
  const outdated = looked.filter(({ row }) => isFresh || row === null).length
  if (outdated >= many) work.onMany?.(outdated)
  const found = looked.flatMap(({ entry, stamp, row }) => {
    if (row !== null && !isFresh) return [{ entry, row, isSound: true, isNew: false, isOther: false }]
    const computed = rowOf(work, entry, stamp)
    if (computed === null) return []
    const isOther = row !== null && JSON.stringify(row) !== JSON.stringify(computed.row)
    return [{ entry, ...computed, isNew: true, isOther }]
  })
  const sound = found.filter(({ isSound }) => isSound)
  const failure = attempt(() => {
    if (sound.length === 0 && isFresh) rmSync(indexPath(home), { force: true })
    else if (sound.some(({ isNew }) => isNew) || sound.length < before.size)
      writeDurably(indexPath(home), sound.map(({ row }) => `${JSON.stringify(row)}\n`).join(''))
  })
  const all = found.map(({ entry, row }) => entryOf(entry, row, work, race))
  return {
    entries: withoutOlderVersions(home, all).sort(byDateAndStart),
    differing: found.flatMap(({ row, isOther }) => (isOther ? row.file : [])),
    isWritten: failure === null,
  }
}

/** Keeps one of the versions of a session: the one whose last event is later. */
function withoutOlderVersions(home: string, found: readonly IndexEntry[]): IndexEntry[] {
  return groups(found, ({ path }) => originalOf(path)).flatMap(([, versions]) => {
    if (versions.length === 1) return versions
    const [newest, ...older] = newestFirst(home, versions) as [IndexEntry]
    return [{ ...newest, otherVersion: older.map(({ id }) => id).join(', ') }]
  })
}

/** Newest first. */
function byDateAndStart(a: IndexEntry, b: IndexEntry): number {
  return descending(a.date, b.date) || b.begun - a.begun || b.mtime - a.mtime || descending(a.id, b.id)
}

function entryOf(
  entry: SessionEntry,
  row: IndexRow,
  { home, settings, onDamage }: IndexWork,
  race: PlanRace | null,
): IndexEntry {
  let summary: Summary | null | undefined
  return {
    ...entry,
    ...row,
    begun: row.begun ?? row.mtime,
    lifted: (key) => row.lifts.find((lift) => lift.key === key) ?? null,
    summary: () => {
      if (summary === undefined) {
        const { value: session, damage } = loadSession(home, entry)
        // A disk can ruin a file without changing its size and time: then its row still counts.
        if (damage !== null) onDamage(damage)
        summary = session === null ? null : summarise(session, contextOn(settings, entry.date, race))
      }
      return summary
    },
  }
}

type Stamp = Pick<IndexRow, 'file' | 'size' | 'mtime' | 'basis'>

/** What a current row also has. A missing file gets a size that no row has. */
function stampOf({ path, date }: SessionEntry, settings: Settings): Stamp {
  const file = path.split(sep).slice(-2).join('/')
  const { size, mtimeMs: mtime } = ifKnown(() => statSync(path)) ?? { size: -1, mtimeMs: 0 }
  return { file, size, mtime, basis: basisOf(settings, date) }
}

/** Reads the session's own file. A damaged one (not `isSound`) stays out of the index and is reported each time. */
function rowOf(
  work: IndexWork,
  entry: SessionEntry,
  stamp: Stamp,
): { row: IndexRow; isSound: boolean } | null {
  const { value: session, damage } = loadSession(work.home, entry)
  if (damage !== null) work.onDamage(damage)
  if (session === null) return null
  const row = { ...stamp, ...indexedOf(session, contextOn(work.settings, entry.date)) }
  return { row, isSound: damage === null }
}

/** What the index keeps of a session: of its figures those that the schema names, which questions about many sessions
 * read. All others stay in its own file. */
export function indexedOf(session: Session, context: FiguresContext): Omit<IndexRow, keyof Stamp> {
  const figures = figuresOf(session, context)
  const { state, summary, works, exercises, bodyKg } = figures
  return named(indexRowShape(), {
    finished: state.finished,
    started: state.startedAt?.wall ?? null,
    begun: timesIn(session.events)[0] ?? null,
    brief: briefOf(summary),
    day: doneDay(figures),
    lifts: lifted(exercises).map(({ name, sets, figures }) => ({
      key: exerciseKey(name),
      figures,
      sets: sets.map(({ step, isPart, result }) => {
        const isShort = !isPart && doseDone(step.dose, result) === 'missed'
        return { ...result, isShort, isTotal: isPart && 'stations' in step.dose }
      }),
      hurt:
        painsDuring(
          state,
          sets.map(({ step }) => step),
        ).length > 0,
      bodyKg: sets.some(({ result }) => result.load?.kind === 'bodyweight')
        ? (bodyKg ?? 0) * bodyShare(name)
        : 0,
    })),
    running: {
      goal: summary.running.goal,
      items: works.flatMap(({ done, item }) =>
        done.kind === 'run' ? [{ ...item, ...runDone(done, state) }] : [],
      ),
    },
  })
}

function runDone({ work, steps, splits, part }: DoneWork, state: SessionState) {
  return {
    repeats: work.repeats,
    word: steps.find((step) => step.target?.word)?.target?.word ?? null,
    gaps: gapsIn(
      steps.map(({ id }) => id),
      new Set(splits.map(({ step }) => step.id)),
    ),
    effort: state.partStates[part]?.effort ?? null,
  }
}

function gapsIn(steps: readonly string[], recorded: ReadonlySet<string>): number[] {
  let before = 0
  return steps.flatMap((step) => {
    if (!recorded.has(step)) return [before]
    before += 1
    return []
  })
}

/** The rows by file; none without an index that can be read. */
function readRows(home: string): Map<string, IndexRow> {
  const text = readTextFile(indexPath(home), mostBytes)
  const lines = typeof text === 'string' ? text.split('\n') : []
  return new Map(lines.flatMap(readRow).map((row) => [row.file, row]))
}

/** This program never writes a control character into a row, raw or escaped. */
const escapes = /\\[bfnru]/

/** None for anything but a row of this version. */
function readRow(line: string): IndexRow[] {
  if (line === '' || escapes.test(line) || isUnsafe(line)) return []
  const row: unknown = ifKnown(() => JSON.parse(line))
  return hasShape<IndexRow>(indexRowShape(), row) ? [row] : []
}

function indexPath(home: string): string {
  return join(home, 'index.ndjson')
}

/** Increase it whenever the rows change their form or a figure in them changes its meaning. */
const version = 26

/** What a session's figures need besides the session: the chosen equation, the body mass valid on its date, and the
 * race of the plan. No row of the index depends on the plan. */
export function contextOn(settings: Settings, date: string, race: PlanRace | null = null): FiguresContext {
  return {
    equation: settings.formula,
    bodyMassKg: bodyMassKgOn(settings, date),
    hrMax: settings.hrMax,
    race:
      race === null
        ? null
        : {
            meters: metersOf(race.length),
            seconds: race.seconds,
            isThatDay: race.on === date,
            ahead: daysToGoal(race, date),
          },
  }
}

/** A key for everything besides its file that a session's figures in the index depend on, so that a new key means
 * computing them again: the equation, the highest heart rate, and only the body mass of its own day, so that a new
 * one leaves other days alone.
 * @param date of the session, YYYY-MM-DD */
export function basisOf(settings: Settings, date: string): string {
  const mass = bodyMassOn(settings, date)
  const massText = mass === null ? '-' : `${mass.date} ${mass.value} ${mass.unit}`
  return [version, settings.formula, settings.hrMax ?? '-', massText].join(' ')
}
