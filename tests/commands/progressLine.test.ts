import { rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { beforeEach, describe, expect, it } from 'vitest'
import { runCommandLine } from '../../src/commands/program.ts'
import { progressLine, spokenProgress } from '../../src/commands/sessionsRead.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { now, sixteen, sixteenWeeks } from './overWeeks.ts'

function said(terminal: boolean, term: string, milliseconds: number[]): string {
  let text = ''
  let at = 0
  const line = progressLine(
    {
      terminal: { in: terminal, out: terminal, err: terminal },
      env: { TERM: term },
      now: () => new Date(at),
      steer: (more) => {
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
  it('appears after half a second, ten times a second, and disappears at the end', () => {
    expect(said(true, 'xterm', [100, 499, 500, 550, 600])).toBe(
      '\rreading session 3 of 10\rreading session 5 of 10\r\u001b[K',
    )
  })

  it('does not appear for short work, without a terminal, or on one that cannot clear a line', () => {
    expect(said(true, 'xterm', [100, 200])).toBe('')
    expect(said(false, 'xterm', [600, 900])).toBe('')
    expect(said(true, 'dumb', [600, 900])).toBe('')
  })
})

describe('the line for a screen reader', () => {
  it('is printed once, and not for short work', () => {
    let text = ''
    let at = 0
    const out = (more: string) => {
      text += more
    }
    const line = spokenProgress({ now: () => new Date(at), out })
    for (at of [100, 499]) line.show(1, 3040)
    expect(text).toBe('')
    for (at of [500, 700, 5000]) line.show(1, 3040)
    expect(text).toBe('reading 3040 sessions, it takes a moment\n')
  })
})

describe('without an index', () => {
  const logbook = sixteenWeeks({ ...sixteen, weeks: 4 })
  const sessions = openLogbook(logbook).list().length
  beforeEach(() => rmSync(join(logbook, 'index.ndjson')))
  const day = join(dirname(logbook), 'day.txt')
  writeFileSync(day, 'Legs\n\nlift\n  front squat: 2 x 5 @ 70%\n')
  const results = join(dirname(logbook), 'day.results.txt')
  writeFileSync(results, '5 x 80\n5 x 80\n')

  it.each([
    ['history'],
    ['progress'],
    ['progress', 'run'],
    ['week'],
    ['next'],
    ['new'],
    ['check', day],
    ['cut', day, '--by', '60%'],
    ['record', day],
    ['backfill', day, results, '--date', '2026-11-26'],
  ])('%s shows its progress on a terminal, and clears it', async (...words) => {
    const { processIo } = await import('../../src/commands/io.ts')
    let said = ''
    let asked = 0
    await runCommandLine(words, {
      ...processIo({ out: () => {}, err: () => {}, steer: () => {} }),
      steer: (text) => {
        said += text
      },
      terminal: { in: false, out: false, err: true },
      columns: 80,
      env: { TERM: 'xterm', PAUSEBOOK_DIR: logbook },
      now: () => {
        asked += 1
        return new Date(now.getTime() + 200 * asked)
      },
    })
    expect(said).toMatch(new RegExp(`^\\rreading session \\d+ of ${sessions}\\r`))
    expect(said).toContain(`\rreading session ${sessions} of ${sessions}\r\u001b[K`)
  })
})
