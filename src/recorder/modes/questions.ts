import { type Answer, promptOf } from '../../session/prompt.ts'
import { stepOf } from '../../session/state.ts'
import { clockLine } from '../clockText.ts'
import { stepTitle, withoutOffer } from '../labels.ts'
import {
  type Mode,
  type RecorderContext,
  type RecorderModel,
  stay,
  type Updated,
  withNotice,
} from '../model.ts'
import { echoText, take } from '../record.ts'
import { insteadOfResult } from './insteadOfResult.ts'
import { type ModeNamed, type ModeObject, panelWith, refused } from './mode.ts'

/* The modes that ask before results are recorded. */

export const question: ModeObject<'question'> = {
  panel: ({ state }, mode, now) =>
    panelWith({
      title: mode.message,
      lines: [
        ...(mode.suggested && !mode.byClock ? [`meant: ${mode.suggested.text}`] : []),
        clockLine(state, now),
      ],
    }),
  hints: (_, mode) => [
    ...(mode.suggested ? [{ key: 'Enter', label: acceptWord(mode) }] : []),
    ...(mode.insisted ? [{ key: '!', label: 'as typed' }] : []),
    ...(mode.corrects === undefined ? [] : [{ key: 'e', label: 'correct' }]),
    { key: 'Esc', label: 'back' },
  ],
  onKey: (model, mode, pressed, context) => {
    if (pressed === 'e' && mode.corrects !== undefined)
      return stay({ ...model, mode: { kind: 'correcting', step: mode.corrects, isAnew: true }, notice: null })
    if (pressed === '!') return accept(model, mode, model.draft, mode.insisted, context)
    const keys = [
      ...(mode.suggested ? [`Enter ${acceptWord(mode)}`] : []),
      ...(mode.insisted ? ['! as typed'] : []),
      'Esc back',
    ]
    return typedAnew(model, mode.back, pressed) ?? refused(model, `Answer first: ${keys.join(', ')}`)
  },
  onEnter: (model, mode, context) => {
    if (!mode.suggested && mode.insisted)
      return withNotice(model, '! takes it as typed, Esc goes back to the field')
    return accept(model, mode, mode.suggested?.text ?? '', mode.suggested?.value ?? null, context)
  },
  onEscape: (model, mode) =>
    stay({
      ...model,
      mode: mode.back,
      draft: '',
      notice: wasText(model),
    }),
}

/** Takes the answer to a question about what was typed as if that had been typed at once: it may be the load of the
 * coming set, or need another question. */
function accept(
  model: RecorderModel,
  mode: ModeNamed<'question'>,
  text: string,
  answers: Answer[] | null,
  context: RecorderContext,
): Updated {
  const [answer, ...others] = answers ?? []
  const step = stepOf(model.state, mode.steps[0] ?? '')
  const isTyped = mode.back.kind === 'recording' && !mode.isLast && !mode.byClock
  const instead =
    isTyped && answer && others.length === 0 && step
      ? insteadOfResult({ ...model, mode: mode.back, draft: text }, step, context, answer)
      : null
  return instead ?? take(model, mode.steps, answers, context)
}

/** A digit does not answer the question: it begins the result anew, and the next Enter is about that. Null for any other
 * key. */
function typedAnew(model: RecorderModel, back: Mode, pressed: string): Updated | null {
  return /^\d$/.test(pressed) ? stay({ ...model, mode: back, draft: pressed, notice: wasText(model) }) : null
}

function wasText({ draft }: RecorderModel): string | null {
  return draft === '' ? null : `was: ${draft}`
}

/** A time measured by the clock is kept; what was typed otherwise is confirmed. */
function acceptWord(mode: ModeNamed<'question'>): string {
  return mode.byClock ? 'keep' : 'yes'
}

export const several: ModeObject<'several'> = {
  panel: ({ state }, mode) => {
    const unit = state.prescription.units.distance
    const results = mode.answers.flatMap((answer, index) => {
      const step = stepOf(state, mode.steps[index] ?? '')
      const prompt = step && promptOf(state, step.id)
      return step && prompt ? [{ step, text: echoText(answer, withoutOffer(prompt), unit) }] : []
    })
    return panelWith({
      title: 'these results, in order',
      lines: results.map(({ step, text }) => `${stepTitle(step, unit)}  ${text}`),
      compact: results.map(({ text }, index) => `${index + 1}: ${text}`),
    })
  },
  hints: () => [
    { key: 'Enter', label: 'save' },
    { key: 'Esc', label: 'back' },
  ],
  onKey: (model, mode, pressed) =>
    typedAnew(model, mode.back, pressed) ?? refused(model, 'Enter saves them, Esc goes back to the field'),
  onEnter: (model, mode, context) => take(model, mode.steps, mode.answers, context),
  onEscape: (model, mode) => stay({ ...model, mode: mode.back, notice: null }),
}
