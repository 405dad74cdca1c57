import type { LiftItem, Prescription, Recovery, RunItem, Work } from '../../src/prescription/model.ts'
import type { Length } from '../../src/units/model.ts'

/* The day of the samples as a value: a track session, then a front squat in cluster sets. */

const km = (value: number): Length => ({ value, unit: 'km' })
const meters = (value: number): Length => ({ value, unit: 'm' })

function work(body: Work['body'], more: Partial<Work> = {}): Work {
  return {
    kind: 'work',
    times: null,
    body,
    recovery: null,
    split: null,
    negative: false,
    lane: null,
    grade: null,
    heartRate: null,
    notes: [],
    ...more,
  }
}

function interval(length: Length, target: Extract<Work['body'], { kind: 'piece' }>['target']): Work['body'] {
  return { kind: 'piece', amounts: [{ kind: 'distance', length }], target }
}

function jog(length: Length): Recovery {
  return { kind: 'recovery', move: 'jog', amount: { kind: 'distance', length } }
}

const easy = { kind: 'word', word: 'easy' } as const
const pace = (from: number, to: number) => ({ kind: 'pace', from, to, per: 'km' }) as const

const track: RunItem[] = [
  { line: 13, text: '2 km easy', step: work(interval(km(2), easy)) },
  {
    line: 14,
    text: '5 km @ 4:05-4:10/km, split 1 km, negative',
    step: work(interval(km(5), pace(245, 250)), { split: km(1), negative: true }),
  },
  { line: 15, text: 'jog 600 m', step: jog(meters(600)) },
  {
    line: 16,
    text: '6 x 500 m @ 3:35-3:45/km, jog 200 m',
    step: work(interval(meters(500), pace(215, 225)), { times: 6, recovery: jog(meters(200)) }),
  },
  { line: 17, text: '2 km easy', step: work(interval(km(2), easy)) },
]

function liftItem(item: Partial<LiftItem> & Pick<LiftItem, 'exercises' | 'line' | 'text'>): LiftItem {
  return { pause: null, rest: null, every: null, tempo: null, buildFrom: null, notes: [], ...item }
}

function exercise(name: string, sets: number, set: LiftItem['exercises'][number]['sets'][number]) {
  return { name, side: null, sets: Array.from({ length: sets }, () => set) }
}

const bar = (value: number) => ({ kind: 'mass', from: value, to: value, unit: 'kg', pair: false }) as const
const body = (added: number) => ({ kind: 'bodyweight', added, unit: 'kg' }) as const
const reps = (count: number) => ({ kind: 'reps', from: count, to: count }) as const
const seconds = (value: number) => ({ from: value, to: value })

const legs: LiftItem[] = [
  liftItem({
    line: 20,
    text: 'front squat: 5 x (1+1+1) @ 92.5 kg, pause 20 s, rest 2:30, build from 40 kg',
    exercises: [
      exercise('front squat', 5, {
        dose: { kind: 'cluster', groups: [1, 1, 1] },
        load: bar(92.5),
        rpe: null,
      }),
    ],
    pause: 20,
    rest: seconds(150),
    buildFrom: { value: 40, unit: 'kg' },
  }),
  liftItem({
    line: 21,
    text: 'pull-up 4 x 6 @ bodyweight + dip 4 x 8 @ bodyweight+10 kg, pause 0:20, rest 1:30',
    exercises: [
      exercise('pull-up', 4, { dose: reps(6), load: body(0), rpe: null }),
      exercise('dip', 4, { dose: reps(8), load: body(10), rpe: null }),
    ],
    pause: 20,
    rest: seconds(90),
  }),
  liftItem({
    line: 22,
    text: 'plank: 3 x 45 s, rest 0:45',
    exercises: [exercise('plank', 3, { dose: { kind: 'time', seconds: 45 }, load: null, rpe: null })],
    rest: seconds(45),
  }),
]

const eaten = { kcal: null, notes: [], proteinG: 35, carbsG: 80, fatG: null }

export const exampleDay: Prescription = {
  title: 'Thursday: five hundreds, then front squat',
  date: '2026-11-26',
  units: { distance: 'km', mass: 'kg' },
  goal: { length: km(10), seconds: 2370, on: '2027-04-18' },
  athlete: { value: 68, unit: 'kg' },
  bar: null,
  lap: null,
  maxima: [{ name: 'front squat', mass: { value: 110, unit: 'kg' } }],
  notes: [],
  parts: [
    {
      kind: 'prep',
      name: null,
      items: [
        {
          line: 9,
          text: 'foam roll 3:00',
          name: 'foam roll',
          count: null,
          amount: { kind: 'time', seconds: 180 },
          side: null,
          notes: [],
        },
        {
          line: 10,
          text: 'leg swings 2 x 10 each side',
          name: 'leg swings',
          count: 2,
          amount: { kind: 'reps', reps: 10 },
          side: 'each side',
          notes: [],
        },
      ],
    },
    { kind: 'run', name: 'track', items: track },
    { kind: 'lift', name: 'legs', items: legs },
    {
      kind: 'fuel',
      name: null,
      items: [
        {
          line: 25,
          text: 'before 2 h: carbs 75 g, protein 20 g, fat 10 g, "porridge and fruit"',
          when: 'before',
          seconds: 7200,
          carbsG: 75,
          proteinG: 20,
          fatG: 10,
          kcal: null,
          notes: ['porridge and fruit'],
        },
        { line: 26, text: 'after: carbs 80 g, protein 35 g', when: 'after', seconds: null, ...eaten },
      ],
    },
  ],
}
