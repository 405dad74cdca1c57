import type { CommandInput, CommandRow, ExitCode, OptionRow } from './command.ts'

const writers = { bash: bashCompletion, zsh: zshCompletion, fish: fishCompletion }
export type Shell = keyof typeof writers

/** `pausebook completion (bash|zsh|fish)`: a script for the shell to read. */
export async function run({ io, words, table }: CommandInput): Promise<ExitCode> {
  io.out(completionFor(words[0] as Shell, table.commands, table.options))
  return 0
}

/** The completion script of one shell, made of the command table. */
export function completionFor(
  shell: Shell,
  commands: readonly CommandRow[],
  options: readonly OptionRow[],
): string {
  const shown = commands.filter((row) => row.name !== '' && row.hidden !== true)
  return writers[shell](shown, options)
}

/** A completion script for bash 3.2 and newer, without the bash-completion package. */
export function bashCompletion(rows: readonly CommandRow[], globals: readonly OptionRow[]): string {
  const names = rows.map((row) => row.name).join(' ')
  const cases = rows.map((row) => `    ${row.name}) words="${wordsOf(row, globals)}" ;;`)
  const values = [
    ...new Map([...globals, ...rows.flatMap((row) => row.options)].map((row) => [row.name, row])).values(),
  ]
    .filter((option) => option.value !== null)
    .map((option) => `    --${option.name}) ${valuesOf(option)}; return ;;`)
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
    *) words="${names} ${globals.map((option) => `--${option.name}`).join(' ')} --help --version" ;;
  esac
  COMPREPLY=($(compgen -W "$words" -- "$current"))
}
complete -o default -F _pausebook pausebook
`
}

function wordsOf(row: CommandRow, globals: readonly OptionRow[]): string {
  const choices = row.words.flatMap((word) => (typeof word.completes === 'object' ? word.completes : []))
  return [...choices, ...[...row.options, ...globals].map((option) => `--${option.name}`), '--help'].join(' ')
}

function valuesOf(option: OptionRow): string {
  if (option.choices) return `COMPREPLY=($(compgen -W "${option.choices.join(' ')}" -- "$current"))`
  return option.value === 'DIR' ? 'COMPREPLY=($(compgen -d -- "$current"))' : 'COMPREPLY=()'
}

/** A completion script for fish. */
export function fishCompletion(rows: readonly CommandRow[], globals: readonly OptionRow[]): string {
  const lines = rows.flatMap((row) => {
    const here = `complete -c pausebook -n ${quoted(`__fish_seen_subcommand_from ${row.name}`)}`
    const choices = row.words.flatMap((word) => (typeof word.completes === 'object' ? word.completes : []))
    return [
      `complete -c pausebook -n __fish_use_subcommand -f -a ${row.name} -d ${quoted(row.description)}`,
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

function optionOf(option: OptionRow): string {
  const values = option.choices ? ` -f -a ${quoted(option.choices.join(' '))}` : ''
  const value = option.value === null ? '' : ` -r${values}`
  return `-l ${option.name}${value} -d ${quoted(option.description)}`
}

function quoted(text: string): string {
  return `'${text.replace(/\\/g, '\\\\').replace(/'/g, "\\'")}'`
}

/** A completion script for zsh, to be sourced or saved as `_pausebook` in a folder of $fpath. */
export function zshCompletion(rows: readonly CommandRow[], globals: readonly OptionRow[]): string {
  const commands = rows.map((row) => `    ${zshQuoted(`${row.name}:${row.description}`)}`)
  const cases = rows.map((row) => {
    const specs = [...row.options, ...globals].map(optionSpecOf)
    const words = row.words.map((word) => {
      const values = typeof word.completes === 'object' ? `(${word.completes.join(' ')})` : '_files'
      return zshQuoted(`${word.rest ? '*' : ''}:${word.name}:${word.completes === undefined ? ' ' : values}`)
    })
    return `        ${row.name}) _arguments ${[...specs, ...words].join(' ')} ;;`
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

function optionSpecOf(option: OptionRow): string {
  const label = `--${option.name}[${option.description.replace(/[[\]]/g, '')}]`
  if (option.value === null) return zshQuoted(label)
  const values = option.choices ? `(${option.choices.join(' ')})` : option.value === 'DIR' ? '_files -/' : ' '
  return zshQuoted(`${label}:${option.value}:${values}`)
}

function zshQuoted(text: string): string {
  return `'${text.replace(/'/g, `'\\''`)}'`
}
