import { rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { beforeEach, describe, expect, it, onTestFinished, vi } from 'vitest'
import type { Io } from '../../src/commands/command.ts'
import { processIo } from '../../src/commands/io.ts'
import { runCommandLine } from '../../src/commands/program.ts'
import { progressLine } from '../../src/commands/progressLine.ts'
import { changeSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { enterScreen } from '../../src/ui/terminal/capabilities.ts'
import { createGlass, settled } from '../terminal/glass.ts'
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

describe('without an index', () => {
  const logbook = sixteenWeeks({ ...sixteen, weeks: 4 })
  let sessions = 0
  beforeEach(() => {
    rmSync(join(logbook, 'index.ndjson'))
    sessions = openLogbook(logbook).list().length
  })
  const day = join(dirname(logbook), 'day.txt')
  writeFileSync(day, 'Legs\n\nlift\n  front squat: 2 x 5 @ 70%\n')
  const results = join(dirname(logbook), 'day.results.txt')
  writeFileSync(results, '5 x 80\n5 x 80\n')

  function expectProgress(sent: string): void {
    expect(sent).toMatch(new RegExp(`^\\rreading session \\d+ of ${sessions}\\r`))
    expect(sent).toContain(`\rreading session ${sessions} of ${sessions}\r\u001b[K`)
  }

  /** Each look at the clock is 200 milliseconds after the one before. */
  function slow(terminal: Io['terminal'], given: Pick<Io, 'steer'> & Partial<Io>): Io {
    let looks = 0
    return {
      ...processIo({ out: () => {}, err: () => {}, steer: () => {} }),
      terminal,
      columns: 80,
      env: { TERM: 'xterm', PAUSEBOOK_DIR: logbook },
      now: () => {
        looks += 1
        return new Date(now.getTime() + 200 * looks)
      },
      ...given,
    }
  }

  it.each([
    ['history'],
    ['progress'],
    ['progress', 'run'],
    ['week'],
    ['next'],
    ['check', day],
    ['cut', day, '--by', '60%'],
    ['record', day],
    ['backfill', day, results, '--date', '2026-11-26'],
  ])('%s shows its progress on a terminal, and clears it', async (...words) => {
    const said: string[] = []
    const steer = (text: string) => void said.push(text)
    await runCommandLine(words, slow({ in: false, out: false, err: true }, { steer }))
    expectProgress(said.join(''))
  })

  /** A terminal that takes the place of the process's. */
  function glassOfThisProcess() {
    const glass = createGlass(80, 24)
    const stdin = vi.spyOn(process, 'stdin', 'get').mockReturnValue(glass.streams.stdin)
    const stdout = vi.spyOn(process, 'stdout', 'get').mockReturnValue(glass.streams.stdout)
    onTestFinished(() => {
      stdin.mockRestore()
      stdout.mockRestore()
    })
    return glass
  }

  const everywhere = { in: true, out: true, err: true }

  it('the app shows its progress before its first screen, and clears it', async () => {
    const { writes, cells, type } = glassOfThisProcess()
    changeSettings(logbook, (settings) => ({ ...settings, firstStartSeen: true, screenReader: false }))
    const steer = (text: string) => void writes.push(text)
    const status = runCommandLine([], slow(everywhere, { steer }))
    while (!(await cells()).join('\n').includes('h history')) await settled()
    const [before = '', ...screens] = writes.join('').split(enterScreen)
    expectProgress(before)
    expect(screens.join('')).not.toContain('reading session')
    await type('q')
    expect(await status).toBe(0)
  })

  it('the app for a screen reader shows none, which would be read out again and again', async () => {
    const { type } = glassOfThisProcess()
    changeSettings(logbook, (settings) => ({ ...settings, firstStartSeen: true, screenReader: true }))
    const said: string[] = []
    const hear = (text: string) => void said.push(text)
    const status = runCommandLine([], slow(everywhere, { out: hear, steer: hear }))
    while (!said.join('').includes('Type a number')) await settled()
    await type('q\r')
    expect(await status).toBe(0)
    expect(said.join('')).not.toContain('reading session')
  })
})
