import * as z from 'zod'
import type { Formula } from '../figures/oneRepMax.ts'
import { partKinds } from '../prescription/words.ts'
import { SetResult } from '../session/model.ts'

/* The summary of one session as other programs read it: SI units, named in the keys; null if a
 * figure is unknown; no key is ever missing; full precision. */

const figure = z.number().nullable()
const moment = z.string().nullable()

const Split = z.strictObject({
  meters: figure,
  seconds: figure,
  secondsPerKm: figure,
  target: z.enum(['fast', 'in', 'slow']).nullable(),
  heartRate: figure,
  heartRateMax: figure,
  rpe: figure,
})

const Halves = z.strictObject({
  firstSecondsPerKm: z.number(),
  secondSecondsPerKm: z.number(),
  changePercent: z.number(),
  shape: z.enum(['negative', 'even', 'positive']),
})

const RunningItem = z.strictObject({
  text: z.string(),
  line: z.int(),
  splits: z.array(Split),
  meters: figure,
  seconds: figure,
  secondsPerKm: figure,
  meanSeconds: figure,
  sdSeconds: figure,
  cvPercent: figure,
  rangeSeconds: figure,
  fadePercentPerSplit: figure,
  halves: Halves.nullable(),
  inRange: z.int(),
  judged: z.int(),
  offGoalSecondsPerKm: figure,
  /** As prescribed; null without a prescription. */
  gradePercent: figure,
  /** For a race or trial run to its end: its time, and that time minus the goal's (the day's goal, else the plan's
   * race; null over another distance, or without either). `fastest` and `slowest`: the numbers, from 1, of up to three
   * splits of the nominal length, the most extreme first; empty with fewer than four. `card`: the running time after
   * each split and that of an even race in the plan's time, else the goal's; empty without a time to compare with. */
  goal: z
    .strictObject({
      finishSeconds: z.number(),
      offGoalSeconds: figure,
      fastest: z.array(z.int()),
      slowest: z.array(z.int()),
      card: z.array(
        z.strictObject({ meters: z.number(), runningSeconds: z.number(), cardSeconds: z.number() }),
      ),
    })
    .nullable(),
})
export type RunningItem = z.infer<typeof RunningItem>

const Running = z.strictObject({
  /** The sum of the known distances, recoveries included (`workMeters`: without them); null if something was done and
   * none of its distances is known. */
  meters: figure,
  /** Without recoveries; null if the time of a recorded interval is unknown. */
  seconds: figure,
  workMeters: figure,
  goal: z.strictObject({ meters: z.number(), seconds: z.number(), secondsPerKm: z.number() }).nullable(),
  items: z.array(RunningItem),
})

const OneRepMax = z.strictObject({
  kg: z.number(),
  lowKg: figure,
  highKg: figure,
  atLeast: z.boolean(),
  formula: z.string().nullable(),
  fromSet: z.int(),
  /** Repetitions to failure, as the equations use them, of the set `fromSet`. */
  repetitions: z.number(),
  cluster: z.boolean(),
  afterRun: z.boolean(),
})

const LiftedExercise = z.strictObject({
  name: z.string(),
  sets: z.int(),
  reps: z.int(),
  tonnageKg: z.number(),
  top: z
    .strictObject({ kg: figure, reps: figure, groups: z.array(z.int()).nullable(), rpe: figure })
    .nullable(),
  oneRepMax: OneRepMax.nullable(),
  /** The estimated maximum after running relative to fresh, with its 95 % interval; below 0 is lighter. Null if unknown,
   * or if the other sessions were not read. */
  runCost: z
    .strictObject({
      percent: z.number(),
      lowPercent: z.number(),
      highPercent: z.number(),
      days: z.int(),
    })
    .nullable(),
  pauses: z.strictObject({ prescribedSeconds: figure, meanSeconds: figure, paced: z.boolean() }).nullable(),
  rests: z.strictObject({ prescribedSeconds: figure, meanSeconds: figure }).nullable(),
})
export type LiftedExercise = z.infer<typeof LiftedExercise>

const Fuel = z.strictObject({
  carbsG: figure,
  proteinG: figure,
  fatG: figure,
  kcal: figure,
  atwaterKcal: figure,
})

const PainEntry = z.strictObject({
  place: z.string(),
  level: figure,
  at: z.strictObject({ line: z.int(), entry: z.int() }).nullable(),
})

export const Summary = z.strictObject({
  session: z.strictObject({
    id: z.string(),
    title: z.string(),
    date: z.string(),
    startedAt: moment,
    finishedAt: moment,
    minutes: figure,
    effortMinutes: figure,
    /** A part that was done has no effort, so `effortMinutes` is a minimum. */
    effortMinutesAtLeast: z.boolean(),
    finished: z.boolean(),
  }),
  parts: z.array(
    z.strictObject({
      kind: z.enum(partKinds),
      name: z.string().nullable(),
      effort: figure,
      minutes: figure,
      effortMinutes: figure,
      startedAt: moment,
      finishedAt: moment,
      gapMinutes: figure,
      /** What the plan or its words say; null if they say nothing. */
      meant: z.literal('easy').nullable(),
      /** How it turned out; null if nothing of it was recorded. */
      hard: z.boolean().nullable(),
      with: z.string().nullable(),
    }),
  ),
  running: Running,
  cross: Running,
  lifting: z.strictObject({
    sets: z.int(),
    reps: z.int(),
    tonnageKg: z.number(),
    exercises: z.array(LiftedExercise),
  }),
  fuel: z.strictObject({
    before: Fuel.nullable(),
    between: Fuel.nullable(),
    after: Fuel.nullable(),
    runningKcal: z.tuple([z.number(), z.number()]).nullable(),
  }),
  /** In the order of typing: place, level from 0 to 10, and the entry of the line it belongs to. */
  pain: z.array(PainEntry),
  notes: z.array(z.string()),
  changes: z.array(z.string()),
  /** Decisions about the next session like this one; empty if the other sessions were not read. */
  next: z.array(
    z.strictObject({
      item: z.string(),
      decision: z.enum(['same', 'up', 'down', 'fewer', 'more']),
      reason: z.string(),
    }),
  ),
})
export type Summary = z.infer<typeof Summary>

/** What the figures of a session depend on besides it. */
export interface FiguresContext {
  /** The equation for one-repetition maxima. */
  equation: Formula
  /** Kilograms, for a session whose file and start have none; null if unknown. */
  bodyMassKg: number | null
  /** Highest heart rate, beats a minute; null if unknown. */
  hrMax: number | null
  /** The plan's race; null without one. A race over its distance, on its day or on a day without a goal, is compared
   * with it. */
  race: {
    meters: number
    seconds: number
    isThatDay: boolean
    /** `143 days to 10 km in 39:30`; empty when it is over. */
    ahead: string
  } | null
}

/** What a written summary says besides the figures of its session. */
export interface SummaryContext extends FiguresContext {
  /** How long the athlete slept before the session's date, as typed that morning; null if unknown. */
  sleepSeconds: number | null
  /** The places that hurt or were sore that morning, with their numbers: `left calf 3, legs 2`; empty if none. */
  soreness: string
  /** Decisions about the next session like this one; empty if no rule applies. */
  next: Summary['next']
  /** Seconds from the session's end to the start of the next hard one, or that one is planned for the rest of its day;
   * null if neither is known. Only the full summary says it. */
  nextHard: number | 'later today' | null
}

const { kind, name, effort, minutes, effortMinutes } = Summary.shape.parts.element.shape

/** A session in one line: its title, what was run and lifted, how hard it was. */
export const Brief = z.strictObject({
  title: z.string(),
  runMeters: z.number(),
  crossMeters: z.number(),
  sets: z.int(),
  tonnageKg: z.number(),
  /** Names of the lifts, in the order in which they were first done. */
  exercises: z.array(z.string()),
  minutes: figure,
  effortMinutes: figure,
  effortMinutesAtLeast: z.boolean(),
  parts: z.array(z.strictObject({ kind, name, effort, minutes, effortMinutes })),
  pain: z.array(PainEntry.omit({ at: true })),
})
export type Brief = z.infer<typeof Brief>

const RunDone = RunningItem.pick({
  text: true,
  meters: true,
  seconds: true,
  secondsPerKm: true,
  cvPercent: true,
  inRange: true,
  judged: true,
  gradePercent: true,
}).extend({
  splits: z.array(Split.omit({ target: true, heartRateMax: true })),
  halves: Halves.pick({ changePercent: true }).nullable(),
  /** Repeats, rather than the splits of one continuous run. */
  repeats: z.boolean(),
  /** The word of its target: easy, race, trial and so on; null without one. */
  word: z.string().nullable(),
  /** For each of its splits that was not recorded, the number of recorded ones before it. */
  gaps: z.array(z.int()),
  /** Session RPE of its part, 0 to 10; null if none was typed. */
  effort: z.number().nullable(),
})
export type RunDone = z.infer<typeof RunDone>

const LiftDone = LiftedExercise.pick({ name: true, sets: true, reps: true, tonnageKg: true }).extend({
  oneRepMax: OneRepMax.omit({ fromSet: true, repetitions: true }).nullable(),
})

const SetDone = SetResult.omit({ note: true, pain: true }).extend({
  /** Less was done than prescribed. */
  isShort: z.boolean(),
  /** The total of one station over all rounds against the clock, which is not a set. */
  isTotal: z.boolean(),
})
export type SetDone = z.infer<typeof SetDone>

/** The figures of a day of the week, done or prepared. */
const WeekDay = z.strictObject({
  title: z.string(),
  /** Including recoveries by distance. */
  meters: z.number(),
  /** The length of its longest run. */
  longestMeters: z.number(),
  /** Running without a distance, without recoveries. */
  unmeasuredSeconds: z.number(),
  hardMeters: z.number(),
  /** Hard running of unknown distance. */
  hardSeconds: z.number(),
  sets: z.int(),
  heavyLegSets: z.int(),
  /** Landings of jumps and hops. */
  contacts: z.int(),
  /** It has hard running or heavy sets; for a prepared day, as planned. */
  isHard: z.boolean(),
  /** A race, a trial, or a long run: one of at least 15 km or 75 min. */
  special: z.enum(['race', 'trial', 'long run']).nullable(),
  /** `hr 168 and effort 8 in fact`, for a day that was meant to be easy and turned out hard. */
  harderThanMeant: z.string().nullable(),
  minutes: figure,
})
export type WeekDay = z.infer<typeof WeekDay>

/** What the history, the week, the load and the best sets need from each session. */
export const IndexedFigures = z.strictObject({
  brief: Brief,
  day: WeekDay,
  /** In the order in which they were first done. */
  lifts: z.array(
    z.strictObject({
      /** The `exerciseKey` of its name. */
      key: z.string(),
      figures: LiftDone,
      sets: z.array(SetDone),
      /** One of the sets has a pain noted. */
      hurt: z.boolean(),
      /** The share of the body that is lifted besides the load; 0 for any other lift, or if the body mass is
       * unknown. */
      bodyKg: z.number(),
    }),
  ),
  running: Running.pick({ goal: true }).extend({ items: z.array(RunDone) }),
})
export type IndexedFigures = z.infer<typeof IndexedFigures>
