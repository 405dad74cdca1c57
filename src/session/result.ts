import * as z from 'zod'
import { MassUnit } from '../units/model.ts'

/* What an athlete did, as typed or measured: the values that entry.ts parses and events carry. */

const remark = {
  /** Free text after the figures. */
  note: z.string().nullable(),
  /** Where it hurt. Later advice uses it. */
  pain: z.string().nullable(),
}
/** 1 to 10 in halves; RPE = 10 - repetitions in reserve. */
const rpe = z.number().min(1).max(10).nullable()
const heartRate = z.int().min(1).max(999).nullable()

/** `mass` with `pair`: two of this value, one in each hand. `bodyweight`: the added load, negative for assistance. */
export const LiftedLoad = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('mass'),
    value: z.number().nonnegative(),
    unit: MassUnit,
    pair: z.boolean(),
  }),
  z.strictObject({ kind: z.literal('bodyweight'), added: z.number(), unit: MassUnit }),
])
export type LiftedLoad = z.infer<typeof LiftedLoad>

/** Exactly one of reps, seconds, meters is a number. `groups` only for a set in several pieces: the groups of a cluster
 * set, the drops of a drop set, the lifts of a complex, in order, with reps as their sum; for an AMRAP of rounds, the
 * whole rounds and the repetitions of the unfinished one, with reps as all repetitions. */
export const SetResult = z.strictObject({
  reps: z.int().nonnegative().nullable(),
  groups: z.array(z.int().nonnegative()).nullable(),
  seconds: z.number().nonnegative().nullable(),
  meters: z.number().nonnegative().nullable(),
  /** Null for an exercise without a load. */
  load: LiftedLoad.nullable(),
  /** For a drop set, the load of each drop; `load` is the first of them, `groups` their repetitions. */
  loads: z.array(LiftedLoad).optional(),
  rpe,
  /** The next repetition failed, so nothing was in reserve. */
  failed: z.boolean(),
  ...remark,
})
export type SetResult = z.infer<typeof SetResult>

export const IntervalResult = z.strictObject({
  meters: z.number().positive().nullable(),
  seconds: z.number().positive().nullable(),
  /** The value of the last digit of the time: 1, 0.1 or 0.01 s; null without a time. */
  precision: z.number().positive().nullable(),
  heartRate,
  heartRateMax: heartRate,
  rpe,
  /** Timed by a key on this machine, which is less exact than a watch. */
  byKey: z.boolean(),
  ...remark,
})
export type IntervalResult = z.infer<typeof IntervalResult>

export const PrepResult = z.strictObject({ ...remark })
export type PrepResult = z.infer<typeof PrepResult>

/** As eaten. */
export const FuelResult = z.strictObject({
  carbsG: z.number().nonnegative().nullable(),
  proteinG: z.number().nonnegative().nullable(),
  fatG: z.number().nonnegative().nullable(),
  kcal: z.number().nonnegative().nullable(),
  ...remark,
})
export type FuelResult = z.infer<typeof FuelResult>

/** What can be recorded for a step, by its kind. */
export interface Results {
  set: SetResult
  interval: IntervalResult
  prep: PrepResult
  fuel: FuelResult
}

/** What was recorded for a step. */
export type Result = { [K in keyof Results]: { kind: K; result: Results[K] } }[keyof Results]
