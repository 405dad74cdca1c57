import { describe, expect, test } from 'vitest'
import { setRows } from '../../src/commands/export.ts'
import { entryTextOf } from '../../src/session/entry/lex.ts'
import {
  hasSign,
  isPainNoted,
  isPainOver,
  isWarningNoted,
  needsADoctor,
  noteOf,
  painPhrase,
  painsIn,
  painsNoted,
  placeKey,
} from '../../src/session/pain.ts'
import { summarise } from '../../src/summary/summarise.ts'
import { walkThrough } from '../day.ts'
import { bareContext as context } from '../summary/bareContext.ts'

const day =
  'Both\n\nrun\n  2 x 1 km in 4:00, jog 200 m\n\nlift\n  squat: 3 x 5 @ 100 kg, rest 2:00\n  plank: 2 x 45 s\n'

test.each([
  ['left calf', [{ place: 'left calf', level: null }]],
  ['left calf 4', [{ place: 'left calf', level: 4 }]],
  ['left calf 3.5', [{ place: 'left calf', level: 3.5 }]],
  [
    'left calf 3,5/10; knee 0.5',
    [
      { place: 'left calf', level: 3.5 },
      { place: 'knee', level: 0.5 },
    ],
  ],
  ['left calf 10/10', [{ place: 'left calf', level: 10 }]],
  ['left calf, sharp', [{ place: 'left calf, sharp', level: null }]],
  ['pain: right elbow', [{ place: 'right elbow', level: null }]],
  [
    'left calf 4; right knee 0',
    [
      { place: 'left calf', level: 4 },
      { place: 'right knee', level: 0 },
    ],
  ],
  [
    'hip flexor 4 and knee 2/10',
    [
      { place: 'hip flexor', level: 4 },
      { place: 'knee', level: 2 },
    ],
  ],
  [
    'left knee 3, hip 2/10 back 10',
    [
      { place: 'left knee', level: 3 },
      { place: 'hip', level: 2 },
      { place: 'back', level: 10 },
    ],
  ],
  ['L5 disc 3', [{ place: 'L5 disc', level: 3 }]],
  ['hip and knee 2', [{ place: 'hip and knee', level: 2 }]],
  ['left calf 4 and tight', [{ place: 'left calf 4 and tight', level: null }]],
])('%s is read with its place and number', (text, pains) => expect(painsIn(text)).toEqual(pains))

test.each([
  ['Pain left calf : 4', [{ place: 'left calf', level: 4 }]],
  ['left calf 11', [{ place: 'left calf 11', level: null }]],
  ['4', [{ place: 'pain', level: 4 }]],
  [' ; pain ; ', []],
  ['painful calf 3', [{ place: 'painful calf', level: 3 }]],
  ['my pain 4', [{ place: 'my pain', level: 4 }]],
  ['pain:left 3', [{ place: 'left', level: 3 }]],
  ['pain   left 3', [{ place: 'left', level: 3 }]],
  ['calf 4 / 10', [{ place: 'calf', level: 4 }]],
  ['calf 4/11', [{ place: 'calf 4/11', level: null }]],
  [' , 4', [{ place: 'pain', level: 4 }]],
  ['left calf4', [{ place: 'left calf4', level: null }]],
])('%j is read as well as it can be', (text, pains) => expect(painsIn(text)).toEqual(pains))

test('the pains of a session are in the order in which they were typed, in a note or with a result', () => {
  const walked = walkThrough('Day\n\nrun\n  2 x 1 km in 4:00, jog 200 m\n').space()
  walked.entry('pain left calf 0').wait(240).space().entry('4:01 pain left calf 5')
  expect(painsNoted(walked.state).map(({ level }) => level)).toEqual([0, 5])
})

test('a pain is over if every place in it has the number 0', () => {
  expect(['left calf 0', 'left calf 0; knee 0', 'left calf 0; knee 1', 'left calf'].map(isPainOver)).toEqual([
    true,
    true,
    false,
    false,
  ])
  expect(painPhrase({ place: 'left calf', level: 0 })).toBe('left calf 0')
  expect(painPhrase({ place: 'left calf', level: null })).toBe('left calf')
})

// Signs that need a doctor, as a first-aid course lists them: common practice, no source.
test.each([
  'chest pain',
  'chest felt tight',
  'tightness in my chest',
  'nearly fainted',
  'blacked out',
  "couldn't breathe",
  'cannot breathe',
  'heart was racing',
  'racing heart',
  'numb left arm',
  'my leg went numb',
  'pressure on the chest',
  'chest was heavy',
  'heart fluttered',
  'palpitations after the third',
  'short of breath on the stairs',
  'shortness of breath',
  'suddenly short of breath',
  'coughing blood',
  'sharp pain in chest',
  'pain across chest',
  'light-headed after the last set',
  'nearly passed out',
  'about to pass out',
  'my heart skips a beat',
  'arm numbness',
  'pain in my left arm and chest',
  'chest and left arm pain',
  'unusual breathlessness',
  'discomfort in the chest',
  'chest felt a bit tight',
  'chest really heavy',
  'no chest pain but dizzy',
  'no chest pain, dizziness',
  'no chest pain at first, then chest pain',
  'no sleep, chest pain',
  'no more chest pain',
  'tired or dizzy',
  'chest pain in the third',
  'pain in my chest',
  'tight chest',
  'felt faint',
  'dizzy after it',
  'nearly blacked out',
  'can\u2019t breathe',
  'heart racing',
  'heart was skipping',
  'leg went a bit numb',
  'chest ache after the second',
  'ache across my chest',
  'chest was aching',
  'heart pounding and fluttering',
  'irregular heartbeat',
  'heartbeat felt irregular',
])('a note of %j names a sign that needs a doctor', (note) => expect(hasSign(note)).toBe(true))

test.each([
  'chest press felt good',
  'short of breath after the last one',
  'out of breath',
  'race at heart rate 170',
  'numb from the cold',
  'heart rate racing up the hill',
  'heart rate skipping on the strap',
  'tight chest strap',
  'pain in the knee and chest press',
  'chest and arms felt heavy',
  'no pressure on chest press',
  'chest strap a bit tight',
  'chest dips very heavy',
  'faint pain in the left knee',
  'No chest pain or dizziness, slept well',
  'no pain in my chest',
  "wasn't dizzy, never fainted",
  'no signs of faintness',
  'without chest pain',
  'chest press, then chest-supported row',
  'chest to the bar',
  'heart rate high',
  'heart rate very irregular on the strap',
  'irregular pacing',
  'bar to chest achieved',
  'breathed every third step',
  'dumbbells were numbered',
  'tight turns',
  'leg press',
])('a note of %j names no sign that needs a doctor', (note) => expect(hasSign(note)).toBe(false))

test.each(['chest', 'left breathing', 'dizzy', 'numb toes', 'heart', 'when breathing', 'numb foot'])(
  'a pain of %j needs a doctor',
  (place) => expect(needsADoctor({ place, level: null })).toBe(true),
)

test('a pain in the chest that is over, at 0, needs no doctor', () =>
  expect(needsADoctor({ place: 'chest', level: 0 })).toBe(false))

test.each(['left calf', 'heartily'])('a pain of %j needs no doctor', (place) =>
  expect(needsADoctor({ place, level: null })).toBe(false),
)

test('a place is the same whatever its case, its spaces, where its side stands and the words after a comma', () => {
  const key = (place: string) => placeKey({ place })
  expect(key('Left  calf, sharp')).toBe(key('left calf'))
  expect(['calf left', 'calf on the left', 'lower back right pain', 'both'].map(key)).toEqual([
    'left calf',
    'left calf',
    'right lower back',
    'both',
  ])
  expect(key('left calf , sharp')).toBe(key(' LEFT CALF'))
  expect(key('right calf')).not.toBe(key('left calf'))
})

describe('pain after a result', () => {
  test.each([
    ['6 pain left calf', '6', 'left calf'],
    ['6 pain left calf 4', '6', 'left calf 4'],
    ['4:16 hr 168 pain "left calf, sharp"', '4:16 hr 168', 'left calf, sharp'],
    ['6 x 100 @8 pain "left calf" 4', '6 x 100 @8', 'left calf 4'],
    ['pain left calf 4', '', 'left calf 4'],
    ['6 pain left calf 3.5', '6', 'left calf 3.5'],
    ['6 x 102.5 pain left calf 3,5 rpe 8', '6 x 102.5 rpe 8', 'left calf 3,5'],
    ['6 x 100 @8 pain left knee 3, hip 2', '6 x 100 @8', 'left knee 3, hip 2'],
    ['6 pain knee 3 hip 2 and back 1', '6', 'knee 3 hip 2 and back 1'],
    ['pain left knee 6 x100', '6 x100', 'left knee'],
    ['pain left knee 6 reps', '6 reps', 'left knee'],
    ['6 pain left knee 4/10 not sore', '6', 'left knee 4/10'],
    ['6 pain none', '6', null],
    ['6 pain is gone', '6', null],
    ['6 pain:left calf 4', '6', 'left calf 4'],
    ['pain "left knee" 6', '', 'left knee 6'],
    ['pain left knee 6 x 100', '6 x 100', 'left knee'],
    ['4:16 pain left knee 3 hr 168', '4:16 hr 168', 'left knee 3'],
    ['6 pain left calf rpe 8', '6 rpe 8', 'left calf'],
    ['6 pain in my left calf 4', '6', 'left calf 4'],
    ['pain left calf 4 failed at 3', '4 failed at 3', 'left calf'],
  ])('is read from %s', (typed, figures, pain) => {
    const { body, ...remarks } = entryTextOf(typed)
    expect(remarks).toMatchObject({ pain })
    expect(body.replace(/ +/g, ' ').trim()).toBe(figures)
  })
})

test.each([
  ['pain left calf 4', { text: 'left calf 4', pain: true }],
  ['pain: left calf', { text: 'left calf', pain: true }],
  ['pain:left calf 4', { text: 'left calf 4', pain: true }],
  ['pain in my left calf 4', { text: 'left calf 4', pain: true }],
  ['“pain left calf 4”', { text: 'left calf 4', pain: true }],
  ['pain none', { text: 'pain none', pain: false }],
  ['pain: none today', { text: 'pain: none today', pain: false }],
  ['pain-free', { text: 'pain-free', pain: false }],
  ['pain is gone', { text: 'pain is gone', pain: false }],
  ['pain gone but lower back tired', { text: 'pain gone but lower back tired', pain: false }],
  ['pain was gone but is back', { text: 'was gone but is back', pain: true }],
  ['pain gone, now back to running', { text: 'pain gone, now back to running', pain: false }],
  ['pain gone, now back to 4', { text: 'gone, now back to 4', pain: true }],
  ['pain gone, came back', { text: 'gone, came back', pain: true }],
  ['painted the rack', { text: 'painted the rack', pain: false }],
])('a note is a pain where it begins with the word and a place follows: %s', (typed, note) => {
  expect(noteOf(typed)).toEqual(note)
})

describe('the pains of a session', () => {
  const noted = (...entries: string[]) => {
    const walked = walkThrough(day)
    for (const entry of entries) walked.entry(entry)
    return walked.state
  }

  test('are those of its results, its meals and its notes', () => {
    const walked = walkThrough(day).entry('3:58 pain left calf 4')
    walked.typed('n').entry('pain right knee 2')
    const { state } = walked
    const eaten = { carbsG: 70, proteinG: null, fatG: null, kcal: null, note: null, pain: 'stomach 3' }
    expect(painsNoted({ ...state, meals: [{ when: 'after', result: eaten }] })).toEqual([
      { place: 'left calf', level: 4, step: '1.1.p1' },
      { place: 'right knee', level: 2, step: '1.1.p1' },
      { place: 'stomach', level: 3, step: null },
    ])
  })

  test('a warning sign in the note of a meal that was not prescribed needs a doctor', () => {
    const result = { carbsG: 70, proteinG: null, fatG: null, kcal: null, note: 'felt dizzy', pain: null }
    expect(isWarningNoted({ ...noted('3:58'), meals: [{ when: 'after', result }] })).toBe(true)
  })

  test.each([
    ['3:58', false, false],
    ['3:58 "felt dizzy"', false, true],
    ['3:58 "chest press next"', false, false],
    ['3:58 pain chest 3', true, true],
    ['3:58 pain chest 0', false, false],
    ['3:58 pain left calf 4', true, false],
    ['3:58 "windy" pain left calf 4', true, false],
  ])('%j has a pain: %s; needs a doctor: %s', (entry, hurts, warns) => {
    const state = noted(entry)
    expect([isPainNoted(state), isWarningNoted(state)]).toEqual([hurts, warns])
  })
})

describe('pain in the summary', () => {
  test('has its place, its level and the entry it was typed for', () => {
    const walked = walkThrough(day).entry('3:58').space().wait(60).space().wait(240).space()
    walked.entry('4:01 pain left calf 4')
    const { pain } = summarise(walked.session(), context)
    expect(pain).toEqual([{ place: 'left calf', level: 4, at: { line: 4, entry: 2 } }])
  })

  test('a note after a cut set belongs to the last set that was done, and is in the table', () => {
    const walked = walkThrough(day.replace(/\nrun\n.*\n/, '')).entry('5')
    walked.typed('t').entry('5').enter()
    walked.typed('n').entry('pain left calf 4')
    expect(walked.state.notes).toMatchObject([{ about: '1.1.s1', text: 'left calf 4', pain: true }])
    expect(setRows(walked.state, 'one')[0]?.pain).toBe('left calf 4')
  })
})

test('a pain that is typed after the laptop has set its clock back still comes after the 0 before it', () => {
  const walked = walkThrough(day).entry('4:00').typed('n').entry('pain left calf 0')
  walked
    .at({ ...walked.now, wall: walked.now.wall - 600_000 })
    .jump(60)
    .entry('4:00 pain "left calf 5"')
  expect(painsNoted(walked.state).map(({ level }) => level)).toEqual([0, 5])
})
