import { describe, expect, test } from 'vitest'
import { painToday } from '../../src/recorder/modes/notes.ts'
import { isPainNoted } from '../../src/session/pain.ts'
import { walkThrough } from '../day.ts'

const day = 'Easy\n\nrun\n  5 km easy\n'
const calf = { place: 'left calf', text: '4 on Tuesday, 3 on Thursday' }
const elbow = { place: 'right elbow', text: '2 on Monday' }

function asked() {
  const walked = walkThrough(day)
  walked.model = { ...walked.model, mode: painToday([calf, elbow]) }
  return walked
}

const notes = (walked: ReturnType<typeof asked>) =>
  walked.state.notes.map(({ text, pain }) => ({ text, pain }))

describe('a later day within 14 days of a pain', () => {
  test("shows the notes and asks for today's level, place by place", () => {
    const walked = asked()
    expect(walked.view.panel?.lines).toEqual([
      'left calf: 4 on Tuesday, 3 on Thursday',
      'right elbow: 2 on Monday',
    ])
    expect(walked.view.entry.label).toBe('left calf today')
    walked.entry('5')
    expect(walked.notice).toBe('Pain noted: left calf 5. Stop if it is sharp or gets worse.')
    expect(walked.view.entry.label).toBe('right elbow today')
    walked.entry('1')
    expect(walked.model.mode.kind).toBe('recording')
    expect(notes(walked)).toEqual([
      { text: 'left calf 5', pain: true },
      { text: 'right elbow 1', pain: true },
    ])
    expect(isPainNoted(walked.state)).toBe(true)
  })

  test('keeps its hint when Space is pressed by habit', () => {
    const walked = asked().typed(' ')
    expect(walked.model.draft).toBe('')
    expect(walked.view.keys.map(({ label }) => label)).toEqual(['skip', 'skip all'])
  })

  test('skips a place with Enter, all of them with Escape, and notes nothing', () => {
    expect(notes(asked().enter().enter())).toEqual([])
    const left = asked().key('escape')
    expect(left.model.mode.kind).toBe('recording')
    expect(notes(left)).toEqual([])
  })

  test('stores a 0 as the end of the pain, and gives advice as without pain', () => {
    const walked = asked().entry('0').enter()
    expect(notes(walked)).toEqual([{ text: 'left calf 0', pain: true }])
    expect(walked.notice).toBeNull()
    expect(isPainNoted(walked.state)).toBe(false)
  })

  test('asks again for anything but a number from 0 to 10', () => {
    const levels = asked().entry('3.5').entry('4/10')
    expect(notes(levels).map(({ text }) => text)).toEqual(['left calf 3.5', 'right elbow 4/10'])
    const walked = asked().entry('11')
    expect(walked.notice).toBe('type a number from 0 to 10, not "11"; Enter alone skips')
    expect(walked.view.entry.label).toBe('left calf today')
    expect(notes(walked)).toEqual([])
  })
})
