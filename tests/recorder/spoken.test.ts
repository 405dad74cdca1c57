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
  test('at first what to do, what follows it, the clock, the prompt', () => {
    expect(spokenLines(null, day().view)).toEqual([
      'bench press 5 at 70 kg: 25 a side, set 1 of 2',
      'then set 2 of 2',
      'ready 0:00',
      'asked: bench press, set 1 of 2, Enter: 5 x 70',
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
    const walked = day().entry('5').wait(1).entry('4').wait(5)
    expect(heard(walked, () => walked.typed('e'))[0]).toBe('correct which result?')
    expect(heard(walked, () => walked.key('up'))).toEqual(['bench press, set 1 of 2: 5 x 70'])
    walked.key('escape')
    expect(heard(walked, () => walked.typed('u'))).toContain('undone: the result of set 2 of 2')
  })

  test('a question with its keys, and once', () => {
    const walked = day().space().wait(2)
    const said = heard(walked, () => walked.enter())
    expect(said[0]).toBe(walked.view.panel?.title)
    expect(said.filter((line) => line === 'Press Enter (yes), Space (done) or Esc (no).')).toHaveLength(1)
    expect(heard(walked, () => walked.wait(1)).join()).not.toContain('Press')
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
  const between = (from: number, to: number, { state, now } = rest) =>
    milestoneBetween(state, momentAfter(now, from), momentAfter(now, to))

  test('are a minute, 30 and 10 seconds before its end, and its end', () => {
    expect(between(89, 90)).toBe('one minute left')
    expect(between(119.5, 120)).toBe('30 seconds left')
    expect(between(139, 141)).toBe('10 seconds left')
    expect(between(149, 150)).toBe('go')
    expect(between(100, 101)).toBeNull()
    expect(between(150, 151)).toBeNull()
  })

  test('are not announced once they are no longer true, because the laptop slept', () => {
    expect([between(80, 125), between(100, 147), between(80, 200)]).toEqual([null, null, 'go'])
  })

  test('are not announced at its beginning, or when nothing counts down', () => {
    const minute = walkThrough(straight.replace('2:30', '1:00')).effort(20)
    expect(between(-1, 0, minute)).toBeNull()
    expect(between(0, 60, day().space())).toBeNull()
  })

  test('leave out those that are longer than the countdown', () => {
    const short = walkThrough(straight.replace('2:30', '0:40')).effort(20)
    expect([between(0, 1, short), between(9, 10, short), between(10, 10.5, short)]).toEqual([
      ...[null, '30 seconds left', null],
    ])
  })
})

describe('a screen reader announces once', () => {
  test('the rows of a list in which nothing can be picked', () => {
    const walked = day()
    const said = heard(walked, () => walked.typed('?'))
    expect(said[0]).toBe('keys')
    expect(said.length).toBeGreaterThan(10)
  })

  test('advice that changed, not advice that stays, nor a save that works again', () => {
    const walked = walkThrough('One\n\nlift\n  press: 2 x 5 @ 40 kg, rest 1:00\n')
    expect(heard(walked, () => walked.entry('5 @10').wait(3))).toContain(
      'usual advice: 37.5 kg for the next set',
    )
    expect(heard(walked, () => walked.typed('h').key('escape'))).toEqual([])
    const failed = { ...walked.view, head: { ...walked.view.head, isSaved: false, saved: 'NOT SAVED' } }
    expect(spokenLines(failed, walked.view)).toEqual([])
    expect(spokenLines(failed, failed)).toEqual([])
  })

  test('the last time, with the step that it is about', () => {
    const lastTime = (key: { exercise: string } | { text: string }) =>
      'exercise' in key ? `12 Nov: ${key.exercise}` : null
    const walked = walkThrough('One\n\nlift\n  press: 1 x 5 @ 40 kg\n  row: 1 x 5 @ 50 kg\n', {
      context: { lastTime },
    })
    const said = heard(walked, () => walked.entry('5'))
    expect(said[said.findIndex((line) => line.startsWith('row 5')) + 2]).toBe('last time 12 Nov: row')
  })

  test('how far it was the last time, for a run given by time', () => {
    const lastTime = (key: object) => ('far' in key ? `24 Nov: in ${key.far}` : null)
    const last = (line: string) =>
      walkThrough(`One\n\nrun\n  ${line}\n`, { context: { lastTime } }).view.lastTime
    expect(last('2 x (3 min hard, jog 200 m)')).toBe('last time 24 Nov: in km')
    expect(last('2 km easy')).toBe('')
  })

  test('no prompt while keys pick from a list, and no notice twice', () => {
    const walked = day().entry('5')
    expect(heard(walked, () => walked.typed('o')).filter((line) => line.startsWith('asked'))).toEqual([])
    expect(heard(walked, () => walked.typed('z'))).toHaveLength(1)
    expect(heard(walked, () => walked.wait(1).typed('z'))).toEqual([])
  })
})

describe('the clock of a rest', () => {
  const after = (seconds: number, rest = '2:30') =>
    walkThrough(straight.replace('2:30', rest)).effort(20).jump(seconds).clock

  test('counts down with the share that is left, and ends within its last 3 seconds', () => {
    expect(after(0)).toMatchObject({ text: '2:30', kind: 'rest', share: 1, isEnding: false })
    expect(after(75.9)).toMatchObject({ text: '1:15', share: 0.5 })
    expect(after(146.5)).toMatchObject({ text: '0:04', isEnding: false })
    expect(after(147)).toMatchObject({ text: '0:03', isEnding: true })
    expect(after(149.5)).toMatchObject({ text: '0:01', isEnding: true })
  })

  test('counts up once it is over, with the share of its length that passed again, and says since when after ten minutes', () => {
    expect(after(150)).toMatchObject({ text: '+0:00', kind: 'over', share: 0, isEnding: false })
    expect(after(225.5)).toMatchObject({ text: '+1:15', share: 0.5 })
    expect(after(400).share).toBe(1)
    expect(after(749.5).text).toBe('+9:59')
    // 06:40:00 begins the set, 06:40:20 the rest of 2:30.
    expect(after(750)).toMatchObject({ text: 'over', beside: 'over since 06:42', kind: 'over' })
  })
})
