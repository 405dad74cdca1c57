/** Where the parser of JSON met the first mistake, and whether only the end of the text is missing.
 * @param message of the error that `JSON.parse` threw for this text; its words differ between versions of Node
 * @returns `place` in UTF-16 code units; null where the parser names none, as for a strange token */
export function jsonMistake(text: string, message: string): { place: number | null; isCutOff: boolean } {
  const { length } = text.trimEnd()
  const [, named] = / at position (\d+)/.exec(message) ?? []
  const atEnd = message.includes('end of JSON input') ? length : null
  const place = named === undefined ? atEnd : Number(named)
  return { place, isCutOff: message.startsWith('Unterminated') || (place !== null && place >= length) }
}
