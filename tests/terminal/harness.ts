import { createRequire } from 'node:module'
import { join, resolve } from 'node:path'
import { onTestFailed, onTestFinished } from 'vitest'
import { temporaryFolder } from '../temporaryFolder.ts'
import { cellsOf } from './glass.ts'

/* The built program in a real pseudo-terminal, read through a terminal emulator. */

const require = createRequire(import.meta.url)
const { createClock, looked, openTerminal } = require('../../src/setup/pseudoTerminal.cjs')
const setup = require('../../src/setup/root.cjs')

let building: Promise<void> | null = null

/** The path of the built program, which is built first if the sources are newer. */
export async function builtProgram(): Promise<string> {
  building ??= require('../../src/setup/build.cjs').build() as Promise<void>
  await building
  return resolve('dist/pausebook.js')
}

type Wanted = string | RegExp | (() => boolean)

export interface RunningProgram {
  readonly pid: number
  /** Its logbook, a folder that is removed after the test. */
  readonly logbook: string
  /** Everything it has sent so far. */
  readonly sent: () => string
  readonly exited: Promise<{ code: number; signal: number }>
  /** The lines on the screen, without spaces at their ends. */
  screen(): string[]
  /** The lines with colours, once everything sent is drawn. */
  cells(): Promise<string[]>
  isOnAlternateScreen(): boolean
  type(text: string): void
  resize(columns: number, rows: number): void
  /** Waits until the screen shows a text or a condition holds, for as long as the test may take; throws if the program
   * ends before. */
  waitFor(what: Wanted): Promise<void>
  /** Waits until the screen no longer shows it. */
  waitForNo(what: Wanted): Promise<void>
  kill(signal?: NodeJS.Signals): void
  /** Closes the terminal under the program. */
  hangUp(): void
}

/** The bytes of keys without text. */
export const keys = {
  enter: '\r',
  escape: '\x1b',
  backspace: '\x7f',
  tab: '\t',
  up: '\x1b[A',
  down: '\x1b[B',
  right: '\x1b[C',
  left: '\x1b[D',
  pageDown: '\x1b[6~',
  ctrlC: '\x03',
  ctrlZ: '\x1a',
} as const

/** Starts the program, which ends together with the test.
 * @param given `program`: another file than the built one; `command`: a program that is not Node's; `logbook`: an
 * existing one */
export async function startProgram(
  argv: readonly string[] = [],
  given: {
    columns?: number
    rows?: number
    env?: Record<string, string>
    logbook?: string
    program?: string
    command?: string
    cwd?: string
  } = {},
): Promise<RunningProgram> {
  const { columns = 80, rows = 24, cwd, command, logbook = temporaryFolder() } = given
  const words = command === undefined ? [given.program ?? (await builtProgram()), ...argv] : argv
  // Without CI, in which Ink draws nothing.
  const env = setup.plainEnvironment(process.env.HOME ?? '', { PAUSEBOOK_DIR: logbook, ...given.env })
  const program = openTerminal(words, { columns, rows, cwd, command, env })
  onTestFailed(() => {
    process.stdout.write(`waited for ${program.awaited()}, but there is:\n${program.screen().join('\n')}\n`)
  })
  onTestFinished(() => program.close())
  return { ...program, logbook, cells: () => cellsOf(program.terminal) }
}

/** The logbook of a user who has seen the first start, with these settings. */
export function usedLogbook(settings: Record<string, unknown> = {}): string {
  return setup.usedLogbook(join(temporaryFolder(), 'book'), settings)
}

/** A clock for programs under test that stands still until the test lets time pass.
 * @param start as ISO 8601
 * @returns `env`: what a program needs in its environment to follow it */
export function stillClock(start: string): { env: Record<string, string>; pass(seconds: number): void } {
  const clock = createClock(join(temporaryFolder(), 'clock'), start)
  const hook = resolve('src/setup/clock.cjs')
  return { env: { NODE_OPTIONS: `--require "${hook}"`, STILL_CLOCK: clock.file }, pass: clock.pass }
}

/** Makes a program look at its clock. */
export const look: (program: RunningProgram) => Promise<void> = looked
