import * as z from 'zod'
import type { Session } from '../session/model.ts'
import { replay } from '../session/replay.ts'
import { SetResult } from '../session/result.ts'
import type { WalkState } from '../session/state.ts'
import type { SummaryContext } from '../summary/estimate.ts'
import { exercisesDone } from '../summary/lifted.ts'
import { Summary } from '../summary/model.ts'
import { worksDone } from '../summary/performed.ts'
import { summaryOf } from '../summary/summarise.ts'

const DoneSet = SetResult.omit({ note: true, pain: true })
export type DigestSet = z.infer<typeof DoneSet>

const Work = z.strictObject({
  /** Repeats, rather than the splits of one continuous piece. */
  repeats: z.boolean(),
  /** The word of its target: easy, race, trial and so on; null without one. */
  word: z.string().nullable(),
})

/** What the digest keeps of a session: its summary, what was lifted set by set, and what kind each piece of
 * work is, in the order of `summary.running.items` and `summary.cross.items`. */
export const DigestDay = z.strictObject({
  summary: Summary,
  lifts: z.array(z.strictObject({ name: z.string(), sets: z.array(DoneSet) })),
  running: z.array(Work),
  cross: z.array(Work),
})
export type DigestDay = z.infer<typeof DigestDay>

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

function kindsOf(state: WalkState, kind: 'run' | 'cross'): DigestDay['running'] {
  return worksDone(state, kind).map(({ work, steps }) => ({
    repeats: work.repeats,
    word: steps.find((step) => step.target?.word)?.target?.word ?? null,
  }))
}
