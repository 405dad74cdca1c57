import { homedir } from 'node:os'
import { dirname, isAbsolute, join } from 'node:path'
import { makeFolder, writeDurably } from './durableFile.ts'
import { readTextFile } from './text.ts'

/* A command that sounds the bell runs only if this user has set it on this machine: the settings of a logbook from
 * somebody else could name any program. The user's own folder remembers the command, outside every logbook. */

type Environment = Readonly<Record<string, string | undefined>>

function pathIn(env: Environment): string {
  const { XDG_CONFIG_HOME: xdg, APPDATA: roaming } = env
  if (xdg && isAbsolute(xdg)) return join(xdg, 'pausebook', 'bell.json')
  if (process.platform === 'win32' && roaming) return join(roaming, 'pausebook', 'bell.json')
  return join(env.HOME || homedir(), '.config', 'pausebook', 'bell.json')
}

/** Whether this user has set a command. */
export function isOwnBell(command: readonly string[], env: Environment): boolean {
  try {
    return readTextFile(pathIn(env))?.trim() === JSON.stringify(command)
  } catch {
    return false
  }
}

/** Remembers the command as set by this user.
 * @returns false if that cannot be written; the command is not run then */
export function setOwnBell(command: readonly string[], env: Environment): boolean {
  try {
    const path = pathIn(env)
    makeFolder(dirname(path))
    writeDurably(path, `${JSON.stringify(command)}\n`, false)
    return true
  } catch {
    return false
  }
}

/** The message for a command that is not run. */
export function foreignBellText(command: readonly string[]): string {
  return `The bell command of this logbook was not set by you on this machine, so the terminal's bell sounds instead. To allow it: pausebook settings bell '${JSON.stringify(command)}'`
}
