/** A text broken at spaces into lines of at most `width` characters; a longer word stands alone. */
export function wrapped(text: string, width: number): string[] {
  const lines: string[] = []
  for (const word of text.split(' ')) {
    const last = lines.at(-1)
    if (last !== undefined && last.length + 1 + word.length <= width)
      lines[lines.length - 1] = `${last} ${word}`
    else lines.push(word)
  }
  return lines
}

const nonBreaking = '\u00A0'

/** A line of a text that is indented, in lines of at most `width`: the others stand two further in. A bar with its
 * range, `===[==  ]`, stays whole. */
export function wrappedLine(line: string, width: number): string[] {
  if (line.length <= width) return [line]
  const indent = Math.min(line.search(/\S|$/), Math.floor(width / 2)) + 2
  const kept = line.replace(/=*\s*\[[= ]*\]=*/g, (bar) => bar.replaceAll(' ', nonBreaking))
  const lines = hanging(kept.slice(0, indent), kept.slice(indent), indent, width)
  return lines.map((each, index) => {
    const text = index === 0 ? each : ' '.repeat(indent) + each.trimStart()
    return text.replaceAll(nonBreaking, ' ').trimEnd()
  })
}

/** Items behind one another, in lines that are broken between them alone. */
export function wrappedItems(items: readonly string[], width: number): string[] {
  const kept = items.map((item) => item.replaceAll(' ', nonBreaking))
  return wrapped(kept.join('; '), width).map((line) => line.replaceAll(nonBreaking, ' '))
}

/** A notice in at most `most` lines: where it does not fit, what stands behind its last `;` is dropped, and so on;
 * what has none is left to be cut. */
export function noticeLines(text: string, width: number, most: number): string[] {
  const lines = wrapped(text, width)
  if (lines.length <= most) return lines
  const end = text.lastIndexOf('; ')
  return end > 0
    ? noticeLines(text.slice(0, end), width, most)
    : [...lines.slice(0, most - 1), lines.slice(most - 1).join(' ')]
}

/** The same behind a word: its first line after the word, the others below it.
 * @param width of the whole line */
export function hanging(head: string, text: string, indent: number, width: number): string[] {
  return wrapped(text, width - indent).map((line, index) => (index === 0 ? head : '').padEnd(indent) + line)
}
