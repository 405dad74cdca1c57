import { sum } from 'd3-array'
import leven from 'leven'

/** Groups consecutive items that are alike: `a a b a` becomes `a a`, `b`, `a`.
 * @param isAlike whether an item belongs with the one before it */
export function neighbours<T>(items: readonly T[], isAlike: (item: T, before: T) => boolean): [T, ...T[]][] {
  const groups: [T, ...T[]][] = []
  for (const item of items) {
    const group = groups.at(-1)
    if (group && isAlike(item, group.at(-1)!)) group.push(item)
    else groups.push([item])
  }
  return groups
}

/** The sum; null if any value is unknown. */
export function completeSum(values: readonly (number | null)[]): number | null {
  return values.includes(null) ? null : sum(values)
}

/** Joins texts, leaving out empty ones, null and false. */
export function joined(separator: string, texts: readonly (string | null | false)[]): string {
  return texts.filter(Boolean).join(separator)
}

/** `a`, `a or b`, `a, b or c`; empty for none. */
export function inSentence(words: readonly string[], conjunction: 'and' | 'or'): string {
  const last = words.at(-1) ?? ''
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} ${conjunction} ${last}`
}

export function upperFirst(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}

/** The words that a misspelt one may stand for, the likeliest first: with its first letter, and at most two edits away. */
export function wordsAlike(typed: string, words: readonly string[]): string[] {
  const plain = typed.toLowerCase()
  const edits = (word: string) => leven(plain, word)
  const alike = words.filter((word) => word[0] === plain[0] && edits(word) <= 2)
  return alike.sort((one, other) => edits(one) - edits(other))
}

/* A list on a screen. */

/** The index of the first line that is picked; 0 if none is. */
export function pickedIndex<Line>(lines: readonly Line[], isPicked: (line: Line) => boolean): number {
  return Math.max(0, lines.findIndex(isPicked))
}

/** The index `by` lines further, within a list of `count` lines. */
export function movedBy(index: number, by: number, count: number): number {
  return Math.max(0, Math.min(count - 1, index + by))
}

/** The first line shown of `count` in a window of `room` lines: the picked one is in the middle, except near the
 * ends. */
export function windowStart(picked: number, count: number, room: number): number {
  return Math.max(0, Math.min(count - room, picked - Math.floor(room / 2)))
}
