/* An entry before it is understood: what is tidied, what is set apart, what is refused at once. */

/** Thrown while an entry is read: it cannot be taken as it stands. `suggestion`: a whole entry that is
 * probably meant, to be read in its place. */
export class NotTaken extends Error {
  readonly suggestion: string | null

  constructor(message: string, suggestion: string | null = null) {
    super(message)
    this.suggestion = suggestion
  }
}

/** What is said one after the other: a question mark ends a sentence, anything else goes on. */
export function saidTogether(messages: readonly string[]): string {
  return messages.reduce((said, message) => `${said}${said.endsWith('?') ? ' ' : '; '}${message}`)
}

export interface EntryText {
  /** What is left of the entry, tidied: lower case, `x` for every cross, `-` for every dash, a point in every number. */
  body: string
  note: string | null
  pain: string | null
}

const longest = 500
const forbidden = /[\p{Cc}\p{Cs}\u2028\u2029\u202a-\u202e\u2066-\u2069]/u

/** Sets notes and pain apart from the figures.
 * @throws NotTaken for an entry of more than 500 characters, with control characters, an open quote, or a pain without a place */
export function entryTextOf(text: string): EntryText {
  const trimmed = text.trim().replaceAll('\t', ' ')
  if (trimmed.length > longest) {
    throw new NotTaken(`an entry has at most ${longest} characters, and this one has ${trimmed.length}`)
  }
  if (forbidden.test(trimmed)) throw new NotTaken('an entry cannot hold control characters; type it again')
  const notes: string[] = []
  const pains: string[] = []
  let figures = ''
  let rest = trimmed
  for (let open = rest.search(/["“”„]/); open >= 0; open = rest.search(/["“”„]/)) {
    figures += rest.slice(0, open)
    const close = rest.slice(open + 1).search(rest[open] === '"' ? /"/ : /["“”]/)
    if (close < 0) throw openQuote(trimmed, rest.slice(open + 1))
    const quoted = rest.slice(open + 1, open + 1 + close).trim()
    const pain = /\bpain:?\s*$/i.exec(figures)
    if (pain) figures = figures.slice(0, pain.index)
    if (quoted !== '') (pain ? pains : notes).push(quoted)
    else if (pain) throw painWithoutPlace()
    rest = rest.slice(open + close + 2)
    figures += ' '
  }
  const unquoted = /(?:^|\s)pain:?(\s+[\p{L}'’ -]+)?$/iu.exec((figures + rest).trimEnd())
  let body = figures + rest
  if (unquoted) {
    if (unquoted[1] === undefined) throw painWithoutPlace()
    pains.push(unquoted[1].trim())
    body = body.slice(0, unquoted.index)
  }
  return { body: tidied(body), note: joined(notes), pain: joined(pains) }
}

/** The remarks as they are typed behind figures. */
export function remarksText(remarks: { note: string | null; pain: string | null }): string {
  const quoted = (words: string) => `"${words.replaceAll('"', "'")}"`
  const note = remarks.note === null ? '' : ` ${quoted(remarks.note)}`
  return remarks.pain === null ? note : `${note} pain ${quoted(remarks.pain)}`
}

function openQuote(text: string, behind: string): NotTaken {
  const closed = behind.trim() === '' ? text.replace(/["“”„]\s*$/, '') : `${text}"`
  return new NotTaken(`the quote is not closed; did you mean ${closed}?`, closed)
}

function painWithoutPlace(): NotTaken {
  return new NotTaken('write where it hurts: pain "left knee"')
}

function joined(words: string[]): string | null {
  return words.length === 0 ? null : words.join('; ')
}

function tidied(body: string): string {
  return body
    .toLowerCase()
    .replace(/[×✕*]/g, 'x')
    .replace(/[‐‑‒–—−]/g, '-')
    .replace(/\s+/g, ' ')
    .replace(/(\d),(?=\d+(?![\d:]))/g, '$1.')
    .trim()
}
