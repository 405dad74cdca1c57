import type { Session } from '../session/model.ts'
import { replay } from '../session/replay.ts'
import type { SessionState } from '../session/state.ts'
import type { MassUnit } from '../units/model.ts'
import { bodyMassOf, type SummaryContext } from './estimate.ts'
import type { Summary } from './model.ts'
import { summaryOf } from './summarise.ts'

export interface SummaryOptions {
  /** What a note does not need as well. */
  full: boolean
  /** Units to print in; null, or absent, leaves them to the file. */
  units?: { distance: 'km' | 'mi' | null; mass: MassUnit | null }
}

/** A session ready to be written: its figures, and what they were made of. */
export interface SummaryView {
  summary: Summary
  state: SessionState
  /** Kilograms; null when not known. */
  bodyKg: number | null
  full: boolean
  distance: 'km' | 'mi'
  mass: MassUnit
}

export function viewOf(session: Session, context: SummaryContext, options: SummaryOptions): SummaryView {
  const state = replay(session)
  const { units } = state.prescription
  return {
    summary: summaryOf(state, session.id, context),
    state,
    bodyKg: bodyMassOf(state, context),
    full: options.full,
    distance: options.units?.distance ?? units.distance,
    mass: options.units?.mass ?? units.mass,
  }
}
