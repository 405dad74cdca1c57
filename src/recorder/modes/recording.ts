import { describeEmpty } from '../../session/entry/entry.ts'
import { promptedStep, promptOf } from '../../session/prompt.ts'
import { pendingSteps, stepUnderWay } from '../../session/state.ts'
import { keyRows, rowOf } from '../keys.ts'
import { entryTitle, warmUpPlace } from '../labels.ts'
import { closesText, holdUnderWay, isOffered, stay, stepNow, withNotice } from '../model.ts'
import { enter } from './enter.ts'
import { escapeKey, type ModeObject } from './mode.ts'

/** The field is about the next result; a letter in the empty field is a command. */
export const recordingMode: ModeObject<'recording'> = {
  prompt: ({ state, draft }) => {
    const step = promptedStep(state)
    const warmUp = stepNow(state)
    if (warmUp?.kind === 'warm-up' && draft === '' && pendingSteps(state).length === 0) {
      const { number, of } = warmUpPlace(state, warmUp)
      return {
        label: `warm-up set ${number} of ${of}`,
        short: `warm-up ${number}/${of}`,
        placeholder: `no result: Space ${stepUnderWay(state) === warmUp ? 'ends it' : 'begins'}`,
      }
    }
    const prompt = step ? promptOf(state, step.id) : null
    if (!step || !prompt) return { label: 'all recorded', placeholder: closesText(state) }
    const isHeld = holdUnderWay(state)?.id === step.id
    const offered = isHeld ? 'as long as held' : isOffered(state, step) ? describeEmpty(prompt) : null
    return {
      ...entryTitle(state, step),
      placeholder: offered === null ? 'type the result' : `Enter: ${offered}`,
    }
  },
  keys: (model) => {
    const isTyping = model.draft !== ''
    const rows = keyRows
      .filter((row) => row.unavailable(model) === null && (!isTyping || row.whileTyping))
      .sort((one, other) => one.rank - other.rank)
      .map((row) => ({ ...row, label: (!isTyping && row.labelNow?.(model)) || row.label }))
    return isTyping ? [...rows, escapeKey(true, '')] : rows
  },
  /** A key that does nothing now says why; one that is no command does nothing. */
  otherKey: (model, _, pressed) => {
    if (pressed === 'enter') return enter(model, false)
    const cleared = { ...model, notice: null, pressedOnce: null }
    const reason = rowOf(pressed)?.unavailable(model) ?? null
    return reason === null ? stay(cleared) : withNotice(cleared, reason)
  },
}
