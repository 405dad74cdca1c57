import * as z from 'zod'
import { foodAmounts, PrescribedSet, Prescription, Side } from '../prescription/model.ts'
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
export type Remarks = z.infer<typeof PrepResult>

/** As eaten. */
export const FuelResult = z.strictObject({ ...foodAmounts, ...remark })
export type FuelResult = z.infer<typeof FuelResult>

/** What can be recorded for a step, by its kind. */
export interface Results {
  set: SetResult
  interval: IntervalResult
  prep: Remarks
  fuel: FuelResult
}

/** What was recorded for a step. */
export type Result = { [K in keyof Results]: { kind: K; result: Results[K] } }[keyof Results]

/* What happened on a day, in order, each event a fact in the past tense. A session consists only of its
 * prescription and these events; everything shown is computed from them. */

/** When it happened: local time with its offset, and the machine's uptime in seconds, which keeps counting
 * while a laptop sleeps and does not jump when the clock is set. Null: from paper, time unknown. */
const when = {
  at: z.iso.datetime({ offset: true }).nullable(),
  up: z.number().nonnegative().nullable(),
}
const step = z.string()

/** By the clock, not by a key. */
const auto = z.boolean()

function event<Type extends string, Shape extends z.ZodRawShape>(type: Type, shape: Shape) {
  return z.strictObject({ type: z.literal(type), ...when, ...shape })
}

export const SessionEvent = z.discriminatedUnion('type', [
  /** The first event. It holds what was known beforehand and affects the prompts: the local date, body mass, and the
   * one-repetition maxima for `%` loads with their sources. */
  event('sessionStarted', {
    date: z.iso.date(),
    bodyMassKg: z.number().positive().nullable(),
    maxima: z.array(z.strictObject({ name: z.string(), kg: z.number().positive(), basis: z.string() })),
    /** The loads that `last + 2.5 kg` starts from: the heaviest load of the newest session with the
     * exercise. `isKept`: a set failed or hurt then, or it was weeks ago, so nothing is added. Files before 0.1
     * lack it. */
    lastLoads: z
      .array(z.strictObject({ name: z.string(), date: z.iso.date(), load: LiftedLoad, isKept: z.boolean() }))
      .optional(),
    /** Recorded on paper and typed in afterwards. */
    fromPaper: z.boolean(),
  }),
  /** A program opened the session: uptimes from here on belong to this boot of the machine. The last event of a session
   * from paper: when it was typed in. */
  event('opened', { boot: z.string().nullable() }),

  // -- moving on
  event('effortBegun', { step, auto }),
  event('groupEnded', { step, group: z.int().nonnegative(), auto }),
  event('groupBegun', { step, group: z.int().nonnegative(), auto }),
  event('effortEnded', { step, auto }),
  /** The start key was not pressed: the start right before this was really the end of the set. */
  event('startForgotten', { step }),
  /** Makes this rest longer (positive) or shorter. */
  event('restChanged', { seconds: z.number() }),
  /** All clocks are stopped: from the beginning of the running clock, which is `since`, or from now. */
  event('held', { since: z.iso.datetime({ offset: true }).nullable() }),
  event('resumed', {}),
  /** From now on the clock ends the groups of this exercise's cluster sets, at this many seconds per repetition; null
   * switches it off. */
  event('paceSet', { exercise: z.string(), secondsPerRep: z.number().positive().nullable() }),
  /** A load typed before its set begins: what an empty entry of this set records. */
  event('loadChosen', { step, load: LiftedLoad }),

  // -- results; a later one for the same step corrects the earlier
  event('setRecorded', { step, result: SetResult }),
  event('pieceRecorded', { step, result: IntervalResult }),
  event('prepRecorded', { step, result: PrepResult }),
  event('fuelRecorded', { step, result: FuelResult }),
  /** Food that was not prescribed. */
  event('mealRecorded', { meal: z.enum(['before', 'between', 'after']), result: FuelResult }),
  event('stepSkipped', { step }),
  event('itemSkipped', { part: z.int(), item: z.int() }),

  // -- the day changed
  /** Adds one more like `like`, right after it. */
  event('stepAdded', { step, like: z.string() }),
  /** Replaces the exercise from `step` on. */
  event('exerciseSwapped', {
    step,
    name: z.string(),
    /** The sets of the new exercise, if typed; else as prescribed, at a load to be typed. */
    sets: z.array(PrescribedSet).min(1).optional(),
    /** Which side those sets name; absent where the side stays as it was. */
    side: Side.nullable().optional(),
  }),
  /** Moves the item to right before the item `before`, or to the end when null. */
  event('itemMoved', {
    item: z.tuple([z.int(), z.int()]),
    before: z.tuple([z.int(), z.int()]).nullable(),
  }),
  event('dayCut', { minutes: z.number().positive(), steps: z.array(z.string()) }),

  // -- words
  event('noteAdded', { about: z.string().nullable(), text: z.string(), pain: z.boolean() }),
  event('conditionsNoted', { part: z.int(), text: z.string() }),

  // -- closing
  event('partClosed', {
    part: z.int(),
    effort: z.number().min(0).max(10).nullable(),
    minutes: z.number().nonnegative().nullable(),
  }),
  event('sessionFinished', {}),
  event('sessionReopened', {}),
  /** Undoes every event from index `from` (counted from 0) up to this one. */
  event('undone', { from: z.int().nonnegative() }),
])
export type SessionEvent = z.infer<typeof SessionEvent>
/** An event that records the result of a step. */
export type Recording = Extract<SessionEvent, { step: string; result: unknown }>

export const Session = z.strictObject({
  format: z.literal(1),
  id: z.string().regex(/^[A-Za-z0-9_-]{6,40}$/),
  prescription: Prescription,
  events: z.array(SessionEvent),
})
export type Session = z.infer<typeof Session>

/** Whether events are on the disk; if not, the end of a sentence that says why. They are then only in memory, or with
 * `isKept` in another version of the session. */
export type Saved = { ok: true } | { ok: false; reason: string; isKept?: true }
