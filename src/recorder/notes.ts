import { whenOf } from '../session/clock.ts'
import type { SessionEvent } from '../session/model.ts'
import type { WalkState } from '../session/state.ts'
import { stepNow } from './availability.ts'
import type { RecorderModel } from './model.ts'

/** A note as it was typed: to the last result; `with: flats, windy` to the part, `day: slept 5 h` to the day.
 * `pain left knee` is one that later advice respects. Empty for an empty field. */
export function noteEvents(model: RecorderModel): SessionEvent[] {
  const typed = unquoted(model.draft)
  if (typed === '') return []
  const when = whenOf(model.now)
  const part = partNow(model.state)
  const conditions = /^with:?\s+(\S.*)$/i.exec(typed)?.[1]
  if (conditions !== undefined && part !== null)
    return [{ type: 'conditionsNoted', ...when, part, text: unquoted(conditions) }]
  const ofDay = /^day:\s*(\S.*)$/i.exec(typed)?.[1]
  const pain = /^pain:?\s+(\S.*)$/i.exec(ofDay ?? typed)?.[1]
  const about = ofDay === undefined ? latestStep(model) : null
  const text = unquoted(pain ?? ofDay ?? typed)
  return [{ type: 'noteAdded', ...when, about, text, pain: pain !== undefined }]
}

/** What was noted, as it would be typed: said once Enter took it. Null for nothing. */
export function notedText([event]: readonly SessionEvent[]): string | null {
  if (event?.type === 'conditionsNoted') return `noted: with ${event.text}`
  if (event?.type !== 'noteAdded') return null
  return `noted: ${event.about === null ? 'day: ' : ''}${event.pain ? 'pain ' : ''}${event.text}`
}

function unquoted(text: string): string {
  return text.trim().replace(/^"(.*)"$/, '$1')
}

/** The part of what is now; at the end of the day the last one that was begun. */
function partNow(state: WalkState): number | null {
  const last = state.steps.filter((step) => state.passed.has(step.id)).at(-1)
  return (stepNow(state) ?? last)?.part ?? null
}

/** The result a note is about: the last one that was recorded or is open. */
function latestStep({ state }: RecorderModel): string | null {
  const behind = state.steps.filter((step) => state.recorded.has(step.id) || state.passed.has(step.id))
  const asked = behind.filter((step) => step.kind !== 'recovery' && step.kind !== 'ramp')
  return asked.at(-1)?.id ?? null
}
