import { sessionLoad } from '../figures/load.ts'
import type { Session } from '../session/model.ts'
import { replay } from '../session/replay.ts'
import type { SessionState } from '../session/state.ts'
import { changesOf } from './changes.ts'
import type { SummaryContext } from './estimate.ts'
import { fuelOf } from './fuel.ts'
import { liftingOf } from './lifting.ts'
import type { Summary } from './model.ts'
import { notesOf } from './notes.ts'
import { partsOf, timeOf } from './parts.ts'
import { runningOf } from './running.ts'

/** A session's figures put together: SI units, full precision, null for what is not known. */
export function summarise(session: Session, context: SummaryContext): Summary {
  return summaryOf(replay(session), session.id, context)
}

/** The same of a session that was replayed already.
 * @param id of the session */
export function summaryOf(state: SessionState, id: string, context: SummaryContext): Summary {
  const parts = partsOf(state)
  const running = runningOf(state, 'run')
  const minutes = parts.map((part) => part.minutes).filter((each) => each !== null)
  return {
    session: {
      id,
      title: state.prescription.title,
      date: state.date ?? state.prescription.date ?? '',
      startedAt: timeOf(state.startedAt),
      finishedAt: timeOf(state.finishedAt),
      minutes: minutes.length === 0 ? null : minutes.reduce((sum, each) => sum + each, 0),
      effortMinutes: sessionLoad(parts.map((part) => part.effortMinutes)),
      finished: state.finished,
    },
    parts,
    running,
    cross: runningOf(state, 'cross'),
    lifting: liftingOf(state, context),
    fuel: fuelOf(state, context, running.meters),
    notes: notesOf(state),
    changes: changesOf(state),
  }
}
