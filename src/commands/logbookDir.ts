import { isAbsolute, join, resolve } from 'node:path'

/** The directory of the logbook: `--logbook`, else `PAUSEBOOK_DIR`, else the data directory of the
 * platform: `XDG_DATA_HOME` where it is absolute (XDG Base Directory Specification 0.8: a relative one is
 * ignored), `LOCALAPPDATA` on Windows, `~/.local/share`. */
export function logbookDirOf(
  given: string | undefined,
  env: Readonly<Record<string, string | undefined>>,
  home: string,
  platform: string,
): string {
  const chosen = given || env.PAUSEBOOK_DIR
  if (chosen) return resolve(chosen)
  const xdg = env.XDG_DATA_HOME
  if (xdg && isAbsolute(xdg)) return join(xdg, 'pausebook')
  if (platform === 'win32' && env.LOCALAPPDATA) return join(env.LOCALAPPDATA, 'pausebook')
  return join(home, '.local', 'share', 'pausebook')
}
