import { isOver, isWarning } from '../session/pain.ts'

export const warningText = 'Stop. Chest pain, faintness or unusual breathlessness need a doctor now.'

/** The message after a result or a note with pain, or with a warning sign; null for any other. */
export function painText(note: string | null, pain: string | null): string | null {
  const isFelt = pain !== null && !isOver(pain)
  if ((isFelt && isWarning(pain, true)) || (note !== null && isWarning(note, false))) return warningText
  return !isFelt ? null : `Pain noted: ${pain}. Stop if it is sharp or gets worse.`
}
