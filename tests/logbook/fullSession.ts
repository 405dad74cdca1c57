import { readFileSync } from 'node:fs'
import { expand } from '../../src/prescription/expand.ts'
import type { Step } from '../../src/prescription/step.ts'
import type { Session, SessionEvent } from '../../src/session/model.ts'
import { dayOf } from '../day.ts'
import { started } from './sampleSession.ts'

const path = new URL('../../sample-sessions/track-and-cluster.txt', import.meta.url)
const remarks = { note: null, pain: null }

/** The track-and-cluster sample, done as prescribed, and after it one event of every other kind. Invented. */
export function fullSession(): Session {
  const prescription = dayOf(readFileSync(path, 'utf8'))
  const steps = expand(prescription, () => []).flatMap((part) => part.items.flatMap((item) => item.steps))
  const results = steps.flatMap((step, index) => resultOf(step, 1000 + index * 60))
  const [first, second] = results
  if (first === undefined || second === undefined) throw new Error('the sample asks for results')
  return { format: 1, id: 'abcdef2345', prescription, events: [started, ...results, ...others(steps)] }
}

function resultOf(step: Step, up: number): SessionEvent[] {
  const when = {
    at: new Date(Date.parse('2026-11-26T16:40:00Z') + up * 1000).toISOString(),
    up,
    step: step.id,
  }
  switch (step.kind) {
    case 'prep':
      return [{ type: 'prepRecorded', ...when, result: remarks }]
    case 'fuel': {
      const { carbsG, proteinG, fatG, kcal } = step.fuel
      return [{ type: 'fuelRecorded', ...when, result: { carbsG, proteinG, fatG, kcal, ...remarks } }]
    }
    case 'interval': {
      const seconds = step.seconds ?? (step.meters ?? 0) * 0.22
      const measured = {
        meters: step.meters,
        seconds,
        precision: 0.1,
        heartRate: 171,
        heartRateMax: 183,
        rpe: null,
        byKey: true,
      }
      return [{ type: 'pieceRecorded', ...when, result: { ...measured, ...remarks } }]
    }
    case 'set': {
      const groups = step.dose.kind === 'cluster' ? [1, 1, 1] : null
      const seconds = step.dose.kind === 'time' ? step.dose.seconds : null
      const reps = seconds === null ? (groups ? 3 : 6) : null
      const load =
        step.load?.kind === 'mass'
          ? ({ kind: 'mass', value: step.load.from, unit: step.load.unit, pair: step.load.pair } as const)
          : step.load?.kind === 'bodyweight'
            ? step.load
            : null
      return [
        {
          type: 'setRecorded',
          ...when,
          result: { reps, groups, seconds, meters: null, load, rpe: 8, failed: false, ...remarks },
        },
      ]
    }
    default:
      return []
  }
}

function others(steps: readonly Step[]): SessionEvent[] {
  const when = { at: '2026-11-26T19:40:00.000+01:00', up: 9000 }
  const set = steps.find((step) => step.kind === 'set')?.id ?? ''
  const interval = steps.find((step) => step.kind === 'interval')?.id ?? ''
  return [
    { type: 'opened', ...when, boot: 'b' },
    { type: 'stepAdded', ...when, step: 'added1', like: set },
    { type: 'effortBegun', ...when, step: 'added1', auto: false },
    { type: 'groupEnded', ...when, step: 'added1', group: 0, auto: false },
    { type: 'groupBegun', ...when, step: 'added1', group: 1, auto: true },
    { type: 'restChanged', ...when, seconds: 15 },
    { type: 'held', ...when, since: null },
    { type: 'resumed', ...when },
    { type: 'effortEnded', ...when, step: 'added1', auto: false },
    { type: 'startForgotten', ...when, step: 'added1' },
    { type: 'paceSet', ...when, exercise: 'front squat', secondsPerRep: 4 },
    { type: 'loadChosen', ...when, step: set, load: { kind: 'mass', value: 102.5, unit: 'kg', pair: false } },
    { type: 'stepSkipped', ...when, step: interval },
    { type: 'itemSkipped', ...when, part: 0, item: 1 },
    { type: 'exerciseSwapped', ...when, step: set, name: 'back squat' },
    { type: 'itemMoved', ...when, item: [1, 1], before: [2, 0] },
    { type: 'itemMoved', ...when, item: [1, 1], before: null },
    { type: 'dayCut', ...when, minutes: 30, steps: [set] },
    { type: 'noteAdded', ...when, about: set, text: 'windy back straight', pain: false },
    { type: 'conditionsNoted', ...when, part: 1, text: 'flats, track' },
    { type: 'undone', ...when, from: 4 },
    { type: 'partClosed', ...when, part: 1, effort: 8, minutes: 62 },
    { type: 'sessionFinished', ...when },
    { type: 'sessionReopened', ...when },
    { type: 'sessionFinished', ...when },
  ]
}
