/* Behind each stretch of lines that was written to the digest at once stands a line with its sum, so that a figure that
 * was changed in it, by whatever, is not believed: what was changed is made anew from the files. */

const opening = '{"seal":'
const sealLine = /^\{"seal":(\d{1,10}),"bytes":(\d{1,12})\}$/

/** Lines as they are written, with their seal. */
export function sealed(lines: readonly string[]): string {
  const text = lines.map((line) => `${line}\n`).join('')
  const bytes = Buffer.from(text, 'utf8')
  return `${text}${opening}${sumOf(bytes)},"bytes":${bytes.length}}\n`
}

/** The stretches whose seal is right, in their order, and whether that is all there is. */
export function sealedStretches(bytes: Buffer): { stretches: Buffer[]; isWhole: boolean } {
  const stretches: Buffer[] = []
  let isWhole = true
  let end = bytes.length
  while (end > 0) {
    const at = bytes.lastIndexOf(opening, end - 1, 'latin1')
    const line = at < 0 ? null : sealLine.exec(bytes.toString('latin1', at, endOfLine(bytes, at)))
    const from = line === null ? -1 : at - Number(line[2])
    const stretch = from < 0 ? null : bytes.subarray(from, at)
    if (line === null || stretch === null || sumOf(stretch) !== Number(line[1])) {
      isWhole = false
      end = Math.max(0, at)
      continue
    }
    // What stands behind a right seal, and is not of the next stretch, was cut off.
    isWhole &&= endOfLine(bytes, at) + 1 === end
    stretches.unshift(stretch)
    end = from
  }
  return { stretches, isWhole }
}

function endOfLine(bytes: Buffer, from: number): number {
  const end = bytes.indexOf(0x0a, from)
  return end < 0 ? bytes.length : end
}

/** A sum of bytes, against what befalls a file, not against who means it: any one byte that changes changes it. Four of the
 * multiplications of FNV-1a go side by side over words of four bytes, in blocks, so that V8 soon compiles them: fourteen
 * million bytes take a few milliseconds. */
function sumOf(bytes: Uint8Array): number {
  const { buffer, byteOffset } = aligned(bytes)
  const words = new Int32Array(buffer, byteOffset, bytes.length >> 2)
  const whole = words.length - (words.length % 4)
  let sum = 0x811c9dc5
  for (let from = 0; from < whole; from += block)
    sum = sumOfBlock(words, from, Math.min(whole, from + block), sum)
  for (let index = whole * 4; index < bytes.length; index += 1)
    sum = Math.imul(sum ^ (bytes[index] as number), prime)
  return sum >>> 0
}

/** Words; a multiple of four. */
const block = 256

function sumOfBlock(words: Int32Array, from: number, to: number, before: number): number {
  let [a, b, c, d] = [before, 1, 2, 3]
  for (let index = from; index < to; index += 4) {
    a = Math.imul(a ^ (words[index] as number), prime)
    b = Math.imul(b ^ (words[index + 1] as number), prime)
    c = Math.imul(c ^ (words[index + 2] as number), prime)
    d = Math.imul(d ^ (words[index + 3] as number), prime)
  }
  return Math.imul(a ^ b, prime) ^ Math.imul(c ^ d, prime)
}

const prime = 0x01000193

/** Words can be looked at only where they begin at a multiple of four. */
function aligned(bytes: Uint8Array): Uint8Array {
  return bytes.byteOffset % 4 === 0 ? bytes : Uint8Array.from(bytes)
}
