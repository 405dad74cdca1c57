import { printNumber, roundTo } from './decimal.ts'
import type { DistanceUnit, Length } from './model.ts'
import { lengthUnitOf, numberAndWord } from './words.ts'

/** Metres in each unit of length that does not depend on a track. Exact by definition:
 * international yard and pound agreement, 1959; the marathon distances: World Athletics. */
export const metersIn = {
  m: 1,
  km: 1000,
  mi: 1609.344,
  yd: 0.9144,
  'half marathon': 21097.5,
  marathon: 42195,
} as const

/** Metres of a length.
 * @param lapMeters length of one lap of the track, in metres */
export function metersOf(length: Length, lapMeters = 400): number {
  return length.value * (length.unit === 'lap' ? lapMeters : metersIn[length.unit])
}

/** Writes a length in the notation: `500 m`, `1 lap`, `2 laps`, `half marathon`. */
export function printLength(length: Length): string {
  if (length.unit === 'half marathon' || length.unit === 'marathon') return length.unit
  if (length.unit === 'lap') return `${printNumber(length.value)} ${length.value === 1 ? 'lap' : 'laps'}`
  return `${printNumber(length.value)} ${length.unit}`
}

/** Writes metres in the unit of a written length, to a tenth: `40 yd`. */
export function printInUnitOf(written: Length, meters: number): string {
  return printLength({ ...written, value: roundTo((meters / metersOf(written)) * written.value, 1) })
}

/** The length of a race as runners name it: half marathon, whole kilometres, quarters of a mile, else metres. Allows
 * for the rounding in a sum of splits. */
export function raceLength(meters: number): Length {
  for (const unit of ['marathon', 'half marathon'] as const)
    if (isNear(meters, metersIn[unit])) return { value: 1, unit }
  const value = Math.round(meters / 1000)
  if (isNear(meters, value * 1000)) return { value, unit: 'km' }
  const quarters = Math.round((4 * meters) / metersIn.mi)
  return isNear(meters, (quarters / 4) * metersIn.mi)
    ? { value: quarters / 4, unit: 'mi' }
    : { value: meters, unit: 'm' }
}

const isNear = (meters: number, other: number) => Math.abs(meters - other) < 0.0005

/** Metres for the screen: below 1000 as such, for miles below 800, else in `unit` with up to two decimals: 500 is
 * `500 m`, 5000 `5 km`, 13600 `13.6 km`, 1609.344 in miles `1 mi`. */
export function formatMeters(meters: number, unit: DistanceUnit): string {
  if (meters < (unit === 'km' ? 1000 : 800)) return `${roundTo(meters, 1)} m`
  return `${roundTo(meters / metersIn[unit], 2)} ${unit}`
}

/** Like `formatMeters`, but recognises quarters and hundredths of a mile, whole yards and metres up to 3000 m and whole
 * hundreds of metres, whatever `unit` is: 1609.344 is `1 mi`, 36.576 `40 yd`, 1500 in miles `1500 m`, 1150 `1150 m`,
 * 5000 `5 km`. Lengths are stored in metres, so the unit they were written in has to be guessed. */
export function formatAsWritten(meters: number, unit: DistanceUnit): string {
  const whole = (size: number) => {
    const count = Math.round(meters / size)
    return count > 0 && isNear(count * size, meters) ? count : null
  }
  const quarters = whole(metersIn.mi / 4)
  if (quarters !== null) return `${quarters / 4} mi`
  // Whole metres are neither miles nor yards.
  const isMetric = whole(1) !== null
  const hundredths = isMetric ? null : whole(metersIn.mi / 100)
  // Every tenth of a mile is a whole number of yards, but a sprint of less is named in yards.
  if (hundredths !== null && hundredths >= 10) return `${hundredths / 100} mi`
  const yards = isMetric ? null : whole(metersIn.yd)
  if (yards !== null && meters <= longestOnTrack) return `${yards} yd`
  // Nobody writes 1.15 km for 1150 m.
  if (isMetric && meters <= longestOnTrack && whole(100) === null) return `${Math.round(meters)} m`
  // Nobody arrives at whole hundreds of metres by converting from miles.
  if (unit === 'mi' && whole(100) !== null)
    return meters <= longestOnTrack ? `${Math.round(meters)} m` : formatMeters(meters, 'km')
  return formatMeters(meters, unit)
}

/** Writes a length so that reading it gives the same metres: as `formatAsWritten` where that is exact, else in metres. */
export function exactLength(meters: number, unit: DistanceUnit): string {
  const text = formatAsWritten(meters, unit)
  const length = readLength(text)
  return length !== null && metersOf(length) === meters ? text : `${printNumber(meters)} m`
}

/** Even runners who think in miles call repeats up to 3000 m by their metres. Common practice, no source. */
const longestOnTrack = 3000

/** Reads a length such as `500 m`, `5k`, `1 mile`, `2 laps`, `half marathon`. Null for other text, and for 0. */
export function readLength(text: string): Length | null {
  const words = text
    .trim()
    .toLowerCase()
    .replace(/\s{1,9}/g, ' ')
  if (words === 'half marathon' || words === 'marathon') return { value: 1, unit: words }
  const read = numberAndWord(words)
  const unit = lengthUnitOf(read?.word ?? '')
  return read && unit && { value: read.value, unit }
}
