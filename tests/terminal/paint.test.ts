import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Patch } from '../../src/widgets/paint.ts'
import { createGlass, type Glass } from './glass.ts'

const frame = ['head', 'rest', 'day  0:12  x5', 'day  0:12  x5', '> ', 'keys']
const digits: Patch = { row: 2, column: 5, lines: ['0:11', '0:11'] }

function opened(lines: readonly string[] = frame, columns = 20, rows = 8): Glass {
  const glass = createGlass(columns, rows)
  glass.output.write(lines.join('\n'))
  glass.output.open()
  return glass
}

describe('a patch of the screen', () => {
  it('is shown at once, and nothing else is sent', async () => {
    const glass = opened()
    const before = glass.sent().length
    expect(glass.output.paint(digits)).toBe(true)
    expect(glass.sent().slice(before)).toBe(
      '\x1b[?2026h\x1b[0m\x1b[3;6H0:11\x1b[0m\x1b[4;6H0:11\x1b[0m\x1b[?2026l',
    )
    expect((await glass.cells()).slice(0, 5)).toEqual(['head', 'rest', 'day  0:11  x5', 'day  0:11  x5', '>'])
  })

  it('is written over again by the very frame that it was painted on', async () => {
    const glass = opened()
    glass.output.paint(digits)
    glass.output.paint(null)
    glass.output.write(frame.join('\n'))
    glass.output.draw()
    expect((await glass.cells()).slice(2, 4)).toEqual(['day  0:12  x5', 'day  0:12  x5'])
  })

  it('stays over a frame that knows nothing of it, until it is taken away', async () => {
    const glass = opened()
    glass.output.paint(digits)
    const typed = [...frame.slice(0, 4), '> 5', 'keys']
    glass.output.write(typed.join('\n'))
    glass.output.draw()
    expect((await glass.cells()).slice(2, 5)).toEqual(['day  0:11  x5', 'day  0:11  x5', '> 5'])
    const before = glass.sent().length
    glass.output.write(typed.join('\n'))
    glass.output.draw()
    expect(glass.sent().length).toBe(before)
  })

  it('is shown again after the terminal was given back and taken again', async () => {
    const glass = opened()
    glass.output.paint(digits)
    glass.output.close()
    glass.output.open()
    expect((await glass.cells())[2]).toBe('day  0:11  x5')
  })

  it('is refused before the screen is shown, and once it is hidden', () => {
    const glass = createGlass(20, 8)
    glass.output.write(frame.join('\n'))
    expect(glass.output.paint(digits)).toBe(false)
    glass.output.open()
    expect(glass.output.paint(digits)).toBe(true)
    glass.output.close()
    const before = glass.sent().length
    expect(glass.output.paint(digits)).toBe(false)
    expect(glass.sent().length).toBe(before)
  })

  it('is refused while a frame waits that may have another layout', () => {
    const glass = opened()
    glass.output.write(['another', ...frame].join('\n'))
    expect(glass.output.paint(digits)).toBe(false)
    glass.output.draw()
    expect(glass.output.paint({ ...digits, row: 3 })).toBe(true)
  })

  it('is refused on the last row and below the frame', () => {
    expect(opened(frame, 20, 4).output.paint(digits)).toBe(false)
    expect(opened(frame, 20, 5).output.paint(digits)).toBe(true)
    expect(opened().output.paint({ ...digits, row: 5 })).toBe(false)
  })

  it('is refused in another place than the one before it, whose cells would stay', () => {
    const glass = opened()
    glass.output.paint(digits)
    expect(glass.output.paint({ ...digits, column: 6 })).toBe(false)
    glass.output.paint(null)
    expect(glass.output.paint({ ...digits, column: 6 })).toBe(true)
  })

  it.each(['深蹲 0:12', 'e\u0301 0:12', '👟 0:12'])(
    'is refused in a line that terminals measure differently: %s',
    (line) => {
      expect(opened(['head', 'rest', line, line]).output.paint(digits)).toBe(false)
    },
  )

  it('is gone with another size of the window, in which everything is drawn', async () => {
    const glass = opened()
    glass.output.paint(digits)
    glass.resize(30, 8)
    glass.output.resized()
    expect((await glass.cells())[2]).toBe('day  0:12  x5')
  })
})

it('whatever is drawn and painted, the screen shows the last frame with the last patch over it', async () => {
  const line = fc.string({ unit: fc.constantFrom('a', ' ', '█', ':', '\x1b[36mc\x1b[39m'), maxLength: 14 })
  const drawn = fc.array(line, { minLength: 1, maxLength: 6 })
  const patch = fc.record({
    row: fc.integer({ min: 0, max: 3 }),
    column: fc.integer({ min: 0, max: 12 }),
    lines: fc.array(fc.constantFrom('\x1b[36m█▀\x1b[39m', '12', ' 1'), { minLength: 1, maxLength: 3 }),
  })
  const step = fc.oneof(drawn, patch, fc.constantFrom(null, 'again', 'reopened', 'resized'))
  await fc.assert(
    fc.asyncProperty(fc.array(step, { maxLength: 20 }), async (steps) => {
      const glass = opened([''], 20, 6)
      let shown: readonly string[] = ['']
      let over: Patch | null = null
      for (const each of steps) {
        if (Array.isArray(each)) {
          shown = each
          glass.output.write(each.join('\n'))
          glass.output.draw()
        } else if (each === 'again') glass.output.draw()
        else if (each === 'reopened') {
          glass.output.close()
          glass.output.open()
        } else if (each === 'resized') {
          over = null
          glass.output.resized()
        } else if (each === null) {
          over = null
          glass.output.paint(null)
          glass.output.write(shown.join('\n'))
          glass.output.draw()
        } else if (glass.output.paint(each as Patch)) over = each as Patch
        const wanted = createGlass(20, 6)
        wanted.output.write(shown.join('\n'))
        wanted.output.open()
        if (over !== null) wanted.output.paint(within(shown, over))
        expect(await glass.cells()).toEqual(await wanted.cells())
      }
    }),
    { numRuns: 150 },
  )
})

/** Lines below the frame are not there to be painted over. */
function within(shown: readonly string[], patch: Patch): Patch | null {
  const lines = patch.lines.slice(0, Math.max(0, shown.length - patch.row))
  return lines.length === 0 ? null : { ...patch, lines }
}
