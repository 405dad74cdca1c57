import { LogbookError } from './errors.ts'
import type { SessionEntry } from './model.ts'
import { printableOf } from './printable.ts'

/** The session that is meant.
 * @param which `newest`, an id, the beginning of exactly one id, or the date of the only session begun on it
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
  const isDate = exact.length === 0 && /^\d{4}-\d\d-\d\d$/.test(which)
  const isMeant = (entry: SessionEntry) =>
    isDate ? entry.date === which : which !== '' && entry.id.startsWith(which)
  const found = exact.length > 0 ? exact : entries.filter(isMeant)
  const [first] = found
  const shown = `"${printableOf(which.slice(0, 60))}"`
  if (first === undefined) {
    const named = isDate ? `of ${shown}` : `whose id begins with ${shown}`
    const message = `There is no session ${named}. "pausebook history" lists them.`
    throw new LogbookError('no_such_session', message)
  }
  if (found.length > 1) {
    const some = found.slice(0, 5).map((entry) => `${entry.id} (${entry.date})`)
    const more = found.length > 5 ? ' and more' : ''
    const nextStep = isDate ? 'Write the id of one.' : 'Write more of the id.'
    const advice = exact.length > 1 ? 'Remove the one that is a copy.' : nextStep
    const message = `${found.length} sessions answer to ${shown}: ${some.join(', ')}${more}. ${advice}`
    throw new LogbookError('ambiguous_session', message)
  }
  return first
}
