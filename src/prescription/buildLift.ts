import { roundedPercentLoad } from '../figures/volume.ts'
import { counted } from '../units/decimal.ts'
import { kilogramsOf, printMass } from '../units/mass.ts'
import { wordsFor } from '../units/words.ts'
import { isJump } from './exercise.ts'
import type { Dose, Exercise, LiftItem, Load, PrescribedSet } from './model.ts'
import { warnOfLoad } from './plausible.ts'
import { printSpan } from './print.ts'
import { hasClusters } from './step.ts'
import {
  type Building,
  bare,
  clauseOf,
  type DoseNode,
  type ExerciseNode,
  isSound,
  type LiftNode,
  type LoadNode,
  type Place,
  reportDuplicates,
  type WeightNode,
} from './syntax.ts'

type LiftLine = Omit<LiftItem, 'line' | 'text'>

export function liftLineOf(node: LiftNode, building: Building): LiftLine {
  reportDuplicates(building, node.clauses)
  const line: LiftLine = {
    exercises: node.exercises.map((each) => exerciseOf(each, building)),
    pause: null,
    rest: null,
    every: null,
    tempo: null,
    buildFrom: null,
    notes: [],
  }
  for (const { clause, value } of node.clauses) {
    if (clause === 'text') line.notes.push(value.value)
    else if (clause === 'side') for (const exercise of line.exercises) exercise.side ??= value.value
    else if (clause === 'pause' || clause === 'every') line[clause] = value.seconds
    else Object.assign(line, { [clause]: bare(value) })
  }
  if (node.inTurn) line.inTurn = true
  checkSchemes(node, building)
  checkPause(node, line, building)
  checkRest(node, building)
  checkBuildFrom(node, line, building)
  return line
}

const hasHeight = /\b(?:box|step|depth|drop|hurdle)\b/i

/** `box jump 4 x 3 at 60`: a number without a unit may be a height or a load. */
function askHeight({ name, load, isStation }: ExerciseNode, building: Building): void {
  const [weight] = load?.weights ?? []
  if (isStation || !isJump(name.value) || !hasHeight.test(name.value)) return
  if (weight?.kind !== 'mass' || !weight.bare || weight.pair || !isSound(weight) || isSmall(weight)) return
  const number = printSpan(weight)
  const { mass } = building.units
  const either = `write at ${number} ${mass === 'lb' ? 'in' : 'cm'} or @ ${number} ${mass}`
  building.report(weight.at, `${number} can be the height of a jump or a load: ${either}`)
}

/** Nobody does more sets of an exercise than this. This program's own rule. */
const mostSets = 50

/** `squat 140 x 5`: so many sets are probably the load. */
function asWeight(node: ExerciseNode, building: Building): ExerciseNode {
  const { at, sets, doses } = node.scheme
  if (sets === null || sets.value <= mostSets || sets.wrong || node.isStation) return node
  if (node.load !== null || doses[0]?.kind !== 'reps') return node
  const { mass: unit } = building.units
  const problem = `${sets.value} sets of ${node.name.value} are more than anyone does`
  building.report(at, `${problem}; is ${sets.value} ${unit} the load?`, { fixed: true })
  const weight = { at, kind: 'mass', from: sets.value, to: sets.value, unit, pair: false } as const
  return {
    ...node,
    scheme: { ...node.scheme, sets: { at, value: 1 } },
    load: { at, weights: [weight], rpe: null },
  }
}

/** `row each arm 3 x 8`: moves a side from the end of the name to the sets. */
function withSide(node: ExerciseNode): ExerciseNode {
  const [, name, what = ''] =
    /^(.*\p{L}.*?)(?: +(?:each|per) +| *\/ *)(side|arm|hand|leg|foot)$/iu.exec(node.name.value) ?? []
  if (name === undefined) return node
  const side = /side/i.test(what) ? 'each side' : /arm|hand/i.test(what) ? 'each arm' : 'each leg'
  const { at } = node.name
  return { ...node, name: { at, value: name }, side: node.side ?? { at, value: side } }
}

const massInName = new RegExp(`\\d+(?:\\.\\d+)? ?(?:${wordsFor('kg', 'lb')})\\b`, 'i')

function exerciseOf(written: ExerciseNode, building: Building): Exercise {
  askHeight(written, building)
  const node = asWeight(withSide(written), building)
  const name = node.name.value
  const warnOfName = (reading: string) => building.warn(node.name.at, `this is read as ${reading}`)
  const mass = massInName.exec(name)
  if (node.isStation && /\d/.test(name))
    warnOfName(`one name, ${name}: put a comma between the exercises of a circuit`)
  if (/(?:^| )e[1-9]?mom(?: |$)/i.test(name))
    warnOfName(`a name, ${name}: put a comma before every, such as clean 10 x 2, every 1:00`)
  if (mass !== null)
    warnOfName(`a name with ${mass[0]} in it; put the load after the sets: 3 x 8 @ ${mass[0]}`)
  const sets = setsOf(node, null, building)
  const [first] = sets
  const firstLoad = first === undefined || first.dose.kind === 'drop' ? null : first.load
  const from = firstLoad && node.more ? building.knownLoad(firstLoad, name) : firstLoad
  for (const each of node.more ?? []) sets.push(...setsOf(each, from, building))
  const { height } = node
  return {
    name,
    sets,
    side: node.side?.value ?? null,
    ...(height ? { height: bare(height) } : {}),
  }
}

/** The sets of one scheme.
 * @param first the load of the first scheme on the line, for a share less than it */
function setsOf(
  { at, scheme, load: written }: ExerciseNode | NonNullable<ExerciseNode['more']>[number],
  first: Load | null,
  building: Building,
): PrescribedSet[] {
  const [one] = scheme.doses
  const count = scheme.sets?.value ?? scheme.doses.length
  const doses = scheme.sets === null ? withOneUnit(scheme.doses) : repeated(bare(one as DoseNode), count)
  if (written !== null && 'less' in written) {
    const load = lessLoad(first, written, building)
    return doses.map((dose) => ({ dose, load, rpe: null }))
  }
  const load = asEffort(written, building)
  const rpe = bare(load?.rpe ?? null)
  if (one?.kind === 'drop') {
    const [heaviest = null, ...lower] = loadsOf({ at, load }, one.reps.length, 'drop', building)
    const dose: Dose = { kind: 'drop', reps: bare(one.reps), lower }
    return repeated({ dose, load: heaviest, rpe }, count)
  }
  const loads = loadsOf({ at, load }, count, 'set', building)
  return doses.map((dose, index) => ({ dose, load: loads[index] ?? loads[0] ?? null, rpe }))
}

function repeated<T>(value: T, count: number): T[] {
  return Array.from({ length: count }, () => value)
}

/** The first scheme's load less a share of it, rounded as loads by percent are. */
function lessLoad(
  first: Load | null,
  { less, at }: { less: number; at: Place },
  building: Building,
): Load | null {
  const share = 100 - less
  if (first?.kind === 'percent') {
    const tenth = (percent: number) => Math.round((percent * share) / 10) / 10
    return { kind: 'percent', from: tenth(first.from), to: tenth(first.to) }
  }
  if (first?.kind === 'mass') {
    const made = (value: number) =>
      roundedPercentLoad(kilogramsOf({ value, unit: first.unit }), share, first.unit)
    return { ...first, from: made(first.from), to: made(first.to) }
  }
  building.report(at, `${less}% less needs a load before it, such as 1 x 5 @ 140 kg then 2 x 5 @ -${less}%`)
  return null
}

/** Bare numbers in a slash list take the unit of the time or distance at its end: 40/30 s. */
function withOneUnit(nodes: readonly DoseNode[]): Dose[] {
  const last = nodes.at(-1)
  return nodes.map((node) => {
    if (node.kind !== 'reps' || node.from !== node.to) return bare(node)
    if (last?.kind === 'time') return { kind: 'time', seconds: node.from * (last.secondsInUnit ?? 1) }
    if (last?.kind === 'distance')
      return { kind: 'distance', length: { value: node.from, unit: last.length.unit } }
    return bare(node)
  })
}

/** The loads of a set or of a slash list, in their units: one, or one for each set or drop. */
function loadsOf(
  { at, load }: Pick<ExerciseNode, 'at' | 'load'>,
  count: number,
  what: 'set' | 'drop',
  building: Building,
): Load[] {
  const weights = withUnits(load?.weights ?? [])
  for (const weight of weights) warnOfLoad(weight, building)
  const isEnough = what === 'set' ? weights.length <= 1 : weights.length === 0
  if (!isEnough && weights.length !== count) {
    const one = what === 'set' ? 'one load, or one' : 'one'
    const message = `${counted(weights.length, 'load')} for ${counted(count, what)}: write ${one} for each`
    building.report(load?.at ?? at, message)
  }
  return bare(weights)
}

/** Gives the bare numbers of a slash list the unit, or the %, of its last load. If the first is a pair or added to the
 * body and has no unit of its own, so are the masses after it: in bodyweight+10/5 kg the 5 kg are added too. */
function withUnits(weights: readonly WeightNode[]): WeightNode[] {
  const [first, last] = [weights[0], weights.at(-1)]
  return weights.map((weight) => {
    if (weight === last || weight.kind === 'percent' || !weight.bare) return likeFirst(weight, first)
    if (last?.kind === 'percent') return isPlain(weight) ? asPercent(weight) : weight
    return likeFirst({ ...weight, unit: last?.unit ?? weight.unit, bare: last?.bare === true }, first)
  })
}

function likeFirst(weight: WeightNode, first: WeightNode | undefined): WeightNode {
  if (first === undefined || first.kind === 'percent' || !first.bare || !isPlain(weight)) return weight
  if (first.kind === 'mass') return { ...weight, pair: first.pair }
  if (first.kind !== 'bodyweight' || first.added === 0 || weight.from !== weight.to) return weight
  const { at, from, unit, wrong } = weight
  return { at, kind: 'bodyweight', added: Math.sign(first.added) * from, unit, ...(wrong && { wrong }) }
}

function asPercent({ at, wrong, from, to }: WeightNode & { kind: 'mass' }): WeightNode {
  return { at, kind: 'percent', from, to, ...(wrong && { wrong }) }
}

function isPlain(weight: WeightNode): weight is WeightNode & { kind: 'mass' } {
  return weight.kind === 'mass' && !weight.pair
}

const smallestBareLoad = 10

function isSmall(weight: WeightNode): boolean {
  return weight.kind === 'mass' && weight.bare === true && !weight.pair && weight.to <= smallestBareLoad
}

/** Asks about small numbers without a unit, which can be loads or efforts; `squat 5 x 5 @ 8` is probably an effort. */
function asEffort(load: LoadNode | null, building: Building): LoadNode | null {
  const weights = withUnits(load?.weights ?? [])
  const [weight, ...others] = weights
  if (load === null || weight?.kind !== 'mass' || !weights.every(isSmall) || !weights.every(isSound))
    return load
  const { at, from, to } = weight
  const isHalves = (number: number) => number >= 1 && (number * 2) % 1 === 0
  const isEffort = others.length === 0 && load.rpe === null && isHalves(from) && isHalves(to)
  const numbers = weights.map((each) => (each.kind === 'mass' ? printSpan(each) : '')).join('/')
  const question = `${numbers} can be a load or an effort: ${numbers} ${building.units.mass} or rpe ${numbers}?`
  building.report([at[0], (others.at(-1) ?? weight).at[1]], question, { fixed: isEffort })
  return isEffort ? { ...load, weights: [], rpe: { at, from, to } } : load
}

function checkSchemes({ at, exercises, clauses }: LiftNode, building: Building): void {
  if (exercises.length > 1) {
    const more = exercises.flatMap((each) => each.more ?? [])[0]
    if (exercises.some(({ scheme }) => scheme.doses[0]?.kind === 'complex'))
      building.report(at, 'a complex is written on a line of its own')
    if (more !== undefined)
      building.report(
        more.at,
        'a superset has one scheme for each exercise: write the rest on a line of its own',
      )
  }
  const [dose] = exercises[0]?.scheme.doses ?? []
  if (dose === undefined || !('stations' in dose)) return
  for (const { load } of dose.stations) {
    if (load === null) continue
    warnOfLoad(load, building)
    asEffort({ at: load.at, weights: [load], rpe: null }, building)
  }
  for (const { clause, at: place } of clauses)
    if (['pause', 'rest', 'every', 'buildFrom'].includes(clause))
      building.report(place, 'rounds against the clock have no rest, pause or warm-up sets: remove this')
}

/* Checks what the clauses of a lift line require from the rest of the line. */

/** In seconds. A shorter pause was meant inside the repetition, as at the bottom of a squat. */
const shortestRest = 10

/** Checks that a pause is on a line with cluster sets or several exercises. On a line without a rest it was probably
 * meant as the rest; on any other the groups are missing, and only the athlete knows them. */
function checkPause(node: LiftNode, line: LiftLine, building: Building): void {
  const clause = clauseOf(node.clauses, 'pause')
  if (clause === undefined || line.exercises.length > 1 || hasClusters(line.exercises)) return
  const isRest = line.rest === null && line.every === null && (line.pause ?? 0) >= shortestRest
  const meant = isRest ? line.pause : null
  building.report(
    clause.at,
    'a pause is between the groups of a cluster set, such as 4 x (2+2), or between the exercises of a superset; write rest for after a set, tempo for a pause in a repetition',
    { fixed: meant !== null },
  )
  if (meant !== null) Object.assign(line, { pause: null, rest: { from: meant, to: meant } })
}

function checkRest(node: LiftNode, building: Building): void {
  const every = clauseOf(node.clauses, 'every')
  if (every !== undefined && clauseOf(node.clauses, 'rest'))
    building.report(
      every.at,
      'with every, sets begin by the clock and have no other rest: remove one of the two',
    )
}

function checkBuildFrom(node: LiftNode, line: LiftLine, building: Building): void {
  const clause = clauseOf(node.clauses, 'buildFrom')
  const [exercise] = line.exercises
  if (clause === undefined || exercise === undefined || !isSound(clause.value)) return
  const load = exercise.sets[0]?.load ?? null
  if (load === null || load.kind === 'bodyweight' || load.kind === 'last') {
    building.report(clause.at, 'build from needs a load in kg or lb to build up to, such as @ 90 kg')
    return
  }
  const known = building.knownLoad(load, exercise.name)
  if (known.kind !== 'mass') {
    const such = `such as max: ${exercise.name} 100 kg`
    building.report(clause.at, `build from needs a load that is known: write the maximum above, ${such}`)
    return
  }
  const working = { value: known.from, unit: known.unit }
  if (kilogramsOf(clause.value) < kilogramsOf(working)) return
  const [start, end] = [printMass(clause.value), printMass(working)]
  building.report(clause.at, `build from ${start} must be less than the first load, ${end}`)
}
