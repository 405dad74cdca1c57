import { sum } from 'd3-array'
import { lessText, longerGapDays, longGapDays } from '../figures/advice.ts'
import { exerciseKey } from '../prescription/exercise.ts'
import type { Exercise, LiftItem, Load } from '../prescription/model.ts'
import { printDose, printLoad } from '../prescription/print.ts'
import { isSameItem, type SetStep } from '../prescription/step.ts'
import { isWarningNoted, needsADoctor } from '../session/pain.ts'
import { prescribedLoadOf } from '../session/prompt.ts'
import type { SetResult } from '../session/result.ts'
import { resultOf, type SessionState } from '../session/state.ts'
import { isLegLift } from '../summary/hard.ts'
import { doseDone, isMeantToTheLimit, kilogramsOfLoad, worksDone } from '../summary/performed.ts'
import { daysBetween } from '../units/calendarDate.ts'
import { kilogramsOf, printMass } from '../units/mass.ts'
import type { MassUnit } from '../units/model.ts'
import { type AtHand, changedLoad, fewerReps, loadKilograms, moreReps } from './loadSteps.ts'
import { effortOf, isLongBetween, type Made, made } from './nextRun.ts'
import { type DatedPain, painCovering, painReason, sinceText } from './pain.ts'

export interface LiftLine {
  part: number
  item: number
  exercise: number
  written: Exercise
}

/** An exercise of a line as it went on one day. */
interface LiftDay {
  date: string | null
  line: LiftLine
  outcome: LineOutcome
  results: SetResult[]
  /** A set was lifted at more than its written load. */
  isHeavier: boolean
}

const reasonableEffort = 8.5

export function liftLines(state: SessionState): LiftLine[] {
  return state.prescription.parts.flatMap((part, partIndex) =>
    part.kind !== 'lift'
      ? []
      : part.items.flatMap((item, itemIndex) =>
          item.exercises.map((written, exercise) => ({
            part: partIndex,
            item: itemIndex,
            exercise,
            written,
          })),
        ),
  )
}

function isPairLoaded({ sets }: LiftLine['written']): boolean {
  return sets.some(({ load }) => load?.kind === 'mass' && load.pair)
}

/** Decides about one exercise of a lift line; changes `item` if its load or repetitions change. */
export function decideLift(
  state: SessionState,
  line: LiftLine,
  item: LiftItem,
  before: Iterable<SessionState>,
  pains: readonly DatedPain[],
  today: string,
  atHand: (unit: MassUnit) => AtHand,
): Made {
  const { name } = line.written
  const now = liftDay(state, line)
  const pain = painCovering(pains, { name, isPair: isPairLoaded(line.written) })
  if (pain && needsADoctor(pain)) return made(name, 'same', painReason(pain), pain)
  const past = pastDays(line, before)
  const last = now.results.length > 0 ? now : past.find((day) => day.results.length > 0)
  const away = last === undefined || last.date === null ? 0 : daysBetween(last.date, today)
  if (away > longGapDays) return afterAGap(state, line, item, away, pain, atHand)
  if (pain) return made(name, 'same', painReason(pain), pain)
  const tooHard = tooHardText(now)
  if (tooHard !== null) {
    if (isLegLift(name) && ranTooHard(state, line.part, before))
      return made(name, 'same', `${tooHard} after a hard run -> unchanged, run the written pace first`)
    return afterTooHard(state, tooHard, line, item, now, past, atHand)
  }
  const [above] = effortsAbove(now)
  if (above !== undefined) return made(name, 'same', `${effortText(above)} -> ${sameText(line.written)}`)
  if (now.outcome !== 'complete' || !isReasonable(now)) return { name, decision: null }
  const previous = past.find((day) => day.results.length > 0)
  const isTwice =
    previous?.outcome === 'complete' &&
    !isLongBetween(previous, now) &&
    isReasonable(previous) &&
    hasSame('load', previous.line.written, line.written) &&
    hasSame('dose', previous.line.written, line.written)
  if (!isTwice) return made(name, 'same', `${completeText(now, 'once')} -> same, once more`)
  return heavierOrMore(state, line, item, now, past, atHand)
}

function liftDay(state: SessionState, line: LiftLine): LiftDay {
  const steps = setsOf(state, line)
  const results = steps.flatMap((step) => (step.insteadOf === null ? (resultOf(state, step) ?? []) : []))
  const isHeavier = steps.some((step) => {
    const load = resultOf(state, step)?.load ?? null
    const [written, lifted] = [prescribedLoadOf(state, step), load].map(kilogramsOfLoad)
    return written != null && lifted != null && lifted > written + 1e-6
  })
  return { date: state.date, line, outcome: lineOutcome(state, steps), results, isHeavier }
}

function setsOf(state: SessionState, line: LiftLine): SetStep[] {
  return state.steps.filter(
    (step): step is SetStep =>
      step.kind === 'set' && isSameItem(step, line) && step.exercise === line.exercise,
  )
}

/** The same exercise with the same number of sets on earlier days, newest first. */
function pastDays(line: LiftLine, before: Iterable<SessionState>): LiftDay[] {
  const key = exerciseKey(line.written.name)
  const days: LiftDay[] = []
  for (const state of before) {
    const same = liftLines(state).find(
      (each) =>
        exerciseKey(each.written.name) === key &&
        each.written.side === line.written.side &&
        each.written.sets.length === line.written.sets.length &&
        each.written.sets.every((set, at) => set.dose.kind === line.written.sets[at]?.dose.kind),
    )
    if (same) days.push(liftDay(state, same))
    if (days.length >= 6) break
  }
  return days
}

function afterAGap(
  { bodyMassKg: bodyKg }: SessionState,
  line: LiftLine,
  item: LiftItem,
  days: number,
  pain: DatedPain | undefined,
  atHand: (unit: MassUnit) => AtHand,
): Made {
  const { name } = line.written
  const share = days > longerGapDays ? 20 : 10
  const since = sinceText(days, pain)
  const exercise = item.exercises[line.exercise] as Exercise
  const isLighter = changeLoads(exercise, (load) =>
    changedLoad(load, 1 - share / 100, 'share', atHand, { name, bodyKg, least: 1 }),
  )
  if (!isLighter) return made(name, 'same', `${since} -> begin easily`)
  const what = isAddedLoad(exercise) ? ' added load' : ' load'
  const less = lessOf(line.written, exercise, loadOnly, what)
  return made(name, 'down', `${since} -> ${less}, ${loadsText(exercise)}${withoutWarmUpAbove(item)}`)
}

/** What was too hard about a day: a set missed, or half of its sets at an effort 1 above the written one. Null
 * if nothing was. */
function tooHardText(day: LiftDay): string | null {
  if (day.outcome === 'missed')
    return `${repsText(day)} ${day.results.some((set) => set.failed) ? 'failed' : 'short'}`
  const above = effortsAbove(day).filter(({ written }) => written !== null)
  const [first] = above
  return first === undefined || day.isHeavier || above.length * 2 < day.results.length
    ? null
    : effortText(first)
}

function afterTooHard(
  { bodyMassKg: bodyKg }: SessionState,
  seen: string,
  line: LiftLine,
  item: LiftItem,
  now: LiftDay,
  past: readonly LiftDay[],
  atHand: (unit: MassUnit) => AtHand,
): Made {
  const { name } = line.written
  const previous = past.find((day) => day.results.length > 0)
  const isTwice =
    previous !== undefined &&
    tooHardText(previous) !== null &&
    hasSame('load', previous.line.written, line.written)
  const aim = now.outcome === 'missed' ? aimText(line.written) : ''
  if (!isTwice) return made(name, 'same', `${seen} -> ${sameText(line.written)}${aim}`)
  const exercise = item.exercises[line.exercise] as Exercise
  const isAlike = (now.outcome === 'missed') === (previous.outcome === 'missed')
  const twice = `${seen}, ${isAlike ? '' : 'too hard '}twice${withLoads('at', exercise)}`
  const isLighter = changeLoads(exercise, (load) =>
    changedLoad(load, 0.95, 'near', atHand, { name, bodyKg, least: 1 }),
  )
  if (isLighter) {
    const less = lessOf(line.written, exercise, (load) => loadKilograms(load, name, bodyKg) ?? 0)
    return made(name, 'down', `${twice} -> ${less}, ${loadsText(exercise)}${withoutWarmUpAbove(item)}`)
  }
  const same = sameText(exercise)
  if (fewerReps(exercise, 2)) return made(name, 'fewer', `${twice} -> ${same}, 2 reps fewer`)
  return made(name, 'same', `${twice} -> ${same}`)
}

/** Adds up to two repetitions if no load 2.5 to 5 % higher can be made; then takes the next load, at most 10 % more. */
function heavierOrMore(
  state: SessionState,
  line: LiftLine,
  item: LiftItem,
  now: LiftDay,
  past: readonly LiftDay[],
  atHand: (unit: MassUnit) => AtHand,
): Made {
  const { name } = line.written
  const exercise = item.exercises[line.exercise] as Exercise
  const seen = completeText(now, 'twice')
  const bodyKg = state.bodyMassKg
  const step = (least: number, most: number) =>
    changeLoads(exercise, (load) => {
      const moved = (each: Load) => loadKilograms(each, name, bodyKg) ?? 0
      const heavier = changedLoad(load, 1, 'above', atHand, { name, bodyKg, least })
      return heavier && moved(heavier) <= most * moved(load) + 1e-6 ? heavier : null
    })
  if (step(1.025, 1.05)) return made(name, 'up', `${seen} -> ${loadsText(exercise)}`)
  const added = repsAdded(line, past)
  const isLoaded = hasLoad(exercise)
  if (added < 2 && moreReps(exercise, 1)) {
    const why = isLoaded ? '; the next load is too far' : ''
    return made(name, 'more', `${seen}${why} -> one rep more, ${dosesText(exercise)}`)
  }
  if (step(1, 1.1)) {
    fewerReps(exercise, added)
    return made(
      name,
      'up',
      `${seen} -> ${loadsText(exercise)}${added > 0 ? ` x ${dosesText(exercise)}` : ''}`,
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
function repsAdded(line: LiftLine, past: readonly LiftDay[]): number {
  let least = firstReps(line.written)
  for (const day of past) {
    if (!hasSame('load', day.line.written, line.written)) break
    least = Math.min(least, firstReps(day.line.written))
  }
  return firstReps(line.written) - least
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
  return day.results.flatMap((result, at) => {
    const set = day.line.written.sets[at]
    if (set && set.rpe === null && isMeantToTheLimit(set.dose, result)) return []
    const written = set?.rpe?.to ?? null
    const typed = result.rpe ?? 0
    return typed >= (written === null ? 10 : written + 1) ? [{ typed, written }] : []
  })
}

function effortText({ typed, written }: EffortAbove): string {
  return written === null ? `effort ${typed}` : `effort ${typed}, written ${written}`
}

/** At or below the prescribed effort by `outcome`; without one, no effort above 8.5 was typed. */
function isReasonable(day: LiftDay): boolean {
  return day.results.every((result, at) => {
    const set = day.line.written.sets[at]
    if (set && isMeantToTheLimit(set.dose, result)) return true
    return set?.rpe != null || (result.rpe ?? 0) <= reasonableEffort
  })
}

function completeText(day: LiftDay, times: 'once' | 'twice'): string {
  const efforts = day.results.map(({ rpe }) => rpe)
  const at = efforts.every((rpe) => rpe !== null) ? ` at ${efforts.join(', ')}` : ''
  return `complete${at}${withLoads('on', day.line.written)} ${times}`
}

/** ` on 92.5 kg`; empty without a load. */
function withLoads(word: 'on' | 'at', exercise: Exercise): string {
  const loads = loadsText(exercise)
  return loads === '-' ? '' : ` ${word} ${loads}`
}

function aimText(exercise: Exercise): string {
  const reps = firstReps(exercise)
  return reps === 0 ? '' : `, aim for ${reps}`
}

function repsText(day: LiftDay): string {
  return day.results
    .map(({ reps, groups, seconds, meters }) => groups?.join('+') ?? reps ?? seconds ?? meters ?? '-')
    .join(', ')
}

function changeLoads(exercise: Exercise, change: (load: Load) => Load | null): boolean {
  // The loads of a drop set go down together.
  if (exercise.sets.some(({ dose }) => dose.kind === 'drop')) return false
  const changed = exercise.sets.map(({ load }) => (load === null ? null : change(load)))
  if (changed.some((load) => load === null)) return false
  exercise.sets = exercise.sets.map((set, at) => ({ ...set, load: changed[at] ?? null }))
  return true
}

/** Whether two exercises have the same loads, or the same doses, set by set. */
function hasSame(what: 'load' | 'dose', one: Exercise, other: Exercise): boolean {
  const textOf = ({ sets }: Exercise) => JSON.stringify(sets.map((set) => set[what]))
  return textOf(one) === textOf(other)
}

/** `5 % less`, of the loads of all sets together, or `more help`.
 * @param amountOf what of a load is compared @param what is less, after a space */
function lessOf(before: Exercise, after: Exercise, amountOf: (load: Load) => number, what = ''): string {
  if (before.sets.some(({ load }) => load?.kind === 'bodyweight' && load.added < 0)) return 'more help'
  const sumOf = ({ sets }: Exercise) => sum(sets, ({ load }) => load && amountOf(load))
  return `${lessText(sumOf(before), sumOf(after))}${what}`
}

/** Without the body. */
function loadOnly(load: Load): number {
  if (load.kind === 'mass') return load.from
  return load.kind === 'bodyweight' ? load.added : 0
}

/** `92.5 kg`, or `60 kg/65 kg/70 kg` if they differ. */
function loadsText(exercise: Exercise): string {
  return joined(exercise.sets.map(({ load }) => (load === null ? '-' : printLoad(load))))
}

function dosesText(exercise: Exercise): string {
  return joined(exercise.sets.map(({ dose }) => printDose(dose)))
}

function joined(texts: readonly string[]): string {
  return texts.every((text) => text === texts[0]) ? (texts[0] ?? '') : texts.join('/')
}

function isAddedLoad(exercise: Exercise): boolean {
  return exercise.sets[0]?.load?.kind === 'bodyweight'
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

/** How an exercise of a lift line went. `complete`: every set as prescribed, at the prescribed effort. `missed`: a set
 * was tried and failed. `other`: neither. */
type LineOutcome = 'complete' | 'missed' | 'other'

/** How the exercise of a line went in a session.
 *
 * A range of repetitions is complete at its upper end and missed below its lower one. With a prescribed effort a
 * set counts as complete if the typed effort is known and no higher; without one, any effort counts. An exercise with
 * an untried set, that was swapped, or with pain, is neither complete nor missed, nor is any on a day with a sign that
 * needs a doctor.
 * Common practice, no source. */
export function lineOutcome(state: SessionState, steps: readonly SetStep[]): LineOutcome {
  if (steps.length === 0 || steps.some((step) => step.insteadOf !== null)) return 'other'
  if (state.notes.some((note) => note.pain && steps.some((step) => step.id === note.about))) return 'other'
  const outcomes = steps.map((step) => setOutcome(state, step))
  if (outcomes.includes('hurt') || isWarningNoted(state)) return 'other'
  if (outcomes.includes('missed')) return 'missed'
  return outcomes.every((outcome) => outcome === 'complete') ? 'complete' : 'other'
}

function setOutcome(state: SessionState, step: SetStep): LineOutcome | 'hurt' {
  const result = resultOf(state, step)
  if (result === null) return 'other'
  if (result.pain !== null) return 'hurt'
  const written = prescribedLoadOf(state, step)
  const [writtenKg, doneKg] = [written, result.load].map(kilogramsOfLoad)
  const isLighter = writtenKg != null && (doneKg ?? 0) < writtenKg - 1e-6
  const done = doseDone(step.dose, result)
  const isToTheLimit = isMeantToTheLimit(step.dose, result)
  if ((result.failed && !isToTheLimit) || isLighter || done === 'missed') return 'missed'
  if (done === 'other') return 'other'
  if (isToTheLimit && step.rpe === null) return 'complete'
  if (step.rpe !== null && (result.rpe === null || result.rpe > step.rpe.to)) return 'other'
  return 'complete'
}
