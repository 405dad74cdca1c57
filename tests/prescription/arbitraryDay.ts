import type {
  Amount,
  Dose,
  FuelItem,
  LiftItem,
  Load,
  Part,
  PrepItem,
  Prescription,
  Recovery,
  RunItem,
  Target,
  Work,
} from '../../src/prescription/model.ts'
import { type Item, printItem } from '../../src/prescription/print.ts'
import { effortWords } from '../../src/prescription/words.ts'
import { kilogramsOf } from '../../src/units/mass.ts'
import fc from '../fastCheck.ts'

/* Generated days that the notation can write. */

const source = { line: 1, text: '' }
/** What fits on a line. */
const fits = (item: Item) => [...printItem(item)].length <= 498
const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: null })
const decimal = (low: number, high: number) => fc.integer({ min: low * 4, max: high * 4 }).map((n) => n / 4)
const span = (value: fc.Arbitrary<number>) =>
  fc.tuple(value, value).map(([a, b]) => ({ from: Math.min(a, b), to: Math.max(a, b) }))
const words = fc.array(fc.stringMatching(/^[a-zé’#(),:+@×–“”-]{1,9}$/), { minLength: 1, maxLength: 4 })
const text = words.map((list) => list.join(' ').replace(/"/g, ''))
const notes = fc.array(text, { maxLength: 2 })
const seconds = fc.oneof(
  fc.integer({ min: 1, max: 9000 }),
  fc.double({ min: 0.01, max: 9000, noNaN: true }),
  fc.constantFrom(59.999999, 60, 3600, 88.4, 0.1 + 0.2),
)
const lengthValue = fc.oneof(
  decimal(1, 900),
  fc.double({ min: 0.01, max: 999, noNaN: true }),
  fc.constantFrom(1e-7, 1e22),
)
const length = fc.oneof(
  fc.record({ value: lengthValue, unit: fc.constantFrom('m' as const, 'km', 'mi', 'yd', 'lap') }),
  fc.constantFrom({ value: 1, unit: 'marathon' as const }, { value: 1, unit: 'half marathon' as const }),
)
const massUnit = fc.constantFrom('kg' as const, 'lb')
const mass = fc.record({
  value: fc.oneof(decimal(1, 400), fc.double({ min: 0.01, max: 999, noNaN: true })),
  unit: massUnit,
})
const side = maybe(fc.constantFrom('each side' as const, 'each arm', 'each leg'))
const rpe = span(fc.integer({ min: 2, max: 20 }).map((n) => n / 2))
const beats = span(fc.integer({ min: 30, max: 250 }))

const plainWord = fc.constantFrom(
  'front',
  'squat',
  'pull-up',
  'Hip',
  'tempo',
  'max',
  'row',
  "farmer's",
  'é',
  'x',
  '(seated)',
  'pause',
  'jog',
  'of',
  'each',
)
const digitWord = fc.constantFrom('90/90', '2', '45', 'A1', '3x')
const nameOf = (word: fc.Arbitrary<string>) =>
  fc
    .tuple(fc.constantFrom('squat', 'Dip', 'pull-up', 'hang'), fc.array(word, { maxLength: 4 }))
    .map(([first, rest]) => [first, ...rest].join(' '))
const plainName = nameOf(plainWord)
const exerciseName = nameOf(fc.oneof(plainWord, digitWord))

// ---- run -------------------------------------------------------------------------------------

const amount: fc.Arbitrary<Amount> = fc.oneof(
  seconds.map((value) => ({ kind: 'time' as const, seconds: value })),
  length.map((value) => ({ kind: 'distance' as const, length: value })),
)
const recovery: fc.Arbitrary<Recovery> = fc.oneof(
  fc.record({
    kind: fc.constant('recovery' as const),
    move: fc.constantFrom('jog' as const, 'walk'),
    amount: fc.oneof(
      amount,
      fc.constantFrom(
        { kind: 'way' as const, way: 'back' as const },
        { kind: 'way' as const, way: 'down' as const },
        { kind: 'same' as const },
      ),
      fc
        .tuple(length, seconds)
        .map(([value, time]) => ({ kind: 'distanceIn' as const, length: value, seconds: time })),
    ),
  }),
  fc.record({
    kind: fc.constant('recovery' as const),
    move: fc.constantFrom('stand' as const, 'rest'),
    amount: seconds.map((value) => ({ kind: 'time' as const, seconds: value })),
  }),
)
/** No faster than the world record over a marathon, so that they can be held over any distance. */
const freeTarget: fc.Arbitrary<Target> = fc.oneof(
  span(fc.oneof(fc.integer({ min: 172, max: 900 }), fc.double({ min: 172, max: 900, noNaN: true }))).map(
    (value) => ({
      kind: 'pace' as const,
      ...value,
      per: 'km' as const,
    }),
  ),
  span(fc.integer({ min: 90, max: 300 })).map((value) => ({
    kind: 'pace' as const,
    ...value,
    per: '500 m' as const,
  })),
  span(fc.integer({ min: 280, max: 900 })).map((value) => ({
    kind: 'pace' as const,
    ...value,
    per: 'mi' as const,
  })),
  span(decimal(3, 20)).map((value) => ({ kind: 'speed' as const, ...value, unit: 'km/h' as const })),
  span(decimal(3, 13)).map((value) => ({ kind: 'speed' as const, ...value, unit: 'mph' as const })),
  fc.constant({ kind: 'goal' as const }),
  rpe.map((value) => ({ kind: 'rpe' as const, ...value })),
  beats.map((value) => ({ kind: 'heartRate' as const, ...value })),
  fc.integer({ min: 30, max: 250 }).map((under) => ({ kind: 'heartRateUnder' as const, under })),
  fc.constantFrom(...effortWords).map((word) => ({ kind: 'word' as const, word })),
)
const ladder = fc
  .tuple(
    fc.array(decimal(1, 900), { minLength: 2, maxLength: 5 }),
    fc.constantFrom('m' as const, 'km', 'lap', 's'),
  )
  .map(([values, unit]): Amount[] =>
    values.map((value) =>
      unit === 's' ? { kind: 'time', seconds: value } : { kind: 'distance', length: { value, unit } },
    ),
  )
const interval = fc.oneof(
  fc.record({
    kind: fc.constant('piece' as const),
    amounts: fc.oneof(
      amount.map((each) => [each]),
      ladder,
    ),
    target: maybe(freeTarget),
  }),
  fc
    .tuple(fc.integer({ min: 100, max: 20000 }), span(fc.double({ min: 0.2, max: 0.9, noNaN: true })))
    .map(([meters, factors]) => ({
      kind: 'piece' as const,
      amounts: [{ kind: 'distance' as const, length: { value: meters, unit: 'm' as const } }],
      target: { kind: 'time' as const, from: meters * factors.from, to: meters * factors.to },
    })),
)
const times = fc.integer({ min: 1, max: 3 })
const clauses = {
  negative: fc.boolean(),
  lane: maybe(fc.integer({ min: 1, max: 8 })),
  grade: maybe(decimal(0, 15)),
  heartRate: maybe(
    fc.oneof(
      beats,
      fc.integer({ min: 30, max: 250 }).map((under) => ({ under })),
    ),
  ),
  notes,
}
const split = (body: Work['body']) =>
  body.kind === 'piece' &&
  body.amounts.some((each) => each.kind === 'distance' && each.length.value < 1e4 && each.length.unit === 'm')
    ? maybe(fc.constantFrom({ value: 200, unit: 'm' as const }, { value: 1, unit: 'km' as const }))
    : fc.constant(null)

function workOver(body: fc.Arbitrary<Work['body']>, inside: boolean): fc.Arbitrary<Work> {
  return fc
    .tuple(body, maybe(times))
    .chain(([chosen, count]) =>
      fc.record({
        kind: fc.constant('work' as const),
        times: fc.constant(count),
        body: fc.constant(chosen),
        recovery: count === null && !inside && !isLadder(chosen) ? fc.constant(null) : maybe(recovery),
        split: split(chosen),
        ...clauses,
      }),
    )
    .map((work) =>
      work.body.kind === 'group' && work.recovery !== null && endsInRecovery(work)
        ? { ...work, recovery: null }
        : work,
    )
    .chain((work) => (mayHaveEvery(work) ? every.map((more) => ({ ...work, ...more })) : fc.constant(work)))
}

const every = fc.oneof(
  fc.constant({}),
  seconds.map((value) => ({ every: value })),
)

/** A send-off needs repeats, and no other rest. */
function mayHaveEvery({ times: count, recovery: rest }: Work): boolean {
  return count !== null && (rest === null || !['time', 'same'].includes(rest.amount.kind))
}

function isLadder(body: Work['body']): boolean {
  return body.kind === 'piece' && body.amounts.length > 1
}

function endsInRecovery(work: Work): boolean {
  if (work.body.kind === 'piece') return work.times === null && work.recovery !== null
  const last = work.body.steps.at(-1)
  if (last === undefined || last.kind === 'recovery') return true
  return (
    (last.times === null && last.recovery !== null) || (last.body.kind === 'group' && endsInRecovery(last))
  )
}

/** A recovery right after a work without one would be read as that work's own. */
function sorted(steps: (Work | Recovery)[]): (Work | Recovery)[] {
  const kept: (Work | Recovery)[] = []
  for (const step of steps) {
    const before = kept.at(-1)
    const isTaken = step.kind === 'recovery' && before?.kind === 'work' && before.recovery === null
    if (!isTaken) kept.push(step)
  }
  return kept
}
const groupOf = (inner: fc.Arbitrary<Work | Recovery>): fc.Arbitrary<Work['body']> =>
  fc
    .array(inner, { minLength: 1, maxLength: 3 })
    .map((steps) => ({ kind: 'group' as const, steps: sorted(steps) }))
const simple = workOver(interval, true)
const nested = workOver(groupOf(fc.oneof(simple, recovery)), true)
const work = workOver(
  fc.oneof(interval, groupOf(fc.oneof({ weight: 4, arbitrary: simple }, recovery, nested))),
  false,
)

const secondsPerMeter = span(fc.double({ min: 0.2, max: 0.9, noNaN: true }))
const plainWork = {
  kind: 'work' as const,
  recovery: null,
  split: null,
  negative: false,
  lane: null,
  grade: null,
  heartRate: null,
  notes: [],
}
/** Repeats with a time for each. */
const timedRepeats: fc.Arbitrary<Work> = fc
  .tuple(fc.integer({ min: 100, max: 2000 }), fc.array(secondsPerMeter, { minLength: 2, maxLength: 8 }))
  .map(([meters, factors]) => ({
    ...plainWork,
    times: factors.length,
    body: {
      kind: 'piece',
      amounts: [{ kind: 'distance', length: { value: meters, unit: 'm' } }],
      target: {
        kind: 'times',
        each: factors.map(({ from, to }) => ({ from: meters * from, to: meters * to })),
      },
    },
  }))
const paceSeconds = fc.integer({ min: 172, max: 900 })
const progression: fc.Arbitrary<Work> = fc.tuple(paceSeconds, paceSeconds).map(([first, last]) => ({
  ...plainWork,
  times: null,
  split: { value: 1, unit: 'km' },
  body: {
    kind: 'piece',
    amounts: [{ kind: 'distance', length: { value: 5, unit: 'km' } }],
    target: { kind: 'progression', first, last, per: 'km' },
  },
}))
const runItem: fc.Arbitrary<RunItem> = fc
  .oneof({ weight: 6, arbitrary: work }, timedRepeats, progression)
  .map((step) => ({ ...source, step }))
  .filter(fits)
const runItems = fc
  .tuple(fc.array(runItem, { minLength: 2, maxLength: 4 }), maybe(recovery))
  .map(([items, between]) =>
    between === null ? items : [...items.slice(0, 1), { ...source, step: between }, ...items.slice(1)],
  )

// ---- lift ------------------------------------------------------------------------------------

const reps = fc.integer({ min: 1, max: 40 })
const dose: fc.Arbitrary<Dose> = fc.oneof(
  span(reps).map((value) => ({ kind: 'reps' as const, ...value })),
  reps.map((value) => ({ kind: 'atLeast' as const, reps: value })),
  fc
    .array(fc.oneof(reps, fc.constant('max' as const)), { minLength: 1, maxLength: 5 })
    .map((groups) => ({ kind: 'cluster' as const, groups })),
  fc.constant({ kind: 'max' as const }),
  amount,
)
const load: fc.Arbitrary<Load> = fc.oneof(
  fc
    .tuple(span(decimal(1, 300)), massUnit)
    .map(([value, unit]) => ({ kind: 'mass' as const, ...value, unit, pair: false })),
  fc
    .tuple(decimal(1, 60), massUnit)
    .map(([value, unit]) => ({ kind: 'mass' as const, from: value, to: value, unit, pair: true })),
  span(decimal(1, 120)).map((value) => ({ kind: 'percent' as const, ...value })),
  fc.constant({ kind: 'bodyweight' as const, added: 0, unit: 'kg' as const }),
  fc
    .tuple(
      decimal(-40, 60).filter((value) => value !== 0),
      massUnit,
    )
    .map(([added, unit]) => ({ kind: 'bodyweight' as const, added, unit })),
  fc
    .tuple(decimal(-20, 20), massUnit)
    .map(([added, unit]) => ({ kind: 'last' as const, added, unit: added === 0 ? ('kg' as const) : unit })),
)
const countable: fc.Arbitrary<Dose> = dose.filter(({ kind }) => kind !== 'time' && kind !== 'distance')
const sets = fc
  .tuple(
    fc.oneof(
      fc
        .tuple(fc.integer({ min: 1, max: 6 }), dose)
        .map(([count, each]) => Array.from({ length: count }, () => each)),
      fc.array(countable, { minLength: 2, maxLength: 4 }),
    ),
    fc.array(load, { minLength: 6, maxLength: 6 }),
    fc.constantFrom('none', 'one', 'each'),
    maybe(rpe),
  )
  .map(([doses, loads, kind, effort]) =>
    doses.map((each, index) => ({
      dose: each,
      load: kind === 'none' ? null : kind === 'one' ? (loads[0] ?? null) : (loads[index] ?? null),
      rpe: effort,
    })),
  )
const exercise = fc.record({ name: exerciseName, sets, side })
const bare = { ...source, pause: null, rest: null, every: null, tempo: null, buildFrom: null }
const liftItem: fc.Arbitrary<LiftItem> = fc
  .record({
    exercises: fc.array(exercise, { minLength: 1, maxLength: 3 }),
    pause: maybe(seconds),
    rest: maybe(fc.oneof(span(seconds), fc.constant({ from: 0, to: 0 }))),
    every: maybe(seconds),
    tempo: maybe(fc.constantFrom('3-1-1', '3-1-1-0', '31X1', 'X-0-10')),
    buildFrom: maybe(mass),
    notes,
  })
  .map((item) => {
    const first = item.exercises[0]?.sets[0]?.load
    const isCluster = item.exercises.some((each) => each.sets.some((set) => set.dose.kind === 'cluster'))
    const isBelow =
      item.buildFrom !== null &&
      first?.kind === 'mass' &&
      kilogramsOf(item.buildFrom) < kilogramsOf({ value: first.from, unit: first.unit })
    return {
      ...bare,
      ...item,
      pause: isCluster || item.exercises.length > 1 ? item.pause : null,
      every: item.rest === null ? item.every : null,
      buildFrom: isBelow ? item.buildFrom : null,
    }
  })
  .filter(fits)

const liftName = nameOf(fc.constantFrom('front', 'squat', 'Hip', 'row', "farmer's", 'é'))
const masses = fc
  .tuple(decimal(1, 300), massUnit)
  .map(([value, unit]) => ({ kind: 'mass' as const, from: value, to: value, unit, pair: false }))
const station = fc.record({
  name: liftName,
  dose: fc.oneof(
    span(reps).map((value) => ({ kind: 'reps' as const, ...value })),
    amount,
  ),
  side,
  load: maybe(load),
})
const stations = fc.array(station, { minLength: 1, maxLength: 4 })
const namesOf = (each: readonly { name: string }[]) => each.map(({ name }) => name).join(' + ')
type Exercise = LiftItem['exercises'][number]
const setsOf = (count: number, dose: Dose, load: Load | null = null): Exercise['sets'] =>
  Array.from({ length: count }, () => ({ dose, load, rpe: null }))
const repsOf = (count: number) => ({ kind: 'reps' as const, from: count, to: count })

const dropSets: fc.Arbitrary<Exercise> = fc
  .tuple(exerciseName, fc.array(fc.tuple(reps, masses), { minLength: 2, maxLength: 4 }), times, fc.boolean())
  .map(([name, drops, count, isLoaded]) => {
    const [load = null, ...lower] = isLoaded ? drops.map(([, mass]) => mass) : []
    return {
      name,
      side: null,
      sets: setsOf(count, { kind: 'drop', reps: drops.map(([each]) => each), lower }, load),
    }
  })
const complex: fc.Arbitrary<Exercise> = fc
  .tuple(
    fc.array(fc.record({ name: liftName, reps }), { minLength: 2, maxLength: 4 }),
    times,
    maybe(load),
    side,
  )
  .map(([lifts, count, of, each]) => {
    return { name: namesOf(lifts), side: each, sets: setsOf(count, { kind: 'complex', lifts }, of) }
  })
const againstClock: fc.Arbitrary<Exercise> = fc
  .tuple(stations, maybe(seconds), times)
  .map(([each, time, rounds]) => {
    const dose: Dose =
      time === null
        ? { kind: 'forTime', rounds, stations: each }
        : { kind: 'roundsIn', seconds: time, stations: each }
    return { name: namesOf(each), side: null, sets: setsOf(1, dose) }
  })
const jumps: fc.Arbitrary<Exercise> = fc.record({
  name: exerciseName,
  side: fc.constant(null),
  sets: fc.tuple(times, reps).map(([count, of]) => setsOf(count, repsOf(of))),
  height: fc.record({ value: decimal(1, 150), unit: fc.constantFrom('cm' as const, 'in') }),
})
const schemes: fc.Arbitrary<Exercise> = fc
  .tuple(exerciseName, fc.array(fc.tuple(times, reps, load), { minLength: 2, maxLength: 3 }))
  .map(([name, each]) => {
    return { name, side: null, sets: each.flatMap(([count, of, at]) => setsOf(count, repsOf(of), at)) }
  })
const inTurn: fc.Arbitrary<LiftItem> = fc
  .tuple(
    fc.array(station, { minLength: 2, maxLength: 4 }),
    fc.integer({ min: 0, max: 5 }),
    fc.integer({ min: 20, max: 300 }),
    notes,
  )
  .map(([each, more, every, texts]) => {
    const starts = each.length + more
    const exercises = each.map(({ name, dose, side: of, load: at }, index) => {
      return { name, side: of, sets: setsOf(Math.ceil((starts - index) / each.length), dose, at) }
    })
    return { ...bare, every, inTurn: true as const, exercises, notes: texts }
  })
const unusualLift: fc.Arbitrary<LiftItem> = fc.oneof(
  {
    weight: 5,
    arbitrary: fc
      .tuple(fc.oneof(dropSets, complex, againstClock, jumps, schemes), notes)
      .map(([only, texts]) => ({ ...bare, exercises: [only], notes: texts })),
  },
  {
    weight: 1,
    arbitrary: fc
      .tuple(complex, span(seconds), notes)
      .map(([only, rest, texts]) => ({ ...bare, rest, exercises: [only], notes: texts })),
  },
  { weight: 1, arbitrary: inTurn },
)

// ---- prep, fuel, the day -----------------------------------------------------------------------

const prepItem: fc.Arbitrary<PrepItem> = fc
  .record({
    // `leg swings x 10` are ten leg swings.
    name: plainName.filter((name) => !name.endsWith(' x')),
    count: maybe(times),
    amount: maybe(
      fc.oneof(
        amount,
        reps.map((value) => ({ kind: 'reps' as const, reps: value })),
      ),
    ),
    side,
    notes,
  })
  .map((item) => ({ ...source, ...item, count: item.amount === null ? null : item.count }))
const grams = maybe(decimal(0, 200))
const fuelItem: fc.Arbitrary<FuelItem> = fc.record({
  line: fc.constant(source.line),
  text: fc.constant(source.text),
  when: fc.constantFrom('before' as const, 'between', 'after'),
  seconds: maybe(seconds),
  carbsG: grams,
  proteinG: grams,
  fatG: grams,
  kcal: grams,
  notes: fc.array(text, { minLength: 1, maxLength: 2 }),
})
const partName = maybe(
  fc.constantFrom('track', 'legs', 'Evening session', 'hills; wet', 'A "quoted" name', 'rest & repeat'),
)
const part: fc.Arbitrary<Part> = fc.oneof(
  fc.record({
    kind: fc.constant('prep' as const),
    name: partName,
    items: fc.array(prepItem, { minLength: 1, maxLength: 3 }),
  }),
  fc.record({ kind: fc.constant('run' as const), name: partName, items: runItems }),
  fc.record({ kind: fc.constant('cross' as const), name: partName, items: runItems }),
  fc.record({
    kind: fc.constant('lift' as const),
    name: partName,
    items: fc.array(fc.oneof(liftItem, unusualLift.filter(fits)), { minLength: 1, maxLength: 3 }),
  }),
  fc.record({
    kind: fc.constant('fuel' as const),
    name: partName,
    items: fc.array(fuelItem, { minLength: 1, maxLength: 2 }),
  }),
)
const date = fc.constantFrom('2026-11-26', '2024-02-29', '0001-01-01', '9999-12-31')

export const day: fc.Arbitrary<Prescription> = fc.record({
  title: fc.constantFrom('Thursday', 'Legs, then: run # 2', '5 × easy – “so”', 'Run day', '@ + ( "'),
  date: maybe(date),
  units: fc.record({ distance: fc.constantFrom('km' as const, 'mi'), mass: fc.constant('kg' as const) }),
  goal: fc.record({
    length: fc.constant({ value: 10, unit: 'km' as const }),
    seconds: fc.integer({ min: 1700, max: 9000 }),
    on: maybe(date),
  }),
  athlete: maybe(mass),
  bar: maybe(mass),
  bars: fc.array(fc.record({ name: fc.constantFrom('trap bar', 'Safety bar', 'log'), mass }), {
    minLength: 1,
    maxLength: 1,
  }),
  lap: maybe(fc.constantFrom({ value: 400, unit: 'm' as const }, { value: 0.25, unit: 'mi' as const })),
  maxima: fc.uniqueArray(fc.record({ name: plainName, mass }), {
    maxLength: 2,
    selector: (each) => each.name.replace(/[ -]/g, '').toLowerCase(),
  }),
  notes: fc.array(fc.constantFrom('slept well', 'a "quoted" note', '6" box, then more'), { maxLength: 2 }),
  parts: fc.array(part, { minLength: 1, maxLength: 4 }),
})
