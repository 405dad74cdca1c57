import { cutToMinutes, expectedSecondsOf } from '../prescription/cutSteps.ts'
import { readMinutes } from '../session/entryPart.ts'
import { stepUnderWay } from './availability.ts'
import type { RecorderModel, Updated } from './model.ts'
import { stepTitle } from './titles.ts'

/** The minutes that are left were typed: what would be cut, shown before it is taken. */
export function offerCut(model: RecorderModel): Updated {
  const said = (notice: string): Updated => ({ model: { ...model, notice }, effects: [] })
  const reading = readMinutes(model.draft)
  if (reading.outcome === 'error') return said(reading.message)
  if (reading.value === null || reading.value <= 0)
    return said('type the minutes that are left; Escape leaves it')
  const { state } = model
  const underWay = stepUnderWay(state)
  const ahead = state.steps.filter((step) => !state.passed.has(step.id) && step !== underWay)
  const needed = Math.round(expectedSecondsOf(ahead, state.prescription) / 60)
  if (needed <= reading.value) return said(`about ${needed} min are left to do: nothing needs to be cut`)
  const cut = cutToMinutes(ahead, reading.value, state.prescription)
  if (cut.length === 0)
    return said('nothing more can be cut: what has a target stays, and half of the main lift')
  const left = Math.round(
    expectedSecondsOf(
      ahead.filter((step) => !cut.includes(step)),
      state.prescription,
    ) / 60,
  )
  const short = left > reading.value ? ': more cannot go, what has a target stays' : ''
  const lines = [...linesOf(cut), `then about ${left} min, of ${needed}${short}`]
  const steps = cut.map((step) => step.id)
  return {
    model: {
      ...model,
      mode: { kind: 'cutOffered', minutes: reading.value, steps, lines },
      draft: '',
      notice: null,
    },
    effects: [],
  }
}

/** "plank: 2 sets fewer", a line for each exercise or piece of work. */
function linesOf(cut: ReturnType<typeof cutToMinutes>): string[] {
  const counts = new Map<string, { sets: number; what: string }>()
  for (const step of cut) {
    if (step.kind === 'recovery') continue
    const name = step.kind === 'set' ? step.name : stepTitle(step)
    const what = step.kind === 'set' ? 'set' : 'result'
    counts.set(name, { sets: (counts.get(name)?.sets ?? 0) + 1, what })
  }
  return [...counts].map(([name, { sets, what }]) => `${name}: ${sets} ${what}${sets === 1 ? '' : 's'} fewer`)
}
