import { spawn } from 'node:child_process'
import { printableOf } from './io.ts'
import { CommandError } from './port.ts'

/** The words of an editor's setting, as `code --wait` or `"/my editors/ed" -n`: split at spaces, quotes hold
 * together. No shell has a part in it, so nothing else in it means anything.
 * @throws CommandError `bad_editor` for one without a word, or with a quote that is not closed */
export function editorWords(setting: string): string[] {
  const words: string[] = []
  let word: string | null = null
  let quote: string | null = null
  for (const character of setting) {
    if (quote !== null) {
      if (character === quote) quote = null
      else word = (word ?? '') + character
    } else if (character === '"' || character === "'") {
      quote = character
      word ??= ''
    } else if (/\s/.test(character)) {
      if (word !== null) words.push(word)
      word = null
    } else word = (word ?? '') + character
  }
  if (word !== null) words.push(word)
  if (quote !== null || (words[0] ?? '') === '') {
    const message = `The editor "${printableOf(setting)}" cannot be read as a command. Set VISUAL or EDITOR to one as in vi or "code --wait".`
    throw new CommandError('bad_editor', message)
  }
  return words
}

/** The user's editor as its command and arguments: VISUAL, else EDITOR, else what every system of the kind has. */
export function editorOf(env: Readonly<Record<string, string | undefined>>, platform: string): string[] {
  return editorWords(env.VISUAL?.trim() || env.EDITOR?.trim() || (platform === 'win32' ? 'notepad' : 'vi'))
}

/** Opens a file in the editor, on this terminal, and waits until it is closed.
 * @throws CommandError `no_editor` where it cannot be started, `editor_failed` where it ends with an error */
export async function edit(
  [command = '', ...words]: readonly string[],
  path: string,
  env: Readonly<Record<string, string | undefined>>,
): Promise<void> {
  // Ctrl-C in the editor is the editor's: it reaches this process too, which must live on.
  const unmoved = () => {}
  process.on('SIGINT', unmoved)
  try {
    const child = spawn(command, [...words, path], { stdio: 'inherit', shell: false, env: { ...env } })
    const ended = await new Promise<string | null>((resolve, reject) => {
      child.on('error', reject)
      child.on('close', (code, signal) => resolve(code === 0 ? null : (signal ?? `status ${code}`)))
    })
    if (ended === null) return
    const message = `The editor "${printableOf(command)}" ended with ${ended}. The day lies in ${path}; "pausebook check" reads it.`
    throw new CommandError('editor_failed', message)
  } catch (error) {
    if (error instanceof CommandError) throw error
    const code = (error as NodeJS.ErrnoException).code ?? 'unknown error'
    const message = `The editor "${printableOf(command)}" cannot be started (${code}). Set VISUAL or EDITOR; the day lies in ${path}.`
    throw new CommandError('no_editor', message)
  } finally {
    process.off('SIGINT', unmoved)
  }
}
