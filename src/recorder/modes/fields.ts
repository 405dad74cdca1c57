import type { PrescribedSet } from '../../prescription/model.ts'
import { readPrescription } from '../../prescription/read.ts'
import type { SetStep } from '../../prescription/step.ts'
import type { RecentPain } from '../../progress/pain.ts'
import { stepTitle } from '../../session/names.ts'
import { levelPattern } from '../../session/pain.ts'
import { type SessionState, stepOf, stepUnderWay } from '../../session/state.ts'
import { wordsFor } from '../../units/words.ts'
import { applyFacts, recording } from '../apply.ts'
import { entryTitle, resultText, typedText } from '../labels.ts'
import { type RecorderModel, stay, type Updated, withNotice } from '../model.ts'
import { painText, readTyped } from '../record.ts'
import { clearKey, leaveKey, type ModeNamed, type ModeObject, panelWith, saveOrCancel } from './mode.ts'
import { noteAlone } from './notes.ts'

/* The modes in which the field is not about the next result. */

export const correcting: ModeObject<'correcting'> = {
  prompt: ({ state }, mode) => {
    const step = stepOf(state, mode.step)
    return {
      label: step ? `correct ${entryTitle(state, step).label}` : 'correct',
      short: step ? `correct ${stepTitle(state, step)}` : 'correct',
      placeholder: step ? (resultText(state, step) ?? '') : '',
    }
  },
  keys: (now, { step: id, isRetyped }) => {
    const save = (model: RecorderModel) => {
      const step = model.draft.trim() === '' ? null : stepOf(model.state, id)
      if (!step || model.draft === typedText(model.state, step)) return stay(recording(model))
      return readTyped(model, [step], isRetyped ? model.state.recorded.get(step.id) : undefined)
    }
    return saveOrCancel(save, isEdited(now, id))
  },
  onText: (model, mode, value) => stay(corrected(model, mode, value.trimStart())),
}

/** A figure typed first, or a sign of one, replaces the old result instead of being appended to it, as in a question; a
 * word typed first follows it after a space, so that it can be read; anything else edits the text. */
function corrected(model: RecorderModel, mode: ModeNamed<'correcting'>, value: string): RecorderModel {
  const { draft } = model
  const added = value.startsWith(draft) ? value.slice(draft.length) : ''
  const isUnedited = draft !== '' && !isEdited(model, mode.step)
  const isReplaced = isUnedited && /^[\dx@+=]$/.test(added)
  const isWord = isUnedited && /^\p{L}$/u.test(added)
  const isFirst = draft === '' && added !== ''
  return {
    ...model,
    mode: isReplaced || isFirst ? { ...mode, isRetyped: true } : mode,
    draft: isReplaced ? added : isWord ? `${draft} ${added}` : value,
    notice: isReplaced ? `was: ${draft}` : null,
  }
}

/** Whether the field holds something other than the result to correct. */
function isEdited({ draft, state }: RecorderModel, id: string): boolean {
  const step = stepOf(state, id)
  return draft !== '' && (!step || draft !== typedText(state, step))
}

export const swapping: ModeObject<'swapping'> = {
  panel: ({ state, context }) => {
    const used = namesUsed(state)
    // A complex of an earlier day is kept as `row + step-up`: here one exercise is chosen.
    const known = context.exercises().flatMap((name) => name.split(' + '))
    const lines = [...new Set([...used, ...known])]
    return panelWith({ title: 'another exercise from here on', lines })
  },
  prompt: () => ({ label: 'instead', placeholder: 'name, or goblet squat 3 x 8 @ 40 kg' }),
  keys: ({ draft }, { step }) => saveOrCancel((model) => swapped(model, step), draft !== ''),
  // `x 102.5` is a load, though x alone swaps the exercise.
  onText: (model, _mode, value) =>
    model.draft === '' && /^[\s\d]$/.test(value)
      ? stay({ ...recording(model), draft: `x ${value.trimStart()}` })
      : null,
}

/** Swaps the exercise of a step for the typed one. */
function swapped(model: RecorderModel, step: string): Updated {
  const remarks = noteAlone(model, stepUnderWay(model.state))
  if (remarks) return remarks
  const name = model.draft.trim()
  if (!/\p{L}/u.test(name)) return withNotice(model, 'type the name of the exercise; Escape cancels')
  const swap = readSwap(name, model.state)
  if ('message' in swap) return withNotice(model, swap.message)
  return applyFacts(recording(model), { type: 'exerciseSwapped', step, ...swap })
}

/** Signs that a name cannot have, and numbers with a unit: sets, a load, a distance. */
const isMoreThanName = new RegExp(
  String.raw`[,+@":]|[x×*]\s*\d|\d\s*sets\b|\d\s*(?:${wordsFor('kg', 'lb', 'm', 'km', 'mi', 's', 'min')})\b`,
  'i',
)

/** An exercise as written on a line of a day: its name, and its sets and loads if it has any. */
function readSwap(
  typed: string,
  { prescription }: SessionState,
): { name: string; sets?: PrescribedSet[]; side?: SetStep['side'] } | { message: string } {
  if (!isMoreThanName.test(typed)) return { name: typed }
  const { distance, mass } = prescription.units
  const reading = readPrescription(`Swap\nunits: ${distance} ${mass}\nlift\n  ${typed}\n`)
  if ('problems' in reading) return { message: reading.problems[0]?.message ?? 'it cannot be read' }
  const item = reading.prescription.parts[0]?.items[0]
  const [exercise, other] = item && 'exercises' in item ? item.exercises : []
  if (!exercise || other) return { message: 'type one exercise, such as goblet squat 3 x 8 @ 40 kg' }
  return { name: exercise.name, sets: exercise.sets, side: exercise.side }
}

function namesUsed(state: SessionState): string[] {
  return [...new Set(state.steps.flatMap((step) => (step.kind === 'set' ? step.name.split(' + ') : [])))]
}

export const painToday: ModeObject<'painToday'> = {
  panel: (_, { pains }) => {
    const lines = pains.map(({ place, text }) => `${place}: ${text}`)
    return panelWith({ title: 'pain lately, from 0 to 10', lines })
  },
  prompt: (_, { pains }) => ({
    label: `${pains[0]?.place ?? 'pain'} today`,
    placeholder: '0 to 10, Enter skips',
  }),
  keys: ({ draft }, { pains }) => [
    { key: 'Enter', label: draft === '' ? 'skip' : 'save', run: (model) => levelTyped(model, pains) },
    draft === '' ? leaveKey('skip all') : clearKey,
  ],
}

const levelAlone = new RegExp(`^${levelPattern}$`)

/** Records the level of the first of these pains, then asks about the others. */
function levelTyped(model: RecorderModel, [pain, ...others]: readonly RecentPain[]): Updated {
  const typed = model.draft.trim()
  if (typed !== '' && !levelAlone.test(typed))
    return withNotice(model, `type a number from 0 to 10, not "${typed}"; Enter alone skips`)
  const next: RecorderModel = {
    ...recording(model),
    mode: others.length > 0 ? { kind: 'painToday', pains: others } : { kind: 'recording' },
  }
  if (typed === '' || !pain) return stay(next)
  const text = `${pain.place} ${typed}`
  const notice = painText(null, text)
  return applyFacts({ ...next, notice }, { type: 'noteAdded', about: null, text, pain: true })
}
