import type { Command } from 'commander'
import type { CommandInput, ExitCode } from './command.ts'

/** Prints a completion script for bash, zsh, fish or PowerShell. The script calls this command again with the words
 * typed so far, which prints what may follow them, one a line: in zsh `name:description`, in fish with a tab. */
export async function run({ io, words: [name, ...typed], program }: CommandInput): Promise<ExitCode> {
  const shell = name as Shell
  if (typed.length === 0) io.out(scripts[shell])
  else
    for (const { word, description } of following(typed, program))
      io.out(`${word}${separators[shell](description)}\n`)
  return 0
}

const separators = {
  bash: () => '',
  zsh: (description: string) => `:${description}`,
  fish: (description: string) => `\t${description}`,
  powershell: () => '',
}
type Shell = keyof typeof separators

/** For bash 3.2 and newer, without the bash-completion package; for zsh, to be sourced or saved as `_pausebook` in a
 * folder of $fpath; for PowerShell 5.1 and newer, which drops an unquoted -- before it calls a script such as the one
 * that npm installs. */
export const scripts: Record<Shell, string> = {
  bash: `# pausebook: completion for bash. In ~/.bashrc: source <(pausebook completion bash)
_pausebook() {
  local found=$(pausebook completion bash -- "\${COMP_WORDS[@]:0:COMP_CWORD}" 2>/dev/null)
  COMPREPLY=($(compgen -W "$found" -- "\${COMP_WORDS[COMP_CWORD]}"))
}
complete -o default -F _pausebook pausebook
`,
  zsh: `#compdef pausebook
# pausebook: completion for zsh. In ~/.zshrc, after compinit: source <(pausebook completion zsh)
_pausebook() {
  local -a found=("\${(@f)$(pausebook completion zsh -- "\${(@)words[1,CURRENT-1]}" 2>/dev/null)}")
  (( CURRENT > 2 )) && _files
  _describe pausebook found
}
if [ "$funcstack[1]" = _pausebook ]; then _pausebook "$@"; else compdef _pausebook pausebook; fi
`,
  fish: `# pausebook: completion for fish. Save as ~/.config/fish/completions/pausebook.fish
complete -c pausebook -n __fish_use_subcommand -f
complete -c pausebook -a '(pausebook completion fish -- (commandline -opc) 2>/dev/null)'
`,
  powershell: `# pausebook: completion for PowerShell. In $PROFILE: pausebook completion powershell | Out-String | Invoke-Expression
Register-ArgumentCompleter -Native -CommandName pausebook -ScriptBlock {
  param($word, $line, $cursor)
  $typed = @($line.CommandElements | ForEach-Object { "$_" })
  if ($word -ne '') { $typed = @($typed | Select-Object -SkipLast 1) }
  pausebook completion powershell '--' @typed 2>$null | Where-Object { $_ -like "$word*" } | ForEach-Object {
    [System.Management.Automation.CompletionResult]::new($_)
  }
}
`,
}

/** The words that may follow: the values of an option, else the options and the command's own words or, without a
 * command yet, all commands. Nothing after an option with a value of one's own. */
function following(typed: readonly string[], program: Command): { word: string; description: string }[] {
  const commands = program.createHelp().visibleCommands(program)
  const named = commands.find((command) => typed.includes(command.name()))
  const options = [...(named?.options ?? []), ...program.options]
  const before = options.find(({ long }) => long === typed.at(-1))
  const plain = (word: string) => ({ word, description: '' })
  if (before?.required) return (before.argChoices ?? []).map(plain)
  return [
    ...(named === undefined
      ? commands.map((command) => ({ word: command.name(), description: command.description() }))
      : named.registeredArguments.flatMap(({ argChoices = [] }) => argChoices.map(plain))),
    ...options.map(({ long, description }) => ({ word: long ?? '', description })),
    { word: '--help', description: 'prints help' },
  ]
}
