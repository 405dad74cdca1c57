import { advance } from './apply.ts'
import { rowOf } from './keys.ts'
import { type RecorderModel, stay, type Updated } from './model.ts'
import { keyed, modeOf, takesText } from './modes/modes.ts'

/** Sets the field's text, or runs a command if the field was empty. */
export function field(model: RecorderModel, value: string): Updated {
  const { mode } = model
  const changed = modeOf(mode).onText?.(model, mode, value) ?? null
  if (changed !== null) return changed
  // A Space pressed by habit is not the beginning of an answer.
  if (takesText(model)) return stay({ ...model, draft: value.trimStart(), notice: null })
  if (mode.kind !== 'recording') return keyed(model, value)
  if (model.draft === '') {
    if (value === ' ') return advance(model)
    if (isCommand(model, value)) return keyed(model, value)
    if (value.trim() === '') return stay(model)
  }
  return stay({ ...model, draft: value, notice: null, pressedOnce: null })
}

/** Whether a text in the empty field is a command. */
export function isCommand(model: RecorderModel, value: string): boolean {
  const row = value.length === 1 ? rowOf(value) : null
  return row !== null && !row.isText?.(model)
}
