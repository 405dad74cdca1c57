import type { NamedKey } from '../widgets/key.ts'

/* What terminals send for keys: ECMA-48 control sequences as xterm's "ctlseqs" lists them (PC-style
 * function keys, with and without application cursor keys). */

const byFinalByte: Readonly<Record<string, NamedKey>> = {
  A: 'up',
  B: 'down',
  C: 'right',
  D: 'left',
  F: 'end',
  H: 'home',
  Z: 'backTab',
}

const byNumber: Readonly<Record<string, NamedKey>> = {
  1: 'home',
  2: 'insert',
  3: 'delete',
  4: 'end',
  5: 'pageUp',
  6: 'pageDown',
  7: 'home',
  8: 'end',
}

/** The key of a control sequence without its ESC [, or of one after ESC O; null for one that is no key of
 * ours. Shift, alt and ctrl held with it make no difference. */
export function keyOfSequence(sequence: string): NamedKey | null {
  const found = /^(\d*)(?:;\d+)*([A-Z~])$/.exec(sequence)
  if (found === null) return null
  const [, number = '', final = ''] = found
  return final === '~' ? (byNumber[number] ?? null) : (byFinalByte[final] ?? null)
}

/** How many bytes from `start` (an ESC) are one sequence.
 * @returns its bytes after the ESC as text; 'torn' when more must follow; null when ESC stands alone */
export function readSequence(
  bytes: Uint8Array,
  start: number,
): { length: number; text: string } | 'torn' | null {
  const second = bytes[start + 1]
  if (second === undefined) return 'torn'
  if (second === 0x4f) {
    const third = bytes[start + 2]
    if (third === undefined) return 'torn'
    return isFinal(third) ? { length: 3, text: String.fromCharCode(third) } : { length: 2, text: '' }
  }
  if (second !== 0x5b) return null
  let end = start + 2
  while (isParameter(bytes[end])) end++
  const final = bytes[end]
  if (final === undefined) return end - start > longest ? { length: end - start, text: '' } : 'torn'
  // Broken off by a byte that belongs to no sequence: what came so far is dropped.
  if (!isFinal(final)) return { length: end - start, text: '' }
  return { length: end + 1 - start, text: String.fromCharCode(...bytes.subarray(start + 2, end + 1)) }
}

const longest = 64

function isParameter(byte: number | undefined): boolean {
  return byte !== undefined && byte >= 0x20 && byte <= 0x3f
}

function isFinal(byte: number): boolean {
  return byte >= 0x40 && byte <= 0x7e
}
