import type { Dose, Side } from '../prescription/model.ts'
import type { MassUnit } from '../units/model.ts'
import type { FuelResult, LiftedLoad, PieceResult, PrepResult, SetResult } from './result.ts'

/* What is asked for when something is typed, and what comes of it. The recorder and a results file
 * ask alike; entry.ts answers. */

export interface SetAsked {
  kind: 'set'
  name: string
  dose: Dose
  side: Side | null
  /** The load that the empty entry means: the last typed on this line today, else the prescribed one
   * (its lower end); null when the exercise has no load, or when it is not known. */
  shown: LiftedLoad | null
  /** A load is prescribed that cannot be known yet (by effort only, or % of an unknown maximum): it must be typed. */
  loadUnknown: boolean
  /** The unit of a bare load when `shown` has none. */
  unit: MassUnit
  /** Whole seconds of a set by time that the clock measured and that are clearly not its time: the empty entry means
   * them. Null: as prescribed. */
  offered: number | null
}

export interface PieceAsked {
  kind: 'piece'
  /** Prescribed: exactly one of the two is a number. */
  meters: number | null
  seconds: number | null
  /** A pace, time or effort is prescribed: the empty entry is no answer unless `offered` is there. */
  hasTarget: boolean
  /** A time taken by key, offered to the empty entry, in seconds; of a piece by time only one that is clearly not
   * its time. */
  offered: number | null
  /** On a treadmill with a speed, in m/s: metres of a piece by time are known. */
  treadmillSpeed: number | null
  /** For messages: "1 mi", "500 m". */
  label: string
}

export interface PrepAsked {
  kind: 'prep'
  name: string
}

export interface FuelAsked {
  kind: 'fuel'
  /** As prescribed: what the empty entry records. */
  prescribed: FuelResult
}

export type Asked = SetAsked | PieceAsked | PrepAsked | FuelAsked

export type Answer =
  | { kind: 'set'; result: SetResult }
  | { kind: 'piece'; result: PieceResult }
  | { kind: 'prep'; result: PrepResult }
  | { kind: 'fuel'; result: FuelResult }
  | { kind: 'skipped'; note: string | null; pain: string | null }

/** An error cannot be taken; a question can: `suggested` is what one key accepts (null when there is
 * nothing to suggest), `insisted` what another key, or `!!` in a results file, takes as it stands (null
 * when it cannot be taken as it stands). Messages are whole sentences for the athlete. */
export type EntryReading =
  | { outcome: 'answer'; answer: Answer }
  | {
      outcome: 'question'
      message: string
      suggested: { text: string; answer: Answer } | null
      insisted: Answer | null
    }
  | { outcome: 'error'; message: string }
