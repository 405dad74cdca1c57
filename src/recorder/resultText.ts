import type { Step } from '../prescription/step.ts'
import { askedOf } from '../session/asking.ts'
import { printEntry } from '../session/entryPrint.ts'
import type { WalkState } from '../session/state.ts'

/** A recorded result as it would be typed: `1+1+1 x 92.5 @8`, `1:49.2`; `done` for what has no figure, `-` skipped;
 * null while nothing is recorded. */
export function resultText(state: WalkState, step: Step): string | null {
  if (state.skipped.has(step.id)) return '-'
  const recorded = state.recorded.get(step.id)
  const asked = recorded ? askedOf(state, step.id) : null
  if (!recorded || !asked) return null
  const plain = asked.kind === 'piece' ? { ...asked, offered: null } : asked
  const text = printEntry(recorded, plain)
  return text.startsWith('=') ? text.replace('=', 'done') : text
}

/** The results of an item in a row, the same ones once: `3 times 1+1+1 x 92.5 @8, 1+1+1 x 92.5 @9`. */
export function resultsText(state: WalkState, steps: readonly Step[]): string {
  const texts = steps.map((step) => resultText(state, step)).filter((text): text is string => text !== null)
  const rows: { text: string; times: number }[] = []
  for (const text of texts) {
    const last = rows.at(-1)
    if (last?.text === text) last.times += 1
    else rows.push({ text, times: 1 })
  }
  return rows.map(({ text, times }) => textOf(text, times)).join(', ')
}

function textOf(text: string, times: number): string {
  if (text === '-') return times > 1 ? `${times} skipped` : 'skipped'
  return times > 1 ? `${times} times ${text}` : text
}
