import { max, sum } from 'd3-array'
import { longerGapDays } from '../figures/advice.ts'
import { cutItem, isRace } from '../prescription/cut.ts'
import type { Interval, Prescription, Recovery, RunItem, Target, Work } from '../prescription/model.ts'
import { printAmounts, printTarget } from '../prescription/print.ts'
import type { SessionState } from '../session/state.ts'
import { addedSteps } from '../summary/changes.ts'
import { beatsOver } from '../summary/hard.ts'
import { type DoneWork, worksDone } from '../summary/performed.ts'
import { joined } from '../units/lists.ts'
import {
  beforeOtherRules,
  type DecisionContext,
  daysSince,
  isLongBetween,
  type Verdict,
  verdict,
} from './decision.ts'
import { type DatedPain, isRunCoveredByPain, sinceText } from './pain.ts'

type Repeats = Work & { body: Interval }

type Ranged = Work & { body: Interval & { target: Extract<Target, { kind: 'pace' | 'time' }> } }

function isRanged(work: Repeats): work is Ranged {
  const kind = work.body.target?.kind
  return kind === 'pace' || kind === 'time'
}

/** The interval of the prescription for a line of the summary. */
export function workAt(prescription: Prescription, run: DoneWork): Repeats {
  const { step } = prescription.parts[run.part]!.items[run.item] as RunItem
  return repeatsIn(step)[run.index]!
}

function repeatsIn(step: Work | Recovery): Repeats[] {
  if (step.kind === 'recovery') return []
  return step.body.kind === 'piece' ? [step as Repeats] : step.body.steps.flatMap(repeatsIn)
}

/** Decides about one interval; changes it in the prescription if its range, its length or its repeats change. Null if
 * no rule applies. */
export function decideRun(
  state: SessionState,
  run: DoneWork,
  prescription: Prescription,
  known: DecisionContext,
): Verdict | null {
  const work = workAt(prescription, run)
  const pain = known.pains.find(isRunCoveredByPain)
  // Any run keeps an easy one going, half of it a long one; a range needs running in one, of this line or another.
  const meters = sum(run.steps, (step) => step.meters)
  const sinceRun = (least: number) =>
    daysSince(known, ({ day }) => (day.meters > 0 && day.longestMeters >= least) || day.unmeasuredSeconds > 0)
  const sinceAny = sinceRun(0)
  const sincePaced = daysSince(known, ({ running }) => running.items.some(({ judged }) => judged > 0))
  const away = isRanged(work)
    ? sincePaced
    : Math.max(sinceAny, sinceRun(meters < longMeters ? 0 : meters / 2))
  const first = beforeOtherRules(pain, away, () => runAfterAGap(run, prescription, away, sinceAny, pain))
  if (first !== null || !isRanged(work)) return first
  const now = runDay(state, run)
  if (now.judged === 0) return null
  const at = [
    now.effort === null ? '' : ` at effort ${now.effort}`,
    now.beatsOver === 0 ? '' : `, hr ${now.beatsOver} over`,
  ].join('')
  if (isFast(now) && (now.effort ?? 0) >= 9) {
    const faster = countText(now.fast, now, 'faster than the range')
    return verdict('same', `${faster}${at} -> run the written range`)
  }
  const seen = `${countText(now.kept, now, now.fast > 0 ? 'in range or faster' : 'in range')}${at}`
  // Splits that were left out argue neither for a slower range nor for a faster one.
  if (now.kept * 2 < now.judged) return moveRange(work, 1.02, `${seen} -> 2 % slower`, 'down')
  if (!isGood(now)) return verdict('same', `${seen} -> same range`)
  const previous = previousRun(state, run, known.earlier)
  const isTwice =
    previous !== undefined &&
    isGood(previous) &&
    ![previous, now].some(({ date }) => known.painsOn(date).some(isRunCoveredByPain)) &&
    !isLongBetween(previous, now) &&
    !isLongBetween(now, { date: known.today })
  if (!isTwice) return verdict('same', `${seen} -> same range, once more`)
  const { tiredLift: tired } = known
  if (isFast(now) && tired !== undefined && tired.part > run.part) {
    const hard = `${tired.written.name} was too hard after it`
    return verdict('same', `${seen}, twice, but ${hard} -> run the written range`)
  }
  if (known.taper !== null) return verdict('same', `${seen}, twice -> same range: ${known.taper}`)
  return moveRange(work, 0.99, `${seen}, twice -> 1 % faster`, 'up')
}

/** `3 of 4 in range (1 left out)` */
function countText(count: number, { judged, leftOut }: RunDay, what: string): string {
  return `${count} of ${judged + leftOut} ${what}${leftOut === 0 ? '' : ` (${leftOut} left out)`}`
}

type RunDay = ReturnType<typeof runDay>

export function runDay(state: SessionState, run: DoneWork) {
  const judged = run.splits.filter((split) => split.target !== null)
  const added = addedSteps(state)
  const efforts = run.splits.flatMap(({ result }) => result.rpe ?? [])
  const prescribed = run.steps.filter((step) => !added.has(step.id))
  return {
    date: state.date,
    judged: judged.length,
    // Prescribed and not recorded.
    leftOut: Math.max(0, prescribed.length - run.splits.length),
    fast: judged.filter((split) => split.target === 'fast').length,
    // In range or faster.
    kept: judged.filter((split) => split.target !== 'slow').length,
    // The highest typed for it, else that of its part.
    effort: max(efforts) ?? state.partStates[run.part]!.effort,
    // The most beats above a written heart rate.
    beatsOver: max(run.splits, beatsOver) ?? 0,
  }
}

/** Whether at least half of it was faster than its range. */
export function isFast({ fast, judged }: RunDay): boolean {
  return judged > 0 && fast * 2 >= judged
}

/** The same run on the newest earlier day on which it was run. */
function previousRun(
  { date }: SessionState,
  run: DoneWork,
  earlier: DecisionContext['earlier'],
): RunDay | undefined {
  for (const other of earlier) {
    if (date !== null && other.date === date) continue
    const runs = worksDone(other, 'run')
    const same = runs.find(({ text, index }) => text === run.text && index === run.index)
    if (same) return runDay(other, same)
  }
  return undefined
}

/** Whether a day argues for a faster range. */
function isGood({ beatsOver, kept, judged, leftOut, effort }: RunDay): boolean {
  const isKept = judged > 0 && kept * 5 >= (judged + leftOut) * 4
  return isKept && beatsOver === 0 && effort !== null && effort <= 8
}

/** From this length on, a continuous run comes back half as long. This program's own rule. */
const [longMeters, longSeconds] = [4800, 1500]

/** Halves a line with repeats or a long run, and keeps its range. Null for a short run without a range.
 * @param days since a run like it @param sinceAny days since any run */
function runAfterAGap(
  run: DoneWork,
  prescription: Prescription,
  days: number,
  sinceAny: number,
  pain: DatedPain | undefined,
): Verdict | null {
  const { items } = prescription.parts[run.part]!
  const work = workAt(prescription, run)
  const rest = joined(', ', [
    isRanged(work) && 'no faster range',
    (isRace(work.body) || (isRanged(work) && sinceAny > longerGapDays)) && 'easy running first',
  ])
  const isLong =
    sum(run.steps, ({ meters }) => meters) >= longMeters ||
    sum(run.steps, ({ seconds }) => seconds) >= longSeconds
  // A group is halved once, with its first interval.
  const isHalved = run.index === 0 && (isLong || run.work.repeats)
  const { is, changes } = cutItem(items[run.item]!, isHalved ? 0.5 : 1, prescription)
  if (changes.length === 0 && rest === '') return null
  items[run.item] = is as RunItem
  const half = changes.length > 0 && `half (${changes.join(', ')})`
  const like = days > sinceAny ? 'run half as long' : 'run'
  const since = sinceText(days, pain, isRanged(work) ? 'paced run' : like)
  return verdict(half ? 'fewer' : 'same', `${since} -> ${joined(', ', [half, rest])}`)
}

function moveRange(work: Ranged, factor: number, reason: string, decision: 'up' | 'down'): Verdict {
  const { target } = work.body
  // Both ends move by the same whole seconds: rounded one by one, they close in on each other over a season.
  const middle = (target.from + target.to) / 2
  const seconds = Math.round(middle * factor - middle)
  if (Math.abs(seconds) < 1)
    return verdict('same', `${reason.replace(/ -> .*/, '')} -> same range: less than a second`)
  work.body.target = { ...target, from: target.from + seconds, to: target.to + seconds }
  return verdict(decision, `${reason}, ${printTarget(work.body.target)}`)
}

/** `6 x 500 m`, `10:00 warm-up` */
export function runName({ times, body: { amounts, target } }: Repeats): string {
  const word = target?.kind === 'word' && target.word
  return joined(' ', [times !== null && `${times} x`, printAmounts(amounts), word])
}
