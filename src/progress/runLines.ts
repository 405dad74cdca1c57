import type { LineDone, RunLine } from './runModel.ts'
import type { RunSession } from './runProgress.ts'

/** Lines that were run twice or oftener, the oftenest first; a line is the same whatever its target, its case
 * and its spaces, so that a range that has moved on is still compared. A single piece without splits counts
 * only where a target was written.
 * @param sessions newest first */
export function runLinesOf(sessions: readonly RunSession[]): RunLine[] {
  const lines = new Map<string, RunLine>()
  for (const { id, date, figures } of sessions.toReversed()) {
    const seen = new Set<string>()
    for (const item of figures.items) {
      if (item.secondsPerKm === null || (item.splits.length < 2 && item.judged === 0)) continue
      const line = withoutTarget(item.text)
      const key = line.toLowerCase().replace(/\s+/g, '')
      if (seen.has(key)) continue
      seen.add(key)
      const done: LineDone = {
        session: id,
        date,
        text: item.text,
        secondsPerKm: item.secondsPerKm,
        splits: item.splits.length,
        cvPercent: item.cvPercent,
        halvesPercent: item.halves?.changePercent ?? null,
        inRange: item.inRange,
        judged: item.judged,
      }
      const known = lines.get(key)
      if (known) known.done.push(done)
      else lines.set(key, { line, done: [done] })
    }
  }
  return [...lines.values()]
    .filter(({ done }) => done.length > 1)
    .sort((a, b) => b.done.length - a.done.length)
}

/** A line less its pace, time, effort or heart rate: `6 x 500 m @ 3:35-3:45/km, jog 200 m` is
 * `6 x 500 m, jog 200 m`. */
export function withoutTarget(text: string): string {
  return text.replace(/\s*(?:@|\b(?:at|in)\s)[^,"()]*/gi, '').trim()
}
