import { EventEmitter } from 'node:events'
import { describe, expect, it, vi } from 'vitest'
import { Keyboard, Splitter } from '../../src/ui/terminal/keyboard.ts'
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

describe('a flood of keys that nobody typed', () => {
  /** A keyboard whose turns are counted. */
  function flooded(...chunks: string[]) {
    const terminal = Object.assign(new EventEmitter(), { setRawMode() {}, resume() {}, pause() {} })
    const turns: Key[][] = []
    const keyboard = new Keyboard(terminal as unknown as NodeJS.ReadStream, (keys) => turns.push([...keys]))
    vi.useFakeTimers()
    keyboard.open()
    for (const chunk of chunks) terminal.emit('data', encoder.encode(chunk))
    vi.runAllTimers()
    vi.useRealTimers()
    keyboard.close()
    return turns
  }

  it('is processed in a few dozen turns, each key once and in order', () => {
    const text = '0123456789'.repeat(2000)
    const turns = flooded(text)
    expect(turns.length).toBeLessThan(250)
    expect(shown(turns.flat())).toBe(text)
  })

  it('does not delay ctrl-c', () => {
    const turns = flooded('7'.repeat(20_000), '\x03')
    expect(shown(turns[0] ?? []).startsWith('<ctrl+c>')).toBe(true)
  })

  it('keeps what was typed just before ctrl-c before it', () => {
    expect(shown(flooded('3 @8\r\x03').flat())).toBe('3 @8<enter><ctrl+c>')
  })
})

describe('a keyboard over a slow link', () => {
  it.each([
    ['an arrow whose packets are 450 ms apart', ['\x1b[', 450, 'A'], '<up>'],
    ['Esc after 50 ms without more', ['\x1b', 50], '<escape>'],
    ['nothing of Esc before that', ['\x1b', 48], ''],
    ['a paste whose packets are 1900 ms apart', ['\x1b[200~5 @', 1900, '8\x1b[201~'], '[5 @8]'],
  ])('gives %s', (_, arriving, keys) => {
    const terminal = Object.assign(new EventEmitter(), { setRawMode() {}, resume() {}, pause() {} })
    const heard: Key[] = []
    const keyboard = new Keyboard(terminal as unknown as NodeJS.ReadStream, (more) => heard.push(...more))
    vi.useFakeTimers()
    keyboard.open()
    for (const step of arriving) {
      if (typeof step === 'number') vi.advanceTimersByTime(step)
      else terminal.emit('data', encoder.encode(step))
    }
    vi.advanceTimersByTime(1)
    vi.useRealTimers()
    keyboard.close()
    expect(shown(heard)).toBe(keys)
  })

  it('forgets what was typed ahead when it is closed', () => {
    const terminal = Object.assign(new EventEmitter(), { setRawMode() {}, resume() {}, pause() {} })
    const heard: Key[] = []
    const keyboard = new Keyboard(terminal as unknown as NodeJS.ReadStream, (more) => heard.push(...more))
    vi.useFakeTimers()
    keyboard.open()
    terminal.emit('data', encoder.encode('57'))
    keyboard.close()
    keyboard.open()
    terminal.emit('data', encoder.encode('8'))
    vi.runAllTimers()
    vi.useRealTimers()
    keyboard.close()
    expect(shown(heard)).toBe('8')
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
      { numRuns: 3000 },
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
      { numRuns: 3000 },
    )
  })
})
