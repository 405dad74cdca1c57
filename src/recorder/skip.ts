import type { Step } from '../prescription/step.ts'
import { elapsedSeconds, momentOf, whenOf } from '../session/clock.ts'
import type { SessionEvent } from '../session/model.ts'
import { applied } from './apply.ts'
import { isSameItem, skippedByKey } from './availability.ts'
import type { RecorderContext, RecorderModel, Updated } from './model.ts'
import { stepTitle } from './titles.ts'

/** Skips what is now; pressed again at once the rest of the warm-up, or of the item.
 * @param again it was the key before this one too */
export function skip(model: RecorderModel, again: boolean, context: RecorderContext): Updated {
  const when = whenOf(model.now)
  const step = skippedByKey(model)
  if (!step) return { model, effects: [] }
  const last = model.events.at(-1)
  if (again && last?.type === 'stepSkipped' && isJustNow(model, last)) {
    const ramp = restOfRamp(model, last.step)
    if (ramp.length > 0) {
      const notice = 'skipped: the rest of the warm-up'
      const events = ramp.map((each): SessionEvent => ({ type: 'stepSkipped', ...when, step: each.id }))
      return applied({ ...model, notice }, events, context)
    }
    const [part, item] = placeOf(model, last.step)
    const left = model.state.steps.some(
      (each) => each.part === part && each.item === item && !model.state.passed.has(each.id),
    )
    if (!left) return { model: { ...model, notice: 'the item has nothing left to skip' }, effects: [] }
    const notice = 'skipped: the rest of the item'
    return applied({ ...model, notice }, [{ type: 'itemSkipped', ...when, part, item }], context)
  }
  const rest = restOfRamp(model, step.id).length > 0 ? 'warm-up' : 'item'
  const notice = `skipped: ${stepTitle(step)}; s again skips the rest of the ${rest}`
  return applied(
    { ...model, notice, pressedOnce: 's' },
    [{ type: 'stepSkipped', ...when, step: step.id }],
    context,
  )
}

/** Seconds within which a second press is one of the two. */
const soon = 5

function isJustNow(model: RecorderModel, event: SessionEvent): boolean {
  const at = momentOf(event, model.state.boot)
  return at !== null && elapsedSeconds(at, model.now) <= soon
}

/** The ramp sets that follow a ramp set of an item; empty for any other step. */
function restOfRamp(model: RecorderModel, id: string): Step[] {
  const { steps, passed } = model.state
  const skipped = steps.find((each) => each.id === id)
  if (skipped?.kind !== 'ramp') return []
  return steps.filter(
    (each) => each.kind === 'ramp' && isSameItem(each, skipped) && each.id !== id && !passed.has(each.id),
  )
}

function placeOf(model: RecorderModel, id: string): [number, number] {
  const step = model.state.steps.find((each) => each.id === id)
  return [step?.part ?? 0, step?.item ?? 0]
}
