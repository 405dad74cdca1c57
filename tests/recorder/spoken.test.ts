import { describe, expect, test } from 'vitest'
import { milestoneBetween } from '../../src/recorder/clockText.ts'
import { spokenLines } from '../../src/recorder/view.ts'
import { momentAfter } from '../../src/session/clock.ts'
import { type Walked, walkThrough } from '../day.ts'

const straight = 'One\n\nlift\n  bench press: 2 x 5 @ 70 kg, rest 2:30\n'
const day = () => walkThrough(straight)

/** What the screen reader prints when these keys are pressed. */
function heard(walked: Walked, act: (walked: Walked) => unknown): string[] {
  const before = walked.view
  act(walked)
  return spokenLines(before, walked.view)
}

describe('a screen reader announces', () => {
  test('at first what to do, the clock, the prompt, the advice', () => {
    expect(spokenLines(null, day().view)).toEqual([
      'bench press 5 at 70 kg: 25 a side, set 1 of 2',
      'ready 0:00',
      'asked: bench press, set 1 of 2, Enter: 5 x 70',
      'now load 70 kg: 25 a side',
    ])
  })

  test('nothing while only the seconds change', () => {
    expect(heard(day().effort(20).wait(5), (walked) => walked.wait(1))).toEqual([])
  })

  test('the echo of a result, and what comes next', () => {
    expect(heard(day().effort(20).wait(1), (walked) => walked.entry('5 @8'))).toEqual([
      'recorded 5 x 70 @8',
      'asked: bench press, set 2 of 2, Enter: 5 x 70',
    ])
  })

  test('a notice, and a list once with the line that is picked', () => {
    expect(heard(day(), (walked) => walked.typed('h'))).toEqual(['no clock runs'])
    const walked = day().entry('5').entry('4').wait(5)
    expect(heard(walked, () => walked.typed('e'))[0]).toBe('correct which result?')
    expect(heard(walked, () => walked.key('up'))).toEqual(['bench press, set 1 of 2: 5 x 70'])
    walked.key('escape')
    expect(heard(walked, () => walked.typed('u'))).toContain('taken back: the result of set 2 of 2')
  })

  test('a failed save', () => {
    const walked = day()
    const before = walked.view
    walked.model = { ...walked.model, saved: { ok: false, reason: 'the disk is full' } }
    expect(spokenLines(before, walked.view)).toEqual(['NOT SAVED: the disk is full'])
  })
})

describe('the milestones of a countdown', () => {
  const rest = day().effort(20)
  const between = (from: number, to: number) =>
    milestoneBetween(rest.state, momentAfter(rest.now, from), momentAfter(rest.now, to))

  test('are a minute, 30 and 10 seconds before its end, and its end', () => {
    expect(between(89, 90)).toBe('one minute left')
    expect(between(119.5, 120)).toBe('30 seconds left')
    expect(between(139, 141)).toBe('10 seconds left')
    expect(between(149, 150)).toBe('go')
    expect(between(100, 101)).toBeNull()
    expect(between(150, 151)).toBeNull()
  })

  test('are not announced at its beginning, or when nothing counts down', () => {
    const minute = walkThrough(straight.replace('2:30', '1:00')).effort(20)
    expect(milestoneBetween(minute.state, momentAfter(minute.now, -1), minute.now)).toBeNull()
    const set = day().space()
    expect(milestoneBetween(set.state, set.now, momentAfter(set.now, 60))).toBeNull()
  })
})
