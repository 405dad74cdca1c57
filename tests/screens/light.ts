const blocks: Record<string, number> = { ' ': 0, '█': 1, '▓': 0.75, '▒': 0.5, '░': 0.25, '▀': 0.5, '▄': 0.5 }

/** How much of its cell a character lights. Block elements by what Unicode says they cover (U+2580 to U+259F); other
 * characters approximately (this program's own figures): a line a ninth, heavy ones a quarter, letters a fifth. */
function lightOf(character: string): number {
  const light = blocks[character]
  if (light !== undefined) return light
  if (/[━=#%]/.test(character)) return character === '#' || character === '%' ? 0.5 : 0.25
  return /[─-╿·_|/\\:.,-]/.test(character) ? 1 / 9 : 0.2
}

/** How many whole cells the characters of these lines light together. */
export function lightOfLines(lines: readonly string[]): number {
  let light = 0
  for (const line of lines) for (const character of line) light += lightOf(character)
  return light
}
