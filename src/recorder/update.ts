import type { Moment } from '../session/clock.ts'
import { dueEvents } from '../session/due.ts'
import { signalBetween } from '../session/timers.ts'
import { applied, beat, changeRest, recording } from './apply.ts'
import { command } from './command.ts'
import { enter } from './enter.ts'
import { rowOf } from './keys.ts'
import { keyInList } from './lists.ts'
import type { Effect, Message, RecorderContext, RecorderKey, RecorderModel, Updated } from './model.ts'
import { takesText } from './textModes.ts'

/** The recorder after one more message, and what it wants done. Whatever is due by the clock comes first:
 * a key never acts on a phase that is over. */
export function update(model: RecorderModel, message: Message, context: RecorderContext): Updated {
  if (message.kind === 'saved') return { model: { ...model, saved: message.saved }, effects: [] }
  const ticked = tick(model, message.now, context)
  if (message.kind === 'tick') return ticked
  const next = reacted(model, ticked.model, message, context)
  // What the key ended may be due already: a pause of no seconds.
  const settled = tick(next.model, message.now, context)
  return { model: settled.model, effects: [...ticked.effects, ...next.effects, ...settled.effects] }
}

function reacted(
  before: RecorderModel,
  model: RecorderModel,
  message: Exclude<Message, { kind: 'saved' | 'tick' }>,
  context: RecorderContext,
): Updated {
  switch (message.kind) {
    case 'typed':
      return typed(before, model, message.value, context)
    case 'pasted':
      return { model: { ...model, draft: message.text, notice: null, pressedOnce: null }, effects: [] }
    case 'key':
      return key(model, message.key, context)
  }
}

/** What is typed on just when the clock puts the half-typed text aside goes aside with it. */
function typed(
  before: RecorderModel,
  model: RecorderModel,
  value: string,
  context: RecorderContext,
): Updated {
  const isPutAside = before.draft !== '' && model.draft === '' && model.aside === before.draft
  if (isPutAside && value.startsWith(before.draft)) return { model: { ...model, aside: value }, effects: [] }
  return field(model, value, context)
}

/** How long what was just recorded is shown large, in seconds. */
export const echoSeconds = 2.5
/** How long the word "go" is shown after the long signal, in seconds. */
export const goSeconds = 1.5

function tick(model: RecorderModel, now: Moment, context: RecorderContext): Updated {
  const signal = signalBetween(model.state, model.now, now)
  const timed = { ...model, now }
  const due = applied(timed, dueEvents(model.state, now), context)
  const rings: Effect[] = signal ? [{ kind: 'ring', signal }] : []
  const effects = due.effects.filter((effect) => effect.kind !== 'ring')
  const rang = rings.length > 0 || due.effects.length > effects.length
  const ring: Effect[] = rings.length > 0 ? rings : rang ? [{ kind: 'ring', signal: 'long' }] : []
  const signalled = ring.some((effect) => effect.kind === 'ring' && effect.signal === 'long')
  return {
    model: signalled ? { ...due.model, signalled: now } : due.model,
    effects: [...effects, ...ring],
  }
}

/** The field would now hold this: text, or a command while it was empty. */
function field(model: RecorderModel, value: string, context: RecorderContext): Updated {
  const { mode } = model
  if (takesText(mode)) return { model: { ...model, draft: value, notice: null }, effects: [] }
  if (mode.kind !== 'recording') return keyInList(model, value, context)
  if (model.draft === '') {
    if (value === ' ') return beat(model, context)
    if (isLetterKey(value) || (value === 'b' && model.state.held)) return command(model, value, context)
  }
  if (model.draft === '' && value.trim() === '') return { model, effects: [] }
  return { model: { ...model, draft: value, notice: null, pressedOnce: null }, effects: [] }
}

function isLetterKey(value: string): boolean {
  return value.length === 1 && rowOf(value) !== null
}

function key(model: RecorderModel, pressed: RecorderKey, context: RecorderContext): Updated {
  const { mode } = model
  const plain = mode.kind === 'recording'
  switch (pressed) {
    case 'enter':
      return enter(model, context)
    case 'escape':
      if (mode.kind === 'question')
        return { model: { ...model, mode: mode.back, draft: '', notice: `was: ${model.draft}` }, effects: [] }
      if (mode.kind === 'several') return { model: { ...model, mode: mode.back, notice: null }, effects: [] }
      if (plain || model.draft !== '') return { model: { ...model, draft: '', notice: null }, effects: [] }
      return { model: recording(model), effects: [] }
    case 'up':
    case 'down':
      return plain
        ? changeRest(model, pressed === 'up' ? 1 : -1, context)
        : keyInList(model, pressed, context)
    case 'right':
    case 'pageDown':
      return plain && model.draft === '' ? beat(model, context) : { model, effects: [] }
  }
}
