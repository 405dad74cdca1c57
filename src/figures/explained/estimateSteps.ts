import { type EquationName, equationNames, equations } from '../equations.ts'
import { type ClusterSet, type Estimate, reserveOf, type StraightSet } from '../oneRepMax.ts'
import { num } from './figure.ts'

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
