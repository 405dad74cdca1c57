import type { Session } from '../session/model.ts'
import { replay } from '../session/replay.ts'
import type { SessionState } from '../session/state.ts'
import type { SummaryContext } from '../summary/estimate.ts'
import { exercisesDone, worksDone } from '../summary/performed.ts'
import { summaryOf } from '../summary/summarise.ts'
import type { DigestDay } from './digestModel.ts'

/** A session's day for the digest, and what it is sorted and picked by. */
export function digestDayOf(
  session: Session,
  context: SummaryContext,
): { day: DigestDay; finished: boolean; started: number | null } {
  const state = replay(session)
  const day = {
    summary: summaryOf(state, session.id, context),
    lifts: exercisesDone(state).map(({ name, sets }) => ({
      name,
      sets: sets.map(({ result: { note, pain, ...set } }) => set),
    })),
    running: kindsOf(state, 'run'),
    cross: kindsOf(state, 'cross'),
  }
  return { day, finished: state.finished, started: state.startedAt?.wall ?? null }
}

function kindsOf(state: SessionState, kind: 'run' | 'cross'): DigestDay['running'] {
  return worksDone(state, kind).map(({ work, steps, splits }) => ({
    repeats: work.repeats,
    word: steps.find((step) => step.target?.word)?.target?.word ?? null,
    gaps: gapsIn(
      steps.map(({ id }) => id),
      new Set(splits.map(({ step }) => step.id)),
    ),
  }))
}

function gapsIn(steps: readonly string[], recorded: ReadonlySet<string>): number[] {
  let before = 0
  return steps.flatMap((step) => {
    if (!recorded.has(step)) return [before]
    before += 1
    return []
  })
}
