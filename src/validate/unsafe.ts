/* Characters that must not reach a terminal or a stored file: C0 except tab, DEL and C1 (ECMA-48 control functions);
 * line and paragraph separators; marks, embeddings, overrides and isolates that reverse the direction of a line
 * (Unicode Standard Annex 9); zero-width characters; halves of a surrogate pair. The two joiners U+200C and U+200D
 * are text: several scripts and emoji need them. */
const range =
  '\\u0000-\\u0008\\u000A-\\u001F\\u007F-\\u009F\\u061C\\u180E\\u200B\\u200E\\u200F\\u2028-\\u202E\\u2060-\\u206F\\uFEFF\\p{Cs}'
const unsafe = new RegExp(`[${range}]`, 'u')
const allUnsafe = new RegExp(`[${range}]`, 'gu')
const unsafeInLines = new RegExp(`(\\r?\\n)|[${range}]`, 'gu')
const unsafeInFrame = new RegExp(`(\\u001B\\[[\\d;]*m)|[${range}]`, 'gu')
/** Most texts are plain ASCII, and this test is the cheaper one. */
const isPlain = /^[\t -~]*$/
const mark = '\uFFFD'

/** Largest size, in bytes, of a text that a person writes: a day, a plan, the results of a day. */
export const mostTextBytes = 1024 * 1024

/** Whether a text has a character that must not reach a terminal or a file, including a line feed. */
export function isUnsafe(text: string): boolean {
  return !isPlain.test(text) && unsafe.test(text)
}

/** The index of the first unsafe character, in UTF-16 units; -1 if all are safe. */
export function unsafeAt(text: string): number {
  return text.search(unsafe)
}

/** Replaces each unsafe character with U+FFFD. */
export function sanitize(text: string): string {
  return isPlain.test(text) ? text : text.replace(allUnsafe, mark)
}

/** Makes a text fit for a message: printable, and with at most this many letters. */
export function clipped(text: string, most: number): string {
  const printable = sanitize(text)
  return printable.length > most ? `${printable.slice(0, most)}…` : printable
}

/** Like `sanitize`, for a text of several lines: keeps LF and CRLF. */
export function sanitizeLines(text: string): string {
  return text.replace(unsafeInLines, (_, lineEnd: string | undefined) => lineEnd ?? mark)
}

/** Like `sanitize`, for a drawn line: keeps the sequences for colour and weight (SGR). */
export function sanitizeFrame(line: string): string {
  return line.replace(unsafeInFrame, (_, style: string | undefined) => style ?? mark)
}

/** Escapes each unsafe character in a JSON text, which keeps its meaning. */
export function escapeUnsafe(json: string): string {
  return json.replace(
    unsafeInLines,
    (character, lineEnd: string | undefined) =>
      lineEnd ?? `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  )
}
