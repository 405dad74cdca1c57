import { spawn } from 'node:child_process'
import { CommandError } from './command.ts'

/** The user's editor, as a command: VISUAL, else EDITOR; null without either. */
export function editorOf(env: NodeJS.ProcessEnv): string | null {
  return env.VISUAL?.trim() || env.EDITOR?.trim() || null
}

/** The line that opens a file in an editor such as `code --wait`, for the system's shell, as git does it. A file name
 * cannot contain a double quote on Windows. */
export function editorLine(editor: string, path: string): string {
  const word = process.platform === 'win32' ? `"${path}"` : `'${path.replaceAll("'", "'\\''")}'`
  return `${editor} ${word}`
}

/** Opens a file in the editor on this terminal and waits until it is closed.
 * @throws CommandError `editor_failed` when it cannot be started or ends with an error */
export async function edit(editor: string, path: string, env: NodeJS.ProcessEnv): Promise<void> {
  // Ctrl-C in the editor reaches this process too, which must go on.
  const ignore = () => {}
  process.on('SIGINT', ignore)
  const child = spawn(editorLine(editor, path), { stdio: 'inherit', shell: true, env: { ...env } })
  const ended = await new Promise<string | null>((resolve) => {
    child.on('error', ({ message }) => resolve(message))
    child.on('close', (code, signal) => resolve(code === 0 ? null : (signal ?? `status ${code}`)))
  })
  process.off('SIGINT', ignore)
  if (ended === null) return
  const message = `The editor "${editor}" ended with ${ended}. Set VISUAL or EDITOR if it cannot be started; the day is in ${path}, and "pausebook check" reads it.`
  throw new CommandError('editor_failed', message)
}
