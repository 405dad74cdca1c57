import { commandTable, globalOptions } from '../commands/commands.ts'
import { completionFor } from '../commands/completion.ts'
import { manualPage } from './manual.ts'

/** What lies in dist/ beside the bundle, by path: the manual page and the completions. */
export function documents(version: string): Record<string, string> {
  return {
    'pausebook.1': manualPage(version),
    'completions/pausebook.bash': completionFor('bash', commandTable, globalOptions),
    'completions/_pausebook': completionFor('zsh', commandTable, globalOptions),
    'completions/pausebook.fish': completionFor('fish', commandTable, globalOptions),
  }
}
