import { exerciseKey } from '../prescription/exercise.ts'
import type { DoneSession, Span } from './doneSession.ts'
import type { HistoryUnits } from './history.ts'
import { type LiftProgress, liftLines, liftProgress } from './lift.ts'
import { type LoadProgress, loadLines, loadProgress } from './load.ts'
import { type Overview, overviewLines, overviewOf } from './overview.ts'
import { type PainProgress, painLines, painProgress } from './pain.ts'
import { type RaceGoal, type RunProgress, runProgress } from './run.ts'
import { runLines } from './runText.ts'
import { spanOf } from './weeks.ts'

/** The subjects that can be shown over the weeks. */
export type Subject =
  | { kind: 'all' }
  | { kind: 'lift'; name: string }
  | { kind: 'run' }
  | { kind: 'load' }
  | { kind: 'pain' }

export type Shown =
  | { kind: 'all'; figures: Overview }
  | { kind: 'lift'; figures: LiftProgress }
  | { kind: 'run'; figures: RunProgress }
  | { kind: 'load'; figures: LoadProgress }
  | { kind: 'pain'; figures: PainProgress }

interface Given {
  /** Local dates; null if not asked for. */
  asked: { from: string | null; to: string | null }
  /** Local date. */
  today: string
  /** Called only for running. */
  goal: () => Omit<RaceGoal, 'secondsPerKm'> | null
}

/** The figures of a subject. @param sessions newest first */
export function shownOf(sessions: readonly DoneSession[], subject: Subject, given: Given): Shown {
  const { today } = given
  switch (subject.kind) {
    case 'all':
      return { kind: 'all', figures: overviewOf(sessions, spanWith(sessions, given), today) }
    case 'lift': {
      const those = withLift(sessions, subject.name)
      return { kind: 'lift', figures: liftProgress(those, subject.name, spanWith(those, given, sessions)) }
    }
    case 'run': {
      const figures = runProgress(sessions, spanWith(sessions, given), given.goal(), today)
      return { kind: 'run', figures }
    }
    case 'load':
      return { kind: 'load', figures: loadProgress(sessions, spanWith(sessions, given), today) }
    case 'pain':
      return { kind: 'pain', figures: painProgress(sessions, spanWith(sessions, given)) }
  }
}

/** @param sessions those about the subject; @param all to know when the logbook begins */
function spanWith(sessions: readonly DoneSession[], { asked, today }: Given, all = sessions): Span {
  const newest = sessions.find(({ date }) => asked.to === null || date <= asked.to)?.date ?? null
  return spanOf(asked, today, newest, all.at(-1)?.date ?? null)
}

function withLift(sessions: readonly DoneSession[], name: string): DoneSession[] {
  const key = exerciseKey(name)
  return sessions.filter((session) => session.hasLifted(key))
}

/** The figures as text. @param columns at least 40; @param isFull adds what only --full shows */
export function shownLines(
  shown: Shown,
  units: HistoryUnits,
  columns: number,
  today: string,
  isFull = false,
): string[] {
  switch (shown.kind) {
    case 'all':
      return overviewLines(shown.figures, units, columns)
    case 'lift':
      return liftLines(shown.figures, units, columns)
    case 'run':
      return runLines(shown.figures, units, columns)
    case 'load':
      return loadLines(shown.figures, columns, today, isFull)
    case 'pain':
      return painLines(shown.figures, units.distance, columns)
  }
}
