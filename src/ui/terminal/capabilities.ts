import { writeSync } from 'node:fs'
import { isatty } from 'node:tty'
import { sanitize } from '../../validate/unsafe.ts'

/** Why the app cannot open in this terminal, in a sentence with what to do instead; null if it can.
 * @param isSpoken the app prints lines and draws nothing, which every terminal can show */
export function refusalOf(
  terminal: { in: boolean; out: boolean },
  env: NodeJS.ProcessEnv,
  isSpoken: boolean,
): string | null {
  const instead = 'The commands that print work everywhere: see "pausebook --help".'
  if (!terminal.in || !terminal.out) return `The app needs a terminal and there is none here. ${instead}`
  if (env.TERM === 'dumb' && !isSpoken)
    return `This terminal (TERM=dumb) cannot be drawn on. "pausebook settings screen-reader on" makes the app print lines instead. ${instead}`
  return null
}

/** Loads what draws. While it is loaded, Ink decides about colours: without this it takes a terminal with a name that it
 * does not know for one without them, and then leaves out reversed text, and with it the cursor, too. */
export async function withColours<T>(load: () => Promise<T>): Promise<T> {
  if (process.env.FORCE_COLOR !== undefined) return load()
  // Empty, it does not go before NO_COLOR (`Lines.tsx`), which leaves reversed text as it is.
  process.env.FORCE_COLOR = ''
  const drawing = await load()
  delete process.env.FORCE_COLOR
  return drawing
}

/** Whether block characters and dashes can be shown: the locale is UTF-8 (POSIX: LC_ALL before LC_CTYPE before
 * LANG), or the system's terminals use no locale. On Windows, the console does not say so; Windows Terminal and VS Code
 * (https://code.visualstudio.com/docs/terminal/shell-integration) give their names. */
export function isUnicodeTerminal(env: NodeJS.ProcessEnv, platform = process.platform): boolean {
  const locale = env.LC_ALL || env.LC_CTYPE || env.LANG
  if (locale) return /utf-?8/i.test(locale)
  if (platform !== 'win32') return platform === 'darwin'
  return env.WT_SESSION !== undefined || env.TERM_PROGRAM === 'vscode'
}

/* The modes that are switched on in the terminal, and off again. DEC private modes as xterm's "ctlseqs" lists
 * them: 1049 alternate screen, 7 wrapping of long lines, 25 cursor, 2004 bracketed paste, 2026 synchronized
 * update (terminals that do not know it ignore it). */

export const enterScreen = '\x1b[?1049h\x1b[?7l\x1b[?25l\x1b[?2004h\x1b[2J\x1b[H'
export const leaveScreen = '\x1b[?2004l\x1b[?25h\x1b[?7h\x1b[?1049l'

export const bell = '\x07'

/** Puts text on the terminal's clipboard (OSC 52). A terminal may ignore it without any sign. */
export function clipboardSequence(text: string): string {
  return `\x1b]52;c;${Buffer.from(text, 'utf8').toString('base64')}\x07`
}

/** Shows a desktop notification if the terminal supports it (OSC 9); only if the user asked for it. */
export function noticeSequence(text: string): string {
  return `\x1b]9;${sanitize(text)}\x07`
}

/** Every signal that can be caught and would end the process. A listener on SIGUSR1 also keeps Node from opening its
 * debugger port. SIGIOT is an alias of SIGABRT: Ink's listener would be the only one for that name and kill the
 * process. */
export function endingSignals(): readonly NodeJS.Signals[] {
  const everywhere = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const
  if (process.platform === 'win32') return everywhere
  return [
    ...everywhere,
    ...(['SIGQUIT', 'SIGUSR1', 'SIGUSR2', 'SIGALRM', 'SIGVTALRM'] as const),
    ...(['SIGXCPU', 'SIGXFSZ', 'SIGABRT', 'SIGIOT'] as const),
  ]
}

/** Writes to standard output (1) or standard error (2) before it returns.
 * A Windows console reads bytes in its own code page, whereas Node's stream gives it characters.
 * @returns how many bytes were written */
export function writeBytes(
  descriptor: number,
  bytes: Uint8Array,
  isWindowsConsole = process.platform === 'win32' && isatty(descriptor),
): number {
  if (!isWindowsConsole) return writeSync(descriptor, bytes)
  const stream = descriptor === 1 ? process.stdout : process.stderr
  stream.write(bytes)
  return bytes.length
}
