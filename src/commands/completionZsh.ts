import type { CommandRow, OptionRow } from './port.ts'

/** A completion script for zsh, to be sourced or saved as `_pausebook` in a folder of $fpath. */
export function zshCompletion(rows: readonly CommandRow[], globals: readonly OptionRow[]): string {
  const commands = rows.map((row) => `    ${quoted(`${row.name}:${row.description}`)}`)
  const cases = rows.map((row) => {
    const specs = [...row.options, ...globals].map(optionSpecOf)
    const words = row.words.map((word) => {
      const values = typeof word.completes === 'object' ? `(${word.completes.join(' ')})` : '_files'
      return quoted(`${word.rest ? '*' : ''}:${word.name}:${word.completes === undefined ? ' ' : values}`)
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
  if (option.value === null) return quoted(label)
  const values = option.choices ? `(${option.choices.join(' ')})` : option.value === 'DIR' ? '_files -/' : ' '
  return quoted(`${label}:${option.value}:${values}`)
}

function quoted(text: string): string {
  return `'${text.replace(/'/g, `'\\''`)}'`
}
