import type { Step } from '../prescription/step.ts'
import { isAsked, type SessionState } from '../session/state.ts'
import { isSameItem, stepNow, stepsByItem } from './availability.ts'
import { partTitle, resultsText } from './labels.ts'

/** One line of the day: a part's heading, an item, or what was done of it. */
export interface DayLine {
  kind: 'part' | 'item' | 'results'
  mark: 'done' | 'now' | 'ahead' | 'skipped' | 'none'
  text: string
}

/** Every item of the day in the order in which it is walked, with what was done. */
export function dayLines(state: SessionState): DayLine[] {
  const lines: DayLine[] = []
  const now = stepNow(state)
  let part = -1
  for (const steps of stepsByItem(state.steps)) {
    const first = steps[0] as Step
    if (first.part !== part) {
      part = first.part
      lines.push({ kind: 'part', mark: 'none', text: partHeading(state, part) })
    }
    const item = state.parts[first.part]?.items[first.item]
    lines.push({ kind: 'item', mark: markOf(state, steps, now), text: item?.text ?? '' })
    const results = itemResults(state, steps.filter(isAsked))
    if (results !== '' && results !== 'done') lines.push({ kind: 'results', mark: 'none', text: results })
  }
  return lines
}

/** What was done of an item; of a superset behind the name of each exercise: `pull-up 6, 5; dip 8 x bw+10`. */
function itemResults(state: SessionState, steps: readonly Step[]): string {
  const byName = new Map<string, Step[]>()
  for (const step of steps) {
    const name = step.kind === 'set' && step.superset ? step.name : ''
    byName.set(name, [...(byName.get(name) ?? []), step])
  }
  return [...byName]
    .map(([name, own]) => ({ name, results: resultsText(state, own) }))
    .filter(({ results }) => results !== '')
    .map(({ name, results }) => (name === '' ? results : `${name} ${results}`))
    .join('; ')
}

/** How many cells the longest line takes, its mark and what is kept free beside it included. */
export function dayWidthOf(lines: readonly DayLine[]): number {
  return Math.max(0, ...lines.map((line) => line.text.length + (line.kind === 'part' ? 0 : 4))) + 2
}

function partHeading(state: SessionState, part: number): string {
  const { closed, effort, minutes } = state.partStates[part] ?? { closed: false, effort: null, minutes: null }
  if (!closed) return partTitle(state, part)
  const bits = [
    effort === null ? '' : `effort ${effort}`,
    minutes === null ? '' : `${Math.round(minutes)} min`,
  ]
  return [partTitle(state, part), ...bits.filter(Boolean)].join(', ')
}

function markOf(state: SessionState, steps: readonly Step[], now: Step | null): DayLine['mark'] {
  if (now && steps[0] && isSameItem(steps[0], now) && !state.finished) return 'now'
  if (!steps.every((step) => state.passed.has(step.id))) return 'ahead'
  const counted = steps.some(isAsked) ? steps.filter(isAsked) : steps
  return counted.every((step) => state.skipped.has(step.id)) ? 'skipped' : 'done'
}

/** The lines that fit, the current item in the middle third where the day is longer than the room. */
export function dayWindow(lines: readonly DayLine[], room: number): DayLine[] {
  if (lines.length <= room) return [...lines]
  const now = Math.max(
    0,
    lines.findIndex((line) => line.mark === 'now'),
  )
  const start = Math.max(0, Math.min(lines.length - room, now - Math.floor(room / 2)))
  return lines.slice(start, start + room)
}
