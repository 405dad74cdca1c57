import { isOver, isWarning } from '../session/pain.ts'

export const warningText = 'Stop. Chest pain, faintness or unusual breathlessness need a doctor now.'

const saysPain = /\b(pain(ful)?|limp(ed|ing)?|popped)\b/i
const saysNone = /\bno pain\b|\bpain[- ]?free\b|\bpain (is|was) gone\b/i

/** The message after a result or a note with pain, with a warning sign, or with a pain in words, which does not count
 * as one; null for any other.
 * @param place what the pain was noted with, such as `repeat 4`; null where that is obvious */
export function painText(
  note: string | null,
  pain: string | null,
  place: string | null = null,
): string | null {
  const isFelt = pain !== null && !isOver(pain)
  if ((isFelt && isWarning(pain, true)) || (note !== null && isWarning(note, false))) return warningText
  if (isFelt)
    return `Pain noted: ${pain}${place === null ? '' : `, with ${place}`}. Stop if it is sharp or gets worse.`
  return note !== null && saysPain.test(note) && !saysNone.test(note)
    ? 'Kept as a note. For it to count as pain, type pain and the place: pain left calf'
    : null
}
