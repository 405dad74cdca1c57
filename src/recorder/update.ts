import { elapsedSeconds, type Moment, momentOf } from '../session/clock.ts'
import { isWarning } from '../session/entry/lex.ts'
import { dueEvents } from '../session/newEvents.ts'
import { isWarningTyped } from '../session/pain.ts'
import { isSignalled, signalBetween } from '../session/timers.ts'
import { applyEvents } from './apply.ts'
import { type Effect, isKeyPress, type Message, type RecorderModel, type Updated } from './model.ts'
import { handle, typingPause } from './press.ts'
import { spellingOver, withSpelling } from './spelling.ts'

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
    (at) => elapsedSeconds(at, now) >= typingPause,
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
  const isBegun = due.some((event) => isSignalled(event, momentOf(event, state.boot), now))
  // One signal a tick, however much came due.
  const rung = signalBetween(state, model.now, now) ?? (isBegun ? 'long' : null)
  const ring: Effect[] = rung ? [{ kind: 'ring', signal: rung }] : []
  const applied = applyEvents({ ...model, now }, due)
  const settled = spellingOver(rung === 'long' ? { ...applied.model, signalled: now } : applied.model)
  return { model: settled.model, effects: [...applied.effects, ...ring, ...settled.effects] }
}
