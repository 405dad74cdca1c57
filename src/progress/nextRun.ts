import { longerGapDays, longGapDays } from '../figures/advice.ts'
import type { Prescription, Work } from '../prescription/model.ts'
import { printAmounts, printTarget } from '../prescription/print.ts'
import type { SessionState } from '../session/state.ts'
import { type DoneWork, worksDone } from '../summary/performed.ts'
import { type DatedPain, isRunCoveredByPain, needsADoctor, painReason, sinceText } from './pain.ts'
import { daysBetween } from './weeks.ts'

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
  /** The pain for which the line stays as it is. */
  pain?: DatedPain
}

/** A decision before its place is known; `decision` null: no rule applies to the line. */
export type Made = Omit<Decision, 'part' | 'item'> | { name: string; decision: null }

/** How many earlier sessions are read for a line that was not done recently. */
export const mostReadSessions = 60

export interface RunLine {
  part: number
  item: number
  /** Its index among the intervals of its line. */
  work: number
  done: DoneWork
  /** The line as it is written. */
  text: string
}

/** Every interval of the run parts, in the order of the file. */
export function runLines(state: SessionState): RunLine[] {
  const counted = new Map<string, number>()
  return worksDone(state, 'run').flatMap((done) => {
    const item = state.parts[done.part]?.items.findIndex((each) => each.line === done.line) ?? -1
    if (item === -1) return []
    const place = `${done.part}.${item}`
    const work = counted.get(place) ?? 0
    counted.set(place, work + 1)
    return [{ part: done.part, item, work, done, text: state.parts[done.part]?.items[item]?.text ?? '' }]
  })
}

/** The interval of the prescription for a line of the summary; null if it has no range to move. */
export function workAt(prescription: Prescription, run: RunLine): Work | null {
  const item = prescription.parts[run.part]?.items[run.item]
  if (!item || !('step' in item) || item.step.kind !== 'work') return null
  const intervals: Work[] = []
  const collect = (work: Work) => {
    if (work.body.kind === 'piece') intervals.push(work)
    else for (const step of work.body.steps) if (step.kind === 'work') collect(step)
  }
  collect(item.step)
  const work = intervals[run.work] ?? null
  if (work?.body.kind !== 'piece') return null
  const kind = work.body.target?.kind
  return kind === 'pace' || kind === 'time' ? work : null
}

/** Decides about one interval; changes `work` if its range or repeats change. */
export function decideRun(
  state: SessionState,
  run: RunLine,
  work: Work,
  before: Iterable<SessionState>,
  pains: readonly DatedPain[],
  today: string,
): Made {
  const name = runName(work)
  const covering = pains.filter(isRunCoveredByPain)
  const pain = covering.find(needsADoctor) ?? covering[0]
  if (pain && needsADoctor(pain)) return { name, decision: 'same', reason: painReason(pain), pain }
  const now = runDay(state, run)
  const past = pastRuns(run, before)
  const lastDate = now.judged > 0 ? state.date : (past.find((day) => day.judged > 0)?.date ?? null)
  const away = lastDate === null ? 0 : daysBetween(lastDate, today)
  if (away > longGapDays) return runAfterAGap(name, work, away, pain)
  if (pain) return { name, decision: 'same', reason: painReason(pain), pain }
  if (now.judged === 0) return { name, decision: null }
  const at = now.effort === null ? '' : ` at effort ${now.effort}`
  const isFast = now.fast * 2 >= now.judged
  if (isFast && (now.effort ?? 0) >= 9)
    return {
      name,
      decision: 'same',
      reason: `${now.fast} of ${now.judged} faster than the range${at} -> run the written range`,
    }
  const seen = `${now.kept} of ${now.judged} ${now.fast > 0 ? 'in range or faster' : 'in range'}${at}`
  if (now.kept * 2 < now.judged) return moveRange(name, work, 1.02, `${seen} -> 2 % slower`, 'down')
  const isGood = (day: RunDay) =>
    day.kept * 5 >= day.judged * 4 && day.judged > 0 && day.effort !== null && day.effort <= 8
  if (!isGood(now)) return { name, decision: 'same', reason: `${seen} -> same range` }
  const [previous] = past
  if (previous === undefined || !isGood(previous))
    return { name, decision: 'same', reason: `${seen} -> same range, once more` }
  return moveRange(name, work, 0.99, `${seen}, twice -> 1 % faster`, 'up')
}

interface RunDay {
  date: string | null
  judged: number
  fast: number
  /** In range or faster. */
  kept: number
  effort: number | null
}

function runDay(state: SessionState, run: RunLine): RunDay {
  const judged = run.done.splits.filter((split) => split.target !== null)
  return {
    date: state.date,
    judged: judged.length,
    fast: judged.filter((split) => split.target === 'fast').length,
    kept: judged.filter((split) => split.target !== 'slow').length,
    effort: effortOf(state, run),
  }
}

/** The highest effort typed for it, else that of its part. */
export function effortOf(state: SessionState, run: RunLine): number | null {
  const typed = run.done.splits.flatMap(({ result }) => result.rpe ?? [])
  return typed.length > 0 ? Math.max(...typed) : (state.partStates[run.part]?.effort ?? null)
}

function pastRuns(run: RunLine, before: Iterable<SessionState>): RunDay[] {
  const days: RunDay[] = []
  let read = 0
  for (const state of before) {
    if (read++ >= mostReadSessions) break
    const same = runLines(state).find((each) => each.text === run.text && each.work === run.work)
    if (same) days.push(runDay(state, same))
    if (days.length >= 2) break
  }
  return days
}

function runAfterAGap(name: string, work: Work, days: number, pain: DatedPain | undefined): Made {
  const since = sinceText(days, pain)
  const easyFirst = days > longerGapDays ? ', easy running first' : ''
  if (work.times === null || work.times < 2)
    return { name, decision: 'same', reason: `${since} -> no faster range${easyFirst}` }
  work.times = Math.ceil(work.times / 2)
  return { name, decision: 'fewer', reason: `${since} -> ${work.times} repeats, no faster range${easyFirst}` }
}

function moveRange(name: string, work: Work, factor: number, reason: string, decision: 'up' | 'down'): Made {
  if (work.body.kind !== 'piece' || work.body.target === null) return { name, decision: null }
  const { target } = work.body
  if (target.kind !== 'pace' && target.kind !== 'time') return { name, decision: null }
  const fresh = { from: Math.round(target.from * factor), to: Math.round(target.to * factor) }
  if (fresh.from === target.from && fresh.to === target.to)
    return {
      name,
      decision: 'same',
      reason: `${reason.replace(/ -> .*/, '')} -> same range: less than a second`,
    }
  work.body.target = { ...target, ...fresh }
  return { name, decision, reason: `${reason}, ${printTarget(work.body.target)}` }
}

function runName(work: Work): string {
  if (work.body.kind !== 'piece') return ''
  const amounts = printAmounts(work.body.amounts)
  return work.times === null ? amounts : `${work.times} x ${amounts}`
}
