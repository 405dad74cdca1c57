import { longerGapDays, longGapDays } from '../figures/advice.ts'
import type { Interval, Prescription, Recovery, RunItem, Target, Work } from '../prescription/model.ts'
import { printAmounts, printTarget } from '../prescription/print.ts'
import { isRaceWord } from '../prescription/words.ts'
import { isWarningNoted, needsADoctor } from '../session/pain.ts'
import type { SessionState } from '../session/state.ts'
import { addedSteps } from '../summary/changes.ts'
import { type DoneWork, worksDone } from '../summary/performed.ts'
import { daysBetween } from '../units/calendarDate.ts'
import { counted } from '../units/decimal.ts'
import { metersOf } from '../units/length.ts'
import type { OtherSessions } from './liftDays.ts'
import type { Lifter } from './loadSteps.ts'
import { type DatedPain, isRunCoveredByPain, painReason, sinceText } from './pain.ts'

/** One decision about one line. `up` and `down` change the load or the range, `more` and `fewer` the repetitions or
 * repeats. */
export interface Decision {
  part: number
  item: number
  /** The athlete's name for it: the exercise, or the run as written without its target. */
  name: string
  decision: 'same' | 'up' | 'down' | 'fewer' | 'more'
  /** Observation and conclusion: `complete at 8, 8.5 on 70 kg twice -> 72.5 kg`. */
  reason: string
  /** The pain that leaves the line unchanged. */
  pain?: DatedPain
}

/** A decision before its line is known. */
export type Verdict = Omit<Decision, 'part' | 'item' | 'name'>

/** @param pain the one that leaves the line unchanged */
export function verdict(decision: Decision['decision'], reason: string, pain?: DatedPain): Verdict {
  return { decision, reason, ...(pain && { pain }) }
}

/** An interval, repeated or not. */
type Repeats = Work & { body: Interval }

/** An interval whose range can be moved. */
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

/** What a decision about a line uses besides the session itself. */
export interface Known {
  others: OtherSessions
  /** Those that count today, as `standingPains` orders them. */
  pains: readonly DatedPain[]
  /** Local date of the decision, YYYY-MM-DD. */
  today: string
  /** The date of the last run of any kind; null if unknown. */
  ranOn: string | null
  /** The loads that can be made, by unit. */
  atHand: Lifter['atHand']
  /** The leg lift later in this session than a part that was too hard because of the running; null without one. */
  tiredLift: (part: number) => string | null
}

/** Decides about one interval; changes `work` if its range, its length or its repeats change. Null if no rule applies. */
export function decideRun(state: SessionState, run: DoneWork, work: Repeats, known: Known): Verdict | null {
  const { others, pains, today, ranOn } = known
  const pain = pains.find(isRunCoveredByPain)
  if (pain && needsADoctor(pain)) return verdict('same', painReason(pain), pain)
  if (!isRanged(work)) return easyRunAfterAGap(work, ranOn === null ? 0 : daysBetween(ranOn, today))
  const now = runDay(state, run)
  const ordinal = sameRuns(state, run).findIndex(({ part, item }) => part === run.part && item === run.item)
  const past = pastRuns(run, ordinal, others.before, state.date)
  const all = [...pastRuns(run, ordinal, others.later), now, ...past]
  const lastDate = all.find((day) => day.judged > 0)?.date ?? null
  const away = lastDate === null ? 0 : daysBetween(lastDate, today)
  if (away > longGapDays) return runAfterAGap(work, away, pain)
  if (pain) return verdict('same', painReason(pain), pain)
  if (now.judged === 0) return null
  const at = now.effort === null ? '' : ` at effort ${now.effort}`
  const isFast = now.fast * 2 >= now.judged
  if (isFast && (now.effort ?? 0) >= 9) {
    const faster = countText(now.fast, now, 'faster than the range')
    return verdict('same', `${faster}${at} -> run the written range`)
  }
  const seen = `${countText(now.kept, now, now.fast > 0 ? 'in range or faster' : 'in range')}${at}`
  // Splits that were left out argue neither for a slower range nor for a faster one.
  if (now.kept * 2 < now.judged) return moveRange(work, 1.02, `${seen} -> 2 % slower`, 'down')
  const isGood = (day: RunDay) =>
    !day.isUnwell &&
    day.kept * 5 >= (day.judged + day.leftOut) * 4 &&
    day.judged > 0 &&
    day.effort !== null &&
    day.effort <= 8
  if (!isGood(now)) return verdict('same', `${seen} -> same range`)
  const [previous] = past
  if (previous === undefined || !isGood(previous) || isLongBetween(previous, now))
    return verdict('same', `${seen} -> same range, once more`)
  const tired = isFast ? known.tiredLift(run.part) : null
  if (tired !== null)
    return verdict('same', `${seen}, twice, but ${tired} was too hard after it -> run the written range`)
  return moveRange(work, 0.99, `${seen}, twice -> 1 % faster`, 'up')
}

/** `3 of 4 in range (1 left out)` */
function countText(count: number, { judged, leftOut }: RunDay, what: string): string {
  return `${count} of ${judged + leftOut} ${what}${leftOut === 0 ? '' : ` (${leftOut} left out)`}`
}

interface RunDay {
  date: string | null
  judged: number
  /** Prescribed and not recorded. */
  leftOut: number
  fast: number
  /** In range or faster. */
  kept: number
  effort: number | null
  /** A sign that needs a doctor was noted. */
  isUnwell: boolean
}

function runDay(state: SessionState, run: DoneWork): RunDay {
  const judged = run.splits.filter((split) => split.target !== null)
  const added = addedSteps(state)
  const prescribed = run.steps.filter((step) => !added.has(step.id))
  return {
    date: state.date,
    judged: judged.length,
    leftOut: Math.max(0, prescribed.length - run.splits.length),
    fast: judged.filter((split) => split.target === 'fast').length,
    kept: judged.filter((split) => split.target !== 'slow').length,
    effort: effortOf(state, run),
    isUnwell: isWarningNoted(state),
  }
}

/** The highest effort typed for it, else that of its part. */
export function effortOf(state: SessionState, run: DoneWork): number | null {
  const typed = run.splits.flatMap(({ result }) => result.rpe ?? [])
  return typed.length > 0 ? Math.max(...typed) : state.partStates[run.part]!.effort
}

/** Whether two days are so far apart that doing well on both is no reason to do more: the count starts again after a
 * long gap. */
export function isLongBetween(one: { date: string | null }, later: { date: string | null }): boolean {
  return one.date !== null && later.date !== null && daysBetween(one.date, later.date) > longGapDays
}

/** The same run on the two newest other days.
 * @param ordinal how many lines before it have the same text
 * @param except the date of the day itself */
function pastRuns(
  run: DoneWork,
  ordinal: number,
  sessions: Iterable<SessionState>,
  except: string | null = null,
): RunDay[] {
  const days: RunDay[] = []
  for (const state of sessions) {
    if (except !== null && state.date === except) continue
    const same = sameRuns(state, run)[ordinal]
    if (same) days.push(runDay(state, same))
    if (days.length >= 2) break
  }
  return days
}

function sameRuns(state: SessionState, { text, index }: DoneWork): DoneWork[] {
  return worksDone(state, 'run').filter((each) => each.text === text && each.index === index)
}

function runAfterAGap(work: Ranged, days: number, pain: DatedPain | undefined): Verdict {
  const rest = `no faster range${days > longerGapDays ? ', easy running first' : ''}`
  const since = sinceText(days, pain)
  const times = work.times ?? 1
  if (times >= 2) {
    work.times = Math.ceil(times / 2)
    return verdict('fewer', `${since} -> ${counted(work.times, 'repeat')}, ${rest}`)
  }
  if (!halve(work)) return verdict('same', `${since} -> ${rest}`)
  return verdict('fewer', `${since} -> ${printAmounts(work.body.amounts)}, ${rest}`)
}

/** Shortens a run without a range, such as an easy one, but only after weeks without any running, and never a
 * race. */
function easyRunAfterAGap(work: Repeats, days: number): Verdict | null {
  if (days <= longGapDays) return null
  const { target } = work.body
  if (target?.kind === 'word' && isRaceWord(target.word))
    return verdict('same', `${sinceText(days, undefined, 'run')} -> easy running first`)
  if ((work.times ?? 1) > 1 || !halve(work)) return null
  return verdict('fewer', `${sinceText(days, undefined, 'run')} -> ${printAmounts(work.body.amounts)}`)
}

/** Halves a continuous run of at least 5 km, 3 miles or 25 minutes, rounded up to whole kilometres, miles, 500 m or 5
 * minutes; false for any other. This program's own rule. */
function halve({ body }: Repeats): boolean {
  const [amount, ...others] = body.amounts
  if (amount === undefined || others.length > 0) return false
  if (amount.kind === 'time') {
    if (amount.seconds < 1500) return false
    body.amounts = [{ ...amount, seconds: Math.ceil(amount.seconds / 600) * 300 }]
    return true
  }
  const { value, unit } = amount.length
  const step = unit === 'm' ? 500 : unit === 'km' || unit === 'mi' ? 1 : null
  if (step === null || metersOf(amount.length) < 4800) return false
  body.amounts = [{ ...amount, length: { value: Math.ceil(value / 2 / step) * step, unit } }]
  return true
}

function moveRange(work: Ranged, factor: number, reason: string, decision: 'up' | 'down'): Verdict {
  const { target } = work.body
  const fresh = { from: Math.round(target.from * factor), to: Math.round(target.to * factor) }
  if (fresh.from === target.from && fresh.to === target.to)
    return verdict('same', `${reason.replace(/ -> .*/, '')} -> same range: less than a second`)
  work.body.target = { ...target, ...fresh }
  return verdict(decision, `${reason}, ${printTarget(work.body.target)}`)
}

/** `6 x 500 m` */
export function runName(work: Repeats): string {
  const amounts = printAmounts(work.body.amounts)
  return work.times === null ? amounts : `${work.times} x ${amounts}`
}
