import { positive } from './given.ts'

/** Speed at a share of an equivalent VO2max, in m/s: the demand equation solved for the speed.
 * @throws RangeError for a value or a share that is not above 0
 * Source: Daniels and Gilbert 1979. */
export function speedAtShare(equivalent: number, share: number): number {
  const demand = positive(equivalent, 'the equivalent VO2max') * positive(share, 'the share')
  const [a, b, c] = [0.000104, 0.182258, -4.6 - demand]
  return (Math.sqrt(b * b - 4 * a * c) - b) / (2 * a) / 60
}

/** Shares of the equivalent VO2max, from and to, and what running there is in plain words.
 * Source: Training ranges. */
export const trainingRanges = [
  { label: 'easy running', from: 0.59, to: 0.74 },
  { label: 'marathon effort', from: 0.75, to: 0.84 },
  { label: "about an hour's effort", from: 0.83, to: 0.88 },
  { label: "about ten minutes' effort", from: 0.95, to: 1 },
] as const

export interface TrainingPace {
  label: string
  share: { from: number; to: number }
  /** From the faster to the slower, in seconds per kilometre. */
  secondsPerKm: { from: number; to: number }
}

/** Training paces of an equivalent VO2max: the speeds at its usual shares, as paces.
 * @throws RangeError for a value that is not above 0
 * Source: Daniels and Gilbert 1979; Training ranges. */
export function trainingPaces(equivalent: number): TrainingPace[] {
  const pace = (share: number) => 1000 / speedAtShare(equivalent, share)
  return trainingRanges.map(({ label, from, to }) => ({
    label,
    share: { from, to },
    secondsPerKm: { from: pace(to), to: pace(from) },
  }))
}
