import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { hostname, uptime } from 'node:os'
import { type Moment, localTimeOf as timeTextOf } from '../session/clock.ts'

/** The machine and the process this program runs on, as far as the logbook has to know them. */
export interface Machine {
  pid: number
  host: string
  /** Different after every start of the machine; null where it is not known exactly. */
  boot: string | null
  now(): Date
  /** Seconds since the machine was started, those it slept included. */
  up(): number
  isRunning(pid: number): boolean
  /** When a process began, in a form of the platform's own, to tell it from a later one with the same
   * number; null where it cannot be known. */
  began(pid: number): string | null
}

export function thisMachine(): Machine {
  return {
    pid: process.pid,
    host: hostname(),
    boot: readBoot(),
    now: () => new Date(),
    up: uptime,
    isRunning,
    began,
  }
}

/** Now, as timers take it, and as events keep it: `at` local time with its offset, to the millisecond; `ms`
 * since 1970; `up` seconds since the machine was started. */
export function momentNow(machine: Machine): Moment & { at: string; ms: number; up: number } {
  const now = machine.now()
  const up = Math.round(machine.up() * 1000) / 1000
  const wall = now.getTime()
  return { wall, ms: wall, offset: -now.getTimezoneOffset(), at: localTimeOf(now), up, boot: bootOf(machine) }
}

/** Local time with its offset: `2026-11-26T06:40:00.000+01:00`. */
export function localTimeOf(moment: Date): string {
  return timeTextOf({ wall: moment.getTime(), offset: -moment.getTimezoneOffset() })
}

/** What tells one start of the machine from the next, for timers. Where the system gives no exact name, the
 * minute in which it was started stands for one: a clock set in between then looks like a restart, and
 * wall times decide, which is what they would do anyway. */
export function bootOf(machine: Machine): string {
  if (machine.boot !== null) return machine.boot
  return `${machine.host} ${Math.round((machine.now().getTime() / 1000 - machine.up()) / 60)}`
}

function readBoot(): string | null {
  try {
    return readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim()
  } catch {
    return null
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    // EPERM: it is there and belongs to someone else.
    return (error as NodeJS.ErrnoException).code === 'EPERM'
  }
}

function began(pid: number): string | null {
  if (process.platform === 'win32') return null
  try {
    if (process.platform !== 'linux')
      return execFileSync('ps', ['-o', 'lstart=', '-p', String(pid)], { encoding: 'utf8' }).trim() || null
    // proc(5): field 22, counted behind the name, which may hold spaces and brackets itself.
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8')
    return stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19] ?? null
  } catch {
    return null
  }
}
