import { spawn } from 'node:child_process'
import { isOwnBell, type Settings } from '../logbook/settings.ts'

/** How signals sound: by the terminal's bell, by a command of the user's, or not at all.
 * A command that the user has not set on this machine is not run; the terminal's bell sounds instead.
 * @param terminal rings the bell or sends an escape sequence */
export function ringerOf(
  settings: () => Settings,
  terminal: { ring(): void; notify(text: string): void },
  env: Readonly<Record<string, string | undefined>>,
): (signal: 'short' | 'long') => void {
  return (signal) => {
    const { bell, notifications } = settings()
    if (Array.isArray(bell) && isOwnBell(bell, env)) run(bell, signal)
    else if (bell !== 'off') terminal.ring()
    if (notifications && signal === 'long') terminal.notify('go')
  }
}

/** Calls the user's command without a shell. If it cannot be started, the session goes on. */
function run([command, ...words]: string[], signal: 'short' | 'long'): void {
  if (command === undefined) return
  const child = spawn(command, [...words, signal], {
    stdio: 'ignore',
    detached: true,
    // Prevents a console window from flashing on Windows.
    windowsHide: true,
  })
  child.on('error', () => {})
  child.unref()
}
