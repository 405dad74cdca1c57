import type { Prescription } from './model.ts'
import { mostCharacters, printedLines } from './print.ts'

/** Something said about an item, or about a whole part (`item` null). */
export interface ItemComment {
  part: number
  item: number | null
  text: string
}

/** A prescription as the notation writes it, with comments: those of the whole day above its title, each of an
 * item on a line above it. Read again it is the same prescription. */
export function printCommented(
  prescription: Prescription,
  ofDay: readonly string[],
  comments: readonly ItemComment[],
): string {
  const lines = printedLines(prescription).flatMap(({ text, part, item }) => {
    const own = part === null ? [] : comments.filter((each) => each.part === part && each.item === item)
    const indent = item === null ? '' : '  '
    return [...own.map((each) => indent + commentLine(each.text)), text]
  })
  return `${[...ofDay.map(commentLine), ...lines].join('\n')}\n`
}

/** One line, never longer than a line of the notation may be. */
function commentLine(text: string): string {
  const words = [...`# ${text.replace(/\s+/g, ' ')}`]
  const most = mostCharacters - 2
  return words.length <= most ? words.join('') : `${words.slice(0, most - 1).join('')}…`
}
