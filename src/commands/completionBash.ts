import type { CommandRow, OptionRow } from './port.ts'

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
