import { formatClock } from '../../units/duration.ts'
import {
  equalPerformanceSeconds,
  equivalentMaximum,
  oxygenDemand,
  riegelSeconds,
  sustainableShare,
} from '../race.ts'
import { trainingPaces } from '../trainingPaces.ts'
import { figure, num } from './figure.ts'

interface Race {
  meters: number
  seconds: number
}

const perKm = (seconds: number, decimals: 0 | 1 = 1) => `${formatClock(seconds, decimals)}/km`
const raceText = ({ meters, seconds }: Race) => `${num(meters, 1)} m in ${formatClock(seconds)}`
const notFromTraining =
  'for anything but a race or a time trial: no time is predicted from training. Nor for times outside its range.'

const oxygenSymbols = [
  { symbol: 'v', meaning: 'speed of the race', unit: 'm/min' },
  { symbol: 't', meaning: 'time of the race', unit: 'min' },
]
const demand = 'VO2(v) = -4.60 + 0.182258 v + 0.000104 v^2'
const share = 'F(t) = 0.8 + 0.1894393 e^(-0.012778 t) + 0.2989558 e^(-0.1932605 t)'

/** Source: see the entries. */
export const raceFigures = {
  'equivalent-vo2max': figure<Race>({
    name: 'equivalent-vo2max',
    title: 'Equivalent VO2max of a race',
    aliases: ['vo2max', 'daniels-gilbert', 'equivalent'],
    equation: [demand, share, 'equivalent VO2max = VO2(v) / F(t)'],
    symbols: [...oxygenSymbols, { symbol: 'VO2', meaning: 'oxygen demand of the speed', unit: 'ml/kg/min' }],
    sources: ['Daniels and Gilbert 1979'],
    holds: 'from about 3.5 minutes to 4 hours.',
    holdsNot: notFromTraining,
    example: { meters: 10_000, seconds: 2400 },
    work: ({ meters, seconds }) => [
      `v = ${num((meters / seconds) * 60, 3)} m/min, t = ${num(seconds / 60, 3)} min`,
      `VO2 = ${num(oxygenDemand(meters / seconds), 4)}, F = ${num(sustainableShare(seconds), 6)}`,
      `${num(oxygenDemand(meters / seconds), 4)} / ${num(sustainableShare(seconds), 6)} = ${num(equivalentMaximum(meters, seconds), 4)} ml/kg/min`,
    ],
  }),
  'equal-performance': figure<Race & { otherMeters: number }>({
    name: 'equal-performance',
    title: 'Equal performance at another distance (Daniels & Gilbert)',
    aliases: ['equal-performances', 'equivalent-performance'],
    equation: [demand, share, 'the t whose VO2(distance / t) / F(t) is that of the race'],
    symbols: oxygenSymbols,
    sources: ['Daniels and Gilbert 1979'],
    holds: 'from about 3.5 minutes to 4 hours, for someone trained for the other distance as well.',
    holdsNot: notFromTraining,
    example: { meters: 10_000, seconds: 2400, otherMeters: 21_097.5 },
    work: ({ meters, seconds, otherMeters }) => {
      const value = equivalentMaximum(meters, seconds)
      const other = equalPerformanceSeconds(otherMeters, value)
      return [
        `${raceText({ meters, seconds })}: equivalent VO2max ${num(value, 4)}`,
        `${num(otherMeters, 1)} m in ${formatClock(other, 1)}: VO2 ${num(oxygenDemand(otherMeters / other), 4)} / F ${num(sustainableShare(other), 6)} = ${num(equivalentMaximum(otherMeters, other), 4)}`,
      ]
    },
  }),
  riegel: figure<Race & { otherMeters: number }>({
    name: 'riegel',
    title: 'Equal performance at another distance (Riegel)',
    aliases: ['riegel-1981'],
    equation: ['T2 = T1 (D2 / D1)^1.06'],
    symbols: [
      { symbol: 'T', meaning: 'time', unit: 's' },
      { symbol: 'D', meaning: 'distance', unit: 'm' },
    ],
    sources: ['Riegel 1977', 'Riegel 1981', 'Vickers 2016'],
    holds: 'from 3.5 to 230 minutes.',
    holdsNot: `${notFromTraining} Half of all marathon runners are ten minutes slower or more (Vickers 2016).`,
    example: { meters: 10_000, seconds: 2400, otherMeters: 21_097.5 },
    work: ({ meters, seconds, otherMeters }) => {
      const other = riegelSeconds(meters, seconds, otherMeters)
      return [
        `${num(seconds)} s x (${num(otherMeters, 1)} / ${num(meters, 1)})^1.06 = ${num(other)} s = ${formatClock(other)}`,
      ]
    },
  }),
  'training-paces': figure<Race>({
    name: 'training-paces',
    title: 'Training paces',
    aliases: ['training-pace', 'paces'],
    equation: [
      demand,
      'v = (-0.182258 + square root of (0.182258^2 + 4 x 0.000104 (4.60 + share x value))) /',
      '    (2 x 0.000104)',
      "shares: 59-74 % easy running, 75-84 % marathon effort, 83-88 % about an hour's",
      "effort, 95-100 % about ten minutes' effort",
    ],
    symbols: [
      { symbol: 'value', meaning: 'equivalent VO2max of the race', unit: 'ml/kg/min' },
      { symbol: 'v', meaning: 'speed of the training', unit: 'm/min' },
    ],
    sources: ['Daniels and Gilbert 1979', 'Training ranges'],
    holds: 'as ranges, on the level, in weather like that of the race.',
    holdsNot: 'as orders: the shares are from memory, and the day decides.',
    example: { meters: 10_000, seconds: 2400 },
    work: ({ meters, seconds }) => {
      const value = equivalentMaximum(meters, seconds)
      return [
        `${raceText({ meters, seconds })}: equivalent VO2max ${num(value, 4)}`,
        ...trainingPaces(value).map(
          (each) =>
            `${Math.round(each.share.from * 100)}-${Math.round(each.share.to * 100)} %, ${each.label}: ${formatClock(each.secondsPerKm.from)}-${perKm(each.secondsPerKm.to, 0)}`,
        ),
      ]
    },
  }),
}
