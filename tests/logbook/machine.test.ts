import childProcess, { spawnSync } from 'node:child_process'
import { syncBuiltinESMExports } from 'node:module'
import { join } from 'node:path'
import { describe, expect, it, onTestFinished, vi } from 'vitest'
import {
  bootOf,
  cacheFolderOf,
  clockOf,
  dataFolderOf,
  exactUptime,
  readBoot,
  thisMachine,
} from '../../src/logbook/machine.ts'
import { elapsedSeconds } from '../../src/session/clock.ts'
import { onPlatform, onWindows } from '../onWindows.ts'
import { machineWith } from './testMachine.ts'

/** Lets other programs answer with a text, or fail without one, until the test ends.
 * @returns their calls: the program, its words, and its language and time zone if it got them */
function answering(text: string | null): unknown[][] {
  const calls: unknown[][] = []
  const answer = (file: string, words: string[], { env }: { env?: NodeJS.ProcessEnv }) => {
    calls.push([file, ...words, ...(env ? [env.LC_ALL, env.TZ] : [])])
    if (text === null) throw new Error('no such process')
    return text
  }
  const spy = vi.spyOn(childProcess, 'execFileSync').mockImplementation(answer as never)
  syncBuiltinESMExports()
  onTestFinished(() => {
    spy.mockRestore()
    syncBuiltinESMExports()
  })
  return calls
}

describe('the start of a process', () => {
  const { began } = thisMachine()

  it('is read from ps in a fixed language and time zone if there is no /proc', () => {
    onPlatform('darwin')
    const calls = answering('Thu Nov 26 06:40:00 2026\n')
    expect(began(42)).toBe('Thu Nov 26 06:40:00 2026')
    expect(calls).toEqual([['ps', '-o', 'lstart=', '-p', '42', 'C', 'UTC']])
  })

  it('is unknown for a process that ps does not list', () => {
    onPlatform('darwin')
    answering('\n')
    expect(began(42)).toBeNull()
    onPlatform('freebsd')
    answering(null)
    expect(began(42)).toBeNull()
  })

  it('is unknown on Windows', () => {
    onWindows()
    expect(began(process.pid)).toBeNull()
  })

  it.runIf(process.platform === 'linux')(
    'is the same for a process whenever it is asked for, and unknown of one that has ended (Linux)',
    () => {
      const own = thisMachine().began(process.pid)
      expect(own).toMatch(/^\d+$/)
      expect(thisMachine().began(process.pid)).toBe(own)
      const { stdout } = spawnSync(process.execPath, ['-p', 'process.pid'], { encoding: 'utf8' })
      expect(thisMachine().began(Number(stdout))).toBeNull()
    },
  )
})

describe('the folder for what can be made anew', () => {
  it('is in the cache folder of the XDG base directories, never relative to the working folder', () => {
    expect(cacheFolderOf({ XDG_CACHE_HOME: '/cache', HOME: '/home/x' })).toBe('/cache/pausebook')
    expect(cacheFolderOf({ XDG_CACHE_HOME: 'cache', HOME: '/home/x' })).toBe('/home/x/.cache/pausebook')
    expect(cacheFolderOf({})).toBeNull()
  })

  it('is not the logbook on Windows, where both are in the local application data', () => {
    onWindows()
    const env = { LOCALAPPDATA: '/local' }
    expect(cacheFolderOf(env)).toBe('/local/pausebook-cache')
    expect(
      join(
        dataFolderOf(env, () => '/home/x'),
        'pausebook',
      ),
    ).not.toBe(cacheFolderOf(env))
  })
})

describe('the uptime on macOS', () => {
  // A repeat of 10.60 s that begins 100.30 s after the start of the machine.
  const start = 1_795_000_000_000
  const at = (ms: number) =>
    exactUptime(
      () => Math.floor(ms / 1000),
      () => start + ms,
    )

  it('has the fraction that whole seconds lack', () => {
    expect(at(110_900) - at(100_300)).toBeCloseTo(10.6, 9)
  })

  it('is read again if a second ends between its two parts', () => {
    const times = [start + 1_999, start + 2_000, start + 2_001, start + 2_001]
    let call = 0
    expect(
      exactUptime(
        () => 2,
        () => times[call++] ?? 0,
      ),
    ).toBe(2.001)
  })
})

describe('the start of the machine', () => {
  const at = (time: string, up: number, boot: string | null = null) =>
    bootOf(machineWith({ host: 'garage', boot, now: () => new Date(time), up: () => up }))

  it('is known by its id, else by the minute in which it was started', () => {
    expect(at('2026-11-26T06:40:00Z', 600, 'id')).toBe('id')
    expect(at('2026-11-26T06:40:00Z', 600)).toBe(`garage ${Date.parse('2026-11-26T06:30:00Z') / 60_000}`)
    expect(at('2026-11-26T07:40:10Z', 4210)).toBe(at('2026-11-26T06:40:00Z', 600))
    expect(at('2026-11-26T06:40:00Z', 30)).not.toBe(at('2026-11-26T06:40:00Z', 600))
  })

  it('has its id from sysctl on macOS, where the name of the machine changes with the network', () => {
    onPlatform('darwin')
    const calls = answering('7F0B4A0E-2B7C-4A55-9D43-0E8F0F6A1C11\n')
    expect([readBoot(), calls]).toEqual([
      '7F0B4A0E-2B7C-4A55-9D43-0E8F0F6A1C11',
      [['sysctl', '-n', 'kern.bootsessionuuid']],
    ])
    answering('\n')
    expect(readBoot()).toBeNull()
  })

  it('is in a moment with its uptime to the millisecond and the offset of the place', () => {
    const now = clockOf(
      machineWith({ boot: 'id', now: () => new Date('2026-11-26T06:40:00+01:00'), up: () => 1.23456 }),
    )()
    expect(now).toMatchObject({ at: '2026-11-26T06:40:00.000+01:00', offset: 60, up: 1.235, boot: 'id' })
    expect(now.wall).toBe(Date.parse('2026-11-26T05:40:00Z'))
  })
})

describe('elapsed time', () => {
  it('follows the uptime when the clock is set, and the wall clock after a restart, never below 0', () => {
    const at = (time: string, boot: string, up: number) =>
      clockOf(machineWith({ now: () => new Date(time), boot, up: () => up }))()
    const before = at('2026-11-26T06:40:00Z', 'one', 5000)
    expect(elapsedSeconds(before, at('2026-11-26T06:45:00Z', 'two', 30))).toBe(300)
    expect(elapsedSeconds(before, at('2026-11-26T05:40:00Z', 'two', 30))).toBe(0)
    expect(elapsedSeconds(before, at('2026-11-26T05:40:00Z', 'one', 5012.5))).toBe(12.5)
    expect(elapsedSeconds(before, at('2026-11-26T07:40:00Z', 'one', 5012.5))).toBe(12.5)
  })

  it('follows the uptime when the clock is set on a system without an id of its start, as on Windows', () => {
    let [time, up] = [Date.parse('2026-11-26T06:40:00Z'), 5000]
    const clock = clockOf(machineWith({ boot: null, now: () => new Date(time), up: () => up }))
    const before = clock()
    ;[time, up] = [time - 600_000, up + 90]
    expect(elapsedSeconds(before, clock())).toBe(90)
  })
})
