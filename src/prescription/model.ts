import * as z from 'zod'
import { DistanceUnit, Length, Mass, MassUnit } from '../units/model.ts'
import { effortWords, partKinds, sides } from './words.ts'

/* What is planned for a day. These schemas are the types, the validation and (through
 * z.toJSONSchema) the published JSON Schema of a prescription. Every amount keeps the unit in
 * which it was written, so that a prescription prints as it was read. */

/** From the smaller to the larger; a single value has both ends equal. */
const Span = z.strictObject({ from: z.number().positive(), to: z.number().positive() })
export type Span = z.infer<typeof Span>

/** The line number of an item in the file, and that line without its comment. */
const source = { line: z.int().positive(), text: z.string() }
const notes = z.array(z.string())

export const Side = z.enum(sides)
export type Side = z.infer<typeof Side>

const TimeAmount = z.strictObject({ kind: z.literal('time'), seconds: z.number().positive() })
const DistanceAmount = z.strictObject({ kind: z.literal('distance'), length: Length })

/* Prep. */

const PrepItem = z.strictObject({
  ...source,
  name: z.string(),
  count: z.int().positive().nullable(),
  amount: z
    .discriminatedUnion('kind', [
      TimeAmount,
      DistanceAmount,
      z.strictObject({ kind: z.literal('reps'), reps: z.int().positive() }),
    ])
    .nullable(),
  side: Side.nullable(),
  notes,
})
export type PrepItem = z.infer<typeof PrepItem>

/* Run and cross. */

export const Amount = z.discriminatedUnion('kind', [TimeAmount, DistanceAmount])
export type Amount = z.infer<typeof Amount>

/** Beats per minute: a range, or a ceiling. */
const HeartRate = z.union([Span, z.strictObject({ under: z.number().positive() })])
export type HeartRate = z.infer<typeof HeartRate>

const Target = z.discriminatedUnion('kind', [
  /** Seconds for each `per`. */
  z.strictObject({ kind: z.literal('pace'), ...Span.shape, per: z.enum(['km', 'mi', '500 m']) }),
  z.strictObject({ kind: z.literal('speed'), ...Span.shape, unit: z.enum(['km/h', 'mph']) }),
  /** The pace of the file's goal. */
  z.strictObject({ kind: z.literal('goal') }),
  /** Seconds for the whole interval. */
  z.strictObject({ kind: z.literal('time'), ...Span.shape }),
  /** Seconds for each repeat, or each rung of a ladder, in order. */
  z.strictObject({ kind: z.literal('times'), each: z.array(Span).min(2) }),
  /** Seconds for each `per`, changing evenly from the first split to the last. */
  z.strictObject({
    kind: z.literal('progression'),
    first: z.number().positive(),
    last: z.number().positive(),
    per: z.enum(['km', 'mi', '500 m']),
  }),
  z.strictObject({ kind: z.literal('rpe'), ...Span.shape }),
  z.strictObject({ kind: z.literal('heartRate'), ...Span.shape }),
  z.strictObject({ kind: z.literal('heartRateUnder'), under: z.number().positive() }),
  z.strictObject({ kind: z.literal('word'), word: z.enum(effortWords) }),
])
export type Target = z.infer<typeof Target>

/** `way`: jog back, walk down, with neither distance nor time fixed. `same`: as long as the repeat before it took. */
export const Recovery = z.strictObject({
  kind: z.literal('recovery'),
  move: z.enum(['jog', 'walk', 'stand', 'rest']),
  amount: z.discriminatedUnion('kind', [
    TimeAmount,
    DistanceAmount,
    z.strictObject({ kind: z.literal('distanceIn'), length: Length, seconds: z.number().positive() }),
    z.strictObject({ kind: z.literal('way'), way: z.enum(['back', 'down']) }),
    z.strictObject({ kind: z.literal('same') }),
  ]),
})
export type Recovery = z.infer<typeof Recovery>

/** A repeat or a continuous run; stored files say `piece`. Several amounts are a ladder, with one result each. */
const Interval = z.strictObject({
  kind: z.literal('piece'),
  amounts: z.array(Amount).min(1),
  target: Target.nullable(),
})
export type Interval = z.infer<typeof Interval>

const Group = z.strictObject({
  kind: z.literal('group'),
  get steps(): z.ZodArray<z.ZodUnion<readonly [typeof Work, typeof Recovery]>> {
    return z.array(z.union([Work, Recovery])).min(1)
  },
})

/** An interval or a group, once (`times` null) or repeated, with the clauses after it. Every work in a group
 * that has no clause of a kind inherits the group's. */
export const Work = z.strictObject({
  kind: z.literal('work'),
  times: z.int().min(1).max(999).nullable(),
  get body(): z.ZodDiscriminatedUnion<[typeof Interval, typeof Group]> {
    return z.discriminatedUnion('kind', [Interval, Group])
  },
  /** Between the repeats of a repeated work, or after an unrepeated interval inside a group. */
  recovery: Recovery.nullable(),
  split: Length.nullable(),
  negative: z.boolean(),
  lane: z.int().min(1).max(8).nullable(),
  /** Percent. */
  grade: z.number().nullable(),
  heartRate: HeartRate.nullable(),
  /** Seconds from the start of one repeat to the next; the rest is the time that is left. Files before 0.1 lack it. */
  every: z.number().positive().nullable().optional(),
  notes,
})
export type Work = z.infer<typeof Work>

const RunItem = z.strictObject({ ...source, step: z.union([Work, Recovery]) })
export type RunItem = z.infer<typeof RunItem>

/* Lift. */

export const Load = z.discriminatedUnion('kind', [
  /** `pair`: two of this mass, one in each hand. */
  z.strictObject({ kind: z.literal('mass'), ...Span.shape, unit: MassUnit, pair: z.boolean() }),
  /** Percent of a known or estimated one-repetition maximum. */
  z.strictObject({ kind: z.literal('percent'), ...Span.shape }),
  /** Bodyweight plus a load (positive), minus assistance (negative), or alone (0). */
  z.strictObject({ kind: z.literal('bodyweight'), added: z.number(), unit: MassUnit }),
  /** The heaviest load of the newest session with this exercise, plus or minus some load. */
  z.strictObject({ kind: z.literal('last'), added: z.number(), unit: MassUnit }),
])
export type Load = z.infer<typeof Load>

const Reps = z.strictObject({ kind: z.literal('reps'), from: z.int().positive(), to: z.int().positive() })

/** One exercise of a round done against the clock. */
const Station = z.strictObject({
  name: z.string(),
  dose: z.discriminatedUnion('kind', [Reps, TimeAmount, DistanceAmount]),
  side: Side.nullable(),
  load: Load.nullable(),
})
export type Station = z.infer<typeof Station>

export const Dose = z.discriminatedUnion('kind', [
  Reps,
  z.strictObject({ kind: z.literal('atLeast'), reps: z.int().positive() }),
  z.strictObject({
    kind: z.literal('cluster'),
    groups: z.array(z.union([z.int().positive(), z.literal('max')])).min(1),
  }),
  z.strictObject({ kind: z.literal('max') }),
  TimeAmount,
  DistanceAmount,
  /** A drop set: the load goes down without a rest. `lower`: the loads after the first, which is the set's own; empty
   * without loads. */
  z.strictObject({
    kind: z.literal('drop'),
    reps: z.array(z.int().positive()).min(2),
    lower: z.array(Load),
  }),
  /** A complex: several lifts in turn without putting the bar down. */
  z.strictObject({
    kind: z.literal('complex'),
    lifts: z.array(z.strictObject({ name: z.string(), reps: z.int().positive() })).min(2),
  }),
  /** As many rounds as possible within a time, in seconds. */
  z.strictObject({
    kind: z.literal('roundsIn'),
    seconds: z.number().positive(),
    stations: z.array(Station).min(1),
  }),
  /** A number of rounds for time. */
  z.strictObject({
    kind: z.literal('forTime'),
    rounds: z.int().min(1).max(999),
    stations: z.array(Station).min(1),
  }),
])
export type Dose = z.infer<typeof Dose>

/** One prescribed set. `4 x 6` is four of these; loads written with slashes differ from set to set. */
export const PrescribedSet = z.strictObject({ dose: Dose, load: Load.nullable(), rpe: Span.nullable() })
export type PrescribedSet = z.infer<typeof PrescribedSet>

const Exercise = z.strictObject({
  name: z.string(),
  sets: z.array(PrescribedSet).min(1),
  side: Side.nullable(),
  /** For a jump: no load. */
  height: z.strictObject({ value: z.number().positive(), unit: z.enum(['cm', 'in']) }).optional(),
})
export type Exercise = z.infer<typeof Exercise>

/** One exercise, or several done in turn, round by round (a superset, a circuit). Times in seconds. */
const LiftItem = z.strictObject({
  ...source,
  exercises: z.array(Exercise).min(1),
  /** Between the groups of a cluster set, or between the exercises of a round. */
  pause: z.number().positive().nullable(),
  /** After a set or a round; 0 means the next begins at once. */
  rest: z.strictObject({ from: z.number().nonnegative(), to: z.number().nonnegative() }).nullable(),
  /** Seconds from the start of one set to the next; there is no other rest. */
  every: z.number().positive().nullable(),
  /** With `every`, the exercises take turns: each start is one set of the next exercise, not a whole round. */
  inTurn: z.literal(true).optional(),
  /** `3-1-1`, `3-1-1-0` or `31X1`: lowering, bottom, lifting, top, in seconds; X is as fast as possible. */
  tempo: z.string().nullable(),
  buildFrom: Mass.nullable(),
  notes,
})
export type LiftItem = z.infer<typeof LiftItem>

/* Fuel. */

const amount = z.number().nonnegative().nullable()
/** What is known of a meal. */
export const foodAmounts = { carbsG: amount, proteinG: amount, fatG: amount, kcal: amount }

const FuelItem = z.strictObject({
  ...source,
  when: z.enum(['before', 'between', 'after']),
  /** How long before, or after, in seconds. */
  seconds: z.number().positive().nullable(),
  ...foodAmounts,
  notes,
})
export type FuelItem = z.infer<typeof FuelItem>

/* The day. */

const name = z.string().nullable()
export const Part = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('prep'), name, items: z.array(PrepItem).min(1) }),
  z.strictObject({ kind: z.literal('run'), name, items: z.array(RunItem).min(1) }),
  z.strictObject({ kind: z.literal('cross'), name, items: z.array(RunItem).min(1) }),
  z.strictObject({ kind: z.literal('lift'), name, items: z.array(LiftItem).min(1) }),
  z.strictObject({ kind: z.literal('fuel'), name, items: z.array(FuelItem).min(1) }),
])
export type Part = z.infer<typeof Part>

export const Prescription = z.strictObject({
  title: z.string(),
  date: z.iso.date().nullable(),
  units: z.strictObject({ distance: DistanceUnit, mass: MassUnit }),
  goal: z
    .strictObject({ length: Length, seconds: z.number().positive(), on: z.iso.date().nullable() })
    .nullable(),
  athlete: Mass.nullable(),
  /** The bar; null: 20 kg, or 45 lb in a file in pounds. */
  bar: Mass.nullable(),
  /** Bars for exercises whose name begins with this, such as a trap bar. Files before 0.1 lack it. */
  bars: z.array(z.strictObject({ name: z.string(), mass: Mass })).optional(),
  /** Metres of one lap; null: 400 m. */
  lap: Length.nullable(),
  /** One-repetition maxima written in the file. */
  maxima: z.array(z.strictObject({ name: z.string(), mass: Mass })),
  notes,
  parts: z.array(Part).min(1),
})
export type Prescription = z.infer<typeof Prescription>
export type PartKind = Part['kind']

/* An expanded day, as other programs read it: SI units, named in the keys. It has figures of the plan,
 * not of what was done. */

const targetSeconds = z.tuple([z.number(), z.number()])

export const DayFigures = z.strictObject({
  title: z.string(),
  date: z.iso.date().nullable(),
  parts: z.array(
    z.strictObject({
      kind: z.enum(partKinds),
      name: z.string().nullable(),
      items: z.array(
        z.strictObject({
          text: z.string(),
          line: z.int(),
          /** How many results a results file has for it. */
          entries: z.int(),
          /** Work and recoveries by distance; 0 without any. */
          meters: z.number(),
          /** Range for one entry; absent if nothing fixes it, if full entries differ, and with `targets`. */
          targetSeconds: targetSeconds.optional(),
          /** In a group with several works, one for each of them, in order. */
          targets: z
            .array(z.strictObject({ entries: z.int(), targetSeconds: targetSeconds.optional() }))
            .optional(),
        }),
      ),
    }),
  ),
  entries: z.int(),
  runMeters: z.number(),
  liftSets: z.int(),
  /** Added load counts, body mass does not; unknown loads are left out. */
  plannedTonnageKg: z.number(),
  /** A rough estimate. */
  expectedMinutes: z.int(),
})
export type DayFigures = z.infer<typeof DayFigures>
