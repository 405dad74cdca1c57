import { effortWording, readMinutes, readSessionRpe, tooManyMinutes } from '../../session/entry/effort.ts'
import { stepTitle } from '../../session/names.ts'
import { isPrompted, pendingSteps, type SessionState, stepUnderWay } from '../../session/state.ts'
import { minutesMeasured } from '../../session/timers.ts'
import { applyFacts, type Fact, recording } from '../apply.ts'
import { closingFigures, partInWords, partTitle } from '../labels.ts'
import {
  asksForEffort,
  isPartDone,
  type Mode,
  type RecorderModel,
  stay,
  type Updated,
  withMode,
  withNotice,
} from '../model.ts'
import { type ModeNamed, type ModeObject, panelWith, saveOrCancel } from './mode.ts'
import { noteAlone, noteBeside } from './notes.ts'

export const closing: ModeObject<'closing'> = {
  panel: (model, mode) => {
    const { state } = model
    const part = partInWords(state, mode.part)
    const pending = pendingInPart(model, mode.part)
    switch (mode.stage) {
      case 'effort':
        return panelWith({
          title: pending ?? `how hard was ${part}, as a whole?`,
          lines: effortWording.map(({ value, words }) => `${String(value).padStart(2)}  ${words}`),
          hang: 4,
        })
      case 'minutes':
        return panelWith({ title: pending ?? `how many minutes did ${part} take?`, lines: [], hang: 4 })
      case 'confirm':
        return panelWith({ title: pending ?? `close ${part}`, lines: notRecorded(state, mode.part), hang: 4 })
    }
  },
  prompt: ({ state }, mode) => {
    const part = partTitle(state, mode.part)
    const offered = minutesOffered(state, mode.part)
    switch (mode.stage) {
      case 'effort':
        return {
          label: `effort of ${part}`,
          short: 'effort',
          placeholder: `Enter: ${mode.effort ?? 'none'}, or 0 to 10`,
        }
      case 'minutes':
        return { label: 'minutes', placeholder: `Enter: ${offered ?? 'not known'}` }
      case 'confirm':
        return { label: `close ${part}`, placeholder: 'Enter closes it' }
    }
  },
  keys: ({ draft }, mode) => saveOrCancel((model) => answered(model, mode), draft !== ''),
}

/** Closes a part at once if there is nothing to ask, else asks for its effort and offers the one from an earlier
 * closing. */
export function closeOrAsk(model: RecorderModel, part: number): Updated {
  const { state } = model
  const asks = asksForEffort(state, part)
  if (!asks && isPartDone(state, part)) return closePart(model, part, null, minutesUnasked(state, part))
  const now = stepUnderWay(state)
  const notice =
    now && now.part > part
      ? `${partTitle(state, now.part)} goes on; this closes ${partTitle(state, part)}`
      : null
  const effort = state.partStates[part]?.effort ?? null
  const mode: Mode = { kind: 'closing', part, stage: asks ? 'effort' : 'confirm', effort }
  return withMode({ ...model, notice }, mode)
}

/** Goes on from one stage of a closing to the next. */
function answered(model: RecorderModel, mode: ModeNamed<'closing'>): Updated {
  const { state, draft } = model
  const { part, stage } = mode
  const remarks = noteAlone(model, null)
  if (remarks) return remarks
  const isTyped = draft.trim() !== ''
  if (stage === 'confirm') {
    if (isTyped) return withNotice(model, 'Enter in the empty field closes it; Esc clears, then goes back')
    return closePart(recording(model), part, null, minutesUnasked(state, part))
  }
  const reading = stage === 'effort' ? readSessionRpe(draft) : readMinutes(draft)
  if (reading.outcome === 'error') {
    const noted = noteBeside(model)
    if (!noted) return withNotice(model, reading.message)
    const next = answered(noted.model, mode)
    // What the answer itself brings up is shown at the next Enter.
    const { notice } = noted.model
    return { model: { ...next.model, notice }, effects: [...noted.effects, ...next.effects] }
  }
  if (stage === 'effort') {
    const effort = isTyped ? reading.value : mode.effort
    return stay({ ...model, mode: { ...mode, stage: 'minutes', effort }, draft: '', notice: null })
  }
  const many = tooManyMinutes(reading.value ?? 0)
  const query = `${many}: Enter again accepts them, or type them again`
  if (many !== null && model.notice !== query) return withNotice(model, query)
  const minutes = isTyped ? reading.value : minutesOffered(state, part)
  return closePart(recording(model), part, mode.effort, minutes)
}

/** What must still be typed before a part closes, in words, including the current step; null if nothing is pending. */
function pendingInPart({ state }: RecorderModel, part: number): string | null {
  const underWay = stepUnderWay(state)
  const steps = [...pendingSteps(state), ...(underWay && isPrompted(underWay) ? [underWay] : [])]
  const pending = steps.filter((step) => step.part === part)
  if (pending.length === 0) return null
  const titles = pending.map((step) => stepTitle(state, step)).join(', ')
  const rest = pending.length === 1 ? 'it counts' : 'they count'
  return `still to enter in ${partTitle(state, part)}: ${titles}; or ${rest} as not done`
}

/** What is not recorded yet in a part, one line each. */
function notRecorded(state: SessionState, part: number): string[] {
  const left = state.steps.filter(
    (step) => step.part === part && !state.recorded.has(step.id) && !state.skipped.has(step.id),
  )
  return left.map((step) => `not recorded: ${stepTitle(state, step)}`)
}

/** The minutes that Enter alone records for a part: those from an earlier closing, else the measured ones, rounded;
 * null if nothing is known. */
function minutesOffered(state: SessionState, part: number): number | null {
  const typed = state.partStates[part]?.minutes ?? null
  if (typed !== null) return typed
  const minutes = minutesMeasured(state, part)
  return minutes === null ? null : Math.max(1, Math.round(minutes))
}

/** The minutes of a part that closes without a question: those of its clock; null for a meal. */
function minutesUnasked(state: SessionState, part: number): number | null {
  return state.parts[part]?.kind === 'fuel' ? null : minutesOffered(state, part)
}

/** Closes a part and says so; closing the last one finishes the session. */
function closePart(
  model: RecorderModel,
  part: number,
  effort: number | null,
  minutes: number | null,
): Updated {
  const { state } = model
  const others = state.partStates.flatMap((each, index) => (each.closed || index === part ? [] : [index]))
  // Prep and fuel have nothing to ask: close finished ones, together with the next part that is finished.
  const done = others.filter((each) => !asksForEffort(state, each) && isPartDone(state, each))
  const facts: Fact[] = [
    ...done.map((each) => closed(each, null, minutesUnasked(state, each))),
    closed(part, effort, minutes),
  ]
  if (done.length === others.length) facts.push({ type: 'sessionFinished' })
  // `lift: legs is closed: effort 7, 62 min`
  const figures = asksForEffort(state, part) ? closingFigures(effort, minutes) : []
  const notice = `${partTitle(state, part)} is closed${figures.length > 0 ? `: ${figures.join(', ')}` : ''}`
  return applyFacts({ ...model, notice }, ...facts)
}

function closed(part: number, effort: number | null, minutes: number | null): Fact {
  return { type: 'partClosed', part, effort, minutes }
}
