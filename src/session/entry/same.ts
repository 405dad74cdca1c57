import { hasResult, isSameItem, type Step } from '../../prescription/step.ts'
import { promptOf } from '../prompt.ts'
import type { Recorded, SessionState } from '../state.ts'
import { noEffort } from './effort.ts'
import { printEntry } from './entry.ts'

/** `same`, `same @9`: the figures of the previous result of the same exercise or work, without its effort, heart rate and
 * remarks; as offered without one. Returns the text if it is anything else. */
export function sameAsBefore(text: string, state: SessionState, step: Step | undefined): string {
  const match = /^\s*same(?!\S)(.*)$/i.exec(text)
  if (!match || !step) return text
  const isAlike = (each: Step) => isSameItem(each, step) && nameOf(each) === nameOf(step)
  const before = state.steps
    .filter(hasResult)
    .findLast((each) => each.id !== step.id && state.recorded.has(each.id) && isAlike(each))
  const recorded = before && state.recorded.get(before.id)
  if (!recorded || recorded.kind === 'fuel') return `=${match[1]}`
  // A load chosen for this set takes precedence over the previous set's.
  const load = state.chosenLoads.has(step.id) && { load: null, loads: undefined }
  const figures = { ...recorded.result, ...noEffort, note: null, pain: null, ...load }
  return printEntry({ ...recorded, result: figures } as Recorded, promptOf(state, before)) + match[1]
}

function nameOf(step: Step): string {
  return step.kind === 'set' ? step.name : ''
}
