import { spawn } from 'node:child_process'
import { existsSync } from 'node:fs'
import { basename } from 'node:path'
import { readDayAt } from '../app/ownTexts.ts'
import { spawnable, usualEditor } from '../logbook/machine.ts'
import { errorAt, printDiagnostics } from '../prescription/lines.ts'
import type { ReadingDefaults } from '../prescription/reader.ts'
import { sanitize } from '../validate/unsafe.ts'
import { CommandError, problemCount } from './command.ts'

/** Splits an editor setting such as `code --wait` or `"/my editors/ed" -n` at spaces outside quotes. No shell is
 * involved, so no other character is special.
 * @throws CommandError `bad_editor` for an empty setting or an unclosed quote */
export function editorWords(setting: string): string[] {
  const pieces = setting.match(/(?:[^\s"']|"[^"]*"|'[^']*')+|["']/g) ?? []
  const words = pieces.map((piece) => piece.replace(/"([^"]*)"|'([^']*)'/g, '$1$2'))
  if (pieces.some((piece) => piece === '"' || piece === "'") || (words[0] ?? '') === '') {
    const message = `The editor "${setting}" cannot be read as a command. Set VISUAL or EDITOR to one as in vi or "code --wait".`
    throw new CommandError('bad_editor', message)
  }
  return words
}

/** The user's editor as command and arguments: VISUAL, else EDITOR, else the one every such system has. The path of a
 * program may contain spaces without quotes, as on Windows.
 * @param isFile whether a path is a file */
export function editorOf(
  env: Readonly<Record<string, string | undefined>>,
  isFile: (path: string) => boolean = existsSync,
): string[] {
  const setting = env.VISUAL?.trim() || env.EDITOR?.trim() || usualEditor()
  return /\s/.test(setting) && isFile(setting) ? [setting] : editorWords(setting)
}

/** Opens a file in the editor on this terminal and waits until it is closed.
 * @throws CommandError `no_editor` when it cannot be started, `editor_failed` when it ends with an error */
export async function edit(
  editor: readonly string[],
  path: string,
  env: Readonly<Record<string, string | undefined>>,
): Promise<void> {
  const { command, words, shell } = spawnable([...editor, path])
  // Ctrl-C in the editor reaches this process too, which must go on.
  const unmoved = () => {}
  process.on('SIGINT', unmoved)
  try {
    const child = spawn(command, words, { stdio: 'inherit', shell, env: { ...env } })
    const ended = await new Promise<string | null>((resolve, reject) => {
      child.on('error', reject)
      child.on('close', (code, signal) => resolve(code === 0 ? null : (signal ?? `status ${code}`)))
    })
    if (ended === null) return
    const message = `The editor "${editor[0] ?? ''}" ended with ${ended}. The day is in ${path}; "pausebook check" reads it.`
    throw new CommandError('editor_failed', message)
  } catch (error) {
    if (error instanceof CommandError) throw error
    const code = (error as NodeJS.ErrnoException).code ?? 'unknown error'
    const message = `The editor "${editor[0] ?? ''}" cannot be started (${code}). Set VISUAL or EDITOR; the day is in ${path}.`
    throw new CommandError('no_editor', message)
  } finally {
    process.off('SIGINT', unmoved)
  }
}

/** What editing a day needs from outside. */
interface EditingTools {
  /** Opens the file in the editor and waits until it is closed. */
  edit(path: string): Promise<void>
  /** Whether to go back to the editor, asked with the problems on the screen. */
  goesBack(): Promise<boolean>
  err(text: string): void
  defaults: ReadingDefaults
}

/** Opens the editor until the day can be read or the user gives up; returns whether it can be read. */
export async function editUntilRead(path: string, tools: EditingTools): Promise<boolean> {
  for (;;) {
    await tools.edit(path)
    const reading = readDayAt(path, tools.defaults)
    if ('prescription' in reading) return true
    const problems = 'refused' in reading ? [errorAt(1, 1, reading.refused)] : reading.problems
    tools.err(
      `${printDiagnostics(problems, sanitize(basename(path)))}\n\n` +
        `${problemCount(problems)}. Enter goes back to the editor, Escape or q leaves the day as it is. `,
    )
    const isBack = await tools.goesBack()
    tools.err('\n')
    if (!isBack) return false
  }
}

/** The answer of a key: Enter goes back to the editor; Escape, q, Ctrl-C, Ctrl-D and the end of input leave; null for
 * any other. */
export function answerOf(keys: string): boolean | null {
  if (/^\u001b./s.test(keys)) return null
  const first = [...keys].find((key) => '\r\n\u001bqQ\u0003\u0004'.includes(key))
  return first === undefined ? null : first === '\r' || first === '\n'
}

/** Waits for a key that answers. */
export async function keyAnswers(input: NodeJS.ReadStream): Promise<boolean> {
  input.setRawMode(true)
  input.resume()
  try {
    return await new Promise<boolean>((resolve) => {
      input.on('data', (keys: Buffer) => {
        const answer = answerOf(keys.toString('utf8'))
        if (answer !== null) resolve(answer)
      })
      input.once('end', () => resolve(false))
      input.once('error', () => resolve(false))
    })
  } finally {
    input.removeAllListeners('data')
    input.setRawMode(false)
    input.pause()
  }
}
