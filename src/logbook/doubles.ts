import { relative } from 'node:path'
import type { Damage, SessionEntry } from './model.ts'

/** Each session once: of two files with the same id the first counts, and the other is named. */
export function withoutDuplicates(
  home: string,
  entries: readonly SessionEntry[],
  onDamage: (damage: Damage) => void,
): readonly SessionEntry[] {
  if (new Set(entries.map(({ id }) => id)).size === entries.length) return entries
  const seen = new Map<string, SessionEntry>()
  return entries.filter((entry) => {
    const first = seen.get(entry.id)
    seen.set(entry.id, first ?? entry)
    if (first === undefined) return true
    const wrong = `The file has the same id as ${relative(home, first.path)}.`
    onDamage({
      file: relative(home, entry.path),
      wrong,
      done: 'Both were left alone, and only that one counts.',
    })
    return false
  })
}
