import { describe, expect, it } from 'vitest'
import { escapeUnsafe, isUnsafe, sanitize, sanitizeFrame, sanitizeLines } from '../../src/validate/unsafe.ts'

/* C0 and C1: ECMA-48 (5th edition, 1991). Bidirectional formatting characters: Unicode Standard Annex 9, table 4. */
const unsafe = [
  ...Array.from({ length: 0x20 }, (_, code) => String.fromCharCode(code)).filter((each) => each !== '\t'),
  ...Array.from({ length: 0x21 }, (_, code) => String.fromCharCode(0x7f + code)),
  ...['\u2028', '\u2029', '\u061c', '\u200e', '\u200f', '\u202a', '\u202b', '\u202c', '\u202d', '\u202e'],
  ...['\u2066', '\u2067', '\u2068', '\u2069', '\u200b', '\u2060', '\ufeff', '\ud800', '\udfff'],
]
const safe = ['\t', ' ', 'é', '脚', '👩‍🚀', 'می‌خواهم', '\u00a0', '…']

describe('unsafe characters', () => {
  it('are found and replaced, each by one mark', () => {
    for (const character of unsafe) {
      expect(isUnsafe(`a${character}b`), JSON.stringify(character)).toBe(true)
      expect(sanitize(`a${character}b`), JSON.stringify(character)).toBe('a\ufffdb')
    }
  })

  it('include no letters, tabs, spaces or joiners', () => {
    for (const text of safe) {
      expect(isUnsafe(text), text).toBe(false)
      expect(sanitize(text), text).toBe(text)
    }
  })

  it('exclude the lines of a text and the colours of a frame', () => {
    expect(sanitizeLines('a\r\nb\n\rc\u001b]52;c;aGk=\u0007')).toBe('a\r\nb\n\ufffdc\ufffd]52;c;aGk=\ufffd')
    expect(sanitizeFrame('\u001b[1;31mred\u001b[0m\u001b]52;c;aGk=\u0007\u001b[2J')).toBe(
      '\u001b[1;31mred\u001b[0m\ufffd]52;c;aGk=\ufffd\ufffd[2J',
    )
  })

  it('are escaped in JSON, which keeps its meaning', () => {
    const value = { note: unsafe.filter((each) => each < '\ud800').join('') }
    const text = escapeUnsafe(JSON.stringify(value, null, 2))
    expect(text.split('\n').some(isUnsafe)).toBe(false)
    expect(JSON.parse(text)).toEqual(value)
  })
})
