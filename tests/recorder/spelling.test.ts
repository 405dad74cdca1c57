import { describe, expect, test } from 'vitest'
import { plainFoods, readFoods } from '../../src/session/entry/foods.ts'
import { comparable, walkThrough } from '../day.ts'
import { situations } from './situations.ts'

const words = ['fail', 'failed', 'pain', 'skip', 'same', 'done', 'easy', 'hr', 'rpe', 'bw']

describe('a word of an entry, typed letter by letter into the empty field', () => {
  test.each(Object.keys(situations).filter((name) => name !== 'finished'))(
    'stands in the field and leaves the session as it was: %s',
    (name) => {
      for (const word of words) {
        const walked = situations[name]?.()
        if (!walked) throw new Error(name)
        const before = comparable(walked.state)
        walked.spell(word, 0)
        expect(walked.model.draft, word).toBe(word)
        expect(walked.model.mode.kind, word).toBe('recording')
        expect(comparable(walked.state), word).toEqual(before)
      }
    },
  )

  test.each(['oats 80 g', 'egg', 'apple', 'spaghetti 100 g', 'potato 200 g', 'protein 20 g', 'fat 3 g'])(
    'where a meal is asked for, a nutrient or a food may be spelled: %s',
    (line) => {
      const { foods } = readFoods(plainFoods)
      const walked = walkThrough('Meals\n\nfuel\n  after: carbs 80 g\n', {
        context: { foods: () => foods },
      }).spell(line)
      expect([walked.model.draft, walked.model.mode.kind]).toEqual([line, 'recording'])
      expect(walked.state.recorded.size).toBe(0)
    },
  )

  test('may be spelled up to two seconds a letter, and its letters are commands when it takes longer', () => {
    const straight = 'Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n'
    expect(walkThrough(straight).spell('pain', 1.9).model.draft).toBe('pain')
    expect(
      walkThrough(straight)
        .spell('sa', 2.1)
        .events.map((event) => event.type),
    ).toContain('stepAdded')
    const slow = walkThrough(straight).spell('pain', 2.1)
    expect(slow.model.draft).toBe('in')
    expect(slow.events.at(-1)?.type).toBe('stepAdded')
  })

  test('goes back to the field from a list and from a question', () => {
    const walked = walkThrough('Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n')
    walked.effort(20).wait(5).typed('o').spell('failed at 4')
    expect(walked.model).toMatchObject({ draft: 'failed at 4', mode: { kind: 'recording' } })
    const asked = walkThrough('Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n')
    asked.effort(20).wait(5).typed('u').spell('pain left knee 3')
    expect(asked.model).toMatchObject({ draft: 'pain left knee 3', mode: { kind: 'recording' } })
  })
})

test('a space or a digit after x makes it a load', () => {
  const straight = 'Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n'
  expect(walkThrough(straight).effort(20).spell('x 102.5').model.draft).toBe('x 102.5')
  expect(walkThrough(straight).effort(20).spell('x102.5').model.draft).toBe('x 102.5')
  expect(walkThrough(straight).effort(20).spell('xpush-up').model.mode.kind).toBe('swapping')
})

test('a key that a question does not know is answered with a short signal and the keys it knows', () => {
  const walked = walkThrough('Straight\n\nlift\n  bench press: 3 x 5 @ 70 kg, rest 2:30\n')
  walked.effort(20).wait(5).typed('u').typed('7')
  expect(walked.notice).toBe('u takes it back, Esc cancels')
  expect(walked.rung.at(-1)).toBe('short')
})
