import { catalogue } from '../../figures/catalogue.ts'
import type { Range } from '../../figures/range.ts'
import { formatClockShort } from '../../units/duration.ts'
import { type DoneSplit, type DoneWork, worksDone } from '../performed.ts'
import { fullSplits } from '../runningItem.ts'
import type { ExplainedSession, SessionSteps } from './steps.ts'

type Measured = { meters: number; seconds: number }
type Numbered = { number: number; seconds: number }

/** The pieces of work of all run and cross parts of which something was recorded. */
function recordedWorks({ state }: ExplainedSession): DoneWork[] {
  return [...worksDone(state, 'run'), ...worksDone(state, 'cross')].filter((work) => work.splits.length > 0)
}

/** A figure of the full splits of each piece of work with at least so many of them. */
export function splitSteps(
  session: ExplainedSession,
  least: number,
  work: (inputs: { splits: Numbered[] }) => string[],
): SessionSteps[] {
  return recordedWorks(session).flatMap((done) => {
    const splits = fullSplits(done)
    return splits.length < least ? [] : [{ of: done.work.text, steps: work({ splits }) }]
  })
}

/** A figure of all splits with a distance and a time, of each piece of work with at least so many of them. */
export function measuredSteps(
  session: ExplainedSession,
  least: number,
  work: (inputs: { splits: Measured[] }) => string[],
): SessionSteps[] {
  return recordedWorks(session).flatMap((done) => {
    const splits = measuredSplits(done)
    return splits.length < least ? [] : [{ of: done.work.text, steps: work({ splits }) }]
  })
}

function measuredSplits(done: DoneWork): Measured[] {
  return done.splits.flatMap(({ result: { meters, seconds } }) =>
    meters === null || seconds === null ? [] : [{ meters, seconds }],
  )
}

/** Each piece of work against its range; splits with different ranges (of different lengths) stand apart. */
export function rangeSteps(session: ExplainedSession): SessionSteps[] {
  return recordedWorks(session).flatMap((done) => {
    const byRange = new Map<string, { range: Range; splits: DoneSplit[] }>()
    for (const split of done.splits) {
      if (split.range === null || split.target === null) continue
      const key = `${split.range.from} ${split.range.to}`
      const known = byRange.get(key) ?? { range: split.range, splits: [] }
      byRange.set(key, { ...known, splits: [...known.splits, split] })
    }
    return [...byRange.values()].map(({ range, splits }) => ({
      of: done.work.text,
      steps: catalogue['in-range'].work({
        target: range,
        splits: splits.map(({ result }) => ({
          seconds: result.seconds ?? 0,
          precision: result.precision ?? 1,
        })),
      }),
    }))
  })
}

export function goalSteps({ summary }: ExplainedSession): SessionSteps[] {
  const { goal } = summary.running
  return goal === null ? [] : [{ of: 'the goal of the day', steps: catalogue['goal-pace'].work(goal) }]
}

/** Each piece of work that is held against the goal's pace. */
export function offGoalSteps({ summary }: ExplainedSession): SessionSteps[] {
  const { goal, items } = summary.running
  return items.flatMap(({ text, secondsPerKm, offGoalSecondsPerKm }) =>
    goal === null || secondsPerKm === null || offGoalSecondsPerKm === null
      ? []
      : [{ of: text, steps: catalogue['off-goal'].work({ pace: secondsPerKm, goal: goal.secondsPerKm }) }],
  )
}

/** The share of all running on the level that has both a distance and a time. */
export function goalShareSteps(session: ExplainedSession): SessionSteps[] {
  const { goal } = session.summary.running
  const pieces = worksDone(session.state, 'run').flatMap((done) =>
    done.splits.flatMap(({ step, result: { meters, seconds } }) =>
      meters === null || seconds === null || Math.abs(step.grade ?? 0) > 1
        ? []
        : [{ meters, secondsPerKm: (seconds / meters) * 1000 }],
    ),
  )
  if (goal === null || pieces.length === 0) return []
  return [
    {
      of: 'all running with a time',
      steps: catalogue['goal-share'].work({ pieces, goal: goal.secondsPerKm }),
    },
  ]
}

export function distanceSteps({ summary }: ExplainedSession): SessionSteps[] {
  return (['running', 'cross'] as const).flatMap((kind) => {
    const { meters, workMeters } = summary[kind]
    const steps = catalogue['distance-run'].work({ workMeters, recoveryMeters: meters - workMeters })
    return meters === 0 ? [] : [{ of: kind === 'running' ? 'running' : 'other parts like it', steps }]
  })
}

/** A figure of each race or time trial that was recorded from end to end. */
export function raceSteps(session: ExplainedSession, work: (race: Measured) => string[]): SessionSteps[] {
  return worksDone(session.state, 'run').flatMap((done) => {
    const isRace = done.steps.every((step) => step.target?.word === 'race' || step.target?.word === 'trial')
    const splits = measuredSplits(done)
    if (!isRace || done.work.repeats || splits.length === 0 || splits.length < done.steps.length) return []
    const sum = (of: keyof Measured) => splits.reduce((total, split) => total + split[of], 0)
    const race = { meters: sum('meters'), seconds: sum('seconds') }
    return [{ of: `${done.work.text} in ${formatClockShort(race.seconds)}`, steps: work(race) }]
  })
}
