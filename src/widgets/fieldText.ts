/** Text as a field may hold it: one line, no half of a character that was cut in two, at most 500 characters. */
export function fieldTextOf(text: string): string {
  return text
    .replace(/[\r\n\t]+/g, ' ')
    .replace(/\p{Cs}/gu, '')
    .slice(0, 500)
}
