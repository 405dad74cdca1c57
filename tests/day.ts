import { expect } from 'vitest'
import { usualPlates } from '../src/figures/bar.ts'
import { expand } from '../src/prescription/expand.ts'
import { printDiagnostics } from '../src/prescription/lines.ts'
import type { Prescription } from '../src/prescription/model.ts'
import { type LastLoad, warmUpWith } from '../src/prescription/planned.ts'
import { readPrescription } from '../src/prescription/read.ts'
import { hasResult, type Step, stepsOf } from '../src/prescription/step.ts'
import { type ClockText, clockText } from '../src/recorder/clockText.ts'
import {
  type Effect,
  type Press,
  type RecorderContext,
  type RecorderKey,
  type RecorderModel,
  recorderOf,
} from '../src/recorder/model.ts'
import { takesPress } from '../src/recorder/press.ts'
import { update } from '../src/recorder/update.ts'
import { type RecorderView, viewOf } from '../src/recorder/view.ts'
import { type Moment, momentAfter, whenOf } from '../src/session/clock.ts'
import { Session, type SessionEvent } from '../src/session/model.ts'
import { type Prompt, promptOf } from '../src/session/prompt.ts'
import { applyEvent } from '../src/session/reduce.ts'
import { replay } from '../src/session/replay.ts'
import { type Measured, type Phase, type Recorded, type SessionState, startOf } from '../src/session/state.ts'

/* A day from its text, and a recorder over it with a clock of its own, so that a test reads like an athlete's day. */

/** A day read from notation. @throws Error with the printed problems if it cannot be read */
export function dayOf(text: string | Uint8Array): Prescription {
  const reading = readPrescription(text)
  if ('prescription' in reading) return reading.prescription
  throw new Error(printDiagnostics(reading.problems, 'day.txt'))
}

/** A key by its name, or the letter. */
export function pressOf(key: string): Press {
  return key.length === 1 ? { kind: 'text', text: key } : { kind: 'named', name: key as RecorderKey }
}

/** A bar in the garage and four pairs of each disc. */
const equipmentOf: RecorderContext['equipmentOf'] = (unit) => ({
  bar: unit === 'kg' ? 20 : 45,
  collar: 0,
  plates: usualPlates[unit],
})

export const plainContext: RecorderContext = {
  warmUpOf: warmUpWith(equipmentOf, []),
  equipmentOf,
  secondsPerRep: 4,
  advice: true,
  hrMax: null,
  earlierToday: { pains: [], hasFailed: false },
  foods: () => [],
  planned: null,
  runCost: () => null,
  lastTime: () => null,
  bestBefore: () => null,
  exercises: () => [],
}

/** The efforts and recoveries of a day, in order. */
export function stepsIn(day: Prescription | string): Step[] {
  return stepsOf(expand(typeof day === 'string' ? dayOf(day) : day, plainContext.warmUpOf))
}

/** Thursday, 06:40 in Berlin, on a machine that was started 1000 s before. */
export const thursdayMorning: Moment = {
  wall: Date.parse('2026-11-26T06:40:00+01:00'),
  offset: 60,
  up: 1000,
  boot: 'first',
}

export interface WalkOptions {
  context?: Partial<RecorderContext>
  maxima?: { name: string; kg: number; basis: string }[]
  lastLoads?: LastLoad[]
  from?: Moment
}

/** A running recorder, driven by keys; every method returns the driver itself. */
export class Walked {
  model: RecorderModel
  readonly prescription: Prescription
  /** Its effects, in order, without the saves. */
  readonly rung: ('short' | 'long')[] = []
  left = false

  constructor(day: Prescription | string, options: WalkOptions = {}) {
    this.prescription = typeof day === 'string' ? dayOf(day) : day
    const context = { ...plainContext, ...options.context }
    const now = options.from ?? thursdayMorning
    const opening: SessionEvent[] = [
      {
        type: 'sessionStarted',
        ...whenOf(now),
        date: '2026-11-26',
        bodyMassKg: 68,
        maxima: options.maxima ?? [],
        ...(options.lastLoads ? { lastLoads: options.lastLoads } : {}),
        fromPaper: false,
      },
      { type: 'opened', ...whenOf(now), boot: now.boot },
    ]
    const empty = startOf(this.prescription, context.warmUpOf)
    const state = opening.reduce(applyEvent, empty)
    this.model = recorderOf(opening, state, now, context)
  }

  /** Goes on by itself from here. */
  copy(): Walked {
    return Object.assign(Object.create(Walked.prototype), this, { rung: [...this.rung] })
  }

  get state(): SessionState {
    return this.model.state
  }
  get context(): RecorderContext {
    return this.model.context
  }
  get phase(): Phase {
    return this.state.phase
  }
  get view(): RecorderView {
    return viewOf(this.model)
  }
  get clock(): ClockText {
    return clockText(this.state, this.model.now)
  }
  get notice(): string | null {
    return this.model.notice
  }
  get now(): Moment {
    return this.model.now
  }
  get events(): readonly SessionEvent[] {
    return this.model.events
  }
  /** `rest 2:30`, `pause +0:03`, `set 0:12` */
  get shows(): string {
    return `${this.clock.label} ${this.clock.text}`
  }
  /** The ids of the steps in order. */
  get ids(): string[] {
    return this.state.steps.map((step) => step.id)
  }

  step(id: string): Step {
    const step = this.state.steps.find((each) => each.id === id)
    if (!step) throw new Error(`no step ${id} among ${this.ids.join(' ')}`)
    return step
  }
  prompt(id: string): Prompt {
    const step = this.step(id)
    if (!hasResult(step)) throw new Error(`step ${id} has no result`)
    return promptOf(this.state, step)
  }
  recorded(id: string): Recorded['result'] {
    const recorded = this.state.recorded.get(id)
    if (!recorded) throw new Error(`${id} is not recorded, only ${[...this.state.recorded.keys()].join(' ')}`)
    return recorded.result
  }
  measured(id: string): Measured {
    const measured = this.state.measured.get(id)
    if (!measured) throw new Error(`${id} is not measured, only ${[...this.state.measured.keys()].join(' ')}`)
    return measured
  }

  /** Lets time pass; the screen reads the clock as often as in the program (twice a second here). */
  wait(seconds: number): this {
    for (let left = seconds; left > 1e-9; left -= 0.5) this.jump(Math.min(0.5, left))
    return this
  }
  /** Lets time pass unseen, as with a closed lid. */
  jump(seconds: number): this {
    return this.at(momentAfter(this.now, seconds))
  }
  at(now: Moment): this {
    return this.take(update(this.model, { kind: 'tick', now }))
  }
  space(): this {
    return this.typed(' ')
  }
  enter(): this {
    return this.key('enter')
  }
  /** Presses a key that was released since its last press; `press` alone is one that may be held down. */
  key(key: RecorderKey): this {
    this.model = { ...this.model, lastPress: null }
    this.press({ kind: 'named', name: key })
    return this
  }
  /** Sets the field's text, or presses a letter. */
  typed(value: string): this {
    return this.take(update(this.model, { kind: 'typed', value, now: this.now }))
  }
  /** Presses a key; false if it is left to the field's editor. */
  press(press: Press): boolean {
    if (!takesPress(this.model, press)) return false
    this.take(update(this.model, { kind: 'press', press, now: this.now }))
    return true
  }
  /** Types letter after letter, this many seconds apart, as a keyboard sends them. */
  spell(text: string, apart = 0.2): this {
    for (const letter of text) {
      if (!this.press({ kind: 'text', text: letter })) this.typed(this.model.draft + letter)
      if (apart > 0) this.jump(apart)
    }
    return this
  }
  /** Types a line and presses Enter. */
  entry(line: string): this {
    return this.typed(line).enter()
  }
  /** Space at the beginning, this many seconds, Space at the end. */
  effort(seconds: number): this {
    return this.space().wait(seconds).space()
  }

  /** Ends the program and starts it again later, with only what was stored.
   * @param boot another start of the machine, if it was restarted */
  restart(seconds: number, boot?: string): this {
    const later = momentAfter(this.now, seconds)
    const now = boot === undefined ? later : { ...later, up: 20, boot }
    const opened: SessionEvent = { type: 'opened', ...whenOf(now), boot: now.boot }
    const events = [...this.events, opened]
    const state = replay({ prescription: this.prescription, events }, this.context.warmUpOf)
    this.model = recorderOf(events, state, now, this.context)
    return this.at(now)
  }

  /** Reopens a closed session from outside, and resumes it. */
  reopen(): this {
    const { at } = whenOf(this.now)
    const events: SessionEvent[] = [...this.events, { type: 'sessionReopened', at, up: null }]
    const state = replay({ prescription: this.prescription, events }, this.context.warmUpOf)
    this.model = recorderOf(events, state, this.now, this.context)
    return this
  }

  /** As stored. */
  session(id = 'walked-0001'): Session {
    return Session.parse({ format: 1, id, prescription: this.prescription, events: this.events })
  }

  private take(next: { model: RecorderModel; effects: Effect[] }): this {
    this.model = next.model
    for (const effect of next.effects) {
      if (effect.kind === 'ring') this.rung.push(effect.signal)
      if (effect.kind === 'leave') this.left = true
    }
    return this
  }
}

/** A recorder over a day, before anything has happened. */
export function walkThrough(day: Prescription | string, options: WalkOptions = {}): Walked {
  return new Walked(day, options)
}

/** A session with only these events. */
export function sessionOf(day: Prescription | string, events: readonly SessionEvent[] = []): Session {
  const walked = new Walked(day)
  return Session.parse({ ...walked.session(), events: [...walked.events, ...events] })
}

/** A state in a form that can be compared: maps and sets in order. */
export function comparable(state: SessionState) {
  return {
    ...state,
    passed: [...state.passed].sort(),
    skipped: [...state.skipped].sort(),
    recorded: sorted(state.recorded),
    measured: sorted(state.measured),
    pace: sorted(state.pace),
  }
}

function sorted<V>(map: ReadonlyMap<string, V>): [string, V][] {
  return [...map].sort(([one], [other]) => (one < other ? -1 : 1))
}

/** Undone at once, the state is the same as before the key. */
export function expectUndone(walked: Walked, act: (walked: Walked) => unknown): void {
  const before = comparable(walked.state)
  act(walked)
  expect(comparable(walked.state)).not.toEqual(before)
  walked.typed('u')
  if (walked.model.mode.kind === 'question') walked.typed('u')
  expect(comparable(walked.state)).toEqual(before)
}
