import { stepTitle } from '../../session/names.ts'
import { type Answer, promptOf } from '../../session/prompt.ts'
import { stepOf } from '../../session/state.ts'
import { withoutOffer } from '../labels.ts'
import { type Mode, type RecorderModel, stay, type Updated } from '../model.ts'
import { echoText, record } from '../record.ts'
import { insteadOfResult } from './enter.ts'
import { type ModeKey, type ModeNamed, type ModeObject, panelWith } from './mode.ts'

/* The modes that ask before results are recorded. */

export const question: ModeObject<'question'> = {
  panel: (_, { message, suggested, byClock }) =>
    panelWith({ title: message, lines: suggested && !byClock ? [`meant: ${suggested.text}`] : [] }),
  keys: (_, mode) => {
    const { suggested, insisted, corrects, back } = mode
    const keys: ModeKey[] = []
    if (suggested)
      keys.push({
        key: 'Enter',
        // A time measured by the clock is kept; what was typed otherwise is confirmed.
        label: mode.byClock ? 'keep' : 'yes',
        run: (model) => accept(model, mode, suggested.text, suggested.value),
      })
    if (insisted)
      keys.push({ key: '!', label: 'as typed', run: (model) => accept(model, mode, model.draft, insisted) })
    if (corrects !== undefined) {
      const correcting: Mode = { kind: 'correcting', step: corrects, isRetyped: true }
      keys.push({
        key: 'e',
        label: 'correct',
        run: (model) => stay({ ...model, mode: correcting, notice: null }),
      })
    }
    const goBack = (model: RecorderModel) => stay({ ...model, mode: back, draft: '', notice: wasText(model) })
    const label = mode.byClock ? 'type it' : mode.isLast ? 'no' : 'back'
    return [...keys, { key: 'Esc', label, run: goBack }]
  },
  otherKey: (model, mode, pressed) => retyped(model, mode.back, pressed),
}

/** Takes the confirmed answer as if it had been typed in the first place: it may be the load of the coming set, or
 * need another question. */
function accept(model: RecorderModel, mode: ModeNamed<'question'>, text: string, answers: Answer[]): Updated {
  const [answer, ...others] = answers
  const step = stepOf(model.state, mode.steps[0] ?? '')
  const isTyped = mode.back.kind === 'recording' && !mode.isLast && !mode.byClock
  const instead =
    isTyped && answer && others.length === 0 && step
      ? insteadOfResult({ ...model, mode: mode.back, draft: text }, step, answer)
      : null
  return instead ?? record(model, mode.steps, answers)
}

/** A digit, or a sign that can begin an entry, does not answer the question: it starts typing the result again, and
 * the next Enter is about that. Without its sign `@9` would be nine repetitions. Null for any other key. */
function retyped(model: RecorderModel, back: Mode, pressed: string): Updated | null {
  return /^[\d@+="-]$/.test(pressed)
    ? stay({ ...model, mode: back, draft: pressed, notice: wasText(model) })
    : null
}

function wasText({ draft }: RecorderModel): string | null {
  return draft === '' ? null : `was: ${draft}`
}

export const several: ModeObject<'several'> = {
  panel: ({ state }, mode) => {
    const lines = mode.answers.flatMap((answer, index) => {
      const step = stepOf(state, mode.steps[index] ?? '')
      const prompt = step && promptOf(state, step.id)
      return step && prompt ? [`${stepTitle(state, step)}  ${echoText(answer, withoutOffer(prompt))}`] : []
    })
    return panelWith({ title: 'these results, in order', lines })
  },
  keys: (_, mode) => {
    const { steps, answers, back } = mode
    return [
      { key: 'Enter', label: 'save', run: (model) => record(model, steps, answers) },
      { key: 'Esc', label: 'back', run: (model) => stay({ ...model, mode: back, notice: null }) },
    ]
  },
  otherKey: (model, mode, pressed) => retyped(model, mode.back, pressed),
}
