/* A key as the program sees it, whatever bytes the terminal sends for it, and what it does to a line of text. */

export type NamedKey =
  | 'enter'
  | 'escape'
  | 'tab'
  | 'backTab'
  | 'backspace'
  | 'delete'
  | 'insert'
  | 'up'
  | 'down'
  | 'left'
  | 'right'
  | 'home'
  | 'end'
  | 'pageUp'
  | 'pageDown'
  /** ctrl and a letter, lower case: `ctrl+c`. */
  | `ctrl+${string}`

export type Key =
  | { kind: 'named'; name: NamedKey }
  /** One printable character (a code point): Space is `' '`. */
  | { kind: 'text'; text: string }
  /** Pasted text: never a command. Its lines end with a line feed; it has no other control character. */
  | { kind: 'paste'; text: string }

/** The name of a key, or its character; empty for a paste. */
export function nameOf(key: Key): string {
  if (key.kind === 'paste') return ''
  return key.kind === 'named' ? key.name : key.text
}

/** A line of text with a cursor. */
export interface Line {
  text: string
  /** The length of the text before the cursor. */
  column: number
}

/** The line after a key; the same object for a key that does not edit a line. A paste becomes one line. */
export function lineAfter(line: Line, key: Key): Line {
  const before = line.text.slice(0, line.column)
  const after = line.text.slice(line.column)
  const lineOf = (left: string, right: string): Line => ({ text: left + right, column: left.length })
  if (key.kind === 'text') return lineOf(before + key.text, after)
  if (key.kind === 'paste') return lineOf(before + key.text.replaceAll('\n', ' ').trim(), after)
  // A character outside the basic plane has two code units.
  const last = [...before].at(-1)?.length ?? 0
  const next = [...after][0]?.length ?? 0
  switch (key.name) {
    case 'left':
      return { ...line, column: line.column - last }
    case 'right':
      return { ...line, column: line.column + next }
    case 'home':
      return { ...line, column: 0 }
    case 'end':
      return { ...line, column: line.text.length }
    case 'backspace':
      return lineOf(before.slice(0, before.length - last), after)
    case 'delete':
      return lineOf(before, after.slice(next))
    case 'ctrl+u':
      return lineOf('', after)
    case 'ctrl+k':
      return lineOf(before, '')
    case 'ctrl+w':
      return lineOf(before.replace(/\S+\s*$/, ''), after)
    default:
      return line
  }
}
