import { describe, expect, it } from 'vitest'
import { progressLine } from '../../src/commands/progressLine.ts'

function said(terminal: boolean, term: string, milliseconds: number[]): string {
  let text = ''
  let at = 0
  const line = progressLine(
    {
      terminal: { in: terminal, out: terminal, err: terminal },
      env: { TERM: term },
      now: () => new Date(at),
      err: (more) => {
        text += more
      },
    },
    'reading session',
  )
  milliseconds.forEach((time, index) => {
    at = time
    line.show(index, 10)
  })
  line.clear()
  line.clear()
  return text
}

describe('the line of progress', () => {
  it('comes after half a second, ten times a second, and goes when all is done', () => {
    expect(said(true, 'xterm', [100, 499, 500, 550, 600])).toBe(
      '\rreading session 3 of 10\rreading session 5 of 10\r\u001b[K',
    )
  })

  it('does not come for what is short, or on no terminal, or on one that cannot take a line back', () => {
    expect(said(true, 'xterm', [100, 200])).toBe('')
    expect(said(false, 'xterm', [600, 900])).toBe('')
    expect(said(true, 'dumb', [600, 900])).toBe('')
  })
})
