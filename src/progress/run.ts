import { groups, least, sum } from 'd3-array'
import { goalPace, isAtGoalPace, shareAtGoalPace } from '../figures/goal.ts'
import { type EqualTime, equalTime, type RaceMethod } from '../figures/race.ts'
import { secondsPerKm } from '../figures/splits.ts'
import { dayAfter, daysBetween } from '../units/calendarDate.ts'
import { isSloping, type RunForm, type RunSession, runFormOf } from './runForm.ts'
import {
  type DoneSession,
  hasRun,
  type IsoWeek,
  isIn,
  isoWeeksOf,
  isWeekOver,
  type Span,
  unmeasuredSeconds,
} from './weeks.ts'

/** The goal of the running. */
export interface RaceGoal {
  meters: number
  seconds: number
  secondsPerKm: number
  /** Local date of the race; null if unknown. */
  date: string | null
}

interface RunWeek extends Omit<IsoWeek, 'sunday'> {
  /** As of `isWeekOver`. */
  isOver: boolean
  sessions: number
  /** Including recoveries by distance. */
  meters: number
  /** Running without a distance, which the metres do not have. */
  unmeasuredSeconds: number
  /** Of the work with a known pace, the share by distance within 2 % of goal pace: 0 to 1; null without any, or
   * without a goal. */
  goalPaceShare: number | null
}

/** One occasion on which a line was run. */
interface LineDone {
  session: string
  date: string
  /** As written that day, including its target. */
  text: string
  secondsPerKm: number
  splits: number
  cvPercent: number | null
  /** The second half's pace relative to the first's: negative is faster. */
  halvesPercent: number | null
  inRange: number
  judged: number
}

/** A line that was run at least twice in the span, with any target. */
export interface RunLine {
  /** Without its target: `6 x 500 m, jog 200 m`. */
  line: string
  /** Oldest first. */
  done: LineDone[]
}

/** The fastest time over a distance recorded as one split, one repeat, or one continuous run. */
export interface BestSplit {
  meters: number
  seconds: number
  secondsPerKm: number
  /** `split` of a continuous run, a `repeat`, or a whole `piece`. */
  of: 'split' | 'repeat' | 'piece'
  date: string
  session: string
  /** How often the distance was recorded. */
  count: number
}

/** A race or trial, and the results of both equations at the goal's distance. */
export interface RaceDone {
  session: string
  date: string
  word: 'race' | 'trial'
  meters: number
  seconds: number
  /** Its line contains the word downhill, or a grade. */
  sloping: boolean
  danielsGilbert: EqualTime | null
  riegel: EqualTime | null
}

/** Three facts toward the race, none of which is a prediction. */
export interface TowardRace {
  goal: RaceGoal
  /** Days to the race; null if the goal has no date; negative after it. */
  daysLeft: number | null
  /** The last race or trial, and the results of both equations at the goal's distance. */
  lastRace: RaceDone | null
  /** The three best of the last 120 days that are closest to the goal in distance, the closest first. */
  races: RaceDone[]
  /** The longest continuous running of the span within 2 % of goal pace. */
  longestAtGoalPace: { session: string; date: string; meters: number; secondsPerKm: number } | null
}

export interface RunProgress extends Span {
  weeks: RunWeek[]
  goalPaceShare: number | null
  lines: RunLine[]
  /** Of all sessions up to `to`, shorter first. */
  bestSplits: BestSplit[]
  /** Null without a goal. */
  towardRace: TowardRace | null
  /** Of all sessions up to `to`. */
  form: RunForm
}

/** Shorter distances are left out. Metres; this program's own rule. */
const shortest = 100
/** Distances count as equal to the nearest metre. */
const lengthKey = Math.round

type Timed = Pick<BestSplit, 'meters' | 'seconds' | 'of' | 'date' | 'session'>

/** The fastest over each distance that was recorded as a split, a repeat or a whole continuous run, shorter
 * first; of equals the earliest. A row that is slower than a longer row's pace is left out. Distances within a longer
 * interval that were not recorded separately are unknown.
 * @param sessions newest first */
export function bestSplitsOf(sessions: readonly RunSession[]): BestSplit[] {
  const timed = sessions.toReversed().flatMap(timedOf)
  const best = groups(timed, ({ meters }) => lengthKey(meters)).map(([, alike]) => {
    const fastest = least(alike, ({ seconds }) => seconds)!
    const pace = secondsPerKm(fastest.meters, fastest.seconds)
    return { ...fastest, secondsPerKm: pace, count: alike.length }
  })
  const longestFirst = best.sort((a, b) => b.meters - a.meters)
  let fastest = Number.POSITIVE_INFINITY
  const kept = longestFirst.filter(({ secondsPerKm: pace }) => {
    const isKept = pace <= fastest
    fastest = Math.min(fastest, pace)
    return isKept
  })
  return kept.reverse()
}

function timedOf(session: RunSession): Timed[] {
  return session.items.flatMap(({ repeats, gaps, ...item }) => {
    const count = item.splits.length
    const of = repeats ? 'repeat' : count > 1 ? 'split' : 'piece'
    const each = item.splits.map(({ meters, seconds }) => ({ meters, seconds, of }) as const)
    // Recorded splits form one interval only if none between them is missing.
    const isOne = gaps.every((gap) => gap === 0 || gap === count)
    const whole =
      of === 'split' && isOne ? [{ meters: item.meters, seconds: item.seconds, of: 'piece' as const }] : []
    return [...each, ...whole].flatMap(({ meters, seconds, of }) =>
      meters === null || seconds === null || meters < shortest
        ? []
        : [{ meters, seconds, of, date: session.date, session: session.id }],
    )
  })
}

/** Lines that were run at least twice, the most frequent first; lines match whatever their target, case
 * and spaces, so that a range that has moved on is still compared. A single run without splits counts
 * only if a target was written.
 * @param sessions newest first */
function runLinesOf(sessions: readonly RunSession[]): RunLine[] {
  const lines = new Map<string, RunLine>()
  for (const { id, date, items } of sessions.toReversed()) {
    const seen = new Set<string>()
    for (const item of items) {
      if (item.secondsPerKm === null || (item.splits.length < 2 && item.judged === 0)) continue
      const line = withoutTarget(item.text)
      const key = line.toLowerCase().replace(/\s/g, '')
      if (seen.has(key)) continue
      seen.add(key)
      const done: LineDone = {
        session: id,
        date,
        text: item.text,
        secondsPerKm: item.secondsPerKm,
        splits: item.splits.length,
        cvPercent: item.cvPercent,
        halvesPercent: item.halves?.changePercent ?? null,
        inRange: item.inRange,
        judged: item.judged,
      }
      const known = lines.get(key)
      if (known) known.done.push(done)
      else lines.set(key, { line, done: [done] })
    }
  }
  return [...lines.values()]
    .filter(({ done }) => done.length > 1)
    .sort((a, b) => b.done.length - a.done.length)
}

/** Removes pace, time, effort and heart rate from a line: `6 x 500 m @ 3:35-3:45/km, jog 200 m` becomes
 * `6 x 500 m, jog 200 m`. */
export function withoutTarget(text: string): string {
  return text.replace(/\s*(?:@|\b(?:at|in)\s)[^,"()]*/gi, '').trim()
}

/** Three facts about the race. Training predicts no time.
 * @param all newest first, for the last race or trial; @param within the sessions of the span
 * Source: Daniels and Gilbert 1979; Riegel 1981; This program's own rule (2 % of goal pace). */
function towardRace(
  all: readonly RunSession[],
  within: readonly RunSession[],
  goal: RaceGoal,
  today: string,
): TowardRace {
  return {
    goal,
    daysLeft: goal.date === null ? null : daysBetween(today, goal.date),
    lastRace: racesOf(all, goal)[0] ?? null,
    races: nearestRaces(all, goal, today),
    longestAtGoalPace: longestAtGoalPace(within, goal),
  }
}

/** Newest first. */
function racesOf(sessions: readonly RunSession[], goal: RaceGoal): RaceDone[] {
  return sessions.flatMap((session) =>
    session.items.flatMap(({ word, repeats, gaps, meters, seconds, text }): RaceDone[] => {
      // A race with an unknown split is unknown as a whole.
      if (repeats || gaps.length > 0 || (word !== 'race' && word !== 'trial') || !meters || !seconds)
        return []
      const { id, date } = session
      return [
        {
          session: id,
          date,
          word,
          meters,
          seconds,
          sloping: isSloping(text),
          danielsGilbert: equalTimeOrNull('danielsGilbert', meters, seconds, goal.meters),
          riegel: equalTimeOrNull('riegel', meters, seconds, goal.meters),
        },
      ]
    }),
  )
}

const raceDays = 120
const mostRaces = 3

/** The best over each distance, level ones before those with a slope. */
function nearestRaces(sessions: readonly RunSession[], goal: RaceGoal, today: string): RaceDone[] {
  const best = new Map<number, RaceDone>()
  for (const race of racesOf(sessions, goal)) {
    if (daysBetween(race.date, today) > raceDays) continue
    const key = lengthKey(race.meters)
    const known = best.get(key)
    const isBetter =
      known === undefined || (race.sloping === known.sloping ? race.seconds < known.seconds : known.sloping)
    if (isBetter) best.set(key, race)
  }
  const off = ({ meters }: RaceDone) => Math.abs(Math.log(meters / goal.meters))
  return [...best.values()]
    .sort((a, b) => Number(a.sloping) - Number(b.sloping) || off(a) - off(b))
    .slice(0, mostRaces)
}

/** Null if the equation refuses such a slow, or fast, time. */
function equalTimeOrNull(
  method: RaceMethod,
  meters: number,
  seconds: number,
  goalMeters: number,
): EqualTime | null {
  try {
    return equalTime(method, meters, seconds, goalMeters)
  } catch (error) {
    if (error instanceof RangeError) return null
    throw error
  }
}

/** Consecutive splits of one continuous run, none of them skipped, each within 2 % of goal pace; of equals the
 * latest. */
function longestAtGoalPace(sessions: readonly RunSession[], goal: RaceGoal): TowardRace['longestAtGoalPace'] {
  let longest: TowardRace['longestAtGoalPace'] = null
  for (const session of sessions) {
    for (const { repeats, gaps, splits } of session.items) {
      if (repeats) continue
      let [meters, seconds] = [0, 0]
      for (const [number, split] of splits.entries()) {
        if (gaps.includes(number)) [meters, seconds] = [0, 0]
        const isNear =
          split.meters !== null &&
          split.seconds !== null &&
          isAtGoalPace(secondsPerKm(split.meters, split.seconds), goal.secondsPerKm)
        meters = isNear ? meters + (split.meters ?? 0) : 0
        seconds = isNear ? seconds + (split.seconds ?? 0) : 0
        if (meters > (longest?.meters ?? 0))
          longest = {
            session: session.id,
            date: session.date,
            meters,
            secondsPerKm: secondsPerKm(meters, seconds),
          }
      }
    }
  }
  return longest
}

type Pace = { meters: number; secondsPerKm: number }

/** How the running has developed: distance and share at goal pace by week, repeated lines, the best
 * splits, and the facts about the race.
 * @param sessions newest first
 * @param goal null without one
 * @param today local date */
export function runProgress(
  sessions: readonly DoneSession[],
  span: Span,
  goal: Omit<RaceGoal, 'secondsPerKm'> | null,
  today: string,
): RunProgress {
  const all = runSessionsOf(sessions, span.to)
  const within = all.filter(({ date }) => isIn(span, date))
  const raceGoal = goal && { ...goal, secondsPerKm: goalPace(goal.meters, goal.seconds) }
  return {
    ...span,
    weeks: runWeeksOf(within, span, raceGoal, today),
    goalPaceShare: shareOf(within, raceGoal),
    lines: runLinesOf(within),
    bestSplits: bestSplitsOf(all),
    towardRace: raceGoal && towardRace(all, within, raceGoal, today),
    form: runFormOf(
      all,
      span.to < today ? span.to : today,
      new Set(sessions.flatMap(({ date, heavyLegSets }) => (heavyLegSets > 0 ? [dayAfter(date, 1)] : []))),
    ),
  }
}

/** The sessions with running, up to a date. */
function runSessionsOf(sessions: readonly DoneSession[], to: string): RunSession[] {
  return sessions.flatMap((session) => {
    const { id, date } = session
    const { running } = session
    return date <= to && hasRun(running) ? [{ id, date, ...running }] : []
  })
}

function runWeeksOf(
  within: readonly RunSession[],
  span: Span,
  goal: RaceGoal | null,
  today: string,
): RunWeek[] {
  return isoWeeksOf(span).map(({ week, monday, sunday }) => {
    const those = within.filter(({ date }) => date >= monday && date <= sunday)
    return {
      week,
      monday,
      isOver: isWeekOver(
        { sunday },
        today,
        those.some(({ date }) => date === sunday),
      ),
      sessions: those.length,
      meters: sum(those, ({ meters }) => meters),
      unmeasuredSeconds: sum(those, ({ items }) => unmeasuredSeconds(items)),
      goalPaceShare: shareOf(those, goal),
    }
  })
}

function shareOf(sessions: readonly RunSession[], goal: RaceGoal | null): number | null {
  return goal && shareAtGoalPace(sessions.flatMap(pacesOf), goal.secondsPerKm)
}

/** Every level split of known distance and time. */
function pacesOf({ items }: RunSession): Pace[] {
  return items.flatMap((item) =>
    item.splits.flatMap(({ meters, secondsPerKm }) =>
      meters === null || secondsPerKm === null || Math.abs(item.gradePercent ?? 0) > 1
        ? []
        : [{ meters, secondsPerKm }],
    ),
  )
}
