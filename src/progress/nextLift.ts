import { sum } from 'd3-array'
import { lessText, longerGapDays, longGapDays } from '../figures/advice.ts'
import type { Exercise, LiftItem, Load } from '../prescription/model.ts'
import { printDose, printLoad } from '../prescription/print.ts'
import { needsADoctor } from '../session/pain.ts'
import type { SessionState } from '../session/state.ts'
import { isLegLift } from '../summary/hard.ts'
import { isMeantToTheLimit, worksDone } from '../summary/performed.ts'
import { daysBetween } from '../units/calendarDate.ts'
import { kilogramsOf, printMass } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import {
  hasSameLoads,
  isAtOtherLoads,
  isMissedSince,
  joined,
  type LiftDay,
  type LiftLine,
  lastLifted,
  liftDay,
  loadsText,
  type OtherSessions,
  pastDays,
} from './liftDays.ts'
import { type AtHand, changedLoad, fewerReps, loadKilograms, moreReps } from './loadSteps.ts'
import { effortOf, isLongBetween, type Made, made } from './nextRun.ts'
import { type DatedPain, painCovering, painReason, sinceText } from './pain.ts'

const reasonableEffort = 8.5

function isPairLoaded({ sets }: LiftLine['written']): boolean {
  return sets.some(({ load }) => load?.kind === 'mass' && load.pair)
}

/** Decides about one exercise of a lift line; changes `item` if its load or repetitions change. */
export function decideLift(
  state: SessionState,
  line: LiftLine,
  item: LiftItem,
  others: OtherSessions,
  pains: readonly DatedPain[],
  today: string,
  atHand: (unit: MassUnit) => AtHand,
): Made {
  const { name } = line.written
  const now = liftDay(state, line)
  const pain = painCovering(pains, { name, isPair: isPairLoaded(line.written) })
  if (pain && needsADoctor(pain)) return made(name, 'same', painReason(pain), pain)
  const [previous] = pastDays(now, others)
  const liftedOn = lastLifted(name, state, others)?.date ?? null
  const away = liftedOn === null ? 0 : daysBetween(liftedOn, today)
  if (away > longGapDays) return afterAGap(state, item, now, previous, away, pain, atHand)
  if (pain) return made(name, 'same', painReason(pain), pain)
  const tooHard = tooHardText(now)
  if (tooHard !== null) {
    if (isLegLift(name) && ranTooHard(state, line.part, others.before))
      return made(name, 'same', `${tooHard} after a hard run -> unchanged, run the written pace first`)
    return afterTooHard(state, tooHard, item, now, previous, atHand)
  }
  const [above] = effortsAbove(now)
  if (above !== undefined) return sameAsLifted(now, item, effortText(above))
  if (now.outcome !== 'complete') {
    if (now.sets.length === 0 || !isAtOtherLoads(now)) return { name, decision: null }
    const seen = `${repsText(now)} on ${loadsText(now.loads)}`
    return made(name, 'same', `${seen}, written ${loadsText(now.prescribed)} -> unchanged`)
  }
  if (!isReasonable(now)) return { name, decision: null }
  // Such a line gets heavier by itself.
  const fromLast = line.written.sets.find(({ load }) => load?.kind === 'last')?.load
  if (fromLast) return made(name, 'same', `${completeText(now)} -> ${printLoad(fromLast)}`)
  const isTwice =
    previous?.outcome === 'complete' &&
    !isLongBetween(previous, now) &&
    !isMissedSince(previous, now, others) &&
    isReasonable(previous) &&
    hasSameLoads(previous, now) &&
    hasSameDoses(previous.line.written, line.written)
  if (!isTwice) return sameAsLifted(now, item, `${completeText(now)} once`, 'same', ', once more')
  return heavierOrMore(state, line, item, now, others, atHand)
}

/** Keeps the load that was lifted, and writes it out where the line names another one, a heavier one only if it went well.
 * @param same what it is called where the line stays @param aim what follows */
function sameAsLifted(
  now: LiftDay,
  item: LiftItem,
  seen: string,
  same = sameText(now.line.written),
  aim = '',
): Made {
  const { name } = now.line.written
  const isHeavier = now.sets.some(({ beside }) => beside > 0)
  const isTooHeavy = isHeavier && (now.outcome !== 'complete' || !isReasonable(now))
  if (!isAtOtherLoads(now) || isTooHeavy) return made(name, 'same', `${seen} -> ${same}${aim}`)
  const exercise = item.exercises[now.line.exercise] as Exercise
  writeLoads(exercise, now, now.loads)
  const kept = `${exerciseLoads(exercise)}${aim}${withoutWarmUpAbove(item)}`
  return made(name, isHeavier ? 'up' : 'down', `${seen} -> ${kept}`)
}

/** Less than what was lifted the last time or, if that is lighter, than what is written. */
function afterAGap(
  { bodyMassKg: bodyKg }: SessionState,
  item: LiftItem,
  now: LiftDay,
  previous: LiftDay | undefined,
  days: number,
  pain: DatedPain | undefined,
  atHand: (unit: MassUnit) => AtHand,
): Made {
  const { line, prescribed } = now
  const { name } = line.written
  const share = days > longerGapDays ? 20 : 10
  const since = sinceText(days, pain)
  const exercise = item.exercises[line.exercise] as Exercise
  const { loads } = now.sets.length > 0 ? now : (previous ?? now)
  const from = loads.map((load, at) => lighterOf(load, prescribed[at] ?? null, name))
  const lighter = changedLoads({ line, loads: from }, (load) =>
    changedLoad(load, 1 - share / 100, 'share', atHand, { name, bodyKg, least: 1 }),
  )
  if (lighter === null) return made(name, 'same', `${since} -> begin easily`)
  const what = lighter[0]?.kind === 'bodyweight' ? ' added load' : ' load'
  const less = lessOf(from, lighter, loadOnly, what)
  writeLoads(exercise, now, lighter)
  return made(name, 'down', `${since} -> ${less}, ${exerciseLoads(exercise)}${withoutWarmUpAbove(item)}`)
}

/** The one whose mass is known, if only one is. */
function lighterOf(lifted: Load | null, written: Load | null, name: string): Load | null {
  const [liftedKg, writtenKg] = [lifted, written].map((load) => load && loadKilograms(load, name, 0))
  if (liftedKg == null) return written ?? lifted
  return writtenKg == null || liftedKg < writtenKg ? lifted : written
}

/** What was too hard about a day: a set missed, or half of its sets at an effort 1 above the written one. Null
 * if nothing was. */
function tooHardText(day: LiftDay): string | null {
  if (day.outcome === 'missed')
    return `${repsText(day)} ${day.sets.some(({ result }) => result.failed) ? 'failed' : 'short'}`
  const above = effortsAbove(day).filter(({ written }) => written !== null)
  const [first] = above
  return first === undefined ||
    day.sets.some(({ beside }) => beside > 0) ||
    above.length * 2 < day.sets.length
    ? null
    : effortText(first)
}

function afterTooHard(
  { bodyMassKg: bodyKg }: SessionState,
  seen: string,
  item: LiftItem,
  now: LiftDay,
  previous: LiftDay | undefined,
  atHand: (unit: MassUnit) => AtHand,
): Made {
  const { written, exercise: at } = now.line
  const { name } = written
  const isTwice = previous !== undefined && tooHardText(previous) !== null && hasSameLoads(previous, now)
  if (!isTwice)
    return sameAsLifted(now, item, seen, sameText(written), now.outcome === 'missed' ? aimText(written) : '')
  const exercise = item.exercises[at] as Exercise
  const isAlike = (now.outcome === 'missed') === (previous.outcome === 'missed')
  const twice = `${seen}, ${isAlike ? '' : 'too hard '}twice${withLoads('at', now)}`
  const lighter = changedLoads(now, (load) =>
    changedLoad(load, 0.95, 'near', atHand, { name, bodyKg, least: 1 }),
  )
  if (lighter) {
    const less = lessOf(now.loads, lighter, (load) => loadKilograms(load, name, bodyKg) ?? 0)
    writeLoads(exercise, now, lighter)
    return made(name, 'down', `${twice} -> ${less}, ${exerciseLoads(exercise)}${withoutWarmUpAbove(item)}`)
  }
  const same = sameText(exercise)
  // Fewer repetitions of a load that follows the last one would be an easier day at a heavier load.
  const isFromLast = written.sets.some(({ load }) => load?.kind === 'last')
  if (isAtOtherLoads(now)) writeLoads(exercise, now, now.loads)
  if (!isFromLast && fewerReps(exercise, 2)) return made(name, 'fewer', `${twice} -> ${same}, 2 reps fewer`)
  return made(name, 'same', `${twice} -> ${same}`)
}

/** Adds up to two repetitions if no load 2.5 to 5 % higher can be made; then takes the next load, at most 10 % more. */
function heavierOrMore(
  state: SessionState,
  line: LiftLine,
  item: LiftItem,
  now: LiftDay,
  others: OtherSessions,
  atHand: (unit: MassUnit) => AtHand,
): Made {
  const { name } = line.written
  const exercise = item.exercises[line.exercise] as Exercise
  const seen = `${completeText(now)} twice`
  const bodyKg = state.bodyMassKg
  const step = (least: number, most: number): boolean => {
    const heavier = changedLoads(now, (load) => {
      const moved = (each: Load) => loadKilograms(each, name, bodyKg) ?? 0
      const next = changedLoad(load, 1, 'above', atHand, { name, bodyKg, least })
      return next && moved(next) <= most * moved(load) + 1e-6 ? next : null
    })
    if (heavier) writeLoads(exercise, now, heavier)
    return heavier !== null
  }
  if (step(1.025, 1.05)) return made(name, 'up', `${seen} -> ${exerciseLoads(exercise)}`)
  const added = repsAdded(now, others)
  const isLoaded = now.loads.some((load) => load !== null)
  if (added < 2 && moreReps(exercise, 1)) {
    const why = isLoaded ? '; the next load is too far' : ''
    if (isAtOtherLoads(now)) writeLoads(exercise, now, now.loads)
    return made(name, 'more', `${seen}${why} -> one rep more, ${dosesText(exercise)}`)
  }
  if (step(1, 1.1)) {
    fewerReps(exercise, added)
    return made(
      name,
      'up',
      `${seen} -> ${exerciseLoads(exercise)}${added > 0 ? ` x ${dosesText(exercise)}` : ''}`,
    )
  }
  return made(name, 'same', `${seen}${isLoaded ? '; no next load within 10 %' : ''} -> same`)
}

function hasLoad({ sets }: Exercise): boolean {
  return sets.some(({ load }) => load !== null)
}

function sameText(exercise: Exercise): string {
  return hasLoad(exercise) ? 'same load' : 'same'
}

/** Repetitions per set added at this load over the last consecutive days. */
function repsAdded(now: LiftDay, others: OtherSessions): number {
  const reps = firstReps(now.line.written)
  let least = reps
  for (const day of pastDays(now, others)) {
    if (!hasSameLoads(day, now)) break
    least = Math.min(least, firstReps(day.line.written))
  }
  return reps - least
}

/** The fewest prescribed repetitions of the first set; 0 if it is not counted in them. */
function firstReps({ sets: [first] }: Exercise): number {
  return first?.dose.kind === 'reps' ? first.dose.from : 0
}

/** Whether a run before this part, or in a session before it on the same day, was faster than prescribed or at an
 * effort of at least 9. @param before the earlier sessions, newest first */
function ranTooHard(state: SessionState, part: number, before: Iterable<SessionState>): boolean {
  if (ranTooHardIn(state, part)) return true
  for (const other of before) {
    if (other.date === null || other.date !== state.date) return false
    if (ranTooHardIn(other, other.parts.length)) return true
  }
  return false
}

function ranTooHardIn(state: SessionState, part: number): boolean {
  return worksDone(state, 'run').some((run) => {
    if (run.part >= part) return false
    const judged = run.splits.filter((split) => split.target !== null)
    const fast = judged.filter((split) => split.target === 'fast')
    return (judged.length > 0 && fast.length * 2 >= judged.length) || (effortOf(state, run) ?? 0) >= 9
  })
}

interface EffortAbove {
  typed: number
  written: number | null
}

/** The efforts of a day that are too high: 1 above the written one, or 10 without one. */
function effortsAbove(day: LiftDay): EffortAbove[] {
  return day.sets.flatMap(({ step, result }) => {
    if (step.rpe === null && isMeantToTheLimit(step.dose, result)) return []
    const written = step.rpe?.to ?? null
    const typed = result.rpe ?? 0
    return typed >= (written === null ? 10 : written + 1) ? [{ typed, written }] : []
  })
}

function effortText({ typed, written }: EffortAbove): string {
  return written === null ? `effort ${typed}` : `effort ${typed}, written ${written}`
}

/** At or below the prescribed effort by `outcome`; without one, no effort above 8.5 was typed. */
function isReasonable(day: LiftDay): boolean {
  return day.sets.every(
    ({ step, result }) =>
      step.rpe !== null || isMeantToTheLimit(step.dose, result) || (result.rpe ?? 0) <= reasonableEffort,
  )
}

function completeText(day: LiftDay): string {
  const efforts = day.sets.map(({ result }) => result.rpe)
  const at = efforts.every((rpe) => rpe !== null) ? ` at ${efforts.join(', ')}` : ''
  return `complete${at}${withLoads('on', day)}`
}

/** ` on 92.5 kg`; empty without a load. */
function withLoads(word: 'on' | 'at', { loads }: LiftDay): string {
  return loads.every((load) => load === null) ? '' : ` ${word} ${loadsText(loads)}`
}

function aimText(exercise: Exercise): string {
  const reps = firstReps(exercise)
  return reps === 0 ? '' : `, aim for ${reps}`
}

function repsText(day: LiftDay): string {
  return day.sets
    .map(
      ({ result: { reps, groups, seconds, meters } }) =>
        groups?.join('+') ?? reps ?? seconds ?? meters ?? '-',
    )
    .join(', ')
}

/** Other loads in place of a day's; null if one of them cannot change. */
function changedLoads(
  { line, loads }: Pick<LiftDay, 'line' | 'loads'>,
  change: (load: Load) => Load | null,
): Load[] | null {
  // The loads of a drop set go down together.
  if (line.written.sets.some(({ dose }) => dose.kind === 'drop')) return null
  const changed = loads.flatMap((load) => (load && change(load)) ?? [])
  return changed.length === loads.length ? changed : null
}

/** Writes the loads of another day of a line; what is written in per cent stays so. */
function writeLoads(exercise: Exercise, { prescribed }: LiftDay, loads: readonly (Load | null)[]): void {
  exercise.sets = exercise.sets.map((set, at) => {
    const [was, load] = [prescribed[at], loads[at] ?? null]
    if (set.load?.kind !== 'percent' || was?.kind !== 'mass' || load?.kind !== 'mass') return { ...set, load }
    const share = load.from / was.from
    const { from, to } = set.load
    return { ...set, load: { ...set.load, from: Math.round(from * share), to: Math.round(to * share) } }
  })
}

function hasSameDoses(one: Exercise, other: Exercise): boolean {
  const textOf = ({ sets }: Exercise) => JSON.stringify(sets.map(({ dose }) => dose))
  return textOf(one) === textOf(other)
}

/** `5 % less`, of the loads of all sets together, or `more help`.
 * @param amountOf what of a load is compared @param what is less, after a space */
function lessOf(
  before: readonly (Load | null)[],
  after: readonly Load[],
  amountOf: (load: Load) => number,
  what = '',
): string {
  if (before.some((load) => load?.kind === 'bodyweight' && load.added < 0)) return 'more help'
  const sumOf = (loads: readonly (Load | null)[]) => sum(loads, (load) => load && amountOf(load))
  return `${lessText(sumOf(before), sumOf(after))}${what}`
}

/** Without the body. */
function loadOnly(load: Load): number {
  return 'added' in load ? load.added : load.from
}

function exerciseLoads({ sets }: Exercise): string {
  return loadsText(sets.map(({ load }) => load))
}

function dosesText(exercise: Exercise): string {
  return joined(exercise.sets.map(({ dose }) => printDose(dose)))
}

/** A warm-up begins below the load it leads to. */
function withoutWarmUpAbove(item: LiftItem): string {
  const load = item.exercises[0]?.sets[0]?.load
  const { buildFrom } = item
  if (buildFrom === null || load?.kind !== 'mass') return ''
  if (kilogramsOf(buildFrom) < kilogramsOf({ value: load.from, unit: load.unit })) return ''
  item.buildFrom = null
  return `; no warm-up from ${printMass(buildFrom)}`
}
