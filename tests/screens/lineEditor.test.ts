import { describe, expect, it } from 'vitest'
import { afterKey, editedText, textOf } from '../../src/ui/screens/DayEditor.tsx'
import type { Key } from '../../src/ui/widgets/keys.ts'

/** What is saved after these keys; a word is typed letter by letter. */
function written(text: string, ...keys: Key[]): string {
  return textOf(
    keys.reduce((edited, key) => afterKey(edited, key, 10), editedText(text)),
    text,
  )
}

const typed = (text: string): Key => ({ kind: 'text', text })
const named = (name: string) => ({ kind: 'named', name }) as Key

describe('the line editor', () => {
  it.each([
    'Legs\n\nlift\n  squat 3 x 5 @ 60 kg # mine\n',
    'Legs\r\n\r\nlift\r\n  squat 3 x 5 @ 60 kg # mine\r\n',
    '\uFEFFLegs\r\nlift\r\n  squat 3 x 5 @ 60 kg',
    '',
  ])('saves %j unchanged', (text) => {
    expect(written(text)).toBe(text)
    expect(written(text, typed('x'), named('backspace'))).toBe(text)
  })

  it('ends a new line like the others', () => {
    const text = 'Legs\r\nlift\r\n'
    expect(written(text, named('end'), named('enter'), typed('note: tired'))).toBe(
      'Legs\r\nnote: tired\r\nlift\r\n',
    )
    expect(written(text, { kind: 'paste', text: 'a\nb\r\n' })).toBe('a\r\nb\r\nLegs\r\nlift\r\n')
    expect(written(text, named('end'), named('delete'))).toBe('Legslift\r\n')
  })

  it('ends every line as on Windows if some of them do', () => {
    expect(written('A\r\nB\nC\r\n', named('down'), typed('x'))).toBe('A\r\nxB\r\nC\r\n')
  })

  it('goes a page down and up, to the ends of the text at most', () => {
    const text = Array.from({ length: 25 }, (_, index) => `${index}`).join('\n')
    const marked = (...keys: string[]) =>
      written(text, ...keys.map(named), typed('x'))
        .split('\n')
        .findIndex((line) => line.includes('x'))
    expect(marked('pageDown')).toBe(10)
    expect(marked('pageDown', 'pageDown')).toBe(20)
    expect(marked('pageDown', 'pageDown', 'pageDown')).toBe(24)
    expect(marked('pageDown', 'pageDown', 'pageUp')).toBe(10)
    expect(marked('down', 'pageUp')).toBe(0)
  })

  it('takes away a line before its cursor, or from there on', () => {
    const right = [named('right'), named('right')]
    expect(written('squat 3\nbench', ...right, named('ctrl+u'), typed('x'))).toBe('xuat 3\nbench')
    expect(written('squat 3\nbench', ...right, named('ctrl+k'), typed('x'))).toBe('sqx\nbench')
  })

  it('takes text up to 100,000 characters and no more', () => {
    const full = 'a'.repeat(99_998)
    expect(written(full, typed('bc'))).toBe(`bc${full}`)
    expect(written(full, typed('bcd'))).toBe(full)
  })
})

describe('the cursor of the line editor', () => {
  it.each([
    ['left', 'xabc\nde\n  fgh'],
    ['up', 'xabc\nde\n  fgh'],
    ['right', 'axbc\nde\n  fgh'],
    ['right right right', 'abcx\nde\n  fgh'],
    ['right right right right', 'abc\nxde\n  fgh'],
    ['down left', 'abcx\nde\n  fgh'],
    ['end', 'abcx\nde\n  fgh'],
    ['end down', 'abc\ndex\n  fgh'],
    ['down end right', 'abc\nde\nx  fgh'],
    ['down down end down', 'abc\nde\n  fghx'],
    ['down down end right', 'abc\nde\n  fghx'],
    ['down right home', 'abc\nxde\n  fgh'],
    ['down right up', 'axbc\nde\n  fgh'],
    ['tab', '  xabc\nde\n  fgh'],
    ['down down end left enter', 'abc\nde\n  fg\n  xh'],
    ['down down right enter', 'abc\nde\n \n x fgh'],
    ['backspace', 'xabc\nde\n  fgh'],
    ['right backspace', 'xbc\nde\n  fgh'],
    ['down backspace', 'abcxde\n  fgh'],
    ['right delete', 'axc\nde\n  fgh'],
    ['down down end delete', 'abc\nde\n  fghx'],
    ['insert', 'xabc\nde\n  fgh'],
  ])('after %s', (keys, expected) => {
    expect(written('abc\nde\n  fgh', ...keys.split(' ').map(named), typed('x'))).toBe(expected)
  })

  it.each([
    ['right backspace', 'xb\nc'],
    ['delete', 'xb\nc'],
    ['right', '\u{1F44D}\u{1F3FD}xb\nc'],
    ['right left', 'x\u{1F44D}\u{1F3FD}b\nc'],
    ['down right up', 'x\u{1F44D}\u{1F3FD}b\nc'],
  ])('is never inside an emoji: after %s', (keys, expected) => {
    expect(written('\u{1F44D}\u{1F3FD}b\nc', ...keys.split(' ').map(named), typed('x'))).toBe(expected)
  })

  it('follows a paste of several lines', () => {
    const text = written('abc', named('right'), { kind: 'paste', text: '1\n23' }, typed('x'))
    expect(text).toBe('a1\n23xbc')
  })
})
