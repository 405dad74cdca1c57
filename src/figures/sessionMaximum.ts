import { greatest, sum } from 'd3-array'
import { figure, noise, num } from './figure.ts'
import {
  type Estimate,
  estimateSet,
  type LiftedSet,
  mostRepetitions,
  reserveOf,
  spreadOf,
} from './oneRepMax.ts'

/* Combines all sets of an exercise in a session, because the best set alone may be luck. */

const isCluster = (set: LiftedSet): boolean => set.groups.length > 1
const repsOf = (set: LiftedSet): number => sum(set.groups)
const bodyOf = (set: LiftedSet): number => set.bodyKg ?? 0

/** A straight single with nothing in reserve. */
function isExactSingle(set: LiftedSet): boolean {
  return !isCluster(set) && repsOf(set) === 1 && reserveOf(set)?.exact === true
}

/** What the repetitions of a set prove, body included: the lowest of the seven for its longest group. 0 if the body mass
 * is unknown.
 * Source: This program's own rule. */
function provenBy(set: LiftedSet): number {
  const reps = Math.min(mostRepetitions, Math.max(...set.groups))
  return set.bodyKg === null || reps === 0 ? 0 : spreadOf(set.kg + set.bodyKg, reps, null).low
}

/** A single at a load that was lifted for more repetitions in the same session shows fatigue, and so does a set that
 * allows less than another of no less load proves. A failed set that a later one beats, with more repetitions at no
 * less load, was a slip.
 * Source: This program's own rule. */
function isFatigueOrSlip(set: LiftedSet, sets: readonly LiftedSet[]): boolean {
  if (isExactSingle(set) && sets.some((other) => other.kg > set.kg - noise && repsOf(other) > 1)) return true
  const isBeaten = (later: LiftedSet) =>
    !isCluster(later) && later.kg > set.kg - noise && repsOf(later) > repsOf(set)
  if (set.failed && !isCluster(set) && sets.slice(sets.indexOf(set) + 1).some(isBeaten)) return true
  const most = mostOf(set)
  return most !== null && sets.some((other) => other.kg > set.kg - noise && provenBy(other) > most + noise)
}

/** The most that a set leaves possible, body included: the limit of a failed straight set, else the high end of its
 * range; null if that is open or its reserve unknown. */
function mostOf(set: LiftedSet): number | null {
  if (set.failed && !isCluster(set)) return limitOf(set)
  const high = weightOf(set) === null ? null : (estimateSet(set)?.highKg ?? null)
  return high === null ? null : high + bodyOf(set)
}

/** The most that a failed straight set leaves possible, body included; null for any other set. */
function limitOf(set: LiftedSet): number | null {
  if (isCluster(set) || !set.failed || set.bodyKg === null) return null
  const moved = set.kg + bodyOf(set)
  const reps = repsOf(set)
  if (moved <= 0 || reps + 1 > 36) return null
  return reps === 0 ? moved : spreadOf(moved, 1, reps + 1).high
}

/** The weight of a set's reserve: 1 if exact, 1/2 at RPE 9 and 9.5, 1/4 at 8 and 8.5, 1/10 at 7
 * and 7.5; null if unknown.
 * Source: This program's own rule. */
function weightOf(set: LiftedSet): number | null {
  const reserve = reserveOf(set)
  if (reserve === null || reserve.atLeast) return null
  if (reserve.exact) return 1
  if (reserve.reserve <= 1) return 1 / 2
  return reserve.reserve <= 2 ? 1 / 4 : 1 / 10
}

interface Counted {
  set: LiftedSet
  index: number
  estimate: Estimate
  /** 1 for a set that counts alone. */
  weight: number
}

/** The sets with an estimate, without those that show fatigue or a slip. */
function estimated(sets: readonly LiftedSet[], estimateOf: (set: LiftedSet) => Estimate | null): Counted[] {
  return sets.flatMap((set, index) => {
    const estimate = isFatigueOrSlip(set, sets) ? null : estimateOf(set)
    return estimate === null ? [] : [{ set, index, estimate, weight: weightOf(set) ?? 1 }]
  })
}

/** Estimates the one-repetition maximum from the sets of one exercise in one session, in kilograms (with a
 * bodyweight exercise the added load).
 *
 * The heaviest measured single counts alone. Otherwise the straight sets with a known reserve, or without any the
 * cluster sets: the weighted mean of their estimates, low ends and high ends in logarithms. A failed straight set caps
 * all three at the highest of the seven at its repetitions + 1, or at its load if it had none. Below the cap, the figure
 * and the high end are at least the lowest of the seven for the repetitions of any set. Without a known reserve, or
 * where every such set is outdone, the largest estimate at r = 0, "at least". Null if no set gives an estimate.
 * @returns `index`: of the set with the greatest weight, the earliest of several, to which `n` and `cluster` belong;
 * `measured`: the load was lifted once with nothing in reserve
 * Source: This program's own rule; LeSuer 1997. */
export function sessionMaximum(sets: readonly LiftedSet[]) {
  const largest = (ofSets: readonly Counted[]) => greatest(ofSets, ({ estimate }) => estimate.kg)
  const single = largest(estimated(sets, (set) => (isExactSingle(set) ? estimateSet(set) : null)))
  if (single) return { ...combined([single]), measured: true }
  const counted = countedSets(sets)
  if (counted.length > 0) return combined(counted, sets)
  // Without an effort of at least 7, the maximum is at least what was lifted.
  const plain = (set: LiftedSet) => ({ ...set, rpe: null, failed: false, openEnded: false })
  const least = largest(estimated(sets, (set) => estimateSet(plain(set))))
  return least === undefined ? null : combined([least], sets)
}

/** Whether a set of no less load was good for over one repetition more than this one, and for more than the equations
 * reach to: this one was a tired set.
 * @param n repetitions to failure of this one
 * Source: This program's own rule. */
function isOutdone(set: LiftedSet, n: number, sets: readonly LiftedSet[]): boolean {
  const repsToFailure = (other: LiftedSet) => repsOf(other) + (reserveOf(other)?.reserve ?? 0)
  const most = Math.max(mostRepetitions, n + 1)
  return sets.some((other) => !isCluster(other) && other.kg > set.kg - noise && repsToFailure(other) > most)
}

/** The sets that count: straight ones with a known reserve, or if there are none, clusters; none that is outdone.
 * Source: This program's own rule. */
function countedSets(sets: readonly LiftedSet[]): Counted[] {
  const known = estimated(sets, (set) => (weightOf(set) === null ? null : estimateSet(set))).filter(
    ({ set, estimate }) => !isOutdone(set, estimate.n, sets),
  )
  const straight = known.filter(({ set }) => !isCluster(set))
  return straight.length > 0 ? straight : known
}

/** The upper limit that failed straight sets set, unless they were tired ones, body included; infinite without any.
 * Source: This program's own rule. */
function capOf(sets: readonly LiftedSet[]): number {
  const fresh = sets.filter((set) => !isFatigueOrSlip(set, sets) && !isOutdone(set, repsOf(set), sets))
  const caps = fresh.flatMap((set) => limitOf(set) ?? [])
  return Math.min(Number.POSITIVE_INFINITY, ...caps)
}

/** The weighted mean of what is moved, body included, in logarithms; never above the cap; the figure and the high
 * end never below what was lifted proves. @param sets of the session, which limit it */
function combined(counted: readonly Counted[], sets: readonly LiftedSet[] = []) {
  const [leastKg, capKg] = [Math.max(0, ...sets.map(provenBy)), capOf(sets)]
  const total = sum(counted, ({ weight }) => weight)
  const from = greatest(counted, ({ weight }) => weight)!
  const capped = (of: (estimate: Estimate) => number, atLeastKg = 0) => {
    const moved = ({ estimate, set }: Counted) => of(estimate) + bodyOf(set)
    const logarithms = sum(counted, (each) => each.weight * Math.log(moved(each)))
    const mean = counted.length === 1 ? moved(from) : Math.exp(logarithms / total)
    return Math.min(Math.max(mean, atLeastKg), capKg) - bodyOf(from.set)
  }
  const isOpen = counted.some(({ estimate }) => estimate.highKg === null)
  return {
    ...from.estimate,
    kg: capped(({ kg }) => kg, leastKg),
    lowKg: capped(({ lowKg }) => lowKg),
    highKg: isOpen ? null : capped(({ highKg }) => highKg!, leastKg),
    index: from.index,
    cluster: isCluster(from.set),
    measured: false,
  }
}

const kilograms = (kg: number | null) => (kg === null ? 'open' : num(kg))
const notFailed = { failed: false, openEnded: false, formula: 'median', bodyKg: 0 } as const

export const sessionMaximumFigures = {
  'session-maximum': figure<{ sets: readonly (LiftedSet & { number?: number })[] }>({
    title: 'Estimated maximum of a session',
    aliases: ['session-one-rep-max', 'measured-maximum', 'measured-single'],
    equation: [
      'a single with nothing in reserve, at a load that no set was lifted for more: that load, measured',
      'else exp(sum of weight x ln(figure of the set) / sum of weights), the ends of the range likewise',
      'weight 1 with nothing in reserve, 1/2 at RPE 9 and 9.5, 1/4 at 8 and 8.5, 1/10 at 7 and 7.5',
      'cap: the highest of the seven at the repetitions of a failed set + 1; its load if it had none',
      'never below the lowest of the seven at the repetitions that were lifted, unless that is above the cap; nor is the high end',
      'no effort of 7 or more, or more than 10 repetitions possible: the largest figure at r = 0, "at least"',
    ],
    symbols: [['figure of the set', 'see one-rep-max', 'kg']],
    sources: ["This program's own rule", 'LeSuer 1997'],
    holds:
      "as the equations' spread and one repetition either way. Cluster sets count where no straight set does.",
    holdsNot:
      'as a 95 % interval. A failed single at a load that was lifted for more repetitions is fatigue, and so is a set that allows less than another of no less load proves; a failed set that a later one beats, with more repetitions at no less load, was a slip: none of them counts. A set is a tired one, good for no more than "at least", where another of no less load was good for more than 10 repetitions and over one more. Drop sets, complexes and sets against the clock give no estimate.',
    example: {
      sets: [
        { kg: 105, groups: [5], rpe: 7, ...notFailed },
        { kg: 115, groups: [3], rpe: null, ...notFailed, failed: true },
      ],
    },
    work: ({ sets }) => {
      const maximum = sessionMaximum(sets)!
      const number = (index: number) => sets[index]?.number ?? index + 1
      if (maximum.measured) {
        return [`set ${number(maximum.index)}: ${num(maximum.kg)} kg lifted once: measured`]
      }
      const cap = capOf(sets)
      const counted = countedSets(sets)
      const lines = counted.map(
        ({ index, weight, estimate }) =>
          `set ${number(index)}: ${kilograms(estimate.kg)} (${kilograms(estimate.lowKg)} to ${kilograms(estimate.highKg)}), weight ${num(weight)}`,
      )
      const capLine = Number.isFinite(cap) ? [`cap after a failed repetition: ${num(cap, 3)}`] : []
      const method = counted.length === 0 ? 'at least, the largest at r = 0' : 'mean in logarithms'
      return [
        ...lines,
        ...capLine,
        `${method} = ${kilograms(maximum.kg)} kg (${kilograms(maximum.lowKg)} to ${kilograms(maximum.highKg)})`,
      ]
    },
  }),
}
