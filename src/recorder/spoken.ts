import { type Moment, secondsBetween } from '../session/clock.ts'
import type { SessionState } from '../session/state.ts'
import { countdownOf, endOf } from '../session/timers.ts'
import type { RecorderView } from './view.ts'

/** What a screen reader is to hear when one view follows another: only what changed, as whole lines. */
export function spokenLines(before: RecorderView | null, after: RecorderView): string[] {
  const lines: string[] = []
  const changed = (part: (view: RecorderView) => string) => before === null || part(before) !== part(after)
  const said = (text: string) => {
    if (text !== '') lines.push(text)
  }
  if (after.echo !== null && changed((view) => view.echo ?? '')) said(`recorded ${after.echo}`)
  if (after.isNotice && changed((view) => view.line)) said(after.line)
  if (after.panel && changed((view) => JSON.stringify(view.panel))) {
    const { title, lines: rows, selected } = after.panel
    const isSamePanel = before?.panel?.title === title
    if (!isSamePanel) said(title)
    if (selected !== null) said(rows[selected] ?? '')
    else if (!isSamePanel) for (const row of rows) said(row)
  }
  if (changed((view) => view.now.what + view.now.where)) {
    said([after.now.what, after.now.where].filter((text) => text !== '').join(', '))
    said(after.lastTime)
  }
  if (changed((view) => view.clock.label)) said(`${after.clock.label} ${after.clock.text}`)
  if (
    changed((view) => view.entry.label + view.entry.placeholder) &&
    after.entry.isField &&
    after.entry.label !== ''
  )
    said(`asked: ${after.entry.label}, ${after.entry.placeholder}`)
  if (!after.isNotice && changed((view) => (view.isNotice ? '' : view.line))) said(after.line)
  if (!after.head.isSaved && changed((view) => view.head.saved)) said(after.head.saved)
  return lines
}

const milestones = [60, 30, 10] as const

/** "one minute left" and so on, when the clock passed such a mark between two looks; "go" at the end; null else. */
export function milestoneBetween(state: SessionState, from: Moment, to: Moment): string | null {
  const end = endOf(state)
  if (!end) return null
  const before = secondsBetween(from, end)
  const after = secondsBetween(to, end)
  if (before > 0 && after <= 0) return 'go'
  const whole = countdownOf(state)?.seconds ?? 0
  const passed = milestones.find((mark) => whole > mark && before > mark && after <= mark && after > 0)
  if (passed === undefined) return null
  return passed === 60 ? 'one minute left' : `${passed} seconds left`
}
