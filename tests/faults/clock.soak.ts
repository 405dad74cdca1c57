import { type ChildProcess, spawn } from 'node:child_process'
import { existsSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { builtDriver, skip } from './harness.ts'
import { temporaryPlace } from './tracing.ts'

const library = [
  '/usr/lib/x86_64-linux-gnu',
  '/usr/lib/aarch64-linux-gnu',
  '/usr/lib/faketime',
  '/usr/lib64/faketime',
]
  .flatMap((folder) => [`${folder}/faketime/libfaketime.so.1`, `${folder}/libfaketime.so.1`])
  .find((path) => existsSync(path))
let driver: Awaited<ReturnType<typeof builtDriver>>
beforeAll(async () => {
  driver = await builtDriver()
})
afterAll(() => driver.remove())

describe('elapsed time', () => {
  it.for([
    ['forwards', '+1h', 3600],
    ['back', '-1h', -3600],
  ] as const)('does not jump when the wall clock is set an hour %s', async ([, step, jump], context) => {
    if (library === undefined) skip(context, 'libfaketime is not installed')
    const place = temporaryPlace()
    const offset = join(place.path, 'offset')
    writeFileSync(offset, '+0')
    const env = {
      ...process.env,
      LD_PRELOAD: library,
      FAKETIME_TIMESTAMP_FILE: offset,
      FAKETIME_NO_CACHE: '1',
      FAKETIME_DONT_FAKE_MONOTONIC: '1',
    }
    const clock = startClock(place.path, env)
    try {
      await clock.line('ready')
      writeFileSync(offset, step)
      const { elapsed, wall } = await clock.elapsed()
      expect(Math.abs(wall - jump)).toBeLessThan(10)
      expect(elapsed).toBeGreaterThanOrEqual(0)
      expect(elapsed).toBeLessThan(10)
    } finally {
      clock.child.kill('SIGKILL')
      place.remove()
    }
  })

  it('runs on while the process is stopped', async () => {
    const place = temporaryPlace()
    const clock = startClock(place.path)
    const seconds = 60
    try {
      await clock.line('ready')
      clock.child.kill('SIGSTOP')
      await new Promise((resolve) => setTimeout(resolve, seconds * 1000))
      clock.child.kill('SIGCONT')
      const { elapsed } = await clock.elapsed()
      expect(elapsed).toBeGreaterThanOrEqual(seconds - 0.1)
      expect(elapsed).toBeLessThan(seconds + 5)
    } finally {
      clock.child.kill('SIGKILL')
      place.remove()
    }
  }, 120_000)
})

function startClock(directory: string, env: NodeJS.ProcessEnv = process.env) {
  const child = spawn(process.execPath, [driver.path, 'clock', directory], {
    env,
    stdio: ['pipe', 'pipe', 'inherit'],
  })
  const line = (beginning: string) => lineOf(child, beginning)
  const elapsed = async (): Promise<{ elapsed: number; wall: number }> => {
    const next = line('{')
    child.stdin.write('\n')
    return JSON.parse(await next)
  }
  return { child, line, elapsed }
}

function lineOf(child: ChildProcess, beginning: string): Promise<string> {
  return new Promise((resolve) => {
    const listen = (data: Buffer) => {
      if (!String(data).startsWith(beginning)) return
      child.stdout?.off('data', listen)
      resolve(String(data))
    }
    child.stdout?.on('data', listen)
  })
}
