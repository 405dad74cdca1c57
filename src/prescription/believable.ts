/** Men's world records: metres and seconds (World Athletics; from memory). */
const records: readonly (readonly [meters: number, seconds: number])[] = [
  [100, 9.58],
  [200, 19.19],
  [400, 43.03],
  [800, 100.91],
  [1500, 206],
  [5000, 755.36],
  [10_000, 1571],
  [21_097.5, 3450],
  [42_195, 7235],
]
/** How much faster than the record a time may be; this program's own rule. */
const fasterThanRecord = 1.1
/** Metres a second in the fastest moment of a sprint, the limit for less than 100 m (from memory). */
const topSpeed = 12.5

/** Seconds a kilometre of the world record at a distance in metres, interpolated by the logarithm of the distance. */
export function recordPace(meters: number): number {
  const paces = records.map(([length, seconds]) => [length, (seconds * 1000) / length] as const)
  const after = paces.findIndex(([length]) => length >= meters)
  const [low, high] = [paces[Math.max(0, after - 1)] ?? paces[0], paces[after] ?? paces.at(-1)]
  if (!low || !high || after <= 0 || low === high) return (after === 0 ? paces[0] : paces.at(-1))?.[1] ?? 0
  const share = Math.log(meters / low[0]) / Math.log(high[0] / low[0])
  return low[1] + share * (high[1] - low[1])
}

/** The fastest believable speed on foot over a distance in metres, in metres a second: a tenth faster than the world
 * record. */
export function fastestOver(meters: number): number {
  return meters < 100 ? topSpeed : (1000 / recordPace(meters)) * fasterThanRecord
}
