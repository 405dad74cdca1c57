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

/** The same behind a word: its first line after the word, the others below it.
 * @param width of the whole line */
export function hanging(head: string, text: string, indent: number, width: number): string[] {
  return wrapped(text, width - indent).map((line, index) => (index === 0 ? head : '').padEnd(indent) + line)
}
