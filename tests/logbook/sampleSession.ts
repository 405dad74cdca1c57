import type { Prescription } from '../../src/prescription/model.ts'
import type { Session, SessionEvent } from '../../src/session/model.ts'
import type { EventOf } from '../../src/session/state.ts'

/** A day of the invented athlete: front squats, one line. */
export const legs: Prescription = {
  title: 'Legs',
  date: '2026-11-26',
  units: { distance: 'km', mass: 'kg' },
  goal: null,
  athlete: null,
  bar: null,
  lap: null,
  maxima: [],
  notes: [],
  parts: [
    {
      kind: 'lift',
      name: 'legs',
      items: [
        {
          line: 4,
          text: 'front squat: 30 x 3 @ 92.5 kg, rest 2:30',
          exercises: [
            {
              name: 'front squat',
              side: null,
              sets: Array.from({ length: 30 }, () => ({
                dose: { kind: 'reps' as const, from: 3, to: 3 },
                load: { kind: 'mass' as const, from: 92.5, to: 92.5, unit: 'kg' as const, pair: false },
                rpe: null,
              })),
            },
          ],
          pause: null,
          rest: { from: 150, to: 150 },
          every: null,
          tempo: null,
          buildFrom: null,
          notes: [],
        },
      ],
    },
  ],
}

export const started: EventOf<'sessionStarted'> = {
  type: 'sessionStarted',
  at: '2026-11-26T17:40:00.000+01:00',
  up: 1000,
  date: '2026-11-26',
  bodyMassKg: 68,
  maxima: [],
  fromPaper: false,
}

/** The result of set `number`, from 1. */
export function setRecorded(number: number, reps = 3): Extract<SessionEvent, { type: 'setRecorded' }> {
  return {
    type: 'setRecorded',
    at: new Date(Date.parse('2026-11-26T16:40:00Z') + number * 180_000).toISOString(),
    up: 1000 + number * 180,
    step: `1.1.s${number}`,
    result: {
      reps,
      groups: null,
      seconds: null,
      meters: null,
      load: { kind: 'mass', value: 92.5, unit: 'kg', pair: false },
      rpe: 8,
      failed: false,
      note: null,
      pain: null,
    },
  }
}

export const finished: SessionEvent = {
  type: 'sessionFinished',
  at: '2026-11-26T19:30:00.000+01:00',
  up: 7600,
}

/** The session of that day with these events after its start. */
export function sampleSession(...events: SessionEvent[]): Session {
  return { format: 1, id: 'abcdef2345', prescription: legs, events: [started, ...events] }
}

/** The text of a stored file as editing by hand leaves it: without its checksum. */
export function unsealed(text: string): string {
  return text.replace(/"checksum": "[0-9a-f]{64}",\n?/, '')
}

export function resultsIn(session: { events: readonly { type: string }[] }): number {
  return session.events.filter((event) => event.type === 'setRecorded').length
}
