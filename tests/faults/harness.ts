import { type ChildProcess, execFileSync, spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { build } from 'esbuild'
import type { TestContext } from 'vitest'

/** PAUSEBOOK_FAULTS=all, as in `npm run soak`: every enumeration in full, some ten minutes; else a few of each. */
export const isLongRun = process.env.PAUSEBOOK_FAULTS === 'all'

/** Why faults cannot be caused here; null if they can. */
export function reasonNotToRun(...programs: string[]): string | null {
  if (process.platform !== 'linux') return 'faults are caused by Linux means only'
  if (process.getuid?.() !== 0) return 'root is needed to cause faults'
  for (const program of programs) {
    try {
      execFileSync('which', [program], { stdio: 'ignore' })
    } catch {
      return `${program} is not installed`
    }
  }
  return null
}

/** The driver as one file, so that it starts fast.
 * @returns its path, and a function that removes it */
export async function builtDriver(): Promise<{ path: string; remove: () => void }> {
  const folder = mkdtempSync(join(tmpdir(), 'pausebook-driver-'))
  const path = join(folder, 'driver.mjs')
  await build({
    entryPoints: [join(import.meta.dirname, 'driver.ts')],
    outfile: path,
    bundle: true,
    minify: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    logLevel: 'error',
  })
  return { path, remove: () => rmSync(folder, { recursive: true, force: true }) }
}

export interface Driven {
  lines: string[]
  code: number | null
  signal: NodeJS.Signals | null
  stderr: string
}

/** Runs a program to its end and returns the whole lines that it printed. */
export function drive(
  command: string,
  argv: readonly string[],
  env: NodeJS.ProcessEnv = process.env,
): Promise<Driven> {
  return ended(spawn(command, argv, { env, stdio: ['ignore', 'pipe', 'pipe'] }))
}

function ended(child: ChildProcess): Promise<Driven> {
  let stdout = ''
  let stderr = ''
  child.stdout?.on('data', (data) => {
    stdout += data
  })
  child.stderr?.on('data', (data) => {
    stderr += data
  })
  return new Promise((resolve, reject) => {
    child.on('error', reject)
    child.on('close', (code, signal) =>
      resolve({ lines: stdout.split('\n').slice(0, -1), code, signal, stderr }),
    )
  })
}

/** The results that the driver was told are saved. */
export function acknowledged(lines: readonly string[]): number {
  return Math.max(0, ...lines.map((line) => Number(/^saved (\d+)$/.exec(line)?.[1] ?? 0)))
}

/** Runs all of them, two at a time: there may be only two cores. */
export async function twoAtATime<T>(items: readonly T[], work: (item: T) => Promise<void>): Promise<void> {
  const open = [...items]
  const worker = async () => {
    for (let item = open.shift(); item !== undefined; item = open.shift()) await work(item)
  }
  await Promise.all([worker(), worker()])
}

/** A line of the test report: how often a fault was caused. */
export function tell(line: string): void {
  process.stdout.write(`${line}\n`)
}

/** Skips a test and prints why; the test report itself would only count it. */
export function skip(context: TestContext, reason: string): never {
  tell(`skipped "${context.task.name}": ${reason}`)
  return context.skip(reason)
}
