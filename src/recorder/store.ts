import { elapsedSeconds, type Moment } from '../session/clock.ts'
import type { Saved } from '../session/model.ts'
import { clockSeconds, countdownOf } from '../session/timers.ts'
import type { Effect, Message, Press, RecorderModel } from './model.ts'
import { takesPress, typingPause } from './press.ts'
import { echoSeconds, goSeconds, update } from './update.ts'

/** How a recorder performs its effects. */
export interface EffectHandlers {
  now(): Moment
  /** Saves these events before it returns, or says why it could not. */
  append(events: Extract<Effect, { kind: 'append' }>['events']): Saved
  retry(): Saved
  ring(signal: 'short' | 'long'): void
  leave(): void
}

/** A running recorder: a screen reads it and listens; keys and clock ticks are sent to it. */
export interface RecorderStore {
  get(): RecorderModel
  subscribe(listener: () => void): () => void
  typed(value: string): void
  /** Handles a key of the keyboard. Returns false if the key is for the field's editor. */
  press(press: Press): boolean
  /** Treats keys that arrived together as keys of one moment, however long handling them takes. */
  together(apply: () => void): void
  tick(): void
  /** Milliseconds until something on the screen changes without a key. */
  wakeIn(): number
}

export function createRecorderStore(first: RecorderModel, handlers: EffectHandlers): RecorderStore {
  let model = first
  const listeners = new Set<() => void>()
  let arrived: Moment | null = null
  const nowOf = () => arrived ?? handlers.now()

  const send = (message: Message) => {
    const next = update(model, message)
    model = next.model
    for (const effect of next.effects) {
      if (effect.kind === 'append') model = { ...model, saved: handlers.append(effect.events) }
      else if (effect.kind === 'ring') handlers.ring(effect.signal)
      else handlers.leave()
    }
    for (const listener of listeners) listener()
  }

  return {
    get: () => model,
    subscribe: (listener) => {
      listeners.add(listener)
      return () => void listeners.delete(listener)
    },
    typed: (value) => send({ kind: 'typed', value, now: nowOf() }),
    press: (press) => {
      if (!takesPress(model, press)) return false
      send({ kind: 'press', press, now: nowOf() })
      return true
    },
    together: (apply) => {
      arrived = handlers.now()
      try {
        apply()
      } finally {
        arrived = null
      }
    },
    tick: () => {
      if (!model.saved.ok) model = savedAgain(model, handlers.retry())
      send({ kind: 'tick', now: nowOf() })
    },
    wakeIn: () => wakeIn(model, handlers.now()),
  }
}

/** Once everything is saved, drops the warning that leaving would lose results. */
function savedAgain(model: RecorderModel, saved: Saved): RecorderModel {
  const isWarned = saved.ok && model.pressedOnce === 'q'
  return { ...model, saved, ...(isWarned ? { notice: null, pressedOnce: null } : {}) }
}

const minute = 60_000
/** Milliseconds between attempts to save again after a failure. */
const retryAfter = 2_000

/** A running clock changes with its own whole seconds, not those of the wall clock; without one only the minutes
 * change. */
function wakeIn(model: RecorderModel, now: Moment): number {
  const { state } = model
  const waits = [model.saved.ok ? minute : retryAfter]
  if (state.phase.since && !state.finished) {
    const seconds = state.stopped ? elapsedSeconds(state.stopped.since, now) : clockSeconds(state, now)
    waits.push((1 - (seconds % 1)) * 1000)
    // The end it counts up to need not be a whole second.
    const left = state.stopped ? 0 : (countdownOf(state)?.seconds ?? 0) - seconds
    if (left > 0) waits.push((left % 1 || 1) * 1000)
  }
  for (const [shown, length] of [
    [model.echo?.at ?? null, echoSeconds],
    [model.signalled, goSeconds],
    [model.letters.at(-1)?.at ?? null, typingPause],
  ] as const) {
    const left = shown ? length - elapsedSeconds(shown, now) : 0
    if (left > 0) waits.push(left * 1000)
  }
  return Math.max(20, Math.ceil(Math.min(...waits)))
}
