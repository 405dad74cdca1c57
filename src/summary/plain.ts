import { escapeUnsafe, sanitize } from '../validate/unsafe.ts'

/** Makes outside text safe to print on one line: unsafe characters become `�`, line feeds and tabs spaces. */
export function plainOf(text: string): string {
  return sanitize(text.replace(/[\t\r\n]+/g, ' '))
}

/** Wraps text into lines of at most `width` characters, at spaces; cuts longer words. Aligning spaces stay. The
 * first line is indented by `indent` spaces, the others by `hang` more. Returns no lines for an empty text.
 * @param width at least indent + hang + 1 */
export function wrapped(text: string, width = 72, indent = 0, hang = 2): string[] {
  const lines: string[] = []
  let line = ' '.repeat(indent)
  let isEmpty = true
  const next = () => {
    lines.push(line)
    line = ' '.repeat(indent + hang)
    isEmpty = true
  }
  for (const word of text.split(' ')) {
    const letters = [...word]
    // An index into the word, so that a very long word is not copied for each of its lines.
    let from = 0
    if (!isEmpty && [...line].length + 1 + letters.length > width) next()
    while (letters.length - from > width - [...line].length - (isEmpty ? 0 : 1)) {
      const fits = width - [...line].length
      line += letters.slice(from, from + fits).join('')
      from += fits
      next()
    }
    line += `${isEmpty ? '' : ' '}${letters.slice(from).join('')}`
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
