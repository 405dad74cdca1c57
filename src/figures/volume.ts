import { ascending, greatest, sum } from 'd3-array'
import { metersInPaceUnit } from '../units/duration.ts'
import { kilogramsIn, kilogramsInPound, kilogramsOf } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import { nearestInSteps, usualStep } from './bar.ts'
import { explanation, figure, known, num } from './figure.ts'
import { mean } from './statistics.ts'

/** The work of one set, in kilograms. */
export interface SetVolume {
  /** Null for a timed or carried set. */
  reps: number | null
  /** Both of a pair; of a bodyweight exercise the added load, negative for assistance. Null without a load. */
  kg: number | null
  /** The repetitions were done on each side. */
  eachSide: boolean
}

/** The load in kilograms that counts: assistance is 0. */
const externalKg = ({ kg }: SetVolume): number => Math.max(0, kg ?? 0)

/** Repetitions that count: those of both sides if done on each. 0 for a timed or carried set.
 * Source: Common practice. */
export function countedReps(set: Pick<SetVolume, 'reps' | 'eachSide'>): number {
  return (set.reps ?? 0) * (set.eachSide ? 2 : 1)
}

/** Tonnage of a set in kilograms: repetitions x external load. Body mass never counts, assistance is
 * 0, timed and carried sets add none.
 * Source: Common practice. */
export function tonnageKg(set: SetVolume): number {
  return countedReps(set) * externalKg(set)
}

/** The top set: the heaviest, then the most repetitions, then the earliest; a set without a load counts as lighter than
 * any other. Null without sets.
 * Source: Common practice. */
export function topSet<Set extends { kg: number | null; reps: number | null }>(
  sets: readonly Set[],
): Set | null {
  const heaviest = greatest(
    sets,
    (a, b) =>
      ascending(a.kg ?? Number.NEGATIVE_INFINITY, b.kg ?? Number.NEGATIVE_INFINITY) ||
      ascending(a.reps ?? 0, b.reps ?? 0),
  )
  return heaviest ?? null
}

/** Estimates older than this do not serve percentages. This program's own rule. */
const mostDaysAgo = 42

/** The load for a percentage of a one-repetition maximum, in `unit`: to the nearest 2.5 kg or 5 lb, ties down, never 0.
 * Source: Common practice. */
export function roundedPercentLoad(maximumKg: number, percent: number, unit: MassUnit): number {
  const kg = (percent / 100) * maximumKg
  return nearestInSteps(kg / kilogramsOf({ value: 1, unit }), usualStep[unit])
}

const basisWeights = [3, 2, 1]

/** The maximum that percentages refer to where none is written: the mean of the last three estimates within 42 days
 * that are not "at least", weighted 3 : 2 : 1 from the newest; null without any.
 * @returns kilograms, and the estimates used, newest first
 * Source: This program's own rule. */
export function percentBasis<E extends { kg: number; atLeast: boolean; daysAgo: number }>(
  estimates: readonly E[],
): { kg: number; from: [E, ...E[]] } | null {
  const [newest, ...others] = estimates
    .filter(({ atLeast, daysAgo }) => !atLeast && daysAgo >= 0 && daysAgo <= mostDaysAgo)
    .toSorted((a, b) => a.daysAgo - b.daysAgo)
    .slice(0, basisWeights.length)
  if (newest === undefined) return null
  const from: [E, ...E[]] = [newest, ...others]
  const weights = basisWeights.slice(0, from.length)
  return { kg: sum(weights, (weight, at) => weight * from[at]!.kg) / sum(weights), from }
}

/** All rest inside a set scheme, in seconds: the pauses inside each set and the rests between sets;
 * no rest after the last repetition.
 * Source: Tufano 2017. */
export function restSeconds(scheme: {
  sets: number
  groupsPerSet: number
  pauseSeconds: number
  restSeconds: number
}): number {
  const { sets, groupsPerSet, pauseSeconds, restSeconds } = scheme
  return sets * (groupsPerSet - 1) * pauseSeconds + (sets - 1) * restSeconds
}

function setLine(each: SetVolume): string {
  const reps = each.reps === null ? 'timed or carried' : `${each.reps}${each.eachSide ? ' each side' : ''}`
  const load = each.kg === null ? 'no load' : `${num(each.kg)} kg`
  return `${reps} x ${load}: ${countedReps(each)} x ${num(externalKg(each))} kg = ${num(tonnageKg(each))} kg`
}

export const volumeFigures = {
  tonnage: figure<{ sets: readonly SetVolume[] }>({
    title: 'Tonnage',
    aliases: ['volume', 'lifted-volume'],
    equation: ['tonnage = sum of repetitions x load outside the body'],
    symbols: [
      ['repetitions', 'of each set; those each side count twice', '-'],
      ['load', 'both of a pair; with bodyweight what was added; assistance is 0', 'kg'],
    ],
    sources: ['Common practice'],
    holds: 'over sets of the same exercise.',
    holdsNot:
      'to compare different exercises, or as a measure of how hard it was. The body itself never counts; timed and carried sets and warm-up sets add nothing.',
    example: {
      sets: [
        { reps: 3, kg: 92.5, eachSide: false },
        { reps: 10, kg: 45, eachSide: true },
      ],
    },
    work: ({ sets }) => [...sets.map(setLine), `sum ${num(sum(sets, tonnageKg))} kg`],
  }),
  'top-set': figure<{ sets: readonly { kg: number | null; reps: number | null }[] }>({
    title: 'Top set',
    aliases: ['top', 'heaviest-set'],
    equation: ['the heaviest set; of those the most repetitions; of those the earliest'],
    sources: ['Common practice'],
    holds: 'over the sets of one exercise in one session.',
    holdsNot: 'as the hardest set: it ignores effort.',
    example: {
      sets: [
        { kg: 90, reps: 5 },
        { kg: 100, reps: 2 },
        { kg: 100, reps: 3 },
      ],
    },
    work: ({ sets }) => {
      const lines = sets.map(({ reps, kg }, index) => `set ${index + 1}: ${reps ?? '-'} x ${known(kg, 'kg')}`)
      return [...lines, `top: set ${sets.indexOf(topSet(sets)!) + 1}`]
    },
  }),
  'rest-of-scheme': explanation({
    title: 'Rest in a set scheme',
    aliases: ['set-scheme', 'rest-scheme'],
    equation: ['rest = sets (groups - 1) pause + (sets - 1) rest between sets'],
    symbols: [
      ['groups', 'of a cluster set; 1 for a straight set', '-'],
      ['pause', 'between the groups of a set', 's'],
    ],
    sources: ['Tufano 2017'],
    holds: 'for any scheme as prescribed; nothing is counted after the last repetition.',
    holdsNot: 'for the rest that was really taken: see rest-taken.',
    example: () => {
      const scheme = { sets: 3, groupsPerSet: 3, pauseSeconds: 30, restSeconds: 120 }
      return [`3 x (3 - 1) x 30 s + (3 - 1) x 120 s = ${restSeconds(scheme)} s`]
    },
  }),
  'rest-taken': figure<{ seconds: readonly number[]; prescribedSeconds: number | null }>({
    title: 'Rests and pauses as they were',
    aliases: ['rests', 'rest', 'pauses', 'pause'],
    equation: ['mean of the rests between the key that ended a set and the key that began the next'],
    symbols: [['rest', 'without the time the clock was stopped', 's']],
    sources: ['Sample statistics', "This program's own rule"],
    holds: 'where a key was pressed at both ends.',
    holdsNot:
      'for a session from paper, and where no key marked the start: such a rest is left out. Pauses that the clock sets are paced, not measured.',
    example: { seconds: [150, 163, 176], prescribedSeconds: 150 },
    work: ({ seconds, prescribedSeconds }) => [
      `measured: ${seconds.length === 0 ? 'none' : `${seconds.map((each) => num(each, 1)).join(', ')} s`}`,
      // Without one they differ, or the mean is within a range.
      `mean ${known(mean(seconds), 's')}${prescribedSeconds === null ? '' : `, prescribed ${num(prescribedSeconds)} s`}`,
    ],
  }),
  'percent-load': figure<{ maximumKg: number; percent: number; unit: MassUnit }>({
    title: 'Load by percentage',
    aliases: ['percent', 'percentage'],
    equation: ['load = percent / 100 x maximum, to the nearest 2.5 kg or 5 lb, ties down'],
    symbols: [
      [
        'maximum',
        'the file\'s max:, else the mean of the last three estimates of 42 days that are not "at least", weighted 3 : 2 : 1 from the newest',
        'kg or lb',
      ],
    ],
    sources: ['Common practice', "This program's own rule"],
    holds: 'for the exercise whose maximum it is.',
    holdsNot: 'where no maximum is known: the load is asked for at the first set.',
    example: { maximumKg: 110, percent: 80, unit: 'kg' },
    work: ({ maximumKg, percent, unit }) => {
      const maximum = kilogramsIn(maximumKg, unit)
      const rounded = roundedPercentLoad(maximumKg, percent, unit)
      return [
        `${num(percent)} / 100 x ${num(maximum)} ${unit} = ${num((percent / 100) * maximum)} ${unit}, rounded ${num(rounded)} ${unit}`,
      ]
    },
  }),
  'distance-run': figure<{ workMeters: number; recoveryMeters: number }>({
    title: 'Distance run',
    aliases: ['distance', 'meters', 'metres', 'mileage'],
    equation: ['distance = metres of recorded work + metres of recoveries by distance'],
    symbols: [['recoveries', 'count when the interval before them was recorded', 'm']],
    sources: ["This program's own rule"],
    holds: 'for running; a rower or a bicycle is counted separately.',
    holdsNot: 'for recoveries by time: their metres are not known.',
    example: { workMeters: 12_000, recoveryMeters: 1600 },
    work: ({ workMeters, recoveryMeters }) => [
      `${num(workMeters, 1)} m + ${num(recoveryMeters, 1)} m = ${num(workMeters + recoveryMeters, 1)} m`,
    ],
  }),
  units: explanation({
    title: 'Units',
    aliases: ['pound', 'mile', 'yard', 'conversion', 'kg', 'lb'],
    equation: ['1 lb = 0.45359237 kg, 1 mi = 1609.344 m, 1 yd = 0.9144 m'],
    sources: ['Yard and pound 1959', 'World Athletics distances'],
    holds: 'exactly, by definition; half marathon 21 097.5 m, marathon 42 195 m.',
    holdsNot: 'for plates: a load keeps the unit in which it was typed.',
    example: () => [
      `45 lb x ${kilogramsInPound} = ${num(45 * kilogramsInPound, 3)} kg`,
      `1 mi x ${metersInPaceUnit.mi} = ${metersInPaceUnit.mi} m`,
    ],
  }),
}
