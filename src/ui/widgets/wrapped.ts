import { wrapped } from '../../summary/plain.ts'

/** A text broken at spaces into lines of at most `width` characters, one at least. */
export function screenLines(text: string, width: number): string[] {
  const lines = wrapped(text, 0, Math.max(1, width), 0)
  return lines.length === 0 ? [''] : lines
}

const nonBreaking = '\u00A0'

/** Characters that take two cells, near enough: a line that is taken for too long is only broken early. */
const wide = /[\p{scx=Han}\p{scx=Hira}\p{scx=Kana}\p{scx=Hang}\p{Emoji_Presentation}\uFF01-\uFF60]/gu
/** Stands for the second cell while lines are broken. */
const secondCell = '\u2060'

/** The same in at most `most` lines, where wide characters count as the two cells they take. What does not fit is left
 * out between the last two: the beginning says what a thing is, and its figures stand at the end. In one line the end
 * is left to be cut. */
export function screenLinesUpTo(most: number, text: string, width: number): string[] {
  const lines = screenLines(text.replace(wide, `$&${secondCell}`), width)
  const kept = lines.length <= most ? lines : most === 1 ? [text] : endsOf(lines, most, width)
  return kept.map((line) => line.replaceAll(secondCell, ''))
}

function endsOf(lines: readonly string[], most: number, width: number): string[] {
  const words = lines
    .slice(most - 1)
    .join(' ')
    .split(' ')
  const last = [words.pop() ?? '']
  for (let word = words.pop(); word !== undefined; word = words.pop()) {
    if ([word, ...last].join(' ').length > width) break
    last.unshift(word)
  }
  const kept = lines.slice(0, most - 1)
  const cut = [...`${kept.at(-1)} …`]
  const isShort = cut.length <= width
  const end = (isShort ? cut : [...cut.slice(0, width - 1), '…']).join('')
  return [...kept.slice(0, -1), end, last.join(' ')]
}

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
  return screenLines(kept.join('; '), width).map((line) => line.replaceAll(nonBreaking, ' '))
}

/** A notice in at most `most` lines: where it does not fit, what stands behind its last `;` is dropped, and so on;
 * what has none is left to be cut. */
export function noticeLines(text: string, width: number, most: number): string[] {
  const lines = screenLines(text, width)
  if (lines.length <= most) return lines
  const end = text.lastIndexOf('; ')
  return end > 0
    ? noticeLines(text.slice(0, end), width, most)
    : [...lines.slice(0, most - 1), lines.slice(most - 1).join(' ')]
}

/** The same behind a word: its first line after the word, the others below it.
 * @param width of the whole line */
export function hanging(head: string, text: string, indent: number, width: number): string[] {
  return screenLines(text, width - indent).map(
    (line, index) => (index === 0 ? head : '').padEnd(indent) + line,
  )
}
