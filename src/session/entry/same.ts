import { hasResult, isSameItem, type Step } from '../../prescription/step.ts'
import { promptOf } from '../prompt.ts'
import type { Recorded, SessionState } from '../state.ts'
import { printEntry } from './entry.ts'

/* An earlier result, typed once more. */

/** `same`, `same @9`: the figures of the previous result of the same exercise or work; as offered without one. Returns
 * the text if it is anything else. */
export function sameAsBefore(text: string, state: SessionState, step: Step | undefined): string {
  const match = /^\s*same(?!\S)(.*)$/i.exec(text)
  if (!match || !step) return text
  const isAlike = (each: Step) => isSameItem(each, step) && nameOf(each) === nameOf(step)
  const before = state.steps
    .filter(hasResult)
    .findLast((each) => each.id !== step.id && state.recorded.has(each.id) && isAlike(each))
  const recorded = before && state.recorded.get(before.id)
  const [whole, withoutLoads = whole] = recorded && recorded.kind !== 'fuel' ? figuresOf(recorded) : []
  // A load chosen for this set takes precedence over the previous set's.
  const figures = state.chosenLoads.has(step.id) ? withoutLoads : whole
  const again = before && figures ? printEntry(figures, promptOf(state, before)) : '='
  return again + (match[1] ?? '')
}

function nameOf(step: Step): string {
  return step.kind === 'set' ? step.name : ''
}

/** A result without its effort, heart rate and remarks, to be printed; and the same without its loads, in case another
 * is typed. */
export function figuresOf(before: Recorded): Recorded[] {
  const bare = { ...before.result, rpe: null, heartRate: null, heartRateMax: null, note: null, pain: null }
  const withoutLoads = { ...bare, load: null, loads: undefined }
  return [bare, withoutLoads].map((result) => ({ ...before, result }) as Recorded)
}
