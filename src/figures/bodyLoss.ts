import { figure, num } from './figure.ts'
import { finite, positive } from './given.ts'

/** Above this share of the body mass a week a loss is called fast.
 * Source: Garthe 2011. */
export const fastLossShare = 0.007

/** Share of the body mass that is lost a week; below 0 for a gain.
 * @param kgPerWeek slope of the body mass, below 0 for a loss
 * @throws RangeError for a mean that is not above 0
 * Source: This program's own rule. */
export function lossShare(kgPerWeek: number, meanKg: number): number {
  return -finite(kgPerWeek, 'the slope') / positive(meanKg, 'the body mass')
}

/** How fast body mass is lost.
 * Source: Least squares; Garthe 2011; This program's own rule. */
export const bodyLoss = figure<{ kgPerWeek: number; meanKg: number }>({
  name: 'body-loss',
  title: 'Loss of body mass a week',
  aliases: ['body', 'body-mass', 'morning', 'weight-loss'],
  equation: ['loss = -b / m x 100'],
  symbols: [
    { symbol: 'b', meaning: 'slope of the body mass over 28 days, by least squares', unit: 'kg/week' },
    { symbol: 'm', meaning: 'mean body mass of 28 days', unit: 'kg' },
    { symbol: 'loss', meaning: 'share of the body mass that is lost a week', unit: '%' },
  ],
  sources: ['Least squares', 'Garthe 2011', "This program's own rule"],
  holds:
    'From four mornings on. More than 0.7 % a week is said where the 95 % interval (t distribution) has no gain in it: at 0.7 % athletes who lifted gained lean mass, at 1.4 % they did not.',
  holdsNot:
    "It says nothing about whether to lose anything: a dietitian's word goes before it. The windows (7 and 28 days) and what a morning takes for a slip (heart rates outside 25 to 130, body masses outside 25 to 300 kg, more than 18 h of sleep) are this program's own rules.",
  example: { kgPerWeek: -0.55, meanKg: 68 },
  work: ({ kgPerWeek, meanKg }) => [
    `loss = ${num(-kgPerWeek)} / ${num(meanKg)} x 100 = ${num(lossShare(kgPerWeek, meanKg) * 100)} % a week`,
  ],
})
