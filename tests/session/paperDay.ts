import { Prescription } from '../../src/prescription/model.ts'

/* A day of the invented athlete, as it would be read from notation:
 *
 *   prep / foam roll 3:00 / leg swings 2 x 10 each side
 *   run: track / 2 km easy / 3 km @ 3:50-4:00/km, split 1 km / 2 x 500 m @ 3:35-3:45/km, jog 200 m
 *   lift: legs / front squat: 2 x (1+1+1) @ 92.5 kg, pause 20 s, rest 2:30 /
 *     pull-up 2 x 6 @ bodyweight + plank 2 x 45 s, rest 1:30 / good morning 2 x 8 @ rpe 7
 *   fuel / before 2 h: carbs 75 g / after: carbs 80 g */

const work = {
  kind: 'work' as const,
  times: null,
  recovery: null,
  split: null,
  negative: false,
  lane: null,
  grade: null,
  heartRate: null,
  notes: [],
}
const meters = (value: number) => ({ kind: 'distance' as const, length: { value, unit: 'm' as const } })
const pace = (from: number, to: number) => ({ kind: 'pace' as const, from, to, per: 'km' as const })
const lift = { pause: null, rest: null, every: null, tempo: null, buildFrom: null, notes: [] }
const fuel = { kcal: null, proteinG: null, fatG: null, seconds: null, notes: [] }
const twice = <T>(set: T): T[] => [set, set]

export const day: Prescription = Object.freeze(
  Prescription.parse({
    title: 'Thursday: fast five hundreds, then front squat',
    date: '2026-11-26',
    units: { distance: 'km', mass: 'kg' },
    goal: null,
    athlete: { value: 68, unit: 'kg' },
    bar: null,
    lap: null,
    maxima: [],
    notes: [],
    parts: [
      {
        kind: 'prep',
        name: null,
        items: [
          {
            line: 3,
            text: 'foam roll 3:00',
            name: 'foam roll',
            count: null,
            amount: { kind: 'time', seconds: 180 },
            side: null,
            notes: [],
          },
          {
            line: 4,
            text: 'leg swings 2 x 10 each side',
            name: 'leg swings',
            count: 2,
            amount: { kind: 'reps', reps: 10 },
            side: 'each side',
            notes: [],
          },
        ],
      },
      {
        kind: 'run',
        name: 'track',
        items: [
          {
            line: 7,
            text: '2 km easy',
            step: {
              ...work,
              body: { kind: 'piece', amounts: [meters(2000)], target: { kind: 'word', word: 'easy' } },
            },
          },
          {
            line: 8,
            text: '3 km @ 3:50-4:00/km, split 1 km',
            step: {
              ...work,
              split: { value: 1, unit: 'km' },
              body: { kind: 'piece', amounts: [meters(3000)], target: pace(230, 240) },
            },
          },
          {
            line: 9,
            text: '2 x 500 m @ 3:35-3:45/km, jog 200 m',
            step: {
              ...work,
              times: 2,
              recovery: { kind: 'recovery', move: 'jog', amount: meters(200) },
              body: { kind: 'piece', amounts: [meters(500)], target: pace(215, 225) },
            },
          },
        ],
      },
      {
        kind: 'lift',
        name: 'legs',
        items: [
          {
            ...lift,
            line: 12,
            text: 'front squat: 2 x (1+1+1) @ 92.5 kg, pause 20 s, rest 2:30',
            pause: 20,
            rest: { from: 150, to: 150 },
            exercises: [
              {
                name: 'front squat',
                side: null,
                sets: twice({
                  dose: { kind: 'cluster', groups: [1, 1, 1] },
                  load: { kind: 'mass', from: 92.5, to: 92.5, unit: 'kg', pair: false },
                  rpe: null,
                }),
              },
            ],
          },
          {
            ...lift,
            line: 13,
            text: 'pull-up 2 x 6 @ bodyweight + plank 2 x 45 s, rest 1:30',
            rest: { from: 90, to: 90 },
            exercises: [
              {
                name: 'pull-up',
                side: null,
                sets: twice({
                  dose: { kind: 'reps', from: 6, to: 6 },
                  load: { kind: 'bodyweight', added: 0, unit: 'kg' },
                  rpe: null,
                }),
              },
              {
                name: 'plank',
                side: null,
                sets: twice({ dose: { kind: 'time', seconds: 45 }, load: null, rpe: null }),
              },
            ],
          },
          {
            ...lift,
            line: 14,
            text: 'good morning 2 x 8 @ rpe 7',
            exercises: [
              {
                name: 'good morning',
                side: null,
                sets: twice({ dose: { kind: 'reps', from: 8, to: 8 }, load: null, rpe: { from: 7, to: 7 } }),
              },
            ],
          },
        ],
      },
      {
        kind: 'fuel',
        name: null,
        items: [
          { ...fuel, line: 17, text: 'before 2 h: carbs 75 g', when: 'before', seconds: 7200, carbsG: 75 },
          { ...fuel, line: 18, text: 'after: carbs 80 g', when: 'after', carbsG: 80 },
        ],
      },
    ],
  }),
)

/** The same day followed by an evening run. */
export const twoRuns: Prescription = Object.freeze(
  Prescription.parse({
    ...day,
    parts: [
      ...day.parts,
      {
        kind: 'run',
        name: 'Evening',
        items: [
          {
            line: 21,
            text: '5 km easy',
            step: { ...work, body: { kind: 'piece', amounts: [meters(5000)], target: null } },
          },
        ],
      },
    ],
  }),
)
