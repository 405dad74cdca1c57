import { spawn } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { builtProgram } from '../terminal/harness.ts'

let program: Promise<string> | null = null
const preload = resolve(import.meta.dirname, 'killedAt.cjs')

/** Runs the built program and kills it before one of the calls that change the disk or start git.
 * @param call from 1; the program ends normally if it makes fewer
 * @returns whether it was killed */
export async function runKilledAt(
  call: number,
  argv: readonly string[],
  env: Record<string, string> = {},
): Promise<boolean> {
  const { signal } = await runBuilt(argv, { ...env, KILLED_AT: String(call) })
  return signal === 'SIGKILL'
}

/** How many such calls the program makes.
 * @param folder for the file with their number */
export async function callsOf(
  argv: readonly string[],
  folder: string,
  env: Record<string, string> = {},
): Promise<number> {
  const countInto = join(folder, 'calls')
  const { code, said } = await runBuilt(argv, { ...env, COUNT_INTO: countInto })
  if (code !== 0) throw new Error(`pausebook ${argv.join(' ')} ended with ${code}: ${said}`)
  return Number(readFileSync(countInto, 'utf8'))
}

/** Runs the built program to its end. */
export async function runBuilt(argv: readonly string[], env: Record<string, string>) {
  program ??= builtProgram()
  const child = spawn(process.execPath, ['--require', preload, await program, ...argv], {
    env: { PATH: process.env.PATH ?? '', ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  let said = ''
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (part) => (said += part))
  return new Promise<{ code: number | null; signal: string | null; said: string }>((done) => {
    child.on('close', (code, signal) => done({ code, signal, said }))
  })
}
