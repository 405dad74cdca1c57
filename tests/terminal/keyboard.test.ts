import { EventEmitter } from 'node:events'
import { describe, expect, it, vi } from 'vitest'
import { Keyboard } from '../../src/ui/terminal/keyboard.ts'
import type { Key } from '../../src/ui/widgets/keys.ts'
import fc, { anyCharacter } from '../fastCheck.ts'

const encoder = new TextEncoder()

const createTerminal = () =>
  Object.assign(new EventEmitter(), {
    setRawMode() {},
    resume() {},
    pause() {},
  }) as unknown as NodeJS.ReadStream

/** What a keyboard hears, turn by turn, with the clock in the test's hands: of each step, a text or bytes arrive, a
 * number of milliseconds passes, or something is done with the keyboard. */
function turnsOf(...steps: (string | Uint8Array | number | ((keyboard: Keyboard) => void))[]): Key[][] {
  const terminal = createTerminal()
  const turns: Key[][] = []
  const keyboard = new Keyboard(terminal, (keys) => turns.push([...keys]))
  vi.useFakeTimers()
  keyboard.open()
  for (const step of steps) {
    if (typeof step === 'number') vi.advanceTimersByTime(step)
    else if (typeof step === 'function') step(keyboard)
    else terminal.emit('data', Buffer.from(typeof step === 'string' ? encoder.encode(step) : step))
  }
  keyboard.close()
  vi.useRealTimers()
  return turns
}
const all = () => void vi.runAllTimers()

/** Keys as short words: text as it is, named keys in angle brackets, pastes in brackets. */
function shown(keys: readonly Key[]): string {
  return keys
    .map((key) => (key.kind === 'named' ? `<${key.name}>` : key.kind === 'text' ? key.text : `[${key.text}]`))
    .join('')
}

/** All keys of what arrives in these chunks. */
const heard = (...chunks: (string | Uint8Array)[]) => shown(turnsOf(...chunks, all).flat())

describe('keys', () => {
  it('that arrive together are passed on together, text and Enter one by one', () => {
    expect(turnsOf('102.5\r', all).map(shown)).toEqual(['102.5<enter>'])
    expect(turnsOf('10', '2\r', all).map(shown)).toEqual(['102<enter>'])
    expect(heard('\x7f\x7f\x08')).toBe('<backspace><backspace><backspace>')
    expect(heard('3 @8\r\x03')).toBe('3 @8<enter><ctrl+c>')
  })

  it('that arrive faster than anybody types are a paste if they are text, else 50 a turn, each once and in order', () => {
    const text = '0123456789'.repeat(2000)
    expect(heard(`${text}\r${text}`)).toBe(`[${text}]<enter>[${text}]`)
    expect(heard('7'.repeat(50))).toBe('7'.repeat(50))
    expect(turnsOf('\x1b[A'.repeat(120), all).map((turn) => turn.length)).toEqual([50, 50, 20])
  })

  it('count carriage return and line feed together as one Enter', () => {
    expect(heard('1\r\n2\n\n3\r', '\n')).toBe('1<enter>2<enter><enter>3<enter>')
  })

  // xterm control sequences (Dickey, "XTerm Control Sequences"), PC-style function keys.
  it.each([
    ['\x1b[A\x1b[B\x1b[C\x1b[D', '<up><down><right><left>'],
    ['\x1bOA\x1bOB\x1bOC\x1bOD', '<up><down><right><left>'],
    ['\x1b[5~\x1b[6~\x1b[H\x1b[F\x1b[1~\x1b[4~', '<pageUp><pageDown><home><end><home><end>'],
    ['\x1bOH\x1bOF\x1b[7~\x1b[8~\x1b[2~', '<home><end><home><end><insert>'],
    ['\x1b[1;5C\x1b[3;2~\x1b[3;5~\x1b[Z', '<right><delete><delete><backTab>'],
    ['\t\x03\x1a\x0c\n', '<tab><ctrl+c><ctrl+z><ctrl+l><enter>'],
    ['1\x1b[I2\x1bOP3\x1b[15~4', '1234'],
  ])('of a terminal are recognised: %j', (bytes, keys) => {
    expect(heard(bytes)).toBe(keys)
  })

  // ECMA-48, 5.4 and 5.6 (control sequences and strings); xterm control sequences (focus, mouse and size reports,
  // answers to queries); the kitty keyboard protocol's releases and alternate keys.
  it.each([
    ['\x1b[I', '\x1b[O'],
    ['\x1b[<0;10;20M', '\x1b[<64;200;300m', '\x1b[32;10;10M', '\x1b[M !!'],
    ['\x1b[?1;2c', '\x1b[>1;10;0c', '\x1b[10;20R', '\x1b[?2026;2$y', '\x1b[48;24;80;384;640t'],
    ['\x1b[13u', '\x1b[97;1:3u', '\x1b[97:65;2u', '\x1b[1;1:3A', '\x1b[27;5;13~'],
    [
      '\x1b]11;rgb:0000/0000/0000\x07',
      '\x1b]11;rgb:00/00/00\x1b\\',
      '\x1bP1+r544e=78\x1b\\',
      '\x1b_Gi=1;OK\x1b\\',
    ],
  ])('are none in what a terminal reports or answers: %j', (...reports) => {
    for (const report of reports) {
      expect(heard(`1${report}2`)).toBe('12')
      expect(heard('1', ...report, '2')).toBe('12')
    }
  })

  it('are typed again a moment after a report that never ends', () => {
    expect(shown(turnsOf('\x1b]11;rgb', 50, '5', all).flat())).toBe('5')
  })

  it.each([
    ['an arrow that was cut in two', ['\x1b', '[', 'A'], '<up>'],
    ['an arrow whose packets are 450 ms apart', ['\x1b[', 450, 'A'], '<up>'],
    ['a paste whose packets are 1900 ms apart', ['\x1b[200~5 @', 1900, '8\x1b[201~'], '[5 @8]'],
    ['a paste without an end as far as it came', ['\x1b[200~6:07', 2000], '[6:07]'],
  ])('over a slow link give %s', (_, arriving, keys) => {
    expect(shown(turnsOf(...arriving, 1).flat())).toBe(keys)
  })

  it('are Escape and what follows it if both arrive together and begin no sequence', () => {
    expect(heard('\x1b5')).toBe('<escape>5')
    expect(heard('\x1bQ')).toBe('<escape>Q')
    expect(heard('\x1b\r')).toBe('<escape><enter>')
    expect(heard('\x1b\x1b[A')).toBe('<escape><up>')
  })

  it.each([
    ['\x1b', '<escape>'],
    ['\x1b\x1b', '<escape><escape>'],
  ])('are Escape once nothing has followed %j for a moment', async (bytes, keys) => {
    const terminal = createTerminal()
    const pressed = new Promise<readonly Key[]>((resolve) => new Keyboard(terminal, resolve).open())
    terminal.emit('data', Buffer.from(bytes))
    expect(shown(await pressed)).toBe(keys)
  })

  it('typed ahead are forgotten when the keyboard is closed', () => {
    const reopen = (keyboard: Keyboard) => {
      keyboard.close()
      keyboard.open()
    }
    expect(shown(turnsOf('57', reopen, '8', all).flat())).toBe('8')
  })
})

describe('a paste', () => {
  it('is one key, with its lines, wherever its marks are cut', () => {
    expect(heard('\x1b[200~6:07 6:05\r\n6:04\x1b[201~\r')).toBe('[6:07 6:05\n6:04]<enter>')
    expect(heard('\x1b[200~a\x1b[20', '1~b')).toBe('[a]b')
    expect(heard('\x1b[200~a\x1b[201', '~\x1b[200~c\x1b[201~')).toBe('[a][c]')
    expect(heard('\x1b[200~\x1b[201~b')).toBe('b')
    expect(heard('\x1b[200~\t\ra\tb\r\x1b[201~')).toBe('[ \na b\n]')
  })

  it('has no control and direction characters', () => {
    expect(heard('\x1b[200~a\u202eb\u0007c\x1b[201~')).toBe('[abc]')
  })
})

describe('a character', () => {
  // RFC 3629, section 4: the syntax of UTF-8 byte sequences.
  it.each([
    [[0x7e]],
    [[0xc3, 0x9f]],
    [[0xdf, 0xbf]],
    [[0xe0, 0xa0, 0x80]],
    [[0xf0, 0x90, 0x80, 0x80]],
    [[0xf0, 0x9f, 0x8f, 0x83]],
  ])('%j is one key, and waits for the last of its bytes', (bytes) => {
    const chunks = bytes.map((byte) => Uint8Array.of(byte))
    expect(heard(...chunks.slice(0, -1))).toBe('')
    expect(heard(...chunks)).toBe(Buffer.from(bytes).toString('utf8'))
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
    expect(heard(Uint8Array.of(0x31, ...bytes, 0x32))).toBe('12')
  })

  it('is passed on as text only if it can be printed', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
        for (const key of turnsOf(bytes, all).flat()) {
          if (key.kind !== 'named') expect(key.text).not.toMatch(/[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e]/)
        }
      }),
      { numRuns: 500 },
    )
  })

  it('gives the same keys however the bytes are cut', () => {
    const bytes = fc
      .array(
        fc.oneof(
          fc.constantFrom('\r', '\x7f', '\x1b[A', '\x1bOB', '\x1b[6~', '\x1b[200~a\x1b[201~', ' '),
          fc.string({ unit: anyCharacter, maxLength: 4 }),
          fc.string({ unit: 'grapheme', maxLength: 3 }),
        ),
      )
      .map((parts) => encoder.encode(parts.join('')))
    fc.assert(
      fc.property(bytes, fc.array(fc.nat(60)), (whole, cuts) => {
        const places = [...new Set([0, ...cuts.map((place) => Math.min(place, whole.length)), whole.length])]
        places.sort((a, b) => a - b)
        const chunks = places.map((place, index) => whole.subarray(place, places[index + 1]))
        expect(heard(...chunks)).toEqual(heard(whole))
      }),
      { numRuns: 500 },
    )
  })
})
