import { refused, shownOf } from './line.ts'
import { mostCharacters } from './print.ts'
import type { Problem } from './problem.ts'

/** What makes a line one that is not read at all. */
export function unfitOf(raw: string, number: number): Problem | null {
  const place = raw.search(refused)
  if (place >= 0) {
    const code = (raw.codePointAt(place) ?? 0).toString(16).toUpperCase().padStart(4, '0')
    const message = `the character U+${code} is not allowed in a prescription: take it out`
    const column = [...raw.slice(0, place)].length + 1
    return {
      line: number,
      column,
      length: 1,
      message,
      text: shownOf(raw).trimEnd(),
      instead: null,
      severity: 'error',
    }
  }
  if (raw.length <= mostCharacters) return null
  const count = [...raw].length
  if (count <= mostCharacters) return null
  const message = `this line has ${count} characters: break it up, a line has at most ${mostCharacters}`
  const text = shownOf(raw.slice(0, 2 * mostCharacters))
  return {
    line: number,
    column: mostCharacters + 1,
    length: 1,
    message,
    text,
    instead: null,
    severity: 'error',
  }
}
