import { speedLimits } from '../prescription/plausible.ts'
import { elapsedSeconds, type Moment, momentOf, whenOf } from '../session/clock.ts'
import { entryTextOf, isWarning, longestEntry } from '../session/entry/lex.ts'
import type { SessionEvent } from '../session/model.ts'
import { advanceFacts, dated, dueEvents } from '../session/newEvents.ts'
import { isWarningTyped } from '../session/pain.ts'
import { stepUnderWay } from '../session/state.ts'
import { latestSignal, signalBetween } from '../session/timers.ts'
import { applyEvents, takeBackTo } from './apply.ts'
import {
  type Effect,
  isKeyPress,
  type Message,
  type Press,
  type RecorderModel,
  recorderKeys,
  stay,
  type Updated,
  withNotice,
} from './model.ts'
import { enterFirst, field, isCommand, isTimed, keyed, modeOf, refused, takesText } from './modes/dispatch.ts'
import { spellingOver, spellingPause, withSpelling } from './spelling.ts'

/** Applies one message: returns the next model and its effects. Events that are due by the clock come first,
 * so that a key never acts on a phase that is over. */
export function update(model: RecorderModel, message: Message): Updated {
  const ticked = tick(model, message.now)
  if (message.kind === 'tick') return { ...ticked, model: withAside(ticked.model) }
  if (ticked.effects.some(({ kind }) => kind === 'leave')) return ticked
  const next = withSpelling(ticked.model, message, (from) => handle(from, message))
  // What the key began may be over already: a pause of 0 seconds.
  const settled = tick({ ...next.model, typing: typingAfter(model, next.model) }, message.now)
  // A sign that needs a doctor goes before whatever else the key brought up, also before its entry is asked about or
  // refused; another Enter says why.
  const isLeft = isKeyPress(message, 'enter') && [model, settled.model].every(({ draft }) => isWarning(draft))
  const isWarned =
    settled.model.events.slice(model.events.length).some(isWarningTyped) ||
    (isLeft && model.notice !== warningText)
  const answered = isWarned ? { ...settled.model, notice: warningText } : settled.model
  return { model: withAside(answered), effects: [...ticked.effects, ...next.effects, ...settled.effects] }
}

export const warningText = 'Stop. Chest pain, faintness or unusual breathlessness need a doctor now.'

function handle(model: RecorderModel, message: Exclude<Message, { kind: 'tick' }>): Updated {
  if (message.kind === 'typed')
    return withinLimit(message.value, (value) => field({ ...model, lastPress: null }, value))
  return takesPress(model, message.press) ? pressed(model, message.press) : stay(model)
}

/** Whether the recorder handles a key; if not, it edits the text in the field. */
export function takesPress(model: RecorderModel, press: Press): boolean {
  const { mode, draft } = model
  const isRecording = mode.kind === 'recording'
  switch (press.kind) {
    case 'paste':
      return isRecording ? draft === '' : !takesText(model)
    case 'text':
      if (press.text === ' ') return draft === '' || (isRecording ? isPressedAgain(model) : !takesText(model))
      if (takesText(model)) return false
      return !isRecording || (draft === '' && isCommand(model, press.text))
    case 'named':
      return press.name === 'right'
        ? isRecording && draft === ''
        : recorderKeys.some((name) => name === press.name)
  }
}

function pressed(model: RecorderModel, press: Press): Updated {
  const { mode, draft, lastPress, now } = model
  const isRecording = mode.kind === 'recording'
  if (press.kind === 'paste') {
    if (!isRecording || draft !== '') return keyed(model, 'paste')
    return withinLimit(press.text.trim(), (text) =>
      stay({ ...model, draft: text, notice: null, pressedOnce: null }),
    )
  }
  const name = press.kind === 'text' ? press.text : press.name
  const act = (now: RecorderModel) => acted(now, press, name)
  if (repeated.has(name)) return act({ ...model, lastPress: null })
  const last = lastPress?.name === name ? lastPress : null
  const since = last ? elapsedSeconds(last.at, now) : Number.POSITIVE_INFINITY
  if (last && since < keyRepeatSeconds && (last.isBare || last.before)) {
    const held: RecorderModel = { ...model, lastPress: { name, at: now, isBare: true, before: null } }
    return last.before ? takeBackTo(last.before, held) : stay(held)
  }
  const isBare = spaces.has(name) || (isRecording && draft === '')
  if (name === ' ' && isTypedOn(model))
    return refused({ ...model, lastPress: { name, at: now, isBare, before: null } })
  const mayBeRepeat = since >= keyRepeatSeconds && since < firstRepeatSeconds
  return act({ ...model, lastPress: { name, at: now, isBare, before: mayBeRepeat ? model : null } })
}

/** Whether a Space only goes on with what is typed into a list, or behind the key of a field: `5 x 50`, `n felt good`. */
function isTypedOn(model: RecorderModel): boolean {
  const { mode, draft, lastPress, now } = model
  if (mode.kind === 'recording' || mode.kind === 'help' || draft !== '') return false
  if (modeOf(model).onText?.(model, ' ')) return false
  return /^\S$/u.test(lastPress?.name ?? '') && elapsedSeconds(lastPress?.at ?? now, now) < spellingPause
}

/** The keys that move on. */
const spaces = new Set([' ', 'right', 'pageDown'])

function acted(model: RecorderModel, press: Press, name: string): Updated {
  const { mode, draft } = model
  const does = spaces.has(name) ? ' ' : name
  if (draft === '' && press.kind === 'text') return field(model, does)
  if (does !== ' ' || draft === '') return keyed(model, does)
  const isField = mode.kind === 'recording' || takesText(model)
  if (isField && !isTimed(model)) return withNotice(model, enterFirst)
  return press.kind === 'text' && isField ? spaceAgain(model) : keyed(model, does)
}

/** Whether the last Space became text, outside a note, while it could have marked a moment. */
function isPressedAgain(model: RecorderModel): boolean {
  return isTimed(model) && model.draft.endsWith(' ') && entryTextOf(model.draft).problem === null
}

/** A Space behind a typed text is text at first. Pressed again, the first one marked the end or the start of an effort,
 * unless it came too soon after the last letter; then this one does. This one also ends what the first one began, where
 * a runner can be there by now. */
function spaceAgain(model: RecorderModel): Updated {
  const { state, typing, now, draft } = model
  // Sooner, it is a slip of the thumb, or the key is held down.
  if (typing && elapsedSeconds(typing.at, now) < firstRepeatSeconds) return field(model, `${draft} `)
  const { since } = state.phase
  const wasMeant = typing !== null && elapsedSeconds(typing.before, typing.at) >= spellingPause
  const at = wasMeant && since && elapsedSeconds(since, typing.at) > 0 ? typing.at : now
  const first = applyEvents(
    { ...model, draft: draft.trimEnd(), notice: null },
    dated(advanceFacts(state, at), whenOf(at)),
  )
  const step = stepUnderWay(first.model.state)
  const meters = step?.kind === 'interval' ? step.meters : null
  if (meters === null || meters / speedLimits('run', meters).fast > elapsedSeconds(at, now)) return first
  const second = keyed(first.model, ' ')
  return { model: second.model, effects: [...first.effects, ...second.effects] }
}

/** Keys that may follow each other at once: every other one begins, ends or changes something once while it is held. */
const repeated = new Set(['up', 'down', 'q'])
/** Seconds. A keyboard repeats a held key faster than a finger presses it again. */
const keyRepeatSeconds = 0.12
/** The first repeat comes after a longer wait, as the second of two presses might: only the next one shows that the key
 * is held down. */
const firstRepeatSeconds = 0.8

/** Puts pasted lines on one, cuts the text to what the field holds, and says so. */
function withinLimit(text: string, take: (value: string) => Updated): Updated {
  const value = text.replaceAll('\n', ' ')
  const updated = take(value.slice(0, longestEntry))
  if (value.length <= longestEntry) return updated
  const notice = `an entry has at most ${longestEntry} characters: the rest was left out`
  return { ...updated, model: { ...updated.model, notice } }
}

/** When the text in the field was begun and last changed, after a key.
 * @param before the model before the key */
function typingAfter(before: RecorderModel, { draft, typing, now }: RecorderModel): RecorderModel['typing'] {
  if (draft === '') return null
  if (draft === before.draft) return typing
  const last = before.draft === '' ? null : typing
  return { from: last?.from ?? now, at: now, before: last?.at ?? now }
}

/** Puts an entry aside that was begun before the effort under way, once that runs and no letter was typed for a while,
 * so that Space ends the effort. It returns to the empty field once no effort runs. */
function withAside(model: RecorderModel): RecorderModel {
  const { mode, draft, aside, typing, now } = model
  const { phase } = model.state
  if (mode.kind !== 'recording') return model
  if (phase.kind !== 'effort')
    return aside !== null && draft === '' ? { ...model, draft: aside, aside: null } : model
  const isBefore = typing === null || elapsedSeconds(typing.from, phase.since) > 0
  const isQuiet = [phase.since, typing?.at ?? phase.since].every(
    (at) => elapsedSeconds(at, now) >= spellingPause,
  )
  const isLeftOver = draft.trim() !== '' && isBefore && isQuiet
  return isLeftOver ? { ...model, aside: draft, draft: '', typing: null } : model
}

/** Seconds for which a recorded result is shown large. */
export const echoSeconds = 2.5
/** Seconds for which the word "go" is shown after the long signal. */
export const goSeconds = 1.5

function tick(model: RecorderModel, now: Moment): Updated {
  const { state } = model
  const due = dueEvents(state, now)
  const isBegun = due.some((event) => isBegunByClock(event, momentOf(event, state.boot), now))
  // One signal a tick, however much came due.
  const rung = signalBetween(state, model.now, now) ?? (isBegun ? 'long' : null)
  const ring: Effect[] = rung ? [{ kind: 'ring', signal: rung }] : []
  const applied = applyEvents({ ...model, now }, due)
  const settled = spellingOver(rung === 'long' ? { ...applied.model, signalled: now } : applied.model)
  return { model: settled.model, effects: [...applied.effects, ...ring, ...settled.effects] }
}

/** Whether the clock has begun something, not too long ago for a signal. */
function isBegunByClock(event: SessionEvent, at: Moment | null, now: Moment): boolean {
  if ((event.type !== 'effortBegun' && event.type !== 'groupBegun') || !event.auto) return false
  return at !== null && elapsedSeconds(at, now) <= latestSignal
}
