import { sanitize } from '../validate/unsafe.ts'

/** Text from outside, safe to print in one line: each unsafe character is shown as `�`, line feeds and
 * tabs are spaces. */
export function plainOf(text: string): string {
  return sanitize(text.replace(/[\t\r\n]+/g, ' '))
}

/** Lines of at most `width` characters, broken at spaces; a longer word is cut. Spaces that align its words stay. The
 * first line is indented by `indent` spaces, the others by `hang` more. None for an empty text.
 * @param width at least indent + hang + 1 */
export function wrapped(text: string, indent = 0, width = 72, hang = 2): string[] {
  const lines: string[] = []
  let line = ' '.repeat(indent)
  let isEmpty = true
  const next = () => {
    lines.push(line)
    line = ' '.repeat(indent + hang)
    isEmpty = true
  }
  for (const word of text.split(' ')) {
    if (word === '' && isEmpty && lines.length > 0) continue
    const letters = [...word]
    // A place in the word, so that a word of a whole file is not copied for each of its lines.
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
