import { existsSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { build } from 'esbuild'
import { beforeAll, describe, expect, it } from 'vitest'
import { keys, type RunningProgram, startProgram, temporaryFolder } from './harness.ts'

const { bundling } = createRequire(import.meta.url)('../../src/setup/build.cjs')
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

/** The last bytes it sends restore the terminal: paste marks, cursor, wrapping and screen, in this order. */
function isRestored(trial: RunningProgram): boolean {
  return !trial.isOnAlternateScreen() && /\x1b\[\?2004l\x1b\[\?25h\x1b\[\?7h\x1b\[\?1049l/.test(trial.sent())
}

describe('screens in a terminal', () => {
  it('receive every key of one chunk, in order', async () => {
    const { trial } = await startTrial()
    trial.type('102.5\r99\x7f8\r')
    await trial.waitFor('entered ["102.5","98"]')
  })

  it('receive two hundred keys of one chunk', async () => {
    const { trial } = await startTrial({ columns: 120 })
    const digits = '1234567890'.repeat(20)
    trial.type(digits)
    trial.type('\x7f'.repeat(160))
    trial.type('\r')
    await trial.waitFor(`entered ["${digits.slice(0, 40)}"]`)
  })

  it('take a paste as text, even letters that are commands', async () => {
    const { trial } = await startTrial()
    trial.type('\x1b[200~q 6:07\x1b[201~')
    await trial.waitFor('> q 6:07')
  })

  it('move in the field and write there', async () => {
    const { trial } = await startTrial()
    trial.type(`135${keys.left}${keys.left}0\r`)
    await trial.waitFor('entered ["1035"]')
  })

  it('are drawn on the alternate screen, never on the last row', async () => {
    const { trial } = await startTrial({ columns: 60, rows: 12 })
    expect(trial.isOnAlternateScreen()).toBe(true)
    expect(trial.screen()[0]).toMatch(/^size 60 x 11 -+…$/)
    expect(trial.screen()[11]).toBe('')
    expect(trial.screen()[10]).toBe('>')
  })

  it('are complete after many quick changes of the window', async () => {
    const { trial } = await startTrial()
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
  })

  it.each([
    ['q', 'q', 0],
    ['a status of its own', 'w', 7],
    ['ctrl-c', keys.ctrlC, 130],
  ])('end by %s with everything saved and restored', async (_, typed, code) => {
    const { trial, log } = await startTrial()
    trial.type(typed)
    expect((await trial.exited).code).toBe(code)
    expect(log()).toBe('left\n')
    expect(isRestored(trial)).toBe(true)
  })

  it.each([
    ['SIGTERM', 143],
    ['SIGHUP', 129],
    ['SIGINT', 130],
    ['SIGQUIT', 131],
    ['SIGUSR1', 138],
    ['SIGUSR2', 140],
    ['SIGALRM', 142],
    ['SIGXCPU', 152],
    ['SIGABRT', 134],
  ] as const)('end by %s with everything saved and restored', async (signal, code) => {
    const { trial, log } = await startTrial()
    trial.kill(signal)
    expect((await trial.exited).code).toBe(code)
    expect(log()).toBe('left\n')
    expect(isRestored(trial)).toBe(true)
    // What Node prints when SIGUSR1 opens its debugger port.
    expect(trial.sent()).not.toContain('Debugger listening')
  })

  it('restore the terminal before they report an error', async () => {
    const { trial, log } = await startTrial()
    trial.type('x')
    expect((await trial.exited).code).toBe(1)
    expect(log()).toBe('left\n')
    expect(isRestored(trial)).toBe(true)
    expect(trial.screen().join('\n')).toContain('failed: broken on purpose')
  })

  it('ring and copy without disturbing what is drawn', async () => {
    const { trial } = await startTrial()
    trial.type('bc')
    await trial.waitFor('entered []')
    await expect.poll(() => trial.sent()).toContain('\x07')
    await expect
      .poll(() => trial.sent())
      .toContain(`\x1b]52;c;${Buffer.from('21,1 km').toString('base64')}\x07`)
  })

  it('send only the line that changed', async () => {
    const { trial } = await startTrial()
    const before = trial.sent().length
    trial.type('5')
    await trial.waitFor('> 5')
    expect(trial.sent().slice(before)).not.toContain('size')
  })

  it('continue after ctrl-z if nothing can stop the process', async () => {
    const { trial } = await startTrial()
    trial.type(`12${keys.ctrlZ}`)
    await expect.poll(() => trial.sent().split('\x1b[?1049h').length).toBe(3)
    trial.type('3\r')
    await trial.waitFor('entered ["123"]')
  })

  it('stop with the whole job at ctrl-z and are drawn again when the shell continues it', async () => {
    const log = join(temporaryFolder(), 'log')
    const shell = await startProgram(['-e', shellOf(program, log)], { program: '--input-type=commonjs' })
    await shell.waitFor('ready$')
    shell.type(`$TRIAL\r`)
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
  })
})

/** A program that becomes an interactive bash, which has job control. */
function shellOf(trial: string, log: string): string {
  const env = `{ ...process.env, PS1: 'ready$ ', TRIAL: '${process.execPath} ${trial} ${log}' }`
  return `require('child_process').spawnSync('bash', ['--norc', '--noprofile', '-i'], { stdio: 'inherit', env: ${env} })`
}
