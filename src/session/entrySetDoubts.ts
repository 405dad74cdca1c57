import type { SetAsked } from './asked.ts'
import type { Count } from './entryCount.ts'
import type { Doubt } from './entryEffort.ts'
import type { TypedLoad } from './entryLoad.ts'
import { rewritten } from './entryTokens.ts'
import type { LiftedLoad } from './result.ts'

/* Numbers of a set that are likelier a slip of the finger: asked, not swallowed. All invented. */

const mostReps = 100
const longestHold = 3600
/** Fewer repetitions than this are never taken for a load. */
const fewestQuestioned = 20

/** Whether so many repetitions are what is prescribed. */
export function isUsualCount(count: Count, asked: SetAsked): boolean {
  return asked.dose.kind === 'reps' && count.value >= asked.dose.from && count.value <= asked.dose.to
}

/** @param load as typed; null when none was
 * @param lifted the load that is recorded */
export function questionCount(
  count: Count,
  load: TypedLoad | null,
  lifted: LiftedLoad | null,
  asked: SetAsked,
  body: string,
  doubts: Doubt[],
): void {
  const isBare = count.kind === 'bare'
  if (count.kind === 'seconds' || (isBare && asked.dose.kind === 'time')) {
    if (count.value > longestHold)
      doubts.push({ message: `${count.value} s is over an hour`, suggestion: null })
    return
  }
  if (count.kind === 'meters' || (isBare && asked.dose.kind === 'distance')) return
  if (load !== null && isSwapped(count, load, asked)) {
    const swapped = rewritten(rewritten(body, load, ` x ${count.text}`), count, load.number)
    const message = `${count.text} repetitions with ${load.shown}; did you mean ${swapped}?`
    doubts.push({ message, suggestion: swapped })
  } else if (load === null && isLikelyLoad(count, lifted, asked)) {
    const meant = rewritten(body, { start: count.start, end: count.start }, 'x ')
    doubts.push({ message: `${count.text} repetitions; did you mean ${meant}?`, suggestion: meant })
  } else if (count.value > mostReps) {
    doubts.push({ message: `${count.value} repetitions in one set are over ${mostReps}`, suggestion: null })
  }
}

/** `100 x 6`, where about 6 repetitions are prescribed. */
function isSwapped(count: Count, { load, bare }: TypedLoad, asked: SetAsked): boolean {
  if (!bare || load.kind !== 'mass' || load.value < 1 || !Number.isInteger(load.value)) return false
  if (asked.dose.kind !== 'reps') return count.value > 2 * fewestQuestioned && load.value <= fewestQuestioned
  const most = 2 * asked.dose.to
  return count.value >= fewestQuestioned && count.value > most && load.value <= Math.max(12, most)
}

/** `100` alone, where about 6 repetitions at about 100 are prescribed. */
function isLikelyLoad(count: Count, lifted: LiftedLoad | null, asked: SetAsked): boolean {
  if (asked.dose.kind !== 'reps' || lifted?.kind !== 'mass' || count.kind !== 'bare') return false
  if (count.value < fewestQuestioned || count.value <= 3 * asked.dose.to) return false
  return count.value >= lifted.value / 2 && count.value <= lifted.value * 1.5
}
