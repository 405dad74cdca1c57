import type { Session } from '../../session/model.ts'
import { replay } from '../../session/replay.ts'
import type { SessionState } from '../../session/state.ts'
import type { SummaryContext } from '../estimate.ts'
import type { Summary } from '../model.ts'
import { summaryOf } from '../summarise.ts'

/** A figure of a session, worked out: what it is of, and its steps. */
export interface SessionSteps {
  of: string
  steps: string[]
}

/** A session as the steps are made of it: replayed, and with its summary. */
export interface ExplainedSession {
  state: SessionState
  summary: Summary
  context: SummaryContext
}

export function explainedSession(session: Session, context: SummaryContext): ExplainedSession {
  const state = replay(session)
  return { state, summary: summaryOf(state, session.id, context), context }
}
