import type { Argument, Command, Option } from 'commander'
import type { CommandInput, ExitCode } from './command.ts'

const writers = {
  bash: bashCompletion,
  zsh: zshCompletion,
  fish: fishCompletion,
  powershell: powershellCompletion,
}
type Shell = keyof typeof writers

/** Prints a completion script for bash, zsh, fish or PowerShell. */
export async function run({ io, words, program }: CommandInput): Promise<ExitCode> {
  io.out(completionFor(words[0] as Shell, program))
  return 0
}

/** The completion script of one shell, made from the command table. */
export function completionFor(shell: Shell, program: Command): string {
  const globals = program.options.filter(({ long }) => long !== '--version')
  return writers[shell](program.createHelp().visibleCommands(program), globals)
}

/** A completion script for bash 3.2 and newer, without the bash-completion package. */
function bashCompletion(rows: readonly Command[], globals: readonly Option[]): string {
  const names = rows.map((row) => row.name()).join(' ')
  const cases = rows.map((row) => `    ${row.name()}) words="${wordsOf(row, globals).join(' ')}" ;;`)
  const values = optionsOf(rows, globals)
    .filter((option) => option.required)
    .map((option) => `    ${option.long}) ${valuesOf(option)}; return ;;`)
  return `# pausebook: completion for bash. In ~/.bashrc: source <(pausebook completion bash)
_pausebook() {
  local current="\${COMP_WORDS[COMP_CWORD]}" previous="\${COMP_WORDS[COMP_CWORD-1]}" command="" words="" word
  for word in "\${COMP_WORDS[@]:1:COMP_CWORD-1}"; do
    case " ${names} " in *" $word "*) command="$word"; break ;; esac
  done
  case "$previous" in
${values.join('\n')}
  esac
  case "$command" in
${cases.join('\n')}
    *) words="${names} ${globals.map((option) => option.long).join(' ')} --help --version" ;;
  esac
  COMPREPLY=($(compgen -W "$words" -- "$current"))
}
complete -o default -F _pausebook pausebook
`
}

/** The words that may follow a command. */
function wordsOf(row: Command, globals: readonly Option[]): string[] {
  const options = [...row.options, ...globals].map((option) => `--${option.name()}`)
  return [...choicesOf(row), ...options, '--help']
}

/** Every option, one of each name. */
function optionsOf(rows: readonly Command[], globals: readonly Option[]): Option[] {
  const all = [...globals, ...rows.flatMap((row) => row.options)]
  return [...new Map(all.map((option) => [option.name(), option])).values()]
}

/** The values that a command's own words may have. */
function choicesOf(row: Command): string[] {
  return row.registeredArguments.flatMap(({ argChoices }) => argChoices ?? [])
}

/** `FORMAT` of an option with a value. */
function valueNameOf({ flags }: Option): string {
  return /<(.*)>/.exec(flags)?.[1] ?? ''
}

function valuesOf(option: Option): string {
  if (option.argChoices) return `COMPREPLY=($(compgen -W "${option.argChoices.join(' ')}" -- "$current"))`
  return valueNameOf(option) === 'DIR' ? 'COMPREPLY=($(compgen -d -- "$current"))' : 'COMPREPLY=()'
}

/** A completion script for fish. */
function fishCompletion(rows: readonly Command[], globals: readonly Option[]): string {
  const lines = rows.flatMap((row) => {
    const here = `complete -c pausebook -n ${quoted(`__fish_seen_subcommand_from ${row.name()}`)}`
    const choices = choicesOf(row)
    return [
      `complete -c pausebook -n __fish_use_subcommand -f -a ${row.name()} -d ${quoted(row.description())}`,
      ...(choices.length > 0 ? [`${here} -f -a ${quoted(choices.join(' '))}`] : []),
      ...row.options.map((option) => `${here} ${optionOf(option)}`),
    ]
  })
  return `# pausebook: completion for fish. Save as ~/.config/fish/completions/pausebook.fish
${[...lines, ...globals.map((option) => `complete -c pausebook ${optionOf(option)}`)].join('\n')}
complete -c pausebook -f -l help -d 'prints help'
complete -c pausebook -f -l version -d 'prints the version'
`
}

function optionOf(option: Option): string {
  const values = option.argChoices ? ` -f -a ${quoted(option.argChoices.join(' '))}` : ''
  const value = !option.required ? '' : ` -r${values}`
  return `-l ${option.name()}${value} -d ${quoted(option.description)}`
}

function quoted(text: string): string {
  return `'${text.replace(/\\/g, '\\\\').replace(/'/g, "\\'")}'`
}

/** A completion script for zsh, to be sourced or saved as `_pausebook` in a folder of $fpath. */
function zshCompletion(rows: readonly Command[], globals: readonly Option[]): string {
  const commands = rows.map((row) => `    ${zshQuoted(`${row.name()}:${row.description()}`)}`)
  const cases = rows.map((row) => {
    const specs = [...row.options, ...globals].map(optionSpecOf)
    const words = row.registeredArguments.map((word) =>
      zshQuoted(`${word.variadic ? '*' : ''}:${word.name()}:${zshValues(word)}`),
    )
    return `        ${row.name()}) _arguments ${[...specs, ...words].join(' ')} ;;`
  })
  return `#compdef pausebook
# pausebook: completion for zsh. In ~/.zshrc, after compinit: source <(pausebook completion zsh)
_pausebook() {
  local -a commands
  commands=(
${commands.join('\n')}
  )
  _arguments -C ${globals.map(optionSpecOf).join(' ')} '--help[prints help]' '--version[prints the version]' \\
    '1:command:->command' '*::word:->word'
  case "$state" in
    command) _describe command commands ;;
    word)
      case "$words[1]" in
${cases.join('\n')}
      esac ;;
  esac
}
compdef _pausebook pausebook
`
}

/** The words whose value is a file. */
const files = ['PRESCRIPTION', 'RESULTS', 'TABLE', 'FILE']

function zshValues(word: Argument): string {
  if (word.argChoices) return `(${word.argChoices.join(' ')})`
  return files.includes(word.name()) ? '_files' : ' '
}

function optionSpecOf(option: Option): string {
  const label = `${option.long}[${option.description.replace(/[[\]]/g, '')}]`
  if (!option.required) return zshQuoted(label)
  const values = option.argChoices
    ? `(${option.argChoices.join(' ')})`
    : valueNameOf(option) === 'DIR'
      ? '_files -/'
      : ' '
  return zshQuoted(`${label}:${valueNameOf(option)}:${values}`)
}

function zshQuoted(text: string): string {
  return `'${text.replace(/'/g, `'\\''`)}'`
}

/** A completion script for PowerShell 5.1 and newer. */
function powershellCompletion(rows: readonly Command[], globals: readonly Option[]): string {
  const list = (words: readonly string[]) => `@(${words.map(powershellQuoted).join(', ')})`
  const everywhere = [...globals.map((option) => `--${option.name()}`), '--help']
  const commands = rows.map((row) => `    ${powershellQuoted(row.name())} = ${list(wordsOf(row, globals))}`)
  const values = optionsOf(rows, globals).flatMap(({ long = '', argChoices }) =>
    argChoices ? [`    ${powershellQuoted(long)} = ${list(argChoices)}`] : [],
  )
  return `# pausebook: completion for PowerShell. In $PROFILE: pausebook completion powershell | Out-String | Invoke-Expression
Register-ArgumentCompleter -Native -CommandName pausebook -ScriptBlock {
  param($word, $line, $cursor)
  $commands = @{
${commands.join('\n')}
  }
  $values = @{
${values.join('\n')}
  }
  $typed = @($line.CommandElements | Select-Object -Skip 1 | ForEach-Object { "$_" })
  if ($word -ne '' -and $typed.Count -gt 0) { $typed = @($typed | Select-Object -SkipLast 1) }
  $command = $typed | Where-Object { $commands.ContainsKey($_) } | Select-Object -First 1
  $before = $typed | Select-Object -Last 1
  $offered = if ($before -and $values.ContainsKey($before)) { $values[$before] }
    elseif ($command) { $commands[$command] }
    else { @($commands.Keys) + ${list([...everywhere, '--version'])} }
  $offered | Where-Object { $_ -like "$word*" } | Sort-Object | ForEach-Object {
    [System.Management.Automation.CompletionResult]::new($_)
  }
}
`
}

function powershellQuoted(text: string): string {
  return `'${text.replace(/'/g, "''")}'`
}
