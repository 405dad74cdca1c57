import { judge } from '../figures/range.ts'
import type { PieceStep } from '../prescription/step.ts'
import type { WalkState } from '../session/state.ts'
import { formatClockShort } from '../units/duration.ts'
import { isSameItem, stepNow } from './availability.ts'

/** A recorded split of the item that is now, for its bar. */
export interface SplitShown {
  label: string
  text: string
  /** Seconds. */
  value: number
  range: { from: number; to: number } | null
  target: 'fast' | 'in' | 'slow' | null
}

/** The splits or repeats of the work that is now, as far as they are recorded. */
export function splitsNow(state: WalkState): SplitShown[] {
  const now = stepNow(state)
  if (now?.kind !== 'piece' && now?.kind !== 'recovery') return []
  const pieces = state.steps.filter(
    (step): step is PieceStep => step.kind === 'piece' && isSameItem(step, now) && step.of > 1,
  )
  const work = now.kind === 'piece' ? now.work : pieces[0]?.work
  return pieces.flatMap((step) => {
    const recorded = state.recorded.get(step.id)
    if (step.work !== work || recorded?.kind !== 'piece' || recorded.result.seconds === null) return []
    const { seconds, precision } = recorded.result
    const range = step.target?.seconds ?? null
    const target = range ? judge(seconds, range, precision ?? 1) : null
    return [{ label: `${step.number}`, text: formatClockShort(seconds), value: seconds, range, target }]
  })
}

/** How much of each part lies behind, for the strip of the day. */
export function partsDone(state: WalkState): { label: string; done: number; of: number; isNow: boolean }[] {
  const now = stepNow(state)
  return state.parts.map((part, index) => {
    const asked = state.steps.filter(
      (step) => step.part === index && step.kind !== 'recovery' && step.kind !== 'ramp',
    )
    const done = asked.filter((step) => state.passed.has(step.id)).length
    return {
      label: part.kind,
      done,
      of: Math.max(1, asked.length),
      isNow: now?.part === index && !state.finished,
    }
  })
}
