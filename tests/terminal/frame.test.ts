import xterm from '@xterm/headless'
import { describe, expect, it } from 'vitest'
import { frameUpdate } from '../../src/ui/terminal/inkStreams.ts'
import fc from '../fastCheck.ts'

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
