import xterm from '@xterm/headless'
import { Text } from 'ink'
import { createElement, type ReactNode } from 'react'
import { describe, expect, it, onTestFinished, vi } from 'vitest'
import { enterScreen, leaveScreen } from '../../src/ui/terminal/capabilities.ts'
import { asciiFrame, frameUpdate } from '../../src/ui/terminal/inkStreams.ts'
import { runScreens, type ScreenTerminal } from '../../src/ui/terminal/runScreens.tsx'
import { bigTextOf } from '../../src/ui/widgets/bigText.ts'
import { nameOf, useKeys } from '../../src/ui/widgets/keys.ts'
import fc from '../fastCheck.ts'
import { onWindows } from '../onWindows.ts'
import { createGlass, settled } from './glass.ts'

const begun = '\x1b[?2026h'
const ended = '\x1b[?2026l'

describe('an update of the screen', () => {
  it('is empty if nothing changed', () => {
    expect(frameUpdate(['a', 'b'], ['a', 'b'], 24)).toBe('')
  })

  it('contains only the lines that changed', () => {
    expect(frameUpdate(['head', '0:12', 'keys'], ['head', '0:11', 'keys'], 24)).toBe(
      `${begun}\x1b[2;1H\x1b[0m\x1b[K0:11\x1b[0m${ended}`,
    )
  })

  it('clears the lines below a frame that became shorter', () => {
    expect(frameUpdate(['a', 'b'], ['a'], 24)).toBe(`${begun}\x1b[2;1H\x1b[0m\x1b[K\x1b[0m${ended}`)
  })

  it('begins with an empty screen if the contents are unknown', () => {
    expect(frameUpdate(null, ['a', ''], 24)).toBe(
      `${begun}\x1b[0m\x1b[2J\x1b[1;1H\x1b[0m\x1b[Ka\x1b[0m${ended}`,
    )
  })

  it('never touches the last row', () => {
    expect(frameUpdate(null, ['1', '2', '3', '4'], 3)).not.toContain('[3;1H')
  })

  it('leads from any frame to any other, as a terminal shows it', async () => {
    const line = fc.string({
      unit: fc.constantFrom('a', 'b', ' ', '█', ':', '\x1b[36mc\x1b[39m'),
      maxLength: 12,
    })
    const frame = fc.array(line, { maxLength: 6 })
    const terminal = new xterm.Terminal({ cols: 20, rows: 6, allowProposedApi: true })
    await fc.assert(
      fc.asyncProperty(fc.array(frame, { minLength: 1, maxLength: 5 }), async (frames) => {
        let before: readonly string[] | null = null
        for (const after of frames) {
          const update = frameUpdate(before, after, 6)
          await new Promise<void>((done) => terminal.write(update, done))
          before = after
        }
        const shown = Array.from({ length: 5 }, (_, row) =>
          terminal.buffer.active.getLine(row)?.translateToString(true).trimEnd(),
        )
        const wanted = Array.from({ length: 5 }, (_, row) =>
          // biome-ignore lint/complexity/useRegexLiterals: written as the terminal gets it
          (before?.[row] ?? '').replace(new RegExp('\x1b\\[\\d+m', 'g'), '').trimEnd(),
        )
        expect(shown).toEqual(wanted)
      }),
      { numRuns: 200 },
    )
  })

  it('never lets a name from outside control the terminal', () => {
    // Sets the clipboard (OSC 52) if a terminal sees it: the name of a prescription's file could contain it.
    const update = frameUpdate([''], ['\x1b[1mday\x1b]52;c;aGVsbG8=\x07.txt\x1b[22m'], 24)
    expect(update).toContain('\x1b[1mday\ufffd]52;c;aGVsbG8=\ufffd.txt\x1b[22m')
  })
})

describe('the frame of a terminal without Unicode', () => {
  it('has a character of ASCII for each that the screens draw with, and keeps colours and names', () => {
    expect(asciiFrame('\x1b[1mfront squat: 5 x…\x1b[22m')).toBe('\x1b[1mfront squat: 5 x~\x1b[22m')
    expect(asciiFrame('✓ ↑ ↓ ← → █▀▄█▓▒░')).toBe('= ^ v < > #"_#%>.')
    expect(asciiFrame('┌─┐\n├─┤\n└─┘ ━╌')).toBe('+-+\n+-+\n+-+ =-')
    expect(asciiFrame('Übung 深蹲')).toBe('Übung 深蹲')
  })

  it('has large letters whose level strokes are underlines, so that they can be told apart', () => {
    expect(asciiFrame((bigTextOf('WORK 5:23') ?? []).join('\n')).split('\n')).toEqual([
      '_ _ _ ___ ___ _  _    ___   ___ ___',
      '# # # # # #_" #_"     #__ " __# __#',
      '#_#_# #_# # # # "_    __# " #__ __#',
    ])
  })
})

describe('screens on a terminal of this process', () => {
  const listeners = () =>
    Object.fromEntries(process.eventNames().map((name) => [name, process.listenerCount(name)]))

  /** Shows one screen, and records what happens to it. */
  async function shown(screen: () => ReactNode = () => createElement(Text, null, 'a screen')) {
    const glass = createGlass(40, 12)
    const pressed: string[] = []
    function Listening() {
      useKeys((key) => pressed.push(nameOf(key)) > 0)
      return createElement(screen)
    }
    const sent = () => glass.writes.join('')
    /** For each time that everything was saved, whether that was before the terminal was restored. */
    const saved: ('before' | 'after')[] = []
    let terminal: ScreenTerminal | null = null
    let outcome: unknown = 'still shown'
    const before = listeners()
    const start = (given: ScreenTerminal) => {
      terminal = given
      given.show(createElement(Listening))
    }
    const leave = () => void saved.push(sent().includes(leaveScreen) ? 'after' : 'before')
    runScreens({ isUnicode: true, start, leave }, glass.streams).then(
      (status) => {
        outcome = status
      },
      (error) => {
        outcome = error
      },
    )
    onTestFinished(() => terminal?.exit())
    await settled()
    return {
      glass,
      saved,
      pressed,
      sent,
      terminal: terminal as unknown as ScreenTerminal,
      outcome: () => outcome,
      /** Expects that they ended in order, once. */
      async expectEnded(status: number) {
        await settled()
        expect(outcome).toBe(status)
        expect(saved).toEqual(['before'])
        expect(sent().startsWith(enterScreen)).toBe(true)
        expect(glass.writes.at(-1)).toBe(leaveScreen)
        expect(sent().split(leaveScreen)).toHaveLength(2)
        expect(listeners()).toEqual(before)
      },
    }
  }

  it('stay when the terminal is lost, for a signal ends them, and end when it cannot be written to', async () => {
    const { glass, outcome, saved } = await shown()
    const broken = (code: string) => Object.assign(new Error(`write ${code}`), { code })
    glass.streams.stdout.emit('error', broken('EIO'))
    await settled()
    expect([outcome(), saved]).toEqual(['still shown', []])
    glass.streams.stdout.emit('error', broken('EBADF'))
    await settled()
    expect(outcome()).toMatchObject({ code: 'EBADF' })
    expect(saved).toHaveLength(1)
  })

  it('end once, with the first status, and listen to nothing afterwards', async () => {
    const { terminal, expectEnded, glass, pressed } = await shown()
    terminal.exit(7)
    terminal.exit(1)
    await expectEnded(7)
    const writes = glass.writes.length
    await glass.resize(50, 20)
    await glass.type('x')
    expect(glass.writes).toHaveLength(writes)
    expect(pressed).toEqual([])
  })

  it('end with 0 without a status, and with 130 by ctrl-c, after which keys of the same moment do nothing', async () => {
    const first = await shown()
    first.terminal.exit()
    await first.expectEnded(0)
    const second = await shown()
    await second.glass.type('a\x03b')
    await second.expectEnded(130)
    expect(second.pressed).toEqual(['a'])
  })

  const signals = [
    ['SIGTERM', 143],
    ['SIGHUP', 129],
    ['SIGINT', 130],
    // Windows has only these three.
    ['SIGQUIT', 131],
    ['SIGUSR1', 138],
    ['SIGUSR2', 140],
    ['SIGALRM', 142],
    ['SIGXCPU', 152],
    ['SIGABRT', 134],
  ] as const
  it.each(process.platform === 'win32' ? signals.slice(0, 3) : signals)(
    'end by %s with everything saved and restored',
    async (signal, status) => {
      const { expectEnded } = await shown()
      process.emit(signal, signal)
      await expectEnded(status)
    },
  )

  it('listen on Windows only for the signals it has, and take ctrl-z as any other key', async () => {
    onWindows()
    const kill = vi.spyOn(process, 'kill').mockReturnValue(true)
    onTestFinished(() => kill.mockRestore())
    // Ink listens for the others, too.
    const before = process.listenerCount('SIGUSR1')
    const { glass, terminal, pressed, expectEnded } = await shown()
    expect(process.listenerCount('SIGUSR1')).toBe(before)
    const sent = glass.writes.length
    await glass.type('\x1a')
    expect(glass.writes.slice(sent)).toEqual([])
    terminal.exit()
    await expectEnded(0)
    expect(pressed).toEqual(['ctrl+z'])
    expect(kill).not.toHaveBeenCalled()
  })

  it('end with the error of a screen, with the terminal restored', async () => {
    const { outcome, saved, sent } = await shown(() => {
      throw new Error('broken on purpose')
    })
    expect(outcome()).toMatchObject({ message: 'broken on purpose' })
    expect(saved).toHaveLength(1)
    expect(sent().split(enterScreen).length).toBe(sent().split(leaveScreen).length)
  })

  it('lend the terminal and its signals to another program, and are drawn again afterwards', async () => {
    const { terminal, glass, sent, pressed, saved } = await shown()
    const own = process.listenerCount('SIGINT')
    let during = 0
    await terminal.lend(async () => {
      during = process.listenerCount('SIGINT')
      expect(sent().endsWith(leaveScreen)).toBe(true)
      await glass.type('x')
    })
    expect(during).toBe(own - 1)
    expect(process.listenerCount('SIGINT')).toBe(own)
    expect([pressed, saved]).toEqual([[], []])
    const again = sent().split(leaveScreen).at(-1) ?? ''
    expect(again.startsWith(enterScreen)).toBe(true)
    expect(again).toContain('a screen')
    await glass.type('y')
    expect(pressed).toEqual(['y'])
  })

  it('are not shown again after a loan during which they ended, even if the other program failed', async () => {
    const { terminal, sent, saved } = await shown()
    const lent = terminal.lend(async () => {
      terminal.exit(3)
      throw new Error('no such editor')
    })
    await expect(lent).rejects.toThrow('no such editor')
    expect(saved).toHaveLength(1)
    expect(sent().split(enterScreen)).toHaveLength(2)
  })

  it('ring, notify and copy at once', async () => {
    const { terminal, sent } = await shown()
    terminal.ring()
    terminal.notify('rest\x1b over')
    terminal.copy('a')
    expect(sent()).toContain('\x07')
    expect(sent()).toMatch(/\x1b\]9;rest[^\x1b]* over\x07/)
    expect(sent()).toContain('\x1b]52;c;YQ==\x07')
  })

  it('are drawn for 80 x 24 on a terminal that does not know its size', async () => {
    const { glass, sent } = await shown(() => createElement(Text, null, 'wide '.repeat(16)))
    await glass.resize(0, 0)
    expect(sent().split('\x1b[2J').at(-1)).toContain('wide '.repeat(15))
  })
})
