import type { Step } from '../../src/prescription/step.ts'
import type { Session, SessionEvent } from '../../src/session/model.ts'
import { wholeDay } from '../summary/wholeDay.ts'

/** The track-and-cluster sample, as it was kept on paper, and after it one event of every other kind. Invented. */
export function fullSession(): Session {
  const { session, state } = wholeDay()
  return { ...session, events: [...session.events, ...others(state.steps)] }
}

function others(steps: readonly Step[]): SessionEvent[] {
  const when = { at: '2026-11-26T19:40:00.000+01:00', up: 9000 }
  const set = steps.find((step) => step.kind === 'set')?.id ?? ''
  const interval = steps.find((step) => step.kind === 'interval')?.id ?? ''
  const hold = steps.findLast((step) => step.kind === 'set')?.id ?? ''
  const remarks = { note: null, pain: null }
  const held = { reps: null, groups: null, seconds: 45, meters: null, load: null, rpe: 8, failed: false }
  const meal = { carbsG: 75, proteinG: 20, fatG: 10, kcal: 470 }
  return [
    { type: 'opened', ...when, boot: 'b' },
    { type: 'setRecorded', ...when, step: hold, result: { ...held, ...remarks } },
    { type: 'mealRecorded', ...when, meal: 'after', result: { ...meal, ...remarks } },
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
