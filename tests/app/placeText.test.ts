import { describe, expect, it, test } from 'vitest'
import { placeText } from '../../src/app/choices.ts'
import { type Walked, walkThrough } from '../day.ts'

const run = 'Thursday\n\nrun\n  2 km easy\n  2 x (500 m in 1:50, jog 200 m)\n'
const lift = `Thursday

lift
  front squat 2 x (1+1) @ 90 kg, pause 20 s, rest 2:30
  pull-up 2 x 6 @ bodyweight + dip 2 x 8 @ bodyweight, pause 20 s, rest 1:30
`

describe('where an unfinished session was left', () => {
  const place = (walked: Walked) => placeText(walked.state)

  it('names the run before and while it runs, and the jog', () => {
    const walked = walkThrough(run)
    expect(place(walked)).toBe('before 2 km')
    expect(place(walked.space().wait(60))).toBe('in 2 km')
    walked.wait(600).space().enter()
    expect(place(walked.effort(110))).toBe('in jog 200 m')
  })

  it('names the exercise, and tells a pause within a set from the rest before it', () => {
    const walked = walkThrough(lift)
    expect(place(walked)).toBe('before front squat, set 1 of 2')
    expect(place(walked.effort(4))).toBe('in the pause of front squat, set 1 of 2')
    expect(place(walked.wait(20))).toBe('in front squat, set 1 of 2')
    expect(place(walked.space().enter())).toBe('in the rest before front squat, set 2 of 2')
    walked.space().enter().enter()
    expect(place(walked)).toBe('before pull-up, set 1 of 2')
    expect(place(walked.effort(20))).toBe('in the pause before dip, set 1 of 2')
  })

  it('says when nothing is left', () => {
    expect(place(walkThrough('Easy\n\nrun\n  2 km easy\n').entry('11:00'))).toBe('with everything done')
  })
})

test('a warm-up set is named with its exercise, too', () => {
  const walked = walkThrough('Legs\n\nlift\n  back squat 1 x 5 @ 100 kg, build from 60 kg\n')
  expect(placeText(walked.state)).toMatch(/^before back squat, warm-up/)
})
