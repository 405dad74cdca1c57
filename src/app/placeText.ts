import type { Step } from '../prescription/step.ts'
import { stepNow } from '../recorder/availability.ts'
import { stepTitle } from '../recorder/titles.ts'
import type { WalkState } from '../session/state.ts'

/** Where an unfinished session was left: `in the pause of front squat, set 2 of 3`, `before 2 km`. */
export function placeText(state: WalkState): string {
  const step = stepNow(state)
  return step ? `${wordsFor[state.phase.kind]} ${named(step, state)}` : 'with everything done'
}

const wordsFor: Record<WalkState['phase']['kind'], string> = {
  ready: 'before',
  effort: 'in',
  recovery: 'in',
  pause: 'in the pause of',
  roundPause: 'in the pause before',
  rest: 'in the rest before',
}

/** A set by its exercise as well, which the title of a superset has already. */
function named(step: Step, state: WalkState): string {
  const title = stepTitle(step, state.prescription.units.distance)
  const isNamed = step.kind === 'ramp' || (step.kind === 'set' && !step.superset)
  return isNamed ? `${step.name}, ${title}` : title
}
