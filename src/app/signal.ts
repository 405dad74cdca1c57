import { spawn } from 'node:child_process'
import type { Settings } from '../logbook/settings.ts'

/** How signals are made to be heard: the terminal's bell, a command of the user's, or not at all.
 * @param terminal rings the bell; sends an escape sequence */
export function signalWith(
  settings: Settings,
  terminal: { ring(): void; notify(text: string): void },
): (signal: 'short' | 'long') => void {
  return (signal) => {
    if (settings.bell === 'on') terminal.ring()
    if (Array.isArray(settings.bell)) run(settings.bell, signal)
    if (settings.notifications && signal === 'long') terminal.notify('go')
  }
}

/** Calls the user's command without a shell; that it cannot be started is no reason to stop a session. */
function run([command, ...words]: string[], signal: 'short' | 'long'): void {
  if (command === undefined) return
  const child = spawn(command, [...words, signal], {
    stdio: 'ignore',
    detached: true,
    // No console window flashes on Windows.
    windowsHide: true,
  })
  child.on('error', () => {})
  child.unref()
}
