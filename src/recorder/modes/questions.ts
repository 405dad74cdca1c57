import type { Moment } from '../../session/clock.ts'
import { type SessionState, stepOf } from '../../session/state.ts'
import { formatClock } from '../../units/duration.ts'
import { takeBack } from '../changes.ts'
import { clockText } from '../clockText.ts'
import { stepTitle } from '../labels.ts'
import { take } from '../record.ts'
import { type ModeObject, noField, panelWith, refused, saveOrCancel, stay } from './mode.ts'

/* The modes that ask before something is done: a doubted value, several results at once, an undone clock step. */

export const question: ModeObject<'question'> = {
  takesText: false,
  panel: ({ state }, mode, now) =>
    panelWith({
      title: mode.message,
      lines: [
        ...(mode.suggested && !mode.byClock ? [`meant: ${mode.suggested.text}`] : []),
        clockLine(state, now),
      ],
    }),
  prompt: () => noField,
  hints: (_, mode) => [
    ...(mode.suggested ? [{ key: 'Enter', label: mode.byClock ? 'keep' : 'yes' }] : []),
    ...(mode.insisted ? [{ key: '!', label: 'as typed' }] : []),
    ...(mode.corrects === undefined ? [] : [{ key: 'e', label: 'correct' }]),
    { key: 'Esc', label: mode.byClock ? 'type it' : 'retype' },
  ],
  onKey: (model, mode, pressed, context) => {
    if (pressed === 'e' && mode.corrects !== undefined)
      return stay({ ...model, mode: { kind: 'correcting', step: mode.corrects }, notice: null })
    if (pressed === '!') return take(model, mode.steps, mode.insisted, context)
    const keys = [
      ...(mode.suggested ? ['Enter: yes'] : []),
      ...(mode.insisted ? ['!: as typed'] : []),
      'Esc: back to the field',
    ]
    return refused(model, keys.join(', '))
  },
  onEnter: (model, mode, context) => {
    if (!mode.suggested && mode.insisted)
      return { model: { ...model, notice: '! takes it as typed, Escape types it again' }, effects: [] }
    return take(model, mode.steps, mode.suggested?.answers ?? null, context)
  },
  onEscape: (model, mode) => ({
    model: {
      ...model,
      mode: mode.back,
      draft: '',
      notice: model.draft === '' ? null : `was: ${model.draft}`,
    },
    effects: [],
  }),
}

export const several: ModeObject<'several'> = {
  takesText: false,
  panel: ({ state }, mode) =>
    panelWith({
      title: 'these results, in order',
      lines: mode.answers.map((answer, index) => {
        const step = stepOf(state, mode.steps[index] ?? '')
        const seconds = answer.kind === 'piece' ? answer.result.seconds : null
        const result = seconds === null ? 'done' : formatClock(seconds, 1).replace(/\.0$/, '')
        return `${step ? stepTitle(step, state.prescription.units.distance) : ''}  ${result}`
      }),
    }),
  prompt: () => noField,
  hints: saveOrCancel,
  onKey: (model) => refused(model, 'Enter saves them, Esc goes back to the field'),
  onEnter: (model, mode, context) => take(model, mode.steps, mode.answers, context),
  onEscape: (model, mode) => ({ model: { ...model, mode: mode.back, notice: null }, effects: [] }),
}

export const undoing: ModeObject<'undoing'> = {
  takesText: false,
  panel: ({ state }, mode, now) =>
    panelWith({ title: `take back ${mode.what}?`, lines: [clockLine(state, now)] }),
  prompt: () => noField,
  hints: () => [
    { key: 'u', label: 'undo' },
    { key: 'Esc', label: 'cancel' },
  ],
  onKey: (model, mode, pressed, context) => {
    if (pressed === 'u') return takeBack(model, mode, context)
    return pressed === 'up' || pressed === 'down'
      ? stay(model)
      : refused(model, 'u takes it back, Esc cancels')
  },
  onEnter: takeBack,
  onEscape: null,
}

/** The clock runs on under a question. */
function clockLine(state: SessionState, now: Moment): string {
  const { label, text } = clockText(state, now)
  return `${label} ${text}`
}
