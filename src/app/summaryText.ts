import { bodyMassOn, type Settings } from '../logbook/settings.ts'
import type { Session } from '../session/model.ts'
import type { SummaryContext } from '../summary/estimate.ts'
import { summaryText } from '../summary/text.ts'
import { kilogramsOf } from '../units/mass.ts'

/** What figures need that no session says: the equation, and a body mass that was put down later. */
export function summaryContextOf(session: Session, settings: Settings): SummaryContext {
  const started = session.events.find((event) => event.type === 'sessionStarted')
  const date = started?.type === 'sessionStarted' ? started.date : (session.prescription.date ?? '')
  const known = bodyMassOn(settings, date)
  return { equation: settings.equation, bodyMassKg: known ? kilogramsOf(known) : null }
}

/** The summary of a session as plain text. */
export function summaryTextOf(session: Session, settings: Settings, full: boolean): string {
  return summaryText(session, summaryContextOf(session, settings), { full })
}
