import { describe, expect, it } from 'vitest'
import { differencesOf, printEntries, readEntries } from '../../src/session/entry/entry.ts'
import type { Prompt } from '../../src/session/prompt.ts'
import { answered, easyTwo, fiveHundred, mile, straight, twentyMinutes } from './entryPrompts.ts'

/* Several results on one line; golden/entries.txt has what four miles on a line are taken for. */

const four: readonly Prompt[] = [mile, mile, mile, mile]

/** The answers as they would be typed; else how the line is answered. */
function read(text: string, asked: readonly Prompt[]): string[] | string {
  const reading = readEntries(text, asked)
  return reading.outcome === 'answer' ? printEntries(reading.value, asked) : reading.outcome
}

/** What Enter would record instead. */
function suggestedFor(text: string, asked: readonly Prompt[]): string | null {
  const reading = readEntries(text, asked)
  return reading.outcome === 'question' ? (reading.suggested?.text ?? null) : null
}

describe('several times on one line', () => {
  it('fill the next results in order, and leave the others pending', () => {
    expect(read('6:07 6:05', four)).toEqual(['6:07', '6:05'])
  })

  it('take a note that begins with a curly quote and ends with a straight one, times in it too', () => {
    const reading = readEntries('6:07 “slower than 6:00"', four)
    expect(reading).toMatchObject({ outcome: 'answer', value: [{ result: { note: 'slower than 6:00' } }] })
  })

  it('are refused if there are more than results, or if one cannot be read', () => {
    expect(['6:07 6:05 6:04 6:01 6:00', '6:07 6:75'].map((text) => read(text, four))).toEqual([
      'error',
      'error',
    ])
    expect([read('6:07 6:05', [mile]), read('6:07', [])]).toEqual(['error', 'error'])
  })

  it('are one result if the time comes before its distance, in any word for the unit', () => {
    for (const far of ['1500 m', '1500 metres', '1.5 kilometres'])
      expect(read(`6:07 ${far}`, four)).toEqual(read('1500 m in 6:07', four))
  })

  it('are only those of intervals: sets are typed one at a time', () => {
    expect(suggestedFor('6 100', [straight, straight])).toBe('6 x 100')
    expect(read('6:07 6:05', [mile, straight])).toBe('error')
  })
})

describe('times that rise like a stopwatch that was never reset', () => {
  it('are questioned from the second on, and the differences suggested', () => {
    expect(suggestedFor('6:07 12:10 18:15.5', four)).toBe('6:07.0 6:03.0 6:05.5')
    expect(suggestedFor('6:07 12:30', four)).toBe('6:07 6:23')
    expect(read('6:07', four)).toEqual(['6:07'])
  })

  it('are questioned if they have become too slow for splits', () => {
    const six = Array<Prompt>(6).fill(fiveHundred)
    expect(suggestedFor('1:48 3:36 5:25 7:14 9:02 10:51', six)).toBe('1:48 1:48 1:49 1:49 1:48 1:49')
    expect(suggestedFor('2:48 5:36 8:25 11:14 14:02 16:51', six)).toBe('2:48 2:48 2:49 2:49 2:48 2:49')
  })

  it.each<[string, string, Prompt[]]>([
    ['with a repeat that was skipped', '6:07 - 12:30', [mile, mile, mile]],
    ['with one whose time is not known', '8:00 = 16:30', [easyTwo, easyTwo, easyTwo]],
    ['in repeats that slow down', '6:01 6:04 6:07 6:10', [mile, mile, mile, mile]],
    ['in intervals given by time', '10:00 20:00', [twentyMinutes, twentyMinutes]],
    [
      'in a ladder',
      '0:34 1:12 2:35',
      [200, 400, 800].map((meters) => ({ ...mile, meters, label: `${meters} m` })),
    ],
  ])('are not suspected %s', (_, text, asked) => {
    expect(read(text, asked)).toEqual(text.split(' '))
  })

  it('are not suspected where another distance was typed, or where the differences are as implausible', () => {
    const typed = ['6:07', '2 mi in 18:30'].map((text) => answered(text, mile))
    expect(differencesOf(typed, [mile, mile])).toBeNull()
    expect(suggestedFor('3 6', four)).toBeNull()
  })
})
