import { whenOf } from '../session/clock.ts'
import type { SessionEvent } from '../session/model.ts'
import { stepNow } from './availability.ts'
import type { RecorderModel } from './model.ts'

/** A note as it was typed: `pain left knee` is one that later advice respects, `with: flats, windy` the
 * conditions of the part. Empty for an empty field. */
export function noteEvents(model: RecorderModel, about: 'result' | 'part' | 'day'): SessionEvent[] {
  const text = model.draft.trim().replace(/^"(.*)"$/, '$1')
  if (text === '') return []
  const when = whenOf(model.now)
  const now = stepNow(model.state)
  const conditions = /^with:?\s+(.+)$/i.exec(text)
  if (conditions?.[1] && now)
    return [{ type: 'conditionsNoted', ...when, part: now.part, text: conditions[1] }]
  const pain = /^pain\s+(.+)$/i.exec(text)
  const step = about === 'day' ? null : about === 'part' ? null : latestStep(model)
  if (about === 'part' && now) return [{ type: 'conditionsNoted', ...when, part: now.part, text }]
  return [{ type: 'noteAdded', ...when, about: step, text: pain?.[1] ?? text, pain: pain !== null }]
}

/** The result a note is about: the last one that was recorded or is open. */
function latestStep({ state }: RecorderModel): string | null {
  const behind = state.steps.filter((step) => state.recorded.has(step.id) || state.passed.has(step.id))
  const asked = behind.filter((step) => step.kind !== 'recovery' && step.kind !== 'ramp')
  return asked.at(-1)?.id ?? null
}
