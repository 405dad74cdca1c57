import type { Summary } from '../summary/model.ts'

/** The time between a run and a lift on one day. */
export interface RunLiftGap {
  order: 'run to lift' | 'lift to run'
  minutes: number
}

/** The gaps between runs and lifts of one day, in the order of their times, within a session and between
 * sessions. A gap whose ends are not known is left out.
 * @param summaries of the sessions of one day */
export function runLiftGaps(summaries: readonly Pick<Summary, 'parts'>[]): RunLiftGap[] {
  const parts = summaries
    .flatMap((summary) => summary.parts)
    .flatMap(({ kind, startedAt, finishedAt }) => {
      const [from, to] = [startedAt, finishedAt].map((time) => (time === null ? null : Date.parse(time)))
      const at = from ?? to
      return (kind === 'run' || kind === 'lift') && at != null ? [{ kind, from, to, at }] : []
    })
    .sort((one, other) => one.at - other.at)
  return parts.flatMap((part, index) => {
    const before = parts[index - 1]
    if (before === undefined || before.kind === part.kind) return []
    if (before.to == null || part.from == null || part.from < before.to) return []
    const order = part.kind === 'lift' ? 'run to lift' : 'lift to run'
    return [{ order, minutes: (part.from - before.to) / 60_000 }]
  })
}
