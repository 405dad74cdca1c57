import type { Session } from '../session/model.ts'

/** A session as its file holds it: JSON, one event a line, so that a comparison of two versions shows which
 * event came to it. */
export function printSession(session: Session): string {
  const { events, ...head } = session
  const lines = Object.entries(head).map(
    ([key, value]) => `${JSON.stringify(key)}: ${JSON.stringify(value)},\n`,
  )
  return `{\n${lines.join('')}"events": [\n${events.map((event) => JSON.stringify(event)).join(',\n')}\n]\n}\n`
}
