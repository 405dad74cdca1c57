import type { Step } from '../../prescription/step.ts'
import { elapsedSeconds, localTimeOf, momentOf } from '../../session/clock.ts'
import { describeEmpty } from '../../session/entry/print.ts'
import { askedOf, askedStep, stepsToAsk } from '../../session/prompt.ts'
import { stepOf, type WalkState } from '../../session/state.ts'
import { changeRest } from '../apply.ts'
import { holdUnderWay, isOffered, stepNow, stepUnderWay } from '../availability.ts'
import { command } from '../command.ts'
import { beatLabel, keyRows } from '../keys.ts'
import { stepTitle } from '../labels.ts'
import type { RecorderModel } from '../model.ts'
import { readTyped } from '../record.ts'
import { type ModeObject, said } from './mode.ts'

/** Keys that act while the field holds something: they are no text. */
const typing = new Set(['Enter', '↑ ↓'])

/** The field is about the next result; a letter in the empty field is a command. */
export const recordingMode: ModeObject<'recording'> = {
  takesText: false,
  panel: () => null,
  prompt: ({ state }) => {
    const step = askedStep(state)
    const asked = step ? askedOf(state, step.id) : null
    if (!step || !asked) return { label: 'all recorded', placeholder: 'f closes the part', isField: true }
    const isHeld = holdUnderWay(state)?.id === step.id
    const offered = isHeld ? 'as long as held' : isOffered(state, step) ? describeEmpty(asked) : null
    return {
      label: stepTitle(step, state.prescription.units.distance),
      placeholder: offered === null ? 'type the result' : `Enter: ${offered}`,
      isField: true,
    }
  },
  hints: (model) => {
    const does = keyRows.filter((row) => row.unavailable(model) === null).sort((a, b) => a.rank - b.rank)
    if (model.draft !== '')
      return [
        ...does.filter(({ key }) => typing.has(key)).map(({ key, label }) => ({ key, label })),
        { key: 'Esc', label: 'empty it' },
      ]
    return does.map(({ key, label }) => ({ key, label: key === 'Space' ? beatLabel(model) : label }))
  },
  onKey: (model, _, pressed, context) =>
    pressed === 'up' || pressed === 'down'
      ? changeRest(model, pressed === 'up' ? 1 : -1, context)
      : command(model, pressed, context),
  onEnter: (model, _, context) => {
    const step = askedStep(model.state)
    if (!step) return said(model, 'no result is asked for now')
    if (model.draft.trim() === '' && !isOffered(model.state, step))
      return said(model, nothingOpen(model.state, step))
    const done = doneBySpace(model)
    const already = done && `done already: ${stepTitle(done)}; Enter again: ${stepTitle(step)} too`
    if (already && model.draft.trim() === '' && step.kind === 'prep' && model.notice !== already)
      return said(model, already)
    const others = stepsToAsk(model.state).filter((each) => each.id !== step.id)
    return readTyped(model, [step, ...others], context)
  },
  onEscape: (model) => ({ model: { ...model, draft: '', notice: null }, effects: [] }),
}

/** How long after Space the Enter that follows a set out of habit may still come, in seconds (invented). */
const habitSeconds = 5

/** The item of prep that Space has just ended, and recorded with it: an Enter behind it is meant for it. */
function doneBySpace({ events, state, now, echo }: RecorderModel): Step | null {
  const [ended, recorded] = events.slice(-2)
  if (ended?.type !== 'effortEnded' || recorded?.type !== 'prepRecorded') return null
  const at = momentOf(recorded, state.boot)
  if (at === null || elapsedSeconds(at, now) > habitSeconds) return null
  // What Enter records is echoed, what Space ends is not.
  const isByEnter = echo !== null && localTimeOf(echo.at) === recorded.at
  return isByEnter ? null : stepOf(state, recorded.step)
}

function nothingOpen(state: WalkState, step: Step): string {
  const title = stepTitle(step)
  const underWay = stepUnderWay(state)
  if (underWay?.id === step.id) return `${title} is under way: Space ends it, or type its time`
  if (underWay)
    return `nothing is open: Space ends the ${stepTitle(underWay)}, or type the result of ${title}`
  const now = stepNow(state)
  if (now?.kind === 'ramp')
    return `nothing is open: Space begins the ${stepTitle(now)}, or type the result of ${title}`
  return `nothing is open: Space begins ${title}, or type its result`
}
