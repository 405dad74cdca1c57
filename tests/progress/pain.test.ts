import { expect, test } from 'vitest'
import type { TypedMorning } from '../../src/plan/morning.ts'
import {
  allPains,
  painCovering,
  painLines,
  painProgress,
  painsText,
  recentPains,
  standingPains,
} from '../../src/progress/pain.ts'
import { session } from './doneSessions.ts'

const span = { from: '2026-11-16', to: '2026-11-29' }

test('pain is one line for each place, most frequent first: dates, levels, what was done that day', () => {
  const sessions = [
    session('2026-11-26', {
      pain: [
        { place: 'Left  calf', level: 3 },
        { place: 'right elbow', level: null },
      ],
      lifts: [{ name: 'dip', sets: [] }],
    }),
    session('2026-11-24', {
      pain: [
        { place: 'left calf', level: 4 },
        { place: 'left calf', level: 5 },
      ],
      runs: [{ meters: 10_000 }],
    }),
    session('2026-11-01', { pain: [{ place: 'left calf', level: 9 }] }),
  ]
  const progress = painProgress(allPains(sessions, []), span)
  expect(progress.places.map(({ place, days }) => [place, days.map(({ levels }) => levels)])).toEqual([
    ['left calf', [[4, 5], [3]]],
    ['right elbow', [[null]]],
  ])
  expect(painLines(progress, 'km', 100).slice(2, 4)).toEqual([
    '  left calf: 24 Nov 4, 5 (run 10 km); 26 Nov 3 (dip)',
    '  right elbow: 26 Nov (dip)',
  ])
})

test('the pains of a week are one sentence: the worst of each day, and a sign that needs a doctor until a 0 ends it', () => {
  const on = (date: string, place: string, ...levels: (number | null)[]) =>
    session(date, { pain: levels.map((level) => ({ place, level })) })
  const text = (...sessions: ReturnType<typeof session>[]) =>
    painsText(painProgress(allPains(sessions, []), span).places)
  const calf = [
    on('2026-11-26', 'Left calf', 0),
    on('2026-11-24', 'left calf', 3),
    on('2026-11-24', 'left calf', 4, 2),
  ]
  expect(text(...calf, on('2026-11-23', 'right elbow', null))).toBe(
    'Pain: left calf 4 on Tue 24, 0 on Thu 26; right elbow on Mon 23.',
  )
  expect(text(on('2026-11-24', 'chest', 2))).toBe(
    'See a doctor before you train again: chest. Pain: chest 2 on Tue 24.',
  )
  expect(text(on('2026-11-26', 'chest', 0), on('2026-11-24', 'chest', 2))).toBe(
    'Pain: chest 2 on Tue 24, 0 on Thu 26.',
  )
  expect(text()).toBeNull()
})

test('a place that was noted later but more often comes first', () => {
  const pain = (date: string, place: string) => session(date, { pain: [{ place, level: 2 }] })
  const sessions = [pain('2026-11-26', 'calf'), pain('2026-11-25', 'calf'), pain('2026-11-24', 'knee')]
  expect(painProgress(allPains(sessions, []), span).places.map(({ place }) => place)).toEqual([
    'calf',
    'knee',
  ])
})

test('without any pain it says so', () => {
  expect(painLines(painProgress([], span), 'km', 80).at(-1)).toBe('no pain noted in these weeks')
})

test('a pain of the last 14 days is listed by weekday, then by date, until its last level is 0', () => {
  const pain = (date: string, place: string, level: number | null) =>
    session(date, { pain: [{ place, level }] })
  const told = (today: string) =>
    recentPains(
      allPains(
        [
          pain('2026-11-24', 'left calf', 3),
          pain('2026-11-23', 'right elbow', 0),
          pain('2026-11-22', 'left calf', null),
          pain('2026-11-12', 'left calf', 4),
          pain('2026-11-12', 'right elbow', 2),
        ],
        [],
      ),
      today,
    )
  expect(told('2026-11-26')).toEqual([
    { place: 'left calf', text: '4 on 12 Nov, noted on Sunday, 3 on Tuesday' },
  ])
  expect(told('2026-12-08')).toEqual([{ place: 'left calf', text: '3 on 24 Nov' }])
  expect(told('2026-12-09')).toEqual([])
})

const morning = (date: string, sore: Record<string, number>, note?: string): TypedMorning => ({
  type: 'typed',
  at: `${date}T07:00:00Z`,
  date,
  values: { soreness: Object.entries(sore).map(([place, level]) => ({ place, level })), note },
})

test('a pain has its weekday for six days, and a morning may end it', () => {
  const sessions = [session('2026-11-20', { pain: [{ place: 'Left calf, sharp', level: 3 }] })]
  const told = (today: string, ...mornings: TypedMorning[]) =>
    recentPains(allPains(sessions, mornings), today)[0]?.text
  expect(told('2026-11-26')).toBe('3 on Friday')
  expect(told('2026-11-27')).toBe('3 on 20 Nov')
  expect(told('2026-11-26', morning('2026-11-26', { 'left calf': 2 }))).toBe('3 on Friday, 2 today')
  expect(told('2026-11-26', morning('2026-11-21', { 'left calf': 0 }))).toBeUndefined()
  // Typed before the session of that day.
  expect(told('2026-11-26', morning('2026-11-20', { 'left calf': 0 }))).toBe('3 on Friday')
})

test('a recent sign that needs a doctor says so wherever it is shown, before pains that were noted more often', () => {
  const pain = (place: string) => [{ place, level: null }]
  const days = [session('2026-11-24', { pain: pain('tight chest') })]
  for (const date of ['2026-11-22', '2026-11-23']) days.push(session(date, { pain: pain('left calf') }))
  expect(recentPains(allPains(days, []), '2026-11-26')).toEqual([
    { place: 'tight chest', text: 'noted on Tuesday, see a doctor first' },
    { place: 'left calf', text: 'noted on Sunday, noted on Monday' },
  ])
})

test('a number in the morning is a pain if it is of one side or a joint, if its place hurt in the fortnight before, or if it says so', () => {
  const sessions = [session('2026-11-05', { pain: [{ place: 'Calf', level: 4 }] })]
  const told = (...mornings: TypedMorning[]) =>
    allPains(sessions, mornings)
      .filter(({ session }) => session === null)
      .map(({ place, level, date }) => `${date} ${place} ${level}`)
  expect(told(morning('2026-11-06', { legs: 3, quads: 2 }))).toEqual([])
  expect(told(morning('2026-11-19', { calf: 2 }), morning('2026-12-03', { calf: 1 }))).toEqual([
    '2026-11-19 calf 2',
    '2026-12-03 calf 1',
  ])
  expect(told(morning('2026-11-20', { calf: 2 }))).toEqual([])
  const again = [{ calf: 0 }, { calf: 0 }, { calf: 2 }]
  expect(told(...again.map((sore, day) => morning(`2026-11-0${6 + day}`, sore)))).toEqual([
    '2026-11-06 calf 0',
    '2026-11-08 calf 2',
  ])
  expect(told(morning('2026-11-20', { calf: 0 }), morning('2026-11-21', { calf: 1 }))).toEqual([
    '2026-11-20 calf 0',
  ])
  expect(told(morning('2026-11-20', { 'pain hip': 2 }), morning('2026-11-21', { hip: 1 }))).toEqual([
    '2026-11-20 hip 2',
    '2026-11-21 hip 1',
  ])
  const sides = { 'left hamstring': 1, 'right knee': 2, achilles: 3, 'lower back': 2, glutes: 4 }
  expect(told(morning('2026-11-20', sides))).toEqual([
    '2026-11-20 left hamstring 1',
    '2026-11-20 right knee 2',
    '2026-11-20 achilles 3',
  ])
  const strong = { 'lower back': 4, back: 5, shoulders: 6, legs: 8, shoulder: 2, neck: 2, thumbs: 2 }
  expect(told(morning('2026-11-20', strong))).toEqual([
    '2026-11-20 back 5',
    '2026-11-20 shoulders 6',
    '2026-11-20 shoulder 2',
    '2026-11-20 neck 2',
    '2026-11-20 thumbs 2',
  ])
  expect(told(morning('2026-11-20', { 'chest pain': 5 }, 'felt faint'))).toEqual([
    '2026-11-20 faint null',
    '2026-11-20 chest 5',
  ])
})

test('a sign in a note is over by a 0 in the same line, as in one that was imported', () => {
  const over = [morning('2026-11-20', { faint: 0 }, 'felt faint; slept late')]
  expect(standingPains(allPains([], over))).toEqual([])
})

test('a number that corrects a pain of the same morning is one without saying so again', () => {
  const mornings = [morning('2026-11-20', { 'calf pain': 3 }), morning('2026-11-20', { calf: 4 })]
  expect(allPains([], mornings).map(({ place, level }) => [place, level])).toEqual([['calf', 4]])
})

test('a number typed again for a morning counts instead of the first, and a sign stays beside a later note', () => {
  const mornings = [
    morning('2026-11-20', { 'knee pain': 5 }, 'felt faint'),
    morning('2026-11-20', { 'knee pain': 2 }, 'slept late'),
  ]
  expect(allPains([], mornings).map(({ place, level }) => [place, level])).toEqual([
    ['faint', null],
    ['knee', 2],
  ])
})

test('a morning is named as such among the days of a pain', () => {
  const pains = allPains(
    [session('2026-11-24', { pain: [{ place: 'knee', level: 3 }], runs: [{ meters: 8000 }] })],
    [morning('2026-11-25', { knee: 2 })],
  )
  expect(painLines(painProgress(pains, span), 'km', 80)).toContain(
    '  knee: 24 Nov 3 (run 8 km); 25 Nov 2 (morning)',
  )
})

test('a day of pain without work has no brackets', () => {
  const progress = painProgress(
    allPains([session('2026-11-24', { pain: [{ place: 'knee', level: 0 }] })], []),
    span,
  )
  expect(painLines(progress, 'km', 80)).toContain('  knee: 24 Nov 0')
})

test.each([
  ['shoulder arm arms elbow wrist hand finger thumb biceps triceps forearm', true, false],
  ['calf knee back hip toe army', false, true],
  ['neck ribs rib sternum', true, true],
])('a pain of %s keeps the lifts of the arms, or those that need the legs', (places, arm, legs) => {
  const covered = (exercise: string) =>
    places
      .split(' ')
      .map((place) => painCovering([{ place, level: 4 }], { name: exercise, isPair: false }) !== undefined)
  expect(new Set(covered('bench press'))).toEqual(new Set([arm]))
  expect(new Set(covered('leg press'))).toEqual(new Set([legs]))
})

test.each([
  'jumping pull-up',
  'jumping pull up',
  'jumping pullup',
  'jumping chin-up',
  'jumping chin up',
  'jumping chinup',
  'suitcase lunge',
  'db step-up',
  'kb squat',
  'hang clean',
])('a pain of the elbow keeps a %s as it is, because the hands hold it', (exercise) => {
  expect(painCovering([{ place: 'elbow', level: 4 }], { name: exercise, isPair: false })?.place).toBe('elbow')
})

test.each([
  'bench press',
  'floor press',
  'chest press',
  'seated row',
  'lying triceps extension',
  'incline press',
  'decline press',
  'lat pulldown',
  'pullover',
  'skull crusher',
])('a pain of the knee leaves a %s alone', (exercise) => {
  expect(painCovering([{ place: 'knee', level: 4 }], { name: exercise, isPair: false })).toBeUndefined()
})
