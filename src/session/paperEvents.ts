import type { LaidOutPart } from '../prescription/step.ts'
import type { SessionEvent } from './model.ts'
import type { PaperAnswer } from './paperModel.ts'
import type { PaperRemarks } from './paperRemarks.ts'
import { recordedEvent, remarks as skippedRemarks } from './press.ts'

const unknown = { at: null, up: null }

/** The events behind the start of a session that was kept on paper, in the order of a live one: part by part
 * what was recorded, then how the part was. What has no answer is not done.
 * @param times of each answer; null where none is known */
export function eventsOf(
  answers: readonly PaperAnswer[],
  remarks: PaperRemarks,
  times: readonly (string | null)[],
  parts: readonly LaidOutPart[],
): SessionEvent[] {
  const timed = answers.map((answer, index) => ({ ...answer, when: { at: times[index] ?? null, up: null } }))
  const eaten = (before: boolean): SessionEvent[] =>
    remarks.fuel
      .filter(({ when }) => (when === 'before') === before)
      .map(({ when, step, result }) =>
        step === null
          ? { type: 'mealRecorded', ...unknown, meal: when, result }
          : { type: 'fuelRecorded', ...unknown, step: step.id, result },
      )
  const done = parts.flatMap((part, index): SessionEvent[] => {
    if (part.kind === 'fuel') return []
    const text = remarks.conditions.get(index)
    const closing = remarks.closings.get(index) ?? { effort: null, minutes: null }
    return [
      ...(text === undefined ? [] : [{ type: 'conditionsNoted' as const, ...unknown, part: index, text }]),
      ...timed
        .filter(({ step }) => step.part === index)
        .flatMap(({ step, answer, when }) => [
          recordedEvent(step.id, answer, when),
          ...skippedRemarks(answer, step.id, when),
        ]),
      { type: 'partClosed', ...unknown, part: index, ...closing },
    ]
  })
  const notes = remarks.notes.map(
    (note): SessionEvent => ({ type: 'noteAdded', ...unknown, about: null, ...note }),
  )
  const finished: SessionEvent = { type: 'sessionFinished', at: times.at(-1) ?? null, up: null }
  return [...eaten(true), ...done, ...eaten(false), ...notes, finished]
}
