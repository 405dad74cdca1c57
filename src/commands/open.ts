import { existsSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { CommandTools } from '../app/screens.ts'
import { messageOf } from '../logbook/errors.ts'
import { thisMachine } from '../logbook/machine.ts'
import { openLogbook } from '../logbook/store.ts'
import { refusalOf } from '../ui/terminal/capabilities.ts'
import { CommandError, type CommandInput, type ExitCode } from './command.ts'
import { contextOf, parsePrescription } from './context.ts'
import { progressLine } from './progressLine.ts'

/** Opens the app, directly on a prescription if one is given, else on an unfinished session or the list of days.
 * @throws CommandError `no_terminal` without a terminal, `bad_prescription` with every problem of the file */
export async function run(input: CommandInput): Promise<ExitCode> {
  const { io, logbookDir } = input
  const [path] = input.words
  const context = contextOf(input)
  const begin = path === undefined ? null : parsePrescription(context, path).prescription
  const { screenReader } = context.settings
  const refusal = refusalOf(io.terminal, io.env, screenReader)
  if (refusal !== null) throw new CommandError('no_terminal', refusal)
  const progress = progressLine(io, 'reading session')
  let mayShow = !screenReader
  const logbook = openLogbook(logbookDir, thisMachine(), (done, of) => {
    if (mayShow) progress.show(done, of)
  })
  const commands = await commandTools(input)
  const opening = { logbook, samples: samplesFolder(), env: io.env, begin, err: io.err, commands }
  if (screenReader) {
    const { openSpoken } = await import('../app/openSpoken.ts')
    const status = await openSpoken({ ...opening, write: io.out, steer: io.steer })
    return status as ExitCode
  }
  const { openApp } = await import('../app/openApp.tsx')
  const status = await openApp({
    ...opening,
    beforeFirstFrame: () => {
      mayShow = false
      progress.clear()
    },
  })
  return status as ExitCode
}

/** Commands that the app uses, imported only once it is certain that the app opens. */
async function commandTools(input: CommandInput): Promise<CommandTools> {
  const { io } = input
  const [{ planText }, { edit, editorOf }, { likeText, templateOf, usualTitle }] = await Promise.all([
    import('./check.ts'),
    import('./editor.ts'),
    import('./new.ts'),
  ])
  const isEditorSet = Boolean(io.env.VISUAL?.trim() || io.env.EDITOR?.trim())
  return {
    check: planText,
    week: () => weekAndPlan(input),
    template: (date, units) => templateOf(usualTitle, date, units),
    like: (text, date, defaults) => likeText(text, null, date, defaults),
    edit: isEditorSet ? (path) => edit(editorOf(io.env), path, io.env) : null,
  }
}

/** The output of `week`, then that of `plan`, or why it cannot be read; nothing of it without a plan. */
export async function weekAndPlan(input: CommandInput): Promise<string> {
  let text = ''
  const out = (more: string) => {
    text += more
  }
  const quietly = { ...input, words: [], json: false, sources: [], io: { ...input.io, out, err: () => {} } }
  const [week, plan] = await Promise.all([import('./week.ts'), import('./plan.ts')])
  const context = contextOf(quietly)
  await week.run(quietly, context)
  out('\n')
  await plan.run(quietly, context).catch((error: unknown) => {
    const isWithout = error instanceof CommandError && error.code === 'no_plan'
    if (!isWithout) out(messageOf(error))
  })
  return text
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
