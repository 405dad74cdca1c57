import { whenOf } from '../session/clock.ts'
import { readMinutes, readPartEffort } from '../session/entry/effort.ts'
import { askedStep } from '../session/prompt.ts'
import { stepOf } from '../session/state.ts'
import { applied, recording } from './apply.ts'
import { closePart, minutesOffered, notedText, noteEvents, offerCut, takeBack } from './changes.ts'
import { pick, placeItem } from './lists.ts'
import type { RecorderContext, RecorderModel, Updated } from './model.ts'
import { readTyped, take } from './record.ts'

/** Enter where the field, or a list, is about something else than the next result. */
export function enterElsewhere(model: RecorderModel, context: RecorderContext): Updated {
  const { mode } = model
  switch (mode.kind) {
    case 'question':
      if (!mode.suggested && mode.insisted)
        return { model: { ...model, notice: '! takes it as typed, Escape types it again' }, effects: [] }
      return take(model, mode.steps, mode.suggested?.answers ?? null, context)
    case 'several':
      return take(model, mode.steps, mode.answers, context)
    case 'undoing':
      return takeBack(model, mode, context)
    case 'closing':
      return enterClosing(model, mode, context)
    case 'picking':
      return pick(model)
    case 'correcting': {
      const step = model.draft.trim() === '' ? null : stepOf(model.state, mode.step)
      return step ? readTyped(model, [step], context) : { model: recording(model), effects: [] }
    }
    case 'swapping': {
      const name = model.draft.trim()
      if (name === '')
        return { model: { ...model, notice: 'type the name of the exercise, Escape leaves it' }, effects: [] }
      if (isLoadAlone(name)) return readAsked({ ...recording(model), draft: `x ${name}` }, context)
      return applied(
        recording(model),
        [{ type: 'exerciseSwapped', ...whenOf(model.now), step: mode.step, name }],
        context,
      )
    }
    case 'ordering':
      return placeItem(model)
    case 'timeLeft':
      return offerCut(model)
    case 'cutOffered':
      return applied(
        recording(model),
        [{ type: 'dayCut', ...whenOf(model.now), minutes: mode.minutes, steps: mode.steps }],
        context,
      )
    case 'noting':
      return note(model, context)
    case 'recording':
    case 'help':
      return { model: recording(model), effects: [] }
  }
}

/** `100`, `72.5 kg @9`, `2x30 "slow"`: no exercise's name but what stands behind the x of `x 100`. */
function isLoadAlone(text: string): boolean {
  return /^(2\s*x\s*)?\d+([.,]\d+)?\s*(kg|lb)?(\s*(!|[@"=]|(rpe|rir|pain)\b).*)?$/i.test(text)
}

/** The field for the result that is asked for. */
function readAsked(model: RecorderModel, context: RecorderContext): Updated {
  const step = askedStep(model.state)
  return step
    ? readTyped(model, [step], context)
    : { model: { ...model, notice: 'no result is asked for now' }, effects: [] }
}

function note(model: RecorderModel, context: RecorderContext): Updated {
  const events = noteEvents(model)
  return applied({ ...recording(model), notice: notedText(events) }, events, context)
}

function enterClosing(
  model: RecorderModel,
  mode: Extract<RecorderModel['mode'], { kind: 'closing' }>,
  context: RecorderContext,
): Updated {
  if (mode.stage === 'confirm') return closePart(recording(model), mode.part, null, null, context)
  const reading = mode.stage === 'effort' ? readPartEffort(model.draft) : readMinutes(model.draft)
  if (reading.outcome === 'error') return { model: { ...model, notice: reading.message }, effects: [] }
  if (mode.stage === 'effort') {
    const effort = model.draft.trim() === '' ? mode.effort : reading.value
    const next = { ...mode, stage: 'minutes' as const, effort }
    return { model: { ...model, mode: next, draft: '', notice: null }, effects: [] }
  }
  const isTyped = model.draft.trim() !== ''
  const minutes = isTyped ? reading.value : minutesOffered(model.state, mode.part)
  return closePart(recording(model), mode.part, mode.effort, minutes, context)
}
