import { execFileSync } from 'node:child_process'
import { readFileSync, readlinkSync } from 'node:fs'
import { homedir, hostname, uptime } from 'node:os'
import { isAbsolute, join } from 'node:path'
import { type Moment, timeTextOf } from '../session/clock.ts'
import { codeOf, ifKnown } from './errors.ts'

/** What the logbook needs to know about the machine and its own process. */
export interface Machine {
  pid: number
  host: string
  /** Different after every start of the machine; null if it is not known exactly. */
  boot: string | null
  /** The space in which process numbers are unique; null if unknown. */
  space: string | null
  now(): Date
  /** Seconds since the machine started, including sleep. */
  up(): number
  isRunning(pid: number): boolean
  /** When a process began, as the platform writes it, to tell it from a later process with the same number; null if
   * unknown. */
  began(pid: number): string | null
}

let boot: string | null | undefined

export function thisMachine(): Machine {
  if (boot === undefined) boot = readBoot()
  return {
    pid: process.pid,
    host: hostname(),
    boot,
    space: ifKnown(() => readlinkSync('/proc/self/ns/pid')),
    now: () => new Date(),
    up: process.platform === 'darwin' ? () => exactUptime(uptime, Date.now) : () => uptime(),
    isRunning,
    began,
  }
}

/** Reads the present moment for timers and events: `at` is local time with its offset, to the millisecond; `up` is
 * seconds since the machine started, to the millisecond. It always belongs to the same start of the machine: none comes
 * while a program runs, although a clock that is set can look like one where the system has no id for it. */
export function clockOf(machine: Machine): () => Moment & { at: string; up: number } {
  const boot = bootOf(machine)
  return () => {
    const now = machine.now()
    const up = Math.round(machine.up() * 1000) / 1000
    return { wall: now.getTime(), offset: -now.getTimezoneOffset(), at: localTimeOf(now), up, boot }
  }
}

/** Local time with its offset: `2026-11-26T06:40:00.000+01:00`. */
export function localTimeOf(moment: Date): string {
  return timeTextOf({ wall: moment.getTime(), offset: -moment.getTimezoneOffset() })
}

/** The local date, YYYY-MM-DD. */
export function todayOf(now: Date): string {
  return localTimeOf(now).slice(0, 10)
}

/** Tells one start of the machine from the next, for timers. If the system has no id for it, the minute of the start
 * is used: setting the clock then looks like a restart, and timers fall back to wall times, as after a restart. */
export function bootOf(machine: Machine): string {
  if (machine.boot !== null) return machine.boot
  return `${machine.host} ${Math.round((machine.now().getTime() / 1000 - machine.up()) / 60)}`
}

/** The system's id of this start; null if it has none. */
export function readBoot(): string | null {
  return ifKnown(() =>
    process.platform === 'darwin'
      ? execFileSync('sysctl', ['-n', 'kern.bootsessionuuid'], { encoding: 'utf8' }).trim() || null
      : readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim(),
  )
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    // EPERM: the process exists and belongs to someone else.
    return codeOf(error) === 'EPERM'
  }
}

/** Uptime to the millisecond on macOS, where the system counts whole seconds of the wall clock since the start, so the
 * wall clock's own fraction is the missing part.
 * @param seconds whole seconds since the start
 * @param now wall time in milliseconds */
export function exactUptime(seconds: () => number, now: () => number): number {
  for (;;) {
    const before = now()
    const whole = seconds()
    // Both must belong to the same second.
    if (Math.floor(before / 1000) === Math.floor(now() / 1000)) return whole + (before % 1000) / 1000
  }
}

function began(pid: number): string | null {
  if (process.platform === 'win32') return null
  return ifKnown(() => {
    if (process.platform !== 'linux') {
      // ps writes the time in the user's language and time zone, which another terminal may not share.
      const env = { ...process.env, LC_ALL: 'C', TZ: 'UTC' }
      return (
        execFileSync('ps', ['-o', 'lstart=', '-p', String(pid)], { encoding: 'utf8', env }).trim() || null
      )
    }
    // proc(5): field 22, counted after the name, which may contain spaces and brackets.
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8')
    return stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19] ?? null
  })
}

/** The folder for this user's data: `XDG_DATA_HOME` when absolute (XDG Base Directory Specification 0.8 ignores a
 * relative one), `LOCALAPPDATA` on Windows, else `~/.local/share`.
 * @param home asked only if nothing else names the folder */
export function dataFolderOf(env: NodeJS.ProcessEnv, home: () => string): string {
  return userFolder(env.XDG_DATA_HOME, env.LOCALAPPDATA, () => join(home(), '.local', 'share'))
}

function userFolder(xdg: string | undefined, windows: string | undefined, byDefault: () => string): string {
  if (xdg && isAbsolute(xdg)) return xdg
  return process.platform === 'win32' && windows ? windows : byDefault()
}

/** The folder for this user's own settings: `XDG_CONFIG_HOME` when absolute, `APPDATA` on Windows, else `~/.config`. */
export function configFolderOf(env: NodeJS.ProcessEnv): string {
  return userFolder(env.XDG_CONFIG_HOME, env.APPDATA, () => join(env.HOME || homedir(), '.config'))
}

/** The folder for what can be rebuilt; null for a user without a home. On Windows, where data and cache share a
 * folder, it has a name of its own, so that it is never in the logbook. */
export function cacheFolderOf({
  XDG_CACHE_HOME: xdg,
  LOCALAPPDATA: local,
  HOME: home,
}: NodeJS.ProcessEnv): string | null {
  if (xdg && isAbsolute(xdg)) return join(xdg, 'pausebook')
  if (process.platform === 'win32' && local) return join(local, 'pausebook-cache')
  return home ? join(home, '.cache', 'pausebook') : null
}

/** Blocks the process for this many milliseconds, when nothing can continue before what it waits for. */
export function pause(milliseconds: number): void {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, milliseconds)
}
