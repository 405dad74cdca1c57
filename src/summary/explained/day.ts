import { catalogue } from '../../figures/catalogue.ts'
import { bodyMassOf } from '../estimate.ts'
import type { ExplainedSession, SessionSteps } from './steps.ts'

function partName({ kind, name }: { kind: string; name: string | null }): string {
  return name === null ? kind : `${kind}: ${name}`
}

/** The parts that were closed with an effort or minutes. */
export function effortSteps({ summary }: ExplainedSession): SessionSteps[] {
  const parts = summary.parts
    .filter((part) => part.effort !== null || part.minutes !== null)
    .map((part) => ({ name: partName(part), effort: part.effort, minutes: part.minutes }))
  return parts.length === 0 ? [] : [{ of: 'the session', steps: catalogue['effort-minutes'].work({ parts }) }]
}

export function minutesSteps({ summary }: ExplainedSession): SessionSteps[] {
  const parts = summary.parts
    .filter((part) => part.minutes !== null || part.gapMinutes !== null)
    .map((part) => ({ name: partName(part), minutes: part.minutes, gapMinutes: part.gapMinutes }))
  return parts.length === 0 ? [] : [{ of: 'the session', steps: catalogue.minutes.work({ parts }) }]
}

export function mealSteps({ summary }: ExplainedSession): SessionSteps[] {
  return (['before', 'between', 'after'] as const).flatMap((when) => {
    const meal = summary.fuel[when]
    return meal === null || meal.atwaterKcal === null
      ? []
      : [{ of: `what was eaten ${when}`, steps: catalogue['meal-energy'].work(meal) }]
  })
}

export function runningEnergySteps({ state, summary, context }: ExplainedSession): SessionSteps[] {
  const bodyKg = bodyMassOf(state, context)
  if (summary.fuel.runningKcal === null || bodyKg === null) return []
  const steps = catalogue['running-energy'].work({ bodyKg, meters: summary.running.meters })
  return [{ of: 'the running', steps }]
}
