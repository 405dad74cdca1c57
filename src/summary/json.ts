import { escapeUnsafe } from '../validate/unsafe.ts'

/** Writes a value as JSON for other programs, on several lines, with a line feed at its end. Escapes
 * terminal control characters. */
export function jsonOf(value: unknown): string {
  return `${escapeUnsafe(JSON.stringify(value, null, 2))}\n`
}
