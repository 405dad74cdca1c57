/* A key as the screens see it, whatever bytes a terminal sends for it. */

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
  /** Pasted: never a command. Lines end with a line feed; no other control character is in it. */
  | { kind: 'paste'; text: string }
