import { EventEmitter } from 'node:events'
import { describe, expect, it, vi } from 'vitest'
import { Keyboard, keyOfSequence, readSequence, Splitter } from '../../src/ui/terminal/keyboard.ts'
import type { Key } from '../../src/ui/widgets/keys.ts'
import fc, { anyCharacter } from '../fastCheck.ts'

const encoder = new TextEncoder()

/** Keys as short words: text as it is, named keys in angle brackets, pastes in brackets. */
function shown(keys: readonly Key[]): string {
  return keys
    .map((key) => (key.kind === 'named' ? `<${key.name}>` : key.kind === 'text' ? key.text : `[${key.text}]`))
    .join('')
}

function split(...chunks: string[]): string {
  const splitter = new Splitter()
  return shown([...chunks.flatMap((chunk) => splitter.push(encoder.encode(chunk))), ...splitter.flush()])
}

/** What a keyboard hears, turn by turn, with the clock in the test's hands: of each step, a text arrives, a number of
 * milliseconds passes, or something is done with the keyboard. */
function heard(...steps: (string | number | ((keyboard: Keyboard) => void))[]): Key[][] {
  const terminal = Object.assign(new EventEmitter(), { setRawMode() {}, resume() {}, pause() {} })
  const turns: Key[][] = []
  const keyboard = new Keyboard(terminal as unknown as NodeJS.ReadStream, (keys) => turns.push([...keys]))
  vi.useFakeTimers()
  keyboard.open()
  for (const step of steps) {
    if (typeof step === 'number') vi.advanceTimersByTime(step)
    else if (typeof step === 'string') terminal.emit('data', encoder.encode(step))
    else step(keyboard)
  }
  keyboard.close()
  vi.useRealTimers()
  return turns
}
const all = () => void vi.runAllTimers()

describe('a flood of keys that nobody typed', () => {
  it('is a paste if it is text, and is else processed in turns of 50, each key once and in order', () => {
    const text = '0123456789'.repeat(2000)
    expect(shown(heard(`${text}\r${text}`, all).flat())).toBe(`[${text}]<enter>[${text}]`)
    expect(shown(heard('7'.repeat(50), all).flat())).toBe('7'.repeat(50))
    const arrows = heard('\x1b[A'.repeat(120), all)
    expect(arrows.map((turn) => turn.length)).toEqual([50, 50, 20])
  })

  it('does not delay ctrl-c', () => {
    const turns = heard('\x1b[A'.repeat(20_000), '\x03', all)
    expect(shown(turns[0] ?? []).startsWith('<ctrl+c>')).toBe(true)
  })

  it('keeps what was typed just before ctrl-c before it', () => {
    expect(shown(heard('3 @8\r\x03', all).flat())).toBe('3 @8<enter><ctrl+c>')
  })
})

describe('a keyboard over a slow link', () => {
  it.each([
    ['an arrow whose packets are 450 ms apart', ['\x1b[', 450, 'A'], '<up>'],
    ['Esc after 50 ms without more', ['\x1b', 50], '<escape>'],
    ['nothing of Esc before that', ['\x1b', 48], ''],
    ['a paste whose packets are 1900 ms apart', ['\x1b[200~5 @', 1900, '8\x1b[201~'], '[5 @8]'],
  ])('gives %s', (_, arriving, keys) => {
    expect(shown(heard(...arriving, 1).flat())).toBe(keys)
  })

  it('forgets what was typed ahead when it is closed', () => {
    const reopen = (keyboard: Keyboard) => {
      keyboard.close()
      keyboard.open()
    }
    expect(shown(heard('57', reopen, '8', all).flat())).toBe('8')
  })
})

describe('the splitter', () => {
  it('returns text and Enter of one chunk one by one', () => {
    expect(split('102.5\r')).toBe('102.5<enter>')
  })

  it('returns each of three backspaces', () => {
    expect(split('\x7f\x7f\x08')).toBe('<backspace><backspace><backspace>')
  })

  // xterm control sequences (Dickey, "XTerm Control Sequences"), PC-style function keys.
  it.each([
    ['\x1b[A\x1b[B\x1b[C\x1b[D', '<up><down><right><left>'],
    ['\x1bOA\x1bOB\x1bOC\x1bOD', '<up><down><right><left>'],
    ['\x1b[5~\x1b[6~\x1b[H\x1b[F\x1b[1~\x1b[4~', '<pageUp><pageDown><home><end><home><end>'],
    ['\x1b[1;5C\x1b[3;2~\x1b[Z', '<right><delete><backTab>'],
    ['\t\x03\x1a\x0c', '<tab><ctrl+c><ctrl+z><ctrl+l>'],
  ])('recognises %j', (bytes, keys) => {
    expect(split(bytes)).toBe(keys)
  })

  it('joins an arrow that was cut in two', () => {
    expect(split('\x1b', '[', 'A')).toBe('<up>')
  })

  it('waits to see whether an escape is the key', () => {
    const splitter = new Splitter()
    expect(splitter.push(encoder.encode('1\x1b'))).toEqual([{ kind: 'text', text: '1' }])
    expect(splitter.waiting).toBe('escape')
    expect(splitter.flush()).toEqual([{ kind: 'named', name: 'escape' }])
    expect(splitter.waiting).toBe('nothing')
  })

  it('returns Escape and then what follows if that begins no sequence', () => {
    expect(split('\x1b5')).toBe('<escape>5')
    expect(split('\x1b\x1b')).toBe('<escape><escape>')
  })

  it('drops sequences that are not keys, even half of one', () => {
    expect(split('\x1b[I1\x1b[<0;3;4M2\x1b[?1u')).toBe('12')
    expect(split('1\x1b[12;')).toBe('1')
    expect(split('\x1b[1\r')).toBe('<enter>')
  })

  it('takes a paste as a whole, with its lines', () => {
    expect(split('\x1b[200~6:07 6:05\r\n6:04\x1b[201~\r')).toBe('[6:07 6:05\n6:04]<enter>')
  })

  it('takes a paste without an end as far as it came', () => {
    expect(split('\x1b[200~6:07')).toBe('[6:07]')
  })

  it('removes control and direction characters from a paste', () => {
    expect(split('\x1b[200~a\u202eb\x1b[31mc\u0007\x1b[201~')).toBe('[ab[31mc]')
  })

  it('counts carriage return and line feed together as one Enter', () => {
    expect(split('1\r\n2\n3\r', '\n')).toBe('1<enter>2<enter>3<enter>')
  })

  it('drops bytes that are not UTF-8', () => {
    const splitter = new Splitter()
    expect(shown(splitter.push(Uint8Array.of(0x31, 0xff, 0xc3, 0x32, 0xed, 0xa0, 0x80, 0x33)))).toBe('123')
  })

  const bytes = fc
    .array(
      fc.oneof(
        fc.constantFrom(
          '\r',
          '\n',
          '\x7f',
          '\x1b',
          '\x1b[A',
          '\x1bOB',
          '\x1b[6~',
          '\x1b[200~',
          '\x1b[201~',
          ' ',
        ),
        fc.string({ unit: anyCharacter, maxLength: 4 }),
        fc.string({ unit: 'grapheme', maxLength: 3 }),
      ),
    )
    .map((parts) => encoder.encode(parts.join('')))

  it('returns the same keys however the bytes are cut', () => {
    fc.assert(
      fc.property(fc.oneof(bytes, fc.uint8Array({ maxLength: 40 })), fc.array(fc.nat(60)), (all, cuts) => {
        const whole = new Splitter()
        const expected = [...whole.push(all), ...whole.flush()]
        const cut = new Splitter()
        const places = [...new Set([0, ...cuts.map((place) => Math.min(place, all.length)), all.length])]
        places.sort((a, b) => a - b)
        const keys = places.flatMap((place, index) => cut.push(all.subarray(place, places[index + 1])))
        expect([...keys, ...cut.flush()]).toEqual(expected)
      }),
      { numRuns: 1000 },
    )
  })

  it('passes only printable characters as text', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (all) => {
        const splitter = new Splitter()
        for (const key of [...splitter.push(all), ...splitter.flush()]) {
          if (key.kind !== 'named') expect(key.text).not.toMatch(/[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e]/)
        }
      }),
      { numRuns: 1000 },
    )
  })
})

// RFC 3629, section 4: the syntax of UTF-8 byte sequences.
describe('a character of UTF-8', () => {
  it.each([
    [[0x7e]],
    [[0xc3, 0x9f]],
    [[0xdf, 0xbf]],
    [[0xe0, 0xa0, 0x80]],
    [[0xf0, 0x90, 0x80, 0x80]],
    [[0xf0, 0x9f, 0x8f, 0x83]],
  ])('%j is one key, and waits for the last of its bytes', (bytes) => {
    const splitter = new Splitter()
    for (const byte of bytes.slice(0, -1)) expect(splitter.push(Uint8Array.of(byte))).toEqual([])
    const text = Buffer.from(bytes).toString('utf8')
    expect(splitter.push(Uint8Array.from(bytes.slice(-1)))).toEqual([{ kind: 'text', text }])
  })

  it.each([
    [[0x80]],
    [[0xc1, 0x80]],
    [[0xf5, 0x80, 0x80, 0x80]],
    [[0xff]],
    [[0xe0]],
    [[0xf0, 0x90]],
    [[0xe0, 0x80, 0x80]],
    [[0xed, 0xa0, 0x80]],
    [[0xf4, 0x90, 0x80, 0x80]],
  ])('is none in %j, which is dropped', (bytes) => {
    expect(shown(new Splitter().push(Uint8Array.of(0x31, ...bytes, 0x32)))).toBe('12')
  })

  it('is dropped if its other half does not come', () => {
    const splitter = new Splitter()
    splitter.push(Uint8Array.of(0xc3))
    expect(splitter.flush()).toEqual([])
    expect(shown(splitter.push(encoder.encode('5')))).toBe('5')
  })
})

// ECMA-48, 5.4: parameter bytes 30 to 3F, intermediate bytes 20 to 2F, a final byte from 40 to 7E (hexadecimal).
describe('a control sequence', () => {
  const read = (text: string) => readSequence(text, 0)
  it.each([
    ['\x1b[@', 3, '@'],
    ['\x1b[~', 3, '~'],
    ['\x1b[?1;2 0@x', 9, '?1;2 0@'],
    ['\x1bOA', 3, 'A'],
    ['\x1bO@', 3, '@'],
    ['\x1bO5', 2, ''],
    ['\x1b[1\x7f', 3, ''],
    ['\x1b[1\r', 3, ''],
    [`\x1b[${'1'.repeat(64)}`, 66, ''],
  ])('%j has %i characters: %j', (bytes, length, text) => {
    expect(read(bytes)).toEqual({ length, text })
  })

  it.each(['\x1b', '\x1b[', '\x1bO', '\x1b[1;', `\x1b[${'1'.repeat(62)}`])('%j is not over yet', (bytes) => {
    expect(read(bytes)).toBe('torn')
  })

  it('begins with an ESC and a bracket or O, otherwise the ESC is the key', () => {
    expect(read('\x1b5')).toBeNull()
    expect(read('\x1b\x1b')).toBeNull()
  })

  it.each([
    ['A', 'up'],
    ['B', 'down'],
    ['C', 'right'],
    ['D', 'left'],
    ['F', 'end'],
    ['H', 'home'],
    ['Z', 'backTab'],
    ['1;5A', 'up'],
    ['1~', 'home'],
    ['2~', 'insert'],
    ['3~', 'delete'],
    ['3;5~', 'delete'],
    ['4~', 'end'],
    ['5~', 'pageUp'],
    ['6~', 'pageDown'],
    ['7~', 'home'],
    ['8~', 'end'],
    ['9~', null],
    ['~', null],
    ['E', null],
    ['?1A', null],
    ['1;A', null],
  ])('%s is the key %s', (sequence, key) => {
    expect(keyOfSequence(sequence)).toBe(key)
  })
})

describe('a paste', () => {
  it('is over at its end mark, wherever that is cut', () => {
    expect(split('\x1b[200~a\x1b[20', '1~b')).toBe('[a]b')
    expect(split('\x1b[200~a\x1b[201', '~\x1b[200~c\x1b[201~')).toBe('[a][c]')
    expect(split('\x1b[200~\x1b[201~b')).toBe('b')
    expect(split('\x1b[200~\t\ra\tb\r\x1b[201~')).toBe('[ \na b\n]')
  })

  it('is used as far as it came if it has more than a mebibyte and no end', () => {
    const text = 'a'.repeat(1024 * 1024)
    const splitter = new Splitter()
    splitter.push(encoder.encode('\x1b[200~'))
    expect(splitter.push(encoder.encode(text.slice(1)))).toEqual([])
    expect(splitter.waiting).toBe('paste')
    expect(splitter.push(encoder.encode('a'))).toEqual([{ kind: 'paste', text }])
    expect(splitter.waiting).toBe('nothing')
  })
})
