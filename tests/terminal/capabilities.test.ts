import { describe, expect, it } from 'vitest'
import {
  clipboardSequence,
  endingSignals,
  isUnicodeTerminal,
  refusalOf,
} from '../../src/ui/terminal/capabilities.ts'
import { onWindows } from '../onWindows.ts'

describe('a terminal', () => {
  it('is needed for input and output', () => {
    const said =
      'The app needs a terminal and there is none here. The commands that print work everywhere: see "pausebook --help".'
    expect(refusalOf({ in: false, out: true }, {}, true)).toBe(said)
    expect(refusalOf({ in: true, out: false }, {}, false)).toBe(said)
    expect(refusalOf({ in: true, out: true }, { TERM: 'xterm' }, false)).toBeNull()
  })

  it('is refused if it cannot be drawn on, unless the app only prints lines', () => {
    expect(refusalOf({ in: true, out: true }, { TERM: 'dumb' }, true)).toBeNull()
    expect(refusalOf({ in: true, out: true }, { TERM: 'dumb' }, false)).toBe(
      'This terminal (TERM=dumb) cannot be drawn on. "pausebook settings screen-reader on" makes the app print lines instead. The commands that print work everywhere: see "pausebook --help".',
    )
  })

  // POSIX.1-2017, Base Definitions 8.2: LC_ALL goes before LC_CTYPE, and that before LANG.
  it('shows blocks if its locale is UTF-8', () => {
    expect(isUnicodeTerminal({ LANG: 'de_DE.UTF-8' }, 'linux')).toBe(true)
    expect(isUnicodeTerminal({ LANG: 'C.utf8' }, 'linux')).toBe(true)
    expect(isUnicodeTerminal({ LANG: 'de_DE.UTF-8', LC_CTYPE: 'C' }, 'linux')).toBe(false)
    expect(isUnicodeTerminal({ LANG: 'de_DE.UTF-8', LC_CTYPE: 'C', LC_ALL: 'C.UTF-8' }, 'linux')).toBe(true)
    expect(isUnicodeTerminal({}, 'linux')).toBe(false)
    expect(isUnicodeTerminal({}, 'darwin')).toBe(true)
    expect(isUnicodeTerminal({}, 'win32')).toBe(false)
    expect(isUnicodeTerminal({ WT_SESSION: '1' }, 'win32')).toBe(true)
    expect(isUnicodeTerminal({ TERM_PROGRAM: 'vscode' }, 'win32')).toBe(true)
    expect(isUnicodeTerminal({ TERM_PROGRAM: 'vscode' }, 'linux')).toBe(false)
  })

  // Node's documentation, "Signal events": Windows has these three of them; SIGUSR1 would open the debugger elsewhere.
  it('is left in order by every signal that ends the program', () => {
    expect(endingSignals()).toEqual(expect.arrayContaining(['SIGINT', 'SIGHUP', 'SIGUSR1', 'SIGXCPU']))
    onWindows()
    expect(endingSignals()).toEqual(['SIGINT', 'SIGTERM', 'SIGHUP'])
  })

  // xterm control sequences, "OSC 52": the text in base64; RFC 4648 for that.
  it('gets text for its clipboard in base64', () => {
    expect(clipboardSequence('10 × 400 m')).toBe('\x1b]52;c;MTAgw5cgNDAwIG0=\x07')
  })
})
