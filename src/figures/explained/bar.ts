import { type Equipment, type LoadedBar, loadBar, usualPlates } from '../bar.ts'
import { ramp } from '../ramp.ts'
import { figure, num } from './figure.ts'

const garage: Equipment = { bar: 20, collar: 0, plates: usualPlates.kg }

function madeLine(what: string, { load, side }: LoadedBar, { bar, collar }: Equipment): string {
  const collars = collar > 0 ? ` + 2 x ${num(collar, 3)}` : ''
  const plates = side.length === 0 ? '' : ` + 2 x (${side.map((mass) => num(mass, 3)).join(' + ')})`
  return `${what}${num(bar, 3)}${collars}${plates} = ${num(load, 3)}`
}

/** Source: see the entries. */
export const barFigures = {
  plates: figure<{ load: number; equipment: Equipment }>({
    name: 'plates',
    title: 'Plates on the bar',
    aliases: ['bar', 'plate', 'loading'],
    equation: ['load = bar + 2 x collar + 2 x sum of the plates of a side'],
    symbols: [
      {
        symbol: 'plates',
        meaning: 'the fewest that make it exactly, of those that are there; else the nearest loads',
        unit: 'kg or lb',
      },
    ],
    sources: ['IWF rules', 'Common practice'],
    holds: 'for the bar, collars and plates in the settings, in the unit in which they are loaded.',
    holdsNot:
      'for plates that are not what is written on them; 45 lb is 20.412 kg, not 20. Largest first is not it.',
    example: { load: 92.5, equipment: garage },
    work: ({ load, equipment }) => {
      const { exact, below, above } = loadBar(load, equipment)
      if (exact !== null) return [madeLine('', exact, equipment)]
      return [
        `nothing makes ${num(load, 3)}`,
        ...(below === null ? [] : [madeLine('below: ', below, equipment)]),
        ...(above === null ? [] : [madeLine('above: ', above, equipment)]),
      ]
    },
  }),
  'warm-up-ramp': figure<{ work: number; start: number; reps: number; equipment: Equipment }>({
    name: 'warm-up-ramp',
    title: 'Warm-up ramp',
    aliases: ['ramp', 'warm-up', 'build-from'],
    equation: [
      'the fewest equal steps of at most 20 % of W from S up to W',
      'each after the first moved by up to 5 % of W to where the fewest plates are moved',
      'a single at about 91 % of W before a last jump over 10 % to 3 repetitions or fewer',
      'repetitions 8 below 50 % of W, 5 below 70 %, 3 below 85 %, else 1',
    ],
    symbols: [
      { symbol: 'W', meaning: 'first working load', unit: 'kg or lb' },
      { symbol: 'S', meaning: 'start, as written', unit: 'kg or lb' },
    ],
    sources: ['Common practice'],
    holds: 'for a lift on a bar. Rest 60 s between the steps, 90 s before the work.',
    holdsNot: 'as volume: ramp sets are walked, not recorded, and outside the tonnage.',
    example: { work: 92.5, start: 40, reps: 3, equipment: garage },
    work: ({ work, start, reps, equipment }) => {
      const count = Math.ceil((work - start) / (0.2 * work) - 1e-9)
      return [
        `(${num(work)} - ${num(start)}) / (20 % of ${num(work)}) = ${num((work - start) / (0.2 * work))}: ${count} steps of ${num((work - start) / count)}`,
        ...ramp(work, start, reps, equipment).map(
          (step) =>
            `${num(step.load, 3)} x ${step.reps} (${num((step.load / work) * 100, 0)} %), rest ${step.restSeconds} s`,
        ),
      ]
    },
  }),
}
