import { whenOf } from '../../session/clock.ts'
import { effortWording, readMinutes, readSessionRpe } from '../../session/entry/effort.ts'
import type { SessionEvent } from '../../session/model.ts'
import { isPrompted, pendingSteps, type SessionState, stepUnderWay } from '../../session/state.ts'
import { minutesMeasured } from '../../session/timers.ts'
import { applyEvents, recording } from '../apply.ts'
import { saidOfPart, stepTitle } from '../labels.ts'
import {
  asksForEffort,
  isPartDone,
  partInWords,
  partTitle,
  type RecorderModel,
  stay,
  type Updated,
  withNotice,
} from '../model.ts'
import { type ModeObject, panelWith, saveOrCancel } from './mode.ts'

export const closing: ModeObject<'closing'> = {
  panel: (model, mode) => {
    const { state } = model
    const part = partInWords(state, mode.part)
    const open = pendingInPart(model, mode.part)
    switch (mode.stage) {
      case 'effort':
        return panelWith({
          title: open ?? `how hard was ${part}, as a whole?`,
          lines: effortWording.map(({ value, words }) => `${String(value).padStart(2)}  ${words}`),
          hang: 4,
          compact: effortWording.map(({ value, words }) => `${value} ${words}`),
        })
      case 'minutes':
        return panelWith({ title: open ?? `how many minutes did ${part} take?`, lines: [], hang: 4 })
      case 'confirm':
        return panelWith({ title: open ?? `close ${part}`, lines: notRecorded(state, mode.part), hang: 4 })
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
          isField: true,
        }
      case 'minutes':
        return { label: 'minutes', placeholder: `Enter: ${offered ?? 'not known'}`, isField: true }
      case 'confirm':
        return { label: `close ${part}`, placeholder: 'Enter closes it', isField: true }
    }
  },
  hints: saveOrCancel,
  onEnter: (model, mode) => {
    if (mode.stage === 'confirm') {
      const minutes = minutesUnasked(model.state, mode.part)
      return closePart(recording(model), mode.part, null, minutes)
    }
    const reading = mode.stage === 'effort' ? readSessionRpe(model.draft) : readMinutes(model.draft)
    if (reading.outcome === 'error') return withNotice(model, reading.message)
    const isTyped = model.draft.trim() !== ''
    if (mode.stage === 'effort') {
      const effort = isTyped ? reading.value : mode.effort
      return stay({ ...model, mode: { ...mode, stage: 'minutes', effort }, draft: '', notice: null })
    }
    const query = isTyped ? queryOf(reading.value ?? 0, minutesMeasured(model.state, mode.part)) : null
    if (query !== null && model.notice !== query) return withNotice(model, query)
    const minutes = isTyped ? reading.value : minutesOffered(model.state, mode.part)
    return closePart(recording(model), mode.part, mode.effort, minutes)
  },
}

/** What must still be typed before a part closes, in words, including the current step; null if nothing is pending. */
function pendingInPart(model: RecorderModel, part: number): string | null {
  const underWay = stepUnderWay(model.state)
  const steps =
    underWay && isPrompted(underWay) ? [...pendingSteps(model.state), underWay] : pendingSteps(model.state)
  const open = steps.filter((step) => step.part === part)
  if (open.length === 0) return null
  return `still to enter in ${partTitle(model.state, part)}: ${open.map((step) => stepTitle(step)).join(', ')}`
}

/* This program's own limits for the minutes of one part. */
const mostMinutes = 300
/** More than so many times the measured minutes are doubted, if that is also over an hour more. */
const mostTimesMeasured = 3

/** A question about minutes that are probably a slip; null for plausible ones. */
function queryOf(minutes: number, measured: number | null): string | null {
  const again = 'Enter again takes them, or type them again'
  if (minutes > mostMinutes) return `${minutes} minutes are more than 5 hours: ${again}`
  const isFar = measured !== null && minutes > mostTimesMeasured * measured && minutes - measured > 60
  return isFar ? `${minutes} minutes, and only ${Math.max(1, Math.round(measured))} measured: ${again}` : null
}

/** What is not recorded yet in a part, one line each. */
function notRecorded(state: SessionState, part: number): string[] {
  const left = state.steps.filter(
    (step) => step.part === part && !state.recorded.has(step.id) && !state.skipped.has(step.id),
  )
  return left.map((step) => `not recorded: ${stepTitle(step)}`)
}

/** The minutes that Enter alone records for a part: those from an earlier closing, else the live ones, else
 * work and recoveries; null if nothing is known. */
function minutesOffered(state: SessionState, part: number): number | null {
  const said = state.partStates[part]?.minutes ?? null
  if (said !== null) return said
  const minutes = minutesMeasured(state, part)
  return minutes === null ? null : Math.max(1, Math.round(minutes))
}

/** The minutes of a part that closes without a question: those of its clock; null for a meal. */
export function minutesUnasked(state: SessionState, part: number): number | null {
  return state.parts[part]?.kind === 'fuel' ? null : minutesOffered(state, part)
}

/** Closes a part and says so; closing the last one finishes the session. */
export function closePart(
  model: RecorderModel,
  part: number,
  effort: number | null,
  minutes: number | null,
): Updated {
  const when = whenOf(model.now)
  const closed = (index: number) => index === part || model.state.partStates[index]?.closed === true
  // Prep and fuel have nothing to ask: close finished ones, together with the next part that is finished.
  const done = model.state.parts.flatMap((_, index) =>
    closed(index) || asksForEffort(model.state, index) || !isPartDone(model.state, index) ? [] : [index],
  )
  const events: SessionEvent[] = [
    ...done.map((each) => ({
      type: 'partClosed' as const,
      ...when,
      part: each,
      effort: null,
      minutes: minutesUnasked(model.state, each),
    })),
    { type: 'partClosed', ...when, part, effort, minutes },
  ]
  const isLast = model.state.partStates.every((_, index) => closed(index) || done.includes(index))
  if (isLast) events.push({ type: 'sessionFinished', ...when })
  return applyEvents({ ...model, notice: closedText(model.state, part, effort, minutes) }, events)
}

/** `lift: legs is closed: effort 7, 62 min` */
function closedText(
  state: SessionState,
  part: number,
  effort: number | null,
  minutes: number | null,
): string {
  const bits = saidOfPart(effort, minutes)
  const isAsked = asksForEffort(state, part) && bits.length > 0
  return `${partTitle(state, part)} is closed${isAsked ? `: ${bits.join(', ')}` : ''}`
}
