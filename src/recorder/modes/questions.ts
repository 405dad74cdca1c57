import type { ResultStep } from '../../prescription/step.ts'
import { entryTextOf, remarksText } from '../../session/entry/lex.ts'
import { stepTitle } from '../../session/names.ts'
import { type Answer, promptOf } from '../../session/prompt.ts'
import type { Recorded, SessionState } from '../../session/state.ts'
import { recording } from '../apply.ts'
import { entryTitle, resultText, typedText } from '../labels.ts'
import {
  type Mode,
  type ModeKey,
  type ModeObject,
  type RecorderModel,
  stay,
  type Updated,
  withNotice,
} from '../model.ts'
import { readField } from '../readField.ts'
import { echoText, record } from '../record.ts'
import { ask, beginsEntry, type Question, saveOrCancel } from './keysAndPanels.ts'
import { noteAlone } from './notes.ts'

/* What is asked before results are recorded, and the field with an earlier result. */

/** Records answers. `text`: the entry that they were read from; null if nothing is left to doubt. */
type Save = (model: RecorderModel, answers: Answer[], text: string | null) => Updated

/** Reads the field for these steps, in order; saves, shows or questions what it means.
 * @param before as of `readField` */
export function readTyped(
  model: RecorderModel,
  steps: readonly ResultStep[],
  save: Save,
  before?: Recorded,
): Updated {
  const reading = readField(model, steps, before)
  const saves =
    (answers: Answer[], text: string | null): ModeKey['run'] =>
    (now) =>
      save({ ...now, mode: model.mode }, answers, text)
  // A remark is kept where the result is not known without figures.
  const [step] = steps
  const about = step && model.state.passed.has(step.id) ? step : undefined
  const noted = reading.outcome === 'answer' ? null : noteAlone(model, about)
  if (noted) return noted
  switch (reading.outcome) {
    case 'error':
      return withNotice(model, reading.message)
    case 'answer': {
      const { value } = reading
      if (value.length === 1) return save(model, value, model.draft)
      const keys: ModeKey[] = [
        { key: 'Enter', label: 'save', run: saves(value, null) },
        { key: 'Esc', label: 'back', run: (now) => stay({ ...now, mode: model.mode, notice: null }) },
      ]
      const lines = linesOf(model.state, steps, value)
      return ask(model, { title: 'these results, in order', lines }, keys, typesAgain(model.mode))
    }
    case 'question': {
      const { message, suggested, insisted, isByClock } = reading
      const keys: ModeKey[] = []
      if (suggested) {
        const run = saves(suggested.value, isByClock ? null : suggested.text)
        // A time measured by the clock is kept; what was typed otherwise is confirmed.
        keys.push({ key: 'Enter', label: isByClock ? 'keep' : 'yes', run })
      }
      if (insisted) keys.push({ key: '!', label: 'as typed', run: saves(insisted, model.draft) })
      const lines = suggested && !isByClock ? [`meant: ${suggested.text}`] : []
      return askAbout(model, { title: message, lines }, keys, isByClock ? 'type it' : 'back')
    }
  }
}

function linesOf(state: SessionState, steps: readonly ResultStep[], answers: Answer[]): string[] {
  return answers.flatMap((answer, index) => {
    const step = steps[index]
    if (step === undefined) return []
    return [`${stepTitle(state, step)}  ${echoText(answer, promptOf(state, step))}`]
  })
}

/** Asks about what is in the field. Escape empties it. */
export function askAbout(model: RecorderModel, question: Question, keys: ModeKey[], leave: string): Updated {
  const { mode } = model
  const goBack: ModeKey = { key: 'Esc', label: leave, run: (now) => typedAgain(now, mode, '') }
  return ask(model, question, [...keys, goBack], typesAgain(mode))
}

/** What begins an entry does not answer a question: it starts typing the result again, and the next Enter is about
 * that. */
export function typesAgain(back: Mode): ModeObject['otherKey'] {
  return (now, pressed) => (beginsEntry.test(pressed) ? typedAgain(now, back, pressed) : null)
}

/** A pain that was typed with a result is kept; in a correction it is that of the old result. */
function typedAgain(model: RecorderModel, mode: Mode, draft: string): Updated {
  const { pain } = entryTextOf(model.draft)
  const isNew = pain !== null && mode.kind === 'recording'
  const kept = isNew ? noteAlone({ ...model, draft: remarksText({ note: null, pain }) }) : null
  const { model: after, effects } = kept ?? stay(model)
  const notice = kept ? after.notice : model.draft === '' ? null : `was: ${model.draft}`
  return { model: { ...after, mode, draft, notice }, effects }
}

/** The field holds an earlier result.
 * @param before the result, once a new figure replaced it there: whatever the new text leaves out stays */
export function correcting(step: ResultStep, before?: Recorded): Mode {
  const save = (model: RecorderModel): Updated => {
    const { state, draft } = model
    if (draft.trim() === '' || draft === typedText(state, step)) return stay(recording(model))
    return readTyped(model, [step], (now, answers) => record(now, [step], answers), before)
  }
  return {
    kind: 'correcting',
    prompt: ({ state }) => ({
      label: `correct ${entryTitle(state, step).label}`,
      short: `correct ${stepTitle(state, step)}`,
      placeholder: resultText(state, step) ?? '',
    }),
    keys: (model) => saveOrCancel(save, isEdited(model, step)),
    onText: (model, value) =>
      value.trim() === '' ? null : stay(corrected(model, step, value.trimStart(), before)),
  }
}

/** What begins an entry, typed first, replaces the old result instead of being appended to it, as in a question; a
 * word or a note typed first follows it after a space, so that it can be read; anything else edits the text. */
function corrected(
  model: RecorderModel,
  step: ResultStep,
  value: string,
  before: Recorded | undefined,
): RecorderModel {
  const { draft, mode, state } = model
  const added = value.startsWith(draft) ? value.slice(draft.length) : ''
  const isUnedited = before === undefined && draft !== '' && !isEdited(model, step)
  const isReplaced = isUnedited && added !== '"' && beginsEntry.test(added)
  const isWord = isUnedited && /^[\p{L}"]$/u.test(added)
  const isFirst = draft === '' && added !== ''
  return {
    ...model,
    mode: isReplaced || isFirst ? correcting(step, state.recorded.get(step.id)) : mode,
    draft: isReplaced ? added : isWord ? `${draft} ${added}` : value,
    notice: isReplaced ? `was: ${draft}` : null,
  }
}

/** Whether the field holds something other than the result to correct. */
function isEdited({ draft, state }: RecorderModel, step: ResultStep): boolean {
  return draft !== '' && draft !== typedText(state, step)
}
