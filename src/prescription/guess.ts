import { unknownHeadingOf } from './headings.ts'
import type { PartKind } from './model.ts'
import { printItem } from './print.ts'
import { type Read, type ReadingDefaults, readDay } from './reader.ts'
import { partKinds } from './syntax.ts'

/** A longer file is answered line by line. */
const mostLines = 60
const otherLine = /^\s*(?:$|#)/
const header = /^\s*(?:date|units|goal|athlete|bar|lap|max|note)\s*:/i
const heading = new RegExp(`^\\s*(?:${partKinds.join('|')})\\s*(?::|$)`, 'i')
/** In the order in which they are tried: most lines of a file without headings are runs or lifts. */
const tried: readonly PartKind[] = ['run', 'lift', 'fuel', 'prep']

/** A day without a single heading as it would be read, with the headings put in; null where a line fits no part. */
export function withHeadings(text: string, defaults: ReadingDefaults): string | null {
  const lines = text.split(/\r?\n/)
  const units = defaults.units ?? { distance: 'km' as const, mass: 'kg' as const }
  const isHeading = (line: string) => heading.test(line) || unknownHeadingOf(line, units, true) !== null
  if (lines.length > mostLines || lines.some((line) => !header.test(line) && isHeading(line))) return null
  const said = lines.filter((line) => !otherLine.test(line))
  const [first = ''] = said
  // A first line that reads as an item is no title.
  const isItem = (['run', 'lift'] as const).some(
    (kind) => readAs(first, kind, ['Day'], defaults).prescription !== null,
  )
  const [title = '', ...rest] = isItem ? ['Day', ...said] : said
  if (title === '') return null
  const headers = rest.filter((line) => header.test(line)).map((line) => line.trim())
  const items = rest.filter((line) => !header.test(line))
  const written = [title.trim(), ...headers]
  let open: PartKind | null = null
  for (const line of items) {
    const item = itemIn(line, [title, ...headers], open, defaults)
    if (item === null) return null
    if (item.kind !== open) written.push('', item.kind)
    open = item.kind
    written.push(...item.text.split('\n').map((each) => `  ${each.trim()}`))
  }
  const whole = `${written.join('\n')}\n`
  return open !== null && readDay(whole, null, defaults).prescription !== null ? whole : null
}

/** The part that a line belongs to, and how it is written there. What reads as it stands is preferred to what can be
 * reworded, and the part that is open to any other. */
function itemIn(
  line: string,
  above: readonly string[],
  open: PartKind | null,
  defaults: ReadingDefaults,
): { kind: PartKind; text: string } | null {
  const kinds = open === null || open === 'prep' ? tried : [open, ...tried.filter((kind) => kind !== open)]
  const reads = kinds.map((kind) => ({ kind, read: readAs(line, kind, above, defaults) }))
  for (const { kind, read } of reads) {
    const item = read.prescription?.parts[0]?.items[0]
    // Any words are an item of prep; only an amount makes it likely.
    const isLikely = kind !== 'prep' || (item !== undefined && 'amount' in item && item.amount !== null)
    if (item !== undefined && isLikely) return { kind, text: printItem(item) }
  }
  for (const { kind, read } of reads) {
    const instead = read.problems.find(({ instead: line }) => line !== null)?.instead
    if (instead && kind !== 'prep') return { kind, text: instead }
  }
  return null
}

/** One line in a part of its own. */
function readAs(line: string, kind: PartKind, above: readonly string[], defaults: ReadingDefaults): Read {
  return readDay([...above, kind, line].join('\n'), null, defaults)
}
