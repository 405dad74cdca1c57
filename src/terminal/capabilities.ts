type Environment = Readonly<Record<string, string | undefined>>

/** Why the app cannot open here, in a sentence and what to do instead; null when it can. */
export function refusalOf(terminal: { in: boolean; out: boolean }, env: Environment): string | null {
  const instead = 'The commands that print work everywhere: see "pausebook --help".'
  if (!terminal.in || !terminal.out) return `The app needs a terminal and there is none here. ${instead}`
  if (env.TERM === 'dumb') return `This terminal (TERM=dumb) cannot be drawn on. ${instead}`
  return null
}

/** Whether block characters and dashes can be shown: the locale is UTF-8 (POSIX: LC_ALL before LC_CTYPE before
 * LANG), or the system is one whose terminals are without one. */
export function isUnicodeTerminal(env: Environment, platform: string): boolean {
  const locale = env.LC_ALL || env.LC_CTYPE || env.LANG
  if (!locale) return platform === 'darwin' || (platform === 'win32' && env.WT_SESSION !== undefined)
  return /utf-?8/i.test(locale)
}
