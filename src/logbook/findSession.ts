import { LogbookError } from './errors.ts'
import type { SessionEntry } from './model.ts'
import { printableOf } from './printable.ts'

/** The session that is meant.
 * @param which `newest`, an id, or the beginning of exactly one id
 * @param entries newest first
 * @throws LogbookError `no_such_session`, `ambiguous_session` */
export function findSession(which: string, entries: readonly SessionEntry[]): SessionEntry {
  const [newest] = entries
  if (newest === undefined) {
    throw new LogbookError(
      'no_such_session',
      'There is no session in this logbook yet. Record one with "pausebook".',
    )
  }
  if (which === 'newest') return newest
  const exact = entries.filter((entry) => entry.id === which)
  const found =
    exact.length > 0 ? exact : entries.filter((entry) => which !== '' && entry.id.startsWith(which))
  const [first] = found
  const shown = `"${printableOf(which.slice(0, 60))}"`
  if (first === undefined) {
    const message = `There is no session whose id begins with ${shown}. "pausebook history" lists them.`
    throw new LogbookError('no_such_session', message)
  }
  if (found.length > 1) {
    const some = found.slice(0, 5).map((entry) => `${entry.id} (${entry.date})`)
    const more = found.length > 5 ? ' and more' : ''
    const advice = exact.length > 1 ? 'Remove the one that is a copy.' : 'Write more of the id.'
    const message = `${found.length} sessions answer to ${shown}: ${some.join(', ')}${more}. ${advice}`
    throw new LogbookError('ambiguous_session', message)
  }
  return first
}
