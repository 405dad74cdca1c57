import type { Span } from './doneSession.ts'
import type { IsoWeek } from './isoWeeks.ts'

/** What is run toward. */
export interface RaceGoal {
  meters: number
  seconds: number
  secondsPerKm: number
  /** Local date of the race; null where none is written. */
  date: string | null
}

export interface RunWeek extends Omit<IsoWeek, 'sunday'> {
  /** Its last day does not lie ahead. */
  isOver: boolean
  sessions: number
  /** Recoveries by distance counted in. */
  meters: number
  /** Of the work of known pace, the share by distance within 2 % of goal pace: 0 to 1; null without any, or
   * without a goal. */
  goalPaceShare: number | null
}

/** One time that a line of the whiteboard was run. */
export interface LineDone {
  session: string
  date: string
  /** As it was written that day, its target in it. */
  text: string
  secondsPerKm: number
  splits: number
  cvPercent: number | null
  /** Of the second half's pace to the first's: negative is faster. */
  halvesPercent: number | null
  inRange: number
  judged: number
}

/** A line that was run twice or oftener in the span, whatever its target. */
export interface RunLine {
  /** Without its target: `6 x 500 m, jog 200 m`. */
  line: string
  /** Oldest first. */
  done: LineDone[]
}

/** The fastest over a distance that was recorded as one split, one repeat, or one continuous piece. */
export interface BestSplit {
  meters: number
  seconds: number
  secondsPerKm: number
  /** `split` of a continuous piece, a `repeat`, or a whole `piece`. */
  of: 'split' | 'repeat' | 'piece'
  date: string
  session: string
  /** How often the distance was recorded. */
  count: number
}

/** What an equation makes of a race at the goal's distance; `holds`: both times lie where it was made for. */
export interface EqualTime {
  seconds: number
  holds: boolean
}

/** Three facts toward the race, none of which is a prediction. */
export interface TowardRace {
  goal: RaceGoal
  /** Null where the goal has no date; negative after it. */
  daysLeft: number | null
  /** The last race or trial, and what both equations make of it at the goal's distance. */
  lastRace: {
    session: string
    date: string
    word: 'race' | 'trial'
    meters: number
    seconds: number
    danielsGilbert: EqualTime | null
    riegel: EqualTime | null
  } | null
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
}
