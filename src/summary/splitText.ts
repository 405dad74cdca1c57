import type { PieceResult } from '../session/result.ts'
import { formatClock } from '../units/duration.ts'
import { formatMeters } from '../units/length.ts'
import type { DoneSplit } from './performed.ts'

/** What was done in one split, as it was typed: `1:49.2`, `820 m in 3:00`, `2 km, not timed`. */
export function splitText({ step, result }: DoneSplit, distance: 'km' | 'mi'): string {
  const { meters, seconds } = result
  const isAsPrescribed = step.seconds === null && meters === step.meters
  const far = meters === null ? null : formatMeters(meters, distance)
  if (seconds === null) return far === null || isAsPrescribed ? 'done, not timed' : `${far}, not timed`
  const clock = timeText(seconds, result.precision)
  if (isAsPrescribed) return clock
  return far === null ? `${clock}, metres not known` : `${far} in ${clock}`
}

/** A time with as many digits as were typed. */
function timeText(seconds: number, precision: number | null): string {
  return formatClock(seconds, precision === null || precision >= 1 ? 0 : precision >= 0.1 ? 1 : 2)
}

/** What stands beside a split: `slow`, `hr 171/183`, `rpe 8`; empty without any. */
export function besideText(split: DoneSplit): string {
  const outside = split.target === 'fast' || split.target === 'slow' ? [split.target] : []
  return [...outside, ...effortTexts(split.result)].join(' ')
}

function effortTexts({ heartRate, heartRateMax, rpe }: PieceResult): string[] {
  const texts = []
  if (heartRate !== null) texts.push(`hr ${heartRate}${heartRateMax === null ? '' : `/${heartRateMax}`}`)
  if (rpe !== null) texts.push(`rpe ${rpe}`)
  return texts
}
