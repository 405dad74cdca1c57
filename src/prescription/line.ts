/* One line of a file, made ready for the grammar. Every change is one character for one, so that a place
 * in what the grammar reads is a place in the file. */

export interface Line {
  number: number
  /** As it stands in the file, for messages: tabs are spaces, refused characters U+FFFD. */
  shown: string
  /** As it stands in the file, without comment and outer spaces. */
  written: string
  /** As the grammar reads it. */
  text: string
  /** Where a quote opens that never closes, in UTF-16 units. */
  openQuote: number | null
}

/** What must never reach a terminal: C0 but the tab, DEL, C1, line and paragraph separators, bidirectional
 * embeddings, overrides and isolates, and halves of a surrogate pair. */
export const refused =
  /[\u0000-\u0008\u000A-\u001F\u007F-\u009F\u2028\u2029\u202A-\u202E\u2066-\u2069\p{Cs}]/u
const allRefused = new RegExp(refused.source, 'gu')
const spaces = /[\t\u00A0\u2007\u202F]/g

/** The line as messages show it. */
export function shownOf(raw: string): string {
  return raw.replace(spaces, ' ').replace(allRefused, '\uFFFD')
}

/** A line of the file without anything refused in it, ready to be read. */
export function lineOf(raw: string, number: number): Line {
  const shown = raw.replace(spaces, ' ')
  const { text, end, openQuote } = plainOf(shown)
  return { number, shown, written: shown.slice(0, end).trim(), text: text.trimEnd(), openQuote }
}

const plain: Record<string, string> = {
  '×': 'x',
  '–': '-',
  '—': '-',
  '−': '-',
  '‘': "'",
  '’': "'",
  '‚': "'",
  '‛': "'",
  '“': '"',
  '”': '"',
  '„': '"',
  '‟': '"',
}

/** Outside quotes: signs made plain, the comment cut off. A quote that touches a digit stands for inches or
 * seconds, opens nothing and becomes a double prime. A text that a curly quote opens is closed by a curly or
 * a plain one, another only by a plain one. */
function plainOf(shown: string): { text: string; end: number; openQuote: number | null } {
  let text = ''
  let quote: number | null = null
  let closers = '"'
  for (let place = 0; place < shown.length; place++) {
    const character = shown[place] ?? ''
    if (quote !== null) {
      const closes = closers.includes(character)
      if (closes) quote = null
      text += closes ? '"' : character
      continue
    }
    if (character === '#' && (place === 0 || shown[place - 1] === ' '))
      return { text, end: place, openQuote: null }
    const made = plain[character] ?? character
    const isMark = made === '"' && /[0-9]/.test(shown[place - 1] ?? '')
    text += isMark ? '″' : made
    if (made !== '"' || isMark) continue
    quote = place
    closers = character === '"' ? '"' : '"”“'
  }
  return { text, end: shown.length, openQuote: quote }
}
