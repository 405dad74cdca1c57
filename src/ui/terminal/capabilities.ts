import { sanitize } from '../../validate/unsafe.ts'

type Environment = Readonly<Record<string, string | undefined>>

/** Why the app cannot open here, in a sentence and what to do instead; null when it can.
 * @param isSpoken lines are said and nothing is drawn, which every terminal can show */
export function refusalOf(
  terminal: { in: boolean; out: boolean },
  env: Environment,
  isSpoken: boolean,
): string | null {
  const instead = 'The commands that print work everywhere: see "pausebook --help".'
  if (!terminal.in || !terminal.out) return `The app needs a terminal and there is none here. ${instead}`
  if (env.TERM === 'dumb' && !isSpoken)
    return `This terminal (TERM=dumb) cannot be drawn on. "pausebook settings screen-reader on" has the app say lines instead. ${instead}`
  return null
}

/** Whether block characters and dashes can be shown: the locale is UTF-8 (POSIX: LC_ALL before LC_CTYPE before
 * LANG), or the system is one whose terminals are without one. */
export function isUnicodeTerminal(env: Environment, platform: string): boolean {
  const locale = env.LC_ALL || env.LC_CTYPE || env.LANG
  if (!locale) return platform === 'darwin' || (platform === 'win32' && env.WT_SESSION !== undefined)
  return /utf-?8/i.test(locale)
}

/* What the terminal is asked for, and asked to forget again. DEC private modes as xterm's "ctlseqs" lists
 * them: 1049 alternate screen, 7 wrapping of long lines, 25 cursor, 2004 bracketed paste, 2026 synchronized
 * update (terminals that do not know it ignore it). */

export const enterScreen = '\x1b[?1049h\x1b[?7l\x1b[?25l\x1b[?2004h\x1b[2J\x1b[H'
export const leaveScreen = '\x1b[?2004l\x1b[?25h\x1b[?7h\x1b[?1049l'

export const bell = '\x07'

/** Puts text on the terminal's clipboard (OSC 52). A terminal may have that switched off and gives no sign of it. */
export function clipboardSequence(text: string): string {
  return `\x1b]52;c;${Buffer.from(text, 'utf8').toString('base64')}\x07`
}

/** A notice on the desktop, where the terminal passes it on (OSC 9); only when its user asked for it. */
export function noticeSequence(text: string): string {
  return `\x1b]9;${sanitize(text)}\x07`
}

/** Every signal that can be caught and would end the process. A listener on SIGUSR1 also keeps Node from opening the port
 * of its debugger. SIGIOT is SIGABRT under another name: a listener of Ink's would be alone with it and kill the process. */
export const endings: readonly NodeJS.Signals[] =
  process.platform === 'win32'
    ? ['SIGINT', 'SIGTERM', 'SIGHUP']
    : [
        ...(['SIGINT', 'SIGTERM', 'SIGHUP', 'SIGQUIT', 'SIGUSR1', 'SIGUSR2'] as const),
        ...(['SIGALRM', 'SIGVTALRM', 'SIGXCPU', 'SIGXFSZ', 'SIGABRT', 'SIGIOT'] as const),
      ]
