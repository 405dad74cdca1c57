import { type ChildProcessByStdio, execFileSync } from 'node:child_process'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import type { Readable, Writable } from 'node:stream'
import { build } from 'esbuild'
import { afterAll, beforeAll, type TestContext } from 'vitest'
import { temporaryFolder } from '../temporaryFolder.ts'

const { bundling } = createRequire(import.meta.url)('../../src/setup/generate.cjs')

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

/** The driver as one file, so that it starts fast, for all tests of a file.
 * @returns its path */
export function builtDriver(): string {
  const path = join(temporaryFolder(afterAll), 'driver.mjs')
  beforeAll(async () => {
    await build({ ...bundling, entryPoints: [join(import.meta.dirname, 'driver.ts')], outfile: path })
  })
  return path
}

/** Yields the lines that a program prints, one after the other, each as soon as it has arrived. */
export function linesOf(child: ChildProcessByStdio<Writable | null, Readable, null>): () => Promise<string> {
  const lines = createInterface(child.stdout)[Symbol.asyncIterator]()
  return async () => (await lines.next()).value ?? ''
}

/** Does something while a disk is mounted at a folder.
 * @param disk what mount(8) is told about it */
export function whileMounted(disk: readonly string[], folder: string, work: () => void): void {
  execFileSync('mount', [...disk, folder], { stdio: 'ignore' })
  try {
    work()
  } finally {
    execFileSync('umount', [folder])
  }
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
