import type { Logbook } from '../logbook/model.ts'

/** What was met damaged so far, in a line for the picker; null when all is sound. */
export function damageText(logbook: Logbook): string | null {
  const [first, ...others] = logbook.damages
  if (!first) return null
  const more = others.length > 0 ? ` and ${others.length} more` : ''
  return `damaged: ${first.file}${more}; "pausebook verify" says what is wrong`
}
