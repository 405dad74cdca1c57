import { describe, expect, it } from 'vitest'
import { readMinutes, readSessionRpe } from '../../src/session/entry/closing.ts'
import { describeEmpty, printEntry, readEntries, readEntry } from '../../src/session/entry/entry.ts'
import { FuelResult, IntervalResult, PrepResult, SetResult } from '../../src/session/model.ts'
import type { Answer, Prompt } from '../../src/session/prompt.ts'
import fc, { anyCharacter, times } from '../fastCheck.ts'
import * as prompts from './entryPrompts.ts'

const everyPrompt = Object.values(prompts).filter((value): value is Prompt => typeof value === 'object')
const asked = fc.constantFrom(...everyPrompt)

/** Fragments of entries, so that many of the texts mean something. */
const word = fc.oneof(
  fc.constantFrom(
    ...'x @ ! + - = / , . : " “ × — !! pain hr rpe rir bw kg lb s m km mi min in reps'.split(' '),
    ...'carbs protein fat kcal g 2x'.split(' '),
    'left knee',
  ),
  fc.nat({ max: 300 }).map(String),
  fc.double({ min: 0, max: 2000, noNaN: true }).map((value) => String(Number(value.toFixed(2)))),
  fc
    .tuple(fc.nat({ max: 70 }), fc.nat({ max: 59 }))
    .map(([minutes, seconds]) => `${minutes}:${String(seconds).padStart(2, '0')}`),
  fc.constant('"windy back straight"'),
)
const typed = fc
  .array(fc.tuple(word, fc.constantFrom('', ' ')), { maxLength: 9 })
  .map((words) => words.map(([text, space]) => text + space).join(''))
/** Entries as they are typed out of breath: several figures, and whatever comes after them. */
const figures = fc.constantFrom('5', '20', '100', '1.5', '1.2.3', '1:2', '6.07', '5+5', '2x20', '300', '1:28')
const scribbled = fc.oneof(
  typed,
  fc.array(fc.oneof(figures, word), { minLength: 1, maxLength: 4 }).map((words) => words.join(' ')),
)
const anything = fc.oneof(
  typed,
  fc.string({ unit: anyCharacter, maxLength: 600 }),
  fc.string({ maxLength: 60 }),
)

/** The schemas allow neither NaN nor infinity, and no count, time or metre below 0. */
function assertKept(answer: Answer, asked: Prompt | undefined): void {
  if (answer.kind === 'set') {
    const result = SetResult.parse(answer.result)
    expect([result.reps, result.seconds, result.meters].filter((value) => value !== null)).toHaveLength(1)
    const isRounds = asked?.kind === 'set' && asked.dose.kind === 'roundsIn'
    if (result.groups !== null && !isRounds)
      expect(result.groups.reduce((sum, group) => sum + group, 0)).toBe(result.reps)
    expect(
      Number.isFinite(result.load?.kind === 'mass' ? result.load.value : (result.load?.added ?? 0)),
    ).toBe(true)
  } else if (answer.kind === 'interval') IntervalResult.parse(answer.result)
  else if (answer.kind === 'prep') PrepResult.parse(answer.result)
  else if (answer.kind === 'fuel') FuelResult.parse(answer.result)
}

describe('any text', () => {
  it('is answered, questioned or refused: nothing throws, and every figure in an answer is valid', () => {
    fc.assert(
      fc.property(anything, asked, (text, what) => {
        const reading = readEntry(text, what)
        if (reading.outcome === 'answer') assertKept(reading.value, what)
        if (reading.outcome === 'question') {
          if (reading.suggested !== null) assertKept(reading.suggested.value, what)
          if (reading.insisted !== null) assertKept(reading.insisted, what)
        }
        if (reading.outcome !== 'answer') expect(reading.message).not.toMatch(/undefined|NaN|null/)
      }),
      times(150),
    )
  })

  it('gives the same answer when the answer is printed as an entry and parsed again, but a time by key is then typed', () => {
    const whenTyped = (answer: Answer): Answer =>
      answer.kind === 'interval' ? { ...answer, result: { ...answer.result, byKey: false } } : answer
    fc.assert(
      fc.property(anything, asked, (text, what) => {
        const reading = readEntry(text, what)
        const value = reading.outcome === 'answer' ? reading.value : null
        const meant = reading.outcome === 'question' ? reading.insisted : value
        if (meant === null) return
        const again = readEntry(printEntry(meant, what), what)
        const insisted = again.outcome === 'question' && reading.outcome === 'question' && again.insisted
        expect(insisted || again).toEqual(
          insisted ? whenTyped(meant) : { outcome: 'answer', value: whenTyped(meant) },
        )
      }),
      times(150),
    )
  })

  it('is an answer if it was suggested', () => {
    fc.assert(
      fc.property(typed, asked, (text, what) => {
        const reading = readEntry(text, what)
        if (reading.outcome !== 'question' || reading.suggested === null) return
        expect(readEntry(reading.suggested.text, what)).toEqual({
          outcome: 'answer',
          value: reading.suggested.value,
        })
      }),
      times(150),
    )
  })

  it('is answered with a message that offers only what can be typed', () => {
    fc.assert(
      fc.property(scribbled, asked, (text, what) => {
        const reading = readEntry(text, what)
        if (reading.outcome === 'answer') return
        if (reading.outcome === 'error') expect(reading.message).not.toMatch(/did you mean|is written [\dbx]/)
        else if (reading.suggested !== null) {
          expect(readEntry(reading.suggested.text, what).outcome).toBe('answer')
          if (/did you mean|is written [\dbx]/.test(reading.message))
            expect(reading.message).toContain(reading.suggested.text)
        } else expect(reading.message).not.toMatch(/did you mean|is written [\dbx]/)
      }),
      times(1000),
    )
  })

  it('is answered with groups that can be typed', () => {
    fc.assert(
      fc.property(fc.nat({ max: 300 }), (total) => {
        const reading = readEntry(`${total}`, prompts.cluster)
        if (reading.outcome === 'answer') return
        const [, first, second = first] = /in groups: (\S+?)(?: or (\S+))?\?$/.exec(reading.message) ?? []
        for (const groups of first && second ? [first, second] : [])
          expect(readEntry(groups, prompts.cluster).outcome).toBe('answer')
      }),
      times(100),
    )
  })

  it('fills at most as many results as the prompts ask for', () => {
    fc.assert(
      fc.property(anything, fc.array(asked, { maxLength: 4 }), (text, row) => {
        const reading = readEntries(text, row)
        if (reading.outcome === 'answer') {
          expect(reading.value.length).toBeGreaterThan(0)
          expect(reading.value.length).toBeLessThanOrEqual(row.length)
          for (const [index, each] of reading.value.entries()) assertKept(each, row[index])
        }
        if (reading.outcome === 'question') {
          for (const [index, each] of (reading.suggested?.value ?? []).entries()) assertKept(each, row[index])
          for (const [index, each] of (reading.insisted ?? []).entries()) assertKept(each, row[index])
        }
      }),
      times(200),
    )
  })

  it('is an effort from 0 to 10 in halves and minutes within a day, or none', () => {
    fc.assert(
      fc.property(anything, (text) => {
        const effort = readSessionRpe(text)
        if (effort.outcome === 'answer' && effort.value !== null) {
          expect(effort.value >= 0 && effort.value <= 10 && Number.isInteger(effort.value * 2)).toBe(true)
        }
        const minutes = readMinutes(text)
        if (minutes.outcome === 'answer' && minutes.value !== null) {
          expect(minutes.value >= 0 && minutes.value <= 1440).toBe(true)
        }
      }),
    )
  })

  it.each([
    ['digits', '9'.repeat(1e5)],
    ['spaces between two words', `x${' '.repeat(1e5)}x`],
    ['quotes', '"'.repeat(1e5)],
    ['brackets', '(('.repeat(1e5)],
    ['times', '1:'.repeat(1e5)],
    ['pains', 'pain '.repeat(1e5)],
  ])('is refused because of its length if it is too long: %s', (_, text) => {
    const refused = {
      outcome: 'error',
      message: expect.stringMatching(/^an entry has at most 500 characters, /),
    }
    for (const what of everyPrompt) expect(readEntries(text, [what, what])).toEqual(refused)
    expect(readSessionRpe(text)).toMatchObject({ outcome: 'error' })
    expect(readMinutes(text)).toMatchObject({ outcome: 'error' })
  })
})

describe('the empty field', () => {
  it('offers nothing if an empty entry is refused', () => {
    for (const what of everyPrompt) {
      expect(describeEmpty(what) === null).toBe(readEntry('', what).outcome !== 'answer')
    }
  })
})
