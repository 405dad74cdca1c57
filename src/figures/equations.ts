import { between, positive } from './given.ts'

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
