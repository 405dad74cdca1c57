import { readFileSync, writeFileSync } from 'node:fs'
import { constants } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { openLogbook } from '../../src/logbook/store.ts'
import { resultsIn } from '../logbook/sampleSession.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { builtProgram, keys, type RunningProgram, startProgram, usedLogbook } from '../terminal/harness.ts'
import { isLongRun, skip } from './harness.ts'

const day = `Legs
units: km kg

lift: legs
  front squat: 5 x 3 @ 92.5 kg, rest 2:30
`

/** A used logbook, and the recorder in a terminal. */
async function recording(): Promise<RunningProgram> {
  const program = await startProgram(['record', dayFile()], {
    ...size,
    logbook: usedLogbook({ bell: 'off' }),
  })
  await program.waitFor('set 1 of 5')
  return program
}

const size = { columns: 100, rows: 30 }

function dayFile(): string {
  const path = join(temporaryFolder(), 'legs.txt')
  writeFileSync(path, day)
  return path
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
  it.each(isLongRun ? signals : signals.slice(0, 1))(
    '%s has saved all, restores the terminal and exits with %i',
    async (signal, status) => {
      const program = await recording()
      for (const set of [2, 3, 4]) {
        program.type(`3 @8${keys.enter}`)
        // The line before it says "then set 2 of 5" all along.
        await program.waitFor(`set ${set} of 5 >`)
      }
      expect(program.isOnAlternateScreen()).toBe(true)
      program.kill(signal)
      expect((await program.exited).code).toBe(status)
      expect(program.isOnAlternateScreen()).toBe(false)
      expectSaved(program.logbook, 3)
    },
  )

  it('a terminal that is closed has saved all, and the hangup ends it as it ends other programs', async () => {
    const program = await recording()
    program.type(`3${keys.enter}`)
    await program.waitFor('recorded')
    program.hangUp()
    // Not SIGABRT, which leaves a core dump or a message that the program has crashed. A process that is being started
    // beside this test may hold the terminal open for a moment: then the signal comes first, as in the table above.
    const hungUp = [
      { code: 0, signal: constants.signals.SIGHUP },
      { code: 129, signal: 0 },
    ]
    expect(hungUp).toContainEqual(await program.exited)
    expectSaved(program.logbook, 1)
  })
})

describe('a recorder that is stopped from the keyboard', () => {
  it('returns the terminal to the shell, keeps its session, continues where it was, and ends by ctrl-c with all saved', async (context) => {
    if (process.platform !== 'linux') skip(context, 'whether a process is stopped is read from /proc')
    const logbook = usedLogbook({ bell: 'off' })
    // A process can only be stopped if a shell of its own session could continue it.
    const words = ['--norc', '-i']
    const shell = await startProgram(words, { ...size, command: 'bash', logbook, env: { PS1: '$ ' } })
    shell.type(`'${process.execPath}' '${await builtProgram()}' record '${dayFile()}'\r`)
    await shell.waitFor('set 1 of 5')
    shell.type(`3${keys.enter}`)
    await shell.waitFor('recorded')
    shell.type(keys.ctrlZ)
    await shell.waitFor('Stopped')
    expect(shell.isOnAlternateScreen()).toBe(false)
    const owner = openLogbook(logbook).read('newest').recordedBy
    expect(stateOf(owner?.pid ?? 0)).toBe('T')
    shell.type('fg\r')
    await shell.waitFor('set 2 of 5')
    expect(shell.isOnAlternateScreen()).toBe(true)
    shell.type(`3${keys.enter}`)
    await shell.waitFor('3 x 92.5, twice')
    shell.type(keys.ctrlC)
    await shell.waitFor(() => !shell.isOnAlternateScreen())
    shell.type('echo "status $?"\r')
    await shell.waitFor('status 130')
    expectSaved(logbook, 2)
  })
})

/** `T`: stopped, as proc(5) has it. */
function stateOf(pid: number): string | undefined {
  const stat = readFileSync(`/proc/${pid}/stat`, 'utf8')
  return stat.slice(stat.lastIndexOf(')') + 2).split(' ')[0]
}
