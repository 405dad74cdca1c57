import { sum } from 'd3-array'
import { lessAfter, lessText, longGapDays } from '../figures/advice.ts'
import { exerciseKey, isJump, isSameExercise } from '../prescription/exercise.ts'
import type { Dose, Exercise, LiftItem, Load, Prescription } from '../prescription/model.ts'
import { printDose, printItem, printLoad } from '../prescription/print.ts'
import { maximumOf } from '../session/load.ts'
import type { SessionState } from '../session/state.ts'
import { isLegLift } from '../summary/hard.ts'
import { isMeantToTheLimit, worksDone } from '../summary/performed.ts'
import { kilogramsOf, printMass } from '../units/mass.ts'
import {
  beforeOtherRules,
  type Decision,
  type DecisionContext,
  daysSince,
  isLongBetween,
  type Verdict,
  verdict,
} from './decision.ts'
import {
  alikeOrAll,
  hasSameLoads,
  isAtOtherLoads,
  type LiftDay,
  type LiftLine,
  liftDay,
  liftLinesIn,
  loadsText,
  pastDays,
} from './liftDays.ts'
import { changeReps, heavierLoad, type Lifter, leastReps, loadKilograms, loadNear } from './loadSteps.ts'
import { decideRun, isFast, runDay, runName } from './nextRun.ts'
import { painCovering, sinceText } from './pain.ts'

/* Decides, line by line, what changes in the next session like this one. These are this program's own rules; only the
 * slow loss of strength has a source (Mujika & Padilla 2000). A line without a rule stays as it is. */

export type Next = ReturnType<typeof nextOf>

/** @param given what it is decided from, besides the session */
export function nextOf(state: SessionState, given: Omit<DecisionContext, 'tiredLift'>) {
  // Without a date, because it is for another day.
  const prescription: Prescription = { ...structuredClone(state.prescription), date: null }
  const tiredLift = liftLinesIn(state).find(
    (line) => tooHardText(liftDay(state, line)) !== null && isAfterAHardRun(state, line, given.earlier),
  )
  const known = { ...given, tiredLift }
  const decisions: Decision[] = []
  const decide = ({ part, item }: { part: number; item: number }, name: string, verdict: Verdict | null) => {
    if (verdict === null) return
    decisions.push({ part, item, name, ...verdict })
    const changed = prescription.parts[part]?.items[item]
    if (verdict.decision !== 'same' && changed) changed.text = printItem(changed)
  }
  for (const run of worksDone(state, 'run'))
    decide(run, runName(prescription, run), decideRun(state, run, prescription, known))
  for (const line of liftLinesIn(state)) {
    const item = prescription.parts[line.part]?.items[line.item] as LiftItem
    decide(line, line.written.name, decideLift(state, line, item, known))
  }
  return { prescription, decisions, pains: given.pains }
}

interface Decided {
  item: LiftItem
  /** The line's exercise within `item`. */
  exercise: Exercise
  now: LiftDay
  /** The days that were written or lifted at its loads, newest first: with a heavy and a light day in the week, each is
   * compared with its like. */
  before: readonly LiftDay[]
  /** The newest of them, unless that is long before it. */
  previous: LiftDay | undefined
  lifter: Lifter
  /** What percentages of the line refer to; null if it is unknown. */
  maximumKg: number | null
}

/** Decides about one exercise of a lift line; changes `item` if its load or repetitions change. */
function decideLift(
  state: SessionState,
  line: LiftLine,
  item: LiftItem,
  known: DecisionContext,
): Verdict | null {
  const { written } = line
  const { name } = written
  const now = liftDay(state, line)
  const past = [...pastDays(now, known.earlier)]
  const writtenText = loadsText(now.prescribed)
  const before = past.filter((day) => loadsText(day.prescribed) === writtenText || hasSameLoads(day, now))
  const previous = before.slice(0, 1).find((day) => !isLongBetween(day, now))
  const equipmentOf: Lifter['equipmentOf'] = (unit) => known.equipmentOf(unit, name)
  const lifter = { name, side: written.side, bodyKg: state.bodyMassKg, equipmentOf }
  const exercise = item.exercises[line.exercise] as Exercise
  const maximumKg = maximumOf(state, name)?.kg ?? null
  const decided = { item, exercise, now, before, previous, lifter, maximumKg }
  const isPair = written.sets.some(({ load }) => load?.kind === 'mass' && load.pair)
  const painIn = (pains: DecisionContext['pains']) => painCovering(pains, { name, isPair })
  const pain = painIn(known.pains)
  const dose = written.sets[0]?.dose
  // The index has the lifts of a complex, not the complex.
  const names = dose?.kind === 'complex' ? dose.lifts.map((lift) => lift.name) : [name]
  const hasLifted = ({ lifted }: DecisionContext['sessions'][number]) =>
    names.some((each) => lifted(exerciseKey(each)) !== null)
  const away = daysSince(known, hasLifted)
  const first = beforeOtherRules(pain, away, () => afterAGap(decided, past[0], away, sinceText(away, pain)))
  if (first !== null) return first
  const tooHard = tooHardText(now)
  if (tooHard !== null) {
    if (isAfterAHardRun(state, line, known.earlier))
      return verdict('same', `${tooHard} after a hard run -> unchanged, run the written pace first`)
    // The load of weeks ago was too much to come back to.
    const date = now.date ?? known.today
    const sessions = known.sessions.filter((session) => session.date < date)
    const gap = daysSince({ ...known, sessions, today: date }, hasLifted)
    if (gap <= longGapDays) return afterTooHard(decided, tooHard)
    const seen = `${tooHard} ${Math.floor(gap / 7)} weeks after the time before`
    return afterAGap(decided, past[0], gap, seen)
  }
  const [above] = effortsAbove(now)
  if (above !== undefined) return sameAsLifted(decided, effortText(above))
  // Nothing follows for a hold without a load, for drop sets, whose loads go together, nor for jumps, since tired ones are
  // no better than fewer.
  const isDrop = written.sets.some((set) => set.dose.kind === 'drop')
  const canGrow =
    !isDrop && written.sets.some(({ load, dose }) => load !== null || (isCounted(dose) && !isJump(name)))
  const isUnrated = now.outcome === 'unrated'
  if ((now.outcome !== 'complete' && !isUnrated) || !canGrow) return null
  // A line that builds on last time gets heavier by itself.
  if (known.taper !== null && addsToLast(written))
    return sameAsLifted(decided, completeText(now), `: ${known.taper}`)
  const fromLast = written.sets.find(({ load }) => load?.kind === 'last')?.load
  if (fromLast) return verdict('same', `${completeText(now)} -> ${printLoad(fromLast)}`)
  if (isUnrated) return sameAsLifted(decided, `${completeText(now)}, an effort missing`)
  const isTwice =
    previous?.outcome === 'complete' &&
    !isTooHardSince(previous, known.earlier) &&
    ![previous, now].some(({ date }) => painIn(known.painsOn(date))) &&
    hasSameLoads(previous, now) &&
    hasSameDoses(previous.line.written, written)
  if (!isTwice) return sameAsLifted(decided, `${completeText(now)} once`, ', once more', 'same')
  if (known.taper !== null) return sameAsLifted(decided, `${completeText(now)} twice`, `: ${known.taper}`)
  return heavierOrMore(decided)
}

/** Whether a line gets heavier by itself, since it builds on last time; it does not after a miss. */
function addsToLast({ sets }: Exercise): boolean {
  return sets.some(({ load }) => load?.kind === 'last' && load.added > 0)
}

/** Keeps the lifted load, and writes it into a line that names another one.
 * @param aim added at the end @param same the words for an unchanged line */
function sameAsLifted(
  decided: Decided,
  seen: string,
  aim = '',
  same = sameText(decided.now.line.written),
): Verdict {
  const { now } = decided
  const isKnown = now.loads.every((load) => load?.kind !== 'last')
  const getsHeavier = addsToLast(now.line.written) && isKnown && now.outcome !== 'missed'
  if (!getsHeavier && !isAtOtherLoads(now)) return verdict('same', `${seen} -> ${same}${aim}`)
  const decision = !getsHeavier && now.sets.some(({ kgOver }) => kgOver > 0) ? 'up' : 'down'
  return verdict(decision, `${seen} -> ${writeLoads(decided, now.loads)}${aim}`)
}

/** Goes below the load lifted last time, or below the written one if that is lighter.
 * @param previous the newest day on which the line was lifted */
function afterAGap(decided: Decided, previous: LiftDay | undefined, days: number, seen: string): Verdict {
  const { now, lifter } = decided
  const { loads } = now.sets.length > 0 ? now : (previous ?? now)
  const from = loads.map((load, at) => lighterOf(load, now.prescribed[at] ?? null, lifter.name))
  const lighter = otherLoads(now.line, from, (load) => loadNear(load, 1 - lessAfter(days), lifter))
  if (lighter === null) return verdict('same', `${seen} -> ease back in`)
  const what = lighter[0]?.kind === 'bodyweight' ? ' added load' : ' load'
  const less = lessOf(from, lighter, (load) => ('added' in load ? load.added : load.from), what)
  return verdict('down', `${seen} -> ${less}, ${writeLoads(decided, lighter)}`)
}

/** If the mass of only one is known, that one. */
function lighterOf(lifted: Load | null, written: Load | null, name: string): Load | null {
  const [liftedKg, writtenKg] = [lifted, written].map((load) => load && loadKilograms(load, name, 0))
  if (liftedKg == null) return written ?? lifted
  return writtenKg == null || liftedKg < writtenKg ? lifted : written
}

/** What was too hard about a day: a missed set, or half of the sets at an effort 1 above the written one. Null if
 * nothing was. */
function tooHardText(day: LiftDay): string | null {
  if (day.outcome === 'missed')
    return `${repsText(day)} ${day.sets.some(({ result }) => result.failed) ? 'failed' : 'short'}`
  const above = effortsAbove(day).filter(({ written }) => written !== null)
  const [first] = above
  const isHeavier = day.sets.some(({ kgOver }) => kgOver > 0)
  return first === undefined || isHeavier || above.length * 2 < day.sets.length ? null : effortText(first)
}

/** Whether any line of a session after a day was too hard with its exercise.
 * @param earlier sessions, newest first */
function isTooHardSince({ date, line }: LiftDay, earlier: DecisionContext['earlier']): boolean {
  const since = earlier.filter((state) => state.date !== null && date !== null && state.date > date)
  return since.some((state) =>
    liftLinesIn(state).some(
      (each) =>
        isSameExercise(each.written.name, line.written.name) && tooHardText(liftDay(state, each)) !== null,
    ),
  )
}

function afterTooHard(decided: Decided, seen: string): Verdict {
  const { exercise, now, previous, lifter } = decided
  const { written } = now.line
  const isAimed = now.outcome === 'missed' && written.sets[0]?.dose.kind === 'reps'
  if (previous === undefined || tooHardText(previous) === null || !hasSameLoads(previous, now))
    return sameAsLifted(decided, seen, isAimed ? `, aim for ${dosesText(written)}` : '')
  const isAlike = (now.outcome === 'missed') === (previous.outcome === 'missed')
  const twice = `${seen}, ${isAlike ? '' : 'too hard '}twice${withLoads('at', now)}`
  const lighter = otherLoads(now.line, now.loads, (load) => loadNear(load, 0.95, lifter, { isNear: true }))
  if (lighter) {
    const less = lessOf(now.loads, lighter, (load) => loadKilograms(load, lifter.name, lifter.bodyKg) ?? 0)
    return verdict('down', `${twice} -> ${less}, ${writeLoads(decided, lighter)}`)
  }
  const same = sameText(exercise)
  // A load that builds on last time would go up while the repetitions go down.
  const isFromLast = written.sets.some(({ load }) => load?.kind === 'last')
  if (isFromLast || !changeReps(exercise, -2)) return verdict('same', `${twice} -> ${same}`)
  if (isAtOtherLoads(now)) writeLoads(decided, now.loads)
  return verdict('fewer', `${twice} -> ${same === 'same' ? '' : `${same}, `}2 reps fewer`)
}

/** Above this no set is added. This program's own rule. */
const mostSets = 5

/** Adds up to two repetitions if no load 2.5 to 5 % higher can be made; then takes the next load, at most 10 % more, or
 * without one a set. */
function heavierOrMore(decided: Decided): Verdict | null {
  const { exercise, now, lifter } = decided
  const seen = `${completeText(now)} twice`
  const heavier = (least: number, most: number) =>
    otherLoads(now.line, now.loads, (load) => heavierLoad(load, least, most, lifter))
  const step = heavier(1.025, 1.05)
  if (step) return verdict('up', `${seen} -> ${writeLoads(decided, step)}`)
  const added = repsAdded(decided)
  const isLoaded = now.loads.some((load) => load !== null)
  const isOfUnknownBody = lifter.bodyKg === null && now.loads.some((load) => load?.kind === 'bodyweight')
  const why = (text: string) => (isOfUnknownBody ? 'no next load without your body mass' : text)
  if (added < 2 && changeReps(exercise, 1)) {
    const tooBig = isLoaded ? `; ${why('the next load is too big a jump')}` : ''
    if (isAtOtherLoads(now)) writeLoads(decided, now.loads)
    return verdict('more', `${seen}${tooBig} -> one rep more, ${dosesText(exercise)}`)
  }
  const farStep = heavier(1, 1.1)
  const missing = isLoaded ? `; ${why('no next load within 10 %')}` : ''
  const { sets } = exercise
  const hasRoom = !isOfUnknownBody && sets.length < mostSets && sets.every(({ dose }) => isCounted(dose))
  if (!farStep && !hasRoom) return isLoaded ? verdict('same', `${seen}${missing} -> same`) : null
  changeReps(exercise, -added)
  if (farStep) {
    const doses = added > 0 ? ` x ${dosesText(exercise)}` : ''
    return verdict('up', `${seen} -> ${writeLoads(decided, farStep)}${doses}`)
  }
  if (isAtOtherLoads(now)) writeLoads(decided, now.loads)
  exercise.sets = [...exercise.sets, structuredClone(exercise.sets.at(-1)!)]
  const doses = dosesText(exercise)
  const count = doses.includes('/') ? '' : `${exercise.sets.length} x `
  return verdict('more', `${seen}${missing} -> one set more, ${count}${doses}`)
}

/** Writes loads into the line and returns them as text; percentages stay percentages. A warm-up that starts no lighter
 * is dropped. */
function writeLoads({ item, exercise, maximumKg }: Decided, loads: readonly (Load | null)[]): string {
  exercise.sets = exercise.sets.map((set, at) => {
    const load = loads[at] ?? null
    if (set.load?.kind !== 'percent' || maximumKg === null || load?.kind !== 'mass') return { ...set, load }
    const percent = Math.round((100 * kilogramsOf({ value: load.from, unit: load.unit })) / maximumKg)
    return { ...set, load: { ...set.load, from: percent, to: set.load.to + percent - set.load.from } }
  })
  const text = loadsText(exercise.sets.map(({ load }) => load))
  const load = item.exercises[0]?.sets[0]?.load
  const { buildFrom } = item
  if (buildFrom === null || load?.kind !== 'mass') return text
  if (kilogramsOf(buildFrom) < kilogramsOf({ value: load.from, unit: load.unit })) return text
  item.buildFrom = null
  return `${text}; no warm-up from ${printMass(buildFrom)}`
}

function sameText({ sets }: Exercise): string {
  return sets.some(({ load }) => load !== null) ? 'same load' : 'same'
}

/** Repetitions per set added at this load over the last consecutive days. */
function repsAdded({ now, before }: Decided): number {
  const other = before.findIndex((day) => !hasSameLoads(day, now))
  const days = [now, ...before.slice(0, other === -1 ? before.length : other)]
  const leastOf = ({ line }: LiftDay) => leastReps(line.written.sets[0]!.dose)
  return leastOf(now) - Math.min(...days.map(leastOf))
}

/** Whether sets of a dose can be added, because a number of repetitions ends them. */
function isCounted(dose: Dose): boolean {
  const { kind } = dose
  return kind === 'reps' || kind === 'atLeast' || (kind === 'cluster' && !dose.groups.includes('max'))
}

/** Whether a leg lift came after a run, in this session or an earlier one of the day, that was faster than prescribed
 * or at an effort of at least 9. @param earlier sessions, newest first */
function isAfterAHardRun(
  state: SessionState,
  { part, written }: LiftLine,
  earlier: DecisionContext['earlier'],
): boolean {
  if (!isLegLift(written.name)) return false
  const ofTheDay = earlier.filter(({ date }) => date !== null && date === state.date)
  return ranTooHardIn(state, part) || ofTheDay.some((other) => ranTooHardIn(other, other.parts.length))
}

function ranTooHardIn(state: SessionState, part: number): boolean {
  const days = worksDone(state, 'run').flatMap((run) => (run.part < part ? [runDay(state, run)] : []))
  return days.some((day) => isFast(day) || (day.effort ?? 0) >= 9)
}

/** The efforts of a day that are too high: 1 above the written one, or 10 without one. */
function effortsAbove(day: LiftDay) {
  return day.sets.flatMap(({ step, result }) => {
    if (isMeantToTheLimit(step, result)) return []
    const written = step.rpe?.to ?? null
    const typed = result.rpe ?? 0
    return typed >= (written === null ? 10 : written + 1) ? [{ typed, written }] : []
  })
}

function effortText({ typed, written }: ReturnType<typeof effortsAbove>[number]): string {
  return written === null ? `effort ${typed}` : `effort ${typed}, written ${written}`
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

function repsText(day: LiftDay): string {
  return day.sets
    .map(
      ({ step, result: { reps, groups, seconds, meters } }) =>
        groups?.join(step.dose.kind === 'drop' ? '>' : '+') ?? reps ?? seconds ?? meters ?? '-',
    )
    .join(', ')
}

/** Other loads in place of these; null if one of them cannot change. */
function otherLoads(
  { written }: LiftLine,
  loads: readonly (Load | null)[],
  change: (load: Load) => Load | null,
): Load[] | null {
  // The loads of a drop set go down together.
  if (written.sets.some(({ dose }) => dose.kind === 'drop')) return null
  const changed = loads.flatMap((load) => (load && change(load)) ?? [])
  return changed.length === loads.length ? changed : null
}

function hasSameDoses(one: Exercise, other: Exercise): boolean {
  const textOf = ({ sets }: Exercise) => JSON.stringify(sets.map(({ dose }) => dose))
  return textOf(one) === textOf(other)
}

/** `5 % less` over all sets together, or `more assistance`.
 * @param amountOf the part of a load to compare @param what ends the text: ` load` */
function lessOf(
  before: readonly (Load | null)[],
  after: readonly Load[],
  amountOf: (load: Load) => number,
  what = '',
): string {
  if (before.some((load) => load?.kind === 'bodyweight' && load.added < 0)) return 'more assistance'
  const sumOf = (loads: readonly (Load | null)[]) => sum(loads, (load) => load && amountOf(load))
  return `${lessText(sumOf(before), sumOf(after))}${what}`
}

function dosesText(exercise: Exercise): string {
  return alikeOrAll(exercise.sets.map(({ dose }) => printDose(dose)))
}
