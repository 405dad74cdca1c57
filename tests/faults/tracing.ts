import { spawn } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { temporaryFolder } from '../temporaryFolder.ts'

/** The system calls that make up a save. */
export const tracedCalls = ['write', 'fsync', 'rename', 'link'] as const
export type Call = (typeof tracedCalls)[number]

/** The first call of each kind that is the logbook's: Node writes twice before. */
export const firstSave: Record<Call, number> = { write: 3, fsync: 1, rename: 1, link: 1 }

interface Driven {
  lines: string[]
  code: number | null
  signal: NodeJS.Signals | null
  stderr: string
}

/** Runs a program to its end and returns the whole lines that it printed. */
function drive(command: string, argv: readonly string[]): Promise<Driven> {
  const child = spawn(command, argv, { stdio: ['ignore', 'pipe', 'pipe'] })
  let stdout = ''
  let stderr = ''
  child.stdout.on('data', (data) => {
    stdout += data
  })
  child.stderr.on('data', (data) => {
    stderr += data
  })
  return new Promise((resolve, reject) => {
    child.on('error', reject)
    child.on('close', (code, signal) =>
      resolve({ lines: stdout.split('\n').slice(0, -1), code, signal, stderr }),
    )
  })
}

/** Lets the driver record under strace. */
function recordTraced(strace: readonly string[], driver: string, logbook: string, results: number) {
  return drive('strace', [...strace, process.execPath, driver, 'record', logbook, String(results)])
}

/** Lets the driver record into a new logbook while strace tampers with a system call.
 * @param how as strace writes it: `error=EIO:when=7` means that the seventh call fails */
export async function recordTampered(
  driver: string,
  results: number,
  call: Call,
  how: string,
): Promise<Driven & { logbook: string }> {
  const logbook = join(temporaryFolder(), 'logbook')
  const inject = ['-o', '/dev/null', '-e', `trace=${call}`, '-e', `inject=${call}:${how}`]
  return { ...(await recordTraced(inject, driver, logbook, results)), logbook }
}

/** How often each is called on the main thread while the driver records, from a run without faults. */
export async function callsIn(driver: string, results: number): Promise<Record<Call, number>> {
  const folder = temporaryFolder()
  const trace = join(folder, 'trace')
  const strace = ['-o', trace, '-e', `trace=${tracedCalls.join(',')}`]
  await recordTraced(strace, driver, join(folder, 'logbook'), results)
  const text = readFileSync(trace, 'utf8')
  const counted = tracedCalls.map((call) => [call, text.match(new RegExp(`^${call}\\(`, 'gm'))?.length ?? 0])
  return Object.fromEntries(counted)
}
