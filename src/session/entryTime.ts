import { formatClock } from '../units/duration.ts'

/** A time as it is typed, with as many digits as it has or was typed with: `88.4` is `1:28.4`.
 * @param precision the value of the last digit that was typed: 1, 0.1 or 0.01; null leaves it to the number */
export function typedTimeOf(seconds: number, precision: number | null): string {
  const hundredths = Math.round(seconds * 100)
  const needed = hundredths % 100 === 0 ? 0 : hundredths % 10 === 0 ? 1 : 2
  const typed = precision === null || precision >= 1 ? 0 : precision >= 0.1 ? 1 : 2
  return formatClock(seconds, Math.max(needed, typed) as 0 | 1 | 2)
}
