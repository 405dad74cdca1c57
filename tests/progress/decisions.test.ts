import type { SessionState } from '../../src/session/state.ts'
import { testSituations } from '../goldenTable.ts'
import { gear, nextOf, state, today } from './nextDays.ts'

/* What the days of a line mean for the next one like it, asked on 26 November: golden/decisions.txt has each day with
 * what was entered, then the decisions, in brackets the line that changed. All of them are this program's own rules. */

/** What was entered on a day: `2026-11-19 effort 8: 1:52, 1:52`. */
function dayIn(text: string, lines: string): SessionState {
  const read = /^(\S{10})(?: effort (\S+))?: (.*)$/.exec(text)
  if (read === null) throw new Error(`no day is read from "${text}"`)
  const [, date = '', effort = null, entries = ''] = read
  return state(date, lines, entries, effort === null ? null : Number(effort))
}

testSituations(new URL('golden/decisions.txt', import.meta.url), ({ written, typed }) => {
  const [now, ...before] = typed
    .split('; ')
    .map((day) => dayIn(day, written))
    .reverse()
  const { decisions, prescription } = nextOf(now!, before, today, gear)
  const told = decisions.map(({ part, item, decision, reason }) => {
    const line = prescription.parts[part]?.items[item]?.text
    return `${decision}: ${reason}${decision === 'same' ? '' : ` (${line})`}`
  })
  return told.length > 0 ? told.join(' | ') : 'nothing'
})
