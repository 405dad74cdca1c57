import { max, pairs, sum } from 'd3-array'
import { longerGapDays } from '../figures/advice.ts'
import { cutItem, isRace } from '../prescription/cut.ts'
import type { Interval, Prescription, Recovery, RunItem, Span, Target, Work } from '../prescription/model.ts'
import { printAmounts, printItem, printTarget } from '../prescription/print.ts'
import type { SessionState } from '../session/state.ts'
import { addedSteps, isCutShort } from '../summary/changes.ts'
import { beatsOver, isHardRunning } from '../summary/hard.ts'
import { type DoneWork, worksDone } from '../summary/performed.ts'
import { daysBetween } from '../units/calendarDate.ts'
import { roundTo } from '../units/decimal.ts'
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
import { assumedLongest, assumedMeters } from './weeks.ts'

type Repeats = Work & { body: Interval }

/** What has a pace or a time to keep. */
const rangeKinds = ['pace', 'time', 'speed', 'times', 'progression', 'goal'] as const

type Range = Extract<Target, { kind: (typeof rangeKinds)[number] }>

type Ranged = Work & { body: Interval & { target: Range } }

function isRanged(work: Repeats): work is Ranged {
  return rangeKinds.some((kind) => kind === work.body.target?.kind)
}

/** The interval of the prescription for a line of the summary. */
function workAt(prescription: Prescription, run: DoneWork): Repeats {
  return repeatsIn(itemAt(prescription, run).step)[run.index]!
}

function itemAt(prescription: Prescription, { part, item }: DoneWork): RunItem {
  return prescription.parts[part]!.items[item] as RunItem
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
  const sinceAny = daysSince(known, hasRun(0))
  const away = Math.max(sinceAny, daysSince(known, hasRunLike(run, work)))
  const first = beforeOtherRules(pain, away, () => runAfterAGap(run, prescription, away, sinceAny, pain))
  if (first !== null) return first
  const now = runDay(state, run)
  const at = [
    now.effort === null ? '' : ` at effort ${now.effort}`,
    now.beatsOver === 0 ? '' : `, hr ${now.beatsOver} over`,
  ].join('')
  // On a treadmill an easy run has a speed, too: there is no word beside it.
  const isEasySpeed =
    work.body.target?.kind === 'speed' && !run.steps.some((step) => isHardRunning(step, prescription))
  if (!isRanged(work) || isEasySpeed) return comeBack(state, run, prescription, known, `complete${at}`)
  if (now.judged === 0) return null
  if (isFast(now) && (now.effort ?? 0) >= 9) {
    const faster = countText(now.fast, now, 'faster than the range')
    return verdict('same', `${faster}${at} -> run the written range`)
  }
  const seen = `${countText(now.kept, now, now.fast > 0 ? 'in range or faster' : 'in range')}${at}`
  // Splits that were left out argue neither for a slower range nor for a faster one.
  if (now.kept * 2 < now.judged) return moveRange(work, 1.02, `${seen} -> 2 % slower`, 'down')
  if (!isGood(now)) {
    const missing = now.effort === null && isDoneWell(now) ? ', no effort typed' : ''
    return verdict('same', `${seen}${missing} -> same range`)
  }
  const back = comeBack(state, run, prescription, known, seen)
  if (back !== null) return back
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
function isGood(day: RunDay): boolean {
  return day.judged > 0 && day.effort !== null && isDoneWell(day)
}

/** Whether four fifths of the line were in range or faster, or without a range all of it was run, at no more than a
 * written heart rate and an effort of at most 8, where the effort is known.
 * @param mostEffort in place of 8, of a line meant to be harder */
function isDoneWell({ beatsOver, kept, judged, leftOut, effort }: RunDay, mostEffort = 8): boolean {
  const isKept = judged > 0 ? kept * 5 >= (judged + leftOut) * 4 : leftOut === 0
  return isKept && beatsOver === 0 && (effort ?? 0) <= mostEffort
}

type SessionLike = Parameters<typeof daysSince>[1]

function hasRun(leastMeters: number): SessionLike {
  return ({ day }) => day.meters + day.unmeasuredSeconds > 0 && assumedLongest(day) >= leastMeters
}

/** Any run keeps an easy one going, half of it a long one; a range needs running in one, of this line or another. */
function hasRunLike(run: DoneWork, work: Repeats): SessionLike {
  if (isRanged(work)) return ({ running }) => running.items.some(({ judged }) => judged > 0)
  const meters = sum(run.steps, ({ meters, seconds }) => meters ?? assumedMeters(seconds ?? 0))
  if (meters < longMeters) return hasRun(0)
  const seconds = sum(run.steps, (step) => step.seconds)
  const isHalfTheTime = ({ seconds: done }: { seconds: number | null }) =>
    seconds > 0 && (done ?? 0) >= seconds / 2
  return (session) => hasRun(meters / 2)(session) || session.running.items.some(isHalfTheTime)
}

/** How much of a line is run, one good day after the other, after weeks away. This program's own rule. */
const sharesBack = [0.5, 0.75, 1]

/** Brings back, share by share, what weeks away took off a line that was done well. Null if they took nothing off. */
function comeBack(
  state: SessionState,
  run: DoneWork,
  prescription: Prescription,
  known: DecisionContext,
  seen: string,
): Verdict | null {
  const works = worksDone(state, 'run').filter(({ part, item }) => part === run.part && item === run.item)
  const isWell = (each: DoneWork) => {
    const { target } = workAt(state.prescription, each).body
    const isAllOut = target?.kind === 'word' && target.word === 'all out'
    const mostEffort = isAllOut ? 10 : target?.kind === 'rpe' ? target.to : undefined
    return !each.splits.some(isCutShort) && isDoneWell(runDay(state, each), mostEffort)
  }
  if (!works.every(isWell) || known.painsOn(state.date).some(isRunCoveredByPain)) return null
  const now = itemAt(state.prescription, run)
  const text = printItem(withRangesOf(null, now))
  const lines = known.earlier.flatMap((earlier) => linesLike(text, earlier, state.date ?? '', known.sessions))
  const back = lines.find(({ more, isBeforeABreak }) => more !== undefined || isBeforeABreak)
  if (!back?.more || !back.isBeforeABreak) return null
  if (known.taper !== null) return verdict('same', `${seen} -> same: ${known.taper}`)
  if (run.index > 0) return verdict('same', `${seen} -> same range`)
  prescription.parts[run.part]!.items[run.item] = withRangesOf(now, back.more.item)
  const share = back.more.text === back.whole ? 'all of it again' : 'three quarters'
  return verdict('more', `${seen} -> ${share} (${back.was} before the break)`)
}

/** The lines of an earlier day that are this one, or of which it is a share, each with the next larger share and whether
 * weeks away came between, over since at most eight weeks.
 * @param text of a line without its ranges @param date of its day */
function linesLike(text: string, earlier: SessionState, date: string, sessions: DecisionContext['sessions']) {
  return worksDone(earlier, 'run').flatMap((line) => {
    if (!isHalved(line) || line.splits.length === 0) return []
    const shares = sharesBack.map((share) => {
      const { is, changes } = cutItem(itemAt(earlier.prescription, line), share, earlier.prescription)
      return { item: is as RunItem, changes, text: printItem(withRangesOf(null, is as RunItem)) }
    })
    const place = shares.findLastIndex((share) => share.text === text)
    if (place === -1) return []
    const isLike = hasRunLike(line, workAt(earlier.prescription, line))
    const between = sessions.filter((each) => each.date >= (earlier.date ?? '') && each.date <= date)
    const breaks = pairs(between.filter(isLike)).filter(([later, before]) => isLongBetween(before, later))
    return {
      more: shares[place + 1],
      whole: shares.at(-1)?.text,
      was: joined(', ', shares[0]!.changes),
      isBeforeABreak: breaks.some(([end]) => daysBetween(end.date, date) <= longerGapDays),
    }
  })
}

/** The line with the ranges of another one, or without: they may have moved on the way back. A time for all of a run, and
 * one for each repeat, stay, since they change with the share that is run. */
function withRangesOf(other: RunItem | null, item: RunItem): RunItem {
  const { step } = structuredClone(item)
  const others = other === null ? [] : repeatsIn(other.step)
  for (const [at, work] of repeatsIn(step).entries()) {
    const kind = work.body.target?.kind
    const isForAll = kind === 'times' || (kind === 'time' && work.times === null)
    if (isRanged(work) && !isForAll) Object.assign(work.body, { target: others[at]?.body.target ?? null })
  }
  return { ...item, step }
}

/** From this length on, a continuous run comes back half as long. This program's own rule. */
const [longMeters, longSeconds] = [4800, 1500]

function isHalved({ index, steps, work }: DoneWork): boolean {
  // A group is halved once, with its first interval.
  if (index > 0) return false
  const isLong =
    sum(steps, ({ meters }) => meters) >= longMeters || sum(steps, ({ seconds }) => seconds) >= longSeconds
  return isLong || work.repeats
}

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
  const { is, changes } = cutItem(items[run.item]!, isHalved(run) ? 0.5 : 1, prescription)
  if (changes.length === 0 && rest === '') return null
  items[run.item] = is as RunItem
  const half = changes.length > 0 && `half (${changes.join(', ')})`
  const like = days > sinceAny ? 'run half as long' : 'run'
  const since = sinceText(days, pain, isRanged(work) ? 'paced run' : like)
  return verdict(half ? 'fewer' : 'same', `${since} -> ${joined(', ', [half, rest])}`)
}

function moveRange(work: Ranged, factor: number, reason: string, decision: 'up' | 'down'): Verdict {
  const { target } = work.body
  const moved = movedBy(factor, target)
  const text = printTarget(moved)
  if (text === printTarget(target)) {
    const least = target.kind === 'speed' ? `0.1 ${target.unit}` : 'a second'
    const why = target.kind === 'goal' ? "the goal's" : `less than ${least}`
    return verdict('same', `${reason.replace(/ -> .*/, '')} -> same range: ${why}`)
  }
  work.body.target = moved
  return verdict(decision, `${reason}, ${text}`)
}

/** Both ends of a range move by the same whole seconds or tenths of a speed: rounded one by one, they close in on each
 * other over a season. The pace of the goal stays. */
function movedBy(factor: number, target: Range): Range {
  if (target.kind === 'goal') return target
  const [share, parts] = target.kind === 'speed' ? [1 / factor, 10] : [factor, 1]
  const moved = ({ from, to }: Span): Span => {
    const middle = (from + to) / 2
    const change = Math.round((middle * share - middle) * parts) / parts
    return { from: roundTo(from + change, 3), to: roundTo(to + change, 3) }
  }
  if (target.kind === 'times') return { ...target, each: target.each.map(moved) }
  if (target.kind !== 'progression') return { ...target, ...moved(target) }
  const { from, to } = moved({ from: target.first, to: target.last })
  return { ...target, first: from, last: to }
}

/** `6 x 500 m`, `10:00 warm-up`; `5 x 3:00` also of a group without another interval, `5 x (3:00 hard, jog 2:00)`. */
export function runName(prescription: Prescription, run: DoneWork): string {
  const { step } = itemAt(prescription, run)
  const { times, body } = workAt(prescription, run)
  const ofGroup = step.kind === 'work' && repeatsIn(step).length === 1 ? step.times : null
  const repeats = times ?? ofGroup
  const word = body.target?.kind === 'word' && body.target.word
  return joined(' ', [repeats !== null && `${repeats} x`, printAmounts(body.amounts), word])
}
