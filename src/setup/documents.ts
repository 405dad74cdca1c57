import { completionFor } from '../commands/completion.ts'
import { manualPage } from './manual.ts'

/** What lies in dist/ beside the bundle, by path: the manual page and the completions. */
export function documents(version: string): Record<string, string> {
  return {
    'pausebook.1': manualPage(version),
    'completions/pausebook.bash': completionFor('bash'),
    'completions/_pausebook': completionFor('zsh'),
    'completions/pausebook.fish': completionFor('fish'),
  }
}
