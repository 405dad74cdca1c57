import { stepsAhead } from '../../session/state.ts'
import { inSentence } from '../../units/lists.ts'
import { recordingMode, rowOf } from '../keys.ts'
import { type Hint, type ModeObject, type RecorderModel, stay, type Updated } from '../model.ts'
import { isKey } from './keysAndPanels.ts'

/* Gives a key or a text to the open mode. */

export function modeOf({ mode }: RecorderModel): ModeObject {
  return mode.kind === 'recording' ? recordingMode : mode
}

/** Whether the field holds free text in the mode of this model, so that a letter is never a command. */
export function takesText(model: RecorderModel): boolean {
  return model.mode.kind !== 'recording' && modeOf(model).prompt !== undefined
}

/** Whether the open mode itself uses Space: as text, or as a key of its own. */
export function needsSpace(model: RecorderModel): boolean {
  return (takesText(model) && model.draft !== '') || !!modeOf(model).onText?.(model, ' ')
}

/** Whether a text in the empty field is a command. */
export function isCommand(model: RecorderModel, text: string): boolean {
  const row = rowOf(text)
  return row !== null && !row.isText?.(model)
}

/** Sets the field's text, or runs a command if the field was empty. */
export function field(model: RecorderModel, value: string): Updated {
  const { mode, draft } = model
  const changed = modeOf(model).onText?.(model, value) ?? null
  if (changed !== null) return changed
  // A Space pressed out of habit does not begin an answer.
  if (takesText(model) && draft === '' && value.trim() === '') return keyed(model, ' ')
  if (takesText(model)) return stay({ ...model, draft: value.trimStart(), notice: null })
  if (mode.kind !== 'recording' || (draft === '' && isCommand(model, value))) return keyed(model, value)
  if (draft === '' && value.trim() === '') return stay(model)
  return stay({ ...model, draft: value, notice: null, pressedOnce: null })
}

/** Handles a key that is not for the field.
 * @param pressed a character, `enter`, `escape`, `up`, `down` or `paste` */
export function keyed(model: RecorderModel, pressed: string): Updated {
  const { keys, otherKey } = modeOf(model)
  const rows = keys(model)
  const row = rows.find(({ key, also }) => isKey(key, pressed) || also === pressed)
  const done = row ? row.run(model, pressed) : otherKey?.(model, pressed)
  if (done) return done
  if (pressed === ' ' && isTimed(model)) {
    const open: RecorderModel = modeOf(model).isOfNow ? { ...model, mode: { kind: 'recording' } } : model
    return rowOf(' ')?.run(open, ' ') ?? stay(model)
  }
  return takesText(model) && pressed !== ' ' ? stay(model) : refused(model)
}

/** Whether Space marks a moment that no question, list or typed text may hold up: the end of an effort, or the start of
 * a run once the day has begun; not while a part is being closed, as a Space out of habit would begin the next one. */
export function isTimed({ state, mode }: RecorderModel): boolean {
  const { phase, finished } = state
  if (phase.kind !== 'ready') return phase.kind === 'effort' || phase.kind === 'recovery'
  const next = stepsAhead(state).find(({ kind }) => kind !== 'fuel')
  return next?.kind === 'interval' && phase.since !== null && !finished && mode.kind !== 'closing'
}

/** The keys that do something now, the most important first. */
export function keysNow(model: RecorderModel): Hint[] {
  const keys = modeOf(model).keys(model)
  const space = rowOf(' ')
  if (model.mode.kind === 'recording' || needsSpace(model) || !isTimed(model) || !space) return keys
  const hint: Hint = { key: space.key, label: space.labelNow?.(model) ?? space.label }
  // Where there is room for few, the last key is among them.
  return [...keys.slice(0, -1), hint, ...keys.slice(-1)]
}

/** A key without a meaning gets a short signal and the list of those that have one. */
export function refused(model: RecorderModel): Updated {
  const notice = pressText(keysNow(model))
  return { model: { ...model, notice }, effects: [{ kind: 'ring', signal: 'short' }] }
}

/** `Press Enter (edit), an arrow (pick) or Esc (cancel).` */
export function pressText(rows: readonly Hint[]): string {
  const keys = rows.map(({ key, label }) => `${key === '↑ ↓' ? 'an arrow' : key} (${label})`)
  return `Press ${inSentence(keys, 'or')}.`
}
