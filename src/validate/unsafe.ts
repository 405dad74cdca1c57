/* Characters that must not reach a terminal or a stored file: C0 but the tab, DEL and C1 (ECMA-48 control functions);
 * line and paragraph separators; marks, embeddings, overrides and isolates that turn the direction of a line around
 * (Unicode Standard Annex 9); characters without a width; halves of a surrogate pair. The two joiners U+200C and U+200D
 * are text: several scripts and emoji need them. */
const range =
  '\\u0000-\\u0008\\u000A-\\u001F\\u007F-\\u009F\\u061C\\u180E\\u200B\\u200E\\u200F\\u2028-\\u202E\\u2060-\\u206F\\uFEFF\\p{Cs}'
const unsafe = new RegExp(`[${range}]`, 'u')
const allUnsafe = new RegExp(`[${range}]`, 'gu')
const unsafeInLines = new RegExp(`(\\r?\\n)|[${range}]`, 'gu')
const unsafeInFrame = new RegExp(`(\\u001B\\[[\\d;]*m)|[${range}]`, 'gu')
/** Most texts are of these, which is seen in one look. */
const isPlain = /^[\t -~]*$/
const mark = '\uFFFD'

/** Whether a text has a character that must not reach a terminal or a file. A line feed is one. */
export function isUnsafe(text: string): boolean {
  return !isPlain.test(text) && unsafe.test(text)
}

/** The index of the first unsafe character, in UTF-16 units; -1 where all are safe. */
export function unsafeAt(text: string): number {
  return text.search(unsafe)
}

/** The text with U+FFFD for each unsafe character. */
export function sanitize(text: string): string {
  return isPlain.test(text) ? text : text.replace(allUnsafe, mark)
}

/** The same for a text of several lines: line feeds stay, alone or after a carriage return. */
export function sanitizeLines(text: string): string {
  return text.replace(unsafeInLines, (_, lineEnd: string | undefined) => lineEnd ?? mark)
}

/** The same for a line that is drawn: the sequences of colour and weight (SGR) stay. */
export function sanitizeFrame(line: string): string {
  return line.replace(unsafeInFrame, (_, style: string | undefined) => style ?? mark)
}

/** The text of a JSON document with each unsafe character as an escape: it means the same. */
export function escapeUnsafe(json: string): string {
  return json.replace(
    unsafeInLines,
    (character, lineEnd: string | undefined) =>
      lineEnd ?? `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  )
}
