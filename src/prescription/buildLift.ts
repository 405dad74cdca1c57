import { roundedPercentLoad } from '../figures/volume.ts'
import { counted, roundTo } from '../units/decimal.ts'
import { kilogramsOf, printMass } from '../units/mass.ts'
import { wordsFor } from '../units/words.ts'
import { isEndurance, isHold, isJump, isOfAPair, isOfBothSides, isOnBar } from './exercise.ts'
import { wholeLoad } from './hastyLifts.ts'
import type { Dose, Exercise, LiftItem, Load, PrescribedSet, Span } from './model.ts'
import { warnOfLoad } from './plausible.ts'
import { printSpan } from './print.ts'
import { hasClusters } from './step.ts'
import { type Context, isBare, isSound, type Place, placeOf } from './written.ts'

type LiftLine = Omit<LiftItem, 'line' | 'text'>

/** As the grammar makes it: its sets as schemes. */
type WrittenLine = Omit<LiftLine, 'exercises'> & { exercises: WrittenExercise[] }

type WrittenExercise = Omit<Exercise, 'sets'> & {
  /** One after the other. */
  schemes: Scheme[]
  isStation?: true
  /** A colon ends its name. */
  isNamed?: true
}

interface Scheme {
  /** Null: one for each dose. */
  sets: number | null
  doses: Dose[]
  /** One for all sets, or one for each. `less`: percent off the first scheme's load. */
  load: { weights: Load[]; rpe: Span | null } | { less: number } | null
}

/** Lays out the sets of a lift line; reports what cannot be right, and puts right what was probably meant. */
export function liftLineOf(written: WrittenLine, context: Context): LiftLine {
  const line: LiftLine = {
    ...written,
    exercises: written.exercises.map((each) => exerciseOf(each, written.every, context)),
  }
  checkSchemes(written, context)
  checkPause(written, line, context)
  if (line.every !== null && line.rest !== null)
    context.report(
      placeOf(written, 'every'),
      'with every, sets begin by the clock and have no other rest: remove one of the two',
    )
  checkBuildFrom(line, context)
  return line
}

const hasHeight = /\b(?:box|step|depth|drop|hurdle)\b/i

/** `box jump 4 x 3 at 60`: a number without a unit may be a height or a load. */
function askHeight({ name, schemes, isStation }: WrittenExercise, context: Context): void {
  const load = schemes[0]?.load
  const weight = load && 'weights' in load ? load.weights[0] : undefined
  if (isStation || !isJump(name) || !hasHeight.test(name)) return
  if (weight?.kind !== 'mass' || !isBare(weight) || weight.pair || !isSound(weight) || isSmall(weight)) return
  const number = printSpan(weight)
  const { mass } = context.units
  const either = `write at ${number} ${mass === 'lb' ? 'in' : 'cm'} or @ ${number} ${mass}`
  context.report(placeOf(weight), `${number} can be the height of a jump or a load: ${either}`)
}

/** `squat 3 x 8 @ 60 kg each side`: of a lift that takes both sides at once, that can be the plates of one end. */
function warnOfPlates(exercise: WrittenExercise, context: Context): void {
  const load = exercise.schemes[0]?.load
  const isMass = load && 'weights' in load && load.weights.every((each) => each.kind === 'mass' && !each.pair)
  if (exercise.side !== 'each side' || !isMass || !isOfBothSides(exercise.name)) return
  const [from, end] = placeOf(load)
  const [side, to] = placeOf(exercise, 'side')
  if (side >= end && side <= end + 1)
    context.warn([from, to], `this is read as sets of each side; ${wholeLoad}`)
}

/** Nobody does more sets of an exercise than this, or than fit into an hour where they begin by the clock. This
 * program's own rule. */
const mostSets = 50
const longestByClock = 3600

function lacksLoad({ load, doses }: Scheme): boolean {
  return load === null && doses[0]?.kind === 'reps'
}

/** Says that these are too many sets; null if somebody does so many. */
function tooManySets(sets: number, { name }: WrittenExercise, every: number | null): string | null {
  const isByClock = every !== null && sets * every <= longestByClock
  return sets <= mostSets || isByClock ? null : `${sets} sets of ${name} are more than anyone does`
}

/** `squat 140 x 5`: so many sets are probably the load. */
function asWeight(scheme: Scheme, exercise: WrittenExercise, every: number | null, context: Context): Scheme {
  const { sets, doses } = scheme
  if (sets === null || doses[0]?.kind !== 'reps' || scheme.load !== null || exercise.isStation) return scheme
  const problem = tooManySets(sets, exercise, every)
  if (problem === null) return scheme
  const { mass: unit } = context.units
  context.report(placeOf(scheme), `${problem}; is ${sets} ${unit} the load?`, { fixed: true })
  const weight = { kind: 'mass', from: sets, to: sets, unit, pair: false } as const
  return { sets: 1, doses, load: { weights: [weight], rpe: null } }
}

/** `squat 3 x 5 then 1 x max @ 80 kg`: a load is only that of the sets right before it. */
function warnOfNoLoad(name: string, [first, ...more]: Scheme[], context: Context): void {
  const isLoaded = ({ load }: Scheme) =>
    load !== null &&
    'weights' in load &&
    load.weights.some(({ kind }) => kind === 'mass' || kind === 'percent')
  if (first?.load === null && more.some(isLoaded) && isOnBar({ name, side: null }))
    context.warn(placeOf(first), 'these sets have no load: write one after them too')
}

/** Counts the sets of all schemes: `squat: 4 x 5 then 50 x 5` is printed as one scheme, which must read as well. */
function checkTotal(
  sets: readonly PrescribedSet[],
  exercise: WrittenExercise,
  every: number | null,
  context: Context,
): void {
  const counted = sets.filter(({ dose }) => dose.kind === 'reps')
  const problem = tooManySets(counted.length, exercise, every)
  if (problem === null) return
  if (counted.every(({ load, rpe }) => load !== null || rpe !== null))
    context.doubt(placeOf(exercise), problem)
  else context.report(placeOf(exercise), problem)
}

/** So many repetitions of a hold are probably its seconds, and more than so many with a bar its load. This program's own
 * rule. */
const fewestSecondsOfHold = 15
const mostRepsWithBar = 100

/** `plank 3 x 45`, `bench 5 x 225` */
function warnOfReps(name: string, scheme: Scheme, context: Context): void {
  const { load, sets, doses } = scheme
  const [dose] = doses
  if (dose?.kind !== 'reps') return
  const { from } = dose
  if (from >= fewestSecondsOfHold && isHold(name))
    context.warn(placeOf(scheme), `${from} repetitions of a hold: for seconds write ${from} s`)
  const isBar = isOnBar({ name, side: null }) && !isEndurance(name)
  if (from > mostRepsWithBar && load === null && isBar) {
    const meant = `1 x ${sets ?? 1} @ ${from} ${context.units.mass}`
    context.doubt(placeOf(scheme), `${from} repetitions with a bar: for the load write ${meant}`)
  }
}

const sideAtEnd = /(?: +(?:each|per) +| *\/ *)(side|arm|hand|leg|foot)$/iu

/** `row each arm 3 x 8`: moves a side from the end of the name to the sets. */
function withSide(exercise: WrittenExercise): WrittenExercise {
  const [found = '', what = ''] = sideAtEnd.exec(exercise.name) ?? []
  const name = exercise.name.slice(0, exercise.name.length - found.length)
  if (found === '' || !/\p{L}/u.test(name)) return exercise
  const side = /side/i.test(what) ? 'each side' : /arm|hand/i.test(what) ? 'each arm' : 'each leg'
  return { ...exercise, name, side: exercise.side ?? side }
}

const massInName = new RegExp(`\\d+(?:\\.\\d+)? ?(?:(?:${wordsFor('kg', 'lb')})\\b|%)`, 'i')
const massAtEnd = new RegExp(`${massInName.source}$`, 'i')
const heightAtEnd = /\d ?(?:cm|in)$/i
const numberAtEnd = /(?<= )\d+(?:\.\d+)?$/

/** `3 rounds: 5 pull-up 10 push-up` */
function warnOfStation(station: { name: string }, context: Context): void {
  const { name } = station
  const message = `this is read as one name, ${name}: put a comma between the exercises of a circuit`
  if (/\p{L}.*\d/u.test(name)) context.warn(placeOf(station, 'name'), message)
}

/** @param every how often its sets begin, in seconds; null without a clock */
function exerciseOf(written: WrittenExercise, every: number | null, context: Context): Exercise {
  askHeight(written, context)
  warnOfPlates(written, context)
  const { name, side, height, schemes, isStation, isNamed } = withSide(written)
  const warnOfName = (reading: string) => context.warn(placeOf(written, 'name'), `this is read as ${reading}`)
  if (isStation) warnOfStation(written, context)
  if (/(?:^| )e[1-9]?mom(?: |$)/i.test(name))
    warnOfName(`a name, ${name}: put a comma before every, such as clean 10 x 2, every 1:00`)
  const [first, ...more] = schemes as [Scheme, ...Scheme[]]
  warnOfReps(name, first, context)
  warnOfNoLoad(name, schemes, context)
  const load = massInName.exec(name) ?? (!isStation && lacksLoad(first) ? numberAtEnd.exec(name) : null)
  const takesHeight = !isStation && first.load === null && first.doses[0]?.kind === 'reps'
  if (load !== null && !isNamed && first.load === null && massAtEnd.test(name))
    context.report(placeOf(written, 'name'), `put the load after the sets, as in 3 x 8 @ ${load[0]}`)
  else if (!isNamed && takesHeight && heightAtEnd.test(name) && hasHeight.test(name))
    context.report(placeOf(written, 'name'), 'put the height after the sets, as in 3 x 5 at 60 cm')
  else if (load !== null)
    warnOfName(`a name with ${load[0]} in it; put the load after the sets: 3 x 8 @ ${load[0]}`)
  const sets = setsOf(asWeight(first, written, every, context), null, context)
  const firstLoad = sets[0] === undefined || sets[0].dose.kind === 'drop' ? null : sets[0].load
  if (firstLoad?.kind === 'mass' && !firstLoad.pair && side === null && isOfAPair(name)) {
    const mass = printMass({ value: firstLoad.from, unit: firstLoad.unit })
    context.warn(placeOf(firstLoad), `${mass} is one dumbbell: for one in each hand write 2x${mass}`)
  }
  const from = firstLoad && context.knownLoad(firstLoad, name)
  for (const each of more) sets.push(...setsOf(asWeight(each, written, every, context), from, context))
  checkTotal(sets, written, every, context)
  return { name, sets, side, ...(height ? { height } : {}) }
}

/** The sets of one scheme.
 * @param first the load of the first scheme on the line, for a share less than it */
function setsOf(scheme: Scheme, first: Load | null, context: Context): PrescribedSet[] {
  const { load } = scheme
  const [one] = scheme.doses
  const count = scheme.sets ?? scheme.doses.length
  const doses = scheme.sets === null ? scheme.doses : repeated(one as Dose, count)
  if (load !== null && 'less' in load) {
    const less = lessLoad(first, load.less, placeOf(load), context)
    return doses.map((dose) => ({ dose, load: less, rpe: null }))
  }
  const effort = load && effortIn(load.weights, load.rpe, context)
  const weights = load === null || effort !== null ? [] : load.weights
  const rpe = effort ?? load?.rpe ?? null
  for (const weight of weights) warnOfLoad(weight, context)
  const isDrop = one?.kind === 'drop'
  const number = isDrop ? one.reps.length : count
  const isEnough = isDrop ? weights.length === 0 : weights.length <= 1
  if (!isEnough && weights.length !== number) {
    const [what, each] = isDrop ? ['drop', 'one'] : ['set', 'one load, or one']
    const message = `${counted(weights.length, 'load')} for ${counted(number, what)}: write ${each} for each`
    context.report(placeOf(load ?? scheme), message)
  }
  const [heaviest = null, ...lower] = weights
  if (isDrop) return repeated({ dose: { ...one, lower }, load: heaviest, rpe }, count)
  return doses.map((dose, index) => ({ dose, load: weights[index] ?? heaviest, rpe }))
}

function repeated<T>(value: T, count: number): T[] {
  return Array.from({ length: count }, () => value)
}

/** The first scheme's load less a share of it, rounded as loads by percent are. */
function lessLoad(first: Load | null, less: number, at: Place, context: Context): Load | null {
  const share = 100 - less
  if (first?.kind === 'percent') {
    const tenth = (percent: number) => roundTo((percent * share) / 100, 1)
    return { kind: 'percent', from: tenth(first.from), to: tenth(first.to) }
  }
  if (first?.kind === 'mass') {
    const made = (value: number) =>
      roundedPercentLoad(kilogramsOf({ value, unit: first.unit }), share, first.unit)
    return { ...first, from: made(first.from), to: made(first.to) }
  }
  context.report(at, `${less}% less needs a load before it, such as 1 x 5 @ 140 kg then 2 x 5 @ -${less}%`)
  return null
}

const smallestBareLoad = 10

function isSmall(weight: Load): weight is Load & { kind: 'mass' } {
  return weight.kind === 'mass' && isBare(weight) && !weight.pair && weight.to <= smallestBareLoad
}

/** Asks about small numbers without a unit, which can be loads or efforts.
 * @returns the effort that one probably is, as in `squat 5 x 5 @ 8`; null for any other loads */
function effortIn(weights: readonly Load[], rpe: Span | null, context: Context): Span | null {
  const [weight, ...others] = weights
  if (weight === undefined || !isSmall(weight) || !others.every(isSmall) || !weights.every(isSound))
    return null
  const { from, to } = weight
  const isHalves = (number: number) => number >= 1 && (number * 2) % 1 === 0
  const isEffort = others.length === 0 && rpe === null && isHalves(from) && isHalves(to)
  const numbers = weights.filter(isSmall).map(printSpan).join('/')
  const question = `${numbers} can be a load or an effort: ${numbers} ${context.units.mass} or rpe ${numbers}?`
  const end = placeOf(others.at(-1) ?? weight)[1]
  context.report([placeOf(weight)[0], end], question, { fixed: isEffort })
  return isEffort ? { from, to } : null
}

function checkSchemes(written: WrittenLine, context: Context): void {
  const { exercises } = written
  const [dose] = exercises[0]?.schemes[0]?.doses ?? []
  if (exercises.length > 1) {
    const more = exercises.flatMap(({ schemes }) => schemes.slice(1))[0]
    if (exercises.some(({ schemes }) => schemes[0]?.doses[0]?.kind === 'complex'))
      context.report(placeOf(written), 'a complex is written on a line of its own')
    if (more !== undefined)
      context.report(
        placeOf(more),
        'a superset has one scheme for each exercise: write the rest on a line of its own',
      )
  }
  if (dose === undefined || !('stations' in dose)) return
  for (const station of dose.stations) {
    warnOfStation(station, context)
    if (station.load === null) continue
    warnOfLoad(station.load, context)
    effortIn([station.load], null, context)
  }
  for (const clause of ['pause', 'rest', 'every', 'buildFrom'] as const)
    if (written[clause] !== null)
      context.report(
        placeOf(written, clause),
        'rounds against the clock have no rest, pause or warm-up sets: remove this',
      )
}

/* Checks what the clauses of a lift line require from the rest of the line. */

/** In seconds. A shorter pause was meant inside the repetition, as at the bottom of a squat. */
const shortestRest = 10

/** Checks that a pause is on a line with cluster sets or several exercises. On a line without a rest it was probably
 * meant as the rest; on any other the groups are missing, and only the athlete knows them. */
function checkPause(written: WrittenLine, line: LiftLine, context: Context): void {
  const { exercises, pause, rest, every } = line
  if (pause === null || exercises.length > 1 || hasClusters(exercises)) return
  const isRest = rest === null && every === null && pause >= shortestRest
  context.report(
    placeOf(written, 'pause'),
    'a pause is between the groups of a cluster set, such as 4 x (2+2), or between the exercises of a superset; write rest for after a set, tempo for a pause in a repetition',
    { fixed: isRest },
  )
  if (isRest) Object.assign(line, { pause: null, rest: { from: pause, to: pause } })
}

function checkBuildFrom({ buildFrom, exercises }: LiftLine, context: Context): void {
  const [exercise] = exercises
  if (buildFrom === null || exercise === undefined || !isSound(buildFrom)) return
  const at = placeOf(buildFrom)
  const load = exercise.sets[0]?.load ?? null
  if (load === null || load.kind === 'bodyweight' || load.kind === 'last') {
    context.report(at, 'build from needs a load in kg or lb to build up to, such as @ 90 kg')
    return
  }
  const known = context.knownLoad(load, exercise.name)
  if (known.kind !== 'mass') {
    const such = `such as max: ${exercise.name} ${buildFrom.unit === 'lb' ? '225 lb' : '100 kg'}`
    context.report(at, `build from needs a load that is known: write the maximum above, ${such}`)
    return
  }
  const working = { value: known.from, unit: known.unit }
  if (kilogramsOf(buildFrom) < kilogramsOf(working)) return
  const [start, end] = [printMass(buildFrom), printMass(working)]
  context.report(at, `build from ${start} must be less than the first load, ${end}`)
}
