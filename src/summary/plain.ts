/** Characters that steer a terminal or turn the order of a line around must never come out of a file. */
const steering = /[\p{Cc}\p{Zl}\p{Zp}\p{Cs}\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069]/gu

/** Text from outside, safe to print in one line: each steering character is shown as `�`, line feeds and
 * tabs are spaces. */
export function plainOf(text: string): string {
  // Most texts are of printable ASCII, which is seen in one look: ten thousand lines go through here.
  if (/^[ -~]*$/.test(text)) return text
  return text.replace(/[\t\r\n]+/g, ' ').replace(steering, '\uFFFD')
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
    let rest = [...word]
    if (!isEmpty && [...line].length + 1 + rest.length > width) next()
    while (rest.length > width - [...line].length - (isEmpty ? 0 : 1)) {
      const fits = width - [...line].length
      line += rest.slice(0, fits).join('')
      rest = rest.slice(fits)
      next()
    }
    line += `${isEmpty ? '' : ' '}${rest.join('')}`
    isEmpty = false
  }
  return [...lines, line].map((each) => each.trimEnd()).filter((each) => each !== '')
}
