import { expect, test } from 'vitest'
import { readSession } from '../../src/logbook/sessionFile.ts'
import { finished, legs, setRecorded, started } from './sampleSession.ts'

/** The message for a session in which the value at a path was replaced. */
function wrongWith(path: (string | number)[], value: unknown): string {
  const session = JSON.parse(
    JSON.stringify({
      format: 1,
      id: 'abcdef1',
      prescription: legs,
      events: [started, setRecorded(3), finished],
    }),
  )
  const last = path.at(-1) as string
  const inner = path.slice(0, -1).reduce((each, key) => each[key], session)
  inner[last] = value
  const read = readSession(JSON.stringify(session), null)
  return 'wrong' in read ? read.wrong : 'sound'
}

const set = ['prescription', 'parts', 0, 'items', 0, 'exercises', 0, 'sets', 0]

test.each([
  [['events', 1, 'result', 'reps'], 'five', 'is wrong: events.2.result.reps is not a number'],
  [['events', 1, 'result', 'reps'], undefined, 'is wrong: events.2.result.reps is missing'],
  [['events', 1, 'result', 'reps'], -1, 'is wrong: events.2.result.reps is less than 0'],
  [['events', 1, 'result', 'reps'], 1.5, 'is wrong: events.2.result.reps is not a whole number'],
  [['events', 1, 'result', 'rpe'], 11, 'is wrong: events.2.result.rpe is more than 10'],
  [
    ['events', 1, 'result', 'load'],
    { kind: 'heavy' },
    'is wrong: events.2.result.load.kind has an unknown kind',
  ],
  [['events', 1, 'at'], 'noon', 'is wrong: events.2.at is not a date and time'],
  [['events', 1], 'lifted', 'is wrong: events.2 is not an object'],
  [['events', 0, 'fromPaper'], 1, 'is wrong: events.1.fromPaper is not true or false'],
  [['events', 0, 'bodyMassKg'], 0, 'is wrong: events.1.bodyMassKg is not more than 0'],
  [['events'], {}, 'is wrong: events is not a list'],
  [['prescription', 'units', 'mass'], 'stone', 'is wrong: prescription.units.mass is not one of kg, lb'],
  [['prescription', 'parts'], [], 'is wrong: prescription.parts is too short'],
  [
    set.concat('load', 'from'),
    '90',
    'is wrong: prescription.parts.1.items.1.exercises.1.sets.1.load.from is not a number',
  ],
  [['wish'], true, 'is wrong: it has a field that does not belong there, "wish"'],
])('describes %j with %j in words', (path, value, wrong) => {
  expect(wrongWith(path, value)).toBe(wrong)
})
