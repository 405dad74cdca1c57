import { figure, num } from './figure.ts'
import { between, finite, notNegative, positive, wholeFrom } from './given.ts'

export const equationNames = [
  'epley',
  'brzycki',
  'lander',
  'lombardi',
  'mayhew',
  'oconner',
  'wathan',
] as const
export type EquationName = (typeof equationNames)[number]

const equation =
  (factor: (n: number) => number) =>
  (load: number, n: number): number =>
    positive(load, 'the load') * positive(factor(between(n, 1, 36, 'the repetitions')), 'the factor')

/** The seven equations: the one-repetition maximum from a load and n repetitions to failure, in the unit
 * of the load. n from 1 to 36 (brzycki has no value at 37), whole or not; good for at most 10.
 * @throws RangeError for a load that is not above 0 or an n outside 1 to 36
 * Source: Epley 1985; Brzycki 1993; Lander 1985; Lombardi 1989; Mayhew 1992; O'Conner 1989; Wathen 1994. */
export const equations: Record<EquationName, (load: number, n: number) => number> = {
  epley: equation((n) => 1 + n / 30),
  brzycki: equation((n) => 36 / (37 - n)),
  lander: equation((n) => 100 / (101.3 - 2.67123 * n)),
  lombardi: equation((n) => n ** 0.1),
  mayhew: equation((n) => 100 / (52.2 + 41.9 * Math.exp(-0.055 * n))),
  oconner: equation((n) => 1 + 0.025 * n),
  wathan: equation((n) => 100 / (48.8 + 53.8 * Math.exp(-0.075 * n))),
}

/** The lowest and the highest of the seven equations, each at its own n; `high` null without an upper n.
 * Source: LeSuer 1997. */
export function spreadOf(
  load: number,
  nLow: number,
  nHigh: number | null,
): { low: number; high: number | null } {
  const at = (n: number) => equationNames.map((name) => equations[name](load, n))
  return { low: Math.min(...at(nLow)), high: nHigh === null ? null : Math.max(...at(nHigh)) }
}

/** More repetitions than this and no equation is used (Reynolds 2006). */
export const mostRepetitions = 10
/** Beyond this the upper end of a range is left open. This program's own rule. */
const mostRepetitionsOfUpperEnd = 12
/** Below this RPE no estimate is made: far from failure lifters misjudge what is in reserve by more
 * (Halperin 2022). The limit itself is common practice. */
export const lowestEffort = 7
const effortOfNothingInReserve = 9.5

/** How much was left: RPE = 10 - repetitions in reserve.
 * `reserve` is 0 for RPE 9.5 and 10, for a failed repetition, for a set of as many as go without an effort,
 * and for any other set without one, which then makes `atLeast` true. Null below RPE 7: no estimate.
 * @throws RangeError for an RPE outside 1 to 10
 * Source: Zourdos 2016; Halperin 2022; Common practice. */
export function reserveOf(set: {
  rpe: number | null
  failed: boolean
  openEnded: boolean
}): { reserve: number; atLeast: boolean; judged: boolean } | null {
  const rpe = set.rpe === null ? null : between(set.rpe, 1, 10, 'an RPE')
  if (set.failed) return { reserve: 0, atLeast: false, judged: false }
  if (rpe === null) return { reserve: 0, atLeast: !set.openEnded, judged: false }
  if (rpe < lowestEffort) return null
  if (rpe >= effortOfNothingInReserve) return { reserve: 0, atLeast: false, judged: false }
  return { reserve: 10 - rpe, atLeast: false, judged: true }
}

export interface Estimate {
  /** The figure, and the ends of its range; `highKg` null where it is open. Kilograms; with a bodyweight
   * exercise the added load. */
  kg: number
  lowKg: number
  highKg: number | null
  /** No effort was recorded: the maximum is this or more. */
  atLeast: boolean
  /** Null: the load was lifted once, a lift and not an estimate. */
  formula: EquationName | null
}

interface KnownEffort {
  /** The load in kilograms: what hangs on the bar, both of a pair; with `bodyKg` what was added to the
   * body, negative for assistance. */
  kg: number
  rpe: number | null
  /** The next repetition was tried and failed. */
  failed: boolean
  /** As many as go, or so many and more: nothing is in reserve unless an effort says so. */
  openEnded: boolean
  equation: EquationName
  /** Only for a bodyweight exercise: body mass in kilograms, null where it is not known. */
  bodyKg?: number | null
}

export interface StraightSet extends KnownEffort {
  reps: number
}

export interface ClusterSet extends KnownEffort {
  /** Repetitions of each group, in order; zeros at the end are groups not done. */
  groups: readonly number[]
}

/** The estimate from repetitions done without a pause: the chosen equation at repetitions + reserve.
 * Its range: the lowest of the seven at one repetition less (never below those done) to the highest at one
 * more, where an effort of 7 to 9 was typed; else both at the same n. Null below RPE 7, above 10
 * repetitions, for none, and where the body mass is not known.
 * @throws RangeError for a load that is no number, or repetitions that are not whole
 * Source: Zourdos 2016; Reynolds 2006; LeSuer 1997; Halperin 2022; Common practice. */
export function estimateStraightSet(set: StraightSet): Estimate | null {
  const reps = wholeFrom(set.reps, 0, 'the repetitions')
  const effort = reserveOf(set)
  if (effort === null || reps === 0) return null
  const n = reps + effort.reserve
  const wide = effort.judged ? 1 : 0
  return estimateAt(set, { n, low: Math.max(reps, n - wide), high: n + wide }, effort.atLeast)
}

/** The estimate from a cluster set: a range from "only the longest unbroken group counted" to "as if there
 * had been no pause". n low = the larger of the largest group and the last group + reserve; n high = all
 * repetitions + reserve. The figure is the chosen equation at n low, the range the lowest of the seven at
 * n low to the highest at n high; open above 12. Null as for a straight set.
 * @throws RangeError for a load that is no number, or groups that are not whole
 * Source: Iglesias-Soler 2014; Zourdos 2016; Common practice; This program's own rule. */
export function estimateClusterSet(set: ClusterSet): Estimate | null {
  const done = set.groups.map((reps) => wholeFrom(reps, 0, 'the repetitions of a group'))
  while (done.at(-1) === 0) done.pop()
  const effort = reserveOf(set)
  const last = done.at(-1)
  if (effort === null || last === undefined) return null
  const n = Math.max(...done, last + effort.reserve)
  const high = done.reduce((sum, reps) => sum + reps, effort.reserve)
  return estimateAt(set, { n, low: n, high }, effort.atLeast)
}

function estimateAt(
  set: KnownEffort,
  at: { n: number; low: number; high: number },
  atLeast: boolean,
): Estimate | null {
  const bodyKg = set.bodyKg === undefined ? 0 : set.bodyKg
  if (bodyKg === null || at.n > mostRepetitions) return null
  const moved = finite(set.kg, 'the load') + notNegative(bodyKg, 'the body mass')
  if (moved <= 0) return null
  const lift = at.n === 1
  const single = lift && at.high === 1
  const upper = at.high > mostRepetitionsOfUpperEnd ? null : at.high
  const { low, high } = spreadOf(moved, at.low, upper)
  return {
    kg: lift ? set.kg : equations[set.equation](moved, at.n) - bodyKg,
    lowKg: lift ? set.kg : low - bodyKg,
    highKg: single ? set.kg : high === null ? null : high - bodyKg,
    atLeast,
    formula: lift ? null : set.equation,
  }
}

/** The best of several estimates: the largest figure, the earliest on a tie, and its index. Null without any.
 * Source: This program's own rule. */
export function bestEstimate<E extends { kg: number }>(
  estimates: readonly (E | null)[],
): { estimate: E; index: number } | null {
  let best: { estimate: E; index: number } | null = null
  for (const [index, estimate] of estimates.entries()) {
    if (estimate !== null && (best === null || estimate.kg > best.estimate.kg)) best = { estimate, index }
  }
  return best
}

export const equationLines = [
  'epley     w (1 + n / 30)',
  'brzycki   36 w / (37 - n)',
  'lander    100 w / (101.3 - 2.67123 n)',
  'lombardi  w n^0.10',
  'mayhew    100 w / (52.2 + 41.9 e^(-0.055 n))',
  'oconner   w (1 + 0.025 n)',
  'wathan    100 w / (48.8 + 53.8 e^(-0.075 n))',
]

export const equationSources = [
  'Epley 1985',
  'Brzycki 1993',
  'Lander 1985',
  'Lombardi 1989',
  'Mayhew 1992',
  "O'Conner 1989",
  'Wathen 1994',
] as const

export type Effort = Parameters<typeof reserveOf>[0]

/** How the repetitions in reserve follow from what is known of a set, in one line. */
export function reserveLine(effort: Effort): string {
  const reserve = reserveOf(effort)
  if (reserve === null) return `RPE ${num(effort.rpe ?? 0)} is below 7: no estimate`
  const r = `r = ${num(reserve.reserve)}`
  if (effort.failed) return `${r}: a repetition failed, nothing was in reserve`
  if (effort.rpe === null) {
    return effort.openEnded
      ? `${r}: as many as went`
      : `${r}: no effort was recorded, so the figure is "at least"`
  }
  return effort.rpe >= 9.5
    ? `${r}: RPE ${num(effort.rpe)}`
    : `r = 10 - RPE ${num(effort.rpe)} = ${num(reserve.reserve)}`
}

function loadLine(set: { kg: number; bodyKg?: number | null }): string[] {
  if (set.bodyKg === undefined) return [`w = ${num(set.kg)} kg`]
  if (set.bodyKg === null) return ['the body mass is not known: no figure']
  return [`w = body ${num(set.bodyKg)} kg + added ${num(set.kg)} kg = ${num(set.bodyKg + set.kg)} kg`]
}

/** The same equation with the numbers in the place of its letters. */
function putIn(name: EquationName, w: number, n: number): string {
  const line = equationLines[equationNames.indexOf(name)] ?? ''
  return line
    .slice(10)
    .replace(/\bw\b/, num(w))
    .replace(/\bn\b/, num(n))
    .replace(/(\d) (\d|\()/g, '$1 x $2')
}

/** An estimate step by step, for `explain`.
 * @param n the lines that say how n comes about
 * @param atN the n of the figure
 * Source: the same as the equations'. */
export function estimateLines(
  set: StraightSet | ClusterSet,
  n: string[],
  estimate: Estimate | null,
  atN: number,
): string[] {
  const head = [...loadLine(set), reserveLine(set), ...n]
  if (estimate === null) return [...head, 'no estimate']
  const body = set.bodyKg ?? 0
  const w = set.kg + body
  const off = body > 0 ? ` - body ${num(body)}` : ''
  const value = `${num(estimate.kg)} kg`
  const figureLine =
    estimate.formula === null
      ? `n = 1: the load itself, ${value}: a lift and no estimate`
      : `${estimate.formula}: ${putIn(estimate.formula, w, atN)}${off} = ${value}`
  const high = estimate.highKg === null ? 'no upper end (above 12 repetitions)' : `${num(estimate.highKg)} kg`
  const all = equationNames.map((name) => `${name} ${num(equations[name](w, atN) - body, 1)}`)
  return [
    ...head,
    figureLine,
    `all seven at n = ${num(atN)}: ${all.slice(0, 3).join(', ')},`,
    `  ${all.slice(3).join(', ')}`,
    `range ${num(estimate.lowKg)} kg to ${high}${estimate.atLeast ? '; at least, since no effort was recorded' : ''}`,
  ]
}

/** Source: see the entries. */
export const strengthFigures = {
  'one-rep-max': figure<StraightSet>({
    name: 'one-rep-max',
    title: 'Estimated one-repetition maximum, straight set',
    aliases: ['1rm', 'e1rm', 'one-repetition-maximum', 'estimate', 'maximum', ...equationNames],
    equation: [
      'n = repetitions + r,  r = 10 - RPE',
      ...equationLines,
      'range: the lowest of the seven at max(repetitions, n - 1) to the highest at n + 1',
      'after RPE 7 to 9; both ends at n where nothing was in reserve',
    ],
    symbols: [
      {
        symbol: 'w',
        meaning: 'load; with a bodyweight exercise body + added, and the body is taken off again',
        unit: 'kg',
      },
      { symbol: 'n', meaning: 'repetitions that would have gone until failure', unit: '-' },
      {
        symbol: 'r',
        meaning: 'repetitions in reserve; 0 for RPE 9.5 and 10, a failed one, or as many as go',
        unit: '-',
      },
    ],
    sources: [
      ...equationSources,
      'Zourdos 2016',
      'LeSuer 1997',
      'Reynolds 2006',
      'Halperin 2022',
      'Common practice',
    ],
    holds: 'up to 10 repetitions, in sets near failure (RPE 7 and more), done without a pause.',
    holdsNot:
      'for more repetitions, for sets far from failure, for a cluster set, for timed or carried sets. The seven disagree: the spread is shown. They read low for deadlifts (LeSuer 1997; from memory). After a run it is not a fresh one, and is marked. It is not an attempt to make.',
    example: { kg: 100, reps: 5, rpe: 8, failed: false, openEnded: false, equation: 'wathan' },
    work: (set) => {
      const reserve = reserveOf(set)?.reserve ?? 0
      const n = set.reps + reserve
      return estimateLines(
        set,
        [`n = ${num(set.reps)} + ${num(reserve)} = ${num(n)}`],
        estimateStraightSet(set),
        n,
      )
    },
  }),
  'cluster-one-rep-max': figure<ClusterSet>({
    name: 'cluster-one-rep-max',
    title: 'Estimated one-repetition maximum, cluster set',
    aliases: ['cluster', 'cluster-1rm', 'cluster-estimate'],
    equation: [
      'n low = max(largest group, last group + r)',
      'n high = all repetitions + r',
      'figure: the chosen equation at n low (see one-rep-max)',
      'range: the lowest of the seven at n low to the highest at n high; open above 12',
    ],
    symbols: [
      { symbol: 'n low', meaning: 'as if only the longest unbroken group counted', unit: '-' },
      { symbol: 'n high', meaning: 'as if there had been no pause', unit: '-' },
      { symbol: 'r', meaning: 'repetitions in reserve after the last group', unit: '-' },
    ],
    sources: ['Iglesias-Soler 2014', 'Zourdos 2016', ...equationSources, "This program's own rule"],
    holds: 'as a range: the truth lies between no pause and the longest group alone.',
    holdsNot:
      'as one number beside straight sets: the equations were fitted on unbroken sets. The total of a cluster set is never put into them (nine judokas with a load they could lift four times did 45.5 +- 32 repetitions with about 45 s between them).',
    example: { kg: 92.5, groups: [1, 1, 1], rpe: 8, failed: false, openEnded: false, equation: 'wathan' },
    work: (set) => {
      const reserve = reserveOf(set)?.reserve ?? 0
      const done = set.groups.slice(0, set.groups.findLastIndex((reps) => reps > 0) + 1)
      const [largest, last] = [Math.max(0, ...done), done.at(-1) ?? 0]
      const total = done.reduce((sum, reps) => sum + reps, 0)
      const low = Math.max(largest, last + reserve)
      const lines = [
        `n low = max(${largest}, ${last} + ${num(reserve)}) = ${num(low)}`,
        `n high = ${total} + ${num(reserve)} = ${num(total + reserve)}`,
      ]
      return estimateLines(set, lines, estimateClusterSet(set), low)
    },
  }),
  'repetitions-in-reserve': figure<Effort>({
    name: 'repetitions-in-reserve',
    title: 'Repetitions in reserve, and RPE',
    aliases: ['rpe', 'rir', 'reserve'],
    equation: ['r = 10 - RPE'],
    symbols: [
      { symbol: 'r', meaning: 'repetitions that would still have gone', unit: '-' },
      {
        symbol: 'RPE',
        meaning: 'effort of a set, 1 to 10 in halves: 10 nothing left, 9 one, 8 two, 7 three',
        unit: '-',
      },
    ],
    sources: ['Zourdos 2016', 'Hackett 2017', 'Halperin 2022', 'Common practice'],
    holds: 'near failure: with up to five in reserve lifters are off by about one repetition (Hackett 2017).',
    holdsNot:
      'far from failure, where lifters are off by more (Halperin 2022): below RPE 7 no estimate is made, a limit of common practice. It is another scale than the effort of a part.',
    example: { rpe: 8.5, failed: false, openEnded: false },
    work: (effort) => [reserveLine(effort)],
  }),
}
