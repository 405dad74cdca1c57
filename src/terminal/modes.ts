/* What the terminal is asked for, and asked to forget again. DEC private modes as xterm's "ctlseqs" lists
 * them: 1049 alternate screen, 7 wrapping of long lines, 25 cursor, 2004 bracketed paste, 2026 synchronized
 * update (terminals that do not know it ignore it). */

export const enterScreen = '\x1b[?1049h\x1b[?7l\x1b[?25l\x1b[?2004h\x1b[2J\x1b[H'
export const leaveScreen = '\x1b[?2004l\x1b[?25h\x1b[?7h\x1b[?1049l'

export const bell = '\x07'

/** Puts text onto the terminal's clipboard (OSC 52); the terminal may have that switched off and says nothing. */
export function clipboardSequence(text: string): string {
  return `\x1b]52;c;${Buffer.from(text, 'utf8').toString('base64')}\x07`
}

/** A notice on the desktop, where the terminal passes it on (OSC 9); only when its user asked for it. */
export function noticeSequence(text: string): string {
  return `\x1b]9;${text}\x07`
}
