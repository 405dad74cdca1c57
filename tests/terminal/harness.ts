import { mkdtempSync, rmSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import * as pty from '@lydell/node-pty'
import xterm from '@xterm/headless'
import { onTestFinished } from 'vitest'

/* The built program in a real pseudo-terminal, read through a terminal emulator. */

const require = createRequire(import.meta.url)

/** Where the built program is; it is built first when the sources are newer. */
export async function builtProgram(): Promise<string> {
  await require('../../src/setup/build.cjs').build()
  return resolve('dist/pausebook.js')
}

export interface RunningProgram {
  readonly pid: number
  /** Its logbook, a folder of its own that is gone after the test. */
  readonly logbook: string
  /** Everything it has sent so far. */
  readonly sent: () => string
  readonly exited: Promise<{ code: number; signal: number }>
  /** Lines as they stand on the screen, without spaces at their ends. */
  screen(): string[]
  isOnAlternateScreen(): boolean
  type(text: string): void
  resize(columns: number, rows: number): void
  /** Waits until the screen shows it; throws with the screen when it does not in time. */
  waitFor(what: string | RegExp, milliseconds?: number): Promise<void>
  /** Waits until the screen no longer shows it. */
  waitForNo(what: string | RegExp, milliseconds?: number): Promise<void>
  kill(signal?: NodeJS.Signals): void
}

/** Bytes of the keys that are no text. */
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

/** Starts the program. It is ended with the test that started it.
 * @param given `program`: another file than the built one; `logbook`: one that is already there */
export async function startProgram(
  argv: readonly string[] = [],
  given: {
    columns?: number
    rows?: number
    env?: Record<string, string>
    logbook?: string
    program?: string
    cwd?: string
  } = {},
): Promise<RunningProgram> {
  const { columns = 80, rows = 24 } = given
  const logbook = given.logbook ?? temporaryFolder()
  const terminal = new xterm.Terminal({ cols: columns, rows, allowProposedApi: true, scrollback: 1000 })
  const child = pty.spawn(process.execPath, [given.program ?? (await builtProgram()), ...argv], {
    name: 'xterm-256color',
    cols: columns,
    rows,
    cwd: given.cwd ?? process.cwd(),
    env: environment(logbook, given.env),
  })
  let sent = ''
  child.onData((data) => {
    sent += data
    terminal.write(data)
  })
  // The terminal answers what programs ask of it.
  terminal.onData((data) => child.write(data))
  let isRunning = true
  const exited = new Promise<{ code: number; signal: number }>((done) => {
    child.onExit(({ exitCode, signal }) => {
      isRunning = false
      done({ code: exitCode, signal: signal ?? 0 })
    })
  })
  const screen = () => screenOf(terminal)
  const program: RunningProgram = {
    pid: child.pid,
    logbook,
    sent: () => sent,
    exited,
    screen,
    isOnAlternateScreen: () => terminal.buffer.active.type === 'alternate',
    type: (text) => child.write(text),
    resize: (width, height) => {
      terminal.resize(width, height)
      child.resize(width, height)
    },
    waitFor: (what, milliseconds = 8000) => until(what, true, screen, milliseconds),
    waitForNo: (what, milliseconds = 8000) => until(what, false, screen, milliseconds),
    kill: (signal = 'SIGTERM') => {
      if (isRunning) process.kill(child.pid, signal)
    },
  }
  onTestFinished(async () => {
    program.kill('SIGKILL')
    await exited
    terminal.dispose()
  })
  return program
}

/** A folder that is deleted when the test is over. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'pausebook-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  return folder
}

/** The environment of a program under test: no CI, in which Ink draws nothing, and no setting of the machine. */
export function environment(logbook: string, more: Record<string, string> = {}): Record<string, string> {
  const { PATH = '', HOME = '' } = process.env
  const own = { TERM: 'xterm-256color', TZ: 'Europe/Berlin', LANG: 'C.UTF-8', PAUSEBOOK_DIR: logbook }
  return { PATH, HOME, ...own, ...more }
}

function screenOf(terminal: xterm.Terminal): string[] {
  const buffer = terminal.buffer.active
  return Array.from({ length: terminal.rows }, (_, row) =>
    (buffer.getLine(buffer.baseY + row)?.translateToString(true) ?? '').trimEnd(),
  )
}

async function until(
  what: string | RegExp,
  wanted: boolean,
  screen: () => string[],
  milliseconds: number,
): Promise<void> {
  const begun = performance.now()
  for (;;) {
    const text = screen().join('\n')
    const isShown = typeof what === 'string' ? text.includes(what) : what.test(text)
    if (isShown === wanted) return
    if (performance.now() - begun > milliseconds) {
      throw new Error(`${wanted ? 'Not' : 'Still'} on the screen after ${milliseconds} ms: ${what}\n${text}`)
    }
    await new Promise((done) => setTimeout(done, 15))
  }
}
