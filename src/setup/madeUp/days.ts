import { formatClock as clock } from '../../units/duration.ts'

/* The days of the invented athlete, as files of a day and its results: the running days, then the lifting days on a
 * rotation of legs, push and pull. All figures are invented, and vary with a seed. */

/** Pseudo-random numbers that are the same for the same seed. */
export interface Chance {
  /** From 0 up to, not including, 1. */
  next(): number
  /** Around a middle, rarely further off than twice the spread. */
  around(middle: number, spread: number): number
  /** True with a probability from 0 to 1. */
  happens(probability: number): boolean
  /** One element of a list that is not empty. */
  oneOf<T>(list: readonly T[]): T
}

/** The generator is mulberry32 (T. Ettinger, public domain): 32 bits of state, plenty for made-up days. */
export function chanceOf(seed: number): Chance {
  let state = seed >>> 0
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
  return {
    next,
    around: (middle, spread) => middle + spread * (next() + next() + next() - 1.5) * 2,
    happens: (probability) => next() < probability,
    oneOf: (list) => list[Math.floor(next() * list.length)] as (typeof list)[number],
  }
}

/** A day as its two files contain it. */
export interface MadeUpDay {
  prescription: string
  results: string
}

/** The athlete's form. */
export interface Now {
  /** Counted from the first week of the logbook. */
  week: number
  /** Progress of the block of training: 0 at its beginning, about 1 at its end. */
  form: number
  chance: Chance
}

/** The effort and the minutes of a part, which are sometimes missing. */
function closing(part: string, { chance }: Now, effort: number, minutes: number): string {
  if (chance.happens(0.02)) return ''
  const reported = Math.min(10, Math.max(1, Math.round(chance.around(effort, 0.6))))
  return `${part}: effort ${reported}, ${Math.round(minutes)} min\n`
}

const athlete = 'athlete: 68 kg\n'
const goal = `goal: 10 km in 39:30 on 2027-04-18\n${athlete}`

/** Seconds per kilometre at the effort of about an hour, from 4:18 down to 4:05 in a block of training. */
function tempoPace({ form }: Now): number {
  return 258 - 13 * form
}

function splits(count: number, seconds: number, spread: number, now: Now, decimals: 0 | 1 = 0): string {
  const pulse = Math.round(now.chance.around(164, 4))
  const drift = now.chance.around(-0.002, 0.006)
  return Array.from({ length: count }, (_, index) => {
    const time = now.chance.around(seconds * (1 + drift * (index - (count - 1) / 2)), spread)
    return `${clock(time, decimals)} hr ${pulse + index}\n`
  }).join('')
}

/** In these weeks of a block the easy days are not easy: the pace and the pulse of a tempo run. */
const spoiltWeeks: ReadonlySet<number> = new Set([2, 6, 7, 11])
/** Weeks of a block in which a calf hurts, and how much; between them it does not. */
const calfByWeek: Readonly<Record<number, number>> = { 3: 2, 10: 4, 11: 3, 12: 1 }

export function easyDay(now: Now): MadeUpDay {
  const km = now.chance.oneOf([6, 8, 8, 10])
  const isSpoilt = spoiltWeeks.has(now.week % 16)
  const pace = isSpoilt ? tempoPace(now) + 6 : 340 - 8 * now.form
  const seconds = now.chance.around(km * pace, isSpoilt ? 10 : 30)
  const beats = Math.round(now.chance.around(isSpoilt ? 166 : 138, 4))
  const calf = calfByWeek[now.week % 16]
  const pain = calf === undefined ? '' : ` pain left calf ${calf}`
  return {
    prescription: `Easy ${km} km\n${goal}\nrun: easy\n  ${km} km easy\n`,
    results: `start: 06:50\n${clock(seconds)} hr ${beats}${pain}\n${closing('run', now, isSpoilt ? 7 : 3, seconds / 60)}`,
  }
}

export function longDay(now: Now): MadeUpDay {
  const km = 13 + Math.round(4 * now.form) + now.chance.oneOf([0, 0, 1])
  const seconds = now.chance.around(km * (352 - 8 * now.form), 60)
  return {
    prescription: `Sunday: long and easy\n${goal}\nrun: woods\n  ${km} km easy\n  4 x 20 s strides, walk back\n`,
    results: `start: 09:30\n${clock(seconds)} hr ${Math.round(now.chance.around(142, 3))}\n=\n=\n=\n=\n${closing('run', now, 5, seconds / 60 + 8)}`,
  }
}

const repeats = [
  { count: 6, meters: 500, slow: 6, jog: 200 },
  { count: 8, meters: 400, slow: 3, jog: 200 },
  { count: 5, meters: 1000, slow: 12, jog: 400 },
]

export function trackDay(now: Now): MadeUpDay {
  const { count, meters, slow, jog } = repeats[now.week % repeats.length] as (typeof repeats)[number]
  const pace = tempoPace(now) - 32 + slow
  const from = Math.round((pace - 4) / 5) * 5
  const length = meters === 1000 ? '1 km' : `${meters} m`
  const range = `${clock(from)}-${clock(from + 10)}/km`
  const times = splits(count, (pace * meters) / 1000, (0.9 * meters) / 500, now, 1)
  return {
    prescription: `Tuesday: track\n${goal}\nrun: track\n  2 km easy\n  ${count} x ${length} @ ${range}, jog ${jog} m\n  2 km easy\n`,
    results: `start: 06:40\n${clock(now.chance.around(680, 10))}\n${times}${clock(now.chance.around(690, 10))}\n${closing('run', now, 8, now.chance.around(52, 3))}`,
  }
}

/** A trial or a race, replacing the track session. */
export function trialDay(now: Now): MadeUpDay {
  const isTen = now.week % 10 === 9
  const word = now.week % 15 === 14 ? 'trial' : 'race'
  const [count, km] = isTen ? [10, 10] : [5, 5]
  const pace = tempoPace(now) - (isTen ? 5 : 12)
  return {
    prescription: `Tuesday: ${km} km ${word}\n${goal}\nrun: ${word === 'race' ? 'road' : 'track'}\n  2 km easy\n  ${km} km ${word}, split 1 km\n`,
    results: `start: 10:00\n${clock(now.chance.around(690, 10))}\n${splits(count, pace, 1.2, now)}${closing('run', now, 10, now.chance.around(isTen ? 60 : 38, 3))}`,
  }
}

/** Rounds to the plates: steps of 2.5 kg. */
function plates(kg: number): number {
  return Math.round(kg / 2.5) * 2.5
}

/** Results of `sets` sets of `reps`: the effort rises from set to set, and the last one may fail. */
function straight(sets: number, reps: number, effort: number, now: Now): string {
  const fails = now.chance.happens(0.06)
  return Array.from({ length: sets }, (_, index) => {
    if (fails && index === sets - 1) return `${reps - 1}!\n`
    return `${reps} @${halves(now.chance.around(effort + index * 0.4, 0.3))}\n`
  }).join('')
}

function halves(rpe: number): number {
  return Math.min(10, Math.max(6, Math.round(rpe * 2) / 2))
}

/** How much the front squat drops after running, as a share of the maximum: the true value with which estimates from
 * these days are compared. */
export const trueRunCost = 0.04

/** The maximum of the front squat by which the athlete loads, kilograms: it grows by an eighth over a block. It is
 * higher on Saturday than on Thursday, when squats follow running. The true one differs a little from day to day. */
function squatPlan(form: number, isAfterRun: boolean): number {
  const daysOfWeek = isAfterRun ? 3 : 5
  return 104 * 1.125 ** (form + daysOfWeek / daysOfBlock) * (isAfterRun ? 1 - trueRunCost : 1)
}

/** Form goes from 0 to 1 in fifteen weeks. */
const daysOfBlock = 105

/** The effort of a set: repetitions to failure by Epley's equation (1985) minus those done, felt to about
 * half a repetition. */
function effortOf(kg: number, reps: number, maximum: number, { chance }: Now): number {
  const reserve = 30 * (maximum / kg - 1) - reps
  return halves(10 - reserve + chance.around(0, 0.3))
}

/** Four sets of four with two in reserve at first, or five clusters of three singles; each set lowers the maximum a
 * little. */
function squats(isClustered: boolean, isAfterRun: boolean, now: Now): { line: string; results: string } {
  const plan = squatPlan(now.form, isAfterRun)
  const kg = plates(isClustered ? plan * 0.9 : plan / (1 + 6 / 30))
  const maximum = plan * (1 + now.chance.around(0, 0.006))
  const [sets, reps, written] = isClustered ? [5, 1, '1+1+1'] : [4, 4, '4']
  const results = Array.from(
    { length: sets },
    (_, set) => `${written} @${effortOf(kg, reps, maximum * (1 - 0.006 * set), now)}\n`,
  )
  const dose = isClustered ? `5 x (1+1+1) @ ${kg} kg, pause 20 s, rest 2:30` : `4 x 4 @ ${kg} kg, rest 3:00`
  return { line: `  front squat: ${dose}, build from 40 kg\n`, results: results.join('') }
}

/** A hard continuous run, then cluster sets, or every other week straight ones, with the same legs. */
export function tempoAndSquats(now: Now): MadeUpDay {
  const { chance } = now
  const pace = tempoPace(now)
  const from = Math.round((pace - 2) / 5) * 5
  const run = `${clock(chance.around(690, 10))}\n${splits(5, pace, 1.4, now, 1)}${clock(chance.around(700, 10))}\n`
  const minutes = chance.around(48, 2)
  const squat = squats(now.week % 2 === 0, true, now)
  return {
    prescription: `Thursday: tempo, then front squat
${goal}
run: track
  2 km easy
  5 km @ ${clock(from)}-${clock(from + 5)}/km, split 1 km, negative
  2 km easy

lift: legs
${squat.line}  plank: 3 x 45 s, rest 0:45

fuel
  before 2 h: carbs 75 g, protein 20 g, fat 10 g
`,
    results: `start: 06:40
fuel before: carbs ${Math.round(chance.around(72, 6))} g, protein 18 g
${run}${closing('run', now, 8, minutes)}${squat.results}=\n=\n=\n${closing('lift', now, 7, chance.around(34, 3))}`,
  }
}

/** Fresh legs; every third week in clusters. */
export function legsDay(now: Now): MadeUpDay {
  const squat = squats(now.week % 3 === 2, false, now)
  const deadlift = plates(118 + 14 * now.form)
  return {
    prescription: `Saturday: legs
${athlete}
lift: legs
${squat.line}  deadlift: 3 x 5 @ ${deadlift} kg, rest 3:00
  calf raise: 3 x 12 each side @ 20 kg, rest 1:00
`,
    results: `start: 10:15
${squat.results}${straight(3, 5, 7.6, now)}=\n=\n=\n${closing('legs', now, 7, now.chance.around(58, 4))}`,
  }
}

export function pushDay(now: Now): MadeUpDay {
  const bench = plates(66 + 7 * now.form)
  return {
    prescription: `Wednesday: push
${athlete}
lift: push
  bench press: 4 x 5 @ ${bench} kg, rest 2:30, build from 30 kg
  dip 3 x 8 @ bodyweight+10 kg + dumbbell row 3 x 10 each arm @ 27.5 kg, pause 0:20, rest 1:30
  overhead press 10/8/6 @ 30/35/40 kg, rest 2:00
`,
    results: `start: 18:10
${straight(4, 5, 7.5, now)}${'8 @8\n10\n'.repeat(3)}10\n8\n6 @8.5\n${closing('push', now, 6, now.chance.around(50, 4))}`,
  }
}

export function pullDay(now: Now): MadeUpDay {
  const kg = plates(10 * now.form)
  const added = kg === 0 ? '' : `+${kg} kg`
  return {
    prescription: `Monday: pull
${athlete}
lift: pull
  pull-up 4 x 5 @ bodyweight${added}, rest 2:30
  barbell row: 4 x 8 @ ${plates(58 + 6 * now.form)} kg, rest 2:00
  farmer carry 3 x 40 m @ 2x30 kg, rest 1:00
`,
    results: `start: 18:00
${straight(4, 5, 7.6, now)}${straight(4, 8, 7.2, now)}=\n=\n=\n${closing('pull', now, 6, now.chance.around(44, 4))}`,
  }
}
