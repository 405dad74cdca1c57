import { sum } from 'd3-array'
import { counted, printNumber, roundTo } from '../units/decimal.ts'
import {
  metersInPaceUnit,
  metersPerSecondOf,
  printClock,
  printDuration,
  printPace,
} from '../units/duration.ts'
import { metersIn, metersOf } from '../units/length.ts'
import type { Length } from '../units/model.ts'
import { isRowing } from './exercise.ts'
import type { Amount, Interval, Recovery, RunItem, Span, Target, Work } from './model.ts'
import { checkSpeeds, implausibleTime, isByGoal, type Pace, paceAsTime } from './plausible.ts'
import { mostCharacters, printAmount, printRecovery, printSpan } from './print.ts'
import { hasLanes } from './step.ts'
import { type Context, isBare, isSound, placeOf } from './written.ts'

type RunLine = Pick<RunItem, 'step'>

/** Reports what cannot be right in a run, and puts right what was probably meant. */
export function checkedRun(line: RunLine, context: Context): RunLine {
  if (line.step.kind === 'work') checkWork(line.step, context, null)
  return line
}

/** What the groups around a work add to it. */
interface Around {
  /** How often they repeat it; `own`: how often it repeats itself. */
  times: number
  own: number
  split: Length | null
}

function checkWork(work: Work, context: Context, outer: Around | null): void {
  const own = work.times ?? 1
  const around = { times: (outer?.times ?? 1) * own, own, split: work.split ?? outer?.split ?? null }
  if (work.body.kind === 'piece') {
    warnOfFewMeters(work.body, around.times > 1, work.notes, context)
    checkInterval(work.body, around, context)
  } else for (const step of work.body.steps) if (step.kind === 'work') checkWork(step, context, around)
  checkRecovery(work, context, outer !== null)
  checkEvery(work, context)
  checkSplit(work, context)
  if (work.body.kind === 'piece' && work.times === null && outer === null) warnOfShortRun(work.body, context)
  const [first, last, ...more] = work.body.kind === 'piece' ? work.body.amounts : []
  if (first && last && more.length === 0 && work.recovery === null && work.times === null)
    context.warn(
      placeOf(work),
      `these are two intervals, ${printAmount(first)} and then ${printAmount(last)}: for one of either length write one of the two`,
    )
  if (work.lane !== null && !hasLanes(context.lapMeters))
    context.warn(
      placeOf(work, 'lane'),
      `the lengths of lanes are known for a track of 400 m: here a lap is ${printNumber(context.lapMeters)} m in any of them`,
    )
}

/** In seconds: an easy run shorter than this was probably written in hours and minutes. This program's own rule. */
const shortestRun = 300

/** `easy 1:30` */
function warnOfShortRun({ amounts: [first, ...more], target }: Interval, context: Context): void {
  const isEasy = target === null || (target.kind === 'word' && /^(?:easy|steady|relaxed)$/.test(target.word))
  if (!isEasy || first?.kind !== 'time' || more.length > 0 || !isBare(first) || first.seconds >= shortestRun)
    return
  const text = printClock(first.seconds)
  context.warn(placeOf(first), `${text} is minutes and seconds; hours and minutes are written ${text}:00`)
}

/** In metres: a single run that is no sprint, or anything else, shorter than this was probably written in minutes or
 * miles. This program's own rule. */
const shortest = { run: 100, other: 10 }
const sprints = /fast|hard|stride|out|race|trial|sprint|fly|drill|skip|knee|kick|bound|hop/i

/** `20m easy`, `8M easy` */
function warnOfFewMeters(
  { amounts, target }: Interval,
  isRepeated: boolean,
  notes: readonly string[],
  context: Context,
): void {
  const words = target?.kind === 'word' ? [target.word] : target === null ? notes : []
  const isSprint = target?.kind === 'time' || words.some((each) => sprints.test(each))
  const least = isRepeated || isSprint ? shortest.other : shortest.run
  const short = amounts.find(
    (each) => each.kind === 'distance' && each.length.unit === 'm' && each.length.value < least,
  )
  if (context.part.kind !== 'run' || short?.kind !== 'distance' || !isSound(short)) return
  const { value } = short.length
  context.doubt(
    placeOf(short),
    `${value} m are metres; for minutes write ${value} min, for miles ${value} mi`,
  )
}

function checkRecovery(work: Work, context: Context, inside: boolean): void {
  if (work.recovery === null) return
  const text = printRecovery(work.recovery)
  const isLadder = work.body.kind === 'piece' && work.body.amounts.length > 1
  if (work.times === null && !inside && !isLadder)
    context.report(
      placeOf(work.recovery),
      `a recovery after work that is not repeated is an item: write it on a line of its own (${text})`,
    )
  else if (work.body.kind === 'group' && endsInRecovery(work.body.steps))
    context.report(
      placeOf(work.recovery),
      `this group already ends in a recovery: remove that one, or ${text}`,
    )
}

function checkEvery(work: Work, context: Context): void {
  const { every, recovery, times } = work
  if (every == null) return
  const at = placeOf(work, 'every')
  if (times === null)
    context.report(at, 'every is for repeats: write how many, such as 8 x 400 m, every 3:00')
  else if (recovery?.amount.kind === 'time' || recovery?.amount.kind === 'same')
    context.report(
      at,
      `with every the rest is what is left of ${printDuration(every)}: remove ${printRecovery(recovery)}`,
    )
}

function endsInRecovery(steps: readonly (Work | Recovery)[]): boolean {
  const last = steps.at(-1)
  if (last?.kind !== 'work') return true
  // The recovery of a ladder goes between its rungs.
  if (last.body.kind === 'piece' && last.body.amounts.length > 1) return false
  if (last.times === null && last.recovery !== null) return true
  return last.body.kind === 'group' && endsInRecovery(last.body.steps)
}

function checkSplit(work: Work, context: Context): void {
  const { split } = work
  if (split === null || !isSound(split)) return
  if (intervalsIn(work).every(({ amounts }) => amounts.every(({ kind }) => kind === 'time'))) {
    context.report(
      placeOf(split),
      'an interval given by time has no splits: give it a distance, or remove the split',
    )
    return
  }
  const isTrack = context.part.name !== null && /\btrack\b/i.test(context.part.name)
  if (isTrack && split.unit === 'mi' && split.value === 1) {
    const laps = Math.floor(metersIn.mi / context.lapMeters)
    const rest = `${laps} laps and ${roundTo(metersIn.mi - laps * context.lapMeters, 2)} m`
    context.warn(placeOf(split), `a mile on the track is ${rest}: split ${laps} laps?`)
  }
}

/** The intervals of a step, those of its groups too. */
export function intervalsIn(step: Work | Recovery): Interval[] {
  if (step.kind === 'recovery') return []
  return step.body.kind === 'piece' ? [step.body] : step.body.steps.flatMap(intervalsIn)
}

function checkInterval(interval: Interval, { times, own, split }: Around, context: Context): void {
  const { target, amounts } = interval
  if (target === null) return
  const at = placeOf(target)
  interval.target = meantTarget(target, interval, own > 1, context)
  const count = times * amounts.length
  if (target.kind === 'progression' && split === null)
    context.report(at, 'a progression goes from split to split: add a split, such as split 1 km')
  if (interval.target.kind !== 'times') return
  const { each } = interval.target
  // One time for each repeat of a set is for each repeat of every set: 2 x (3 x 400 m in 80/78/76 s). More times than
  // a line has characters are refused when it is written out.
  const isOfSet = each.length === own * amounts.length
  const sets = Math.min(times / own, mostCharacters)
  if (isOfSet) interval.target.each = Array.from({ length: sets }, () => each).flat()
  else if (each.length !== count)
    context.report(
      at,
      `there are ${each.length} times for ${counted(count, 'repeat')}: write one for each, or one for all`,
    )
  if (split !== null)
    context.report(at, 'a time for each repeat does not go with splits: remove one of the two')
}

/** The target of an interval as it is probably meant; reports one that nobody can hold. */
function meantTarget(target: Target, interval: Interval, isRepeated: boolean, context: Context): Target {
  const { amounts } = interval
  switch (target.kind) {
    case 'goal':
      if (context.goal === null)
        context.report(placeOf(target), 'this day has no goal: write one above, such as goal: 10 km in 40:00')
      return target
    case 'time':
      return { kind: 'time', ...meantTime(target, amounts, interval, context) }
    case 'times': {
      const amountsAt = (index: number) =>
        amounts.length > 1 ? [amounts[index % amounts.length] as Amount] : amounts
      const each = target.each.map((time, index) => meantTime(time, amountsAt(index), interval, context))
      return { kind: 'times', each }
    }
    case 'progression':
      for (const seconds of [target.first, target.last]) {
        const pace = printPace({ from: seconds, to: seconds, per: target.per })
        checkSpeeds(target, `a pace of ${pace}`, [metersInPaceUnit[target.per] / seconds], interval, context)
      }
      return target
    case 'pace':
      return meantPace(target, interval, isRepeated, context)
    case 'speed': {
      const speeds = [target.from, target.to].map((speed) => metersPerSecondOf(speed, target.unit))
      checkSpeeds(target, `${printSpan(target)} ${target.unit}`, speeds, interval, context)
      return target
    }
    default:
      return target
  }
}

/** A pace; or what was more likely meant: one in another unit, or the time of the interval. */
function meantPace(pace: Pace, interval: Interval, isRepeated: boolean, context: Context): Target {
  const { from, to, per } = pace
  const written = printPace(pace)
  const other = otherPaceUnit(pace, interval, context)
  const asTime = paceAsTime(pace, other ?? per, interval, isRepeated, context)
  if (asTime !== null) {
    context.report(placeOf(pace), asTime, { fixed: true })
    return { kind: 'time', from, to }
  }
  if (other !== null) {
    const meant = printPace({ from, to, per: other })
    const question = `this pace can be ${meant} or ${written}: did you mean ${meant}?`
    context.report(placeOf(pace), question, { fixed: true })
    return { kind: 'pace', from, to, per: other }
  }
  const speeds = [metersInPaceUnit[per] / from, metersInPaceUnit[per] / to]
  checkSpeeds(pace, `a pace of ${written}`, speeds, interval, context)
  return pace
}

/** In metres a second. A pace for 500 m that is read as one for a kilometre is faster. */
const fastestRowing = 5

/** The unit that a pace without one probably has, if not the file's: a mile where the interval is in miles, the file in
 * kilometres and the pace not near that of the goal; 500 m where a pace is too fast for the file's unit, in a cross
 * part without a name or named after rowing. */
function otherPaceUnit(pace: Pace, { amounts }: Interval, context: Context): 'mi' | '500 m' | null {
  const { part } = context
  const { per, from } = pace
  if (!isBare(pace)) return null
  const isRowed = part.kind === 'cross' && isRowing(part.name ?? 'row')
  if (isRowed && metersInPaceUnit[per] / from > fastestRowing) return '500 m'
  const isMiles = amounts.every((each) => each.kind === 'distance' && each.length.unit === 'mi')
  return per === 'km' && isMiles && !isByGoal(pace, context) ? 'mi' : null
}

/** The time to run some amounts of an interval in. */
function meantTime(time: Span, amounts: readonly Amount[], interval: Interval, context: Context): Span {
  const { from, to } = time
  const meters = amounts.map((each) =>
    each.kind === 'distance' ? metersOf(each.length, context.lapMeters) : 0,
  )
  if (meters.includes(0)) {
    context.report(
      placeOf(time),
      `an interval of ${amounts.map(printAmount).join('-')} already has its time: a target in ${printDuration(from)} needs a distance`,
    )
    return { from, to }
  }
  if (!isSound(time) || !isSound(interval.amounts)) return { from, to }
  const what = amounts.map(printAmount).join(' and ')
  const found = implausibleTime(what, sum(meters), { from, to }, context.part.kind)
  if (found !== null) context.report(placeOf(time), found.message, { fixed: found.meant !== null })
  return found?.meant ?? { from, to }
}
