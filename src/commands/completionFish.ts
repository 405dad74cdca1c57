import type { CommandRow, OptionRow } from './port.ts'

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
