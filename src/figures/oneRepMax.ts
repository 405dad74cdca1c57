import { sum } from 'd3-array'
import { explanation, figure, num, type SourceName } from './figure.ts'
import { median } from './statistics.ts'

/** The seven equations, each with its text, its source and the factor it puts on the load at n repetitions. */
const written = {
  epley: ['w (1 + n / 30)', 'Epley 1985', (n) => 1 + n / 30],
  brzycki: ['36 w / (37 - n)', 'Brzycki 1993', (n) => 36 / (37 - n)],
  lander: ['100 w / (101.3 - 2.67123 n)', 'Lander 1985', (n) => 100 / (101.3 - 2.67123 * n)],
  lombardi: ['w n^0.10', 'Lombardi 1989', (n) => n ** 0.1],
  mayhew: [
    '100 w / (52.2 + 41.9 e^(-0.055 n))',
    'Mayhew 1992',
    (n) => 100 / (52.2 + 41.9 * Math.exp(-0.055 * n)),
  ],
  oconner: ['w (1 + 0.025 n)', "O'Conner 1989", (n) => 1 + 0.025 * n],
  wathan: [
    '100 w / (48.8 + 53.8 e^(-0.075 n))',
    'Wathen 1994',
    (n) => 100 / (48.8 + 53.8 * Math.exp(-0.075 * n)),
  ],
} as const satisfies Record<string, readonly [written: string, SourceName, factor: (n: number) => number]>

export type EquationName = keyof typeof written
export const equationNames = Object.keys(written) as EquationName[]

/** The one-repetition maximum by one of the seven equations, from a load and n repetitions to failure, in the unit
 * of the load. n from 1 to 36 (brzycki has no value at 37), whole or not; reliable up to 10.
 * Source: Epley 1985; Brzycki 1993; Lander 1985; Lombardi 1989; Mayhew 1992; O'Conner 1989; Wathen 1994. */
export function equation(name: EquationName, load: number, n: number): number {
  const [, , factor] = written[name]
  return load * factor(n)
}

function allSeven(load: number, n: number): number[] {
  return equationNames.map((name) => equation(name, load, n))
}

/** How a maximum can be computed: by the median of the seven equations, or by one of them. */
export const formulaNames = ['median', ...equationNames] as const
export type Formula = (typeof formulaNames)[number]

/** The one-repetition maximum by the median of the seven equations, or by one of them.
 * Source: LeSuer 1997; This program's own rule. */
export function maximumBy(formula: Formula, load: number, n: number): number {
  return formula === 'median' ? (median(allSeven(load, n)) as number) : equation(formula, load, n)
}

/** The lowest and the highest of the seven equations, each at its own n; `high` null without an upper n.
 * Source: LeSuer 1997. */
export function spreadOf(
  load: number,
  nLow: number,
  nHigh: number | null,
): { low: number; high: number | null } {
  return {
    low: Math.min(...allSeven(load, nLow)),
    high: nHigh === null ? null : Math.max(...allSeven(load, nHigh)),
  }
}

/** Above this many repetitions no equation is used (Reynolds 2006). */
export const mostRepetitions = 10
/** Above this the upper end of a range stays open. This program's own rule. */
const mostRepetitionsOfUpperEnd = 12
/** Below this RPE no estimate is made: far from failure lifters misjudge the reserve more
 * (Zourdos 2021; Halperin 2022). The limit itself is this program's own rule. */
const lowestEffort = 7
/** Above this n only --full shows the estimate. This program's own rule. */
export const mostRepetitionsInANote = 8

/** Repetitions in reserve: r = 10 - RPE. `exact`: nothing was in reserve, as at RPE 10, after a failed repetition,
 * and in an AMRAP set without an effort. Any other set without an effort counts as r = 0, `atLeast`. Null below RPE 7,
 * where no estimate is made.
 * Source: Zourdos 2016; Zourdos 2021; Halperin 2022; This program's own rule. */
export function reserveOf(set: {
  rpe: number | null
  failed: boolean
  openEnded: boolean
}): { reserve: number; exact: boolean; atLeast: boolean } | null {
  const { rpe } = set
  if (set.failed || rpe === 10) return { reserve: 0, exact: true, atLeast: false }
  if (rpe === null) return { reserve: 0, exact: set.openEnded, atLeast: !set.openEnded }
  return rpe < lowestEffort ? null : { reserve: 10 - rpe, exact: false, atLeast: false }
}

export interface Estimate {
  /** The estimate, and the ends of its range; `highKg` null if open. Kilograms; for a bodyweight
   * exercise the added load. */
  kg: number
  lowKg: number
  highKg: number | null
  /** No effort was recorded, so the maximum may be higher. */
  atLeast: boolean
  /** Null for a load that was lifted once with nothing in reserve: that is a result, not an estimate. */
  formula: Formula | null
  /** Repetitions to failure, as used in the equations. */
  n: number
}

/** A set as the equations use it. */
export interface LiftedSet {
  /** The load in kilograms: the load on the bar, both of a pair; for a bodyweight exercise the load added to the
   * body, negative for assistance. */
  kg: number
  /** Repetitions of each group of a cluster set, in order; zeros at the end are groups not done. A straight set is one
   * group. */
  groups: readonly number[]
  rpe: number | null
  /** The next repetition failed. */
  failed: boolean
  /** AMRAP, or a minimum of repetitions: nothing is in reserve unless an effort says so. */
  openEnded: boolean
  formula: Formula
  /** The moved share of the body in kilograms, for a bodyweight exercise; else 0. Null if unknown. */
  bodyKg: number | null
}

function groupsDone({ groups }: LiftedSet): number[] {
  return groups.slice(0, groups.findLastIndex((reps) => reps > 0) + 1)
}

/** The estimate from a set: the formula at n = max(largest group, last group + r), as if only the longest unbroken
 * group counted; a straight set is one group. Its range: the lowest of the seven at max(largest group, n - 1) to the
 * highest at all repetitions + r + 1, as if there had been no pause; n and all repetitions if nothing was in reserve.
 * Open above 12. Null below RPE 7, for n above 10, without a repetition, and if the body mass is unknown.
 * Source: Zourdos 2016; Reynolds 2006; LeSuer 1997; Halperin 2022; Iglesias-Soler 2014; This program's own rule. */
export function estimateSet(set: LiftedSet): Estimate | null {
  const done = groupsDone(set)
  const effort = reserveOf(set)
  const last = done.at(-1)
  const { bodyKg } = set
  if (effort === null || last === undefined || bodyKg === null) return null
  const { reserve, atLeast } = effort
  const wide = effort.exact || atLeast ? 0 : 1
  const largest = Math.max(...done)
  const n = Math.max(largest, last + reserve)
  const nHigh = sum(done) + reserve + wide
  const moved = set.kg + bodyKg
  if (n > mostRepetitions || moved <= 0) return null
  if (nHigh === 1) return { kg: set.kg, lowKg: set.kg, highKg: set.kg, atLeast, formula: null, n }
  const { low, high } = spreadOf(
    moved,
    Math.max(largest, n - wide),
    nHigh > mostRepetitionsOfUpperEnd ? null : nHigh,
  )
  return {
    kg: maximumBy(set.formula, moved, n) - bodyKg,
    lowKg: low - bodyKg,
    highKg: high === null ? null : high - bodyKg,
    atLeast,
    formula: set.formula,
    n,
  }
}

const pushUp = /\bpush[ -]?ups?\b/i
const otherPushUp = /\b(handstand|pike|wall|knee|incline|decline)\b/i

/** Share of the body mass that a bodyweight exercise moves: 0.64 for the push-up on the floor, else 1.
 * @param exercise as written
 * Source: Ebben 2011; This program's own rule. */
export function bodyShare(exercise: string): number {
  return pushUp.test(exercise) && !otherPushUp.test(exercise) ? 0.64 : 1
}

const equationLines = equationNames.map((name) => `${name.padEnd(9)} ${written[name][0]}`)
const equationSources = equationNames.map((name) => written[name][1])

/** How the repetitions in reserve follow from the data of a set, in one line. */
function reserveLine(effort: Parameters<typeof reserveOf>[0]): string {
  const known = reserveOf(effort)
  if (known === null) return `RPE ${num(effort.rpe ?? 0)} is below 7: no estimate`
  const r = `r = ${num(known.reserve)}`
  if (effort.failed) return `${r}: a repetition failed, nothing was in reserve`
  if (effort.rpe === null) {
    return effort.openEnded
      ? `${r}: AMRAP, nothing was in reserve`
      : `${r}: no effort was recorded, so the figure is "at least"`
  }
  return known.exact ? `${r}: RPE 10` : `r = 10 - RPE ${num(effort.rpe)} = ${num(known.reserve)}`
}

function loadLine({ kg, bodyKg }: LiftedSet): string {
  if (bodyKg === 0) return `w = ${num(kg)} kg`
  if (bodyKg === null) return 'the body mass is not known: no figure'
  return `w = body ${num(bodyKg)} kg + added ${num(kg)} kg = ${num(bodyKg + kg)} kg`
}

function repetitionsLine(set: LiftedSet): string {
  const reserve = reserveOf(set)?.reserve ?? 0
  const done = groupsDone(set)
  const [largest, last] = [Math.max(0, ...done), done.at(-1) ?? 0]
  const n = num(Math.max(largest, last + reserve))
  if (set.groups.length === 1) return `n = ${largest} + ${num(reserve)} = ${n}`
  return `n = max(${largest}, ${last} + ${num(reserve)}) = ${n}; all repetitions + r = ${num(sum(done) + reserve)}`
}

/** An estimate step by step, for `explain`.
 * Source: the same as the equations'. */
function estimateLines(set: LiftedSet): string[] {
  const head = [loadLine(set), reserveLine(set), repetitionsLine(set)]
  const estimate = estimateSet(set)
  if (estimate === null) return [...head, 'no estimate']
  const value = `${num(estimate.kg)} kg`
  if (estimate.formula === null) return [...head, `n = 1: the load itself, ${value}: a lift, not an estimate`]
  const body = set.bodyKg ?? 0
  const all = equationNames.map(
    (name) => `${name} ${num(equation(name, set.kg + body, estimate.n) - body, 1)}`,
  )
  const high = estimate.highKg === null ? 'no upper end (above 12 repetitions)' : `${num(estimate.highKg)} kg`
  return [
    ...head,
    `all seven at n = ${num(estimate.n)}: ${all.slice(0, 3).join(', ')},`,
    `  ${all.slice(3).join(', ')}`,
    `${estimate.formula} = ${value}`,
    `range ${num(estimate.lowKg)} kg to ${high}${estimate.atLeast ? '; at least, since no effort was recorded' : ''}`,
  ]
}

const whatEquationsDoNotKnow =
  "Not known to the equations: endurance-trained legs do many more repetitions at a percentage (Richens 2014), lifters underrate their reserve by about one repetition (Halperin 2022), people differ (Nuzzo 2024), and several of the seven began as coaches' charts. They read low for deadlifts (LeSuer 1997; from memory)."

export const strengthFigures = {
  'one-rep-max': figure<LiftedSet>({
    title: 'Estimated one-repetition maximum',
    aliases: [
      ...['1rm', 'e1rm', 'one-repetition-maximum', 'estimate', 'maximum', ...equationNames],
      ...['cluster', 'cluster-one-rep-max', 'cluster-1rm', 'cluster-estimate'],
    ],
    equation: [
      'n = max(largest group, last group + r),  r = 10 - RPE; a straight set is one group',
      'figure: the median of the seven at n (setting formula: one of them)',
      ...equationLines,
      'range: the lowest of the seven at max(largest group, n - 1)',
      'to the highest at all repetitions + r + 1, open above 12; n and all repetitions where r is exact',
    ],
    symbols: [
      ['w', 'load; for a bodyweight exercise body + added, and the body is subtracted again', 'kg'],
      ['n', 'repetitions to failure, as if only the longest unbroken group counted', '-'],
      ['all repetitions', 'as if there had been no pause', '-'],
      [
        'r',
        'repetitions in reserve; exactly 0 at RPE 10, after a failed repetition, and for AMRAP without an RPE',
        '-',
      ],
    ],
    sources: [
      ...equationSources,
      'Zourdos 2016',
      'LeSuer 1997',
      'Reynolds 2006',
      'Halperin 2022',
      'Richens 2014',
      'Nuzzo 2024',
      'Iglesias-Soler 2014',
      'Ebben 2011',
      "This program's own rule",
    ],
    holds:
      "up to 10 repetitions, in sets near failure (RPE 7 and more). The range is the equations' spread and one repetition either way; of a cluster set it reaches from the longest group alone to no pause.",
    holdsNot: `for n above 10, for sets far from failure, for timed or carried sets. The one repetition either way is this program's own rule. The equations were fitted on unbroken sets: the total of a cluster set is never put into them (nine judokas with a load they could lift four times did 45.5 +- 32 repetitions with about 45 s between them). A push-up counts 64 % of the body (Ebben 2011), other bodyweight exercises all of it. ${whatEquationsDoNotKnow} An estimate made after a run is marked, because it is not a fresh one. It is not an attempt to make.`,
    example: {
      kg: 100,
      groups: [5],
      rpe: 8,
      failed: false,
      openEnded: false,
      formula: 'median',
      bodyKg: 0,
    },
    work: estimateLines,
  }),
  'repetitions-in-reserve': explanation({
    title: 'Repetitions in reserve, and RPE',
    aliases: ['rpe', 'rir', 'reserve'],
    equation: ['r = 10 - RPE'],
    symbols: [
      ['r', 'repetitions that would still have been possible', '-'],
      ['RPE', 'effort of a set, 1 to 10 in halves: 10 nothing left, 9 one, 8 two, 7 three', '-'],
    ],
    sources: ['Zourdos 2016', 'Zourdos 2021', 'Hackett 2017', 'Halperin 2022', "This program's own rule"],
    holds: 'near failure: with up to five in reserve lifters are off by about one repetition (Hackett 2017).',
    holdsNot:
      "far from failure, where lifters are off by more (Zourdos 2021, Halperin 2022): below RPE 7 no estimate is made, this program's own rule. At 9.5 there is no repetition left but a little more load would go, so it does not count as exact. The scale is not that of the effort of a part.",
    example: () => [reserveLine({ rpe: 8.5, failed: false, openEnded: false })],
  }),
}
