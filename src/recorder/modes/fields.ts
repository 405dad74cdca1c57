import type { PrescribedSet } from '../../prescription/model.ts'
import { readPrescription } from '../../prescription/read.ts'
import { whenOf } from '../../session/clock.ts'
import { effortWording, readMinutes, readPartEffort } from '../../session/entry/effort.ts'
import { promptedStep } from '../../session/prompt.ts'
import { type SessionState, stepOf } from '../../session/state.ts'
import { closePart, minutesOffered, minutesUnasked, notedText, noteEvents, offerCut } from '../changes.ts'
import { openInPart } from '../keys.ts'
import { partTitle, resultText, stepTitle, typedText } from '../labels.ts'
import type { RecorderContext, RecorderModel, Updated } from '../model.ts'
import { applied, readTyped, recording } from '../record.ts'
import {
  isLoadAlone,
  type ModeObject,
  noField,
  panelWith,
  refused,
  said,
  saveOrCancel,
  stay,
} from './mode.ts'

/* The modes in which the field is about something else than the next result. */

export const correcting: ModeObject<'correcting'> = {
  takesText: true,
  panel: () => null,
  prompt: ({ state }, mode) => {
    const step = stepOf(state, mode.step)
    return {
      label: step ? `correct ${stepTitle(step, state.prescription.units.distance)}` : 'correct',
      placeholder: step ? (resultText(state, step) ?? '') : '',
      isField: true,
    }
  },
  hints: saveOrCancel,
  onKey: stay,
  onEnter: (model, mode, context) => {
    const step = model.draft.trim() === '' ? null : stepOf(model.state, mode.step)
    if (step && model.draft === typedText(model.state, step)) return stay(recording(model))
    return step ? readTyped(model, [step], context) : stay(recording(model))
  },
  onEscape: (model, mode) => {
    const step = stepOf(model.state, mode.step)
    const isTouched = model.draft !== '' && (!step || model.draft !== typedText(model.state, step))
    return stay(isTouched ? { ...model, draft: '', notice: null } : recording(model))
  },
}

export const swapping: ModeObject<'swapping'> = {
  takesText: true,
  panel: ({ state }, _mode, _now, context) => {
    const used = namesUsed(state)
    const known = context.exercises().filter((name) => !used.includes(name))
    return panelWith({ title: 'another exercise from here on', lines: [...used, ...known] })
  },
  prompt: () => ({ label: 'instead', placeholder: 'name, or goblet squat 3 x 8 @ 40 kg', isField: true }),
  hints: saveOrCancel,
  onKey: stay,
  onEnter: (model, mode, context) => {
    const name = model.draft.trim()
    if (name === '') return said(model, 'type the name of the exercise; Escape cancels')
    if (isLoadAlone(`x ${name}`)) return readAsked({ ...recording(model), draft: `x ${name}` }, context)
    const swap = readSwap(name, model.state)
    if ('message' in swap) return said(model, swap.message)
    return applied(
      recording(model),
      [{ type: 'exerciseSwapped', ...whenOf(model.now), step: mode.step, ...swap }],
      context,
    )
  },
  onEscape: null,
}

/** An exercise as it would be written on a line of a day: its name, and its sets and loads where it has some. */
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

function readAsked(model: RecorderModel, context: RecorderContext): Updated {
  const step = promptedStep(model.state)
  return step ? readTyped(model, [step], context) : said(model, 'no result is asked for now')
}

export const timeLeft: ModeObject<'timeLeft'> = {
  takesText: true,
  panel: () => null,
  prompt: () => ({ label: 'minutes left', placeholder: 'for example 25', isField: true }),
  hints: saveOrCancel,
  onKey: stay,
  onEnter: (model) => offerCut(model),
  onEscape: null,
}

export const cutOffered: ModeObject<'cutOffered'> = {
  takesText: false,
  panel: (_, mode) => panelWith({ title: `to fit into ${mode.minutes} min`, lines: mode.lines }),
  prompt: () => noField,
  hints: saveOrCancel,
  onKey: (model) => refused(model, 'Enter cuts, Esc cancels'),
  onEnter: (model, mode, context) =>
    applied(
      recording(model),
      [{ type: 'dayCut', ...whenOf(model.now), minutes: mode.minutes, steps: mode.steps }],
      context,
    ),
  onEscape: null,
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
  onEnter: (model, _, context) => {
    const events = noteEvents(model)
    return applied({ ...recording(model), notice: notedText(events) }, events, context)
  },
  onEscape: null,
}

export const closing: ModeObject<'closing'> = {
  takesText: true,
  panel: (model, mode) => {
    const { state } = model
    const part = partTitle(state, mode.part)
    const open = openInPart(model, mode.part)
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
        return panelWith({ title: open ?? `close ${part}`, lines: notDown(state, mode.part), hang: 4 })
    }
  },
  prompt: ({ state }, mode) => {
    const part = partTitle(state, mode.part)
    const offered = minutesOffered(state, mode.part)
    switch (mode.stage) {
      case 'effort':
        return {
          label: `effort of ${part}`,
          placeholder: `0 to 10, Enter: ${mode.effort ?? 'none'}`,
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
    const reading = mode.stage === 'effort' ? readPartEffort(model.draft) : readMinutes(model.draft)
    if (reading.outcome === 'error') return said(model, reading.message)
    const isTyped = model.draft.trim() !== ''
    if (mode.stage === 'effort') {
      const effort = isTyped ? reading.value : mode.effort
      return stay({ ...model, mode: { ...mode, stage: 'minutes', effort }, draft: '', notice: null })
    }
    const doubt = `${reading.value} minutes are more than 5 hours: Enter again takes them, or type them again`
    if (isTyped && (reading.value ?? 0) > mostMinutes && model.notice !== doubt) return said(model, doubt)
    const minutes = isTyped ? reading.value : minutesOffered(model.state, mode.part)
    return closePart(recording(model), mode.part, mode.effort, minutes, context)
  },
  onEscape: null,
}

/** More minutes for one part are asked about (a bound of this program's own). */
const mostMinutes = 300

/** What of a part is not recorded yet, a line each. */
function notDown(state: SessionState, part: number): string[] {
  const left = state.steps.filter(
    (step) => step.part === part && !state.recorded.has(step.id) && !state.skipped.has(step.id),
  )
  return left.map((step) => `not recorded: ${stepTitle(step)}`)
}
