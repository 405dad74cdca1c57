import { printNumber } from '../units/decimal.ts'
import { metersOf } from '../units/length.ts'
import type { SetAsked } from './asked.ts'
import { doneGroups, groupsOfTotal, prescribedGroups } from './entryCluster.ts'
import { type Count, countText } from './entryCount.ts'
import type { Doubt } from './entryEffort.ts'
import type { TypedLoad } from './entryLoad.ts'
import { NotTaken } from './entryText.ts'
import { rewritten } from './entryTokens.ts'
import type { SetResult } from './result.ts'

/* How many, how long or how far a set was, held against what was asked. */

/** Seconds that no insisting makes a hold. */
const longestKept = 24 * 3600

export type Done = Pick<SetResult, 'reps' | 'groups' | 'seconds' | 'meters'>

const nothing: Done = { reps: null, groups: null, seconds: null, meters: null }

const groupsDone = (groups: number[]): Done => ({
  ...nothing,
  groups,
  reps: groups.reduce((sum, group) => sum + group, 0),
})

/** What the empty entry records.
 * @throws NotTaken for a set of as many as go */
export function prescribedDone(asked: SetAsked): Done {
  const { dose } = asked
  if (dose.kind === 'reps') return { ...nothing, reps: dose.from }
  if (dose.kind === 'time') return { ...nothing, seconds: asked.offered ?? dose.seconds }
  if (dose.kind === 'distance') return { ...nothing, meters: metersOf(dose.length) }
  const groups = dose.kind === 'cluster' ? prescribedGroups(dose.groups) : null
  if (groups !== null) return groupsDone(groups)
  if (dose.kind === 'cluster') {
    throw new NotTaken('as many as go: type the repetitions of each group, such as 2+3')
  }
  throw new NotTaken('as many as go: type how many there were, such as 6, or 45 s for a hold')
}

/** What was typed.
 * @throws NotTaken when it cannot be */
export function doneOf(
  count: Count,
  load: TypedLoad | null,
  asked: SetAsked,
  body: string,
  doubts: Doubt[],
): Done {
  const { dose } = asked
  const isHold = dose.kind === 'time'
  const isCarry = dose.kind === 'distance'
  const isTime = count.kind === 'seconds' || (count.kind === 'bare' && isHold)
  if (isTime && count.value > longestKept) throw new NotTaken(`${count.value} s is longer than a day`)
  if (count.kind === 'bare' && isHold) return { ...nothing, seconds: count.value }
  if (count.kind === 'bare' && isCarry) return { ...nothing, meters: count.value }
  if (count.kind === 'seconds' || count.kind === 'meters') {
    const isAsked = dose.kind === 'max' || (count.kind === 'seconds' ? isHold : isCarry)
    if (!isAsked) doubts.push({ message: `${countText(count)}? ${expected(asked)}`, suggestion: null })
    return { ...nothing, [count.kind]: count.value }
  }
  const values = count.kind === 'groups' ? count.groups : [count.value]
  if (values.some((value) => !Number.isInteger(value))) throw noRepetitions(count, load, body)
  if (isHold || isCarry) {
    doubts.push({ message: `${countText(count)} repetitions? ${expected(asked)}`, suggestion: null })
  }
  if (count.kind === 'groups') {
    if (dose.kind === 'cluster') return groupsDone(doneGroups(count.groups, dose.groups))
    doubts.push(noCluster(count, asked, body))
    return groupsDone(count.groups)
  }
  if (dose.kind !== 'cluster') return { ...nothing, reps: count.value }
  return groupsDone(groupsOfTotal(count.value, dose.groups, (groups) => rewritten(body, count, groups)))
}

/** Groups where no cluster was asked for: `3+3`, or, with the body as load, `6 +10`. */
function noCluster(count: Count, asked: SetAsked, body: string): Doubt {
  const [reps, added] = count.groups
  const isLoad = asked.shown?.kind === 'bodyweight' && count.groups.length === 2 && (added ?? 0) > 0
  const meant = rewritten(body, count, isLoad ? `${reps} x bw+${added}` : String(count.value))
  return {
    message: `${count.text} is written for a cluster set, and this is none; did you mean ${meant}?`,
    suggestion: meant,
  }
}

function expected(asked: SetAsked): string {
  const { dose } = asked
  if (dose.kind === 'time') return `${printNumber(dose.seconds)} s are prescribed`
  if (dose.kind === 'distance') return `${printNumber(metersOf(dose.length))} m are prescribed`
  return 'repetitions are prescribed'
}

function noRepetitions(count: Count, load: TypedLoad | null, body: string): NotTaken {
  const what = `${count.text} is no number of repetitions`
  if (load !== null || count.kind === 'groups') return new NotTaken(what)
  const meant = rewritten(body, { start: count.start, end: count.start }, 'x ')
  return new NotTaken(`${what}; a load is written ${meant}`, meant)
}
