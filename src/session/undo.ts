import type { SessionEvent } from './model.ts'
import { effectiveEvents } from './replay.ts'

const beats = new Set(['effortBegun', 'groupEnded', 'groupBegun', 'effortEnded', 'startForgotten'])

/** What one key has made, and `u` takes back. */
interface LastDone {
  /** From which event on. */
  from: number
  /** What it was: the last fact of it that is no remark on another. */
  last: SessionEvent
  /** The runs whose times it took, or which it skipped: several where they stood on one line. */
  times: string[]
  /** A beat is among it, which is asked about again. */
  isBeat: boolean
}

/** What taking the last thing back would take back. Null when there is nothing, or a closed part is in the way. */
export function undoOf(events: readonly SessionEvent[]): LastDone | null {
  const kept = effectiveEvents(events).filter(({ event }) => event.type !== 'opened')
  let isReopened = false
  for (let index = kept.length - 1; index >= 0; index--) {
    const { event, index: from } = kept[index] as (typeof kept)[number]
    if (event.type === 'sessionStarted') return null
    if (event.type === 'sessionReopened') {
      isReopened = true
      continue
    }
    if (event.type === 'sessionFinished' || event.type === 'partClosed') {
      if (!isReopened) return null
      continue
    }
    if ('auto' in event && event.auto) continue
    const together = kept.slice(firstOfKey(kept, index), index + 1)
    return {
      from: together[0]?.index ?? from,
      last: together.findLast((each) => isTime(each.event))?.event ?? event,
      times: together.flatMap((each) => (isTime(each.event) ? each.event.step : [])),
      isBeat: together.some((each) => beats.has(each.event.type)),
    }
  }
  return null
}

/** One key can make several facts at the same moment (a set ended and recorded, the times of a line): they are taken
 * back together.
 * @returns the place of the first of them */
function firstOfKey(kept: readonly { event: SessionEvent }[], last: number): number {
  const steps = new Set<string>()
  for (let first = last; ; first -= 1) {
    const event = kept[first]?.event
    const before = kept[first - 1]?.event
    if (!event || !before || event.at === null || before.at !== event.at || before.up !== event.up)
      return first
    if (before.type === 'effortEnded')
      return event.type.endsWith('Recorded') && 'step' in event && event.step === before.step
        ? first - 1
        : first
    if (isTime(event)) steps.add(event.step)
    // Of a session from paper, which knows minutes only and no uptime, each result stands alone.
    if (event.up === null || !isOneLine(before, event) || (isTime(before) && steps.has(before.step)))
      return first
  }
}

/** Whether a fact can stand right before another in what one line of times has made. */
function isOneLine(before: SessionEvent, event: SessionEvent): boolean {
  // What is skipped with words has them in notes behind it.
  const isRemark = before.type === 'noteAdded'
  if (event.type === 'noteAdded') return isRemark || before.type === 'stepSkipped'
  return isTime(event) && (isRemark || isTime(before))
}

function isTime(event: SessionEvent): event is SessionEvent & { type: 'pieceRecorded' | 'stepSkipped' } {
  return event.type === 'pieceRecorded' || event.type === 'stepSkipped'
}
