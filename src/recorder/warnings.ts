import { isOver, isWarning } from '../session/pain.ts'

export const warningText = 'Stop. Chest pain, faintness or unusual breathlessness need a doctor now.'

/** The message after a result or a note with pain, or with a warning sign; null for any other.
 * @param place what the pain was noted with, such as `repeat 4`; null where that is obvious */
export function painText(
  note: string | null,
  pain: string | null,
  place: string | null = null,
): string | null {
  const isFelt = pain !== null && !isOver(pain)
  if ((isFelt && isWarning(pain, true)) || (note !== null && isWarning(note, false))) return warningText
  return !isFelt
    ? null
    : `Pain noted: ${pain}${place === null ? '' : `, with ${place}`}. Stop if it is sharp or gets worse.`
}
