import { formatClock } from '../units/duration.ts'
import { figure, num } from './figure.ts'
import type { Bounds } from './fuel.ts'
import { between, positive } from './given.ts'

export interface CardSplit {
  /** Where it ends, from the start. */
  meters: number
  seconds: number
  /** From the start. */
  runningSeconds: number
}

/** The splits of a race at an even pace, or with a second half that is so many per cent faster than the first, each half
 * at its own even pace. The last
 * split is what is left.
 * @param negativePercent from -10 (a slower second half) to 10; 0 is even
 * @returns not rounded
 * @throws RangeError for what is not above 0, and a percentage outside
 * Source: This program's own rule. */
export function cardSplits(
  meters: number,
  seconds: number,
  splitMeters: number,
  negativePercent: number,
): CardSplit[] {
  const [distance, time] = [positive(meters, 'the distance'), positive(seconds, 'the time')]
  const step = positive(splitMeters, 'the split')
  const faster = between(negativePercent, -10, 10, 'the percentage') / 100
  const half = distance / 2
  const first = time / distance / (1 - faster / 2)
  const second = first * (1 - faster)
  const at = (place: number) => (place <= half ? place * first : half * first + (place - half) * second)
  const count = Math.ceil(distance / step - 1e-9)
  return Array.from({ length: count }, (_, index) => {
    const [from, to] = [index * step, Math.min(distance, (index + 1) * step)]
    return { meters: to, seconds: at(to) - at(from), runningSeconds: at(to) }
  })
}

/** Carbohydrate while racing, in grams an hour: null up to an hour, 30 to 60 up to 2.5 hours, beyond it 30 to 90.
 * @throws RangeError for a time that is not above 0
 * Source: Thomas 2016; Jeukendrup 2014. */
export function carbsWhileRacing(seconds: number): Bounds | null {
  const hours = positive(seconds, 'the time') / 3600
  if (hours <= 1) return null
  return { from: 30, to: hours > 2.5 ? 90 : 60 }
}

/** The splits of a race.
 * Source: Thomas 2016; Jeukendrup 2014; This program's own rule. */
export const raceCard = figure<{ meters: number; seconds: number; negativePercent: number }>({
  name: 'race-card',
  title: 'Splits of a race',
  aliases: ['card', 'negative-split-plan', 'carbs-racing'],
  equation: ['p1 = T / D / (1 - n / 2)', 'p2 = p1 x (1 - n)'],
  symbols: [
    { symbol: 'T, D', meaning: 'time and distance of the race', unit: 's, km' },
    { symbol: 'n', meaning: 'by how much the second half is faster, as a share', unit: '' },
    { symbol: 'p1, p2', meaning: 'pace of the first and the second half', unit: 's/km' },
  ],
  sources: ['Thomas 2016', 'Jeukendrup 2014', "This program's own rule"],
  holds:
    "A flat course. The two halves are this program's own rule. Carbohydrate: 30 to 60 g an hour in races of 1 to 2.5 h, up to 90 (of several kinds of sugar) beyond.",
  holdsNot:
    'It is arithmetic with a time that is wished for: it neither forecasts that time nor gives paces for training.',
  example: { meters: 10_000, seconds: 2370, negativePercent: 1 },
  work: ({ meters, seconds, negativePercent }) => {
    const km = meters / 1000
    const share = negativePercent / 100
    const first = seconds / km / (1 - share / 2)
    return [
      `p1 = ${num(seconds)} / ${num(km)} / (1 - ${num(share, 4)} / 2) = ${num(first)} s/km = ${formatClock(first, 1)}/km`,
      `p2 = ${num(first)} x (1 - ${num(share, 4)}) = ${num(first * (1 - share))} s/km = ${formatClock(first * (1 - share), 1)}/km`,
    ]
  },
})
