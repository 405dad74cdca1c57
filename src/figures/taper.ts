import { figure, num } from './figure.ts'

/** Slowest and fastest plausible speed of a race, in m/s: a slow walk, and faster than any human has run. */
const raceSpeeds = { from: 0.5, to: 12.5 }

/** Whether a speed can be that of a race on foot, in m/s.
 * Source: This program's own rule. */
export function isWithinRaceSpeeds(metersPerSecond: number): boolean {
  return metersPerSecond >= raceSpeeds.from && metersPerSecond <= raceSpeeds.to
}

/** By how much the volume of training falls in a taper, as shares.
 * Source: Bosquet 2007; Wang 2023. */
export const taperCut = { least: 0.41, most: 0.6 }
/** How long a taper lasts, in weeks.
 * Source: Bosquet 2007. */
export const taperWeeks = 2

/** The distance of a week of taper: 41 to 60 % less than the mean of the weeks before it.
 * @param weeks metres of the weeks before, at least one, each 0 or more
 * @returns metres
 * @throws RangeError without a week
 * Source: Bosquet 2007; Wang 2023. */
export function taperMeters(weeks: readonly number[]): { mean: number; from: number; to: number } {
  if (weeks.length === 0) throw new RangeError('a taper needs at least one week before it')
  const mean = weeks.reduce((sum, meters) => sum + meters, 0) / weeks.length
  return { mean, from: mean * (1 - taperCut.most), to: mean * (1 - taperCut.least) }
}

/** The distance of a taper week.
 * Source: Bosquet 2007; Wang 2023; This program's own rule. */
export const taper = figure<{ weeks: readonly number[] }>({
  name: 'taper',
  title: 'Distance of a taper week',
  aliases: ['plan', 'race-week', 'peaking'],
  equation: ['from = m x (1 - 0.60)', 'to   = m x (1 - 0.41)'],
  symbols: [
    { symbol: 'm', meaning: 'mean distance of the four weeks before the taper', unit: 'km' },
    { symbol: 'from, to', meaning: 'distance of a taper week', unit: 'km' },
  ],
  sources: ['Bosquet 2007', 'Wang 2023', "This program's own rule"],
  holds:
    'Trained endurance athletes: gains were largest with two weeks and 41 to 60 % less volume, intensity and frequency kept.',
  holdsNot:
    'It is the mean of many studies: people differ. This program\'s own rules: the mean is that of four weeks (the latest of which the distance is known, of weeks that are over what was done), "race week" counts as a taper week, plan --new makes every fourth week a third less and the last two a taper, and a planned week of four times the weeks before it is asked about.',
  example: { weeks: [42_000, 45_000, 30_000, 51_000] },
  work: ({ weeks }) => {
    const { mean, from, to } = taperMeters(weeks)
    const km = (meters: number) => num(meters / 1000)
    return [
      `m = (${weeks.map(km).join(' + ')}) / ${weeks.length} = ${km(mean)} km`,
      `from = ${km(mean)} x 0.40 = ${km(from)} km`,
      `to = ${km(mean)} x 0.59 = ${km(to)} km`,
    ]
  },
})
