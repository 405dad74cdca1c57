import { metersOf } from '../units/length.ts'
import type { LiftItem, Part, RunItem, Work } from './model.ts'

/** How many efforts and recoveries a part has when it is laid out, counted without laying it out.
 * @param lapMeters metres of a lap */
export function stepsIn(part: Part, lapMeters: number): number {
  switch (part.kind) {
    case 'run':
    case 'cross':
      return part.items.reduce((sum, item) => sum + stepsOfRun(item.step, lapMeters), 0)
    case 'lift':
      return part.items.reduce((sum, item) => sum + setsIn(item), 0)
    default:
      return part.items.length
  }
}

function stepsOfRun(step: RunItem['step'], lapMeters: number): number {
  return step.kind === 'recovery' ? 1 : stepsOfWork(step, lapMeters, step.split)
}

function stepsOfWork(work: Work, lapMeters: number, split: Work['split']): number {
  const own = work.split ?? split
  const times = work.times ?? 1
  const recoveries = work.recovery === null ? 0 : work.times === null ? 1 : times - 1
  const { body } = work
  if (body.kind === 'group')
    return (
      times *
        body.steps.reduce(
          (sum, step) => sum + (step.kind === 'recovery' ? 1 : stepsOfWork(step, lapMeters, own)),
          0,
        ) +
      recoveries
    )
  const efforts = body.amounts.map((amount) =>
    amount.kind === 'time' || own === null
      ? 1
      : Math.max(1, Math.ceil(metersOf(amount.length, lapMeters) / metersOf(own, lapMeters) - 1e-9)),
  )
  const betweenRungs = work.recovery === null ? 0 : body.amounts.length - 1
  return times * (efforts.reduce((sum, each) => sum + each, 0) + betweenRungs) + recoveries
}

function setsIn(item: LiftItem): number {
  return item.exercises.reduce((sum, exercise) => sum + exercise.sets.length, 0)
}
