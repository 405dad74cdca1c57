import { dueEvents } from '../session/advance.ts'
import { elapsedSeconds, type Moment } from '../session/clock.ts'
import { longestEntry } from '../session/entry/lex.ts'
import { signalBetween } from '../session/timers.ts'
import { advance, applyEvents, recording } from './apply.ts'
import { field, isCommand } from './field.ts'
import {
  type Effect,
  type Message,
  type Press,
  type RecorderContext,
  type RecorderKey,
  type RecorderModel,
  recorderKeys,
  stay,
  type Updated,
} from './model.ts'
import { keyed, modeOf, takesText } from './modes/modes.ts'
import { spellingOver, withSpelling } from './spelling.ts'

/** Applies one message: returns the next model and its effects. Events that are due by the clock come first,
 * so that a key never acts on a phase that is over. */
export function update(model: RecorderModel, message: Message, context: RecorderContext): Updated {
  const ticked = tick(model, message.now, context)
  if (message.kind === 'tick' || ticked.effects.some(({ kind }) => kind === 'leave')) return ticked
  const next = withSpelling(ticked.model, message, context, (from) => handle(model, from, message, context))
  // What the key began may be over already: a pause of 0 seconds.
  const settled = tick(next.model, message.now, context)
  return { model: settled.model, effects: [...ticked.effects, ...next.effects, ...settled.effects] }
}

/** @param before the model that the athlete saw when the key was pressed; `model` also has what was due by the clock or
 * waited for this key (`withSpelling`) */
function handle(
  before: RecorderModel,
  model: RecorderModel,
  message: Exclude<Message, { kind: 'tick' }>,
  context: RecorderContext,
): Updated {
  switch (message.kind) {
    case 'typed':
      return withinLimit(message.value, (value) => typed(before, model, value, context))
    case 'press':
      return takesPress(model, message.press) ? pressed(model, message.press, context) : stay(model)
  }
}

/** Whether the recorder handles a key; if not, it edits the text in the field. */
export function takesPress(model: RecorderModel, press: Press): boolean {
  const { mode, draft } = model
  const isRecording = mode.kind === 'recording'
  switch (press.kind) {
    case 'paste':
      return isRecording ? draft === '' : !takesText(model)
    case 'text':
      if (takesText(model)) return false
      return !isRecording || (draft === '' && (press.text === ' ' || isCommand(model, press.text)))
    case 'named':
      return press.name === 'right'
        ? isRecording && draft === ''
        : recorderKeys.some((name) => name === press.name)
  }
}

function pressed(model: RecorderModel, press: Press, context: RecorderContext): Updated {
  const isBare = model.draft === '' && model.mode.kind === 'recording'
  if (press.kind === 'paste') {
    if (!isBare) return keyed(model, 'paste', context)
    return withinLimit(press.text, (draft) => stay({ ...model, draft, notice: null, pressedOnce: null }))
  }
  const name = press.kind === 'text' ? press.text : press.name
  const isOnce = isBare && once.has(name)
  const last = model.lastPress
  const isHeldDown = isOnce && last?.name === name && elapsedSeconds(last.at, model.now) < keyRepeatSeconds
  const remembered = isOnce ? { ...model, lastPress: { name, at: model.now } } : model
  if (isHeldDown) return stay(remembered)
  return press.kind === 'text'
    ? field(remembered, name, context)
    : key(remembered, name as RecorderKey, context)
}

/** Keys that must not repeat while held down: each press begins, ends or records something. */
const once = new Set([' ', 'enter', 'pageDown'])
/** Seconds. A keyboard repeats a held key faster than a finger presses it again. */
const keyRepeatSeconds = 0.12

/** Cuts a text to what the field holds, and says so. */
function withinLimit(value: string, take: (value: string) => Updated): Updated {
  const updated = take(value.slice(0, longestEntry))
  if (value.length <= longestEntry) return updated
  const notice = `an entry has at most ${longestEntry} characters: the rest was left out`
  return { ...updated, model: { ...updated.model, notice } }
}

/** The field's new text. If the clock has just put the half-typed text aside, the letters that continue it follow it
 * there.
 * @param before as for `handle` */
function typed(
  before: RecorderModel,
  model: RecorderModel,
  value: string,
  context: RecorderContext,
): Updated {
  const isJustPutAside = before.draft !== '' && model.draft === '' && model.aside === before.draft
  if (isJustPutAside && value.startsWith(before.draft)) return stay({ ...model, aside: value })
  return field(model, value, context)
}

/** Seconds for which a recorded result is shown large. */
export const echoSeconds = 2.5
/** Seconds for which the word "go" is shown after the long signal. */
export const goSeconds = 1.5

function tick(model: RecorderModel, now: Moment, context: RecorderContext): Updated {
  const signal = signalBetween(model.state, model.now, now)
  const timed = { ...model, now }
  const due = applyEvents(timed, dueEvents(model.state, now), context)
  // One signal a tick, however much came due.
  const effects = due.effects.filter((effect) => effect.kind !== 'ring')
  const rung = signal ?? (due.effects.length > effects.length ? 'long' : null)
  const ring: Effect[] = rung ? [{ kind: 'ring', signal: rung }] : []
  const settled = spellingOver(rung === 'long' ? { ...due.model, signalled: now } : due.model, context)
  return { model: settled.model, effects: [...effects, ...ring, ...settled.effects] }
}

function key(model: RecorderModel, pressed: RecorderKey, context: RecorderContext): Updated {
  const { mode, draft } = model
  const { onEnter, onEscape } = modeOf(mode)
  switch (pressed) {
    case 'enter':
      return onEnter(model, mode, context)
    case 'escape':
      if (onEscape) return onEscape(model, mode)
      return stay(draft === '' ? recording(model) : { ...model, draft: '', notice: null })
    case 'up':
    case 'down':
      return keyed(model, pressed, context)
    case 'right':
    case 'pageDown':
      return mode.kind === 'recording' && draft === '' ? advance(model, context) : stay(model)
  }
}
