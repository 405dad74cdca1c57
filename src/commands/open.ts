import { existsSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Opening } from '../app/screens.ts'
import { refusalOf, withColours } from '../ui/terminal/capabilities.ts'
import { CommandError, type CommandInput, type ExitCode } from './command.ts'
import { bookOf, type Context, contextOf, parsePrescription } from './context.ts'
import { edit, editorOf } from './editor.ts'

/** Opens the app, directly on a prescription if one is given, else on an unfinished session or the list of days.
 * @throws CommandError `bad_prescription` with every problem of the file; as `openOn` */
export async function run(input: CommandInput): Promise<ExitCode> {
  const [path] = input.words
  const context = contextOf(input)
  const start = path === undefined ? null : { begin: parsePrescription(context, path).prescription }
  return openOn(start, input, context)
}

/** @param start as `Opening.start`
 * @throws CommandError `no_terminal` without a terminal */
export async function openOn(
  start: Opening['start'],
  { io, logbookDir, units }: CommandInput,
  { settings: { screenReader, firstStartSeen } }: Context,
): Promise<ExitCode> {
  const refusal = refusalOf(io.terminal, io.env, screenReader)
  if (refusal !== null) throw new CommandError('no_terminal', refusal)
  const editor = editorOf(io.env)
  const logbook = bookOf(logbookDir, io)
  // Once the welcome page is drawn, nothing else may be written to the terminal.
  if (!firstStartSeen) logbook.index()
  const opening = {
    logbook,
    samples: samplesFolder(),
    env: io.env,
    start,
    err: io.err,
    units,
    edit: editor !== null ? (path: string) => edit(editor, path, io.env) : null,
  }
  if (screenReader) {
    const { openSpoken } = await import('../app/openSpoken.ts')
    return openSpoken({ ...opening, write: io.out, steer: io.steer })
  }
  const { openApp } = await withColours(() => import('../app/openApp.tsx'))
  return openApp(opening)
}

/** The folder of the sample days that comes with the program; null if missing. */
export function samplesFolder(): string | null {
  let folder = dirname(fileURLToPath(import.meta.url))
  for (;;) {
    const samples = join(folder, 'sample-sessions')
    if (existsSync(samples)) return samples
    const above = dirname(folder)
    if (above === folder) return null
    folder = above
  }
}
