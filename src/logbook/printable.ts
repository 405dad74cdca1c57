/* What a value from outside must not hold. */

/** Control characters (tab excepted), line and paragraph separators, and those that turn the direction of
 * text around: in a file from elsewhere they could drive the terminal or disguise what stands there. */
const unprintable =
  /[\u0000-\u0008\u000A-\u001F\u007F-\u009F\u2028\u2029\u202A-\u202E\u2066-\u2069\uD800-\uDFFF]/gu

/** A text from outside with `\uFFFD` for each character that must not reach a screen or a file. */
export function printableOf(text: string): string {
  return text.replace(unprintable, '\uFFFD')
}

/** The same for every string in a value as JSON gives it; the value itself when nothing has to change. Not
 * recursive, since what comes from a file may be nested ten thousand deep. */
export function printableValueOf(value: unknown): unknown {
  const holder = { value }
  const open: unknown[] = [holder]
  for (let holding = open.pop(); holding !== undefined; holding = open.pop()) {
    const record = holding as Record<string, unknown>
    for (const key of Object.keys(record)) {
      const held = record[key]
      if (typeof held === 'string') {
        const printable = printableOf(held)
        if (printable !== held) Object.defineProperty(record, key, { value: printable })
      } else if (typeof held === 'object' && held !== null) open.push(held)
    }
  }
  return holder.value
}

/** More than any figure of a day: seconds, metres, grams, repetitions. Beyond it sums and products stop being
 * numbers, which no figure may. */
const largest = 1e9

/** The first number in a value as JSON gives it that is too large to reckon with; null where none is. */
export function tooLargeIn(value: unknown): number | null {
  const open: unknown[] = [value]
  while (open.length > 0) {
    const held = open.pop()
    if (typeof held === 'number' && Math.abs(held) > largest) return held
    if (typeof held === 'object' && held !== null) for (const inner of Object.values(held)) open.push(inner)
  }
  return null
}
