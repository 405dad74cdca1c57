import { existsSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { build } from 'esbuild'
import { beforeAll, describe, expect, it } from 'vitest'
import { temporaryFolder } from '../temporaryFolder.ts'
import { keys, type RunningProgram, startProgram } from './harness.ts'

const { bundling } = createRequire(import.meta.url)('../../src/setup/generate.cjs')
const program = join('coverage', 'trial', 'trial.js')

beforeAll(async () => {
  await build({
    ...bundling,
    entryPoints: ['tests/terminal/trial/trial.tsx'],
    outfile: program,
  })
})

async function startTrial(size: { columns?: number; rows?: number } = {}) {
  const log = join(temporaryFolder(), 'log')
  const trial = await startProgram([log], { program, ...size })
  await trial.waitFor('entered []')
  return { trial, log: () => (existsSync(log) ? readFileSync(log, 'utf8') : '') }
}

const restored = '\x1b[?2004l\x1b[?25h\x1b[?7h\x1b[?1049l'

/** Whether the terminal was restored after the screens were shown for the last time: paste marks, cursor, wrapping and
 * screen, in this order. */
function isRestored(trial: RunningProgram): boolean {
  const last = trial.sent().slice(trial.sent().lastIndexOf('\x1b[?1049h'))
  return !trial.isOnAlternateScreen() && last.includes(restored)
}

const isWindows = process.platform === 'win32'
describe.skipIf(isWindows)('screens in a terminal (skipped on Windows, which has no signals)', () => {
  it('get keys and pastes in order, ring and copy, and restore the terminal before they report an error', async () => {
    const { trial, log } = await startTrial({ columns: 120 })
    // Every key of one chunk.
    trial.type('102.5\r99\x7f8\r')
    await trial.waitFor('entered ["102.5","98"]')
    trial.type(`135${keys.left}${keys.left}0\r`)
    await trial.waitFor('"98","1035"]')
    // Only the line that changed is sent.
    const before = trial.sent().length
    trial.type('5')
    await trial.waitFor('> 5')
    expect(trial.sent().slice(before)).not.toContain('size')
    trial.type('\x7f')
    await trial.waitForNo('> 5')
    // Ringing and copying do not disturb what is drawn.
    trial.type('bc7')
    await trial.waitFor('> 7')
    expect(trial.sent()).toContain('\x07')
    expect(trial.sent()).toContain(`\x1b]52;c;${Buffer.from('21,1 km').toString('base64')}\x07`)
    expect(trial.screen()[1]).toBe('entered ["102.5","98","1035"]')
    trial.type('\x7f')
    await trial.waitForNo('> 7')
    const digits = '1234567890'.repeat(3)
    trial.type(digits)
    trial.type('\x7f'.repeat(18))
    trial.type('\r')
    await trial.waitFor(`"${digits.slice(0, 12)}"]`)
    // They continue after ctrl-z if nothing can stop the process.
    trial.type(`12${keys.ctrlZ}`)
    await trial.waitFor(() => trial.sent().split('\x1b[?1049h').length === 3)
    trial.type('3\r')
    await trial.waitFor('"123"]')
    // A paste is text, even letters that are commands.
    trial.type('\x1b[200~q 6:07\x1b[201~')
    await trial.waitFor('> q 6:07')
    trial.type('\r')
    await trial.waitFor('"q 6:07"]')
    trial.type('x')
    expect((await trial.exited).code).toBe(1)
    // Ink's own page about an error reads the source for it.
    expect(trial.sent()).not.toContain('ERROR')
    expect(log()).toBe('left\n')
    expect(isRestored(trial)).toBe(true)
    expect(trial.screen().join('\n')).toContain('failed: broken on purpose')
  })

  it('are drawn on the alternate screen, never on the last row, and end by a signal that Node itself uses', async () => {
    const { trial, log } = await startTrial({ columns: 60, rows: 12 })
    expect(trial.isOnAlternateScreen()).toBe(true)
    expect(trial.screen()[0]).toMatch(/^size 60 x 11 -+…$/)
    expect(trial.screen()[11]).toBe('')
    expect(trial.screen()[10]).toBe('>')
    // They are complete after many quick changes of the window.
    for (const [columns, rows] of [
      [120, 40],
      [40, 12],
      [200, 60],
      [61, 13],
    ] as const) {
      trial.resize(columns, rows)
    }
    await trial.waitFor('size 61 x 12')
    const lines = trial.screen()
    expect(lines.filter((line) => line.startsWith('size'))).toHaveLength(1)
    expect(lines.filter((line) => line.startsWith('>'))).toHaveLength(1)
    expect(lines[11]).toBe('>')
    trial.kill('SIGUSR1')
    expect((await trial.exited).code).toBe(138)
    expect(log()).toBe('left\n')
    expect(isRestored(trial)).toBe(true)
    // What Node prints when SIGUSR1 opens its debugger port.
    expect(trial.sent()).not.toContain('Debugger listening')
  })

  it('stop with the whole job at ctrl-z, are drawn again when the shell continues it, and end with their status', async () => {
    const log = join(temporaryFolder(), 'log')
    const env = { PS1: 'ready$ ', TRIAL: `${process.execPath} ${program} ${log}` }
    const shell = await startProgram(['--norc', '--noprofile', '-i'], { command: 'bash', env })
    await shell.waitFor('ready$')
    shell.type('$TRIAL\r')
    await shell.waitFor('entered []')
    shell.type(`12${keys.ctrlZ}`)
    await shell.waitFor('Stopped')
    expect(shell.isOnAlternateScreen()).toBe(false)
    shell.type('echo "between"; fg\r')
    await shell.waitFor('> 12')
    shell.type('3\r')
    await shell.waitFor('entered ["123"]')
    shell.type('w')
    await shell.waitForNo('entered')
    shell.type('echo "status $?"\r')
    await shell.waitFor('status 7')
    expect(readFileSync(log, 'utf8')).toBe('left\n')
    expect(isRestored(shell)).toBe(true)
  })
})
