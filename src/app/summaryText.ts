import { contextOn } from '../logbook/basis.ts'
import type { Settings } from '../logbook/settings.ts'
import type { Session } from '../session/model.ts'
import { summaryText } from '../summary/text.ts'

/** The summary of a session as plain text, with the equation of the settings and the body mass of its day. */
export function summaryTextOf(session: Session, settings: Settings, full: boolean): string {
  const started = session.events.find((event) => event.type === 'sessionStarted')
  const date = started?.type === 'sessionStarted' ? started.date : (session.prescription.date ?? '')
  return summaryText(session, contextOn(settings, date), { full })
}
