import { createHash } from 'node:crypto'

/* The checksum of a stored file: the SHA-256 of its UTF-8 bytes, in which the 64 digits of the checksum itself are
 * zeros. It stands in the file, so that it moves with it, and no flipped bit becomes a figure. */

const field = /("checksum":\s*")([0-9a-f]{64})"/

/** What a file is printed with before it is sealed. */
export const unsealed = '0'.repeat(64)

/** Puts the checksum into a text that holds `"checksum": "000…"`. */
export function sealed(text: string): string {
  const sum = sumOf(text)
  return text.replace(field, (_, before: string) => `${before}${sum}"`)
}

/** Whether the checksum in a file is the one of its text; `missing`: written by an earlier version or by hand.
 * @param read the same text, parsed */
export function sealOf(text: string, read: Readonly<Record<string, unknown>>): 'right' | 'wrong' | 'missing' {
  if (!Object.hasOwn(read, 'checksum')) return 'missing'
  const match = field.exec(text)
  if (match === null || match[2] !== read.checksum) return 'wrong'
  const begin = match.index + (match[1] ?? '').length
  const zeroed = `${text.slice(0, begin)}${unsealed}${text.slice(begin + unsealed.length)}`
  return sumOf(zeroed) === match[2] ? 'right' : 'wrong'
}

/** The end of a sentence about a file whose checksum is wrong. */
export const wrongSeal = 'does not match its checksum, so a disk or another program changed it'

function sumOf(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex')
}
