import { describe, expect, it } from 'vitest'
import { differencesOf, printEntry, readEntries } from '../../src/session/entry/entry.ts'
import type { Prompt } from '../../src/session/prompt.ts'
import { answered, fiveHundred, mile, straight, twentyMinutes } from './entryPrompts.ts'

const four: readonly Prompt[] = [mile, mile, mile, mile]

function read(text: string, asked: readonly Prompt[]): string {
  const reading = readEntries(text, asked)
  const printed = (answers: Parameters<typeof printEntry>[0][] | null | undefined) =>
    answers?.map((answer, index) => printEntry(answer, asked[index] as Prompt)).join(' | ') ?? 'nothing'
  if (reading.outcome === 'answer') return printed(reading.value)
  if (reading.outcome === 'error') return `error: ${reading.message}`
  return `${reading.message} || ${reading.suggested?.text ?? 'nothing'} || ${printed(reading.suggested?.value)} || ${printed(reading.insisted)}`
}

describe('several times on one line', () => {
  it.each([
    ['6:07 6:05 6:04 6:01', '6:07 | 6:05 | 6:04 | 6:01'],
    ['6:07, 6:05', '6:07 | 6:05'],
    ['6:07,6:05', '6:07 | 6:05'],
    ['6:07,5 6:05,5', '6:07.5 | 6:05.5'],
    ['367 365', '6:07 | 6:05'],
    ['367,365,364,361', '6:07 | 6:05 | 6:04 | 6:01'],
    ['367,5', '6:07.5'],
    ['367.5,365.1,364', '6:07.5 | 6:05.1 | 6:04'],
    ['367.5,365.1', '6:07.5 | 6:05.1'],
    ['6:07 hr 170 6:05 hr 171 @8', '6:07 hr 170 | 6:05 hr 171 rpe 8'],
    ['6:07 - 6:01 "windy"', '6:07 | - | 6:01 "windy"'],
    ['6:07', '6:07'],
    [`6'07" 6'05"5 "windy" 6'01`, '6:07 | 6:05.5 "windy" | 6:01'],
    ['1600 m in 6:07 hr 170/181', '1.6 km in 6:07 hr 170/181'],
    ['6:07 = hr 150', 'error: result 2: a target is never a result: type the time of 1 mi, such as 8:03'],
    ['- 6:05', '- | 6:05'],
    ['hr 170 6:07', '6:07 hr 170'],
    ['6:07 1609 m 6:05', '1609 m in 6:07 | 6:05'],
    ['6:07 @8 6:05', '6:07 rpe 8 | 6:05'],
    ['6:07 -6:05', 'error: "-" is not understood; type the time of 1 mi, such as 8:03'],
    ['6:07-6:05', 'error: "-" is not understood; type the time of 1 mi, such as 8:03'],
    ['6:07 6:05-', 'error: result 2: "-" is not understood; type the time of 1 mi, such as 8:03'],
    ['6:07 =6:05', 'error: "=" is not understood; type the time of 1 mi, such as 8:03'],
    ['6:07 6:05=', 'error: result 2: "=" is not understood; type the time of 1 mi, such as 8:03'],
    ['6:07 in 6:05', 'error: there are two times, 6:07 and 6:05; type one'],
    ['6:07 6:05 -', '6:07 | 6:05 | -'],
    ['6:07; 6:05', '6:07 | 6:05'],
    // As copied from a table.
    ['6:07\t6:05', '6:07 | 6:05'],
    ['6:07 171 bpm 6:05', '6:07 hr 171 | 6:05'],
    ['6:07 rir 2 6:05', '6:07 rpe 8 | 6:05'],
    ['6:07 2 rir', '6:07 rpe 8'],
    ['hr: 168 6:07', '6:07 hr 168'],
    ['6:07 pain "calf 3"', '6:07 pain "calf 3"'],
    ['6:07 "windy" 6:05 6:04', '6:07 "windy" | 6:05 | 6:04'],
    ['6:07 "a 3" 6:05 “b” 6:04', '6:07 "a 3" | 6:05 "b" | 6:04'],
    ['"cold" 6:07 6:05', '6:07 "cold" | 6:05'],
    ['6:07 pain "left calf" 6:05 6:04', '6:07 pain "left calf" | 6:05 | 6:04'],
    ['6:07 pain "left calf" 3 6:05', '6:07 pain "left calf 3" | 6:05'],
    ['6:07 pain left calf 3 6:05 hr 170', '6:07 pain "left calf 3" | 6:05 hr 170'],
    ['6:07 pain: left calf 365 6:04', '6:07 pain "left calf" | 6:05 | 6:04'],
    ['6:07 pain left calf 3, hip 2', '6:07 pain "left calf 3, hip 2"'],
    ['6:07 pain left calf 3 and hip 2 6:05', '6:07 pain "left calf 3 and hip 2" | 6:05'],
    ['6:07 no pain 6:05', '6:07 "no pain" | 6:05'],
  ])('%j fills the next results in order', (text, answers) => {
    expect(read(text, four)).toBe(answers)
  })

  it('leaves results pending if there are too few', () => {
    const reading = readEntries('6:07 6:05', four)
    expect(reading.outcome === 'answer' ? reading.value.length : reading).toBe(2)
  })

  it('takes a note that begins with a curly quote and ends with a straight one, times in it too', () => {
    const reading = readEntries('6:07 “slower than 6:00"', four)
    expect(reading).toMatchObject({ outcome: 'answer', value: [{ result: { note: 'slower than 6:00' } }] })
  })

  it('asks one question after the other', () => {
    expect(read('6.07 6.05', four)).toBe(
      'result 1: 6.07 s for 1 mi is faster than any human; did you mean 6:07? result 2: 6.05 s for 1 mi is faster than any human; did you mean 6:05? || 6:07 6:05 || 6:07 | 6:05 || 0:06.07 | 0:06.05',
    )
  })

  it('questions each implausible one', () => {
    expect(read('6.07 6:05', four)).toBe(
      'result 1: 6.07 s for 1 mi is faster than any human; did you mean 6:07? || 6:07 6:05 || 6:07 | 6:05 || 0:06.07 | 6:05',
    )
  })

  it('takes a number that cannot be the next time for a heart rate', () => {
    const asked =
      'there are two times, 6:07 and 172; type one; did you mean 6:07 hr 172? || 6:07 hr 172 || 6:07 hr 172 ||'
    expect([read('6:07 172', four), read('6:07 172', [mile])]).toEqual([
      `${asked} nothing`,
      `${asked} nothing`,
    ])
    expect(read('1:52 172', [fiveHundred, fiveHundred])).toBe('1:52 | 2:52')
  })

  it('refuses more times than prompts', () => {
    expect(read('6:07 6:05 6:04 6:01 6:00', four)).toBe(
      'error: there are 5 times, and only 4 times are asked for next',
    )
    expect(read('6:07 6:05', [mile])).toBe('error: there are 2 times, and only 1 time is asked for next')
    expect(read('6:07', [])).toBe('error: there is no result to enter now')
  })

  it('refuses the line if one of them cannot be read', () => {
    expect(read('6:07 6:75', four)).toBe(
      'error: result 2: 6:75 is neither a number nor a time such as 6:07, 1:28.4 or 1:02:11',
    )
    expect(read('6:07 6:05 hr', four)).toBe(
      'error: result 2: "hr" needs a number after it; type the time of 1 mi, such as 8:03',
    )
    expect(read('6:07 6:05', [mile, straight])).toBe(
      'error: there are 2 times, and only 1 time is asked for next',
    )
  })

  it('is one result if its time comes before its distance, in any word for the unit', () => {
    for (const far of ['1500 m', '1500 metres', '1.5 kilometres'])
      expect(read(`6:07 ${far}`, four)).toBe(read('1500 m in 6:07', four))
  })

  it('works only for intervals: sets are typed one at a time', () => {
    expect(read('6 100', [straight, straight])).toBe(
      'an x goes between repetitions and load; did you mean 6 x 100? || 6 x 100 || 6 x 100 || nothing',
    )
  })
})

describe('times that rise like a stopwatch that was never reset', () => {
  it('are questioned, and the differences suggested', () => {
    expect(read('6:07 12:10 18:15.5', four)).toBe(
      'running totals? The differences are 6:07.0 6:03.0 6:05.5 || 6:07.0 6:03.0 6:05.5 || 6:07.0 | 6:03.0 | 6:05.5 || 6:07 | 12:10 | 18:15.5',
    )
  })

  it('are questioned from the second on', () => {
    expect(read('6:07 12:30', four)).toContain('running totals? The differences are 6:07 6:23')
    expect(read('6:07', four)).toBe('6:07')
  })

  it('are not suspected with a repeat that was skipped, or whose time is not known', () => {
    expect(read('6:07 - 12:30', four)).toBe('6:07 | - | 12:30')
    const [first] = four
    if (first?.kind !== 'interval') throw new Error('a mile is an interval')
    expect(read('6:07 = 12:30', [first, { ...first, hasTarget: false }, first])).toBe('6:07 | = | 12:30')
  })

  it('are questioned if they have become too slow for splits', () => {
    const six = Array<Prompt>(6).fill(fiveHundred)
    expect(read('1:48 3:36 5:25 7:14 9:02 10:51', six)).toContain(
      'running totals? The differences are 1:48 1:48 1:49 1:49 1:48 1:49',
    )
    expect(read('2:48 5:36 8:25 11:14 14:02 16:51', six)).toContain(
      'running totals? The differences are 2:48 2:48 2:49',
    )
  })

  it('are not suspected in repeats that slow down, or in a ladder', () => {
    expect(read('6:01 6:04 6:07 6:10', four)).toBe('6:01 | 6:04 | 6:07 | 6:10')
    const ladder = [200, 400, 800].map((meters) => ({ ...mile, meters, label: `${meters} m` }))
    expect(read('0:34 1:12 2:35', ladder)).toBe('0:34 | 1:12 | 2:35')
  })

  it('are not suspected where another distance was typed', () => {
    const typed = ['6:07', '2 mi in 18:30'].map((text) => answered(text, mile))
    expect(differencesOf(typed, [mile, mile])).toBeNull()
  })

  it('are not suspected where the differences are as implausible', () => {
    expect(read('3 6', four)).toContain('result 1: 3 s for 1 mi is faster than any human')
  })

  it('are not suspected in intervals given by time', () => {
    expect(read('1195 1204', [twentyMinutes, twentyMinutes])).toBe('19:55 | 20:04')
    expect(read('10:00 20:00', [twentyMinutes, twentyMinutes])).toBe('10:00 | 20:00')
  })
})
