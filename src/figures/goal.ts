import { formatClock, formatPace } from '../units/duration.ts'
import { figure, num } from './figure.ts'
import { positive } from './given.ts'
import { secondsPerKm } from './splits.ts'

/** Paces this close to the goal's count as goal pace. This program's own rule. */
const nearShare = 0.02
const noise = 1e-9

/** Pace of a goal in seconds per kilometre; metres and seconds.
 * @throws RangeError for a distance or a time that is not above 0
 * Source: Common practice. */
export function goalPace(meters: number, seconds: number): number {
  return secondsPerKm(meters, seconds)
}

/** Difference between a pace and the goal's, in seconds per kilometre: negative is faster.
 * @throws RangeError for a pace that is not above 0
 * Source: Common practice. */
export function offGoal(pace: number, goal: number): number {
  return positive(pace, 'the pace') - positive(goal, 'the goal pace')
}

/** Whether a pace is within 2 % of the goal's, both ends included.
 * @throws RangeError for a pace that is not above 0
 * Source: This program's own rule. */
export function isAtGoalPace(pace: number, goal: number): boolean {
  return Math.abs(offGoal(pace, goal)) <= goal * nearShare + noise
}

/** The share of running, by distance, within 2 % of goal pace: 0 to 1; null without running.
 * @throws RangeError for a distance or a pace that is not above 0
 * Source: This program's own rule. */
export function shareAtGoalPace(
  intervals: readonly { meters: number; secondsPerKm: number }[],
  goal: number,
): number | null {
  let [near, all] = [0, 0]
  for (const interval of intervals) {
    all += positive(interval.meters, 'the distance')
    if (isAtGoalPace(interval.secondsPerKm, goal)) near += interval.meters
  }
  return all === 0 ? null : near / all
}

/** The layout of the standard track, in metres. Source: World Athletics track. */
const straight = 84.39
const kerbRadius = 36.5
const laneWidth = 1.22
/** The measuring line of a lane is this far outside its inner line. */
const fromLine = 0.2

export const lanes = [1, 2, 3, 4, 5, 6, 7, 8] as const

/** One lap of the standard 400 m track in a lane, in metres. Lane 1 is 400 m by definition (measured 0.30 m
 * outside the kerb); the others are measured 0.20 m outside their inner line.
 * @throws RangeError for a lane outside 1 to 8
 * Source: World Athletics track. */
export function lapMetersOfLane(lane: number): number {
  if (!lanes.some((each) => each === lane)) {
    throw new RangeError(`a lane is a whole number from 1 to 8, got ${lane}`)
  }
  if (lane === 1) return 400
  return 2 * straight + 2 * Math.PI * (kerbRadius + laneWidth * (lane - 1) + fromLine)
}

/** The time of one lap in a lane at a pace in seconds per kilometre.
 * @throws RangeError for a lane outside 1 to 8 or a pace that is not above 0
 * Source: World Athletics track. */
export function lapSeconds(secondsPerKm: number, lane: number): number {
  return (positive(secondsPerKm, 'the pace') * lapMetersOfLane(lane)) / 1000
}

const perKm = (seconds: number) => formatPace(seconds, 'km', 1)

export const goalFigures = {
  'goal-pace': figure<{ meters: number; seconds: number }>({
    title: 'Goal pace',
    aliases: ['goal'],
    equation: ["goal pace = the goal's seconds / its metres x 1000"],
    sources: ['Common practice', 'World Athletics distances'],
    holds: 'for the goal written in the file.',
    holdsNot: 'as a forecast.',
    example: { meters: 10_000, seconds: 2370 },
    work: (goal) => [
      `${num(goal.meters, 1)} m in ${formatClock(goal.seconds)}: ${perKm(goalPace(goal.meters, goal.seconds))}`,
    ],
  }),
  'off-goal': figure<{ pace: number; goal: number }>({
    title: 'Off goal pace',
    aliases: ['off-goal-pace'],
    equation: ['off = pace of the interval - goal pace; negative is faster'],
    symbols: [['pace', 'time for a kilometre', 's/km']],
    sources: ['Common practice'],
    holds: 'for intervals with a pace or a time as target and no grade over 1 %.',
    holdsNot: 'for easy running, hills, and intervals without a target.',
    example: { pace: 240, goal: 237 },
    work: ({ pace, goal }) => [`${num(pace)} - ${num(goal)} = ${num(offGoal(pace, goal))} s/km`],
  }),
  'goal-share': figure<{ intervals: readonly { meters: number; secondsPerKm: number }[]; goal: number }>({
    title: 'Share of running at goal pace',
    aliases: ['share-at-goal-pace'],
    equation: ['share = metres within 2 % of goal pace / all metres x 100'],
    sources: ["This program's own rule"],
    holds: 'for running with a time and a distance, on the level.',
    holdsNot: 'as a readiness for the race: it is a fact about training, no forecast.',
    example: {
      goal: 237,
      intervals: [
        { meters: 3000, secondsPerKm: 236 },
        { meters: 5000, secondsPerKm: 300 },
      ],
    },
    work: ({ intervals, goal }) => [
      `at goal pace: ${perKm(goal * (1 - nearShare))} to ${perKm(goal * (1 + nearShare))}`,
      ...intervals.map((interval) => `${num(interval.meters, 1)} m at ${perKm(interval.secondsPerKm)}`),
      `share ${num((shareAtGoalPace(intervals, goal) ?? 0) * 100, 1)} %`,
    ],
  }),
  lane: figure<{ lane: number; secondsPerKm: number }>({
    title: 'Lap of a lane',
    aliases: ['lanes', 'lap', 'laps', 'track'],
    equation: ['lap = 2 x 84.39 + 2 pi (36.50 + 1.22 (lane - 1) + 0.20), lane 1: 400 m'],
    symbols: [['lane', 'from 1 to 8, counted from the inside', '-']],
    sources: ['World Athletics track'],
    holds: 'for the standard 400 m track with a kerb.',
    holdsNot: 'for other tracks. 0.30 m in every lane (407.67 m in lane 2) is a common mistake.',
    example: { lane: 2, secondsPerKm: 237 },
    work: ({ lane, secondsPerKm }) => [
      lane === 1
        ? 'lane 1: 400 m'
        : `lane ${lane}: 168.78 + 6.283185 x ${num(36.7 + 1.22 * (lane - 1))} = ${num(lapMetersOfLane(lane))} m`,
      `at ${perKm(secondsPerKm)}: ${formatClock(lapSeconds(secondsPerKm, lane), 1)} a lap`,
    ],
  }),
}
