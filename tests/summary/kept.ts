import type { Prescription } from '../../src/prescription/model.ts'
import { readEntry } from '../../src/session/entry/entry.ts'
import type { Session, SessionEvent } from '../../src/session/model.ts'
import { answerFacts, dated } from '../../src/session/newEvents.ts'
import { promptedStep, promptOf, stepsToPrompt } from '../../src/session/prompt.ts'
import { replay } from '../../src/session/replay.ts'
import { dayOf } from '../day.ts'

/** A session written event by event. */
export class Kept {
  readonly session: Session

  constructor(prescription: Prescription, more: { fromPaper?: boolean; bodyMassKg?: number } = {}) {
    this.session = {
      format: 1,
      id: 'sample-0001',
      prescription,
      events: [
        {
          type: 'sessionStarted',
          ...this.when('06:40:00'),
          ...(more.fromPaper ? { at: null, up: null } : {}),
          date: '2026-11-26',
          bodyMassKg: more.bodyMassKg ?? null,
          maxima: [],
          fromPaper: more.fromPaper ?? false,
        },
      ],
    }
  }

  get state() {
    return replay(this.session)
  }

  /** Local time of the day, to the second, or the millisecond. */
  when(clock: string) {
    return { at: `2026-11-26T${clock}+01:00`, up: null }
  }

  add(event: SessionEvent): this {
    this.session.events.push(event)
    return this
  }

  /** Fuel has no entries in a results file; `-` and `=` work as on paper. */
  type(...entries: string[]): this {
    for (const entry of entries) {
      const state = this.state
      // Meals come last here, wherever the day has them.
      const prompted = promptedStep(state)
      const other = stepsToPrompt(state).find(({ kind }) => kind !== 'fuel')
      const step = prompted?.kind === 'fuel' ? (other ?? prompted) : prompted
      if (!step) throw new Error(`nothing is asked for any more: ${entry}`)
      const asked = promptOf(state, step)
      const reading = readEntry(entry === '=' ? '' : entry, asked)
      if (reading.outcome !== 'answer') throw new Error(`${step.id}: ${entry}: ${JSON.stringify(reading)}`)
      for (const event of dated(answerFacts(state, step, reading.value), { at: null, up: null }))
        this.add(event)
    }
    return this
  }

  close(part: number, effort: number | null, minutes: number | null): this {
    return this.add({ type: 'partClosed', at: null, up: null, part, effort, minutes })
  }

  finish(): this {
    return this.add({ type: 'sessionFinished', at: null, up: null })
  }
}

/** A session of a day with these lines, with these entries. */
export function keptDay(lines: string, ...entries: string[]): Kept {
  return new Kept(dayOf(`A day\n${lines}`)).type(...entries)
}
