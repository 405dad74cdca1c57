import { printNumber } from '../units/decimal.ts'
import { formatClockShort } from '../units/duration.ts'
import { metersOf } from '../units/length.ts'
import { kilogramsOf, printMass } from '../units/mass.ts'
import type { LengthUnit, MassUnit } from '../units/model.ts'
import { metersInPaceUnit, type PaceUnit, printPace } from '../units/pace.ts'
import { type Building, warn } from './building.ts'
import { printAmount, printSpan } from './printRun.ts'
import type { Node, PieceNode, WeightNode } from './syntax.ts'

/* Values that can be read and are hardly meant: a warning says what is odd and what was likelier meant. All
 * limits are invented, wide enough for whoever does the most; only the paces lean on what has been run. */

/** Seconds a kilometre over more than 400 m: the best of the world over 800 m are a little faster than the
 * first, nobody has been faster than the second over 500 m (both from memory). */
const paces = { fast: 130, impossible: 115 }
const longestMeters = 200_000
const heaviestKg = { load: 500, bar: 60, athlete: 300, lightestAthlete: 25 }
const mostPercent = 110
const mostSets = 50
const mostEaten = { carbs: 500, protein: 200, kcal: 5000 }

/** A pace that is likely the time of the piece: `500 m @ 1:50`. Feet only: wheels are that fast. */
export function warnOfPace(
  node: Node & { from: number; to: number; per: PaceUnit },
  piece: PieceNode,
  building: Building,
): void {
  const perKm = (seconds: number) => (seconds * 1000) / metersInPaceUnit[node.per]
  if (building.part.kind !== 'run' || node.wrong !== undefined || perKm(node.from) >= paces.fast) return
  for (const amount of piece.amounts) {
    if (amount.kind !== 'distance' || amount.wrong !== undefined) continue
    const length = { value: amount.value, unit: amount.unit }
    const meters = metersOf(length, building.lapMeters)
    if (meters <= 400) continue
    const times = [node.from, node.to].map((seconds) => (perKm(seconds) * meters) / 1000)
    const whole = [node.from, node.to].map((seconds) => (seconds * 1000) / meters)
    const isTime = whole.every((each) => each >= paces.fast && each <= 1000)
    const what = `${printPace(node)} is ${printAmount({ kind: 'distance', length })} in ${clocks(times)}`
    const who = perKm(node.from) < paces.impossible ? 'anyone' : 'almost anyone'
    const advice = isTime ? `did you mean in ${clocks([node.from, node.to])}?` : 'check the pace'
    warn(building, node.at, `${what}, faster than ${who} runs it; ${advice}`)
    return
  }
}

function clocks(seconds: number[]): string {
  return [...new Set(seconds.map(formatClockShort))].join('-')
}

/** More than 200 km at once. */
export function warnOfDistance(node: Node & { value: number; unit: LengthUnit }, building: Building): void {
  const length = { value: node.value, unit: node.unit }
  if (node.wrong !== undefined || metersOf(length, building.lapMeters) <= longestMeters) return
  const said = printAmount({ kind: 'distance', length })
  const advice = node.unit === 'km' ? `did you mean ${printNumber(node.value)} m?` : 'check the distance'
  warn(building, node.at, `${said} at once is longer than 200 km; ${advice}`)
}

/** More than 500 kg, or than 110 % of a maximum. */
export function warnOfLoad(weight: WeightNode, building: Building): void {
  if (weight.wrong !== undefined) return
  if (weight.kind === 'percent') {
    if (weight.to <= mostPercent) return
    const said = `${printSpan(weight)}% of a maximum is more than anyone lifts`
    warn(building, weight.at, `${said}; write ${mostPercent}% or less`)
    return
  }
  const mass = { value: weight.kind === 'mass' ? weight.to : weight.added, unit: weight.unit }
  warnOfMass(weight, mass, building)
}

/** A load or a maximum of more than 500 kg. */
export function warnOfMass(node: Node, mass: { value: number; unit: MassUnit }, building: Building): void {
  if (node.wrong !== undefined || kilogramsOf(mass) <= heaviestKg.load) return
  const message = `${printMass(mass)} is more than anyone lifts (500 kg)`
  warn(building, node.at, `${message}; ${meantMass(mass, 1, heaviestKg.load)}`)
}

/** A bar of more than 60 kg, an athlete of less than 25 kg or more than 300 kg. */
export function warnOfHeader(
  header: 'athlete' | 'bar',
  mass: Node & { value: number; unit: MassUnit },
  building: Building,
): void {
  const [least, most] =
    header === 'bar' ? [0, heaviestKg.bar] : [heaviestKg.lightestAthlete, heaviestKg.athlete]
  const kg = kilogramsOf(mass)
  if (mass.wrong !== undefined || (kg >= least && kg <= most)) return
  const said =
    header === 'bar' ? `no bar weighs ${printMass(mass)}` : `hardly any athlete weighs ${printMass(mass)}`
  const limits = header === 'bar' ? `at most ${most} kg` : `${least} to ${most} kg`
  warn(building, mass.at, `${said} (${limits}); ${meantMass(mass, least, most)}`)
}

/** A point or a digit more or less, or the other unit, where that is within the limits. */
function meantMass(mass: { value: number; unit: MassUnit }, least: number, most: number): string {
  const candidates = [mass.value / 10, mass.value * 10].map((value) => ({ value, unit: mass.unit }))
  const meant = candidates.find((each) => kilogramsOf(each) >= least && kilogramsOf(each) <= most)
  return meant === undefined ? 'check the number' : `did you mean ${printMass(meant)}?`
}

/** More than 50 sets of an exercise: sets and repetitions are likely the wrong way round. */
export function warnOfSets(
  node: Node & { sets: { value: number } | null },
  name: string,
  reps: number | null,
  building: Building,
): void {
  const sets = node.sets?.value ?? 0
  if (node.wrong !== undefined || sets <= mostSets) return
  const advice =
    reps === null || reps > mostSets
      ? `write ${mostSets} sets or fewer`
      : `the sets come first: did you mean ${reps} x ${sets}?`
  warn(building, node.at, `${sets} sets of ${name} are more than anyone does; ${advice}`)
}

/** More carbohydrate, protein or energy in one item than anyone eats. */
export function warnOfFood(
  bit: string,
  node: Node & { value: number; text: string },
  building: Building,
): void {
  const most = mostEaten[bit as keyof typeof mostEaten]
  if (most === undefined || node.wrong !== undefined || node.value <= most) return
  const amount = (value: number) =>
    bit === 'kcal' ? `${printNumber(value)} kcal` : `${bit} ${printNumber(value)} g`
  const limit = bit === 'kcal' ? `${most} kcal` : `${most} g`
  const less = node.value / 10
  const advice = less <= most ? `did you mean ${amount(less)}?` : 'check the number'
  warn(building, node.at, `${amount(node.value)} in one item is more than anyone eats (${limit}); ${advice}`)
}
