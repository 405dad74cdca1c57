import { expect, test } from 'vitest'
import { walkThrough } from '../day.ts'

/* What an athlete types while a part waits only to be closed is kept, or refused in words. */

const meals = 'Meals\n\nfuel\n  before 2 h: carbs 75 g\n  after: carbs 80 g\n'
const run = 'Easy\n\nrun\n  2 km easy\n'

test('a result typed while a part is about to be closed is recorded', () => {
  const walked = walkThrough(meals).enter().typed('f').entry('carbs 60 g')
  expect(walked.state.recorded.size).toBe(2)
  expect(walked.model.mode.kind).toBe('recording')
})

test('a text that is no result stays in the field, with the reason', () => {
  const walked = walkThrough(meals).enter().typed('f').entry('blah 7 7')
  expect(walked.state.partStates[0]).toMatchObject({ closed: false })
  expect(walked.model).toMatchObject({ draft: 'blah 7 7', mode: { kind: 'closing' } })
  expect(walked.notice).toMatch(/Esc clears it, then Enter closes$/)
})

test.each(['confirm', 'effort', 'minutes'])('pain typed at the question for %s is noted', (stage) => {
  const early = walkThrough(stage === 'confirm' ? meals : run).entry(stage === 'confirm' ? '' : '11:00')
  const asked = early.typed('f')
  const walked = stage === 'minutes' ? asked.entry('3') : asked
  walked.entry('pain left knee')
  expect(walked.model.mode).toMatchObject({ kind: 'closing', stage })
  expect(walked.model.events.at(-1)).toMatchObject({ type: 'noteAdded', text: 'left knee', pain: true })
  expect(walked.notice).toMatch(/^Pain noted: left knee/)
})

test('pain is noted, and a result refused, while everything is recorded and nothing is closed', () => {
  const walked = walkThrough(run).entry('11:00').entry('pain left knee')
  expect(walked.model.events.at(-1)).toMatchObject({ type: 'noteAdded', pain: true })
  walked.entry('12:00')
  expect(walked.model.draft).toBe('12:00')
  expect(walked.notice).toMatch(/^not recorded: every result is entered/)
})
