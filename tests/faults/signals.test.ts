import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import * as pty from '@lydell/node-pty'
import { describe, expect, it, onTestFailed, onTestFinished } from 'vitest'
import { changeSettings } from '../../src/logbook/settings.ts'
import { openLogbook } from '../../src/logbook/store.ts'
import { resultsIn } from '../logbook/sampleSession.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { builtProgram, environment, keys, type RunningProgram, startProgram } from '../terminal/harness.ts'
import { isLongRun, skip, tell } from './harness.ts'

const day = `Legs
units: km kg

lift: legs
  front squat: 5 x 3 @ 92.5 kg, rest 2:30
`

/** The recorder in a terminal, three results typed. */
async function recording(): Promise<{ program: RunningProgram; logbook: string; prescription: string }> {
  const { logbook, prescription } = usedLogbook()
  const program = await startProgram(['record', prescription], { columns: 100, rows: 30, logbook })
  await program.waitFor('set 1 of 5')
  await typeThree(program)
  return { program, logbook, prescription }
}

async function typeThree(program: RunningProgram): Promise<void> {
  for (const set of [2, 3, 4]) {
    program.type(`3 @8${keys.enter}`)
    // The line before it says "then: set 2 of 5" all along.
    await program.waitFor(`set ${set} of 5 >`)
  }
}

function usedLogbook(): { logbook: string; prescription: string } {
  const folder = temporaryFolder()
  const logbook = join(folder, 'logbook')
  changeSettings(logbook, (settings) => ({ ...settings, firstStartSeen: true, bell: 'off' }))
  const prescription = join(folder, 'legs.txt')
  writeFileSync(prescription, day)
  return { logbook, prescription }
}

/** The only session as it is on the disk, which nobody records any more. */
function expectSaved(directory: string, results: number): void {
  const logbook = openLogbook(directory)
  const { session, recordedBy } = logbook.read('newest')
  expect(resultsIn(session)).toBe(results)
  expect(recordedBy).toBeNull()
  expect(logbook.damages).toEqual([])
  logbook.open('newest').close()
}

/** All of them restore the terminal in the same way, which runScreens.test.ts checks without a process. */
const signals = [
  ['SIGTERM', 143],
  ['SIGHUP', 129],
  ['SIGINT', 130],
] as const

const isWindows = process.platform === 'win32'
describe.skipIf(isWindows)('a recorder (skipped on Windows, which has no signals) that is ended by', () => {
  it.each(signals.slice(isLongRun ? 1 : signals.length))(
    '%s has saved all, restores the terminal and exits with %i',
    async (signal, status) => {
      const { program, logbook } = await recording()
      await expectEnds(program, signal, status)
      expectSaved(logbook, 3)
    },
  )

  it('SIGTERM has saved all and restores the terminal', async () => {
    const { program, logbook } = await recording()
    await expectEnds(program, ...signals[0])
    expectSaved(logbook, 3)
  })

  it('a terminal that is closed has saved all and does not live on', async () => {
    const { logbook, prescription } = usedLogbook()
    const { child, exited, until } = inTerminal(
      process.execPath,
      [await builtProgram(), 'record', prescription],
      logbook,
    )
    await until('set 1 of 5')
    child.write(`3${keys.enter}`)
    await until('recorded')
    ;(child as unknown as { destroy(): void }).destroy()
    await exited
    expectSaved(logbook, 1)
  })
})

describe('a recorder that is stopped from the keyboard', () => {
  it('returns the terminal to the shell, keeps its session, continues where it was, and ends by ctrl-c with all saved', async (context) => {
    if (process.platform !== 'linux') skip(context, 'whether a process is stopped is read from /proc')
    const { logbook, prescription } = usedLogbook()
    // A process can only be stopped if a shell of its own session could continue it.
    const { child, until } = inTerminal('bash', ['--norc', '-i'], logbook)
    child.write(`'${process.execPath}' '${await builtProgram()}' record '${prescription}'\r`)
    await until('set 1 of 5')
    child.write(`3${keys.enter}`)
    await until('recorded')
    child.write(keys.ctrlZ)
    expect(await until('Stopped')).toContain('\u001b[?1049l')
    const owner = openLogbook(logbook).read('newest').recordedBy
    expect(stateOf(owner?.pid ?? 0)).toBe('T')
    child.write('fg\r')
    expect(await until('set 2 of 5')).toContain('\u001b[?1049h')
    child.write(`3${keys.enter}`)
    await until('3 x 92.5, twice')
    child.write(keys.ctrlC)
    expect(await until('$')).toContain('\u001b[?1049l')
    expectSaved(logbook, 2)
    child.write('echo "status $?"\r')
    await until('status 130')
    child.write('exit\r')
  })
})

async function expectEnds(program: RunningProgram, signal: NodeJS.Signals, status: number): Promise<void> {
  expect(program.isOnAlternateScreen()).toBe(true)
  program.kill(signal)
  expect((await program.exited).code).toBe(status)
  expect(program.isOnAlternateScreen()).toBe(false)
}

/** A program in its own terminal. `until`: waits for a text that is new since the last call,
 * and returns everything new up to it. */
function inTerminal(command: string, argv: string[], logbook: string) {
  const env = { ...environment(logbook), PS1: '$ ' }
  const child = pty.spawn(command, argv, { cols: 100, rows: 30, cwd: process.cwd(), env })
  let fresh = ''
  let look = () => {}
  child.onData((data) => {
    fresh += data
    look()
  })
  const exited = new Promise((resolve) => child.onExit(resolve))
  onTestFinished(() => {
    try {
      child.kill('SIGKILL')
    } catch {
      // It has ended by itself.
    }
  })
  let wanted = ''
  onTestFailed(() => tell(`waited for ${JSON.stringify(wanted)}, but there is:\n${fresh}`))
  const until = (text: string): Promise<string> => {
    wanted = text
    return new Promise((resolve) => {
      look = () => {
        if (!fresh.includes(text)) return
        const seen = fresh
        fresh = ''
        look = () => {}
        resolve(seen)
      }
      look()
    })
  }
  return { child, exited, until }
}

/** `T`: stopped, as proc(5) has it. */
function stateOf(pid: number): string | undefined {
  const stat = readFileSync(`/proc/${pid}/stat`, 'utf8')
  return stat.slice(stat.lastIndexOf(')') + 2).split(' ')[0]
}
