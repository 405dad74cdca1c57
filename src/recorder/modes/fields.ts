import type { PrescribedSet } from '../../prescription/model.ts'
import { readPrescription } from '../../prescription/read.ts'
import { whenOf } from '../../session/clock.ts'
import { effortWording, readMinutes, readSessionRpe } from '../../session/entry/effort.ts'
import { promptedStep } from '../../session/prompt.ts'
import { isPrompted, pendingSteps, type SessionState, stepOf, stepUnderWay } from '../../session/state.ts'
import { minutesMeasured } from '../../session/timers.ts'
import {
  closePart,
  isPlaceAsked,
  minutesOffered,
  minutesUnasked,
  type NotePlace,
  notedText,
  noteEvents,
  notePlaces,
  offerCut,
} from '../changes.ts'
import { entryTitle, resultText, stepTitle, typedText } from '../labels.ts'
import {
  partInWords,
  partTitle,
  type RecorderContext,
  type RecorderModel,
  stay,
  type Updated,
  withNotice,
} from '../model.ts'
import { applyEvents, readTyped, recording } from '../record.ts'
import { painText } from '../warnings.ts'
import { isWithoutReps } from './insteadOfResult.ts'
import { type ModeNamed, type ModeObject, noField, panelWith, refused, saveOrCancel } from './mode.ts'

/* The modes in which the field is not about the next result. */

export const correcting: ModeObject<'correcting'> = {
  takesText: true,
  panel: () => null,
  prompt: ({ state }, mode) => {
    const step = stepOf(state, mode.step)
    return {
      label: step ? `correct ${entryTitle(state, step).label}` : 'correct',
      short: step ? `correct ${stepTitle(step, state.prescription.units.distance)}` : 'correct',
      placeholder: step ? (resultText(state, step) ?? '') : '',
      isField: true,
    }
  },
  hints: (model, mode) => saveOrCancel(isTouched(model, mode.step) ? model : { ...model, draft: '' }),
  onKey: stay,
  onText: (model, mode, value) => stay(corrected(model, mode, value.trimStart())),
  onEnter: (model, mode, context) => {
    const step = model.draft.trim() === '' ? null : stepOf(model.state, mode.step)
    if (step && model.draft === typedText(model.state, step)) return stay(recording(model))
    if (!step) return stay(recording(model))
    return readTyped(model, [step], context, mode.isAnew ? model.state.recorded.get(step.id) : undefined)
  },
  onEscape: (model, mode) =>
    stay(isTouched(model, mode.step) ? { ...model, draft: '', notice: null } : recording(model)),
}

/** Who types a figure first does not append it to the old result but types the result again, as in a question; anything
 * else edits the text. */
function corrected(model: RecorderModel, mode: ModeNamed<'correcting'>, value: string): RecorderModel {
  const { draft } = model
  const added = value.startsWith(draft) ? value.slice(draft.length) : ''
  const isInstead = draft !== '' && /^\d$/.test(added) && !isTouched(model, mode.step)
  const isFirst = draft === '' && added !== ''
  return {
    ...model,
    mode: isInstead || isFirst ? { ...mode, isAnew: true } : mode,
    draft: isInstead ? added : value,
    notice: isInstead ? `was: ${draft}` : null,
  }
}

/** Whether the field holds something else than the result to correct. */
function isTouched({ draft, state }: RecorderModel, id: string): boolean {
  const step = stepOf(state, id)
  return draft !== '' && (!step || draft !== typedText(state, step))
}

export const swapping: ModeObject<'swapping'> = {
  takesText: true,
  panel: ({ state }, _mode, _now, context) => {
    const used = namesUsed(state)
    const known = context.exercises().filter((name) => !used.includes(name))
    const lines = [...used, ...known]
    return panelWith({ title: 'another exercise from here on', lines, compact: lines })
  },
  prompt: () => ({ label: 'instead', placeholder: 'name, or goblet squat 3 x 8 @ 40 kg', isField: true }),
  hints: saveOrCancel,
  onKey: stay,
  // `x 102.5` is a load, though x alone swaps the exercise.
  onText: (model, _mode, value) =>
    model.draft === '' && /^[\s\d]$/.test(value)
      ? stay({ ...recording(model), draft: `x ${value.trimStart()}` })
      : null,
  onEnter: (model, mode, context) => {
    const name = model.draft.trim()
    if (name === '') return withNotice(model, 'type the name of the exercise; Escape cancels')
    if (isWithoutReps(`x ${name}`)) return readPrompted({ ...recording(model), draft: `x ${name}` }, context)
    const swap = readSwap(name, model.state)
    if ('message' in swap) return withNotice(model, swap.message)
    return applyEvents(
      recording(model),
      [{ type: 'exerciseSwapped', ...whenOf(model.now), step: mode.step, ...swap }],
      context,
    )
  },
}

/** An exercise as written on a line of a day: its name, and its sets and loads if it has any. */
function readSwap(
  typed: string,
  { prescription }: SessionState,
): { name: string; sets?: PrescribedSet[] } | { message: string } {
  if (!/\d\s*[x×*]\s*\d|@|\d\s*sets\b/i.test(typed)) return { name: typed }
  const { distance, mass } = prescription.units
  const reading = readPrescription(`Swap\nunits: ${distance} ${mass}\nlift\n  ${typed}\n`)
  if ('problems' in reading) return { message: reading.problems[0]?.message ?? 'it cannot be read' }
  const item = reading.prescription.parts[0]?.items[0]
  const [exercise, other] = item && 'exercises' in item ? item.exercises : []
  if (!exercise || other) return { message: 'type one exercise, such as goblet squat 3 x 8 @ 40 kg' }
  return { name: exercise.name, sets: exercise.sets }
}

function namesUsed(state: SessionState): string[] {
  return [...new Set(state.steps.flatMap((step) => (step.kind === 'set' ? [step.name] : [])))]
}

function readPrompted(model: RecorderModel, context: RecorderContext): Updated {
  const step = promptedStep(model.state)
  return step ? readTyped(model, [step], context) : withNotice(model, 'no result is asked for now')
}

export const timeLeft: ModeObject<'timeLeft'> = {
  takesText: true,
  panel: () => null,
  prompt: () => ({ label: 'minutes left', placeholder: 'for example 25', isField: true }),
  hints: saveOrCancel,
  onKey: stay,
  onEnter: (model) => offerCut(model),
}

export const cutOffered: ModeObject<'cutOffered'> = {
  takesText: false,
  panel: (_, mode) => panelWith({ title: `to fit into ${mode.minutes} min`, lines: mode.lines }),
  prompt: () => noField,
  hints: saveOrCancel,
  onKey: (model) => refused(model, 'Enter cuts, Esc cancels'),
  onEnter: (model, mode, context) =>
    applyEvents(
      recording(model),
      [{ type: 'dayCut', ...whenOf(model.now), minutes: mode.minutes, steps: mode.steps }],
      context,
    ),
}

export const noting: ModeObject<'noting'> = {
  takesText: true,
  panel: () => null,
  prompt: () => ({
    label: 'note',
    placeholder: 'pain left knee; with: flats, windy; day: slept 5 h',
    isField: true,
  }),
  hints: saveOrCancel,
  onKey: stay,
  onEnter: (model, _, context) =>
    isPlaceAsked(model)
      ? stay({ ...model, mode: { kind: 'placingNote', text: model.draft }, draft: '', notice: null })
      : noted(model, 'result', context),
}

function noted(model: RecorderModel, place: NotePlace, context: RecorderContext): Updated {
  const events = noteEvents(model, place)
  return applyEvents({ ...recording(model), notice: notedText(events, model.state) }, events, context)
}

function placeByEnter(model: RecorderModel): NotePlace {
  return notePlaces(model).some(({ place }) => place === 'result') ? 'result' : 'day'
}

export const placingNote: ModeObject<'placingNote'> = {
  takesText: false,
  panel: (model, mode) =>
    panelWith({
      title: `what is "${mode.text.trim()}" about?`,
      lines: notePlaces(model).map(({ key, text }) => `${key} ${text}`),
    }),
  prompt: () => noField,
  hints: (model) => [
    { key: 'Enter', label: placeByEnter(model) },
    ...notePlaces(model)
      .filter(({ place }) => place !== placeByEnter(model))
      .map(({ key, place }) => ({ key, label: place })),
    { key: 'Esc', label: 'back' },
  ],
  onKey: (model, mode, pressed, context) => {
    const places = notePlaces(model)
    const picked = places.find(({ key }) => key === pressed)
    if (picked) return noted({ ...model, draft: mode.text }, picked.place, context)
    return refused(
      model,
      [...places.map(({ key, place }) => `${key}: ${place}`), 'Esc: back to the field'].join(', '),
    )
  },
  onEnter: (model, mode, context) => noted({ ...model, draft: mode.text }, placeByEnter(model), context),
  onEscape: (model, mode) => stay({ ...model, mode: { kind: 'noting' }, draft: mode.text, notice: null }),
}

export const painToday: ModeObject<'painToday'> = {
  takesText: true,
  panel: (_, { pains }) => {
    const lines = pains.map(({ place, text }) => `${place}: ${text}`)
    return panelWith({ title: 'pain on earlier days, from 0 to 10', lines })
  },
  prompt: (_, { pains }) => ({
    label: `${pains[0]?.place ?? 'pain'} today`,
    placeholder: '0 to 10, Enter skips',
    isField: true,
  }),
  hints: (model) => [
    { key: 'Enter', label: model.draft === '' ? 'skip' : 'save' },
    { key: 'Esc', label: model.draft === '' ? 'skip all' : 'clear' },
  ],
  onKey: stay,
  onEnter: (model, { pains: [pain, ...others] }, context) => {
    const typed = model.draft.trim()
    if (typed !== '' && !/^(10|\d)$/.test(typed))
      return withNotice(model, `type a number from 0 to 10, not "${typed}"; Enter alone skips`)
    const next: RecorderModel = {
      ...recording(model),
      mode: others.length > 0 ? { kind: 'painToday', pains: others } : { kind: 'recording' },
    }
    if (typed === '' || !pain) return stay(next)
    const text = `${pain.place} ${typed}`
    return applyEvents(
      { ...next, notice: painText(null, text) },
      [{ type: 'noteAdded', ...whenOf(model.now), about: null, text, pain: true }],
      context,
    )
  },
}

export const closing: ModeObject<'closing'> = {
  takesText: true,
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
  onKey: stay,
  onEnter: (model, mode, context) => {
    if (mode.stage === 'confirm') {
      const minutes = minutesUnasked(model.state, mode.part)
      return closePart(recording(model), mode.part, null, minutes, context)
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
    return closePart(recording(model), mode.part, mode.effort, minutes, context)
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
