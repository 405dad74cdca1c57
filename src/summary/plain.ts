import { escapeUnsafe, sanitize } from '../validate/unsafe.ts'

/** Makes outside text safe to print on one line: unsafe characters become `�`, line feeds and tabs spaces. */
export function plainOf(text: string): string {
  return sanitize(text.replace(/[\t\r\n]+/g, ' '))
}

/** Characters two cells wide: the blocks that are wide or full-width by Unicode's UAX #11, and emoji. */
const wide =
  /[\u1100-\u115f\u2e80-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff01-\uff60\u{20000}-\u{3fffd}\p{Emoji_Presentation}]/gu

/** How many cells of a screen a line takes. */
export function cellsOf(line: string): number {
  return [...line].length + (line.match(wide)?.length ?? 0)
}

/** Wraps text into lines of at most `width` cells, at spaces; cuts longer words. Aligning spaces stay. The
 * first line is indented by `indent` spaces, the others by `hang` more. Returns no lines for an empty text.
 * @param width at least indent + hang + 2 */
export function wrapped(text: string, width = 72, indent = 0, hang = 2): string[] {
  const lines: string[] = []
  let line = ' '.repeat(indent)
  let cells = indent
  let isEmpty = true
  const next = () => {
    lines.push(line)
    line = ' '.repeat(indent + hang)
    cells = line.length
    isEmpty = true
  }
  for (const word of text.split(' ')) {
    if (!isEmpty && cells + 1 + cellsOf(word) > width) next()
    for (const letter of isEmpty ? word : ` ${word}`) {
      const more = cellsOf(letter)
      if (cells + more > width) next()
      line += letter
      cells += more
    }
    isEmpty = false
  }
  return [...lines, line].map((each) => each.trimEnd()).filter((each) => each !== '')
}

/** Writes a value as JSON for other programs, on several lines, with a line feed at its end. Escapes
 * terminal control characters.
 * @param indent 0 for a single line */
export function jsonOf(value: unknown, indent = 2): string {
  return `${escapeUnsafe(JSON.stringify(value, null, indent))}\n`
}
