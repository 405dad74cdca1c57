/** One result for each such stretch; the last may be shorter. A rest under a thousandth of a stretch is rounding, not a stretch. */
export function stretchesOf(
  meters: number | null,
  split: number | null,
): { meters: number | null; short: boolean }[] {
  if (meters === null || split === null || split >= meters) return [{ meters, short: false }]
  const whole = Math.floor(meters / split + 0.001)
  const rest = meters - whole * split
  const stretches: { meters: number | null; short: boolean }[] = Array.from({ length: whole }, () => ({
    meters: split,
    short: false,
  }))
  if (rest > split * 0.001) stretches.push({ meters: rest, short: true })
  return stretches
}
