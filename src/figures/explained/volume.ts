import type { MassUnit } from '../../units/model.ts'
import { roundedPercentLoad } from '../percentLoad.ts'
import { restSeconds } from '../restScheme.ts'
import { mean } from '../statistics.ts'
import { countedReps, externalKg, type LiftedSet, tonnageKg, topSetIndex } from '../volume.ts'
import { figure, known, num } from './figure.ts'

const set = (reps: number, kg: number, more: Partial<LiftedSet> = {}): LiftedSet => ({
  reps,
  kg,
  pair: false,
  bodyweight: false,
  eachSide: false,
  ...more,
})

function setLine(each: LiftedSet): string {
  const reps = each.reps === null ? 'timed or carried' : `${each.reps}${each.eachSide ? ' each side' : ''}`
  const pair = each.pair ? `2 x ${num(each.kg ?? 0)}` : num(each.kg ?? 0)
  const load = each.kg === null ? 'no load' : `${each.bodyweight ? 'bodyweight and ' : ''}${pair} kg`
  return `${reps} x ${load}: ${countedReps(each)} x ${num(externalKg(each))} kg = ${num(tonnageKg(each))} kg`
}

/** Source: see the entries. */
export const volumeFigures = {
  tonnage: figure<{ sets: readonly LiftedSet[] }>({
    name: 'tonnage',
    title: 'Tonnage',
    aliases: ['volume', 'lifted-volume'],
    equation: ['tonnage = sum of repetitions x load outside the body'],
    symbols: [
      { symbol: 'repetitions', meaning: 'of each set; those each side count twice', unit: '-' },
      {
        symbol: 'load',
        meaning: 'both of a pair; with bodyweight what was added; assistance is 0',
        unit: 'kg',
      },
    ],
    sources: ['Common practice'],
    holds: 'over sets of the same exercise.',
    holdsNot:
      'to compare unlike exercises, or as hardness. The body itself never counts; timed and carried sets and warm-up ramps add none.',
    example: { sets: [set(3, 92.5), set(8, 10, { bodyweight: true }), set(10, 22.5, { pair: true })] },
    work: ({ sets }) => [
      ...sets.map(setLine),
      `sum ${num(sets.reduce((sum, each) => sum + tonnageKg(each), 0))} kg`,
    ],
  }),
  'top-set': figure<{ sets: readonly { kg: number | null; reps: number | null }[] }>({
    name: 'top-set',
    title: 'Top set',
    aliases: ['top', 'heaviest-set'],
    equation: ['the heaviest set; of those the most repetitions; of those the earliest'],
    symbols: [],
    sources: ['Common practice'],
    holds: 'over the sets of one exercise in one session.',
    holdsNot: 'as the hardest set: effort is not looked at.',
    example: {
      sets: [
        { kg: 90, reps: 5 },
        { kg: 100, reps: 2 },
        { kg: 100, reps: 3 },
      ],
    },
    work: ({ sets }) => {
      const top = topSetIndex(sets)
      const text = (each: { kg: number | null; reps: number | null }) =>
        `${each.reps ?? '-'} x ${known(each.kg, 'kg')}`
      const lines = sets.map((each, index) => `set ${index + 1}: ${text(each)}`)
      return [...lines, top === null ? 'no set' : `top: set ${top + 1}`]
    },
  }),
  'rest-of-scheme': figure<Parameters<typeof restSeconds>[0]>({
    name: 'rest-of-scheme',
    title: 'Rest in a set scheme',
    aliases: ['set-scheme', 'rest-scheme'],
    equation: ['rest = sets (groups - 1) pause + (sets - 1) rest between sets'],
    symbols: [
      { symbol: 'groups', meaning: 'of a cluster set; 1 for a straight set', unit: '-' },
      { symbol: 'pause', meaning: 'between the groups of a set', unit: 's' },
    ],
    sources: ['Tufano 2017'],
    holds: 'for any scheme as prescribed; nothing is counted after the last repetition.',
    holdsNot: 'for the rest that was really taken: see rest-taken.',
    example: { sets: 3, groupsPerSet: 3, pauseSeconds: 30, restSeconds: 120 },
    work: (scheme) => [
      `${scheme.sets} x (${scheme.groupsPerSet} - 1) x ${num(scheme.pauseSeconds)} s + (${scheme.sets} - 1) x ${num(scheme.restSeconds)} s = ${num(restSeconds(scheme))} s`,
    ],
  }),
  'rest-taken': figure<{ seconds: readonly number[]; prescribedSeconds: number | null }>({
    name: 'rest-taken',
    title: 'Rests and pauses as they were',
    aliases: ['rests', 'rest', 'pauses', 'pause'],
    equation: ['mean of the rests between the key that ended a set and the key that began the next'],
    symbols: [{ symbol: 'rest', meaning: 'less what was held', unit: 's' }],
    sources: ['Sample statistics', 'Invented'],
    holds: 'where a key was pressed at both ends.',
    holdsNot:
      'for a session from paper, and where the start was not pressed: such a rest has no length and is left out. Pauses that the clock sets are paced, not measured.',
    example: { seconds: [150, 163, 176], prescribedSeconds: 150 },
    work: ({ seconds, prescribedSeconds }) => [
      `measured: ${seconds.length === 0 ? 'none' : `${seconds.map((each) => num(each, 1)).join(', ')} s`}`,
      `mean ${known(mean(seconds), 's')}, prescribed ${known(prescribedSeconds, 's')}`,
    ],
  }),
  'percent-load': figure<{ maximumKg: number; percent: number; unit: MassUnit }>({
    name: 'percent-load',
    title: 'Load by percentage',
    aliases: ['percent', 'percentage'],
    equation: ['load = percent / 100 x maximum, to the nearest 2.5 kg or 5 lb, ties down'],
    symbols: [
      {
        symbol: 'maximum',
        meaning: 'the file\'s max:, else the highest estimate of the last 42 days that is not "at least"',
        unit: 'kg',
      },
    ],
    sources: ['Common practice', 'Invented'],
    holds: 'for the exercise whose maximum it is.',
    holdsNot: 'where no maximum is known: the load is asked for at the first set.',
    example: { maximumKg: 110, percent: 80, unit: 'kg' },
    work: ({ maximumKg, percent, unit }) => [
      `${num(percent)} / 100 x ${num(maximumKg)} kg = ${num((percent / 100) * maximumKg)} kg, rounded ${num(roundedPercentLoad(maximumKg, percent, unit))} ${unit}`,
    ],
  }),
}
