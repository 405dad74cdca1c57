import { describeEmpty } from '../session/entry/print.ts'
import { askedOf, askedStep } from '../session/prompt.ts'
import { stepOf } from '../session/state.ts'
import { holdUnderWay, isOffered } from './availability.ts'
import { minutesOffered } from './changes.ts'
import { partTitle, resultText, stepTitle } from './labels.ts'
import type { RecorderModel } from './model.ts'

/** What stands beside the field: which result is asked for, and what Enter alone would record. */
export interface EntryLabel {
  label: string
  placeholder: string
  /** False where keys pick from a list instead. */
  isField: boolean
}

export function entryOf(model: RecorderModel): EntryLabel {
  const { state, mode } = model
  const unit = state.prescription.units.distance
  switch (mode.kind) {
    case 'recording': {
      const step = askedStep(state)
      const asked = step ? askedOf(state, step.id) : null
      if (!step || !asked) return { label: 'all recorded', placeholder: 'f closes the part', isField: true }
      const isHeld = holdUnderWay(state)?.id === step.id
      const offered = isHeld ? 'as long as held' : isOffered(state, step) ? describeEmpty(asked) : null
      return {
        label: stepTitle(step, unit),
        placeholder: offered === null ? 'type the result' : `Enter: ${offered}`,
        isField: true,
      }
    }
    case 'correcting': {
      const step = stepOf(state, mode.step)
      return {
        label: step ? `correct ${stepTitle(step, unit)}` : 'correct',
        placeholder: step ? (resultText(state, step) ?? '') : '',
        isField: true,
      }
    }
    case 'swapping':
      return { label: 'instead', placeholder: 'name of the exercise', isField: true }
    case 'timeLeft':
      return { label: 'minutes left', placeholder: 'for example 25', isField: true }
    case 'noting':
      return {
        label: 'note',
        placeholder: 'pain left knee; with: flats, windy; day: slept 5 h',
        isField: true,
      }
    case 'closing': {
      if (mode.stage === 'effort')
        return {
          label: `effort of ${partTitle(state, mode.part)}`,
          placeholder: `0 to 10, Enter: ${mode.effort ?? 'none'}`,
          isField: true,
        }
      if (mode.stage === 'confirm')
        return {
          label: `close ${partTitle(state, mode.part)}`,
          placeholder: 'Enter closes it',
          isField: true,
        }
      const offered = minutesOffered(state, mode.part)
      return {
        label: 'its minutes',
        placeholder: offered === null ? 'Enter: not known' : `Enter: ${offered}`,
        isField: true,
      }
    }
    default:
      return { label: '', placeholder: '', isField: false }
  }
}
