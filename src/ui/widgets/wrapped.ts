import { cellsOf, wrapped } from '../../summary/plain.ts'

/** Breaks a text at line breaks and spaces into lines of at most `width` cells; at least one line. */
export function screenLines(text: string, width: number): string[] {
  return text.split('\n').flatMap((line) => {
    const lines = wrapped(line, Math.max(1, width), 0, 0)
    return lines.length === 0 ? [''] : lines
  })
}

/** Where the character at a place of a text begins and ends, as its reader sees it: an emoji has many code units. */
export function characterAt(text: string, at: number): { from: number; to: number } {
  const found = new Intl.Segmenter().segment(text).containing(at)
  const end = at < 0 ? 0 : text.length
  return found ? { from: found.index, to: found.index + found.segment.length } : { from: end, to: end }
}

/** Breaks a text into at most `most` lines. Text that does not fit is left out between the last two lines: the
 * beginning names a thing, and its figures come at the end. A single line is returned whole, for Ink to cut. */
export function screenLinesUpTo(most: number, text: string, width: number): string[] {
  const lines = screenLines(text, width)
  return lines.length <= most ? lines : most === 1 ? [text] : endsOf(lines, most, width)
}

function endsOf(lines: readonly string[], most: number, width: number): string[] {
  const words = lines
    .slice(most - 1)
    .join(' ')
    .split(' ')
  const last = [words.pop() ?? '']
  for (let word = words.pop(); word !== undefined; word = words.pop()) {
    if (cellsOf([word, ...last].join(' ')) > width) break
    last.unshift(word)
  }
  const kept = lines.slice(0, most - 1)
  const cut = [...`${kept.at(-1)} …`]
  const isShort = cut.length <= width
  const end = (isShort ? cut : [...cut.slice(0, width - 1), '…']).join('')
  return [...kept.slice(0, -1), end, last.join(' ')]
}

const nonBreaking = '\u00A0'

/** Breaks an indented line into lines of at most `width`, with the following lines indented by two more. A bar with its
 * range, `===[==  ]`, stays whole. */
export function wrappedLine(line: string, width: number): string[] {
  if (cellsOf(line) <= width) return [line]
  const indent = Math.min(line.search(/\S|$/), Math.floor(width / 2)) + 2
  const kept = line.replace(/=*\s*\[[= ]*\]=*/g, (bar) => bar.replaceAll(' ', nonBreaking))
  const lines = hanging(kept.slice(0, indent), kept.slice(indent), indent, width)
  return lines.map((each, index) => {
    const text = index === 0 ? each : ' '.repeat(indent) + each.trimStart()
    return text.replaceAll(nonBreaking, ' ').trimEnd()
  })
}

/** Breaks each line of a page like `wrappedLine`. */
export function wrappedPage(text: string, width: number): string[] {
  return text.split('\n').flatMap((line) => wrappedLine(line, width))
}

/** Joins items with semicolons and breaks lines only between items, or inside one that is longer than a line; no lines
 * without items. */
export function wrappedItems(items: readonly string[], width: number): string[] {
  if (items.length === 0) return []
  const kept = items.map((item) => (item.length < width ? item.replaceAll(' ', nonBreaking) : item))
  return screenLines(kept.join('; '), width).map((line) => line.replaceAll(nonBreaking, ' '))
}

/** Breaks a notice into at most `most` lines, dropping clauses after a `;` from the end until it fits. A notice without
 * semicolons keeps an overlong last line. */
export function noticeLines(text: string, width: number, most: number): string[] {
  const lines = screenLines(text, width)
  if (lines.length <= most) return lines
  const end = text.lastIndexOf('; ')
  return end > 0
    ? noticeLines(text.slice(0, end), width, most)
    : [...lines.slice(0, most - 1), lines.slice(most - 1).join(' ')]
}

/** Prose for a screen of any width: unlike rows, its wrapped lines are not indented. */
export function prose(text: string): (columns: number) => string {
  return (columns) => screenLines(text, columns).join('\n')
}

/** Puts a text after a heading word, with its further lines aligned below the first.
 * @param width of the whole line */
export function hanging(head: string, text: string, indent: number, width: number): string[] {
  return screenLines(text, width - indent).map(
    (line, index) => (index === 0 ? head : '').padEnd(indent) + line,
  )
}
