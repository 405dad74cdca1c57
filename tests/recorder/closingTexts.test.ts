import { expect, test } from 'vitest'
import { warningText } from '../../src/recorder/update.ts'
import { walkThrough } from '../day.ts'

/* What an athlete types while a part waits only to be closed is kept, or refused in words. */

const meals = 'Meals\n\nfuel\n  before 2 h: carbs 75 g\n  after: carbs 80 g\n'
const run = 'Easy\n\nrun\n  2 km easy\n'

test('what is typed into a confirmation stays in the field, with what to do', () => {
  const walked = walkThrough(meals).enter().typed('f').entry('blah 7 7')
  expect(walked.state.partStates[0]).toMatchObject({ closed: false })
  expect(walked.model).toMatchObject({ draft: 'blah 7 7', mode: { kind: 'closing' } })
  expect(walked.notice).toMatch(/^Enter in the empty field closes it/)
})

test.each(['close fuel', 'effort of run', 'minutes'])('pain typed at the question "%s" is noted', (stage) => {
  const early = walkThrough(stage === 'close fuel' ? meals : run).entry(stage === 'close fuel' ? '' : '11:00')
  const asked = early.typed('f')
  const walked = stage === 'minutes' ? asked.entry('3') : asked
  walked.entry('pain left knee')
  expect(walked.view.entry.label).toBe(stage)
  expect(walked.model.events.at(-1)).toMatchObject({ type: 'noteAdded', text: 'left knee', pain: true })
  expect(walked.notice).toMatch(/^Pain noted: left knee/)
})

test('pain typed after the effort of a part, and a note after its minutes, are noted beside them', () => {
  const walked = walkThrough(run).entry('11:00').typed('f').entry('7 pain left knee 3')
  expect(walked.notice).toMatch(/^Pain noted: left knee 3/)
  walked.entry('12 "windy"')
  expect(walked.state.partStates[0]).toMatchObject({ closed: true, effort: 7, minutes: 12 })
  expect(walked.model.events.filter(({ type }) => type === 'noteAdded')).toMatchObject([
    { text: 'left knee 3', pain: true },
    { text: 'windy', pain: false },
  ])
})

test('the word easy is an effort alone or as its list shows it, and beside any other figure a note', () => {
  const answered = (...typed: string[]) => {
    const walked = walkThrough(run).entry('11:00').typed('f')
    for (const each of typed) walked.entry(each)
    const notes = walked.state.notes.map(({ text }) => text)
    const { effort, minutes } = { effort: null, minutes: null, ...walked.state.partStates[0] }
    return { effort, minutes, notes }
  }
  expect(answered('easy', '12')).toEqual({ effort: 2, minutes: 12, notes: [] })
  expect(answered('2 easy', '12')).toEqual({ effort: 2, minutes: 12, notes: [] })
  expect(answered('3 easy', '12 easy')).toEqual({ effort: 3, minutes: 12, notes: ['easy', 'easy'] })
  expect(answered('easy "windy"', '12')).toEqual({ effort: 2, minutes: 12, notes: ['easy; windy'] })
  expect(answered('3', 'easy').minutes).toBeNull()
})

test('the pain of an answer that cannot be read is kept, and the answer stays in the field', () => {
  const walked = walkThrough(run).entry('11:00').typed('f').entry('17 pain left knee')
  expect(walked.model.events.at(-1)).toMatchObject({ type: 'noteAdded', pain: true })
  expect([walked.model.draft, walked.view.entry.label]).toEqual(['17', 'effort of run'])
  expect(walked.notice).toMatch(/^Pain noted: left knee/)
  expect(walked.enter().notice).toMatch(/^invalid effort "17"/)
})

test('a warning sign typed after the effort or the minutes is answered first, also where the part closes or they are questioned', () => {
  const asked = () => walkThrough(run).entry('11:00').typed('f').entry('7')
  const warned = walkThrough(run).entry('11:00').typed('f').entry('7 chest pain')
  expect([warned.notice, warned.view.entry.label]).toEqual([warningText, 'minutes'])
  expect(warned.enter().state.partStates[0]).toMatchObject({ closed: true, effort: 7 })
  for (const minutes of ['12', '400']) {
    const walked = asked().entry(`${minutes} pain chest`)
    expect(walked.notice).toBe(warningText)
    expect(walked.state.partStates[0]?.closed).toBe(minutes === '12')
  }
})

test('a warning sign beside another pain, in a note or in a later result, is answered first', () => {
  const noted = walkThrough(run).entry('11:00').entry('"chest felt tight" pain left knee 3')
  expect(noted.notice).toBe(warningText)
  const repeats = walkThrough('Fast\n\nrun\n  4 x 400 m in 80 s, jog 200 m\n')
  expect(repeats.entry('81 pain left calf 3 82 pain chest').enter().notice).toBe(warningText)
})

test('the field for as many rounds as fit says what is typed there', () => {
  const walked = walkThrough('Day\nlift\n  12 min of: 8 row, 6 step-up\n')
  expect(walked.view.entry.placeholder).toBe('rounds + reps, such as 6+12')
})

test('pain is noted, and a result refused, while everything is recorded and nothing is closed', () => {
  const walked = walkThrough(run).entry('11:00').entry('pain left knee')
  expect(walked.model.events.at(-1)).toMatchObject({ type: 'noteAdded', pain: true })
  walked.entry('12:00')
  expect(walked.model.draft).toBe('12:00')
  expect(walked.notice).toMatch(/^not recorded: no result is missing/)
})
