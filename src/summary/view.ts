import type { Session } from '../session/model.ts'
import type { DistanceUnit, MassUnit } from '../units/model.ts'
import type { SummaryContext } from './model.ts'
import { figuresOf, type SessionFigures } from './summarise.ts'

/* What the writers of a summary share: how it is asked for, and a row of it. */

export interface SummaryOptions {
  /** Adds what a note leaves out, and shows splits as bars. */
  full: boolean
  /** The columns of a screen, which has room for bars in a short summary too; by default those of a note (44), or of
   * the full summary (72). */
  columns?: number
  /** Units for printing; absent: the file's. */
  units?: AskedUnits
}

/** Units that the athlete asked for; null for the file's or those of the settings. */
export interface AskedUnits {
  distance: DistanceUnit | null
  mass: MassUnit | null
}

/** A session ready for writing. */
export interface SummaryView extends SessionFigures {
  context: SummaryContext
  full: boolean
  /** Whether splits have bars. */
  bars: boolean
  /** The most columns in a line. */
  columns: number
  distance: DistanceUnit
  mass: MassUnit
  /** Null keeps each load in its own unit. */
  askedMass: MassUnit | null
}

/** The width of a note, for a phone's notes app. With bars a line is longer. */
const noteWidth = 44
const fullWidth = 72

export function summaryViewOf(
  session: Session,
  context: SummaryContext,
  { full, columns, units }: SummaryOptions,
): SummaryView {
  const figures = figuresOf(session, context)
  const bars = full || columns !== undefined
  const written = figures.state.prescription.units
  return {
    ...figures,
    context,
    full,
    bars,
    columns: Math.min(columns ?? fullWidth, bars ? fullWidth : noteWidth),
    distance: units?.distance ?? written.distance,
    mass: units?.mass ?? written.mass,
    askedMass: units?.mass ?? null,
  }
}

/** Work or an exercise: what was done, and its figures, a phrase a line. */
export interface Row {
  name: string
  /** Beside the name: the time and pace of a run, the mean of repeats, all sets of an exercise; may be empty. */
  lead: string
  /** All splits in one line; empty with fewer than two. */
  splits: string
  /** In place of `splits`, where the view has bars: the splits below each other. */
  bars: string[]
  figures: string[]
}

/** A row without splits; empty figures are left out. */
export function rowOf(name: string, lead: string, figures: string[]): Row {
  return { name, lead, splits: '', bars: [], figures: figures.filter((figure) => figure !== '') }
}
