import { spawn } from 'node:child_process'
import { existsSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it, onTestFinished } from 'vitest'
import { temporaryFolder } from '../temporaryFolder.ts'
import { builtDriver, linesOf, skip } from './harness.ts'

const library = [
  '/usr/lib/x86_64-linux-gnu',
  '/usr/lib/aarch64-linux-gnu',
  '/usr/lib/faketime',
  '/usr/lib64/faketime',
]
  .flatMap((folder) => [`${folder}/faketime/libfaketime.so.1`, `${folder}/libfaketime.so.1`])
  .find((path) => existsSync(path))
const driver = builtDriver()

describe('elapsed time', () => {
  it.for([
    ['forwards', '+1h', 3600],
    ['back', '-1h', -3600],
  ] as const)('does not jump when the wall clock is set an hour %s', async ([, step, jump], context) => {
    if (library === undefined) skip(context, 'libfaketime is not installed')
    const folder = temporaryFolder()
    const offset = join(folder, 'offset')
    writeFileSync(offset, '+0')
    const env = {
      ...process.env,
      LD_PRELOAD: library,
      FAKETIME_TIMESTAMP_FILE: offset,
      FAKETIME_NO_CACHE: '1',
      FAKETIME_DONT_FAKE_MONOTONIC: '1',
    }
    const clock = startClock(folder, env)
    expect(await clock.line()).toBe('ready')
    writeFileSync(offset, step)
    const { elapsed, wall } = await clock.elapsed()
    expect(Math.abs(wall - jump)).toBeLessThan(10)
    expect(elapsed).toBeGreaterThanOrEqual(0)
    expect(elapsed).toBeLessThan(10)
  })

  it('runs on while the process is stopped', async () => {
    const clock = startClock(temporaryFolder())
    const seconds = 60
    expect(await clock.line()).toBe('ready')
    clock.child.kill('SIGSTOP')
    await new Promise((resolve) => setTimeout(resolve, seconds * 1000))
    clock.child.kill('SIGCONT')
    const { elapsed } = await clock.elapsed()
    expect(elapsed).toBeGreaterThanOrEqual(seconds - 0.1)
    expect(elapsed).toBeLessThan(seconds + 5)
  }, 120_000)
})

function startClock(directory: string, env: NodeJS.ProcessEnv = process.env) {
  const child = spawn(process.execPath, [driver, 'clock', directory], {
    env,
    stdio: ['pipe', 'pipe', 'inherit'],
  })
  onTestFinished(() => void child.kill('SIGKILL'))
  const line = linesOf(child)
  const elapsed = async (): Promise<{ elapsed: number; wall: number }> => {
    child.stdin.write('\n')
    return JSON.parse(await line())
  }
  return { child, line, elapsed }
}
