/** Length in bytes of the character that begins with this byte (RFC 3629); 0 when none does. */
function lengthOf(byte: number): number {
  if (byte < 0x80) return 1
  if (byte >= 0xc2 && byte <= 0xdf) return 2
  if (byte >= 0xe0 && byte <= 0xef) return 3
  if (byte >= 0xf0 && byte <= 0xf4) return 4
  return 0
}

const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true })

/** The character at `start`.
 * @returns how many bytes it takes, and itself, '' where the bytes are no character; 'torn' when more must follow */
export function readCharacter(bytes: Uint8Array, start: number): { length: number; text: string } | 'torn' {
  const length = lengthOf(bytes[start] ?? 0)
  if (length === 0) return { length: 1, text: '' }
  for (let index = start + 1; index < start + length; index++) {
    const byte = bytes[index]
    if (byte === undefined) return 'torn'
    if ((byte & 0xc0) !== 0x80) return { length: index - start, text: '' }
  }
  try {
    return { length, text: decoder.decode(bytes.subarray(start, start + length)) }
  } catch {
    return { length, text: '' }
  }
}

/** Characters that have no business in a line that is typed: controls, line separators, and those that turn
 * the direction of writing or hide (Unicode categories Cc, Cf, Zl, Zp). The joiner of emoji stays. */
export function isPrintable(character: string): boolean {
  return character !== '' && (character === '\u200d' || !/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cn}]/u.test(character))
}
